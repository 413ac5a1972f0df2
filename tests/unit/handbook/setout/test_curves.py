"""Arcs by chord, centres and string: two routes to the same figure, and both ends of the range."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.curves import arc_chain, catenary_length, egg_arcs, three_centred_arcs
from bermwright.handbook.setout import (
    chain_point,
    chord_of_arc,
    chord_ordinate,
    crown_for_length,
    crown_radius,
    deflection_angle,
    egg_flank,
    fairing,
    four_centred,
    radii_by_diagonal,
    radii_by_sixty,
    shell_span,
    tangent_length,
    three_nail_angle,
)


@pytest.mark.parametrize(("chord", "rise"), [(4.0, 0.5), (3.0, 0.2), (5.0, 2.4)])
def test_the_boards_on_three_nails_draw_the_arc(chord, rise):
    """Every ordinate of the arc sees both nails under the angle of the boards."""
    angle = float(three_nail_angle(chord, rise))
    for share in (-0.8, -0.3, 0.0, 0.5):
        x = 0.5 * share * chord
        y = float(chord_ordinate(x, chord=chord, rise=rise))
        left, right = np.array([-0.5 * chord - x, -y]), np.array([0.5 * chord - x, -y])
        seen = np.arccos(left @ right / np.hypot(*left) / np.hypot(*right))
        assert seen == pytest.approx(angle)


def test_a_half_circle_is_the_end_of_the_range():
    assert three_nail_angle(4.0, 2.0) == pytest.approx(0.5 * np.pi)
    with pytest.raises(OutOfRangeError):
        chord_ordinate(0.0, chord=4.0, rise=2.1)
    with pytest.raises(OutOfRangeError):
        chord_ordinate(2.1, chord=4.0, rise=1.0)


def test_deflection_angles_and_chords_walk_along_the_circle():
    radius, arc = 12.0, 3.0
    turn = float(deflection_angle(arc, radius=radius))
    end = np.array([radius * np.sin(2 * turn), radius * (1 - np.cos(2 * turn))])
    assert np.hypot(*end) == pytest.approx(float(chord_of_arc(arc, radius=radius)))
    assert np.arctan2(end[1], end[0]) == pytest.approx(turn)
    assert tangent_length(2 * turn, radius=radius) == pytest.approx(radius * np.tan(turn))
    assert np.hypot(*chain_point(0.7, radius=radius)) == pytest.approx(radius)


@pytest.mark.parametrize("radii", [radii_by_sixty, radii_by_diagonal])
def test_both_rules_of_three_centres_give_arcs_that_touch(radii):
    half, rise = 2.5, 1.7
    side, crown = radii(half, rise)
    assert crown_radius(half, rise, side) == pytest.approx(float(crown))
    line = arc_chain(three_centred_arcs(2 * half, rise, float(side)))
    assert line.z.max() == pytest.approx(rise, abs=2e-5)


def test_a_rise_that_sixty_degrees_cannot_reach_is_refused():
    with pytest.raises(OutOfRangeError):
        radii_by_sixty(1.0, 0.26)


def test_the_flank_of_an_egg_is_that_of_its_chain():
    flank = float(egg_flank(0.5, 0.25, apart=0.75))
    arcs = egg_arcs(1.0, 1.0, base_centre=0.0, flank_radius=flank, crown_radius=0.25)
    assert arcs[1].z == pytest.approx(0.0)


def test_the_upper_arc_of_a_flat_pointed_arch_touches_the_side_and_meets_the_apex():
    arch = four_centred(2.0, 1.4, side=0.8, turn=np.radians(60.0))
    centre, joint = np.array([arch.centre_x, arch.centre_z]), np.array([arch.joint_x, arch.joint_z])
    for point in (joint, np.array([0.0, 1.4])):
        assert np.hypot(*(point - centre)) == pytest.approx(float(arch.crown))
    along = (joint - centre) / arch.crown
    assert along == pytest.approx((joint - [1.2, 0.0]) / 0.8)
    with pytest.raises(OutOfRangeError, match="apex"):
        four_centred(2.0, 3.0, side=0.8, turn=np.radians(60.0))


def test_more_string_raises_the_crown_as_much_as_the_lengths_say():
    rise, step = 2.2, 1e-5
    longer = catenary_length(4.8, rise + step) - catenary_length(4.8, rise - step)
    assert crown_for_length(4.8, rise) == pytest.approx(2 * step / float(longer), rel=1e-6)


def test_a_thin_shell_needs_no_allowance():
    assert shell_span(4.0, thickness=0.0, foot_angle=1.0) == 4.0


@pytest.mark.parametrize("wrong", [2, 4, 6])
def test_a_wrong_ordinate_is_named_and_measured(wrong):
    x = np.linspace(-1.0, 1.0, 9)
    y = 0.01 * np.cos(x)
    y[wrong] += 0.015
    found = fairing(y)
    assert found.unfair == (wrong,)
    assert found.off[wrong] == pytest.approx(0.015, abs=1e-4)
    assert np.isnan(found.off[[0, 1, -2, -1]]).all()


def test_a_fair_row_names_none_and_four_are_too_few():
    assert fairing(np.arange(9.0) ** 2 / 100.0).unfair == ()
    with pytest.raises(OutOfRangeError, match="five"):
        fairing([1.0, 2.0, 3.0, 4.0])
