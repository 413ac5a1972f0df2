"""Heat from floors by finite volumes: the same boxes put together and solved by a second, dense program."""

from __future__ import annotations

import math
from typing import Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.groundheat import NREL2008
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.groundheat import FloorCase, floor_flow

_BOXES = Cite(work=NREL2008, place="the kind of its cases, with few boxes", provenance=Provenance.DERIVED)


def _row(name: str, case: dict[str, float], expected: str, boxes: int, **cut: Any) -> Row:
    return Row(
        id=f"FLOORCELLS-{name}",
        cite=_BOXES,
        kind=Kind.INDEPENDENT,
        call=floor_flow,
        inputs={"case": FloorCase(**case), **cut},
        expected=expected,
        note=f"{boxes} boxes, numpy's dense solver",
    )


_ENDLESS = {"length": math.inf, "width": 3.0}
ROWS = (
    _row(
        "as-it-comes",
        _ENDLESS | {"wall": 0.4, "conductivity": 1.5, "depth": 1.5, "far": 0.63},
        "95.57087",
        476,
    ),
    _row(
        "films",
        _ENDLESS
        | {"wall": 0.7, "conductivity": 1.5, "depth": 2.5, "far": 2.0, "inside": 18.0, "outside": -4.0}
        | {"deep": 7.0, "film_inside": 6.0, "film_outside": 20.0},
        "40.69888",
        60,
        edge=0.2,
        growth=1.7,
    ),
    _row(
        "corner",
        {"length": 4.0, "width": 3.0, "wall": 0.5, "conductivity": 2.0, "depth": 3.0, "far": 2.5}
        | {"inside": 21.0, "outside": -3.0, "deep": 9.0, "film_inside": 5.0, "film_outside": 15.0},
        "301.8650",
        576,
        edge=0.2,
        growth=2.0,
    ),
    _row(
        "one-box-deep",
        _ENDLESS
        | {"wall": 0.5, "conductivity": 2.0, "depth": 0.3, "far": 0.45, "inside": 20.0, "outside": 0.0}
        | {"deep": 5.0, "film_inside": 5.0, "film_outside": 15.0},
        "130.35181",
        7,
        edge=0.4,
        growth=1.5,
    ),
)
