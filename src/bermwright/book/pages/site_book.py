"""The site book: every chapter in order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Document
from bermwright.book.pages.cautions import caution_pages
from bermwright.book.pages.checked import reach_pages, standing_pages
from bermwright.book.pages.cover import cover
from bermwright.book.pages.findings import axis_pages, working_pages
from bermwright.book.pages.quantities import quantity_pages
from bermwright.book.pages.setting_out import rib_pages, setting_out_pages, template_pages
from bermwright.book.pages.sources import source_pages
from bermwright.book.pages.stages import stage_pages

if TYPE_CHECKING:
    from bermwright.book.pages.inputs import BookInputs, VaultPages


def site_book(book: BookInputs, *, templates: bool = True) -> Document:
    """The whole book as data; without `templates` their full-size sheets are left to a file of their own."""
    blocks: list[Block] = [
        *cover(book),
        *standing_pages(book),
        *axis_pages(book),
        *caution_pages(book.seasons),
    ]
    for vault in book.vaults:
        blocks += stage_pages(vault, book)
    for vault in book.vaults:
        ground, curve, tools = _setout(vault)
        blocks += [*ground, *setting_out_pages(vault, book), *curve, *rib_pages(vault, book), *tools]
    blocks += [*book.chapters, *quantity_pages(book), *working_pages(book), *reach_pages(book)]
    blocks += source_pages(book)
    if templates:
        blocks += [block for vault in book.vaults for block in template_pages(vault, book)]
    return _document(book, "Site book", tuple(blocks))


def _setout(vault: VaultPages) -> tuple[tuple[Block, ...], ...]:
    """Ground, curve and tools; nothing where they were not made."""
    made = vault.setout
    return (made.ground, made.curve, made.tools) if made is not None else ((), (), ())


def template_book(book: BookInputs) -> Document:
    """The full-size templates alone."""
    blocks = tuple(block for vault in book.vaults for block in _templates(vault, book))
    return _document(book, "Templates, full size", blocks)


def _templates(vault: VaultPages, book: BookInputs) -> tuple[Block, ...]:
    return template_pages(vault, book)


def _document(book: BookInputs, title: str, blocks: tuple[Block, ...]) -> Document:
    return Document(
        title=title,
        subtitle="",
        house=book.house,
        revision=book.revision,
        date=book.date,
        mark=book.mark,
        blocks=blocks,
        system=book.system,
    )
