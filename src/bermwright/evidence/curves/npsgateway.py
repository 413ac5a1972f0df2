"""The weighted catenary of the Gateway Arch, feet: its published numbers reproduced.

Read on a page of the Rose-Hulman Institute of Technology that quotes the National Park Service.
"""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import NPSGATEWAY
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves

_READ = Cite(work=NPSGATEWAY, place="equation of the arch", provenance=Provenance.READ)
_DERIVED = Cite(work=NPSGATEWAY, place="equation of the arch", provenance=Provenance.DERIVED)
_RISE, _HALF = 625.0925, 299.2239
_RATIO = 1262.6651 / 125.1406
_ROUNDED = "the printed input has seven digits"

ROWS = (
    Row(
        id="NPSGATEWAY-A",
        cite=_READ,
        kind=Kind.PUBLISHED,
        call=curves.depth_for_weight_ratio,
        inputs={"rise": _RISE, "ratio": _RATIO},
        expected="68.7672",
        rel=2e-6,
        note=_ROUNDED,
    ),
    Row(
        id="NPSGATEWAY-C-over-L",
        cite=_READ,
        kind=Kind.PUBLISHED,
        call=curves.level_cover_parameter,
        inputs={"span": 2 * _HALF, "rise": _RISE, "cover": 68.7672},
        expected="0.0100333",
        pick=lambda k: 1.0 / k,
        rel=1e-5,
        note="0.01003337; printed from a C of five digits",
    ),
    Row(
        id="NPSGATEWAY-slope",
        cite=_DERIVED,
        kind=Kind.DERIVED,
        call=curves.level_cover_springing_angle,
        inputs={"span": 2 * _HALF, "rise": _RISE, "cover": 68.7672},
        expected="81.79",
        unit="deg",
        note="atan(A (C/L) sinh C)",
    ),
    Row(
        id="NPSGATEWAY-length",
        cite=_DERIVED,
        kind=Kind.DERIVED,
        call=curves.level_cover,
        inputs={"span": 2 * _HALF, "rise": _RISE, "cover": 68.7672},
        expected="1480.3",
        pick=lambda curve: curve.length,
        note="quadrature of sqrt(1 + y'^2)",
    ),
    Row(
        id="NPSGATEWAY-plain",
        cite=_DERIVED,
        kind=Kind.DERIVED,
        call=curves.catenary_parameter,
        inputs={"span": 2 * _HALF, "rise": _RISE},
        expected="118.626",
        note="the plain catenary of the same span and rise is another curve",
    ),
)
