"""The chapter on supports: picture first, every force with its value, and what is not known."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bermwright.base.document import Figure, FindingBlock, Heading, Notice, Para, Table
from bermwright.base.drawing import Arrow, Clip, Dimension, Text
from bermwright.book.pages.supports import joint_drawing, supports_chapter, wall_drawing
from bermwright.book.pages.supports.chapter import OURS
from bermwright.book.sheets import detail_sheet, supports_of
from bermwright.form import vault_form
from bermwright.formats.drawings import svg
from bermwright.formats.house_file import load
from bermwright.house.parts.support_words import Sides
from bermwright.rules.assess import Assessment, assess
from bermwright.rules.registry import EVERY_RULE

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def assessment() -> Assessment:
    return assess(load(EXAMPLES / "larch-bank.toml").house, stop_marks=False)


@pytest.fixture(scope="module")
def study(assessment: Assessment):
    return assessment.studies["day room"]


def words(sheet) -> list[str]:
    return [item.text for item in sheet.items if isinstance(item, Text)]


def test_the_rules_of_the_chapter_exist() -> None:
    assert {rule.name for rule in EVERY_RULE} >= OURS


def test_the_chapter_begins_with_the_picture(assessment: Assessment) -> None:
    blocks = list(supports_chapter(assessment, "metric"))
    kinds = [type(block) for block in blocks]
    assert kinds[:3] == [Heading, Figure, Figure]
    assert kinds.index(Figure) < kinds.index(Table) < kinds.index(Notice)
    assert FindingBlock not in kinds, "what holds stands in one table"
    held = next(block for block in reversed(blocks) if isinstance(block, Table))
    assert {row[1] for row in held.rows} >= {'wall "foot walls"', 'footing "strips"', 'tie "floor slab"'}


def test_forces_are_given_for_every_stage(assessment: Assessment, study) -> None:
    tables = [block for block in supports_chapter(assessment, "metric") if isinstance(block, Table)]
    assert [row[0] for row in tables[0].rows] == [stage.name for stage in study.stages]
    assert "either side" in tables[0].caption
    assert all("nan" not in " ".join(row) for row in tables[0].rows)


def test_the_joint_is_drawn_at_one_to_five_with_both_directions(study) -> None:
    sheet = joint_drawing(study, "metric")
    assert sheet is not None
    assert sheet.view.scale == 5.0
    arrows = [item for item in sheet.items if isinstance(item, Arrow)]
    pushes = [arrow.head[0] - arrow.tail[0] for arrow in arrows if arrow.head[1] == arrow.tail[1]]
    assert min(pushes) < 0.0 < max(pushes)
    text = " ".join(words(sheet))
    assert "foot pushes outward" in text
    assert "foot pushes inward" in text
    assert "bars 12 mm at 200 mm, both faces" in text
    assert "not reviewed" in text
    measured = {item.text for item in sheet.items if isinstance(item, Dimension)}
    assert measured == {"200", "400"}


def test_the_forces_on_the_whole_wall_balance(study) -> None:
    """Arrows up and down of the listed forces, read from their words."""
    sheet = wall_drawing(study, "metric")
    assert sheet is not None
    listed = [text for text in words(sheet) if "kN/m" in text]
    values = {text: float(text.split(", ")[1].split(" kN")[0]) for text in listed}
    down = sum(v for k, v in values.items() if k.startswith(("foot presses", "weight", "soil on the base")))
    up = sum(v for k, v in values.items() if k.startswith(("ground answers", "water under")))
    assert down == pytest.approx(up, abs=0.3)
    measured = {item.text for item in sheet.items if isinstance(item, Dimension)}
    assert measured == {"400", "1000", "1800"}


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_both_drawings_can_be_written(study, system: str) -> None:
    for sheet in (joint_drawing(study, system), wall_drawing(study, system)):
        text = svg(sheet)
        assert text.startswith("<")
        assert "nan" not in text
        assert any(isinstance(item, Clip) for item in sheet.items)


def test_supports_that_nobody_described_are_said_to_be_unknown(assessment: Assessment, study) -> None:
    bare = replace(study, house=replace(study.house, walls=(), footings=()))
    changed = replace(assessment, studies={"day room": bare})
    blocks = list(supports_chapter(changed, "metric"))
    assert not any(isinstance(block, Figure) for block in blocks)
    assert any("not described" in block.text for block in blocks if isinstance(block, Para))


def test_a_detail_that_a_footing_fills_can_be_drawn() -> None:
    house = load(EXAMPLES / "kettle-hill.toml").house
    (vault,) = house.vaults
    sheet = detail_sheet(vault_form(house, vault), supports=supports_of(vault, house))
    assert svg(sheet).startswith("<")


def test_a_section_shows_each_side_as_the_file_has_it(study) -> None:
    house, vault = study.house, study.vault
    both = supports_of(vault, house)
    assert [(one.side, one.width, round(one.bottom, 9)) for one in both] == [
        (0, 0.4, -0.6), (0, 1.8, -0.9), (1, 0.4, -0.6), (1, 1.8, -0.9),
    ]  # fmt: skip
    left = replace(house, walls=(replace(house.walls[0], side=Sides.LEFT),), footings=())
    assert [one.side for one in supports_of(vault, left)] == [0]
    bare = replace(house, walls=(), footings=())
    assert [one.side for one in supports_of(vault, bare)] == [None]
