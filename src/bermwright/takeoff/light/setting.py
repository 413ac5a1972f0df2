"""How a bare pane is set into its hole, and whether it takes the wind."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.data.glasses import GLASSES
from bermwright.data.openings import DOOR_BESIDE, DOOR_HIGH, LOW_GLASS, NET_WIND, WIND_FACTOR
from bermwright.data.terrain import ROUGHNESS
from bermwright.handbook.actions import gust_pressure
from bermwright.handbook.glazing import (
    GlassKind,
    Lasting,
    glass_strength,
    pane_deflection,
    pane_rebate,
    pane_thickness,
    setting_block,
)
from bermwright.house import OpeningKind, SafetyGlass, SalvagedKind

if TYPE_CHECKING:
    from bermwright.handbook.glazing import Rebate
    from bermwright.house import House, Opening, Salvaged
    from bermwright.takeoff.light.salvaged import Fitting, Pair

LEAST_HEIGHT = 2.0
"""Wind is counted no lower over the ground (m)."""
GLASS_DENSITY = 2500.0
"""kg/m3."""
SAG = 100.0
"""The middle of a pane may go out by the short side over this (from memory of DIN 18008-2)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaneSetting:
    """A bare pane in its hole."""

    pair: Pair
    sealed: bool
    thickness: float
    """Of the pane or the sealed unit (m)."""
    rebate: Rebate
    block: float
    """Length of each of its two blocks (m)."""
    quarter: float
    """From each end of the pane to the middle of a block (m)."""
    mass: float
    """kg."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WindCheck:
    """What the wind asks of the outer pane, alone."""

    pair: Pair
    pressure: float | None
    """Design pressure (Pa); None while the file gives no wind."""
    needed: float | None
    """Thickness by strength (m)."""
    given: float | None
    deflection: float | None
    limit: float | None
    """How far the middle goes out, and may (m)."""

    @property
    def holds(self) -> bool | None:
        """Whether it takes the wind; None where something is not known, or snow comes on top."""
        if self.pair.opening.kind is OpeningKind.ROOFLIGHT:
            return None
        if None in (self.needed, self.given, self.deflection, self.limit):
            return None
        return bool(self.given >= self.needed and self.deflection <= self.limit)  # type: ignore[operator]


def settings_of(fitting: Fitting) -> tuple[PaneSetting, ...]:
    """Every bare pane that found a hole and whose glazing is known."""
    pairs = [match.pair for match in fitting.matches if match.pair is not None]
    return tuple(
        setting_of(pair)
        for pair in pairs
        if pair.item.line.kind is SalvagedKind.PANE and pair.item.line.panes is not None
    )


def setting_of(pair: Pair) -> PaneSetting:
    """Rebate and blocks of a pane."""
    line = pair.item.line
    glass = GLASSES[f"{line.panes}, salvaged"]
    own = [line.glass or pane.thickness for pane in glass.panes]
    thickness = sum(own) + sum(gap.width for gap in glass.gaps)
    area = pair.width * pair.height
    return PaneSetting(
        pair=pair,
        sealed=bool(glass.gaps),
        thickness=thickness,
        rebate=pane_rebate(thickness, area, sealed=bool(glass.gaps)),
        block=float(setting_block(area)),
        quarter=0.25 * pair.width,
        mass=area * sum(own) * GLASS_DENSITY,
    )


def wind_checks(house: House, fitting: Fitting) -> tuple[WindCheck, ...]:
    """The outer pane of every window and pane that found a hole."""
    pairs = [match.pair for match in fitting.matches if match.pair is not None]
    return tuple(_wind_check(house, pair) for pair in pairs if pair.opening.kind is not OpeningKind.DOOR)


def _wind_check(house: House, pair: Pair) -> WindCheck:
    line = pair.item.line
    pressure = _pressure(house, pair.opening)
    if pressure is None:
        return WindCheck(pair=pair, pressure=None, needed=None, given=line.glass, deflection=None, limit=None)
    kind = GlassKind.TOUGHENED if line.safety is SafetyGlass.TOUGHENED else GlassKind.FLOAT
    strength = glass_strength(kind, Lasting.WIND)
    sides = (pair.width, pair.height)
    deflection = (
        None
        if line.glass is None
        else float(pane_deflection(*sides, line.glass, pressure / WIND_FACTOR.value))
    )
    return WindCheck(
        pair=pair,
        pressure=pressure,
        needed=float(pane_thickness(*sides, pressure, strength=strength)),
        given=line.glass,
        deflection=deflection,
        limit=min(sides) / SAG,
    )


def _pressure(house: House, hole: Opening) -> float | None:
    """Design pressure of a gust on a pane (Pa)."""
    if house.site.wind is None:
        return None
    rough, least = ROUGHNESS[str(house.site.terrain)]
    height = max(hole.head or LEAST_HEIGHT, LEAST_HEIGHT)
    gust = float(gust_pressure(house.site.wind, height, roughness=rough, least_height=least))
    return gust * NET_WIND.value * WIND_FACTOR.value


def safety_asked(house: House, hole: Opening, line: Salvaged) -> str:
    """Why glass in this place has to break without blades; empty where it has not, or already does."""
    if line.safety is not SafetyGlass.NONE or (line.panes is None and line.kind is SalvagedKind.DOOR):
        return ""
    low = float("nan") if hole.sill is None else hole.sill
    places = (
        (hole.kind is OpeningKind.ROOFLIGHT, "it lies overhead"),
        (hole.kind is OpeningKind.DOOR, "it is in a door"),
        (hole.sill is None, "the file does not say how low it reaches"),
        (low < LOW_GLASS.value - 1e-9, "it reaches below the height of a fall"),
        (low < DOOR_HIGH.value - 1e-9 and _by_a_door(house, hole), "it stands beside a door"),
    )
    return next((why for asked, why in places if asked), "")


def _by_a_door(house: House, hole: Opening) -> bool:
    return any(_beside(hole, one) for one in house.openings)


def _beside(hole: Opening, door: Opening) -> bool:
    """Whether a door stands in the same wall within reach of its edge."""
    if door.kind is not OpeningKind.DOOR or (door.vault, door.side) != (hole.vault, hole.side):
        return False
    there = (hole.across, door.across) if hole.in_end else (hole.along, door.along)
    if None in there:
        return True
    apart = abs(there[0] - there[1]) - 0.5 * (hole.width + door.width)  # type: ignore[operator]
    return bool(apart < DOOR_BESIDE.value - 1e-9)
