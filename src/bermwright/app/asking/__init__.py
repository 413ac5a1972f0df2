"""A house file from a dozen plain questions: one list for the terminal and for the start page.

Start reading at `questions.py`. "I do not know" is an answer: it leaves the place open, and nothing is
invented for it.
"""

from __future__ import annotations

from bermwright.app.asking.filling import Answers, Filled, begun, filled
from bermwright.app.asking.questions import QUESTIONS, AnswerError, Asked, question_named
from bermwright.app.asking.soils import Option

__all__ = [
    "QUESTIONS",
    "AnswerError",
    "Answers",
    "Asked",
    "Filled",
    "Option",
    "begun",
    "filled",
    "question_named",
]
