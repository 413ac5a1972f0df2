"""Plans, elevations, details and the drawing set: true to scale, legible, complete."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from bermwright.app.drawing import Order, draw_file
from bermwright.app.drawing.sets import set_sheets
from bermwright.base.drawing import Clip, Dimension, Text
from bermwright.book.sheets import TitleBlock
from bermwright.book.sheets.details import detail_set
from bermwright.book.sheets.paper import boxes_of
from bermwright.book.sheets.plans import elevation_sheet, floor_plan, section_along, site_plan
from bermwright.book.sheets.plans.measures import levels_for, without_crowding
from bermwright.form import vault_form
from bermwright.form.solids import vault_solids
from bermwright.formats.drawings.lower import dimension_text
from bermwright.formats.house_file import load

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = ("larch-bank", "alder-loft", "kettle-hill", "sedge-bank")
DATE = "2026-11-30"
ISO_SCALES = {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}
"""ISO 5455."""


@cache
def parts(name):
    house = load(EXAMPLES / f"{name}.toml").house
    vault = house.vaults[0]
    form = vault_form(house, vault)
    return house, vault, form, vault_solids(house, vault, form)


@cache
def sheets(name, system="metric"):
    house, vault, form, solids = parts(name)
    return (
        site_plan(house, vault, form, solids, width=382.0, height=252.0, system=system),
        floor_plan(house, vault, form, solids, width=382.0, height=220.0, system=system),
        section_along(house, form, solids, width=382.0, height=218.0, system=system),
        *(
            elevation_sheet(house, form, solids, side, width=382.0, height=109.0, system=system)
            for side in ("front", "back", "left", "right")
        ),
        *detail_set(house, vault, form, solids, system=system),
    )


def texts(sheet):
    for item in sheet.items:
        if isinstance(item, Text):
            yield item
        elif isinstance(item, Dimension):
            yield dimension_text(item)


def meets(one, other, air=0.3):
    return (
        one[0] < other[2] - air
        and other[0] < one[2] - air
        and one[1] < other[3] - air
        and other[1] < one[3] - air
    )


@pytest.mark.parametrize("name", NAMES)
def test_every_dimension_is_as_long_as_it_says(name):
    found = 0
    for sheet in sheets(name):
        for item in sheet.items:
            words = item.text.split()[0] if isinstance(item, Dimension) else ""
            if words.isdigit():
                drawn = math.dist(item.start, item.end) * sheet.view.scale
                assert drawn == pytest.approx(float(words), abs=1.0), (sheet.title, item.text)
                found += 1
    assert found > 20


@pytest.mark.parametrize("name", NAMES)
def test_no_word_stands_over_another_or_off_its_sheet(name):
    for sheet in sheets(name):
        words = [(text.text, boxes_of(text, 0.0)) for text in texts(sheet)]
        for place, (text, boxes) in enumerate(words):
            for box in boxes:
                assert -0.5 <= box[0] <= box[2] <= sheet.width + 0.5, (sheet.title, text)
                assert -0.5 <= box[1] <= box[3] <= sheet.height + 0.5, (sheet.title, text)
                for other, others in words[:place]:
                    assert not any(meets(box, one) for one in others), (sheet.title, text, other)


@pytest.mark.parametrize("name", NAMES)
def test_scales_are_those_of_the_standard(name):
    assert {sheet.view.scale for sheet in sheets(name)} <= ISO_SCALES


def test_every_detail_says_what_it_leaves_out():
    details = sheets("larch-bank")[7:]
    assert len(details) == 8
    for number, sheet in enumerate(details, 1):
        words = [text.text for text in texts(sheet)]
        assert any(word.startswith(f"D{number}, ") for word in words)
        assert any(word.startswith(("Not drawn", "Its way")) for word in words)
        assert "calculation aid, not reviewed" in words
        assert any(isinstance(item, Clip) for item in sheet.items)


def test_details_of_what_the_file_does_not_describe_are_left_out():
    house, vault, form, solids = parts("larch-bank")
    bare = replace(house, air=None, openings=(), stoves=())
    titles = [sheet.title for sheet in detail_set(bare, vault, form, solids)]
    assert titles == ["springing", "footing and frost", "crown", "edge of the membrane", "toe of the cover"]


def test_imperial_sheets_carry_feet_and_inches():
    words = [text.text for sheet in sheets("larch-bank", "imperial") for text in texts(sheet)]
    assert any("24 ft 7" in word for word in words)
    assert not any(word in {"7500", "14615"} for word in words)


def test_an_unknown_axis_leaves_north_open():
    house, vault, form, solids = parts("larch-bank")
    open_axis = replace(vault, axis=None)
    plain = site_plan(house, open_axis, form, replace(solids, axis=None))
    assert any(text.text == "north: not given" for text in texts(plain))


def test_levels_give_way_where_there_is_no_room():
    levels = [(3.0, "top"), (1.0, "sill"), (0.0, "floor"), (-1.0, "footing")]
    assert levels_for(levels, 300.0, 100.0) == levels
    assert levels_for(levels, 300.0, 9.0) == levels[:2]
    assert levels_for(levels, 174.0, 100.0)[0] == (3.0, "")


def test_places_too_near_to_each_other_are_one_link():
    assert without_crowding([0.0, 0.1, 5.0, 5.05], 50.0) == [0.0, 5.05]
    assert without_crowding([0.0, 1.0, 2.0], 50.0) == [0.0, 1.0, 2.0]


@pytest.mark.parametrize("name", ["larch-bank", "kettle-hill"])
def test_the_set_is_framed_numbered_and_listed(name):
    house = load(EXAMPLES / f"{name}.toml").house
    block = TitleBlock(owner=house.name, title="", number="", revision="abc", date=DATE)
    found = set_sheets(house, "set", block, system="metric", progress=lambda _step: None)
    assert {(sheet.width, sheet.height) for sheet in found} == {(420.0, 297.0), (210.0, 297.0)}
    words = [[text.text for text in texts(sheet)] for sheet in found]
    codes = ["G01", "P01", "P02", "S01", "S02", "E01", "E02", "D01", "D02", "R01"]
    for number, sheet_words in enumerate(words, 1):
        assert "calculation aid, not reviewed" in sheet_words
        assert f"{number} of {len(words)}" in sheet_words
    for place, code in enumerate(codes):
        assert code in words[0]
        assert code in words[place]
    listed = [word for word in words[0] if word[:1] in "GPSEDRO" and word[1:].isdigit()]
    assert len(set(listed)) == len(found)


def test_the_plan_is_printed_to_scale():
    pdfplumber = pytest.importorskip("pdfplumber")
    order = Order(what="plan", out="plan.pdf", date=DATE)
    ((_, content),) = draw_file(str(EXAMPLES / "larch-bank.toml"), order).files
    millimetre = 72.0 / 25.4
    with pdfplumber.open(io.BytesIO(content)) as book:
        (page,) = book.pages
        assert (round(page.width / millimetre), round(page.height / millimetre)) == (420, 297)
        lengths = [abs(line["x1"] - line["x0"]) / millimetre for line in page.lines]
    # The vault is 7.500 m long and 7.380 m clear between its end walls: 150 and 147.6 mm at 1 : 50.
    for wanted in (150.0, 147.6):
        assert any(length == pytest.approx(wanted, abs=0.05) for length in lengths)


def test_the_plan_is_read_back_from_dxf(tmp_path):
    ezdxf = pytest.importorskip("ezdxf")
    out = tmp_path / "plan.dxf"
    drawn = draw_file(str(EXAMPLES / "larch-bank.toml"), Order(what="plan", out=str(out), date=DATE))
    drawn.write()
    again = draw_file(str(EXAMPLES / "larch-bank.toml"), Order(what="plan", out=str(out), date=DATE))
    assert again.files == drawn.files
    document = ezdxf.readfile(out)
    assert not document.audit().errors
    measured = [
        entity.get_measurement() for layout in document.layouts for entity in layout.query("DIMENSION")
    ]
    assert measured
    layers = {layer.dxf.name for layer in document.layers}
    assert {"A-SUPPRTE-", "A-EARTH-E-", "A-RIB---E-"} <= layers


def test_every_dimension_of_a_set_reads_back_as_it_says_also_on_sheets_of_several_scales(tmp_path):
    ezdxf = pytest.importorskip("ezdxf")
    out = tmp_path / "details.dxf"
    draw_file(str(EXAMPLES / "larch-bank.toml"), Order(what="details", out=str(out), date=DATE)).write()
    document = ezdxf.readfile(out)
    found = [(one.dxf.text, one.dxf.actual_measurement) for one in document.modelspace().query("DIMENSION")]
    assert len(found) > 8
    for text, measured in found:
        if text.isdigit():
            assert measured == pytest.approx(float(text), abs=1.0)
