"""Compasses for pointed domes: K. Hunter and D. Kiffmeyer, Earthbag building (2004), and geometry.

The rule "as tall as wide" was read in an excerpt; the numbers are plain geometry, worked by hand.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import HUNTER2004
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves

if TYPE_CHECKING:
    from collections.abc import Callable

_CITE = Cite(work=HUNTER2004, place="compasses for domes", provenance=Provenance.DERIVED)
_DOME: dict[str, Any] = {"radius": 5.25, "offset": 3.15}


def _row(name: str, call: Callable[..., Any], expected: str, note: str, unit: str = "m", **more: Any) -> Row:
    pick = more.pop("pick", None)
    return Row(
        id=f"HUNTER2004-{name}",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=call,
        inputs=more,
        expected=expected,
        unit=unit,
        note=note,
        **({} if pick is None else {"pick": pick}),
    )


_COURSES = (
    (0.0, "2.100", "2.100"),
    (0.5, "2.076", "2.135"),
    (1.0, "2.004", "2.240"),
    (2.0, "1.704", "2.628"),
    (3.0, "1.158", "3.216"),
    (3.5, "0.763", "3.582"),
    (4.0, "0.250", "4.008"),
)

ROWS = (
    _row("as-tall-as-wide", curves.pointed_radius, "1.25", "R = (r^2 + h^2)/(2 r)", span=1.0, rise=1.0),
    _row("wider", curves.pointed_radius, "3.1929", "(4.41 + 9)/4.2", span=4.2, rise=3.0),
    _row(
        "lancet-start",
        curves.pointed_arcs,
        "180.00",
        "the left arc begins level",
        "deg",
        span=4.2,
        rise=4.2,
        pick=lambda arcs: arcs[0].start,
    ),
    _row("equilateral", curves.pointed_rise, "0.866", "h = sqrt(R^2 - e^2)", span=1.0, offset=0.5),
    _row(
        "drop",
        curves.pointed_rise,
        "0.387",
        "sqrt(0.25 - 0.1): centres on their own side",
        span=1.0,
        offset=-0.1,
    ),
    _row(
        "lancet-centre",
        curves.pointed_arcs,
        "-3.15",
        "e = R - r, beyond mid-span",
        span=4.2,
        rise=4.2,
        pick=lambda arcs: arcs[1].x,
    ),
    _row(
        "lancet-radius",
        curves.pointed_arcs,
        "5.25",
        "R",
        span=4.2,
        rise=4.2,
        pick=lambda arcs: arcs[0].radius,
    ),
    _row(
        "lancet-angle",
        curves.pointed_arcs,
        "53.13",
        "acos(e/R): from vertical at the crown",
        "deg",
        span=4.2,
        rise=4.2,
        pick=lambda arcs: arcs[1].start,
    ),
    _row(
        "lancet-left",
        curves.pointed_arcs,
        "126.87",
        "the left arc ends as far from the other side",
        "deg",
        span=4.2,
        rise=4.2,
        pick=lambda arcs: arcs[0].end,
    ),
    _row(
        "low-point-offset",
        curves.pointed_arcs,
        "-0.5",
        "e = (h^2 - 2 h zc - r^2)/(2 r) = 0.5",
        span=4.0,
        rise=2.0,
        centres=-0.5,
        pick=lambda arcs: arcs[1].x,
    ),
    _row(
        "low-point-radius",
        curves.pointed_arcs,
        "2.5495",
        "hypot(2.5, 0.5)",
        span=4.0,
        rise=2.0,
        centres=-0.5,
        pick=lambda arcs: arcs[1].radius,
    ),
    _row(
        "low-point-foot",
        curves.pointed_arcs,
        "11.310",
        "atan(0.5/2.5)",
        "deg",
        span=4.0,
        rise=2.0,
        centres=-0.5,
        pick=lambda arcs: arcs[1].end,
    ),
    _row(
        "low-point-apex",
        curves.pointed_arcs,
        "2.0000",
        "the arc ends at the rise",
        span=4.0,
        rise=2.0,
        centres=-0.5,
        pick=lambda arcs: arcs[1].point(arcs[1].start)[1],
    ),
    *(
        _row(f"course-{z:g}", curves.pointed_half_width, r, "sqrt(R^2 - z^2) - e", z=z, **_DOME)
        for z, r, _ in _COURSES
    ),
    *(
        _row(
            f"chain-{z:g}",
            curves.centre_chain,
            c,
            "sqrt(r^2 + z^2)",
            z=z,
            half_width=float(curves.pointed_half_width(z, **_DOME)),
        )
        for z, _, c in _COURSES
    ),
)
