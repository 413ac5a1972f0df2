"""Ribs of thin boards bent over each other and nailed: the slip between them, and the bending itself."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

MOST_LAYERS = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Layered:
    """A stack of equal boards whose nails slip, bent flatwise in a half wave."""

    stiffness: float
    """Effective bending stiffness (N m2)."""
    efficiency: float
    """What the nails give of what glue would add to loose boards: 0 to 1."""
    pulled: float
    """Largest force along a board per bending of the stack (1/m)."""
    bent: float
    """Bending of one board per bending of the stack (-)."""
    flow: float
    """Largest shear flow between two boards per shear force of the stack (1/m)."""


def layered_stack(
    layers: int, *, width: float, thickness: float, modulus: float, slip: float, wave: float
) -> Layered:
    """Stiffness and inner forces of equal boards laid flat on each other and nailed.

    E·A·β²·u_j = k·((u_j+1 − u_j + t·w') − (u_j − u_j−1 + t·w')), β = π/l, at the outer boards one term alone;
    EI_ef = n·E·b·t³/12 − E·A·Σ(u_j·z_j)/w'

    Parameters
    ----------
    layers : int
        Number n of boards [-], 1 to 40.
    width : float
        Width b of the boards [m], > 0.
    thickness : float
        Thickness t of each [m], > 0.
    modulus : float
        Modulus E along the grain [Pa], > 0.
    slip : float
        Slip modulus of the nails between two boards for a metre of length, k = K/s [N/m2], ≥ 0.
    wave : float
        Length l of a half wave of the bending [m], > 0: the span of a beam, between two places without
        bending in an arch.

    Returns
    -------
    Layered
        Effective stiffness [N m2], efficiency [-] and inner forces per bending or shear of the stack.

    Notes
    -----
    For two boards, and for three, it is the method of annex B; for more it is the same equation for each
    board, solved together, which is exact for a load in half a sine wave.

    References
    ----------
    [EN1995] annex B; [LAYEREDRIB] the same for any number of boards.

    Examples
    --------
    >>> two = layered_stack(2, width=0.145, thickness=0.045, modulus=11e9, slip=2 * 870e3 / 0.1, wave=3.0)
    >>> round(two.stiffness / 1e3, 1)
    46.5
    """
    within("number of boards", layers, 1.0, MOST_LAYERS)
    for name, value in (("width", width), ("thickness", thickness), ("modulus", modulus), ("wave", wave)):
        within(name, value, 0.0, open_low=True)
    within("slip modulus", slip, 0.0)
    along, loose = modulus * width * thickness, modulus * width * thickness**3 / 12
    beta = np.pi / wave
    place = thickness * (np.arange(layers) - 0.5 * (layers - 1))
    # Unknowns are the boards' shifts for a slope w' of 1.
    matrix, load = np.eye(layers) * along * beta**2, np.zeros(layers)
    for j in range(layers - 1):
        matrix[j : j + 2, j : j + 2] += slip * np.array([[1.0, -1.0], [-1.0, 1.0]])
        load[j : j + 2] += slip * thickness * np.array([1.0, -1.0])
    shift = np.linalg.solve(matrix, load)
    # Where the boards' shifts do not follow the slope, they slip on each other.
    slipped = np.abs(np.diff(shift) + thickness)
    stiffness = float(layers * loose - along * np.sum(shift * place))
    glued = float(layers * loose + along * np.sum(place**2))
    flow = slip * float(np.max(slipped, initial=0.0)) / (stiffness * beta**2)
    return Layered(
        stiffness=stiffness,
        efficiency=(stiffness - layers * loose) / (glued - layers * loose) if glued > layers * loose else 1.0,
        pulled=along * float(np.max(np.abs(shift))) / stiffness,
        bent=loose / stiffness,
        flow=flow,
    )


def curving_stress(thickness: ArrayLike, radius: ArrayLike, *, modulus: ArrayLike) -> Array:
    """Stress in the outer fibre of a board while it is bent to a radius.

    σ = E·t/(2·R)

    Parameters
    ----------
    thickness : float or array
        Thickness t of the board [m], > 0.
    radius : float or array
        Radius R of its middle line [m], > 0.
    modulus : float or array
        Modulus E along the grain [Pa], > 0.

    Returns
    -------
    array
        Stress [Pa].

    References
    ----------
    [SWEDISHWOOD] bending a lamination.

    Examples
    --------
    >>> round(float(curving_stress(0.033, 8.0, modulus=13e9)) / 1e6, 1)
    26.8
    """
    within("thickness", thickness, 0.0, unit="m", open_low=True)
    within("radius", radius, 0.0, unit="m", open_low=True)
    within("modulus", modulus, 0.0, unit="Pa", open_low=True)
    thick = np.asarray(thickness, dtype=np.float64)
    return np.asarray(modulus, dtype=np.float64) * thick / (2 * np.asarray(radius, dtype=np.float64))


def kept_stress(stress: ArrayLike, k_def: ArrayLike) -> Array:
    """Stress of bending a board that is left after years of being held bent.

    σ = σ_0/(1 + k_def): the board creeps, and the stress that no load needs fades

    Parameters
    ----------
    stress : float or array
        Stress while it was bent [Pa], ≥ 0.
    k_def : float or array
        Deformation factor [-], ≥ 0.

    Returns
    -------
    array
        Stress [Pa].

    References
    ----------
    [EN1995] eq. 2.7: the modulus after years, at the same bend.

    Examples
    --------
    >>> round(float(kept_stress(26.8e6, 0.8)) / 1e6, 1)
    14.9
    """
    within("stress", stress, 0.0, unit="Pa")
    within("deformation factor", k_def, 0.0)
    return np.asarray(stress, dtype=np.float64) / (1 + np.asarray(k_def, dtype=np.float64))
