"""Lessons for the terminal: the story and the question, then what was found in both houses."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.lessons import Built, RestsOn
from bermwright.base.findings import Verdict
from bermwright.base.sources import Provenance
from bermwright.formats.assessment_text import CLOSING, SIGNS, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from bermwright.adapt.lessons import Lesson
    from bermwright.base.findings import Finding
    from bermwright.base.sources import Cite

HOW_READ = "Pages were read in excerpts; their titles are described here, not quoted, and many bear no date."
ELSEWHERE = "rests on what the trade warns of, or on equations: not on one published case"
HEADINGS = {Built.AS_BUILT: "As it was built", Built.TWIN: "Its twin, built the other way"}


def lessons_text(lessons: Sequence[Lesson]) -> str:
    """Every lesson in a line."""
    wide = max(len(one.name) for one in lessons)
    lines = [f"  {one.name.ljust(wide)}  {one.title}{' *' if _elsewhere(one) else ''}" for one in lessons]
    return "\n".join(
        [
            "Lessons from failures that others have published:",
            "",
            *lines,
            "",
            *([f"  * {ELSEWHERE}", ""] if any(map(_elsewhere, lessons)) else []),
            "Read one with `bermwright lesson NAME`, predict, then add --reveal.",
        ]
    )


def _elsewhere(lesson: Lesson) -> bool:
    return lesson.rests_on is not RestsOn.FAILURE


def lesson_text(
    lesson: Lesson, found: Mapping[Built, Sequence[Finding]] | None = None, system: str = "metric"
) -> str:
    """The story and the question; with what was found, the answer."""
    lines = [*_story(lesson)]
    if found is None:
        lines += ["", f"Predict, then: bermwright lesson {lesson.name} --reveal"]
    else:
        lines += [*_answer(lesson, found, system), "", CLOSING]
    return "\n".join(lines)


def _story(lesson: Lesson) -> Iterator[str]:
    yield lesson.title
    yield "=" * len(lesson.title)
    yield wrapped(lesson.story)
    yield ""
    yield "What is known"
    yield from (wrapped(f"- {one}", "  ") for one in lesson.known)
    yield "What is assumed, and moved through a range"
    yield from (wrapped(f"- {one}", "  ") for one in lesson.assumed)
    yield wrapped(lesson.told_with, "  ")
    yield ""
    yield wrapped(lesson.asks)
    yield from (wrapped(f"{one.letter}) {one.text}", "  ") for one in lesson.answers)


def _answer(lesson: Lesson, found: Mapping[Built, Sequence[Finding]], system: str) -> Iterator[str]:
    yield ""
    yield wrapped(f"Answer: {lesson.right.letter}) {lesson.right.text}")
    yield wrapped(lesson.failed)
    for built in Built:
        yield ""
        yield HEADINGS[built]
        yield from _found(found[built], system)
    yield ""
    yield wrapped(f"Remedy: {lesson.remedy}")
    yield wrapped(f"It rests on {lesson.rests_on.words}.")
    yield wrapped(f"Source: {_cited(lesson.source)}")
    yield wrapped(f"Source of the remedy: {_cited(lesson.remedy_source)}")
    yield wrapped(HOW_READ)


def _found(findings: Sequence[Finding], system: str) -> Iterator[str]:
    for one in findings:
        yield wrapped(f"{SIGNS[one.verdict]} {one.says(system)}", "  ")
        if one.advice and one.verdict is Verdict.FAILS:
            yield wrapped(one.advice, "      ")


def _cited(cite: Cite) -> str:
    if cite.provenance is Provenance.PRACTICE:
        return f"{cite.provenance.value}: {cite.place}"
    address = f" ({cite.work.locator})" if cite.work.locator else ""
    return f"{cite.work}{address}; {cite.place}; {cite.provenance.value}"
