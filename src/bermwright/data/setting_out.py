"""Tolerances, distances and tools of setting out: each with where it comes from."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.practice import TRADE
from bermwright.data.works.setout import LEVEL_LOOP


def _practice(value: float, place: str) -> Sourced:
    return Sourced(value, Cite(work=TRADE, place=place, provenance=Provenance.PRACTICE))


PEG: Final = _practice(0.005, "pegs and strings within 5 mm")
DIAGONALS: Final = _practice(0.010, "diagonals of one house differ by no more than 10 mm")
LEVEL: Final = _practice(0.005, "levels of footings and plates within 5 mm")
RIB: Final = _practice(0.005, "ribs within 5 mm of the drawing")
EARTHWORK: Final = _practice(0.015, "trimmed earth within 15 mm")
CLOSURE: Final = Sourced(
    0.010,
    Cite(work=LEVEL_LOOP, place="middle of the limits of 5, 10 and 15 mm", provenance=Provenance.READ),
    "closing error of a levelled loop of a kilometre; never asked finer than LEAST_CLOSURE",
)
LEAST_CLOSURE: Final = _practice(0.005, "a water level is read to 2 mm at either end")
SURVEY_REPEAT: Final = _practice(0.03, "a ground point measured twice agrees within 30 mm")
SURVEY_ODD: Final = _practice(0.15, "grass, clods and wheel ruts make up to 150 mm")
BESIDE_BOARD: Final = _practice(0.3, "a batter board reaches 0.3 m past its outermost string")
BOARD_LOW: Final = _practice(0.4, "tops of the boards at least 0.4 m over the ground")
BOARD_HIGH: Final = _practice(1.2, "tops of the boards no more than 1.2 m over the ground, or they sway")
DATUM: Final = _practice(1.0, "the metre mark: 1 m over the finished floor")
DATUM_CLEAR: Final = _practice(0.3, "the datum at least 0.3 m over the ground at its post")
HEAP_BACK: Final = _practice(1.0, "heaps at least 1 m from the upper edge of a dig, more by local rules")
HEAP_HIGH: Final = _practice(2.0, "no heap higher than 2 m by hand")
FLATTEST_DIG: Final = _practice(
    1.5, "1:1.5 where nobody has looked at the soil: only to keep boards clear of it"
)
TRENCH: Final = _practice(1.2, "trenches from 1.2 m deep fall in and need slopes or shores by most rules")
STEP_LAP: Final = _practice(2.0, "a step of a footing laps by twice its height")
LARGE_CURVE: Final = _practice(12, "from a dozen sheets on, ordinates and a batten are quicker than paper")
