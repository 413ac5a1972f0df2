"""Lintels: how much of the wall over an opening rests on them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class LintelLoad:
    """What a lintel carries of the wall above it."""

    total: Array
    """N."""
    moment: Array
    """Largest bending moment (N m)."""
    reaction: Array
    """Force on each end (N)."""


def lintel_load(span: ArrayLike, height: ArrayLike, *, weight: ArrayLike, arches: bool) -> LintelLoad:
    """Load of the wall over a lintel, all of it or what lies under its arch of 45 degrees.

    all: W = w·h·l, M = W·l/8; arching, with a = min(h, l/2): W = w·(a·l − a²),
    M = W·l/4 − w·(a²/2·(l/2 − 2·a/3) + a·(l/2 − a)²/2)

    Parameters
    ----------
    span : float or array
        Span l of the lintel [m], > 0.
    height : float or array
        Height h of the wall over it [m], ≥ 0.
    weight : float or array
        Weight w of a square metre of the wall [N/m2], ≥ 0.
    arches : bool
        Whether the wall arches over the opening [-]: bonded, higher than the arch, jambs that take its push.

    Returns
    -------
    LintelLoad
        Load [N], moment [N m] and force on each end [N].

    References
    ----------
    [UFC310-05A] chapter 8; [TALY2010] example 4.27.

    Examples
    --------
    >>> round(float(lintel_load(1.0, 2.0, weight=6e3, arches=True).moment))
    250
    """
    within("span of the lintel", span, 0.0, unit="m", open_low=True)
    within("height of the wall over it", height, 0.0, unit="m")
    within("weight of the wall", weight, 0.0, unit="N/m2")
    length, tall, heavy = (np.asarray(value, dtype=np.float64) for value in (span, height, weight))
    if not arches:
        total = heavy * tall * length
        return LintelLoad(total=total, moment=total * length / 8, reaction=total / 2)
    half = 0.5 * length
    a = np.minimum(tall, half)
    total = heavy * (a * length - a**2)
    beside = a**2 / 2 * (half - 2 * a / 3) + a * (half - a) ** 2 / 2
    return LintelLoad(total=total, moment=0.5 * total * half - heavy * beside, reaction=total / 2)
