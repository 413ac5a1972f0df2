"""The first page: have it reviewed, what the book is, and one sentence that claims no more than is known."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import (
    Block,
    Contents,
    Figure,
    Heading,
    Headline,
    Notice,
    PageBreak,
    Para,
    plain,
)
from bermwright.base.findings import Verdict, worst
from bermwright.book.pages.findings import ordered
from bermwright.book.sheets import Dress, section_sheet

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.book.pages.inputs import BookInputs, VaultPages

FIGURE_WIDTH = 174.0
"""Width of the text (mm)."""
_LONGEST_NOTE = 400

REVIEW = (
    (
        "*Have this reviewed before digging.* A buried house that people live in needs somebody licensed who "
        "reads it whole, sees the ground and signs. This book is a calculation aid: it prepares that review "
        "and does not replace it."
    ),
    "*Local rules come before every page.* Where they ask for more, or for something else, they hold.",
)


def cover(book: BookInputs) -> tuple[Block, ...]:
    """The first page and the contents."""
    return (
        Heading(text=book.house, level=0, lead=_what(book)),
        Notice(kind="stop", lines=REVIEW),
        headline(book),
        *_picture(book.vaults),
        Para(
            "This book is for the hands: what to do at each stage, what to measure, when to stop, what to "
            "cut. Behind it stand the findings with their working, so that a reviewer can follow every "
            "number to its source."
        ),
        PageBreak(),
        Contents(),
    )


def _what(book: BookInputs) -> str:
    """One line: what this is, of when, and what the file says of itself."""
    revision = f"Site book, revision {book.revision}" if book.revision else "Site book"
    return plain(". ".join(part for part in (f"{revision}, {book.date}", book.note[:_LONGEST_NOTE]) if part))


def _picture(vaults: tuple[VaultPages, ...]) -> tuple[Block, ...]:
    return tuple(
        Figure(
            sheet=section_sheet(
                vault.form,
                scale=100.0,
                width=FIGURE_WIDTH,
                supports=vault.supports,
                dress=Dress(axis=vault.axis),
            ),
            caption=f"{plain(vault.name)}, finished",
        )
        for vault in vaults[:1]
    )


def headline(book: BookInputs) -> Headline:
    """A sign and a sentence that never says more than the worst or unknown finding."""
    verdict = worst(book.findings) if book.findings else Verdict.UNKNOWN
    return Headline(verdict=verdict, text=plain(_sentence(book, verdict)), lead=_lead(book, verdict))


def _sentence(book: BookInputs, verdict: Verdict) -> str:
    if not book.findings:
        return "Nothing could be checked yet."
    first = ordered(book.findings)[0].says(book.system)
    if verdict in {Verdict.FAILS, Verdict.UNKNOWN}:
        return f"{_counted(book.findings, verdict)} {first}"
    if verdict is Verdict.TIGHT:
        return f"What was checked holds with these values, and some of it is tight. {first}"
    return "What was checked holds, with the values listed here."


def _counted(findings: tuple[Finding, ...], verdict: Verdict) -> str:
    count = sum(finding.verdict is verdict for finding in findings)
    said = {
        Verdict.FAILS: ("check fails", "checks fail"),
        Verdict.UNKNOWN: ("check is unknown", "checks are unknown"),
    }
    return f"{count} {said[verdict][0 if count == 1 else 1]}."


def _lead(book: BookInputs, verdict: Verdict) -> str:
    tail = "What was not checked stands in the next chapter by name."
    if verdict in {Verdict.HOLDS, Verdict.DOES_NOT_APPLY}:
        return tail
    parts = [first_failure(book)] if verdict is Verdict.FAILS else []
    unknown = sum(finding.verdict is Verdict.UNKNOWN for finding in book.findings)
    if verdict is Verdict.FAILS and unknown:
        parts.append(f"{unknown} more cannot be said yet.")
    parts.append(plain(ordered(book.findings)[0].advice) if book.findings else "Answer the questions first.")
    return " ".join(part for part in (*parts, tail) if part)


def first_failure(book: BookInputs) -> str:
    """Which stage fails first, in the order of building."""
    failing = [finding for finding in book.findings if finding.verdict is Verdict.FAILS]
    for vault in book.vaults:
        for number, stage in enumerate(vault.stages, start=1):
            ratio = vault.stage_ratio.get(stage.name)
            if (ratio is not None and ratio > 1.0) or any(
                stage.name == finding.stage and vault.name in finding.part for finding in failing
            ):
                return f"The first stage to fail is stage {number}, {stage.name}."
    return ""
