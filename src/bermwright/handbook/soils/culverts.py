"""Soil-culvert interaction: a second opinion on the bending of a buried arch in a wide level fill.

Worked out for steel culverts; never the check of a timber rib, only a comparison of order. All
coefficients are from memory.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

STIFFEST, SOFTEST = 10.0, 1e6
"""Range of the flexibility number for which the coefficients stay sensible."""
FLEXIBLE_FROM = 5000.0
FLATTEST, TALLEST = 0.2, 0.6


def flexibility_number(modulus: ArrayLike, span: ArrayLike, *, wall_stiffness: ArrayLike) -> Array:
    r"""Stiffness of the fill over that of the arch.

    :math:`N_f = E_s S^3 / (EI)`

    Parameters
    ----------
    modulus : float or array
        Young's modulus of the fill at its mean stress [Pa], above 0.
    span : float or array
        Span S [m], above 0.
    wall_stiffness : float or array
        Bending stiffness of the arch per metre of its length [N m2/m], above 0.

    Returns
    -------
    array
        Flexibility number [-].

    References
    ----------
    [DUNCAN1979] soil-culvert interaction.

    Examples
    --------
    >>> round(float(flexibility_number(7.8e6, 4.8, wall_stiffness=1186e3)))
    727
    """
    within("modulus", modulus, 0.0, unit="Pa", open_low=True)
    within("span", span, 0.0, unit="m", open_low=True)
    within("stiffness of the wall", wall_stiffness, 0.0, unit="N m", open_low=True)
    fill = np.asarray(modulus, dtype=np.float64) * np.asarray(span, dtype=np.float64) ** 3
    return fill / np.asarray(wall_stiffness, dtype=np.float64)


def shape_factor(rise: ArrayLike, span: ArrayLike) -> Array:
    r"""Reduction of bending for the shape of the arch.

    :math:`R_B = 0.67 + 0.87 (R/S - 0.2)` up to 0.35, :math:`0.80 + 1.33 (R/S - 0.35)` up to 0.5,
    :math:`2 R/S` up to 0.6

    Parameters
    ----------
    rise : float or array
        Rise R of the part above the widest level [m], 0.2 to 0.6 of the span.
    span : float or array
        Span S [m], above 0.

    Returns
    -------
    array
        Shape factor [-].

    References
    ----------
    [DUNCAN1979] soil-culvert interaction.

    Examples
    --------
    >>> round(float(shape_factor(2.2, 4.8)), 3)
    0.944
    """
    within("span", span, 0.0, unit="m", open_low=True)
    ratio = np.asarray(rise, dtype=np.float64) / np.asarray(span, dtype=np.float64)
    within("rise over span", ratio, FLATTEST, TALLEST)
    low, middle = 0.67 + 0.87 * (ratio - 0.2), 0.80 + 1.33 * (ratio - 0.35)
    factor: Array = np.where(ratio <= 0.35, low, np.where(ratio <= 0.5, middle, 2 * ratio))  # noqa: PLR2004  (the source's own steps)
    return factor


def moment_at_crown_level(
    unit_weight: ArrayLike, span: ArrayLike, *, rise: ArrayLike, flexibility: ArrayLike
) -> Array:
    r"""Bending when the fill has come up to the crown, which it pushes up.

    :math:`M_1 = R_B K_{M1} \gamma S^3`, :math:`K_{M1} = 0.0046 - 0.0010 \log_{10} N_f`, 0.0009 from 5000 on

    Parameters
    ----------
    unit_weight : float or array
        Unit weight of the fill [N/m3], from 0.
    span : float or array
        Span S [m], above 0.
    rise : float or array
        Rise of the part above the widest level [m], 0.2 to 0.6 of the span.
    flexibility : float or array
        Flexibility number [-], 10 to 1e6.

    Returns
    -------
    array
        Bending moment per metre [N m/m], its size.

    References
    ----------
    [DUNCAN1979] soil-culvert interaction.

    Examples
    --------
    >>> round(float(moment_at_crown_level(19e3, 4.8, rise=2.2, flexibility=729)) / 1e3, 2)
    3.45
    """
    within("unit weight", unit_weight, 0.0, unit="N/m3")
    within("flexibility number", flexibility, STIFFEST, SOFTEST)
    flexible = np.asarray(flexibility, dtype=np.float64)
    share = np.where(flexible <= FLEXIBLE_FROM, 0.0046 - 0.0010 * np.log10(flexible), 0.0009)
    weight = np.asarray(unit_weight, dtype=np.float64) * np.asarray(span, dtype=np.float64) ** 3
    return shape_factor(rise, span) * share * weight


def moment_change_by_cover(
    unit_weight: ArrayLike, span: ArrayLike, *, cover: ArrayLike, rise: ArrayLike, flexibility: ArrayLike
) -> Array:
    r"""How much of the bending at crown level the cover takes back.

    :math:`\Delta M = -R_B K_{M2} \gamma S^2 H`, :math:`K_{M2} = 0.018 - 0.004 \log_{10} N_f`,
    0.0032 from 5000 on

    Parameters
    ----------
    unit_weight : float or array
        Unit weight of the cover [N/m3], from 0.
    span : float or array
        Span S [m], above 0.
    cover : float or array
        Cover H over the crown [m], from 0.
    rise : float or array
        Rise of the part above the widest level [m], 0.2 to 0.6 of the span.
    flexibility : float or array
        Flexibility number [-], 10 to 1e6.

    Returns
    -------
    array
        Change of the bending moment per metre [N m/m], against that at crown level.

    References
    ----------
    [DUNCAN1979] soil-culvert interaction.

    Examples
    --------
    >>> change = moment_change_by_cover(19e3, 4.8, cover=1.0, rise=2.2, flexibility=729)
    >>> round(float(change) / 1e3, 2)
    -2.71
    """
    within("unit weight", unit_weight, 0.0, unit="N/m3")
    within("cover", cover, 0.0, unit="m")
    within("flexibility number", flexibility, STIFFEST, SOFTEST)
    flexible = np.asarray(flexibility, dtype=np.float64)
    share = np.where(flexible <= FLEXIBLE_FROM, 0.018 - 0.004 * np.log10(flexible), 0.0032)
    weight = np.asarray(unit_weight, dtype=np.float64) * np.asarray(span, dtype=np.float64) ** 2
    return -shape_factor(rise, span) * share * weight * np.asarray(cover, dtype=np.float64)


def ring_thrust(unit_weight: ArrayLike, span: ArrayLike, *, rise: ArrayLike, cover: ArrayLike) -> Array:
    r"""Axial force of the arch.

    :math:`P = 0.20 \tfrac{R}{S} \gamma S^2 + (0.90 - 0.50 \tfrac{R}{S}) \gamma S H`

    Parameters
    ----------
    unit_weight : float or array
        Unit weight of the fill [N/m3], from 0.
    span : float or array
        Span S [m], above 0.
    rise : float or array
        Rise R of the part above the widest level [m], 0.2 to 0.6 of the span.
    cover : float or array
        Cover H over the crown [m], from 0.

    Returns
    -------
    array
        Axial force per metre [N/m].

    References
    ----------
    [DUNCAN1979] soil-culvert interaction.

    Examples
    --------
    >>> round(float(ring_thrust(19e3, 4.8, rise=2.2, cover=0.0)) / 1e3, 1)
    40.1
    """
    within("unit weight", unit_weight, 0.0, unit="N/m3")
    within("span", span, 0.0, unit="m", open_low=True)
    within("cover", cover, 0.0, unit="m")
    width = np.asarray(span, dtype=np.float64)
    ratio = np.asarray(rise, dtype=np.float64) / width
    within("rise over span", ratio, FLATTEST, TALLEST)
    beside = 0.20 * ratio * width**2
    above = (0.90 - 0.50 * ratio) * width * np.asarray(cover, dtype=np.float64)
    return (beside + above) * np.asarray(unit_weight, dtype=np.float64)


def arching_factor(friction: ArrayLike, cover: ArrayLike, *, span: ArrayLike) -> Array:
    r"""Share of the cover that still presses where soil arches over a yielding pipe.

    :math:`S = (1 - e^{-\kappa})/\kappa`, :math:`\kappa = 2 S_v H/D`,
    :math:`S_v = 0.8 \tan\varphi / (\sqrt{1 + \tan^2\varphi} + 0.45 \tan\varphi)^2`

    Parameters
    ----------
    friction : float or array
        Angle of friction of the cover [rad], above 0 to 0.873.
    cover : float or array
        Cover H over the crown [m], above 0.
    span : float or array
        Span D [m], above 0.

    Returns
    -------
    array
        Factor on the weight of the cover [-], never taken for a vault in open fill.

    References
    ----------
    [PETTERSSON2014] arching.

    Examples
    --------
    >>> round(float(arching_factor(np.radians(32.0), 0.35, span=4.8)), 3)
    0.983
    """
    within("angle of friction", friction, 0.0, np.radians(50.0), unit="rad", open_low=True)
    within("cover", cover, 0.0, unit="m", open_low=True)
    within("span", span, 0.0, unit="m", open_low=True)
    tangent = np.tan(np.asarray(friction, dtype=np.float64))
    shear = 0.8 * tangent / (np.sqrt(1 + tangent**2) + 0.45 * tangent) ** 2
    kappa = 2 * shear * np.asarray(cover, dtype=np.float64) / np.asarray(span, dtype=np.float64)
    factor: Array = -np.expm1(-kappa) / kappa
    return factor
