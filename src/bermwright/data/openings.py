"""What goes round a window or door that is fitted into a hole: packing, safety glass, wind, door leaf."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.actions import EN1990, EN1991_1_4
from bermwright.data.works.glazing import ADK, IRCR308
from bermwright.data.works.practice import TRADE


def _practice(place: str) -> Cite:
    return Cite(work=TRADE, place=place, provenance=Provenance.PRACTICE)


PACKING: Final = Sourced(0.010, _practice("10 to 15 mm round a frame, for packing and movement"))
"""Least room on each side of a frame or pane in its hole (m)."""
MOST_PACKED: Final = Sourced(0.25, _practice("a wider strip is a wall and wants its own frame"))
"""Widest strip that is filled beside a frame (m)."""
STRIP_U: Final = Sourced(0.40, _practice("a strip of 100 mm insulation between boards"))
"""Heat loss of that strip (W/m2K)."""
LOW_GLASS: Final = Sourced(
    0.80, Cite(work=ADK, place="critical locations: below 800 mm", provenance=Provenance.READ)
)
"""Level below which glass has to break without blades (m)."""
DOOR_BESIDE: Final = Sourced(
    0.610,
    Cite(work=IRCR308, place="R308.4.2: within 24 in of a door", provenance=Provenance.READ),
    "England asks it within 300 mm only; the greater of both is taken",
)
"""Distance from a door within which glass counts as beside it (m)."""
DOOR_HIGH: Final = Sourced(
    1.524,
    Cite(work=IRCR308, place="R308.4.2: bottom edge below 60 in", provenance=Provenance.READ),
    "England asks it below 1500 mm",
)
"""Level of its lower edge up to which glass beside a door has to break without blades (m)."""
NET_WIND: Final = Sourced(
    1.4,
    Cite(
        work=EN1991_1_4,
        place="walls, zone A for 1 m2 and inside pressure, as one figure",
        provenance=Provenance.MEMORY,
    ),
)
"""Pressure on a pane in an end wall over the gust's pressure (-)."""
WIND_FACTOR: Final = Sourced(1.5, Cite(work=EN1990, place="table A1.2(B)", provenance=Provenance.MEMORY))
"""Partial factor on wind (-)."""

SKIN: Final = Sourced(0.020, _practice("boarding of a door leaf, 20 mm on both faces"))
"""Thickness of each skin of a door leaf (m)."""
STILE: Final = Sourced(0.045, _practice("stiles and rails of 45 mm round the leaf and across its middle"))
"""Width of the timber round a door leaf, seen from the front (m)."""
CORES: Final = (0.08, 0.12, 0.16)
"""Thicknesses of core that are compared (m)."""
HINGES_IN: Final = Sourced(0.20, _practice("middle of a hinge from the end of the leaf"))
"""m."""
