"""The pictures and pages of a year say what the year says."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from bermwright.adapt.winter.telling.findings import findings_of
from bermwright.adapt.winter.telling.picture import deepest_frost, week_of
from bermwright.adapt.winter.telling.saying import sentences
from bermwright.app.showing.ground import ISOTHERMS, _week
from bermwright.base.document import Figure, FindingBlock, Headline
from bermwright.base.drawing import Arc, Area, Dimension, Pen, Stroke, Text, Wash
from bermwright.base.findings import Verdict
from bermwright.book.pages.winter import winter_document, winter_pages
from bermwright.book.sheets.winter import balance_sheet, months_sheet, pile_sheet, week_sheet, year_sheet
from bermwright.formats.drawings import svg
from bermwright.formats.winter_json import winter_data
from bermwright.formats.winter_text import winter_text
from bermwright.house import Heated

KWH = 3.6e6


def texts(sheet) -> str:
    return " ".join(item.text for item in sheet.items if isinstance(item, Text))


# ---------------------------------------------------------------- the section
def test_frozen_ground_is_shaded_and_toothed_in_the_worst_week(larch_bank):
    number = deepest_frost(larch_bank)
    sheet = week_sheet(larch_bank, number)
    ice = [item for item in sheet.items if isinstance(item, Area) and item.wash is Wash.COLD]
    teeth = [
        item
        for item in sheet.items
        if isinstance(item, Stroke) and item.layer == "frost" and item.pen is Pen.TICK
    ]
    assert ice
    assert len(teeth) > 20
    assert f"{week_of(larch_bank, number).frozen:.2f} m deep in the open" in texts(sheet)


def test_in_summer_nothing_is_shaded(larch_bank):
    sheet = week_sheet(larch_bank, 30)
    assert not [item for item in sheet.items if isinstance(item, Area) and item.wash is Wash.COLD]
    assert "frost" not in texts(sheet)
    assert "snow" not in texts(sheet)


def test_teeth_point_into_the_ice(larch_bank):
    sheet = week_sheet(larch_bank, deepest_frost(larch_bank))
    teeth = [
        item
        for item in sheet.items
        if isinstance(item, Stroke) and item.layer == "frost" and item.pen is Pen.TICK
    ]
    up = sum(item.path[1][1] > item.path[0][1] for item in teeth)
    assert up > 0.7 * len(teeth)  # ice lies over the line


def test_isotherms_carry_their_figures(larch_bank):
    words = texts(week_sheet(larch_bank, deepest_frost(larch_bank)))
    assert "+4°" in words
    assert "+8°" in words


# ---------------------------------------------------------------- pile
@pytest.mark.parametrize("volume", [0.6, 4.0, 12.0, 60.0])
def test_the_pile_is_to_scale(larch_bank, volume):
    wood = replace(larch_bank.fire.wood_for(larch_bank.heat), volume=volume)
    sheet = pile_sheet(wood)
    long, high = (item for item in sheet.items if isinstance(item, Dimension))
    rows = 1
    if "rows behind" in texts(sheet):
        rows = int(texts(sheet).split(" rows behind")[0].rsplit(maxsplit=1)[-1])
    scale = float(texts(sheet).rsplit("1:", maxsplit=1)[1])
    drawn = math.dist(long.start, long.end) * scale / 1000.0, math.dist(high.start, high.end) * scale / 1000.0
    assert drawn[0] * drawn[1] * 1.0 * rows == pytest.approx(volume, rel=1e-6)
    assert max(x for item in sheet.items if isinstance(item, Arc) for x in (item.centre[0],)) < sheet.width


# ---------------------------------------------------------------- balance
def test_bars_are_as_high_as_their_heat(larch_bank):
    sheet = balance_sheet(larch_bank)
    bars = [item for item in sheet.items if isinstance(item, Area) and item.layer == "bars"]
    middle = min(
        (item for item in sheet.items if isinstance(item, Stroke) and item.pen is Pen.SEEN),
        key=lambda one: one.path[0][1],
    ).path[0][1]
    up = sum(bar.path[2][1] - bar.path[0][1] for bar in bars if bar.path[2][1] > middle + 1e-9)
    down = sum(bar.path[0][1] - bar.path[2][1] for bar in bars if bar.path[2][1] < middle - 1e-9)
    assert up == pytest.approx(down, rel=0.02)
    assert f"{larch_bank.balance.gains['sun'].sum() / KWH:.0f} kWh" in texts(sheet)


def test_the_year_has_twelve_months_and_its_names(larch_bank):
    words = texts(year_sheet(larch_bank))
    for month in ("Jan", "Jul", "Dec"):
        assert month in words
        assert month in texts(months_sheet(larch_bank))
    assert "ground under the footing" in words
    assert f"{week_of(larch_bank, deepest_frost(larch_bank)).frozen:.2f} m deep about" in words


def test_every_picture_is_drawn_and_lettering_stays_legible(larch_bank, kettle_hill):
    for year in (larch_bank, kettle_hill):
        for sheet in (week_sheet(year, 10), year_sheet(year), balance_sheet(year), months_sheet(year)):
            assert svg(sheet).startswith("<svg")
            assert sheet.alt
            assert all(item.height >= 1.9 for item in sheet.items if isinstance(item, Text))
            places = [at for item in sheet.items if isinstance(item, Stroke) for at in item.path]
            assert np.isfinite(places).all()


# ---------------------------------------------------------------- pages
def test_the_sentence_comes_first_under_the_worst_sign(kettle_hill):
    blocks = winter_pages(kettle_hill)
    head = next(block for block in blocks if isinstance(block, Headline))
    assert head.verdict is Verdict.FAILS
    assert "m³ of poplar" in head.text
    first = next(place for place, block in enumerate(blocks) if isinstance(block, Figure))
    found = next(place for place, block in enumerate(blocks) if isinstance(block, FindingBlock))
    assert blocks.index(head) < first < found


def test_a_document_text_and_data_of_both(larch_bank, kettle_hill):
    years = (larch_bank, kettle_hill)
    document = winter_document(years, revision="0000000", date="2026-11-25")
    assert document.mark == "calculation aid, not reviewed"
    assert len(winter_data("both", years)["vaults"]) == 2
    words = winter_text("both", years)
    assert "day room" in words
    assert "great room" in words


# ---------------------------------------------------------------- odd houses
def odd(year, **heat):
    house = replace(year.house, heat=replace(year.house.heat, **heat))
    return replace(year, house=house)


def test_nobody_heats(larch_bank):
    cold = odd(replace(larch_bank, ideal=larch_bank.free, stove=None), heated=Heated.NO)
    assert sentences(cold)[0].startswith("Nobody heats it")
    verdicts = {one.rule: one.verdict for one in findings_of(cold)}
    assert verdicts["stove-carries-the-coldest-day"] is Verdict.DOES_NOT_APPLY
    assert "room-gets-warm-enough" not in verdicts
    assert "wood-is-ready" not in verdicts
    assert "kWh" in texts(balance_sheet(cold))


def test_frost_only_says_whether_frost_stays_out(larch_bank):
    kept = {one.rule: one for one in findings_of(odd(larch_bank, heated=Heated.FROST_ONLY))}
    assert kept["frost-stays-out-of-the-room"].verdict is Verdict.HOLDS
    icy = replace(larch_bank, comfort=replace(larch_bank.comfort, coldest=-3.0))
    failed = {one.rule: one for one in findings_of(odd(icy, heated=Heated.FROST_ONLY))}
    assert failed["frost-stays-out-of-the-room"].verdict is Verdict.FAILS
    nobody = {
        one.rule: one for one in findings_of(odd(replace(larch_bank, stove=None), heated=Heated.FROST_ONLY))
    }
    assert nobody["frost-stays-out-of-the-room"].verdict is Verdict.UNKNOWN


def test_no_air_is_told(larch_bank):
    still = replace(larch_bank, room=larch_bank.room.losing("fresh air", 0.0))
    assert {one.rule: one.verdict for one in findings_of(still)}["fresh-air-is-counted"] is Verdict.FAILS
    assert "fresh-air-is-counted" not in {one.rule for one in findings_of(larch_bank)}


def test_left_alone_when_it_is_cold_already(larch_bank):
    cold = replace(larch_bank, alone=replace(larch_bank.alone, room=np.full(8760, 3.0)))
    assert any("it is cold at once and never freezes" in one for one in sentences(cold))


def test_a_reckoned_week_keeps_what_the_living_section_draws(larch_bank_on_the_prairie) -> None:
    year = larch_bank_on_the_prairie
    cold, warm = _week(year, deepest_frost(year)), _week(year, 30)
    surface = year.form.ground.finished
    far = [float(surface.level(x)) - z for line in cold.frost for x, z in line if abs(x) > 11.0]
    assert far
    assert max(far) == pytest.approx(cold.depth, rel=0.15)
    assert all(abs(x) <= 14.0 and z >= -6.0 for ring in cold.ice for x, z in ring)
    assert len(cold.isotherms) == len(ISOTHERMS)
    assert (warm.ice, warm.frost, warm.depth) == ((), (), 0.0)
