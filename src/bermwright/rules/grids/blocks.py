"""A block of fill with layers of geogrid behind an upright face, read from the house file.

Only upright faces: walls under feet, and ends. The methods know no curved shell.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.rates import GRID_FOLD
from bermwright.data.terrain import CALM, WORST_GROUND
from bermwright.house import EndSide
from bermwright.house.choices import SoilKind
from bermwright.house.parts.support_words import Behind, Retains, Sides
from bermwright.rules import readings
from bermwright.takeoff.earth import grid_levels

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.base.ranges import Range
    from bermwright.form.shapes import VaultForm
    from bermwright.house import End, Fill, House, Soil
    from bermwright.house.parts.holds import Geogrid
    from bermwright.house.parts.walls import Wall
    from bermwright.rules.study import Study

SIDES = ("left", "right")
PLACES = 9
"""Places along a layer at which the ground over it is read."""
GRAVITY = 9.80665
WATER = 9806.65
"""Unit weight of water (N/m3)."""
LAID_BACK = GRID_FOLD.value
"""How far a layer is laid back into the fill over its own step (m)."""
LEAST_SATURATED = 1e4
"""Soil full of water is no lighter than water (N/m3)."""
LEAST_FACE = 0.1
"""A face that is lower needs no grid (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Under:
    """Ground that a block stands on, at its weakest."""

    name: str
    friction: float
    cohesion: float
    weight: float
    saturated: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Steps of wrapped fill behind one face; all heights count from their lowest layer (m)."""

    spacing: float
    length: float
    strength: float
    gives: float
    passes: float
    bottom: float
    """Level of the lowest layer (m)."""
    height: float
    """Of the face that the steps are held off."""
    deepest: float
    shallowest: float
    """Highest and lowest surface over the layers."""
    back: float
    """Surface over their far ends."""
    rises: float
    """Slope of the ground behind, upward from there (rad)."""
    load: float
    """Snow or people on it, whichever is more (Pa)."""
    weight: Range
    angle: Range
    ground_angle: float
    """Least angle of friction of fill and ground (rad)."""
    under: tuple[Under, ...]
    """Every soil of the site: of several layers the weakest counts."""
    ground_water: float
    """Depth of the highest ground water below the lowest layer; 0 where not known, or higher (m)."""
    buoyant: float
    """Least weight of the fill under water (N/m3)."""
    water: float
    """How high water stands in it at worst, over the lowest layer (m)."""
    shaking: float
    """Ground acceleration with the worst ground, over gravity; 0 where none need be looked at (-)."""

    @property
    def layers(self) -> tuple[float, ...]:
        """Heights of the layers behind the face."""
        return grid_levels(0.0, self.height, self.spacing)

    @property
    def bought(self) -> float:
        """Grid for a metre along the face, every layer up its step and laid back (m)."""
        return len(self.layers) * (self.length + self.spacing + LAID_BACK)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unread:
    """What must be known before anything can be said, in words, and what to write."""

    lacks: str
    advice: str


def part_of(grid: Geogrid) -> str:
    """How a finding calls it."""
    return f'geogrid "{grid.name}"'


def sides_of(grid: Geogrid) -> tuple[int, ...]:
    """The sides whose wall it stands behind: 0 left, 1 right."""
    return {Behind.LEFT: (0,), Behind.RIGHT: (1,), Behind.SIDES: (0, 1)}.get(grid.behind, ())


def grid_of_side(house: House, vault: str, side: int) -> Geogrid | None:
    """The geogrid fill behind the foot wall of a side."""
    return next((one for one in house.geogrids if one.vault == vault and side in sides_of(one)), None)


def grid_of_end(house: House, end: End) -> Geogrid | None:
    """The geogrid fill behind an end."""
    wanted = Behind.FRONT if end.at is EndSide.FRONT else Behind.BACK
    return next((one for one in house.geogrids if one.vault == end.vault and one.behind is wanted), None)


def wall_of(house: House, vault: str, side: int) -> Wall | None:
    """The wall under the feet of a side, with soil against it."""
    alike = {Sides.BOTH, Sides(SIDES[side])}
    chosen = (one for one in house.walls if one.vault == vault and one.side in alike)
    return next((one for one in chosen if one.retains is Retains.OUTSIDE), None)


def blocks_of(house: House, studies: Mapping[str, Study], grid: Geogrid) -> list[Block | Unread]:
    """One block for each face that it stands behind; never none."""
    if sides_of(grid):
        study = studies.get(grid.vault)
        if study is None:
            return [Unread(lacks="the form of its vault", advice="Answer the questions about the vault.")]
        return [side_block(house, study.form, grid, side) for side in sides_of(grid)]
    ends = [end for end in house.ends if grid_of_end(house, end) is grid]
    if not ends:
        return [Unread(lacks="which end it stands behind", advice="Write an [[end]] table for that end.")]
    return [end_block(house, grid, end) for end in ends]


def end_block(house: House, grid: Geogrid, end: End) -> Block | Unread:
    """The block behind an end."""
    if end.soil_to is None:
        return Unread(lacks="up to which level soil lies there", advice="Write soil_to of that [[end]].")
    vault = next((one for one in house.vaults if one.name == end.vault), None)
    soil = house.soil(end.soil) if end.soil else (house.fill(vault) if vault else None)
    if end.hillside:
        return Unread(
            lacks="what the fill is, as that end is dug into grown ground",
            advice="Dig the ground out as far as the layers reach, fill it in steps, and write hillside = "
            '"no".',
        )
    length = grid.length or 0.0
    bottom = 0.0 if grid.bottom is None else grid.bottom
    high = end.soil_to - bottom
    up = float(np.tan(end.rises)) * length
    around = _Around(high, high + up, high, high + up, end.rises)
    return _block(house, grid, soil, end.drained, bottom, high, around)


def side_block(house: House, form: VaultForm, grid: Geogrid, side: int) -> Block | Unread:
    """The block behind the foot wall of a side."""
    wall = wall_of(house, grid.vault, side)
    if wall is None or wall.thickness is None or (wall.bottom is None and grid.bottom is None):
        return Unread(
            lacks="which upright wall it stands behind",
            advice="Write a [[wall]] under the feet, with thickness and bottom; a curved shell has no "
            "method.",
        )
    vault = next(one for one in house.vaults if one.name == grid.vault)
    soil = house.soil(wall.soil) if wall.soil else house.fill(vault)
    bottom = grid.bottom if grid.bottom is not None else wall.bottom or 0.0
    top = wall.top if wall.top is not None else form.springing
    fill = house.fill(vault)
    drained = None if fill is None else fill.drained
    around = _ground_over(form, wall, side, grid.length or 0.0, bottom)
    return _block(house, grid, soil, drained, bottom, top - bottom, around)


@dataclass(frozen=True, slots=True)
class _Around:
    """Surface over the layers, from the lowest layer up."""

    least: float
    most: float
    near: float
    back: float
    rises: float


def _ground_over(form: VaultForm, wall: Wall, side: int, length: float, bottom: float) -> _Around:
    sign, foot = (-1.0, 1.0)[side], float(form.mesh.x[(0, -1)[side]])
    thick = wall.thickness or 0.0
    face = thick - (wall.foot if wall.foot is not None else 0.5 * thick)
    out = np.linspace(face, face + length, PLACES)
    levels = form.ground.finished.level(foot + sign * out) - bottom
    beyond = form.ground.finished.level(np.array([foot + sign * (face + 2.0 * length)]))[0] - bottom
    rises = float(np.arctan2(max(float(beyond) - levels[-1], 0.0), max(length, 0.1)))
    return _Around(float(levels.min()), float(levels.max()), float(levels[0]), float(levels[-1]), rises)


def _block(
    house: House,
    grid: Geogrid,
    soil: Soil | Fill | None,
    drained: bool | None,  # noqa: FBT001  (yes, no or not said)
    bottom: float,
    height: float,
    around: _Around,
) -> Block | Unread:
    lost = tuple(_lost(house, grid, soil, drained))
    if grid.bottom is not None and height < LEAST_FACE:
        return Unread(
            lacks="what it holds off, as its lowest layer lies over the top of it",
            advice="Write a lower bottom, or none.",
        )
    if lost:
        return Unread(lacks=", ".join(lost), advice="Answer the questions about it.")
    if drained is False or soil is None or soil.kind is not SoilKind.SAND:
        return Unread(
            lacks="how fill that holds water stands with geogrid",
            advice='Take sand or gravel (kind = "sand or gravel") with a drain at its foot, and say so.',
        )
    assert soil.unit_weight is not None and soil.friction_angle is not None  # noqa: PT018, S101  (`_lost` saw to it)
    overflow = house.site.overflow or 0.0
    acceleration = (house.site.ground_acceleration or 0.0) * WORST_GROUND
    under = tuple(_under(one) for one in house.site.soil)
    full = soil.saturated_unit_weight.low if soil.saturated_unit_weight else soil.unit_weight.low
    return Block(
        spacing=grid.spacing or 0.0,
        length=grid.length or 0.0,
        strength=grid.strength or 0.0,
        gives=grid.soft_gives or 0.0,
        passes=grid.soft_passes or 0.0,
        bottom=bottom,
        height=height,
        deepest=around.most,
        shallowest=around.least,
        back=around.back,
        rises=around.rises,
        load=max(house.site.ground_snow or 0.0, _people(house)),
        weight=soil.unit_weight,
        angle=soil.friction_angle,
        ground_angle=min(soil.friction_angle.low, *(one.friction for one in under)),
        under=under,
        ground_water=_ground_water(house, bottom, overflow),
        buoyant=max(full - WATER, 0.0),
        water=min(max(overflow - bottom, 0.0), max(around.most, 0.0)),
        shaking=0.0 if acceleration <= CALM else acceleration / GRAVITY,
    )


def _under(soil: Soil) -> Under:
    assert soil.unit_weight is not None and soil.friction_angle is not None  # noqa: PT018, S101  (`_lost` saw to it)
    return Under(
        name=soil.name,
        friction=soil.friction_angle.low,
        cohesion=soil.cohesion.low if soil.cohesion else 0.0,
        weight=soil.unit_weight.low,
        saturated=max((soil.saturated_unit_weight or soil.unit_weight).low, LEAST_SATURATED),
    )


def _ground_water(house: House, bottom: float, overflow: float) -> float:
    """Depth of the highest ground water below a level (m)."""
    level = readings.ground_water(house)
    return 0.0 if level is None or overflow > bottom else max(bottom - level, 0.0)


def _lost(house: House, grid: Geogrid, soil: Soil | Fill | None, drained: bool | None) -> Iterator[str]:  # noqa: FBT001  (may be unknown)
    for key in ("spacing", "length", "strength", "soft_gives", "soft_passes"):
        if getattr(grid, key) is None:
            yield f"geogrid.{key}"
    if soil is None or soil.unit_weight is None or soil.friction_angle is None:
        yield "how heavy and how rough its soil is"
    if not house.site.soil or any(
        one.unit_weight is None or one.friction_angle is None for one in house.site.soil
    ):
        yield "how heavy and how rough the ground under it is"
    if drained is None:
        yield "whether a drain lies at its foot"
    if house.site.overflow is None:
        yield "site.overflow"
    if house.site.ground_snow is None:
        yield "site.ground_snow"
    if house.site.accessible_roof is None:
        yield "site.accessible_roof"
    if house.site.ground_acceleration is None:
        yield "site.ground_acceleration"


def _people(house: House) -> float:
    return readings.CROWD if house.site.accessible_roof else readings.MAINTENANCE
