"""Laws of sun, weather and glass that hold for any place and any pane."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.data.glasses import CLEAR, GLASSES, Gap, Glass, Pane
from bermwright.handbook import glazing, sun, weather

LATITUDES = st.floats(-1.57, 1.57)
DECLINATIONS = st.floats(-0.409, 0.409)
TILTS = st.floats(0.0, 0.5 * math.pi)
AZIMUTHS = st.floats(0.0, 6.28)
PANES = st.builds(
    Pane,
    thickness=st.floats(0.002, 0.012),
    transmission=st.floats(0.3, 0.9),
    reflection_outside=st.floats(0.02, 0.1),
    reflection_inside=st.floats(0.02, 0.1),
    emissivity_outside=st.floats(0.02, 0.95),
    emissivity_inside=st.floats(0.02, 0.95),
)


@given(LATITUDES, DECLINATIONS)
def test_day_of_the_north_and_night_of_the_south_are_alike(latitude, declination):
    north = sun.sun_day(latitude, declination, seen_at=0.0).length
    south = sun.sun_day(-latitude, declination, seen_at=0.0).length
    assert north + south == pytest.approx(86400.0, abs=1e-3)


@given(LATITUDES, DECLINATIONS)
def test_refraction_never_shortens_the_day(latitude, declination):
    seen = sun.sun_day(latitude, declination).length
    assert seen >= sun.sun_day(latitude, declination, seen_at=0.0).length - 1e-6


@given(LATITUDES, DECLINATIONS)
def test_no_day_brings_more_than_the_sun_sends(latitude, declination):
    energy = float(sun.extraterrestrial_day(latitude, declination, 1361.0))
    assert 0.0 <= energy <= 1361.0 * 86400.0


@given(TILTS, AZIMUTHS, st.floats(-1.5, 1.5), AZIMUTHS)
def test_a_plane_and_its_back_see_the_beam_in_turn(tilt, azimuth, elevation, around):
    front = sun.facing(sun.Plane(tilt=tilt, azimuth=azimuth), elevation, around)
    back = sun.facing(sun.Plane(tilt=math.pi - tilt, azimuth=azimuth + math.pi), elevation, around)
    assert front == pytest.approx(-back, abs=1e-12)
    assert abs(front) <= 1.0 + 1e-12


@given(TILTS, AZIMUTHS, st.lists(st.floats(0.0, 1.2), min_size=4, max_size=4), st.floats(0.0, 0.3))
def test_a_higher_horizon_never_shows_more_sky(tilt, azimuth, heights, more):
    plane = sun.Plane(tilt=tilt, azimuth=azimuth)
    directions = (0.0, 1.5, 3.0, 4.5)
    low = sun.Horizon(directions=directions, heights=tuple(heights))
    high = sun.Horizon(directions=directions, heights=tuple(height + more for height in heights))
    assert sun.sky_view(plane, high) <= sun.sky_view(plane, low) + 2e-3
    assert sun.sky_view(plane, low) <= sun.sky_view(plane) + 2e-3


@given(st.lists(st.floats(-40.0, 40.0), min_size=12, max_size=12))
def test_hours_keep_the_mean_of_any_course_of_days(months):
    days = np.resize(np.array(months), 365)
    hours = weather.smooth_hours(days)
    assert np.mean(np.reshape(hours, (365, 24)), axis=1) == pytest.approx(days, abs=1e-8)


@given(st.floats(-60.0, 45.0))
def test_dew_point_and_vapour_pressure_undo_each_other(dew_point):
    there = weather.vapour_pressure_at(dew_point)
    assert weather.dew_point_of(there) == pytest.approx(dew_point, abs=1e-9)


@given(st.floats(0.15, 0.75), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_higher_rank_is_a_clearer_day(mean, first, second):
    low, high = sorted((first, second))
    assert weather.day_clearness(mean, low) <= weather.day_clearness(mean, high) + 1e-9


@given(st.lists(PANES, min_size=1, max_size=4), st.floats(0.0, 1.55))
def test_every_ray_is_passed_caught_or_thrown_back(panes, incidence):
    glass = Glass(
        name="x",
        panes=tuple(panes),
        gaps=(Gap(width=0.012),) * (len(panes) - 1),
        cite=GLASSES["single"].cite,
    )
    caught, passed = glazing.absorbed(glass, incidence)
    assert all(part >= -1e-12 for part in caught)
    assert 0.0 <= passed <= 1.0
    assert sum(caught) + passed <= 1.0 + 1e-9
    assert passed <= glazing.solar_factor(glass, incidence) <= passed + sum(caught) + 1e-12


@given(st.integers(1, 4), st.floats(0.006, 0.02))
def test_one_more_pane_never_loses_more(number, width):
    def of(count):
        gaps = (Gap(width=width),) * (count - 1)
        return Glass(name="x", panes=(CLEAR,) * count, gaps=gaps, cite=GLASSES["single"].cite)

    assert glazing.glass_u(of(number + 1)) < glazing.glass_u(of(number))
