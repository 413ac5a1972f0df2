"""The nails of a rib: how they tie its pieces together, and what one of them takes at a butt joint."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.rib.nails import nailing_of, worst_distances
from bermwright.handbook import timber as ec5
from bermwright.rules.analysis.halves import Halves, effective_share, worst_shares

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.data.timber_classes import TimberClass
    from bermwright.form.rib.nails import Nailing
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.timber import NailDistances, RibOfPieces
    from bermwright.house import Vault
    from bermwright.rules.analysis.halves import Half

    Array = NDArray[np.float64]

ROWS_ALONG = 2
"""Rows of nails along the rib between the joints, staggered (how the trade does it)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NailedJoint:
    """Nails on one side of a butt joint, in the layer that is cut, and along the layer beyond."""

    nailing: Nailing
    """The pattern that is drawn."""
    halves: Halves
    """The nails of both halves of pieces that end at each butt joint, as they are drawn."""
    count: int
    rows: int
    columns: int
    spacing: float
    """Spacing of the nails along the layer between the joints, all rows together (m)."""
    least: NailDistances
    """Least distances, the worse of a force along and one across the grain."""
    resistance: float
    """Characteristic resistance of one nail in one shear plane (N); NaN where its point is too short."""
    mode: str
    effective: float
    """Share of the nails that counts in a row along the grain."""
    slip: float
    """Slip modulus of one nail where strength is checked (N/m): two thirds of that in use."""
    head: float
    point: float
    """Timber under the head and depth of the point (m)."""
    embedment: float
    yield_moment: float
    row_height: float
    """Distance of the outer rows from the middle of the depth (m)."""
    piece: float
    """Middle length of the pieces, which is the distance of joints in one layer (m)."""
    pieces: RibOfPieces

    @property
    def zone(self) -> float:
        """Length from the joint to the far end of its nails (m)."""
        return float(self.least.loaded_end) + (self.columns - 1) * float(self.least.along)

    @property
    def height(self) -> float:
        """Height of the rows with both edge distances, and with the lines of the other layers between (m)."""
        return 2 * float(self.least.loaded_edge) + self.nailing.height(self.rows)

    def force(self, moment: Array, axial: Array, shear: Array, layers: int) -> Array:
        """Force on the nail that carries most, for the forces of the whole rib (N); broadcasts.

        All nails of half a piece pass on the largest moment that the piece carries in its middle (the
        layers' moments then sum up to that of the rib everywhere), and equal shares of thrust and shear.
        Nails yield before they break, so a state in equilibrium is on the careful side.
        """
        return self._most(self.places, moment, axial, shear, layers)

    def half_force(self, half: Half, moment: Array, axial: Array, shear: Array, layers: int) -> Array:
        """The same for the nails that are drawn in half a piece; a relieved one takes no bending.

        Where their middle lies beside the middle of the depth the thrust turns them as well.
        """
        peak = float(self.pieces.moment_peak)
        bent = np.zeros_like(moment) if half.relieved else np.abs(moment)
        turned = bent + np.abs(axial) * half.eccentric / peak
        return self._most((half.along, half.across), turned, axial, shear, layers)

    @property
    def weaker(self) -> tuple[tuple[int, Half], ...]:
        """Halves that hold less than the nails of a usual one, each with the number of its joint."""
        return self.halves.weaker(worst_shares(*self.places) / self.effective)

    def _most(
        self, places: tuple[Array, Array], moment: Array, axial: Array, shear: Array, layers: int
    ) -> Array:
        return ec5.joint_nail_force(
            moment * float(self.pieces.moment_peak),
            axial=axial,
            shear=shear,
            layers=layers,
            planes=1.0,
            along=places[0],
            across=places[1],
        ).force

    @property
    def places(self) -> tuple[Array, Array]:
        """Places of the nails of half a piece, along from the cut and across from the middle (m)."""
        at = np.arange(self.count)
        start = float(self.least.loaded_end)
        along = start + float(self.least.along) * (at // self.rows)
        heights = np.linspace(-self.row_height, self.row_height, self.rows) if self.rows > 1 else np.zeros(1)
        across = heights[at % self.rows]
        beyond = np.arange(self.zone + self.spacing, 0.5 * self.piece, self.spacing)
        staggered = self.row_height * np.where(np.arange(beyond.size) % ROWS_ALONG, 1.0, -1.0)
        return np.concatenate([along, beyond]), np.concatenate([across, staggered])


def nailed_joint(vault: Vault, form: VaultForm, timber: TimberClass) -> NailedJoint | None:
    """The nails as the file describes them; None while kind, number or spacing is not known."""
    nail, nailing = vault.nails, nailing_of(vault, form.rib, timber)
    if nail is None or nailing is None:
        return None
    drilled = bool(vault.predrilled)
    board, depth = form.rib.width / form.rib.layers, form.rib.depth
    least = worst_distances(nail.diameter, timber.density_low, predrilled=drilled)
    row_height = max(0.5 * depth - float(least.loaded_edge), 0.0)
    embedment = float(ec5.embedment_strength(timber.density_low, nail.diameter, predrilled=drilled))
    bend = float(ec5.yield_moment(nail.diameter, wire_strength=vault.nail_strength))
    point = min(nail.length - board, board)
    resistance, mode = _resistance(board, point, embedment, nail.diameter, bend)
    slip = float(ec5.ultimate_slip_modulus(_slip(timber, nail.diameter, predrilled=drilled)))
    piece = typical_piece(form)
    pieces = _pieces(form, timber, slip, nailing.spacing, row_height, piece)
    return NailedJoint(
        nailing=nailing,
        halves=Halves(rib=form.rib, nailing=nailing, predrilled=drilled, peak=float(pieces.moment_peak)),
        count=nailing.count,
        rows=nailing.rows,
        columns=nailing.columns,
        spacing=nailing.spacing,
        least=least,
        resistance=resistance,
        mode=mode,
        effective=effective_share(nailing.columns, nailing.along, nail.diameter, predrilled=drilled),
        slip=slip,
        head=board,
        point=point,
        embedment=embedment,
        yield_moment=bend,
        row_height=row_height,
        piece=piece,
        pieces=pieces,
    )


def typical_piece(form: VaultForm) -> float:
    """Middle of the lengths of the rib's pieces along the curve (m)."""
    return float(np.median([piece.end - piece.start for piece in form.rib.pieces]))


def _pieces(
    form: VaultForm, timber: TimberClass, slip: float, spacing: float, row_height: float, piece: float
) -> RibOfPieces:
    rows = [-row_height, row_height]
    tie = ec5.nail_coupling(slip, rows, spacing=ROWS_ALONG * spacing)
    return ec5.pieces_in_rib(
        layer_stiffness(form, timber),
        form.rib.layers,
        piece_length=piece,
        transverse=tie.transverse,
        rotational=tie.rotational,
    )


def layer_stiffness(form: VaultForm, timber: TimberClass) -> float:
    """EI of one layer with the mean modulus (N m2)."""
    return timber.modulus * (form.rib.width / form.rib.layers) * form.rib.depth**3 / 12


def _slip(timber: TimberClass, diameter: float, *, predrilled: bool) -> float:
    return float(ec5.nail_slip_modulus(timber.density, diameter, predrilled=predrilled))


def _resistance(
    head: float, point: float, embedment: float, diameter: float, bend: float
) -> tuple[float, str]:
    """NaN where the point does not reach deep enough to count."""
    if point < float(ec5.pointside_penetration(diameter)):
        return np.nan, ""
    modes = ec5.single_shear(
        diameter,
        head_side=head,
        point_side=point,
        head_embedment=embedment,
        point_embedment=embedment,
        yield_moment=bend,
    )
    return float(modes.capacity), str(modes.mode)


def joint_spring(
    joint: NailedJoint | None, form: VaultForm, timber: TimberClass, board_length: float
) -> float:
    """Rotational spring of every butt joint (N m/rad).

    While the nails are not known a cut layer counts for nothing over a whole board length: then the
    section of the other layers turns more by M g / (n (n - 1) EI1).
    """
    if joint is not None:
        return float(joint.pieces.joint_stiffness)
    layers = form.rib.layers
    return layers * (layers - 1) * layer_stiffness(form, timber) / board_length
