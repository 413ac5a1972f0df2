"""What a plan of setting out shows, and how large that is on the paper."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from bermwright.form.setout import SetOut
    from bermwright.form.setout.nouns import Spot

SCALES = (50.0, 75.0, 100.0, 125.0, 150.0, 200.0, 250.0, 300.0, 400.0, 500.0, 1000.0)
ROOM = 9.0
"""Paper round the plan, for letters (mm)."""
FAR = 2.0
"""Lengths of the house from its middle beyond which a surveyed point is left off the plan."""
POST_NEAR = 2.0
"""A post further from the boards than this is left off the plan (m)."""


class Shows(StrEnum):
    """What a plan is for."""

    GROUND = "ground"
    PEGS = "pegs"
    DIG = "dig"
    FOOTINGS = "footings"
    WALLS = "walls"
    RIBS = "ribs"
    MOUND = "mound"


def shown(
    out: SetOut, shows: Shows, width: float, tallest: float, *, heaps: bool
) -> tuple[Spot, Spot, float]:
    """Corners of what is shown and the largest scale at which that fits the paper."""
    low, high = _reach(out, shows, heaps=heaps)
    return low, high, next((one for one in SCALES if _fits(low, high, one, width, tallest)), SCALES[-1])


def _fits(low: Spot, high: Spot, scale: float, width: float, tallest: float) -> bool:
    factor = 1000.0 / scale
    wide, tall = (high[0] - low[0]) * factor, (high[1] - low[1]) * factor
    return wide + 2.0 * ROOM <= width and tall + 2.0 * ROOM <= tallest


def _reach(out: SetOut, shows: Shows, *, heaps: bool) -> tuple[Spot, Spot]:
    """Corners of what is shown: along and across (m)."""
    spots = [out.plan.low, out.plan.high]
    if shows is Shows.GROUND and out.survey is not None:
        spots += [place.at for place in out.survey.places if near(place.at, out)]
    if shows in {Shows.PEGS, Shows.DIG}:
        spots += [peg.at for peg in out.plan.pegs if peg.name != "H" or post_shown(out)]
    if shows is Shows.DIG and heaps:
        for heap in out.heaps:
            if heap.middle is not None:
                for way in (-0.5, 0.5):
                    spots.append((heap.middle[0] + way * heap.length, heap.middle[1] + way * heap.width))
    if shows is Shows.MOUND:
        spots = [(out.mound.front, out.mound.left), (out.mound.back, out.mound.right), (0.0, 0.0)]
    if shows in {Shows.FOOTINGS, Shows.WALLS, Shows.RIBS}:
        faces = [abs(string.place) for string in out.plan.strings if string.along]
        reach = (0.5 * out.form.span if shows is Shows.RIBS else max(faces)) + 1.0
        spots = [(-1.2, -reach), (out.ribs[-1] + 1.2, reach)]
    table = np.array(spots)
    low, high = table.min(axis=0), table.max(axis=0)
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def post_shown(out: SetOut) -> bool:
    """Whether the post of the datum stands near enough to the boards to be worth the paper."""
    return _off_ring(out) <= POST_NEAR


def _off_ring(out: SetOut) -> float:
    low, high, post = out.plan.low, out.plan.high, out.plan.peg("H").at
    return max(low[0] - post[0], post[0] - high[0], low[1] - post[1], post[1] - high[1])


def near(spot: Spot, out: SetOut) -> bool:
    """Whether a point is worth the paper: not farther off than the house is long, twice."""
    return math.dist(spot, (0.5 * out.form.length, 0.0)) <= FAR * out.form.length
