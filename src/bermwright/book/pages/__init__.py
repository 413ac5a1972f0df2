"""The pages of the site book, pure: what was found becomes blocks.

Start reading at `site_book.py`; each module beside it is one chapter. `inputs.py` says what they read.
"""

from __future__ import annotations

from bermwright.book.pages.inputs import BookInputs, Checked, StopLine, Value, VaultPages
from bermwright.book.pages.site_book import site_book, template_book

__all__ = [
    "BookInputs",
    "Checked",
    "StopLine",
    "Value",
    "VaultPages",
    "site_book",
    "template_book",
]
