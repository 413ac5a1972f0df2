"""Two sections over each other, and the house as lines."""

from __future__ import annotations

import math

import pytest

from bermwright.app.opening import open_house
from bermwright.base.drawing import Area, Pen, Stroke, Text
from bermwright.book.sheets.axonometric import axonometric_sheet
from bermwright.book.sheets.compared import overlay_sheet
from bermwright.form import vault_form
from bermwright.formats.drawings import svg


@pytest.fixture(scope="module")
def forms(repository):
    houses = [
        open_house(repository / f"examples/{name}.toml").house for name in ("larch-bank", "kettle-hill")
    ]
    return [vault_form(house, house.vaults[0]) for house in houses]


def test_the_new_one_is_full_and_the_old_one_in_chain_lines(forms):
    sheet = overlay_sheet(*forms, names=("old", "new"))
    old = [item for item in sheet.items if isinstance(item, Stroke) and item.pen is Pen.NOT_YET]
    top = max(y for item in old for _, y in item.path)
    words = [item.text for item in sheet.items if isinstance(item, Text)]
    assert len(old) == 5  # ground, both faces of the rib, the soil face, the legend
    assert sheet.view is not None
    assert top == pytest.approx(sheet.view.point(0.0, float(forms[0].ground.finished.z.max()))[1], abs=0.1)
    assert {"old", "new"} <= set(words)
    assert any("→" in text for text in words)


def test_what_is_the_same_is_written_once(forms):
    words = [
        item.text
        for item in overlay_sheet(forms[0], forms[0], names=("a", "b")).items
        if isinstance(item, Text)
    ]
    assert not any("→" in text for text in words)


@pytest.mark.parametrize("at", [0, 1])
def test_the_house_as_lines_stays_on_its_sheet(forms, at):
    sheet = axonometric_sheet(forms[at])
    points = [point for item in sheet.items if isinstance(item, Area | Stroke) for point in item.path]
    assert all(math.isfinite(x) and math.isfinite(y) for x, y in points)
    assert min(x for x, _ in points) >= 0.0
    assert max(x for x, _ in points) <= sheet.width
    assert max(y for _, y in points) <= sheet.height
    assert "nan" not in svg(sheet, "day")


def test_the_nearest_rib_is_painted_last(forms):
    ribs = [
        item
        for item in axonometric_sheet(forms[0]).items
        if isinstance(item, Area) and item.outline is Pen.SEEN
    ]
    lowest = [min(y for _, y in rib.path) for rib in ribs[-3:]]
    assert lowest == sorted(lowest, reverse=True)
