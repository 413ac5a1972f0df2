"""Every family of curves with what is free in it: from shares between 0 and 1 to a vault of the file."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from bermwright.handbook.curves import pointed_radius
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.house import Vault

    Shares = tuple[float, ...]
    Radii = Mapping[str, float]

FLATTEST = 0.12
"""Least rise over span that is tried; flatter ribs snap through (-)."""
HALF, OVER_HALF = 0.5, 0.505
"""Rise over span of a semicircle, and from which on an egg differs from one. A taller segment leans in over
its feet, and a lower pointed arch has a valley for a crown (-)."""
SAME_RISE = 1e-6
"""Rises closer than this are one (m)."""
LEAST_RADIUS = 0.2
"""Least radius that a house file takes (m)."""
RADII = ("chain", "centre_offset", "side_radius", "base_centre", "flank_radius", "crown_radius")
"""Fields of a vault that describe a curve besides span and rise."""


class Stand(StrEnum):
    """From where a curve springs, and whether its crown stays where the file has it."""

    GROUND = "from the floor"
    WALLS = "on walls"
    LOWER = "on walls, crown lower"


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """One kind of curve."""

    kind: CurveKind
    flattest: float = FLATTEST
    tallest: float = math.inf
    """Between which rises over the span it can be had, or is worth having (-)."""
    free: int = 0
    """How many radii may be chosen besides the rise."""
    radii: Callable[[float, float, Shares], Radii] = lambda _span, _rise, _shares: {}
    """Span, rise and shares to the radii that the file needs."""

    def rises(self, span: float, low: float, high: float) -> tuple[float, float] | None:
        """The part of a range of rises in which the family has curves (m); None where it has none there."""
        low, high = max(low, self.flattest * span), min(high, self.tallest * span)
        return (low, max(low, high)) if low <= high + SAME_RISE else None

    def vault(self, like: Vault, *, rise: float, springing: float, shares: Shares = ()) -> Vault | None:
        """The vault with this curve in place of its own; None where there is none of that rise."""
        if self.rises(like.span, rise, rise) is None:
            return None
        radii = self.radii(like.span, rise, shares)
        if any(radius < LEAST_RADIUS for name, radius in radii.items() if name != "base_centre"):
            return None
        fields: dict[str, Any] = {**dict.fromkeys(RADII), **radii}
        return replace(like, curve=self.kind, rise=rise, springing=springing, points=(), **fields)


def _sides(span: float, rise: float, shares: Shares) -> Radii:
    """Low: sides from a seventh of the rise to nearly the whole. Tall: from nearly pointed to three times."""
    (share,) = shares
    if rise <= HALF * span:
        side = rise * (0.15 + 0.8 * share)
    else:
        side = float(pointed_radius(span, rise)) * (1.03 + 3.0 * share**2)
    return {"side_radius": side}


def _egg(span: float, _rise: float, shares: Shares) -> Radii:
    """The base circle is centred between the feet: soil under an egg that leans out cannot be compacted."""
    half = 0.5 * span
    flank, crown = shares
    return {
        "base_centre": 0.0,
        "flank_radius": half * (1.05 + 5.0 * flank**2),
        "crown_radius": half * (0.15 + 0.83 * crown),
    }


FAMILIES: Mapping[CurveKind, Family] = MappingProxyType(
    {
        one.kind: one
        for one in (
            Family(kind=CurveKind.CATENARY),
            Family(kind=CurveKind.PARABOLA),
            Family(kind=CurveKind.SEMICIRCLE, flattest=HALF, tallest=HALF),
            Family(kind=CurveKind.SEGMENT, tallest=HALF),
            Family(kind=CurveKind.ELLIPSE),
            Family(kind=CurveKind.LEVEL_SOIL),
            Family(kind=CurveKind.UNDER_COVER),
            Family(kind=CurveKind.POINTED, flattest=HALF),
            Family(kind=CurveKind.THREE_CENTRED, free=1, radii=_sides),
            Family(kind=CurveKind.EGG, flattest=OVER_HALF, free=2, radii=_egg),
        )
    }
)
"""The simplest to set out first. A drawn curve is no family: it is the builder's own."""
