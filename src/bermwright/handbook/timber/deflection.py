"""Deflection: of a beam at once, and of timber after years of load."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]


def simple_beam_deflection(
    load: ArrayLike, span: ArrayLike, *, bending_stiffness: ArrayLike, shear_stiffness: ArrayLike
) -> Array:
    """Deflection in the middle of a beam on two supports under a uniform load.

    w = 5·q·l⁴/(384·EI) + 1.2·q·l²/(8·GA)

    Parameters
    ----------
    load : float or array
        Load q along the beam [N/m].
    span : float or array
        Span l [m], > 0.
    bending_stiffness : float or array
        EI [Nm2], > 0.
    shear_stiffness : float or array
        GA of the rectangle [N], > 0.

    Returns
    -------
    array
        Deflection [m].

    References
    ----------
    [BENOIT2008] example 2.3.1.

    Examples
    --------
    >>> deflection = simple_beam_deflection(1000.0, 4.5, bending_stiffness=550e3, shear_stiffness=1.035e7)
    >>> round(float(deflection) * 1e3, 2)
    10.0
    """
    within("load", load, unit="N/m")
    within("span", span, 0.0, unit="m", open_low=True)
    within("bending stiffness", bending_stiffness, 0.0, unit="Nm2", open_low=True)
    within("shear stiffness", shear_stiffness, 0.0, unit="N", open_low=True)
    q, length = np.asarray(load, dtype=np.float64), np.asarray(span, dtype=np.float64)
    bent = 5 * q * length**4 / (384 * np.asarray(bending_stiffness, dtype=np.float64))
    return bent + 1.2 * q * length**2 / (8 * np.asarray(shear_stiffness, dtype=np.float64))


def final_deflection(
    permanent: ArrayLike, variable: ArrayLike, *, k_def: ArrayLike, psi2: ArrayLike
) -> Array:
    """Deflection after long years.

    w_fin = w_G·(1 + k_def) + w_Q·(1 + ψ_2·k_def)

    Parameters
    ----------
    permanent : float or array
        First deflection under permanent load [m].
    variable : float or array
        First deflection under the leading variable load [m].
    k_def : float or array
        Deformation factor [-], ≥ 0.
    psi2 : float or array
        Lasting share of the variable load [-], 0 to 1.

    Returns
    -------
    array
        Final deflection [m].

    References
    ----------
    [EN1995] eq. 2.2 to 2.4.

    Examples
    --------
    >>> round(float(final_deflection(0.004, 0.006, k_def=0.6, psi2=0.2)) * 1e3, 2)
    13.12
    """
    within("deflection", permanent, unit="m")
    within("deflection", variable, unit="m")
    within("deformation factor", k_def, 0.0)
    within("lasting share", psi2, 0.0, 1.0)
    creep = np.asarray(k_def, dtype=np.float64)
    return np.asarray(permanent, dtype=np.float64) * (1 + creep) + np.asarray(variable, dtype=np.float64) * (
        1 + np.asarray(psi2, dtype=np.float64) * creep
    )
