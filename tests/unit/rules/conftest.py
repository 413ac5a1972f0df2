"""Houses and studies that several tests of rules read."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.formats.house_file import load
from bermwright.rules.study import study_vault

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.house import House
    from bermwright.rules.study import Study

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="session")
def larch_bank() -> House:
    return load(EXAMPLES / "larch-bank.toml").house


@pytest.fixture(scope="session")
def kettle_hill() -> House:
    return load(EXAMPLES / "kettle-hill.toml").house


@pytest.fixture(scope="session")
def good_study(larch_bank: House) -> Study:
    return study_vault(larch_bank, larch_bank.vaults[0])


@pytest.fixture(scope="session")
def bad_study(kettle_hill: House) -> Study:
    return study_vault(kettle_hill, kettle_hill.vaults[0])


def with_vault(house: House, **changes: object) -> House:
    """The house with its only vault changed."""
    return replace(house, vaults=(replace(house.vaults[0], **changes),))


@pytest.fixture(scope="session")
def restudy(larch_bank: House) -> Callable[..., Study]:
    """The holding house studied again with its vault changed, without stop marks."""

    def again(**changes: object) -> Study:
        house = with_vault(larch_bank, **changes)
        return study_vault(house, house.vaults[0], stop_marks=False)

    return again
