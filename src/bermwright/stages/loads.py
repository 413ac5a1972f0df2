"""What presses on the cells of the soil face besides soil: weights, snow, people, ballast, water.

Everything is per metre of vault, characteristic values; factors come later.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.densities import GRAVITY
from bermwright.handbook.actions import (
    drift_height,
    drift_unit_weight,
    flat_roof_snow,
    mu_arch_american,
    mu_curved_roof,
    mu_pitched_roof,
    roof_slope_factor,
)
from bermwright.stages.face import covered

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import FrameMesh, VaultForm
    from bermwright.stages.face import Build, SoilFace

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

WATER = 9810.0
"""Unit weight of water (N/m3)."""
LEAST_WIDTH = 0.05
"""A bare strip narrower than this has no curve for snow to drift on (m)."""


def rib_weight(form: VaultForm, density: float) -> Array:
    """Weight of the ribs, spread over their spacing (N/m of vault at each node)."""
    area = form.rib.depth * form.rib.width
    weight: Array = density * GRAVITY * area / form.spacing * form.mesh.arc
    return weight


def band_weight(form: VaultForm, kinds: frozenset[str]) -> Array:
    """Weight of the cover bands of these kinds, each along its own middle (N/m of vault at each node)."""
    line, mesh = form.rib.centreline, form.mesh
    edges = np.concatenate([mesh.s[:1], 0.5 * (mesh.s[:-1] + mesh.s[1:]), mesh.s[-1:]])
    total = np.zeros(mesh.s.size)
    for band in form.bands:
        if band.kind in kinds:
            middle = np.interp(edges, line.s, 0.5 * (band.inner.s + band.outer.s))
            total += band.unit_weight * band.thickness * np.diff(middle)
    return total


def band_lever(form: VaultForm, kinds: frozenset[str]) -> float:
    """Where the weight of these bands lies, as a share of the way from the centreline to the soil face."""
    out, weight, moment = 0.5 * form.rib.depth, 0.0, 0.0
    for band in form.bands:
        if band.kind in kinds:
            share = band.unit_weight * band.thickness
            weight, moment = weight + share, moment + share * (out + 0.5 * band.thickness)
        out += band.thickness
    return moment / weight / out if weight > 0.0 else 0.0


def snow_on_bare(build: Build, snow: float, shape: str, bare: Truth) -> Array:
    """Snow on what is still bare of the shell, by the curved-roof rule for that part alone (Pa on plan).

    Nothing lies on an undercut face, as it is steeper than 60 degrees.
    """
    face = build.face
    factor = np.zeros_like(face.x)
    if not bare.any():
        return np.zeros(face.x.shape[0])
    if build.given.american_snow:
        return _american_on_bare(face, snow, shape, bare)
    x, z = face.x[bare], face.z[bare]
    width = float(x.max() - x.min())
    factor[bare] = mu_curved_roof(
        x - 0.5 * (x.max() + x.min()),
        slope=face.slope[bare],
        width=max(width, LEAST_WIDTH),
        rise=float(z.max() - z.min()),
        arrangement=shape if width > LEAST_WIDTH else "even",
    )
    return np.asarray(snow * factor.mean(axis=1))


def snow_on_fill(build: Build, snow: float, shape: str, levels: tuple[float, float]) -> Array:
    """Snow on the fill over each cell by the pitched-roof rule (Pa): level lifts and finished slopes.

    `even` lies on both sides; `left` and `right` are the side with the full load while the other
    carries half of it.
    """
    face = build.face
    slope = np.where(face.level(*levels) < face.under, 0.0, face.ground_slope)
    if build.given.american_snow:
        return _american_on_fill(build, snow, shape, levels, slope)
    factor = np.where(covered(build, *levels), mu_pitched_roof(slope), 0.0)
    return np.asarray(snow * (factor * side_share(face, shape)).mean(axis=1))


COLD = 1.2
"""Thermal factor C_t of what nobody heats from below (-): ASCE 7, table 7.3-2."""
SWEPT = 0.3
"""Share of the load that stays on the windward side of a ridge (-): ASCE 7, 7.6.1."""
FLATTEST_DRIFT, STEEPEST_DRIFT = np.radians(2.38), np.radians(30.2)
"""Slopes between which wind piles snow up behind a ridge (rad): ASCE 7, 7.6.1."""


def _american_on_bare(face: SoilFace, snow: float, shape: str, bare: Truth) -> Array:
    """The same by the other family: unheated, open."""
    flat = float(flat_roof_snow(snow, thermal=COLD))
    factor = np.zeros_like(face.x)
    z = face.z[bare]
    factor[bare] = mu_arch_american(
        face.x[bare] - face.crown_x,
        slope=face.slope[bare],
        rise=float(z.max() - z.min()),
        arrangement=shape,
        thermal=COLD,
    )
    return np.asarray(flat * factor.mean(axis=1))


def _american_on_fill(
    build: Build, snow: float, shape: str, levels: tuple[float, float], slope: Array
) -> Array:
    """The mound as a gable roof of the other family: swept on one side, a drift behind the ridge."""
    face = build.face
    flat = float(flat_roof_snow(snow, thermal=COLD))
    load = np.where(covered(build, *levels), flat * roof_slope_factor(slope, thermal=COLD), 0.0)
    if shape != "even":
        lee = face.left if shape == "left" else ~face.left
        ground = build.form.ground.finished
        far = float(max(abs(ground.x[0]), abs(ground.x[-1])))
        load = np.where(lee, load + _drift(face, snow, far, slope), SWEPT * load)
    return np.asarray(load.mean(axis=1))


def _drift(face: SoilFace, snow: float, far: float, slope: Array) -> Array:
    """What the wind adds behind the ridge (Pa)."""
    piles = (slope >= FLATTEST_DRIFT) & (slope <= STEEPEST_DRIFT)
    run = 1.0 / np.tan(np.clip(slope, FLATTEST_DRIFT, STEEPEST_DRIFT))
    tall = float(drift_height(snow, min(far, 300.0)))
    reach = 8.0 / 3.0 * tall * np.sqrt(run)
    near = np.abs(face.x - face.crown_x) <= reach
    return np.where(piles & near, tall * float(drift_unit_weight(snow)) / np.sqrt(run), 0.0)


def side_share(face: SoilFace, shape: str) -> Array:
    """1 where the load lies in full, 0.5 on the lighter side of an uneven arrangement."""
    if shape == "even":
        return np.ones_like(face.x)
    heavy = face.left if shape == "left" else ~face.left
    return np.where(heavy, 1.0, 0.5)


def point_at_crown(mesh: FrameMesh, force: float) -> Array:
    """A single force on the crown node (N)."""
    load = np.zeros_like(mesh.soil_x)
    load[mesh.crown] = force
    return load


def water_pressure(face: SoilFace, level: float) -> Array:
    """Mean pressure on each cell with water standing to a level (Pa): exact in its sideways resultant."""
    deep = np.maximum(level - face.edge_z, 0.0)
    span = np.abs(np.diff(face.edge_z))
    exact = 0.5 * np.abs(np.diff(deep**2)) / np.maximum(span, np.finfo(float).tiny)
    flat = np.maximum(level - face.z, 0.0).mean(axis=1)
    return np.asarray(WATER * np.where(span > np.finfo(float).eps, exact, flat))


def water_depth(build: Build, level: float) -> Array:
    """How deep the soil over each cell stands in water (m)."""
    face = build.face
    return np.asarray(np.maximum(np.minimum(face.under, level) - face.z, 0.0).mean(axis=1))
