"""Where the nails of a rib piece go: a group on each side of every butt joint, staggered between.

This is the only pattern: templates draw it, the take-off counts it, and the rules judge it.

Between two joints the nails take the force out of one board and into the next: where two groups have no room
beside each other, one block between both joints serves both, as many columns as find room.

All layers have their joints, and so the room between them, at the same places. A nail is longer than the
board that it goes through: it reaches into those below, where it would meet the nails of their layers. So
every layer has lines of its own along the piece, between those of the layers that its nails reach.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.timber_classes import needs_holes
from bermwright.form.rib.flat import NAILED_FROM, crossing
from bermwright.handbook import timber as ec5

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.rib.flat import Flat, Pattern
    from bermwright.form.shapes import RibForm
    from bermwright.handbook.timber import NailDistances
    from bermwright.house import Vault

HAIR = 1e-7
STEPS = 4
"""Steps after which a place beside a slanting cut is found."""

SLANT = 0.003
"""What slanting cuts take from the room between them, beyond what they come nearer at one face (m)."""
OUTLINE = 0.001
"""What a piece may be shallower, square to its chord, than the rib is square to its curve (m)."""
BOTH = 2
MANY = 7
"""From this number of nails on they stand in three rows beside a joint."""

CLEAR = 4.0 / 3.0
"""Diameters from axis to axis of nails that stand in one board but belong to two layers: a drill passes
between (common practice, no source). Least distances of the standard hold among the nails of a layer.
"""

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
    turns: int = 1
    """Layers whose nails stand beside each other in one board: after so many the lines come again (-)."""
    turn: int = 0
    """Which of the lines beside each other are those of the layer at hand."""
    step: float = 0.0
    """How much farther on each layer's nails stand where a rib is too shallow for lines beside each other."""

    @property
    def columns(self) -> int:
        """Columns of a whole group."""
        return -(-self.count // self.rows)

    @property
    def clear(self) -> float:
        """Least distance from the nails of a layer whose nails stand in the same board (m)."""
        return CLEAR * self.diameter

    @property
    def beside(self) -> int:
        """Lines for each row: one for every layer that has to find room."""
        return 1 if self.step else self.turns

    def have_room(self, rows: int, height: float) -> bool:
        """Whether rows of every layer keep their distance from each other and from those of the others."""
        return self.height(rows) <= height + HAIR

    def height(self, rows: int) -> float:
        """What rows of every layer need between the edges (m)."""
        own = self.across / self.beside if rows > 1 else 0.0
        others = self.clear if self.beside > 1 else 0.0
        return (rows * self.beside - 1) * max(own, others)

    def of_layer(self, layer: int) -> Nailing:
        """The pattern on the lines of a layer."""
        return replace(self, turn=self.turn_of(layer))

    def turn_of(self, layer: int) -> int:
        """Which lines are those of a layer; into the first no nail is driven."""
        return (max(layer, NAILED_FROM) - NAILED_FROM) % self.turns


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
    one = Nailing(
        diameter=nail.diameter,
        length=nail.length,
        count=count,
        rows=1,
        along=float(least.along),
        across=float(least.across),
        edge=float(least.loaded_edge),
        end=float(least.loaded_end),
        spacing=vault.nail_spacing,
        turns=turns_of(nail.length, rib),
    )
    if not one.have_room(1, height):
        one = replace(one, step=one.along / one.turns)
    return replace(one, rows=_rows_beside(one, height))


def turns_of(length: float, rib: RibForm) -> int:
    """Layers whose nails stand in one board: those that a nail reaches into, with the layer of its head."""
    return max(1, min(math.ceil(length / rib.board - HAIR), rib.layers - NAILED_FROM + 1))


def _rows_beside(nailing: Nailing, height: float) -> int:
    wanted = 1 if nailing.count == 1 else 2 if nailing.count < MANY else 3
    return next((rows for rows in range(wanted, 1, -1) if nailing.have_room(rows, height)), 1)


def worst_distances(diameter: float, density: float, *, predrilled: bool) -> NailDistances:
    """The larger distance of a force along and one across the grain: a joint has both."""
    along, across = (
        ec5.nail_distances(diameter, angle=angle, density=density, predrilled=predrilled)
        for angle in (0.0, np.pi / 2)
    )
    names = ("along", "across", "loaded_end", "free_end", "loaded_edge", "free_edge")
    return type(along)(**{name: np.maximum(getattr(along, name), getattr(across, name)) for name in names})


def nail_spots(flat: Flat, nailing: Nailing, layer: int | None = None) -> tuple[Spot, ...]:
    """Nail positions in the frame of the piece (m); `layer`: of a piece alike in that layer."""
    return tuple(spot for window in nail_windows(flat, nailing, layer) for spot in window.spots)


@dataclass(frozen=True, slots=True, kw_only=True)
class NailSet:
    """Nails of a template, and the layers of the pieces into which they are driven."""

    turn: int
    layers: tuple[int, ...]
    spots: tuple[Spot, ...]


def nail_sets(pattern: Pattern, nailing: Nailing) -> tuple[NailSet, ...]:
    """The nails of all pieces that one template serves: one set for the layers that have the same lines."""
    layers = pattern.nailed_layers
    turns = sorted({nailing.turn_of(layer) for layer in layers})
    sets = [(turn, tuple(layer for layer in layers if nailing.turn_of(layer) == turn)) for turn in turns]
    return tuple(
        NailSet(turn=turn, layers=own, spots=nail_spots(pattern.flat, nailing, own[0])) for turn, own in sets
    )


def nail_windows(flat: Flat, nailing: Nailing, layer: int | None = None) -> tuple[Window, ...]:
    """The same, from cut to cut."""
    stops, own = stops_of(flat), nailing.of_layer(flat.piece.layer if layer is None else layer)
    found = []
    for (low, high), place in zip(pairwise(stops), flat.rooms, strict=True):
        room = _Between(
            flat=flat,
            nailing=own,
            low=low,
            high=high,
            free=(free := place.length - 2.0 * own.end - (own.turns - 1) * own.step - SLANT),
            rows=_most_rows(flat, own, (low, high), free),
            swapped=place.number % 2 == 1,
            climbs=place.climbs,
        )
        columns, spacing, spots = _between(room)
        kept = tuple(spot for spot in spots if _fits(flat, spot, stops, own))
        found.append(Window(spots=kept, columns=columns, spacing=spacing))
    return tuple(found)


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Between:
    """Where nails stand between two cuts of a piece."""

    flat: Flat
    nailing: Nailing
    low: Stop
    high: Stop
    free: float
    """Room along the piece that every row of any layer has (m)."""
    rows: int
    """Most rows that any layer may have there."""
    swapped: bool
    """In every second room the layers swap their lines, so that nails stand about the middle on the whole."""
    climbs: bool
    """Whether the low cut is the one towards the foot."""

    @property
    def butts(self) -> int:
        """How many of both cuts are butt joints."""
        return self.low.butt + self.high.butt

    def share(self, row: int, rows: int) -> float:
        """Place between both edges of a row, of so many that are taken."""
        beside, turn = self.nailing.beside, self.nailing.turn
        last = self.rows * beside - 1
        at = (self.rows - 1) // 2 if rows == 1 else round(row * (self.rows - 1) / (rows - 1))
        line = 0 if beside == 1 else beside - 1 - turn if self.swapped else turn
        return (at * beside + line) / last if last else 0.5

    def lane(self, share: float) -> Spot:
        """First and last place of a row; the cuts may slant."""
        found = []
        for stop, away in ((self.low, self.nailing.end), (self.high, -self.nailing.end)):
            u = stop.at + away
            for _ in range(STEPS):
                u = stop.along(self.across(u, share)[1]) + away
            found.append(u)
        before, behind = self.ahead
        return found[0] + before * self.nailing.step, found[1] - behind * self.nailing.step

    @property
    def ahead(self) -> tuple[int, int]:
        """How many other layers stand nearer to the low cut, and how many nearer to the high one."""
        nearer = self.nailing.turn, self.nailing.turns - 1 - self.nailing.turn
        return nearer if self.climbs else nearer[::-1]

    def across(self, u: float, share: float) -> Spot:
        """A place along the chord, at a share of the room between both edges."""
        low, high = crossing(self.flat, u)
        return (u, low + self.nailing.edge + share * (high - low - 2.0 * self.nailing.edge))


def _most_rows(flat: Flat, nailing: Nailing, cuts: tuple[Stop, Stop], free: float) -> int:
    """Rows that any layer may have between two cuts."""
    height = flat.depth - 2.0 * nailing.edge - OUTLINE
    columns = max(int(free / nailing.along) + 1, 1)
    wanted = max(nailing.rows, -(-nailing.count // columns)) if cuts[0].butt or cuts[1].butt else nailing.rows
    rows = range(wanted, nailing.rows, -1)
    return next((number for number in rows if nailing.have_room(number, height)), nailing.rows)


def _between(room: _Between) -> tuple[int, float, Iterable[Spot]]:
    """The nails between two cuts: how many stand close in a row, how far apart, and where."""
    nailing = room.nailing
    if room.butts * nailing.columns * nailing.along <= room.free:
        return nailing.columns if room.butts else 1, nailing.along, _groups_and_line(room)
    lanes = [room.lane(room.share(row, nailing.rows)) for row in range(nailing.rows)]
    free = min(last - first for first, last in lanes)
    if not free >= -HAIR:
        return 0, nailing.along, ()
    columns = min(int(np.floor(free / nailing.along + HAIR)) + 1, room.butts * nailing.columns)
    spread = free if room.butts == BOTH and columns > 1 else nailing.along * max(columns - 1, 1)
    return columns, spread / max(columns - 1, 1), _block(room, columns)


def _groups_and_line(room: _Between) -> Iterator[Spot]:
    """A group beside each cut that is a butt joint, and nails by turns along either edge between."""
    if room.low.butt:
        yield from _group(room, 1.0)
    if room.high.butt:
        yield from _group(room, -1.0)
    yield from _line(room)


def _group(room: _Between, away: float) -> Iterator[Spot]:
    """All nails on one side of a joint, column by column away from it."""
    nailing = room.nailing
    shares = [room.share(row, nailing.rows) for row in range(nailing.rows)]
    begins = [room.lane(share)[0 if away > 0.0 else 1] for share in shares]
    for index in range(nailing.count):
        column, row = divmod(index, nailing.rows)
        yield room.across(begins[row] + away * column * nailing.along, shares[row])


def _block(room: _Between, columns: int) -> tuple[Spot, ...]:
    """Columns between two cuts, from the one that is a butt or spread between two.

    Where they are too few for the nails of one joint there are more rows, as many as keep their distance.
    """
    least = room.nailing.rows
    wanted = max(least, -(-room.nailing.count // columns))
    for rows in range(min(wanted, room.rows), least, -1):
        spots = tuple(_rows(room, rows, columns))
        if apart(spots, room.nailing):
            return spots
    return tuple(_rows(room, least, columns))


def _rows(room: _Between, rows: int, columns: int) -> Iterator[Spot]:
    both = room.butts == BOTH
    for row in range(rows):
        share = room.share(row, rows)
        first, last = room.lane(share)
        spread = last - first if both else (columns - 1) * room.nailing.along
        begin = first if room.low.butt else last - spread
        if columns == 1 and both:
            begin, spread = 0.5 * (first + last), 0.0
        for u in np.linspace(begin, begin + spread, columns).tolist():
            yield room.across(u, share)


def _line(room: _Between) -> Iterator[Spot]:
    """Nails between two groups, by turns along either edge; in the middle where there is room for one row.

    They are counted from the cut towards the foot. The next layer begins at the other edge; of more than two
    those that begin at one edge stand a share of the pitch apart.
    """
    nailing = room.nailing
    single = nailing.rows == 1
    pitch = max(nailing.spacing, nailing.along) if single else max(nailing.spacing, 0.5 * nailing.along)
    pairs = 1 if single else -(-nailing.turns // BOTH)
    away = (nailing.columns - 1) * nailing.along + max(nailing.spacing, nailing.along)
    free = room.free - room.butts * away - pitch * (pairs - 1) / pairs
    count = int(np.floor(free / pitch + HAIR)) + 1 if free >= 0.0 else 0
    begin = 0.5 * (free - (count - 1) * pitch) + pitch * (nailing.turn // BOTH) / pairs * (not single)
    begin += away if (room.low if room.climbs else room.high).butt else 0.0
    for index in range(count):
        share = room.share(0, 1) if single else float((index + nailing.turn) % 2 == 0)
        first, last = room.lane(share)
        far = begin + index * pitch + 0.5 * (last - first - room.free)
        yield room.across(first + far if room.climbs else last - far, share)


def apart(spots: Sequence[Spot], nailing: Nailing) -> bool:
    """Whether no two nails are nearer to each other than both along a row and from row to row they may be."""
    places = np.array(spots).reshape(-1, 2)
    along = np.abs(places[:, None, 0] - places[None, :, 0]) < nailing.along - HAIR
    across = np.abs(places[:, None, 1] - places[None, :, 1]) < nailing.across - HAIR
    return int(np.count_nonzero(along & across)) == len(places)


def _fits(flat: Flat, spot: Spot, stops: tuple[Stop, ...], nailing: Nailing) -> bool:
    """Whether a nail keeps its distance from both edges and from every cut."""
    low, high = crossing(flat, spot[0])
    inside = low + nailing.edge - HAIR <= spot[1] <= high - nailing.edge + HAIR
    return inside and min(abs(spot[0] - stop.along(spot[1])) for stop in stops) >= nailing.end - 1e-6
