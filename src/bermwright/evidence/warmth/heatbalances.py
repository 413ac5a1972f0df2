"""Heat kept, shared between two rooms, or lost in a reduced model: closed forms and dense programs."""

from __future__ import annotations

from typing import Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.groundheat import GRIMME1997, ISO10211
from bermwright.evidence.rows import Kind, Row
from bermwright.evidence.warmth.groundheat import Once
from bermwright.handbook.groundheat import (
    Border,
    Drive,
    Material,
    Node,
    Region,
    Section,
    assemble,
    error_of,
    periodic_year,
    reduce_model,
    run_years,
)
from bermwright.handbook.groundheat.mesh import Mesh

_KEPT = Cite(work=ISO10211, place="heat balance of the nodes", provenance=Provenance.DERIVED)
_MODEL = Cite(work=GRIMME1997, place="chapter 5, the projected system", provenance=Provenance.DERIVED)
_DEEP = 0.6
_SOIL = Material(name="soil", conductivity=1.3, capacity=1.9e6)


def _mesh() -> Mesh:
    """Two columns of points 0.1 m apart and seven rows, each cell of two triangles."""
    rows = 7
    points = np.array([(x, -_DEEP * k / (rows - 1)) for k in range(rows) for x in (0.0, 0.1)])
    cells = [((2 * k, 2 * k + 2, 2 * k + 3), (2 * k, 2 * k + 3, 2 * k + 1)) for k in range(rows - 1)]
    sides = [(2 * k + at, 2 * k + 2 + at) for at in (0, 1) for k in range(rows - 1)]
    return Mesh(
        points=points,
        triangles=np.array([triangle for cell in cells for triangle in cell]),
        material=np.zeros(2 * (rows - 1), dtype=int),
        edges=np.array([(0, 1), (2 * rows - 2, 2 * rows - 1), *sides]),
    )


def _section(*more: Border) -> Section:
    return Section(
        regions=(Region.box(_SOIL, (0.0, 0.1), (-_DEEP, 0.0)),),
        borders=(
            Border.of("top", [(0.0, 0.0), (0.1, 0.0)], 10.0),
            Border.of("deep", [(0.0, -_DEEP), (0.1, -_DEEP)], 6.0),
            *more,
        ),
        watch={"middle": (0.05, -0.25)},
    )


def _full() -> Any:
    return assemble(_mesh(), _section())


def _row(name: str, cite: Cite, call: Any, inputs: Any, expected: str, pick: Any, note: str) -> Row:
    return Row(
        id=f"HEATBALANCES-{name}",
        cite=cite,
        kind=Kind.INDEPENDENT,
        call=call,
        inputs=inputs,
        expected=expected,
        pick=pick,
        note=note,
    )


_BESIDE = Border.of("top", [(0.0, 0.0), (0.0, -_DEEP)], 10.0)
_COOLING = Once(
    lambda: {
        "model": reduce_model(_full(), shifts=8, check=False),
        "drive": Drive(given={"top": -5.0 + np.arange(24.0) / 4.0, "deep": 4.0}),
        "start": 9.0,
    }
)
_ROOMS = Once(
    lambda: {
        "model": reduce_model(_full(), shifts=4, check=False),
        "drive": Drive(
            given={},
            nodes=(
                Node(port="top", loss=0.2, outside=np.full(4, -4.0), gains=2.0),
                Node(port="deep", loss=0.5, outside=1.0, gains=1.0),
            ),
        ),
    }
)
_COARSE = Once(lambda: {"model": reduce_model(_full(), shifts=2, check=False)})
ROWS = (
    _row(
        "two-sides-of-a-port",
        _KEPT,
        assemble,
        Once(lambda: {"mesh": _mesh(), "section": _section(_BESIDE)}),
        "0.700",
        lambda full: full.lengths["top"],
        "0.1 m on top and 0.6 m beside",
    ),
    _row(
        "first-day-kept",
        _KEPT,
        run_years,
        _COOLING,
        "0.0000000",
        lambda course: course.balance,
        "what passes the surfaces is what the ground loses",
    ),
    _row(
        "one-year-as-it-comes",
        _KEPT,
        run_years,
        _COOLING,
        "24.0",
        lambda course: float(len(course.states)),
        "the drive is run through once",
    ),
    *(
        _row(
            f"room-{name}",
            _KEPT,
            periodic_year,
            _ROOMS,
            expected,
            lambda course, name=name: float(course.air[name].mean()),
            "2 = 0.2·(T + 4) + U·(T - S), 1 = 0.5·(S - 1) + U·(S - T), U = 0.1/(1/10 + 0.6/1.3 + 1/6)",
        )
        for name, expected in (("top", "4.9497"), ("deep", "3.4201"))
    ),
    *(
        _row(
            f"left-out-{name}",
            _MODEL,
            error_of,
            _COARSE,
            expected,
            lambda error, name=name: float(getattr(error, name)),
            "both marched by numpy's dense solver through the same steps, four modes of fourteen",
        )
        for name, expected in (("temperature", "0.322233"), ("flow", "2.54662"))
    ),
)
