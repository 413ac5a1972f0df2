"""A vault's whole geometry, put together from its parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.form.curve import centreline, missing_for_curve, rise_of
from bermwright.form.ground import around_vault, missing_for_ground
from bermwright.form.known import FormUnknownError, known
from bermwright.form.lines import lifted
from bermwright.form.mesh import frame_mesh
from bermwright.form.rib.laminations import bent_rib
from bermwright.form.rib.pieces import Boards, Faces, rib_form, uncut_rib
from bermwright.form.shapes import CoverBand, VaultForm
from bermwright.handbook.curves import parallel
from bermwright.house.choices import Structure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import CurveLine, RibForm
    from bermwright.handbook.curves import CoverCurve, PlaneCurve
    from bermwright.house import House, Vault

KINK_TOLERANCE = 1e-6
"""Turn of the tangent at one place over which the crown counts as pointed (rad)."""


def missing_for_form(house: House, vault: Vault) -> tuple[str, ...]:
    """Everything that the geometry of a vault needs and the file does not say, as plain paths."""
    missing = [*missing_for_curve(vault, house.fill(vault)), *missing_for_ground(house, vault)]
    if vault.board_length is None:
        missing.append("vault.board_length")
    if not vault.cover:
        missing.append("vault.cover")
    return tuple(missing)


def vault_form(
    house: House,
    vault: Vault,
    *,
    elements: int = 72,
    pieces: bool = True,
    near: CoverCurve | None = None,
) -> VaultForm:
    """Everything geometric of one vault.

    Span, rise and springing are those of the centreline of its ribs. Without `pieces` the rib is left
    uncut, which is five times as fast and bends a little differently: for searches. `near` is the curve
    under cover of a vault that differs a little: the search for this one's goes on from there. Raises
    `FormUnknownError` when the file leaves something open, and `OutOfRangeError` when the curve cannot be
    had.
    """
    missing = missing_for_form(house, vault)
    rise = rise_of(vault)
    if missing or rise is None:
        raise FormUnknownError(vault.name, missing)
    face = 0.5 * vault.rib_depth + sum(layer.thickness for layer in vault.cover)
    around, said_of_ground = around_vault(house, vault, crown_level=vault.springing + rise, face=face)
    found = centreline(vault, rise, around, name_limit=pieces, near=near)
    curve = found.line
    bands = tuple(_bands(curve, vault))
    soil_face = bands[-1].outer
    rib, said_of_rib = _rib(_faces(curve, vault), vault, pieces=pieces)
    if rib.joints.size > elements - 2:
        raise OutOfRangeError(
            f'The ribs of "{vault.name}" have {rib.joints.size} joints; up to {elements - 2} can be reckoned.'
            " Write a longer [vault] board_length, or fewer layers."
        )
    return VaultForm(
        name=vault.name,
        span=vault.span,
        rise=rise,
        springing=vault.springing,
        length=vault.length,
        spacing=vault.spacing,
        ribs=int(np.ceil(vault.length / vault.spacing - KINK_TOLERANCE)) + 1,
        rib=rib,
        bands=bands,
        soil_face=soil_face,
        ground=around.ground,
        mesh=frame_mesh(rib, soil_face, elements=elements),
        crown_level=float(np.max(soil_face.z)),
        undercut=_undercut(soil_face),
        remarks=(*found.remarks, *said_of_ground, *said_of_rib),
        cover_curve=found.cover,
    )


def _rib(faces: Faces, vault: Vault, *, pieces: bool) -> tuple[RibForm, tuple[str, ...]]:
    boards = _boards(vault)
    if vault.structure is Structure.BENT:
        return bent_rib(faces, boards, pieces=pieces)
    return rib_form(faces, boards) if pieces else uncut_rib(faces, boards)


def _boards(vault: Vault) -> Boards:
    return Boards(
        thickness=vault.board.thickness,
        width=vault.board.width,
        longest=known(vault.board_length, "vault.board_length"),
        layers=vault.layers,
        depth=vault.rib_depth,
    )


def _faces(curve: PlaneCurve, vault: Vault) -> Faces:
    half = 0.5 * vault.rib_depth
    kinks = np.flatnonzero((np.diff(curve.s) == 0.0) & (np.abs(np.diff(curve.angle)) > KINK_TOLERANCE))
    return Faces(
        centreline=lifted(curve, vault.springing),
        inside=lifted(parallel(curve, -half), vault.springing),
        outside=lifted(parallel(curve, half), vault.springing),
        apex=float(curve.s[kinks[0]] - curve.s[0]) if kinks.size else None,
    )


def _bands(curve: PlaneCurve, vault: Vault) -> Iterator[CoverBand]:
    out = 0.5 * vault.rib_depth
    inner = lifted(parallel(curve, out), vault.springing)
    for layer in vault.cover:
        out += layer.thickness
        outer = lifted(parallel(curve, out), vault.springing)
        yield CoverBand(
            name=layer.title,
            kind=str(layer.kind),
            thickness=layer.thickness,
            unit_weight=np.nan if layer.unit_weight is None else layer.unit_weight,
            inner=inner,
            outer=outer,
        )
        inner = outer


def _undercut(face: CurveLine) -> float:
    left = float(face.x[0] - np.min(face.x))
    return max(left, float(np.max(face.x) - face.x[-1]))
