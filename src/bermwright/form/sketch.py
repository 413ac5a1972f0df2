"""Points of a sketch, a hung chain or an old vault, put upright and in order."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

LEAST_POINTS = 3
FLATTEST = 0.03
"""Rise over span below which points are a line and no arch."""
ONE_LEG = 0.35
"""Difference of both ends' heights, over the height of the whole, from which one leg is missing."""
UNLIKE = 0.01
"""Difference of both ends' heights, over the span, that is worth a word."""
MOST_TILT = np.radians(15.0)
"""Tilt of a picture beyond which its ends are not both feet."""
SHARPEST = np.radians(100.0)
"""Turn at a point from which the points do not follow an arch; a pointed crown turns less (rad)."""


class SketchError(BermwrightError, ValueError):
    """Points from which no arch can be read; the text says which, why and what to do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Levelled:
    """Points from the left foot over the crown to the right foot; the lower end at height 0.

    x = 0 is the middle between both ends.
    """

    x: Array
    z: Array
    says: tuple[str, ...]
    """What was done to the points: turned over, mirrored, levelled, read backwards."""

    @property
    def span(self) -> float:
        """Distance between the feet (m)."""
        return float(self.x[-1] - self.x[0])


def arch_of(x: ArrayLike, z: ArrayLike, *, mirror: bool = False, level: bool = False) -> Levelled:
    """Put the points of an arch upright and in order; refuse points that follow no arch.

    `x` and `z` come in the order of the curve, from any origin (m). With `mirror` they are one leg, and
    the other is its mirror image; with `level` both ends are feet of one level and the picture was tilted.
    A chain that hangs is turned over.

    >>> arch_of([0.0, 1.0, 2.0, 3.0, 4.0], [5.0, 4.1, 3.9, 4.1, 5.0]).z.round(2)
    array([0. , 0.9, 1.1, 0.9, 0. ])
    """
    points = np.stack([np.asarray(x, dtype=float), np.asarray(z, dtype=float)])
    _all_there(points)
    says: list[str] = []
    if mirror:
        points = _mirrored(points)
        says.append("One leg was given; the other is its mirror image.")
    if points[0, 0] > points[0, -1]:
        points = points[:, ::-1]
        says.append("The points ran from right to left and were read backwards.")
    if _hangs(points):
        points = points * np.array([[1.0], [-1.0]])
        says.append("The points hang below their ends, as a chain does, and were turned over.")
    if level:
        points, turn = _turned(points)
        says.append(
            f"The picture was turned by {abs(np.degrees(turn)):.1f} degrees, so that its feet are level."
        )
    _no_leg_missing(points)
    _in_order(points)
    points = points - np.array([[0.5 * (points[0, 0] + points[0, -1])], [min(points[1, 0], points[1, -1])]])
    if abs(points[1, -1] - points[1, 0]) > UNLIKE * (points[0, -1] - points[0, 0]):
        says.append(_short_end(points))
    _not_flat(points)
    return Levelled(x=points[0], z=points[1], says=tuple(says))


def _all_there(points: Array) -> None:
    if points.shape[1] < LEAST_POINTS:
        count = points.shape[1]
        raise SketchError(
            f"{count} point{'' if count == 1 else 's'} give no curve: at least {LEAST_POINTS} are needed, "
            "both feet among them."
        )
    lost = np.flatnonzero(~np.isfinite(points).all(axis=0))
    if lost.size:
        raise SketchError(f"Point {lost[0] + 1} has no number in it: measure it again, or take it out.")
    near = 1e-6 * float(np.ptp(points, axis=1).max())
    steps = np.hypot(*np.diff(points, axis=1))
    if (steps <= near).any():
        twice = int(np.argmax(steps <= near))
        raise SketchError(f"Points {twice + 1} and {twice + 2} are the same: take one of them out.")


def _mirrored(leg: Array) -> Array:
    """Both legs from one; whichever end is higher (lower, for a hung chain) is the crown."""
    foot_first = abs(leg[1, 0] - leg[1].mean()) >= abs(leg[1, -1] - leg[1].mean())
    up = leg if foot_first else leg[:, ::-1]
    other = up[:, -2::-1] * np.array([[-1.0], [1.0]]) + np.array([[2.0 * up[0, -1]], [0.0]])
    return np.concatenate([up, other], axis=1)


def _hangs(points: Array) -> bool:
    """Whether most of the points lie below the line between both ends."""
    chord = np.interp(points[0], points[0, [0, -1]], points[1, [0, -1]])
    return float(np.sum(points[1] - chord)) < 0.0


def _no_leg_missing(points: Array) -> None:
    z = points[1]
    height = float(z.max() - min(z[0], z[-1]))
    if abs(z[-1] - z[0]) > ONE_LEG * height:
        low, high = ("left", "right") if z[0] < z[-1] else ("right", "left")
        raise SketchError(
            f"The sketch has one leg: its {low} end is {abs(z[-1] - z[0]):.3g} m lower than its {high} end. "
            "Draw it down to both feet, or ask for the other leg as the mirror image of this one."
        )


def _in_order(points: Array) -> None:
    from shapely import LineString

    if not LineString(points.T).is_simple:
        raise SketchError(
            "The line through the points crosses itself: give them in the order of the curve, from one foot "
            "over the crown to the other, and look for a point with its two numbers swapped."
        )
    heading = np.arctan2(*np.diff(points, axis=1)[::-1])
    turns = np.abs((np.diff(heading) + np.pi) % (2.0 * np.pi) - np.pi)
    if turns.max() > SHARPEST:
        at = int(np.argmax(turns)) + 2
        raise SketchError(
            f"At point {at} the line turns back by {np.degrees(turns.max()):.0f} degrees: the points are not "
            f"in the order of the curve, or point {at} is wrong. Sort them from one foot to the other."
        )


def _turned(points: Array) -> tuple[Array, float]:
    """Turned about the middle between both ends, until they are level there."""
    across, up = points[:, -1] - points[:, 0]
    turn = float(np.arctan2(up, across))
    if abs(turn) > MOST_TILT:
        raise SketchError(
            f"Both ends differ by {abs(np.degrees(turn)):.0f} degrees from level: that is more than a tilted "
            "picture. Give both feet, or take the picture again with the feet level."
        )
    back = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    middle = 0.5 * (points[:, :1] + points[:, -1:])
    return back @ (points - middle), turn


def _short_end(points: Array) -> str:
    low, high = ("left", "right") if points[1, 0] < points[1, -1] else ("right", "left")
    return (
        f"The {high} end stops {abs(points[1, -1] - points[1, 0]):.2f} m higher than the {low} one; the "
        f"curve is taken to run on down to the level of the {low} foot."
    )


def _not_flat(points: Array) -> None:
    rise, span = float(points[1].max()), float(points[0, -1] - points[0, 0])
    if rise < FLATTEST * span:
        raise SketchError(
            f"The points rise {rise:.3g} m on {span:.3g} m: that is a line and no arch. Check which number "
            "is the distance and which the height."
        )
