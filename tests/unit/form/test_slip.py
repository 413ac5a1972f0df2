"""Forms that climb along a wall: pressure, bending and ties by another way, counts, and what is not known."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.document import Para, Table
from bermwright.base.drawing import Text
from bermwright.book.pages.forms import forms_blocks
from bermwright.book.sheets.forms import slip_sheet
from bermwright.book.sheets.paper import boxes_of
from bermwright.form.developed import forms_of
from bermwright.formats.house_file import load
from bermwright.formats.making import forms_data
from bermwright.house import Board, contradictions, questions
from bermwright.house.making.slip import Filling, SlipForm

LARCH = load(Path(__file__).parents[3] / "examples" / "larch-bank.toml").house
FORM = SlipForm(
    name="wall form", wall="foot walls", filling=Filling.WET, lift=0.6, length=2.0, boards=0.027,
    stud=Board(0.045, 0.095), stud_spacing=0.5, unit_weight=24e3, timber="C18", tie_holds=15e3,
)  # fmt: skip


def house_with(**change):
    return replace(LARCH, slip_forms=(replace(FORM, **change),))


def plan_of(**change):
    (plan,) = forms_of(house_with(**change)).slips
    return plan


def asked(plan, what):
    return next(one for one in plan.asked if one.what == what)


def test_fresh_fill_presses_as_water_of_its_weight():
    assert plan_of().pressure == pytest.approx(24e3 * 0.6)


def test_a_stud_bends_as_the_sum_of_thin_slices_says():
    """Every slice of the load on a beam between both ties, added up."""
    plan = plan_of()
    below, span = 0.05, 0.05 + 0.6 + 0.10
    z = np.linspace(0.0, 0.6, 60001)
    load = 1.5 * 24e3 * (0.6 - z) * 0.5
    at, step = below + z, z[1] - z[0]
    force = np.trapezoid(load, z)
    head = np.trapezoid(load * at, z) / span
    foot = force - head
    shear = foot - np.concatenate([[0.0], np.cumsum(0.5 * (load[1:] + load[:-1]) * step)])
    moment = foot * below + np.max(np.concatenate([[0.0], np.cumsum(0.5 * (shear[1:] + shear[:-1]) * step)]))
    assert asked(plan, "ties pull").demand == pytest.approx(max(foot, head), rel=1e-6)
    assert asked(plan, "studs bend").demand == pytest.approx(moment / (0.045 * 0.095**2 / 6.0), rel=1e-6)


def test_boards_bend_as_a_strip_over_three_bays():
    plan = plan_of()
    moment = 0.1 * 1.5 * 14.4e3 * 0.5**2
    assert asked(plan, "boards bend").demand == pytest.approx(moment / (0.027**2 / 6.0))
    assert asked(plan, "boards bend").capacity == pytest.approx(0.7 * 18e6 / 1.3)
    sag = 0.0068842 * 14.4e3 * 0.5**4 / (9e9 * 0.027**3 / 12.0)
    assert asked(plan, "boards go out").demand == pytest.approx(sag, rel=1e-4)
    assert asked(plan, "boards go out").capacity == pytest.approx(0.5 / 300.0)
    two = plan_of(stud_spacing=1.0)
    assert asked(two, "boards bend").demand == pytest.approx(0.125 * 1.5 * 14.4e3 / (0.027**2 / 6.0))


def test_the_best_lift_is_where_the_first_share_is_one():
    plan = plan_of()
    edge = plan_of(lift=plan.best_lift)
    assert max(one.share for one in edge.asked) == pytest.approx(1.0, abs=1e-6)
    assert plan.best_lift > 0.6
    weak = plan_of(boards=0.018)
    assert weak.best_lift < 0.6
    assert any(one.share > 1.0 for one in weak.asked)
    words = " ".join(
        one.text
        for one in forms_blocks(forms_of(house_with(boards=0.018)), "metric")
        if isinstance(one, Para)
    )
    assert "Too weak" in words


def test_panels_lifts_and_settings_are_counted():
    plan = plan_of()
    # The wall goes from -0.6 m to the springing at 1.1 m, along 7.5 m, on both sides.
    assert (plan.lifts, plan.places, plan.settings) == (3, 8, 24)
    assert plan.studs == 5
    assert plan.spacing * (plan.studs - 1) + 0.045 == pytest.approx(2.0)
    assert plan.spacing <= 0.5
    assert plan.ties == 10
    assert plan.height == pytest.approx(0.1 + 0.6 + 0.1 + 0.0225)
    wood = 2.0 * plan.height * 0.027 + 5 * plan.height * 0.045 * 0.095
    assert plan.mass == pytest.approx(380.0 * wood)
    assert plan.people == 2


@pytest.mark.parametrize("missing", ["unit_weight", "timber", "tie_holds"])
def test_what_is_not_known_never_holds_and_is_asked_for(missing):
    house = house_with(**{missing: None})
    (plan,) = forms_of(house).slips
    assert any(math.isnan(one.share) for one in plan.asked)
    assert math.isnan(plan.best_lift)
    assert any(one.place == f'slip_form "wall form".{missing}' for one in questions(house))
    table = [one for one in forms_blocks(forms_of(house), "metric") if isinstance(one, Table)]
    rows = next(one.rows for one in table if one.head[-1] == "verdict")
    assert any(row[-1] == "not known" for row in rows)


@pytest.mark.parametrize(
    ("boards", "spacing", "share"), [(0.02, 0.75, 1.0), (0.03, 0.8, 0.8), (0.02, 0.9, 1.2)]
)
def test_rammed_earth_keeps_to_published_spacing(boards, spacing, share):
    plan = plan_of(filling=Filling.RAMMED, boards=boards, stud_spacing=spacing)
    (one,) = plan.asked
    assert one.share == pytest.approx(share)
    assert math.isnan(plan.pressure)


def test_boards_thinner_than_practice_names_are_not_known():
    (one,) = plan_of(filling=Filling.RAMMED, boards=0.015).asked
    assert math.isnan(one.share)


def test_a_wall_that_is_not_there_and_studs_too_far_apart_are_refused():
    said = " ".join(
        str(one) for one in contradictions(house_with(wall="no wall", stud_spacing=1.5, length=1.4))
    )
    assert "no [[wall]] of this file" in said
    assert "leaves no second stud" in said


def test_a_wall_without_its_thickness_waits():
    walls = tuple(replace(one, thickness=None) for one in LARCH.walls)
    found = forms_of(replace(house_with(), walls=walls))
    assert found.slips == ()
    assert any(one.place == "wall.thickness" for one in found.waiting)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize(("lift", "length"), [(0.15, 0.6), (0.6, 2.0), (1.2, 4.0)])
def test_the_drawing_writes_nothing_over(lift, length, system):
    sheet = slip_sheet(plan_of(lift=lift, length=length, stud_spacing=0.4), system=system)
    rooms = [boxes_of(one, margin=-0.15) for one in sheet.items if isinstance(one, Text)]
    for at, one in enumerate(rooms):
        for a in one:
            assert a[0] > -1.0
            assert a[2] < sheet.width + 1.0
            for b in (box for other in rooms[:at] for box in other):
                assert not (a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3])


def test_json_holds_the_form():
    (one,) = forms_data("x", forms_of(house_with()))["slip_forms"]
    assert one["settings"] == 24
    assert one["pressure_Pa"] == pytest.approx(14400.0)
    assert {row["what"] for row in one["asked"]} == {
        "boards bend",
        "boards go out",
        "studs bend",
        "ties pull",
    }
