"""Sheets of setting out and tools: they fit their paper, say their numbers, and follow the house."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.document import Figure, Notice, Table
from bermwright.base.drawing import Area, Clip, Stroke, Text
from bermwright.base.lettering import text_width
from bermwright.book.pages.setting_out import day_sheets
from bermwright.book.pages.setting_out.gathered import set_out_pages
from bermwright.book.sheets.jigs import dome_tools, jig_sheets
from bermwright.book.sheets.jigs.floor import block_places
from bermwright.book.sheets.paper import boxes_of
from bermwright.book.sheets.setout import curve_sheet, ladder_sheet
from bermwright.book.sheets.setout.marks import spread
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.setout import setting_out
from bermwright.formats.house_file import load
from bermwright.house import SettingOut
from bermwright.house.making.words import DomeUnit, Laid

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
TALLEST = 218.0
"""What an A4 sheet with its title block leaves (mm)."""


def set_out(name, **changes):
    house = load(EXAMPLES / f"{name}.toml").house
    house = replace(house, **changes)
    form = vault_form(house, house.vaults[0])
    return house, setting_out(house, house.vaults[0], form)


@pytest.fixture(scope="module", params=["larch-bank", "sedge-bank", "kettle-hill"])
def placed(request):
    return set_out(request.param)


@pytest.fixture(scope="module")
def bank():
    return set_out("larch-bank", setting_out=SettingOut(course=0.2, tube=0.45, dig_slope=math.radians(45.0)))


def texts(sheet):
    for item in sheet.items:
        parts = item.items if isinstance(item, Clip) else (item,)
        yield from (part for part in parts if isinstance(part, Text) and part.text)


def words(sheet):
    return " ".join(item.text for item in texts(sheet))


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_every_sheet_fits_its_paper_and_no_word_runs_over_the_edge(placed, system):
    house, out = placed
    sheets = [*day_sheets(out, system), ladder_sheet(out, system=system), *jig_sheets(out, house, system)]
    sheets.append(curve_sheet(out, system=system))
    assert len(sheets) >= 12
    for sheet in sheets:
        assert sheet.width == 174.0
        assert sheet.height <= TALLEST, sheet.title
        for item in texts(sheet):
            if item.angle:
                continue
            wide = text_width(item.text, item.height, item.face, strong=item.strong)
            left = item.at[0] - {"start": 0.0, "middle": 0.5 * wide, "end": wide}[item.anchor]
            assert left >= -1.0, (sheet.title, item.text)
            assert left + wide <= 175.5, (sheet.title, item.text)


def test_each_day_has_numbers_boxes_and_cautions(placed):
    _, out = placed
    sheets = day_sheets(out)
    assert [sheet.title.partition(":")[0] for sheet in sheets] == [f"Day {n + 1}" for n in range(len(sheets))]
    first, second = words(sheets[0]), words(sheets[1])
    assert "cables, pipes" in first
    assert "overhead lines" in first
    assert "Nobody enters a dig or trench" in second
    for check in out.plan.checks:
        assert f"{check.length:.3f} m" in first
    assert all("signed:" in words(sheet) for sheet in sheets)


def test_the_scale_of_a_plan_is_true(placed):
    _, out = placed
    sheet = day_sheets(out)[0]
    a, d = (sheet.view.point(out.plan.peg(name).at[0], -out.plan.peg(name).at[1]) for name in "AD")
    assert math.dist(a, d) == pytest.approx(1000.0 * out.form.length / sheet.view.scale)
    pegs = [item for item in sheet.items if isinstance(item, Area) and len(item.path) == 4]
    middles = [np.mean(item.path, axis=0) for item in pegs]
    assert min(math.dist(a, spot) for spot in middles) < 0.01
    assert min(math.dist(d, spot) for spot in middles) < 0.01


def test_the_gauge_stick_counts_its_courses(bank):
    house, out = bank
    stick = next(sheet for sheet in jig_sheets(out, house) if sheet.title == "Gauge stick")
    said = [item.text for item in texts(stick)]
    assert {"1", "8", "200", "1600", "1700", "600"} <= set(said)
    assert "8 courses of 200 mm leave 100 mm to the springing" in words(stick)


def test_the_chute_fits_into_the_tube(bank):
    house, out = bank
    stand = next(sheet for sheet in jig_sheets(out, house) if "chute" in sheet.title)
    assert f"{1000.0 * (2.0 * 0.45 / math.pi - 0.01):.0f}" in words(stand)
    bare_house, bare = set_out("larch-bank", setting_out=None)
    assert not any("chute" in sheet.title for sheet in jig_sheets(bare, bare_house))


def test_the_seat_of_the_shoe_is_square_to_the_rib(bank):
    house, out = bank
    shoe = next(sheet for sheet in jig_sheets(out, house) if "shoe" in sheet.title)
    inside, outside = out.form.rib.inside, out.form.rib.outside
    rise = math.atan2(outside.z[-1] - inside.z[-1], outside.x[-1] - inside.x[-1])
    assert f"seat rises outwards by {math.degrees(rise):.1f}°" in words(shoe)
    assert f"{1000.0 * (outside.z[-1] - inside.z[-1]):.0f} mm higher" in words(shoe)


def test_the_seat_of_a_rib_that_bulges_past_its_feet_falls_outwards():
    house, out = set_out("larch-bank")
    vault = replace(house.vaults[0], span=6.4, rise=3.2, springing=1.8)
    house = replace(house, vaults=(vault,))
    out = setting_out(house, vault, vault_form(house, vault))
    inside, outside = out.form.rib.inside, out.form.rib.outside
    assert inside.z[-1] > outside.z[-1]
    shoe = next(sheet for sheet in jig_sheets(out, house) if "shoe" in sheet.title)
    assert f"{1000.0 * (inside.z[-1] - outside.z[-1]):.0f} mm lower" in words(shoe)
    block = next(item for item in shoe.items if isinstance(item, Area))
    assert min(y for _, y in block.path) == pytest.approx(shoe.view.origin[1], abs=1e-6)


@pytest.mark.parametrize("course", [0.05, 0.085, 0.2])
@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_no_figure_of_a_tool_is_written_over(course, system):
    house, out = set_out(
        "larch-bank", setting_out=SettingOut(course=course, tube=0.45, dig_slope=math.radians(45.0))
    )
    for sheet in jig_sheets(out, house, system):
        rooms = [(item.text, boxes_of(item, margin=-0.15)) for item in texts(sheet)]
        over = [
            (one, other)
            for number, (one, mine) in enumerate(rooms)
            for other, theirs in rooms[:number]
            for a in mine
            for b in theirs
            if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
        ]
        assert over == [], sheet.title


def test_every_course_has_its_line_on_the_stick():
    house, out = set_out("larch-bank", setting_out=SettingOut(course=0.03))
    stick = next(sheet for sheet in jig_sheets(out, house) if sheet.title == "Gauge stick")
    reach = out.form.springing - out.strips[0].wall_bottom
    half = 0.5 * max(1000.0 * 0.045 / stick.view.scale, 4.0)
    lines = [
        one
        for one in stick.items
        if isinstance(one, Stroke)
        and len(one.path) == 2
        and one.path[1][1] - one.path[0][1] == pytest.approx(half)
    ]
    assert len(lines) == math.floor(reach / 0.03 + 1e-9)


def test_slope_boards_drop_as_the_mound_falls(bank):
    house, out = bank
    boards = next(sheet for sheet in jig_sheets(out, house) if sheet.title == "Slope boards")
    said = [item.text for item in texts(boards)]
    assert "1:2.5 (21.8°)" in said
    assert "1:2 (26.6°)" in said
    assert any("mound left, right, back" in one for one in said)


def test_blocks_of_the_jig_touch_the_inside(bank):
    _, out = bank
    inside = out.form.rib.inside
    places = np.array(block_places(out))
    near = np.hypot(
        inside.x[:, None] - places[:, 0], inside.z[:, None] - out.form.springing - places[:, 1]
    ).min(axis=0)
    assert near.max() < 0.004
    assert np.hypot(*np.diff(places[:, :2], axis=0).T).max() <= 0.4 + 1e-9


def test_numbers_of_strings_are_moved_apart_as_little_as_it_takes():
    assert spread([0.0, 1.0, 2.0, 20.0], 4.0) == pytest.approx([-3.0, 1.0, 5.0, 20.0])
    assert spread([0.0, 10.0], 4.0) == [0.0, 10.0]
    moved = spread([0.0, 3.0, 3.5, 9.0, 9.1], 4.0)
    assert np.diff(moved).min() >= 4.0 - 1e-9


def test_what_cannot_be_set_out_is_said_in_the_book():
    house = load(EXAMPLES / "sedge-bank.toml").house
    form = vault_form(house, house.vaults[0])
    steep = replace(house, setting_out=SettingOut(dig_slope=math.radians(20.0)),
                    site=replace(house.site, slope=math.radians(21.0)))  # fmt: skip
    pages = set_out_pages(steep, house.vaults[0], form)
    notice = next(block for block in pages.ground if isinstance(block, Notice))
    assert "never meet this hillside" in notice.lines[0]
    assert pages.curve == ()


def test_the_book_has_figures_and_tables(bank):
    house, out = bank
    pages = set_out_pages(house, house.vaults[0], out.form)
    assert sum(isinstance(block, Figure) for block in pages.ground) == 7
    assert sum(isinstance(block, Table) for block in pages.ground) >= 8
    assert sum(isinstance(block, Figure) for block in pages.tools) == 7


def test_surveyed_points_are_drawn_with_their_levels():
    from bermwright.book.sheets.setout import Shows, plan_sheet
    from bermwright.form.setout import SurveyPoint, surveyed
    from bermwright.house import Survey

    house = load(EXAMPLES / "sedge-bank.toml").house
    house = replace(house, survey=Survey(points="p.csv", middle="M"))
    vault = house.vaults[0]
    spots = {"M": (0, 0), "N": (0, 6), "S": (0, -6), "O": (7, 0), "W": (-7, 0), "Far": (60, 0)}
    points = tuple(
        SurveyPoint(name=name, east=x, north=y, height=100.0 + 0.15 * x, line=at)
        for at, (name, (x, y)) in enumerate(spots.items(), 2)
    )
    form = vault_form(house, vault)
    out = setting_out(house, vault, form, surveyed(house, vault, points, name="p.csv"))
    said = words(plan_sheet(out, Shows.GROUND))
    assert "M +0.450" in said
    assert "O +1.500" in said
    assert "Far" not in said


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_tools_of_a_dome_follow_its_courses(system):
    house = load(EXAMPLES / "domes" / "rowan-ring.toml").house
    form = dome_form(house.domes[0])
    bare = [sheet.title for sheet in dome_tools(house, form, system)]
    assert bare == ["Gauge stick", "Water level", "Hand rammer"]
    sheets = dome_tools(replace(house, setting_out=SettingOut(tube=0.45)), form, system)
    assert [sheet.title for sheet in sheets] == [*bare, "Stand and chute for tubes"]
    stick = sheets[0]
    courses = int(4.2 / 0.125)
    numbers = {item.text for item in texts(stick)}
    assert {str(number) for number in range(1, courses + 1)} <= numbers
    assert str(courses + 1) not in numbers
    assert stick.width >= max(item.at[0] for item in texts(stick))


def test_tools_of_a_brick_dome_leave_out_what_earth_needs():
    house = load(EXAMPLES / "domes" / "rowan-ring.toml").house
    dome = replace(
        house.domes[0], unit=DomeUnit.BRICKS, laid=Laid.TILTED, thickness=0.12, course=0.07, crews=()
    )
    dome = replace(dome, openings=(), unit_length=0.24)
    house = replace(house, domes=(dome,), setting_out=SettingOut(tube=0.45))
    assert [sheet.title for sheet in dome_tools(house, dome_form(dome))] == ["Water level"]
