"""The parts of a house to each other: lengths from peg to peg, one datum for all."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Notice, Points, Table, plain
from bermwright.base.units import show

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.parts import Between, PlacedPart

ONE_DATUM = (
    "One post of the datum and one floor serve all parts: bring the metre mark over to each, and back.",
    "Peg and prove the first part. Then strike two lengths to each corner of the next; all four prove it.",
)


def between_blocks(between: Between, system: str) -> Iterator[Block]:
    """Where every part stands, and what is measured from one to the other."""
    yield Heading(text="Parts to each other", lead="From the middle of the first, to the east and north.")
    if between.parts:
        yield Table(
            head=("part", "middle, east", "middle, north", "walking in"),
            rows=tuple(_row(part, system) for part in between.parts),
            align="lrrr",
        )
        yield Table(
            head=("from peg to peg", "length", "what it is"),
            rows=tuple(
                (plain(one.between), show(one.length, "m", 3, system), one.words) for one in between.lengths
            ),
            align="lrl",
        )
        yield Points(items=ONE_DATUM)
    if between.open:
        yield Notice(kind="caution", lines=tuple(map(plain, between.open)))


def _row(part: PlacedPart, system: str) -> tuple[str, ...]:
    east, north = (show(value, "m", 2, system) for value in part.middle)
    turn = "" if part.axis is None else f"{math.degrees(part.axis):.1f}°"
    return plain(part.name), east, north, turn
