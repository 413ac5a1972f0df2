"""Vapour through layers: resistance, the steady profile, and where it sheds water."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.damp.vapour import COLDEST, HOTTEST, SEA_LEVEL, ZERO, saturation_pressure

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

STILL_AIR = 2e-10
"""Vapour permeability of still air in calculations (kg/m s Pa)."""
MOST_AIR = 1e5
"""m: what resists more lets nothing through that matters, and stands as this."""
THICKEST_STEP = 0.25
"""m2K/W: thicker layers are cut so that damp inside them is found too."""


def air_thickness(thickness: ArrayLike, factor: ArrayLike) -> Array:
    """Thickness of still air that resists vapour as much as a layer.

    s_d = μ·d, at most 100 000 m

    Parameters
    ----------
    thickness : float or array
        Of the layer, d [m], from 0.
    factor : float or array
        Vapour resistance factor, μ [-], from 1; infinite for metal and glass.

    Returns
    -------
    float or array
        Equivalent thickness of air [m].

    References
    ----------
    [ISO13788] : definition of s_d.

    Examples
    --------
    >>> round(float(air_thickness(0.2, factor=100.0)))
    20
    """
    within("thickness", thickness, 0.0, unit="m")
    within("vapour resistance factor", factor, 1.0)
    return np.asarray(np.minimum(np.asarray(thickness, dtype=float) * factor, MOST_AIR))


def air_permeability(temperature: ArrayLike, air: ArrayLike = SEA_LEVEL) -> Array:
    """How readily vapour goes through still air.

    δ = 2.0e-7·T^0.81/P

    Parameters
    ----------
    temperature : float or array
        T [°C], from -80 to 90.
    air : float or array
        Pressure of the air, P [Pa], from 30 000 to 110 000.

    Returns
    -------
    float or array
        Permeability [kg/m s Pa]; 2.0e-10 is taken in calculations.

    References
    ----------
    [HUSAGERD] : ch. 3, after DIN 52615.

    Examples
    --------
    >>> round(float(air_permeability(0.0)), 13)
    1.857e-10
    """
    within("temperature", temperature, COLDEST, HOTTEST, unit="°C")
    within("pressure of the air", air, 30_000.0, 110_000.0, unit="Pa")
    return np.asarray(2.0e-7 * (np.asarray(temperature) + ZERO) ** 0.81 / np.asarray(air, dtype=float))


def outer_film(wind: ArrayLike) -> Array:
    """Thickness of still air that the film at an outer face is worth.

    s_d = 1/(67 + 90·v)

    Parameters
    ----------
    wind : float or array
        v [m/s], from 0.

    Returns
    -------
    float or array
        Equivalent thickness of air [m].

    References
    ----------
    [HUSAGERD] : ch. 3, table 3.3.

    Examples
    --------
    >>> round(float(outer_film(5.0)), 6)
    0.001934
    """
    within("wind", wind, 0.0, unit="m/s")
    return np.asarray(1.0 / (67.0 + 90.0 * np.asarray(wind, dtype=float)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """Vapour at the faces between layers, from the room to the outdoors."""

    saturation: Array
    """(n + 1,) most the air there holds (Pa); both ends are the faces."""
    pressure: Array
    """(n + 1,) what is there (Pa)."""
    rate: Array
    """(n + 1,) water that gathers (+) or leaves (−) there (kg/m2 s)."""

    @property
    def wets(self) -> bool:
        """Whether water gathers anywhere."""
        return bool(np.any(self.rate > 0.0))


def vapour_profile(
    air_layers: ArrayLike,
    temperatures: ArrayLike,
    *,
    inside: float,
    outside: float,
    wet: Sequence[int] = (),
) -> Profile:
    """Vapour through layers in a month that stands still.

    p is the tightest string under p_sat from p_i to p_e, pinned to p_sat where water lies; g = δ·Δ(dp/ds)

    Parameters
    ----------
    air_layers : array
        (n,) equivalent thickness of air of each layer, s_d [m], over 0, from the inside out.
    temperatures : array
        (n + 1,) of the faces between them [°C], both outer faces included, from -80 to 90.
    inside : float
        Vapour pressure of the room, p_i [Pa], from 0.
    outside : float
        Vapour pressure outdoors, p_e [Pa], from 0.
    wet : sequence of int
        Faces on which water lies from before; not the two outer ones [-].

    Returns
    -------
    Profile
        Saturation and vapour pressure [Pa], and what gathers at each face [kg/m2s].

    Notes
    -----
    Vapour by diffusion alone. Air that leaks through a hole carries a hundred times more: joints must be
    tight. The two outer faces shed no water here.

    References
    ----------
    [ISO13788] : 6.3 to 6.5, interstitial condensation; the string is Glaser's tangent.
    """
    within("equivalent thickness of air", air_layers, 0.0, unit="m", open_low=True)
    within("vapour pressure", (inside, outside), 0.0, 70_000.0, unit="Pa")
    saturation = saturation_pressure(temperatures)
    thickness = np.asarray(air_layers, dtype=float)
    if saturation.shape != (thickness.size + 1,):
        raise OutOfRangeError(f"{thickness.size} layers have {thickness.size + 1} faces.")
    place = np.concatenate([[0.0], np.cumsum(thickness)])
    level = saturation.copy()
    level[0], level[-1] = inside, outside
    pins = [0, *sorted(wet), thickness.size]
    kept = [0]
    for start, end in pairwise(pins):
        kept += _under(place, level, start, end)[1:]
    pressure = np.interp(place, place[kept], level[kept])
    flow = -STILL_AIR * np.diff(pressure) / thickness
    rate = np.zeros_like(place)
    inner = kept[1:-1]
    rate[inner] = flow[[i - 1 for i in inner]] - flow[inner]
    return Profile(saturation=saturation, pressure=pressure, rate=rate)


def _under(place: Array, level: Array, start: int, end: int) -> list[int]:
    """Corners of the tightest string from start to end that stays under all levels between."""
    string = [start]
    for here in range(start + 1, end + 1):
        while len(string) > 1 and _above(place, level, (string[-2], string[-1], here)):
            string.pop()
        string.append(here)
    return string


def _above(place: Array, level: Array, three: tuple[int, int, int]) -> bool:
    """Whether the middle corner lies on or above the line between the outer two."""
    a, b, c = three
    return bool(
        (level[b] - level[a]) * (place[c] - place[a]) >= (level[c] - level[a]) * (place[b] - place[a])
    )


def cut_layers(resistances: ArrayLike, air_layers: ArrayLike) -> tuple[Array, Array, NDArray[np.int_]]:
    """Layers cut into slices that resist heat by no more than 0.25 m2K/W.

    n = ⌈R/0.25⌉ slices of R/n and s_d/n

    Parameters
    ----------
    resistances : array
        (n,) resistance to heat of each layer, R [m2K/W], from 0.
    air_layers : array
        (n,) equivalent thickness of air of each layer, s_d [m], over 0.

    Returns
    -------
    tuple of arrays
        Resistance [m2K/W] and air thickness [m] of each slice, and the layer each belongs to [-].

    References
    ----------
    [ISO13788] : 6.4.2.
    """
    within("resistance", resistances, 0.0, unit="m2K/W")
    within("equivalent thickness of air", air_layers, 0.0, unit="m", open_low=True)
    heat = np.asarray(resistances, dtype=float)
    count = np.ceil(heat / THICKEST_STEP - 1e-9).astype(int)
    count += count == 0
    owner = np.repeat(np.arange(heat.size), count)
    return heat[owner] / count[owner], np.asarray(air_layers, dtype=float)[owner] / count[owner], owner
