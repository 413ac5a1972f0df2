"""Where the nails of a rib piece go: a group on each side of every butt joint, staggered between."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.book.templates.pieces import crossing

if TYPE_CHECKING:
    from collections.abc import Generator, Iterator

    from bermwright.book.templates.pieces import Flat
    from bermwright.house import Nail
    from bermwright.rules.analysis.joint import NailedJoint


@dataclass(frozen=True, slots=True, kw_only=True)
class Nailing:
    """The nail pattern that the rules have checked (m)."""

    diameter: float
    length: float
    count: int
    """Nails on each side of a butt joint."""
    rows: int
    """Rows across the depth in which those stand."""
    along: float
    """Least distance in a row."""
    edge: float
    """Least distance from an edge that was cut."""
    end: float
    """Least distance from an end or a butt joint."""
    spacing: float
    """Distance of the nails along the rib between the joints."""


def nailing_of(joint: NailedJoint, nail: Nail) -> Nailing:
    """The pattern of a joint that the rules have checked."""
    return Nailing(
        diameter=nail.diameter,
        length=nail.length,
        count=joint.count,
        rows=joint.rows,
        along=float(joint.least.along),
        edge=float(joint.least.loaded_edge),
        end=float(joint.least.loaded_end),
        spacing=joint.spacing,
    )


def nail_spots(flat: Flat, nailing: Nailing) -> tuple[tuple[float, float], ...]:
    """Nail positions in the frame of the piece (m)."""
    return tuple(spot for spot in _spots(flat, nailing) if _fits(flat, spot, nailing))


def _spots(flat: Flat, nailing: Nailing) -> Iterator[tuple[float, float]]:
    stops = [(0.0, flat.butts[0]), *((u, True) for u in sorted(joint[0] for joint in flat.joints))]
    stops.append((flat.chord, flat.butts[1]))
    for (low, low_butt), (high, high_butt) in pairwise(stops):
        middle = 0.5 * (low + high)
        first = yield from _group(flat, nailing, low, middle, butt=low_butt)
        last = yield from _group(flat, nailing, high, middle, butt=high_butt)
        yield from _line(flat, nailing, first, last)


def _group(
    flat: Flat, nailing: Nailing, stop: float, middle: float, *, butt: bool
) -> Generator[tuple[float, float], None, float]:
    """The nails on one side of a joint; returns where the line between the joints begins."""
    away = 1.0 if middle > stop else -1.0
    reach = stop + away * nailing.end
    if not butt:
        return reach
    for index in range(nailing.count):
        column, row = divmod(index, nailing.rows)
        u = stop + away * (nailing.end + column * nailing.along)
        share = 0.5 if nailing.rows == 1 else row / (nailing.rows - 1)
        yield _across(flat, u, share, nailing)
        reach = u
    return reach + away * nailing.spacing


def _line(flat: Flat, nailing: Nailing, first: float, last: float) -> Iterator[tuple[float, float]]:
    """Nails between two groups, by turns along either edge."""
    count = int(np.floor((last - first) / nailing.spacing + 1e-9)) + 1 if last >= first else 0
    shift = 0.5 * (last - first - (count - 1) * nailing.spacing)
    for index in range(count):
        u = first + shift + index * nailing.spacing
        yield _across(flat, u, 0.0 if index % 2 else 1.0, nailing)


def _across(flat: Flat, u: float, share: float, nailing: Nailing) -> tuple[float, float]:
    """A place along the chord, at a share of the room between both edges."""
    low, high = crossing(flat, u)
    return (u, low + nailing.edge + share * (high - low - 2.0 * nailing.edge))


def _fits(flat: Flat, spot: tuple[float, float], nailing: Nailing) -> bool:
    """Whether a nail keeps its distance from both edges and from every end."""
    low, high = crossing(flat, spot[0])
    inside = low + nailing.edge - 1e-9 <= spot[1] <= high - nailing.edge + 1e-9
    ends = (0.0, flat.chord, *(joint[0] for joint in flat.joints))
    return inside and min(abs(spot[0] - end) for end in ends) >= nailing.end - 1e-9
