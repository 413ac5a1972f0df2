"""Opening a house file: what every other use case begins with."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.formats.house_file import load

if TYPE_CHECKING:
    from pathlib import Path

    from bermwright.formats.house_file import Opened

_LETTERS = 7
"""Letters of a revision: enough to tell the versions of one house apart, short enough for a title block."""


class NothingToDrawError(BermwrightError):
    """So little is known of the house that there is nothing to draw."""


def open_house(path: str | Path) -> Opened:
    """Read a house file. Raises `HouseFileError` with everything that is wrong at once."""
    return load(path)


def revision_of(opened: Opened) -> str:
    """The fingerprint of a file's text, so that a printed book can be laid beside the file it was made from.

    Line ends do not count: the same file has the same revision on every system.
    """
    text = opened.document.replace("\r\n", "\n")
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:_LETTERS]
