"""Ranges, edges and branches of the timber equations."""

from __future__ import annotations

import math

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.timber_classes import TIMBER_CLASSES, strength_class
from bermwright.handbook import timber

STRESSES = {"compression_strength": 10e6, "bending_strength": 10e6}


REFUSED = [
    lambda: timber.modification_factor(4, "permanent"),
    lambda: timber.modification_factor(1, "for ever"),
    lambda: timber.deformation_factor(0),
    lambda: timber.design_strength(24e6, 1.2, gamma=1.3),
    lambda: timber.design_strength(24e6, 0.8, gamma=0.9),
    lambda: timber.design_strength(-1.0, 0.8, gamma=1.3),
    lambda: timber.depth_factor(0.0),
    lambda: timber.rectangular_section(0.0, 0.2),
    lambda: timber.laminated_section(0.5, thickness=0.03, depth=0.2),
    lambda: timber.shear_stress(-1.0, 0.1, depth=0.2, crack_factor=0.67),
    lambda: timber.shear_stress(1.0, 0.1, depth=0.2, crack_factor=1.1),
    lambda: timber.bending_and_compression(-1.0, 1.0, **STRESSES),
    lambda: timber.bending_and_compression(1.0, math.nan, **STRESSES),
    lambda: timber.buckling_and_bending(1.0, 1.0, **STRESSES, k_c=0.0),
    lambda: timber.buckling_and_bending(1.0, 1.0, **STRESSES, k_c=1.1),
    lambda: timber.buckling_factor(-0.1),
    lambda: timber.slenderness(1.0, 0.0, area=1.0),
    lambda: timber.effective_length(1.0, factor=0.9, depth=0.2, loaded_edge="top"),
    lambda: timber.effective_length(0.1, factor=0.9, depth=0.2, loaded_edge="tension"),
    lambda: timber.bearing_strength_at_angle(1.6, along=1e6, across=1e5),
    lambda: timber.bearing_strength_at_angle(0.5, along=1e6, across=1e5, k_c90=1.6),
    lambda: timber.effective_contact_length(0.1, left=-0.01, right=0.0),
    lambda: timber.embedment_strength(350.0, 0.009),
    lambda: timber.embedment_strength(501.0, 0.004),
    lambda: timber.yield_moment(0.004, wire_strength=500e6),
    lambda: timber.effective_nails(4, 0.027, diameter=0.004),
    lambda: timber.effective_nails(4, 0.015, diameter=0.004, predrilled=True),
    lambda: timber.nail_distances(0.004, density=510.0),
    lambda: timber.nail_distances(0.004, angle=-0.1),
    lambda: timber.plank_demand(1e3, 0.6, spans=4),
    lambda: timber.plank_demand(-1e3, 0.6),
    lambda: timber.final_modulus(9e9, 0.8, psi2=1.1),
    lambda: strength_class("C99"),
]


@pytest.mark.parametrize("call", REFUSED, ids=[str(number) for number in range(len(REFUSED))])
def test_outside_its_range_it_refuses(call):
    with pytest.raises(OutOfRangeError):
        call()


@pytest.mark.parametrize("letter", ["C", "D"])
def test_every_class_is_stronger_than_the_one_below(letter):
    classes = [one for name, one in TIMBER_CLASSES.items() if name.startswith(letter)]
    for field in (
        "bending",
        "tension",
        "compression",
        "modulus",
        "modulus_low",
        "density_low",
        "shear_modulus_low",
    ):
        values = [getattr(one, field) for one in classes]
        assert values == sorted(values)
        assert len(set(values)) == len(values)


def test_the_class_reads_as_printed():
    c18 = strength_class("C18")
    assert (c18.bending, c18.tension, c18.compression, c18.shear) == (18e6, 10e6, 18e6, 3.4e6)
    assert (c18.compression_across, c18.modulus, c18.modulus_low) == (2.2e6, 9e9, 6e9)
    assert (c18.density_low, c18.density) == (320, 380)


def test_each_board_alone_and_all_boards_together():
    board, rib = (
        timber.rectangular_section(0.032, 0.195),
        timber.laminated_section(4, thickness=0.032, depth=0.195),
    )
    solid = timber.rectangular_section(0.128, 0.195)
    assert rib.modulus == pytest.approx(solid.modulus)
    assert rib.inertia_flat == pytest.approx(4 * board.inertia_flat)
    assert rib.inertia_flat < solid.inertia_flat / 10
    assert rib.torsion < solid.torsion


def test_a_held_edge_is_never_worse_than_its_torsion_alone():
    section = timber.laminated_section(4, thickness=0.032, depth=0.195)
    about = {"depth": 0.195, "modulus_low": 6e9, "shear_modulus_low": 373e6}
    near = timber.critical_moment_held_edge(section.inertia_flat, section.torsion, length=1.0, **about)
    far = timber.critical_moment_held_edge(section.inertia_flat, section.torsion, length=1e3, **about)
    assert near > far
    assert far == pytest.approx(float(373e6 * section.torsion / 0.195), rel=1e-4)


def test_the_mode_that_rules_is_named_for_each_entry():
    nail = timber.single_shear(
        0.004,
        head_side=[0.012, 0.045],
        point_side=0.055,
        head_embedment=18.93e6,
        point_embedment=18.93e6,
        yield_moment=6.617,
    )
    assert nail.mode == ("d", "f")
    assert nail.capacity[0] < nail.capacity[1]


def test_rope_effect_does_not_count_where_timber_only_crushes():
    thin = {
        "head_side": 0.005,
        "point_side": 0.055,
        "head_embedment": 18.93e6,
        "point_embedment": 18.93e6,
        "yield_moment": 6.617,
    }
    without, with_rope = (timber.single_shear(0.004, **thin, rope=rope) for rope in (0.0, 200.0))
    assert without.mode == with_rope.mode == "a"
    assert with_rope.capacity == without.capacity


def test_stocky_members_do_not_buckle():
    assert np.all(timber.buckling_factor([0.0, 0.1, 0.3]) == 1.0)
    assert timber.buckling_factor(0.3 + 1e-9) == pytest.approx(1.0, abs=1e-6)


@pytest.mark.parametrize("edge", [0.75, 1.4])
def test_tipping_has_no_jump(edge):
    below, above = timber.sideways_factor([edge - 1e-9, edge + 1e-9])
    assert below == pytest.approx(above, abs=0.003)
