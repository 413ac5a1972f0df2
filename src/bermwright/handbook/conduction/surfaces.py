"""Films of air at surfaces, and layers of air inside an assembly."""

from __future__ import annotations

import math
from enum import StrEnum
from typing import TYPE_CHECKING, assert_never

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

STEEP = math.radians(60.0)
"""From here on heat flows as through a wall."""
OUTSIDE = 0.04
"""m2K/W, wind of 4 m/s."""
BLACK = 5.1
"""Radiation between black faces at 10 °C (W/m2K)."""
STILL = 0.025
"""Conductivity of air (W/m K)."""
FULLY_OPEN = 1500.0
"""Openings of a well ventilated layer (mm2 a metre)."""
HARDLY_OPEN = 500.0


class HeatFlow(StrEnum):
    """Which way heat goes through a layer."""

    HORIZONTAL = "horizontal"
    UP = "up"
    DOWN = "down"


def heat_flow(slope: float, *, warm_below: bool = True) -> HeatFlow:
    """Which way heat goes through a face of a given slope.

    horizontal from 60 deg on, else up where the warm side is below, else down

    Parameters
    ----------
    slope : float
        Slope of the face from the level [rad], from 0 to pi/2.
    warm_below : bool
        Whether the warm side lies below the face [-].

    Returns
    -------
    HeatFlow
        Which way heat goes [-].

    References
    ----------
    [ISO6946] : table 7 and its note: values of the horizontal within 30 deg of it.
    """
    within("slope", slope, 0.0, 0.5 * math.pi, unit="rad")
    if slope >= STEEP:
        return HeatFlow.HORIZONTAL
    return HeatFlow.UP if warm_below else HeatFlow.DOWN


def inside_resistance(flow: HeatFlow) -> float:
    """Resistance of the film of air at an inside face.

    R_si = 0.13 horizontal, 0.10 up, 0.17 down

    Parameters
    ----------
    flow : HeatFlow
        Which way heat goes [-].

    Returns
    -------
    float
        Resistance [m2K/W].

    Notes
    -----
    For heat loss. For mould at a corner behind a cupboard 0.25 is taken instead.

    References
    ----------
    [ISO6946] : table 7.
    """
    match flow:
        case HeatFlow.HORIZONTAL:
            return 0.13
        case HeatFlow.UP:
            return 0.10
        case HeatFlow.DOWN:
            return 0.17
        case _:
            assert_never(flow)


def air_layer_resistance(
    thickness: ArrayLike, flow: HeatFlow, *, emissivity_one: float = 0.9, emissivity_other: float = 0.9
) -> Array:
    """Resistance of a closed layer of air.

    R = 1/(h_a + h_r), h_r = 5.1/(1/ε₁ + 1/ε₂ − 1), h_a = max(1.25 | 1.95 | 0.12·d^−0.44, 0.025/d)

    Parameters
    ----------
    thickness : float or array
        Thickness of the layer, d [m], from 0.001 to 0.3.
    flow : HeatFlow
        Which way heat goes: horizontal 1.25, up 1.95, down 0.12·d^−0.44 [-].
    emissivity_one : float
        Of one face, ε₁ [-], from 0.02 to 1; 0.9 for everything but bright metal.
    emissivity_other : float
        Of the other face, ε₂ [-], from 0.02 to 1.

    Returns
    -------
    float or array
        Resistance [m2K/W].

    Notes
    -----
    At 10 °C and a difference of 5 K. A bright face that gathers dust or dew is bright no longer.

    References
    ----------
    [ISO6946] : annex on air layers; table 2 of the 2007 edition.
    """
    within("thickness of the air layer", thickness, 0.001, 0.3, unit="m")
    within("emissivity", emissivity_one, 0.02, 1.0)
    within("emissivity", emissivity_other, 0.02, 1.0)
    d = np.asarray(thickness, dtype=float)
    match flow:
        case HeatFlow.HORIZONTAL:
            stirred = np.full_like(d, 1.25)
        case HeatFlow.UP:
            stirred = np.full_like(d, 1.95)
        case HeatFlow.DOWN:
            stirred = 0.12 * d**-0.44
        case _:
            assert_never(flow)
    radiation = BLACK / (1.0 / emissivity_one + 1.0 / emissivity_other - 1.0)
    return np.asarray(1.0 / (np.maximum(stirred, STILL / d) + radiation))


def vented_resistance(closed: ArrayLike, open_air: ArrayLike, openings: ArrayLike) -> Array:
    """Resistance of an assembly with a layer of air that has some openings to the outside.

    R = R_closed for A ≤ 500, R_open for A ≥ 1500, else ((1500 − A)·R_closed + (A − 500)·R_open)/1000

    Parameters
    ----------
    closed : float or array
        Resistance of the whole assembly with the air layer closed [m2K/W], from 0.
    open_air : float or array
        The same without the air layer and everything outside it, its outer film as inside [m2K/W], from 0.
    openings : float or array
        Openings, A [mm2/m] of length for upright layers, or of each m2 for level ones, from 0.

    Returns
    -------
    float or array
        Resistance [m2K/W].

    Notes
    -----
    The edition of 2007 halves the air layer and caps what lies outside it at 0.15 instead.

    References
    ----------
    [ISO6946] : slightly and well ventilated air layers, edition 2017.

    Examples
    --------
    >>> round(float(vented_resistance(3.0, open_air=2.0, openings=300.0)))
    3
    """
    within("resistance", closed, 0.0, unit="m2K/W")
    within("resistance", open_air, 0.0, unit="m2K/W")
    within("openings", openings, 0.0, unit="mm2/m")
    share = np.clip((np.asarray(openings, dtype=float) - HARDLY_OPEN) / (FULLY_OPEN - HARDLY_OPEN), 0.0, 1.0)
    return np.asarray((1.0 - share) * np.asarray(closed, dtype=float) + share * np.asarray(open_air))
