"""How much vapour people give off, and how much carbon dioxide."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.fabric import EN16798, LAUNDRY, SOLARHOUSING

_TABLE = Cite(work=SOLARHOUSING, place="table 10.1.1", provenance=Provenance.READ)

PERSON: Final = Sourced(0.050 / 3600.0, _TABLE, "40 to 60 g/h, sitting or asleep")
"""kg/s."""
BOILING: Final = Sourced(1.05 / 3600.0, _TABLE, "cooking: 600 to 1500 g/h")
"""kg/s while pots boil."""
SHOWER: Final = Sourced(2.5 * 5.0 / 60.0, _TABLE, "2500 g/h, five minutes")
"""kg."""
LOAD: Final = Sourced(
    2.6, Cite(work=LAUNDRY, place="4.68 to 6.18 pints a load dried indoors", provenance=Provenance.READ)
)
"""kg of water of a load of laundry."""
CARBON_AWAKE: Final = Sourced(
    20e-3 / 3600.0, Cite(work=EN16798, place="20 l/h a person awake", provenance=Provenance.READ)
)
"""m3/s."""
FRESH: Final = Sourced(
    800e-6,
    Cite(
        work=EN16798, place="category II, living rooms: 800 ppm over outdoors", provenance=Provenance.MEMORY
    ),
)
"""Carbon dioxide over outdoors, share of the air."""
