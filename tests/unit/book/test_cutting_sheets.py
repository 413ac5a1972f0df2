"""Sheets of the cut list: blocks touch the rib, every board is drawn, no word runs off its sheet."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
import shapely

from bermwright.app.cutting import vault_cuts
from bermwright.app.opening import open_house
from bermwright.base.drawing import Area, Stroke, Text
from bermwright.book.sheets.cutting import (
    board_patterns,
    board_sheets,
    door_sheet,
    end_wall_sheet,
    fit_sheet,
    jig_sheet,
    label_sheets,
    log_sheet,
    nail_sheet,
    nest_sheet,
    pair_sheet,
    rebate_sheet,
)
from bermwright.book.sheets.cutting.boards import _runs
from bermwright.book.sheets.cutting.jig import block_places
from bermwright.book.sheets.paper import boxes_of
from bermwright.form import vault_form
from bermwright.takeoff.cutting import end_walls, house_plan
from bermwright.takeoff.cutting.nesting import beside_other
from bermwright.takeoff.cutting.wanted import rib_kinds
from bermwright.takeoff.light import door_leaves, fitted, setting_of

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def house():
    return open_house(EXAMPLE).house


@pytest.fixture(scope="module")
def form(house):
    return vault_form(house, house.vaults[0])


@pytest.fixture(scope="module")
def plan(house, form):
    return house_plan(house, ((house.vaults[0], form),))


@pytest.fixture(scope="module")
def nailing(house, form):
    return vault_cuts(((house.vaults[0], form),))[0].nailing


def every_sheet(house, form, plan, nailing, system):
    fitting = fitted(house, None)
    pane = next(match.pair for match in fitting.matches if match.pair and match.pair.item.line.panes)
    kind = plan.lists[0].kinds[0]
    piece = next(one for one in form.rib.pieces if one.name == kind.name.split(", ", maxsplit=1)[0])
    return (
        *board_sheets(plan.lists[0], plan.codes, system=system),
        jig_sheet(form, system=system),
        nest_sheet(form.rib, piece, kind, 2, system=system),
        nail_sheet(form, nailing, system=system),
        log_sheet(plan.logs, 0.003, system=system),
        *(end_wall_sheet(form, wall, system=system) for wall in end_walls(house, [form], plan)),
        fit_sheet(fitting.matches, system=system),
        rebate_sheet(setting_of(pane), system=system),
        door_sheet(door_leaves(house)[0][1], system=system),
        *label_sheets(plan.lists, plan.codes, system=system)[:2],
    )  # fmt: skip


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_no_word_runs_off_its_sheet(house, form, plan, nailing, system):
    for sheet in every_sheet(house, form, plan, nailing, system):
        for item in sheet.items:
            if isinstance(item, Text):
                for left, low, right, high in boxes_of(item):
                    assert left > -1.0, (sheet.title, item.text)
                    assert right < sheet.width + 1.0, (sheet.title, item.text)
                    assert low > -1.5, (sheet.title, item.text)
                    assert high < sheet.height + 1.0, (sheet.title, item.text)


def test_blocks_touch_both_faces_of_the_rib(form):
    rib = form.rib
    line = rib.centreline
    for place in block_places(rib):
        for spot, face in ((place.inside, rib.inside), (place.outside, rib.outside)):
            point = shapely.Point(spot[0] + float(line.x[0]), spot[1] + float(line.z[0]))
            near = shapely.LineString(list(zip(face.x.tolist(), face.z.tolist(), strict=True)))
            assert near.distance(point) < 2e-4


def test_every_board_is_drawn_once(plan):
    patterns = board_patterns(plan.lists[0])
    names = [board.name for pattern in patterns for board in pattern.boards]
    assert sorted(names) == sorted(board.name for board in plan.lists[0].boards)
    assert len(patterns) < 60


def test_no_line_runs_through_what_a_blank_is_called(plan):
    stacked = 0
    for sheet in board_sheets(plan.lists[0], plan.codes):
        level = [
            item.path for item in sheet.items
            if isinstance(item, Stroke) and item.layer == "piece" and item.path[0][1] == item.path[1][1]
        ]  # fmt: skip
        for item in sheet.items:
            if isinstance(item, Text) and "×" in item.text and item.anchor == "middle":
                stacked += 1
                (left, low, right, high), *_ = boxes_of(item)
                assert not any(low < y < high and x0 < right and left < x1 for (x0, y), (x1, _) in level)
    assert stacked > 5


def test_runs_of_numbers_are_drawn_together():
    assert _runs([4]) == "4"
    assert _runs([1, 2, 5, 6, 7]) == "1, 2, 5 to 7"


def test_the_nail_drawing_shows_as_many_nails_as_were_checked(form, nailing):
    sheet = nail_sheet(form, nailing)
    clip = sheet.items[0]
    strokes = [item for item in clip.items if isinstance(item, Stroke) and item.layer == "nails"]
    near = [one for one in strokes if abs(0.5 * (one.path[0][0] + one.path[1][0]) - 87.0) < 75.0]
    # Two strokes cross at each nail: a block of all nails on both sides of the joint, for each layer.
    assert sum(not one.closed for one in near) == 2 * 2 * nailing.count * nailing.turns
    assert nailing.turns == 3
    assert sum(one.closed for one in near) == 2 * nailing.count
    words = [item.text for item in sheet.items if isinstance(item, Text)]
    assert "upright crosses: layers 2, 5; tilted crosses: layer 3; rings: layer 4" in words
    assert any("7 or more from those of the others" in one for one in words)
    assert sheet.width == 174.0


def test_one_nailed_layer_has_no_words_on_others(form, nailing):
    two = replace(form, rib=replace(form.rib, layers=2))
    sheet = nail_sheet(two, replace(nailing, turns=1))
    words = [item.text for item in sheet.items if isinstance(item, Text)]
    assert "upright crosses: layer 2" in words
    assert not any("of the others" in one for one in words)


def test_labels_name_every_piece_and_board(plan):
    words = [item.text for sheet in label_sheets(plan.lists, plan.codes) for item in sheet.items
             if isinstance(item, Text) and item.strong]  # fmt: skip
    boards = [board for one in plan.lists for board in one.boards]
    pieces = [label for board in boards for one in board.placed for label in one.labels]
    names = [*(board.name for board in boards), *(one.name for one in plan.offcuts)]
    assert sorted(words) == sorted([*pieces, *names])


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_no_size_on_a_label_is_cut_off(plan, system):
    words = [
        item.text
        for sheet in label_sheets(plan.lists, plan.codes, system=system)
        for item in sheet.items
        if isinstance(item, Text)
    ]
    assert any(" × " in one for one in words)
    assert not [one for one in words if one.endswith("…")]


def test_unlike_outlines_are_drawn_in_their_blank(form):
    long, short = (kind for kind in rib_kinds(form, 0.004) if kind.name.split(", ")[0] in {"1L1", "1L2"})
    other = beside_other(long, short, 0.004)
    sheet = pair_sheet(long, other)
    areas = [item for item in sheet.items if isinstance(item, Area) and item.layer == "piece"]
    assert len(areas) == 2
    factor = 1000.0 / sheet.view.scale
    heights = [y for area in areas for _, y in area.path]
    assert max(heights) - min(heights) == pytest.approx((other.gap + short.width) * factor, abs=0.3)
