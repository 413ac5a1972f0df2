"""What was checked, with which values, what was not, and what nobody knows yet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, FindingBlock, Heading, Para, Points, Table, plain
from bermwright.base.findings import Verdict
from bermwright.book.pages.findings import ordered
from bermwright.book.pages.found import against

ASSUMED = "assumed: "
"""How a value that nobody gave begins to say why it is what it is."""

if TYPE_CHECKING:
    from bermwright.base.findings import Finding, Question
    from bermwright.book.pages.inputs import BookInputs


def standing_pages(book: BookInputs) -> tuple[Block, ...]:
    """The first chapter: what is against the builder, what nobody looked at, and what is asked."""
    return (
        Heading(
            text="What holds, and what does not", lead="A check that is not named in this book was not made."
        ),
        *_summary(book.findings),
        *_against(book),
        *_not_checked(book),
        *_questions(book.questions),
    )


def reach_pages(book: BookInputs) -> tuple[Block, ...]:
    """For whoever reviews it: every check with its reason, and every value it was made with."""
    return (
        Heading(text="What was checked, and with which values", lead="For whoever reviews this."),
        *_checked(book),
        *_values(book),
        *_assumed(book),
    )


def _against(book: BookInputs) -> tuple[Block, ...]:
    """What fails, is not known or is tight, worst first; the rest stands in its chapter."""
    if not book.findings:
        return (Para("Nothing could be checked: answer the questions first."),)
    mine = against(ordered(book.findings))
    if not mine:
        return (Para("Nothing that was checked fails, is tight or is not known. What holds stands by part."),)
    return tuple(FindingBlock(finding=finding) for finding in mine)


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
    """The values of the file, one row for each of its tables."""
    given: dict[str, list[str]] = {}
    for value in book.values:
        if not value.known.startswith(ASSUMED):
            place, _, source = value.known.partition(": ")
            table, _, key = place.rpartition(".")
            given.setdefault(f"{table}: {source}" if source else table, []).append(f"{key} {value.value}")
    if not given:
        return ()
    rows = tuple((plain(table or "house"), plain("; ".join(keys))) for table, keys in given.items())
    return (
        Heading(text="The values it was checked with", level=2),
        Table(head=("table of the file, source", "values"), rows=rows, align="ll", widths=(2, 5)),
    )


def _assumed(book: BookInputs) -> tuple[Block, ...]:
    """What the file does not say and was assumed."""
    rows = tuple(
        (plain(value.what), plain(value.value), plain(value.known.removeprefix(ASSUMED)))
        for value in book.values
        if value.known.startswith(ASSUMED)
    )
    if not rows:
        return ()
    return (
        Heading(text="Assumed, because the file is silent", level=2),
        Table(head=("place in the file", "value", "because"), rows=rows, align="lll", widths=(3, 2, 5)),
    )
