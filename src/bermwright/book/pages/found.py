"""What was found, short: what is against the builder as sentences, what holds as lines of one table."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, FindingBlock, Table, plain
from bermwright.base.findings import Verdict
from bermwright.base.wording import ratio_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.findings import Finding

AGAINST = frozenset({Verdict.FAILS, Verdict.UNKNOWN, Verdict.TIGHT})


def against(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """What fails, is not known or is tight."""
    return tuple(finding for finding in findings if finding.verdict in AGAINST)


def found(findings: Iterable[Finding], rules: Iterable[str], system: str) -> Iterator[Block]:
    """What some rules found, in their order: sentences where it is against the builder, else one table."""
    mine = [one for rule in rules for one in findings_of(findings, rule)]
    yield from (FindingBlock(finding=one) for one in against(mine))
    held = [one for one in mine if one.verdict is Verdict.HOLDS]
    if held:
        yield held_table(held, system)


def findings_of(findings: Iterable[Finding], rule: str) -> tuple[Finding, ...]:
    """The findings of one rule."""
    return tuple(finding for finding in findings if finding.rule == rule)


def held_table(findings: Iterable[Finding], system: str) -> Table:
    """One line for each finding that holds, its working is in the engineer's part."""
    rows = tuple(
        (plain(one.says(system)), plain(one.part), "" if one.ratio is None else ratio_text(one.ratio))
        for one in findings
    )
    return Table(
        head=("holds", "part", "used"),
        rows=rows,
        align="llr",
        widths=(5, 2, 0),
        caption="Used: the share of the strength. Their working stands in the engineer's part at the end.",
    )
