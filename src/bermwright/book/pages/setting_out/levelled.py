"""Readings of a water level reduced: heights, residuals, what was spread."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Para, Points, Table, plain
from bermwright.base.units import show

if TYPE_CHECKING:
    from bermwright.form.setout import Levels


def levelled_blocks(levels: Levels, system: str) -> tuple[Block, ...]:
    """Heights of every point over the datum, and how well the readings agree."""
    legs = Table(
        head=("from", "to", "measured", "adjusted less measured", "note"),
        rows=tuple(
            (
                plain(leg.reading.start),
                plain(leg.reading.end),
                show(leg.rise, "m", 3, system),
                show(leg.residual, "mm", 1, system),
                "read again" if leg.odd else "",
            )
            for leg in levels.legs
        ),
        align="llrrl",
    )
    spread = show(levels.spread, "mm", 1, system)
    return (
        Heading(text="Heights by water level", level=2),
        Para(f"From the datum {plain(levels.datum)}, by least squares; error of one leg {spread}."),
        Table(
            head=("point", "height"),
            rows=tuple((plain(name), show(height, "m", 4, system)) for name, height in levels.heights),
            align="lr",
            strong=(1,),
        ),
        legs,
        *((Points(items=tuple(map(plain, levels.says))),) if levels.says else ()),
    )
