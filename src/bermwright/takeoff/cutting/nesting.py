"""Outlines beside each other in one wide blank: equal ones first, then two unlike ones of what is left."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np

from bermwright.takeoff.cutting.nouns import Blank, Other

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Sequence

    from bermwright.takeoff.cutting.nouns import PieceKind, SawWords
    from bermwright.takeoff.cutting.yard import ClearStretch

    Room = dict[int, int | None]

HAIR = 1e-9
"""m; rounding of sums of lengths."""
MOST_BESIDE = 4
"""Most outlines beside each other in one blank."""
SHIFTS = 17
"""Places along the longer outline at which the shorter one is tried."""
MM = 1e-3


def nestings(
    kinds: Sequence[PieceKind], stretches: Sequence[ClearStretch], saw: SawWords
) -> Iterator[list[Blank]]:
    """Ways to nest that are worth a search; none where no board is wide enough."""
    whole = [(kind, kind.count) for kind in kinds]
    room = _room(stretches)
    alike, left = _alike(whole, stretches, room, saw)
    if alike:
        yield [*alike, *_alone(left)]
    pairs, rest = _unlike(left, stretches, room, saw)
    if pairs:
        yield [*alike, *pairs, *_alone(rest)]
    widest = max((stretch.board.width for stretch in stretches), default=0.0)
    too_wide = {id(kind) for kind in kinds if kind.stack_width(2) > widest + HAIR}
    if 0 < len(too_wide) < len(kinds):
        # What finds no room beside its like may find it beside a narrower one: that comes first then.
        room = _room(stretches)
        pairs, left = _unlike(whole, stretches, room, saw, too_wide)
        alike, left = _alike(left, stretches, room, saw)
        if pairs:
            yield [*pairs, *alike, *_alone(left)]


def _room(stretches: Sequence[ClearStretch]) -> Room:
    return {number: stretch.board.count for number, stretch in enumerate(stretches)}


def _alone(left: Sequence[tuple[PieceKind, int]]) -> list[Blank]:
    return [Blank(kind=kind, beside=1, count=count) for kind, count in left if count]


def _alike(
    left: Sequence[tuple[PieceKind, int]], stretches: Sequence[ClearStretch], room: Room, saw: SawWords
) -> tuple[list[Blank], list[tuple[PieceKind, int]]]:
    """As many equal outlines beside each other as the widest stretches take; what is left over."""
    found, rest = [], []
    for kind, wanted in left:
        count = wanted
        for beside in range(MOST_BESIDE, 1, -1):
            taken = _taken(kind.length, kind.stack_width(beside), count // beside, stretches, (room, saw))
            count -= taken * beside
            if taken:
                found.append(Blank(kind=kind, beside=beside, count=taken))
        rest.append((kind, count))
    return found, rest


def _taken(
    length: float,
    width: float,
    wanted: int,
    stretches: Sequence[ClearStretch],
    yard: tuple[Room, SawWords],
) -> int:
    """How many blanks of a size the boards that are still free take; they are noted as used."""
    room, saw = yard
    count = 0
    for number, stretch in enumerate(stretches):
        if stretch.board.width + HAIR < width or wanted == count:
            continue
        each = int((stretch.length + saw.kerf + HAIR) / (length + saw.kerf))
        free = room[number]
        take = wanted - count if free is None else min(wanted - count, each * free)
        if each == 0 or take == 0:
            continue
        if free is not None:
            room[number] = free - -(-take // each)
        count += take
    return count


def _unlike(
    left: Sequence[tuple[PieceKind, int]],
    stretches: Sequence[ClearStretch],
    room: Room,
    saw: SawWords,
    only: Container[int] | None = None,
) -> tuple[list[Blank], list[tuple[PieceKind, int]]]:
    """Each kind with the next shorter ones, as long as a board is wide enough; what is left over.

    `only` are the kinds of which at least one has to be in a pair.
    """
    found = []
    rest = {id(kind): count for kind, count in left}
    ordered = sorted((kind for kind, _ in left if kind.edges), key=lambda kind: -kind.length)
    for kind, shorter in combinations(ordered, 2):
        wanted = min(rest[id(kind)], rest[id(shorter)])
        if not wanted or (only is not None and id(kind) not in only and id(shorter) not in only):
            continue
        blank = Blank(kind=kind, beside=1, count=1, other=beside_other(kind, shorter, saw.kerf))
        count = _taken(kind.length, blank.width, wanted, stretches, (room, saw))
        if count:
            rest[id(kind)] -= count
            rest[id(shorter)] -= count
            found.append(replace(blank, count=count))
    return found, [(kind, rest[id(kind)]) for kind, _ in left]


def beside_other(kind: PieceKind, other: PieceKind, kerf: float) -> Other:
    """Where a shorter outline lies closest beside a longer one, so that a saw passes between (m)."""
    low, high = np.array(kind.edges).T, np.array(other.edges).T
    along = np.linspace(0.0, kind.length, low.shape[1])
    own = np.linspace(0.0, other.length, high.shape[1])
    steep = max(_steepest(low[1], kind.length), _steepest(high[0], other.length))
    found = []
    for shift in np.linspace(0.0, kind.length - other.length, SHIFTS):
        apart = np.interp(own + shift, along, low[1]) - high[0]
        back = low[1] - np.interp(along - shift, own, high[0], left=math.inf, right=math.inf)
        found.append((max(float(apart.max()), float(back.max())), float(shift)))
    gap, shift = min(found)
    return Other(kind=other, gap=_up(gap + kerf * math.hypot(1.0, steep)), shift=shift)


def _steepest(edge: np.ndarray, length: float) -> float:
    """Greatest slope of an edge (-)."""
    return float(np.abs(np.diff(edge)).max()) * (edge.size - 1) / length


def _up(metres: float) -> float:
    return math.ceil(metres / MM - 1e-6) * MM
