"""The pages of docs/reference, each a function that gives its text."""

from __future__ import annotations

from collections import Counter
from itertools import groupby
from typing import TYPE_CHECKING

from bermwright.data.works.catalogue import all_works
from bermwright.evidence import all_rows
from docstrings import Described, public_functions
from page_parts import NOTE, table

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.evidence import Row


def handbook_page() -> str:
    """Every public handbook function."""
    counts = Counter(row.function for row in all_rows())
    parts = ["# Handbook\n", NOTE, HANDBOOK]
    for subject, functions in groupby(public_functions(), key=subject_of):
        rows = [
            (
                f"`{described.function.__name__}`",
                described.summary,
                ", ".join(f"{p.name} [{p.unit}]" if p.unit else p.name for p in described.parameters),
                ", ".join(described.keys),
                str(counts[described.name]),
            )
            for described in functions
        ]
        parts.append(f"## {subject}\n")
        parts.append(table(("function", "gives", "from", "sources", "values"), rows))
    return "\n".join(parts)


HANDBOOK = """\
Plain equations, usable without the rest: `from bermwright.handbook import curves`.
SI numbers or numpy arrays in, the same out; outside its range a function raises `OutOfRangeError`.
The last column counts the published, derived and independent values that it must give.
"""


def subject_of(described: Described) -> str:
    """The folder of the handbook in which a function lives."""
    return described.name.split(".")[2]


def evidence_page() -> str:
    """Every value that the program must give."""
    rows = all_rows()
    kinds = Counter(str(row.kind) for row in rows)
    counted = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
    parts = ["# Evidence\n", NOTE, EVIDENCE.format(count=len(rows), counted=counted)]
    for key, group in groupby(
        sorted(rows, key=lambda row: row.cite.work.key), key=lambda row: row.cite.work.key
    ):
        work = all_works()[key]
        parts.append(f"## {key}\n\n{work}\n")
        parts.append(
            table(("id", "function", "expected", "kind", "place", "known by"), map(evidence_line, group))
        )
    return "\n".join(parts)


EVIDENCE = """\
{count} values: {counted}.
Each is written as printed; half its last digit is the tolerance unless its note says why it is wider.
`bermwright evidence` computes them all.
"""


def evidence_line(row: Row) -> tuple[str, ...]:
    """One value as a line of the table."""
    wider = "" if row.rel is None else f" ± {100 * row.rel:g} %"
    name = row.function.removeprefix("bermwright.handbook.")
    expected = f"{row.expected} {row.unit}".strip() + wider
    return (row.id, f"`{name}`", expected, str(row.kind), row.cite.place, str(row.cite.provenance))


def works_page() -> str:
    """The bibliography."""
    rows = [(work.key, str(work), work.locator) for _, work in sorted(all_works().items())]
    return "\n".join(["# Works\n", NOTE, table(("key", "work", "where"), rows)])


PAGES: dict[str, Callable[[], str]] = {
    "handbook.md": handbook_page,
    "evidence.md": evidence_page,
    "works.md": works_page,
}
