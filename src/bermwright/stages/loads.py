"""What presses on the mesh, in plain arrays: weights, snow, people, ballast, soil depth, water.

Everything is per metre of vault, characteristic values; factors come later.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.actions import mu_curved_roof, mu_pitched_roof

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import FrameMesh, GroundForm, VaultForm

    Array = NDArray[np.float64]

GRAVITY = 9.80665
WATER = 9810.0
"""Unit weight of water (N/m3)."""


def face_length(mesh: FrameMesh) -> Array:
    """Length of the soil face that belongs to each node (m)."""
    return np.hypot(mesh.plan, mesh.rise)


def rib_weight(form: VaultForm, density: float) -> Array:
    """Weight of the ribs, spread over their spacing (N/m of vault at each node)."""
    area = form.rib.depth * form.rib.width
    return density * GRAVITY * area / form.spacing * form.mesh.arc


def band_weight(form: VaultForm, kinds: frozenset[str]) -> Array:
    """Weight of the cover bands of these kinds (N/m of vault at each node)."""
    area = sum(band.unit_weight * band.thickness for band in form.bands if band.kind in kinds)
    return area * face_length(form.mesh)


def soil_depth(form: VaultForm, left: float | None, right: float | None, *, turf: bool = True) -> Array:
    """Depth of soil over each node with the fill at these levels (m).

    The fill lies in level lifts out to the finished slopes. Without turf the last layer of the
    finished ground is still missing.
    """
    mesh = form.mesh
    if left is None or right is None:
        return np.zeros_like(mesh.soil_x)
    level = np.where(mesh.soil_x < mesh.soil_x[mesh.crown], left, right)
    finished = form.ground.finished.level(mesh.soil_x) - (0.0 if turf else form.ground.turf)
    return np.maximum(np.minimum(finished, level) - mesh.soil_z, 0.0)


def fill_slope(ground: GroundForm, x: Array, left: float, right: float, crown_x: float) -> Array:
    """Steepness of the surface exposed above each place (rad): level lift or finished slope."""
    step = 0.02
    level = np.where(x < crown_x, left, right)
    rise = ground.finished.level(x + step) - ground.finished.level(x - step)
    slope = np.abs(np.arctan2(rise, 2 * step))
    return np.where(level < ground.finished.level(x), 0.0, slope)


def snow_on_bare_shell(form: VaultForm, snow: float, shape: str) -> Array:
    """Snow on the bare soil face by the curved-roof rule (Pa on plan at each node)."""
    mesh = form.mesh
    x = mesh.soil_x
    angle = np.arctan2(np.abs(mesh.rise), np.abs(mesh.plan))
    factor = mu_curved_roof(
        x - 0.5 * (x[0] + x[-1]),
        slope=angle,
        width=float(x[-1] - x[0]),
        rise=float(np.max(mesh.soil_z) - min(mesh.soil_z[0], mesh.soil_z[-1])),
        arrangement=shape,
    )
    return snow * factor * (mesh.plan > 0)


def snow_on_fill(form: VaultForm, snow: float, shape: str, left: float, right: float) -> Array:
    """Snow on the fill above each node by the pitched-roof rule (Pa).

    `even` lies on both sides; `left` and `right` are the side with the full load while the other
    carries half of it (drifted).
    """
    mesh = form.mesh
    crown_x = float(mesh.soil_x[mesh.crown])
    angle = fill_slope(form.ground, mesh.soil_x, left, right, crown_x)
    share = side_share(mesh, shape)
    return snow * mu_pitched_roof(angle) * share


def side_share(mesh: FrameMesh, shape: str) -> Array:
    """1 where the load lies in full, 0.5 on the lighter side of a drifted arrangement."""
    on_left = mesh.soil_x < mesh.soil_x[mesh.crown]
    if shape == "even":
        return np.ones_like(mesh.soil_x)
    heavy = on_left if shape == "left" else ~on_left
    return np.where(heavy, 1.0, 0.5)


def half(mesh: FrameMesh, side: str) -> Array:
    """1 on the named side of the crown, 0 on the other."""
    on_left = mesh.soil_x < mesh.soil_x[mesh.crown]
    return np.where(on_left if side == "left" else ~on_left, 1.0, 0.0)


def strip(mesh: FrameMesh, width: float) -> Array:
    """1 within `width` over the crown, 0 outside; the edge nodes count by their share."""
    x = mesh.soil_x - mesh.soil_x[mesh.crown]
    reach = np.maximum(np.abs(mesh.plan), 1e-9)
    return np.clip((0.5 * width - np.abs(x)) / reach + 0.5, 0.0, 1.0)


def point_at_crown(mesh: FrameMesh, force: float) -> Array:
    """A single force on the crown node (N)."""
    load = np.zeros_like(mesh.soil_x)
    load[mesh.crown] = force
    return load


def water_pressure(mesh: FrameMesh, level: float) -> Array:
    """Hydrostatic pressure on the soil face with water standing to `level` (Pa)."""
    return WATER * np.maximum(level - mesh.soil_z, 0.0)
