"""Fill in steps of geogrid for the hands: every layer with its level, what to lay, and what to keep off."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Notice, Para, Table, plain
from bermwright.base.units import show
from bermwright.base.wording import level_text
from bermwright.rules.grids import blocks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.parts.holds import Geogrid
    from bermwright.rules.assess import Assessment

ORDER = (
    "Lay the grid out flat and tight, its strong way square to the wall. Fill one step, tamp it, fold the "
    "grid up over its face and lay it back into the fill, then the next layer on top. The soft layer stands "
    "between face and wall from the first step on: no soil may get into it."
)
CAUTION = (
    "No plate or roller nearer than 1 m to the face of the steps; a hand rammer there.",
    "Take the long-term design strength of the grid from the maker's sheet, not the strength on its roll.",
    "Local rules come first; steps higher than a person are reviewed by somebody licensed before.",
)


def steps_of_geogrid(assessment: Assessment, system: str) -> Iterator[Block]:
    """Nothing where no such fill is planned."""
    if not assessment.house.geogrids:
        return
    for grid in assessment.house.geogrids:
        yield from _grid(assessment, grid, system)
    yield Para(ORDER)
    yield Notice(kind="caution", lines=CAUTION)


def _grid(assessment: Assessment, grid: Geogrid, system: str) -> Iterator[Block]:
    name = plain(grid.name)
    known = [one for one in blocks.blocks_of(assessment.house, assessment.studies, grid)
             if isinstance(one, blocks.Block)]  # fmt: skip
    if not known:
        yield Para(f"Fill in steps, {name}: too little is known of it for a list of its layers.")
    for block in known[:1]:
        yield Table(
            head=("layer", "level", "reaches back", "laid back on top"),
            rows=tuple(
                (
                    str(number),
                    level_text(block.bottom + height, system),
                    show(block.length, "m", 2, system),
                    show(blocks.LAID_BACK, "m", 2, system),
                )
                for number, height in enumerate(block.layers, start=1)
            ),
            caption=f"Fill in steps, {name}, behind: {grid.behind}. "
            f"{show(block.bought, 'm', 1, system)} of grid for each metre along the face, laps left out.",
            align="rrrr",
        )
