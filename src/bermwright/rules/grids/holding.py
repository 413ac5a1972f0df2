"""Whether fill in steps of geogrid stands by itself, and what the wall before it then still feels."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.supports import FHWANHI10025, HORVATH1996, TM58188
from bermwright.rules.grids.blocks import (
    LEAST_FACE,
    Block,
    Unread,
    blocks_of,
    end_block,
    grid_of_end,
    grid_of_side,
    part_of,
    side_block,
    sides_of,
)
from bermwright.rules.grids.shares import shares, worst
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.form.shapes import VaultForm
    from bermwright.house import End, House
    from bermwright.house.parts.holds import Geogrid
    from bermwright.rules.grids.shares import Share
    from bermwright.rules.nouns import Whole

SOFT = Cite(
    work=HORVATH1996, place="a soft layer behind a stiff wall; what it passes by the maker's curve",
    provenance=Provenance.READ,
)  # fmt: skip
LAYERS = Cite(work=FHWANHI10025, place="single values, as quoted", provenance=Provenance.READ)
MANUAL = Cite(work=TM58188, place="7-7 to 7-11", provenance=Provenance.READ)
SHELL = "The curved shell is reckoned as before: no method covers it."
STANDS = "The steps stand by themselves; the wall feels {passes}."
FALLS = "The steps do not stand by themselves: {way}."
LEVEL = 0.02
"""Layers that begin no higher over a floor begin at the floor (m)."""


def held_side(house: House, form: VaultForm, vault: str, side: int) -> Block | None:
    """The block that keeps the fill off the foot wall of a side; None where none does, or it is not known."""
    grid = grid_of_side(house, vault, side)
    return None if grid is None else _standing(side_block(house, form, grid, side))


def held_end(house: House, end: End) -> Block | None:
    """The block that keeps the soil off an end, from the floor up."""
    grid = grid_of_end(house, end)
    block = None if grid is None else _standing(end_block(house, grid, end))
    return block if block is not None and block.bottom <= LEVEL else None


def _standing(block: Block | Unread) -> Block | None:
    if isinstance(block, Unread) or block.height < LEAST_FACE:
        return None
    try:
        return block if worst(block).ratio <= 1.0 else None
    except OutOfRangeError:
        return None


def _decide(whole: Whole) -> Iterator[Said]:
    for grid in whole.house.geogrids:
        yield _said(whole, grid)
    if not whole.house.geogrids:
        yield Said(verdict=Verdict.DOES_NOT_APPLY, template="No fill in steps of geogrid is planned.")


def _said(whole: Whole, grid: Geogrid) -> Said:
    part, read = part_of(grid), blocks_of(whole.house, whole.studies, grid)
    unread = next((one for one in read if isinstance(one, Unread)), None)
    if unread is not None:
        return _unknown(part, unread.lacks, unread.advice)
    known = [one for one in read if isinstance(one, Block) and one.height >= LEAST_FACE]
    if not known:
        return Said(part=part, verdict=Verdict.HOLDS, template="No soil lies behind it to be held off.")
    try:
        block, top = max(((one, worst(one)) for one in known), key=lambda pair: _rank(pair[1]))
        steps = _steps(block, top)
    except OutOfRangeError as error:
        return _unknown(part, str(error).rstrip("."), "Take another soil, or leave the geogrid out.")
    verdict = verdict_of(top.ratio if math.isfinite(top.ratio) else math.inf)
    good = verdict is not Verdict.FAILS
    template = f"{STANDS} {SHELL}" if good and sides_of(grid) else STANDS if good else FALLS
    return Said(
        part=part,
        verdict=verdict,
        template=template,
        values={"passes": Shown(block.passes, "kPa", 1), "way": top.way},
        demand=top.demand,
        capacity=top.capacity,
        unit=top.unit,
        ratio=top.ratio if math.isfinite(top.ratio) else None,
        corner={
            "unit weight": Shown(block.weight.high, "kN/m3", 1),
            "friction angle": Shown(block.angle.low, "deg", 0),
        },
        advice="" if verdict is Verdict.HOLDS else top.advice,
        steps=steps,
        cites=(top.cite,),
    )


def _rank(share: Share) -> float:
    return math.inf if math.isnan(share.ratio) else share.ratio


def _unknown(part: str, lacks: str, advice: str) -> Said:
    return Said(
        part=part,
        verdict=Verdict.UNKNOWN,
        template="Whether the steps stand by themselves is not known: {lacks}. The wall is reckoned without.",
        values={"lacks": lacks},
        advice=advice,
    )


def _steps(block: Block, top: Share) -> tuple[Step, ...]:
    """The worst of every kind of failing, then the one that governs."""
    kinds: dict[str, Share] = {}
    for one in shares(block):
        if one.symbol not in kinds or one.ratio > kinds[one.symbol].ratio:
            kinds[one.symbol] = one
    lines = [
        step(one.says, "", one.symbol, _figures(one), Shown(one.ratio, "", 2), one.cite)
        for one in kinds.values()
        if math.isfinite(one.ratio)
    ]
    if not math.isfinite(top.ratio):
        return tuple(lines)
    governs = ratio_step(f"Used, where {top.way}", top.symbol, _figures(top), top.ratio)
    return (*lines, governs)


def _figures(share: Share) -> str:
    scale = {"kN/m": 1e-3, "mm": 1e3}.get(share.unit, 1.0)
    return f"{share.demand * scale:.2f} / {share.capacity * scale:.2f}"


STEPS_STAND = HouseRule(
    name="geogrid-steps-stand-by-themselves",
    title="Geogrid holds the fill without the wall",
    why="Fill that stands by itself, with a soft layer before it, does not lean on the wall. Layers that "
    "tear, slip out or slide let all of it fall against the wall at once.",
    cites=(LAYERS, MANUAL, SOFT),
    decide=_decide,
    asks=("geogrid.spacing", "geogrid.length", "geogrid.strength", "geogrid.soft_gives",
          "geogrid.soft_passes"),
)  # fmt: skip
