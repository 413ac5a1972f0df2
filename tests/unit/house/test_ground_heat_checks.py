"""A conductivity that nothing of its kind has is refused with what is allowed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bermwright.formats.house_file import load
from bermwright.house import House
from bermwright.house.checks import contradictions


@pytest.fixture(scope="module")
def house(repository: Path) -> House:
    return load(str(repository / "examples" / "larch-bank.toml")).house


def said(house: House, **changes: object) -> list[str]:
    vault = house.vaults[0]
    last = len(vault.cover) - 1
    cover = (*vault.cover[:last], replace(vault.cover[last], **changes))  # type: ignore[arg-type]
    changed = replace(house, vaults=(replace(vault, cover=cover),))
    return [clash.allowed for clash in contradictions(changed) if clash.path[-1] == "conductivity"]


def test_the_example_fits(house: House) -> None:
    assert said(house) == []


@pytest.mark.parametrize("wrong", [0.65, 0.005])
def test_foam_that_conducts_like_stone_is_refused(house: House, wrong: float) -> None:
    (text,) = said(house, conductivity=wrong)
    assert "insulation conducts" in text
    assert "0.13" in text


def test_without_a_material_the_kind_of_layer_counts(house: House) -> None:
    assert len(said(house, material=None, conductivity=0.65)) == 1
    assert said(house, material=None, conductivity=None) == []
