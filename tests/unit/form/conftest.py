"""Houses for the tests of the form."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.base.ranges import Range
from bermwright.form import vault_form
from bermwright.house import (
    About,
    Board,
    Cover,
    CoverKind,
    CurveKind,
    Fill,
    House,
    Mound,
    Site,
    Structure,
    Vault,
)

SITE = Site(floor=-0.45, slope=0.0, water_depth=Range(1.8, 2.6))
HILLSIDE = replace(SITE, slope=np.radians(8.0), faces=np.radians(165.0))
MOUND = Mound(crown=0.35, left=np.arctan(1 / 2.5), right=np.arctan(1 / 2.5), turf=0.1)
UNEVEN = replace(MOUND, right=np.arctan(1 / 3))
LINE = ((-8.0, 0.45), (-3.0, 3.0), (-1.0, 3.8), (1.0, 3.8), (6.0, 0.45))
VAULT = Vault(
    name="day room",
    curve=CurveKind.CATENARY,
    span=4.8,
    rise=1.9,
    length=7.5,
    springing=0.9,
    structure=Structure.SEGMENT_RIBS,
    board=Board(0.032, 0.195),
    depth=0.15,
    layers=4,
    spacing=0.6,
    timber="C18",
    axis=np.radians(75.0),
    board_length=1.5,
    cover=(
        Cover(kind=CoverKind.LAGGING, thickness=0.05, unit_weight=5e3),
        Cover(kind=CoverKind.INSULATION, thickness=0.1, unit_weight=0.3e3, name="foam"),
    ),
    fill=Fill(unit_weight=Range(19e3, 20e3), friction_angle=Range(np.radians(30), np.radians(34))),
    mound=MOUND,
)


def _house(site=SITE, **changes) -> House:
    return House(about=About(name="invented"), site=site, vaults=(replace(VAULT, **changes),))


@pytest.fixture(scope="session")
def house():
    """A house with one vault, changed: `house(site=..., span=5.0)`."""
    return _house


CASES = {
    "catenary": {},
    "under cover": {"curve": CurveKind.UNDER_COVER},
    "under cover, uneven": {"curve": CurveKind.UNDER_COVER, "mound": UNEVEN},
    "under cover, hillside": {"curve": CurveKind.UNDER_COVER, "mound": UNEVEN, "site": HILLSIDE},
    "under cover, drawn ground": {"curve": CurveKind.UNDER_COVER, "mound": replace(MOUND, line=LINE)},
    "pointed": {"curve": CurveKind.POINTED, "rise": 3.0},
    "drop": {"curve": CurveKind.POINTED, "rise": None, "centre_offset": -0.2},
    "semicircle": {"curve": CurveKind.SEMICIRCLE, "rise": None},
    "three-centred": {"curve": CurveKind.THREE_CENTRED, "side_radius": 1.4},
    "egg": {
        "curve": CurveKind.EGG,
        "rise": 3.0,
        "base_centre": 0.5,
        "flank_radius": 4.0,
        "crown_radius": 1.5,
    },
    "level soil": {"curve": CurveKind.LEVEL_SOIL},
    "drawn": {
        "curve": CurveKind.DRAWN,
        "rise": None,
        "points": ((-2.4, 0.0), (-2.1, 0.9), (-1.2, 1.8), (0.0, 2.1), (1.2, 1.8), (2.1, 0.9), (2.4, 0.0)),
    },
    "three layers": {"layers": 3, "rise": 4.0, "springing": 0.0},
    "two layers": {"layers": 2, "board_length": 0.9},
}


@pytest.fixture(scope="session", params=CASES)
def form(request):
    """The form of each case."""
    house = _house(**CASES[request.param])
    return vault_form(house, house.vaults[0])
