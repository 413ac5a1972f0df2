"""What a rib is made of: its pieces, their boards and the angles of their ends."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.pages.setting_out.bent import bent_rib_pages
from bermwright.book.sheets import detail_sheet, rib_sheets
from bermwright.book.templates import template_summary
from bermwright.book.templates.rib import foot_first

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import BookInputs, VaultPages
    from bermwright.book.templates import Pattern, TemplateSummary


def rib_pages(vault: VaultPages, book: BookInputs) -> tuple[Block, ...]:
    """What a rib is made of."""
    if vault.form.rib.bent:
        return bent_rib_pages(vault, book)
    form, summary = vault.form, template_summary(vault.form, book.paper)
    rib = form.rib
    lead = (
        f"{form.ribs} ribs, {rib.layers} layers, {show(rib.width / rib.layers, 'mm', 0, book.system)} boards."
    )
    return (
        Heading(text=f"The ribs of {plain(vault.name)}", lead=lead),
        *(Figure(sheet=sheet) for sheet in rib_sheets(form, width=174.0, height=230.0, system=book.system)),
        _pieces(summary, vault, book.system),
        Points(
            items=(
                (
                    "Cut square to the face of the board, to the line, ±1 mm. The ends are cut square to the "
                    "curve: the angle in the table is how far each is off square to the straight edge of the "
                    "board."
                ),
                (
                    "Pieces with the same shape share one template. Left and right are mirror images: turn "
                    "the template over."
                ),
                (
                    "Lay the first layer dry on the marked-out floor, check span and crown level, then nail. "
                    "No two joints of different layers meet."
                ),
                (
                    "Seasoned boards without large knots at edges and ends. Keep the offcuts: they make "
                    "blocks and wedges."
                ),
            )
        ),
        Para(
            "Saws: guard on, eyes and ears covered. A finished rib is heavy; see Quantities before it is "
            "lifted. Local rules come first."
        ),
        Heading(text="The foot of a rib", level=2),
        Figure(sheet=detail_sheet(form, supports=vault.supports, system=book.system)),
        *_feet(vault),
    )


def _feet(vault: VaultPages) -> tuple[Block, ...]:
    """What the ribs ask of their walls or footing, as ranges over the soil runs."""
    if not vault.foot_forces:
        return ()
    return (
        Heading(text="What the feet give their support", level=2),
        Points(items=tuple(map(plain, vault.foot_forces))),
    )


def _pieces(summary: TemplateSummary, vault: VaultPages, system: str) -> Table:
    rows = tuple(_piece_row(pattern, vault, system) for pattern in summary.patterns)
    return Table(
        head=(
            "pieces",
            "layers",
            "board length",
            "board width",
            "end at foot",
            "end at crown",
            "in a rib",
            "in all",
        ),
        rows=rows,
        align="lrrrrrrr",
        strong=(7,),
        widths=(1, 0, 0, 0, 0, 0, 0, 0),
    )


def _piece_row(pattern: Pattern, vault: VaultPages, system: str) -> tuple[str, ...]:
    piece = pattern.flat.piece
    bevels = foot_first(piece.end_bevels, mirrored=pattern.flat.mirrored)
    return (
        ", ".join(pattern.names),
        ", ".join(map(str, pattern.layers)),
        *(show(_up(size), "mm", 0, system) for size in (piece.blank_length, piece.blank_width)),
        *(show(abs(bevel), "deg", 1, system) for bevel in bevels),
        str(pattern.per_rib),
        str(pattern.per_rib * vault.form.ribs),
    )


def _up(metres: float) -> float:
    """Rounded up to a millimetre: what is needed is never rounded down."""
    return math.ceil(metres * 1000.0 - 1e-6) / 1000.0
