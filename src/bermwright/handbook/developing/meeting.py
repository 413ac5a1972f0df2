"""Where a small vault, the sides of a box, or a pipe meets a shell."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

HALVINGS = 60
SCAN = 400
"""Places along a pipe at which it is asked whether it has come out of the shell."""


class PipeCut(NamedTuple):
    """Where the generators of a pipe come out of a shell."""

    along: Array
    """Distance along the pipe from its starting point (m)."""
    x: Array
    """Place of that point: across (m)."""
    y: Array
    """Square to the plane in which the pipe leans (m)."""
    z: Array
    """Height over the springing (m)."""


def reach_of_vault(offset: ArrayLike, half_width: ArrayLike, turn: ArrayLike) -> Array:
    """Distance along a level line from the axis of a vault out to its face.

    y = (X + u cos a)/sin a

    Parameters
    ----------
    offset : float or array
        Distance of the line from the axis of the small vault or box, in plan, u [m]; positive on the side
        of the sharp angle between both axes, where it runs farther.
    half_width : float or array
        Half width of the large vault at the line's height, X [m]; from 0.
    turn : float or array
        Angle in plan between both axes, a [rad]; above 0, to a right angle.

    Returns
    -------
    float or array
        Distance [m].

    References
    ----------
    [MAKINGFORMS] a small vault into a large one.

    Examples
    --------
    >>> round(float(reach_of_vault(0.0, 1.5, np.radians(90.0))), 3)
    1.5
    """
    within("half_width", half_width, 0.0, unit="m")
    within("turn", turn, 0.0, 0.5 * np.pi + 1e-9, unit="rad", open_low=True)
    a = np.asarray(turn, dtype=float)
    beside = np.asarray(offset, dtype=float) * np.cos(a)
    return np.asarray((np.asarray(half_width, dtype=float) + beside) / np.sin(a))


def reach_of_dome(offset: ArrayLike, radius: ArrayLike) -> Array:
    """Distance along a level line that passes a dome's axis at some distance, out to its face.

    y = sqrt(r^2 - u^2)

    Parameters
    ----------
    offset : float or array
        Distance at which the line passes the axis, u [m]; up to the radius.
    radius : float or array
        Radius of the dome at the line's height, r [m]; from 0.

    Returns
    -------
    float or array
        Distance [m].

    References
    ----------
    [MAKINGFORMS] a small vault into a dome.

    Examples
    --------
    >>> float(reach_of_dome(0.6, 1.0))
    0.8
    """
    within("radius", radius, 0.0, unit="m")
    u, r = np.asarray(offset, dtype=float), np.asarray(radius, dtype=float)
    within("offset and radius", u + r)
    if bool(np.any(np.abs(u) > r)):
        raise OutOfRangeError(
            "A line that passes the axis farther off than the ring is wide never meets it: the opening "
            "is wider than the wall at that height. Make it narrower, or set it lower."
        )
    return np.asarray(np.sqrt(r**2 - u**2))


def pipe_cut(
    turn: ArrayLike,
    pipe: float,
    at: float,
    lean: float,
    *,
    height: ArrayLike,
    radius: ArrayLike,
    is_round: bool,
) -> PipeCut:
    """Where a round pipe comes out of the outer face of a vault or a dome.

    p(t) = (at, 0, 0) + a (cos t cos b, sin t, -cos t sin b) + s (sin b, 0, cos b), s where p crosses the face

    Parameters
    ----------
    turn : float or array
        Places round the pipe, t [rad]; 0 on the side to which it leans.
    pipe : float
        Outer radius of the pipe, a [m]; above 0.
    at : float
        Distance of the pipe's axis from the axis of the shell, at the springing [m].
    lean : float
        Angle by which the pipe leans out from upright, b [rad]; from 0 to below a right angle.
    height : array
        Heights of the face's points over the springing, from the foot to the crown [m].
    radius : array
        Their distances from the axis [m]; from 0.
    is_round : bool
        Whether the shell is a dome; else a vault whose axis lies square to the plane of the lean.

    Returns
    -------
    PipeCut
        Distance along the pipe from the springing, and the three coordinates of each point [m].

    References
    ----------
    [MAKINGFORMS] a pipe through a curved shell.

    Examples
    --------
    >>> angle = np.linspace(0.0, 0.5 * np.pi, 2001)
    >>> face = {"height": 2.0 * np.sin(angle), "radius": 2.0 * np.cos(angle)}
    >>> cut = pipe_cut([0.0, np.pi], 0.1, 1.1, 0.0, **face, is_round=False)
    >>> [round(float(one), 4) for one in cut.along]
    [1.6, 1.7321]
    """
    within("pipe", pipe, 0.0, unit="m", open_low=True)
    within("lean", lean, 0.0, 0.5 * np.pi - 1e-3, unit="rad")
    within("at", at, unit="m")
    t = np.atleast_1d(np.asarray(turn, dtype=float))
    z, r = np.asarray(height, dtype=float)[::-1], np.asarray(radius, dtype=float)[::-1]
    start = np.stack(
        [at + pipe * np.cos(t) * np.cos(lean), pipe * np.sin(t), -pipe * np.cos(t) * np.sin(lean)]
    )
    way = np.array([np.sin(lean), 0.0, np.cos(lean)])

    def over(s: Array) -> Array:
        """Height over the face; beyond its foot all is outside."""
        x, y, up = start + way[:, None] * s
        away = np.hypot(x, y) if is_round else np.abs(x)
        return np.asarray(up - np.interp(away, r, z, right=-np.inf))

    bracket = float(np.hypot(2.0 * r[-1], z[0]))
    s = _crossing(over, bracket, t.size)
    x, y, up = start + way[:, None] * s
    return PipeCut(along=s, x=x, y=y, z=up)


def _crossing(over: Callable[[Array], Array], farthest: float, count: int) -> Array:
    """The first place at which every generator comes out, by scanning and halving."""
    places = np.linspace(0.0, farthest, SCAN)
    out = np.stack([over(np.full(count, place)) for place in places.tolist()]) > 0.0
    if bool(np.any(out[0])) or not bool(np.all(np.any(out, axis=0))):
        raise OutOfRangeError(
            "The pipe does not run from inside the shell to outside: its foot stands outside, or it never "
            "comes out. Move it towards the axis, or let it lean less."
        )
    first = np.argmax(out, axis=0)
    low, high = places[first - 1], places[first]
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        outside = over(middle) > 0.0
        low, high = np.where(outside, low, middle), np.where(outside, middle, high)
    return np.asarray(0.5 * (low + high))
