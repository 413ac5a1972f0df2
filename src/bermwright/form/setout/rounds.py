"""A dome set out from its middle: circles by chain, a cross of pegs outside the dig, marks of openings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.ranges import Range
from bermwright.data.rates import soil_states
from bermwright.data.setting_out import DATUM, DATUM_CLEAR, FLATTEST_DIG
from bermwright.form.setout.earthwork.dig import Cut, formation_of
from bermwright.form.setout.heights import MARKS
from bermwright.form.setout.nouns import CheckLength, LevelRow, SetOutError
from bermwright.handbook.earthmoving import loose_volume
from bermwright.handbook.setout import diagonal, three_four_five
from bermwright.house import SettingOut

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.house import House
    from bermwright.house.making.dome import Dome

    Array = NDArray[np.float64]

QUARTER = 0.5 * math.pi
EDGES = 8
"""Directions in which the upper edge of the dig is given."""
RINGS, TURNS = 400, 360
"""Rings and rays of the grid that the dig is counted on."""
STEEPEST = 1.0 - 1e-6
POST_BEYOND = 1.0
"""How far beyond the cross of pegs the post of the datum stands (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle swept by the chain (m)."""

    words: str
    radius: float
    chain: float
    """From the hook on the pole, held level."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """An edge of an opening on the inner circle."""

    name: str
    turns: tuple[float, float]
    """From the zero mark, clockwise as seen from above (rad)."""
    chords: tuple[float, float]
    """From the zero mark, straight across (m)."""
    sill: float
    head: float


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundOut:
    """Everything that one dome is set out by (m)."""

    dome: str
    axis: float | None
    """Direction of the zero mark from north (rad)."""
    circles: tuple[Circle, ...]
    pegs: float
    """From the middle to each of the four pegs Q0 to Q3, outside the dig."""
    post: float
    """From the middle to the post of the datum, between Q0 and Q1."""
    checks: tuple[CheckLength, ...]
    triangle: float
    ground: tuple[float, ...]
    """Level of the ground at the middle and at Q0 to Q3."""
    edge: tuple[tuple[float, float], ...]
    """Direction from the zero mark (rad) and radius of the upper edge of the dig."""
    datum: float
    heights: tuple[LevelRow, ...]
    marks: tuple[Mark, ...]
    cuts: tuple[Cut, ...]
    known_slope: bool
    open: tuple[str, ...]


def round_out(house: House, dome: Dome, *, tape: float) -> RoundOut:
    """Middle, circles, cross of pegs, levels and dig of one dome."""
    settings = house.setting_out or SettingOut()
    inner = 0.5 * dome.span
    outer = inner + dome.thickness
    bottom = outer + settings.working_space
    formation = formation_of(house, settings)
    fall = _fall(house, dome)
    edge, cuts, farthest = _dig(house, dome, settings, bottom, formation)
    step = 0.5 * tape
    pegs = step * math.ceil((farthest + settings.board_distance) / step - 1e-9)
    names = ("inner face", "middle of the wall", "outer face", "bottom of the dig")
    radii = (inner, 0.5 * (inner + outer), outer, bottom)
    ground = _ground(house, dome, fall, pegs)
    post = pegs + POST_BEYOND
    at_post = _level(house, dome, fall, post, 0.5 * QUARTER)
    mark = MARKS[tape]
    return RoundOut(
        dome=dome.name,
        axis=dome.axis,
        circles=tuple(
            Circle(words=words, radius=radius, chain=radius - dome.hook)
            for words, radius in zip(names, radii, strict=True)
        ),
        pegs=pegs,
        post=post,
        checks=tuple(_checks(pegs, inner)),
        triangle=float(three_four_five(pegs, pegs, unit=tape)),
        ground=ground,
        edge=edge,
        datum=mark * math.ceil(max(DATUM.value, at_post + DATUM_CLEAR.value) / mark - 1e-9),
        heights=tuple(_heights(dome, formation)),
        marks=tuple(_marks(dome)),
        cuts=cuts,
        known_slope=settings.dig_slope is not None,
        open=tuple(_open(house, dome, settings, formation, fall)),
    )


def _fall(house: House, dome: Dome) -> tuple[float, float] | None:
    """Steepness of the ground and the turn from the zero mark in which it falls; None where not known."""
    slope = house.site.slope
    if not slope:
        return None if slope is None else (0.0, 0.0)
    if house.site.faces is None or dome.axis is None:
        return None
    return math.tan(slope), house.site.faces - dome.axis


def _level(house: House, dome: Dome, fall: tuple[float, float] | None, radius: float, turn: float) -> float:
    """Level of the ground at a place; not a number where floor or slope is not known."""
    if house.site.floor is None or fall is None:
        return math.nan
    faces = house.site.faces or 0.0
    down = (dome.east or 0.0) * math.sin(faces) + (dome.north or 0.0) * math.cos(faces)
    return -house.site.floor - fall[0] * (down + radius * math.cos(turn - fall[1]))


def _ground(house: House, dome: Dome, fall: tuple[float, float] | None, pegs: float) -> tuple[float, ...]:
    places = [(0.0, 0.0), *((pegs, number * QUARTER) for number in range(4))]
    return tuple(_level(house, dome, fall, *place) for place in places)


def _checks(pegs: float, inner: float) -> Iterator[CheckLength]:
    yield CheckLength(
        between="Q0–Q2, Q1–Q3", length=2.0 * pegs, words="straight through the middle, both alike"
    )
    yield CheckLength(
        between="Q0–Q1, Q1–Q2, Q2–Q3, Q3–Q0",
        length=float(diagonal(pegs, pegs)),
        words="all four alike: the cross is square",
    )
    yield CheckLength(
        between="inner circle on both lines",
        length=2.0 * inner,
        words="across, through the middle",
    )


def _heights(dome: Dome, formation: float | None) -> Iterator[LevelRow]:
    pivot = dome.pivot if dome.pivot is not None else dome.springing
    rows = [LevelRow(words="hook of the chain", level=pivot)]
    rows.append(LevelRow(words="springing, bed of the first course", level=dome.springing))
    rows.append(LevelRow(words="finished floor", level=0.0))
    if formation is not None:
        rows.append(LevelRow(words="bottom of the dig", level=formation))
    yield from sorted(rows, key=lambda row: -row.level)


def _marks(dome: Dome) -> Iterator[Mark]:
    """Both edges of each opening: its sides are parallel, half its width from its middle line."""
    radius = 0.5 * dome.span
    for one in dome.openings:
        half = math.asin(min(0.5 * one.width / radius, 1.0))
        turns = one.at - half, one.at + half
        chords = tuple(2.0 * radius * abs(math.sin(0.5 * turn)) for turn in turns)
        yield Mark(
            name=one.name,
            turns=turns,
            chords=(chords[0], chords[1]),
            sill=one.sill,
            head=one.sill + one.height,
        )


def _dig(
    house: House, dome: Dome, settings: SettingOut, bottom: float, formation: float | None
) -> tuple[tuple[tuple[float, float], ...], tuple[Cut, ...], float]:
    """Upper edge of the dig, what comes out of it, how far out it reaches; empty where it is not known."""
    fall = _fall(house, dome)
    if formation is None or house.site.floor is None or fall is None:
        return (), (), bottom
    deep = _level(house, dome, fall, 0.0, 0.0) - formation
    slope = settings.dig_slope
    leans = (0.0, FLATTEST_DIG.value)
    if slope is not None:
        lean = max(math.cos(slope) / math.sin(slope), 0.0)
        leans = (lean, lean)
    if leans[1] * fall[0] >= STEEPEST:
        raise SetOutError(
            f"The sides of the dig of {dome.name} never meet this hillside, which is as steep. Take a "
            "steeper side with shores (setting_out.dig_slope), or a retaining wall, with a geotechnical "
            "engineer."
        )
    turns = [2.0 * math.pi * number / EDGES for number in range(EDGES)]
    edge = tuple((turn, float(_edge(bottom, deep, leans[1], fall, np.array(turn)))) for turn in turns)
    far = _edge(bottom, deep, leans[1], fall, np.linspace(0.0, 2.0 * math.pi, TURNS))
    return edge, tuple(_cuts(house, bottom, deep, leans, fall)), float(far.max())


def _edge(bottom: float, deep: float, lean: float, fall: tuple[float, float], turn: Array) -> Array:
    """Radius at which a side meets the even ground: R = (R_b + s·d)/(1 + s·i·cos θ)."""
    along = fall[0] * np.cos(turn - fall[1])
    return np.maximum((bottom + lean * deep) / (1.0 + lean * along), bottom)


def _cuts(
    house: House, bottom: float, deep: float, leans: tuple[float, float], fall: tuple[float, float]
) -> Iterator[Cut]:
    """What lies between the depths of each layer of soil, with both slopes of the sides."""
    layers = house.site.soil
    top = 0.0
    for number, soil in enumerate(layers):
        last = soil.thickness is None or number + 1 == len(layers)
        low = None if last else top + (soil.thickness or 0.0)
        volumes = [_between(bottom, deep, lean, fall, (top, low)) for lean in leans]
        yield _cut(soil.name, top, low, Range(min(volumes), max(volumes)))
        if low is None:
            return
        top = low
    if not layers:
        volumes = [_between(bottom, deep, lean, fall, (0.0, None)) for lean in leans]
        yield _cut("soil that the file does not name", 0.0, None, Range(min(volumes), max(volumes)))


def _between(
    bottom: float, deep: float, lean: float, fall: tuple[float, float], depths: tuple[float, float | None]
) -> float:
    """Volume between two depths under the ground, over rings and rays (m3)."""
    turn = 2.0 * math.pi * (np.arange(TURNS) + 0.5) / TURNS
    edge = _edge(bottom, deep, lean, fall, turn)
    share = (np.arange(RINGS) + 0.5) / RINGS
    radius = share[:, None] * edge[None, :]
    ground = deep - fall[0] * radius * np.cos(turn - fall[1])[None, :]
    side = np.maximum(radius - bottom, 0.0) / lean if lean > 0.0 else np.zeros_like(radius)
    depth = np.maximum(ground - side, 0.0)
    top, low = depths
    layer = np.clip(depth, top, np.inf if low is None else low) - top
    cell = radius * (edge / RINGS)[None, :] * (2.0 * math.pi / TURNS)
    return float((np.maximum(layer, 0.0) * cell).sum())


def _cut(soil: str, top: float, bottom: float | None, bank: Range) -> Cut:
    bulking = soil_states(soil).bulking
    loose = Range(
        float(loose_volume(bank.low, bulking=bulking.low)),
        float(loose_volume(bank.high, bulking=bulking.high)),
    )
    return Cut(soil=soil, top=top, bottom=bottom, bank=bank, loose=loose)


def _open(
    house: House, dome: Dome, settings: SettingOut, formation: float | None, fall: tuple[float, float] | None
) -> Iterator[str]:
    if formation is None:
        yield (
            "How deep is the dig? Nothing says how thick the floor is: write setting_out.floor_build_up, or "
            "[ground_heat.floor]. Pegs keep clear of wall and working space only."
        )
    if house.site.floor is None:
        yield "How does the floor lie to the ground? Write site.floor: no level of the ground is known yet."
    if fall is None:
        yield (
            "How does the ground fall? Write site.slope, and site.faces and the dome's axis where it is not "
            "level."
        )
    if settings.dig_slope is None:
        yield (
            "At which slope do the sides of the dig stand? Write setting_out.dig_slope. Until then volumes "
            "run from upright sides to 1:1.5, and pegs keep clear of 1:1.5."
        )
    if dome.axis is None:
        yield "Which way does the zero mark lie? Write dome.axis, from north: no north arrow is drawn yet."
