"""Families of curves as functions of span, rise and shares between 0 and 1."""

from __future__ import annotations

from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook import curves

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.handbook.curves import PlaneCurve

    Shares = tuple[float, ...]

COARSE_POINTS = 101
"""Points of each half while a curve is fitted: chords stay within 1 mm of a 10 m curve."""


def _nothing(_span: float, _rise: float, _shares: Shares) -> Mapping[str, float]:
    return MappingProxyType({})


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """One family: how its curve follows from span, rise and `shares`."""

    name: str
    build: Callable[[float, float, Shares], PlaneCurve]
    """Curve from span, rise (m) and shares; raises OutOfRangeError where there is none."""
    shares: int = 0
    """How many shares it has besides span and rise."""
    details: Callable[[float, float, Shares], Mapping[str, float]] = field(default=_nothing)
    """What the shares mean, by the name in a house file (m)."""
    slow: bool = False
    """Whether one of its curves takes tens of milliseconds, so that it is fitted in few steps."""
    fixed_rise: float | None = None
    """Rise over span where it is not free, as in a semicircle."""

    @property
    def parameters(self) -> int:
        """How many numbers are fitted: place, span, rise and shares."""
        return len(self.measures) + self.shares

    @property
    def measures(self) -> tuple[str, ...]:
        """What is fitted besides the shares."""
        return ("place", "span") if self.fixed_rise is not None else ("place", "span", "rise")


def _side_radius(span: float, rise: float, shares: Shares) -> Mapping[str, float]:
    """The side arcs: smaller than both half span and rise; in a tall arch larger than the pointed one's."""
    share = shares[0]
    if rise <= 0.5 * span:
        return {"side_radius": share * min(0.5 * span, rise)}
    return {"side_radius": float(curves.pointed_radius(span, rise)) / share}


def _three_centred(span: float, rise: float, shares: Shares) -> PlaneCurve:
    side = _side_radius(span, rise, shares)["side_radius"]
    return curves.arc_chain(curves.three_centred_arcs(span, rise, side), points=2 * COARSE_POINTS)


def _egg_radii(span: float, rise: float, shares: Shares) -> Mapping[str, float]:
    base_centre = shares[0] * rise
    base = float(np.hypot(0.5 * span, base_centre))
    return {
        "base_centre": base_centre,
        "flank_radius": base / shares[1],
        "crown_radius": base * shares[2],
    }


def _egg(span: float, rise: float, shares: Shares) -> PlaneCurve:
    arcs = curves.egg_arcs(span, rise, **_egg_radii(span, rise, shares))
    return curves.arc_chain(arcs, points=2 * COARSE_POINTS)


def _pointed(span: float, rise: float, _shares: Shares) -> PlaneCurve:
    return curves.arc_chain(curves.pointed_arcs(span, rise), points=2 * COARSE_POINTS)


def _closed(build: Callable[..., PlaneCurve]) -> Callable[[float, float, Shares], PlaneCurve]:
    return lambda span, rise, _shares: build(span, rise, points=COARSE_POINTS)


FAMILIES: tuple[Family, ...] = (
    Family(name="catenary", build=_closed(curves.catenary)),
    Family(name="parabola", build=_closed(curves.parabola)),
    Family(name="semicircle", build=_closed(curves.segment), fixed_rise=0.5),
    Family(name="segment", build=_closed(curves.segment)),
    Family(name="ellipse", build=_closed(curves.ellipse)),
    Family(name="pointed", build=_pointed),
    Family(name="three-centred", build=_three_centred, shares=1, details=_side_radius),
    Family(name="egg", build=_egg, shares=3, details=_egg_radii),
)
"""Families that need nothing but their own measures."""
