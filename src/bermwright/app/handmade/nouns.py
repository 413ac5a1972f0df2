"""What a leaf gives: a document to look at with what its fields need, or files with what is said of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import BermwrightError

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from bermwright.base.document import Document

    Options = Mapping[str, str]
    """Words of the fields of a leaf, by the name of the field."""
    Progress = Callable[[str], None]

LONGEST = 20_000
"""Letters of a table that somebody typed into the page."""


class AskedWrongError(BermwrightError):
    """A field that says what cannot be."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A leaf to look at."""

    document: Document
    facts: Mapping[str, Any] = field(default_factory=dict)
    """What only the fields of the page need, as plain data."""
    verdict: str = ""
    """Where something is decided: holds or fails."""
    says: str = ""
    """The first sentence of the page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """Files that are ready but not written yet."""

    files: tuple[tuple[Path, bytes], ...]
    says: tuple[str, ...] = ()


def one_of(options: Options, name: str, allowed: tuple[str, ...]) -> str:
    """A field that offers a choice; the first where nothing was chosen."""
    wanted = options.get(name) or allowed[0]
    if wanted not in allowed:
        raise AskedWrongError(f'{name}: "{wanted[:40]}" is none of {", ".join(allowed)}.')
    return wanted


def words_of(options: Options, name: str) -> str | None:
    """What stands in a field; None where nothing does."""
    text = (options.get(name) or "").strip()
    if len(text) > LONGEST:
        raise AskedWrongError(f"{name}: {len(text)} letters are too many; at most {LONGEST} are read.")
    return text or None


def ticked(options: Options, name: str) -> bool:
    """Whether a box is ticked."""
    return options.get(name) == "yes"


def system_of(options: Options) -> str:
    """The units that the page has."""
    return one_of(options, "units", ("metric", "imperial"))


def bar_of(options: Options) -> str | None:
    """What the check square of a printer measured: two fields, both or none."""
    across, up = words_of(options, "across"), words_of(options, "up")
    if across is None and up is None:
        return None
    if across is None or up is None:
        raise AskedWrongError("Write what the check square measures both across and up, or leave both out.")
    return f"{across},{up}"


def typed(folder: Path, name: str, text: str | None) -> str | None:
    """A table that was typed into the page, as the file that the reader of such tables wants."""
    if text is None:
        return None
    path = folder / name
    path.write_text(text + "\n", encoding="utf-8")
    return str(path)
