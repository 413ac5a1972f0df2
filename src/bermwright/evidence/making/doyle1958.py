"""Laying out a curve by offsets: D. V. Doyle, Segmental rafters (1958), and the ordinates of a catenary.

The report was read in excerpts for its method; the numbers are those of a 5 by 4 m catenary.
"""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import DOYLE1958
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import setout
from bermwright.handbook.curves import catenary, segment

_CITE = Cite(work=DOYLE1958, place="laying out a curve", provenance=Provenance.DERIVED)
_TALL, _ROUND = catenary(5.0, 4.0), segment(2.0, 1.5)
_XZ = {"x": _TALL.x, "z": _TALL.z}
_LEANING = {"x": _ROUND.x, "z": _ROUND.z}

ROWS = (
    *(
        Row(
            id=f"DOYLE1958-at-{x:g}",
            cite=_CITE,
            kind=Kind.DERIVED,
            call=setout.ordinates_by_distance,
            inputs={"distance": x, **_XZ},
            expected=y,
            unit="m",
            note="h - c (cosh(x/c) - 1)",
        )
        for x, y in ((0.0, "4.000"), (0.5, "3.889"), (-1.0, "3.535"), (1.5, "2.869"), (2.25, "0.981"))
    ),
    *(
        Row(
            id=f"DOYLE1958-left-{z:g}",
            cite=_CITE,
            kind=Kind.DERIVED,
            call=setout.ordinates_by_height,
            inputs={"height": z, **_XZ},
            expected=x,
            unit="m",
            pick=lambda both: both.left,
            rel=5e-4,
            note="the printed height has three decimals",
        )
        for z, x in ((2.869, "-1.500"), (1.762, "-2.000"))
    ),
    *(
        Row(
            id=f"DOYLE1958-right-{z:g}",
            cite=_CITE,
            kind=Kind.DERIVED,
            call=setout.ordinates_by_height,
            inputs={"height": z, **_XZ},
            expected=x,
            unit="m",
            pick=lambda both: both.right,
            rel=5e-4,
            note="the printed height has three decimals",
        )
        for z, x in ((3.535, "1.000"), (0.981, "2.250"))
    ),
    Row(
        id="DOYLE1958-leaning",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=setout.ordinates_by_distance,
        inputs={"distance": 1.05, **_LEANING},
        expected="0.6833",
        unit="m",
        note="circle of radius 13/12 about z = 5/12, its upper branch: 5/12 + sqrt((13/12)^2 - 1.05^2)",
    ),
)
