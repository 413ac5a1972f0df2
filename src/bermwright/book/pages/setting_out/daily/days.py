"""What is done on each day of setting out and building up: numbers, boxes to tick, cautions."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.units import show, show_range
from bermwright.book.pages.setting_out.daily.places import (
    board_notes,
    dig_notes,
    end_toes,
)
from bermwright.book.sheets.setout import Day, Shows, day_sheet, plan_sheet
from bermwright.book.sheets.setout.day import TALLEST
from bermwright.data.setting_out import (
    DIAGONALS,
    EARTHWORK,
    HEAP_BACK,
    LEVEL,
    PEG,
    RIB,
    TRENCH,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Sheet
    from bermwright.form.setout import SetOut
    from bermwright.form.setout.earthwork.strips import OpeningEdges

SERVICES = (
    "Before the first spade ask who knows of cables, pipes and drains, and have them marked. Near a mark "
    "dig by hand, from the side."
)
OVERHEAD = (
    "Look up. Ribs, poles and machines stay clear of overhead lines; the network's owner says how far. "
    "Under a line nothing is raised before it is moved or dead."
)
SHARP = "Steel pegs and pins get a cap, strings a flag: eyes and feet find them in the dusk."
LIFTING = (
    "Nobody stands under a raised rib. Brace each before the next. No raising in wind. Local rules first."
)
FILLING = "Nobody is inside, or between shell and bank, while soil is placed. Keep to the stop marks."
LADDER = (
    "A ladder stands in every dig. Nobody works in it alone, or after rain or thaw before it was looked at."
)


def day_sheets(out: SetOut, system: str = "metric") -> tuple[Sheet, ...]:
    """A sheet for each day, with its plan."""
    return tuple(_fitting(out, day, shows, system) for day, shows in days(out, system))


def _fitting(out: SetOut, day: Day, shows: Shows, system: str) -> Sheet:
    """The day's sheet with its plan as large as the words under it allow."""
    sheet = day_sheet(day, plan_sheet(out, shows, tallest=_TALLEST[shows], system=system))
    for smaller in (size for size in SMALLER if size < _TALLEST[shows]):
        if sheet.height <= TALLEST:
            break
        sheet = day_sheet(day, plan_sheet(out, shows, tallest=smaller, system=system))
    return sheet


STATIONS = {"metric": (2.0, 4.0, 6.0), "imperial": (1.8288, 3.6576, 5.4864)}
"""Across from the axis, where the finished ground is given (m): whole metres, or six feet."""
MOST_RIBS = 7
"""Rows of ribs on a sheet."""
SMALLER = tuple(range(128, 48, -4))
"""Heights of a plan that are tried until the words under it fit as well (mm)."""
_TALLEST = {
    Shows.PEGS: 122.0,
    Shows.DIG: 132.0,
    Shows.FOOTINGS: 110.0,
    Shows.WALLS: 110.0,
    Shows.RIBS: 100.0,
    Shows.MOUND: 120.0,
}


def days(out: SetOut, system: str) -> tuple[tuple[Day, Shows], ...]:
    """What is done on each day, and which plan shows it."""
    makers = (
        (_pegging, Shows.PEGS, True),
        (_digging, Shows.DIG, out.dig is not None),
        (_footing, Shows.FOOTINGS, any(strip.footing for strip in out.strips)),
        (_walling, Shows.WALLS, any(strip.wall_bottom is not None for strip in out.strips)),
        (_raising, Shows.RIBS, True),
        (_mounding, Shows.MOUND, True),
    )
    wanted = [(maker, shows) for maker, shows, there in makers if there]
    return tuple((maker(out, number, system), shows) for number, (maker, shows) in enumerate(wanted, start=1))


def _m(value: float, system: str, digits: int = 3) -> str:
    return show(value, "m", digits, system)


def _mm(value: float, system: str) -> str:
    return show(value, "mm", 0, system)


def _pegging(out: SetOut, number: int, system: str) -> Day:
    plan = out.plan
    rows = [(f"{check.between}: {check.words}", _m(check.length, system)) for check in plan.checks]
    k = plan.triangle
    if k > 0.0:
        sides = " : ".join(_m(share * k, system, 2) for share in (3.0, 4.0, 5.0))
        rows.append(("square corners at A, B, C, D with", sides))
    rows += [
        (f"tops of boards {names}", f"{show(top, 'level', 3, system)} from the floor")
        for top, names in _tops(out)
    ]
    axis = f"{math.degrees(out.axis):.0f}° from north" if out.axis is not None else "not given"
    rows.append(("axis E–F runs, walking in", axis))
    unlike = len({board.top for board in plan.boards}) > 1
    slanting = (
        ("Boards stand in steps here: strings slant. Plumb down from them, never measure along them.",)
        if unlike
        else ()
    )
    return Day(
        number=number,
        title="pegs, boards and strings",
        leads="Set the baseline E–F, square the corners off it, carry them out to boards beyond the dig.",
        rows=tuple(rows),
        ticks=(
            "Post H stands where no machine goes; its mark is the datum for everything.",
            f"E–F lies on the axis; A to D within {_mm(PEG.value, system)}.",
            f"Both diagonals alike within {_mm(DIAGONALS.value, system)}; if not, move C and D along.",
            "Eight boards, tops level by the water level, braced so that a knee does not move them.",
            "Saw cuts 6 to 8 mm deep for every string, its number beside it; off and on again: same place.",
            *slanting,
            "Measured by two people; signed: ______________",
        ),
        cautions=(SERVICES, OVERHEAD, SHARP),
        notes=tuple(board_notes(out, system)),
    )


def _tops(out: SetOut) -> Iterator[tuple[float, str]]:
    """Levels of the boards, highest first, with the names of those that have it."""
    for top in sorted({board.top for board in out.plan.boards}, reverse=True):
        yield top, " ".join(board.name for board in out.plan.boards if board.top == top)


def _digging(out: SetOut, number: int, system: str) -> Day:
    dig = out.dig
    assert dig is not None  # noqa: S101  (asked for only where there is one)
    down = out.heights.down
    rows = [
        ("bottom of the dig, down from the mark", _m(down(dig.formation), system)),
        *(
            (f"at {corner.peg}: ground to bottom", _deep(corner.to_bottom, system))
            for corner in out.heights.corners
            if corner.to_bottom is not None
        ),
    ]
    if dig.trenches:
        rows.append(("trenches, under the bottom", _m(dig.trench_depth, system, 2)))
    rows += [
        (
            f"{cut.soil}: in the bank / in heaps",
            f"{_volumes(cut.bank, system)} / {_volumes(cut.loose, system)}",
        )
        for cut in dig.cuts
        if cut.bank.high > 0.05
    ]
    rows += [
        (f"heap of {heap.soil}: barrow way", _m(heap.haul, system, 1))
        for heap in out.heaps
        if heap.middle is not None
    ]
    return Day(
        number=number,
        title="the dig",
        leads="Topsoil first and apart; then down to the bottom, each soil to its own heap; trenches last.",
        rows=tuple(rows),
        ticks=(
            f"Edge of the dig marked; boards stand {_m(out.settings.board_distance, system, 1)} outside it.",
            "Formation looked at before anything covers it: firm, no roots, no soft spot.",
            f"Bottom within {_mm(EARTHWORK.value, system)}, measured down from strings or by water level.",
            f"Heaps and wheels at least {_m(HEAP_BACK.value, system, 1)} from the edge, more by local rules.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(
            SERVICES,
            (
                "Nobody enters a dig or trench deeper than local rules allow "
                f"(often {_m(TRENCH.value, system, 1)}) with steep sides: {_slope_words(out)}. "
                "Sand and wet soil fall sooner."
            ),
            LADDER,
            OVERHEAD,
        ),
        notes=tuple(dig_notes(out, system)),
    )


def _deep(to_bottom: float, system: str) -> str:
    """How deep one digs; where the ground lies lower, what is missing."""
    if to_bottom >= 0.0:
        return _m(to_bottom, system, 2)
    return f"{_m(-to_bottom, system, 2)} too low"


def _slope_words(out: SetOut) -> str:
    if out.settings.dig_slope is None:
        return "slope of the sides unknown, so slopes or shores first, by local rules"
    return f"sides at {show(out.settings.dig_slope, 'slope')} or shored"


def _volumes(volume: object, system: str) -> str:
    return show_range(volume, "m3", 0, system)  # type: ignore[arg-type]


def _footing(out: SetOut, number: int, system: str) -> Day:
    rows = [
        (f"{line.number}: {line.words}, from the axis", _m(abs(line.place), system))
        for line in out.plan.strings
        if line.along and ("footing" in line.words or "feet" in line.words)
    ]
    rows += _levels(out, ("footing",), system)
    rows += [
        (f"steps, {one.side}, only if it follows the ground", f"{one.count} of {_mm(one.height, system)}")
        for one in out.heights.steps
    ]
    return Day(
        number=number,
        title="footings",
        leads="Plumb the edges down from the strings, level the tops from the mark, never from the ground.",
        rows=tuple(rows),
        ticks=(
            "Trench bottom firm, clean and level; looked at by whoever must, before it is covered.",
            f"Edges within {_mm(PEG.value, system)} of the strings, tops within {_mm(LEVEL.value, system)}.",
            "Bars, laps, cover and starter bars as the drawing of the supports says, photographed.",
            "Drain and its fall laid and looked at.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(
            LADDER,
            "Wet cement burns skin and eyes: gloves, goggles, water at hand.",
            "Bars that stand up get caps before anybody works above them.",
        ),
    )


def _levels(out: SetOut, words: tuple[str, ...], system: str) -> list[tuple[str, str]]:
    return [
        (f"{row.words}, from the mark", _from_mark(out, row.level, system))
        for row in out.heights.rows
        if any(word in row.words for word in words)
    ]


def _from_mark(out: SetOut, level: float, system: str) -> str:
    down = out.heights.down(level)
    return f"{_m(abs(down), system)} {'down' if down >= 0.0 else 'up'}"


def _walling(out: SetOut, number: int, system: str) -> Day:
    rows = [
        (f"{line.number}: {line.words}, from the axis", _m(abs(line.place), system))
        for line in out.plan.strings
        if line.along and ("wall" in line.words or "feet" in line.words)
    ]
    rows += _levels(out, ("springing", "top of the wall", "foot of the wall", "top of the footing"), system)
    if out.settings.course is not None:
        rows.append(("one course, as laid", _mm(out.settings.course, system)))
    return Day(
        number=number,
        title="walls up to the springing",
        leads="Stand the gauge stick on the footing at every corner; the last course makes it true.",
        rows=tuple(rows),
        ticks=(
            "First course laid dry from both ends, doors and boxes marked on it.",
            f"Faces within {_mm(PEG.value, system)} of the strings, plumb by the bob.",
            f"Springing level all round within {_mm(LEVEL.value, system)}, closed back to the mark.",
            "Line of the feet and every rib scribed on plate or wall.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(
            "Nobody fills soil against a wall before the stages say so.",
            "Above shoulder height work from a scaffold, not from a ladder or a heap.",
        ),
    )


def _raising(out: SetOut, number: int, system: str) -> Day:
    places = out.ribs
    openings = [_opening(one, system) for one in out.openings]
    rib, form = out.form.rib, out.form
    rows = [
        ("ribs, middle to middle", _m(places[1] - places[0], system)),
        (f"rib 1 to rib {len(places)}, middles", _m(places[-1], system)),
        *((f"rib {at + 1}, from rib 1", _m(places[at], system)) for at in _every(len(places))),
        ("span between the feet of the centreline", _m(form.span, system)),
        ("clear span between the inner edges", _m(out.curve.string.clear, system)),
        ("crown, inside, over the springing", _m(float(rib.inside.z.max()) - form.springing, system)),
        ("crown, inside, from the mark", _from_mark(out, float(rib.inside.z.max()), system)),
        ("tape along the centreline, foot to foot", _m(out.curve.string.length, system)),
        *openings,
    ]
    return Day(
        number=number,
        title="ribs and openings",
        leads="Measure every rib from rib 1, never from the one before: small errors would add up.",
        rows=tuple(rows),
        ticks=(
            "Each rib laid on the floor drawing before it goes up; span tied, crown marked.",
            f"Feet on their scribed lines within {_mm(RIB.value, system)}; plumb by bob from the crown.",
            f"Crowns on one string along the axis, within {_mm(RIB.value, system)} in height.",
            "Braces and guys on before the next rib; see the chapter on raising.",
            "Openings marked on plate, end walls and ribs; boxes and trimmers set to the marks.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(LIFTING, OVERHEAD),
    )


def _every(ribs: int) -> range:
    """Ribs whose place is written: every fifth, or as few more as a sheet holds."""
    step = next((step for step in (5, 10, 20) if ribs <= MOST_RIBS * step), 50)
    return range(step - 1, ribs - 1, step)


def _opening(one: OpeningEdges, system: str) -> tuple[str, str]:
    """Both edges of an opening; its sill and head stand in the table."""
    base = "the axis, + right" if one.in_end else "rib 1"
    return (
        f"{one.name}, {one.side}: edges from {base}",
        f"{_m(one.low, system)} and {_m(one.high, system)}",
    )


def _mounding(out: SetOut, number: int, system: str) -> Day:
    form = out.form
    left, right = out.mound.left, out.mound.right
    ground = form.ground.finished
    rows = [
        ("toe left of the axis, in the middle", _m(-left, system, 2)),
        ("toe right of the axis, in the middle", _m(right, system, 2)),
        *((words, _m(value, system, 2)) for words, value in end_toes(out)),
        ("crown of the mound, from the mark", _from_mark(out, form.ground.top, system)),
        *(
            (
                f"finished ground {_m(at, system, 1)} {side} of the axis",
                show(float(ground.level(way * at)), "level", 2, system),
            )
            for at in STATIONS[system]
            for side, way in (("left", -1.0), ("right", 1.0))
            if -left > at and right > at
        ),
    ]
    return Day(
        number=number,
        title="mound",
        leads="Peg the toes, set slope boards, and fill in the lifts and the order of the stages.",
        rows=tuple(rows),
        ticks=(
            "Toes pegged on both sides and at the ends; slope boards at every third rib.",
            "Heights of the lifts painted on posts left and right.",
            "Membrane looked at and photographed before soil covers it.",
            f"Finished slopes within {_mm(EARTHWORK.value, system)} of the boards before turf.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(FILLING, "No machine nearer to the shell than its chapter allows."),
    )
