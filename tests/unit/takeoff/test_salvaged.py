"""Windows in hand: the best assignment, by trying every other, and why what stays out stays out."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import permutations
from pathlib import Path

import numpy as np
import pytest

from bermwright.app.climate import weather_of
from bermwright.app.opening import open_house
from bermwright.base.document import Heading, Table
from bermwright.base.drawing import Area
from bermwright.book.pages.cutting import window_pages
from bermwright.book.sheets.cutting import fit_sheet
from bermwright.formats.cut_lists.data import _fitting
from bermwright.house import OpeningKind, Panes, SafetyGlass, Salvaged, SalvagedKind
from bermwright.house.making.dome import DomeOpening
from bermwright.house.making.words import Head
from bermwright.takeoff.light import (
    assigned,
    door_leaf,
    door_leaves,
    fitted,
    holes_of,
    safety_asked,
    settings_of,
    wind_checks,
)

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"
ROWAN = open_house(EXAMPLE.parent / "domes" / "rowan-ring.toml").house
EMPTY, NEVER = 1e9, 1e12


@pytest.fixture(scope="module")
def house():
    return open_house(EXAMPLE).house


def window(name="w", width=1.0, height=1.0, **more):
    given = {"kind": SalvagedKind.WINDOW, "panes": Panes.DOUBLE, "opens": True, "glass": 0.004}
    return Salvaged(name=name, width=width, height=height, **{**given, **more})


def listed(house, *items):
    return replace(house, salvaged=items)


def match_of(fitting, name):
    return next(one for one in fitting.matches if one.opening.name == name)


@pytest.mark.parametrize("seed", range(6))
def test_the_assignment_is_the_best_of_all(seed):
    dice = np.random.default_rng(seed)  # noqa: TID251  (a test draws its own costs)
    costs = dice.uniform(-500, 500, (3, 4))
    costs[dice.uniform(size=costs.shape) < 0.3] = NEVER
    found = assigned(costs.tolist())
    got = sum(costs[row, found[row]] if row in found else EMPTY for row in range(3))
    places = [*range(4), None, None, None]
    least = min(
        sum(EMPTY if place is None else costs[row, place] for row, place in enumerate(way))
        for way in set(permutations(places, 3))
    )
    assert got == pytest.approx(least)
    assert len(set(found.values())) == len(found)


def test_what_fits_goes_in_and_less_loss_wins(house):
    fitting = fitted(
        listed(
            house,
            window("poor", 1.05, 1.05, panes=Panes.SINGLE),
            window("good", 1.05, 1.05, panes=Panes.TRIPLE),
        ),
        None,
    )
    assert match_of(fitting, "south window").pair.item.name == "good"
    assert fitting.left == ("poor",)
    assert not fitting.sun_counted
    assert fitting.remarks


def test_an_opening_larger_than_every_pane_stays_empty_with_the_way_out(house):
    fitting = fitted(listed(house, window("tiny", 0.3, 0.3)), None)
    match = match_of(fitting, "south window")
    assert match.pair is None
    assert any("have to be packed" in reason for reason in match.reasons)
    assert any(reason.startswith("Way out: make the hole 320 mm") for reason in match.reasons)


def test_a_window_that_is_too_wide_says_by_how_much(house):
    match = match_of(fitted(listed(house, window("wide", 1.12, 1.0)), None), "south window")
    assert match.pair is None
    assert any("40 mm too wide" in reason for reason in match.reasons)


def test_a_way_out_wants_a_window_that_opens(house):
    match = match_of(fitted(listed(house, window("fixed", 1.05, 1.05, opens=False)), None), "south window")
    assert match.pair is None
    assert any("does not open" in reason for reason in match.reasons)


def test_a_pane_may_lie_on_its_side_and_a_window_may_not(house):
    holes = tuple(
        replace(one, width=1.1, height=0.7, opens=False) if one.name == "back window" else one
        for one in house.openings
    )
    lying = replace(house, openings=holes)
    pane = window("pane", 0.6, 1.0, kind=SalvagedKind.PANE, opens=False)
    match = match_of(fitted(listed(lying, pane), None), "back window")
    assert match.pair.turned
    assert match_of(fitted(listed(lying, window("w", 0.6, 1.0)), None), "back window").pair is None


def test_glass_that_nobody_has_described_is_offered_last(house):
    both = listed(house, window("dark", 1.05, 1.05, panes=None), window("known", 1.05, 1.05))
    assert match_of(fitted(both, None), "south window").pair.item.name == "known"
    alone = match_of(fitted(listed(house, window("dark", 1.05, 1.05, panes=None)), None), "south window")
    assert not alone.pair.known
    assert any("not described" in reason for reason in alone.reasons)


def test_doors_go_into_doors(house):
    door = Salvaged(name="d", kind=SalvagedKind.DOOR, width=0.92, height=2.02, u_value=1.5, opens=True)
    fitting = fitted(listed(house, door), None)
    assert match_of(fitting, "front door").pair.item.name == "d"
    assert match_of(fitting, "south window").reasons == ("Nothing of this kind is in the list.",)


def test_without_a_list_there_is_nothing_to_fit(house):
    assert fitted(replace(house, salvaged=()), None) is None


def test_low_glass_and_glass_overhead_want_safety_glass(house):
    hole = next(one for one in house.openings if one.name == "back window")
    assert safety_asked(house, hole, window()) == ""
    assert safety_asked(house, replace(hole, sill=0.3), window())
    assert not safety_asked(house, replace(hole, sill=0.3), window(safety=SafetyGlass.LAMINATED))
    assert safety_asked(house, replace(hole, sill=None), window())
    assert safety_asked(house, replace(hole, kind=OpeningKind.ROOFLIGHT), window())


def test_glass_beside_a_door_wants_safety_glass(house):
    """IRC R308.4.2: within 24 in of a door where its lower edge is below 60 in."""
    hole = next(one for one in house.openings if one.name == "south window")
    door = next(one for one in house.openings if one.kind is OpeningKind.DOOR)
    edge = door.across + 0.5 * (door.width + hole.width)
    for apart, sill, asked in (
        (0.60, 1.50, True), (0.62, 1.50, False), (0.60, 1.53, False), (0.17, 0.85, True),
    ):  # fmt: skip
        moved = replace(hole, across=edge + apart, sill=sill)
        assert ("beside a door" in safety_asked(house, moved, window())) == asked
    back = next(one for one in house.openings if one.name == "back window")
    assert safety_asked(house, replace(back, across=door.across), window()) == ""


def test_glass_overhead_is_never_said_to_take_its_load(house):
    light = replace(
        next(one for one in house.openings if one.name == "back window"),
        kind=OpeningKind.ROOFLIGHT,
        opens=False,
    )
    pane = window("p", 0.8, 0.8, kind=SalvagedKind.PANE, safety=SafetyGlass.LAMINATED, glass=0.025)
    roof = replace(house, openings=(light,), salvaged=(pane,))
    (check,) = wind_checks(roof, fitted(roof, None))
    assert check.needed < check.given
    assert check.holds is None


def test_the_wind_asks_more_of_a_larger_pane_and_unknown_stays_unknown(house):
    fitting = fitted(listed(house, window("a", 1.05, 1.05), window("b", 0.86, 0.86, glass=None)), None)
    checks = {check.pair.item.name: check for check in wind_checks(house, fitting)}
    assert checks["a"].needed > checks["b"].needed
    assert checks["b"].holds is None
    calm = replace(house, site=replace(house.site, wind=None))
    assert all(check.holds is None for check in wind_checks(calm, fitting))


def test_a_bare_pane_stands_on_two_blocks_at_its_quarter_points(house):
    holes = tuple(replace(one, opens=False) for one in house.openings)
    pane = window("pane", 1.0, 0.95, kind=SalvagedKind.PANE, opens=False)
    fitting = fitted(listed(replace(house, openings=holes), pane), None)
    setting = settings_of(fitting)[0]
    assert setting.quarter == pytest.approx(0.25)
    assert setting.sealed
    assert setting.thickness == pytest.approx(0.004 + 0.004 + 0.012)
    assert setting.mass == pytest.approx(0.95 * 0.008 * 2500)


def test_a_wide_hole_is_drawn_clear_of_its_neighbour(house):
    wide = next(one for one in house.openings if one.name == "south window")
    holes = tuple(replace(wide, name=f"w{n}", width=w, height=0.5) for n, w in enumerate((3.2, 0.6)))
    fitting = fitted(listed(replace(house, openings=holes), window()), None)
    sheet = fit_sheet(fitting.matches)
    first, second = (one.path for one in sheet.items if isinstance(one, Area))
    assert max(x for x, _ in first) < min(x for x, _ in second)


def test_a_list_without_a_hole_says_so(house):
    assert fitted(replace(house, openings=()), None) is None
    said = list(window_pages(replace(house, openings=()), None, "metric"))
    assert "None of them is put anywhere" in said[1].text
    bare = replace(house, salvaged=(), openings=())
    assert list(window_pages(bare, None, "metric")) == []


def test_without_a_climate_no_year_of_heat_is_told(house):
    """0.95 m by 2.05 m less the packed strips, and the strips, by their losses: W/K, not kWh."""
    door = Salvaged(name="d", kind=SalvagedKind.DOOR, width=0.90, height=2.00, u_value=1.5, opens=True)
    bare = listed(house, door)
    fitting = fitted(bare, None)
    loss = 1.5 * 1.8 + 0.4 * (0.95 * 2.05 - 1.8)
    assert match_of(fitting, "front door").pair.loss == pytest.approx(loss)
    table = next(one for one in window_pages(bare, fitting, "metric") if isinstance(one, Table))
    assert table.head[-2:] == ("sun", "loss, W/K")
    assert next(row for row in table.rows if row[0] == "front door")[-2:] == ("not known", f"{loss:.1f}")
    said = _fitting(fitting)["holes"][0]
    assert (said["sun_kwh"], said["loss_kwh"]) == (None, None)
    assert said["loss_w_k"] == pytest.approx(loss)


def dome_with(*openings, axis=math.pi, **more):
    dome = replace(ROWAN.domes[0], openings=openings, axis=axis, crews=())
    return replace(ROWAN, domes=(dome,), site=replace(ROWAN.site, climate=None), **more)


def dome_window(name="w", at=0.0, **more):
    given = {"kind": OpeningKind.WINDOW, "width": 1.0, "sill": 0.9, "height": 1.0, "head": Head.FLAT}
    return DomeOpening(name=name, at=at, **{**given, **more})


def test_holes_of_a_dome_are_matched_too(house):
    """The window that faces south brings more than the same one to the north: axis and turn add up."""
    weather = weather_of(house, EXAMPLE.parent)
    dome = dome_with(
        dome_window("zero"), dome_window("half turn", at=math.pi), salvaged=(window("a", 0.9, 0.9, count=2),)
    )
    got = {one.opening.name: one.pair for one in fitted(dome, weather).matches}
    assert got["zero"].gain > 1.5 * got["half turn"].gain
    turned = replace(dome, domes=(replace(dome.domes[0], axis=0.0),))
    back = {one.opening.name: one.pair for one in fitted(turned, weather).matches}
    assert back["zero"].gain == pytest.approx(got["half turn"].gain, rel=1e-9)


def test_under_a_round_head_only_the_straight_part_counts():
    round_one = dome_window(head=Head.ROUND, height=1.2)
    (hole,) = holes_of(dome_with(round_one))
    assert (hole.width, hole.height) == pytest.approx((1.0, 0.7))
    assert holes_of(dome_with(dome_window(head=Head.ROUND, height=0.55))) == ()
    low = dome_with(round_one, salvaged=(window("tall", 0.9, 0.9),))
    match = fitted(low, None).matches[0]
    assert match.pair is None
    assert any("too high" in reason for reason in match.reasons)


def test_a_dome_without_its_axis_counts_no_window():
    unknown = dome_with(dome_window(), axis=None, salvaged=(window("a", 0.9, 0.9),))
    (match,) = fitted(unknown, None).matches
    assert not match.pair.known
    assert any("Which way it looks is not said" in reason for reason in match.reasons)


def test_a_door_has_its_leaf_also_without_a_list(house):
    said = [
        one for one in window_pages(replace(house, salvaged=()), None, "metric") if isinstance(one, Heading)
    ]
    assert [one.text for one in said] == ["An insulated leaf for front door"]


def test_a_thicker_core_loses_less_and_weighs_more(house):
    leaves = door_leaves(house)[0]
    assert [leaf.u for leaf in leaves] == sorted((leaf.u for leaf in leaves), reverse=True)
    assert [leaf.mass for leaf in leaves] == sorted(leaf.mass for leaf in leaves)


def test_a_hole_as_narrow_as_its_frame_has_no_leaf(house):
    door = next(one for one in house.openings if one.kind is OpeningKind.DOOR)
    for width, height, leaves in ((0.26, 2.0, 1), (0.24, 2.0, 0), (0.9, 0.31, 1), (0.9, 0.28, 0)):
        small = replace(house, openings=(replace(door, width=width, height=height),))
        assert len(door_leaves(small)) == leaves


def test_a_leaf_lies_between_core_alone_and_timber_alone(house):
    door = next(one for one in house.openings if one.kind is OpeningKind.DOOR)
    leaf = door_leaf(door, 0.12)
    skins = 0.13 + 0.04 + 2 * 0.02 / 0.13
    assert 1 / (skins + 0.12 / 0.04) < leaf.u < 1 / (skins + 0.12 / 0.13)
    assert not math.isnan(leaf.pull)
