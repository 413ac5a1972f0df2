"""Lettering of the whole drawing set: nothing over anything, nothing off its sheet, also in feet."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from invented import invented, text_of

from bermwright.app.drawing import Order, draw_file
from bermwright.base.dimensions import dimension_text, stepped, unit_way
from bermwright.base.drawing import Clip, Dimension, Sheet, Stroke, Text
from bermwright.book.sheets.frame import BLOCK, EDGE, LEFT, block_height
from bermwright.book.sheets.paper import boxes_of
from bermwright.book.sheets.plans import are_placed, parts_plan
from bermwright.book.sheets.settling import FAR, lettering, meet, settled, settled_in_frame
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids
from bermwright.form.solids import house_solids

EXAMPLES = Path(__file__).parents[3] / "examples"
DATE = "2026-11-30"
ISO_SCALES = {1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0, 1000.0}
WINDOW = """
[[opening]]
name = "{name}"
vault = "day room"
in = "{side}"
kind = "window"
width = "0.5 m"
height = "0.5 m"
sill = "1.0 m"
across = "{across} m"
opens = "yes"
clear_width = "0.4 m"
clear_height = "0.4 m"
header = "60 x 120 mm"
header_timber = "C24"
bearing = "60 mm"
panes = "triple, coated"
"""


def sieve():
    """A house of many small windows, close beside each other."""
    text = (EXAMPLES / "larch-bank.toml").read_text(encoding="utf-8")
    for old, new in (('span = "4.2 m"', 'span = "5.4 m"'), ('rise = "1.4 m"', 'rise = "1.9 m"')):
        text = text.replace(old, new, 1)
    more = [("back", -1.0, "west"), ("back", 1.0, "east"), ("front", 1.45, "third")]
    return text + "".join(WINDOW.format(side=side, across=at, name=name) for side, at, name in more)


def drawn(text, folder, system):
    path = folder / "house.toml"
    path.write_text(text, encoding="utf-8")
    return draw_file(
        str(path), Order(what="set", out=str(folder / "set.pdf"), date=DATE, system=system)
    ).drawn


def words_of(sheet):
    return [(text.text, text.layer, boxes_of(text, 0.0)) for item in sheet.items for text in lettering(item)]


def check(sheets):
    for sheet in sheets:
        words = words_of(sheet)
        for place, (text, layer, boxes) in enumerate(words):
            for box in boxes:
                if layer != "frame":
                    assert box[0] >= LEFT - 0.5, (sheet.title, text)
                    assert box[2] <= sheet.width - EDGE + 0.5, (sheet.title, text)
                    assert EDGE - 0.5 <= box[1] <= box[3] <= sheet.height - EDGE + 0.5, (sheet.title, text)
                for other, _, others in words[:place]:
                    assert not any(meet(box, one) for one in others), (sheet.title, text, other)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("name", ["larch-bank", "kettle-hill", "alder-loft", "sedge-bank"])
def test_no_word_of_a_set_stands_over_another_or_out_of_its_frame(name, system, tmp_path):
    check(drawn((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"), tmp_path, system))


@pytest.mark.parametrize(
    ("name", "system"),
    [("feet", "imperial"), ("pointed", "imperial"), ("lopsided", "metric"), ("vault and dome", "imperial")],
)
def test_nor_in_sets_of_houses_that_are_no_examples(name, system, tmp_path):
    check(drawn(text_of(name), tmp_path, system))


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_nor_where_openings_stand_close(system, tmp_path):
    sheets = drawn(sieve(), tmp_path, system)
    check(sheets)
    assert {sheet.view.scale for sheet in sheets if sheet.view} <= ISO_SCALES


def test_no_dimension_lies_under_the_title_block(tmp_path):
    long = sieve().replace('length = "7.5 m"', 'length = "11 m"', 1)
    found = 0
    for sheet in drawn(long, tmp_path, "metric"):
        for item in sheet.items:
            if isinstance(item, Dimension):
                across = unit_way(item.start, item.end)
                for end in (item.start, item.end):
                    x, y = stepped(end, (-across[1], across[0]), item.offset)
                    beside = x < sheet.width - EDGE - BLOCK
                    assert beside or y > EDGE + block_height(), (sheet.title, item.text)
                    found += 1
    assert found > 100


def sheet(*items, width=200.0, height=100.0):
    return Sheet(width=width, height=height, items=items, title="trial")


def test_a_sheet_without_crowding_is_the_same_sheet():
    plain = sheet(Text(at=(20.0, 20.0), text="one"), Text(at=(20.0, 40.0), text="two"))
    assert settled(plain) is plain


def test_the_later_of_two_words_moves_and_keeps_a_line_where_it_goes_far():
    first = Text(at=(50.0, 50.0), text="a long word that stands here")
    crowd = [Text(at=(50.0, 50.0 + 3.5 * k), text=first.text) for k in range(-3, 4)]
    made = settled(sheet(first, *crowd[:3], *crowd[4:], Text(at=(60.0, 50.0), text="moves")))
    check_free = words_of(made)
    for place, (_, _, boxes) in enumerate(check_free):
        assert not any(meet(box, one) for box in boxes for *_, others in check_free[:place] for one in others)
    assert made.items[0] == first
    moved = next(item for item in made.items if isinstance(item, Text) and item.text == "moves")
    (line,) = [item for item in made.items if isinstance(item, Stroke)]
    assert math.dist(moved.at, (60.0, 50.0)) > FAR
    assert line.path[1] == (60.0, 50.0)


def test_a_figure_of_a_dimension_moves_and_its_line_stays():
    one = Dimension(start=(50.0, 50.0), end=(53.0, 50.0), offset=5.0, text="1 ft 3 3/4 in")
    two = Dimension(start=(53.0, 50.0), end=(56.0, 50.0), offset=5.0, text="2 ft 3 3/4 in")
    made = settled(sheet(one, two))
    assert made.items[0] == one
    assert made.items[1].shift != (0.0, 0.0)
    assert replace(made.items[1], shift=(0.0, 0.0)) == two
    figures = [dimension_text(item) for item in made.items]
    assert not meet(*(boxes_of(text, 0.0)[0] for text in figures))
    assert figures[1].angle == dimension_text(two).angle


def test_a_word_that_runs_out_of_its_sheet_comes_in():
    (item,) = settled(sheet(Text(at=(190.0, 20.0), text="runs out of it"))).items[:1]
    (box,) = boxes_of(item, 0.0)
    assert box[2] <= 200.0


def test_the_title_block_never_moves_and_is_kept_free():
    title = Text(at=(60.0, 20.0), text="the title", layer="frame")
    late = Text(at=(60.0, 20.0), text="a note")
    made = settled_in_frame(sheet(late, title, width=210.0, height=297.0))
    assert made.items[-1] == title
    moved = next(item for item in made.items if isinstance(item, Text) and item.text == "a note")
    assert boxes_of(moved, 0.0)[0][1] >= EDGE + block_height()


def test_of_a_window_only_what_is_seen_counts():
    inside, out = Text(at=(12.0, 12.0), text="in"), Text(at=(90.0, 12.0), text="out")
    clip = Clip(low=(10.0, 10.0), high=(40.0, 40.0), items=(inside, out))
    assert [text.text for text in lettering(clip)] == ["in"]


def test_a_deep_section_leaves_its_detail_free_and_a_wide_site_plan_keeps_its_scale(tmp_path):
    sheets = {
        sheet.title.split(",")[0]: sheet for sheet in drawn(text_of("across the hill"), tmp_path, "metric")
    }
    section = sheets["Section A–A"]
    assert section.view.scale == 100.0
    (detail,) = (item for item in section.items if isinstance(item, Clip) and item.round)
    low = section.view.point(0.0, section.view.seen[0][1])[1]
    assert low > detail.high[1]
    site = sheets["Site plan"]
    assert site.view.scale == 200.0
    assert "The site" in {text for text, *_ in words_of(site)}


def test_the_parts_of_a_house_lie_where_the_file_places_them():
    house = invented("vault and dome")
    parts = [*house_solids(house), *(dome_solids(house, dome_form(one)) for one in house.domes)]
    assert are_placed(parts)
    made = parts_plan(parts, width=382.0, height=218.0)
    assert made.view.scale in ISO_SCALES
    words = {text for text, *_ in words_of(made)}
    assert {"day room", "round room", "measured from here", "9000 west, 2400 south"} <= words
    strokes = [item for item in made.items if isinstance(item, Stroke)]
    crosses = [item.path for item in strokes if item.layer == "text" and len(item.path) == 2]
    middles = {tuple(0.5 * (a + b) for a, b in zip(*path, strict=True)) for path in crosses}
    dome = made.view.point(-9.0, -2.4)
    for at in (made.view.point(0.0, 0.0), dome):
        assert any(math.dist(at, spot) < 1e-9 for spot in middles)
    # The ring of the dome lies round its middle: 4.2 m wide inside, 0.38 m thick.
    reach = [max(math.dist(at, dome) for at in item.path) for item in strokes if item.layer == "shell"]
    assert any(far == pytest.approx(1000.0 * 2.48 / made.view.scale, rel=0.02) for far in reach)
    assert not are_placed(parts[:1])
    assert not are_placed([parts[0], replace(parts[1], middle=None)])
    assert not are_placed([replace(parts[0], axis=None), parts[1]])


def test_a_house_of_many_parts_begins_with_their_plan(tmp_path):
    titles = [sheet.title for sheet in drawn(text_of("two domes"), tmp_path, "imperial")]
    assert titles[:2] == ["Sheets of Rowan Ring", "Plan of the parts"]
    assert "Plan of pantry" in titles
