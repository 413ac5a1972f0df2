"""How far the mound reaches: to the left and right of the axis, and before and behind the vault."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.solids.earthwork.earth import earth_of

if TYPE_CHECKING:
    from bermwright.form.setout.nouns import Spot
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault

THIN = 0.005
"""Soil thinner than this is no mound (m)."""
PLACES = 4001


@dataclass(frozen=True, slots=True, kw_only=True)
class MoundReach:
    """Toes of the mound (m)."""

    left: float
    """Across from the axis; below 0."""
    right: float
    front: float
    """Along from the front rib; below 0 where a slope runs out before the vault."""
    back: float
    front_slopes: bool
    """Whether the file gives the mound a slope before the front end; else it ends upright there."""
    back_slopes: bool
    front_soil: float | None
    """Level up to which soil lies against the front end, as wide as the vault; None: not said."""
    back_soil: float | None

    def covers(self, spot: Spot, beside: float = 0.0) -> bool:
        """Whether a place lies under it, or less than so far beside it."""
        if self.left >= self.right:
            return False
        along, across = spot
        return (
            self.front - beside < along < self.back + beside
            and self.left - beside < across < self.right + beside
        )


def mound_reach(house: House, vault: Vault, form: VaultForm) -> MoundReach:
    """Where the finished ground meets the natural one, as the section and the slopes of the ends have it."""
    left, right = _toes(form)
    front, back = earth_of(house, vault, form, float(np.min(form.ground.natural.z))).slopes
    return MoundReach(
        left=left,
        right=right,
        front=-front.toe,
        back=form.length + back.toe,
        front_slopes=front.fall is not None,
        back_slopes=back.fall is not None,
        front_soil=front.free,
        back_soil=back.free,
    )


def _toes(form: VaultForm) -> tuple[float, float]:
    ground = form.ground
    x = np.linspace(float(ground.finished.x[0]), float(ground.finished.x[-1]), PLACES)
    apart = np.flatnonzero(ground.finished.level(x) - ground.natural.level(x) > THIN)
    return (float(x[apart[0]]), float(x[apart[-1]])) if apart.size else (0.0, 0.0)
