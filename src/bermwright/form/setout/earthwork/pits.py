"""A pit with a level bottom and leaning sides, and the line along which its sides meet the ground."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.setout.nouns import SetOutError

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.setout.ground import Surface
    from bermwright.form.setout.nouns import Spot

    Array = NDArray[np.float64]

STEPS = 60
"""Halvings in which an edge of the dig meets the ground."""
HAIR = 1e-9
DEEPEST = 30.0
"""No dig of a house is deeper (m)."""
SIDE_RAYS, CORNER_RAYS = 32, 8
"""Places along a side, and turns round a corner, at which an edge over uneven ground is sought."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pit:
    """A pit with a level rectangular bottom and four sides that lean out alike (m)."""

    low: Spot
    high: Spot
    """Corners of the bottom: front left and back right."""
    bottom: float
    """Level of the bottom over the floor (m)."""
    batter: float
    """How far a side leans out for each metre up (-)."""

    def level(self, along: Array, across: Array) -> Array:
        """Level of bottom or side under a place; not a number beyond upright sides."""
        past = np.maximum(
            np.maximum(self.low[0] - along, along - self.high[0]),
            np.maximum(self.low[1] - across, across - self.high[1]),
        )
        if self.batter <= HAIR:
            return np.where(past <= HAIR, self.bottom, np.nan)
        return np.asarray(self.bottom + np.maximum(past, 0.0) / self.batter)

    def corners(self) -> tuple[tuple[Spot, Spot], ...]:
        """Each corner of the bottom with the way in which it leans out, round from the front left."""
        (u0, v0), (u1, v1) = self.low, self.high
        return (
            ((u0, v0), (-1.0, -1.0)),
            ((u0, v1), (-1.0, 1.0)),
            ((u1, v1), (1.0, 1.0)),
            ((u1, v0), (1.0, -1.0)),
        )


def pit_corners(pit: Pit, surface: Surface) -> tuple[Spot, ...]:
    """Where the four edges of a pit meet the ground, round from the front left."""
    return tuple(_meets(spot, way, pit, surface) for spot, way in pit.corners())


def pit_outline(pit: Pit, surface: Surface) -> tuple[Spot, ...]:
    """Where all sides meet the ground: four corners under even ground, a traced line under uneven."""
    if surface.plane or pit.batter <= HAIR:
        return pit_corners(pit, surface)
    return tuple(_meets(spot, way, pit, surface) for spot, way in _rays(pit))


def _rays(pit: Pit) -> Iterator[tuple[Spot, Spot]]:
    """Places on the edge of the bottom and ways up a side from them, round from the front left.

    A side rises with the larger of how far a way leads along and across: every way has 1 as its larger.
    """
    corners = pit.corners()
    for (spot, way), (other, _) in zip(corners, (*corners[1:], corners[0]), strict=True):
        after = (way[0], 0.0) if other[0] == spot[0] else (0.0, way[1])
        before = way[0] - after[0], way[1] - after[1]
        for share in np.linspace(0.0, 1.0, CORNER_RAYS, endpoint=False):
            yield spot, _sum(before, after, float(share))
        for share in np.linspace(1.0, 0.0, CORNER_RAYS, endpoint=False):
            yield spot, _sum(after, before, float(share))
        for share in np.linspace(0.0, 1.0, SIDE_RAYS):
            yield _sum(spot, (other[0] - spot[0], other[1] - spot[1]), float(share)), after


def _sum(one: Spot, other: Spot, share: float) -> Spot:
    return one[0] + share * other[0], one[1] + share * other[1]


def _meets(spot: Spot, way: Spot, pit: Pit, surface: Surface) -> Spot:
    def over(up: float) -> float:
        u, v = spot[0] + way[0] * pit.batter * up, spot[1] + way[1] * pit.batter * up
        return float(surface.level(u, v)) - pit.bottom - up

    if over(0.0) <= 0.0 or pit.batter <= HAIR:
        return spot
    low, high = 0.0, 1.0
    while over(high) > 0.0:
        high *= 2.0
        if high > 4.0 * DEEPEST:
            raise SetOutError(
                "The sides of the dig never meet the ground: take them steeper, or hold the uphill side with "
                "a wall."
            )
    for _ in range(STEPS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if over(middle) > 0.0 else (low, middle)
    return spot[0] + way[0] * pit.batter * low, spot[1] + way[1] * pit.batter * low
