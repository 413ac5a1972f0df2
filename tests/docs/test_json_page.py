"""Every key that `--json` prints is explained, and nothing is explained that it does not print."""

from __future__ import annotations

import re
from pathlib import Path

from bermwright.adapt.lessons import Built
from bermwright.app.lessons import all_lessons
from bermwright.base.findings import Finding, Question, Verdict
from bermwright.formats.assessment_json import finding_data, question_data
from bermwright.formats.lessons import lesson_data

FINDING = Finding(
    rule="rib-bends", title="Ribs bend", part="day room", verdict=Verdict.UNKNOWN, template="Unknown."
)
QUESTION = Question(
    place="site.floor", asks="Where is the floor?", why="Everything hangs on it.", cheapest_way="Level it."
)


def explained(repository: Path, section: str) -> set[str]:
    page = (repository / "docs" / "reference" / "json.md").read_text(encoding="utf-8")
    part = page.partition(f"## {section}\n")[2].partition("\n## ")[0]
    return {
        key
        for line in re.findall(r"^\| (`.*?) \|", part, re.MULTILINE)
        for key in re.findall(r"`(\w+)`", line)
    }


def test_keys_of_a_finding(repository: Path) -> None:
    assert explained(repository, "A finding") == set(finding_data(FINDING))


def test_keys_of_a_question(repository: Path) -> None:
    assert explained(repository, "A question") == set(question_data(QUESTION))


def test_what_is_not_known_is_null() -> None:
    data = finding_data(FINDING)
    assert data["demand"] is None
    assert data["ratio"] is None


def test_keys_of_a_lesson(repository: Path) -> None:
    data = lesson_data(all_lessons()[0], dict.fromkeys(Built, ()))
    assert explained(repository, "Lesson") == set(data)
