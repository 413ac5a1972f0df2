"""The chapter on what has to last: picture first, one number for a kind of timber, both systems of units."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.base.document import Columns, Figure, Heading, Notice, Para, Points, Table
from bermwright.base.drawing import Leader
from bermwright.book.pages.lasting import lasting_chapter
from bermwright.formats.drawings.svg import svg
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess

if TYPE_CHECKING:
    from bermwright.rules.assess import Assessment

EXAMPLE = Path(__file__).parents[3] / "examples" / "larch-bank.toml"
RULES = {"wood-fits-its-place", "pipes-keep-their-shape", "drains-stay-open"}


@pytest.fixture(scope="module")
def assessed() -> Assessment:
    return assess(load(EXAMPLE).house, stop_marks=False, only=RULES)


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_picture_table_fates_pipes_and_cautions_in_this_order(assessed: Assessment, system: str) -> None:
    blocks = list(lasting_chapter(assessed, system))
    kinds = [type(one) for one in blocks]
    assert isinstance(blocks[0], Heading)
    assert kinds.index(Figure) < kinds.index(Table) < kinds.index(Points) < kinds.index(Columns)
    assert any(isinstance(one, Notice) and one.kind == "caution" for one in blocks)
    drawn = [one.sheet for one in blocks if isinstance(one, Figure)]
    drawn += [part.sheet for one in blocks if isinstance(one, Columns) for part in (*one.left, *one.right)]
    assert len(drawn) == 3
    for sheet in drawn:
        assert sheet.alt
        assert "<svg" in svg(sheet)


def test_numbers_of_the_picture_are_those_of_the_table(assessed: Assessment) -> None:
    blocks = list(lasting_chapter(assessed, "metric"))
    figure = next(one for one in blocks if isinstance(one, Figure))
    table = next(one for one in blocks if isinstance(one, Table))
    in_table = {row[0] for row in table.rows}
    in_picture = {item.text for item in figure.sheet.items if isinstance(item, Leader)}
    sheet = str(len(in_table) + 1)
    assert in_picture - in_table == {sheet}
    fates = next(one for one in blocks if isinstance(one, Points)).items
    assert any("30 of 50 years" in one for one in fates)


def test_without_a_word_on_the_wood_it_says_so(assessed: Assessment) -> None:
    untold = replace(assessed, house=replace(assessed.house, wood_parts=(), pipes=()))
    blocks = list(lasting_chapter(untold, "metric"))
    assert not any(isinstance(one, Figure | Columns) for one in blocks)
    assert any(isinstance(one, Para) and "not known yet" in one.text for one in blocks)
