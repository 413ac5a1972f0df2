"""Boards and post outside every dig and the mound, also for houses of several parts and on a hillside."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import shapely

from bermwright.form import vault_form
from bermwright.form.setout import SurveyPoint, setting_out, surveyed, tape_of
from bermwright.formats.house_file import load
from bermwright.house import Survey
from bermwright.house.parts.walls import Buttress

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"


def house_of(name="larch-bank", **site):
    house = load(EXAMPLES / f"{name}.toml").house
    return replace(house, site=replace(house.site, **site))


def set_out(house, number=0, **options):
    vault = house.vaults[number]
    return setting_out(house, vault, vault_form(house, vault), **options)


def with_annex(house, **place):
    first = house.vaults[0]
    annex = replace(first, name="annex", span=3.0, rise=1.2, length=4.0, **place)
    return replace(house, vaults=(first, annex))


PLACES = [
    {"axis": math.radians(75.0), "east": 9.0, "north": 3.0},
    {"axis": math.radians(165.0), "east": 2.0, "north": -8.0},
    {"axis": math.radians(20.0), "east": -7.0, "north": 2.0},
    {"axis": math.radians(75.0), "east": 30.0, "north": 0.0},
]


def on_site(vault, spots):
    """Places along and across a vault, to the east and north."""
    u, v = np.array(spots).T
    u = u - 0.5 * vault.length
    sine, cosine = math.sin(vault.axis), math.cos(vault.axis)
    return np.column_stack(
        [(vault.east or 0.0) + u * sine + v * cosine, (vault.north or 0.0) + u * cosine - v * sine]
    )


@pytest.mark.parametrize("place", PLACES)
def test_no_board_stands_in_the_dig_of_another_part(place):
    house = with_annex(house_of(), **place)
    outs = [set_out(house, number) for number in (0, 1)]
    digs = [
        shapely.Polygon(on_site(vault, out.dig.outline))
        for vault, out in zip(house.vaults, outs, strict=True)
    ]
    for vault, out in zip(house.vaults, outs, strict=True):
        for board in out.plan.boards:
            line = shapely.LineString(on_site(vault, [board.start, board.end]))
            assert min(line.distance(dig) for dig in digs) >= out.settings.board_distance - 1e-6, board.name
        post = shapely.Point(on_site(vault, [out.plan.peg("H").at])[0])
        assert min(post.distance(dig) for dig in digs) >= 0.5
    shared = digs[0].intersection(digs[1]).area
    assert any("share" in said for said in outs[0].open) == (shared > 0.05)


def test_a_far_part_moves_nothing():
    house = house_of()
    alone, beside = set_out(house), set_out(with_annex(house, **PLACES[3]))
    assert beside.plan.low == alone.plan.low
    assert beside.plan.high == alone.plan.high


@pytest.mark.parametrize("name", ["larch-bank", "sedge-bank", "kettle-hill", "alder-loft"])
def test_the_post_of_the_datum_is_not_buried_by_the_mound_or_a_heap(name):
    out = set_out(house_of(name))
    post = out.plan.peg("H").at
    assert not out.mound.covers(post, 0.4)
    for heap in out.heaps:
        away = np.abs(np.array(post) - heap.middle) - 0.5 * np.array([heap.length, heap.width])
        assert away.max() > 0.4
    ring = shapely.box(*out.plan.low, *out.plan.high)
    assert ring.distance(shapely.Point(post)) > 0.5


def test_under_another_part_of_the_house_the_hill_is_higher():
    slope, faces = math.radians(9.0), math.radians(255.0)
    house = with_annex(house_of("sedge-bank"), **PLACES[0])
    first, annex = (set_out(house, number) for number in (0, 1))
    spots = [(0.0, -1.0), (3.0, 2.0)]
    for out, vault in ((first, house.vaults[0]), (annex, house.vaults[1])):
        for spot, (east, north) in zip(spots, on_site(vault, spots), strict=True):
            down = east * math.sin(faces) + north * math.cos(faces)
            assert float(out.surface.level(*spot)) == pytest.approx(0.45 - math.tan(slope) * down, abs=1e-9)
    natural = vault_form(house, house.vaults[1]).ground.natural
    assert float(natural.level(0.0)) == pytest.approx(float(annex.surface.level(2.0, 0.0)))


@pytest.mark.parametrize("bend", [0.0, 0.01])
def test_a_survey_lies_where_each_part_stands(bend):
    house = with_annex(house_of("sedge-bank"), **PLACES[0])
    house = replace(house, survey=Survey(points="p.csv", middle="M"))

    def height(east, north):
        return 50.0 + 0.1 * east - 0.05 * north + bend * east * east

    points = tuple(
        SurveyPoint(
            name="M" if (x, y) == (0, 0) else f"{x} {y}", east=x, north=y, height=height(x, y), line=2
        )
        for x in (-12, -6, 0, 6, 12)
        for y in (-12, 0, 12)
    )
    for number, vault in enumerate(house.vaults):
        found = surveyed(house, vault, points, name="p.csv")
        for spot in ((0.0, 0.0), (3.0, -2.0)):
            (east, north), *_ = on_site(vault, [spot])
            over = height(east, north) - height(0.0, 0.0)
            assert float(found.surface.level(*spot)) == pytest.approx(0.45 + over, abs=1e-6), number


def test_boards_outside_the_surveyed_points_are_named():
    house = replace(house_of("sedge-bank"), survey=Survey(points="p.csv", middle="M"))
    vault = house.vaults[0]

    def out(reach):
        spots = [(0, 0), (reach, 0), (0, reach), (-reach, 0), (0, -reach)]
        points = tuple(
            SurveyPoint(name="M" if at == 0 else f"P{at}", east=x, north=y, height=0.1 * x, line=2 + at)
            for at, (x, y) in enumerate(spots)
        )
        found = surveyed(house, vault, points, name="p.csv")
        return setting_out(house, vault, vault_form(house, vault), found)

    assert any("does not reach" in said and "LF" in said for said in out(4.0).open)
    assert not any("does not reach" in said for said in out(40.0).open)


def test_ground_lower_than_the_footing_is_said_at_its_corners():
    out = set_out(house_of("sedge-bank", slope=math.radians(15.0), floor=0.3))
    said = [one for one in out.open if "would stand on fill" in one]
    assert ["At A and B" in one for one in said] == [True, True]
    assert "1.05 m lower than the bottom of the dig" in said[0]
    assert not any("would stand on fill" in one for one in set_out(house_of("sedge-bank")).open)


def test_steps_that_lap_by_more_than_they_are_long_are_told():
    steep = set_out(house_of("sedge-bank", slope=math.radians(30.0)))
    assert not steep.heights.steps[0].fits
    assert any("too steep for steps" in said for said in steep.open)
    assert set_out(house_of("sedge-bank")).heights.steps[0].fits


def test_buttresses_have_a_string_and_room():
    house = house_of()
    stays = Buttress(name="stays", vault="day room", spacing=1.5, width=0.5, depth=1.6)
    plain, out = set_out(house), set_out(replace(house, buttresses=(stays,)))
    wall = next(line.place for line in out.plan.strings if line.words == "right wall, outside")
    face = next(line.place for line in out.plan.strings if line.words == "right buttress, outside")
    assert face == pytest.approx(wall + 1.6)
    assert out.dig.pit.high[1] == pytest.approx(face + out.settings.working_space)
    assert out.plan.high[1] > plain.plan.high[1]
    inside = set_out(replace(house, buttresses=(replace(stays, inside=True),)))
    assert inside.plan == plain.plan


def test_a_foot_tape_has_boards_and_mark_at_whole_inches():
    out = set_out(house_of("sedge-bank"), tape=tape_of("imperial"))
    inches = np.array([*out.plan.low, *out.plan.high, out.heights.datum]) / 0.0254
    assert np.abs(inches - np.round(inches)).max() < 1e-6
    assert out.heights.datum / 0.3048 == pytest.approx(round(out.heights.datum / 0.3048))
    tops = np.array([board.top for board in out.plan.boards]) / 0.0254
    assert np.abs(tops - np.round(tops)).max() < 1e-3
