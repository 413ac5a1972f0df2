"""What one nail carries across the joint of two or three timbers."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.data.timber_classes import NAIL_WIRE_STRENGTH

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MM = 1e-3
MPA = 1e6
LARGEST_NAIL = 0.008
"""Diameter (m) up to which the equations for nails hold."""
DENSEST_WITHOUT_HOLES = 500.0
"""Characteristic density from which holes are drilled first (kg/m3): EN 1995-1-1, 8.3.1.1."""
DENSEST_WOOD = 1200.0
"""No wood with a strength class is denser (kg/m3)."""
ROPE_LIMIT = 0.15
"""Largest gain by the rope effect of a smooth round nail, as a share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ShearModes:
    """Capacity of one nail in one shear plane, by way of failing."""

    capacity: Array
    """Characteristic capacity (N): the least of all ways."""
    mode: str | tuple[str, ...]
    """Letter of the way that rules (one for each entry of an array)."""
    modes: dict[str, Array]


def embedment_strength(density: ArrayLike, diameter: ArrayLike, *, predrilled: bool = False) -> Array:
    """Characteristic strength with which timber resists a nail pressed into it sideways.

    f_h = 0.082·ρ_k·d^−0.3 in N/mm², d in mm; predrilled 0.082·(1 − 0.01·d)·ρ_k

    Parameters
    ----------
    density : float or array
        Characteristic density [kg/m3], above 0 to 500 without holes, to 1200 predrilled.
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    predrilled : bool
        Whether holes are drilled first [-].

    Returns
    -------
    array
        Embedment strength [Pa].

    Notes
    -----
    Denser timber is drilled first: the equation without holes ends at 500 kg/m3. With holes the standard
    names no end; 1200 kg/m3 is denser than any wood with a class.

    References
    ----------
    [EN1995] eq. 8.15 and 8.16.

    Examples
    --------
    >>> round(float(embedment_strength(350.0, 0.0031)) / 1e6, 2)
    20.44
    """
    within(
        "density", density, 0.0, DENSEST_WOOD if predrilled else DENSEST_WITHOUT_HOLES,
        unit="kg/m3", open_low=True,
    )  # fmt: skip
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    d = np.asarray(diameter, dtype=np.float64) / MM
    shape = 1 - 0.01 * d if predrilled else d**-0.3
    return 0.082 * np.asarray(density, dtype=np.float64) * shape * MPA


def yield_moment(
    diameter: ArrayLike, *, wire_strength: ArrayLike = NAIL_WIRE_STRENGTH.value, square: bool = False
) -> Array:
    """Characteristic moment at which a nail bends.

    M_y = 0.3·f_u·d^2.6 in N·mm, d in mm; square nails 0.45·f_u·d^2.6

    Parameters
    ----------
    diameter : float or array
        Diameter, or side of a square nail [m], above 0 to 0.008.
    wire_strength : float or array
        Tensile strength of the wire [Pa], at least 600e6.
    square : bool
        Whether the nail is square or grooved [-].

    Returns
    -------
    array
        Yield moment [Nm].

    References
    ----------
    [EN1995] eq. 8.14.

    Examples
    --------
    >>> round(float(yield_moment(0.0031)), 3)
    3.41
    """
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    within("strength of the wire", wire_strength, NAIL_WIRE_STRENGTH.value, unit="Pa")
    shape = 0.45 if square else 0.3
    d = np.asarray(diameter, dtype=np.float64) / MM
    return shape * np.asarray(wire_strength, dtype=np.float64) / MPA * d**2.6 * MM


def single_shear(
    diameter: ArrayLike,
    *,
    head_side: ArrayLike,
    point_side: ArrayLike,
    head_embedment: ArrayLike,
    point_embedment: ArrayLike,
    yield_moment: ArrayLike,
    rope: ArrayLike = 0.0,
) -> ShearModes:
    """Capacity of one nail through one shear plane.

    The least of six ways a to f: one timber crushes, both crush, or the nail bends once or twice

    Parameters
    ----------
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    head_side : float or array
        Thickness of the timber on the head side [m], > 0.
    point_side : float or array
        Penetration on the point side [m], > 0.
    head_embedment : float or array
        Embedment strength on the head side [Pa], > 0.
    point_embedment : float or array
        Embedment strength on the point side [Pa], > 0.
    yield_moment : float or array
        Yield moment of the nail [Nm], > 0.
    rope : float or array
        A quarter of the withdrawal capacity [N], ≥ 0; counted in ways c to f, at most 15 %.

    Returns
    -------
    ShearModes
        Characteristic capacity per nail and shear plane [N].

    Notes
    -----
    Smooth nails need a point side of at least 8 diameters; see `pointside_penetration`.

    References
    ----------
    [EN1995] eq. 8.6 and 8.2.2 (2).

    Examples
    --------
    >>> nail = single_shear(
    ...     0.0031,
    ...     head_side=0.045,
    ...     point_side=0.045,
    ...     head_embedment=20.44e6,
    ...     point_embedment=20.44e6,
    ...     yield_moment=3.41,
    ... )
    >>> round(float(nail.capacity)), nail.mode
    (756, 'f')
    """
    _check_nail(diameter, yield_moment, rope)
    within("thickness on the head side", head_side, 0.0, unit="m", open_low=True)
    within("penetration on the point side", point_side, 0.0, unit="m", open_low=True)
    within("embedment strength", head_embedment, 0.0, unit="Pa", open_low=True)
    within("embedment strength", point_embedment, 0.0, unit="Pa", open_low=True)
    d, t1, t2 = (np.asarray(value, dtype=np.float64) for value in (diameter, head_side, point_side))
    head = np.asarray(head_embedment, dtype=np.float64) * d
    beta = np.asarray(point_embedment, dtype=np.float64) / np.asarray(head_embedment, dtype=np.float64)
    moment = np.asarray(yield_moment, dtype=np.float64)
    return _least(
        {
            "a": head * t1,
            "b": beta * head * t2,
            "c": _with_rope(_both_crush(head, t1, t2 / t1, beta), rope),
            "d": _with_rope(_bends_once(head, t1, beta, moment), rope),
            "e": _with_rope(_bends_once_at_point(head, t2, beta, moment), rope),
            "f": _with_rope(_bends_twice(head, beta, moment), rope),
        }
    )


def double_shear(
    diameter: ArrayLike,
    *,
    outer: ArrayLike,
    inner: ArrayLike,
    outer_embedment: ArrayLike,
    inner_embedment: ArrayLike,
    yield_moment: ArrayLike,
    rope: ArrayLike = 0.0,
) -> ShearModes:
    """Capacity of one nail through the two shear planes of a middle timber, for each plane.

    The least of four ways g, h, j, k

    Parameters
    ----------
    diameter : float or array
        Diameter of the nail [m], above 0 to 0.008.
    outer : float or array
        The smaller of the head-side thickness and the penetration on the point side [m], > 0.
    inner : float or array
        Thickness of the middle timber [m], > 0.
    outer_embedment : float or array
        Embedment strength of the outer timbers [Pa], > 0.
    inner_embedment : float or array
        Embedment strength of the middle timber [Pa], > 0.
    yield_moment : float or array
        Yield moment of the nail [Nm], > 0.
    rope : float or array
        A quarter of the withdrawal capacity [N], ≥ 0; counted in ways j and k, at most 15 %.

    Returns
    -------
    ShearModes
        Characteristic capacity per nail and shear plane [N].

    References
    ----------
    [EN1995] eq. 8.7.

    Examples
    --------
    >>> nail = double_shear(
    ...     0.004,
    ...     outer=0.038,
    ...     inner=0.038,
    ...     outer_embedment=18.93e6,
    ...     inner_embedment=18.93e6,
    ...     yield_moment=6.617,
    ... )
    >>> round(float(nail.capacity)), nail.mode
    (1151, 'k')
    """
    _check_nail(diameter, yield_moment, rope)
    within("outer thickness", outer, 0.0, unit="m", open_low=True)
    within("middle thickness", inner, 0.0, unit="m", open_low=True)
    within("embedment strength", outer_embedment, 0.0, unit="Pa", open_low=True)
    within("embedment strength", inner_embedment, 0.0, unit="Pa", open_low=True)
    d, t1, t2 = (np.asarray(value, dtype=np.float64) for value in (diameter, outer, inner))
    pressed = np.asarray(outer_embedment, dtype=np.float64) * d
    beta = np.asarray(inner_embedment, dtype=np.float64) / np.asarray(outer_embedment, dtype=np.float64)
    moment = np.asarray(yield_moment, dtype=np.float64)
    return _least(
        {
            "g": pressed * t1,
            "h": 0.5 * beta * pressed * t2,
            "j": _with_rope(_bends_once(pressed, t1, beta, moment), rope),
            "k": _with_rope(_bends_twice(pressed, beta, moment), rope),
        }
    )


def _check_nail(diameter: ArrayLike, moment: ArrayLike, rope: ArrayLike) -> None:
    within("nail diameter", diameter, 0.0, LARGEST_NAIL, unit="m", open_low=True)
    within("yield moment", moment, 0.0, unit="Nm", open_low=True)
    within("rope effect", rope, 0.0, unit="N")


def _both_crush(head: Array, t1: Array, ratio: Array, beta: Array) -> Array:
    root = np.sqrt(beta + 2 * beta**2 * (1 + ratio + ratio**2) + beta**3 * ratio**2)
    return head * t1 / (1 + beta) * (root - beta * (1 + ratio))


def _bends_once(head: Array, t1: Array, beta: Array, moment: Array) -> Array:
    root = np.sqrt(2 * beta * (1 + beta) + 4 * beta * (2 + beta) * moment / (head * t1**2))
    return 1.05 * head * t1 / (2 + beta) * (root - beta)


def _bends_once_at_point(head: Array, t2: Array, beta: Array, moment: Array) -> Array:
    root = np.sqrt(2 * beta**2 * (1 + beta) + 4 * beta * (1 + 2 * beta) * moment / (head * t2**2))
    return 1.05 * head * t2 / (1 + 2 * beta) * (root - beta)


def _bends_twice(head: Array, beta: Array, moment: Array) -> Array:
    return 1.15 * np.sqrt(2 * beta / (1 + beta)) * np.sqrt(2 * moment * head)


def _with_rope(capacity: Array, rope: ArrayLike) -> Array:
    return capacity + np.minimum(rope, ROPE_LIMIT * capacity)


def _least(modes: dict[str, Array]) -> ShearModes:
    names = tuple(modes)
    stacked = np.stack(np.broadcast_arrays(*modes.values()))
    index = np.argmin(stacked, axis=0)
    ruling = names[int(index)] if index.ndim == 0 else tuple(names[int(i)] for i in index.flat)
    return ShearModes(capacity=np.min(stacked, axis=0), mode=ruling, modes=modes)
