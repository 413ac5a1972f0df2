"""Swings of temperature that go into the ground and through layers."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Complex = NDArray[np.complex128]

DAYS = 365.0
SECONDS_A_DAY = 86_400.0


def damping_depth(diffusivity: ArrayLike, period: ArrayLike = DAYS * SECONDS_A_DAY) -> Array:
    """Depth at which a swing of the surface is down to 1/e.

    d = √(a·P/π)

    Parameters
    ----------
    diffusivity : float or array
        Of the ground, a = λ/ρc [m2/s], over 0.
    period : float or array
        Of the swing, P [s], over 0; a year of 365 days if not given.

    Returns
    -------
    float or array
        Damping depth [m].

    References
    ----------
    [CARSLAW1959] : 2.6, periodic surface temperature.

    Examples
    --------
    >>> round(float(damping_depth(8e-7, period=86400.0)), 4)
    0.1483
    """
    within("diffusivity", diffusivity, 0.0, unit="m2/s", open_low=True)
    within("period", period, 0.0, unit="s", open_low=True)
    return np.asarray(np.sqrt(np.asarray(diffusivity, dtype=float) * np.asarray(period) / math.pi))


def undisturbed_ground(
    depth: ArrayLike, day: ArrayLike, *, mean: float, swing: float, coldest_day: float, diffusivity: float
) -> Array:
    """Temperature of open ground at a depth on a day of the year.

    T = T_m − A·exp(−z/d)·cos(2·π/365·(t − t_0) − z/d)

    Parameters
    ----------
    depth : float or array
        Below the surface, z [m], from 0.
    day : float or array
        Day of the year, t [d], from 0 to 366.
    mean : float
        Yearly mean at the surface, T_m [°C], from -60 to 60.
    swing : float
        Half the range of the yearly course at the surface, A [K], from 0.
    coldest_day : float
        Day of the coldest surface, t_0 [d], from 0 to 366.
    diffusivity : float
        a [m2/s], over 0.

    Returns
    -------
    float or array
        Temperature [°C].

    Notes
    -----
    No freezing, no snow, even soil. Snow makes the surface warmer than the air in winter: give its own
    mean and swing where they are known.

    References
    ----------
    [KUSUDA1965] : eq. for monthly earth temperatures.

    Examples
    --------
    >>> found = undisturbed_ground(0.0, day=15.0, mean=5.0, swing=14.0, coldest_day=35.0, diffusivity=6e-7)
    >>> round(float(found), 3)
    -8.178
    """
    within("depth", depth, 0.0, unit="m")
    within("day", day, 0.0, 366.0, unit="d")
    within("mean temperature", mean, -60.0, 60.0, unit="°C")
    within("swing", swing, 0.0, unit="K")
    within("coldest day", coldest_day, 0.0, 366.0, unit="d")
    damped = np.asarray(depth, dtype=float) / damping_depth(diffusivity)
    turn = 2.0 * math.pi / DAYS * (np.asarray(day, dtype=float) - coldest_day)
    return np.asarray(mean - swing * np.exp(-damped) * np.cos(turn - damped))


def frost_line(
    index: ArrayLike,
    mean: ArrayLike,
    *,
    conductivity: float = 2.5,
    latent: float = 150e6,
    capacity: float = 3e6,
) -> Array:
    """How deep a winter freezes open ground.

    H = √(2·F·λ/(L + C·T_m))

    Parameters
    ----------
    index : float or array
        Freezing index at the surface, F [K s], from 0; under snow that of the ground, not of the air.
    mean : float or array
        Yearly mean of the ground, T_m [°C], from 0 to 30.
    conductivity : float
        Of frozen ground, λ [W/m K], over 0.
    latent : float
        Heat of freezing of a cubic metre, L [J/m3], over 0.
    capacity : float
        Heat capacity of thawed ground, C [J/m3K], over 0.

    Returns
    -------
    float or array
        Depth [m].

    Notes
    -----
    No heat from a house, none from below but what the ground held: on the deep side.

    References
    ----------
    [ISO13370] : the formula is that of its sister standard on frost, ISO 13793, annex B.

    Examples
    --------
    >>> round(float(frost_line(36000000.0, mean=6.0)), 3)
    1.035
    """
    within("freezing index", index, 0.0, unit="K s")
    within("mean temperature", mean, 0.0, 30.0, unit="°C")
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    within("latent heat", latent, 0.0, unit="J/m3", open_low=True)
    within("heat capacity", capacity, 0.0, unit="J/m3K", open_low=True)
    held = latent + capacity * np.asarray(mean, dtype=float)
    return np.asarray(np.sqrt(2.0 * np.asarray(index, dtype=float) * conductivity / held))


@dataclass(frozen=True, slots=True, kw_only=True)
class Dynamic:
    """How layers answer to a swing of temperature."""

    transmittance: float
    """Steady (W/m2K)."""
    inside_admittance: float
    """Heat swing at the inside for 1 K of swing inside (W/m2K)."""
    inside_lead: float
    """How long heat leads temperature there (s)."""
    outside_admittance: float
    outside_lead: float
    periodic: float
    """Heat swing inside for 1 K of swing outside (W/m2K)."""
    shift: float
    """When that heat comes, after the swing outside; negative is later (s)."""
    inside_capacity: float
    """Heat stored from the inside for 1 K of swing there (J/m2K)."""
    outside_capacity: float

    @property
    def decrement(self) -> float:
        """Periodic over steady transmittance."""
        return self.periodic / self.transmittance


def dynamic_layers(
    layers: Sequence[tuple[float, float, float]], *, period: float, inside: float, outside: float
) -> Dynamic:
    """How a row of flat layers answers to a swing of temperature on either side.

    Z = Z_se·Π Z_layer·Z_si; Y_12 = −1/Z_12, Y_11 = −Z_11/Z_12, Y_22 = −Z_22/Z_12, κ = |(Z − 1)/Z_12|/ω

    Parameters
    ----------
    layers : sequence of triples
        Thickness [m], conductivity [W/m K] and heat capacity of a cubic metre [J/m3K], from the inside out.
    period : float
        Of the swing [s], over 0; 86 400 for a day.
    inside : float
        Film inside, R_si [m2K/W], from 0.
    outside : float
        Film outside, R_se [m2K/W], from 0.

    Returns
    -------
    Dynamic
        Admittances, periodic transmittance [W/m2K], their times [s], capacities [J/m2K].

    Notes
    -----
    The shift is counted backwards from the outside swing within one period and a half.

    References
    ----------
    [ISO13786] : annex A, matrices.
    """
    within("period", period, 0.0, unit="s", open_low=True)
    within("film", inside, 0.0, unit="m2K/W")
    within("film", outside, 0.0, unit="m2K/W")
    turn = 2.0 * math.pi / period
    whole = _film(inside)
    lag, resistance = 0.0, inside + outside
    for thickness, conductivity, capacity in layers:
        within("thickness", thickness, 0.0, unit="m", open_low=True)
        within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
        within("heat capacity", capacity, 0.0, unit="J/m3K", open_low=True)
        whole = _layer(thickness, conductivity, capacity, period) @ whole
        lag += thickness / float(damping_depth(conductivity / capacity, period))
        resistance += thickness / conductivity
    whole = _film(outside) @ whole
    z11, z12, z22 = whole[0, 0], whole[0, 1], whole[1, 1]
    through, inner, outer = -1.0 / z12, -z11 / z12, -z22 / z12
    return Dynamic(
        transmittance=1.0 / resistance,
        inside_admittance=abs(inner),
        inside_lead=float(np.angle(inner)) / turn,
        outside_admittance=abs(outer),
        outside_lead=float(np.angle(outer)) / turn,
        periodic=abs(through),
        shift=_unwrapped(float(np.angle(through)), lag) / turn,
        inside_capacity=abs((z11 - 1.0) / z12) / turn,
        outside_capacity=abs((z22 - 1.0) / z12) / turn,
    )


def _film(resistance: float) -> Complex:
    return np.array([[1.0, -resistance], [0.0, 1.0]], dtype=complex)


def _layer(thickness: float, conductivity: float, capacity: float, period: float) -> Complex:
    depth = float(damping_depth(conductivity / capacity, period))
    angle = thickness / depth * (1.0 + 1.0j)
    stiff = conductivity / depth * (1.0 + 1.0j)
    c, s = np.cosh(angle), np.sinh(angle)
    return np.array([[c, -s / stiff], [-stiff * s, c]], dtype=complex)


def _unwrapped(angle: float, lag: float) -> float:
    """The angle, whole turns further back, that is nearest to what the layers' own waves lag."""
    turns = round((-angle - lag) / (2.0 * math.pi))
    return angle + 2.0 * math.pi * turns if turns < 0 else angle
