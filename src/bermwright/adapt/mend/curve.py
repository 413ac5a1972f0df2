"""Another curve as a change: the best family of the same span and rise, or what the whole search advises."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.adapt.mend.nouns import Amount, Change, Lever
from bermwright.adapt.shape.advice import advise
from bermwright.adapt.shape.envelope import Screen, ribs_of
from bermwright.adapt.shape.families import FAMILIES, RADII
from bermwright.base.errors import BermwrightError
from bermwright.form.curve import rise_of
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.adapt.mend.nouns import Place, Writes, Written
    from bermwright.house import House, Vault
    from bermwright.house.checks import Key
    from bermwright.rules.study import Study

ALONE = 0.5
"""Share at which the free radii of a family stand when only span and rise are given (-)."""
KEPT = 2
"""Families of the same span and rise that are looked at: those that bend least on the quick look."""
STAGE_LISTS = frozenset({"prop", "tie"})


def same_rise(house: House, number: int, helps: frozenset[str]) -> Lever | None:
    """The families that bend least with the file's span, rise and feet, as a lever; None: there is none."""
    vault = house.vaults[number]
    rise = rise_of(vault)
    if rise is None:
        return None
    try:
        screen = Screen.of(ribs_of(house, vault))
    except BermwrightError:
        return None
    found: list[tuple[float, Amount]] = []
    for family in FAMILIES.values():
        shares = (ALONE,) * family.free
        one = family.vault(vault, rise=rise, springing=vault.springing, shares=shares)
        if one is None or family.kind is vault.curve:
            continue
        bending = _bending(screen, one)
        if math.isfinite(bending):
            amount = Amount(
                says=f'"{one.curve}" in place of "{vault.curve}"', writes=_writes(number, vault, one)
            )
            found.append((bending, amount))
    best = tuple(amount for _, amount in sorted(found, key=lambda one: one[0])[:KEPT])

    def amounts(_place: Place) -> tuple[Amount, ...]:
        return best

    return Lever(
        name="another curve", does="Draw another curve of the same span and rise", helps=helps,
        amounts=amounts, monotone=False, hours=8.0,
    )  # fmt: skip


def _bending(screen: Screen, vault: Vault) -> float:
    try:
        return screen.bending(vault)
    except BermwrightError:
        return math.inf


def _writes(number: int, before: Vault, after: Vault) -> Writes:
    writes: list[tuple[Key, Written]] = [(("vault", number, "curve"), str(after.curve))]
    for name in (*RADII, "points"):
        old, new = getattr(before, name), getattr(after, name)
        if new not in {None, ()}:
            writes.append((("vault", number, name), f"{new:.2f} m"))
        elif old not in {None, ()}:
            writes.append((("vault", number, name), None))
    if after.curve is CurveKind.SEMICIRCLE:
        writes.append((("vault", number, "rise"), None))
    elif before.rise is None and after.rise is not None:
        writes.append((("vault", number, "rise"), f"{after.rise:.2f} m"))
    return tuple(writes)


def advised(
    house: House, number: int, progress: Callable[[str], None], share: Callable[..., object]
) -> Change | None:
    """The curve, the feet and the order of work that the search over all curves advises; None: keep it."""
    vault = house.vaults[number]
    try:
        advice = advise(house, vault, progress=progress, share=share)  # type: ignore[arg-type]
    except BermwrightError:
        return None
    if advice.keeps and not advice.order.needed:
        return None
    writes: list[tuple[Key, Written]] = [
        *((("vault", number, key), text) for key, text in advice.curve_writes.items()),
        *((("vault", number, key), None) for key in advice.takes_out),
        *((_stage_key(house, place), text) for place, text in advice.order.writes.items()),
    ]
    one = advice.chosen.vault
    says = f'"{one.curve}", {advice.chosen.form.rise:.2f} m high, with its feet at +{one.springing:.2f}'
    works = ", ".join(advice.order.chosen.works.named)
    return Change(
        lever="another curve",
        does="Draw the curve that this ground allows",
        says=f"{says}; {works}" if works else says,
        writes=tuple(writes),
        hours=8.0,
    )


def remedies(house: House, study: Study, helps: frozenset[str]) -> tuple[Lever, ...]:
    """What the stop marks found to let a blocked fill go on, as levers of one step each."""
    return tuple(
        _remedy(house, one.name, one.writes, helps) for one in study.remedies if one.works and one.writes
    )


def _remedy(house: House, name: str, texts: Mapping[str, str], helps: frozenset[str]) -> Lever:
    writes = tuple((_stage_key(house, place), text) for place, text in texts.items())
    amount = Amount(says=", ".join(f"{place} = {text}" for place, text in texts.items()), writes=writes)
    return Lever(
        name=f"{name}, by the stop marks", does="Do before the fill goes on what the stop marks ask for",
        helps=helps, amounts=lambda _place: (amount,), temporary=True, hours=6.0,
    )  # fmt: skip


def _stage_key(house: House, place: str) -> Key:
    """`stages.prop.level` as the key of a new prop."""
    first, second, *rest = place.split(".")
    if second in STAGE_LISTS and rest:
        count = len(house.stages.props if second == "prop" else house.stages.ties)
        return (first, second, count, *rest)
    return (first, second, *rest)
