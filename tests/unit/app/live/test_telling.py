"""What a window is told: the year by its weeks, remedies, the axis of the building."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from bermwright.adapt.mend.nouns import Mended, Target
from bermwright.app.live.full import found_of
from bermwright.app.live.telling import building_axis, found_data, headline, mend_rows, storm_axis, year_axis
from bermwright.base.findings import Question
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess

LARCH_BANK = Path(__file__).resolve().parents[4] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def opened():
    return load(LARCH_BANK)


@pytest.fixture(scope="module")
def found(opened):
    return found_of(assess(opened.house, not_read=opened.not_read, stop_marks=False))


def winter(frozen):
    weeks = [
        {"week": week, "outdoors": -4.7, "room": 19.9, "snow": 0.2, "frozen": frozen(week)}
        for week in range(1, 53)
    ]
    return {"weather": {"place": "Somewhere"}, "weeks": weeks}


def test_the_year_names_its_weeks_and_its_frost() -> None:
    year = year_axis(winter(lambda week: 0.4 if week < 10 else 0.9 if week > 50 else 0.0), "metric")
    assert year["weeks"][0]["text"] == "early Jan: air −5 °C, room 20 °C, frost 0.40 m deep."
    assert year["weeks"][25]["text"].endswith("no frost in the ground.")
    assert [round(end, 3) for spell in year["frozen"] for end in spell] == [0.0, 0.173, 0.962, 1.0]
    assert year["deepest"]["at"] == 51
    assert year["weeks"][51]["label"] == "late Dec"


def test_a_year_without_frost_has_no_deepest() -> None:
    year = year_axis(winter(lambda _week: 0.0), "imperial")
    assert (year["frozen"], year["deepest"]) == ([], None)
    assert "°F" in year["weeks"][0]["text"]


def test_everything_that_is_told_is_plain_json(opened, found) -> None:
    for system in ("metric", "imperial"):
        data = found_data(found, opened.house, system)
        assert json.loads(json.dumps(data, allow_nan=False)) == data
    first = data["findings"][0]
    assert {"why", "working", "cites", "provenance", "needs_review", "mendable", "spot"} <= first.keys()
    assert sum(data["counts"].values()) == len(found.findings)


def test_the_headline_claims_no_more_than_the_worst_or_unknown(found) -> None:
    said = headline(found, "metric")
    assert said["verdict"] == str(found.verdict)


def test_axes_name_the_worst_stage_once(found) -> None:
    stages = found.vaults["day room"]
    steps = building_axis(stages, "metric")
    assert sum(step["worst"] for step in steps) == 1
    assert storm_axis(stages, "no such stage") == []
    cases = storm_axis(stages, stages[-1].name)
    assert len(cases) == len(stages[-1].cases)


def test_what_is_not_known_is_asked_before_anything_is_guessed() -> None:
    target = Target(rule="ribs-bend", part="vault", vault=None)
    question = Question(place="vault.nails", asks="Which nails?", why="", cheapest_way="Read the packet.")
    mended = Mended(target=target, before=(), proposals=(), tried=(), pairs=0, questions=(question,))
    assert mend_rows(mended, "metric") == (
        [],
        "Nothing is guessed here. Answer first: Which nails? Read the packet.",
    )
