"""Pegs, strings, boards and lengths to check, in plan."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.setting_out import BESIDE_BOARD
from bermwright.form.setout.earthwork.ring import past_digs, post_place, ring_of
from bermwright.form.setout.heights import board_tops
from bermwright.form.setout.nouns import BatterBoard, CheckLength, Peg, Plan, StringLine
from bermwright.handbook.setout import diagonal, three_four_five

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.earthwork.mound import MoundReach
    from bermwright.form.setout.earthwork.ring import Edges
    from bermwright.form.setout.earthwork.strips import Strip
    from bermwright.form.setout.ground import Surface
    from bermwright.form.setout.nouns import Spot
    from bermwright.house import SettingOut, Vault

SAME = 0.005
"""Strings nearer to each other than this are one (m)."""


def plan_of(  # noqa: PLR0913  (all by name)
    vault: Vault,
    settings: SettingOut,
    *,
    surface: Surface,
    strips: tuple[Strip, Strip],
    ends: tuple[float, float],
    outline: tuple[Spot, ...],
    mound: MoundReach,
    others: Edges,
    tape: float,
) -> Plan:
    """The plan of one vault; boards keep their distance from the outline of its dig and of the others'."""
    strings = tuple(_strings(vault, strips, ends))
    step = 0.5 * tape
    low, high = ring_of(outline, strings, settings.board_distance, step)
    low, high = past_digs(low, high, _spans(strings), others, settings.board_distance, step)
    boards = board_tops(tuple(_boards(strings, low, high, surface)), settings.step, step)
    pegs = tuple(_pegs(vault, low, high, post_place(low, high, mound, others, step)))
    return Plan(
        pegs=pegs,
        strings=strings,
        boards=boards,
        checks=tuple(_checks(vault, pegs, low, high)),
        triangle=float(three_four_five(vault.length, vault.span, unit=tape)),
        low=low,
        high=high,
    )


def _strings(vault: Vault, strips: tuple[Strip, Strip], ends: tuple[float, float]) -> Iterator[StringLine]:
    """Those along the axis from left to right, then those across from front to back."""
    places: list[tuple[str, bool, float, float]] = [("axis", True, 0.0, 0.0)]
    for strip, side, way in zip(strips, ("left", "right"), (-1.0, 1.0), strict=True):
        lines = [("line of the feet", 0.0), *((edge.words, edge.offset) for edge in strip.edges)]
        places += [
            (f"{side} {words}", True, way * (0.5 * vault.span + offset), offset) for words, offset in lines
        ]
    places += [("front rib, middle", False, 0.0, 0.0), ("back rib, middle", False, vault.length, 0.0)]
    if ends[0] > 0.0:
        places.append(("front wall, outside", False, -ends[0], ends[0]))
    if ends[1] > 0.0:
        places.append(("back wall, outside", False, vault.length + ends[1], ends[1]))
    kept: list[tuple[str, bool, float, float]] = []
    for place in places:
        if not any(one[1] == place[1] and abs(one[2] - place[2]) < SAME for one in kept):
            kept.append(place)
    kept.sort(key=lambda place: (not place[1], place[2]))
    for number, (words, along, at, offset) in enumerate(kept, start=1):
        yield StringLine(number=number, words=words, along=along, place=at, offset=offset)


def _groups(strings: tuple[StringLine, ...]) -> dict[str, list[StringLine]]:
    """The strings of each side but the axis."""
    ahead = [string for string in strings if string.along and string.words != "axis"]
    over = [string for string in strings if not string.along]
    middle = 0.5 * (over[0].place + over[-1].place)
    return {
        "left": [one for one in ahead if one.place < 0.0],
        "right": [one for one in ahead if one.place > 0.0],
        "front": [one for one in over if one.place < middle],
        "back": [one for one in over if one.place > middle],
    }


def _spans(strings: tuple[StringLine, ...]) -> dict[str, tuple[tuple[float, float], ...]]:
    """From where to where the boards of each side reach along it."""
    spans = {side: _span(group) for side, group in _groups(strings).items()}
    along, across = (spans["left"], spans["right"]), (spans["front"], spans["back"])
    return {"front": along, "back": along, "left": across, "right": across}


def _boards(
    strings: tuple[StringLine, ...], low: Spot, high: Spot, surface: Surface
) -> Iterator[BatterBoard]:
    """Eight boards, two at each corner: the first letter is the side on which a board stands."""
    groups = _groups(strings)
    for end, along in (("front", low[0]), ("back", high[0])):
        for side in ("left", "right"):
            first, last = _span(groups[side])
            yield _board(f"{end[0]}{side[0]}".upper(), ((along, first), (along, last)), groups[side], surface)
    for side, across in (("left", low[1]), ("right", high[1])):
        for end in ("front", "back"):
            first, last = _span(groups[end])
            yield _board(
                f"{side[0]}{end[0]}".upper(), ((first, across), (last, across)), groups[end], surface
            )


def _span(strings: list[StringLine]) -> tuple[float, float]:
    places = [string.place for string in strings]
    return min(places) - BESIDE_BOARD.value, max(places) + BESIDE_BOARD.value


def _board(name: str, ends: tuple[Spot, Spot], strings: list[StringLine], surface: Surface) -> BatterBoard:
    places = np.array([*ends, np.mean(ends, axis=0)])
    return BatterBoard(
        name=name,
        start=ends[0],
        end=ends[1],
        strings=tuple(string.number for string in strings),
        ground=float(np.max(surface.level(places[:, 0], places[:, 1]))),
        top=math.nan,
    )


def _pegs(vault: Vault, low: Spot, high: Spot, post: Spot) -> Iterator[Peg]:
    half = 0.5 * vault.span
    yield Peg(name="A", at=(0.0, -half), words="front rib, left foot")
    yield Peg(name="B", at=(0.0, half), words="front rib, right foot")
    yield Peg(name="C", at=(vault.length, half), words="back rib, right foot")
    yield Peg(name="D", at=(vault.length, -half), words="back rib, left foot")
    yield Peg(name="E", at=(low[0], 0.0), words="axis, before the front boards")
    yield Peg(name="F", at=(high[0], 0.0), words="axis, behind the back boards")
    yield Peg(name="H", at=post, words="post of the datum, not moved till the end")


def _checks(vault: Vault, pegs: tuple[Peg, ...], low: Spot, high: Spot) -> Iterator[CheckLength]:
    span, length = vault.span, vault.length
    at = {peg.name: peg.at for peg in pegs}
    across = float(diagonal(length, span))
    yield CheckLength(between="A–B, D–C", length=span, words="width at both ends")
    yield CheckLength(between="A–D, B–C", length=length, words="length on both sides")
    yield CheckLength(between="A–C, B–D", length=across, words="both diagonals alike")
    yield CheckLength(
        between="E–A, E–B",
        length=math.dist(at["E"], at["A"]),
        words="front square to the axis when both are alike",
    )
    yield CheckLength(
        between="F–D, F–C",
        length=math.dist(at["F"], at["D"]),
        words="back square to the axis when both are alike",
    )
    yield CheckLength(
        between="E–F", length=high[0] - low[0], words="along the axis, from peg to peg outside the dig"
    )
