"""Heaps of dug soil: how high and wide they lie at their slope of repose."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Number = float | Array

STEEPEST = 0.9
"""No dry heap stands steeper (rad)."""


class Cone(NamedTuple):
    """A heap poured at one place (m)."""

    radius: Array
    height: Array


class Windrow(NamedTuple):
    """A long heap."""

    width: Array
    """At its foot (m)."""
    area: Array
    """Of its section: volume per metre (m2)."""


def cone_heap(loose: Number, *, repose: Number) -> Cone:
    """Radius and height of a cone of loose soil.

    r = (3·V/(π·tan φ))^⅓, h = r·tan φ

    Parameters
    ----------
    loose : float or array
        Loose volume, V [m3], above 0.
    repose : float or array
        Slope of repose, φ [rad], above 0 to 0.9.

    Returns
    -------
    Cone
        Radius and height [m].

    References
    ----------
    [HEAPS] : the cone.

    Examples
    --------
    >>> round(float(cone_heap(20.0, repose=np.radians(35.0)).radius), 3)
    3.01
    """
    within("loose volume", loose, 0.0, unit="m3", open_low=True)
    within("slope of repose", repose, 0.0, STEEPEST, unit="rad", open_low=True)
    steep = np.tan(np.asarray(repose, dtype=float))
    radius = np.cbrt(3.0 * np.asarray(loose, dtype=float) / (np.pi * steep))
    return Cone(radius=np.asarray(radius), height=np.asarray(radius * steep))


def windrow(height: Number, *, repose: Number) -> Windrow:
    """Width and section of a long heap of a given height.

    b = 2·h/tan φ, A = h²/tan φ

    Parameters
    ----------
    height : float or array
        Height, h [m], above 0.
    repose : float or array
        Slope of repose, φ [rad], above 0 to 0.9.

    Returns
    -------
    Windrow
        Width at the foot [m] and area of the section [m2].

    References
    ----------
    [HEAPS] : the triangle.

    Examples
    --------
    >>> round(float(windrow(2.0, repose=np.radians(35.0)).width), 3)
    5.713
    """
    within("height", height, 0.0, unit="m", open_low=True)
    within("slope of repose", repose, 0.0, STEEPEST, unit="rad", open_low=True)
    run = np.asarray(height, dtype=float) / np.tan(np.asarray(repose, dtype=float))
    return Windrow(width=np.asarray(2.0 * run), area=np.asarray(run * np.asarray(height, dtype=float)))
