"""Chapters on the balance of the house and on raising its ribs, and their drawings."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.base.document import Figure, Heading, Notice, Table
from bermwright.base.drawing import Arrow, Text
from bermwright.book.pages.whole import balance_chapter, raising_chapter
from bermwright.book.sheets.whole import force_plan, force_section, raising_sheet
from bermwright.formats.drawings import svg
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess
from bermwright.rules.whole.forces import balances

if TYPE_CHECKING:
    from bermwright.rules.assess import Assessment
    from bermwright.rules.study import Study

LARCH = Path(__file__).parents[3] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def assessed() -> Assessment:
    return assess(load(LARCH).house, stop_marks=False)


@pytest.fixture(scope="module")
def study(assessed: Assessment) -> Study:
    return next(iter(assessed.studies.values()))


def words(sheet) -> str:
    return " | ".join(item.text for item in sheet.items if isinstance(item, Text))


def test_pictures_come_before_tables(assessed: Assessment) -> None:
    blocks = list(balance_chapter(assessed, "metric"))
    assert isinstance(blocks[0], Heading)
    kinds = [type(block) for block in blocks]
    assert kinds.index(Figure) < kinds.index(Table)
    assert any(isinstance(block, Notice) and block.kind == "caution" for block in blocks)
    table = next(block for block in blocks if isinstance(block, Table))
    assert len(table.rows) == len(next(iter(assessed.studies.values())).stages)


def test_every_force_is_drawn_and_what_is_left_over_is_printed(study: Study) -> None:
    last = balances(study)[-1]
    sheet = force_section(study, study.stages[-1], last)
    drawn = [item for item in sheet.items if isinstance(item, Arrow) and item.layer == "force"]
    assert len(drawn) == len([one for one in last.forces if max(abs(one.across), abs(one.up)) > 50.0])
    assert "Left over" in words(sheet)
    assert "soil on top" in words(sheet)
    assert svg(sheet)


def test_the_plan_shows_all_four_sides(study: Study) -> None:
    last = balances(study)[-1]
    sheet = force_plan(study, last, ends={"front": 5e3, "back": 40e3}, held=(("nails of the planks", 12e3),))
    for name in (
        "from the left",
        "from the right",
        "behind the back",
        "before the front",
        "nails of the planks",
    ):
        assert name in words(sheet)


def test_forces_in_pounds(study: Study) -> None:
    last = balances(study)[-1]
    assert "lb/ft" in words(force_section(study, study.stages[-1], last, system="imperial"))


def test_ribs_are_drawn_with_braces_and_guys(assessed: Assessment, study: Study) -> None:
    sheet = raising_sheet(study)
    assert sheet is not None
    assert "each guy pulls" in words(sheet)
    assert "wind on all ribs" in words(sheet)
    assert sum(item.layer == "rib" for item in sheet.items) == study.form.ribs
    blocks = list(raising_chapter(assessed, "metric"))
    assert any(isinstance(block, Notice) for block in blocks)
    needed = next(block for block in blocks if isinstance(block, Table))
    assert any("brace boards" in row[0] for row in needed.rows)


def test_nothing_is_said_of_raising_where_the_file_is_silent(assessed: Assessment, study: Study) -> None:
    silent = replace(assessed.house, erection=None)
    assert list(raising_chapter(replace(assessed, house=silent), "metric")) == []
    assert raising_sheet(replace(study, house=silent)) is None
