"""Houses to be mended: examples with one thing made too weak."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.mend.writing import changed
from bermwright.formats.house_file import load
from bermwright.rules.assess import assess

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Writes
    from bermwright.house import House
    from bermwright.rules.assess import Assessment

EXAMPLES = Path(__file__).resolve().parents[4] / "examples"


@pytest.fixture(scope="session")
def loft() -> House:
    """A house whose findings hold but a few that are tight."""
    return load(EXAMPLES / "alder-loft.toml").house


def weakened(house: House, *writes: tuple[tuple[str | int, ...], str | int | None]) -> Assessment:
    """The house with some keys made worse, looked at with its stop marks."""
    changes: Writes = writes
    return assess(changed(house, changes))


@pytest.fixture(scope="session")
def weak(loft: House) -> Assessment:
    """Thin bars in the walls, shoes that hold little, a low flue, a stove near the wood, thin joists."""
    return weakened(
        loft,
        (("wall", 0, "bars"), "12 mm"),
        (("socket", 0, "hold_across"), "5 kN"),
        (("stove", 0, "terminal_height"), "1.2 m"),
        (("stove", 0, "shield"), "no"),
        (("stove", 0, "shield_gap"), None),
        (("stove", 0, "lagging_distance"), "0.4 m"),
        (("floor", 0, "joist"), "45 x 95 mm"),
    )


@pytest.fixture(scope="session")
def thin(loft: House) -> Assessment:
    """Ribs that bend too much: fewer layers of weaker timber, further apart."""
    return weakened(
        loft, (("vault", 0, "layers"), 3), (("vault", 0, "timber"), "C14"), (("vault", 0, "spacing"), "0.5 m")
    )
