"""The drawn nails of both halves of pieces that end at a butt joint: what passes a layer's share on.

Near a foot short pieces hold few nails. They need not take part in the bending where the other layers can
take all of it: a state in equilibrium, so with nails that yield one on the careful side. Every other layer
then takes nothing at its own joint and more with the distance from it, up to half a piece away. None may
come to more than the peak with which boards and nails are reckoned; else the short pieces need their full
share.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.rib.flat import NAILED_FROM, crossing, lay_flat
from bermwright.form.rib.nails import nail_windows
from bermwright.handbook import timber as ec5

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.rib.flat import Flat
    from bermwright.form.rib.nails import Nailing, Window
    from bermwright.form.shapes import RibForm, RibPiece

    Array = NDArray[np.float64]

AT_CUT = 1e-6
"""A piece that begins or ends nearer to a joint than this begins or ends there (m)."""
FEWEST = 2
"""Nails that can take a moment; fewer pass nothing on."""
SHORT = 0.5
"""A piece at a foot that is shorter than this share of the next one is a short one."""
PLACES = 33
"""Places along the short pieces at which the layers share the bending."""
HAIR = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """The nails from a butt joint to the middle of one of the two pieces that end there."""

    piece: str
    joint: float
    """Place of the joint along the centreline (m)."""
    along: Array
    across: Array
    """Places of the nails, along from the joint and across from the middle of the depth (m)."""
    effective: float
    """Share of them that counts in rows along the grain."""
    relieved: bool
    """Whether it is short and the other layers take its share of the bending."""

    @property
    def bare(self) -> bool:
        """Whether its nails can pass on nothing."""
        return self.along.size < FEWEST

    @property
    def eccentric(self) -> float:
        """How far the middle of its nails lies from the middle of the depth (m)."""
        return abs(float(self.across.mean())) if self.across.size else 0.0

    @property
    def weights(self) -> Array:
        """Force on its worst nail for a thrust of one, and along and across for a moment of one, at most."""
        return worst_shares(self.along, self.across) / self.effective


def worst_shares(along: Array, across: Array) -> Array:
    """1/n, y/J and x/J of a group of nails, with its farthest nail both ways."""
    x, y = along - along.mean(), across - across.mean()
    polar = float(np.sum(x**2 + y**2))
    return np.array([1.0 / x.size, np.abs(y).max() / polar, np.abs(x).max() / polar])


@dataclass(frozen=True, kw_only=True, eq=False)
class Halves:
    """All halves of a rib, joint by joint; laid out when they are first asked for."""

    rib: RibForm
    nailing: Nailing
    predrilled: bool
    peak: float
    """Largest bending of one layer over its equal share, with which boards and nails are reckoned (-)."""
    skipped: bool = False
    """Left out while a hand drags: to lay all nails out takes as long as the rest of what is then shown."""

    @cached_property
    def at_joints(self) -> tuple[tuple[Half, ...], ...]:
        """The halves before and behind each joint of the rib."""
        if self.skipped:
            return ()
        layers = tuple(zip(self.rib.joints.tolist(), self.rib.joint_layers, strict=True))
        return tuple(tuple(self._beside(joint, layer)) for joint, layer in layers)

    def weaker(self, shares: Array) -> tuple[tuple[int, Half], ...]:
        """Halves whose nails may take more than a group with these shares, with the joint's number."""
        return tuple(
            (number, half)
            for number, pair in enumerate(self.at_joints)
            for half in pair
            if half.bare or half.eccentric > HAIR or bool(np.any(half.weights > shares * (1.0 + HAIR)))
        )

    @property
    def bare(self) -> Half | None:
        """The first half without nails enough to pass anything on."""
        return next((half for pair in self.at_joints for half in pair if half.bare), None)

    @property
    def fewest(self) -> Half | None:
        """The half with the fewest nails; None where nothing is cut."""
        return min(
            (half for pair in self.at_joints for half in pair), key=lambda half: half.along.size, default=None
        )

    @cached_property
    def relieved(self) -> frozenset[str]:
        """Names of the short pieces at the feet whose bending the other layers take."""
        return frozenset(name for left in (True, False) for name in self._relieved(left=left))

    def most_beside(self, piece: str) -> float:
        """Largest bending of one layer over its equal share, beside the short pieces at that foot."""
        return next(most_of_a_layer(self._from_foot(left=left)[1]) for left in self._feet(piece))

    def _feet(self, piece: str) -> Iterator[bool]:
        return (left for left in (True, False) if piece in self._from_foot(left=left)[0])

    def _relieved(self, *, left: bool) -> frozenset[str]:
        names, lengths = self._from_foot(left=left)
        short = short_ones(lengths)
        if not short.any() or most_of_a_layer(lengths) > self.peak:
            return frozenset()
        return frozenset(name for name, is_short in zip(names, short, strict=True) if is_short)

    def _from_foot(self, *, left: bool) -> tuple[list[str], Array]:
        """Layer by layer: the piece at the foot, its length and that of the next one, 0 for none (m)."""
        names, lengths = [], []
        for layer in range(1, self.rib.layers + 1):
            pieces = [piece for piece in self.rib.pieces if piece.layer == layer]
            pieces.sort(key=lambda piece: piece.start if left else -piece.start)
            names.append(pieces[0].name)
            lengths.append([piece.end - piece.start for piece in pieces[:2]] + [0.0] * (2 - len(pieces[:2])))
        return names, np.array(lengths)

    def _beside(self, joint: float, layer: int) -> Iterator[Half]:
        for piece in self.rib.pieces:
            middle = 0.5 * (piece.start + piece.end)
            if piece.layer == layer and abs(piece.end - joint) < AT_CUT:
                yield self._half(piece, middle, joint)
            if piece.layer == layer and abs(piece.start - joint) < AT_CUT:
                yield self._half(piece, joint, middle)

    def _half(self, piece: RibPiece, first: float, last: float) -> Half:
        joint = last if abs(piece.end - last) < AT_CUT else first
        along, across, counted = [], [], 0.0
        # No nail is driven from the first layer: those of the second hold it.
        for at, height, share in self._nails.get(max(piece.layer, NAILED_FROM), ()):
            if first < at < last:
                along.append(abs(at - joint))
                across.append(height)
                counted += share
        return Half(
            piece=piece.name,
            joint=joint,
            along=np.array(along),
            across=np.array(across),
            effective=counted / max(len(along), 1),
            relieved=piece.name in self.relieved,
        )

    @cached_property
    def _nails(self) -> dict[int, list[tuple[float, float, float]]]:
        """Layer by layer: place along the centreline, across from the middle, and share that counts."""
        layers: dict[int, list[tuple[float, float, float]]] = {}
        for piece in self.rib.pieces:
            if piece.layer >= NAILED_FROM:
                layers.setdefault(piece.layer, []).extend(self._of_piece(lay_flat(self.rib, piece)))
        return layers

    def _of_piece(self, flat: Flat) -> Iterator[tuple[float, float, float]]:
        piece = flat.piece
        pace = (piece.end - piece.start) / flat.chord
        for window in nail_windows(flat, self.nailing):
            share = self._share(window)
            for u, v in window.spots:
                low, high = crossing(flat, u)
                at = piece.end - u * pace if flat.mirrored else piece.start + u * pace
                yield at, v - 0.5 * (low + high), share

    def _share(self, window: Window) -> float:
        if window.columns < FEWEST:
            return 1.0
        return effective_share(
            window.columns, window.spacing, self.nailing.diameter, predrilled=self.predrilled
        )


def short_ones(lengths: Array) -> NDArray[np.bool_]:
    """Which layers have a short piece at a foot, by its length and that of the next one (n, 2)."""
    return np.asarray(lengths[:, 0] < SHORT * lengths[:, 1])


def most_of_a_layer(lengths: Array) -> float:
    """Largest bending of one layer over its equal share along the short pieces at a foot, which take none.

    `lengths` (n, 2): of the piece at the foot and of the next one, 0 where the layer is not cut (m).
    """
    cut, half = lengths[:, :1], 0.5 * lengths[:, 1:]
    short = short_ones(lengths)
    at = np.linspace(0.0, float(lengths[short, 0].max(initial=0.0)), PLACES)
    ramp = np.divide(np.abs(at - cut), half, out=np.ones((len(lengths), PLACES)), where=half > 0.0)
    takes = np.where(short[:, None] & (at <= cut), 0.0, np.minimum(ramp, 1.0))
    total = takes.sum(axis=0)
    if not (total > 0.0).all():
        return np.inf
    return float(np.max(len(lengths) * takes.max(axis=0) / total))


def effective_share(columns: int, along: float, diameter: float, *, predrilled: bool) -> float:
    """Share of the nails that counts in a row of some columns along the grain."""
    counted = ec5.effective_nails(columns, along, diameter=diameter, predrilled=predrilled)
    return float(counted) / columns
