"""Lessons as plain data for JSON."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.adapt.lessons import Built
from bermwright.formats.assessment_json import number

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from bermwright.adapt.lessons import Lesson
    from bermwright.base.findings import Finding
    from bermwright.base.sources import Cite


def lessons_data(lessons: Sequence[Lesson]) -> dict[str, Any]:
    """Every lesson by name and title."""
    return {"lessons": [{"name": one.name, "title": one.title} for one in lessons]}


def lesson_data(
    lesson: Lesson, found: Mapping[Built, Sequence[Finding]] | None = None, system: str = "metric"
) -> dict[str, Any]:
    """A lesson; the answer and its sources only where its houses were run."""
    data: dict[str, Any] = {
        "name": lesson.name,
        "title": lesson.title,
        "story": lesson.story,
        "known": list(lesson.known),
        "assumed": list(lesson.assumed),
        "rests_on": lesson.rests_on.value,
        "told_with": lesson.told_with,
        "asks": lesson.asks,
        "answers": {one.letter: one.text for one in lesson.answers},
    }
    if found is None:
        return data
    return data | {
        "right": lesson.right.letter,
        "failed": lesson.failed,
        "remedy": lesson.remedy,
        "looked_for": {"rule": lesson.finds.rule, "stage": lesson.finds.stage},
        "found": {built.value: _findings(found[built], system) for built in Built},
        "source": _cite(lesson.source),
        "remedy_source": _cite(lesson.remedy_source),
    }


def _findings(findings: Sequence[Finding], system: str) -> list[dict[str, Any]]:
    return [
        {
            "rule": one.rule,
            "part": one.part,
            "stage": one.stage,
            "verdict": one.verdict.value,
            "ratio": number(one.ratio),
            "says": one.says(system),
        }
        for one in findings
    ]


def _cite(cite: Cite) -> dict[str, str]:
    return {
        "work": str(cite.work),
        "address": cite.work.locator,
        "place": cite.place,
        "provenance": cite.provenance.value,
    }
