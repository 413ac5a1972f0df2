"""The sheet of each day: complete by itself, true to scale, and no word over another, on any ground."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.dimensions import dimension_text
from bermwright.base.drawing import Area, Clip, Dimension, Text, Wash
from bermwright.book.pages.setting_out import day_sheets
from bermwright.book.sheets.paper import boxes_of
from bermwright.book.sheets.setout import Shows, ladder_sheet, plan_sheet
from bermwright.form import vault_form
from bermwright.form.setout import SurveyPoint, setting_out, surveyed, tape_of
from bermwright.formats.house_file import load
from bermwright.house import Survey

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
TALLEST = 218.0
"""What an A4 sheet with its title block leaves (mm)."""


def set_out(name):
    house = load(EXAMPLES / f"{name}.toml").house
    return setting_out(house, house.vaults[0], vault_form(house, house.vaults[0]))


@pytest.fixture(scope="module", params=["larch-bank", "sedge-bank", "kettle-hill"])
def placed(request):
    return set_out(request.param)


def words(sheet):
    return " ".join(item.text for item in sheet.items if isinstance(item, Text) and item.text)


TRIED = {
    "kettle-hill": {},
    "larch-bank": {},
    "sedge-bank": {},
    "alder-loft": {},
    "across the hill": {"slope": math.radians(18.0), "faces": math.radians(165.0)},
    "in the air": {"slope": math.radians(15.0), "floor": 0.3},
    "three soils": {},
    "long": {},
    "two parts": {},
}


def tried(name):
    """An example, or one on other ground, with more soils or as long and wide as a hall."""
    base = name if name in {"kettle-hill", "alder-loft", "larch-bank"} else "sedge-bank"
    house = load(EXAMPLES / f"{base}.toml").house
    house = replace(house, site=replace(house.site, **TRIED[name]))
    if name == "three soils":
        (soil,) = house.site.soil
        layers = [replace(soil, name=one, thickness=0.3) for one in ("topsoil, loam", "soft clay")]
        house = replace(house, site=replace(house.site, soil=(*layers, soil)))
    if name == "long":
        vault = replace(house.vaults[0], span=7.8, rise=3.0, length=22.0)
        house = replace(house, vaults=(vault,))
    if name == "two parts":
        first = house.vaults[0]
        annex = replace(first, name="annex", span=3.2, rise=1.1, length=4.0, east=1.0, north=-9.0)
        house = replace(house, vaults=(first, replace(annex, axis=math.radians(165.0))))
    return house


def clashes(sheet):
    """Words that stand over other words or over a peg."""
    flat = [part for item in sheet.items for part in (item.items if isinstance(item, Clip) else (item,))]
    flat = [dimension_text(item) if isinstance(item, Dimension) else item for item in flat]
    said = [(item.text, boxes_of(item, -0.1)) for item in flat if isinstance(item, Text) and item.text]
    pegs = [
        ("a peg", [(*np.min(item.path, axis=0), *np.max(item.path, axis=0))])
        for item in flat
        if isinstance(item, Area) and item.wash is Wash.INK and len(item.path) == 4
    ]
    for number, (text, boxes) in enumerate(said):
        for other, places in (*said[number + 1 :], *pegs):
            if any(
                a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for a in boxes for b in places
            ):
                yield text, other


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("name", list(TRIED))
def test_no_word_of_a_day_stands_over_another_or_over_a_peg(name, system):
    house = tried(name)
    vault = house.vaults[-1]
    out = setting_out(house, vault, vault_form(house, vault), tape=tape_of(system))
    for sheet in day_sheets(out, system):
        assert list(clashes(sheet)) == [], sheet.title
        assert sheet.height <= TALLEST, sheet.title
        if system == "metric" and not TRIED[name] and name != "long":
            assert 50.0 <= sheet.view.scale <= 300.0, sheet.title


def test_the_first_day_is_complete_by_itself(placed):
    out = placed
    first = words(day_sheets(out)[0])
    for line in out.plan.strings:
        assert f"{line.number}: {line.place:.3f} m".replace("-", "−") in first
    for value in (*out.plan.low, *out.plan.high, *out.plan.peg("H").at):
        assert f"{abs(value):.2f} m" in first


def test_the_day_of_the_dig_says_where_its_edge_and_the_heaps_lie(placed):
    out = placed
    second = words(day_sheets(out)[1])
    for spot in (*out.dig.corners, out.dig.pit.low, out.dig.pit.high, *(heap.middle for heap in out.heaps)):
        assert all(f"{abs(value):.2f} m" in second for value in spot)


def test_the_day_of_the_mound_gives_the_toes_all_round():
    out = set_out("kettle-hill")
    mound = words(day_sheets(out)[-1])
    for value in (out.mound.left, out.mound.right, out.mound.front, out.mound.back - out.form.length):
        assert f"{abs(value):.2f} m" in mound
    assert out.mound.front == pytest.approx(-2.0 * out.form.ground.top, rel=1e-6)


def test_a_post_far_off_does_not_make_the_plan_small():
    out = set_out("kettle-hill")
    assert out.plan.peg("H").at[1] - out.plan.high[1] > 2.0
    first = day_sheets(out)[0]
    assert first.view.scale <= 150.0
    assert "to post H" in words(first)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("count", [3, 11])
def test_a_dense_survey_is_drawn_with_as_many_levels_as_there_is_room_for(count, system):
    house = load(EXAMPLES / "sedge-bank.toml").house
    house = replace(house, survey=Survey(points="p.csv", middle="M"))
    half, vault = count // 2, house.vaults[0]
    points = tuple(
        SurveyPoint(
            name="M" if x == y == 0 else f"P{x} {y}", east=18.0 / count * x, north=18.0 / count * y,
            height=100.0 + 0.15 * x, line=2,
        )
        for x in range(-half, half + 1)
        for y in range(-half, half + 1)
    )  # fmt: skip
    found = surveyed(house, vault, points, name="p.csv")
    out = setting_out(house, vault, vault_form(house, vault), found, tape=tape_of(system))
    sheet = plan_sheet(out, Shows.GROUND, system=system)
    assert list(clashes(sheet)) == []
    levels = [item for item in sheet.items if isinstance(item, Text) and set("+−±") & set(item.text)]
    assert len(levels) >= min(len(points), 40)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("name", ["kettle-hill", "alder-loft", "across the hill"])
def test_the_staff_of_heights_keeps_its_columns_apart(name, system):
    house = tried(name)
    out = setting_out(house, house.vaults[0], vault_form(house, house.vaults[0]), tape=tape_of(system))
    sheet = ladder_sheet(out, system=system)
    assert list(clashes(sheet)) == []
    for item in sheet.items:
        if isinstance(item, Text):
            assert max(box[2] for box in boxes_of(item)) <= sheet.width + 1.0
