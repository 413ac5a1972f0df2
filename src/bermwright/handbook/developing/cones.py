"""A cone or a ring of one, unrolled: flashings round pipes, bands of a dome, linings of splayed openings."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within


class ConePattern(NamedTuple):
    """A ring sector of paper."""

    inner: float
    """Radius of its short edge (m)."""
    outer: float
    """Radius of its long edge (m)."""
    angle: float
    """Angle between its two ends (rad)."""


def cone_pattern(small: float, large: float, slant: float) -> ConePattern:
    """The ring sector that rolls up into a cut cone.

    inner = r l/(R - r), outer = inner + l, angle = 2 pi (R - r)/l

    Parameters
    ----------
    small : float
        Radius of the narrow end, r [m]; from 0.
    large : float
        Radius of the wide end, R [m]; above the narrow one.
    slant : float
        Length of the slope between both, l [m]; at least the difference of the radii.

    Returns
    -------
    ConePattern
        Radii of the two edges and the angle between the ends [m, m, rad].

    References
    ----------
    [DOCARMO1976] developable surfaces.

    Examples
    --------
    >>> pattern = cone_pattern(0.1, 0.3, 0.4)
    >>> round(pattern.inner, 3), round(pattern.outer, 3), round(float(np.degrees(pattern.angle)), 1)
    (0.2, 0.6, 180.0)
    """
    within("small", small, 0.0, unit="m")
    within("large", large, 0.0, unit="m", open_low=True)
    wider = large - small
    if not (wider > 0.0 and slant >= wider):
        raise OutOfRangeError(
            f"No cone widens from {small:g} m to {large:g} m over a slope of {slant:g} m: the wide end must "
            "be the larger one, and the slope at least as long as they differ."
        )
    inner = small * slant / wider
    return ConePattern(inner=inner, outer=inner + slant, angle=float(2.0 * np.pi * wider / slant))
