"""How to print the full-size templates, and every sheet of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, FullPage, Heading, Points, Table
from bermwright.book.templates import (
    TRUE,
    Lengths,
    Stamp,
    curve_templates,
    pattern_title,
    summed_templates,
    template_summary,
)

if TYPE_CHECKING:
    from bermwright.base.drawing import Point
    from bermwright.book.pages.inputs import BookInputs, VaultPages


def template_pages(vault: VaultPages, book: BookInputs, *, stretch: Point = TRUE) -> tuple[Block, ...]:
    """How to print the templates, then every sheet of them; boards that are bent need none."""
    if vault.form.rib.bent:
        return ()
    summary = template_summary(vault.form, book.paper, stretch=stretch)
    stamp = Stamp(house=book.house, revision=book.revision, mark=book.mark)
    lengths = Lengths(system=book.system)
    sheets = summed_templates(vault.form, summary, stamp=stamp, nailing=vault.nailing, lengths=lengths)
    return (
        Heading(
            text=f"Templates for {vault.name}, full size",
            lead=f"{summary.total} sheets of {summary.paper} for {len(summary.patterns)} different pieces.",
        ),
        _how_to_print(summary.total, book.mark, lengths, corrected=stretch != TRUE),
        Table(
            head=("template", "used turned over for", "sheets", "template pages"),
            rows=tuple(
                (
                    pattern_title(pattern),
                    ", ".join(pattern.turned) or "none",
                    str(count),
                    f"{summary.first(number)} to {summary.first(number) + count - 1}",
                )
                for number, (pattern, count) in enumerate(zip(summary.patterns, summary.sheets, strict=True))
            ),
            align="llrr",
            widths=(3, 3, 0, 0),
        ),
        *(FullPage(sheet=sheet) for sheet in sheets),
    )


def curve_pages(vault: VaultPages, book: BookInputs, *, stretch: Point = TRUE) -> tuple[Block, ...]:
    """The whole curve at full size: for forms, end walls and ribs of bent boards."""
    stamp = Stamp(house=book.house, revision=book.revision, mark=book.mark)
    lengths = Lengths(system=book.system)
    sheets = curve_templates(vault.form, book.paper, stamp=stamp, stretch=stretch, lengths=lengths)
    return (
        Heading(
            text=f"The curve of {vault.name}, full size",
            lead=f"{len(sheets)} sheets of {book.paper}, from foot to crown.",
        ),
        _how_to_print(len(sheets), book.mark, lengths, corrected=stretch != TRUE),
        *(FullPage(sheet=sheet) for sheet in sheets),
    )


def _how_to_print(total: int, mark: str, lengths: Lengths, *, corrected: bool) -> Points:
    """What is done before the first cut."""
    scale = (
        "These sheets are corrected for one printer and one paper: its check square must now measure "
        "100.0 mm each way. On any other printer they are wrong."
        if corrected
        else "Print at 100 %, never “fit to page”. Print one sheet and measure its check square: 100.0 mm "
        "each way, 141.4 mm from corner to corner. If it measures 100.6 across and 99.8 up, make the "
        "templates again with --printer-bar 100.6,99.8; beyond 97 to 103 mm the printer fits to the page: "
        "stop."
    )
    return Points(
        items=(
            (
                "*First consider the ordinates.* For large curves a batten through measured points is "
                f"quicker than {total} sheets and does not stretch."
            ),
            scale,
            (
                "Cut along the dashed frame on the sides that lie on a neighbour, lay equal marks (a2 on "
                "a2) on each other, and stick the sheets to a flat board. Sheets without a line are left "
                "out: the map shows which."
            ),
            (
                f"The tint is the side you keep. Figures beside the line of a piece are {lengths.unit} from "
                f"the straight edge of the board; those in the middle are {lengths.unit} along it."
            ),
            (
                "When all sheets are joined, measure the lengths under the drawing and the diagonal: within "
                f"{lengths.tolerance[1:]}, or join them again. Paper grows in damp air. {mark.capitalize()}."
            ),
        ),
        numbered=True,
    )
