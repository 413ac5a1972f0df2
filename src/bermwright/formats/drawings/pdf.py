"""Sheets as PDF, each page as large as its sheet, through Typst and its bundled fonts."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.formats.drawings.svg import svg

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet


class DrawingError(BermwrightError):
    """A drawing could not be written; the message says why."""


def pdf(*sheets: Sheet, date: str, theme: str = "paper") -> bytes:
    """The sheets as pages at true size; the same sheets and date (ISO) give the same bytes."""
    import typst

    if not sheets:
        raise DrawingError("A PDF needs at least one sheet.")
    moment = dt.datetime.fromisoformat(date).replace(tzinfo=dt.UTC)
    pages = [_page(sheet, theme) for sheet in sheets]
    head = f"#set document(title: {_literal(sheets[0].title)}, date: auto)\n"
    try:
        made = typst.compile(
            (head + "\n#pagebreak(weak: true)\n".join(pages)).encode(),
            format="pdf",
            ignore_system_fonts=True,
            timestamp=int(moment.timestamp()),
        )
    except typst.TypstError as problem:
        raise DrawingError(f"The PDF could not be made: {problem}") from problem
    return bytes(made)


def _page(sheet: Sheet, theme: str) -> str:
    """One page of the sheet's own size, the drawing put at its corner."""
    size = f"width: {sheet.width:.4f}mm, height: {sheet.height:.4f}mm"
    source, alt = _literal(svg(sheet, theme, printed=True)), _literal(sheet.alt)
    drawing = f'image(bytes({source}), format: "svg", {size}, alt: {alt})'
    return f"#set page({size}, margin: 0mm)\n#place(top + left, {drawing})"


def _literal(text: str) -> str:
    """A Typst string literal."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n")
    return f'"{escaped}"'
