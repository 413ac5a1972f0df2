"""The pieces of a rib laid flat, and which of them one template serves.

A piece lies in its own frame: along its chord from the foot end (0) to the crown end, and across it with the
room side negative and the soil side positive. Metres here; the sheets turn them into millimetres.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.shapes import crown_length

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import RibForm, RibPiece

    Array = NDArray[np.float64]

NAILED_FROM = 2
"""The first layer lies on the rib jig; nails are driven from the second on."""
_SAME = 0.0003
"""Two shapes that differ by less than this everywhere are cut from one template (m)."""
_STATIONS = 17


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What lies between two neighbouring cuts of a rib: pieces of all layers run over the same ones."""

    number: int
    """Counted from the foot on its side of the crown."""
    length: float
    """From cut to cut, straight, on that face where they are nearest to each other (m)."""
    climbs: bool
    """Whether the piece in its own frame runs from that foot to the crown here."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Flat:
    """One piece in its own frame."""

    piece: RibPiece
    along: Array
    """Outline, measured along the chord from the foot end of the centreline."""
    across: Array
    """Outline, measured from the chord, positive towards the soil."""
    chord: float
    mirrored: bool
    """Whether the piece stands right of the crown and is seen from behind here."""
    joints: tuple[tuple[float, float, float], ...]
    """Butt joints of the other layers: where on the chord, where across, and the slope of the cut (rad)."""
    butts: tuple[bool, bool]
    """Whether the foot end and the crown end meet another board (else it is the foot of the rib)."""
    corners: tuple[tuple[float, float], ...]
    """Foot end room side, foot end soil side, crown end soil side, crown end room side (m)."""
    depth: float
    """Of the rib, square to its curve (m)."""
    rooms: tuple[Room, ...]
    """From cut to cut, foot end first."""

    @property
    def start(self) -> float:
        """Where the board must begin, measured along the chord (m)."""
        return float(self.along.min())

    @property
    def edge(self) -> float:
        """Where the straight edge of the board lies on the room side (m across)."""
        return float(self.across.min())

    @property
    def points(self) -> tuple[tuple[float, float], ...]:
        """The outline as points."""
        return tuple(zip(self.along.tolist(), self.across.tolist(), strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A shape that one template serves, and every piece of a rib that is cut from it."""

    flat: Flat
    names: tuple[str, ...]
    turned: tuple[str, ...]
    """Those of `names` for which the template is turned over."""
    layers: tuple[int, ...]
    per_rib: int
    nailed: tuple[str, ...]
    """Those of `names` into which nails are driven: all but those of the first layer."""

    @property
    def nailed_layers(self) -> tuple[int, ...]:
        """The layers of those into which nails are driven."""
        return tuple(layer for layer in self.layers if layer >= NAILED_FROM)


def patterns(rib: RibForm) -> tuple[Pattern, ...]:
    """The different shapes of a rib, layer by layer from the foot; boards that are bent need none."""
    if rib.bent:
        return ()
    groups: list[tuple[Array, list[Flat]]] = []
    for piece in rib.pieces:
        flat = lay_flat(rib, piece)
        shape = faces(flat)
        home = next((group for known, group in groups if same_shape(group[0], flat, known, shape)), None)
        if home is None:
            groups.append((shape, [flat]))
        else:
            home.append(flat)
    return tuple(_pattern(group) for _, group in groups)


def _pattern(group: list[Flat]) -> Pattern:
    first = group[0]
    return Pattern(
        flat=first,
        names=tuple(flat.piece.name for flat in group),
        turned=tuple(flat.piece.name for flat in group if flat.mirrored != first.mirrored),
        layers=tuple(sorted({flat.piece.layer for flat in group})),
        per_rib=len(group),
        nailed=tuple(flat.piece.name for flat in group if flat.piece.layer >= NAILED_FROM),
    )


def lay_flat(rib: RibForm, piece: RibPiece) -> Flat:
    """A piece in its own frame, foot end first; pieces right of the crown are seen from behind."""
    mirrored = 0.5 * (piece.start + piece.end) > crown_length(rib) + _SAME
    ends = np.array([piece.end, piece.start] if mirrored else [piece.start, piece.end])
    x, z, _ = rib.centreline.at(ends)
    chord = float(np.hypot(x[1] - x[0], z[1] - z[0]))
    ahead = np.array([x[1] - x[0], z[1] - z[0]]) / chord
    # Seen from the door the soil lies to the left of a path that climbs from the left foot.
    outward = np.array([-ahead[1], ahead[0]]) * (-1.0 if mirrored else 1.0)
    origin = np.array([x[0], z[0]])
    local = np.asarray(piece.outline) - origin
    order = slice(None, None, -1) if mirrored else slice(None)
    return Flat(
        piece=piece,
        along=(local @ ahead)[order],
        across=(local @ outward)[order],
        chord=chord,
        mirrored=mirrored,
        butts=_butts(rib, piece, mirrored=mirrored),
        depth=rib.depth,
        rooms=tuple(_rooms(rib, piece, mirrored=mirrored))[order],
        joints=tuple(_joints(rib, piece, origin, ahead, outward)),
        corners=_corners(
            rib, ends, lambda spot: (float((spot - origin) @ ahead), float((spot - origin) @ outward))
        ),
    )


def _butts(rib: RibForm, piece: RibPiece, *, mirrored: bool) -> tuple[bool, bool]:
    """Whether the foot end and the crown end lie within the rib."""
    left, right = piece.start > _SAME, piece.end < rib.centreline.length - _SAME
    return (right, left) if mirrored else (left, right)


def _rooms(rib: RibForm, piece: RibPiece, *, mirrored: bool) -> Iterator[Room]:
    """From cut to cut in the order of the curve."""
    cuts = [piece.start, *(s for s, _ in _crossed(rib, piece)), piece.end]
    crown = crown_length(rib)
    for low, high in pairwise(cuts):
        middle = 0.5 * (low + high)
        number = int(np.searchsorted(rib.joints, middle))
        left = middle < crown + _SAME
        yield Room(
            number=number if left else rib.joints.size - number,
            length=_nearest(rib, low, high),
            climbs=left != mirrored,
        )


def _nearest(rib: RibForm, low: float, high: float) -> float:
    """How near two cuts come to each other on one of both faces (m)."""
    x, z, angle = rib.centreline.at(np.array([low, high]))
    out = 0.5 * rib.depth * np.array([-np.sin(angle), np.cos(angle)])
    return float(min(np.hypot(*np.diff(np.array([x, z]) + side * out).T[0]) for side in (-1.0, 1.0)))


def _crossed(rib: RibForm, piece: RibPiece) -> Iterator[tuple[float, int]]:
    """Joints of other layers that a piece lies over, with their layers."""
    for s, layer in zip(rib.joints.tolist(), rib.joint_layers, strict=True):
        if layer != piece.layer and piece.start + _SAME < s < piece.end - _SAME:
            yield s, layer


def _corners(
    rib: RibForm, ends: Array, local: Callable[[Array], tuple[float, float]]
) -> tuple[tuple[float, float], ...]:
    """The four corners of a piece: its ends are cut square to the centreline."""
    x, z, angle = rib.centreline.at(ends)
    normals = np.column_stack([-np.sin(angle), np.cos(angle)]) * 0.5 * rib.depth
    foot, crown = np.column_stack([x, z])
    return (
        local(foot - normals[0]),
        local(foot + normals[0]),
        local(crown + normals[1]),
        local(crown - normals[1]),
    )


def _joints(
    rib: RibForm, piece: RibPiece, origin: Array, ahead: Array, outward: Array
) -> Iterator[tuple[float, float, float]]:
    for s, _ in _crossed(rib, piece):
        x, z, angle = (float(value) for value in rib.centreline.at(s))
        spot = np.array([x, z]) - origin
        normal = np.array([-np.sin(angle), np.cos(angle)])
        yield float(spot @ ahead), float(spot @ outward), float(np.arctan2(normal @ ahead, normal @ outward))


def same_shape(one: Flat, other: Flat, shape: Array, other_shape: Array) -> bool:
    """Whether two pieces, with their faces, are cut from the same template, turned over or not."""
    if abs(one.chord - other.chord) > _SAME:
        return False
    return bool(np.max(np.abs(shape - other_shape)) < _SAME) and _same_ends(one, other)


def _same_ends(one: Flat, other: Flat) -> bool:
    ends = [
        (flat.along.min(), flat.along.max(), flat.across.min(), flat.across.max()) for flat in (one, other)
    ]
    return bool(np.max(np.abs(np.asarray(ends[0]) - np.asarray(ends[1]))) < _SAME)


def faces(flat: Flat, stations: Array | None = None) -> Array:
    """Where the room face and the soil face cross lines square to the chord: one row each (m).

    Without `stations` they are spread evenly where both faces run.
    """
    if stations is None:
        margin = 0.02 * flat.chord
        stations = np.linspace(margin, flat.chord - margin, _STATIONS)
    return np.array([crossing(flat, station) for station in stations.tolist()]).T


def crossing(flat: Flat, station: float) -> tuple[float, float]:
    """Lowest and highest place at which the outline crosses a line square to the chord (m)."""
    breaks, room, soil = _profile(flat)
    if not breaks[0] <= station <= breaks[-1]:
        return (float("nan"), float("nan"))
    part = min(bisect_right(breaks, station), len(breaks) - 1) - 1
    (u, low, rise), (u_too, high, rise_too) = room[part], soil[part]
    return low + rise * (station - u), high + rise_too * (station - u_too)


_Lines = list[list[float]]
"""A point (m) and the slope of the straight piece through it, for each part of the chord."""


@lru_cache(maxsize=256)
def _profile(flat: Flat) -> tuple[list[float], _Lines, _Lines]:
    """Where straight pieces of the outline begin along the chord, and both faces from there to the next."""
    breaks = np.unique(flat.along)
    middles = 0.5 * (breaks[1:] + breaks[:-1])
    u, v = flat.along, flat.across
    step, climb = np.roll(u, -1) - u, np.roll(v, -1) - v
    slope = np.divide(climb, step, out=np.full_like(step, np.nan), where=step != 0.0)
    cuts = (u[:, None] - middles) * (np.roll(u, -1)[:, None] - middles) <= 0.0
    heights = v[:, None] + slope[:, None] * (middles - u[:, None])
    low = np.argmin(np.where(cuts, heights, np.inf), axis=0)
    high = np.argmax(np.where(cuts, heights, -np.inf), axis=0)
    lines = np.column_stack([u, v, slope])
    return breaks.tolist(), lines[low].tolist(), lines[high].tolist()
