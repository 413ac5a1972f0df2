"""Nails of the ribs and of the lagging, counted and weighed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.data.densities import STEEL, STEEL_CITE
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.form.rib.flat import NAILED_FROM, lay_flat
from bermwright.form.rib.nails import nail_spots, nailing_of
from bermwright.handbook.boards import nail_mass, nails_along
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.form.rib.nails import Nailing
    from bermwright.form.shapes import RibForm, VaultForm
    from bermwright.house import Nail, Vault


@dataclass(frozen=True, slots=True, kw_only=True)
class RibNails:
    """The nails of one rib, layer by layer from the second: as they are drawn on the templates."""

    nail: Nail
    spacing: float
    layers: tuple[int, ...]
    drawn: bool
    """Whether a pattern is drawn; boards that are bent have one line of nails through each two."""

    @property
    def each(self) -> int:
        """All nails of one rib."""
        return sum(self.layers)

    def mass(self, ribs: int = 1) -> float:
        """Mass of the nails of some ribs (kg)."""
        one = float(nail_mass(self.nail.diameter, self.nail.length, density=STEEL))
        return one * self.each * ribs


def rib_nails(form: VaultForm, vault: Vault) -> RibNails | None:
    """The nails of one rib; None while the file does not say all of them."""
    nail, spacing = vault.nails, vault.nail_spacing
    if nail is None or spacing is None:
        return None
    if form.rib.bent:
        a_line = int(nails_along(form.rib.centreline.length, spacing=spacing, rows=1.0))
        layers = (a_line,) * (form.rib.layers - 1)
        return RibNails(nail=nail, spacing=spacing, layers=layers, drawn=False)
    nailing = nailing_of(vault, form.rib, TIMBER_CLASSES.get(vault.timber))
    if nailing is None:
        return None
    return RibNails(nail=nail, spacing=spacing, layers=_by_layer(form.rib, nailing), drawn=True)


def _by_layer(rib: RibForm, nailing: Nailing) -> tuple[int, ...]:
    """The nails that the templates show, from the second layer on."""
    by_layer = dict.fromkeys(range(NAILED_FROM, rib.layers + 1), 0)
    for piece in rib.pieces:
        if piece.layer in by_layer:
            by_layer[piece.layer] += len(nail_spots(lay_flat(rib, piece), nailing))
    return tuple(by_layer.values())


def nail_rows(form: VaultForm, vault: Vault, doubled: int = 0) -> Iterator[Quantity]:
    """Nails of the ribs by number and by mass; `doubled` ribs more stand beside holes."""
    ribs = form.ribs + doubled
    nails = rib_nails(form, vault)
    if nails is None:
        note = _why_not(form, vault)
        yield unknown("rib nails", Group.RIBS, "", note=note, stage=StageKind.RIBS)
        yield unknown("rib nails, mass", Group.RIBS, "kg", note=note, stage=StageKind.RIBS)
        return
    yield count(
        "rib nails",
        Group.RIBS,
        nails.each * ribs,
        working=tuple(_counted(form, nails, doubled)),
        stage=StageKind.RIBS,
        note="bent and lost ones not counted" + _at_the_crown(form),
    )
    mass = nails.mass(ribs)
    yield measured(
        "rib nails, mass",
        Group.RIBS,
        Shown(mass, "kg", 1),
        working=(_weighed(nails, ribs),),
        stage=StageKind.RIBS,
    )


def _why_not(form: VaultForm, vault: Vault) -> str:
    names = ("nails", "nail_spacing") if form.rib.bent else ("nails", "nails_each_side", "nail_spacing")
    missing = [f"vault.{name}" for name in names if getattr(vault, name) is None]
    if missing:
        return "not given: " + ", ".join(missing)
    if vault.timber not in TIMBER_CLASSES:
        return "no nail distances are at hand for the timber of this class (vault.timber)"
    return "timber of this class takes nails in drilled holes only (vault.predrilled)"


def _counted(form: VaultForm, nails: RibNails, doubled: int) -> Iterator[Step]:
    if nails.drawn:
        yield line(
            "Nails on the templates of one rib, layer by layer from the second; the first lies on the jig",
            "n_r",
            "Σ n_k",
            " + ".join(map(str, nails.layers)) or "0",
            result=Shown(nails.each, "", 0),
        )
    else:
        yield line(
            "One line of nails, staggered, through each two neighbouring layers",
            "n_r",
            "(layers − 1)·(⌈L/s⌉ + 1)",
            f"({form.rib.layers} − 1)·(⌈{number(form.rib.centreline.length, 'm', 2)}/"
            f"{number(nails.spacing, 'm', 2)}⌉ + 1)",
            result=Shown(nails.each, "", 0),
        )
    yield line(
        "All ribs, with those that are doubled beside holes" if doubled else "All ribs",
        "N",
        "n_r·(n + n_d)" if doubled else "n_r·n",
        f"{nails.each}·({form.ribs} + {doubled})" if doubled else f"{nails.each}·{form.ribs}",
        result=Shown(nails.each * (form.ribs + doubled), "", 0),
    )


def _weighed(nails: RibNails, ribs: int) -> Step:
    size = f"{number(nails.nail.diameter, 'mm', 1)}, {number(nails.nail.length, 'mm', 0)}"
    return line(
        f"Nails of {size}, heads left out",
        "m",
        "N·π/4·d²·l·ρ",
        f"{nails.each * ribs}·{number(1000.0 * nails.mass() / max(nails.each, 1), '', 2)} g",
        result=Shown(nails.mass(ribs), "kg", 1),
        cite=STEEL_CITE,
    )


def _at_the_crown(form: VaultForm) -> str:
    if form.rib.apex is None:
        return ""
    return "; the joint at the pointed crown, where every layer is cut, is not counted"
