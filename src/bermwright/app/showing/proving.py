"""What checks the equations behind a finding: each function of the handbook with the values it must give."""

from __future__ import annotations

import importlib
import math
from collections import Counter
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from bermwright.app.outside.behind import HANDBOOK, functions_behind
from bermwright.base.wording import source_text
from bermwright.evidence.catalogue import all_rows
from bermwright.evidence.rows import Kind, check
from bermwright.rules.registry import rule_named

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.evidence.rows import Outcome

ORDER = {Kind.PUBLISHED: 0, Kind.INDEPENDENT: 1, Kind.DERIVED: 2}
"""What was printed by others comes first."""
ROUNDING = 1e-9
"""A share that is less than this is the machine's own rounding (-)."""


@lru_cache(maxsize=32)
def proof_of(rule: str) -> dict[str, Any]:
    """Everything that speaks for the functions behind a rule, computed now."""
    names = functions_behind(rule_named(rule))
    outcomes = [check(row) for row in all_rows() if row.function in names]
    by = {name: [one for one in outcomes if one.row.function == name] for name in names}
    checked = [_function(name, found) for name, found in by.items() if found]
    return {
        "rule": rule,
        "says": _says(names, outcomes),
        "functions": sorted(checked, key=lambda one: (one["agrees"], -one["published"], one["name"])),
        "bare": [_plain(name) for name, found in by.items() if not found],
    }


def _says(names: tuple[str, ...], outcomes: list[Outcome]) -> str:
    if not names:
        return "No equation stands behind this rule: it compares what the file says."
    if not outcomes:
        return f"Behind it: {_counted(len(names), 'function')} of the handbook, with no value to compare yet."
    off = sum(not one.agrees for one in outcomes)
    agree = "all agree" if not off else f"{off} differ by more than they may"
    return (
        f"Behind it: {_counted(len(names), 'function')} of the handbook, compared now with "
        f"{_counted(len(outcomes), 'value')} ({_kinds(outcomes)}); {agree}."
    )


def _counted(count: int, word: str) -> str:
    return f"{count} {word}{'' if count == 1 else 's'}"


def _kinds(outcomes: Iterable[Outcome]) -> str:
    counts = Counter(one.row.kind for one in outcomes)
    return ", ".join(f"{counts[kind]} {kind}" for kind in ORDER if counts[kind])


def _function(name: str, outcomes: list[Outcome]) -> dict[str, Any]:
    ordered = sorted(outcomes, key=lambda one: ORDER[one.row.kind])
    return {
        "name": _plain(name),
        "title": _title(name),
        "kinds": _kinds(outcomes),
        "published": sum(one.row.kind is Kind.PUBLISHED for one in outcomes),
        "agrees": all(one.agrees for one in outcomes),
        "off": _share_text(max(_share(one) for one in outcomes)),
        "rows": [_row(one) for one in ordered],
    }


def _plain(name: str) -> str:
    """Module and name without the package: `timber.bending.shape_factor`."""
    return name.removeprefix(HANDBOOK)


def _title(name: str) -> str:
    """The first line of what the function says of itself."""
    module, _, own = name.rpartition(".")
    function = getattr(importlib.import_module(module), own, None)
    return (getattr(function, "__doc__", "") or "").strip().partition("\n")[0].rstrip(".")


def _share(one: Outcome) -> float:
    """How far the computed value is from the printed one, as a share of it; infinite where not known."""
    printed = float(one.row.expected)
    if not math.isfinite(one.computed):
        return math.inf
    off = abs(one.computed - printed)
    return off / abs(printed) if printed else off


def _share_text(share: float) -> str:
    if not math.isfinite(share):
        return "not known"
    if share < ROUNDING:
        return "by nothing"
    return f"{100.0 * share:.2g} %"


def _row(one: Outcome) -> dict[str, Any]:
    row = one.row
    unit = f" {row.unit}" if row.unit not in {"", "-"} else ""
    computed = f"{one.computed:.6g}{unit}" if math.isfinite(one.computed) else "unknown"
    return {
        "kind": str(row.kind),
        "expected": f"{row.expected}{unit}",
        "computed": computed,
        "off": _share_text(_share(one)),
        "agrees": one.agrees,
        "source": source_text(row.cite),
        "provenance": str(row.cite.provenance),
        "note": row.note,
    }
