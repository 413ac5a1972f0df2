"""The dig: its outline on the ground, what comes out of it soil by soil, and where that is heaped."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.ranges import Range
from bermwright.data.rates import soil_states
from bermwright.data.setting_out import FLATTEST_DIG
from bermwright.form.setout.earthwork.pits import DEEPEST, HAIR, Pit, pit_corners, pit_outline
from bermwright.form.setout.nouns import SetOutError
from bermwright.handbook.earthmoving import grid_volume, loose_volume, pit_volume, slice_volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.setout.earthwork.strips import Strip
    from bermwright.form.setout.ground import Surface
    from bermwright.form.setout.nouns import Spot
    from bermwright.house import House, SettingOut, Vault

    Array = NDArray[np.float64]

CELL = 0.1
"""Spacing of the grid (m)."""
PLACES = 41
"""Along and across the bottom, at which its depth is looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """What comes out of one layer of soil (m3)."""

    soil: str
    top: float
    """Depth of its upper side under the surface (m)."""
    bottom: float | None
    """Depth of its lower side (m); None where it goes on."""
    bank: Range
    loose: Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Dig:
    """The dig of one vault."""

    pit: Pit
    """With the flattest sides that are reckoned with: what boards and heaps keep clear of."""
    known_slope: bool
    """Whether the file gives the slope of the sides; else upright to 1:1.5 is a range."""
    outline: tuple[Spot, ...]
    """Where its sides meet the ground, round from the front left; a traced line over uneven ground (m)."""
    corners: tuple[Spot, ...]
    """Where its four edges meet the ground (m)."""
    trenches: tuple[Pit, ...]
    cuts: tuple[Cut, ...]
    by_grid: float
    """Volume of the pit with its flattest sides, by the grid (m3)."""
    by_sections: float
    """The same by the other route (m3)."""
    route: str
    """What the other route is."""
    deepest: float
    """Depth of the bottom under the ground, at most (m)."""
    trench_depth: float
    """Depth of the trenches under the bottom of the pit (m)."""
    formation: float
    """Level of the bottom (m)."""

    @property
    def bank(self) -> Range:
        """All that is dug, as it lies in the ground (m3)."""
        return Range(sum(cut.bank.low for cut in self.cuts), sum(cut.bank.high for cut in self.cuts))

    @property
    def loose(self) -> Range:
        """The same in heaps (m3)."""
        return Range(sum(cut.loose.low for cut in self.cuts), sum(cut.loose.high for cut in self.cuts))


def formation_of(house: House, settings: SettingOut) -> float | None:
    """Level of the bottom of the dig under the floor, where the file says how thick the floor is (m)."""
    if settings.floor_build_up is not None:
        return -settings.floor_build_up
    floor = house.ground_heat.floor if house.ground_heat is not None else None
    if floor is None or floor.thickness is None:
        return None
    return -(floor.thickness + (floor.insulation or 0.0))


def dig_of(
    house: House,
    vault: Vault,
    settings: SettingOut,
    *,
    surface: Surface,
    strips: tuple[Strip, Strip],
    ends: tuple[float, float],
) -> Dig | None:
    """The dig, or None where nothing says how deep it is."""
    formation = formation_of(house, settings)
    if formation is None:
        return None
    room = settings.working_space
    half = 0.5 * vault.span
    low = (-ends[0] - room, -half - strips[0].outer - room)
    high = (vault.length + ends[1] + room, half + strips[1].outer + room)
    flattest = FLATTEST_DIG.value
    batters = (0.0, flattest)
    if settings.dig_slope is not None:
        lean = max(math.cos(settings.dig_slope) / math.sin(settings.dig_slope), 0.0)
        batters = (lean, lean)
    pits = [Pit(low=low, high=high, bottom=formation, batter=batter) for batter in batters]
    _refuse_endless(pits[1], surface, known=settings.dig_slope is not None)
    trenches = tuple(_trenches(vault, strips, formation))
    by_sections, route = _second(pits[1], surface)
    outline = pit_outline(pits[1], surface)
    deepest = _deepest(pits[1], surface)
    if deepest > DEEPEST:
        raise SetOutError(
            f"The dig of {vault.name} would be {deepest:.0f} m deep. Look at site.floor and slope."
        )
    return Dig(
        pit=pits[1],
        known_slope=settings.dig_slope is not None,
        outline=outline,
        corners=pit_corners(pits[1], surface),
        trenches=trenches,
        cuts=tuple(_cuts(house, pits, surface, trenches)),
        by_grid=cut_by_grid(pits[1], surface),
        by_sections=by_sections,
        route=route,
        deepest=max(deepest, 0.0),
        trench_depth=max((formation - one.bottom for one in trenches), default=0.0),
        formation=formation,
    )


def _deepest(pit: Pit, surface: Surface) -> float:
    """Of the ground over the bottom, at most (m)."""
    along, across = (np.linspace(low, high, PLACES) for low, high in zip(pit.low, pit.high, strict=True))
    return float(np.max(surface.level(*np.meshgrid(along, across)))) - pit.bottom


def _refuse_endless(pit: Pit, surface: Surface, *, known: bool) -> None:
    if pit.batter * surface.steepest >= 1.0 - 1e-6:
        where = "setting_out.dig_slope" if known else "the slope 1:1.5 that is reckoned with"
        raise SetOutError(
            f"The sides of the dig at 1:{pit.batter:.2g} never meet this hillside, which is as steep. Take a "
            f"steeper side with shores ({where}), or a retaining wall, with a geotechnical engineer."
        )


def _trenches(vault: Vault, strips: tuple[Strip, Strip], formation: float) -> Iterator[Pit]:
    """Under the floor's bottom along both sides, as wide as the footing and as long as the vault."""
    for strip, way in zip(strips, (-1.0, 1.0), strict=True):
        faces, under = strip.footing, strip.footing_bottom
        if faces is None or under is None or under >= formation:
            continue
        first, last = sorted(way * (0.5 * vault.span + face) for face in faces)
        yield Pit(low=(0.0, first), high=(vault.length, last), bottom=under, batter=0.0)


def cut_by_grid(pit: Pit, surface: Surface, *, below: float = 0.0, cell: float = CELL) -> float:
    """Volume between a pit and the surface, lowered by `below`, by the corners of a grid (m3)."""
    along, across = _grid(pit, surface, cell)
    u, v = np.meshgrid(along, across)
    depth = surface.level(u, v) - below - pit.level(u, v)
    return grid_volume(
        np.where(np.isnan(depth), 0.0, np.maximum(depth, 0.0)),
        spacing_x=float(along[1] - along[0]),
        spacing_y=float(across[1] - across[0]),
    )


def _grid(pit: Pit, surface: Surface, cell: float) -> tuple[Array, Array]:
    """Lines of the grid: with whole cells over the bottom, out to beyond where the sides meet the ground."""
    reach = _reach(pit, surface)
    axes: list[Array] = []
    for low, high in zip(pit.low, pit.high, strict=True):
        inner = max(math.ceil((high - low) / cell), 1)
        step = (high - low) / inner
        outer = math.ceil(reach / step)
        axes.append(np.asarray(low + step * np.arange(-outer, inner + outer + 1), dtype=float))
    return axes[0], axes[1]


def _reach(pit: Pit, surface: Surface) -> float:
    """How far the sides lean out at most (m)."""
    if pit.batter <= HAIR:
        return 0.0
    outline = np.array(pit_outline(pit, surface))
    over = np.maximum(np.array(pit.low) - outline.min(axis=0), outline.max(axis=0) - np.array(pit.high))
    return float(1.15 * np.max(over) + CELL)


def _second(pit: Pit, surface: Surface, *, below: float = 0.0) -> tuple[float, str]:
    """The same volume by another route: closed form, level sections, or a grid half as wide."""
    if not surface.plane:
        return cut_by_grid(pit, surface, below=below, cell=0.5 * CELL), "a grid half as wide"
    if surface.steepest < HAIR:
        depth = max(float(surface.level(pit.low[0], pit.low[1])) - below - pit.bottom, 0.0)
        size = pit.high[0] - pit.low[0], pit.high[1] - pit.low[1]
        return float(pit_volume(*size, depth=depth, batter=pit.batter)), "the closed form of the pit"
    return cut_by_sections(pit, surface, below=below), "level sections and the prismoidal rule"


def cut_by_sections(pit: Pit, surface: Surface, *, below: float = 0.0) -> float:
    """Volume under a plane by level sections: exact, as each varies as a square between edges (m3)."""
    tops = [_corner_level(spot, way, pit, surface, below) for spot, way in pit.corners()]
    highest = max(tops)
    if highest <= pit.bottom:
        return 0.0
    edges = np.unique([pit.bottom, *(top for top in tops if top > pit.bottom), highest])
    levels = np.sort(np.concatenate([edges, 0.5 * (edges[1:] + edges[:-1])]))
    return slice_volume(levels, [_section(float(level), pit, surface, below) for level in levels])


def _corner_level(spot: Spot, way: Spot, pit: Pit, surface: Surface, below: float) -> float:
    """Level at which a corner's edge meets the lowered plane (m)."""
    here = float(surface.level(*spot)) - below
    there = float(surface.level(spot[0] + way[0] * pit.batter, spot[1] + way[1] * pit.batter)) - below
    return pit.bottom + (here - pit.bottom) / (1.0 - (there - here))


def _section(level: float, pit: Pit, surface: Surface, below: float) -> float:
    """Area of the pit at a level, where the lowered plane lies above it (m2)."""
    lean = pit.batter * (level - pit.bottom)
    box = shapely.box(pit.low[0] - lean, pit.low[1] - lean, pit.high[0] + lean, pit.high[1] + lean)
    _, along, across = surface.coefficients[:3]
    steep = math.hypot(along, across)
    if steep < HAIR:
        return float(box.area) if float(surface.level(0.0, 0.0)) - below >= level else 0.0
    # A wide rectangle on the uphill side of the line where the plane has this level.
    middle = 0.5 * (pit.low[0] + pit.high[0]), 0.5 * (pit.low[1] + pit.high[1])
    away = (level + below - float(surface.level(*middle))) / steep
    up, far = np.array([along, across]) / steep, 1e3
    side = np.array([-up[1], up[0]])
    foot = np.array(middle) + away * up
    half = shapely.Polygon(
        [foot - far * side, foot + far * side, foot + far * side + far * up, foot - far * side + far * up]
    )
    return float(shapely.intersection(box, half).area)


def _cuts(house: House, pits: list[Pit], surface: Surface, trenches: tuple[Pit, ...]) -> Iterator[Cut]:
    """Each layer of the site's soil: what lies between its upper and its lower side, with both batters."""
    layers = house.site.soil
    if not layers:
        yield _layer("soil that the file does not name", pits, surface, trenches, (0.0, None))
        return
    top = 0.0
    for number, soil in enumerate(layers):
        bottom = top + soil.thickness if soil.thickness is not None and number + 1 < len(layers) else None
        yield _layer(soil.name, pits, surface, trenches, (top, bottom))
        if bottom is None:
            return
        top = bottom


def _layer(
    soil: str,
    pits: list[Pit],
    surface: Surface,
    trenches: tuple[Pit, ...],
    depths: tuple[float, float | None],
) -> Cut:
    """What pit and trenches take out between two depths under the surface."""
    extra = sum(_trench_between(one, pits[0].bottom, surface, *depths) for one in trenches)
    volumes = [_between(pit, surface, *depths) + extra for pit in pits]
    return _cut(soil, *depths, Range(min(volumes), max(volumes)))


def _trench_between(
    trench: Pit, formation: float, surface: Surface, top: float, bottom: float | None
) -> float:
    """What a trench takes out besides the pit over it; where the ground lies lower than that, only to it."""
    over = replace(trench, bottom=formation)
    return max(_between(trench, surface, top, bottom) - _between(over, surface, top, bottom), 0.0)


def _between(pit: Pit, surface: Surface, top: float, bottom: float | None) -> float:
    above = _second(pit, surface, below=top)[0]
    return above - (_second(pit, surface, below=bottom)[0] if bottom is not None else 0.0)


def _cut(soil: str, top: float, bottom: float | None, bank: Range) -> Cut:
    states = soil_states(soil)
    return Cut(
        soil=soil,
        top=top,
        bottom=bottom,
        bank=bank,
        loose=Range(
            float(loose_volume(bank.low, bulking=states.bulking.low)),
            float(loose_volume(bank.high, bulking=states.bulking.high)),
        ),
    )
