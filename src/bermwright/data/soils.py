"""Soils that a builder may have and have no test of: weight, friction and stiffness by kind.

Ranges, never single numbers. A test of the builder's own soil always goes before them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.ranges import Range
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.soils import CSAS6, EM2504, ICSMGE2013, MARTIN1984, USBR1977

if TYPE_CHECKING:
    from collections.abc import Mapping

_PCF = 157.0875
"""N/m3 in a pound per cubic foot."""
_WATER_PCF = 62.43
_GRAINS = 2.65
"""Weight of the grains over that of water, for the saturated weight of the compacted soils."""
_LIGHTLY = 0.95
"""Share of the greatest density that is still called compacted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilRow:
    """One kind of soil as placed."""

    name: str
    symbol: str
    """Group of the unified soil classification."""
    unit_weight: Range
    """Moist, as placed (N/m3)."""
    saturated: Range
    """N/m3."""
    friction: Range
    """Effective angle of friction (rad)."""
    modulus: Range
    """Young's modulus at a mean stress of 50 kPa (Pa)."""
    cites: tuple[Cite, ...]
    note: str = ""


_GRANULAR = Cite(work=EM2504, place="table 3-1", provenance=Provenance.READ)
_PROCTOR = Cite(
    work=USBR1977,
    place="table 3.1; the scan is worn, digits completed from memory",
    provenance=Provenance.MEMORY,
)
_MODULUS = Cite(
    work=CSAS6,
    place="secant modulus by soil group and density, as stiffness at 50 kPa",
    provenance=Provenance.MEMORY,
)
_CLEAN_MODULUS = Range(12e6, 24e6)
_SILTY_MODULUS = Range(6e6, 12e6)
_LOOSE_MODULUS = Range(6e6, 12e6)


def _degrees(low: float, high: float) -> Range:
    return Range(math.radians(low), math.radians(high))


def _granular(name: str, moist: Range, submerged: Range, friction: Range, modulus: Range) -> SoilRow:
    return SoilRow(
        name=name,
        symbol="SP, SW, GP, GW",
        unit_weight=Range(moist.low * _PCF, moist.high * _PCF),
        saturated=Range((submerged.low + _WATER_PCF) * _PCF, (submerged.high + _WATER_PCF) * _PCF),
        friction=friction,
        modulus=modulus,
        cites=(_GRANULAR, _MODULUS),
    )


def _compacted(
    name: str, symbol: str, dry: float, water: float, friction: float, scatter: float, modulus: Range
) -> SoilRow:
    """From the greatest dry density (pcf), its water content (share) and friction (deg, with its scatter)."""
    saturated = [
        (one * (1 - 1 / _GRAINS) + _WATER_PCF) * _PCF for one in (_LIGHTLY * dry, dry)
    ]  # dry weight plus water in all voids
    return SoilRow(
        name=name,
        symbol=symbol,
        unit_weight=Range(_LIGHTLY * dry * (1 + water) * _PCF, dry * (1 + water) * _PCF),
        saturated=Range(*saturated),
        friction=_degrees(friction - scatter, friction + scatter),
        modulus=modulus,
        cites=(_PROCTOR, _MODULUS),
        note="placed at its best water content, 95 to 100 % of the greatest density",
    )


_ROWS = (
    _granular("loose sand or gravel", Range(95, 125), Range(55, 65), _degrees(28, 30), _LOOSE_MODULUS),
    _granular(
        "medium dense sand or gravel", Range(110, 130), Range(60, 70), _degrees(31, 36), _CLEAN_MODULUS
    ),
    _granular("dense sand or gravel", Range(110, 140), Range(65, 85), _degrees(37, 41), _CLEAN_MODULUS),
    _compacted("well graded sand", "SW", 119, 0.133, 38, 1, _CLEAN_MODULUS),
    _compacted("uniform sand", "SP", 110, 0.124, 37, 1, _CLEAN_MODULUS),
    _compacted("silty sand", "SM", 114, 0.145, 34, 1, _SILTY_MODULUS),
    _compacted("silty sand with some clay", "SM-SC", 119, 0.128, 33, 4, _SILTY_MODULUS),
    _compacted("clayey sand", "SC", 115, 0.147, 31, 4, _SILTY_MODULUS),
    _compacted("silt", "ML", 103, 0.192, 32, 2, _SILTY_MODULUS),
    _compacted("lean clay", "CL", 108, 0.173, 28, 2, _SILTY_MODULUS),
)
SOILS: Mapping[str, SoilRow] = MappingProxyType({row.name: row for row in _ROWS})
"""By name. Fat clay, organic soil and uncontrolled fill are left out: no vault is checked in them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MembraneFriction:
    """Friction angle between sandy fill and what covers the vault."""

    name: str
    friction: Range
    """rad."""
    cite: Cite


_RAMP = Cite(work=ICSMGE2013, place="ramp tests on sand", provenance=Provenance.READ)
_SHEAR_BOX = Cite(work=MARTIN1984, place="table of friction angles", provenance=Provenance.MEMORY)
MEMBRANES: Mapping[str, MembraneFriction] = MappingProxyType(
    {
        one.name: one
        for one in (
            MembraneFriction(name="PVC", friction=_degrees(29, 31), cite=_RAMP),
            MembraneFriction(name="smooth HDPE", friction=_degrees(26, 30), cite=_RAMP),
            MembraneFriction(name="textured HDPE", friction=_degrees(30, 37), cite=_RAMP),
            MembraneFriction(name="EPDM", friction=_degrees(20, 24), cite=_SHEAR_BOX),
            MembraneFriction(name="fleece on smooth HDPE", friction=_degrees(8, 8), cite=_SHEAR_BOX),
            MembraneFriction(name="fleece on PVC", friction=_degrees(21, 23), cite=_SHEAR_BOX),
            MembraneFriction(name="fleece on EPDM", friction=_degrees(23, 23), cite=_SHEAR_BOX),
        )
    }
)
"""By name, for questions and examples; the lower end counts where nothing was measured."""
