"""From a characteristic strength to a design strength."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.data.timber_classes import K_DEF, K_DEF_GREEN, K_MOD

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

REFERENCE_DEPTH = 0.15
"""Depth (m) from which strength no longer grows as a board gets shallower."""
LARGEST_DEPTH_FACTOR = 1.3


def modification_factor(service_class: int, duration: str) -> float:
    """Share of its strength that timber keeps under a load of some duration.

    k_mod, by table

    Parameters
    ----------
    service_class : int
        1 (dry indoors), 2 (under a roof) or 3 (wet) [-].
    duration : str
        "permanent", "long-term", "medium-term", "short-term" or "instantaneous" [-].

    Returns
    -------
    float
        Modification factor [-].

    References
    ----------
    [EN1995] table 3.1, solid timber.

    Examples
    --------
    >>> modification_factor(2, "medium-term")
    0.8
    """
    if (service_class, duration) not in K_MOD:
        raise OutOfRangeError(
            f"There is no modification factor for service class {service_class}, {duration}."
        )
    return K_MOD[service_class, duration]


def deformation_factor(service_class: int, *, green: bool = False) -> float:
    """Creep of timber as a share of its first deflection.

    k_def, by table; 1.0 more for timber that dries out under load

    Parameters
    ----------
    service_class : int
        1 (dry indoors), 2 (under a roof) or 3 (wet) [-].
    green : bool
        Whether the timber is built in near fibre saturation and dries under load [-].

    Returns
    -------
    float
        Deformation factor [-].

    References
    ----------
    [EN1995] table 3.2 and 3.2 (4), solid timber.

    Examples
    --------
    >>> deformation_factor(2), deformation_factor(2, green=True)
    (0.8, 1.8)
    """
    if service_class not in K_DEF:
        raise OutOfRangeError(f"There is no deformation factor for service class {service_class}.")
    return K_DEF[service_class] + (K_DEF_GREEN.value if green else 0.0)


def design_strength(characteristic: ArrayLike, k_mod: ArrayLike, *, gamma: ArrayLike) -> Array:
    """Strength to design with.

    X_d = k_mod·X_k/γ_M

    Parameters
    ----------
    characteristic : float or array
        Characteristic strength [Pa], or capacity of a nail [N]; ≥ 0.
    k_mod : float or array
        Modification factor [-], 0 to 1.1.
    gamma : float or array
        Partial factor of the material [-], ≥ 1.

    Returns
    -------
    array
        Design strength [Pa], or capacity [N].

    References
    ----------
    [EN1995] eq. 2.14.

    Examples
    --------
    >>> round(float(design_strength(24e6, 0.8, gamma=1.3)) / 1e6, 3)
    14.769
    """
    within("strength", characteristic, 0.0)
    within("modification factor", k_mod, 0.0, 1.1)
    within("partial factor", gamma, 1.0)
    return (
        np.asarray(k_mod, dtype=np.float64)
        * np.asarray(characteristic, dtype=np.float64)
        / np.asarray(gamma, dtype=np.float64)
    )


def depth_factor(depth: ArrayLike) -> Array:
    """Gain in bending or tension strength of a board shallower than 150 mm.

    k_h = min((150 mm/h)^0.2, 1.3), not below 1

    Parameters
    ----------
    depth : float or array
        Depth of the section in bending, or its larger side in tension [m], > 0.

    Returns
    -------
    array
        Factor on bending and tension strength [-].

    Notes
    -----
    For solid timber with a characteristic density of at most 700 kg/m3.

    References
    ----------
    [EN1995] eq. 3.1.

    Examples
    --------
    >>> round(float(depth_factor(0.1)), 3)
    1.084
    """
    within("depth", depth, 0.0, unit="m", open_low=True)
    gain = (REFERENCE_DEPTH / np.asarray(depth, dtype=np.float64)) ** 0.2
    return np.clip(gain, 1.0, LARGEST_DEPTH_FACTOR)
