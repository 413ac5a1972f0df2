"""The ground around a vault as regions that conduct: soils, fill, turf and the umbrella of insulation."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

from bermwright.base.limits import within
from bermwright.data.soil_heat import SOIL_HEAT, UNKNOWN_SOIL, SoilHeat
from bermwright.form.heat.layers import named
from bermwright.handbook.groundheat import (
    Material,
    Region,
    freezing_heat,
    moist_conductivity,
    soil_heat_capacity,
)

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import Line, VaultForm
    from bermwright.house import Fill, House, Soil, Vault
    from bermwright.house.living.umbrella import Umbrella

    Array = NDArray[np.float64]

DEPTH = 15.0
"""How far below the floor the section goes (m); three seasons of damping and more than the house is wide."""
BESIDE = 14.0
"""How far past its last corner the ground goes on (m)."""
WORKING_SPACE = 0.6
"""Width beside the walls that is dug and filled again (m)."""
DEEP_FILM = 0.1
"""Conductance to the ground still deeper, as of twenty metres more of it (W/(m2 K))."""
GRAVITY = 9.80665
TURF = "topsoil and turf"
LEAST_SATURATION = 0.1
LEAST_AREA = 1e-3
"""Areas of fill under which there is none (m2)."""
LEAST_TURF = 0.01
"""Turf thinner than this has no triangles of its own (m)."""
DENSE_ENOUGH, TOO_DENSE = 800.0, 2200.0
"""Dry densities between which Johansen's equations hold (kg/m3)."""
GRAINS = 2700.0
STEEPEST = 1.732
"""Rise over run of 60 degrees (-)."""
EDGE_ROOM = 1.0
"""How far past toes and umbrella the fine mesh of the surface goes (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """The outer lines of the section."""

    roof: Array
    field: tuple[Array, Array]
    deep: Array
    deep_film: float
    soil: Material
    """What lies under the floor."""
    umbrella_ends: tuple[tuple[float, float], ...]


class Shape(Protocol):
    """What the ground needs to know of the house in it."""

    house: House
    vault: Vault
    form: VaultForm
    fineness: float
    umbrella: Umbrella | None
    outer: float
    beside: float
    foot: float
    fill: Material


def soil_material(soil: Soil | Fill | None, called: str, assumed: list[str]) -> Material:
    """How a soil carries heat: measured values first, then those of its kind, then ISO 13370."""
    kind = SOIL_HEAT.get(str(soil.kind)) if soil is not None and soil.kind else None
    row = kind or UNKNOWN_SOIL
    if kind is None:
        assumed.append(
            f"Nothing is said of what kind {called} is: it counts as {row.conductivity} W/(m K) and "
            f"{row.capacity / 1e6:g} MJ/(m³ K), as ISO 13370 says of ground that nobody knows (from memory)."
        )
    elif soil is not None and soil.conductivity is None:
        assumed.append(
            f"{called} counts as {row.name}: {row.conductivity} W/(m K), {row.capacity / 1e6:g} MJ/(m³ K) "
            "(EN 12524, the values of ISO 13370)."
        )
    water = row.water_content if soil is None or soil.water_content is None else soil.water_content
    density = _dry_density(soil, row, water)
    conducts = row.conductivity if soil is None or soil.conductivity is None else soil.conductivity
    known_capacity = soil is not None and soil.water_content is not None
    capacity = float(soil_heat_capacity(density, water)) if known_capacity else row.capacity
    ice = water * density * (4190.0 - 2090.0)
    return Material(
        name=called,
        conductivity=conducts,
        capacity=capacity,
        frozen_conductivity=_frozen(soil, row, conducts, (density, water)),
        frozen_capacity=max(capacity - ice, 0.3 * capacity),
        latent=min(float(freezing_heat(density, water)), 330e6),
    )


def _dry_density(soil: Soil | Fill | None, row: SoilHeat, water: float) -> float:
    weight = None if soil is None else soil.unit_weight
    return row.dry_density if weight is None else float(weight.middle / GRAVITY / (1.0 + water))


def _frozen(soil: Soil | Fill | None, row: SoilHeat, conducts: float, moist: tuple[float, float]) -> float:
    """Conductivity when frozen: as given, else in the ratio that Johansen's equations give."""
    if soil is not None and soil.frozen_conductivity is not None:
        return soil.frozen_conductivity
    density, water = moist
    if not DENSE_ENOUGH <= density <= TOO_DENSE or water <= 0.0:
        return conducts
    pores = 1.0 - density / GRAINS
    full = float(np.clip(density * water / (1000.0 * pores), LEAST_SATURATION, 1.0))
    hard = moist_conductivity(density, full, row.quartz, fine=row.fine, frozen=True)
    soft = moist_conductivity(density, full, row.quartz, fine=row.fine)
    return min(conducts * float(hard / soft), 4.5)


def ground_regions(shape: Shape, assumed: list[str]) -> tuple[list[Region], Extent]:
    """Soils, working space, fill, turf and umbrella, each painted over the one before."""
    ground, house = shape.form.ground, shape.house
    finished, natural = _points(ground.finished), _points(ground.natural)
    reach = 0.0 if shape.umbrella is None else shape.outer + shape.umbrella.reach
    toe = max(abs(finished[0, 0]), abs(finished[-1, 0]), reach + EDGE_ROOM)
    far = max(toe, 3.5 * shape.form.span) + BESIDE
    top = _stretched(finished, far)
    bottom = min(-DEPTH, float(top[:, 1].min()) - DEPTH)
    soils = [soil_material(soil, f'the soil "{soil.name}"', assumed) for soil in house.site.soil]
    soils = soils or [soil_material(None, "the natural ground", assumed)]
    regions = [Region(outline=_closed(top, bottom), material=soils[0])]
    under, depth = soils[0], 0.0
    level = _stretched(natural, far)
    for soil, material in zip(house.site.soil, soils[1:], strict=False):
        depth += soil.thickness or 0.0
        low = level - np.array([0.0, depth])
        if float(np.interp(0.0, low[:, 0], low[:, 1])) > shape.foot - 0.5:
            under = material
        regions.append(Region(outline=_closed(_lower(low, top), bottom), material=material))
    regions += _dug(shape)
    filled = np.concatenate([top, _lower(level, top)[::-1]])
    regions += _areas(filled, shape.fill)
    regions += _turf(shape, top)
    umbrella, ends = _umbrella(shape, top)
    roof, field = _surfaces(top, toe)
    extent = Extent(
        roof=roof,
        field=field,
        deep=np.array([(-far, bottom), (far, bottom)]),
        deep_film=DEEP_FILM,
        soil=under,
        umbrella_ends=ends,
    )
    return [*regions, *umbrella], extent


def _points(line: Line) -> Array:
    return np.stack([line.x, line.z], axis=1)


def _stretched(line: Array, far: float) -> Array:
    """A ground line out to both far sides, level beyond its ends."""
    inside = line[(line[:, 0] > -far) & (line[:, 0] < far)]
    ends = [np.interp(x, line[:, 0], line[:, 1]) for x in (-far, far)]
    return np.concatenate([[(-far, ends[0])], inside, [(far, ends[1])]])


def _closed(line: Array, bottom: float) -> Array:
    return np.concatenate([line, [(line[-1, 0], bottom), (line[0, 0], bottom)]])


def _lower(one: Array, other: Array) -> Array:
    """The lower of two lines at every corner of both and where they cross."""
    x = np.union1d(one[:, 0], other[:, 0])
    ahead = np.interp(x, one[:, 0], one[:, 1]) - np.interp(x, other[:, 0], other[:, 1])
    at = np.flatnonzero(ahead[:-1] * ahead[1:] < 0.0)
    share = ahead[at] / (ahead[at] - ahead[at + 1])
    x = np.union1d(x, x[at] + share * (x[at + 1] - x[at]))
    z = np.minimum(np.interp(x, one[:, 0], one[:, 1]), np.interp(x, other[:, 0], other[:, 1]))
    return np.stack([x, z], axis=1)


def _areas(outline: Array, material: Material) -> list[Region]:
    """The parts of an outline that are more than a line."""
    import shapely

    # An outline that crosses itself becomes lines and several areas, areas within a collection too.
    parts = shapely.get_parts(shapely.get_parts(shapely.make_valid(shapely.Polygon(outline))))
    parts = [part for part in parts if part.geom_type == "Polygon" and part.area > LEAST_AREA]
    return [Region(outline=np.asarray(part.exterior.coords)[:-1], material=material) for part in parts]


def _dug(shape: Shape) -> list[Region]:
    """The working space beside the walls, from the footing to the springing, under the finished ground."""
    line = _points(shape.form.ground.finished)
    regions = []
    for side in (-1.0, 1.0):
        x = np.array([shape.outer, shape.outer + shape.beside + WORKING_SPACE])
        top = np.interp(side * x, line[:, 0], line[:, 1])
        spots = [(side * x[0], shape.foot), (side * x[1], shape.foot)]
        spots += [(side * x[1], float(top[1])), (side * x[0], float(top[0]))]
        regions.append(Region.of(spots, shape.fill))
    return regions


def _parallel(top: Array, depth: float) -> Array:
    """A line as deep under a ground line, square to each slope; steep steps count as 60 degrees."""
    run = np.diff(top[:, 0])
    slope = np.clip(np.diff(top[:, 1]) / np.maximum(run, 1e-9), -STEEPEST, STEEPEST)
    drop = depth * np.hypot(1.0, slope)
    at_points = np.maximum(np.concatenate([drop[:1], drop]), np.concatenate([drop, drop[-1:]]))
    return np.stack([top[:, 0], top[:, 1] - at_points], axis=1)


def _turf(shape: Shape, top: Array) -> list[Region]:
    turf = shape.form.ground.turf
    if turf <= LEAST_TURF:
        return []
    stuff = named(TURF)
    outline = np.concatenate([top, _parallel(top, turf)[::-1]])
    size = max(0.5 * turf, 0.05) / shape.fineness
    return [Region(outline=outline, material=stuff, size=2.0 * size)]


def _umbrella(shape: Shape, top: Array) -> tuple[list[Region], tuple[tuple[float, float], ...]]:
    """A band along the finished ground, hidden where the vault stands in it."""
    if shape.umbrella is None:
        return [], ()
    given = shape.umbrella
    edge = shape.outer + given.reach
    within("umbrella's depth over its thickness", given.depth + given.thickness, 0.0, DEPTH, unit="m")
    bands = []
    for depth in (given.depth, given.depth + given.thickness):
        line = _parallel(top, depth)
        inside = line[(line[:, 0] > -edge) & (line[:, 0] < edge)]
        ends = [np.interp(x, line[:, 0], line[:, 1]) for x in (-edge, edge)]
        bands.append(np.concatenate([[(-edge, ends[0])], inside, [(edge, ends[1])]]))
    outline = np.concatenate([bands[0], bands[1][::-1]])
    size = max(0.35 * given.thickness, 0.03) / shape.fineness
    region = Region(outline=outline, material=named(given.material), size=size)
    return [region], tuple((float(x), float(z)) for x, z in (bands[1][0], bands[1][-1]))


def _surfaces(top: Array, toe: float) -> tuple[Array, tuple[Array, Array]]:
    """The surface over and beside the house, and that of the open field on both sides."""
    parts = []
    for low, high in ((top[0, 0], -toe), (-toe, toe), (toe, top[-1, 0])):
        inside = top[(top[:, 0] > low) & (top[:, 0] < high)]
        ends = [(x, np.interp(x, top[:, 0], top[:, 1])) for x in (low, high)]
        parts.append(np.concatenate([ends[:1], inside, ends[1:]]))
    return parts[1], (parts[0], parts[2])
