"""Three unlike sections, and all curves of each compared once."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.shape.envelope import Screen, ribs_of
from bermwright.adapt.shape.limits import limits_of
from bermwright.adapt.shape.search import Comparison, Search, compare_curves
from bermwright.formats.house_file import load
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from bermwright.house import House, Vault

EXAMPLES = Path(__file__).parents[4] / "examples"
NAMES = ("tall from the ground", "thick cover on walls", "well as it is")


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """One vault with its comparison."""

    house: House
    vault: Vault
    comparison: Comparison
    search: Search


def quietly(house: House, vault: Vault, **mound: float) -> tuple[House, Vault]:
    """The house with one vault, thick lifts and no loads that come and go, so that it is solved quickly."""
    here = replace(vault, mound=replace(vault.mound, **mound))
    soil = tuple(replace(one, saturated_unit_weight=None) for one in house.site.soil)
    site = replace(house.site, ground_snow=0.0, overflow=None, accessible_roof=None, soil=soil)
    stages = replace(house.stages, lift=0.5, lead=0.2)
    return replace(house, site=site, vaults=(here,), stages=stages), here


@pytest.fixture(scope="session")
def kettle_hill() -> House:
    return load(EXAMPLES / "kettle-hill.toml").house


@pytest.fixture(scope="session")
def larch_bank() -> House:
    return load(EXAMPLES / "larch-bank.toml").house


@pytest.fixture(scope="session")
def sections(kettle_hill: House, larch_bank: House) -> dict[str, Section]:
    tall, low = kettle_hill.vaults[0], larch_bank.vaults[0]
    thick = replace(low, curve=CurveKind.PARABOLA, rise=1.6, springing=0.9)
    good = replace(low, curve=CurveKind.THREE_CENTRED, side_radius=0.56)
    three = (quietly(kettle_hill, tall), quietly(larch_bank, thick, crown=0.5), quietly(larch_bank, good))
    return {name: compared(*one) for name, one in zip(NAMES, three, strict=True)}


def compared(house: House, vault: Vault) -> Section:
    limits = limits_of(house, vault)
    screen = Screen.of(ribs_of(house, vault))
    search = Search(house=house, vault=vault, limits=limits, screen=screen, progress=lambda _step: None)
    return Section(house=house, vault=vault, comparison=compare_curves(house, vault), search=search)
