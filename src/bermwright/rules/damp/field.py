"""How warm the coldest places of the rooms are, out of the section in its ground, solved once for a house."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form import vault_form
from bermwright.form.heat import heat_section
from bermwright.form.heat.ground import soil_material
from bermwright.handbook.conduction import damping_depth, frost_line, undisturbed_ground
from bermwright.handbook.groundheat import assemble, make_mesh, steady
from bermwright.handbook.weather import freezing_index_simple

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from bermwright.data.climates import MonthlyNormals
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault
    from bermwright.rules.damp.living import Living

    Array = NDArray[np.float64]

FINENESS = 0.3
"""Half a second's worth of triangles; against ones six times finer the factors move by 0.005."""
WHITE = 15.0
"""Days with snow from which a month counts as white."""
SNOW_SHARE = 0.5
"""How much of the cold goes through the snow of a white month (common practice: 0.3 to 0.5)."""
CROWN_SHARE = 0.1
"""Share of the span to either side of the middle that is called the crown."""
MIDDLES = np.array([15.5, 45.1, 74.6, 105.1, 135.6, 166.1, 196.6, 227.6, 258.1, 288.6, 319.1, 349.6])
"""Day of the year in the middle of each month."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WarmPlaces:
    """How warm the watched places stay when the room is 1 K over everything outside."""

    factors: Mapping[str, float]
    """By the name of the place, between 0 (outdoors) and 1 (room)."""
    assumed: tuple[str, ...]
    """Sentences on what was taken for granted."""
    depths: Mapping[str, float]
    """How deep each place lies under the finished ground over or beside it (m)."""
    diffusivity: float
    """Of the fill (m2/s)."""


def ground_months(climate: MonthlyNormals, depth: float, diffusivity: float) -> Array:
    """(12,) temperature of open ground at a depth, with its snow, and not frozen below the frost line (°C).

    Snow keeps half of the cold from the ground in months that are white for half of their days. A wave
    without freezing goes too deep: below the frost line the ground holds at least what lies between zero
    and its mean.
    """
    air = np.array(climate.mean)
    white = np.array(climate.snow_days or (0.0,) * 12) > WHITE
    surface = np.where(white & (air < 0.0), SNOW_SHARE * air, air)
    mean, swing = float(surface.mean()), 0.5 * float(surface.max() - surface.min())
    wave = undisturbed_ground(
        depth,
        MIDDLES,
        mean=mean,
        swing=swing,
        coldest_day=float(MIDDLES[int(np.argmin(surface))]),
        diffusivity=diffusivity,
    )
    if mean <= 0.0:
        return np.asarray(wave)
    line = float(frost_line(freezing_index_simple(surface), mean))
    held = mean * (1.0 - math.exp(-max(0.0, depth - line) / float(damping_depth(diffusivity))))
    return np.asarray(np.maximum(wave, held) if depth > line else wave)


@lru_cache(maxsize=8)
def warm_places(house: House, vault: Vault) -> WarmPlaces:
    """The steady section of a vault; raises where something that it needs is not said."""
    form = vault_form(house, vault)
    heat = heat_section(house, vault, form, fineness=FINENESS)
    mesh = make_mesh(heat.section)
    still = steady(assemble(mesh, heat.section), {"room": 1.0, "roof": 0.0, "field": 0.0, "deep": 0.0})
    factors = {
        name: float(still.temperature[int(np.argmin(np.hypot(*(mesh.points - np.array(spot)).T)))])
        for name, spot in heat.section.watch.items()
    }
    soil = soil_material(house.fill(vault), "the fill", [])
    return WarmPlaces(
        factors=factors,
        assumed=heat.assumed,
        depths={name: _depth(form, vault, spot) for name, spot in heat.section.watch.items()},
        diffusivity=soil.conductivity / soil.capacity,
    )


def _depth(form: VaultForm, vault: Vault, spot: tuple[float, float]) -> float:
    """From the finished ground down to a place: over it at the crown, beside the wall at its foot."""
    wall = vault.feet.wall_width if vault.feet is not None and vault.feet.wall_width is not None else 0.0
    beside = 0.5 * vault.span + wall
    x, z = spot
    over = abs(x) < CROWN_SHARE * vault.span and z > form.springing
    level = form.ground.finished.level(np.array([x] if over else [-beside, beside]))
    face = form.crown_level if over else z
    return max(0.0, float(np.min(level)) - face)


def outer_temperature(living: Living, places: WarmPlaces, place: str) -> Array:
    """(12,) what a place feels outside: the air, or the ground at its depth, whichever is colder.

    A month is taken as standing still. In winter the air is colder than the ground, which errs towards
    cold; in summer the ground lags behind, and dew forms on cool floors then.
    """
    ground = ground_months(living.climate, places.depths[place], places.diffusivity)
    return np.asarray(np.minimum(living.outside, ground))


def place_temperature(living: Living, places: WarmPlaces, place: str, factor: float) -> Array:
    """(12,) temperature of a place with a factor (°C)."""
    outer = outer_temperature(living, places, place)
    return np.asarray(outer + factor * (living.inside - outer))
