"""Factors on timber strength and stiffness for damp, time and size."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

Array = NDArray[np.float64]

MATERIAL_FACTOR_SOLID = 1.3
"""Partial factor of solid timber, EN 1995-1-1 table 2.3."""

MODIFICATION = {
    1: {"permanent": 0.60, "long-term": 0.70, "medium-term": 0.80, "short-term": 0.90, "instantaneous": 1.10},
    2: {"permanent": 0.60, "long-term": 0.70, "medium-term": 0.80, "short-term": 0.90, "instantaneous": 1.10},
    3: {"permanent": 0.50, "long-term": 0.55, "medium-term": 0.65, "short-term": 0.70, "instantaneous": 0.90},
}
DEFORMATION = {1: 0.60, 2: 0.80, 3: 2.00}


def modification_factor(service_class: int, duration: str) -> float:
    r"""Factor :math:`k_{mod}` on the strength of solid timber for damp and duration of load.

    Parameters
    ----------
    service_class : int
        1 dry, 2 under a roof, 3 wet [-].
    duration : str
        permanent, long-term, medium-term, short-term or instantaneous [-].

    Returns
    -------
    float
        kmod [-].

    References
    ----------
    [EN1995] table 3.1.

    Examples
    --------
    >>> modification_factor(2, "permanent"), modification_factor(3, "medium-term")
    (0.6, 0.65)
    """
    try:
        return MODIFICATION[service_class][duration]
    except KeyError:
        message = f"There is no kmod for service class {service_class} and duration {duration!r}."
        raise OutOfRangeError(message) from None


def deformation_factor(service_class: int) -> float:
    r"""Factor :math:`k_{def}` of creep of solid timber.

    Parameters
    ----------
    service_class : int
        1 dry, 2 under a roof, 3 wet [-].

    Returns
    -------
    float
        kdef [-]; a joint between two such pieces creeps by twice as much (2.3.2.2).

    References
    ----------
    [EN1995] table 3.2.

    Examples
    --------
    >>> deformation_factor(2)
    0.8
    """
    if service_class not in DEFORMATION:
        raise OutOfRangeError(f"There is no kdef for service class {service_class}; there are 1, 2 and 3.")
    return DEFORMATION[service_class]


def depth_factor(depth: ArrayLike) -> Array:
    r"""Factor on bending strength of shallow solid timber.

    :math:`k_h = \min((150\,\mathrm{mm}/h)^{0.2}, 1.3)` below 150 mm, else 1

    Parameters
    ----------
    depth : float or array
        Depth in bending [m], above 0.

    Returns
    -------
    array
        kh [-].

    References
    ----------
    [EN1995] 3.2, equation 3.1.

    Examples
    --------
    >>> round(float(depth_factor(0.100)), 3)
    1.084
    """
    within("depth", depth, 0.0, 5.0, unit="m", open_low=True)
    return np.clip((0.150 / np.asarray(depth, dtype=float)) ** 0.2, 1.0, 1.3)


def design_strength(
    strength: ArrayLike, modification: ArrayLike, material: ArrayLike = MATERIAL_FACTOR_SOLID
) -> Array:
    r"""Design value of a strength.

    :math:`f_d = k_{mod} f_k / \gamma_M`

    Parameters
    ----------
    strength : float or array
        Characteristic strength [Pa], from 0.
    modification : float or array
        kmod [-], 0 to 1.1.
    material : float or array
        Partial factor of the material [-], from 1.

    Returns
    -------
    array
        Design strength [Pa].

    References
    ----------
    [EN1995] 2.4.1, equation 2.14.

    Examples
    --------
    >>> round(float(design_strength(24e6, 0.8)) / 1e6, 3)
    14.769
    """
    within("strength", strength, 0.0, unit="Pa")
    within("kmod", modification, 0.0, 1.1)
    within("material factor", material, 1.0, 3.0)
    return np.asarray(modification) * np.asarray(strength, dtype=float) / np.asarray(material)


def final_deflection(permanent: ArrayLike, variable: ArrayLike, creep: ArrayLike, quasi: ArrayLike) -> Array:
    r"""Deflection after decades.

    :math:`u = u_G (1 + k_{def}) + u_Q (1 + \psi_2 k_{def})`

    Parameters
    ----------
    permanent : float or array
        Instant deflection under permanent load [m].
    variable : float or array
        Instant deflection under the variable load [m].
    creep : float or array
        kdef [-], from 0.
    quasi : float or array
        psi2 of the variable load [-], 0 to 1.

    Returns
    -------
    array
        Final deflection [m].

    References
    ----------
    [EN1995] 2.2.3, equations 2.3 and 2.4.

    Examples
    --------
    >>> round(float(final_deflection(4e-3, 6e-3, 0.6, 0.2)) * 1e3, 2)
    13.12
    """
    within("kdef", creep, 0.0, 4.0)
    within("psi2", quasi, 0.0, 1.0)
    k = np.asarray(creep, dtype=float)
    return np.asarray(permanent) * (1.0 + k) + np.asarray(variable) * (1.0 + np.asarray(quasi) * k)
