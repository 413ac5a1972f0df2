"""Nails: what one carries, how it slips, and how far nails must keep from each other and from edges."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

THICK = 5e-3
"""From this diameter on nails keep further away along the grain (m)."""


def nail_yield_moment(diameter: ArrayLike, wire_strength: ArrayLike) -> Array:
    r"""Characteristic yield moment of a round nail.

    :math:`M_y = 0.3 f_u d^{2.6}` (N, mm)

    Parameters
    ----------
    diameter : float or array
        Diameter [m], 0.0018 to 0.008.
    wire_strength : float or array
        Tensile strength of the wire [Pa], 4e8 to 2e9.

    Returns
    -------
    array
        Yield moment [N m].

    References
    ----------
    [EN1995] 8.3.1.1, equation 8.14.

    Examples
    --------
    >>> round(float(nail_yield_moment(4e-3, 600e6)) * 1e3)
    6617
    """
    within("nail diameter", diameter, 1.8e-3, 8e-3, unit="m")
    within("wire strength", wire_strength, 4e8, 2e9, unit="Pa")
    d = np.asarray(diameter, dtype=float) * 1e3
    return 0.3 * (np.asarray(wire_strength) / 1e6) * d**2.6 / 1e3


def bearing_strength(density: ArrayLike, diameter: ArrayLike, *, predrilled: bool = False) -> Array:
    r"""Characteristic strength of the timber pressed by a nail.

    :math:`f_h = 0.082\rho_k d^{-0.3}`, predrilled :math:`0.082(1 - 0.01 d)\rho_k` (N, mm, kg/m3)

    Parameters
    ----------
    density : float or array
        Characteristic density [kg/m3], 290 to 1000.
    diameter : float or array
        Diameter [m], 0.0018 to 0.008.
    predrilled : bool
        Whether the holes are drilled before [-].

    Returns
    -------
    array
        Bearing strength [Pa].

    References
    ----------
    [EN1995] 8.3.1.1, equations 8.15 and 8.16.

    Examples
    --------
    >>> round(float(bearing_strength(350.0, 4e-3)) / 1e6, 2)
    18.93
    """
    within("density", density, 290.0, 1000.0, unit="kg/m3")
    within("nail diameter", diameter, 1.8e-3, 8e-3, unit="m")
    d = np.asarray(diameter, dtype=float) * 1e3
    shape = (1.0 - 0.01 * d) if predrilled else d**-0.3
    return 0.082 * np.asarray(density, dtype=float) * shape * 1e6


def single_shear(
    head: ArrayLike, point: ArrayLike, *, bearing: ArrayLike, diameter: ArrayLike, moment: ArrayLike
) -> Array:
    r"""Characteristic resistance of one nail in single shear between two equal timbers, no rope effect.

    The least of Johansen's modes a to f with :math:`\beta = 1`.

    Parameters
    ----------
    head : float or array
        Thickness under the head t1 [m], above 0.
    point : float or array
        Depth of the point in the other timber t2 [m], above 0.
    bearing : float or array
        Bearing strength of both [Pa], above 0.
    diameter : float or array
        Diameter [m], 0.0018 to 0.008.
    moment : float or array
        Yield moment of the nail [N m], above 0.

    Returns
    -------
    array
        Resistance of one shear plane [N].

    References
    ----------
    [EN1995] 8.2.2, equation 8.6.

    Examples
    --------
    >>> fh, my = bearing_strength(350.0, 4e-3), nail_yield_moment(4e-3, 600e6)
    >>> round(float(single_shear(0.045, 0.055, bearing=fh, diameter=4e-3, moment=my)))
    1151
    """
    for name, value in (("head-side timber", head), ("point-side timber", point), ("yield moment", moment)):
        within(name, value, 0.0, open_low=True)
    within("bearing strength", bearing, 0.0, unit="Pa", open_low=True)
    within("nail diameter", diameter, 1.8e-3, 8e-3, unit="m")
    return np.min(np.stack(_johansen(head, point, bearing, diameter, moment)), axis=0)


def _johansen(
    head: ArrayLike, point: ArrayLike, bearing: ArrayLike, diameter: ArrayLike, moment: ArrayLike
) -> list[Array]:
    t1, t2 = np.asarray(head, dtype=float), np.asarray(point, dtype=float)
    line = np.asarray(bearing, dtype=float) * diameter
    bend = np.asarray(moment, dtype=float) / line
    ratio = t2 / t1
    mode_c = line * t1 / 2 * (np.sqrt(1 + 2 * (1 + ratio + ratio**2) + ratio**2) - (1 + ratio))
    mode_d = 1.05 * line * t1 / 3 * (np.sqrt(4 + 12 * bend / t1**2) - 1)
    mode_e = 1.05 * line * t2 / 3 * (np.sqrt(4 + 12 * bend / t2**2) - 1)
    mode_f = 1.15 * np.sqrt(2 * np.asarray(moment) * line)
    return list(np.broadcast_arrays(line * t1, line * t2, mode_c, mode_d, mode_e, mode_f))


def effective_number(count: ArrayLike, spacing: ArrayLike, diameter: ArrayLike) -> Array:
    r"""Nails that count in one row along the grain.

    :math:`n_{ef} = n^{k_{ef}}`, kef 1.0 at a spacing of 14 d, 0.85 at 10 d, 0.7 at 7 d

    Parameters
    ----------
    count : float or array
        Nails in the row [-], from 1.
    spacing : float or array
        Spacing along the grain [m], from 7 diameters.
    diameter : float or array
        Diameter [m], 0.0018 to 0.008.

    Returns
    -------
    array
        Number that counts [-].

    References
    ----------
    [EN1995] 8.3.1.1, equation 8.17 and table 8.1.

    Examples
    --------
    >>> round(float(effective_number(4, 0.040, 4e-3)), 2)
    3.25
    """
    within("number of nails", count, 1.0, 1e4)
    within("nail diameter", diameter, 1.8e-3, 8e-3, unit="m")
    apart = np.asarray(spacing, dtype=float) / diameter
    within("spacing over diameter", apart, 7.0 - 1e-9)
    return np.asarray(count, dtype=float) ** np.interp(apart, [7.0, 10.0, 14.0], [0.7, 0.85, 1.0])


def slip_modulus(density: ArrayLike, diameter: ArrayLike, *, predrilled: bool = False) -> Array:
    r"""Slip modulus of one nail in one shear plane, in use.

    :math:`K_{ser} = \rho_m^{1.5} d^{0.8}/30`, predrilled :math:`\rho_m^{1.5} d/23` (N/mm, kg/m3, mm)

    Parameters
    ----------
    density : float or array
        Mean density [kg/m3], 290 to 1000.
    diameter : float or array
        Diameter [m], 0.0018 to 0.008.
    predrilled : bool
        Whether the holes are drilled before [-].

    Returns
    -------
    array
        Slip modulus [N/m]; two thirds of it where strength is checked (2.2.2).

    References
    ----------
    [EN1995] 7.1, table 7.1.

    Examples
    --------
    >>> (
    ...     round(float(slip_modulus(420.0, 4e-3)) / 1e3),
    ...     round(float(slip_modulus(420.0, 4e-3, predrilled=True)) / 1e3),
    ... )
    (870, 1497)
    """
    within("density", density, 290.0, 1000.0, unit="kg/m3")
    within("nail diameter", diameter, 1.8e-3, 8e-3, unit="m")
    d = np.asarray(diameter, dtype=float) * 1e3
    shape = d / 23.0 if predrilled else d**0.8 / 30.0
    return np.asarray(density, dtype=float) ** 1.5 * shape * 1e3


@dataclass(frozen=True, slots=True, kw_only=True)
class NailSpacings:
    """Least distances of nails (m)."""

    along: Array
    """a1, between nails along the grain."""
    across: Array
    """a2, between rows."""
    end: Array
    """a3,t, to an end that the force pulls towards."""
    edge: Array
    """a4,t, to an edge that the force presses towards."""


def nail_spacings(diameter: ArrayLike, angle: ArrayLike, *, predrilled: bool = False) -> NailSpacings:
    r"""Least distances of nails for a force at an angle to the grain, density up to 420 kg/m3.

    not predrilled: :math:`a_1 = (5 + 5|\cos\alpha|)d` (7 for d from 5 mm), :math:`a_2 = 5d`,
    :math:`a_{3,t} = (10 + 5\cos\alpha)d`, :math:`a_{4,t} = (5 + 2\sin\alpha)d` (5 for d from 5 mm); predrilled:
    :math:`(4 + |\cos\alpha|)d`, :math:`(3 + |\sin\alpha|)d`, :math:`(7 + 5\cos\alpha)d`,
    :math:`(3 + 2\sin\alpha)d` (4 for d from 5 mm)

    Parameters
    ----------
    diameter : float or array
        Diameter [m], 0.0018 to 0.008.
    angle : float or array
        Angle between force and grain [rad], 0 to pi/2.
    predrilled : bool
        Whether the holes are drilled before [-].

    Returns
    -------
    NailSpacings
        a1, a2, a3,t and a4,t [m].

    References
    ----------
    [EN1995] 8.3.1.2, table 8.2.

    Examples
    --------
    >>> (
    ...     round(float(nail_spacings(3.1e-3, 0.0).along) * 1e3, 1),
    ...     round(float(nail_spacings(3.1e-3, 0.0).end) * 1e3, 1),
    ... )
    (31.0, 46.5)
    """
    within("nail diameter", diameter, 1.8e-3, 8e-3, unit="m")
    within("angle to the grain", angle, 0.0, 0.5 * np.pi + 1e-9, unit="rad")
    d = np.asarray(diameter, dtype=float)
    sine, cosine = np.sin(angle), np.cos(angle)
    thick = d >= THICK
    if predrilled:
        edge = (3.0 + np.where(thick, 4.0, 2.0) * sine) * d
        return NailSpacings(
            along=(4.0 + cosine) * d, across=(3.0 + sine) * d, end=(7.0 + 5.0 * cosine) * d, edge=edge
        )
    edge = (5.0 + np.where(thick, 5.0, 2.0) * sine) * d
    along = (5.0 + np.where(thick, 7.0, 5.0) * cosine) * d
    return NailSpacings(along=along, across=5.0 * d + 0.0 * sine, end=(10.0 + 5.0 * cosine) * d, edge=edge)
