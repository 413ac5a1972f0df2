"""A thin cover on a slippery sheet of limited length: it leans on the wedge of soil at its toe.

Active part on the slope, passive wedge on the level before it, the force between them parallel to the
slope. Everything is for one metre along the slope's contour.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

WATER = 9810.0
"""Unit weight of water (N/m3)."""
STEEPEST = np.radians(60.0)
MOST_FRICTION = np.radians(50.0)


@dataclass(frozen=True, slots=True)
class _Parts:
    """Weights of both wedges, and what presses on the sheet (N/m)."""

    active: Array
    passive: Array
    normal: Array


def veneer_factor(
    length: ArrayLike,
    thickness: ArrayLike,
    *,
    slope: ArrayLike,
    unit_weight: ArrayLike,
    friction: ArrayLike,
    interface: ArrayLike,
    tension: ArrayLike = 0.0,
) -> Array:
    r"""Strength over what is asked for of a cover of even thickness on a sheet.

    :math:`aF^2 + bF + c = 0`, :math:`a = (W_A\sin\beta - T)\cos\beta`,
    :math:`b = -[N_A\tan\delta\cos\beta + (W_A\sin\beta - T)\sin\beta\tan\varphi + W_P\tan\varphi]`,
    :math:`c = N_A\tan\delta\sin\beta\tan\varphi`; the larger root

    Parameters
    ----------
    length : float or array
        Length of the slope L [m], above 0.
    thickness : float or array
        Thickness of the cover h, square to the slope [m], above 0.
    slope : float or array
        Slope [rad], above 0 to 1.047.
    unit_weight : float or array
        Unit weight of the cover [N/m3], above 0.
    friction : float or array
        Angle of friction of the cover soil [rad], 0 to 0.873.
    interface : float or array
        Angle of friction between cover and sheet [rad], 0 to 0.873.
    tension : float or array
        Pull of a net or grid that is held above the slope, T [N/m], from 0.

    Returns
    -------
    array
        Factor F; infinite where the net carries all of it [-].

    References
    ----------
    [KOERNER2005] gravity alone, and with reinforcement.

    Examples
    --------
    >>> angles = {"slope": np.radians(18.4), "friction": np.radians(30.0), "interface": np.radians(22.0)}
    >>> round(float(veneer_factor(30.0, 0.3, unit_weight=18e3, **angles)), 3)
    1.254
    """
    _check(length, thickness, slope, unit_weight, (friction, interface))
    within("tension", tension, 0.0, unit="N/m")
    parts = _parts(length, thickness, slope, unit_weight)
    drive = parts.active * np.sin(slope) - np.asarray(tension, dtype=float)
    return _root(drive, parts.normal * np.tan(interface), parts.passive, slope, friction)


def veneer_tension(
    length: ArrayLike,
    thickness: ArrayLike,
    *,
    slope: ArrayLike,
    unit_weight: ArrayLike,
    friction: ArrayLike,
    interface: ArrayLike,
    factor: ArrayLike,
) -> Array:
    r"""Pull of a net or grid with which a cover has a wanted factor; 0 where it needs none.

    :math:`T = W_A\sin\beta - \frac{F N_A\tan\delta\cos\beta + F W_P\tan\varphi
    - N_A\tan\delta\sin\beta\tan\varphi}{F^2\cos\beta - F\sin\beta\tan\varphi}`

    Parameters
    ----------
    length : float or array
        Length of the slope L [m], above 0.
    thickness : float or array
        Thickness of the cover h, square to the slope [m], above 0.
    slope : float or array
        Slope [rad], above 0 to 1.047.
    unit_weight : float or array
        Unit weight of the cover [N/m3], above 0.
    friction : float or array
        Angle of friction of the cover soil [rad], 0 to 0.873.
    interface : float or array
        Angle of friction between cover and sheet [rad], 0 to 0.873.
    factor : float or array
        Wanted factor F [-], from 1.

    Returns
    -------
    array
        Tension T [N/m].

    References
    ----------
    [KOERNER2005] with reinforcement, solved for its pull.

    Examples
    --------
    >>> found = veneer_tension(
    ...     4.0,
    ...     thickness=0.3,
    ...     slope=0.6109,
    ...     unit_weight=18000.0,
    ...     friction=0.5236,
    ...     interface=0.384,
    ...     factor=1.5,
    ... )
    >>> round(float(found))
    5318
    """
    _check(length, thickness, slope, unit_weight, (friction, interface))
    within("factor", factor, 1.0)
    parts, want = _parts(length, thickness, slope, unit_weight), np.asarray(factor, dtype=float)
    grip, roll = parts.normal * np.tan(interface), np.sin(slope) * np.tan(friction)
    held = want * grip * np.cos(slope) + want * parts.passive * np.tan(friction) - grip * roll
    drive = held / (want**2 * np.cos(slope) - want * roll)
    return np.asarray(np.maximum(parts.active * np.sin(slope) - drive, 0.0))


def seeping_veneer_factor(  # noqa: PLR0913  (one physical quantity each, all by name)
    length: ArrayLike,
    thickness: ArrayLike,
    *,
    slope: ArrayLike,
    unit_weight: ArrayLike,
    saturated_unit_weight: ArrayLike,
    friction: ArrayLike,
    interface: ArrayLike,
    wet_share: ArrayLike,
) -> Array:
    r"""The same with water running parallel to the slope in the lower part of the cover.

    :math:`W_A = \frac{\gamma(h - h_w)(2G - h - h_w) + \gamma_s h_w(2G - h_w)}{\sin 2\beta}`,
    :math:`U_n = \frac{\gamma_w h_w\cos\beta(2G - h_w)}{\sin 2\beta}`,
    :math:`U_h = \gamma_w h_w^2/2`, :math:`G = L\sin\beta\cos\beta`

    Parameters
    ----------
    length : float or array
        Length of the slope L [m], above 0.
    thickness : float or array
        Thickness of the cover h, square to the slope [m], above 0.
    slope : float or array
        Slope [rad], above 0 to 1.047.
    unit_weight : float or array
        Unit weight of the moist cover [N/m3], above 0.
    saturated_unit_weight : float or array
        Unit weight of the cover full of water [N/m3], above 0.
    friction : float or array
        Angle of friction of the cover soil [rad], 0 to 0.873.
    interface : float or array
        Angle of friction between cover and sheet [rad], 0 to 0.873.
    wet_share : float or array
        Share of the thickness that is full of running water [-], 0 to 1.

    Returns
    -------
    array
        Factor F [-].

    References
    ----------
    [KOERNER2005] seepage parallel to the slope.

    Examples
    --------
    >>> found = seeping_veneer_factor(
    ...     30.0,
    ...     thickness=0.3,
    ...     slope=0.3211,
    ...     unit_weight=18000.0,
    ...     saturated_unit_weight=21000.0,
    ...     friction=0.5236,
    ...     interface=0.384,
    ...     wet_share=0.5,
    ... )
    >>> round(float(found), 4)
    0.9412
    """
    _check(length, thickness, slope, unit_weight, (friction, interface))
    within("saturated unit weight", saturated_unit_weight, 0.0, unit="N/m3", open_low=True)
    within("wet share", wet_share, 0.0, 1.0)
    sine, cosine, twice = np.sin(slope), np.cos(slope), np.sin(2.0 * np.asarray(slope, dtype=float))
    thick = np.asarray(thickness, dtype=float)
    wet = np.asarray(wet_share, dtype=float) * thick
    along = 2.0 * np.asarray(length, dtype=float) * sine * cosine
    dry, full = np.asarray(unit_weight, dtype=float), np.asarray(saturated_unit_weight, dtype=float)
    active = (dry * (thick - wet) * (along - thick - wet) + full * wet * (along - wet)) / twice
    passive = (dry * (thick**2 - wet**2) + full * wet**2) / twice
    lift, push = WATER * wet * cosine * (along - wet) / twice, 0.5 * WATER * wet**2
    normal = np.maximum(active * cosine + push * sine - lift, 0.0)
    grip, roll = normal * np.tan(interface), np.tan(friction)
    first = active * sine * cosine - push * cosine**2 + push
    second = push * sine * cosine * roll - active * sine**2 * roll - grip * cosine
    second = second - (passive - push / np.tan(slope)) * roll
    return _larger(first, second, grip * sine * roll)


def machine_on_veneer_factor(  # noqa: PLR0913  (one physical quantity each, all by name)
    length: ArrayLike,
    thickness: ArrayLike,
    *,
    slope: ArrayLike,
    unit_weight: ArrayLike,
    friction: ArrayLike,
    interface: ArrayLike,
    machine: ArrayLike,
    braking: ArrayLike = 0.0,
) -> Array:
    r"""The same with a machine on the cover, and its braking or starting force down the slope.

    :math:`a = [(W_A + W_e)\sin\beta + W_e\,a_b]\cos\beta`, the normal force raised by
    :math:`W_e\cos\beta`

    Parameters
    ----------
    length : float or array
        Length of the slope L [m], above 0.
    thickness : float or array
        Thickness of the cover h, square to the slope [m], above 0.
    slope : float or array
        Slope [rad], above 0 to 1.047.
    unit_weight : float or array
        Unit weight of the cover [N/m3], above 0.
    friction : float or array
        Angle of friction of the cover soil [rad], 0 to 0.873.
    interface : float or array
        Angle of friction between cover and sheet [rad], 0 to 0.873.
    machine : float or array
        Weight of the machine per width of slope as it arrives at the sheet, W_e [N/m], from 0.
    braking : float or array
        Acceleration down the slope over that of gravity, a_b [-], 0 to 1.

    Returns
    -------
    array
        Factor F [-].

    References
    ----------
    [KOERNER2005] equipment moving up and down the slope.

    Examples
    --------
    >>> found = machine_on_veneer_factor(
    ...     30.0,
    ...     thickness=0.3,
    ...     slope=0.3211,
    ...     unit_weight=18000.0,
    ...     friction=0.5236,
    ...     interface=0.384,
    ...     machine=87300.0,
    ...     braking=0.0,
    ... )
    >>> round(float(found), 2)
    1.24
    """
    _check(length, thickness, slope, unit_weight, (friction, interface))
    within("machine", machine, 0.0, unit="N/m")
    within("braking", braking, 0.0, 1.0)
    parts, on = _parts(length, thickness, slope, unit_weight), np.asarray(machine, dtype=float)
    drive = (parts.active + on) * np.sin(slope) + on * np.asarray(braking, dtype=float)
    grip = (parts.normal + on * np.cos(slope)) * np.tan(interface)
    return _root(drive, grip, parts.passive, slope, friction)


def runout_length(
    tension: ArrayLike, *, slope: ArrayLike, cover: ArrayLike, unit_weight: ArrayLike, interface: ArrayLike
) -> Array:
    r"""Level length beyond the top of a slope under which a sheet or net holds its pull by friction.

    :math:`l = \frac{T(\cos\beta - \sin\beta\tan\delta)}{\gamma d\tan\delta}`

    Parameters
    ----------
    tension : float or array
        Pull along the slope T [N/m], from 0.
    slope : float or array
        Slope [rad], 0 to 1.047.
    cover : float or array
        Soil over the level part d [m], above 0.
    unit_weight : float or array
        Unit weight of that soil [N/m3], above 0.
    interface : float or array
        Angle of friction under the sheet [rad], above 0 to 0.873.

    Returns
    -------
    array
        Length l [m]; 0 where the bend alone holds it.

    References
    ----------
    [KOERNER2005] anchorage by runout.

    Examples
    --------
    >>> found = runout_length(7000.0, slope=0.3211, cover=0.3, unit_weight=16500.0, interface=0.5236)
    >>> round(float(found), 3)
    1.878
    """
    within("tension", tension, 0.0, unit="N/m")
    within("slope", slope, 0.0, STEEPEST, unit="rad")
    within("cover", cover, 0.0, unit="m", open_low=True)
    within("unit weight", unit_weight, 0.0, unit="N/m3", open_low=True)
    within("interface friction", interface, 0.0, MOST_FRICTION, unit="rad", open_low=True)
    grip = np.tan(interface)
    left = np.asarray(tension, dtype=float) * np.maximum(np.cos(slope) - np.sin(slope) * grip, 0.0)
    return np.asarray(left / (np.asarray(unit_weight, dtype=float) * np.asarray(cover, dtype=float) * grip))


def _check(
    length: ArrayLike,
    thickness: ArrayLike,
    slope: ArrayLike,
    unit_weight: ArrayLike,
    frictions: tuple[ArrayLike, ArrayLike],
) -> None:
    within("length", length, 0.0, unit="m", open_low=True)
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    within("slope", slope, 0.0, STEEPEST, unit="rad", open_low=True)
    within("unit weight", unit_weight, 0.0, unit="N/m3", open_low=True)
    within("angle of friction", frictions[0], 0.0, MOST_FRICTION, unit="rad")
    within("interface friction", frictions[1], 0.0, MOST_FRICTION, unit="rad")


def _parts(length: ArrayLike, thickness: ArrayLike, slope: ArrayLike, unit_weight: ArrayLike) -> _Parts:
    """The toe wedge is cut off the cover, so a slope shorter than it has no active part."""
    thick, weight = np.asarray(thickness, dtype=float), np.asarray(unit_weight, dtype=float)
    share = np.asarray(length, dtype=float) / thick - 1.0 / np.sin(slope) - 0.5 * np.tan(slope)
    active = weight * thick**2 * np.maximum(share, 0.0)
    passive = weight * thick**2 / np.sin(2.0 * np.asarray(slope, dtype=float))
    return _Parts(active, passive, active * np.cos(slope))


def _root(drive: Array, grip: Array, passive: Array, slope: ArrayLike, friction: ArrayLike) -> Array:
    roll, sine, cosine = np.tan(friction), np.sin(slope), np.cos(slope)
    second = -(grip * cosine + drive * sine * roll + passive * roll)
    return _larger(drive * cosine, second, grip * sine * roll)


def _larger(first: Array, second: Array, third: Array) -> Array:
    """Larger root of first F^2 + second F + third = 0; infinite where nothing drives."""
    whole = np.sqrt(np.maximum(second**2 - 4.0 * first * third, 0.0))
    driven = first > 0.0
    return np.where(driven, (whole - second) / (2.0 * np.where(driven, first, np.nan)), np.inf)
