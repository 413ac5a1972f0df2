"""Hours of hand work, states of soil, waste and allowances: each row with its source.

A rate is what was published, low to high; nobody has measured this crew on this site. The builder's own
first square metre is worth more than any row here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bermwright.base.ranges import Range
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.practice import TRADE
from bermwright.data.works.rates import (
    CARPENTRYV4,
    INDIANEARTHWORK,
    MENLO,
    NIOSH94110,
    OUTPUTRATES,
    TURFLOG2016,
)
from bermwright.data.works.supports import TM58188


@dataclass(frozen=True, slots=True, kw_only=True)
class Rate:
    """Hours of one person for one unit of work."""

    name: str
    hours: Range
    """Person-hours per `unit`."""
    unit: str
    cite: Cite
    note: str = ""


def _practice(place: str) -> Cite:
    return Cite(work=TRADE, place=place, provenance=Provenance.PRACTICE)


_DIGGING = Cite(
    work=MENLO, place="hand excavation, trench to 1 m, sand to heavy soil", provenance=Provenance.READ
)
_LOADING = Cite(work=MENLO, place="load by hand, sand to heavy soil", provenance=Provenance.READ)
_WHEELING = Cite(work=MENLO, place="wheel to 50 m, spread and level", provenance=Provenance.READ)
_FILLING = Cite(work=MENLO, place="backfill and compact", provenance=Provenance.READ)
_FILM = Cite(work=MENLO, place="plastic film, laid flat", provenance=Provenance.READ)

DIG: Final = Rate(name="dig by hand", hours=Range(1.2, 3.3), unit="m3", cite=_DIGGING)
LOAD: Final = Rate(name="load barrows", hours=Range(1.0, 1.9), unit="m3", cite=_LOADING)
WHEEL: Final = Rate(name="wheel to 50 m, spread, level", hours=Range(1.25, 1.25), unit="m3", cite=_WHEELING)
COMPACT: Final = Rate(
    name="place and compact",
    hours=Range(1.0, 1.0),
    unit="m3",
    cite=_FILLING,
    note="another list gives from 0.6 h (30 cm of sand at once) to 1.3 h (10 cm of clay) a cubic metre, crew not stated",
)
LAG: Final = Rate(
    name="lag with planks",
    hours=Range(0.30, 0.70),
    unit="m2",
    cite=_practice("boarding 0.20 to 0.35 h/m2 when flat, 1.5 to 2 times that curved and at a height"),
)
MEMBRANE: Final = Rate(
    name="lay a sheet",
    hours=Range(0.03, 0.03),
    unit="m2",
    cite=_FILM,
    note="thin film laid flat; a thick sheet over a vault takes longer by a factor that nobody has published",
)
CUT_TURF: Final = Rate(
    name="cut and stack turf",
    hours=Range(0.32, 0.32),
    unit="m2",
    cite=Cite(work=TURFLOG2016, place="1.3 m2 in 25 minutes", provenance=Provenance.READ),
)
LAY_TURF: Final = Rate(
    name="carry, lay and peg turf on a slope",
    hours=Range(0.5, 1.0),
    unit="m2",
    cite=_practice("turf on a steep roof by hand, a guess"),
)

RATES: Final = (DIG, LOAD, WHEEL, COMPACT, LAG, MEMBRANE, CUT_TURF, LAY_TURF)


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilStates:
    """How much room one soil takes in the bank, loose and compacted."""

    name: str
    compacted_over_bank: Range
    bulking: Range
    words: tuple[str, ...]
    """Words by which a soil's name in a house file is recognised."""

    @property
    def cites(self) -> tuple[Cite, Cite]:
        """Sources of both factors."""
        return (
            Cite(work=INDIANEARTHWORK, place=self.name, provenance=Provenance.READ),
            Cite(work=OUTPUTRATES, place=f"bulking, {self.name}", provenance=Provenance.READ),
        )


TILL: Final = SoilStates(
    name="till (boulder clay)",
    compacted_over_bank=Range(0.82, 0.88),
    bulking=Range(0.40, 0.45),
    words=("till", "moraine", "boulder"),
)
SOIL_STATES: Final = (
    SoilStates(
        name="sand", compacted_over_bank=Range(0.88, 0.92), bulking=Range(0.15, 0.20), words=("sand",)
    ),
    SoilStates(
        name="gravel", compacted_over_bank=Range(0.88, 0.93), bulking=Range(0.15, 0.33), words=("gravel",)
    ),
    SoilStates(
        name="loam or silt",
        compacted_over_bank=Range(0.82, 0.88),
        bulking=Range(0.20, 0.40),
        words=("loam", "silt"),
    ),
    TILL,
    SoilStates(
        name="clay", compacted_over_bank=Range(0.78, 0.85), bulking=Range(0.35, 0.40), words=("clay",)
    ),
)
ANY_SOIL: Final = SoilStates(
    name="any of these soils", compacted_over_bank=Range(0.78, 0.93), bulking=Range(0.15, 0.45), words=()
)
"""Where the name of a soil tells nothing: from the least to the greatest of all rows."""


def soil_states(name: str) -> SoilStates:
    """The row for a soil by the last word of its name that is known; the whole range when none is.

    >>> soil_states("silty till").name, soil_states("sandy gravel").name, soil_states("from the hill").name
    ('till (boulder clay)', 'gravel', 'any of these soils')
    """
    said = [word.removesuffix("s") for word in re.findall(r"[a-z]+", name.casefold())]
    if set(said) & set(TILL.words):
        return TILL
    return next((row for word in reversed(said) for row in SOIL_STATES if word in row.words), ANY_SOIL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowance:
    """A length, a share or a mass that is reckoned with, and where it comes from."""

    name: str
    value: float
    cite: Cite


PLANK_WASTE: Final = Allowance(
    name="waste of planks",
    value=0.10,
    cite=Cite(work=CARPENTRYV4, place="part 2: 10 % on dimension timber", provenance=Provenance.READ),
)
SHEATHING_NAILS: Final = Allowance(
    name="nails for boarding (kg/m2)",
    value=0.098,
    cite=Cite(work=CARPENTRYV4, place="part 4: 20 lb of 8d to 1000 square feet", provenance=Provenance.READ),
)
NAILS_A_CROSSING: Final = Allowance(
    name="nails where a plank crosses a rib",
    value=2.0,
    cite=_practice("two nails where a plank crosses a rib"),
)
KERF: Final = Allowance(name="saw cut (m)", value=0.004, cite=_practice("hand-held circular saw, 3 to 4 mm"))
BARROW: Final = Allowance(
    name="barrow, loose (m3)", value=0.060, cite=_practice("builder's barrow, 60 litres")
)
BAG: Final = Allowance(
    name="ballast bag (kg)", value=20.0, cite=_practice("bags that one person lifts, below the 23 kg limit")
)
LIFT_LIMIT: Final = Allowance(
    name="what one person may lift (kg)",
    value=23.0,
    cite=Cite(
        work=NIOSH94110,
        place="load constant, held close at knuckle height, seldom",
        provenance=Provenance.READ,
    ),
)
ROLL: Final = Allowance(name="width of a roll (m)", value=2.0, cite=_practice("membrane in rolls of 2 m"))
LAP: Final = Allowance(name="lap (m)", value=0.15, cite=_practice("lap of 150 mm, along the fall"))
SKIRT: Final = Allowance(
    name="membrane past each edge (m)",
    value=0.30,
    cite=_practice("300 mm down past the feet and up at the ends"),
)
GRID_FOLD: Final = Allowance(
    name="geogrid laid back over its own step (m)",
    value=1.0,
    cite=Cite(work=TM58188, place="7-7", provenance=Provenance.READ),
)
