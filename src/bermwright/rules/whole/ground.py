"""The ground around one vault as columns of soil, with the room as a hollow in it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.stability import Columns
from bermwright.handbook.stability.search import Earth
from bermwright.stages.loads import band_weight, rib_weight

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import Line
    from bermwright.house import Fill, Soil
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

COLUMN_COUNT = 700
BEYOND = 1.5
"""How far beyond its drawn ends the ground is carried on, in heights of the mound."""
DRY = -1e6
"""A level below all water (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """Soils of a section; what is missing is named instead."""

    fill: Earth | None
    natural: Earth | None
    missing: tuple[str, ...]


def soils_of(study: Study) -> Around:
    """Fill and natural ground at the weak ends of their ranges."""
    fill = study.house.fill(study.vault)
    missing = []
    placed = None if fill is None else _earth(fill, heavy=True)
    if placed is None:
        missing.append("vault.fill.saturated_unit_weight")
    layers = study.house.site.soil
    grown = [_earth(layer, heavy=False) for layer in layers]
    known = [one for one in grown if one is not None]
    if not layers:
        missing.append("site.soil")
    elif len(known) < len(grown):
        missing.append("site.soil.friction_angle")
    # Of several layers the weakest counts for all of the ground below.
    weakest = min(known, key=lambda one: (one.friction, one.cohesion), default=None)
    return Around(fill=placed, natural=weakest, missing=tuple(missing))


def _earth(soil: Soil | Fill, *, heavy: bool) -> Earth | None:
    if soil.unit_weight is None or soil.friction_angle is None or soil.saturated_unit_weight is None:
        return None
    moist, wet = soil.unit_weight, soil.saturated_unit_weight
    return Earth(
        unit_weight=moist.high if heavy else moist.low,
        wet_unit_weight=wet.high if heavy else wet.low,
        cohesion=soil.cohesion.low if soil.cohesion else 0.0,
        friction=soil.friction_angle.low,
    )


def columns_of(study: Study, fill: Earth, natural: Earth) -> Columns:
    """The finished section, dry."""
    ground, face = study.form.ground, study.form.soil_face
    low, high = float(ground.finished.x[0]), float(ground.finished.x[-1])
    tall = float(np.ptp(ground.finished.z)) + float(np.ptp(ground.natural.z)) + 1.0
    x = np.linspace(low - BEYOND * tall, high + BEYOND * tall, COLUMN_COUNT)
    feet = float(face.x.min()), float(face.x.max())
    hair = 1e-6
    x = np.unique(np.concatenate([x, ground.finished.x, [feet[0], feet[0] - hair, feet[1], feet[1] + hair]]))
    top = carried_on(ground.finished, x)
    split = np.minimum(carried_on(ground.natural, x), top)
    over = (x >= feet[0]) & (x <= feet[1])
    floor = base_level(study)
    roof = np.where(over, np.minimum(_roof(study, x), top), floor)
    inside = np.where(over, shell_weight(study) / (feet[1] - feet[0]), 0.0)
    none = np.zeros_like(x)
    return Columns(
        x=x, top=top, split=split, above=fill, below=natural, water=none + DRY, head=none + 1.0,
        floor=none + floor, roof=roof, inside=inside, load=none,
    )  # fmt: skip


def wet(columns: Columns, level: Array, *, running: bool) -> Columns:
    """The same with water up to a level, standing or running down inside the slope."""
    slope = np.gradient(columns.top, columns.x)
    head = 1.0 / (1.0 + slope**2) if running else np.ones_like(slope)
    return replace(columns, water=np.minimum(level, columns.top), head=head)


def carried_on(line: Line, x: Array) -> Array:
    """A ground line at places, carried on beyond its ends as steep as it ends."""
    level = line.level(x)
    for end, near, side in ((0, 1, -1.0), (-1, -2, 1.0)):
        run = float(line.x[near] - line.x[end])
        slope = float(line.z[near] - line.z[end]) / run if run else 0.0
        beyond = side * (x - line.x[end]) > 0.0
        level = np.where(beyond, line.z[end] + slope * (x - line.x[end]), level)
    return np.asarray(level)


def _roof(study: Study, x: Array) -> Array:
    """Top of the shell over each place."""
    face = study.form.soil_face
    order = np.argsort(face.x)
    return np.asarray(np.interp(x, face.x[order], face.z[order]))


def shell_weight(study: Study) -> float:
    """Ribs and cover layers (N per metre of vault)."""
    form = study.form
    kinds = frozenset(band.kind for band in form.bands)
    ribs = rib_weight(form, study.strength.timber.density)
    return float(np.sum(ribs) + np.sum(band_weight(form, kinds)))


def base_level(study: Study) -> float:
    """Level on which the house stands: under its walls, else the finished floor (m)."""
    bottoms = [
        wall.bottom
        for wall in study.house.walls
        if wall.vault == study.vault.name and wall.bottom is not None
    ]
    return min([0.0, *bottoms])
