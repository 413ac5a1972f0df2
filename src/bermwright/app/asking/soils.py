"""Soils to choose from: rows of the table of soils, as ranges that a house file can hold."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.data.soils import SOILS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.base.ranges import Range


@dataclass(frozen=True, slots=True)
class Option:
    """One answer that can be chosen."""

    text: str
    note: str = ""


SOIL_OPTIONS = tuple(Option(row.name, row.note) for row in SOILS.values())


def soil_places(name: str) -> Mapping[str, str]:
    """What the choice of a soil writes: the ranges of its row, for the site and for the fill."""
    row = SOILS[name]
    sources = "; ".join(f"{cite.work.key}, {cite.place} ({cite.provenance.value})" for cite in row.cites)
    return {
        "site.soil.name": row.name,
        "site.soil.unit_weight": _range(row.unit_weight, 1e3, 1, "kN/m3"),
        "site.soil.saturated_unit_weight": _range(row.saturated, 1e3, 1, "kN/m3"),
        "site.soil.friction_angle": _range(row.friction, math.radians(1.0), 0, "deg"),
        "site.soil.stiffness": _range(row.modulus, 1e6, 0, "MPa"),
        "site.soil.source": f"table of soils, no test of this ground: {sources}",
        "vault.fill.soil": row.name,
    }


def _range(found: Range, unit: float, digits: int, name: str) -> str:
    """Rounded outwards, so that nothing of the table's range is lost."""
    step = 10.0**-digits
    low = math.floor(found.low / unit / step + 1e-9) * step
    high = math.ceil(found.high / unit / step - 1e-9) * step
    return f"{low:.{digits}f}..{high:.{digits}f} {name}"
