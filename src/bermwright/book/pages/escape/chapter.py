"""Fire and the ways out: the plan first, then what was found, then cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, plain
from bermwright.book.pages.found import found
from bermwright.book.sheets.escape import escape_plan

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.assess import Assessment

RULES = (
    "every-bed-has-two-ways-out", "the-way-out-is-short", "alarms-wake-everybody", "ribs-stand-a-fire",
    "planks-stand-a-fire", "nails-stand-a-fire", "stove-keeps-off-the-wood", "flue-goes-through-with-room",
    "flue-ends-over-the-snow", "hearth-catches-embers",
)  # fmt: skip
CAUTIONS = (
    "Foam and membranes burn with deadly smoke: keep a closed lining between them and the room.",
    "Never heat with a grill or an open pan of coals: carbon monoxide has no smell.",
    "Clear snow from windows and hatches that are ways out, and from the flue, after every snowfall.",
    "Sweep the flue as the local rule asks; a chimney fire in a flue through timber is a house fire.",
    "Linings, stoves and flues are work that the local rule may keep for licensed people.",
)
MEMORY = (
    "All numbers on fire, escape and flues are from memory of European, English and American codes: the "
    "local code and the maker's labels go before them."
)


def escape_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Every vault's plan, then the findings worst first."""
    house = assessment.house
    if not house.vaults:
        return
    yield Heading(text="Fire and the ways out", lead="Walk it once in the dark before the first night.")
    for vault in house.vaults:
        sheet = escape_plan(house, vault, system=system)
        yield Figure(sheet=sheet, caption=f"{plain(vault.name)}: ways out, beds, and the longest way.")
    yield from found(assessment.findings, RULES, system)
    yield Notice(kind="caution", lines=CAUTIONS)
    yield Para(MEMORY, small=True)
