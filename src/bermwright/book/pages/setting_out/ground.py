"""Setting out on the ground: pegs, strings and boards, heights, dig, heaps and balance, as tables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.ranges import Range
from bermwright.base.units import show, show_range
from bermwright.book.pages.setting_out.daily.days import day_sheets
from bermwright.book.sheets.setout import Shows, ladder_sheet, plan_sheet
from bermwright.data.setting_out import DIAGONALS, EARTHWORK, LEVEL, PEG, RIB

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut
    from bermwright.takeoff.digging import Balance


def ground_pages(out: SetOut, balance: Balance | None, system: str) -> tuple[Block, ...]:
    """The chapter, with a sheet for each day of work."""
    return (
        Heading(
            text=f"Setting out {plain(out.vault)} on the ground",
            lead="One sheet for each day: take it out, tick it, sign it.",
        ),
        *_open(out),
        *_ground_figure(out, system),
        *(Figure(sheet=sheet) for sheet in day_sheets(out, system)),
        *ground_tables(out, balance, system),
        Figure(sheet=ladder_sheet(out, system=system)),
    )


def _ground_figure(out: SetOut, system: str) -> tuple[Block, ...]:
    """The surveyed points round the house, where there is a survey."""
    if out.survey is None:
        return ()
    sheet = plan_sheet(out, Shows.GROUND, system=system)
    return (
        Figure(
            sheet=sheet,
            caption="Surveyed points: levels from the finished floor; where no room is, a cross alone",
        ),
    )


def ground_text(out: SetOut, balance: Balance | None, system: str) -> tuple[Block, ...]:
    """The numbers alone, without drawings."""
    return (
        Heading(text=f"Setting out {plain(out.vault)}"),
        *_open(out),
        *ground_tables(out, balance, system),
    )


def ground_tables(out: SetOut, balance: Balance | None, system: str) -> tuple[Block, ...]:
    """Every number of it."""
    return (
        Heading(text="Pegs and lengths to check", level=2),
        Para(
            "Along counts from the front rib inward, across from the axis, + to the right as one walks in. "
            f"Tolerances: pegs {_mm(PEG.value, system)}, diagonals {_mm(DIAGONALS.value, system)}, levels "
            f"{_mm(LEVEL.value, system)}, ribs {_mm(RIB.value, system)}, "
            f"earth {_mm(EARTHWORK.value, system)} (common practice, no source).",
            small=True,
        ),
        _pegs(out, system),
        _checks(out, system),
        Heading(text="Strings and boards", level=2),
        _strings(out, system),
        _boards(out, system),
        Heading(text="Heights from one mark", level=2),
        *_heights(out, system),
        *_openings(out, system),
        *_dig(out, balance, system),
    )


def _open(out: SetOut) -> tuple[Block, ...]:
    says = tuple(map(plain, (*out.open, *(out.survey.says if out.survey else ()))))
    if not out.given:
        says = (
            *says,
            "Working space and distances are common practice; write [setting_out] to set your own.",
        )
    return (Points(items=says),) if says else ()


def _mm(value: float, system: str) -> str:
    return show(value, "mm", 0, system)


def _m(value: float, system: str, digits: int = 3) -> str:
    return show(value, "m", digits, system)


def _pegs(out: SetOut, system: str) -> Table:
    return Table(
        head=("peg", "what", "along", "across"),
        rows=tuple(
            (peg.name, peg.words, _m(peg.at[0], system), _m(peg.at[1], system)) for peg in out.plan.pegs
        ),
        align="llrr",
        strong=(2, 3),
    )


def _checks(out: SetOut, system: str) -> Table:
    rows = [(one.between, one.words, _m(one.length, system)) for one in out.plan.checks]
    k = out.plan.triangle
    if k > 0.0:
        sides = " / ".join(_m(share * k, system, 2) for share in (3.0, 4.0, 5.0))
        rows.append(("at each corner", "three, four, five", sides))
    return Table(head=("between", "proves", "length"), rows=tuple(rows), align="llr", strong=(2,))


def _strings(out: SetOut, system: str) -> Table:
    return Table(
        head=("string", "line", "from", "place"),
        rows=tuple(
            (
                str(line.number),
                line.words,
                "the axis" if line.along else "the front rib",
                _m(line.place, system),
            )
            for line in out.plan.strings
        ),
        align="lllr",
        strong=(3,),
    )


def _boards(out: SetOut, system: str) -> Table:
    return Table(
        head=("board", "carries strings", "stands at", "from", "to", "top", "over ground"),
        rows=tuple(
            (
                board.name,
                ", ".join(map(str, board.strings)),
                _m(board.start[0] if board.name[0] in "FB" else board.start[1], system, 2),
                _m(board.start[1] if board.name[0] in "FB" else board.start[0], system, 2),
                _m(board.end[1] if board.name[0] in "FB" else board.end[0], system, 2),
                show(board.top, "level", 3, system),
                _m(board.high, system, 2),
            )
            for board in out.plan.boards
        ),
        align="llrrrrr",
        strong=(2,),
        caption="F and B stand along the axis, L and R across it; from and to count the other way",
    )


def _heights(out: SetOut, system: str) -> Iterator[Block]:
    mark = show(out.heights.datum, "level", 3, system)
    yield Para(
        f"The mark on post H lies {mark} over the finished floor. Fill the hose, let the bubbles out, hold "
        "its water on the mark: the water at the other end stands at the same height. Measure down from it "
        "(or up). Go round and close back on the mark: what it then misses by is spread, or levelled again."
    )
    rows = tuple(
        (
            row.words,
            show(row.level, "level", 3, system),
            _m(abs(out.heights.down(row.level)), system),
            "down" if out.heights.down(row.level) >= 0.0 else "up",
        )
        for row in out.heights.rows
    )
    yield Table(head=("what", "level", "from the mark", ""), rows=rows, align="lrrl", strong=(2,))
    corners = tuple(
        (
            corner.peg,
            show(corner.ground, "level", 2, system),
            _m(corner.to_bottom, system, 2) if corner.to_bottom is not None else "",
            _m(corner.to_footing, system, 2) if corner.to_footing is not None else "",
        )
        for corner in out.heights.corners
    )
    yield Table(
        head=("corner", "ground", "down to the dig", "down to the footing"), rows=corners, align="lrrr",
        caption=out.surface.words,
    )  # fmt: skip
    if out.heights.steps:
        yield Table(
            head=("side", "ground falls", "steps", "each high", "each long", "lap"),
            rows=tuple(
                (
                    one.side, _m(one.fall, system, 2), str(one.count), _mm(one.height, system),
                    _m(one.run, system, 2), _mm(one.lap, system),
                )
                for one in out.heights.steps
            ),
            align="lrrrrr",
            caption="steps, should the footing follow the ground; the file has it level",
        )  # fmt: skip


def _openings(out: SetOut, system: str) -> Iterator[Block]:
    if not out.openings:
        return
    yield Heading(text="Openings", level=2)
    yield Table(
        head=("opening", "in", "counts from", "one edge", "the other", "sill", "head"),
        rows=tuple(
            (
                plain(one.name),
                one.side,
                "the axis, + right" if one.in_end else "the front rib",
                _m(one.low, system),
                _m(one.high, system),
                show(one.sill, "level", 3, system) if one.sill is not None else "",
                show(one.head, "level", 3, system) if one.head is not None else "",
            )
            for one in out.openings
        ),
        align="lllrrrr",
        strong=(3, 4),
    )


def _dig(out: SetOut, balance: Balance | None, system: str) -> Iterator[Block]:
    dig = out.dig
    if dig is None:
        return
    yield Heading(text="Cut, heaps and fill", level=2)
    yield Table(
        head=("soil", "from depth", "to", "in the bank", "in heaps"),
        rows=tuple(
            (
                plain(cut.soil),
                _m(cut.top, system, 2),
                _m(cut.bottom, system, 2) if cut.bottom is not None else "down",
                show_range(cut.bank, "m3", 1, system),
                show_range(cut.loose, "m3", 1, system),
            )
            for cut in dig.cuts
        ),
        align="lrrrr",
        strong=(3, 4),
    )
    yield Para(
        f"Pit with its flattest sides: {show(dig.by_grid, 'm3', 2, system)} by a grid, "
        f"{show(dig.by_sections, 'm3', 2, system)} by {dig.route}. Deepest {_m(dig.deepest, system, 2)}; "
        f"trenches {_m(dig.trench_depth, system, 2)} deeper.",
        small=True,
    )
    placed = [heap for heap in out.heaps if heap.middle is not None]
    if placed:
        yield Table(
            head=("heap", "loose", "long", "wide", "high", "slope", "barrow way"),
            rows=tuple(
                (
                    plain(heap.soil), show(heap.loose, "m3", 0, system), _m(heap.length, system, 1),
                    _m(heap.width, system, 1), _m(heap.height, system, 1),
                    show(heap.repose, "deg", 0, system) if heap.repose is not None else "",
                    _m(heap.haul, system, 1),
                )
                for heap in placed
            ),
            align="lrrrrrr",
        )  # fmt: skip
    if balance is not None:
        yield from _balance(balance, system)


def _balance(balance: Balance, system: str) -> Iterator[Block]:
    def volume(values: object) -> str:
        return show_range(values, "m3", 0, system)  # type: ignore[arg-type]

    rows = (
        (f"the dig gives of {plain(balance.soil)}", volume(balance.cut)),
        ("goes back beside the walls", volume(balance.backfill)),
        ("the mound takes", volume(balance.mound)),
        ("spare, below 0 missing", volume(balance.spare)),
        *(
            (f"other soil of the dig: {plain(name)}", volume(bank))
            for name, bank in balance.other
            if bank.high
        ),
    )
    yield Table(head=("all as it lies in the bank", "volume"), rows=rows, align="lr", strong=(1,))
    if balance.missing:
        lack = show(-balance.spare.high, "m3", 0, system), show(-balance.spare.low, "m3", 0, system)
        yield Notice(
            kind="caution",
            lines=(
                f"Soil is missing: {lack[0]} to {lack[1]} in the bank.",
                "Find it before the ribs stand: dig deeper or wider, borrow from the plot, or order it.",
            ),
        )
    elif balance.spare.low > 0.0:
        yield Para(f"Spare soil stays: {volume(balance.spare)}. Say now where it goes.")
    else:
        yield Para("It may just do, or just not: measure the first heap, then count again.")
    other = [bank for _, bank in balance.other if bank.high > 0.0]
    if other:
        whole = Range(sum(bank.low for bank in other), sum(bank.high for bank in other))
        yield Para(
            f"The other soils, {volume(whole)} in the bank, are not counted for the mound: topsoil goes back "
            "on top, the rest stays over. Say now where it goes."
        )
