"""Ribs of bent boards: which board goes where, and how they are bent and nailed."""

from __future__ import annotations

import math
from itertools import groupby
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table
from bermwright.base.units import show
from bermwright.book.sheets.bent import bent_rib_sheet

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import BookInputs, VaultPages
    from bermwright.form.shapes import RibPiece


def bent_rib_pages(vault: VaultPages, book: BookInputs) -> tuple[Block, ...]:
    """What a rib of bent boards is made of; no template is cut for it."""
    form = vault.form
    rib = form.rib
    board = f"{show(rib.board, 'mm', 0, book.system)} × {show(rib.width, 'mm', 0, book.system)}"
    return (
        Heading(
            text=f"The ribs of {vault.name}",
            lead=f"{form.ribs} ribs of {rib.layers} boards {board}, bent over a form and nailed.",
        ),
        Figure(sheet=bent_rib_sheet(form, system=book.system)),
        _boards(vault, book.system),
        Points(
            items=(
                "No templates: set the inside of the rib out by its ordinates and build the form to it.",
                "Choose straight-grained boards without knots at the edges; soak or steam the stiff ones.",
                "Bend the first board from the crown to both feet and clamp it every 0.3 m before nailing.",
                "Nail each board to the one under it as soon as it lies tight, two rows, from the crown out.",
                "Butt joints of neighbouring boards lie half a board apart; check them against the table.",
                (
                    "Leave the rib on the form overnight: it springs back when it comes off, most in the "
                    "first hour. Measure its span and draw it in with a tie until it is lagged."
                ),
            ),
            numbered=True,
        ),
        Notice(
            kind="caution",
            lines=(
                "A bent board is a spring: stand beside it, never over it, and clamp before you let go.",
                "Steam scalds. A rib is heavy; see Quantities before it is lifted. Local rules come first.",
            ),
        ),
        Para("Layer 1 is the innermost; lengths are along the middle of the board.", small=True),
    )


def _boards(vault: VaultPages, system: str) -> Table:
    pieces = vault.form.rib.pieces
    rows = tuple(_row(layer, tuple(group), vault, system) for layer, group in groupby(pieces, _layer))
    return Table(
        head=("layer", "boards from the left foot, their lengths", "in a rib", "in all"),
        rows=rows,
        align="llrr",
        strong=(3,),
    )


def _layer(piece: RibPiece) -> int:
    return piece.layer


def _row(layer: int, group: tuple[RibPiece, ...], vault: VaultPages, system: str) -> tuple[str, ...]:
    lengths = ", ".join(
        show(math.ceil(piece.blank_length * 1000.0 - 1e-6) / 1000.0, "mm", 0, system) for piece in group
    )
    return str(layer), lengths, str(len(group)), str(len(group) * vault.form.ribs)
