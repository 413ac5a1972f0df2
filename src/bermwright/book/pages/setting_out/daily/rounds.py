"""A dome set out from its middle: a sheet for the day, circles, pegs, levels, openings and dig as tables."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import show, show_range
from bermwright.book.pages.setting_out.daily.days import LADDER, OVERHEAD, SERVICES, SHARP
from bermwright.book.sheets.setout.day import TALLEST, Day, day_sheet
from bermwright.book.sheets.setout.round import round_sheet
from bermwright.data.setting_out import DIAGONALS, EARTHWORK, LEVEL, PEG, TRENCH
from bermwright.form.setout import SetOutError, round_out, tape_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Sheet
    from bermwright.form.setout.rounds import Circle, RoundOut
    from bermwright.rules.assess import Assessment

PLANS = tuple(range(132, 64, -4))
"""Heights of the plan that are tried until the words under it fit as well (mm)."""


def round_blocks(out: RoundOut, system: str) -> Iterator[Block]:
    """Every number, without drawings."""
    yield Heading(text=f"Setting out {plain(out.dome)} from its middle")
    if out.open:
        yield Points(items=tuple(map(plain, out.open)))
    yield Para(
        "M is a pipe set plumb in the middle and never moved; the chain turns about the pole in it, level. "
        "Q0 lies towards the zero mark, Q1 to Q3 follow clockwise as seen from above. Tolerances: pegs "
        f"{_mm(PEG.value, system)}, diagonals {_mm(DIAGONALS.value, system)}, levels "
        f"{_mm(LEVEL.value, system)}, earth {_mm(EARTHWORK.value, system)} (common practice, no source).",
        small=True,
    )
    yield Table(
        head=("circle", "radius", "chain from its hook"),
        rows=tuple((one.words, _m(one.radius, system), _m(one.chain, system)) for one in out.circles),
        align="lrr",
        strong=(1, 2),
    )
    yield Table(
        head=("between", "proves", "length"), rows=tuple(_checks(out, system)), align="llr", strong=(2,)
    )
    yield Heading(text="Heights from one mark", level=2)
    yield Table(
        head=("what", "level", "from the mark"), rows=tuple(_heights(out, system)), align="lrr", strong=(2,)
    )
    if out.marks:
        yield Heading(text="Openings on the inner circle", level=2)
        yield _openings(out, system)
    if out.cuts:
        yield Heading(text="Cut and heaps", level=2)
        yield from _dig(out, system)


def _m(value: float, system: str, digits: int = 3) -> str:
    return show(value, "m", digits, system)


def _mm(value: float, system: str) -> str:
    return show(value, "mm", 0, system)


def _deg(value: float) -> str:
    return f"{math.degrees(value) % 360.0:.1f}°"


def _checks(out: RoundOut, system: str) -> Iterator[tuple[str, str, str]]:
    yield "M–Q0, M–Q1, M–Q2, M–Q3", "cross of pegs outside the dig", _m(out.pegs, system)
    for one in out.checks:
        yield one.between, one.words, _m(one.length, system)
    if out.triangle > 0.0:
        sides = " / ".join(_m(share * out.triangle, system, 2) for share in (3.0, 4.0, 5.0))
        yield "at M, on both lines", "three, four, five", sides


def _heights(out: RoundOut, system: str) -> Iterator[tuple[str, str, str]]:
    """Levels, and the ground at the middle and the four pegs, from the mark on post H."""
    yield "MARK on post H", show(out.datum, "level", 3, system), ""
    for row in out.heights:
        yield row.words, show(row.level, "level", 3, system), _from_mark(out.datum, row.level, system)
    for name, level in zip(("M", "Q0", "Q1", "Q2", "Q3"), out.ground, strict=True):
        if math.isfinite(level):
            yield f"ground at {name}", show(level, "level", 2, system), _from_mark(out.datum, level, system)


def _from_mark(datum: float, level: float, system: str) -> str:
    down = datum - level
    return f"{_m(abs(down), system)} {'down' if down >= 0.0 else 'up'}"


def _openings(out: RoundOut, system: str) -> Table:
    return Table(
        head=("opening", "one edge", "the other", "straight from the zero mark", "sill", "head"),
        rows=tuple(
            (
                plain(one.name), _deg(one.turns[0]), _deg(one.turns[1]),
                " and ".join(_m(chord, system) for chord in one.chords),
                show(one.sill, "level", 3, system), show(one.head, "level", 3, system),
            )
            for one in out.marks
        ),
        align="lrrrrr",
        strong=(3,),
        caption="degrees clockwise from the zero mark, as seen from above",
    )  # fmt: skip


def _dig(out: RoundOut, system: str) -> Iterator[Block]:
    yield Table(
        head=("soil", "from depth", "to", "in the bank", "in heaps"),
        rows=tuple(
            (
                plain(cut.soil), _m(cut.top, system, 2),
                _m(cut.bottom, system, 2) if cut.bottom is not None else "down",
                show_range(cut.bank, "m3", 1, system), show_range(cut.loose, "m3", 1, system),
            )
            for cut in out.cuts
        ),
        align="lrrrr",
        strong=(3, 4),
    )  # fmt: skip
    yield Table(
        head=("direction from the zero mark", "upper edge from the middle"),
        rows=tuple((_deg(turn), _m(radius, system, 2)) for turn, radius in out.edge),
        align="rr",
        caption="with the slope of the file" if out.known_slope else "with sides of 1:1.5",
    )


def round_days(out: RoundOut, system: str = "metric") -> tuple[Sheet, ...]:
    """A sheet for the day of cross and dig, and one for the day of circles and openings."""
    return tuple(_fitting(out, day, system, circles=day.number > 1) for day in _days(out, system))


def _fitting(out: RoundOut, day: Day, system: str, *, circles: bool) -> Sheet:
    """The day's sheet with its plan as large as the words under it allow."""
    sheets = (
        day_sheet(day, round_sheet(out, circles=circles, tallest=size, system=system)) for size in PLANS
    )
    last = day_sheet(day, round_sheet(out, circles=circles, tallest=PLANS[-1], system=system))
    return next((sheet for sheet in sheets if sheet.height <= TALLEST), last)


def _days(out: RoundOut, system: str) -> tuple[Day, Day]:
    return _first_day(out, system), _second_day(out, system)


def _first_day(out: RoundOut, system: str) -> Day:
    rows = [(f"{names}: {words}", value) for names, words, value in _checks(out, system)]
    bottom = out.circles[-1]
    edge = ", ".join(f"{_deg(turn)} {_m(radius, system, 2)}" for turn, radius in out.edge)
    notes = [f"Post H: {_m(out.post, system, 2)} from the middle, half-way between Q0 and Q1."]
    notes += [f"Upper edge of the dig, from the middle: {edge}."] if out.edge else []
    notes += [
        f"{cut.soil}: {show_range(cut.bank, 'm3', 0, system)} in the bank, "
        f"{show_range(cut.loose, 'm3', 0, system)} in heaps."
        for cut in out.cuts
    ]
    return Day(
        number=1,
        title="middle, cross and dig",
        leads="Set the pipe of the middle, the cross of pegs outside the dig, and sweep the bottom by chain.",
        rows=(
            *rows,
            (f"circle, {bottom.words}: radius / chain", _pair(bottom, system)),
            *_levels(out, ("floor", "bottom", "ground"), system),
        ),
        ticks=(
            "Post H stands where no machine goes; its mark is the datum for everything.",
            f"Pipe M plumb both ways, {_mm(PEG.value, system)} at its top; found again from Q0 to Q3.",
            f"Q0–Q2 and Q1–Q3 alike within {_mm(DIAGONALS.value, system)}, all four sides alike.",
            f"Bottom level within {_mm(EARTHWORK.value, system)}, firm, looked at before it is covered.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(
            SERVICES,
            OVERHEAD,
            SHARP,
            (
                "Nobody enters a dig deeper than local rules allow "
                f"(often {_m(TRENCH.value, system, 1)}) with steep sides: slopes or shores first."
            ),
            LADDER,
        ),
        notes=tuple(notes),
    )


def _second_day(out: RoundOut, system: str) -> Day:
    return Day(
        number=2,
        title="circles and openings",
        leads="Sweep the circles by chain, held level; peg both edges of every opening on the inner circle.",
        rows=(
            *((f"circle, {one.words}: radius / chain", _pair(one, system)) for one in out.circles[:-1]),
            *_levels(out, ("hook", "springing", "floor"), system),
            *(
                (
                    f"{one.name}: edges straight from the zero mark",
                    " and ".join(_m(chord, system) for chord in one.chords),
                )
                for one in out.marks
            ),
        ),
        ticks=(
            "Pipe M found again from Q0 to Q3 before the first sweep.",
            "Chain held level at every sweep; its length measured again after each circle.",
            f"Inner circle measured across on both lines, within {_mm(PEG.value, system)}.",
            "Edges of openings pegged on the inner circle from both sides; width measured between them.",
            f"First course level all round within {_mm(LEVEL.value, system)}, closed back to the mark.",
            "Measured by two people; signed: ______________",
        ),
        cautions=(SHARP, "Steel and chain swing: nobody stands inside the sweep but who holds it."),
    )


def _levels(out: RoundOut, words: tuple[str, ...], system: str) -> tuple[tuple[str, str], ...]:
    return tuple(
        (f"{what}, from the mark", down)
        for what, _, down in _heights(out, system)
        if down and any(word in what for word in words)
    )


def _pair(one: Circle, system: str) -> str:
    return f"{_m(one.radius, system)} / {_m(one.chain, system)}"


def round_pages(out: RoundOut, system: str) -> tuple[Block, ...]:
    """A sheet for each day and every number."""
    first, *rest = round_blocks(out, system)
    return (first, *(Figure(sheet=sheet) for sheet in round_days(out, system)), *rest)


def rounds_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Every dome of the house set out from its middle; where one cannot be, why."""
    for dome in assessment.house.domes:
        try:
            out = round_out(assessment.house, dome, tape=tape_of(system))
        except SetOutError as error:
            yield Heading(text=f"Setting out {plain(dome.name)} from its middle")
            yield Notice(kind="caution", lines=(plain(str(error)),))
            continue
        yield from round_pages(out, system)
