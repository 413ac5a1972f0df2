"""Courses, pivots, rings and corrections at the ends of their ranges, and by a second route."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import compass, curves

QUARTER = np.linspace(0.0, 0.5 * np.pi, 4001)
BALL = (2.0 * np.sin(QUARTER), 2.0 * np.cos(QUARTER))


def half(curve):
    top = int(np.argmax(curve.z))
    return curve.z[top:][::-1], np.maximum(curve.x[top:][::-1], 0.0)


LANCET = half(curves.arc_chain(curves.pointed_arcs(4.2, 4.2), points=8000))


def test_the_table_is_the_closed_form_of_a_pointed_dome():
    courses = compass.level_courses(*LANCET, 0.125)
    exact = curves.pointed_half_width(courses.height, 5.25, 3.15)
    assert np.max(np.abs(courses.radius - exact)) < 1e-5
    chain = compass.chain_from_pivot(courses.height, courses.radius, 0.0)
    assert chain == pytest.approx(curves.centre_chain(courses.height, exact), abs=1e-5)


def test_the_two_chains_meet_in_every_course():
    """The rod from its pivot and the chain from the axis reach one point: two routes to it."""
    courses = compass.level_courses(*LANCET, 0.125)
    rod = np.hypot(courses.radius + 3.15, courses.height)
    assert np.max(np.abs(rod - 5.25)) < 1e-5


@pytest.mark.parametrize("course", [0.05, 0.125, 0.333])
def test_tilted_courses_lie_square_to_the_face(course):
    courses = compass.tilted_courses(*BALL, course)
    assert courses.height == pytest.approx(2.0 * np.sin(courses.tilt), abs=1e-3)
    assert courses.radius == pytest.approx(2.0 * np.cos(courses.tilt), abs=1e-3)
    assert np.diff(courses.tilt) == pytest.approx(course / 2.0, abs=1e-3)


def test_a_profile_that_overhangs_is_refused_with_its_height():
    with pytest.raises(OutOfRangeError, match=r"at a height of 1 m: it overhangs"):
        compass.level_courses([0.0, 1.0, 0.9, 2.0], [2.0, 1.8, 1.7, 0.0], 0.1)


@pytest.mark.parametrize("course", [0.0, -0.1, 2.5, np.nan])
def test_no_course_of_a_height_that_cannot_be(course):
    with pytest.raises(OutOfRangeError, match="height of a course"):
        compass.level_courses(*BALL, course)


@pytest.mark.parametrize(("offset", "clear"), [(2.0999, True), (2.1, False), (2.5, False), (2.5001, True)])
def test_a_pivot_is_free_up_to_the_faces(offset, clear):
    assert (compass.pivot_clearance(offset, 2.1, 0.4) > 0.0) == clear


def test_a_rod_from_outside_passes_the_wall_on_a_straight_line():
    level = float(compass.rod_level_at_wall(3.0, 1.2, 3.0, 2.1))
    assert level == pytest.approx(np.interp(-2.1, [-3.0, 1.2], [0.0, 3.0]))


def test_openings_leave_the_ring_that_is_measured_along_it():
    left = float(compass.free_length(2.0, [0.9, 0.6]))
    turn = np.linspace(0.0, 2.0 * np.pi, 400001)
    x, y = 2.0 * np.sin(turn), 2.0 * np.cos(turn)
    inside = ((np.abs(x) < 0.45) & (y > 0.0)) | ((np.abs(x) < 0.3) & (y < 0.0))
    assert left == pytest.approx(2.0 * 2.0 * np.pi * np.mean(~inside), abs=1e-3)


def test_an_opening_wider_than_the_ring_is_refused():
    with pytest.raises(OutOfRangeError, match="width of the opening"):
        compass.opening_angle(0.4, 0.9)


def test_shares_bring_all_crews_to_the_end_together():
    rates = np.array([2.4, 2.0, 1.1])
    hours = compass.work_shares(rates) * 30.0 / rates
    assert hours == pytest.approx(hours[0])


def test_the_faster_crew_is_a_course_ahead_where_both_clocks_say_so():
    lengths = 6.0 - 0.1 * np.arange(30.0)
    number = compass.course_of_lead(lengths, 3.0, 2.4, 1)
    done = np.concatenate([[0.0], np.cumsum(lengths)])
    assert done[number] / 3.0 <= done[number - 1] / 2.4
    assert done[number - 1] / 3.0 > done[number - 2] / 2.4


def test_bricks_fill_the_ring_with_their_joints():
    length = 2.0 * np.pi * 1.3
    count = compass.bricks_in_ring(length, 0.24, 0.005)
    joint = compass.ring_joint(length, 0.24, count)
    assert count * (0.24 + joint) == pytest.approx(length)
    outside = compass.ring_joint(2.0 * np.pi * (1.3 + 0.115), 0.24, count)
    assert compass.brick_taper(0.115, 0.0, count) == pytest.approx(outside - joint)


def test_a_planted_shift_and_oval_come_back():
    turn = np.radians(np.arange(0.0, 360.0, 20.0))
    radius = 1.5 + 0.03 * np.cos(turn - 2.0) + 0.012 * np.sin(2.0 * turn)
    fit = compass.fit_ring(turn, radius)
    assert fit.radius == pytest.approx(1.5)
    assert (fit.shift, fit.toward) == pytest.approx((0.03, 2.0))
    assert fit.oval == pytest.approx(0.012)
    assert fit.spread == pytest.approx(0.0, abs=1e-12)


def test_readings_on_one_side_tell_no_middle():
    half, more = (np.radians([10.0, 50.0, 100.0, last]) for last in (189.8, 190.2))
    for measure in (compass.fit_ring, compass.ring_roundness):
        with pytest.raises(OutOfRangeError, match="angle between neighbouring readings"):
            measure(half, [2.0] * 4)
    assert compass.fit_ring(more, [2.0] * 4).radius == pytest.approx(2.0)


@pytest.mark.parametrize("same", [0.0, 2.0 * np.pi, 5e-7])
def test_two_readings_in_one_direction_are_refused(same):
    """They would leave the roundness there no number, which a comparison takes for round."""
    turn = [0.0, 0.5 * np.pi, np.pi, 1.5 * np.pi, same]
    for measure in (compass.fit_ring, compass.ring_roundness):
        with pytest.raises(OutOfRangeError, match="angle between neighbouring readings"):
            measure(turn, [2.0] * 5)


def test_a_dent_is_less_round_than_a_straight_stretch():
    turn = np.radians(np.arange(0.0, 360.0, 30.0))
    radius = np.full(12, 2.0)
    radius[4] = 1.6
    found = compass.ring_roundness(turn, radius)
    assert found.flattest == 4
    assert found.share[4] < 0.0


def test_the_way_back_keeps_every_limit():
    drawn = compass.level_courses(*LANCET, 0.125).radius
    for built in (drawn[5] + 0.06, drawn[5] - 0.05):
        led = compass.recover(drawn[5:], float(built), 0.075, 0.015)
        step, own = -np.diff(led), -np.diff(drawn[5:])
        assert np.all(step >= -1e-12)
        assert np.all(step <= np.maximum(own, 0.075) + 1e-12)
        assert np.all(np.abs(step - own) <= 0.015 + 1e-12)
        assert led[-1] == pytest.approx(drawn[-1])


def test_an_error_near_the_top_cannot_be_made_good():
    drawn = compass.level_courses(*LANCET, 0.125).radius
    led = compass.recover(drawn[-3:], float(drawn[-3] + 0.2), 0.075, 0.015)
    assert led[-1] - drawn[-1] > 0.1
