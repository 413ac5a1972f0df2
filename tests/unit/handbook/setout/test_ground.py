"""Right angles, levels, survey points: what holds exactly, and what is refused."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.setout import (
    adjust_heights,
    close_traverse,
    corner_angle,
    diagonal,
    fit_plane,
    footing_steps,
    local_metres,
    odd_heights,
    out_of_square,
    rise_and_fall,
    spread_closure,
    three_four_five,
)


@pytest.mark.parametrize("slip", [0.001, 0.01, 0.03])
def test_the_slip_of_a_parallelogram_comes_back_from_its_diagonals(slip):
    length, width = 7.5, 4.2
    square = np.hypot(length, width)
    longer, shorter = np.hypot(length + slip, width), np.hypot(length - slip, width)
    assert out_of_square(longer - shorter, length=length, width=width) == pytest.approx(slip, rel=2e-3)
    assert diagonal(length, width) == pytest.approx(square)


def test_the_triangle_is_right_and_fits_on_both_sides():
    for length, width in ((7.5, 4.2), (4.0, 9.0), (3.0, 3.0)):
        k = float(three_four_five(length, width))
        assert corner_angle(3 * k, 4 * k, 5 * k) == pytest.approx(0.5 * math.pi)
        assert 4 * k <= max(length, width) + 1e-9
        assert 3 * k <= min(length, width) + 1e-9
    assert three_four_five(0.2, 5.0) == 0.0


def test_three_lengths_that_make_no_triangle_are_refused():
    with pytest.raises(OutOfRangeError, match="no triangle"):
        corner_angle(1.0, 1.0, 3.0)


def test_readings_close_and_what_is_spread_adds_up():
    rises = rise_and_fall([1.0, 1.4, 0.9], [1.2, 1.1, 1.005])
    error = float(rises.sum())
    assert spread_closure(error, [10.0, 20.0, 30.0]).sum() == pytest.approx(-error)
    with pytest.raises(OutOfRangeError, match="missing"):
        rise_and_fall([1.0, 2.0], [1.0])


def test_a_net_without_errors_has_no_residuals_and_no_point_hangs_loose():
    heights = np.array([100.0, 101.2, 99.7, 100.4])
    start, end = np.array([0, 1, 2, 3, 0]), np.array([1, 2, 3, 0, 2])
    net = adjust_heights(
        start, end, heights[end] - heights[start], weights=np.ones(5), fixed=[100.0, *[np.nan] * 3]
    )
    assert net.heights == pytest.approx(heights)
    assert np.abs(net.residuals).max() < 1e-12
    with pytest.raises(OutOfRangeError, match="hangs on nothing"):
        adjust_heights([0], [1], [1.0], weights=[1.0], fixed=[0.0, np.nan, np.nan])
    with pytest.raises(OutOfRangeError, match="datum"):
        adjust_heights([0], [1], [1.0], weights=[1.0], fixed=[np.nan, np.nan])


def test_one_loop_by_least_squares_is_the_spread_by_length():
    lengths, rises = np.array([12.0, 20.0, 18.0]), np.array([0.40, -0.25, -0.154])
    net = adjust_heights([0, 1, 2], [1, 2, 0], rises, weights=1.0 / lengths, fixed=[0.0, np.nan, np.nan])
    assert net.residuals == pytest.approx(spread_closure(float(rises.sum()), lengths))


@pytest.mark.parametrize("faces", [10.0, 100.0, 190.0, 300.0])
def test_a_plane_falls_the_way_it_was_tilted(faces):
    x, y = (part.ravel() for part in np.meshgrid(np.arange(4.0), np.arange(3.0)))
    turn, slope = np.radians(faces), np.radians(8.0)
    plane = fit_plane(x, y, 2.0 - np.tan(slope) * (x * np.sin(turn) + y * np.cos(turn)))
    assert np.degrees(plane.faces) == pytest.approx(faces)
    assert np.degrees(plane.slope) == pytest.approx(8.0)


def test_points_on_one_line_and_too_few_are_refused():
    with pytest.raises(OutOfRangeError, match="one line"):
        fit_plane([0.0, 1.0, 2.0], [0.0, 1.0, 2.0], [0.0, 0.0, 0.0])
    with pytest.raises(OutOfRangeError, match="three points"):
        fit_plane([0.0, 1.0], [0.0, 1.0], [0.0, 0.0])


def test_every_planted_point_is_found_and_no_other():
    x, y = (part.ravel() for part in np.meshgrid(np.linspace(0, 15, 5), np.linspace(0, 12, 4)))
    z = 0.05 * x - 0.1 * y + 0.01 * np.sin(9.0 * x + 5.0 * y)
    z[[3, 11]] += [1.0, -0.6]
    assert np.flatnonzero(odd_heights(x, y, z)).tolist() == [3, 11]


def test_a_place_a_degree_away_lies_as_far_as_the_ellipsoid_says():
    north, east = (
        local_metres(
            np.radians(60.0 + up), np.radians(right), from_latitude=np.radians(60.0), from_longitude=0.0
        )
        for up, right in ((1.0, 0.0), (0.0, 1.0))
    )
    assert north[1] == pytest.approx(111_412.0, rel=2e-4)
    assert east[0] == pytest.approx(55_800.0, rel=1e-4)


def test_a_traverse_that_closes_is_left_as_it_is():
    loop = close_traverse(
        [3.0, 0.0, -3.0, 0.0], [0.0, 4.0, 0.0, -4.0], [3.0, 4.0, 3.0, 4.0], start_north=1.0, start_east=2.0
    )
    assert loop.ratio == math.inf
    assert loop.area == pytest.approx(12.0)
    assert loop.north.tolist() == [4.0, 4.0, 1.0]


def test_level_ground_needs_no_step():
    assert footing_steps(0.0, step=0.3) == 0.0
