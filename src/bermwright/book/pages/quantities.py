"""Quantities with their working: nothing is bought on a bare number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Para, Table, plain

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import BookInputs, QuantityList


def quantity_pages(book: BookInputs) -> tuple[Block, ...]:
    """The chapter of quantities."""
    if not book.quantities:
        return ()
    return (
        Heading(
            text="Quantities",
            lead="Net amounts from the geometry, then what to have ready; the working stands beside.",
        ),
        *(block for part in book.quantities for block in _part(part, book.system)),
    )


def _part(part: QuantityList, system: str) -> tuple[Block, ...]:
    sourced = any(line.source for line in part.lines)
    rows = tuple(
        (
            plain(line.what),
            plain(line.amount.text(system)),
            plain(line.working),
            *((plain(line.source),) if sourced else ()),
        )
        for line in part.lines
    )
    head = ("what", "amount", "working", *(("source",) if sourced else ()))
    widths = (3.0, 0.0, 4.0, *((3.0,) if sourced else ()))
    return (
        Heading(text=part.title, level=2),
        *((Para(plain(part.remark)),) if part.remark else ()),
        Table(head=head, rows=rows, align="lrl" + ("l" if sourced else ""), widths=widths, strong=(1,)),
    )
