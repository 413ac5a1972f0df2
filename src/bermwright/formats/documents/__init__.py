"""Documents as files: `pdf` for paper, `text` for the terminal. Start reading at `typst_pdf.py`."""

from __future__ import annotations

from bermwright.formats.documents.plain_text import text
from bermwright.formats.documents.typst_pdf import DocumentError, pdf

__all__ = ["DocumentError", "pdf", "text"]
