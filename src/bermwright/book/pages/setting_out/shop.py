"""Curves for the workshop floor besides ordinates: arcs, boards on nails, string, fairing table."""

from __future__ import annotations

from itertools import zip_longest
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Para, Points, Table
from bermwright.base.units import show
from bermwright.book.pages.setting_out.curve import ordinate_tables
from bermwright.book.sheets.setout import curve_sheet
from bermwright.data.setting_out import RIB

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import CurveOut, MeasuredRow, SetOut


def shop_pages(out: SetOut, system: str) -> tuple[Block, ...]:
    """How the curve is drawn without ordinates, and how they are proved."""
    return (
        Heading(text="By centres, boards and string", level=2),
        *_arcs(out, system),
        *_string(out, system),
        *_fairing(out.curve, system),
    )


def shop_tables(out: SetOut, system: str) -> tuple[Block, ...]:
    """The numbers alone, without drawings; the ordinates first."""
    near_crown, near_feet = ordinate_tables(out.form, system)
    return (
        Heading(text="Ordinates near the crown: heights over the springing", level=2),
        *near_crown,
        Heading(text="Ordinates near the feet: distances from the axis", level=2),
        *near_feet,
        *_without_drawings(out, system),
    )


def _without_drawings(out: SetOut, system: str) -> tuple[Block, ...]:
    return tuple(block for block in shop_pages(out, system) if not isinstance(block, Figure))


def _m(value: float, system: str, digits: int = 3) -> str:
    return show(value, "m", digits, system)


def _arcs(out: SetOut, system: str) -> Iterator[Block]:
    curve = out.curve
    if not curve.arcs:
        yield Para("No chain of arcs comes near this curve: use the ordinates.")
        return
    yield Figure(sheet=curve_sheet(out, system=system))
    yield Para(
        f"{len(curve.arcs)} arcs with common tangents follow the centreline within "
        f"{show(curve.deviation, 'mm', 1, system)}. Inside and outside are drawn from the same centres: true "
        "parallels. Centres count from the axis (+ right) and over the springing (− below)."
        + (" That is more than a rib may be off: take the ordinates." if curve.deviation > RIB.value else "")
    )
    yield Table(
        head=("centre", "from axis", "over springing", "R inside", "R middle", "R outside"),
        rows=tuple(
            (
                f"C{number}",
                *(_m(value, system) for value in (arc.x, arc.z, arc.inside, arc.centreline, arc.outside)),
            )
            for number, arc in enumerate(curve.arcs, start=1)
        ),
        align="lrrrrr",
        strong=(3,),
    )
    flat = [(number, arc) for number, arc in enumerate(curve.arcs, start=1) if arc.boards is not None]
    if flat:
        yield Para(
            "*Three nails, two boards.* Where a centre is out of reach: a nail at each end of the arc, two "
            "straight boards as long as the chord, joined at this angle, slid along both nails with the "
            "pencil at the corner."
        )
        yield Table(
            head=("arc", "nails apart", "rise", "angle of the boards"),
            rows=tuple(
                (
                    f"{number}",
                    _m(arc.chord, system),
                    _m(arc.rise, system),
                    show(arc.boards or 0.0, "deg", 2, system),
                )
                for number, arc in flat
            ),
            align="lrrr",
            strong=(3,),
            caption="for the inside of the ribs",
        )


def _string(out: SetOut, system: str) -> Iterator[Block]:
    line = out.curve.string
    yield Heading(text="String", level=2)
    yield Table(
        head=("measure", "length"),
        rows=(
            ("nails apart, feet of the centreline", _m(line.nails, system)),
            ("clear span, inner edges of the feet", _m(line.clear, system)),
            ("shell, square to the curve", show(line.thickness, "mm", 0, system)),
            ("the curve itself, nail to nail", _m(line.length, system)),
            ("a string that hangs as low as the crown is high", _m(line.hung, system)),
            ("crown moves for 10 mm of string", show(0.01 * line.crown_share, "mm", 1, system)),
        ),
        align="lr",
        strong=(1,),
    )
    hung = (
        "Hang the string between the nails: it gives the centreline upside down."
        if line.hangs
        else "A hung string does not give this curve; its length is only a check."
    )
    yield Points(
        items=(
            hung,
            "Between the nails: the clear span, and the shell's thickness times the sine of the foot slope.",
            "Inside and outside are measured square to the string, half the thickness each way.",
        )
    )


def _fairing(curve: CurveOut, system: str) -> Iterator[Block]:
    yield Heading(text="Fairing table, inside of the ribs", level=2)
    yield Para(
        "Heights over the springing at even steps, their differences and the differences of those. Along a "
        "fair curve the last column changes slowly: a jump up, down and up again names the wrong ordinate in "
        "its middle. Compare measured ones with `bermwright setout FILE --ordinates TABLE`."
    )
    rows = []
    second = (None, *curve.fair.second, None)
    for place, height, first, bend in zip_longest(curve.stations, curve.heights, curve.fair.first, second):
        rows.append(
            (
                _m(place, system, 2),
                _m(height, system),
                show(first, "mm", 1, system) if first is not None else "",
                show(bend, "mm", 1, system) if bend is not None else "",
            )
        )
    yield Table(
        head=("from axis", "height", "to the next", "second difference"),
        rows=tuple(rows),
        align="rrrr",
        strong=(1,),
    )


def measured_blocks(rows: tuple[MeasuredRow, ...], system: str) -> tuple[Block, ...]:
    """Measured ordinates beside the drawn ones."""
    wrong = [row for row in rows if row.unfair]
    worst = max(rows, key=lambda row: abs(row.off))
    names = " and ".join(_m(row.at, system, 2) for row in wrong)
    said = (
        f"Not fair: at {names} from the axis. Measure there again before anything is moved."
        if wrong
        else "All ordinates are fair."
    )
    return (
        Heading(text="Measured ordinates", level=2),
        Para(
            f"{said} The largest distance from the drawing is {show(worst.off, 'mm', 0, system)}, at "
            f"{_m(worst.at, system, 2)}."
        ),
        Table(
            head=("from axis", "measured", "drawn", "off", "note"),
            rows=tuple(
                (
                    _m(row.at, system, 2),
                    _m(row.measured, system),
                    _m(row.drawn, system),
                    show(row.off, "mm", 0, system),
                    "not fair" if row.unfair else "",
                )
                for row in rows
            ),
            align="rrrrl",
            strong=(3,),
        ),
    )
