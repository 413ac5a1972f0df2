"""What does not fit together of warmth, stove and wood."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash, each, listed, names_once

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.living.heat import Heat
    from bermwright.house.living.stove import Stove
    from bermwright.house.model import House


def heat_checks(house: House) -> Iterator[Check]:
    """The checks of `[heat]` and of each stove."""
    heat = house.heat
    if heat is not None:
        here: Key = ("heat",)
        yield Check(here, ("day_begins", "day_ends"), bound(_no_day, here, heat))
        yield Check(here, ("day", "night"), bound(_warm_night, here, heat))
        yield names_once((*here, "mass"), heat.masses)
    yield names_once(("stove",), house.stoves)
    named = each(("vault",), house.vaults, "name")
    vaults = [vault.name for vault in house.vaults]
    for count, stove in enumerate(house.stoves):
        here = ("stove", count)
        yield Check(here, ("vault",), bound(_stands_nowhere, here, stove, vaults), named)
        yield Check(here, ("shield", "shield_gap"), bound(_gap_of_nothing, here, stove))
        yield Check(here, ("batch", "firings", "burn"), bound(_burns_too_long, here, stove))


def _no_day(here: Key, heat: Heat) -> Iterator[Contradiction]:
    if heat.day_begins >= heat.day_ends:
        yield clash(
            here,
            "day_ends",
            f"{heat.day_ends}",
            f"is no later than day_begins ({heat.day_begins}); the day would have no hours.",
            "Write the hours of one day, such as 6 and 22.",
        )


def _warm_night(here: Key, heat: Heat) -> Iterator[Contradiction]:
    if heat.day is not None and heat.night is not None and heat.night > heat.day:
        yield clash(
            here,
            "night",
            show(heat.night, "degC", 1),
            f"is warmer than by day ({show(heat.day, 'degC', 1)}); people sleep cooler than they sit.",
            "Swap the two, or leave night out: then it is as warm as by day.",
        )


def _stands_nowhere(here: Key, stove: Stove, vaults: list[str]) -> Iterator[Contradiction]:
    if stove.vault and stove.vault not in vaults:
        yield clash(
            here,
            "vault",
            f'"{stove.vault}"',
            f"is the name of no vault; there are: {listed(vaults)}.",
            "Write the name of the vault in which the stove stands.",
        )


def _gap_of_nothing(here: Key, stove: Stove) -> Iterator[Contradiction]:
    if stove.shield_gap is not None and not stove.shield:
        yield clash(
            here,
            "shield_gap",
            show(stove.shield_gap, "mm", 0),
            "is a gap behind a shield, but the file names no shield.",
            'Write shield = "yes", or take the gap out.',
        )


def _burns_too_long(here: Key, stove: Stove) -> Iterator[Contradiction]:
    if stove.burn is None or stove.firings is None:
        return
    day = 86_400.0
    if stove.burn * stove.firings > day:
        yield clash(
            here,
            "firings",
            f"{stove.firings}",
            f"charges of {show(stove.burn, 'h', 1)} each burn longer than a day has hours.",
            "Fire less often, or write how long one charge really burns.",
        )
