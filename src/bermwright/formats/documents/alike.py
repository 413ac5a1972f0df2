"""Lettering that several full-size sheets bear alike, so that it is written, and read by Typst, only once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.drawing import Sheet, Text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bermwright.base.drawing import Item

WORTH = 60
"""Letters for which a layer of its own is worth its while."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A sheet without the lettering that lies on it in layers."""

    sheet: Sheet
    layers: tuple[int, ...]
    """Places in the list of layers."""


def leaves(sheets: Sequence[Sheet]) -> tuple[tuple[Leaf, ...], tuple[Sheet, ...]]:
    """Every sheet, and the layers of lettering that lie on top of more than one."""
    groups = list(_groups(sheets))
    layers = tuple(
        Sheet(width=sheets[bearers[0]].width, height=sheets[bearers[0]].height, items=texts)
        for bearers, texts in groups
    )
    found = []
    for number, sheet in enumerate(sheets):
        mine = tuple(place for place, (bearers, _) in enumerate(groups) if number in bearers)
        taken = {text for place in mine for text in groups[place][1]}
        rest = tuple(item for item in sheet.items if not (isinstance(item, Text) and item in taken))
        found.append(Leaf(sheet=replace(sheet, items=rest), layers=mine))
    return tuple(found), layers


def _groups(sheets: Sequence[Sheet]) -> Iterator[tuple[tuple[int, ...], tuple[Text, ...]]]:
    """Texts that the same sheets bear, with those sheets, where there are enough of both."""
    bearers: dict[tuple[float, float, Text], list[int]] = {}
    for number, sheet in enumerate(sheets):
        for text in dict.fromkeys(_plain_texts(sheet.items)):
            bearers.setdefault((sheet.width, sheet.height, text), []).append(number)
    groups: dict[tuple[int, ...], list[Text]] = {}
    for (_, _, text), numbers in bearers.items():
        groups.setdefault(tuple(numbers), []).append(text)
    for those, texts in groups.items():
        if len(those) > 1 and sum(len(text.text) for text in texts) >= WORTH:
            yield those, tuple(texts)


def _plain_texts(items: Iterable[Item]) -> Iterator[Text]:
    """Texts without an edge: they look the same whether they are drawn sooner or later."""
    return (item for item in items if isinstance(item, Text) and not item.halo)
