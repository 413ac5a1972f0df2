"""Within what a curve may be looked for: levels of crown and springing, the room that must stay."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.shape.families import FLATTEST
from bermwright.base.errors import BermwrightError
from bermwright.base.units import show
from bermwright.form.curve import rise_of
from bermwright.form.known import known

if TYPE_CHECKING:
    from bermwright.house import House, Vault

STANDING = 1.9
"""Clear height that counts as room to stand where the file's rules give no headroom (m)."""
HIGHEST_WALL = 1.5
"""Highest wall that is proposed where the file has none (m): what holds back more earth asks for an engineer
of its own. Bermwright's own convention."""
NO_WALL = 0.3
"""Feet no higher than this over the floor stand on a footing, not on a wall (m)."""
FREE = 0.05
"""So much higher than standing height a lowered crown is at least (m)."""
LEAST_RISE = 0.2
"""Least rise that a house file takes (m)."""
NARROWER = 0.98
"""A floor to stand on that is this share of the file's counts as no narrower (-)."""


class NoRoomError(BermwrightError):
    """The span stands under a headroom that cannot fit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Limits:
    """What is kept and what is free. Levels count from the finished floor."""

    span: float
    crown: float
    """Level of the crown of the centreline, as the file has it (m)."""
    lowest: float
    highest: float
    """Between which levels the feet may stand (m)."""
    standing: float
    """Clear height that counts as room to stand (m)."""
    half_depth: float
    """From the centreline of a rib to its inside (m)."""

    @property
    def least_rise(self) -> float:
        """No curve is flatter (m)."""
        return max(FLATTEST * self.span, LEAST_RISE)

    @property
    def lowest_crown(self) -> float:
        """At which one can just stand under the middle (m)."""
        return max(self.standing + self.half_depth + FREE, self.highest + self.least_rise)


def limits_of(house: House, vault: Vault) -> Limits:
    """The limits of a vault of the file. Raises `NoRoomError` where nobody could stand under its crown."""
    rise = known(rise_of(vault), "vault.rise")
    crown, half = vault.springing + rise, 0.5 * vault.rib_depth
    standing = house.rules.headroom or STANDING
    if crown - half < standing:
        raise NoRoomError(
            f"Under the crown of {vault.name} {show(crown - half, 'm', 2)} are clear, less than the headroom "
            f"of {show(standing, 'm', 2)}: raise [vault] springing or rise to a crown of at least "
            f"{show(standing + half, 'level', 2)}, lower the floor, or write a smaller [rules] headroom."
        )
    least = max(FLATTEST * vault.span, LEAST_RISE)
    lowest = min(0.0, vault.springing)
    wall = vault.springing if vault.springing > NO_WALL else lowest + HIGHEST_WALL
    highest = min(wall, crown - least)
    return Limits(
        span=vault.span,
        crown=crown,
        lowest=lowest,
        highest=max(highest, lowest),
        standing=standing,
        half_depth=half,
    )
