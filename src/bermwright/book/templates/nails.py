"""Where the nails of a rib piece go: rows across its depth, clear of every edge, end and butt joint."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.book.templates.pieces import crossing

if TYPE_CHECKING:
    from bermwright.book.templates.pieces import Flat


@dataclass(frozen=True, slots=True, kw_only=True)
class Nailing:
    """The nail pattern that the rules have checked."""

    diameter: float
    length: float
    rows: int
    """Rows across the depth of the rib."""
    along: float
    """Spacing in a row (m)."""
    edge: float
    """Least distance from an edge that was cut (m)."""
    end: float
    """Least distance from an end or a butt joint (m)."""


def nail_spots(flat: Flat, nailing: Nailing) -> tuple[tuple[float, float], ...]:
    """Nail positions in the frame of the piece (m); neighbouring rows are staggered by half a spacing."""
    stops = [0.0, *sorted(joint[0] for joint in flat.joints), flat.chord]
    spots = []
    for row in range(nailing.rows):
        shift = 0.5 * nailing.along * (row % 2)
        for low, high in pairwise(stops):
            spots += [_spot(flat, u, row, nailing) for u in _between(low, high, nailing, shift)]
    return tuple(spot for spot in spots if spot is not None)


def _between(low: float, high: float, nailing: Nailing, shift: float) -> list[float]:
    """Places along the chord between two stops, pushed out to both of them as far as allowed."""
    first, last = low + nailing.end + shift, high - nailing.end
    if last < first:
        return []
    count = int((last - first) / nailing.along + 1e-9) + 1
    return [first + nailing.along * i for i in range(count)]


def _spot(flat: Flat, u: float, row: int, nailing: Nailing) -> tuple[float, float] | None:
    low, high = crossing(flat, u)
    room = high - low - 2.0 * nailing.edge
    if not (np.isfinite(room) and room >= 0.0):
        return None
    share = 0.5 if nailing.rows == 1 else row / (nailing.rows - 1)
    return (u, low + nailing.edge + share * room)
