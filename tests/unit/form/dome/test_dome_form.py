"""A dome's courses, pieces, crews and pivots, and what is refused."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.errors import BermwrightError
from bermwright.form.dome import (
    DomeProblemError,
    DomeUnknownError,
    PivotPlace,
    Reading,
    correct,
    dome_form,
    inner_face,
)
from bermwright.form.dome.rings import hole_width
from bermwright.formats.house_file import load
from bermwright.handbook.compass import free_length
from bermwright.house.making.words import DomeCurve, DomeUnit, Head, Laid
from bermwright.rules.domes.standing import DOMES_STAND
from bermwright.rules.nouns import Whole

EXAMPLE = Path(__file__).parents[4] / "examples" / "domes" / "rowan-ring.toml"
HOUSE = load(EXAMPLE).house
DOME = HOUSE.domes[0]
PLAIN = replace(DOME, openings=(), crews=())


@pytest.fixture(scope="module")
def form():
    return dome_form(DOME)


def test_the_example_is_the_table_of_the_trade(form):
    at = {round(course.height, 3): course for course in form.courses}
    rows = {0.5: (2.076, 0.010, 2.135), 1.0: (2.004, 0.023, 2.240), 3.0: (1.158, 0.084, 3.216),
            4.0: (0.250, 0.142, 4.008)}  # fmt: skip
    for height, (radius, step, chain) in rows.items():
        course = at[height]
        assert course.radius == pytest.approx(radius, abs=5e-4)
        assert course.step == pytest.approx(step, abs=5e-4)
        assert course.chain + DOME.hook == pytest.approx(chain, abs=5e-4)
    assert form.volume == pytest.approx(33.166, abs=2e-3)
    assert form.surface == pytest.approx(42.191, abs=2e-3)
    assert form.first_over.height == pytest.approx(2.875)


def test_without_openings_the_tube_is_that_of_the_trade():
    form = dome_form(PLAIN)
    assert sum(course.length for course in form.courses) == pytest.approx(355.0, abs=0.5)


def test_pieces_and_openings_fill_every_ring(form):
    for course in form.courses:
        middle = course.radius + 0.5 * DOME.thickness
        low = DOME.springing + course.height
        widths = [hole_width(one, low, low + form.course_height) for one in DOME.openings]
        assert course.length == pytest.approx(float(free_length(middle, widths)), abs=1e-6)


def test_crews_share_every_course_and_their_ends_do_not_lie_over_each_other(form):
    for course in form.courses:
        assert sum(part.length for part in course.crews) == pytest.approx(course.length)
        first, second = course.crews
        assert first.end == pytest.approx(second.start, abs=1e-6) or len(course.pieces) > 1
    for before, after in pairwise(form.courses):
        turn = abs((before.crews[0].end - after.crews[0].end + np.pi) % (2.0 * np.pi) - np.pi)
        assert turn * before.middle > 0.3 - 1e-5


def test_over_whole_rings_both_crews_come_to_their_ends_together():
    """Where ends can be kept apart by the start alone, nobody waits; elsewhere for less than half an hour."""
    form = dome_form(DOME)
    for course in form.courses:
        first, second = (part.seconds for part in course.crews)
        assert abs(first - second) < 1800.0
        if course.pieces[0].whole and course.number > 19:
            assert first == pytest.approx(second)


def test_whole_rings_begin_a_lap_farther_round(form):
    rings = [course for course in form.courses if course.pieces[0].whole]
    for before, after in pairwise(rings):
        turn = (after.start - before.start) % (2.0 * np.pi)
        assert turn * (before.radius + 0.19) == pytest.approx(0.30, abs=1e-6)


@pytest.mark.parametrize(
    ("offset", "place"),
    [(0.0, PivotPlace.AXIS), (1.0, PivotPlace.ROOM), (2.2, PivotPlace.WALL), (3.15, PivotPlace.OUTSIDE)],
)
def test_where_the_pivot_comes_to_lie(offset, place):
    dome = replace(PLAIN, rise=None, centre_offset=offset)
    (rod,) = dome_form(dome).settings
    assert rod.place is place
    assert rod.offset == pytest.approx(offset, abs=1e-9)


def test_a_pivot_in_the_wall_is_refused_and_the_table_stays():
    form = dome_form(replace(PLAIN, rise=None, centre_offset=2.2))
    assert "is refused" in form.remarks[0]
    assert len(form.courses) > 20


def test_a_rod_from_outside_reaches_as_far_as_the_doorway_lets_it():
    """The rod rises inwards: what stops it is the inner edge of the head, where the face has leant in."""
    low_door = replace(DOME.openings[0], height=1.6)
    (rod,) = dome_form(replace(DOME, openings=(low_door,), crews=())).settings
    assert (rod.door, rod.through_from) == ("door", 0.0)
    assert 3.0 < rod.through_door < 4.1
    radius, edge = (float(np.interp(height, *_profile(PLAIN))) for height in (rod.through_door, 1.6))
    assert edge == pytest.approx(np.sqrt(5.25**2 - 1.6**2) - 3.15, abs=1e-5)
    assert rod.through_door * (3.15 - edge) / (3.15 + radius) == pytest.approx(1.6, abs=2e-3)


def test_a_rod_from_outside_goes_over_a_sill_or_takes_the_door():
    window = replace(DOME.openings[1], sill=0.6, height=1.7, width=0.9)
    (alone,) = dome_form(replace(DOME, openings=(window,), crews=())).settings
    radius, edge = (float(np.interp(height, *_profile(PLAIN))) for height in (alone.through_from, 0.6))
    reach = alone.through_from * (3.15 - edge - DOME.thickness) / (3.15 + radius)
    assert reach == pytest.approx(0.6, abs=2e-3)
    (both,) = dome_form(replace(DOME, openings=(window, DOME.openings[0]), crews=())).settings
    assert (both.door, both.through_from) == ("door", 0.0)


def test_without_a_way_in_a_rod_from_outside_has_none():
    (rod,) = dome_form(PLAIN).settings
    assert (rod.place, rod.door, rod.through_door) == (PivotPlace.OUTSIDE, "", 0.0)


def _profile(dome):
    face = inner_face(dome)
    return face.height, face.radius


def test_every_rod_of_an_egg_draws_its_stretch_of_the_face():
    egg = replace(PLAIN, curve=DomeCurve.EGG, rise=2.6, flank_radius=3.4, crown_radius=1.2)
    form = dome_form(egg)
    assert len(form.settings) == 3
    for rod in form.settings:
        heights = np.linspace(rod.low + 1e-3, rod.high - 1e-3, 9)
        reach = np.hypot(form.face.at(heights) + rod.offset, heights - rod.height)
        assert reach == pytest.approx(rod.radius, abs=1e-4)


@pytest.mark.parametrize("curve", [DomeCurve.CATENARY, DomeCurve.ELLIPSE, DomeCurve.PARABOLA])
def test_any_profile_has_its_table(curve):
    form = dome_form(replace(PLAIN, curve=curve, rise=2.5))
    assert form.courses[0].radius == pytest.approx(2.1)
    assert all(course.step >= 0.0 for course in form.courses)
    assert form.settings == ()


def test_a_drawn_face_goes_through_its_points():
    points = ((2.1, 0.0), (1.95, 0.9), (1.4, 1.8), (0.7, 2.3), (0.0, 2.5))
    face = inner_face(replace(PLAIN, curve=DomeCurve.DRAWN, rise=None, points=points))
    for radius, height in points:
        assert face.at(height) == pytest.approx(radius, abs=1e-9)
    assert np.all(np.diff(face.radius) <= 1e-12)


def test_a_hemisphere_of_bricks_is_counted_by_course():
    brick = replace(
        PLAIN, curve=DomeCurve.HEMISPHERE, rise=None, unit=DomeUnit.BRICKS, laid=Laid.TILTED, thickness=0.115,
        course=0.075, unit_length=0.24, joint=0.005,
    )  # fmt: skip
    form = dome_form(brick)
    for course in form.courses[:-1]:
        # A brick is narrowest in the ring at its upper inner edge, 75 mm farther along the face.
        top = 2.0 * np.pi * 2.1 * np.cos(0.075 * course.number / 2.1)
        assert course.bricks * (0.24 + course.joint) == pytest.approx(top, rel=1e-5)
        assert course.bricks == np.floor(top / 0.245)
        assert course.joint >= 0.005 - 1e-9
        outer = 2.0 * np.pi * (course.radius + 0.115 * np.cos(course.tilt))
        assert course.bricks * (0.24 + course.joint_outside) == pytest.approx(outer)
        assert course.chain + brick.hook == pytest.approx(2.1, abs=1e-4)
    assert form.courses[3].bed_wedge == pytest.approx(0.115 * 0.075 / 2.1, rel=1e-3)


def test_a_course_height_that_is_missing_is_named():
    with pytest.raises(DomeUnknownError, match=r"dome\.course"):
        dome_form(replace(DOME, course=None))


def test_an_opening_wider_than_its_ring_is_refused_with_its_place():
    high = replace(DOME.openings[1], sill=3.0, height=0.6, width=2.2, head=Head.FLAT)
    with pytest.raises(DomeProblemError, match=r'opening "west window": is .* m wide at \+'):
        dome_form(replace(DOME, openings=(high,)))


def test_a_chain_shorter_than_nothing_is_refused():
    with pytest.raises(DomeProblemError, match=r"hook: takes .* shorter than nothing"):
        dome_form(replace(PLAIN, pivot=3.0, hook=1.0))


def test_arcs_of_an_egg_that_do_not_meet_say_which_rise_would_do():
    egg = replace(PLAIN, curve=DomeCurve.EGG, rise=6.0, flank_radius=3.4, crown_radius=1.2)
    with pytest.raises(DomeProblemError, match=r"the rise may be at most 2\.975 m"):
        dome_form(egg)
    assert len(dome_form(replace(egg, rise=2.96)).settings) == 3
    with pytest.raises(DomeProblemError, match=r"a flank of more than 2\.100 m"):
        dome_form(replace(egg, flank_radius=1.5))


# ------------------------------------------------- as built
def _ring(form, number, *, off=0.0, shift=0.0, count=12):
    turn = np.arange(count) * 2.0 * np.pi / count
    drawn = form.courses[number - 1].radius
    return [
        Reading(course=number, direction=t, radius=drawn + off + shift * np.cos(t)) for t in turn.tolist()
    ]


def test_a_small_error_is_led_back_within_a_few_courses(form):
    found = correct(form, _ring(form, 10, off=0.03, shift=0.005))
    assert found.error == pytest.approx(0.03, abs=1e-9)
    assert found.fit.shift == pytest.approx(0.005, abs=1e-9)
    assert found.back_at == 12
    assert found.goes_on
    assert found.ahead[0].step == pytest.approx(form.courses[10].step + 0.015)


def test_near_the_top_nothing_more_can_be_taken_in_and_more_than_a_millimetre_stops_the_work(form):
    """There the drawing steps in by more than the limit."""
    found = correct(form, _ring(form, 28, off=0.0011))
    assert found.back_at is None
    assert found.left == pytest.approx(0.0011, abs=1e-6)
    assert not found.goes_on
    assert correct(form, _ring(form, 28, off=0.0009)).goes_on


def test_lower_courses_of_a_table_are_left_out_and_counted(form):
    found = correct(form, [*_ring(form, 10), *_ring(form, 12)])
    assert (found.course, found.left_out) == (12, len(found.readings))


def test_an_error_near_the_top_cannot_be_led_back(form):
    found = correct(form, _ring(form, 31, off=0.15))
    assert found.back_at is None
    assert not found.goes_on
    assert found.left > 0.05


def test_a_dent_and_a_step_outwards_stop_the_work(form):
    ring = _ring(form, 10)
    ring[4] = replace(ring[4], radius=ring[4].radius - 0.4)
    found = correct(form, ring)
    assert found.flat
    assert any(step < 0.0 for _, step in found.bad_steps)
    assert not found.goes_on


def test_a_course_that_the_dome_does_not_have_is_refused(form):
    with pytest.raises(DomeProblemError, match="courses 1 to 33"):
        correct(form, [Reading(course=40, direction=0.0, radius=1.0)])


def test_too_few_readings_are_refused(form):
    with pytest.raises(BermwrightError, match="course 10: has 3 radii"):
        correct(form, _ring(form, 10)[:3])


def test_readings_that_leave_half_a_ring_out_are_refused(form):
    near = [replace(one, direction=0.5 * one.direction) for one in _ring(form, 10)]
    with pytest.raises(DomeProblemError, match="course 10: is not measured over"):
        correct(form, near)


def test_two_readings_in_one_direction_are_refused(form):
    ring = _ring(form, 10)
    with pytest.raises(DomeProblemError, match="course 10: has two radii at 0°"):
        correct(form, [*ring, replace(ring[0], radius=ring[0].radius + 0.01)])


# ------------------------------------------------- the rule
def test_no_dome_is_ever_said_to_stand():
    found = DOMES_STAND.run(Whole(house=HOUSE, studies={}))
    assert [one.verdict.value for one in found] == ["unknown"]
    low = replace(HOUSE, domes=(replace(DOME, course=0.3),))
    assert [one.verdict.value for one in DOMES_STAND.run(Whole(house=low, studies={}))] == ["fails"]
    none = replace(HOUSE, domes=())
    assert [one.verdict.value for one in DOMES_STAND.run(Whole(house=none, studies={}))] == ["does not apply"]
    broken = replace(HOUSE, domes=(replace(DOME, course=None),))
    assert [one.verdict.value for one in DOMES_STAND.run(Whole(house=broken, studies={}))] == ["unknown"]


@pytest.mark.parametrize("span", [1.2, 2.0256410256410255, 4.205128205128204])
def test_a_last_ring_of_one_brick_is_a_whole_ring(span):
    """Two ends of a ring that is not cut lie a hair more than a turn apart; it still holds its one brick."""
    bricks = replace(
        PLAIN, unit=DomeUnit.BRICKS, laid=Laid.TILTED, course=0.07, unit_length=0.24, thickness=0.1,
        curve=DomeCurve.CATENARY, span=span, rise=0.9 * span,
    )  # fmt: skip
    found = dome_form(bricks)
    assert all(course.joint is None or np.isfinite(course.joint) for course in found.courses)
    assert found.courses[-1].joint_outside is None or found.courses[-1].joint_outside > 0.0
