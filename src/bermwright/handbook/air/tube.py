"""A tube in the ground through which fresh air comes in: warmed in winter, cooled in summer, wet at times."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.air.pipe import film_in_pipe
from bermwright.handbook.air.properties import HEAT, air_density
from bermwright.handbook.damp import saturation_pressure, vapour_content

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def ground_resistance(
    radius: ArrayLike, depth: ArrayLike, time: ArrayLike, *, conductivity: float, capacity: float
) -> Array:
    """Resistance of the ground to a tube that has taken heat from it for some time.

    R = [E₁(r²/(4·a·t)) − E₁((2·z)²/(4·a·t))]/(4·π·λ)

    Parameters
    ----------
    radius : float or array
        Of the outside of the tube, r [m], over 0.
    depth : float or array
        Of its middle, z [m], over r.
    time : float or array
        Since it began to run, t [s], over 0.
    conductivity : float
        Of the ground, λ [W/m K], over 0.
    capacity : float
        Of a cubic metre, ρc [J/m3K], over 0.

    Returns
    -------
    float or array
        Resistance for a metre of tube, against the ground as it would lie undisturbed [m K/W].

    Notes
    -----
    Even heat along a line; the surface holds its own temperature (mirror image). A wet ground that
    freezes gives more. The wall of a tube in use is therefore not as warm as the ground far away.

    References
    ----------
    [CARSLAW1959] : 10.4, continuous line source, with its image.

    Examples
    --------
    >>> found = ground_resistance(0.1, depth=2.0, time=86400.0, conductivity=1.5, capacity=2000000.0)
    >>> round(float(found), 4)
    0.1441
    """
    from scipy.special import exp1

    within("radius", radius, 0.0, unit="m", open_low=True)
    within("time", time, 0.0, unit="s", open_low=True)
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    within("heat capacity", capacity, 0.0, unit="J/m3K", open_low=True)
    r, z = np.asarray(radius, dtype=float), np.asarray(depth, dtype=float)
    within("depth over radius", z / r, 1.0, open_low=True)
    reach = 4.0 * conductivity / capacity * np.asarray(time, dtype=float)
    near, mirror = exp1(r**2 / reach), exp1((2.0 * z) ** 2 / reach)
    return np.asarray((near - mirror) / (4.0 * math.pi * conductivity))


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeAir:
    """What a tube does to the air."""

    outlet: Array
    """Temperature of the air that comes in (°C)."""
    wall_start: Array
    """Temperature of the wall where the air goes in (°C)."""
    units: Array
    """Number of transfer units."""
    film_share: Array
    """Share of the whole resistance that lies in the film of air."""
    heat: Array
    """Heat that the air gets; negative where it is cooled (W)."""

    @property
    def effectiveness(self) -> Array:
        """How far the air gets towards the temperature of the ground."""
        return np.asarray(1.0 - np.exp(-self.units))


def tube_air(
    flow: ArrayLike,
    inlet: ArrayLike,
    ground: ArrayLike,
    *,
    diameter: float,
    length: float,
    resistance: ArrayLike,
) -> TubeAir:
    """Air through a tube in the ground.

    T_out = T_g + (T_in − T_g)·e^(−N), N = L/(ṁ·c·(1/(h·π·D) + R))

    Parameters
    ----------
    flow : float or array
        Of air at its mean temperature, V̇ [m3/s], over 0.
    inlet : float or array
        Outdoors, T_in [°C], from -60 to 60.
    ground : float or array
        Undisturbed at the depth of the tube, T_g [°C], from -40 to 60.
    diameter : float
        Inside, D [m], from 0.02 to 2.
    length : float
        L [m], from 0.
    resistance : float or array
        Of wall and ground for a metre of tube, R [m K/W], from 0.

    Returns
    -------
    TubeAir
        Temperature at the outlet and of the wall [°C], transfer units [-], heat [W].

    References
    ----------
    [INCROPERA] : ch. 8, constant temperature around the tube.
    """
    within("inlet temperature", inlet, -60.0, 60.0, unit="°C")
    within("ground temperature", ground, -40.0, 60.0, unit="°C")
    within("length", length, 0.0, unit="m")
    within("resistance", resistance, 0.0, unit="m K/W")
    cold, soil = np.asarray(inlet, dtype=float), np.asarray(ground, dtype=float)
    mean = 0.5 * (cold + soil)
    film = 1.0 / (film_in_pipe(flow, diameter, mean) * math.pi * diameter)
    whole = film + np.asarray(resistance, dtype=float)
    carries = np.asarray(flow, dtype=float) * air_density(mean) * HEAT
    units = length / (carries * whole)
    outlet = soil + (cold - soil) * np.exp(-units)
    share = film / whole
    return TubeAir(
        outlet=np.asarray(outlet),
        wall_start=np.asarray(cold + (soil - cold) * share),
        units=np.asarray(units),
        film_share=np.asarray(share),
        heat=np.asarray(carries * (outlet - cold)),
    )


def frozen_length(length: ArrayLike, units: ArrayLike, *, start: ArrayLike, ground: ArrayLike) -> Array:
    """How far into a tube its wall is below freezing, so that water lying there freezes.

    x = (L/N)·ln((T_g − T_w0)/T_g) where T_w0 < 0 < T_g

    Parameters
    ----------
    length : float or array
        Of the tube, L [m], from 0.
    units : float or array
        Transfer units of the whole tube, N [-], over 0.
    start : float or array
        Wall where the air goes in, T_w0 [°C].
    ground : float or array
        Undisturbed, T_g [°C].

    Returns
    -------
    float or array
        Length [m], from 0 to the whole tube.

    References
    ----------
    [INCROPERA] : ch. 8: air and wall both approach the ground exponentially.

    Examples
    --------
    >>> round(float(frozen_length(30.0, units=2.3, start=-6.0, ground=4.0)), 2)
    11.95
    """
    within("length", length, 0.0, unit="m")
    within("transfer units", units, 0.0, open_low=True)
    within("temperature", start, -60.0, 60.0, unit="°C")
    within("temperature", ground, -40.0, 60.0, unit="°C")
    whole = np.asarray(length, dtype=float)
    cold, soil = np.asarray(start, dtype=float), np.asarray(ground, dtype=float)
    thaws = (cold < 0.0) & (soil > 0.0)
    share = np.divide(-cold, soil, out=np.zeros(thaws.shape), where=thaws)
    reach = whole / np.asarray(units, dtype=float) * np.log1p(share)
    some = np.where(thaws, np.minimum(reach, whole), 0.0)
    return np.asarray(np.where((cold < 0.0) & (soil <= 0.0), whole, some))


def tube_water(flow: ArrayLike, pressure: ArrayLike, outlet: ArrayLike) -> Array:
    """Water that air sheds in a tube cooler than its dew point.

    G = V̇·max(0, v(p, T_out) − v_sat(T_out))

    Parameters
    ----------
    flow : float or array
        Of air, V̇ [m3/s], from 0.
    pressure : float or array
        Vapour pressure outdoors [Pa], from 0.
    outlet : float or array
        Coldest air in the tube, T_out [°C], from -60 to 60.

    Returns
    -------
    float or array
        Water [kg/s].

    References
    ----------
    [ISO13788] : saturation curve; the balance is elementary.

    Examples
    --------
    >>> round(float(tube_water(0.02778, pressure=1899.6, outlet=12.0)), 7)
    0.0001051
    """
    within("flow", flow, 0.0, unit="m3/s")
    within("temperature", outlet, -60.0, 60.0, unit="°C")
    most = vapour_content(saturation_pressure(outlet), outlet)
    brought = vapour_content(pressure, outlet)
    return np.asarray(np.asarray(flow, dtype=float) * np.maximum(brought - most, 0.0))
