"""Where the nails of a rib piece go: a group on each side of every butt joint, staggered between.

This is the only pattern: templates draw it, the take-off counts it, and the rules judge it.

Between two joints the nails take the force out of one board and into the next: where two groups have no room
beside each other, one block between both joints serves both, as many columns as find room.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.timber_classes import needs_holes
from bermwright.form.rib.flat import crossing
from bermwright.handbook import timber as ec5

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.rib.flat import Flat
    from bermwright.form.shapes import RibForm
    from bermwright.handbook.timber import NailDistances
    from bermwright.house import Vault

HAIR = 1e-7
STEPS = 4
"""Steps after which a place beside a slanting cut is found."""

MANY = 7
"""From this number of nails on they stand in three rows beside a joint."""

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """The nails between two cuts of a piece."""

    spots: tuple[Spot, ...]
    columns: int
    """Most nails that stand close behind each other in a row: of a group, or of the block (-)."""
    spacing: float
    """Their distance (m)."""


def nailing_of(vault: Vault, rib: RibForm, timber: TimberClass | None) -> Nailing | None:
    """The pattern of a rib of pieces; None while the file does not say all of it.

    Hard wood that is not drilled takes no nails: then there is none either.
    """
    nail, count = vault.nails, vault.nails_each_side
    if rib.bent or timber is None or nail is None or count is None or vault.nail_spacing is None:
        return None
    drilled = bool(vault.predrilled)
    if needs_holes(timber.name) and not drilled:
        return None
    least = worst_distances(nail.diameter, timber.density_low, predrilled=drilled)
    height = max(rib.depth - 2.0 * float(least.loaded_edge), 0.0)
    return Nailing(
        diameter=nail.diameter,
        length=nail.length,
        count=count,
        rows=_rows_beside(count, height, float(least.across)),
        along=float(least.along),
        across=float(least.across),
        edge=float(least.loaded_edge),
        end=float(least.loaded_end),
        spacing=vault.nail_spacing,
    )


def worst_distances(diameter: float, density: float, *, predrilled: bool) -> NailDistances:
    """The larger distance of a force along and one across the grain: a joint has both."""
    along, across = (
        ec5.nail_distances(diameter, angle=angle, density=density, predrilled=predrilled)
        for angle in (0.0, np.pi / 2)
    )
    names = ("along", "across", "loaded_end", "free_end", "loaded_edge", "free_edge")
    return type(along)(**{name: np.maximum(getattr(along, name), getattr(across, name)) for name in names})


def _rows_beside(count: int, height: float, across: float) -> int:
    wanted = 1 if count == 1 else 2 if count < MANY else 3
    possible = 1 + int(height / across + 1e-9)
    return max(1, min(wanted, possible))


def nail_spots(flat: Flat, nailing: Nailing) -> tuple[Spot, ...]:
    """Nail positions in the frame of the piece (m)."""
    return tuple(spot for window in nail_windows(flat, nailing) for spot in window.spots)


def nail_windows(flat: Flat, nailing: Nailing) -> tuple[Window, ...]:
    """The same, from cut to cut."""
    stops = stops_of(flat)
    return tuple(_window(flat, nailing, stops, low, high) for low, high in pairwise(stops))


def _window(flat: Flat, nailing: Nailing, stops: tuple[Stop, ...], low: Stop, high: Stop) -> Window:
    columns, spacing, spots = _between(flat, nailing, low, high)
    kept = tuple(spot for spot in spots if _fits(flat, spot, stops, nailing))
    return Window(spots=kept, columns=columns, spacing=spacing)


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


def _between(flat: Flat, nailing: Nailing, low: Stop, high: Stop) -> tuple[int, float, tuple[Spot, ...]]:
    """The nails between two cuts: how many stand close in a row, how far apart, and where."""
    shares = [0.5] if nailing.rows == 1 else [row / (nailing.rows - 1) for row in range(nailing.rows)]
    lanes = [_lane(flat, nailing, low, high, share) for share in shares]
    room = min(last - first for first, last in lanes)
    if not room >= -HAIR:
        return 0, nailing.along, ()
    fit = int(np.floor(room / nailing.along + HAIR)) + 1
    groups = low.butt + high.butt
    if groups and fit < groups * nailing.columns + 1:
        columns = min(fit, groups * nailing.columns)
        spread = room if low.butt and high.butt and columns > 1 else nailing.along * max(columns - 1, 1)
        return columns, spread / max(columns - 1, 1), _block(flat, nailing, low, high, columns)
    spots = tuple(_groups_and_line(flat, nailing, (low, high), lanes, shares))
    return nailing.columns if groups else 1, nailing.along, spots


def _groups_and_line(
    flat: Flat, nailing: Nailing, cuts: tuple[Stop, Stop], lanes: list[Spot], shares: list[float]
) -> Iterator[Spot]:
    """A group beside each cut that is a butt joint, and nails by turns along either edge between."""
    zone = (nailing.columns - 1) * nailing.along
    gap = max(nailing.spacing, nailing.along)
    starts, ends = [first for first, _ in lanes], [last for _, last in lanes]
    if cuts[0].butt:
        yield from _group(flat, nailing, starts, shares, 1.0)
        starts = [first + zone + gap for first in starts]
    if cuts[1].butt:
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
    bottom, top = crossing(flat, 0.5 * (low.at + high.at))
    # One row more than find room in the middle: elsewhere the piece may be a little deeper.
    most = 2 + int(max(top - bottom - 2.0 * nailing.edge, 0.0) / nailing.across)
    wanted = max(nailing.rows, -(-nailing.count // columns))
    for rows in range(min(wanted, max(most, nailing.rows)), nailing.rows, -1):
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
