"""Where strings, boards, post, edges and heaps lie: in lines under the plan of a day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.book.sheets.setout.day import HOLDS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut, StringLine
    from bermwright.form.setout.nouns import Spot

LEAST = 0.05
"""A slope that runs out shorter than this is none (m)."""


def board_notes(out: SetOut, system: str) -> Iterator[str]:
    """Strings by their numbers, boards by their sides, and the post of the datum."""
    lines = out.plan.strings
    along = ", ".join(_numbered(one, system) for one in lines if one.along)
    across = ", ".join(_numbered(one, system) for one in lines if not one.along)
    yield f"Strings along, from the axis (+ right): {along}."
    yield f"Strings across, from the front rib (+ inward): {across}."
    low, high, post = out.plan.low, out.plan.high, out.plan.peg("H").at
    yield (
        f"Boards FL, FR and peg E: {_m(-low[0], system)} before the front rib. Boards BL, BR and peg F: "
        f"{_m(high[0], system)} behind it. Boards LF, LB: {_m(-low[1], system)} left of the axis, RF, RB: "
        f"{_m(high[1], system)} right. Post H: {_place(post, system)}."
    )


def dig_notes(out: SetOut, system: str) -> Iterator[str]:
    """Corners of the upper edge and of the bottom, and the middles of heaps."""
    dig = out.dig
    if dig is None:
        return
    names = ("front left", "front right", "back right", "back left")
    edge = "; ".join(f"{name} {_place(spot, system)}" for name, spot in zip(names, dig.corners, strict=True))
    yield f"Upper edge: {edge}."
    if len(dig.outline) > len(dig.corners):
        yield "Between its corners the edge is bent, as the plan has it: the ground is not even."
    low, high = dig.pit.low, dig.pit.high
    yield f"Bottom: from {_place(low, system)} to {_place(high, system)}."
    for heap in out.heaps:
        if heap.middle is not None:
            size = f"{_m(heap.length, system)} by {_m(heap.width, system)}, {_m(heap.height, system)} high"
            yield f"Heap of {heap.soil}, its middle: {_place(heap.middle, system)}; {size}."


def end_toes(out: SetOut) -> Iterator[tuple[str, float]]:
    """How far the mound runs out before and behind the vault (m)."""
    if out.mound.front_slopes and -out.mound.front > LEAST:
        yield "toe before the front rib, at most", -out.mound.front
    behind = out.mound.back - out.form.length
    if out.mound.back_slopes and behind > LEAST:
        yield "toe behind the back rib, at most", behind


def _place(spot: Spot, system: str) -> str:
    """Along from the front rib and across from the axis, in words."""
    along, across = spot
    way = f"{_m(abs(along), system)} {'before' if along < 0.0 else 'behind'} the front rib"
    return f"{way}, {_m(abs(across), system)} {'left' if across < 0.0 else 'right'}"


def _m(value: float, system: str) -> str:
    return show(value, "m", 2, system).replace(" ", HOLDS)


def _numbered(line: StringLine, system: str) -> str:
    return f"{line.number}: {show(line.place, 'm', 3, system)}".replace(" ", HOLDS)
