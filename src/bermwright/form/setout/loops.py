"""Loops in a net of levelled legs: what each misses by, and what it may."""

from __future__ import annotations

import heapq
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.data.setting_out import CLOSURE, LEAST_CLOSURE
from bermwright.handbook.setout import allowed_closure

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One leg of a net: from a point to another, its rise and its length (m)."""

    start: str
    end: str
    rise: float
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """A way round in the net (m)."""

    points: tuple[str, ...]
    """In order; the first follows the last."""
    miss: float
    """Sum of all rises round it; 0 where it closes."""
    length: float

    @property
    def allowed(self) -> float:
        """What may be spread."""
        return may_miss(self.length)

    @property
    def closes(self) -> bool:
        """Whether it misses by no more than may be spread."""
        return abs(self.miss) <= self.allowed


def may_miss(length: float) -> float:
    """Closing error that may be spread over a loop of some length (m)."""
    return max(float(allowed_closure(length, per_root_km=CLOSURE.value)), LEAST_CLOSURE.value)


def loops_of(runs: Sequence[Run], datum: str) -> tuple[Loop, ...]:
    """One loop for every leg that is not needed to reach a point: together they are all loops there are."""
    ways = _shortest(runs, datum)
    used = {way[-1] for way in ways.values() if way}
    return tuple(
        _loop(runs, ways, number)
        for number, run in enumerate(runs)
        if number not in used and run.start in ways and run.end in ways
    )


def _shortest(runs: Sequence[Run], datum: str) -> dict[str, tuple[int, ...]]:
    """The legs of the shortest way from the datum to every point."""
    beside: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for number, run in enumerate(runs):
        beside[run.start].append((number, run.end))
        beside[run.end].append((number, run.start))
    ways: dict[str, tuple[int, ...]] = {}
    queue: list[tuple[float, tuple[int, ...], str]] = [(0.0, (), datum)]
    while queue:
        far, way, point = heapq.heappop(queue)
        if point in ways:
            continue
        ways[point] = way
        for number, other in beside[point]:
            if other not in ways:
                heapq.heappush(queue, (far + runs[number].length, (*way, number), other))
    return ways


def _loop(runs: Sequence[Run], ways: dict[str, tuple[int, ...]], number: int) -> Loop:
    """Along one leg, and back by the shortest ways from its ends."""
    run = runs[number]
    out, back = ways[run.start], ways[run.end]
    shared = next((at for at, pair in enumerate(zip(out, back, strict=False)) if pair[0] != pair[1]), None)
    joined = shared if shared is not None else min(len(out), len(back))
    points, miss, length = [run.start, run.end], run.rise, run.length
    # From the end of the leg up to where both ways part, then down to its start.
    for leg in (*reversed(back[joined:]), *out[joined:]):
        here, one = points[-1], runs[leg]
        miss += one.rise if one.start == here else -one.rise
        length += one.length
        points.append(one.end if one.start == here else one.start)
    return Loop(points=tuple(points[:-1]), miss=miss, length=length)
