"""What was checked, with which values, what was not, and what nobody knows yet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Para, Points, Table, plain
from bermwright.base.findings import Verdict

if TYPE_CHECKING:
    from bermwright.base.findings import Finding, Question
    from bermwright.book.pages.inputs import BookInputs


def checked_pages(book: BookInputs) -> tuple[Block, ...]:
    """The chapter on how far this book reaches."""
    return (
        Heading(
            text="What was checked, and what was not", lead="A check that is not named here was not made."
        ),
        *_summary(book.findings),
        *_checked(book),
        *_not_checked(book),
        *_questions(book.questions),
        *_values(book),
    )


def _summary(findings: tuple[Finding, ...]) -> tuple[Block, ...]:
    meaning = {
        Verdict.FAILS: "asks for more than there is, at some corner of the ranges",
        Verdict.UNKNOWN: "something needed is missing, or the method does not reach this far",
        Verdict.TIGHT: "over nine tenths of the strength, or holds only because the soil holds back",
        Verdict.HOLDS: "for this check, with these values",
        Verdict.DOES_NOT_APPLY: "nothing here to which the rule speaks",
    }
    rows = tuple(
        (verdict.value, str(sum(finding.verdict is verdict for finding in findings)), says)
        for verdict, says in meaning.items()
    )
    return (Table(head=("verdict", "findings", "meaning"), rows=rows, align="lrl", widths=(0, 0, 1)),)


def _checked(book: BookInputs) -> tuple[Block, ...]:
    if not book.checked:
        return ()
    rows = tuple((plain(rule.title), plain(rule.why)) for rule in book.checked)
    return (
        Heading(text="Checked", level=2),
        Table(head=("check", "why it matters"), rows=rows, align="ll", widths=(2, 3)),
    )


def _not_checked(book: BookInputs) -> tuple[Block, ...]:
    unread = tuple(
        f"the table {plain(name)} of the house file: no rule reads it yet" for name in book.not_read
    )
    items = (*map(plain, book.not_checked), *unread)
    if not items:
        return ()
    return (
        Heading(text="Not checked", level=2),
        Para("No rule of this program covers the following. Somebody else must."),
        Points(items=items),
    )


def _questions(questions: tuple[Question, ...]) -> tuple[Block, ...]:
    if not questions:
        return (
            Heading(text="Questions", level=2),
            Para("The file leaves no question open that these checks ask."),
        )
    return (
        Heading(text="Questions, and the cheapest way to answer each", level=2),
        Points(items=tuple(map(_question, questions)), numbered=True),
    )


def _question(question: Question) -> str:
    blocks = f" Until then unknown: {', '.join(map(plain, question.blocks))}." if question.blocks else ""
    return (
        f"*{plain(question.asks)}* {plain(question.why)} {plain(question.cheapest_way)}{blocks} "
        f"_{plain(question.place)}_"
    )


def _values(book: BookInputs) -> tuple[Block, ...]:
    if not book.values:
        return ()
    rows = tuple((plain(value.what), plain(value.value), plain(value.known)) for value in book.values)
    return (
        Heading(text="The values it was checked with", level=2),
        Table(
            head=("what", "value", "place in the file, source"),
            rows=rows,
            align="lll",
            widths=(4, 3, 5),
        ),
    )
