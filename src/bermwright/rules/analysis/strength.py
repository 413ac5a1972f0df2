"""What the ribs are made of and can take; the strength used in every lane, situation and element."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.states import Softening

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.data.timber_classes import StrengthClass
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Vault
    from bermwright.rules.analysis.response import Analysis

    Array = NDArray[np.float64]

WORST_CLASS = 3
"""Service class that counts while the file does not say one: the dampest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RibStrength:
    """One nail-laminated rib as material and section."""

    timber: StrengthClass
    service_class: int
    layers: int
    board: float
    """Thickness of one layer (m)."""
    depth: float
    joint_nodes: NDArray[np.int64]
    """Nodes of the mesh at which one layer is cut."""
    joint_stiffness: float
    """Rotational spring of a butt joint (N m/rad), short term."""
    softening: Softening

    @classmethod
    def of(cls, vault: Vault, form: VaultForm, timber: StrengthClass) -> RibStrength:
        """Read a vault's ribs."""
        service_class = vault.service_class or WORST_CLASS
        creep = ec5.deformation_factor(service_class)
        return cls(
            timber=timber,
            service_class=service_class,
            layers=form.rib.layers,
            board=form.rib.width / form.rib.layers,
            depth=form.rib.depth,
            joint_nodes=np.array(form.mesh.joint_nodes, dtype=np.int64),
            joint_stiffness=joint_spring(vault, form, timber),
            softening=Softening(ribs=1 / (1 + creep), joints=1 / (1 + 2 * creep)),
        )

    @property
    def width(self) -> float:
        """Thickness of the whole rib along the vault (m)."""
        return self.board * self.layers

    @property
    def area(self) -> float:
        """Whole section (m2)."""
        return self.width * self.depth

    @property
    def modulus(self) -> float:
        """Section modulus of the whole section (m3)."""
        return self.width * self.depth**2 / 6

    @property
    def axial_stiffness(self) -> float:
        """EA with the mean modulus (N)."""
        return self.timber.modulus_mean * self.area

    @property
    def bending_stiffness(self) -> float:
        """EI with the mean modulus (N m2)."""
        return self.timber.modulus_mean * self.width * self.depth**3 / 12

    @property
    def left_at_joint(self) -> float:
        """Share of the section that runs through where one layer is cut."""
        return (self.layers - 1) / self.layers

    def shares(self, elements: int) -> Array:
        """(n, 2) share of the section that carries at the start and end of each element."""
        share = np.ones(elements + 1)
        share[self.joint_nodes] = self.left_at_joint
        return np.stack([share[:-1], share[1:]], axis=1)

    def design(self, strength: float, kmod: Array) -> Array:
        """Design strength for each kmod (Pa)."""
        return kmod * strength / ec5.MATERIAL_FACTOR_SOLID

    def kmods(self, analysis: Analysis) -> Array:
        """(S,) modification factor of each situation."""
        return np.array(
            [ec5.modification_factor(self.service_class, str(now.case.duration)) for now in analysis.situations]
        )


def joint_spring(vault: Vault, form: VaultForm, timber: StrengthClass) -> float:
    """Rotational stiffness that a butt joint in one layer leaves in the rib (N m/rad).

    Without nails in the file nothing but the continuous layers over a joint of one board length holds.
    """
    raise AssertionError(vault, form, timber)


def bending_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n, 2) strength used by bending with axial force, with the section left at joints.

    EN 1995-1-1, 6.19 for compression, 6.17 for tension; design values, model factor in.
    """
    share = strength.shares(analysis.frame.elements)
    kmod = strength.kmods(analysis)[None, :, None, None]
    axial = analysis.response.axial[..., None] / (share * strength.area)
    bending = np.abs(analysis.moment) / (share * strength.modulus)
    height = ec5.depth_factor(strength.depth)
    fm = strength.design(strength.timber.bending * height, kmod)
    fc = strength.design(strength.timber.compression, kmod)
    ft = strength.design(strength.timber.tension, kmod)
    squeezed = ec5.bending_with_compression(bending, axial, bending_strength=fm, compression_strength=fc)
    pulled = ec5.bending_with_tension(bending, -axial, bending_strength=fm, tension_strength=ft)
    return np.where(axial >= 0, squeezed, pulled)


def shear_ratio(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S, n) strength used by shear, with the section left at joints."""
    share = strength.shares(analysis.frame.elements).min(axis=1)
    kmod = strength.kmods(analysis)[None, :, None]
    stress = ec5.shear_stress(analysis.response.shear, share * strength.width, strength.depth)
    counted = np.where(analysis.bends, 1.0, np.nan) * analysis.model[None, :]
    return stress * counted[:, :, None] / strength.design(strength.timber.shear, kmod)


def rib_ratios(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S) the largest strength used anywhere in the rib."""
    bending = bending_ratio(analysis, strength).max(axis=(2, 3))
    return np.maximum(bending, shear_ratio(analysis, strength).max(axis=2))
