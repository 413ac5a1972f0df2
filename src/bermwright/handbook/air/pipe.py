"""Air in a pipe: friction and heat from its wall."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.air.properties import HEAT, air_conductivity, air_density, air_viscosity

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

SMOOTH_FLOW = 2040.0
"""Reynolds number up to which air flows in layers."""
ROUGH_FLOW = 3000.0
"""From here on it swirls."""
STEPS = 40
LAMINAR_NUSSELT = 3.66


def reynolds(flow: ArrayLike, diameter: ArrayLike, temperature: ArrayLike) -> Array:
    """How far air in a pipe is from flowing in layers.

    Re = 4·V̇·ρ/(π·D·μ)

    Parameters
    ----------
    flow : float or array
        Of air, V̇ [m3/s], from 0.
    diameter : float or array
        Inside, D [m], from 0.02 to 2.
    temperature : float or array
        Of the air, T [°C], from -60 to 400.

    Returns
    -------
    float or array
        Reynolds number [-].

    References
    ----------
    [INCROPERA] : ch. 8, internal flow.

    Examples
    --------
    >>> round(float(reynolds(0.02778, diameter=0.2, temperature=-8.0)))
    14046
    """
    within("flow", flow, 0.0, unit="m3/s")
    within("diameter", diameter, 0.02, 2.0, unit="m")
    thin = air_density(temperature) / air_viscosity(temperature)
    return np.asarray(
        4.0 * np.asarray(flow, dtype=float) * thin / (math.pi * np.asarray(diameter, dtype=float))
    )


def friction_factor(number: ArrayLike, roughness: ArrayLike) -> Array:
    """Darcy's friction factor of a round pipe.

    f = 64/Re to 2040; 1/√f = −2·log₁₀(ε/3.7 + 2.51/(Re·√f)) from 3000; straight between

    Parameters
    ----------
    number : float or array
        Reynolds number, Re [-], over 0 to 1e8.
    roughness : float or array
        Roughness over diameter, ε [-], from 0 to 0.05.

    Returns
    -------
    float or array
        Friction factor [-].

    References
    ----------
    [COLEBROOK1939] : rough pipes.

    Examples
    --------
    >>> round(float(friction_factor(1000.0, roughness=0.0)), 3)
    0.064
    """
    within("Reynolds number", number, 0.0, 1e8, open_low=True)
    within("roughness over diameter", roughness, 0.0, 0.05)
    re, rough = np.broadcast_arrays(np.asarray(number, dtype=float), np.asarray(roughness, dtype=float))
    swirls = _colebrook(np.maximum(re, ROUGH_FLOW), rough)
    share = np.clip((re - SMOOTH_FLOW) / (ROUGH_FLOW - SMOOTH_FLOW), 0.0, 1.0)
    layers = 64.0 / np.minimum(re, SMOOTH_FLOW)
    return np.asarray((1.0 - share) * layers + share * swirls)


def _colebrook(number: Array, roughness: Array) -> Array:
    first_guess = np.full(number.shape, 7.0)
    root = first_guess
    """1/√f; the repeated insertion gains a digit a step."""
    for _ in range(STEPS):
        root = -2.0 * np.log10(roughness / 3.7 + 2.51 * root / number)
    return np.asarray(root**-2.0)


def pipe_pressure(
    flow: ArrayLike,
    diameter: ArrayLike,
    length: ArrayLike,
    *,
    temperature: ArrayLike,
    roughness: float,
    losses: float,
) -> Array:
    """Pressure that it takes to drive air through a pipe with its bends, grilles and filters.

    Δp = (f·L/D + Σζ)·ρ·v²/2

    Parameters
    ----------
    flow : float or array
        Of air, V̇ [m3/s], over 0.
    diameter : float or array
        Inside, D [m], from 0.02 to 2.
    length : float or array
        Of the pipe, L [m], from 0.
    temperature : float or array
        Of the air, T [°C], from -60 to 400.
    roughness : float
        Of the wall [m], from 0 to 0.01: 0.000007 smooth plastic, 0.001 concrete, 0.01 corrugated.
    losses : float
        Sum of loss coefficients, Σζ [-], from 0: 1 outlet, 0.5 inlet, 0.3 a smooth bend, 2 a screen.

    Returns
    -------
    float or array
        Pressure [Pa].

    References
    ----------
    [INCROPERA] : ch. 8, pressure drop; the coefficients are common practice.

    Examples
    --------
    >>> found = pipe_pressure(0.02778, diameter=0.2, length=30.0, temperature=-8.0, roughness=0.0, losses=0.0)
    >>> round(float(found), 3)
    2.207
    """
    within("length", length, 0.0, unit="m")
    within("roughness", roughness, 0.0, 0.01, unit="m")
    within("loss coefficients", losses, 0.0)
    bore = np.asarray(diameter, dtype=float)
    factor = friction_factor(reynolds(flow, diameter, temperature), np.minimum(roughness / bore, 0.05))
    speed = 4.0 * np.asarray(flow, dtype=float) / (math.pi * bore**2)
    drag = factor * np.asarray(length, dtype=float) / bore + losses
    return np.asarray(drag * air_density(temperature) * 0.5 * speed**2)


def film_in_pipe(flow: ArrayLike, diameter: ArrayLike, temperature: ArrayLike) -> Array:
    """Heat that the wall of a pipe gives to the air in it.

    h = Nu·k/D; Nu = (f/8)·(Re − 1000)·Pr/(1 + 12.7·√(f/8)·(Pr^(2/3) − 1)) from 3000, 3.66 to 2040

    Parameters
    ----------
    flow : float or array
        Of air, V̇ [m3/s], over 0.
    diameter : float or array
        Inside, D [m], from 0.02 to 2.
    temperature : float or array
        Of the air, T [°C], from -60 to 400.

    Returns
    -------
    float or array
        Film coefficient [W/m2K].

    Notes
    -----
    The smooth pipe's friction is taken: a rough one gives a little more. Straight between 2040 and 3000.

    References
    ----------
    [GNIELINSKI1976] : turbulent flow in smooth pipes.

    Examples
    --------
    >>> round(float(film_in_pipe(0.02778, diameter=0.2, temperature=-8.0)), 3)
    4.573
    """
    number = reynolds(flow, diameter, temperature)
    within("flow", flow, 0.0, unit="m3/s", open_low=True)
    conducts = air_conductivity(temperature)
    prandtl = HEAT * air_viscosity(temperature) / conducts
    swift = np.maximum(number, ROUGH_FLOW)
    eighth = friction_factor(swift, 0.0) / 8.0
    swirl = (
        eighth * (swift - 1000.0) * prandtl / (1.0 + 12.7 * np.sqrt(eighth) * (prandtl ** (2.0 / 3.0) - 1.0))
    )
    share = np.clip((number - SMOOTH_FLOW) / (ROUGH_FLOW - SMOOTH_FLOW), 0.0, 1.0)
    nusselt = (1.0 - share) * LAMINAR_NUSSELT + share * swirl
    return np.asarray(nusselt * conducts / np.asarray(diameter, dtype=float))
