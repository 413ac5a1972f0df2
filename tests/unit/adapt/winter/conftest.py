"""Two houses in their years, solved once: what the tests look at."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from functools import cache

import pytest

from bermwright.adapt.winter.winter import winter_of
from bermwright.app.climate import weather_of_place
from bermwright.formats.house_file import load

COARSE = 0.4
"""Of the section's triangles: quick, and near enough for what is compared here."""


@cache
def solved(path, climate: str):
    """The year of an example in a climate."""
    house = load(path).house
    house = replace(house, site=replace(house.site, climate=climate))
    with ThreadPoolExecutor(2) as pool:
        return winter_of(house, house.vaults[0], weather_of_place(climate), fineness=COARSE, share=pool.map)


@pytest.fixture(scope="session")
def larch_bank(repository):
    return solved(repository / "examples" / "larch-bank.toml", "normals:Östersund Frösön")


@pytest.fixture(scope="session")
def larch_bank_on_the_prairie(repository):
    return solved(repository / "examples" / "larch-bank.toml", "normals:Estevan")


@pytest.fixture(scope="session")
def kettle_hill(repository):
    return solved(repository / "examples" / "kettle-hill.toml", "normals:Estevan")
