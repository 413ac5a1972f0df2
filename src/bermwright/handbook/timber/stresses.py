"""Strength used by bending, axial force, shear and bearing."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

CRACKS = 0.67
"""kcr of solid timber."""


def bending_with_compression(
    bending: ArrayLike,
    compression: ArrayLike,
    *,
    bending_strength: ArrayLike,
    compression_strength: ArrayLike,
) -> Array:
    r"""Strength used by bending about one axis with compression along the grain.

    :math:`(\sigma_c / f_c)^2 + \sigma_m / f_m`

    Parameters
    ----------
    bending : float or array
        Bending stress, from 0; NaN stays unknown [Pa].
    compression : float or array
        Compressive stress, + compression [Pa].
    bending_strength : float or array
        Design bending strength [Pa], above 0.
    compression_strength : float or array
        Design compressive strength [Pa], above 0.

    Returns
    -------
    array
        Share of the strength [-]; up to 1 holds.

    References
    ----------
    [EN1995] 6.2.4, equation 6.19.

    Examples
    --------
    >>> round(
    ...     float(bending_with_compression(13.34, 0.91, bending_strength=8.62, compression_strength=9.85)), 2
    ... )
    1.56
    """
    _strengths(bending_strength, compression_strength)
    squeeze = np.asarray(compression, dtype=float) / compression_strength
    return squeeze**2 + np.asarray(bending, dtype=float) / bending_strength


def bending_with_tension(
    bending: ArrayLike, tension: ArrayLike, *, bending_strength: ArrayLike, tension_strength: ArrayLike
) -> Array:
    r"""Strength used by bending about one axis with tension along the grain.

    :math:`\sigma_t / f_t + \sigma_m / f_m`

    Parameters
    ----------
    bending : float or array
        Bending stress, from 0; NaN stays unknown [Pa].
    tension : float or array
        Tensile stress, + tension [Pa].
    bending_strength : float or array
        Design bending strength [Pa], above 0.
    tension_strength : float or array
        Design tensile strength [Pa], above 0.

    Returns
    -------
    array
        Share of the strength [-]; up to 1 holds.

    References
    ----------
    [EN1995] 6.2.3, equation 6.17.

    Examples
    --------
    >>> float(bending_with_tension(4.0, 1.0, bending_strength=8.0, tension_strength=4.0))
    0.75
    """
    _strengths(bending_strength, tension_strength)
    return (
        np.asarray(tension, dtype=float) / tension_strength
        + np.asarray(bending, dtype=float) / bending_strength
    )


def _strengths(*strengths: ArrayLike) -> None:
    for strength in strengths:
        within("design strength", strength, 0.0, unit="Pa", open_low=True)


def shear_stress(force: ArrayLike, width: ArrayLike, depth: ArrayLike) -> Array:
    r"""Largest shear stress of a rectangular section that may be cracked.

    :math:`\tau = \frac{3}{2}\frac{|V|}{k_{cr}\,b\,h}`, :math:`k_{cr} = 0.67`

    Parameters
    ----------
    force : float or array
        Shear force [N].
    width : float or array
        Width [m], above 0.
    depth : float or array
        Depth [m], above 0.

    Returns
    -------
    array
        Shear stress [Pa].

    References
    ----------
    [EN1995] 6.1.7, equation 6.13a.

    Examples
    --------
    >>> round(float(shear_stress(1000.0, 0.1, 0.2)))
    111940
    """
    within("width", width, 0.0, 5.0, unit="m", open_low=True)
    within("depth", depth, 0.0, 5.0, unit="m", open_low=True)
    return 1.5 * np.abs(force) / (CRACKS * np.asarray(width, dtype=float) * depth)


def compression_at_angle(
    along: ArrayLike, across: ArrayLike, angle: ArrayLike, contact: ArrayLike = 1.0
) -> Array:
    r"""Compressive strength at an angle to the grain.

    :math:`f_\alpha = \frac{f_0}{\frac{f_0}{k_{90} f_{90}}\sin^2\alpha + \cos^2\alpha}`

    Parameters
    ----------
    along : float or array
        Design strength along the grain [Pa], above 0.
    across : float or array
        Design strength across the grain [Pa], above 0.
    angle : float or array
        Angle between force and grain [rad], 0 to pi/2.
    contact : float or array
        kc,90, how the load spreads across the grain [-], 1 to 1.75.

    Returns
    -------
    array
        Design strength at that angle [Pa].

    References
    ----------
    [EN1995] 6.2.2, equation 6.16.

    Examples
    --------
    >>> (
    ...     round(float(compression_at_angle(12.0, 2.0, np.pi / 2)), 3),
    ...     float(compression_at_angle(12.0, 2.0, 0.0)),
    ... )
    (2.0, 12.0)
    """
    _strengths(along, across)
    within("angle to the grain", angle, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    within("kc,90", contact, 1.0, 1.75)
    f0 = np.asarray(along, dtype=float)
    return f0 / (f0 / (np.asarray(contact) * np.asarray(across)) * np.sin(angle) ** 2 + np.cos(angle) ** 2)


def plank_bending(pressure: ArrayLike, span: ArrayLike) -> Array:
    r"""Largest bending of a plank over two spans or one, per metre of its width.

    :math:`m = p\,l^2 / 8`

    Parameters
    ----------
    pressure : float or array
        Pressure square to the plank [Pa].
    span : float or array
        Distance of the ribs [m], above 0.

    Returns
    -------
    array
        Bending moment per metre of width [N].

    Notes
    -----
    One span and two equal spans have the same largest moment; more spans have less.

    References
    ----------
    [EN1995] 5.4 with ordinary statics.

    Examples
    --------
    >>> float(plank_bending(20e3, 0.6))
    900.0
    """
    within("span", span, 0.0, 10.0, unit="m", open_low=True)
    return np.abs(pressure) * np.asarray(span, dtype=float) ** 2 / 8.0


def plank_shear(pressure: ArrayLike, span: ArrayLike) -> Array:
    r"""Largest shear of a plank over two spans, per metre of its width.

    :math:`v = \frac{5}{8} p\,l`

    Parameters
    ----------
    pressure : float or array
        Pressure square to the plank [Pa].
    span : float or array
        Distance of the ribs [m], above 0.

    Returns
    -------
    array
        Shear force per metre of width [N/m].

    References
    ----------
    [EN1995] 5.4 with ordinary statics.

    Examples
    --------
    >>> float(plank_shear(20e3, 0.6))
    7500.0
    """
    within("span", span, 0.0, 10.0, unit="m", open_low=True)
    return 0.625 * np.abs(pressure) * np.asarray(span, dtype=float)
