"""Arches from three and four centres, by the rules of the drawing board."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

SIXTY = 2.0 - np.sqrt(3.0)


class TwoRadii(NamedTuple):
    """Radius of the sides and of the crown (m)."""

    side: Array
    crown: Array


class FourCentres(NamedTuple):
    """The upper arc of a four-centred arch, right half, from the middle of the springing line (m)."""

    crown: Array
    """Radius of the upper arc."""
    centre_x: Array
    centre_z: Array
    joint_x: Array
    joint_z: Array
    apex_slope: Array
    """How far each side slopes from the level at the apex (rad)."""


def _oval(half_span: Number, rise: Number) -> tuple[Array, Array]:
    within("half span", half_span, 0.0, unit="m", open_low=True)
    within(
        "rise over half span", np.asarray(rise) / np.asarray(half_span, dtype=float), 0.0, 1.0, open_low=True
    )
    return np.asarray(half_span, dtype=float), np.asarray(rise, dtype=float)


def radii_by_sixty(half_span: Number, rise: Number) -> TwoRadii:
    """Radii of a three-centred arch whose three arcs turn sixty degrees each.

    r = (b − (2 − √3)·a)/(√3 − 1), R = 2·a − r

    Parameters
    ----------
    half_span : float or array
        Half the span, a [m], above 0.
    rise : float or array
        Rise, b [m]; at most half the span, and above 0.268 of it.

    Returns
    -------
    TwoRadii
        Radius of the sides, r, and of the crown, R [m].

    References
    ----------
    [ARCHESBYARCS] : three arcs of sixty degrees.

    Examples
    --------
    >>> round(float(radii_by_sixty(1.0, 2.0 / 3.0).side), 5)
    0.54466
    """
    a, b = _oval(half_span, rise)
    within("rise over half span", b / a, float(SIXTY), 1.0, open_low=True)
    side = (b - SIXTY * a) / (np.sqrt(3.0) - 1.0)
    return TwoRadii(side=np.asarray(side), crown=np.asarray(2.0 * a - side))


def radii_by_diagonal(half_span: Number, rise: Number) -> TwoRadii:
    """Radii of a three-centred arch by the diagonal of half span and rise.

    c = √(a² + b²), r = c·(c − a + b)/(2·a), R = c·(c + a − b)/(2·b)

    Parameters
    ----------
    half_span : float or array
        Half the span, a [m], above 0.
    rise : float or array
        Rise, b [m], above 0; at most half the span.

    Returns
    -------
    TwoRadii
        Radius of the sides, r, and of the crown, R [m].

    References
    ----------
    [ARCHESBYARCS] : the construction by the diagonal.

    Examples
    --------
    >>> round(float(radii_by_diagonal(1.0, 0.5).side), 5)
    0.34549
    """
    a, b = _oval(half_span, rise)
    c = np.hypot(a, b)
    return TwoRadii(
        side=np.asarray(c * (c - a + b) / (2.0 * a)), crown=np.asarray(c * (c + a - b) / (2.0 * b))
    )


def crown_radius(half_span: Number, rise: Number, side: Number) -> Array:
    """Radius of the crown of a three-centred arch with given sides.

    R = (a² + b² − 2·a·r)/(2·(b − r))

    Parameters
    ----------
    half_span : float or array
        Half the span, a [m], above 0.
    rise : float or array
        Rise, b [m], above 0; at most half the span.
    side : float or array
        Radius of the sides, r [m], above 0, below the rise.

    Returns
    -------
    float or array
        Radius of the crown, R [m].

    References
    ----------
    [ARCHESBYARCS] : tangency of the arcs.

    Examples
    --------
    >>> round(float(crown_radius(1.0, 0.5, 0.34549)), 3)
    1.809
    """
    a, b = _oval(half_span, rise)
    r = np.asarray(side, dtype=float)
    within("side over rise", r / b, 0.0, 1.0 - 1e-9, open_low=True)
    return np.asarray((a**2 + b**2 - 2.0 * a * r) / (2.0 * (b - r)))


def egg_flank(large: Number, small: Number, *, apart: Number) -> Array:
    """Radius of the flank that joins the large and the small circle of an egg.

    R = (d² + r_1² − r_2²)/(2·(r_1 − r_2)), its centre level with that of the large circle

    Parameters
    ----------
    large : float or array
        Radius of the large circle, r_1 [m], above 0.
    small : float or array
        Radius of the small circle, r_2 [m], above 0, below the large one.
    apart : float or array
        Distance of their centres, d [m], above r_1 − r_2.

    Returns
    -------
    float or array
        Radius of the flank, R [m].

    References
    ----------
    [EB1911] : article Hydraulics, section 111, egg-shaped sewers; the flank follows from tangency.

    Examples
    --------
    >>> float(egg_flank(0.5, 0.25, apart=0.75))
    1.5
    """
    within("large circle", large, 0.0, unit="m", open_low=True)
    within(
        "small over large circle",
        np.asarray(small) / np.asarray(large, dtype=float),
        0.0,
        0.999,
        open_low=True,
    )
    r1, r2, d = (np.asarray(value, dtype=float) for value in (large, small, apart))
    within("apart over the difference of the circles", d / (r1 - r2), 1.0, open_low=True)
    return np.asarray((d**2 + r1**2 - r2**2) / (2.0 * (r1 - r2)))


def four_centred(half_span: float, rise: float, *, side: float, turn: float) -> FourCentres:
    """The upper arcs of a four-centred (flat pointed) arch whose sides are arcs of a known radius.

    R from |apex − C| = R, with C = c + (r − R)·(cos φ, sin φ) and c = (a − r, 0)

    Parameters
    ----------
    half_span : float
        Half the span, a [m], above 0.
    rise : float
        Rise of the apex, b [m], above the end of the side arcs.
    side : float
        Radius of the sides, r [m], above 0, below half the span.
    turn : float
        Angle through which each side arc runs, φ [rad], above 0, below π/2.

    Returns
    -------
    FourCentres
        Radius, low centre, joint and slope at the apex [m, rad].

    References
    ----------
    [ARCHESBYARCS] : tangency at the joint, and the apex on the arc.

    Examples
    --------
    >>> round(float(four_centred(2.0, 1.4, side=0.8, turn=np.radians(60.0)).crown), 4)
    8.1575
    """
    within("half span", half_span, 0.0, unit="m", open_low=True)
    within("side over half span", side / half_span, 0.0, 1.0 - 1e-9, open_low=True)
    within("turn", turn, 0.0, 0.5 * np.pi - 1e-9, unit="rad", open_low=True)
    within("rise", rise, side * np.sin(turn), unit="m", open_low=True)
    along = np.array([np.cos(turn), np.sin(turn)])
    side_centre = np.array([half_span - side, 0.0])
    joint = side_centre + side * along
    # The centre is q + R·(−along) with q = joint: |apex − joint + R·along|² = R².
    chord = np.array([0.0, rise]) - joint
    lean = float(chord @ along)
    if lean >= 0.0:
        raise OutOfRangeError(
            "The apex lies above the tangent of the side arcs: take less rise or more turn."
        )
    radius = float(-(chord @ chord) / (2.0 * lean))
    centre = joint - radius * along
    slope = float(np.arctan2(-centre[0], rise - centre[1]))
    return FourCentres(*(np.asarray(value) for value in (radius, *centre, *joint, slope)))
