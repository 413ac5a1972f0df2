"""Ribs: pieces, boards and their timber."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown
from bermwright.data.rates import KERF
from bermwright.handbook.boards import first_fit
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.nouns import UNKNOWN, Group, PieceRow, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.shapes import RibForm, RibPiece, VaultForm
    from bermwright.house import Vault

NO_BOARD = "vault.board_length is not given"
NO_DENSITY = "no density is at hand for the timber of this class (vault.timber)"
TOO_LONG = "a piece is longer than the boards given (vault.board_length)"


def piece_rows(form: VaultForm, timber: TimberClass | None) -> tuple[PieceRow, ...]:
    """Every piece of a rib, and how many of it all ribs need."""
    density = UNKNOWN if timber is None else timber.density
    return tuple(
        PieceRow(
            name=piece.name,
            layer=piece.layer,
            count=form.ribs,
            length=piece.blank_length,
            width=piece.blank_width,
            mass=piece_mass(piece, form.rib, density),
        )
        for piece in form.rib.pieces
    )


def outline_area(outline: tuple[tuple[float, float], ...]) -> float:
    """Area inside a closed outline (m2)."""
    x, z = np.array(outline, dtype=float).T
    return float(0.5 * abs(np.dot(x, np.roll(z, -1)) - np.dot(z, np.roll(x, -1))))


def piece_mass(piece: RibPiece, rib: RibForm, density: float) -> float:
    """Mass of a finished piece (kg)."""
    return outline_area(piece.outline) * rib.piece_thickness * density


def rib_volume(rib: RibForm) -> float:
    """Timber of one finished rib (m3)."""
    return sum(outline_area(piece.outline) for piece in rib.pieces) * rib.piece_thickness


def rib_rows(form: VaultForm, vault: Vault, timber: TimberClass | None) -> Iterator[Quantity]:
    """Ribs, pieces, boards and timber."""
    yield _ribs(form)
    yield _pieces(form)
    yield from _boards(form, vault)
    yield _mass(form, timber)


def _ribs(form: VaultForm) -> Quantity:
    gaps = form.ribs - 1
    step = line(
        "Ribs, both ends included; the last gap may be smaller",
        "n",
        "⌈L/s⌉ + 1",
        f"{number(form.length, 'm', 2)}/{number(form.spacing, 'm', 2)}: {gaps} gaps + 1",
        result=Shown(form.ribs, "", 0),
    )
    return count("ribs", Group.RIBS, form.ribs, working=(step,), stage=StageKind.RIBS)


def _pieces(form: VaultForm) -> Quantity:
    each = len(form.rib.pieces)
    step = line(
        f"Pieces of one rib, {form.rib.layers} layers, times ribs",
        "N",
        "p·n",
        f"{each}·{form.ribs}",
        result=Shown(each * form.ribs, "", 0),
    )
    return count("rib pieces", Group.RIBS, each * form.ribs, working=(step,), stage=StageKind.RIBS)


def _boards(form: VaultForm, vault: Vault) -> Iterator[Quantity]:
    blanks = [piece.blank_length for piece in form.rib.pieces] * form.ribs
    reason = _why_not(blanks, vault.board_length)
    if vault.board_length is None or reason:
        yield unknown("rib boards", Group.RIBS, "", note=reason, stage=StageKind.RIBS)
        yield unknown("rib boards, volume bought", Group.RIBS, "m3", note=reason, stage=StageKind.RIBS)
        return
    long = vault.board_length
    boards = len(first_fit(blanks, board=long, kerf=KERF.value))
    cut = line(
        f"Boards of {number(long, 'm', 2)}: longest piece first, each into the first board with room, "
        f"saw cut {number(KERF.value, 'mm', 0)}",
        "b",
        "first fit of all blanks",
        f"{len(blanks)} blanks, {number(sum(blanks), 'm', 1)} in all",
        result=Shown(boards, "", 0),
        cite=KERF.cite,
    )
    yield count(
        "rib boards",
        Group.RIBS,
        boards,
        working=(cut,),
        stage=StageKind.RIBS,
        note="boards as long as the longest piece (vault.board_length); longer boards waste less",
    )
    yield _bought(form, vault, boards * long)


def _why_not(blanks: list[float], long: float | None) -> str:
    if long is None:
        return NO_BOARD
    return TOO_LONG if max(blanks) > long else ""


def _bought(form: VaultForm, vault: Vault, metres: float) -> Quantity:
    section = vault.board
    bought = metres * section.thickness * section.width
    net = rib_volume(form.rib) * form.ribs
    size = f"{number(section.thickness, 'mm')}·{number(section.width, 'mm')}"
    steps = (
        line(
            "Running metres times section of the board",
            "V",
            "Σ l·t·w",
            f"{number(metres, 'm', 1)}·{size}",
            result=Shown(bought, "m3", 2),
        ),
        line(
            "Timber in the finished ribs, by the outlines of the pieces",
            "V_n",
            "n·Σ A·t",
            f"{form.ribs}·{number(net / form.ribs, 'm3', 4)}",
            result=Shown(net, "m3", 2),
        ),
        line(
            "Share that falls off as offcuts and saw waste",
            "w",
            "1 − V_n/V",
            f"1 − {number(net, '', 2)}/{number(bought, '', 2)}",
            result=Shown(1.0 - net / bought, "%", 0),
        ),
    )
    return measured(
        "rib boards, volume bought",
        Group.RIBS,
        Shown(bought, "m3", 2),
        working=steps,
        stage=StageKind.RIBS,
        note="offcuts serve as lagging blocks, wedges, firewood",
    )


def _mass(form: VaultForm, timber: TimberClass | None) -> Quantity:
    if timber is None:
        return unknown("ribs, mass", Group.RIBS, "kg", note=NO_DENSITY, stage=StageKind.RIBS)
    density = timber.density
    net = rib_volume(form.rib) * form.ribs
    step = line(
        "Mass of the finished ribs, mean density, without nails",
        "m",
        "ρ·V_n",
        f"{number(density, 'kg/m3')}·{number(net, 'm3', 2)}",
        result=Shown(density * net, "kg", 0),
        cite=timber.cite,
    )
    return measured(
        "ribs, mass", Group.RIBS, Shown(density * net, "kg", 0), working=(step,), stage=StageKind.RIBS
    )
