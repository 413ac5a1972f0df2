"""Quantities with their working: nothing is bought on a bare number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Para, Points, Table, plain
from bermwright.base.sources import Provenance
from bermwright.base.wording import step_words
from bermwright.takeoff.nouns import Group

if TYPE_CHECKING:
    from bermwright.base.sources import Cite
    from bermwright.book.pages.inputs import BookInputs
    from bermwright.takeoff import Quantities, Quantity


def quantity_pages(book: BookInputs) -> tuple[Block, ...]:
    """A chapter for each vault."""
    return tuple(block for counted in book.quantities for block in _chapter(counted, book.system))


def _chapter(counted: Quantities, system: str) -> tuple[Block, ...]:
    return (
        Heading(
            text=f"Quantities for {counted.vault}",
            lead="Where there is a range, have the larger amount ready. The working stands beside.",
        ),
        Points(items=tuple(map(plain, counted.remarks))),
        *(block for group in Group for block in _group(group, counted, system)),
        *_costs(counted, system),
        *_left_out("Not priced: the file gives no price", counted.not_priced),
        *_left_out("Not timed: nobody has published hours", counted.not_timed),
    )


def _group(group: Group, counted: Quantities, system: str) -> tuple[Block, ...]:
    rows = counted.of(group)
    if not rows:
        return ()
    return (
        Heading(text=group.value.capitalize(), level=2),
        Table(
            head=("what", "amount", "working", "source"),
            rows=tuple(_row(row, system) for row in rows),
            align="lrll",
            widths=(4, 0, 6, 3),
            strong=(1,),
        ),
    )


def _row(row: Quantity, system: str) -> tuple[str, str, str, str]:
    note = f" _({plain(row.note)})_" if row.note else ""
    working = "; ".join(f"{step.says}: {step_words(step, system).line}" for step in row.working)
    sources = "; ".join(map(short_source, row.cites))
    return (f"{plain(row.name)}{note}", plain(row.text(system)), plain(working), plain(sources))


def short_source(cite: Cite) -> str:
    """A source as a table has room for: the full title stands in the last chapter."""
    doubt = {Provenance.MEMORY: ", from memory", Provenance.PRACTICE: ", practice"}.get(cite.provenance, "")
    return f"{cite.work.key}, {cite.place}{doubt}"


def _costs(counted: Quantities, system: str) -> tuple[Block, ...]:
    if not counted.costs:
        return ()
    rows = [
        (plain(cost.name), _span(str(cost.low), str(cost.high)), plain(step_words(cost.working, system).line))
        for cost in counted.costs
    ]
    rows += [
        ("*together, of what has a price*", _span(str(low), str(high)), "") for low, high in counted.totals
    ]
    return (
        Heading(text="Cost at the prices of the house file", level=2),
        Table(head=("what", "cost", "working"), rows=tuple(rows), align="lrl", widths=(3, 0, 4), strong=(1,)),
    )


def _span(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"


def _left_out(says: str, names: tuple[str, ...]) -> tuple[Block, ...]:
    return (Para(f"*{says}:* {plain(', '.join(names))}."),) if names else ()
