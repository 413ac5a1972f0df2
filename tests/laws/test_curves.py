"""Laws of curves and forms: round trips, mirror images, scaling."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bermwright.handbook import curves
from bermwright.handbook.curves import CoverLoad

spans = st.floats(0.5, 12.0)
proportions = st.floats(0.08, 2.0)


@given(spans, proportions)
def test_string_and_catenary_are_one(span, proportion):
    rise = proportion * span
    length = curves.catenary_length(span, rise)
    assert float(curves.catenary_rise(span, length)) == pytest.approx(rise, rel=1e-7)
    assert float(curves.catenary_span(rise, length)) == pytest.approx(span, rel=1e-7)


@given(spans, proportions, st.floats(0.1, 10.0))
def test_larger_curves_are_the_same_curves(span, proportion, factor):
    small, large = (curves.catenary(k * span, k * proportion * span, points=9) for k in (1.0, factor))
    assert large.x == pytest.approx(factor * small.x, rel=1e-9, abs=1e-9)
    assert large.curvature * factor == pytest.approx(small.curvature, rel=1e-9)


@given(spans, st.floats(0.3, 1.5), st.floats(-0.1, 0.3))
def test_parallel_of_a_parallel_is_back_where_it_was(span, proportion, share):
    curve = curves.ellipse(span, proportion * span, points=60)
    distance = share * 0.9 / float(np.max(curve.curvature))
    back = curves.parallel(curves.parallel(curve, distance), -distance)
    assert back.x == pytest.approx(curve.x, abs=1e-9 * span)
    assert back.z == pytest.approx(curve.z, abs=1e-9 * span)


@given(spans, st.floats(0.51, 2.0), st.floats(0.0, 0.2))
def test_parallel_lengths_differ_by_the_turn(span, proportion, share):
    arcs = curves.pointed_arcs(span, proportion * span)
    distance = share * span
    turn = sum(arc.start - arc.end for arc in arcs)
    longer = sum(arc.length for arc in curves.offset_arcs(arcs, distance))
    assert longer - sum(arc.length for arc in arcs) == pytest.approx(distance * turn, abs=1e-9 * span)


@given(st.floats(2.0, 8.0), st.floats(0.55, 0.95), st.floats(0.1, 0.9))
def test_low_three_centred_arches_are_smooth_and_as_high_as_asked(span, proportion, share):
    rise = 0.5 * proportion * span
    arcs = curves.three_centred_arcs(span, rise, share * rise)
    assert curves.tangent_break(arcs) == pytest.approx(0.0, abs=1e-8)
    assert arcs[1].point(0.5 * np.pi)[1] == pytest.approx(rise)


@settings(max_examples=8, deadline=None)
@given(st.floats(0.25, 0.45), st.floats(0.2, 0.6), st.floats(-0.12, 0.12), st.floats(0.2, 0.7))
def test_mirrored_ground_mirrors_the_curve(proportion, crown, tilt, ratio):
    assume(abs(tilt) > 1e-3)
    load = CoverLoad(unit_weight=18e3, sideways=ratio, self_weight=0.8e3)
    there, back = (
        curves.under_cover(
            5.0,
            5.0 * proportion,
            ground=([-20.0, 0.0, 20.0], [crown - s * 20, crown, crown + s * 20]),
            load=load,
        )
        for s in (tilt, -tilt)
    )
    assert back.crown_x == pytest.approx(-there.crown_x, abs=1e-4)
    assert back.left_foot == pytest.approx(there.right_foot, rel=1e-3, abs=20.0)


@settings(max_examples=8, deadline=None)
@given(st.floats(0.25, 0.45), st.floats(0.2, 0.6), st.floats(0.5, 3.0))
def test_heavier_soil_and_shell_keep_the_curve_and_raise_its_force(proportion, crown, factor):
    light = CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3)
    heavy = CoverLoad(unit_weight=18e3 * factor, sideways=0.5, self_weight=0.8e3 * factor)
    ground = ([-9.0, 0.0, 9.0], [crown - 3.6, crown, crown - 3.6])
    one, other = (
        curves.under_cover(5.0, 5.0 * proportion, ground=ground, load=load) for load in (light, heavy)
    )
    assert other.line.x == pytest.approx(one.line.x, abs=1e-6)
    assert other.crown_thrust == pytest.approx(factor * one.crown_thrust, rel=1e-6)
