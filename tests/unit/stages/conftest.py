"""A semicircle under soil: every amount has a closed form."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.form import vault_form
from bermwright.house import (
    About,
    Board,
    Cover,
    CoverKind,
    CurveKind,
    House,
    Mound,
    Site,
    Structure,
    Vault,
)
from bermwright.stages import Given, build_of

RADIUS, DEPTH = 2.0, 0.12
PLANKS, FOAM = 0.04, 0.1
FACE = RADIUS + 0.5 * DEPTH + PLANKS + FOAM
TOP, WIDE, TURF = 3.0, 12.0, 0.15
LEVEL_MOUND = Mound(
    turf=TURF, line=((-0.5 * WIDE, TOP), (0.5 * WIDE, TOP)), natural=((-9.0, 0.0), (9.0, 0.0))
)
GIVEN = Given(
    timber_density=420.0,
    unit_weight=20e3,
    saturated_unit_weight=22e3,
    snow=2.0e3,
    snow_short=False,
    overflow=None,
    roof_load=400.0,
    roof_title="maintenance",
    lift=0.3,
    lead=0.2,
    compaction="hand rammer",
    crown_first=0.0,
    crown_first_width=1.0,
    ballast=None,
    members=(),
)


def a_form(**changes):
    vault = Vault(
        name="room",
        curve=CurveKind.SEMICIRCLE,
        span=2 * RADIUS,
        length=6.0,
        springing=0.0,
        structure=Structure.SEGMENT_RIBS,
        board=Board(thickness=0.032, width=0.195),
        layers=3,
        spacing=0.6,
        timber="C18",
        board_length=1.0,
        depth=DEPTH,
        cover=(
            Cover(kind=CoverKind.LAGGING, thickness=PLANKS, unit_weight=5e3),
            Cover(kind=CoverKind.INSULATION, thickness=FOAM, unit_weight=300.0),
        ),
        mound=LEVEL_MOUND,
    )
    site = changes.pop("site", Site(floor=0.0, slope=0.0))
    vault = replace(vault, **changes)
    return vault_form(House(about=About(name="Test"), site=site, vaults=(vault,)), vault)


@pytest.fixture(scope="session")
def form():
    return a_form()


@pytest.fixture(scope="session")
def build(form):
    return build_of(form, GIVEN)


@pytest.fixture(scope="session")
def shaped():
    """A build of the same vault with something of its form changed."""
    return lambda **changes: build_of(a_form(**changes), GIVEN)


@pytest.fixture(scope="session")
def told(build):
    """The same build with something else given of its building."""
    return lambda **given: replace(build, given=replace(GIVEN, **given))
