"""The sentences that text and pages share: before and after, cost, changed lines, nothing found."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.base.wording import finding_words, ratio_text

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Cost, Mended, Proposal, Written
    from bermwright.house.checks import Key

COSTS = (
    "Money is counted only where the file gives prices. Hours of walls, footings, rib pieces and nails are "
    "common practice without a source: good for ranking, not for a plan of work."
)
ONLY_HERE = (
    "A proposal was looked at with all stages of all parts: the finding holds, and nothing fails or becomes "
    "unknown that held. What failed besides may still fail."
)


def no_way(mended: Mended, system: str = "metric") -> str:
    """That nothing was found, and how near the best came."""
    failing = [one for one in mended.before if one.verdict is Verdict.FAILS]
    unknown = [one for one in mended.before if one.verdict is Verdict.UNKNOWN]
    if unknown and not failing:
        return "Not known: " + " ".join(finding_words(one, system).advice for one in unknown)
    if not mended.tried:
        advice = dict.fromkeys(finding_words(one, system).advice for one in failing or mended.before)
        return " ".join(["No lever here helps this rule.", *advice]).rstrip()
    near = mended.nearest
    best = (
        f" {near.name} ({near.says}) comes nearest, at {ratio_text(near.ratio)}: {near.why}." if near else ""
    )
    those = "the one pair" if mended.pairs == 1 else f"any of {mended.pairs} pairs"
    pairs = f" Nor did {those} of those that come nearest." if mended.pairs else ""
    asked = "".join(f" Not known besides: {finding_words(one, system).advice}" for one in unknown)
    return f"No change that was tried makes it hold alone.{pairs}{best[:2].upper()}{best[2:]}{asked}"


def before_after(one: Proposal) -> str:
    """`fails 2.50 → holds 0.87`."""
    ends = [(rows[0].verdict.value, ratio_text(rows[0].ratio)) for rows in (one.before, one.after)]
    return " → ".join(f"{verdict} {ratio}".strip() for verdict, ratio in ends)


def cost_text(cost: Cost, system: str = "metric") -> str:
    """Money, hours and weight beyond the house as it is."""
    money = "not priced" if cost.money is None else f"{cost.money:+.0f} {cost.currency}"
    hours = Shown(cost.hours, "ph", 0).text(system)
    lifted = Shown(cost.lifted, "kg", 0).text(system)
    return f"Beyond the house as it is: {money}, {hours}, {lifted} built in"


def line_of(key: Key, value: Written) -> str:
    """A changed line as it stands in the file, with its table: `[[vault]] 1: layers = 6`."""
    *way, last = key
    table = ".".join(str(part) for part in way if isinstance(part, str))
    numbers = [part for part in way if isinstance(part, int)]
    head = f"[[{table}]] no. {numbers[-1] + 1}" if numbers and isinstance(way[-1], int) else f"[{table}]"
    if value is None:
        return f"{head}: take out {last}"
    return f"{head}: {last} = " + (f'"{value}"' if isinstance(value, str) else f"{value}")
