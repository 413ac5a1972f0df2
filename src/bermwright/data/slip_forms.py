"""What forms that climb along a wall are reckoned with: each row with its source."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.actions import EN1990
from bermwright.data.works.making import FORM_PRESSURE, RAMMED_FORMS
from bermwright.data.works.practice import TRADE


def _practice(value: float, place: str) -> Sourced:
    return Sourced(value, Cite(work=TRADE, place=place, provenance=Provenance.PRACTICE))


GRIP: Final = _practice(0.10, "panels grip 100 mm of the lift below")
CLEAR: Final = _practice(0.10, "the upper ties pass 100 mm over the fill")
SAG: Final = _practice(300.0, "a form bends by its span over 300 at most, else the wall shows it")
STRUT_EVERY: Final = _practice(1.5, "raking struts on both sides every 1.5 m, and at both ends of a panel")
FORM_FACTOR: Final = Sourced(
    1.5, Cite(work=EN1990, place="table A1.2(B), variable actions", provenance=Provenance.MEMORY)
)
"""Partial factor on the pressure of the fill (-)."""
PRESSURE_CITE: Final = Cite(
    work=FORM_PRESSURE, place="p = w h, without any reduction", provenance=Provenance.READ
)
RAMMED_CITE: Final = Cite(
    work=RAMMED_FORMS,
    place="formwork: 19 mm at 0.75 m; 30 to 45 mm at 1.0 to 1.5 m",
    provenance=Provenance.READ,
)
RAMMED_STUDS: Final = ((0.019, 0.75), (0.030, 1.0))
"""Thickness of boards from which studs may stand so far apart for rammed earth (m, m), the nearer of both."""
