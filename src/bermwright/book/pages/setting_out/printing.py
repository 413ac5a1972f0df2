"""How to print the full-size templates, and every sheet of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, FullPage, Heading, Points, Table
from bermwright.book.templates import Stamp, pattern_title, rib_templates, template_summary

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import BookInputs, VaultPages


def template_pages(vault: VaultPages, book: BookInputs) -> tuple[Block, ...]:
    """How to print the templates, then every sheet of them; boards that are bent need none."""
    if vault.form.rib.bent:
        return ()
    summary = template_summary(vault.form, book.paper)
    stamp = Stamp(house=book.house, revision=book.revision, mark=book.mark)
    sheets = rib_templates(vault.form, book.paper, stamp=stamp, nailing=vault.nailing)
    return (
        Heading(
            text=f"Templates for {vault.name}, full size",
            lead=f"{summary.total} sheets of {summary.paper} for {len(summary.patterns)} different pieces.",
        ),
        Points(
            items=(
                (
                    "*First consider the ordinates.* For large curves a batten through measured points is "
                    f"quicker than {summary.total} sheets and does not stretch."
                ),
                (
                    "Print at 100 %, never “fit to page”. Print one sheet and measure its check square: "
                    "100.0 mm each way, 141.4 mm from corner to corner. If it is not, stop: the "
                    "printer's scale is wrong."
                ),
                (
                    "Cut along the dashed frame on the sides that lie on a neighbour, lay equal marks (a2 on "
                    "a2) on each other, and stick the sheets to a flat board. Sheets without a line are left "
                    "out: the map shows which."
                ),
                (
                    "The tint is the side you keep. Figures beside the line are millimetres from the "
                    "straight edge of the board; those in the middle are millimetres along it."
                ),
                (
                    "Paper grows in damp air: check the chord of each piece against its figures. "
                    f"{book.mark.capitalize()}."
                ),
            ),
            numbered=True,
        ),
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
