"""Every family of curves with what is free in it: from shares between 0 and 1 to a vault of the file."""

from __future__ import annotations

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
    free: int = 0
    """How many radii may be chosen besides the rise."""
    radii: Callable[[float, float, Shares], Radii | None] = lambda _span, _rise, _shares: {}
    """Span, rise and shares to the radii that the file needs; None where the family has no such curve."""

    def vault(self, like: Vault, *, rise: float, springing: float, shares: Shares = ()) -> Vault | None:
        """The vault with this curve in place of its own; None where there is none of that rise."""
        radii = self.radii(like.span, rise, shares)
        if radii is None:
            return None
        fields: dict[str, Any] = {**dict.fromkeys(RADII), **radii}
        return replace(like, curve=self.kind, rise=rise, springing=springing, points=(), **fields)


def _not_over_half(span: float, rise: float, _shares: Shares) -> Radii | None:
    """A taller segment leans in over its feet."""
    return {} if rise <= 0.5 * span + SAME_RISE else None


def _half(span: float, rise: float, _shares: Shares) -> Radii | None:
    return {} if abs(rise - 0.5 * span) < SAME_RISE else None


def _over_half(span: float, rise: float, _shares: Shares) -> Radii | None:
    """A lower pointed arch has a valley for a crown."""
    return {} if rise >= 0.5 * span else None


def _sides(span: float, rise: float, shares: Shares) -> Radii | None:
    """Low: sides from a seventh of the rise to nearly the whole. Tall: from nearly pointed to three times."""
    (share,) = shares
    if rise <= 0.5 * span:
        side = rise * (0.15 + 0.8 * share)
    else:
        side = float(pointed_radius(span, rise)) * (1.03 + 3.0 * share**2)
    return {"side_radius": side} if side >= LEAST_RADIUS else None


def _egg(span: float, rise: float, shares: Shares) -> Radii | None:
    """The base circle is centred between the feet: soil under an egg that leans out cannot be compacted."""
    half = 0.5 * span
    if rise <= half:
        return None
    flank, crown = shares
    return {
        "base_centre": 0.0,
        "flank_radius": half * (1.05 + 5.0 * flank**2),
        "crown_radius": max(half * (0.15 + 0.83 * crown), LEAST_RADIUS),
    }


FAMILIES: Mapping[CurveKind, Family] = MappingProxyType(
    {
        one.kind: one
        for one in (
            Family(kind=CurveKind.CATENARY),
            Family(kind=CurveKind.PARABOLA),
            Family(kind=CurveKind.SEMICIRCLE, radii=_half),
            Family(kind=CurveKind.SEGMENT, radii=_not_over_half),
            Family(kind=CurveKind.ELLIPSE),
            Family(kind=CurveKind.LEVEL_SOIL),
            Family(kind=CurveKind.UNDER_COVER),
            Family(kind=CurveKind.POINTED, radii=_over_half),
            Family(kind=CurveKind.THREE_CENTRED, free=1, radii=_sides),
            Family(kind=CurveKind.EGG, free=2, radii=_egg),
        )
    }
)
"""The simplest to set out first. A drawn curve is no family: it is the builder's own."""
