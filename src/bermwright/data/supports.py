"""Partial factors and strengths of walls, footings, bars and beds, and presumed bearing values."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.rule_sets import DA1_C1, DA1_C2, DA2
from bermwright.data.sourced import Sourced
from bermwright.data.works.actions import EN1990, EN1997
from bermwright.data.works.practice import TRADE
from bermwright.data.works.supports import BS8004, EN1992, EN1996, IBC2012, NBCPART9
from bermwright.data.works.timber import EN1993

if TYPE_CHECKING:
    from collections.abc import Mapping

_MEMORY = Provenance.MEMORY


@dataclass(frozen=True, slots=True, kw_only=True)
class Resistance:
    """Partial factors on what the ground holds, beside one set of factors on actions."""

    bearing: float
    sliding: float
    cite: Cite


_R1 = Resistance(
    bearing=1.0, sliding=1.0, cite=Cite(work=EN1997, place="table A.5, set R1", provenance=_MEMORY)
)
_R2 = Resistance(
    bearing=1.4, sliding=1.1, cite=Cite(work=EN1997, place="table A.5, set R2", provenance=_MEMORY)
)
RESISTANCES: Mapping[str, Resistance] = {DA1_C1.name: _R1, DA1_C2.name: _R1, DA2.name: _R2}
"""By the name of the set of factors on actions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Partial factors where a body may lose its balance."""

    name: str
    helpful: float
    harmful: float
    variable: float
    friction: float
    cite: Cite


EQU = Balance(
    name="EN 1990 (6.7), loss of balance", helpful=0.9, harmful=1.1, variable=1.5, friction=1.25,
    cite=Cite(work=EN1990, place="table A1.2(A); EN 1997-1, table A.2", provenance=_MEMORY),
)  # fmt: skip

GAMMA_CONCRETE = Sourced(1.5, Cite(work=EN1992, place="table 2.1N", provenance=_MEMORY))
GAMMA_STEEL = Sourced(1.15, Cite(work=EN1992, place="table 2.1N", provenance=_MEMORY))
LONG_CONCRETE = Sourced(0.85, Cite(work=EN1992, place="3.1.6", provenance=_MEMORY), "for a load that stays")
PLAIN_CONCRETE = Sourced(0.8, Cite(work=EN1992, place="12.3.1", provenance=_MEMORY), "concrete without bars")
GAMMA_ROD = Sourced(1.0, Cite(work=EN1993, place="6.1", provenance=_MEMORY), "a plain rod that yields")
GAMMA_MASONRY = Sourced(2.5, Cite(work=EN1996, place="2.4.3, class 4", provenance=_MEMORY), "mortared walls")
GAMMA_BLOCKS = Sourced(
    2.2, Cite(work=EN1996, place="2.4.3, class 3", provenance=_MEMORY), "filled blocks with bars"
)
GAMMA_EARTH = Sourced(
    3.0,
    Cite(work=TRADE, place="judgement: earth and dry stone without a test of the wall", provenance=_MEMORY),
    "earth and dry stone",
)
GAMMA_BED = Sourced(
    1.25,
    Cite(work=EN1997, place="table A.4, on the tangent of friction", provenance=_MEMORY),
    "friction of a plate, a shoe or a dry bed",
)
PRECAST_SHARE = Sourced(
    2.0 / 3.0, Cite(work=EN1997, place="6.5.3 (10)", provenance=_MEMORY), "smooth base on the ground"
)
LARGEST_LEAN = Sourced(
    1.0 / 3.0, Cite(work=EN1997, place="6.5.4", provenance=_MEMORY), "eccentricity over the width of the base"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Presumed:
    """A pressure that a code lets a footing press on a kind of ground without a test."""

    ground: str
    pressure: float
    """Pa."""
    cite: Cite


def _presumed(work: str, rows: dict[str, float]) -> tuple[Presumed, ...]:
    cites = {
        "IBC": Cite(work=IBC2012, place="table 1806.2", provenance=Provenance.READ),
        "NBC": Cite(work=NBCPART9, place="allowable bearing pressures", provenance=Provenance.READ),
        "BS": Cite(work=BS8004, place="table 1, lower ends", provenance=_MEMORY),
    }
    return tuple(
        Presumed(ground=name, pressure=value * 1e3, cite=cites[work]) for name, value in rows.items()
    )


PRESUMED: tuple[Presumed, ...] = (
    *_presumed(
        "IBC",
        {
            "crystalline rock": 575.0, "foliated rock": 192.0, "gravel": 144.0,
            "sand, silty or clayey sand and gravel": 96.0, "silt and clay": 72.0,
        },
    ),
    *_presumed(
        "NBC",
        {
            "dense sand or gravel": 150.0, "loose sand or gravel": 50.0, "dense silt": 100.0,
            "stiff clay": 150.0, "firm clay": 75.0, "soft clay": 40.0, "till": 200.0, "shale": 300.0,
            "rock": 500.0,
        },
    ),
    *_presumed("BS", {"medium dense gravel": 200.0, "medium dense sand": 100.0, "firm clay": 75.0}),
)  # fmt: skip
"""Mud, peat and fill that nobody compacted carry nothing by presumption."""
