"""All quantities of one vault."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.house import CoverKind
from bermwright.takeoff.earth import earth_of, earth_rows, lift_rows
from bermwright.takeoff.layers import layer_rows
from bermwright.takeoff.lifting import lifting_rows
from bermwright.takeoff.members import member_rows, trimmer_ribs
from bermwright.takeoff.money import kinds_of, priced
from bermwright.takeoff.nails import nail_rows
from bermwright.takeoff.nouns import Quantities
from bermwright.takeoff.ribs import piece_rows, rib_rows
from bermwright.takeoff.temporary import temporary_rows
from bermwright.takeoff.work import NOT_TIMED, work_rows

if TYPE_CHECKING:
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault

REMARKS = (
    "Every amount is of the vault as drawn, with openings and end walls not deducted and not added.",
    "Boards are laid out one blank beside the other; `bermwright cut` lays them into the boards at hand.",
    "Hours are what others have published, not what this crew does: time the first metre and scale.",
)


def vault_quantities(house: House, vault: Vault, form: VaultForm) -> Quantities:
    """Count everything of a vault, with the working of each number."""
    timber = TIMBER_CLASSES.get(vault.timber)
    earth = earth_of(house, vault, form)
    rows = (
        *rib_rows(form, vault, timber),
        *nail_rows(form, vault, trimmer_ribs(house, form)),
        *layer_rows(form, vault),
        *member_rows(house, form),
        *earth_rows(house, vault, form, earth),
        *temporary_rows(house, form),
        *lifting_rows(form, vault, timber),
        *work_rows(form, house, earth),
    )
    layers = {band.name: band.kind for band in form.bands if band.kind != CoverKind.FLEECE}
    money = priced(rows, house.prices, kinds_of(rows, layers))
    fleece = tuple(f"{band.name}, area" for band in form.bands if band.kind == CoverKind.FLEECE)
    return Quantities(
        vault=vault.name,
        rows=rows,
        pieces=piece_rows(form, timber),
        lifts=lift_rows(house, form, earth.states),
        costs=money.rows,
        totals=money.totals,
        not_priced=(*money.without, *fleece, *_nails_of_layers(form)),
        not_timed=NOT_TIMED,
        remarks=(*REMARKS, *form.remarks),
    )


def _nails_of_layers(form: VaultForm) -> tuple[str, ...]:
    return tuple(f"{band.name}, nails" for band in form.bands if band.kind == CoverKind.LAGGING)
