"""Heaps and pits: closed forms; grid and slices against them as the second route."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import FM5434
from bermwright.data.works.setout import HEAPS
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook import earthmoving

_HEAP = Cite(work=HEAPS, place="cone and triangle", provenance=Provenance.DERIVED)
_PIT = Cite(
    work=FM5434, place="earthwork volumes; pit with plane faces, exact", provenance=Provenance.DERIVED
)


def _row(name: str, call: Any, expected: str, inputs: dict[str, Any], note: str, **more: Any) -> Row:
    return Row(
        id=f"HEAPS-{name}",
        cite=more.pop("cite", _HEAP),
        kind=more.pop("kind", Kind.DERIVED),
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
        **more,
    )


_CONES = tuple(
    _row(
        f"CONE-{volume:.0f}-{name.upper()}",
        earthmoving.cone_heap,
        expected,
        {"loose": volume, "repose": math.radians(angle)},
        "(3V/π tan φ)^⅓",
        unit="m",
        pick=lambda heap, name=name: getattr(heap, name),
    )
    for volume, angle, radius, height in (
        (20.0, 35.0, "3.010", "2.108"),
        (50.0, 30.0, "4.357", "2.515"),
        (100.0, 35.0, "5.147", "3.604"),
    )
    for name, expected in (("radius", radius), ("height", height))
)
_ROWS_OF_SOIL = tuple(
    _row(
        f"WINDROW-{name.upper()}",
        earthmoving.windrow,
        "5.713",
        {"height": 2.0, "repose": math.radians(35.0)},
        "h/tan φ",
        unit=unit,
        pick=lambda heap, name=name: getattr(heap, name),
    )
    for name, unit in (("width", "m"), ("area", "m2"))
)
_PITS = tuple(
    _row(
        f"PIT-{length:g}-BY-{width:g}",
        earthmoving.pit_volume,
        expected,
        {"length": length, "width": width, "depth": depth, "batter": batter},
        "prismoidal rule on its three sections gives the same",
        cite=_PIT,
        unit="m3",
    )
    for length, width, depth, batter, expected in (
        (6.0, 5.0, 2.0, 1.0, "114.667"),
        (8.0, 6.0, 1.5, 1.5, "129.375"),
        (4.0, 4.0, 3.0, 0.75, "122.250"),
    )
)


def _depths(cells: int) -> np.ndarray:
    """Depths of the first pit at the corners of a grid over its top of 10 by 9 m."""
    x, y = np.linspace(-5.0, 5.0, 10 * cells + 1), np.linspace(-4.5, 4.5, 9 * cells + 1)
    rise = np.maximum(np.abs(x)[None, :] - 3.0, np.abs(y)[:, None] - 2.5)
    return np.asarray(2.0 - np.clip(rise, 0.0, 2.0))


_LEVELS = np.linspace(0.0, 2.0, 5)
_SECOND = (
    _row(
        "PIT-BY-GRID",
        earthmoving.grid_volume,
        "114.667",
        {"depths": _depths(20), "spacing_x": 0.05, "spacing_y": 0.05},
        "the first pit on a grid of 0.05 m, to 0.05 %",
        cite=_PIT,
        kind=Kind.INDEPENDENT,
        unit="m3",
        rel=5e-4,
    ),
    _row(
        "PIT-BY-SLICES",
        earthmoving.slice_volume,
        "114.667",
        {"levels": _LEVELS, "areas": (5.0 + 2.0 * _LEVELS) * (6.0 + 2.0 * _LEVELS)},
        "the first pit in two steps",
        cite=_PIT,
        kind=Kind.INDEPENDENT,
        unit="m3",
    ),
    _row(
        "SLICES-CONE",
        earthmoving.slice_volume,
        "33.333",
        {"levels": np.array([0.0, 5.0, 10.0]), "areas": np.array([10.0, 2.5, 0.0])},
        "a third of base times height; averaged ends give half as much again",
        cite=_PIT,
        unit="m3",
    ),
    _row(
        "GRID-CELL",
        earthmoving.grid_volume,
        "11.25",
        {"depths": np.array([[1.0, 2.0], [2.0, 2.5]]), "spacing_x": 2.0, "spacing_y": 3.0},
        "6·7.5/4",
        cite=_PIT,
        unit="m3",
    ),
)

ROWS = (*_CONES, *_ROWS_OF_SOIL, *_PITS, *_SECOND)
