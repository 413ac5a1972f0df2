"""Butt joints: how a rib nailed together from short pieces bends, and what its nails carry.

Each layer is a chain of pieces that meet at butt joints; a piece can take no bending at its own ends,
so its share comes and goes through the nails. Close to a joint the other layers carry more. Start
reading at `pieces_in_rib`, which looks at all pieces at once; `single_joint` looks at one joint alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Complex = NDArray[np.complex128]

NUDGE_TINY = 1e-6
"""The two roots of the equation of a piece must differ; equal ones are moved apart by this share."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Coupling:
    """How stiffly nails tie one layer to the rest, smeared along the rib."""

    transverse: Array
    """Force per length and slip across the grain (N/m2)."""
    rotational: Array
    """Moment per length and relative turn (N)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RibOfPieces:
    """A rib of pieces under a constant moment, against the same rib of whole boards."""

    stiffness_ratio: Array
    """Bending stiffness over that of uncut layers."""
    moment_peak: Array
    """Largest bending moment in one layer over the equal share M/n."""
    joint_flexibility: Array
    """Extra turn at each butt joint (rad/Nm), for a frame with full stiffness between joints."""
    joint_stiffness: Array
    """The inverse: the rotational spring at each butt joint (Nm/rad)."""
    end_slip: Array
    """Slip across the grain at the end of a piece for each Nm on the rib (m/Nm)."""
    end_rotation: Array
    """Turn of the end of a piece against the rest for each Nm on the rib (rad/Nm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SingleJoint:
    """One butt joint far from all others."""

    transfer_length: Array
    """Length each side over which the section is short of one layer (m)."""
    flexibility: Array
    """Extra turn (rad/Nm)."""
    stiffness: Array
    """Rotational spring (Nm/rad)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NailForce:
    """The nail of a group that carries most."""

    force: Array
    """Force in one shear plane (N)."""
    angle: Array
    """Its angle to the grain (rad), 0 to π/2."""


def nail_coupling(
    slip_modulus: ArrayLike, row_heights: ArrayLike, *, spacing: ArrayLike, planes: ArrayLike = 1.0
) -> Coupling:
    """How stiffly rows of nails tie one layer to its neighbour.

    k_w = p·m·K/s, k_θ = p·K·Σy²/s

    Parameters
    ----------
    slip_modulus : float or array
        Slip modulus K of one nail in one shear plane [N/m], > 0.
    row_heights : float or array
        Distance y of each of the m rows from the middle of the depth, last axis [m].
    spacing : float or array
        Spacing s of the nails along each row [m], > 0.
    planes : float or array
        Shear planes p that tie the layer [-], 1 or 2.

    Returns
    -------
    Coupling
        Transverse [N/m2] and rotational [N] coupling.

    References
    ----------
    [LAYEREDRIB] nails smeared along the rib.

    Examples
    --------
    >>> tie = nail_coupling(700e3, [-0.06, 0.06], spacing=0.1)
    >>> round(float(tie.transverse)), round(float(tie.rotational))
    (14000000, 50400)
    """
    within("slip modulus", slip_modulus, 0.0, unit="N/m", open_low=True)
    within("height of the nail rows", row_heights, unit="m")
    within("nail spacing", spacing, 0.0, unit="m", open_low=True)
    within("shear planes", planes, 1.0, 2.0)
    heights = np.atleast_1d(np.asarray(row_heights, dtype=np.float64))
    smeared = (
        np.asarray(planes, dtype=np.float64)
        * np.asarray(slip_modulus, dtype=np.float64)
        / np.asarray(spacing, dtype=np.float64)
    )
    return Coupling(
        transverse=heights.shape[-1] * smeared,
        rotational=np.sum(heights**2, axis=-1) * smeared,
    )


def single_joint(
    layer_stiffness: ArrayLike, layers: ArrayLike, *, transverse: ArrayLike, rotational: ArrayLike
) -> SingleJoint:
    """Softness of one butt joint in one of n layers, the others running through.

    C = 2·L_t/(n·(n − 1)·EI), L_t = √(k_θ/EI_r + 2·P)/(k_θ/EI_r + P), P = √(k_w/EI_r),
    EI_r = (n − 1)/n·EI

    Parameters
    ----------
    layer_stiffness : float or array
        Bending stiffness EI of one layer [Nm2], > 0.
    layers : float or array
        Number n of layers [-], ≥ 2.
    transverse : float or array
        Transverse coupling k_w of the cut layer to the rest [N/m2], > 0.
    rotational : float or array
        Rotational coupling k_θ [N], ≥ 0.

    Returns
    -------
    SingleJoint
        Transfer length [m], flexibility [rad/Nm], spring [Nm/rad].

    Notes
    -----
    The cut layer and the rest are two beams side by side; with δ the deflection of one against the
    other, EI_r·δ'''' − k_θ·δ'' + k_w·δ = 0, and at the cut, where the layer is free, δ'' = M/((n−1)·EI) and
    EI_r·δ''' = k_θ·δ'. The solution fades with two roots r₁, r₂ of product P and squared sum k_θ/EI_r;
    −δ'(0) = δ''(0)·(r₁ + r₂)/(r₁² + r₁r₂ + r₂²), and the rib turns by 2·δ'(0)/n more than a whole one. The
    section of n − 1 layers over a length 2·L_t turns as much. Lower bound of the softness of joints
    that stand close together: use `pieces_in_rib` for them.

    References
    ----------
    [LAYEREDRIB] one joint.

    Examples
    --------
    >>> joint = single_joint(178e3, 4, transverse=14e6, rotational=50e3)
    >>> round(float(joint.transfer_length), 3)
    0.43
    """
    _check_rib(layer_stiffness, layers, transverse, rotational)
    stiffness, n = np.asarray(layer_stiffness, dtype=np.float64), np.asarray(layers, dtype=np.float64)
    relative = (n - 1) / n * stiffness
    product = np.sqrt(np.asarray(transverse, dtype=np.float64) / relative)
    turned = np.asarray(rotational, dtype=np.float64) / relative
    length = np.sqrt(turned + 2 * product) / (turned + product)
    flexibility = 2 * length / (n * (n - 1) * stiffness)
    return SingleJoint(transfer_length=length, flexibility=flexibility, stiffness=1 / flexibility)


def pieces_in_rib(
    layer_stiffness: ArrayLike,
    layers: ArrayLike,
    *,
    piece_length: ArrayLike,
    transverse: ArrayLike,
    rotational: ArrayLike,
) -> RibOfPieces:
    """Stiffness and strength of a rib whose n layers are pieces with staggered butt joints.

    η = 1 − (2/ℓ)·q, q = (r₁² − r₂²)/(r₁³·coth(r₁ℓ/2) − r₂³·coth(r₂ℓ/2)),
    with r² the roots of EI·r⁴ − k_θ·r² + k_w = 0; each joint turns by C = ℓ·(1/η − 1)/(n²·EI), and not less
    than one joint alone

    Parameters
    ----------
    layer_stiffness : float or array
        Bending stiffness EI of one layer [Nm2], > 0.
    layers : float or array
        Number n of layers [-], ≥ 2.
    piece_length : float or array
        Length ℓ of a piece, which is also the distance of joints in one layer [m], > 0.
    transverse : float or array
        Transverse coupling k_w of a layer by the nails of one shear plane [N/m2], > 0.
    rotational : float or array
        Rotational coupling k_θ by the nails of one shear plane [N], ≥ 0.

    Returns
    -------
    RibOfPieces
        Stiffness ratio [-], moment peak [-], flexibility [rad/Nm] and spring [Nm/rad] of a joint, slip
        [m/Nm] and turn [rad/Nm] at the ends of a piece.

    Notes
    -----
    Every piece is a beam on the nails that tie it to the mean line of the rib, which bends with the
    curvature κ = M/(n·η·EI): EI·δ'''' − k_θ·δ'' + k_w·δ = 0, at its free ends δ'' = κ and
    EI·δ''' = k_θ·δ'. The moment of all layers makes M, so the mean of 1 − δ''/κ along a piece is η. The peak
    is taken in the middle of a piece, times n/(n − 1) for a neighbour cut right there; no layer carries
    more than the whole moment. Short pieces with few nails turn like links of a chain: η then falls far
    below what single joints add up to.
    Against a layered beam model with nails one by one (2 to 6 layers, pieces 0.8 to 3 m) the stiffness
    comes out at 0.5 to 1.1 of the model's and the peak at 0.95 to 1.6 of it. Constant moment; contact and
    friction between pieces are left out; nails on top of the regular rows only make it stiffer.

    References
    ----------
    [LAYEREDRIB] all joints; [EN1995] table 7.1 for the slip of the nails.

    Examples
    --------
    >>> rib = pieces_in_rib(178e3, 4, piece_length=1.2, transverse=14e6, rotational=50e3)
    >>> round(float(rib.stiffness_ratio), 3), round(float(rib.moment_peak), 2)
    (0.191, 2.42)
    """
    _check_rib(layer_stiffness, layers, transverse, rotational)
    within("length of a piece", piece_length, 0.0, unit="m", open_low=True)
    stiffness, n = np.asarray(layer_stiffness, dtype=np.float64), np.asarray(layers, dtype=np.float64)
    length = np.asarray(piece_length, dtype=np.float64)
    slip, turn, middle = _piece(
        stiffness, length, np.asarray(transverse, dtype=np.float64), np.asarray(rotational, dtype=np.float64)
    )
    ratio = 1 - 2 * turn / length
    alone = single_joint(layer_stiffness, layers, transverse=transverse, rotational=rotational)
    crowded = length * (1 / ratio - 1) / (n**2 * stiffness)
    flexibility = np.maximum(crowded, alone.flexibility)
    curvature = 1 / (n * stiffness * ratio)
    return RibOfPieces(
        stiffness_ratio=1 / (1 + flexibility * n**2 * stiffness / length),
        moment_peak=np.minimum((1 - middle) / ratio * n / (n - 1), n),
        joint_flexibility=flexibility,
        joint_stiffness=1 / flexibility,
        end_slip=slip * curvature,
        end_rotation=turn * curvature,
    )


def joint_nail_force(
    moment: ArrayLike,
    *,
    axial: ArrayLike,
    shear: ArrayLike,
    layers: ArrayLike,
    planes: ArrayLike,
    along: ArrayLike,
    across: ArrayLike,
) -> NailForce:
    """Force on the nail that carries most, in the group on one side of a butt joint.

    F = |(N + M·y/J, V + M·x/J)|/(n·p·m) with J = Σ(x² + y²)/m about the group's own middle

    Parameters
    ----------
    moment : float or array
        Bending moment of the rib at the middle of the group [Nm].
    axial : float or array
        Axial force of the rib [N].
    shear : float or array
        Shear force of the rib [N].
    layers : float or array
        Number n of layers [-], ≥ 2.
    planes : float or array
        Shear planes p that tie the cut layer [-], 1 for an outer layer, 2 for an inner one.
    along : array
        Place of each of the m nails along the grain, last axis [m].
    across : array
        Place of each nail across the grain, last axis [m].

    Returns
    -------
    NailForce
        Force on one nail in one shear plane [N] and its angle to the grain [rad].

    Notes
    -----
    The layer's share 1/n of all three forces passes into the neighbours by this group alone: a state
    in equilibrium, so with nails that yield a lower bound of the strength. The direction of each force
    is taken as the unfavourable one.

    References
    ----------
    [LAYEREDRIB] nail group; elastic group about its middle.

    Examples
    --------
    >>> nail = joint_nail_force(
    ...     2000.0,
    ...     axial=0.0,
    ...     shear=0.0,
    ...     layers=4,
    ...     planes=1,
    ...     along=[0.05, 0.05, 0.25, 0.25],
    ...     across=[-0.06, 0.06, -0.06, 0.06],
    ... )
    >>> round(float(nail.force))
    1072
    """
    for name, value in (("moment", moment), ("axial force", axial), ("shear force", shear)):
        within(name, value)
    within("number of layers", layers, 2.0)
    within("shear planes", planes, 1.0, 2.0)
    x, y = _from_middle(along, across)
    nails = x.shape[-1]
    polar = np.sum(x**2 + y**2, axis=-1, keepdims=True)
    x, y = _farthest_out(np.abs(x), np.abs(y))
    share = 1 / (np.asarray(layers, dtype=np.float64) * np.asarray(planes, dtype=np.float64))[..., None]
    turned = np.abs(np.asarray(moment, dtype=np.float64))[..., None] / polar
    with_grain = share * (np.abs(np.asarray(axial, dtype=np.float64))[..., None] / nails + turned * y)
    over_grain = share * (np.abs(np.asarray(shear, dtype=np.float64))[..., None] / nails + turned * x)
    force = np.hypot(with_grain, over_grain)
    worst = np.argmax(force, axis=-1)[..., None]
    along_worst, across_worst = (
        np.take_along_axis(np.broadcast_to(one, force.shape), worst, axis=-1)[..., 0]
        for one in (with_grain, over_grain)
    )
    return NailForce(
        force=np.take_along_axis(force, worst, axis=-1)[..., 0],
        angle=np.arctan2(across_worst, along_worst),
    )


def _check_rib(
    layer_stiffness: ArrayLike, layers: ArrayLike, transverse: ArrayLike, rotational: ArrayLike
) -> None:
    within("stiffness of a layer", layer_stiffness, 0.0, unit="Nm2", open_low=True)
    within("number of layers", layers, 2.0)
    within("transverse coupling", transverse, 0.0, unit="N/m2", open_low=True)
    within("rotational coupling", rotational, 0.0, unit="N")


def _piece(
    stiffness: Array, length: Array, transverse: Array, rotational: Array
) -> tuple[Array, Array, Array]:
    """Slip and turn at the end and δ'' in the middle of a piece, for a mean curvature of one."""
    half = length / 2
    first, second = _roots(stiffness, transverse, rotational)
    coth_first, coth_second = 1 / np.tanh(first * half), 1 / np.tanh(second * half)
    below = first**3 * coth_first - second**3 * coth_second
    slip = (first * coth_first - second * coth_second) / below
    turn = (first**2 - second**2) / below
    middle = (first**3 / np.sinh(first * half) - second**3 / np.sinh(second * half)) / below
    return np.abs(slip), turn.real, middle.real


def _roots(stiffness: Array, transverse: Array, rotational: Array) -> tuple[Complex, Complex]:
    """The two roots r with positive real part of EI·r⁴ − k_θ·r² + k_w = 0; a pair where complex."""
    turned = rotational / stiffness
    pressed = 4 * transverse / stiffness
    inside = turned**2 - pressed
    size = turned**2 + pressed
    apart = np.where(np.abs(inside) < NUDGE_TINY * size, NUDGE_TINY * size, inside)
    root = np.sqrt(apart.astype(complex))
    return np.sqrt((turned + root) / 2), np.sqrt((turned - root) / 2)


def _farthest_out(x: Array, y: Array) -> tuple[Array, Array]:
    """One group's nails that no other lies beyond both ways: the one that carries most is among them."""
    if x.ndim != 1 or x.shape != y.shape:
        return x, y
    beyond = (x >= x[:, None]) & (y >= y[:, None])
    # Of nails at the same distances the first one stays.
    twin = beyond & beyond.T & np.tri(x.size, k=-1, dtype=bool).T
    inner = (beyond & ~beyond.T).any(axis=1) | twin.any(axis=0)
    return x[~inner], y[~inner]


def _from_middle(along: ArrayLike, across: ArrayLike) -> tuple[Array, Array]:
    within("place of the nails along the grain", along, unit="m")
    within("place of the nails across the grain", across, unit="m")
    x, y = np.asarray(along, dtype=np.float64), np.asarray(across, dtype=np.float64)
    x, y = x - np.mean(x, axis=-1, keepdims=True), y - np.mean(y, axis=-1, keepdims=True)
    # One nail, or all in one place, cannot take a moment.
    within("spread of the nails", np.sum(x**2 + y**2, axis=-1), 0.0, unit="m2", open_low=True)
    return x, y
