"""In the sweep each failure is found in the house as built, and hardly ever in its twin."""

from __future__ import annotations

import pytest

from bermwright.adapt.lessons import Built, tally
from bermwright.app.lessons import NoSuchLessonError, all_lessons, lesson_named, look_with, ordinary

LESSONS = all_lessons()


def test_there_are_at_least_eight() -> None:
    assert len(LESSONS) >= 8


@pytest.mark.parametrize("lesson", LESSONS, ids=lambda lesson: lesson.name)
def test_the_failure_is_found_as_built_and_not_in_the_twin(lesson) -> None:
    built, twin = (tally(lesson, ordinary(), one, look_with(lesson), count=5) for one in Built)
    assert built.share >= 0.8
    assert twin.share <= 0.1


def test_an_unknown_lesson_names_the_others() -> None:
    with pytest.raises(NoSuchLessonError, match="frozen-fill"):
        lesson_named("frozen fil")
