"""Quick answers for floors and walls on the ground; the section itself is solved in `groundheat`."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.conduction.surfaces import OUTSIDE

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

YEAR = 3.15e7
"""s, as the standard rounds it."""


def characteristic_dimension(area: ArrayLike, perimeter: ArrayLike) -> Array:
    """How wide a floor is to the ground.

    B' = A/(P/2)

    Parameters
    ----------
    area : float or array
        Of the floor, inside, A [m2], over 0.
    perimeter : float or array
        Of what stands against the outdoors or the soil, P [m], over 0.

    Returns
    -------
    float or array
        Characteristic dimension [m]; half the diameter of a round house.

    References
    ----------
    [ISO13370] : 8.1.

    Examples
    --------
    >>> round(float(characteristic_dimension(58.89, perimeter=33.8)), 3)
    3.485
    """
    within("area", area, 0.0, unit="m2", open_low=True)
    within("perimeter", perimeter, 0.0, unit="m", open_low=True)
    return np.asarray(np.asarray(area, dtype=float) / (0.5 * np.asarray(perimeter, dtype=float)))


def equivalent_thickness(
    conductivity: ArrayLike, resistance: ArrayLike, *, wall: ArrayLike = 0.0, outside: float = OUTSIDE
) -> Array:
    """Thickness of soil that resists as much as a floor or wall with its films.

    d_t = w + λ·(R_si + R_f + R_se); without a wall it is that of the wall of a basement, d_w

    Parameters
    ----------
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.
    resistance : float or array
        Of the inside film and the layers, R_si + R_f [m2K/W], from 0.
    wall : float or array
        Thickness of the walls that stand on it, w [m], from 0.
    outside : float
        Film outside, R_se [m2K/W], from 0.

    Returns
    -------
    float or array
        Equivalent thickness [m].

    References
    ----------
    [ISO13370] : 8.2, eq. for slabs and for basement walls.

    Examples
    --------
    >>> round(float(equivalent_thickness(1.5, resistance=4.17, wall=0.5)), 3)
    6.815
    """
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    within("resistance", resistance, 0.0, unit="m2K/W")
    within("thickness of the wall", wall, 0.0, unit="m")
    within("film", outside, 0.0, unit="m2K/W")
    soil = np.asarray(conductivity, dtype=float) * (np.asarray(resistance, dtype=float) + outside)
    return np.asarray(np.asarray(wall, dtype=float) + soil)


def slab_transmittance(width: ArrayLike, thickness: ArrayLike, conductivity: ArrayLike) -> Array:
    """Transmittance of a slab on the ground, without edge insulation.

    U = 2·λ/(π·B' + d_t)·ln(π·B'/d_t + 1) for d_t < B', else λ/(0.457·B' + d_t)

    Parameters
    ----------
    width : float or array
        Characteristic dimension, B' [m], over 0.
    thickness : float or array
        Equivalent thickness, d_t [m], over 0.
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.

    Returns
    -------
    float or array
        Transmittance, from the air inside to the mean outdoors of a year [W/m2K].

    References
    ----------
    [ISO13370] : 9.1.

    Examples
    --------
    >>> round(float(slab_transmittance(40.0, thickness=0.615, conductivity=1.5)), 4)
    0.1265
    """
    within("characteristic dimension", width, 0.0, unit="m", open_low=True)
    within("equivalent thickness", thickness, 0.0, unit="m", open_low=True)
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    return _floor(np.asarray(width, dtype=float), np.asarray(thickness, dtype=float), conductivity)


def edge_insulation_loss(
    conductivity: ArrayLike, thickness: ArrayLike, reach: ArrayLike, *, added: ArrayLike, upright: bool
) -> Array:
    """What insulation along the edge of a slab changes.

    ψ = −(λ/π)·[ln(D/d_t + 1) − ln(D/(d_t + d') + 1)], with 2·D for an upright skirt

    Parameters
    ----------
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.
    thickness : float or array
        Equivalent thickness of the slab, d_t [m], over 0.
    reach : float or array
        Width of the level strip, or depth of the skirt, D [m], from 0.
    added : float or array
        Its additional equivalent thickness, d' = λ·(R_n − d_n/λ) [m], from 0.
    upright : bool
        Whether it is a skirt that goes down [-].

    Returns
    -------
    float or array
        Loss of a metre of edge [W/m K]; negative.

    References
    ----------
    [ISO13370] : annex B of the edition of 2007.

    Examples
    --------
    >>> found = edge_insulation_loss(2.0, thickness=0.72, reach=1.0, added=5.614, upright=False)
    >>> round(float(found), 4)
    -0.4611
    """
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    within("equivalent thickness", thickness, 0.0, unit="m", open_low=True)
    within("reach", reach, 0.0, unit="m")
    within("additional equivalent thickness", added, 0.0, unit="m")
    d, b = np.asarray(thickness, dtype=float), np.asarray(reach, dtype=float) * (2.0 if upright else 1.0)
    gain = np.log(b / d + 1.0) - np.log(b / (d + np.asarray(added)) + 1.0)
    return np.asarray(-np.asarray(conductivity, dtype=float) / math.pi * gain)


def basement_floor_transmittance(
    width: ArrayLike, thickness: ArrayLike, depth: ArrayLike, *, conductivity: ArrayLike
) -> Array:
    """Transmittance of a floor that lies below the ground.

    as a slab, with d_t + z/2 for d_t

    Parameters
    ----------
    width : float or array
        Characteristic dimension, B' [m], over 0.
    thickness : float or array
        Equivalent thickness of the floor, d_t [m], over 0.
    depth : float or array
        Of the floor below the ground, z [m], from 0.
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.

    Returns
    -------
    float or array
        Transmittance [W/m2K].

    References
    ----------
    [ISO13370] : 9.3.1.

    Examples
    --------
    >>> found = basement_floor_transmittance(4.444, thickness=0.72, depth=2.5, conductivity=2.0)
    >>> round(float(found), 4)
    0.5248
    """
    within("depth", depth, 0.0, unit="m")
    within("equivalent thickness", thickness, 0.0, unit="m", open_low=True)
    sunk = np.asarray(thickness, dtype=float) + 0.5 * np.asarray(depth, dtype=float)
    return slab_transmittance(width, sunk, conductivity)


def basement_wall_transmittance(
    floor: ArrayLike, wall: ArrayLike, depth: ArrayLike, *, conductivity: ArrayLike
) -> Array:
    """Transmittance of the walls below the ground.

    U = 2·λ/(π·z)·(1 + 0.5·d_t/(d_t + z))·ln(z/d_w + 1), d_t not over d_w

    Parameters
    ----------
    floor : float or array
        Equivalent thickness of the floor, d_t [m], over 0.
    wall : float or array
        Equivalent thickness of the wall, d_w [m], over 0.
    depth : float or array
        Of the floor below the ground, z [m], over 0.
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.

    Returns
    -------
    float or array
        Transmittance [W/m2K].

    References
    ----------
    [ISO13370] : 9.3.2.

    Examples
    --------
    >>> round(float(basement_wall_transmittance(0.72, wall=0.34, depth=2.5, conductivity=2.0)), 3)
    1.146
    """
    within("equivalent thickness", floor, 0.0, unit="m", open_low=True)
    within("equivalent thickness", wall, 0.0, unit="m", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    z, w = np.asarray(depth, dtype=float), np.asarray(wall, dtype=float)
    d = np.minimum(np.asarray(floor, dtype=float), w)
    along = 1.0 + 0.5 * d / (d + z)
    return np.asarray(
        2.0 * np.asarray(conductivity, dtype=float) / (math.pi * z) * along * np.log(z / w + 1.0)
    )


def buried_wall_transmittance(resistance: ArrayLike, depth: ArrayLike, *, conductivity: ArrayLike) -> Array:
    """Mean transmittance of a wall below level ground, by quarter circles of heat.

    U = 2·λ/(π·z)·[ln(z + 2·λ·R/π) − ln(2·λ·R/π)]

    Parameters
    ----------
    resistance : float or array
        Of the wall with its films, R [m2K/W], over 0.
    depth : float or array
        How far it goes down, z [m], over 0.
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.

    Returns
    -------
    float or array
        Transmittance [W/m2K].

    References
    ----------
    [ASHRAEHOF] : ch. 18, heat loss below the ground.

    Examples
    --------
    >>> round(float(buried_wall_transmittance(0.26, depth=0.3, conductivity=1.4)), 3)
    2.468
    """
    within("resistance", resistance, 0.0, unit="m2K/W", open_low=True)
    within("depth", depth, 0.0, unit="m", open_low=True)
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    z = np.asarray(depth, dtype=float)
    start = 2.0 * np.asarray(conductivity, dtype=float) * np.asarray(resistance) / math.pi
    return np.asarray(2.0 * np.asarray(conductivity, dtype=float) / (math.pi * z) * np.log(z / start + 1.0))


def periodic_depth(conductivity: ArrayLike, capacity: ArrayLike) -> Array:
    """How deep the year goes into the ground.

    δ = √(3.15·10⁷·λ/(π·ρc))

    Parameters
    ----------
    conductivity : float or array
        Of the ground, λ [W/m K], over 0.
    capacity : float or array
        Heat capacity of a cubic metre, ρc [J/m3K], over 0.

    Returns
    -------
    float or array
        Depth at which the swing of the year is 1/e of that at the surface [m].

    References
    ----------
    [ISO13370] : annex H, periodic penetration depth.

    Examples
    --------
    >>> round(float(periodic_depth(1.5, capacity=3000000.0)), 3)
    2.239
    """
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    within("heat capacity", capacity, 0.0, unit="J/m3K", open_low=True)
    return np.asarray(
        np.sqrt(YEAR * np.asarray(conductivity, dtype=float) / (math.pi * np.asarray(capacity)))
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PeriodicCoupling:
    """How a slab follows the year."""

    inside: float
    """Heat for each degree that the room swings (W/K)."""
    outside: float
    """Heat for each degree that the outdoors swings (W/K)."""


def periodic_coupling(
    area: float, perimeter: float, *, thickness: float, conductivity: float, depth: float
) -> PeriodicCoupling:
    """How a slab on the ground follows the yearly swing of the room and of the outdoors.

    H_pi = A·(λ/d_t)·√(2/((1 + δ/d_t)² + 1)), H_pe = 0.37·P·λ·ln(δ/d_t + 1)

    Parameters
    ----------
    area : float
        Of the floor, A [m2], over 0.
    perimeter : float
        P [m], over 0.
    thickness : float
        Equivalent thickness, d_t [m], over 0.
    conductivity : float
        Of the ground, λ [W/m K], over 0.
    depth : float
        Periodic depth, δ [m], over 0.

    Returns
    -------
    PeriodicCoupling
        Both coefficients [W/K].

    Notes
    -----
    The heat lags about a month behind the outdoors.

    References
    ----------
    [ISO13370] : annex H, slab on ground.
    """
    within("area", area, 0.0, unit="m2", open_low=True)
    within("perimeter", perimeter, 0.0, unit="m", open_low=True)
    within("equivalent thickness", thickness, 0.0, unit="m", open_low=True)
    within("conductivity", conductivity, 0.0, unit="W/m K", open_low=True)
    within("periodic depth", depth, 0.0, unit="m", open_low=True)
    ratio = depth / thickness
    return PeriodicCoupling(
        inside=area * conductivity / thickness * math.sqrt(2.0 / ((1.0 + ratio) ** 2 + 1.0)),
        outside=0.37 * perimeter * conductivity * math.log1p(ratio),
    )


def _floor(width: Array, thickness: Array, conductivity: ArrayLike) -> Array:
    slender = 2.0 / (math.pi * width + thickness) * np.log(math.pi * width / thickness + 1.0)
    thick = 1.0 / (0.457 * width + thickness)
    return np.asarray(np.asarray(conductivity, dtype=float) * np.where(thickness < width, slender, thick))
