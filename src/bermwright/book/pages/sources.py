"""The works behind the numbers, each with the places used and how we know what stands there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Para, Table, plain
from bermwright.base.sources import Provenance

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.base.sources import Cite, Work
    from bermwright.book.pages.inputs import BookInputs

_KNOWN = {
    Provenance.READ: "read",
    Provenance.DERIVED: "derived here",
    Provenance.MEMORY: "*from memory: confirm*",
    Provenance.PRACTICE: "*common practice, no source: confirm*",
    Provenance.BUILDER: "said by the builder",
}


def all_cites(book: BookInputs) -> tuple[Cite, ...]:
    """Every source that a finding, its working or the book itself names."""
    found = [cite for finding in book.findings for cite in finding.cites]
    found += [step.cite for finding in book.findings for step in finding.steps if step.cite]
    return tuple(dict.fromkeys((*found, *book.cites)))


def source_pages(book: BookInputs) -> tuple[Block, ...]:
    """The chapter of sources."""
    cites = all_cites(book)
    if not cites:
        return ()
    doubtful = sum(cite.provenance.needs_review for cite in cites)
    count = (
        f"{doubtful} of {len(cites)} places rest on memory or on practice without a source."
        if doubtful
        else ""
    )
    rows = tuple(
        row for work in _works(cites) for row in _rows(work, [cite for cite in cites if cite.work == work])
    )
    return (
        Heading(
            text="Sources",
            lead="What is marked must be confirmed in the work itself before anybody relies on it.",
        ),
        *((Para(count),) if count else ()),
        Table(head=("work", "places", "how we know"), rows=rows, align="lll", widths=(5, 3, 2)),
    )


def _works(cites: Iterable[Cite]) -> list[Work]:
    return sorted({cite.work for cite in cites}, key=lambda work: work.key)


def _rows(work: Work, cites: list[Cite]) -> list[tuple[str, str, str]]:
    """One row for each way of knowing."""
    groups: dict[Provenance, list[str]] = {}
    for cite in cites:
        groups.setdefault(cite.provenance, []).append(cite.place)
    name = f"{work}. {work.locator}" if work.locator else str(work)
    return [
        (plain(name) if first else "", plain("; ".join(sorted(set(places)))), _KNOWN[provenance])
        for first, (provenance, places) in zip([True] + [False] * len(groups), groups.items(), strict=False)
    ]
