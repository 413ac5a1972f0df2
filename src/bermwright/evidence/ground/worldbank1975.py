"""Haulage by wheelbarrow: World Bank technical memorandum 1, 1975.

Its opening was seen; the rows are arithmetic on a stated trip.
"""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import WORLDBANK1975
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.earthmoving import barrow_cycle, loads, output_of_cycle

_TRIP = Cite(work=WORLDBANK1975, place="a trip of 25 m, worked", provenance=Provenance.DERIVED)

ROWS = (
    Row(
        id="WORLDBANK1975-cycle",
        cite=_TRIP,
        kind=Kind.DERIVED,
        call=barrow_cycle,
        inputs={"distance": 25.0, "speed_out": 0.8, "speed_back": 1.2, "loading": 60.0, "tipping": 20.0},
        expected="132.08",
        unit="s",
        note="25/0.8 + 25/1.2 + 60 + 20",
    ),
    Row(
        id="WORLDBANK1975-full-hour",
        cite=_TRIP,
        kind=Kind.DERIVED,
        call=output_of_cycle,
        inputs={"cycle": 132.0833, "capacity": 0.060, "worked": 1.0},
        expected="1.635",
        unit="m3/ph",
        note="3600/132.0833·0.060",
    ),
    Row(
        id="WORLDBANK1975-three-quarter-hour",
        cite=_TRIP,
        kind=Kind.DERIVED,
        call=output_of_cycle,
        inputs={"cycle": 132.0833, "capacity": 0.060, "worked": 0.75},
        expected="1.226",
        unit="m3/ph",
        note="three quarters of 1.635",
    ),
    Row(
        id="WORLDBANK1975-barrows",
        cite=_TRIP,
        kind=Kind.DERIVED,
        call=loads,
        inputs={"loose": 41.667, "capacity": 0.060},
        expected="695",
        note="694.4 barrows, rounded up",
    ),
    Row(
        id="WORLDBANK1975-lorries",
        cite=_TRIP,
        kind=Kind.DERIVED,
        call=loads,
        inputs={"loose": 143.33, "capacity": 6.0},
        expected="24",
        note="23.89 lorries, rounded up",
    ),
)
