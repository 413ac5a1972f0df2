"""Bent layers, and bodies in the ground: conductance where heat spreads."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.conduction.layers import LEAST_CONDUCTIVITY, MOST_CONDUCTIVITY

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

CORNER = 0.559
"""What one inner corner adds, in units of the conductivity, with inside dimensions."""


def bent_layer_resistance(thickness: ArrayLike, conductivity: ArrayLike, radius: ArrayLike) -> Array:
    """Resistance of a layer bent one way, for a square metre of its inner face.

    R = (r/λ)·ln(1 + d/r)

    Parameters
    ----------
    thickness : float or array
        Thickness, d [m], from 0.
    conductivity : float or array
        Conductivity, λ [W/m K], from 0.005 to 400.
    radius : float or array
        Radius of its inner face, r [m], over 0; infinite is flat.

    Returns
    -------
    float or array
        Resistance for the area of the inner face [m2K/W]; less than that of a flat layer.

    Notes
    -----
    For a vault. Multiply by the radius of the room's face over r to refer it to that face.

    References
    ----------
    [INCROPERA] : radial conduction in a cylinder.

    Examples
    --------
    >>> round(float(bent_layer_resistance(0.3, conductivity=0.04, radius=2.5)), 3)
    7.083
    """
    within("thickness", thickness, 0.0, unit="m")
    within("conductivity", conductivity, LEAST_CONDUCTIVITY, MOST_CONDUCTIVITY, unit="W/m K")
    within("radius", radius, 0.0, unit="m", open_low=True)
    d, r = np.asarray(thickness, dtype=float), np.asarray(radius, dtype=float)
    flat = np.isinf(r)
    spread = np.where(flat, d, np.where(flat, 1.0, r) * np.log1p(d / np.where(flat, 1.0, r)))
    return np.asarray(spread / np.asarray(conductivity, dtype=float))


def vault_conductance(
    inner: ArrayLike, outer: ArrayLike, conductivity: ArrayLike, angle: ArrayLike = math.pi
) -> Array:
    """Conductance of a metre of a shell bent as a cylinder.

    K = θ·λ/ln(r_2/r_1)

    Parameters
    ----------
    inner : float or array
        Radius of the inner face, r_1 [m], over 0.
    outer : float or array
        Radius of the outer face, r_2 [m], over r_1.
    conductivity : float or array
        Conductivity, λ [W/m K], from 0.005 to 400.
    angle : float or array
        Angle that the shell spans, θ [rad], from 0 to 2 pi; pi is half a cylinder.

    Returns
    -------
    float or array
        Conductance [W/m K].

    References
    ----------
    [INCROPERA] : radial conduction in a cylinder.

    Examples
    --------
    >>> round(float(vault_conductance(2.5, 2.8, 0.04)), 5)
    1.10884
    """
    ratio = _shell(inner, outer, conductivity)
    within("angle", angle, 0.0, 2.0 * math.pi, unit="rad")
    return np.asarray(np.asarray(angle, dtype=float) * np.asarray(conductivity, dtype=float) / np.log(ratio))


def dome_conductance(
    inner: ArrayLike, outer: ArrayLike, conductivity: ArrayLike, share: ArrayLike = 0.5
) -> Array:
    """Conductance of a shell bent as a sphere.

    K = 4·π·s·λ·r_1·r_2/(r_2 − r_1)

    Parameters
    ----------
    inner : float or array
        Radius of the inner face, r_1 [m], over 0.
    outer : float or array
        Radius of the outer face, r_2 [m], over r_1.
    conductivity : float or array
        Conductivity, λ [W/m K], from 0.005 to 400.
    share : float or array
        Share of the whole sphere, s [-], from 0 to 1; a half is a hemisphere.

    Returns
    -------
    float or array
        Conductance [W/K].

    References
    ----------
    [INCROPERA] : radial conduction in a sphere.

    Examples
    --------
    >>> round(float(dome_conductance(3.0, outer=3.3, conductivity=0.04)), 3)
    8.294
    """
    _shell(inner, outer, conductivity)
    within("share", share, 0.0, 1.0)
    r1, r2 = np.asarray(inner, dtype=float), np.asarray(outer, dtype=float)
    carried = np.asarray(share, dtype=float) * np.asarray(conductivity, dtype=float)
    return np.asarray(4.0 * math.pi * carried * r1 * r2 / (r2 - r1))


def buried_pipe_factor(radius: ArrayLike, depth: ArrayLike) -> Array:
    """Shape factor of a metre of pipe under a level surface of even temperature.

    S = 2·π/acosh(z/R)

    Parameters
    ----------
    radius : float or array
        Radius of the pipe, R [m], over 0.
    depth : float or array
        Depth of its middle, z [m], over R.

    Returns
    -------
    float or array
        Shape factor: heat is S·λ·ΔT a metre [-].

    References
    ----------
    [INCROPERA] : table 4.1, case 2.

    Examples
    --------
    >>> round(float(buried_pipe_factor(0.1, depth=2.0)), 3)
    1.704
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    ratio = np.asarray(depth, dtype=float) / np.asarray(radius, dtype=float)
    within("depth over radius", ratio, 1.0, open_low=True)
    return np.asarray(2.0 * math.pi / np.arccosh(ratio))


def buried_sphere_factor(radius: ArrayLike, depth: ArrayLike) -> Array:
    """Shape factor of a sphere under a level surface of even temperature.

    S = 4·π·R/(1 − R/(2·z))

    Parameters
    ----------
    radius : float or array
        Radius, R [m], over 0.
    depth : float or array
        Depth of its middle, z [m], over R.

    Returns
    -------
    float or array
        Shape factor: heat is S·λ·ΔT [m].

    References
    ----------
    [INCROPERA] : table 4.1, case 1.

    Examples
    --------
    >>> round(float(buried_sphere_factor(2.5, depth=4.0)), 1)
    45.7
    """
    within("radius", radius, 0.0, unit="m", open_low=True)
    r, z = np.asarray(radius, dtype=float), np.asarray(depth, dtype=float)
    within("depth over radius", z / r, 1.0, open_low=True)
    return np.asarray(4.0 * math.pi * r / (1.0 - r / (2.0 * z)))


def disc_factor(diameter: ArrayLike) -> Array:
    """Shape factor of a round floor of even temperature on deep ground.

    S = 2·D

    Parameters
    ----------
    diameter : float or array
        Diameter, D [m], from 0.

    Returns
    -------
    float or array
        Shape factor: heat is S·λ·ΔT [m].

    References
    ----------
    [INCROPERA] : table 4.1, case 10.

    Examples
    --------
    >>> round(float(disc_factor(8.0)))
    16
    """
    within("diameter", diameter, 0.0, unit="m")
    return np.asarray(2.0 * np.asarray(diameter, dtype=float))


def corner_loss(conductivity: ArrayLike, *, outside_dimensions: bool = False) -> Array:
    """What a metre of a square corner of an even layer adds to the flat faces.

    ψ = 0.559·λ with inside dimensions, 0.559·λ − 2·λ with outside ones

    Parameters
    ----------
    conductivity : float or array
        Of the layer, λ [W/m K], from 0.005 to 400.
    outside_dimensions : bool
        Whether the faces are measured on the outside [-].

    Returns
    -------
    float or array
        Loss of the corner [W/m K]; negative with outside dimensions, which count the corner twice.

    Notes
    -----
    Both faces at an even temperature, any thickness. Langmuir measured 0.54.

    References
    ----------
    [LANGMUIR1913] : shape factor of an edge; the closed form of the corner gives 0.5592.

    Examples
    --------
    >>> round(float(corner_loss(1.0)), 3)
    0.559
    """
    within("conductivity", conductivity, LEAST_CONDUCTIVITY, MOST_CONDUCTIVITY, unit="W/m K")
    both = 2.0 if outside_dimensions else 0.0
    return np.asarray((CORNER - both) * np.asarray(conductivity, dtype=float))


def _shell(inner: ArrayLike, outer: ArrayLike, conductivity: ArrayLike) -> Array:
    within("inner radius", inner, 0.0, unit="m", open_low=True)
    within("conductivity", conductivity, LEAST_CONDUCTIVITY, MOST_CONDUCTIVITY, unit="W/m K")
    ratio = np.asarray(outer, dtype=float) / np.asarray(inner, dtype=float)
    within("outer radius over inner radius", ratio, 1.0, open_low=True)
    return np.asarray(ratio)
