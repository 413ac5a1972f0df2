"""Soil to a level surface: C. E. Inglis, Applied mechanics for engineers (1951), transformed catenary.

The work was not opened; its equation H y'' = gamma y was solved again, by hand and by quadrature.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.curves import INGLIS1951
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import curves

if TYPE_CHECKING:
    from collections.abc import Callable

_CITE = Cite(work=INGLIS1951, place="transformed catenary", provenance=Provenance.DERIVED)
_VAULT: dict[str, Any] = {"span": 6.0, "rise": 2.4, "cover": 0.6}


def _row(name: str, call: Callable[..., Any], expected: str, note: str, unit: str = "m", **more: Any) -> Row:
    pick = more.pop("pick", None)
    return Row(
        id=f"INGLIS1951-{name}",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=call,
        inputs={**_VAULT, **more},
        expected=expected,
        unit=unit,
        note=note,
        **({} if pick is None else {"pick": pick}),
    )


ROWS = (
    _row("parameter", curves.level_cover_parameter, "1.30865", "k = a/arcosh((d0 + h)/d0)"),
    _row(
        "thrust",
        curves.level_cover_forces,
        "30.826",
        "gamma k^2",
        "kN/m",
        unit_weight=18e3,
        pick=lambda forces: forces.thrust,
    ),
    _row(
        "vertical",
        curves.level_cover_forces,
        "69.240",
        "gamma k d0 sinh(a/k)",
        "kN/m",
        unit_weight=18e3,
        pick=lambda forces: forces.vertical,
    ),
    _row("springing", curves.level_cover_springing_angle, "66.00", "atan((d0/k) sinh(a/k))", "deg"),
    _row("depth", curves.level_cover_depth, "1.0392", "d0 cosh(x/k)", x=1.5),
    _row("curvature-crown", curves.level_cover_curvature, "0.35035", "d0/k^2: radius 2.854 m", "1/m", x=0.0),
    _row(
        "curvature-haunch",
        curves.level_cover_curvature,
        "0.358457",
        "(d0/k^2) cosh u/(1 + (d0/k)^2 sinh^2 u)^1.5: larger than at the crown, so two-nosed",
        "1/m",
        x=1.5,
    ),
    _row("curvature-foot", curves.level_cover_curvature, "0.117862", "the same", "1/m", x=3.0),
    _row("points-length", curves.level_cover, "8.1767", "quadrature", pick=lambda curve: curve.length),
    _row("points-foot", curves.level_cover, "3.0000", "half the span", pick=lambda curve: curve.x[-1]),
    _row("points-foot-height", curves.level_cover, "0.0000", "springing line", pick=lambda curve: curve.z[0]),
    _row("points-angle", curves.level_cover, "66.00", "springing", "deg", pick=lambda curve: curve.angle[0]),
    _row(
        "points-haunch",
        curves.level_cover,
        "1.9608",
        "h + d0 - 1.0392 at x = 1.5",
        pick=lambda curve: _height_at(curve, 1.5),
    ),
    _row(
        "points-curvature",
        curves.level_cover,
        "0.117862",
        "at the foot",
        "1/m",
        pick=lambda curve: curve.curvature[0],
    ),
    Row(
        id="INGLIS1951-nose",
        cite=_CITE,
        kind=Kind.DERIVED,
        call=curves.single_nosed_cover,
        inputs={"span": 6.0, "rise": 2.4},
        expected="0.86428",
        unit="m",
        note="(cosh v - 1)/v = sqrt(3) 0.8 by bisection, k = 3/v, d0 = k/sqrt(3)",
    ),
)


def _height_at(curve: Any, x: float) -> float:
    import numpy as np

    return float(np.interp(x, curve.x, curve.z))
