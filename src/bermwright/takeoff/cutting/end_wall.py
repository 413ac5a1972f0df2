"""An end wall filled with rows of short pieces from the offcuts, joints staggered, and what is missing.

Rows lie level from the floor up, each as high as its boards are wide. Short pieces are a lining or a second
layer: the planks of an [[end]] that are checked run whole from post to post.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.house import EndKind, EndSide

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Opening
    from bermwright.takeoff.cutting.nouns import HousePlan, Offcut

STAGGER = 0.15
"""Joints of neighbouring rows lie at least so far apart (m; common practice)."""
LEAST = 0.20
"""Shorter pieces find no room for nails at two uprights (m; common practice)."""
SLIVER = 1e-4
"""Parts of a row smaller than this are left to the packing (m2)."""
SAME = 1e-3
"""Boards whose thickness differs by less than this make one face (m)."""
HAIR = 1e-6
"""m; rounding of sums of lengths."""
LOWEST = 0.03
"""A row that would be lower is left to the packing (m)."""

Path = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallPiece:
    """One piece of the wall."""

    number: int
    offcut: str
    row: int
    outline: Path
    """In the end's own axes: across from the middle, up from the floor (m)."""
    length: float
    """To cut from the offcut, longest edge (m)."""
    below: float
    above: float
    """Length of its lower and upper edge (m)."""
    holes: tuple[Path, ...] = ()
    """Openings that lie within it, to be cut out."""
    ripped_with: int | None = None
    """Number of the piece under it that is ripped out of the same length: an opening parts the two."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A part of a row for which no offcut is left."""

    row: int
    outline: Path
    length: float
    width: float
    holes: tuple[Path, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class EndWall:
    """One end filled as far as the offcuts reach."""

    vault: str
    side: str
    thickness: float
    rows: tuple[tuple[float, float], ...]
    """Lower and upper level of each row (m)."""
    pieces: tuple[WallPiece, ...]
    gaps: tuple[Gap, ...]
    left: tuple[Offcut, ...]
    """Offcuts that are not needed, as they lie there afterwards."""

    @property
    def missing(self) -> float:
        """Length of board that is still wanted (m)."""
        return sum(gap.length for gap in self.gaps)


@dataclass(slots=True)
class _Heap:
    """Offcuts of one width, short ones first: name and length that is left."""

    width: float
    names: list[str] = field(default_factory=list)
    lengths: list[float] = field(default_factory=list)

    @property
    def total(self) -> float:
        return sum(self.lengths)

    def copy(self) -> _Heap:
        return _Heap(self.width, list(self.names), list(self.lengths))

    def add(self, name: str, length: float) -> None:
        at = int(np.searchsorted(self.lengths, length))
        self.names.insert(at, name)
        self.lengths.insert(at, length)

    def take(self, at: int, length: float, kerf: float) -> str:
        """Cut a length off an offcut; what is left goes back on the heap while it is worth it."""
        name, rest = self.names.pop(at), self.lengths.pop(at) - length - kerf
        if rest >= LEAST:
            self.add(name, rest)
        return name


def end_walls(house: House, forms: Sequence[VaultForm], plan: HousePlan) -> tuple[EndWall, ...]:
    """Every end of planks, one after the other from the same offcuts, the front first."""
    left, walls = plan.offcuts, []
    for form in forms:
        sides = [end.at for end in house.ends if end.vault == form.name and end.kind is EndKind.PLANKS]
        for side in sorted(sides, key=list(EndSide).index):
            holes = [one for one in house.openings if one.vault == form.name and str(one.side) == str(side)]
            wall = end_wall(form, str(side), holes, left, kerf=plan.saw.kerf)
            if wall is not None:
                walls.append(wall)
                left = wall.left
    return tuple(walls)


def end_wall(
    form: VaultForm,
    side: str,
    openings: Sequence[Opening],
    offcuts: Sequence[Offcut],
    *,
    kerf: float,
) -> EndWall | None:
    """Fill an end from the floor to the crown; None where there is no offcut at all."""
    heaps = _heaps(offcuts)
    if not heaps:
        return None
    thickness = _thickness(offcuts)
    wall = _Wall(region=_region(form, openings), heaps=heaps, kerf=kerf)
    top = float(form.rib.inside.z.max())
    level = 0.0
    while top - level > LOWEST:
        level = wall.next_row(level)
    names = {offcut.name: offcut for offcut in offcuts}
    return EndWall(
        vault=form.name,
        side=side,
        thickness=thickness,
        rows=tuple(wall.rows),
        pieces=tuple(wall.pieces),
        gaps=tuple(wall.gaps),
        left=(*_left(wall.heaps.values(), names), *(one for one in offcuts if not _serves(one, thickness))),
    )


def _thickness(offcuts: Sequence[Offcut]) -> float:
    """The thickness of which most is there."""
    areas: dict[float, float] = defaultdict(float)
    for offcut in offcuts:
        areas[round(offcut.thickness, 3)] += offcut.length * offcut.width
    return max(areas, key=lambda thickness: (areas[thickness], thickness))


def _heaps(offcuts: Sequence[Offcut]) -> dict[float, _Heap]:
    """Offcuts of the commonest thickness by their width."""
    if not offcuts:
        return {}
    thickness = _thickness(offcuts)
    heaps: dict[float, _Heap] = {}
    for offcut in offcuts:
        if _serves(offcut, thickness):
            width = round(offcut.width, 3)
            heaps.setdefault(width, _Heap(width)).add(offcut.name, offcut.length)
    return heaps


def _serves(offcut: Offcut, thickness: float) -> bool:
    """Whether a wall of a thickness has a use for it."""
    return abs(offcut.thickness - thickness) < SAME and offcut.length >= LEAST


def _left(heaps: Iterable[_Heap], names: dict[str, Offcut]) -> Iterator[Offcut]:
    from dataclasses import replace

    for heap in heaps:
        for name, length in zip(heap.names, heap.lengths, strict=True):
            yield replace(names[name], start=names[name].end - length)


def _region(form: VaultForm, openings: Sequence[Opening]) -> shapely.Geometry:
    """The wall between ribs and floor, without its openings."""
    inside = form.rib.inside
    left, right = float(inside.x[0]), float(inside.x[-1])
    outline = [(left, 0.0), *zip(inside.x.tolist(), inside.z.tolist(), strict=True), (right, 0.0)]
    holes = [
        shapely.box(one.across - 0.5 * one.width, one.sill, one.across + 0.5 * one.width, one.head)
        for one in openings
        if one.sill is not None and one.head is not None
    ]
    return shapely.Polygon(outline).buffer(0.0).difference(shapely.union_all(holes))


@dataclass(slots=True)
class _Wall:
    """The wall while it grows."""

    region: shapely.Geometry
    heaps: dict[float, _Heap]
    kerf: float
    rows: list[tuple[float, float]] = field(default_factory=list)
    pieces: list[WallPiece] = field(default_factory=list)
    gaps: list[Gap] = field(default_factory=list)
    joints: list[float] = field(default_factory=list)
    """Of the row below (m)."""

    def next_row(self, level: float) -> float:
        """Lay a row with the boards of which most is left, and give the level of its upper edge."""
        order = sorted(self.heaps.values(), key=lambda heap: (-heap.total * heap.width, -heap.width))
        for heap in order:
            laid = self._row(level, heap.copy())
            if not laid.gaps:
                self.heaps[heap.width] = laid.heap
                return self._keep(level, heap.width, laid)
        laid = self._row(level, order[0].copy())
        self.heaps[order[0].width] = laid.heap
        return self._keep(level, order[0].width, laid)

    def _keep(self, level: float, width: float, laid: _Row) -> float:
        self.rows.append((level, level + width))
        self.pieces += laid.pieces
        self.gaps += laid.gaps
        self.joints = laid.joints
        return level + width

    def _row(self, level: float, heap: _Heap) -> _Row:
        row = _Row(heap=heap, number=len(self.rows) + 1, first=len(self.pieces) + 1)
        band = shapely.box(-1e3, level, 1e3, level + heap.width)
        for part in _parts(self.region.intersection(band)):
            row.fill(part, self.joints, self.kerf)
        return row


@dataclass(slots=True)
class _Row:
    """A row while it is laid."""

    heap: _Heap
    number: int
    first: int
    pieces: list[WallPiece] = field(default_factory=list)
    gaps: list[Gap] = field(default_factory=list)
    joints: list[float] = field(default_factory=list)

    def fill(self, part: shapely.Polygon, below: list[float], kerf: float) -> None:
        """Lay pieces from left to right, joints clear of those below."""
        at, _, end, _ = part.bounds
        while end - at > HAIR:
            taken = self._piece(end - at, at, below, kerf)
            if taken is None:
                self._gap(part, at, end)
                return
            name, length = taken
            self._put(part, at, at + length, name)
            at += length
            if end - at > HAIR:
                self.joints.append(at)

    def _piece(self, rest: float, at: float, below: list[float], kerf: float) -> tuple[str, float] | None:
        """The shortest offcut that ends the part, else the longest whose joint may lie there."""
        heap = self.heap
        ends = int(np.searchsorted(heap.lengths, rest - 1e-9))
        if ends < len(heap.lengths):
            return heap.take(ends, rest, kerf), rest
        for place in range(len(heap.lengths) - 1, -1, -1):
            length = _may_end(at, min(heap.lengths[place], rest - LEAST), below)
            if length >= LEAST:
                return heap.take(place, length, kerf), length
        return None

    def _gap(self, part: shapely.Polygon, start: float, end: float) -> None:
        for piece in _parts(part.intersection(_slice(start, end))):
            left, _, right, _ = piece.bounds
            self.gaps.append(
                Gap(
                    row=self.number,
                    outline=_ring(piece),
                    length=right - left,
                    width=self.heap.width,
                    holes=tuple(map(_path, piece.interiors)),
                )
            )

    def _put(self, part: shapely.Polygon, start: float, end: float, name: str) -> None:
        first = self.first + len(self.pieces)
        for at, piece in enumerate(_parts(part.intersection(_slice(start, end)))):
            _, low, _, high = piece.bounds
            self.pieces.append(
                WallPiece(
                    number=self.first + len(self.pieces),
                    offcut=name,
                    row=self.number,
                    outline=_ring(piece),
                    length=end - start,
                    below=_edge(piece, low),
                    above=_edge(piece, high),
                    holes=tuple(map(_path, piece.interiors)),
                    ripped_with=first if at else None,
                )
            )


def _may_end(at: float, length: float, below: list[float]) -> float:
    """The length at most as long as given whose end keeps clear of every joint below."""
    while True:
        near = [joint for joint in below if abs(at + length - joint) < STAGGER - 1e-9]
        if not near:
            return length
        length = min(near) - STAGGER - at


def _slice(start: float, end: float) -> shapely.Geometry:
    return shapely.box(start, -1e3, end, 1e3)


def _parts(shape: shapely.Geometry) -> list[shapely.Polygon]:
    """The polygons of a shape that are worth a board, from left to right."""
    polygons = [part for part in getattr(shape, "geoms", [shape]) if isinstance(part, shapely.Polygon)]
    kept = [part for part in polygons if part.area > SLIVER]
    return sorted(kept, key=lambda part: part.bounds)


def _ring(part: shapely.Polygon) -> Path:
    return _path(shapely.simplify(part, 1e-4).exterior)


def _path(ring: shapely.LinearRing) -> Path:
    return tuple((float(x), float(z)) for x, z in ring.coords[:-1])


def _edge(part: shapely.Polygon, level: float) -> float:
    """Length of an outline along a level (m)."""
    line = part.intersection(shapely.LineString([(-1e3, level), (1e3, level)]))
    return float(line.length)
