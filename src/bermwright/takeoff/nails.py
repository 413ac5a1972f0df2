"""Nails of the ribs and of the lagging, counted and weighed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.data.densities import STEEL, STEEL_CITE
from bermwright.handbook.boards import nail_mass, nails_along
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Nail, Vault


@dataclass(frozen=True, slots=True, kw_only=True)
class RibNails:
    """The nails of one rib."""

    nail: Nail
    joints: int
    """Butt joints of one rib."""
    each_side: int
    spacing: float
    at_joints: int
    between: int

    @property
    def each(self) -> int:
        """All nails of one rib."""
        return self.at_joints + self.between

    def mass(self, ribs: int = 1) -> float:
        """Mass of the nails of some ribs (kg)."""
        one = float(nail_mass(self.nail.diameter, self.nail.length, density=STEEL))
        return one * self.each * ribs


def rib_nails(form: VaultForm, vault: Vault) -> RibNails | None:
    """The nails of one rib; None while the file does not say all of them."""
    each_side = 0 if form.rib.bent else vault.nails_each_side
    if vault.nails is None or each_side is None or vault.nail_spacing is None:
        return None
    joints = int(form.rib.joints.size)
    # One line of nails, staggered, through each two neighbouring layers.
    a_line = int(nails_along(form.rib.centreline.length, spacing=vault.nail_spacing, rows=1.0))
    return RibNails(
        nail=vault.nails,
        joints=joints,
        each_side=each_side,
        spacing=vault.nail_spacing,
        at_joints=2 * each_side * joints,
        between=(form.rib.layers - 1) * a_line,
    )


def nail_rows(form: VaultForm, vault: Vault) -> Iterator[Quantity]:
    """Nails of the ribs by number and by mass."""
    nails = rib_nails(form, vault)
    if nails is None:
        names = ("nails", "nails_each_side", "nail_spacing")
        note = "not given: " + ", ".join(f"vault.{name}" for name in names if getattr(vault, name) is None)
        yield unknown("rib nails", Group.RIBS, "", note=note, stage=StageKind.RIBS)
        yield unknown("rib nails, mass", Group.RIBS, "kg", note=note, stage=StageKind.RIBS)
        return
    yield count(
        "rib nails",
        Group.RIBS,
        nails.each * form.ribs,
        working=tuple(_counted(form, nails)),
        stage=StageKind.RIBS,
        note="bent and lost ones not counted" + _at_the_crown(form),
    )
    mass = nails.mass(form.ribs)
    yield measured(
        "rib nails, mass",
        Group.RIBS,
        Shown(mass, "kg", 1),
        working=(_weighed(nails, form.ribs),),
        stage=StageKind.RIBS,
    )


def _counted(form: VaultForm, nails: RibNails) -> Iterator[Step]:
    yield line(
        "At the butt joints of one rib: nails on both sides of each",
        "n_j",
        "2·n·joints",
        f"2·{nails.each_side}·{nails.joints}",
        result=Shown(nails.at_joints, "", 0),
    )
    yield line(
        "Between them: one line, staggered, through each two neighbouring layers",
        "n_l",
        "(layers − 1)·(⌈L/s⌉ + 1)",
        f"({form.rib.layers} − 1)·(⌈{number(form.rib.centreline.length, 'm', 2)}/"
        f"{number(nails.spacing, 'm', 2)}⌉ + 1)",
        result=Shown(nails.between, "", 0),
    )
    yield line(
        "All ribs",
        "N",
        "(n_j + n_l)·n",
        f"{nails.each}·{form.ribs}",
        result=Shown(nails.each * form.ribs, "", 0),
    )


def _weighed(nails: RibNails, ribs: int) -> Step:
    size = f"{number(nails.nail.diameter, 'mm', 1)}, {number(nails.nail.length, 'mm', 0)}"
    return line(
        f"Nails of {size}, heads left out",
        "m",
        "N·π/4·d²·l·ρ",
        f"{nails.each * ribs}·{number(1000.0 * nails.mass() / nails.each, '', 2)} g",
        result=Shown(nails.mass(ribs), "kg", 1),
        cite=STEEL_CITE,
    )


def _at_the_crown(form: VaultForm) -> str:
    if form.rib.apex is None:
        return ""
    return "; the joint at the pointed crown, where every layer is cut, is not counted"
