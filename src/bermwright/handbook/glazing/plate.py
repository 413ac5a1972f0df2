"""A pane under wind: a plate held along all four edges."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

GLASS_POISSON = 0.23
GLASS_YOUNG = 70e9
"""Pa."""
TERMS = np.arange(1, 60, 2, dtype=float)
"""Odd terms of the series; the last adds less than 1e-7."""


def _series(ratio: Array) -> tuple[Array, Array, Array]:
    """Half angles, and both coefficients of each term over 4/(π·m)^5 and the like."""
    m = TERMS
    half = 0.5 * np.pi * m * ratio[..., None]
    five = np.pi**5 * m**5
    # 1/cosh without its overflow: a long plate does not feel its far ends.
    fades = 2.0 * np.exp(-half) / (1.0 + np.exp(-2.0 * half))
    a = -2.0 * (half * np.tanh(half) + 2.0) / five * fades
    b = 2.0 / five * fades
    return 4.0 / five, a, b


def _ratio(short: ArrayLike, long: ArrayLike) -> tuple[Array, Array]:
    within("side of the pane", short, 0.05, 6.0, unit="m")
    within("side of the pane", long, 0.05, 6.0, unit="m")
    one, other = np.asarray(short, dtype=float), np.asarray(long, dtype=float)
    return np.minimum(one, other), np.maximum(one, other) / np.minimum(one, other)


def _signs() -> Array:
    """Of the sine at the middle of the plate."""
    return np.asarray((-1.0) ** ((TERMS - 1.0) / 2.0))


def pane_stress(
    short: ArrayLike,
    long: ArrayLike,
    thickness: ArrayLike,
    pressure: ArrayLike,
    *,
    poisson: float = GLASS_POISSON,
) -> Array:
    """Largest bending stress of a pane held along all four edges.

    σ = 6·M/t², M = q·a²·π²·Σ m²·[(4/(π·m)^5 + A_m) − ν·(A_m + 2·B_m)]·sin(m·π/2), m odd

    Parameters
    ----------
    short : float or array
        Short side, a [m], from 0.05 to 6; either side may be given first.
    long : float or array
        Long side, b [m], from 0.05 to 6.
    thickness : float or array
        Thickness of the pane, t [m], from 0.001 to 0.1.
    pressure : float or array
        Even pressure, q [Pa], from 0.
    poisson : float
        Of the material, ν [-], from 0 to 0.5; glass 0.23.

    Returns
    -------
    float or array
        Stress at the middle, σ [Pa].

    Notes
    -----
    Small deflections: above half the thickness the pane stretches and the true stress is lower.
    A_m = −2·(α·tanh α + 2)/((π·m)^5·cosh α), B_m = 2/((π·m)^5·cosh α), α = m·π·b/(2·a).

    References
    ----------
    [ROARK2002] : table 11.4, case 1a (poisson 0.3).

    Examples
    --------
    >>> round(float(pane_stress(1.0, long=1.0, thickness=0.01, pressure=1000.0, poisson=0.3)))
    2873165
    """
    within("thickness of the pane", thickness, 0.001, 0.1, unit="m")
    return np.asarray(6.0 * _moment(short, long, pressure, poisson) / np.asarray(thickness, dtype=float) ** 2)


def _moment(short: ArrayLike, long: ArrayLike, pressure: ArrayLike, poisson: float) -> Array:
    """Largest moment of the plate (N)."""
    side, ratio = _ratio(short, long)
    within("pressure", pressure, 0.0, unit="Pa")
    within("Poisson's ratio", poisson, 0.0, 0.5)
    straight, a, b = _series(ratio)
    terms = TERMS**2 * ((straight + a) - poisson * (a + 2.0 * b)) * _signs()
    return np.asarray(np.pi**2 * np.sum(terms, axis=-1) * np.asarray(pressure, dtype=float) * side**2)


def pane_deflection(
    short: ArrayLike,
    long: ArrayLike,
    thickness: ArrayLike,
    pressure: ArrayLike,
    *,
    young: float = GLASS_YOUNG,
    poisson: float = GLASS_POISSON,
) -> Array:
    """How far the middle of a pane held along all four edges goes out.

    w = q·a⁴/D·Σ (4/(π·m)^5 + A_m)·sin(m·π/2), D = E·t³/(12·(1 − ν²)), m odd

    Parameters
    ----------
    short : float or array
        Short side, a [m], from 0.05 to 6; either side may be given first.
    long : float or array
        Long side, b [m], from 0.05 to 6.
    thickness : float or array
        Thickness of the pane, t [m], from 0.001 to 0.1.
    pressure : float or array
        Even pressure, q [Pa], from 0.
    young : float
        Young's modulus, E [Pa], above 0; glass 70e9.
    poisson : float
        Of the material, ν [-], from 0 to 0.5; glass 0.23.

    Returns
    -------
    float or array
        Deflection at the middle, w [m].

    References
    ----------
    [ROARK2002] : table 11.4, case 1a (poisson 0.3).

    Examples
    --------
    >>> found = pane_deflection(
    ...     1.0, long=1.0, thickness=0.01, pressure=1000.0, young=70000000000.0, poisson=0.3
    ... )
    >>> round(float(found), 7)
    0.0006337
    """
    side, ratio = _ratio(short, long)
    within("thickness of the pane", thickness, 0.001, 0.1, unit="m")
    within("pressure", pressure, 0.0, unit="Pa")
    within("Young's modulus", young, 0.0, unit="Pa", open_low=True)
    within("Poisson's ratio", poisson, 0.0, 0.5)
    straight, a, _ = _series(ratio)
    stiffness = young * np.asarray(thickness, dtype=float) ** 3 / (12.0 * (1.0 - poisson**2))
    shape = np.sum((straight + a) * _signs(), axis=-1)
    return np.asarray(np.asarray(pressure, dtype=float) * side**4 / stiffness * shape)


class Lasting(StrEnum):
    """How long a load lies on the glass."""

    WIND = "wind"
    SNOW = "snow"
    ALWAYS = "always"


class GlassKind(StrEnum):
    """How the glass was made."""

    FLOAT = "float"
    TOUGHENED = "toughened"


_LASTING = {Lasting.WIND: 0.7, Lasting.SNOW: 0.4, Lasting.ALWAYS: 0.25}
_FLOAT, _TOUGHENED = 45e6, 120e6
"""Characteristic strength in bending (Pa)."""
_FLOAT_FACTOR, _TOUGHENED_FACTOR = 1.8, 1.5
_HELD = 1.8
"""For float glass held along its edges."""


def glass_strength(kind: GlassKind, lasting: Lasting) -> float:
    """Design strength of glass in bending.

    f_d = k_mod·k_c·f_k/γ_M for float (k_c 1.8, f_k 45 MPa, γ_M 1.8; k_mod 0.7 wind, 0.4 snow, 0.25 always);
    f_d = f_k/γ_M for toughened (f_k 120 MPa, γ_M 1.5)

    Parameters
    ----------
    kind : GlassKind
        Float or toughened.
    lasting : Lasting
        How long the load lies on it.

    Returns
    -------
    float
        Design strength, f_d [Pa].

    Notes
    -----
    Edges cut and ground by hand, scratched old panes and wired glass are weaker: code and glazier decide.

    References
    ----------
    [DIN18008] : part 1, strength by duration; k_c was read, the rest is from memory.
    """
    match kind:
        case GlassKind.FLOAT:
            return _LASTING[lasting] * _HELD * _FLOAT / _FLOAT_FACTOR
        case GlassKind.TOUGHENED:
            return _TOUGHENED / _TOUGHENED_FACTOR
    raise OutOfRangeError(f"There is no strength for {kind}.")


def pane_thickness(short: ArrayLike, long: ArrayLike, pressure: ArrayLike, *, strength: ArrayLike) -> Array:
    """The thinnest pane whose bending stress stays within a strength.

    t = √(6·M/f_d)

    Parameters
    ----------
    short : float or array
        Short side [m], from 0.05 to 6; either side may be given first.
    long : float or array
        Long side [m], from 0.05 to 6.
    pressure : float or array
        Design pressure, q [Pa], from 0.
    strength : float or array
        Design strength, f_d [Pa], above 0.

    Returns
    -------
    float or array
        Thickness, t [m].

    References
    ----------
    [ROARK2002] : table 11.4, case 1a.

    Examples
    --------
    >>> round(float(pane_thickness(1.2, long=1.0, pressure=1000.0, strength=30000000.0)), 6)
    0.003472
    """
    within("strength", strength, 0.0, unit="Pa", open_low=True)
    moment = _moment(short, long, pressure, GLASS_POISSON)
    return np.asarray(np.sqrt(6.0 * moment / np.asarray(strength, dtype=float)))
