"""Answers to a house file: what is known is written, what is not stays open."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.app.asking.questions import QUESTIONS, question_named
from bermwright.formats.house_file import read, starter

if TYPE_CHECKING:
    from bermwright.app.asking.questions import Asked

Answers = Mapping[str, str]
"""What was answered, by the question's name; a question that is not in it stays open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """The file that the answers make, and what has to be said of it."""

    text: str
    open: tuple[Asked, ...]
    """What was not answered."""
    undrawn: tuple[Asked, ...]
    """Those of them without which there is no vault yet."""

    @property
    def questions(self) -> int:
        """How many questions the file asks once it can be read; 0 before."""
        return 0 if self.undrawn else len(read(self.text, "the answers").questions)


def begun(name: str, answers: Answers, system: str = "metric") -> str:
    """The text of a house file, its examples in that system.

    Raises `AnswerError` at the first answer that cannot be taken.
    """
    given: dict[str, str] = {}
    for asked, text in answers.items():
        given |= question_named(asked).read(text)
    left = [place for one in QUESTIONS if one.name not in answers for place in one.places]
    return starter(name, given, left, system=system)


def filled(name: str, answers: Answers, system: str = "metric") -> Filled:
    """The file that the answers make. Raises `AnswerError` where one of them cannot be taken."""
    text = begun(name, answers, system)
    left = tuple(one for one in QUESTIONS if one.name not in answers)
    return Filled(text=text, open=left, undrawn=tuple(one for one in left if one.draws))
