"""Layers in a row: resistance, transmittance, temperatures, bridged layers and corrections."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

LEAST_CONDUCTIVITY = 0.005
MOST_CONDUCTIVITY = 400.0
"""W/m K: nothing in a house conducts less or more; a value outside is a slip of units."""
LOOSE_SHARES = 1e-6
"""How near to 1 the shares of a bridged layer add up."""


def layer_resistance(thickness: ArrayLike, conductivity: ArrayLike) -> Array:
    """Resistance of a flat layer.

    R = d/λ

    Parameters
    ----------
    thickness : float or array
        Thickness, d [m], from 0.
    conductivity : float or array
        Conductivity, λ [W/m K], from 0.005 to 400.

    Returns
    -------
    float or array
        Resistance [m2K/W].

    References
    ----------
    [ISO6946] : 6.7.1.1.

    Examples
    --------
    >>> round(float(layer_resistance(0.2, 0.037)), 3)
    5.405
    """
    within("thickness", thickness, 0.0, unit="m")
    within("conductivity", conductivity, LEAST_CONDUCTIVITY, MOST_CONDUCTIVITY, unit="W/m K")
    return np.asarray(np.asarray(thickness, dtype=float) / np.asarray(conductivity, dtype=float))


def transmittance(resistances: ArrayLike) -> float:
    """Heat that goes through a square metre for each degree between the two airs.

    U = 1/ΣR

    Parameters
    ----------
    resistances : array
        Of the inside film, every layer and the outside film, R [m2K/W], from 0.

    Returns
    -------
    float
        Transmittance [W/m2K].

    References
    ----------
    [ISO6946] : 6.5.
    """
    within("resistance", resistances, 0.0, unit="m2K/W")
    total = float(np.sum(resistances))
    within("resistance of the assembly", total, 0.0, unit="m2K/W", open_low=True)
    return 1.0 / total


def layer_temperatures(resistances: ArrayLike, inside: float, outside: float) -> Array:
    """Temperatures between the layers while nothing changes.

    T_i = T_in − (T_in − T_out)·Σ_(k ≤ i) R_k/ΣR

    Parameters
    ----------
    resistances : array
        Of the inside film, every layer and the outside film, from the inside out, R [m2K/W], from 0.
    inside : float
        Air inside [°C].
    outside : float
        Air outside [°C].

    Returns
    -------
    array
        (n + 1,) from the air inside over every face to the air outside [°C].

    References
    ----------
    [ISO13788] : temperature distribution, steady.
    """
    transmittance(resistances)
    within("temperature", inside, -90.0, 100.0, unit="°C")
    within("temperature", outside, -90.0, 100.0, unit="°C")
    passed = np.concatenate([[0.0], np.cumsum(np.asarray(resistances, dtype=float))])
    return np.asarray(inside - (inside - outside) * passed / passed[-1])


@dataclass(frozen=True, slots=True, kw_only=True)
class BridgedResistance:
    """Resistance of an assembly whose layers have timber or mortar in them."""

    upper: float
    """No heat flows sideways (m2K/W)."""
    lower: float
    """Every layer of one temperature on each face (m2K/W)."""

    @property
    def total(self) -> float:
        """Mean of both (m2K/W)."""
        return 0.5 * (self.upper + self.lower)

    @property
    def error(self) -> float:
        """How far the truth may at most lie from the mean, as a share of it."""
        return (self.upper - self.lower) / (2.0 * self.total)

    @property
    def transmittance(self) -> float:
        """W/m2K."""
        return 1.0 / self.total


def bridged_resistance(
    layers: Sequence[Sequence[tuple[float, float]]], inside: float, outside: float
) -> BridgedResistance:
    """Resistance of an assembly with layers of more than one material, between two limits.

    1/R'_T = Σ_paths f/R_path; R''_T = R_si + Σ_layers 1/Σ(f/R) + R_se; R_T = (R'_T + R''_T)/2

    Parameters
    ----------
    layers : sequence of sequences of pairs
        For every layer from the inside out the pairs (share of the area f [-], resistance R [m2K/W]).
    inside : float
        Film inside, R_si [m2K/W], from 0.
    outside : float
        Film outside, R_se [m2K/W], from 0.

    Returns
    -------
    BridgedResistance
        Upper and lower limit, their mean [m2K/W] and the largest error [-].

    Notes
    -----
    Shares of different layers are independent: every combination is a path. Not for metal in insulation.

    References
    ----------
    [ISO6946] : 6.7.2.
    """
    within("film", inside, 0.0, unit="m2K/W")
    within("film", outside, 0.0, unit="m2K/W")
    for layer in layers:
        shares, resistances = zip(*layer, strict=True)
        within("share", shares, 0.0, 1.0)
        within("resistance", resistances, 0.0, unit="m2K/W", open_low=True)
        if abs(sum(shares) - 1.0) > LOOSE_SHARES:
            raise OutOfRangeError(f"The shares of a layer add up to {sum(shares):g}; they must add up to 1.")
    flow = 0.0
    for path in product(*layers):
        share = float(np.prod([part[0] for part in path]))
        flow += share / (inside + sum(part[1] for part in path) + outside)
    lower = inside + sum(1.0 / sum(share / r for share, r in layer) for layer in layers) + outside
    return BridgedResistance(upper=1.0 / flow, lower=lower)


def air_void_correction(level: int, pierced: ArrayLike, total: ArrayLike) -> Array:
    """What gaps in and behind an insulation add to the transmittance.

    ΔU = ΔU''·(R_1/R_T)², ΔU'' = 0, 0.01 or 0.04

    Parameters
    ----------
    level : int
        0: no gaps that go through; 1: gaps; 2: gaps with air that moves on the warm side [-].
    pierced : float or array
        Resistance of the layer with the gaps, R_1 [m2K/W], from 0.
    total : float or array
        Resistance of the whole assembly, R_T [m2K/W], over 0.

    Returns
    -------
    float or array
        To be added to the transmittance [W/m2K]; left out where all corrections are under 3 % of it.

    References
    ----------
    [ISO6946] : annex F of 2017, annex D of 2007.

    Examples
    --------
    >>> round(float(air_void_correction(1, pierced=3.0, total=4.0)), 6)
    0.005625
    """
    within("level", level, 0, 2)
    return np.asarray((0.0, 0.01, 0.04)[level] * _share_of_layer(pierced, total))


def fastener_correction(
    conductivity: float, section: float, number: float, *, thickness: float, pierced: float, total: float
) -> float:
    """What screws or ties through an insulation add to the transmittance.

    ΔU = 0.8·λ_f·A_f·n_f/d·(R_1/R_T)²

    Parameters
    ----------
    conductivity : float
        Of a fastener, λ_f [W/m K], from 0.005 to 400; 50 for steel, 17 for stainless steel.
    section : float
        Of one, A_f [m2], from 0.
    number : float
        To a square metre, n_f [1/m2], from 0.
    thickness : float
        Of the insulation, pierced right through, d [m], over 0.
    pierced : float
        Resistance of that insulation, R_1 [m2K/W], from 0.
    total : float
        Resistance of the whole assembly, R_T [m2K/W], over 0.

    Returns
    -------
    float
        To be added to the transmittance [W/m2K].

    References
    ----------
    [ISO6946] : annex F of 2017, annex D of 2007.

    Examples
    --------
    >>> found = fastener_correction(50.0, section=1e-5, number=6.0, thickness=0.15, pierced=3.0, total=4.0)
    >>> round(float(found), 3)
    0.009
    """
    within("conductivity", conductivity, LEAST_CONDUCTIVITY, MOST_CONDUCTIVITY, unit="W/m K")
    within("section", section, 0.0, unit="m2")
    within("number", number, 0.0, unit="1/m2")
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    wires = 0.8 * conductivity * section * number / thickness
    return float(wires * _share_of_layer(pierced, total))


def rain_correction(rain: ArrayLike, above: ArrayLike, total: ArrayLike, *, joints: float = 0.04) -> Array:
    """What rain adds that runs between the boards of an insulation above the membrane.

    ΔU = p·(f·x)·(R_1/R_T)²

    Parameters
    ----------
    rain : float or array
        Mean rain of the heating season, p [mm/d], from 0.
    above : float or array
        Resistance of the insulation above the membrane, R_1 [m2K/W], from 0.
    total : float or array
        Resistance of the whole assembly, R_T [m2K/W], over 0.
    joints : float
        f·x [W d/m2K mm], from 0 to 0.04: 0.04 butted boards under gravel; 0.03 lapped ones or a sheet above.

    Returns
    -------
    float or array
        To be added to the transmittance [W/m2K].

    References
    ----------
    [ISO6946] : annex F of 2017, annex D of 2007.

    Examples
    --------
    >>> round(float(rain_correction(2.0, above=3.0, total=4.0)), 3)
    0.045
    """
    within("rain", rain, 0.0, unit="mm/d")
    within("joints", joints, 0.0, 0.04)
    return np.asarray(np.asarray(rain, dtype=float) * joints * _share_of_layer(above, total))


def _share_of_layer(layer: ArrayLike, total: ArrayLike) -> Array:
    within("resistance of the layer", layer, 0.0, unit="m2K/W")
    within("resistance of the assembly", total, 0.0, unit="m2K/W", open_low=True)
    return np.asarray((np.asarray(layer, dtype=float) / np.asarray(total, dtype=float)) ** 2)
