"""The winter of one vault: from house and weather to temperatures and wood.

`winter_of` first makes the room (`room_of`), then runs its years (`running.py`); what is said of them
stands in `telling/`.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Balance, Course, Gain, Room, Solid
from bermwright.adapt.winter.room.air import AIR_CAPACITY, PAST_THE_TUBE, fresh_air
from bermwright.adapt.winter.room.ends import end_solids, profile_of
from bermwright.adapt.winter.room.fire import Fire, fire_of
from bermwright.adapt.winter.room.ground import ground_of, ground_solid, surface_of
from bermwright.adapt.winter.room.known import WinterUnknownError, missing_for_winter, openings_of
from bermwright.adapt.winter.room.living import by_day, living_gains, set_point
from bermwright.adapt.winter.room.windows import glasses_compared, openings_year
from bermwright.adapt.winter.running import balance, fired, first_winters, left_alone, settled
from bermwright.form import vault_form
from bermwright.form.known import known
from bermwright.handbook.glazing import shuttered_u
from bermwright.handbook.groundheat import FrostCourse, freeze_year
from bermwright.handbook.room import Layer, comfort_band, part_states, running_mean, wall_body
from bermwright.house import OpeningKind
from bermwright.takeoff.light import SHUTTER

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from bermwright.adapt.winter.room.ground import Ground
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.glazing import Balance as WindowBalance
    from bermwright.handbook.glazing import Window
    from bermwright.handbook.room import Solids
    from bermwright.handbook.weather import WeatherYear
    from bermwright.house import Heat, House, Vault

    Array = NDArray[np.float64]

WITHOUT_LIMIT = 1e5
"""Power of a heater that always suffices (W)."""
LIGHT_THINGS = 20e3
"""Heat capacity of furniture and linings for a square metre of floor (J/m2K)."""
OPEN_ABOVE, OPEN_CHANGES = 25.0, 5.0
"""Room temperature over which windows are opened (°C), and the air changes that gives (1/h)."""
MASS_FILM = 1.0 / 0.13
FINENESS = 0.6
"""Of the section's triangles: half of them are dear and change the ground's heat by half a percent."""
AIR_OF_SUN = 0.1
"""Share of the sun that warms the air at once."""
NORTH_BEGINS, SOUTH_BEGINS = 243 * 24, 59 * 24
"""1 September and 1 March: from then on a new house is heated, and nothing in the ground is frozen."""
YEARS = 3
COOL = 5.0
MISSED = 0.5
"""A room that much colder than wanted is cold (K)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alone:
    """The house left by everybody in the coldest week."""

    hour: int
    """Hour of the year at which the fire goes out."""
    room: Array

    def stays_above(self, limit: float) -> int | None:
        """Hours until the room is colder than a limit; None: in the whole year it never is."""
        below = np.flatnonzero(self.room < limit)
        return int(below[0]) if below.size else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Comfort:
    """The band in which people are content, and how long the room is outside of it."""

    low: Array
    high: Array
    hot_hours: int
    cold_days: int
    """Days whose mean stays half a kelvin or more under what is wanted."""
    hottest: float
    coldest: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WinterYear:
    """Everything that is known of one vault's year."""

    house: House
    vault: Vault
    form: VaultForm
    weather: WeatherYear
    ground: Ground
    room: Room
    bodies: Solids
    ideal: Course
    """Kept exactly as warm as is wanted."""
    stove: Course | None
    """With the stove of the file, by batches."""
    fire: Fire | None
    free: Course
    """Lived in, but never heated."""
    empty: Course
    """Nobody in it, no fire, no sun: half built or boarded up."""
    alone: Alone
    winters: tuple[float, ...]
    """Heat of the first years of a new house (J)."""
    balance: Balance
    comfort: Comfort
    states: Array
    """State of ground and shell at the end of every hour of the year that is shown."""
    watch: Mapping[str, Array]
    """Temperature of what is watched, hour by hour (°C)."""
    empty_watch: Mapping[str, Array]
    frost: FrostCourse
    """The same year with the water in the soil freezing and thawing, from the end of summer on."""
    saved: Mapping[str, float]
    """Heat that each change of habit would save in a year (J)."""
    glasses: tuple[str, tuple[tuple[Window, WindowBalance], ...]] | None
    """The largest window with other glass, the best first."""
    assumed: tuple[str, ...]

    @property
    def shown(self) -> Course:
        """The year as it will be: with the stove where there is one."""
        return self.ideal if self.stove is None else self.stove

    @property
    def heat(self) -> float:
        """What a year takes to be as warm as is wanted (J), by the stove where it can give it."""
        return 3600.0 * float(max(self.shown.heat.sum(), self.ideal.heat.sum()))

    @property
    def given(self) -> float:
        """What the stove of the file gives of it (J)."""
        return 3600.0 * float(self.shown.heat.sum())

    @property
    def window_names(self) -> tuple[str, ...]:
        """Openings that let the sun in."""
        return tuple(one.name for one in openings_of(self.house, self.vault) if one.kind.glazed)

    @property
    def opening_areas(self) -> Mapping[str, float]:
        """Area of every opening (m2)."""
        return {one.name: one.area for one in openings_of(self.house, self.vault)}

    @property
    def end_parts(self) -> tuple[tuple[str, float, float], ...]:
        """Name, area (m2) and whole resistance (m2K/W) of each part of the end walls."""
        return tuple((one.name, one.area, one.resistance) for one in self.room.solids if one.resistance > 0.0)

    @property
    def floor_area(self) -> float:
        """Of the room (m2)."""
        return self.ground.heat.lengths["floor"] * self.vault.length

    @property
    def volume(self) -> float:
        """Of the room (m3)."""
        return self.ground.heat.room_area * self.vault.length


def winter_of(
    house: House,
    vault: Vault,
    weather: WeatherYear,
    *,
    fineness: float = FINENESS,
    share: Callable[..., Any] = map,
    progress: Callable[[str], None] = lambda _step: None,
) -> WinterYear:
    """The year of one vault. Raises `WinterUnknownError` where the file says too little."""
    if missing := missing_for_winter(house, vault):
        raise WinterUnknownError(vault.name, missing)
    progress(f"{vault.name}: the ground around it")
    form = vault_form(house, vault)
    ground = ground_of(house, vault, form, fineness=fineness, share=share)
    progress(f"{vault.name}: the year by the hour")
    room = room_of(house, vault, weather, form, ground)
    bodies = room.bodies
    ideal = settled(bodies, room.air())
    fire = fire_of(house, vault)
    stove = None
    if fire is not None and fire.burning is not None and known(house.heat, "heat").warmed:
        stove = fired(bodies, room.air(), ideal, fire.burning)
    shown = ideal if stove is None else stove
    progress(f"{vault.name}: frost in the ground; empty, left alone, first winters")
    states = part_states(bodies, 0, shown.start, shown.room)
    frost, rest = share(
        lambda job: job(),
        (
            lambda: frozen_year(ground, room, (shown.room, states), begins(weather)),
            lambda: _other_years((house, vault, weather), room, bodies, ideal),
        ),
    )
    return WinterYear(
        house=house,
        vault=vault,
        form=form,
        weather=weather,
        ground=ground,
        room=room,
        bodies=bodies,
        ideal=ideal,
        stove=stove,
        fire=fire,
        free=rest.free,
        empty=rest.empty,
        alone=rest.alone,
        winters=rest.winters,
        balance=balance(room, bodies, shown),
        comfort=comfort_of(weather, shown.room, room.set_point),
        states=states,
        watch=ground.watch(states),
        empty_watch=ground.watch(rest.empty_states),
        frost=frost,
        saved=rest.saved,
        glasses=rest.glasses,
        assumed=(*ground.heat.assumed, *room.assumed, *ASSUMED, *_another_sun(house, weather), *_lit(fire)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Rest:
    """The years that nobody lives through as planned."""

    free: Course
    empty: Course
    empty_states: Array
    alone: Alone
    winters: tuple[float, ...]
    saved: Mapping[str, float]
    glasses: tuple[str, tuple[tuple[Window, WindowBalance], ...]] | None


def _other_years(place: tuple[House, Vault, WeatherYear], room: Room, bodies: Solids, ideal: Course) -> _Rest:
    house, vault, weather = place
    boarded = room.without("people", "cooking", "electric", "animals", "sun")
    dark = bodies_without_sun(boarded)
    empty = settled(dark, boarded.air(heated=False))
    hour = coldest_hour(weather)
    return _Rest(
        free=settled(bodies, room.air(heated=False)),
        empty=empty,
        empty_states=part_states(dark, 0, empty.start, empty.room),
        alone=Alone(hour=hour, room=left_alone(room, bodies, ideal, hour)),
        winters=_winters(room, bodies, empty, begins(weather)),
        saved=savings(house, vault, room, bodies, ideal),
        glasses=glasses_compared(house, vault, weather),
    )


def frozen_year(ground: Ground, room: Room, run: tuple[Array, Array], first: int) -> FrostCourse:
    """The section with its water freezing and thawing, from the end of summer on.

    `run`: temperature of the room, states of the ground.
    """
    temperature, states = run
    solid = room.solids[0]

    def later(row: Array) -> Array:
        return np.roll(row, -first)

    given = {
        name: later(solid.known[:, at])
        for at, name in enumerate(solid.body.inputs[1:])
        if not name.startswith("sun")
    }
    return freeze_year(
        ground.model.full,
        ground.heat.section,
        {"room": later(temperature), **given},
        start=ground.field(states[first - 1]),
    )


SAME_SUN = math.radians(1.0)
"""Within a degree of latitude the sun of the weather is taken for that of the site without a word (rad)."""


def _lit(fire: Fire | None) -> tuple[str, ...]:
    """What is assumed of a fire, where there is one."""
    return () if fire is None else fire.assumed


def _another_sun(house: House, weather: WeatherYear) -> tuple[str, ...]:
    """What is said where the weather comes from farther north or south than the site."""
    here = house.site.latitude
    if here is None or abs(here - weather.latitude) <= SAME_SUN:
        return ()
    there = math.degrees(weather.latitude)
    return (f"Sun and length of day are those of {there:.1f}° of latitude, where the weather comes from.",)


ASSUMED = (
    (
        "The ground's surface has the temperature of the air over it, under snow that of its "
        "foot: sun on turf "
        "is not counted (ISO 13370 does so too)."
    ),
    (
        f"Furniture and linings hold {LIGHT_THINGS / 1e3:.0f} kJ/K for a square metre of floor "
        "(common practice)."
    ),
    (
        f"Of the sun that comes in, half warms the floor, {1.0 - 0.5 - AIR_OF_SUN:.0%} the walls and "
        f"{AIR_OF_SUN:.0%} the air at once (common practice)."
    ),
    (
        f"Over {OPEN_ABOVE:.0f} °C windows are opened where it is cooler outside; "
        f"{OPEN_CHANGES:.0f} air changes "
        "an hour are counted (common practice)."
    ),
    (
        f"While it is milder outdoors than in an air tube, up to {PAST_THE_TUBE:.0f} °C, air comes in "
        "past the tube."
    ),
    "By day half of the people are in; everybody sleeps at home.",
    (
        "Room and wood are computed with soil that does not freeze; pictures and depths of frost "
        "with the heat of "
        "its water, from the same temperatures of room and surface."
    ),
)


def room_of(house: House, vault: Vault, weather: WeatherYear, form: VaultForm, ground: Ground) -> Room:
    """The room with everything that warms and cools it."""
    heat = known(house.heat, "heat")
    wanted = set_point(heat)
    path = weather.path()
    openings = openings_year(house, vault, weather, path)
    sun = openings.sun
    surface = surface_of(ground, weather.temperature, weather.snow_depth, np.maximum(wanted, COOL))
    profile = profile_of(form, known(known(vault.feet, "vault.feet").wall_width, "vault.feet.wall_width"))
    soil = known(ground.heat.section.regions[0].material, "site.soil")
    solids = [
        ground_solid(ground, surface, sun),
        *end_solids(house, vault, profile, soil, weather.temperature),
        *_masses(heat),
    ]
    volume = ground.heat.room_area * vault.length
    floor = ground.heat.lengths["floor"] * vault.length
    return Room(
        capacity=volume * AIR_CAPACITY + floor * LIGHT_THINGS,
        losses=(*openings.losses, fresh_air(house, weather, soil)),
        gains=(
            *living_gains(house),
            Gain(name="sun", heat=sun, how="through the glass, by the hour", to_air=AIR_OF_SUN),
        ),
        solids=tuple(solids),
        outdoors=weather.temperature,
        set_point=wanted,
        power=WITHOUT_LIMIT,
        assumed=openings.assumed,
        open_above=OPEN_ABOVE if heat.opens_windows else 1e9,
        open_loss=AIR_CAPACITY * volume * OPEN_CHANGES / 3600.0,
    )


def _masses(heat: Heat) -> list[Solid]:
    return [
        Solid(
            name=one.name,
            body=wall_body(
                (
                    Layer(
                        thickness=one.thickness,
                        conductivity=one.conductivity,
                        heat_capacity=one.density * one.heat_capacity,
                    ),
                ),
                one.area,
                inside_film=MASS_FILM,
                outside_film=None,
            ),
            known=np.zeros((HOURS, 1)),
            how=f"{one.area:.1f} m² of {one.thickness * 1e3:.0f} mm",
        )
        for one in heat.masses
    ]


def bodies_without_sun(room: Room) -> Solids:
    """The room's solids when its windows are boarded up."""
    dark = []
    for one in room.solids:
        known_inputs = one.known.copy()
        for at, name in enumerate(one.body.inputs[1:]):
            if name.startswith("sun"):
                known_inputs[:, at] = 0.0
        dark.append(replace(one, known=known_inputs))
    return replace(room, solids=tuple(dark)).bodies


def coldest_hour(weather: WeatherYear) -> int:
    """First hour of the coldest week."""
    week = 7 * 24
    twice = np.concatenate([weather.temperature, weather.temperature[:week]])
    means = np.convolve(twice, np.ones(week) / week, mode="valid")[:HOURS]
    return int(np.argmin(means)) // 24 * 24


def begins(weather: WeatherYear) -> int:
    """Hour at which summer is over."""
    return NORTH_BEGINS if weather.latitude >= 0.0 else SOUTH_BEGINS


def _winters(room: Room, bodies: Solids, empty: Course, first: int) -> tuple[float, ...]:
    return tuple(float(one.heat.sum() * 3600.0) for one in first_winters(room, bodies, empty, first, YEARS))


def comfort_of(weather: WeatherYear, room: Array, wanted: Array) -> Comfort:
    """How long the room is outside of the band in which people are content."""
    days = weather.temperature.reshape(-1, 24).mean(axis=1)
    low, high = (np.repeat(row, 24) for row in comfort_band(running_mean(days)))
    # Who wants it cooler is content with that.
    low = np.minimum(low, wanted - MISSED)
    short = (wanted - room).reshape(-1, 24).mean(axis=1)
    return Comfort(
        low=low,
        high=high,
        hot_hours=int((room > high).sum()),
        cold_days=int((short >= MISSED).sum()),
        hottest=float(room.max()),
        coldest=float(room.min()),
    )


def savings(house: House, vault: Vault, room: Room, bodies: Solids, ideal: Course) -> Mapping[str, float]:
    """Heat that each change would save in a year (J)."""
    whole = float(ideal.heat.sum())
    if whole <= 0.0:
        return {}

    def saves(changed: Room, *, warmer: float = 0.0) -> float:
        return 3600.0 * (whole - float(settled(bodies, changed.air(warmer=warmer)).heat.sum()))

    night = by_day(known(house.heat, "heat")) == 0.0
    found = {
        "one degree cooler": saves(room, warmer=-1.0),
        "half of the fresh air's warmth kept": saves(room.losing("fresh air", 0.5)),
    }
    openings = openings_of(house, vault)
    bare = [one for one in openings if one.kind.glazed and not one.shutter]
    shuttered = room
    for one in bare:
        now = next(loss.conductance for loss in room.losses if loss.name == one.name)
        closed = one.area * shuttered_u(float(now[0]) / one.area, SHUTTER)
        shuttered = shuttered.losing(one.name, np.where(night, closed / now, 1.0))
    if bare:
        found["a shutter on every window at night"] = saves(shuttered)
    doors = [one for one in openings if one.kind is OpeningKind.DOOR]
    better = room
    for one in doors:
        better = better.losing(one.name, 0.5)
    if doors:
        found["doors that lose half"] = saves(better)
    return found
