"""How far nails give way, now and after years, and what that leaves of a composite section."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MM = 1e-3
LARGEST_NAIL = 0.008


@dataclass(frozen=True, slots=True, kw_only=True)
class Composite:
    """Two flat boards held together by nails that slip."""

    efficiency: Array
    """γ: 0 for loose boards, 1 for glued ones."""
    stiffness: Array
    """Bending stiffness (Nm2)."""


def nail_slip_modulus(density: ArrayLike, diameter: ArrayLike, *, predrilled: bool = False) -> Array:
    """Force per slip of one nail in one shear plane in service.

    K_ser = ρ_m^1.5·d^0.8/30 in N/mm, d in mm; predrilled ρ_m^1.5·d/23

    Parameters
    ----------
    density : float or array
        Mean density [kg/m3], > 0; of two timbers √(ρ_1·ρ_2).
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    predrilled : bool
        Whether holes are drilled first [-].

    Returns
    -------
    array
        Slip modulus [N/m].

    References
    ----------
    [EN1995] table 7.1.

    Examples
    --------
    >>> round(float(nail_slip_modulus(420.0, 0.004)) / 1e3)
    870
    """
    within("density", density, 0.0, unit="kg/m3", open_low=True)
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    d = np.asarray(diameter, dtype=np.float64) / MM
    shape = d / 23 if predrilled else d**0.8 / 30
    return np.asarray(density, dtype=np.float64) ** 1.5 * shape / MM


def ultimate_slip_modulus(slip_modulus: ArrayLike) -> Array:
    """Slip modulus near the capacity of the nail.

    K_u = 2/3·K_ser

    Parameters
    ----------
    slip_modulus : float or array
        Slip modulus in service [N/m], > 0.

    Returns
    -------
    array
        Slip modulus for checks of strength [N/m].

    References
    ----------
    [EN1995] eq. 2.1.

    Examples
    --------
    >>> round(float(ultimate_slip_modulus(870e3)) / 1e3)
    580
    """
    within("slip modulus", slip_modulus, 0.0, unit="N/m", open_low=True)
    return 2 * np.asarray(slip_modulus, dtype=np.float64) / 3


def final_modulus(modulus: ArrayLike, k_def: ArrayLike, *, psi2: ArrayLike = 1.0) -> Array:
    """Modulus of timber after long years of load.

    E_fin = E/(1 + ψ_2·k_def)

    Parameters
    ----------
    modulus : float or array
        Modulus [Pa], > 0.
    k_def : float or array
        Deformation factor [-], ≥ 0.
    psi2 : float or array
        Lasting share of the action that stresses most [-], 0 to 1; 1 for permanent ones.

    Returns
    -------
    array
        Final modulus [Pa].

    References
    ----------
    [EN1995] eq. 2.7 and 2.10.

    Examples
    --------
    >>> round(float(final_modulus(9e9, 0.8)) / 1e9, 1)
    5.0
    """
    within("modulus", modulus, 0.0, unit="Pa", open_low=True)
    return np.asarray(modulus, dtype=np.float64) / (1 + _lasting(psi2, k_def))


def final_slip_modulus(slip_modulus: ArrayLike, k_def: ArrayLike, *, psi2: ArrayLike = 1.0) -> Array:
    """Slip modulus of a joint of two equal timbers after long years of load.

    K_fin = K/(1 + ψ_2·2·k_def)

    Parameters
    ----------
    slip_modulus : float or array
        Slip modulus [N/m], > 0.
    k_def : float or array
        Deformation factor of the timber [-], ≥ 0; joints creep twice as much.
    psi2 : float or array
        Lasting share of the action that stresses most [-], 0 to 1; 1 for permanent ones.

    Returns
    -------
    array
        Final slip modulus [N/m].

    References
    ----------
    [EN1995] eq. 2.9, 2.12 and 2.3.2.2 (3); [PORTEOUS2007].

    Examples
    --------
    >>> round(float(final_slip_modulus(870e3, 0.8)) / 1e3)
    335
    """
    within("slip modulus", slip_modulus, 0.0, unit="N/m", open_low=True)
    return np.asarray(slip_modulus, dtype=np.float64) / (1 + 2 * _lasting(psi2, k_def))


def composite_stiffness(
    width: ArrayLike,
    thickness: ArrayLike,
    *,
    modulus: ArrayLike,
    slip_modulus: ArrayLike,
    spacing: ArrayLike,
    span: ArrayLike,
) -> Composite:
    """Two equal boards laid flat on each other and nailed.

    γ = 1/(1 + π²·E·A·s/(K·l²)); a_2 = γ·t/(1 + γ), a_1 = t − a_2; EI = 2·E·I + γ·E·A·a_1² + E·A·a_2²

    Parameters
    ----------
    width : float or array
        Width of the boards [m], > 0.
    thickness : float or array
        Thickness t of each board [m], > 0.
    modulus : float or array
        Modulus along the grain [Pa], > 0.
    slip_modulus : float or array
        Slip modulus of all nails side by side at one place [N/m], > 0.
    spacing : float or array
        Spacing of those places [m], > 0.
    span : float or array
        Span of the beam [m], > 0.

    Returns
    -------
    Composite
        Efficiency [-] and bending stiffness [Nm2].

    References
    ----------
    [EN1995] annex B, eq. B.1 to B.6.

    Examples
    --------
    >>> two = composite_stiffness(0.145, 0.045, modulus=11e9, slip_modulus=2 * 870e3, spacing=0.1, span=3.0)
    >>> round(float(two.efficiency), 3)
    0.181
    """
    for name, value in (("width", width), ("thickness", thickness), ("modulus", modulus)):
        within(name, value, 0.0, open_low=True)
    for name, value in (("slip modulus", slip_modulus), ("spacing", spacing), ("span", span)):
        within(name, value, 0.0, open_low=True)
    b, t = np.asarray(width, dtype=np.float64), np.asarray(thickness, dtype=np.float64)
    stretch = np.asarray(modulus, dtype=np.float64) * b * t
    slip = (
        np.pi**2
        * stretch
        * np.asarray(spacing, dtype=np.float64)
        / (np.asarray(slip_modulus, dtype=np.float64) * np.asarray(span, dtype=np.float64) ** 2)
    )
    gamma = 1 / (1 + slip)
    second = gamma * t / (1 + gamma)
    stiffness = stretch * t**2 / 6 + gamma * stretch * (t - second) ** 2 + stretch * second**2
    return Composite(efficiency=gamma, stiffness=stiffness)


def _lasting(psi2: ArrayLike, k_def: ArrayLike) -> Array:
    within("deformation factor", k_def, 0.0)
    within("lasting share", psi2, 0.0, 1.0)
    return np.asarray(psi2, dtype=np.float64) * np.asarray(k_def, dtype=np.float64)
