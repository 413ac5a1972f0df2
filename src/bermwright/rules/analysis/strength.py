"""What the ribs are made of and can take; the strength used in every lane, situation and element."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.timber_classes import GAMMA_CONNECTION, GAMMA_TIMBER, K_CRACK
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.joint import NailedJoint, joint_spring, nailed_joint
from bermwright.rules.analysis.laminated import Laminations, laminations_of
from bermwright.rules.analysis.response import keeps, worse_end
from bermwright.rules.analysis.states import Softening

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Vault
    from bermwright.rules.analysis.halves import Half
    from bermwright.rules.analysis.response import Analysis

    Array = NDArray[np.float64]

ACCIDENT = 1.0
"""Partial factor on every strength once an accident has happened: EN 1995-1-1, table 2.3 (from memory)."""
NEAR = 16_384
"""Numbers of an array that stay near the processor while it works on a few such arrays."""
WORST_CLASS = 3
"""Service class that counts while the file does not say one: the dampest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RibStrength:
    """One nail-laminated rib as material and section."""

    timber: TimberClass
    service_class: int
    layers: int
    board: float
    """Thickness of one layer (m)."""
    depth: float
    joint_nodes: NDArray[np.int64]
    """Nodes of the mesh at which one layer is cut."""
    joint: NailedJoint | None
    """Its nails; None while they are not known."""
    joint_stiffness: float
    """Rotational spring of a butt joint (N m/rad), short term."""
    peak: float
    """Largest bending in one layer over its equal share: the price of the butt joints."""
    softening: Softening
    bent: Laminations | None = None
    """A rib of boards bent over each other; None for one of pieces side by side."""
    accidental: bool = False
    """Whether it is looked at after an accident, with partial factors of 1."""

    @classmethod
    def of(cls, vault: Vault, form: VaultForm, timber: TimberClass) -> RibStrength:
        """Read a vault's ribs; wet boards creep more."""
        service_class = vault.service_class or WORST_CLASS
        creep = ec5.deformation_factor(service_class, green=vault.seasoned is not True)
        layers = form.rib.layers
        bent = laminations_of(vault, form, timber, creep)
        if bent is not None:
            return cls(
                timber=timber,
                service_class=service_class,
                layers=layers,
                board=bent.board,
                depth=form.rib.depth,
                joint_nodes=np.array([], dtype=np.int64),
                joint=None,
                joint_stiffness=np.inf,
                peak=bent.peak,
                softening=Softening(ribs=bent.later.stiffness / bent.now.stiffness, joints=1.0),
                bent=bent,
            )
        joint = nailed_joint(vault, form, timber)
        return cls(
            timber=timber,
            service_class=service_class,
            layers=layers,
            board=form.rib.width / layers,
            depth=form.rib.depth,
            joint_nodes=np.array(form.mesh.joint_nodes, dtype=np.int64),
            joint=joint,
            joint_stiffness=joint_spring(joint, form, timber, vault.board_length or vault.span),
            peak=float(joint.pieces.moment_peak) if joint else layers / (layers - 1),
            softening=Softening(ribs=1 / (1 + creep), joints=1 / (1 + 2 * creep)),
        )

    @property
    def provisional(self) -> RibStrength:
        """The same with a usual number of nails in every half of a piece, for what is marked provisional."""
        if self.joint is None:
            return self
        joint = replace(self.joint, halves=replace(self.joint.halves, skipped=True))
        return replace(self, joint=joint)

    @property
    def width(self) -> float:
        """Thickness of the whole rib along the vault (m)."""
        return self.bent.width if self.bent else self.board * self.layers

    @property
    def area(self) -> float:
        """Whole section (m2)."""
        return self.width * self.depth

    @property
    def modulus(self) -> float:
        """Section modulus that counts: of all layers, over the peak of one of them (m3)."""
        return self.width * self.depth**2 / 6 / self.peak

    @property
    def axial_stiffness(self) -> float:
        """EA with the mean modulus (N)."""
        return self.timber.modulus * self.area

    @property
    def bending_stiffness(self) -> float:
        """EI of whole layers with the mean modulus (N m2); the joints are springs of their own."""
        if self.bent:
            return self.bent.now.stiffness
        return self.timber.modulus * self.width * self.depth**3 / 12

    @property
    def left_at_joint(self) -> float:
        """Share of the area that runs through where one layer is cut."""
        if self.bent and not self.bent.cut:
            return 1.0
        return (self.layers - 1) / self.layers

    def shares(self, elements: int) -> Array:
        """(n, 2) share of the area that carries at the start and end of each element."""
        share = np.full(elements + 1, self.left_at_joint if self.bent else 1.0)
        share[self.joint_nodes] = self.left_at_joint
        return np.stack([share[:-1], share[1:]], axis=1)

    @property
    def loose(self) -> bool:
        """Whether it is not known how the nails tie the layers."""
        if self.bent:
            return not self.bent.known
        return self.joint is None and self.joint_nodes.size > 0

    @property
    def beside(self) -> tuple[int, float]:
        """Boards that lie side by side along the vault, and the width of one (m)."""
        return (1, self.width) if self.bent else (self.layers, self.board)

    def design(self, strength: float, kmod: Array | float) -> Array:
        """Design strength of the timber for each kmod (Pa)."""
        return ec5.design_strength(strength, kmod, gamma=self.gamma)

    @property
    def gamma(self) -> float:
        """Partial factor on the timber."""
        return ACCIDENT if self.accidental else GAMMA_TIMBER.value

    @property
    def gamma_nails(self) -> float:
        """Partial factor on the nails."""
        return ACCIDENT if self.accidental else GAMMA_CONNECTION.value

    def kmods(self, analysis: Analysis) -> Array:
        """(S,) modification factor of each situation."""
        durations = {str(now.case.duration) for now in analysis.situations}
        table = {name: ec5.modification_factor(self.service_class, name) for name in durations}
        return np.array([table[str(now.case.duration)] for now in analysis.situations])

    @property
    def bending_strength(self) -> float:
        """Characteristic bending strength with the factor for shallow boards, and that for bent ones (Pa)."""
        if self.bent:
            return self.timber.bending * float(ec5.depth_factor(self.board)) * self.bent.bend_factor
        return self.timber.bending * float(ec5.depth_factor(self.depth))


def where_known(function: Callable[..., Array], *stresses: Array) -> Array:
    """A ratio where every stress is known; NaN elsewhere, so that what is unknown stays unknown.

    All stresses are (L, S, ...); what else the function reads must be the same in every lane, as it is
    given a few lanes at a time: arrays of all lanes at once are too large to stay near the processor.
    """
    alike = np.broadcast_arrays(*stresses)
    ratio = np.full(alike[0].shape, np.nan)
    few = max(NEAR * len(ratio) // max(ratio.size, 1), 1)
    for lane in range(0, len(ratio), few):
        here = [stress[lane : lane + few] for stress in alike]
        known = np.isfinite(here[0])
        for stress in here[1:]:
            known &= np.isfinite(stress)
        if known.all():
            ratio[lane : lane + few] = function(*here)
        elif known.any():
            # One is a value that every stress and reduction may have.
            filled = function(*(np.where(known, stress, 1.0) for stress in here))
            ratio[lane : lane + few] = np.where(known, filled, np.nan)
    return ratio


@keeps
def bending_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n, 2) strength used by bending with thrust in the layer that carries most.

    EN 1995-1-1, 6.19 for compression and 6.17 for tension; the model factor is in.
    """
    kmod = strength.kmods(analysis)[None, :, None, None]
    area = strength.shares(analysis.frame.elements) * strength.area
    axial = analysis.response.axial[..., None] / area
    bending = np.abs(analysis.moment) / strength.modulus
    fm = strength.design(strength.bending_strength, kmod)
    fc = strength.design(strength.timber.compression, kmod)
    ft = strength.design(strength.timber.tension, kmod)

    def used(bent: Array, pressed: Array) -> Array:
        squeeze = ec5.bending_and_compression(
            np.maximum(pressed, 0.0), bent, compression_strength=fc, bending_strength=fm
        )
        pull = ec5.bending_and_tension(
            np.maximum(-pressed, 0.0), bent, tension_strength=ft, bending_strength=fm
        )
        return np.where(pressed >= 0, squeeze, pull)

    return where_known(used, bending, axial)


@keeps
def shear_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n) strength used by shear, with the layers left at joints."""
    share = strength.shares(analysis.frame.elements).min(axis=1)
    kmod = strength.kmods(analysis)[None, :, None]
    counted = np.where(analysis.bends, 1.0, np.nan) * analysis.model[None, :]
    force = np.abs(analysis.response.shear) * counted[:, :, None]
    limit = strength.design(strength.timber.shear, kmod)

    def used(shear: Array) -> Array:
        stress = ec5.shear_stress(
            shear, share * strength.width, depth=strength.depth, crack_factor=K_CRACK.value
        )
        return stress / limit

    return where_known(used, force)


@keeps
def nail_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, j) strength used of the nails at each butt joint, in every soil run, the heavy one too.

    Where half a piece that ends there has room for less than the nails of a usual one, those that are drawn
    in it are reckoned too. NaN while the nails are not known, and where half a piece has none.
    """
    joint, nodes = strength.joint, strength.joint_nodes
    if joint is None or not np.isfinite(joint.resistance):
        return np.full((*analysis.response.converged.shape, nodes.size), np.nan)
    moment, axial, shear = joint_forces(analysis, nodes)
    limit = ec5.design_strength(joint.resistance, strength.kmods(analysis), gamma=strength.gamma_nails)

    def used(bent: Array, pressed: Array, cut: Array) -> Array:
        return joint.force(bent, pressed, cut, strength.layers) / (limit * joint.effective)[None, :, None]

    ratio = where_known(used, moment, axial, shear)
    for number, half in joint.weaker:

        def drawn(bent: Array, pressed: Array, cut: Array, half: Half = half) -> Array:
            return joint.half_force(half, bent, pressed, cut, strength.layers) / (limit * half.effective)

        here = (moment[:, :, number], axial[:, :, number], shear[:, :, number])
        there = np.full(ratio.shape[:2], np.nan) if half.bare else where_known(drawn, *here)
        ratio[:, :, number] = np.maximum(ratio[:, :, number], there)
    return ratio


@keeps
def slip_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n) strength used of the nails between bent boards: they hold the boards from slipping.

    Beside a butt the nails on half a board also lead its force into its neighbour. NaN while they are not
    known.
    """
    bent = strength.bent
    if bent is None or bent.spacing is None or not np.isfinite(bent.nail):
        return np.full(analysis.response.shear.shape, np.nan)
    limit = ec5.design_strength(bent.nail, strength.kmods(analysis), gamma=strength.gamma_nails)
    model = np.where(analysis.bends, analysis.model[None, :], 1.0)
    shear = np.abs(analysis.response.shear) * model[:, :, None]
    moment = worse_end(analysis.connection_moment)
    spacing = bent.spacing
    half = max(0.5 * bent.board_length / spacing, 1.0)

    def used(cut: Array, turned: Array, pressed: Array) -> Array:
        slipping = cut * bent.flow * spacing
        butted = (turned * bent.pulled + np.abs(pressed) / bent.layers) / half if bent.cut else 0.0
        return np.maximum(slipping, butted) / limit[None, :, None]

    return where_known(used, shear, moment, analysis.response.axial)


def joint_forces(analysis: Analysis, nodes: NDArray[np.int64]) -> tuple[Array, Array, Array]:
    """(L, S, j) sizes of bending, thrust and shear at the butt joints, model factor in the bending."""
    before, after = nodes - 1, np.minimum(nodes, analysis.frame.elements - 1)
    axial, shear = (
        np.maximum(np.abs(force[:, :, before]), np.abs(force[:, :, after]))
        for force in (analysis.response.axial, analysis.response.shear)
    )
    bending = np.abs(analysis.connection_moment)
    return np.maximum(bending[:, :, before, 1], bending[:, :, after, 0]), axial, shear


@keeps
def rib_ratios(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S) the largest strength used anywhere in the rib, in the lanes that count for bending.

    It steers the fill: stop marks and order of work answer to how the soil is really compacted. That nails
    stand the heavy run whatever is said of compaction is a rule of its own. NaN while the nails are not
    known: how evenly the layers carry is then not known either.
    """
    bent = bending_ratio(analysis, strength).max(axis=(2, 3))
    used: Array = np.maximum(bent, shear_ratio(analysis, strength).max(axis=2))
    if strength.joint_nodes.size:
        used = np.maximum(used, nail_ratio(analysis, strength).max(axis=2))
    if strength.bent:
        used = np.maximum(used, slip_ratio(analysis, strength).max(axis=2))
    return np.where(analysis.bends, used, -np.inf)
