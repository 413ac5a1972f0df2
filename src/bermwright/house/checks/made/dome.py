"""What does not fit together of domes, their openings and crews, and of vaults that meet."""

from __future__ import annotations

import math
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.checks.common import (
    Check,
    Contradiction,
    Key,
    bound,
    clash,
    each,
    each_name_once,
    metres,
    names_once,
)
from bermwright.house.making.words import DomeCurve, DomeUnit, Head, Laid

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.making.dome import Dome, DomeOpening
    from bermwright.house.making.sheets import Crossing, SheetRoll
    from bermwright.house.model import House

NEAR = 1e-9
SEEN = 5e-4
"""Measures that differ less are one (m)."""
_NEEDED: dict[DomeCurve, tuple[str, ...]] = {
    DomeCurve.HEMISPHERE: (),
    DomeCurve.POINTED: (),
    DomeCurve.EGG: ("rise", "flank_radius", "crown_radius"),
    DomeCurve.CATENARY: ("rise",),
    DomeCurve.SEGMENT: ("rise",),
    DomeCurve.ELLIPSE: ("rise",),
    DomeCurve.PARABOLA: ("rise",),
    DomeCurve.DRAWN: ("points",),
}
_CURVE = ("curve", "span", "rise", "centre_offset", "base_centre", "flank_radius", "crown_radius", "points")


def dome_checks(house: House) -> Iterator[Check]:
    """The checks of every dome and of every place where vaults meet."""
    named = *each(("vault",), house.vaults, "name"), *each(("dome",), house.domes, "name")
    yield Check(("dome",), (), bound(_alike, house), named)
    for count, dome in enumerate(house.domes):
        here: Key = ("dome", count)
        yield Check(here, _CURVE, bound(_curve, here, dome))
        yield Check(here, ("points",), bound(_points, here, dome))
        yield Check(here, ("curve", "base_centre"), bound(_leans_out, here, dome))
        yield Check(here, ("unit", "laid"), bound(_tilted_tubes, here, dome))
        yield Check(here, ("course", "rise"), bound(_one_course, here, dome))
        yield Check(here, ("pivot", "springing", "rise"), bound(_high_pivot, here, dome))
        yield Check(here, ("opening",), bound(_openings, here, dome))
        yield Check(here, ("opening", "span", "rise", "springing"), bound(_too_large, here, dome))
        yield names_once((*here, "crew"), dome.crews)
    yield Check((), ("sheet",), bound(_narrow_roll, house.sheet))
    for count, crossing in enumerate(house.crossings):
        here = ("crossing", count)
        yield Check(here, ("of", "into"), bound(_meet, here, crossing, house), named)


def _alike(house: House) -> Iterator[Contradiction]:
    """A dome that has the name of a vault or of an earlier dome."""
    taken = {vault.name for vault in house.vaults}
    for count, dome in enumerate(house.domes):
        if dome.name in taken:
            yield clash(
                ("dome", count),
                "name",
                f'"{dome.name}"',
                "is the name of another vault or dome too; every name is used once.",
                "Give this one a name of its own.",
            )
        taken.add(dome.name)


def rise_of(dome: Dome) -> float | None:
    """Height of the inner crown, from whatever describes it; None when nothing does (m)."""
    match dome.curve:
        case DomeCurve.HEMISPHERE:
            return 0.5 * dome.span
        case DomeCurve.DRAWN:
            return max((z for _, z in dome.points), default=None)
        case DomeCurve.POINTED if dome.rise is None and dome.centre_offset is not None:
            return math.sqrt((0.5 * dome.span) ** 2 + dome.span * dome.centre_offset)
    return dome.rise


def _curve(here: Key, dome: Dome) -> Iterator[Contradiction]:
    for name in _NEEDED[dome.curve]:
        if getattr(dome, name) in (None, ()):
            yield clash(
                here,
                name,
                "",
                f'is missing; a dome with the curve "{dome.curve}" needs it.',
                "Write it, or take another curve.",
            )
    if dome.curve is DomeCurve.POINTED and dome.rise is None and dome.centre_offset is None:
        yield clash(
            here,
            "rise",
            "",
            "is missing; a pointed dome needs it or centre_offset.",
            "Write one of the two.",
        )
    if dome.curve is DomeCurve.POINTED and dome.rise is not None and dome.centre_offset is not None:
        yield from _two_rises(here, dome, dome.rise, dome.centre_offset)
    if (
        dome.curve is DomeCurve.HEMISPHERE
        and dome.rise is not None
        and abs(dome.rise - 0.5 * dome.span) > SEEN
    ):
        yield clash(
            here,
            "rise",
            metres(dome.rise),
            f"is not half of the span, {metres(0.5 * dome.span)}.",
            "Take it out, or take another curve.",
        )
    if dome.curve in {DomeCurve.SEGMENT, DomeCurve.POINTED} and dome.rise is not None:
        yield from _bulging(here, dome, dome.rise)


def _two_rises(here: Key, dome: Dome, rise: float, offset: float) -> Iterator[Contradiction]:
    other = math.sqrt((0.5 * dome.span) ** 2 + dome.span * offset)
    if abs(other - rise) > SEEN:
        yield clash(
            here,
            "centre_offset",
            metres(offset),
            f"gives a rise of {other:.3f} m, not {metres(rise)}.",
            "Write one of the two.",
        )


def _bulging(here: Key, dome: Dome, rise: float) -> Iterator[Contradiction]:
    half = 0.5 * dome.span
    if dome.curve is DomeCurve.SEGMENT and rise > half + NEAR:
        yield clash(
            here,
            "rise",
            metres(rise),
            f"is over half of the span, {metres(half)}: the face would lean out "
            "over its foot, and a fresh wall falls outwards.",
            "Write a smaller rise, or take another curve.",
        )
    if dome.curve is DomeCurve.POINTED and rise < half - NEAR:
        yield clash(
            here,
            "rise",
            metres(rise),
            f"is under half of the span, {metres(half)}: the crown would be a valley.",
            "Write a larger rise, or take a segment.",
        )


def _points(here: Key, dome: Dome) -> Iterator[Contradiction]:
    if dome.curve is not DomeCurve.DRAWN or not dome.points:
        return
    for (r, z), (after, over) in pairwise(dome.points):
        if over <= z or after > r + NEAR or min(r, after) < 0.0:
            yield clash(
                here,
                "points",
                f"from {r:g} m at {z:g} m to {after:g} m at {over:g} m",
                "overhangs: each point must lie higher than the one before, and not farther from the axis.",
                "A course at one height has one radius; a wall that leans out falls while it is fresh.",
            )
            return
    first, last = dome.points[0], dome.points[-1]
    if abs(first[0] - 0.5 * dome.span) > SEEN or abs(first[1]) > NEAR:
        yield clash(
            here,
            "points",
            f"begin at {first[0]:g} m from the axis and {first[1]:g} m high",
            f"do not begin at the springing, half of the span from the axis: {metres(0.5 * dome.span)}, 0 m.",
            "Write the foot as the first point, or mend span.",
        )
    if last[0] > 0.5 * first[0]:
        yield clash(
            here,
            "points",
            f"end {last[0]:g} m from the axis",
            "do not come near the axis.",
            "The last point is the crown; an eye may stay open there, a wide hole may not.",
        )


def _leans_out(here: Key, dome: Dome) -> Iterator[Contradiction]:
    if dome.curve is DomeCurve.EGG and dome.base_centre > 0.0:
        yield clash(
            here,
            "base_centre",
            metres(dome.base_centre),
            "lets the face lean out over its foot up to that "
            "height: a fresh course steps outwards there and falls.",
            "Write 0 m, and set the dome on a plumb wall instead.",
        )


def _tilted_tubes(here: Key, dome: Dome) -> Iterator[Contradiction]:
    if dome.laid is Laid.TILTED and dome.unit is not DomeUnit.BRICKS:
        yield clash(
            here,
            "laid",
            f'"{dome.laid}"',
            f"is for bricks in mortar; {dome.unit} slide off a tilted bed.",
            'Write laid = "level".',
        )


def _one_course(here: Key, dome: Dome) -> Iterator[Contradiction]:
    rise = rise_of(dome)
    if dome.course is not None and rise is not None and dome.course > 0.25 * rise:
        yield clash(
            here,
            "course",
            metres(dome.course),
            f"leaves fewer than four courses in a rise of {metres(rise)}.",
            "Write the height of one course, or a higher dome.",
        )


def _high_pivot(here: Key, dome: Dome) -> Iterator[Contradiction]:
    rise = rise_of(dome)
    if dome.pivot is not None and rise is not None and dome.pivot > dome.springing + 0.75 * rise:
        yield clash(
            here,
            "pivot",
            show(dome.pivot, "level"),
            f"is near the inner crown at {show(dome.springing + rise, 'level')} or over it.",
            "Fix the chain lower: its length must tell one course from the next.",
        )


def _openings(here: Key, dome: Dome) -> Iterator[Contradiction]:
    yield from each_name_once((*here, "opening"), [one.name for one in dome.openings])
    for count, one in enumerate(dome.openings):
        place = (*here, "opening", count)
        if one.head is Head.ROUND and one.height < 0.5 * one.width:
            yield clash(
                place,
                "height",
                metres(one.height),
                f"is less than its round head, {metres(0.5 * one.width)}.",
                "Write a greater height, or a flat head.",
            )
        if one.eyebrow > 0.0 and one.head is not Head.ROUND:
            yield clash(
                place,
                "eyebrow",
                metres(one.eyebrow),
                "needs a round head to stand on.",
                'Write head = "round", or take the eyebrow out.',
            )


def _too_large(here: Key, dome: Dome) -> Iterator[Contradiction]:
    crown = rise_of(dome)
    for count, one in enumerate(dome.openings):
        place = (*here, "opening", count)
        if one.width >= dome.span - NEAR:
            yield clash(
                place,
                "width",
                metres(one.width),
                f"is as wide as the dome or wider: {metres(dome.span)}.",
                "Write a smaller width; one between upright sides is always narrower than the ring.",
            )
        if crown is not None and one.top > dome.springing + crown:
            yield clash(
                place,
                "height",
                metres(one.height),
                f"puts its head at {show(one.top, 'level')}, over the "
                f"crown at {show(dome.springing + crown, 'level')}.",
                "Write a smaller height or a lower sill.",
            )
    for (_, first), (count, second) in combinations(enumerate(dome.openings), 2):
        if max(first.width, second.width) < dome.span and _overlap(first, second, dome.span):
            yield clash(
                (*here, "opening", count),
                "at",
                f'"{second.name}"',
                f'leaves no wall beside "{first.name}".',
                "Turn one of them farther away, or make it smaller.",
            )


def _overlap(first: DomeOpening, second: DomeOpening, span: float) -> bool:
    apart = abs((first.at - second.at + math.pi) % (2.0 * math.pi) - math.pi)
    taken = sum(math.asin(one.width / span) for one in (first, second))
    over = min(first.top, second.top) - max(first.sill, second.sill)
    return apart < taken + NEAR and over > 0.0


def _narrow_roll(sheet: SheetRoll | None) -> Iterator[Contradiction]:
    if sheet is not None and sheet.lap > 0.5 * sheet.width:
        yield clash(
            ("sheet",),
            "lap",
            metres(sheet.lap),
            f"is over half of the roll, {metres(sheet.width)}.",
            "Write the lap that the maker asks for, or a wider roll.",
        )


def _meet(here: Key, crossing: Crossing, house: House) -> Iterator[Contradiction]:
    vaults, domes = [one.name for one in house.vaults], [one.name for one in house.domes]
    for key, name, names in (("of", crossing.of, vaults), ("into", crossing.into, [*vaults, *domes])):
        if name not in names:
            yield clash(
                here,
                key,
                f'"{name}"',
                f"is not a part of this file; there are: {', '.join(names) or 'none'}.",
                "Write one of these names.",
            )
    if crossing.of == crossing.into:
        yield clash(
            here, "into", f'"{crossing.into}"', "is the same vault.", "Write the one that it runs into."
        )
