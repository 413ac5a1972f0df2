"""Fire: charring, linings, ways out, stoves and flues. All from memory: confirm each with the local code."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.fire import ADB, ADJ, EN1995FIRE, IRC_ESCAPE

if TYPE_CHECKING:
    from collections.abc import Mapping

_MINUTE = 60.0


def fire_cite(place: str) -> Cite:
    """A place in EN 1995-1-2."""
    return Cite(work=EN1995FIRE, place=place, provenance=Provenance.MEMORY)


def escape_cite(place: str = "B1: escape windows and travel distance") -> Cite:
    """A place in Approved Document B."""
    return Cite(work=ADB, place=place, provenance=Provenance.MEMORY)


def irc_cite(place: str = "R310.2") -> Cite:
    """A place in the residential code of the United States."""
    return Cite(work=IRC_ESCAPE, place=place, provenance=Provenance.MEMORY)


def flue_cite(place: str) -> Cite:
    """A place in Approved Document J."""
    return Cite(work=ADJ, place=place, provenance=Provenance.MEMORY)


@dataclass(frozen=True, slots=True, kw_only=True)
class CharRate:
    """How fast one kind of wood chars (m/s)."""

    flat: float
    """One-dimensional, under a wide flat face."""
    notional: float
    """With corners and fissures counted in."""


CHAR_RATES: Mapping[str, CharRate] = MappingProxyType(
    {
        "softwood": CharRate(flat=0.65e-3 / _MINUTE, notional=0.80e-3 / _MINUTE),
        "hardwood": CharRate(flat=0.50e-3 / _MINUTE, notional=0.55e-3 / _MINUTE),
    }
)
"""Solid timber of at least 290 (softwood) and 450 kg/m3 (hardwood): EN 1995-1-2, table 3.1."""
ZERO_STRENGTH = Sourced(7e-3, fire_cite("4.2.2: d0"))
FIRE_STRENGTH = Sourced(1.25, fire_cite("table 2.1: k_fi of solid timber"))
"""From the 5 % value to the 20 % value that counts in a fire."""
NAIL_TIME = Sourced(15 * _MINUTE, fire_cite("table 6.1: nails of 2.8 mm and more between side members"))
LEAST_NAIL = Sourced(2.8e-3, fire_cite("table 6.1"))

ESCAPE_AREA = Sourced(0.53, irc_cite())
"""The larger of both works: Approved Document B has 0.33 m2."""
ESCAPE_WIDTH = Sourced(0.51, irc_cite())
ESCAPE_HEIGHT = Sourced(0.61, irc_cite())
ESCAPE_SILL = Sourced(1.10, escape_cite("B1, 2.10: bottom of the opening"))
TRAVEL = Sourced(9.0, escape_cite("B1, 3.18: from any point of an open-plan home to its way out"))

PIPE_FREE = Sourced(3.0, flue_cite("diagram 17: single wall pipe to wood, in pipe diameters"))
PIPE_SHIELDED = Sourced(1.5, flue_cite("diagram 17: the same with a shield and an open gap"))
SHIELD_GAP = Sourced(12e-3, flue_cite("diagram 17: gap behind a shield"))
THROUGH = Sourced(0.05, flue_cite("1.45: factory-made chimney to wood, unless its label says more"))
HEARTH = Sourced(0.225, flue_cite("diagram 26: hearth before a closed stove"))
OVER_GROUND = Sourced(1.0, flue_cite("diagram 17: end of a flue over a flat roof"))
OVER_SNOW = Sourced(
    0.6,
    Cite(work=ADJ, place="as over a ridge; over snow it is common practice", provenance=Provenance.PRACTICE),
)
SNOW_UNIT_WEIGHT = Sourced(2.0e3, fire_cite("EN 1991-1-3, table E.1: settled snow"))
