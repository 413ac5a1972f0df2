"""Which pieces a house wants: blanks of the ribs, planks that end on ribs, and all other timber."""

from __future__ import annotations

import math
from collections import Counter
from itertools import groupby, pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import show
from bermwright.form.holes import rib_places
from bermwright.house import CoverKind
from bermwright.takeoff.cutting.nouns import Part, PieceKind
from bermwright.takeoff.members import wooden_members

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import CoverBand, RibForm, RibPiece, VaultForm
    from bermwright.house import Cover, House, Vault

    Array = NDArray[np.float64]

MM = 1e-3
STATIONS = 1537
"""Places along a blank at which its edges are known: a corner between two of them lies 0.1 mm off at most."""


def up(metres: float) -> float:
    """Rounded up to a millimetre: what is needed is never rounded down."""
    return math.ceil(metres / MM - 1e-6) * MM


def rib_kinds(form: VaultForm, kerf: float, trimmers: int = 0) -> Iterator[PieceKind]:
    """Blanks of all ribs of a vault, those that are cut alike together.

    `trimmers` ribs more stand beside holes; their pieces are labelled T1, T2 and on.
    """
    rib = form.rib
    numbers = [*map(str, range(1, form.ribs + 1)), *(f"T{number}" for number in range(1, trimmers + 1))]
    thickness = rib.board
    blanks = sorted(rib.pieces, key=lambda piece: (-up(piece.blank_length), -up(piece.blank_width)))
    for (length, width), group in groupby(
        blanks, key=lambda piece: (up(piece.blank_length), up(piece.blank_width))
    ):
        pieces = sorted(group, key=lambda piece: (piece.layer, piece.start))
        yield PieceKind(
            name=", ".join(piece.name for piece in pieces),
            part=Part.RIBS,
            vault=form.name,
            length=length,
            width=width,
            thickness=thickness,
            labels=tuple(f"{number}-{piece.name}" for number in numbers for piece in pieces),
            step=max(beside(rib, piece, kerf) for piece in pieces),
            edges=() if rib.bent else _edges(rib, pieces, length),
        )


def beside(rib: RibForm, piece: RibPiece, kerf: float) -> float:
    """How far across a second outline of a piece must lie from the first, so that a saw passes between (m).

    Outlines that are shifted across their board meet where the piece is thickest across it.
    """
    if rib.bent:
        return piece.blank_width + kerf
    inner, outer, ahead, across = _frame(rib, piece)
    u = np.linspace(
        max(float((inner @ ahead).min()), float((outer @ ahead).min())),
        min(float((inner @ ahead).max()), float((outer @ ahead).max())),
        65,
    )
    thick = np.interp(u, outer @ ahead, outer @ across) - np.interp(u, inner @ ahead, inner @ across)
    steepest = max(abs(angle) for angle in piece.end_bevels)
    return up(float(np.abs(thick).max()) + kerf / math.cos(steepest))


def _frame(rib: RibForm, piece: RibPiece) -> tuple[Array, Array, Array, Array]:
    """Both long edges, and the directions along and across the board: along the chord of the middle line."""
    points = np.asarray(piece.outline[:-1])
    half = points.shape[0] // 2
    x, z, _ = rib.centreline.at(np.array([piece.start, piece.end]))
    chord = np.array([x[1] - x[0], z[1] - z[0]])
    ahead = chord / np.hypot(*chord)
    return points[:half], points[half:][::-1], ahead, np.array([-ahead[1], ahead[0]])


def _edges(rib: RibForm, pieces: Sequence[RibPiece], length: float) -> tuple[tuple[float, float], ...]:
    """Lowest and highest edge of pieces that are cut from one blank, at even steps along it (m)."""
    found = np.array([_edge(rib, piece, length) for piece in pieces])
    return tuple(zip(found[:, 0].min(axis=0).tolist(), found[:, 1].max(axis=0).tolist(), strict=True))


def _edge(rib: RibForm, piece: RibPiece, length: float) -> tuple[Array, Array]:
    """Edges of a piece over the lower edge of its blank; its ends count as deep as where they begin."""
    inner, outer, ahead, across = _frame(rib, piece)
    points = np.vstack([inner, outer])
    start, floor = float((points @ ahead).min()), float((points @ across).min())
    u = np.linspace(start, start + length, STATIONS)
    low, high = (np.interp(u, edge @ ahead, edge @ across) - floor for edge in (inner, outer))
    return np.minimum(low, high), np.maximum(low, high)


def plank_kinds(
    form: VaultForm, vault: Vault, longest: dict[float, float], kerf: float, system: str = "metric"
) -> Iterator[PieceKind]:
    """Planks of every layer of lagging, butted on ribs; `longest` gives the longest board by thickness."""
    for band, cover in zip(form.bands, vault.cover, strict=True):
        long = longest.get(round(band.thickness, 4))
        if cover.kind is CoverKind.LAGGING and cover.width is not None and long is not None:
            yield from _planks(form, band, cover, (long, kerf), system)


def _planks(
    form: VaultForm, band: CoverBand, cover: Cover, saw: tuple[float, float], system: str
) -> Iterator[PieceKind]:
    longest, kerf = saw
    width = cover.width or 0.0
    rows = math.ceil(band.inner.length / width - 1e-9)
    found: dict[float, list[str]] = {}
    for row in range(1, rows + 1):
        for number, length in enumerate(run_lengths(rib_places(form), longest, row), 1):
            found.setdefault(length, []).append(f"{row}.{number}")
    texts = Counter(show(length, "m", 3, system) for length in found)
    for length in sorted(found, reverse=True):
        text = show(length, "m", 3, system)
        # Inches are coarser than the lengths: two that read alike are told apart by their millimetres.
        text = text if texts[text] == 1 else f"{text}, {1e3 * length:.0f} mm"
        yield PieceKind(
            name=f"{band.name}, {text}",
            part=Part.LAGGING,
            vault=form.name,
            length=length,
            width=up(width),
            thickness=band.thickness,
            labels=tuple(found[length]),
            step=up(width + kerf),
        )


def member_kinds(house: House, form: VaultForm, kerf: float) -> Iterator[PieceKind]:
    """Headers, lintels, joists, braces and props, as the take-off counts them."""
    for one in wooden_members(house, form):
        if not one.missing:
            yield PieceKind(
                name=one.name,
                part=Part(str(one.what)),
                vault=form.name,
                length=up(one.length),
                width=up(one.section.width),
                thickness=one.section.thickness,
                labels=tuple(f"{one.name} {number}" for number in range(1, one.count + 1)),
                step=up(one.section.width + kerf),
            )


def run_lengths(places: Sequence[float], longest: float, row: int) -> tuple[float, ...]:
    """Lengths of the planks of a row from front to back, butted on ribs, joints shifted from row to row.

    Every second row begins with a plank about half as long; without a board that spans one bay there is none.
    """
    bays = len(places) - 1
    most = max((n for n in range(1, bays + 1) if _longest_run(places, n) <= longest + MM), default=0)
    if most == 0:
        return ()
    first = most if row % 2 else max(1, most // 2)
    ends = [0, *range(first, bays, most), bays]
    if first >= bays:
        ends = [0, bays]
    return tuple(up(places[end] - places[start]) for start, end in pairwise(ends))


def _longest_run(places: Sequence[float], bays: int) -> float:
    return max(places[at + bays] - places[at] for at in range(len(places) - bays))
