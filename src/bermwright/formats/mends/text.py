"""What mending found, for the terminal: the finding, the proposals with their cost, what does not do it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.wording import finding_words, ratio_text
from bermwright.book.pages.mend.words import COSTS, ONLY_HERE, before_after, cost_text, line_of, no_way
from bermwright.formats.assessment_text import CLOSING, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.mend.nouns import Mended, Proposal, Target
    from bermwright.base.findings import Finding

NEAREST = 5
"""Levers that do not do it and are still named: those that come nearest."""


def mends_text(
    house: str, mends: Sequence[Mended], waiting: Sequence[Target] = (), system: str = "metric"
) -> str:
    """Every finding that was to be mended; `waiting` are those that were not looked at yet."""
    lines = [f"{house}: what would make it hold"]
    if not mends:
        lines += ["", "Nothing here is to be mended."]
    number = 0
    for mended in mends:
        lines += ["", *_finding(mended, system), *_proposals(mended, number, system)]
        number += len(mended.proposals)
    if number:
        lines += ["", wrapped(ONLY_HERE), wrapped(COSTS)]
    if waiting:
        lines += ["", "Not looked at yet, in the order of building:"]
        lines += [wrapped(f"- --finding {one.rule}  ({one.part})", "  ") for one in waiting]
    return "\n".join([*lines, "", CLOSING])


def _finding(mended: Mended, system: str) -> Iterator[str]:
    title = f"{mended.target.rule}, {mended.target.part}"
    yield title
    yield "=" * min(len(title), 92)
    yield from (_said(one, system) for one in mended.before)


def _said(finding: Finding, system: str) -> str:
    words = finding_words(finding, system)
    return wrapped(f"{words.verdict.upper()} {words.ratio} {words.says}".replace("  ", " "))


def _proposals(mended: Mended, number: int, system: str) -> Iterator[str]:
    for one in mended.proposals:
        number += 1
        yield ""
        yield from _proposal(one, number, system)
    if mended.questions:
        yield "Nothing is guessed here. Answer first:"
        for question in mended.questions:
            yield wrapped(f"? {question.place}: {question.asks} {question.why}", "  ")
            yield wrapped(f"cheapest way: {question.cheapest_way}", "    ")
        return
    yield from (wrapped(remark) for remark in mended.remarks)
    if not mended.proposals and not mended.remarks:
        yield ""
        yield wrapped(no_way(mended, system))
    yield from _tried(mended)


def _proposal(one: Proposal, number: int, system: str) -> Iterator[str]:
    sentences = [change.sentence() for change in one.changes]
    yield wrapped(f"{number}. {sentences[0]}")
    yield from (wrapped(f"and: {sentence}", "   ") for sentence in sentences[1:])
    yield wrapped(f"{before_after(one)}. {cost_text(one.cost, system)}", "   ")
    if one.mends:
        yield wrapped("mends too: " + "; ".join(one.mends), "   ")
    if one.worse:
        yield wrapped("then: " + "; ".join(one.worse), "   ")
    if one.fails:
        yield wrapped(f"still failing in the house with it: {one.fails}", "   ")
    yield "   write:"
    yield from (f"     {line_of(key, value)}" for key, value in one.writes)


def _tried(mended: Mended) -> Iterator[str]:
    near = [one for one in mended.tried if math.isfinite(one.ratio)][:NEAREST]
    if near:
        yield ""
        yield "Not proposed:"
    for one in near:
        yield wrapped(f"- {one.name} ({one.says}): {ratio_text(one.ratio)}; {one.why}", "  ")
    vain: dict[str, list[str]] = {}
    for one in (one for one in mended.tried if not one.says):
        vain.setdefault(one.why, []).append(one.name)
    for why, names in vain.items():
        yield wrapped(f"- {', '.join(names)}: {why}", "  ")
