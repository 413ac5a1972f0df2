"""Materials: every row lies in its class, and a slip of units is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.data.materials import CLASS_LIMITS, MATERIALS, MaterialClass, UnknownMaterialError, material


@pytest.mark.parametrize("name", list(MATERIALS))
def test_every_row_is_sound_and_sourced(name: str) -> None:
    row = material(name.upper())
    assert row is MATERIALS[name]
    low, high = CLASS_LIMITS[row.kind]
    assert low <= row.conductivity <= high
    assert row.cites
    assert row.vapour_wet <= row.vapour <= row.vapour_dry or row.vapour_dry == float("inf")
    assert 1e3 < row.volumetric < 5e6


def test_cork_of_sixty_five_is_a_slip() -> None:
    with pytest.raises(ValueError, match="slip of units"):
        replace(material("cork"), conductivity=65.0)
    with pytest.raises(ValueError, match="slip of units"):
        replace(material("steel"), conductivity=float("nan"))
    with pytest.raises(ValueError, match="no material"):
        replace(material("cork"), density=-1.0)
    with pytest.raises(ValueError, match="vapour factors"):
        replace(material("cork"), vapour_wet=20.0)


def test_a_near_name_is_offered() -> None:
    with pytest.raises(UnknownMaterialError, match="Did you mean 'softwood'"):
        material("soft wood")


def test_every_class_has_a_row() -> None:
    assert {row.kind for row in MATERIALS.values()} == set(MaterialClass)
