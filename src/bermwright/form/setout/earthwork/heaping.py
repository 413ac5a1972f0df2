"""Where the dug soil lies: a heap for each soil, beyond boards and edge, at its slope of repose."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.data.setting_out import HEAP_BACK, HEAP_HIGH
from bermwright.handbook.earthmoving import cone_heap, windrow

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.earthwork.dig import Cut, Dig
    from bermwright.form.setout.nouns import Plan, Spot
    from bermwright.house import House

BESIDE_POST = 0.5
"""Room round the post of the datum (m)."""
LONGEST_ROW = 30.0
"""A longer row on one side makes the way of the barrow long (m)."""
BETWEEN = 1.0
"""Between two heaps in a row (m)."""
LEAST = 0.2
"""A heap smaller than this is a barrow (m3)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heap:
    """One heap of loose soil (m)."""

    soil: str
    loose: float
    """Its volume, the larger end (m3)."""
    repose: float | None
    """Slope at which it stands (rad); None where the file does not give the soil's angle of friction."""
    middle: Spot | None = None
    length: float = 0.0
    """Of its foot along the vault."""
    width: float = 0.0
    """Of its foot across."""
    height: float = 0.0
    haul: float = 0.0
    """From the middle of the dig to its middle."""

    @property
    def cone(self) -> bool:
        """Whether it is poured at one place."""
        return self.length <= self.width * (1.0 + 1e-9)


def heaps_of(house: House, dig: Dig, plan: Plan) -> tuple[Heap, ...]:
    """A heap for every soil, by turns left and right of the boards."""
    shaped = [_shape(house, cut) for cut in dig.cuts if cut.loose.high > LEAST]
    return tuple(_placed(shaped, dig, plan))


def _shape(house: House, cut: Cut) -> Heap:
    soil = house.soil(cut.soil)
    volume = cut.loose.high
    if soil is None or soil.friction_angle is None:
        return Heap(soil=cut.soil, loose=volume, repose=None)
    repose = min(soil.friction_angle.low, 0.7)
    cone = cone_heap(volume, repose=repose)
    if float(cone.height) <= HEAP_HIGH.value:
        across = 2.0 * float(cone.radius)
        return Heap(
            soil=cut.soil, loose=volume, repose=repose, length=across, width=across, height=float(cone.height)
        )
    row = windrow(HEAP_HIGH.value, repose=repose)
    # A row ends in two half cones: together one cone of its height, π/12·b²·h.
    ends = math.pi / 12.0 * float(row.width) ** 2 * HEAP_HIGH.value
    long = max((volume - ends) / float(row.area), 0.0)
    return Heap(
        soil=cut.soil,
        loose=volume,
        repose=repose,
        length=long + float(row.width),
        width=float(row.width),
        height=HEAP_HIGH.value,
    )


def _placed(heaps: list[Heap], dig: Dig, plan: Plan) -> Iterator[Heap]:
    """In a row along the vault on the left, those that make it too long on the right; first come first."""
    left: list[Heap] = []
    right: list[Heap] = []
    for heap in heaps:
        if heap.repose is None:
            yield heap
            continue
        fits = sum(one.length + BETWEEN for one in left) + heap.length <= LONGEST_ROW
        # The post of the datum stands on the right as a rule, so the left is filled first.
        (left if fits or not left else right).append(heap)
    yield from _row(left, dig, plan, -1.0)
    yield from _row(right, dig, plan, 1.0)


def _row(heaps: list[Heap], dig: Dig, plan: Plan, way: float) -> Iterator[Heap]:
    middle = 0.5 * (dig.pit.low[0] + dig.pit.high[0]), 0.5 * (dig.pit.low[1] + dig.pit.high[1])
    reach = plan.high[1] if way > 0.0 else -plan.low[1]
    whole = sum(heap.length for heap in heaps) + BETWEEN * (len(heaps) - 1)
    along = 0.5 * (plan.low[0] + plan.high[0]) - 0.5 * whole
    for heap in heaps:
        edge, at = reach + HEAP_BACK.value, along + 0.5 * heap.length
        if _meets_post(heap, at, way, edge, plan.peg("H").at):
            edge = way * plan.peg("H").at[1] + BESIDE_POST
        across = way * (edge + 0.5 * heap.width)
        haul = ((at - middle[0]) ** 2 + (across - middle[1]) ** 2) ** 0.5
        yield replace(heap, middle=(at, across), haul=haul)
        along += heap.length + BETWEEN


def _meets_post(heap: Heap, middle_along: float, way: float, edge: float, post: Spot) -> bool:
    """Whether the post of the datum would stand in a heap that begins at an edge, or too near to it."""
    beside = abs(post[0] - middle_along) < 0.5 * heap.length + BESIDE_POST
    return beside and edge - BESIDE_POST < way * post[1] < edge + heap.width + BESIDE_POST
