"""The ellipse: NIST, Digital library of mathematical functions, section 19.30.

The work was not opened; the perimeters are complete elliptic integrals of a general library.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import DLMF
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves

if TYPE_CHECKING:
    from collections.abc import Callable

_CITE = Cite(work=DLMF, place="19.30, ellipse", provenance=Provenance.DERIVED)
_FLAT: dict[str, Any] = {"span": 4.0, "rise": 1.0}


def _row(
    name: str,
    expected: str,
    note: str,
    pick: Callable[[Any], Any],
    *,
    unit: str = "m",
    kind: Kind = Kind.DERIVED,
    **inputs: float,
) -> Row:
    return Row(
        id=f"DLMF-{name}",
        cite=_CITE,
        kind=kind,
        call=curves.ellipse,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
    )


ROWS = (
    _row(
        "ellipse-length",
        "4.84422",
        "2 a E(1 - b^2/a^2) by scipy.special.ellipe",
        lambda c: c.length,
        kind=Kind.INDEPENDENT,
        **_FLAT,
    ),
    _row(
        "ellipse-length-tall",
        "10.34657",
        "2 b E(1 - a^2/b^2), a = 2.5, b = 4",
        lambda c: c.length,
        kind=Kind.INDEPENDENT,
        span=5.0,
        rise=4.0,
    ),
    _row("ellipse-crown", "0.2500", "b/a^2", lambda c: c.curvature[400], unit="1/m", **_FLAT),
    _row("ellipse-foot", "2.000", "a/b^2", lambda c: c.curvature[0], unit="1/m", **_FLAT),
    _row("ellipse-upright", "90.0", "upright at the foot", lambda c: c.angle[0], unit="deg", **_FLAT),
    _row("ellipse-right", "2.00", "half the span", lambda c: c.x[-1], **_FLAT),
    _row("ellipse-top", "1.00", "the rise", lambda c: c.z[400], **_FLAT),
    _row(
        "ellipse-middle",
        "26.565",
        "slope b/a where the parameter is 45 deg, left",
        lambda c: c.angle[200],
        unit="deg",
        **_FLAT,
    ),
    Row(
        id="DLMF-ellipse-height",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=curves.ellipse_height,
        inputs={"x": 1.5, "span": 5.0, "rise": 3.0},
        expected="2.4000",
        unit="m",
        note="3 sqrt(1 - 0.36)",
    ),
    Row(
        id="DLMF-ellipse-height-left",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=curves.ellipse_height,
        inputs={"x": np.array(-2.0), "span": 5.0, "rise": 3.0},
        expected="1.8000",
        unit="m",
        note="3 sqrt(1 - 0.64)",
    ),
)
