"""Every key that `--json` prints is explained, and nothing is explained that it does not print."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from bermwright.adapt.lessons import Built
from bermwright.app.lessons import all_lessons
from bermwright.base.findings import Finding, Question, Verdict
from bermwright.cli.main import main
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


@pytest.mark.parametrize(
    ("section", "words"),
    [
        ("Setting out", ("setout", "examples/larch-bank.toml")),
        ("Cutting", ("cut", "examples/larch-bank.toml")),
        ("Compass", ("compass", "examples/domes/rowan-ring.toml")),
        ("Forms", ("forms", "examples/domes/rowan-ring.toml")),
    ],
)
def test_keys_of_what_is_made_by_hand(
    section: str, words: tuple[str, str], repository: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([words[0], str(repository / words[1]), "--json"]) in {0, 1}
    assert explained(repository, section) == set(json.loads(capsys.readouterr().out))
