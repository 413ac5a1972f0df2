"""Closed forms refuse what they do not hold for, broadcast, and agree with the points of their curves."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import curves

NAN = float("nan")


@pytest.mark.parametrize(
    "call",
    [
        curves.catenary_parameter,
        curves.catenary_length,
        curves.catenary_springing_angle,
        curves.catenary_area,
        curves.parabola_length,
        curves.parabola_crown_radius,
        curves.segment_radius,
        curves.segment_angle,
        curves.pointed_radius,
        curves.single_nosed_cover,
        curves.catenary,
        curves.parabola,
        curves.segment,
        curves.ellipse,
        curves.pointed_arcs,
    ],
)
@pytest.mark.parametrize(
    ("span", "rise"), [(0.0, 2.0), (-1.0, 2.0), (4.0, 0.0), (4.0, -2.0), (NAN, 2.0), (4.0, NAN)]
)
def test_no_curve_without_span_and_rise(call, span, rise):
    with pytest.raises(OutOfRangeError):
        call(span, rise)


@pytest.mark.parametrize(
    ("call", "arguments"),
    [
        (curves.catenary_parameter, (1.0, 51.0)),
        (curves.catenary_parameter_from_length, (5.0, 5.0)),
        (curves.catenary_parameter_from_length, (5.0, 4.0)),
        (curves.catenary_rise, (5.0, NAN)),
        (curves.catenary_span, (4.0, 8.0)),
        (curves.catenary_span, (NAN, 8.0)),
        (curves.catenary_height, (2.6, 5.0, 4.0)),
        (curves.catenary_radius, (-2.6, 5.0, 4.0)),
        (curves.catenary_forces, (-1.0, 5.0, 4.0)),
        (curves.parabola_thrust, (NAN, 5.0, 4.0)),
        (curves.parabola_height, (3.0, 5.0, 4.0)),
        (curves.ellipse_height, (3.0, 5.0, 4.0)),
        (curves.even_pressure_proportion, (0.0,)),
        (curves.even_pressure_proportion, (4.1,)),
        (curves.level_cover_parameter, (6.0, 2.4, 0.0)),
        (curves.level_cover_depth, (3.1, 6.0, 2.4, 0.6)),
        (curves.level_cover_curvature, (NAN, 6.0, 2.4, 0.6)),
        (curves.level_cover_forces, (-1.0, 6.0, 2.4, 0.6)),
        (curves.depth_for_weight_ratio, (10.0, 1.0)),
        (curves.pointed_rise, (4.0, -1.0)),
        (curves.pointed_half_width, (5.3, 5.25, 3.15)),
        (curves.pointed_half_width, (4.3, 5.25, 3.15)),
        (curves.centre_chain, (-1.0, 2.0)),
    ],
)
def test_refuses_what_its_source_does_not_hold_for(call, arguments):
    with pytest.raises(OutOfRangeError):
        call(*arguments)


def test_catenary_at_both_ends_of_its_range():
    rise = np.array([1e-4, 0.01, 1.0, 20.0, 24.0])
    c = curves.catenary_parameter(1.0, rise)
    assert 2.0 * c * np.sinh(0.25 / c) ** 2 == pytest.approx(rise, rel=1e-12)
    length = curves.catenary_length(1.0, rise)
    assert curves.catenary_parameter_from_length(1.0, length[1:]) == pytest.approx(c[1:], rel=1e-9)
    assert curves.catenary_span(rise, length) == pytest.approx(np.ones(5), rel=1e-6)


def test_broadcasts_over_arrays():
    spans, rises = np.array([[4.0], [5.0]]), np.array([1.0, 2.0, 3.0])
    lengths = curves.catenary_length(spans, rises)
    assert lengths.shape == (2, 3)
    assert lengths[1, 2] == pytest.approx(float(curves.catenary_length(5.0, 3.0)))


CURVES = {
    "catenary": curves.catenary(5.0, 4.0),
    "flat catenary": curves.catenary(5.0, 0.5),
    "parabola": curves.parabola(5.0, 2.0),
    "segment": curves.segment(5.0, 1.5),
    "semicircle": curves.segment(5.0, 2.5),
    "horseshoe": curves.segment(4.0, 3.0),
    "ellipse": curves.ellipse(5.0, 3.5),
    "level soil": curves.level_cover(6.0, 2.4, 0.3),
    "lancet": curves.arc_chain(curves.pointed_arcs(4.0, 4.0), points=800),
    "drop": curves.arc_chain(curves.pointed_arcs(4.0, 1.8), points=800),
    "three-centred": curves.arc_chain(curves.three_centred_arcs(5.0, 1.8, 1.2), points=800),
    "egg": curves.arc_chain(
        curves.egg_arcs(4.0, 3.4, base_centre=0.5, flank_radius=4.0, crown_radius=1.2), points=800
    ),
    "drawn": curves.through_points([-2.0, -1.8, -1.0, 0.3, 1.5, 2.0], [0.0, 0.8, 1.7, 2.0, 1.2, 0.0]),
}


@pytest.mark.parametrize("name", CURVES)
def test_points_tangents_and_arc_lengths_tell_of_one_curve(name):
    curve = CURVES[name]
    smooth = np.diff(curve.s) > 0.0
    chord = np.hypot(np.diff(curve.x), np.diff(curve.z))[smooth]
    assert chord == pytest.approx(np.diff(curve.s)[smooth], rel=5e-4)
    direction = np.arctan2(np.diff(curve.z), np.diff(curve.x))[smooth]
    middle = 0.5 * (curve.angle[1:] + curve.angle[:-1])[smooth]
    assert np.max(np.abs(direction - middle)) < 2e-3
    turn = -np.diff(curve.angle)[smooth]
    assert turn == pytest.approx(
        (np.diff(curve.s) * 0.5 * (curve.curvature[:-1] + curve.curvature[1:]))[smooth], abs=6e-3
    )


@pytest.mark.parametrize("name", CURVES)
def test_left_foot_first_and_read_only(name):
    curve = CURVES[name]
    assert curve.x[0] < 0.0 < curve.x[-1]
    assert curve.z[0] == pytest.approx(0.0, abs=1e-9)
    assert curve.z[-1] == pytest.approx(0.0, abs=1e-9)
    with pytest.raises(ValueError, match="read-only"):
        curve.x[0] = 1.0


def test_level_soil_turns_two_nosed_below_its_limit():
    limit = float(curves.single_nosed_cover(6.0, 2.4))
    x = np.linspace(0.0, 0.5, 11)
    above = curves.level_cover_curvature(x, 6.0, 2.4, 1.01 * limit)
    below = curves.level_cover_curvature(x, 6.0, 2.4, 0.9 * limit)
    assert np.all(np.diff(above) < 0.0)
    assert below[3] > below[0]


def test_parallel_refuses_a_crown_that_is_too_tight():
    with pytest.raises(OutOfRangeError, match=r"too tight.*1\.15 m.*fold"):
        curves.parallel(curves.catenary(5.0, 4.0), -1.2)
    with pytest.raises(OutOfRangeError):
        curves.parallel(curves.catenary(5.0, 4.0), NAN)


def test_parallel_of_a_valley_crown_meets_itself_outside():
    valley = CURVES["drop"]
    outside, inside = curves.parallel(valley, 0.2), curves.parallel(valley, -0.2)
    assert np.all(np.diff(outside.x) >= -1e-12)
    kink = int(np.flatnonzero(np.diff(valley.s) == 0.0)[0])
    assert outside.x[kink] == pytest.approx(0.0, abs=1e-9)
    assert inside.x[kink] == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("radius", [1.8, 2.6, 0.0, NAN])
def test_three_centred_says_which_radii_there_are(radius):
    with pytest.raises(OutOfRangeError):
        curves.three_centred_arcs(5.0, 1.8, radius)


def test_tall_three_centred_is_smooth():
    arcs = curves.three_centred_arcs(4.0, 3.0, 4.5)
    assert curves.tangent_break(arcs) == pytest.approx(0.0, abs=1e-9)
    assert arcs[1].point(np.pi / 2)[1] == pytest.approx(3.0)


def test_egg_says_when_its_arcs_do_not_join():
    with pytest.raises(OutOfRangeError, match="do not join"):
        curves.egg_arcs(4.0, 9.0, base_centre=0.5, flank_radius=2.5, crown_radius=1.2)
    with pytest.raises(OutOfRangeError, match="below the feet"):
        curves.egg_arcs(2.4, 6.0, base_centre=0.0, flank_radius=5.0, crown_radius=1.0)


def test_broken_chains_are_noticed():
    left, right = curves.pointed_arcs(4.0, 4.0)
    assert curves.tangent_break((right, left)) == np.inf


def test_headroom_over_the_crown_is_refused():
    curve = CURVES["semicircle"]
    with pytest.raises(OutOfRangeError):
        curves.headroom_strip(curve.x, curve.z, 2.6)
    with pytest.raises(OutOfRangeError):
        curves.headroom_strip(curve.x, curve.z, NAN)


def test_nothing_has_a_centroid_without_area():
    with pytest.raises(OutOfRangeError):
        curves.area_centroid([0.0, 1.0], [0.0, 1.0])
    with pytest.raises(OutOfRangeError):
        curves.line_centroid([1.0, 1.0], [2.0, 2.0])
    with pytest.raises(OutOfRangeError):
        curves.through_points([0.0, 1.0, 1.0, 2.0], [0.0, 1.0, 1.0, 0.0])
