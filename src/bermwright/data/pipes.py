"""What stands beside a buried pipe, and what plastic loses with the years."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.lasting import BURIEDPIPES, HOWARD1977, MODULUSNOTE, UFCDRAINS
from bermwright.data.works.practice import TRADE

if TYPE_CHECKING:
    from collections.abc import Mapping

_PSI = 6894.757
_TABLE = Cite(work=HOWARD1977, place="table of E': tipped, and slightly to moderately compacted",
              provenance=Provenance.MEMORY)  # fmt: skip
REACTION: Mapping[tuple[str, bool], Sourced] = MappingProxyType(
    {
        ("crushed stone", False): Sourced(1000.0 * _PSI, _TABLE),
        ("crushed stone", True): Sourced(3000.0 * _PSI, _TABLE),
        ("gravel or sand", False): Sourced(200.0 * _PSI, _TABLE),
        ("gravel or sand", True): Sourced(1000.0 * _PSI, _TABLE),
        ("fine soil", False): Sourced(50.0 * _PSI, _TABLE),
        ("fine soil", True): Sourced(200.0 * _PSI, _TABLE),
    }
)
"""Modulus of soil reaction E' by bedding and whether it is tamped (Pa)."""
CAUTION = Sourced(0.5, Cite(work=MODULUSNOTE, place="half of the listed E' at all depths",
                            provenance=Provenance.READ))  # fmt: skip
"""Share of E' that counts: fields scatter, and nobody tests a drain of one house."""
LAG = Sourced(1.5, Cite(work=BURIEDPIPES, place="deflection lag factor that went with the table of E'",
                        provenance=Provenance.READ))  # fmt: skip
BEDDING_CONSTANT = Sourced(0.110, Cite(work=BURIEDPIPES, place="0.083 to 0.110; a pipe on a flat bed",
                                       provenance=Provenance.READ))  # fmt: skip
CREEP = Sourced(4.0, Cite(work=TRADE, place="ring stiffness of polyethylene, now over in 50 years",
                          provenance=Provenance.PRACTICE))  # fmt: skip
OVAL = Sourced(0.05, Cite(work=BURIEDPIPES, place="design value of 5 %; curvature turns at 20 to 30 %",
                          provenance=Provenance.READ))  # fmt: skip
LEAST_FALL = Sourced(0.0015, Cite(work=UFCDRAINS, place="12.6: 0.15 ft in 100 ft at least",
                                  provenance=Provenance.READ))  # fmt: skip
GOOD_FALL = Sourced(0.01, Cite(work=TRADE, place="1 cm in a metre: settling takes its part",
                               provenance=Provenance.PRACTICE))  # fmt: skip
