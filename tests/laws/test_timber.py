"""What must hold for any timber: more never harms, scales scale, nails share."""

from __future__ import annotations

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from bermwright.handbook import timber

share = st.floats(0.01, 3.0)
layers = st.integers(2, 8)
coupling = st.floats(1e5, 1e9)
turning = st.floats(0.0, 1e7)
piece = st.floats(0.3, 5.0)
stiffness = st.floats(1e4, 1e6)


@given(share, share)
def test_buckling_takes_more_from_the_slenderer(one, other):
    low, high = sorted((one, other))
    assert timber.buckling_factor(low) >= timber.buckling_factor(high)
    assert (
        timber.sideways_factor(low) >= timber.sideways_factor(high) - 0.003
    )  # the standard's own step at 1.4


@given(st.floats(0.0, np.pi / 2), st.floats(5e6, 20e6), st.floats(0.5e6, 4e6))
def test_bearing_at_an_angle_lies_between_along_and_across(angle, along, across):
    strength = timber.bearing_strength_at_angle(angle, along=along, across=across)
    assert across * (1 - 1e-9) <= strength <= along * (1 + 1e-9)


@given(stiffness, layers, piece, coupling, turning)
def test_a_rib_of_pieces_is_softer_than_whole_boards_and_its_layers_carry_more(ei, n, length, across, turn):
    rib = timber.pieces_in_rib(ei, n, piece_length=length, transverse=across, rotational=turn)
    assert 0 < rib.stiffness_ratio <= 1
    assert rib.moment_peak >= n / (n - 1) * (1 - 1e-6)
    assert rib.joint_flexibility > 0


@given(stiffness, layers, piece, coupling, turning, st.floats(1.01, 5.0))
def test_more_nails_never_soften_a_rib(ei, n, length, across, turn, more):
    few = timber.pieces_in_rib(ei, n, piece_length=length, transverse=across, rotational=turn)
    many = timber.pieces_in_rib(ei, n, piece_length=length, transverse=more * across, rotational=more * turn)
    assert many.stiffness_ratio >= few.stiffness_ratio * (1 - 1e-6)


@given(stiffness, layers, piece, coupling, turning, st.floats(0.5, 4.0))
def test_a_rib_twice_as_stiff_with_nails_twice_as_stiff_bends_half(ei, n, length, across, turn, k):
    one = timber.pieces_in_rib(ei, n, piece_length=length, transverse=across, rotational=turn)
    scaled = timber.pieces_in_rib(k * ei, n, piece_length=length, transverse=k * across, rotational=k * turn)
    np.testing.assert_allclose(scaled.stiffness_ratio, one.stiffness_ratio, rtol=1e-5)
    np.testing.assert_allclose(scaled.joint_stiffness, k * one.joint_stiffness, rtol=1e-5)


nails = st.lists(st.tuples(st.floats(-0.5, 0.5), st.floats(-0.1, 0.1)), min_size=4, max_size=12)


@given(nails, st.floats(0.0, 1e4), st.floats(0.0, 1e5), st.floats(0.0, 1e5))
def test_nails_together_balance_what_they_pass_on(places, moment, axial, shear):
    x, y = np.array(places).T
    spread = np.sum((x - x.mean()) ** 2 + (y - y.mean()) ** 2)
    if spread < 1e-4:
        return
    nail = timber.joint_nail_force(moment, axial=axial, shear=shear, layers=3, planes=1, along=x, across=y)
    even = np.hypot(axial, shear) / 3 / len(places)
    lever = np.hypot(x - x.mean(), y - y.mean()).max()
    assert nail.force >= even * (1 - 1e-9)
    assert nail.force <= (even * np.sqrt(2) + moment / 3 * lever / spread * np.sqrt(2)) * (1 + 1e-9)


@given(st.floats(0.001, 0.03), st.floats(0.001, 0.03), st.floats(0.0, 2.0), st.floats(0.0, 1.0))
def test_timber_that_creeps_bends_further(permanent, variable, creep, lasting):
    final = timber.final_deflection(permanent, variable, k_def=creep, psi2=lasting)
    assert final >= (permanent + variable) * (1 - 1e-12)
    assert final <= (permanent + variable) * (1 + creep) * (1 + 1e-12)
