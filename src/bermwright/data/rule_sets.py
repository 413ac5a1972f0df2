"""Sets of partial factors. One family per check; never mixed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import ASCE7, EN1990, EN1997

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleSet:
    """Partial factors of one set."""

    name: str
    permanent: float
    """On every permanent action; soil weight is one source, so also where it helps (-)."""
    variable: float
    friction: float
    """On the tangent of the soil's angle of friction (-)."""
    cite: Cite
    note: str = ""


_MEMORY = Provenance.MEMORY
DA2 = RuleSet(
    name="EN 1990 (6.10), DA2", permanent=1.35, variable=1.5, friction=1.0,
    cite=Cite(work=EN1990, place="table A1.2(B)", provenance=_MEMORY),
    note="soil pressures are factored as actions",
)  # fmt: skip
DA1_C1 = RuleSet(
    name="EN 1997 DA1, combination 1", permanent=1.35, variable=1.5, friction=1.0,
    cite=Cite(work=EN1997, place="2.4.7.3.4.2, sets A1 and M1", provenance=_MEMORY),
)  # fmt: skip
DA1_C2 = RuleSet(
    name="EN 1997 DA1, combination 2", permanent=1.0, variable=1.3, friction=1.25,
    cite=Cite(work=EN1997, place="2.4.7.3.4.2, sets A2 and M2", provenance=_MEMORY),
)  # fmt: skip
SERVICE = RuleSet(
    name="in use, all factors 1", permanent=1.0, variable=1.0, friction=1.0,
    cite=Cite(work=EN1990, place="6.5.3", provenance=_MEMORY),
)  # fmt: skip

EUROPEAN, AMERICAN_LOADS = "EN 1990", "ASCE 7, loads only"
"""What `[rules] set` may say."""
ASCE7_LOADS = RuleSet(
    name="ASCE 7-16, 1.6 on soil and on snow", permanent=1.6, variable=1.6, friction=1.0,
    cite=Cite(work=ASCE7, place="2.3.1, H and S", provenance=_MEMORY),
    note="weights count with the factor of the soil, which is more than they need where they press",
)  # fmt: skip

APPROACHES: Mapping[str, tuple[RuleSet, ...]] = {"DA1": (DA1_C1, DA1_C2), "DA2": (DA2,)}


def rule_sets(approach: str, family: str = EUROPEAN) -> tuple[RuleSet, ...]:
    """The sets that a design approach asks to be run, worst of all counts; one family, never two."""
    return (ASCE7_LOADS,) if family == AMERICAN_LOADS else APPROACHES[approach]
