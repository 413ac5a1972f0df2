"""What a cut through a wall, a footing or a slab can take, per metre: with bars and without."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bermwright.base.limits import within

Array = NDArray[np.float64]

_MPA = 1e6


def pressed_moment(down: ArrayLike, thickness: ArrayLike, strength: ArrayLike) -> Array:
    r"""Moment that a wall without tension can take beside its force down, with its crushing strength.

    :math:`M = \frac{N}{2}\left(t - \frac{N}{f_d}\right)`: the force on the last strip at the edge.

    Parameters
    ----------
    down : float or array
        Force down at the cut [N/m], from 0.
    thickness : float or array
        Thickness of the wall [m], above 0.
    strength : float or array
        Design strength in compression [Pa], above 0.

    Returns
    -------
    array
        Moment [N m/m]; 0 where the force down alone crushes it.

    References
    ----------
    [EN1996] 6.1.2, the plastic strip of an eccentric load.

    Examples
    --------
    >>> round(float(pressed_moment(30e3, 0.4, 1.0e6)))
    5550
    """
    within("force down", down, 0.0, unit="N/m")
    within("thickness of the wall", thickness, 0.0, unit="m", open_low=True)
    within("strength in compression", strength, 0.0, unit="Pa", open_low=True)
    force = np.asarray(down, dtype=np.float64)
    free = np.asarray(thickness, dtype=np.float64) - force / np.asarray(strength, dtype=np.float64)
    moment: Array = force / 2.0 * np.maximum(free, 0.0)
    return moment


def uncracked_moment(thickness: ArrayLike, strength: ArrayLike, down: ArrayLike = 0.0) -> Array:
    r"""Moment that cracks plain concrete or mortared masonry, :math:`M = (f_t + N/t)\,t^2/6`.

    Parameters
    ----------
    thickness : float or array
        Thickness [m], above 0.
    strength : float or array
        Design strength in bending tension [Pa], from 0.
    down : float or array
        Force across the cut [N/m], from 0.

    Returns
    -------
    array
        Moment [N m/m].

    References
    ----------
    [EN1996] 6.3.1; [EN1992] 12.6.

    Examples
    --------
    >>> round(float(uncracked_moment(0.3, 0.8e6)))
    12000
    """
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    within("strength in bending tension", strength, 0.0, unit="Pa")
    within("force across the cut", down, 0.0, unit="N/m")
    thick = np.asarray(thickness, dtype=np.float64)
    moment: Array = (
        (np.asarray(strength, dtype=np.float64) + np.asarray(down, dtype=np.float64) / thick) * thick**2 / 6.0
    )
    return moment


def reinforced_moment(
    area: ArrayLike,
    steel: ArrayLike,
    *,
    depth: ArrayLike,
    thickness: ArrayLike,
    concrete: ArrayLike,
    down: ArrayLike = 0.0,
) -> Array:
    r"""Moment about the middle of a section with bars on the side in tension.

    :math:`M = A_s f_{yd}(d - a/2) + N(t - a)/2`, :math:`a = (A_s f_{yd} + N)/f_{cd}`

    Parameters
    ----------
    area : float or array
        Area of bars on a metre [m2/m], from 0.
    steel : float or array
        Design strength of the bars [Pa], from 0.
    depth : float or array
        From the pressed face to the bars [m], above 0.
    thickness : float or array
        Thickness of the section [m], from the depth.
    concrete : float or array
        Design strength of concrete or filling in compression [Pa], above 0.
    down : float or array
        Force across the cut, in its middle [N/m], from 0.

    Returns
    -------
    array
        Moment [N m/m]; 0 where the pressed strip would be deeper than the bars.

    Notes
    -----
    Bars yield as long as the strip stays within half of the depth; beyond that the value is cut to 0.

    References
    ----------
    [EN1992] 6.1 with the block of 3.1.7.

    Examples
    --------
    >>> round(float(reinforced_moment(565e-6, 435e6, depth=0.34, thickness=0.4, concrete=10e6)))
    80543
    """
    within("area of bars", area, 0.0, unit="m2/m")
    within("strength of the bars", steel, 0.0, unit="Pa")
    within("depth to the bars", depth, 0.0, unit="m", open_low=True)
    within("depth over the thickness", np.subtract(depth, thickness), -10.0, 0.0, unit="m")
    within("strength of the concrete", concrete, 0.0, unit="Pa", open_low=True)
    within("force across the cut", down, 0.0, unit="N/m")
    pull = np.asarray(area, dtype=np.float64) * np.asarray(steel, dtype=np.float64)
    force, deep = np.asarray(down, dtype=np.float64), np.asarray(depth, dtype=np.float64)
    block = (pull + force) / np.asarray(concrete, dtype=np.float64)
    moment = pull * (deep - block / 2.0) + force * (np.asarray(thickness, dtype=np.float64) - block) / 2.0
    yields = block <= 0.5 * deep
    held: Array = np.where(yields, moment, 0.0)
    return held


def reinforced_shear(area: ArrayLike, *, depth: ArrayLike, concrete: ArrayLike) -> Array:
    r"""Shear that a section with bars and without links can take.

    :math:`V = \max(0.12 k (100 \rho f_{ck})^{1/3},\ 0.035 k^{3/2} f_{ck}^{1/2})\,d`, (MPa, γ_c = 1.5),
    :math:`k = 1 + \sqrt{200/d} \le 2`, :math:`\rho \le 0.02`

    Parameters
    ----------
    area : float or array
        Area of bars on a metre [m2/m], from 0.
    depth : float or array
        From the pressed face to the bars [m], above 0.
    concrete : float or array
        Characteristic cylinder strength [Pa], 8e6 to 50e6.

    Returns
    -------
    array
        Shear [N/m].

    References
    ----------
    [EN1992] 6.2.2.

    Examples
    --------
    >>> round(float(reinforced_shear(565e-6, depth=0.34, concrete=20e6)))
    124998
    """
    within("area of bars", area, 0.0, unit="m2/m")
    within("depth to the bars", depth, 0.0, unit="m", open_low=True)
    within("strength of the concrete", concrete, 8e6, 50e6, unit="Pa")
    deep, strong = np.asarray(depth, dtype=np.float64), np.asarray(concrete, dtype=np.float64) / _MPA
    size = np.minimum(1.0 + np.sqrt(0.2 / deep), 2.0)
    share = np.minimum(np.asarray(area, dtype=np.float64) / deep, 0.02)
    by_bars = 0.12 * size * (100.0 * share * strong) ** (1.0 / 3.0)
    least = 0.035 * size**1.5 * np.sqrt(strong)
    shear: Array = np.maximum(by_bars, least) * deep * _MPA
    return shear


def course_shear(
    down: ArrayLike, friction: ArrayLike, *, grip: ArrayLike = 0.0, pressed: ArrayLike = 0.0
) -> Array:
    r"""Push that a bed between two courses holds, :math:`V = N \tan\varphi + c\,l_c`.

    Parameters
    ----------
    down : float or array
        Force down on the bed [N/m], from 0.
    friction : float or array
        Angle of friction between the courses [rad], 0 to 1.
    grip : float or array
        Strength of mortar or wire without weight [Pa], from 0.
    pressed : float or array
        How much of the bed is pressed [m], from 0.

    Returns
    -------
    array
        Push [N/m].

    References
    ----------
    [EN1996] 3.6.2 and 6.2.

    Examples
    --------
    >>> round(float(course_shear(20e3, 0.54)))
    11989
    """
    within("force down", down, 0.0, unit="N/m")
    within("friction of the courses", friction, 0.0, 1.0, unit="rad")
    within("grip of the courses", grip, 0.0, unit="Pa")
    within("pressed part of the bed", pressed, 0.0, unit="m")
    held = np.asarray(down, dtype=np.float64) * np.tan(friction)
    stuck: Array = held + np.asarray(grip, dtype=np.float64) * np.asarray(pressed, dtype=np.float64)
    return stuck


def pressed_strut(
    thickness: ArrayLike, *, length: ArrayLike, strength: ArrayLike, eccentricity: ArrayLike = 0.0
) -> Array:
    r"""Force along a slab or strip of plain concrete that is pressed end to end.

    :math:`N = t f_{cd}\Phi`, :math:`\Phi = 1.14(1 - 2e/t) - 0.02 l_0/t \le 1 - 2e/t`

    Parameters
    ----------
    thickness : float or array
        Thickness of the slab [m], above 0.
    length : float or array
        Free length, between what keeps it from bowing [m], 0 to 30.
    strength : float or array
        Design strength of plain concrete in compression [Pa], above 0.
    eccentricity : float or array
        Of the force [m], from 0.

    Returns
    -------
    array
        Force on a metre of width [N/m], never below 0.

    References
    ----------
    [EN1992] 12.6.5.2.

    Examples
    --------
    >>> round(float(pressed_strut(0.1, length=4.0, strength=8e6, eccentricity=0.01)))
    89600
    """
    within("thickness of the slab", thickness, 0.0, unit="m", open_low=True)
    within("free length", length, 0.0, 30.0, unit="m")
    within("strength of the concrete", strength, 0.0, unit="Pa", open_low=True)
    within("eccentricity", eccentricity, 0.0, unit="m")
    thick = np.asarray(thickness, dtype=np.float64)
    straight = 1.0 - 2.0 * np.asarray(eccentricity, dtype=np.float64) / thick
    bowed = 1.14 * straight - 0.02 * np.asarray(length, dtype=np.float64) / thick
    force: Array = (
        thick * np.asarray(strength, dtype=np.float64) * np.maximum(np.minimum(bowed, straight), 0.0)
    )
    return force
