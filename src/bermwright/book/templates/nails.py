"""Where the nails of a rib piece go: a group on each side of every butt joint, staggered between.

Between two joints the nails take the force out of one board and into the next: where two groups have no room
beside each other, one block between both joints serves both, as many columns as find room.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.book.templates.pieces import crossing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.book.templates.pieces import Flat
    from bermwright.house import Nail
    from bermwright.rules.analysis.joint import NailedJoint

HAIR = 1e-7
STEPS = 4
"""Steps after which a place beside a slanting cut is found."""

Spot = tuple[float, float]


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
    across: float
    """Least distance between rows."""
    edge: float
    """Least distance from an edge that was cut."""
    end: float
    """Least distance from an end or a butt joint."""
    spacing: float
    """Distance of the nails along the rib between the joints."""

    @property
    def columns(self) -> int:
        """Columns of a whole group."""
        return -(-self.count // self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """A cut that nails keep away from: an end of the piece, or a butt joint of another layer."""

    at: float
    """Where it crosses `level` on the chord (m)."""
    level: float
    slope: float
    """How far it moves along the chord for each metre across (-)."""
    butt: bool

    def along(self, v: float) -> float:
        """Where it crosses a line along the chord (m)."""
        return self.at + self.slope * (v - self.level)


def nailing_of(joint: NailedJoint, nail: Nail) -> Nailing:
    """The pattern of a joint that the rules have checked."""
    return Nailing(
        diameter=nail.diameter,
        length=nail.length,
        count=joint.count,
        rows=joint.rows,
        along=float(joint.least.along),
        across=float(joint.least.across),
        edge=float(joint.least.loaded_edge),
        end=float(joint.least.loaded_end),
        spacing=joint.spacing,
    )


def nail_spots(flat: Flat, nailing: Nailing) -> tuple[Spot, ...]:
    """Nail positions in the frame of the piece (m)."""
    stops = stops_of(flat)
    found = (spot for low, high in pairwise(stops) for spot in _between(flat, nailing, low, high))
    return tuple(spot for spot in found if _fits(flat, spot, stops, nailing))


def stops_of(flat: Flat) -> tuple[Stop, ...]:
    """Both ends and the joints of other layers, in order along the chord."""
    foot_room, foot_soil, crown_soil, crown_room = flat.corners
    inner = [
        Stop(at=u, level=v, slope=float(np.tan(slope)), butt=True) for u, v, slope in sorted(flat.joints)
    ]
    return (
        _end(foot_room, foot_soil, butt=flat.butts[0]),
        *inner,
        _end(crown_room, crown_soil, butt=flat.butts[1]),
    )


def _end(low: Spot, high: Spot, *, butt: bool) -> Stop:
    return Stop(at=low[0], level=low[1], slope=(high[0] - low[0]) / (high[1] - low[1]), butt=butt)


def _between(flat: Flat, nailing: Nailing, low: Stop, high: Stop) -> Iterator[Spot]:
    """The nails between two cuts, row by row."""
    shares = [0.5] if nailing.rows == 1 else [row / (nailing.rows - 1) for row in range(nailing.rows)]
    lanes = [_lane(flat, nailing, low, high, share) for share in shares]
    room = min(last - first for first, last in lanes)
    if not room >= -HAIR:
        return
    fit = int(np.floor(room / nailing.along + HAIR)) + 1
    groups = low.butt + high.butt
    if groups and fit < groups * nailing.columns + 1:
        yield from _block(flat, nailing, low, high, min(fit, groups * nailing.columns))
        return
    zone = (nailing.columns - 1) * nailing.along
    gap = max(nailing.spacing, nailing.along)
    starts, ends = [first for first, _ in lanes], [last for _, last in lanes]
    if low.butt:
        yield from _group(flat, nailing, starts, shares, 1.0)
        starts = [first + zone + gap for first in starts]
    if high.butt:
        yield from _group(flat, nailing, ends, shares, -1.0)
        ends = [last - zone - gap for last in ends]
    yield from _line(flat, nailing, max(starts), min(ends))


def _lane(flat: Flat, nailing: Nailing, low: Stop, high: Stop, share: float) -> Spot:
    """First and last place of a row between two cuts, which may slant."""
    found = []
    for stop, away in ((low, nailing.end), (high, -nailing.end)):
        u = stop.at + away
        for _ in range(STEPS):
            u = stop.along(_across(flat, u, share, nailing)[1]) + away
        found.append(u)
    return found[0], found[1]


def _block(flat: Flat, nailing: Nailing, low: Stop, high: Stop, columns: int) -> tuple[Spot, ...]:
    """Columns between two cuts, from the one that is a butt or spread between two.

    Where they are too few for the nails of one joint there are more rows, as many as keep their distance.
    """
    for rows in range(max(nailing.rows, -(-nailing.count // columns)), nailing.rows, -1):
        spots = tuple(_rows(flat, nailing, low, high, (rows, columns)))
        if apart(spots, nailing):
            return spots
    return tuple(_rows(flat, nailing, low, high, (nailing.rows, columns)))


def _rows(flat: Flat, nailing: Nailing, low: Stop, high: Stop, grid: tuple[int, int]) -> Iterator[Spot]:
    rows, columns = grid
    both = low.butt and high.butt
    for row in range(rows):
        share = 0.5 if rows == 1 else row / (rows - 1)
        first, last = _lane(flat, nailing, low, high, share)
        spread = last - first if both else (columns - 1) * nailing.along
        begin = first if low.butt else last - spread
        if columns == 1 and both:
            begin, spread = 0.5 * (first + last), 0.0
        for u in np.linspace(begin, begin + spread, columns).tolist():
            yield _across(flat, u, share, nailing)


def apart(spots: Sequence[Spot], nailing: Nailing) -> bool:
    """Whether no two nails are nearer to each other than both along a row and from row to row they may be."""
    places = np.array(spots).reshape(-1, 2)
    along = np.abs(places[:, None, 0] - places[None, :, 0]) < nailing.along - HAIR
    across = np.abs(places[:, None, 1] - places[None, :, 1]) < nailing.across - HAIR
    return int(np.count_nonzero(along & across)) == len(places)


def _group(
    flat: Flat, nailing: Nailing, begins: list[float], shares: list[float], away: float
) -> Iterator[Spot]:
    """All nails on one side of a joint, column by column away from it."""
    for index in range(nailing.count):
        column, row = divmod(index, nailing.rows)
        yield _across(flat, begins[row] + away * column * nailing.along, shares[row], nailing)


def _line(flat: Flat, nailing: Nailing, first: float, last: float) -> Iterator[Spot]:
    """Nails between two groups, by turns along either edge; in the middle where there is room for one row."""
    single = nailing.rows == 1
    pitch = max(nailing.spacing, nailing.along) if single else max(nailing.spacing, 0.5 * nailing.along)
    count = int(np.floor((last - first) / pitch + HAIR)) + 1 if last >= first else 0
    shift = 0.5 * (last - first - (count - 1) * pitch)
    for index in range(count):
        u = first + shift + index * pitch
        yield _across(flat, u, 0.5 if single else float(index % 2 == 0), nailing)


def _across(flat: Flat, u: float, share: float, nailing: Nailing) -> Spot:
    """A place along the chord, at a share of the room between both edges."""
    low, high = crossing(flat, u)
    return (u, low + nailing.edge + share * (high - low - 2.0 * nailing.edge))


def _fits(flat: Flat, spot: Spot, stops: tuple[Stop, ...], nailing: Nailing) -> bool:
    """Whether a nail keeps its distance from both edges and from every cut."""
    low, high = crossing(flat, spot[0])
    inside = low + nailing.edge - HAIR <= spot[1] <= high - nailing.edge + HAIR
    return inside and min(abs(spot[0] - stop.along(spot[1])) for stop in stops) >= nailing.end - 1e-6
