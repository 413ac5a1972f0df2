"""The published values beside what is computed for them."""

from __future__ import annotations

from collections import Counter
from typing import Any

from bermwright.base.errors import BermwrightError
from bermwright.evidence.catalogue import all_rows
from bermwright.evidence.rows import Outcome, check


class UnknownWorkError(BermwrightError, KeyError):
    """A key that is no work in the evidence."""

    def __str__(self) -> str:
        return str(self.args[0])


def evidence_data(work: str | None = None) -> list[dict[str, Any]]:
    """Every row, or those of one work, as plain data."""
    rows = all_rows()
    keys = sorted({row.cite.work.key for row in rows})
    if work is not None and work not in keys:
        raise UnknownWorkError(f"There is no evidence from {work!r}. There is from: {', '.join(keys)}.")
    return [_data(check(row)) for row in rows if work in {None, row.cite.work.key}]


def _data(outcome: Outcome) -> dict[str, Any]:
    row = outcome.row
    finite = outcome.computed == outcome.computed and abs(outcome.computed) != float("inf")
    return {
        "id": row.id,
        "work": row.cite.work.key,
        "title": str(row.cite.work),
        "place": row.cite.place,
        "kind": str(row.kind),
        "function": row.function,
        "expected": row.expected,
        "computed": outcome.computed if finite else None,
        "unit": row.unit,
        "tolerance": outcome.tolerance,
        "provenance": str(row.cite.provenance),
        "agrees": outcome.agrees,
        "note": row.note,
    }


def evidence_text(rows: list[dict[str, Any]]) -> str:
    """One line a row, then the count by kind and by what rests on memory."""
    lines = [
        f"{'agrees' if row['agrees'] else 'DIFFERS'}  {row['id']:<34} expected {row['expected']:>10} "
        f"computed {_figure(row['computed']):>12} {row['unit']:<8} {row['provenance']}"
        for row in rows
    ]
    kinds = Counter(row["kind"] for row in rows)
    memory = sum(row["provenance"] == "memory" for row in rows)
    functions = len({row["function"] for row in rows})
    lines.append("")
    lines.append(
        f"{len(rows)} values ({', '.join(f'{n} {kind}' for kind, n in sorted(kinds.items()))}) for {functions} "
        f"functions; {sum(row['agrees'] for row in rows)} agree; {memory} rest on memory and need review."
    )
    return "\n".join(lines)


def _figure(value: float | None) -> str:
    return "unknown" if value is None else f"{value:.6g}"
