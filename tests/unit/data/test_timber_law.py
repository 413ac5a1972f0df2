"""Strength classes keep the proportions that EN 384 makes them by."""

from __future__ import annotations

import pytest

from bermwright.base.sources import Provenance
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.house.around import STRENGTH_CLASSES

LOW = {"C": 0.67, "D": 0.84}
ACROSS = {"C": 30.0, "D": 15.0}
HARD = [name for name in STRENGTH_CLASSES if name.startswith("D")]


@pytest.mark.parametrize("name", STRENGTH_CLASSES)
def test_every_class_that_a_file_may_name_has_its_values(name):
    one = TIMBER_CLASSES[name]
    kind = name[0]
    assert one.bending == pytest.approx(float(name[1:]) * 1e6)
    assert one.modulus_low / one.modulus == pytest.approx(LOW[kind], rel=0.01)
    assert one.modulus / one.modulus_across == pytest.approx(ACROSS[kind], rel=0.02)
    assert one.modulus / one.shear_modulus == pytest.approx(16.0, rel=0.02)
    assert one.density / one.density_low == pytest.approx(1.2, rel=0.02)


@pytest.mark.parametrize("name", HARD)
def test_hardwoods_say_that_they_are_from_memory(name):
    assert TIMBER_CLASSES[name].cite.provenance is Provenance.MEMORY
    assert TIMBER_CLASSES[name].tension == pytest.approx(0.6 * TIMBER_CLASSES[name].bending, abs=0.6e6)
