"""What would make a house hold, as blocks: the finding, the proposals, what does not do it."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import FindingBlock, Heading, Notice, Para, Points, Table, plain
from bermwright.base.findings import Shown
from bermwright.base.wording import ratio_text
from bermwright.book.pages.mend.words import COSTS, ONLY_HERE, before_after, line_of, no_way

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.mend.nouns import Mended, Proposal, Target
    from bermwright.base.document import Block

NEAREST = 6
CAUTIONS = (
    (
        "*A change on paper is not built yet.* Put it into the file, let the whole house be checked again, "
        "and have it reviewed before anything is dug, cut or filled."
    ),
    "*Nothing is taken out or added under a vault that stands* without somebody licensed beside it.",
)


def mend_pages(
    house: str, mends: Sequence[Mended], waiting: Sequence[Target] = (), system: str = "metric"
) -> tuple[Block, ...]:
    """The chapter; it also says which findings were not looked at."""
    lead = f"The smallest changes of {house}, each tried through all stages of all parts."
    blocks: list[Block] = [Heading(text="What would make it hold", lead=plain(lead))]
    if not mends:
        blocks.append(Para("Nothing here is to be mended: what is checked holds."))
    for mended in mends:
        blocks += _finding(mended, system)
    if any(mended.proposals for mended in mends):
        blocks += [
            Para(ONLY_HERE, small=True),
            Para(COSTS, small=True),
            Notice(kind="caution", lines=CAUTIONS),
        ]
    if waiting:
        blocks.append(Heading(text="Not looked at yet", level=2))
        names = dict.fromkeys(f"{one.rule}, {one.part}" for one in waiting)
        blocks.append(Points(items=tuple(plain(name) for name in names)))
    return tuple(blocks)


def _finding(mended: Mended, system: str) -> Iterator[Block]:
    yield from (FindingBlock(finding=one) for one in mended.before)
    for number, one in enumerate(mended.proposals, 1):
        yield from _proposal(one, number, system)
    if mended.questions:
        yield Para("Nothing is guessed here. These questions come first:")
        yield Points(items=tuple(plain(f"{one.asks} {one.cheapest_way}") for one in mended.questions))
    elif not mended.proposals and not mended.remarks:
        yield Para(plain(no_way(mended, system)))
    yield from _tried(mended)


def _proposal(one: Proposal, number: int, system: str) -> Iterator[Block]:
    yield Heading(text=f"Proposal {number}: {plain(before_after(one))}", level=2)
    yield Points(items=tuple(plain(change.sentence()) for change in one.changes), numbered=True)
    money = "not priced" if one.cost.money is None else f"{one.cost.money:+.0f} {one.cost.currency}"
    hours, lifted = (
        Shown(value, unit, 0) for value, unit in ((one.cost.hours, "ph"), (one.cost.lifted, "kg"))
    )
    yield Table(
        head=("beyond the house as it is", "money", "hours", "built in"),
        rows=(("", money, hours.text(system), lifted.text(system)),),
    )
    if one.mends:
        yield Para(plain("It mends too: " + "; ".join(one.mends) + "."))
    if one.worse:
        yield Para(plain("With it: " + "; ".join(one.worse) + "."))
    if one.fails:
        yield Para(f"Still failing in the house with it: {one.fails} findings.")
    yield Para("To write into the house file:")
    yield Points(items=tuple(plain(line_of(key, value)) for key, value in one.writes))


def _tried(mended: Mended) -> Iterator[Block]:
    near = [one for one in mended.tried if math.isfinite(one.ratio)][:NEAREST]
    if near:
        yield Heading(text="What does not do it", level=2)
        rows = tuple(
            (plain(one.name), plain(one.says), ratio_text(one.ratio), plain(one.why)) for one in near
        )
        yield Table(
            head=("change", "as far as it was tried", "asked over there", "why not"), rows=rows, align="llrl"
        )
