"""Emphasis inside a line of text: `*strong*`, `_emphasis_`, and a backslash before a mark meant as itself."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum

from bermwright.base.document import ESCAPE


class Voice(StrEnum):
    """How a run of text is set."""

    PLAIN = "plain"
    STRONG = "strong"
    EMPHASIS = "emphasis"


@dataclass(frozen=True, slots=True)
class Run:
    """Text in one voice."""

    text: str
    voice: Voice = Voice.PLAIN


_VOICES = {"*": Voice.STRONG, "_": Voice.EMPHASIS}
_PLAIN = re.compile(rf"[^*_{re.escape(ESCAPE)}]*").fullmatch


def runs(text: str) -> tuple[Run, ...]:
    """The runs of a line; a mark that is never closed stays as written.

    >>> [(run.text, run.voice.value) for run in runs("Stop *now* at 2_000.")]
    [('Stop ', 'plain'), ('now', 'strong'), (' at 2_000.', 'plain')]
    """
    if _PLAIN(text):
        return (Run(text),)
    found: list[Run] = []
    loose = ""
    at = 0
    while at < len(text):
        letter = text[at]
        closes = _closing(text, at) if letter in _VOICES else -1
        if letter == ESCAPE and text[at + 1 : at + 2] in {*_VOICES, ESCAPE}:
            loose += text[at + 1]
            at += 2
        elif closes > at + 1:
            found += [Run(loose)] if loose else []
            found.append(Run(without_marks(text[at + 1 : closes]), _VOICES[letter]))
            loose, at = "", closes + 1
        else:
            loose += letter
            at += 1
    return (*found, Run(loose)) if loose or not found else tuple(found)


def without_marks(text: str) -> str:
    """The words alone, as a reader without typefaces gets them."""
    kept = text
    for mark in (*_VOICES, ESCAPE):
        kept = kept.replace(ESCAPE + mark, mark)
    return kept


def words(text: str) -> str:
    """A whole line without its marks."""
    return "".join(run.text for run in runs(text))


def _closing(text: str, at: int) -> int:
    """Where the mark at `at` is closed, or -1; a mark inside a word is no mark."""
    mark = text[at]
    if (at and text[at - 1].isalnum()) or text[at + 1 : at + 2].isspace():
        return -1
    end = text.find(mark, at + 1)
    while end > 0 and (text[end - 1] == ESCAPE or text[end + 1 : end + 2].isalnum()):
        end = text.find(mark, end + 1)
    return end
