"""The soil face of a vault in cells, one for each node of its mesh, with the ground over it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import Line, VaultForm
    from bermwright.stages.given import Given

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

POINTS = 6
"""Places at which each cell is looked at; an even number, so that the crown's cell falls into two halves."""
SLOPE_REACH = 0.02
"""To either side of a place the ground's slope is taken over this (m)."""

STEEPEST_TURF = 1.0
"""Turf does not lie on steeper ground than this (rise over run)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilFace:
    """The soil face as n + 1 cells of `POINTS` places each."""

    x: Array
    z: Array
    slope: Array
    """(n + 1, POINTS) places on the face, and how steep it is there (rad)."""
    finished: Array
    under: Array
    """(n + 1, POINTS) finished surface over each place, and that of the soil under its turf (m)."""
    ground_slope: Array
    """(n + 1, POINTS) how steep the finished surface is there (rad)."""
    edge_x: Array
    edge_z: Array
    """(n + 2,) where the cells meet, feet included."""
    crown_x: float
    crown_z: float
    """Top of the face, which parts left from right (m)."""
    base: tuple[float, float]
    """Level at which the fill begins beside the left and the right foot (m)."""
    top_under: float
    top: float
    """Highest level of the soil and of the finished surface over the vault (m)."""

    @property
    def left(self) -> Truth:
        """(n + 1, POINTS) whether a place lies left of the crown."""
        return self.x < self.crown_x

    def level(self, left: float, right: float) -> Array:
        """(n + 1, POINTS) level of the fill over each place."""
        return np.where(self.left, left, right)


@dataclass(frozen=True, slots=True, kw_only=True)
class Build:
    """One vault and what is given of its building: what every stage and case is made from."""

    form: VaultForm
    given: Given
    face: SoilFace


def build_of(form: VaultForm, given: Given) -> Build:
    """A vault with its soil face cut into cells."""
    return Build(form=form, given=given, face=soil_face(form))


def soil_face(form: VaultForm) -> SoilFace:
    """Cut the soil face into cells that reach half way to the neighbouring nodes."""
    line, mesh, ground = form.rib.centreline, form.mesh, form.ground
    edges = np.concatenate([mesh.s[:1], 0.5 * (mesh.s[:-1] + mesh.s[1:]), mesh.s[-1:]])
    share = (np.arange(POINTS) + 0.5) / POINTS
    places = edges[:-1, None] + np.diff(edges)[:, None] * share
    # The soil face has one point for each point of the centreline, so its places follow from the same arc.
    x, z = (np.interp(places, line.s, values) for values in (form.soil_face.x, form.soil_face.z))
    edge_x, edge_z = (np.interp(edges, line.s, values) for values in (form.soil_face.x, form.soil_face.z))
    slope = np.abs(np.interp(places, line.s, form.soil_face.angle))
    finished = ground.finished.level(x)
    steepness = np.abs(ground.finished.level(x + SLOPE_REACH) - ground.finished.level(x - SLOPE_REACH))
    steepness /= 2 * SLOPE_REACH
    # Turf is laid square to the ground; on what is steeper than it can lie it counts as on its steepest.
    under = finished - ground.turf * np.hypot(1.0, np.minimum(steepness, STEEPEST_TURF))
    return SoilFace(
        x=x,
        z=z,
        slope=np.minimum(slope, 0.5 * np.pi),
        finished=finished,
        under=under,
        ground_slope=np.arctan(steepness),
        edge_x=edge_x,
        edge_z=edge_z,
        crown_x=float(mesh.soil_x[mesh.crown]),
        crown_z=form.crown_level,
        base=_base(form),
        top_under=float(under.max()),
        top=_highest(ground.finished, edge_x),
    )


def _base(form: VaultForm) -> tuple[float, float]:
    """Beside a foot the fill begins on the natural ground, or at the foot where that is dug in."""
    feet, mesh = (0, -1), form.mesh
    left, right = (
        min(float(mesh.soil_z[foot]), float(form.ground.natural.level(mesh.soil_x[foot]))) for foot in feet
    )
    return left, right


def _highest(line: Line, places: Array) -> float:
    """Highest level of a ground line between the outermost of some places."""
    low, high = float(places.min()), float(places.max())
    inside = line.z[(line.x > low) & (line.x < high)]
    return float(np.max(np.concatenate([inside, line.level(np.array([low, high]))])))


def between(face: SoilFace, low: float, high: float) -> Array:
    """(n + 1,) share of each cell's width that lies between two places; 0 on undercut faces."""
    start, end = face.edge_x[:-1], face.edge_x[1:]
    overlap = np.minimum(end, high) - np.maximum(start, low)
    width = np.where(end > start, end - start, np.inf)
    return np.clip(overlap / width, 0.0, 1.0)


def strip(face: SoilFace, width: float) -> Array:
    """(n + 1,) share of each cell within a strip over the crown."""
    return between(face, face.crown_x - 0.5 * width, face.crown_x + 0.5 * width)


def half(face: SoilFace, side: str) -> Array:
    """(n + 1,) share of each cell on the named side of the crown."""
    low, high = (-np.inf, face.crown_x) if side == "left" else (face.crown_x, np.inf)
    return between(face, low, high)


def soil_depth(build: Build, left: float | None, right: float | None, *, crown_soil: bool = False) -> Array:
    """(n + 1,) depth of soil over each cell with the fill at these levels, without the turf (m).

    The fill lies in level lifts out to the finished slopes. Crown soil lies in its strip until the fill
    has overtaken it.
    """
    face, given = build.face, build.given
    depth = np.zeros(face.x.shape[0])
    if left is not None and right is not None:
        depth = np.maximum(np.minimum(face.under, face.level(left, right)) - face.z, 0.0).mean(axis=1)
    if crown_soil and given.crown_first > 0.0:
        room = np.maximum(face.under - face.z, 0.0).mean(axis=1)
        first = np.minimum(given.crown_first * strip(face, given.crown_first_width), room)
        depth = np.maximum(depth, first)
    return depth


def turf_depth(build: Build, left: float, right: float) -> Array:
    """(n + 1,) thickness of turf over each cell, upright, where it is laid up to these levels (m)."""
    face = build.face
    surface = np.minimum(face.finished, np.maximum(face.under, face.level(left, right)))
    return np.asarray(np.maximum(surface - np.maximum(face.under, face.z), 0.0).mean(axis=1))


def covered(build: Build, left: float | None, right: float | None) -> Truth:
    """(n + 1, POINTS) whether fill at these levels lies over a place."""
    face = build.face
    if left is None or right is None:
        return np.zeros(face.x.shape, dtype=bool)
    return np.minimum(face.under, face.level(left, right)) > face.z
