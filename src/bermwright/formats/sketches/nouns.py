"""What a reader of sketches gives back, and how it chooses between several lines."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.sketch import SketchError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

MOST_POINTS = 400
"""Points of a drawn line that are kept: beyond them a fit learns nothing."""
ALIKE = 0.5
"""Share of the longest line's length from which another line may be meant too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A line as it was drawn: z upward, in its own units."""

    x: Array
    z: Array
    unit: float | None
    """Metres of one unit; None when the file does not say."""
    says: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One of the lines of a drawing."""

    name: str
    points: Array
    """(n, 2), z upward."""

    @property
    def length(self) -> float:
        """Length in the drawing's units."""
        return float(np.sum(np.hypot(*np.diff(self.points, axis=0).T)))


def chosen(lines: Sequence[Line], wanted: str | None, what: str) -> Line:
    """The line that is meant: the one of that name, or the only long one."""
    real = [line for line in lines if len(line.points) > 1 and line.length > 0.0]
    if not real:
        raise SketchError(f"There is no {what} in it. Draw the curve as one line from foot to foot.")
    if wanted is not None:
        named = [line for line in real if line.name == wanted]
        if len(named) == 1:
            return named[0]
        raise SketchError(
            f'{"More than one" if named else "No"} {what} is called "{wanted}". There are: {_names(real)}.'
        )
    longest = max(real, key=lambda line: line.length)
    alike = [line for line in real if line.length > ALIKE * longest.length]
    if len(alike) > 1:
        raise SketchError(
            f"{len(alike)} lines could be the curve: {_names(alike)}. Leave one in the file, or name the one "
            "that is meant."
        )
    return longest


def _names(lines: Sequence[Line]) -> str:
    return ", ".join(f'"{line.name}"' for line in lines[:12])


def thinned(points: Array) -> Array:
    """At most `MOST_POINTS` of the points, both ends among them; doubled points are left out."""
    steps = np.hypot(*np.diff(points, axis=0).T)
    kept: Array = points[np.concatenate([[True], steps > 1e-9 * max(float(np.ptp(points)), 1e-300)])]
    if len(kept) <= MOST_POINTS:
        return kept
    at = np.round(np.linspace(0, len(kept) - 1, MOST_POINTS)).astype(int)
    thin: Array = kept[at]
    return thin
