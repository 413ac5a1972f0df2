"""Soil: by lift and side, in the bank, loose and compacted; cover, ends and turf."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.base.ranges import Range
from bermwright.data.densities import GRAVITY
from bermwright.data.rates import BARROW, GRID_FOLD, SoilStates, soil_states
from bermwright.form import fill_area
from bermwright.form.solids.earthwork.heights import end_earth
from bermwright.handbook.earthmoving import bank_volume, loads, loose_volume
from bermwright.house.parts.support_words import Behind
from bermwright.stages.nouns import StageKind
from bermwright.stages.sequence import fill_levels
from bermwright.takeoff.lines import line, measured, number, unknown
from bermwright.takeoff.nouns import Group, LiftRow, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids.earthwork.heights import EndEarth
    from bermwright.house import Fill, House, Vault
    from bermwright.house.parts.holds import Geogrid

    Array = NDArray[np.float64]

ABOVE_ALL = 100.0
"""Further than any soil lies over or under the finished ground (m)."""
FLAT = 1e-6
"""Finished over natural ground that counts as nothing (m)."""

GRID_AREA = ", geogrid area"
"""How the row of a fill in steps of geogrid ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Earth:
    """Soil of one vault, compacted (m3), and its states."""

    sides: float
    cover: float
    ends: Mapping[str, EndEarth]
    """Before each end that the file gives a slope."""
    turf_over: float
    """Turf along the vault."""
    turf_surface: float
    """Its surface (m2)."""
    turf: float
    """Its thickness (m)."""
    states: SoilStates

    @property
    def compacted(self) -> float:
        """All fill without the turf."""
        return self.sides + self.cover + sum(end.fill for end in self.ends.values())

    @property
    def turf_volume(self) -> float:
        """All turf."""
        return self.turf_over + sum(end.turf for end in self.ends.values())

    @property
    def turf_area(self) -> float:
        """Surface of all turf (m2)."""
        if self.turf <= 0.0:
            return 0.0
        return self.turf_surface + sum(end.turf for end in self.ends.values()) / self.turf

    @property
    def bank(self) -> Range:
        """What to take from the ground for it."""
        return bank_range(self.compacted, self.states)

    @property
    def loose(self) -> Range:
        """The same in heaps and barrows."""
        return loose_range(self.compacted, self.states)


def earth_of(house: House, vault: Vault, form: VaultForm) -> Earth:
    """The soil of a vault."""
    fill = house.fill(vault)
    top = float(np.max(form.ground.finished.z)) + ABOVE_ALL
    bottom = float(min(np.min(form.ground.natural.z), np.min(form.soil_face.z))) - ABOVE_ALL
    sides = fill_area(form, bottom, form.crown_level, "both", layer="soil")
    cover = fill_area(form, form.crown_level, top, "both", layer="soil")
    turf = fill_area(form, bottom, top, "both", layer="turf")
    ends = end_earth(house, vault, form)
    return Earth(
        sides=sides * form.length,
        cover=cover * form.length,
        ends=ends,
        turf_over=turf * form.length,
        turf_surface=turf_length(form) * form.length if form.ground.turf > 0.0 else 0.0,
        turf=form.ground.turf,
        states=soil_states(_soil_name(fill)),
    )


def _soil_name(fill: Fill | None) -> str:
    return fill.soil if fill is not None and fill.soil is not None else ""


def bank_range(compacted: float, states: SoilStates) -> Range:
    """Volume in the bank from the least to the greatest shrinkage (m3)."""
    shares = states.compacted_over_bank
    return Range(
        float(bank_volume(compacted, compacted_over_bank=shares.high)),
        float(bank_volume(compacted, compacted_over_bank=shares.low)),
    )


def loose_range(compacted: float, states: SoilStates) -> Range:
    """Loose volume, each end with its own bulking (m3)."""
    bank = bank_range(compacted, states)
    return Range(
        float(loose_volume(bank.low, bulking=states.bulking.low)),
        float(loose_volume(bank.high, bulking=states.bulking.high)),
    )


def lift_rows(house: House, form: VaultForm, states: SoilStates) -> tuple[LiftRow, ...]:
    """The fill beside the vault, lift by lift; the levels are those of the stages."""
    levels = fill_levels(form, house.stages.lift)
    return tuple(_lift(form, states, low, high) for low, high in pairwise(levels))


def _lift(form: VaultForm, states: SoilStates, low: float, high: float) -> LiftRow:
    left = fill_area(form, low, high, "left", layer="soil") * form.length
    right = fill_area(form, low, high, "right", layer="soil") * form.length
    loose_left, loose_right = loose_range(left, states), loose_range(right, states)
    return LiftRow(
        below=low,
        above=high,
        left=left,
        right=right,
        left_loose=loose_left,
        right_loose=loose_right,
        left_loads=_loads(loose_left),
        right_loads=_loads(loose_right),
    )


def _loads(loose: Range) -> Range:
    low, high = (float(loads(end, capacity=BARROW.value)) for end in (loose.low, loose.high))
    return Range(low, high)


def turf_length(form: VaultForm) -> float:
    """Length of the finished surface, measured up and down its slopes, where it is not natural ground (m)."""
    ground = form.ground
    x = np.union1d(ground.finished.x, ground.natural.x)
    z = ground.finished.level(x)
    middle = 0.5 * (x[1:] + x[:-1])
    raised = ground.finished.level(middle) - ground.natural.level(middle) > FLAT
    return float(np.sum(np.hypot(np.diff(x), np.diff(z))[raised]))


def earth_rows(house: House, vault: Vault, form: VaultForm, earth: Earth) -> Iterator[Quantity]:
    """Fill, soil to dig and to wheel, mass, turf."""
    yield _fill(form, earth)
    yield _bank(earth)
    yield _loose(earth)
    yield _barrows(earth)
    yield _mass(house.fill(vault), earth)
    if form.ground.turf > 0.0:
        yield _turf(form, earth)
    for grid in house.geogrids:
        if grid.vault == vault.name:
            yield _geogrid(house, form, grid)


def grid_levels(low: float, high: float, spacing: float) -> tuple[float, ...]:
    """Levels of the layers of geogrid behind a face, each at the underside of its step (m)."""
    count = max(int(np.ceil((high - low) / spacing - 1e-9)), 1)
    return tuple(low + number * spacing for number in range(count))


def grid_faces(house: House, form: VaultForm, grid: Geogrid) -> tuple[tuple[float, float, float], ...]:
    """Underside, top and length along each face that a fill in steps stands behind (m), where it is known."""
    if grid.behind in {Behind.FRONT, Behind.BACK}:
        tops = (
            one.soil_to for one in house.ends if one.vault == grid.vault and one.at.value == grid.behind.value
        )
        low = 0.0 if grid.bottom is None else grid.bottom
        return tuple((low, top, form.span) for top in tops if top is not None)
    sides = ("left", "right") if grid.behind is Behind.SIDES else (grid.behind.value,)
    found = []
    for side in sides:
        wall = next(
            (one for one in house.walls if one.vault == grid.vault and one.side in {"both", side}), None
        )
        under = grid.bottom if grid.bottom is not None or wall is None else wall.bottom
        if wall is not None and under is not None:
            found.append((under, form.springing if wall.top is None else wall.top, form.length))
    return tuple(found)


def _geogrid(house: House, form: VaultForm, grid: Geogrid) -> Quantity:
    name, faces = f"{grid.name}{GRID_AREA}", grid_faces(house, form, grid)
    if grid.spacing is None or grid.length is None or not faces:
        note = "not given: spacing and length of the layers, or the upright face that they stand behind"
        return unknown(name, Group.EARTH, "m2", note=note, stage=StageKind.FILL)
    wide = grid.length + grid.spacing + GRID_FOLD.value
    metres = [len(grid_levels(low, high, grid.spacing)) * along for low, high, along in faces]
    layer = line(
        "A layer from its far end to the face, up its step and laid back",
        "b",
        "l + s + f",
        f"{number(grid.length, 'm', 2)} + {number(grid.spacing, 'm', 2)} + {number(GRID_FOLD.value, 'm', 2)}",
        result=Shown(wide, "m", 2),
        cite=GRID_FOLD.cite,
    )
    area = line(
        "Running metres of all layers along their faces, times that",
        "A",
        "Σ n·L·b",
        f"{number(sum(metres), 'm', 1)}·{number(wide, 'm', 2)}",
        result=Shown(sum(metres) * wide, "m2", 1),
    )
    return measured(
        name,
        Group.EARTH,
        Shown(sum(metres) * wide, "m2", 1),
        working=(layer, area),
        stage=StageKind.FILL,
        note="laps left out",
    )


def _fill(form: VaultForm, earth: Earth) -> Quantity:
    steps = [
        _section("Beside the vault, from its foot to its crown", "V_s", earth.sides, form),
        _section("Over the crown, without the turf", "V_c", earth.cover, form),
    ]
    steps += [
        line(
            f"Before the {side} wall under its slope, without turf and the way kept free",
            f"V_{side}",
            "Σ h·Δx·Δy",
            "height of the finished over the natural ground, cell by cell",
            result=Shown(end.fill, "m3", 1),
        )
        for side, end in earth.ends.items()
    ]
    steps.append(
        line(
            "All fill, compacted",
            "V",
            "Σ V",
            " + ".join(number(step.result.value, "", 1) for step in steps),
            result=Shown(earth.compacted, "m3", 1),
        )
    )
    missing = [side for side in ("front", "back") if side not in earth.ends]
    return measured(
        "fill, compacted",
        Group.EARTH,
        Shown(earth.compacted, "m3", 1),
        working=tuple(steps),
        stage=StageKind.FILL,
        note="above the natural ground only: what is dug out beside the walls and filled in again is not "
        "counted; openings not deducted" + "".join(f"; no soil before the {side} wall" for side in missing),
    )


def _section(says: str, symbol: str, volume: float, form: VaultForm) -> Step:
    return line(
        says,
        symbol,
        "A·L",
        f"{number(volume / form.length, 'm2', 2)}·{number(form.length, 'm', 2)}",
        result=Shown(volume, "m3", 1),
    )


def _bank(earth: Earth) -> Quantity:
    shares, bank = earth.states.compacted_over_bank, earth.bank
    step = line(
        f"As {earth.states.name}: compacted over bank volume {shares.low:g} to {shares.high:g}",
        "V_b",
        "V/f",
        f"{number(earth.compacted, '', 1)}/{shares.low:g}",
        result=Shown(bank.high, "m3", 1),
        cite=earth.states.cites[0],
    )
    return measured(
        "fill, in the bank",
        Group.EARTH,
        Shown(bank.high, "m3", 1),
        low=bank.low,
        working=(step,),
        stage=StageKind.FILL,
        note="what to dig for it, where the fill comes from",
    )


def _loose(earth: Earth) -> Quantity:
    bulking, loose = earth.states.bulking, earth.loose
    step = line(
        f"As {earth.states.name}: digging swells it by {number(bulking.low, '%')} "
        f"to {number(bulking.high, '%')}",
        "V_l",
        "V_b·(1 + b)",
        f"{number(earth.bank.high, '', 1)}·(1 + {number(bulking.high, '', 2)})",
        result=Shown(loose.high, "m3", 1),
        cite=earth.states.cites[1],
    )
    return measured(
        "fill, loose",
        Group.EARTH,
        Shown(loose.high, "m3", 1),
        low=loose.low,
        working=(step,),
        stage=StageKind.FILL,
        note="heaps, barrows and lorries hold loose soil",
    )


def _barrows(earth: Earth) -> Quantity:
    trips = _loads(earth.loose)
    step = line(
        f"Barrows of {number(BARROW.value, 'l')}",
        "n",
        "⌈V_l/c⌉",
        f"⌈{number(earth.loose.high, 'm3', 1)}/{number(BARROW.value, 'm3', 3)}⌉",
        result=Shown(trips.high, "", 0),
        cite=BARROW.cite,
    )
    return measured(
        "barrow loads",
        Group.EARTH,
        Shown(trips.high, "", 0),
        low=trips.low,
        working=(step,),
        stage=StageKind.FILL,
    )


def _mass(fill: Fill | None, earth: Earth) -> Quantity:
    if fill is None or fill.unit_weight is None:
        note = "not given: the unit weight of the fill (vault.fill.unit_weight)"
        return unknown("fill, mass", Group.EARTH, "t", note=note, stage=StageKind.FILL)
    weight = fill.unit_weight
    heavy = earth.compacted * weight.high / GRAVITY
    step = line(
        "Mass of the fill at its unit weight in the file",
        "m",
        "V·γ/g",
        f"{number(earth.compacted, 'm3', 1)}·{number(weight.high, 'kN/m3', 1)}/{number(GRAVITY, 'm/s2', 2)}",
        result=Shown(heavy, "t", 0),
    )
    return measured(
        "fill, mass",
        Group.EARTH,
        Shown(heavy, "t", 0),
        low=earth.compacted * weight.low / GRAVITY,
        working=(step,),
        stage=StageKind.FILL,
    )


def _turf(form: VaultForm, earth: Earth) -> Quantity:
    steps = [
        line(
            "Finished surface up and down its slopes, times length of the vault",
            "A",
            "l·L",
            f"{number(earth.turf_surface / form.length, 'm', 2)}·{number(form.length, 'm', 2)}",
            result=Shown(earth.turf_surface, "m2", 1),
        )
    ]
    steps += [
        line(
            f"Before the {side} wall, {number(earth.turf, 'mm')} thick",
            f"A_{side}",
            "V/t",
            f"{number(end.turf, 'm3', 2)}/{number(earth.turf, 'm', 3)}",
            result=Shown(end.turf / earth.turf, "m2", 1),
        )
        for side, end in earth.ends.items()
    ]
    steps.append(
        line(
            f"Its volume, {number(earth.turf, 'mm')} thick",
            "V",
            "A_turf·L + ΣV",
            f"{number(earth.turf_over / form.length, 'm2', 2)}·{number(form.length, 'm', 2)} + "
            f"{number(earth.turf_volume - earth.turf_over, 'm3', 1)}",
            result=Shown(earth.turf_volume, "m3", 1),
        )
    )
    return measured(
        "turf", Group.EARTH, Shown(earth.turf_area, "m2", 1), working=tuple(steps), stage=StageKind.TURF
    )
