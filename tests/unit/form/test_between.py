"""Parts of a house set out to each other, from the file and by hand."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

import pytest

from bermwright.app.opening import open_house
from bermwright.book.sheets.setout import between_sheet
from bermwright.form.setout.parts import parts_between
from bermwright.formats.exchange.standing import stands
from bermwright.house.making.sheets import Crossing

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"


@pytest.fixture(scope="module")
def larch():
    return open_house(EXAMPLES / "larch-bank.toml").house


def with_store(house, **place):
    """A second vault that runs to the north, ten metres east of the first, which runs to the north too."""
    first = replace(house.vaults[0], axis=0.0)
    store = replace(first, name="store", **{"axis": 0.0, "east": 10.0, "north": 0.0, **place})
    return replace(house, vaults=(first, store))


def lengths(between):
    return {one.between: (round(one.length, 6), one.words) for one in between.lengths}


def test_one_part_stands_for_itself(larch):
    assert parts_between(larch) is None


def test_baselines_run_straight_and_diagonals_across(larch):
    house = with_store(larch)
    span, length = house.vaults[0].span, house.vaults[0].length
    gap = 10.0 - span
    found = lengths(parts_between(house))
    # Right feet of the first (B, C) to left feet of the second (A, D).
    assert found["day room B – store A"] == (round(gap, 6), "baseline")
    assert found["day room C – store D"] == (round(gap, 6), "baseline")
    across = round(math.hypot(gap, length), 6)
    assert found["day room B – store D"] == (across, "diagonal")
    assert found["day room C – store A"] == (across, "diagonal")


def test_a_turned_vault_has_its_pegs_where_its_axis_says(larch):
    house = with_store(larch, axis=0.5 * math.pi, north=3.0)
    store = parts_between(house).parts[1]
    pegs = dict(store.pegs)
    half, long = 0.5 * house.vaults[0].span, 0.5 * house.vaults[0].length
    # Walking to the east the front rib lies to the west, its left foot to the north.
    assert pegs["A"] == pytest.approx((10.0 - long, 3.0 + half))
    assert pegs["C"] == pytest.approx((10.0 + long, 3.0 - half))


def test_a_dome_is_fixed_by_two_lengths_to_its_middle(larch):
    rowan = open_house(EXAMPLES / "domes" / "rowan-ring.toml").house
    dome = replace(rowan.domes[0], east=-7.0, north=2.0)
    house = replace(larch, vaults=(replace(larch.vaults[0], axis=0.0),), domes=(dome,))
    found = parts_between(house)
    assert [one.words for one in found.lengths] == ["baseline", "baseline"]
    corner = dict(found.parts[0].pegs)["D"]
    expected = math.dist(corner, (-7.0, 2.0))
    assert lengths(found)["day room D – round room M"][0] == pytest.approx(expected, abs=1e-6)
    sheet = between_sheet(found)
    assert sheet.view.scale in {50.0, 100.0, 200.0}


def test_what_is_not_said_is_asked_and_nothing_is_guessed(larch):
    found = parts_between(with_store(larch, east=None, axis=None))
    assert found.parts == found.lengths == ()
    assert '"store": vault.east, vault.axis' in found.open[0]


def test_parts_on_the_same_ground_are_told_unless_they_cross(larch):
    house = with_store(larch, east=3.0)
    assert "share" in parts_between(house).open[0]
    meets = Crossing(name="passage", of="store", into="day room")
    assert parts_between(replace(house, crossings=(meets,))).open == ()


def test_a_model_stands_as_the_pegs_do(larch):
    house = with_store(larch, axis=0.5 * math.pi, north=3.0)
    between = parts_between(house)
    length = house.vaults[0].length
    parts = [
        SimpleNamespace(axis=vault.axis, middle=(vault.east or 0.0, vault.north or 0.0), length=length)
        for vault in house.vaults
    ]
    stand = stands(parts)[1]
    half = 0.5 * house.vaults[0].span
    for name, (x, y) in {"A": (-half, 0.0), "B": (half, 0.0), "C": (half, length)}.items():
        turned = (x * math.cos(stand.turn) - y * math.sin(stand.turn) + stand.x,
                  x * math.sin(stand.turn) + y * math.cos(stand.turn) + stand.y)  # fmt: skip
        # The first vault runs to the north: its x is east, its y counts from its front end.
        assert dict(between.parts[1].pegs)[name] == pytest.approx((turned[0], turned[1] - 0.5 * length))
