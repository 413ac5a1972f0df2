"""In the sweep each failure is found in the house as built, and hardly ever in its twin."""

from __future__ import annotations

import json
import math

import pytest

from bermwright.adapt.lessons import Built, RestsOn, tally
from bermwright.app.lessons import NoSuchLessonError, all_lessons, lesson_named, look_with, ordinary
from bermwright.base.findings import Finding, Verdict
from bermwright.base.sources import Provenance
from bermwright.formats.lessons import lesson_data, lessons_text

LESSONS = all_lessons()


def test_at_least_eight_rest_on_a_failure_that_a_source_describes() -> None:
    described = [
        one for one in LESSONS if one.rests_on is RestsOn.FAILURE and one.source.provenance is Provenance.READ
    ]
    assert len(described) >= 8
    with_remedy = [one for one in described if one.remedy_source.provenance is Provenance.READ]
    assert len(with_remedy) >= 8


def test_what_does_not_rest_on_a_failure_says_so() -> None:
    others = [one for one in LESSONS if one.rests_on is not RestsOn.FAILURE]
    assert {one.name for one in others} == {
        "tall-curve",
        "plate-beside-wall",
        "wheel-on-roof",
        "drain-fouled",
    }
    text = lessons_text(LESSONS)
    for one in LESSONS:
        assert (f"{one.title} *" in text) == (one in others)


@pytest.mark.slow
@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_the_failure_is_found_as_built_and_not_in_the_twin(lesson) -> None:
    built, twin = (tally(lesson, ordinary(), one, look_with(lesson), count=5) for one in Built)
    assert built.share >= 0.8
    assert twin.share <= 0.1


def test_an_unknown_lesson_names_the_others() -> None:
    with pytest.raises(NoSuchLessonError, match="frozen-fill"):
        lesson_named("frozen fil")


def test_a_ratio_without_end_is_told_as_not_known() -> None:
    endless = Finding(
        rule="x", title="X", part="house", verdict=Verdict.FAILS, template="It is open below.", ratio=math.inf
    )
    data = lesson_data(all_lessons()[0], {Built.AS_BUILT: (endless,), Built.TWIN: ()})
    assert data["found"]["as built"][0]["ratio"] is None
    json.dumps(data, allow_nan=False)
