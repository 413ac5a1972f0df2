"""The published values beside what is computed for them."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from bermwright.app.outside.kernels import while_preparing
from bermwright.base.errors import BermwrightError
from bermwright.evidence.catalogue import all_rows
from bermwright.evidence.rows import check
from bermwright.formats.explanation import evidence_row

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.evidence.rows import Outcome, Row


class UnknownWorkError(BermwrightError, KeyError):
    """A key that is no work in the evidence."""

    def __str__(self) -> str:
        return str(self.args[0])


def evidence_data(
    work: str | None = None, progress: Callable[[str], None] = lambda _step: None
) -> list[dict[str, Any]]:
    """Every row, or those of one work, as plain data."""
    rows = all_rows()
    keys = sorted({row.cite.work.key for row in rows})
    if work is not None and work not in keys:
        raise UnknownWorkError(f"There is no evidence from {work!r}. There is from: {', '.join(keys)}.")
    wanted = [row for row in rows if work in {None, row.cite.work.key}]
    progress = while_preparing(progress)
    return [evidence_row(_checked(row, progress)) for row in wanted]


def _checked(row: Row, progress: Callable[[str], None]) -> Outcome:
    progress(f"evidence from {row.cite.work.key}")
    return check(row)


def evidence_text(rows: list[dict[str, Any]]) -> str:
    """One line a row, then the count by kind and by what rests on memory."""
    lines = [
        f"{'agrees ' if row['agrees'] else 'DIFFERS'}  {row['id']:<34} expected {row['expected']:>10} "
        f"computed {_figure(row['computed']):>12} {row['unit']:<8} {row['provenance']}"
        for row in rows
    ]
    kinds = Counter(row["kind"] for row in rows)
    memory = sum(row["provenance"] == "memory" for row in rows)
    functions = len({row["function"] for row in rows})
    lines.append("")
    counted = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
    lines.append(
        f"{len(rows)} values ({counted}) for {functions} functions; "
        f"{sum(row['agrees'] for row in rows)} agree; {memory} rest on memory and need review."
    )
    return "\n".join(lines)


def _figure(value: float | None) -> str:
    return "unknown" if value is None else f"{value:.6g}"
