"""A copy of a house file with its changes, and a comment beside each changed line that says why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.formats.house_file.editing import edited
from bermwright.formats.house_file.reading import read

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.adapt.mend.nouns import Proposal, Writes
    from bermwright.formats.house_file.editing import Written
    from bermwright.house.checks import Key


def mended_copy(document: str, proposal: Proposal, name: str) -> str:
    """The text of the file with a proposal in it, comments and order kept.

    Raises `HouseFileError` where that is no house file any more.
    """
    changes: Mapping[Key, Written] = {key: _plain(value) for key, value in proposal.writes}
    text = _commented(edited(document, changes), document, proposal)
    read(text, name)
    return text


def _plain(value: object) -> Written:
    return value if isinstance(value, str | int | float | None) else str(value)


def _commented(text: str, document: str, proposal: Proposal) -> str:
    """Comments beside what is new; what was taken out is said beside the first change of its table."""
    # tomlkit is only needed here, and reading a file should not wait for it.
    import tomlkit

    before, whole = tomlkit.parse(document.removeprefix("\ufeff")), tomlkit.parse(text)
    for key, notes in _notes(before, proposal.writes, proposal.reason).items():
        item = _at(whole, key)
        said = str(item.trivia.comment).removeprefix("#").strip() if item.trivia.comment else ""
        space = item.trivia.comment_ws or "  "
        item.comment("; ".join(part for part in (said, *notes) if part))
        item.trivia.comment_ws = space
    new = tomlkit.dumps(whole)
    return new.replace("\r\n", "\n").replace("\n", "\r\n") if "\r\n" in document else new


def _notes(before: Any, writes: Writes, reason: str) -> dict[Key, list[str]]:  # noqa: ANN401  (tomlkit's)
    notes: dict[Key, list[str]] = {}
    homes: dict[Key, Key] = {}
    for key, value in writes:
        if value is not None:
            homes.setdefault(key[:-1], key)
            was = _at(before, key)
            notes[key] = [f"{reason}, was {was}" if was is not None else f"{reason}, new"]
    for key, value in writes:
        was = _at(before, key)
        home = homes.get(key[:-1])
        if value is None and was is not None and home is not None:
            notes[home].append(f"{key[-1]} = {was} taken out")
    return notes


def _at(table: Any, key: Key) -> Any:  # noqa: ANN401  (tomlkit's)
    here = table
    for part in key:
        try:
            here = here[part]
        except (KeyError, IndexError, TypeError):
            return None
    return here
