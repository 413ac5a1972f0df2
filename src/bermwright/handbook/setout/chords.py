"""A flat arc from its chord: ordinates, the angle of the three-nail board, deflection angles, chords."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.curves import segment_radius

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array


def chord_ordinate(distance: Number, *, chord: Number, rise: Number) -> Array:
    """Height of a circular arc over its chord.

    y = √(R² − x²) − (R − v)

    Parameters
    ----------
    distance : float or array
        Distance from the middle of the chord, x [m]; at most half the chord either way.
    chord : float or array
        Chord [m], above 0.
    rise : float or array
        Rise in the middle, v [m], above 0; at most half the chord.

    Returns
    -------
    float or array
        Height over the chord, y [m].

    References
    ----------
    [TAPEGEOMETRY] : the circle over its chord.

    Examples
    --------
    >>> round(float(chord_ordinate(1.0, chord=4.0, rise=0.5)), 4)
    0.3807
    """
    radius = _flat_radius(chord, rise)
    half = 0.5 * np.asarray(chord, dtype=float)
    within("distance over half the chord", np.asarray(distance) / half, -1.0, 1.0)
    x = np.asarray(distance, dtype=float)
    return np.asarray(np.sqrt(radius**2 - x**2) - (radius - np.asarray(rise, dtype=float)))


def _flat_radius(chord: Number, rise: Number) -> Array:
    within("chord", chord, 0.0, unit="m", open_low=True)
    within("rise over chord", np.asarray(rise) / np.asarray(chord, dtype=float), 0.0, 0.5, open_low=True)
    return segment_radius(chord, rise)


def three_nail_angle(chord: Number, rise: Number) -> Array:
    """Angle of two boards that slide along two nails and draw a flat arc with their apex.

    α = 2·arctan(C/(2·v)), which is π − arcsin(C/(2·R))

    Parameters
    ----------
    chord : float or array
        Distance between the two nails, C [m], above 0.
    rise : float or array
        Rise of the arc over them, v [m], above 0; at most half the chord.

    Returns
    -------
    float or array
        Angle between the boards, α [rad].

    Notes
    -----
    Every point of an arc sees its chord under one angle. Each board is at least as long as the chord.

    References
    ----------
    [TAPEGEOMETRY] : the inscribed angle.

    Examples
    --------
    >>> round(float(np.degrees(three_nail_angle(4.0, 0.5))), 2)
    151.93
    """
    _flat_radius(chord, rise)
    return np.asarray(2.0 * np.arctan2(np.asarray(chord, dtype=float), 2.0 * np.asarray(rise, dtype=float)))


def deflection_angle(arc: Number, *, radius: Number) -> Array:
    """Angle from the tangent to the chord of an arc: turn it off at the beginning, measure the chord along.

    δ = s/(2·R)

    Parameters
    ----------
    arc : float or array
        Length along the arc, s [m], from 0; at most half the circle.
    radius : float or array
        Radius, R [m], above 0.

    Returns
    -------
    float or array
        Deflection angle, δ [rad].

    References
    ----------
    [TAPEGEOMETRY] : tangent and chord.

    Examples
    --------
    >>> round(float(np.degrees(deflection_angle(20.0, radius=30.0))), 2)
    19.1
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("arc over radius", np.asarray(arc) / np.asarray(radius, dtype=float), 0.0, np.pi)
    return np.asarray(np.asarray(arc, dtype=float) / (2.0 * np.asarray(radius, dtype=float)))


def chord_of_arc(arc: Number, *, radius: Number) -> Array:
    """Straight distance between the ends of an arc.

    C = 2·R·sin(s/(2·R))

    Parameters
    ----------
    arc : float or array
        Length along the arc, s [m], from 0; at most half the circle.
    radius : float or array
        Radius, R [m], above 0.

    Returns
    -------
    float or array
        Chord, C [m].

    References
    ----------
    [TAPEGEOMETRY] : chord of an arc.

    Examples
    --------
    >>> round(float(chord_of_arc(20.0, radius=30.0)), 3)
    19.632
    """
    return np.asarray(2.0 * np.asarray(radius, dtype=float) * np.sin(deflection_angle(arc, radius=radius)))


def tangent_length(turn: Number, *, radius: Number) -> Array:
    """Distance from where a curve begins to where both its tangents meet.

    T = R·tan(Δ/2)

    Parameters
    ----------
    turn : float or array
        Angle by which the curve turns, Δ [rad], above 0, below π.
    radius : float or array
        Radius, R [m], above 0.

    Returns
    -------
    float or array
        Length of the tangent, T [m].

    References
    ----------
    [TAPEGEOMETRY] : tangents of a circle.

    Examples
    --------
    >>> round(float(tangent_length(np.radians(30.0), radius=100.0)), 3)
    26.795
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("turn", turn, 0.0, np.pi - 1e-9, unit="rad", open_low=True)
    return np.asarray(np.asarray(radius, dtype=float) * np.tan(0.5 * np.asarray(turn, dtype=float)))


def chain_point(turn: Number, *, radius: Number) -> Array:
    """Two places of a circle set out from its middle: along and across a baseline, for an angle.

    u = R·cos φ, v = R·sin φ

    Parameters
    ----------
    turn : float or array
        Angle from the baseline, φ [rad].
    radius : float or array
        Length of the chain, R [m], above 0.

    Returns
    -------
    array
        Along and across the baseline, in the last axis [m].

    References
    ----------
    [TAPEGEOMETRY] : the circle.

    Examples
    --------
    >>> chain_point(0.0, radius=2.0).tolist()
    [2.0, 0.0]
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("turn", turn, unit="rad")
    angle, length = np.asarray(turn, dtype=float), np.asarray(radius, dtype=float)
    return np.stack([length * np.cos(angle), length * np.sin(angle)], axis=-1)
