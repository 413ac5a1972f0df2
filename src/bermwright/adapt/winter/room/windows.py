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
from bermwright.handbook.glazing import compare_glasses, window_of, window_year
from bermwright.handbook.sun import Horizon, Niche, Plane
from bermwright.house import OpeningKind, OpeningSide

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.glazing import Balance, Window
    from bermwright.handbook.sun import SunPath
    from bermwright.handbook.weather import WeatherYear
    from bermwright.house import House, Opening, Vault

    Array = NDArray[np.float64]

TURNED = {
    OpeningSide.FRONT: np.pi,
    OpeningSide.BACK: 0.0,
    OpeningSide.LEFT: -0.5 * np.pi,
    OpeningSide.RIGHT: 0.5 * np.pi,
    OpeningSide.CROWN: 0.0,
}
"""Outward direction of each side against the way one looks when walking in (rad)."""
SHUTTER = 0.25
"""What a shutter of boards resists, closed as tightly as usual (m2K/W)."""
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
    for one in openings_of(house, vault):
        if one.kind is OpeningKind.FLUE:
            continue
        if not one.kind.glazed:
            losses.append(_door(one, weather, assumed))
            continue
        window = window_for(vault, one, shuttered=bool(one.shutter) and known(house.heat, "heat").shutters)
        found = window_year(window, weather, path, horizon=_horizon(house))
        sun += found.gain
        losses.append(_window(house, one, window, weather))
    return Openings(losses=tuple(losses), sun=sun, assumed=tuple(assumed))


def window_for(vault: Vault, one: Opening, *, shuttered: bool = False) -> Window:
    """A window of the file: its glass by name, or with the values that the file gives."""
    glass = GLASSES[_glass_name(one)]
    niche = Niche(width=one.width, height=one.height, overhang=one.overhang or 0.0)
    window = window_of(glass, plane_of(vault, one), niche, shutter=SHUTTER if shuttered else 0.0)
    if one.frame_share is not None:
        window = replace(window, glass_share=1.0 - one.frame_share)
    if one.u_value is not None:
        closed = None if window.shutter_u is None else 1.0 / (1.0 / one.u_value + SHUTTER)
        window = replace(window, u=one.u_value, shutter_u=closed)
    return window if one.g_value is None else replace(window, g=one.g_value)


def _glass_name(one: Opening) -> str:
    """Its glazing in the table; where only U and g are given, two panes stand for the way they throw back."""
    if one.panes is None:
        return "double, coated"
    return f"{one.panes.value}, salvaged" if one.salvaged else one.panes.value


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


def _horizon(house: House) -> Horizon | None:
    points = sorted((point.direction % (2.0 * np.pi), point.height) for point in house.site.horizon)
    if not points:
        return None
    return Horizon(directions=tuple(p[0] for p in points), heights=tuple(p[1] for p in points))


def plane_of(vault: Vault, one: Opening) -> Plane:
    """The plane of an opening's glass: upright in a wall, lying flat in the crown."""
    axis = known(vault.axis, "vault.axis")
    tilt = 0.0 if one.side is OpeningSide.CROWN else 0.5 * np.pi
    return Plane(tilt=tilt, azimuth=float((axis + TURNED[one.side]) % (2.0 * np.pi)))


def glasses_compared(
    house: House, vault: Vault, weather: WeatherYear
) -> tuple[str, tuple[tuple[Window, Balance], ...]] | None:
    """The largest window with other glass in the same hole, the best first; None where there is no window."""
    windows = [one for one in openings_of(house, vault) if one.kind.glazed]
    if not windows:
        return None
    one = max(windows, key=lambda window: window.area)
    niche = Niche(width=one.width, height=one.height, overhang=one.overhang or 0.0)
    glasses = [GLASSES[name] for name in COMPARED]
    return one.name, compare_glasses(weather, glasses, plane_of(vault, one), niche=niche)
