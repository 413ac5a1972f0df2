"""Windows and doors: what they lose by the hour, and the sun they let in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Loss
from bermwright.adapt.winter.room.known import openings_of
from bermwright.adapt.winter.room.living import by_day
from bermwright.data.glasses import GLASSES
from bermwright.form.known import known
from bermwright.handbook.glazing import compare_glasses, window_year
from bermwright.house import OpeningKind
from bermwright.takeoff.light import site_horizon, windows_of

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.glazing import Balance, Window
    from bermwright.handbook.sun import SunPath
    from bermwright.handbook.weather import WeatherYear
    from bermwright.house import House, Opening, Vault
    from bermwright.takeoff.light import HouseWindow

    Array = NDArray[np.float64]

DOOR_U = 1.0 / (0.13 + 0.05 / 0.13 + 0.04)
"""A door of 50 mm softwood between the surfaces of ISO 6946 (W/m2K)."""
COMPARED = ("double", "double, coated", "triple", "triple, coated", "double, salvaged", "two single sashes")


@dataclass(frozen=True, slots=True, kw_only=True)
class Openings:
    """All openings of a vault through the year."""

    losses: tuple[Loss, ...]
    sun: Array
    """What comes in through all of them (W)."""
    assumed: tuple[str, ...]


def openings_year(house: House, vault: Vault, weather: WeatherYear, path: SunPath) -> Openings:
    """What the openings of a vault lose and let in."""
    losses: list[Loss] = []
    assumed: list[str] = []
    sun = np.zeros(HOURS)
    windows = {one.opening.name: one for one in windows_of(house)}
    for one in openings_of(house, vault):
        if one.kind is OpeningKind.FLUE:
            continue
        if not one.kind.glazed:
            losses.append(_door(one, weather, assumed))
            continue
        window = _told(windows[one.name], assumed)
        if not (one.shutter and known(house.heat, "heat").shutters):
            window = replace(window, shutter_u=None)
        found = window_year(window, weather, path, horizon=site_horizon(house))
        sun += found.gain
        losses.append(_window(house, one, window, weather))
    return Openings(losses=tuple(losses), sun=sun, assumed=tuple(assumed))


def _told(one: HouseWindow, assumed: list[str]) -> Window:
    """The window of the file, with what was assumed of it said."""
    assumed += [f"{one.opening.name[0].upper()}{one.opening.name[1:]}: {says}" for says in one.assumed]
    return known(one.window, "opening.panes")


def _window(house: House, one: Opening, window: Window, weather: WeatherYear) -> Loss:
    values, how = np.full(HOURS, window.u), f"{window.u:.2f} W/m²K · {one.area:.2f} m²"
    if window.shutter_u is not None:
        values = np.where(by_day(known(house.heat, "heat")) > 0.0, window.u, window.shutter_u)
        how += f", with its shutter closed at night {window.shutter_u:.2f} W/m²K"
    return Loss(name=one.name, conductance=values * one.area, behind=weather.temperature, how=how)


def _door(one: Opening, weather: WeatherYear, assumed: list[str]) -> Loss:
    u_value = one.u_value
    if u_value is None:
        u_value = DOOR_U
        assumed.append(
            f"{one.name[0].upper()}{one.name[1:]} counts as 50 mm of softwood, {DOOR_U:.2f} W/m²K "
            "(ISO 6946, from "
            "memory): its u_value is not given."
        )
    return Loss(
        name=one.name,
        conductance=np.full(HOURS, u_value * one.area),
        behind=weather.temperature,
        how=f"{u_value:.2f} W/m²K · {one.area:.2f} m²",
    )


def glasses_compared(
    house: House, vault: Vault, weather: WeatherYear
) -> tuple[str, tuple[tuple[Window, Balance], ...]] | None:
    """The largest window with other glass in the same hole, the best first; None where there is no window."""
    windows = [one for one in windows_of(house) if one.opening.vault == vault.name and one.window]
    if not windows:
        return None
    one = max(windows, key=lambda window: window.area)
    window = known(one.window, "opening.panes")
    glasses = [GLASSES[name] for name in COMPARED]
    return one.opening.name, compare_glasses(weather, glasses, window.plane, niche=window.niche)
