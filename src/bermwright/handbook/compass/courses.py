"""Courses of a dome: level ones that step in, and tilted ones whose beds stand square to the face."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

WHOLE = 1e-9
"""What is missing to a whole course by rounding alone (courses)."""


class Courses(NamedTuple):
    """Every course from the foot up."""

    height: Array
    """Of its bed at the inner face, over the springing (m)."""
    radius: Array
    """Of the inner face at its bed (m)."""
    step: Array
    """How far its bed lies in from the bed below (m); the first entry is 0."""
    tilt: Array
    """Of its bed below the horizontal towards the room (rad); 0 for level courses."""


def course_radius(height: ArrayLike, radius: ArrayLike, at: ArrayLike) -> Array:
    """Radius of a profile at heights over its springing.

    r(z), straight between the points of the profile

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown [m]; each above the one before.
    radius : array
        Their distances from the axis [m]; from 0.
    at : float or array
        Heights [m]; within the profile.

    Returns
    -------
    float or array
        Radius [m].

    References
    ----------
    [HUNTER2004] compasses for domes.

    Examples
    --------
    >>> float(course_radius([0.0, 1.0, 2.0], [2.0, 1.5, 0.0], 0.5))
    1.75
    """
    z, r = _profile(height, radius)
    within("height", at, float(z[0]), float(z[-1]), unit="m")
    return np.asarray(np.interp(np.asarray(at, dtype=float), z, r))


def level_courses(height: ArrayLike, radius: ArrayLike, course: float) -> Courses:
    """Whole level courses of one height, as bags, tubes and corbelled bricks are laid.

    z_k = k c, r_k = r(z_k), for as many whole courses as fit under the crown

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown [m].
    radius : array
        Their distances from the axis [m]; from 0.
    course : float
        Height of a course as it lies after tamping, c [m]; above 0.

    Returns
    -------
    Courses
        Height, radius, step-in and tilt of every bed [m, m, m, rad].

    References
    ----------
    [HUNTER2004] corbelling bags and tubes.

    Examples
    --------
    >>> [round(float(r), 2) for r in level_courses([0.0, 3.0], [3.0, 0.0], 0.5).radius]
    [3.0, 2.5, 2.0, 1.5, 1.0, 0.5]
    """
    z, r = _profile(height, radius)
    within("height of a course", course, 0.0, float(z[-1] - z[0]), unit="m", open_low=True)
    count = int(np.floor((z[-1] - z[0]) / course + WHOLE))
    beds = z[0] + course * np.arange(count)
    radii = np.asarray(np.interp(beds, z, r))
    return Courses(height=beds, radius=radii, step=_steps(radii), tilt=np.zeros_like(beds))


def tilted_courses(height: ArrayLike, radius: ArrayLike, course: float) -> Courses:
    """Whole courses whose beds stand square to the inner face, as bricks are laid in mortar.

    s_k = k c along the face, tilt = 90 deg - slope of the face

    Parameters
    ----------
    height : array
        Heights of the profile's points, from the foot to the crown, close together [m].
    radius : array
        Their distances from the axis [m]; from 0.
    course : float
        Height of a course with its joint, measured along the inner face [m]; above 0.

    Returns
    -------
    Courses
        Height, radius, step-in and tilt of every bed [m, m, m, rad].

    References
    ----------
    [DOCARMO1976] chapter 1, arc length.

    Examples
    --------
    >>> turn = np.linspace(0.0, np.pi / 2.0, 2001)
    >>> courses = tilted_courses(2.0 * np.sin(turn), 2.0 * np.cos(turn), 0.1)
    >>> round(float(courses.tilt[10]), 3)
    0.5
    """
    z, r = _profile(height, radius)
    pieces = np.hypot(np.diff(z), np.diff(r))
    around = np.concatenate([[0.0], np.cumsum(pieces)])
    within("height of a course", course, 0.0, float(around[-1]), unit="m", open_low=True)
    places = course * np.arange(int(np.floor(around[-1] / course + WHOLE)))
    slope = np.arctan2(-np.diff(r), np.diff(z))
    middles = 0.5 * (around[1:] + around[:-1])
    radii = np.asarray(np.interp(places, around, r))
    return Courses(
        height=np.asarray(np.interp(places, around, z)),
        radius=radii,
        step=_steps(radii),
        tilt=np.asarray(np.interp(places, middles, slope)),
    )


def _steps(radii: Array) -> Array:
    return np.concatenate([[0.0], radii[:-1] - radii[1:]])


def _profile(height: ArrayLike, radius: ArrayLike) -> tuple[Array, Array]:
    """The profile as arrays, refused where one height has more than one radius."""
    z, r = np.asarray(height, dtype=float), np.asarray(radius, dtype=float)
    within("radius of the profile", r, 0.0, unit="m")
    within("number of points", z.size, 2)
    rise = np.diff(z)
    if not bool(np.all(rise > 0.0)):
        at = float(z[int(np.argmax(~(rise > 0.0)))])
        raise OutOfRangeError(
            f"The profile does not rise at a height of {at:g} m: it overhangs or stands still there, and a "
            "course at one height must have one radius. Give points that rise from the foot to the crown."
        )
    return z, r
