"""Quantities for the terminal: each amount with its working under it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show, show_range
from bermwright.base.wording import level_text, step_words
from bermwright.formats.assessment_text import CLOSING, wrapped
from bermwright.takeoff.nouns import Group

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.takeoff import LiftRow, Quantities, Quantity


def quantities_text(house: str, counted: Sequence[Quantities], system: str = "metric") -> str:
    """Every vault and dome, heading by heading."""
    lines = [wrapped(f"{house}: what is needed. Where there is a range, have the larger amount ready.")]
    for one in counted:
        lines += ["", one.vault, "=" * min(len(one.vault), 92), *_vault(one, system)]
    return "\n".join([*lines, "", CLOSING])


def _vault(counted: Quantities, system: str) -> Iterator[str]:
    for remark in counted.remarks:
        yield wrapped(f"- {remark}")
    for group in Group:
        rows = counted.of(group)
        if rows:
            yield ""
            yield group.value.capitalize()
            yield from (line for row in rows for line in _row(row, system))
    if counted.lifts:
        yield ""
        yield "Fill, lift by lift: compacted, loose, barrow loads (left / right)"
        yield from (_lift(lift, system) for lift in counted.lifts)
    yield from _costs(counted, system)
    yield from _left_out("Not priced, because the file gives no price", counted.not_priced)
    yield from _left_out("Not timed, because nobody has published hours", counted.not_timed)


def _row(row: Quantity, system: str) -> Iterator[str]:
    doubt = "  (needs review)" if row.needs_review else ""
    yield wrapped(f"{row.name}: {row.text(system)}{doubt}", "  ")
    for step in row.working:
        words = step_words(step, system)
        source = f" [{words.source}]" if words.source else ""
        yield wrapped(f"{words.says}: {words.line}{source}", "      ")
    if row.note:
        yield wrapped(f"note: {row.note}", "      ")


def _lift(lift: LiftRow, system: str) -> str:
    compacted = " / ".join(show(volume, "m3", 1, system) for volume in (lift.left, lift.right))
    loose = " / ".join(show_range(volume, "m3", 1, system) for volume in (lift.left_loose, lift.right_loose))
    loads = " / ".join(f"{loads.high:.0f}" for loads in (lift.left_loads, lift.right_loads))
    levels = f"{level_text(lift.below, system)} to {level_text(lift.above, system)}"
    return wrapped(f"{levels}: {compacted}; {loose}; at most {loads}", "  ")


def _costs(counted: Quantities, system: str) -> Iterator[str]:
    if not counted.costs:
        return
    yield ""
    yield "Cost, by the prices in the file"
    for row in counted.costs:
        note = f" ({row.note})" if row.note else ""
        yield wrapped(f"{row.name}: {_span(str(row.low), str(row.high))}{note}", "  ")
        yield wrapped(step_words(row.working, system).line, "      ")
    for low, high in counted.totals:
        yield wrapped(f"together, of what has a price: {_span(str(low), str(high))}", "  ")


def _span(low: str, high: str) -> str:
    return low if low == high else f"{low} to {high}"


def _left_out(says: str, names: tuple[str, ...]) -> Iterator[str]:
    if names:
        yield ""
        yield wrapped(f"{says}: {', '.join(names)}.")
