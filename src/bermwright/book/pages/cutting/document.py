"""Everything about cutting as a document of its own: for the terminal, and for paper with its labels."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Document, FullPage
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.cutting import label_sheets

if TYPE_CHECKING:
    from bermwright.base.document import Block
    from bermwright.takeoff.cutting import HousePlan


def cut_document(
    plan: HousePlan,
    blocks: tuple[Block, ...],
    *,
    revision: str,
    date: str,
    system: str = "metric",
    labels: bool = True,
) -> Document:
    """The pages, and the labels at the end where they are wanted."""
    sheets = label_sheets(plan.lists, plan.codes, system=system) if labels else ()
    return Document(
        title="Cutting",
        subtitle="boards, pieces, offcuts",
        house=plan.house,
        revision=revision,
        date=date,
        mark=NOT_REVIEWED,
        blocks=(*blocks, *(FullPage(sheet=sheet) for sheet in sheets)),
        system=system,
    )
