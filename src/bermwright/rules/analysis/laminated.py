"""What the nails leave of a rib of bent boards: stiffness, bending of each board, force on a nail."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.timber_classes import needs_holes
from bermwright.handbook import timber as ec5
from bermwright.handbook.carpentry import layered_stack

if TYPE_CHECKING:
    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.carpentry import Layered
    from bermwright.house import Vault

WAVE = 0.4
"""Half wave of the bending over the length of the rib: the two halves bend opposite ways, and 0.8 of a half
lies between two places without bending, as in a beam over several supports (EN 1995-1-1, B.1.3)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laminations:
    """A rib of bent boards as a section whose layers slip."""

    width: float
    """Width of the boards, along the vault (m)."""
    board: float
    """Thickness of one (m)."""
    layers: int
    counted: int
    """Boards that count: one less than there are where boards are butted."""
    now: Layered
    later: Layered
    """The same after decades: timber and nails have crept."""
    inner_radius: float
    """Least radius of the innermost board (m)."""
    spacing: float | None
    """Of the nails between two boards (m); None while it is not known."""
    nail: float
    """Characteristic resistance of one nail (N); NaN where its point is too short or it is not known."""
    board_length: float
    modulus: float
    """Least section modulus, now and later (m3)."""

    @property
    def depth(self) -> float:
        """Of the whole rib (m)."""
        return self.board * self.layers

    @property
    def peak(self) -> float:
        """Section modulus of the solid rib over that which is left (-)."""
        return self.width * self.depth**2 / 6 / self.modulus

    @property
    def known(self) -> bool:
        """Whether the nails are known, and hold."""
        return self.spacing is not None and math.isfinite(self.nail)

    @property
    def cut(self) -> bool:
        """Whether any board is butted."""
        return self.counted < self.layers

    @property
    def bend_factor(self) -> float:
        """Share of the bending strength that is left after bending the boards: eq. 6.49."""
        return float(ec5.curvature_factor(self.inner_radius, self.board))

    @property
    def flow(self) -> float:
        """Largest shear flow between two boards per shear force (1/m)."""
        return max(self.now.flow, self.later.flow)

    @property
    def pulled(self) -> float:
        """Largest force along a board per bending (1/m)."""
        return max(self.now.pulled, self.later.pulled)


def laminations_of(vault: Vault, form: VaultForm, timber: TimberClass, creep: float) -> Laminations | None:
    """The section of a rib of bent boards; None for a rib of pieces. Unknown nails count as none."""
    if not form.rib.bent:
        return None
    board, layers = form.rib.depth / form.rib.layers, form.rib.layers
    counted = layers - 1 if any(_ends_inside(form)) else layers
    slip, resistance = _nail(vault, timber, board)
    per_metre = 0.0 if vault.nail_spacing is None else slip / vault.nail_spacing
    wave = WAVE * form.rib.centreline.length
    stacks = [
        layered_stack(
            max(counted, 1),
            width=form.rib.width,
            thickness=board,
            modulus=timber.modulus / (1.0 + crept),
            slip=per_metre / (1.0 + 2.0 * crept),
            wave=wave,
        )
        for crept in (0.0, creep)
    ]
    return Laminations(
        width=form.rib.width,
        board=board,
        layers=layers,
        counted=counted,
        now=stacks[0],
        later=stacks[1],
        inner_radius=inner_radius(form),
        spacing=vault.nail_spacing,
        nail=resistance,
        board_length=vault.board_length or form.rib.centreline.length,
        modulus=min(_modulus(stack, form.rib.width, board, timber) for stack in stacks),
    )


def _ends_inside(form: VaultForm) -> list[bool]:
    whole = form.rib.centreline.length
    return [piece.end - piece.start < whole - 1e-6 for piece in form.rib.pieces]


def _nail(vault: Vault, timber: TimberClass, board: float) -> tuple[float, float]:
    """Slip modulus where strength is checked (N/m) and characteristic resistance (N) of one nail."""
    nail = vault.nails
    if nail is None:
        return 0.0, math.nan
    drilled = bool(vault.predrilled)
    if needs_holes(timber.name) and not drilled:
        return 0.0, math.nan
    slip = float(
        ec5.ultimate_slip_modulus(ec5.nail_slip_modulus(timber.density, nail.diameter, predrilled=drilled))
    )
    point = nail.length - board
    if point < float(ec5.pointside_penetration(nail.diameter)):
        return slip, math.nan
    crush = float(ec5.embedment_strength(timber.density_low, nail.diameter, predrilled=drilled))
    modes = ec5.single_shear(
        nail.diameter,
        head_side=board,
        # The nail may reach further, but beyond the next board the stack slips again.
        point_side=min(point, board),
        head_embedment=crush,
        point_embedment=crush,
        yield_moment=float(ec5.yield_moment(nail.diameter, wire_strength=vault.nail_strength)),
    )
    return slip, float(modes.capacity)


def inner_radius(form: VaultForm) -> float:
    """Least radius to which the innermost board is bent (m)."""
    line = form.rib.centreline
    step = np.linspace(0.0, line.length, 81)
    _, _, angle = line.at(step)
    turn = np.abs(np.diff(angle)) / np.diff(step)
    sharpest = float(np.max(turn))
    return math.inf if sharpest <= 0.0 else 1.0 / sharpest - 0.5 * form.rib.depth


def _modulus(stack: Layered, width: float, board: float, timber: TimberClass) -> float:
    """Bending over this is the stress that uses as much of f_m as bending and pull of a board together."""
    bent = stack.bent / (width * board**2 / 6)
    pulled = stack.pulled / (width * board) * timber.bending / timber.tension
    return 1.0 / (bent + pulled)
