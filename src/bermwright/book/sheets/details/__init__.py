"""Details: the springing in its circle and the rib by layers, and the set of eight in square windows."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.book.sheets.details.below import cover_toe, footing, intake, membrane_edge
from bermwright.book.sheets.details.cell import Subject
from bermwright.book.sheets.details.shells import crown, flue, springing, window_detail
from bermwright.book.sheets.details.springing import (
    DETAIL,
    detail_sheet,
    detail_spot,
    foot_of,
    rib_sheet,
    rib_sheets,
)
from bermwright.book.sheets.paper import Figures

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House, Vault


def detail_set(
    house: House, vault: Vault, form: VaultForm, solids: VaultSolids, *, system: str = "metric"
) -> tuple[Sheet, ...]:
    """The details of a vault, in order; those of which the file describes nothing are left out."""
    subject = Subject(house=house, vault=vault, form=form, solids=solids, figures=Figures(system=system))
    made = (
        springing(subject),
        footing(subject),
        crown(subject),
        membrane_edge(subject),
        cover_toe(subject),
        window_detail(subject),
        intake(subject),
        flue(subject),
    )
    return tuple(sheet for sheet in made if sheet is not None)


__all__ = [
    "DETAIL",
    "detail_set",
    "detail_sheet",
    "detail_spot",
    "foot_of",
    "rib_sheet",
    "rib_sheets",
]
