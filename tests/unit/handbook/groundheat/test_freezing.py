"""Freezing ground against Neumann's solution, the linear solver, and bad input."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat import (
    Border,
    Conduction,
    FrostCourse,
    Material,
    Region,
    Section,
    assemble,
    freeze_year,
    freezing_heat,
    make_mesh,
    moist_conductivity,
    reduce_model,
    run_years,
    soil_heat_capacity,
)
from bermwright.handbook.groundheat.drive import Drive


def column(wet: Material, size: float) -> tuple[Section, Conduction]:
    section = Section(
        regions=(Region.box(wet, (0.0, size), (-9.0, 0.0), size=size),),
        borders=(Border.of("top", [(0.0, 0.0), (size, 0.0)]), Border.of("deep", [(0.0, -9.0), (size, -9.0)])),
        largest=size,
    )
    return section, assemble(make_mesh(section), section)


def front(full: Conduction, course: FrostCourse, day: int) -> float:
    """Depth at which half of the water is ice (m)."""
    depth, warm = -full.mesh.points[:, 1], course.temperature[day]
    order = np.argsort(depth)
    depth, warm = depth[order], warm[order]
    last = np.flatnonzero(warm <= -0.025).max()
    after = np.flatnonzero(depth > depth[last] + 1e-9).min()
    return float(np.interp(-0.025, [warm[last], warm[after]], [depth[last], depth[after]]))


def test_the_front_of_frost_lies_within_half_a_percent_of_neumanns() -> None:
    wet = Material(
        name="w",
        conductivity=1.6,
        capacity=2.6e6,
        frozen_conductivity=1.6,
        frozen_capacity=2e6,
        latent=53.44e6,
    )
    section, full = column(wet, 0.04)
    start = np.full(len(full.capacity), 4.0)
    course = freeze_year(full, section, {"top": -8.0, "deep": 4.0}, start=start, days=60)
    assert front(full, course, 59) == pytest.approx(1.269993, rel=0.005)
    assert course.balance < 1e-9
    assert course.hardest == 59


def test_temperatures_around_the_front_where_frozen_ground_conducts_more() -> None:
    wet = Material(
        name="w",
        conductivity=1.6,
        capacity=2.65e6,
        frozen_conductivity=2.2,
        frozen_capacity=2e6,
        latent=80.2e6,
    )
    section, full = column(wet, 0.03)
    start = np.full(len(full.capacity), 5.0)
    course = freeze_year(full, section, {"top": -10.0, "deep": 5.0}, start=start, days=30)
    assert front(full, course, 29) == pytest.approx(0.9974, rel=0.005)
    depth = -full.mesh.points[:, 1]
    order = np.argsort(depth, kind="stable")
    for at, printed in ((0.25, -7.425), (0.5, -4.878), (2.0, 2.746)):
        found = np.interp(at, depth[order], course.temperature[29][order])
        assert found == pytest.approx(printed, rel=0.005)


def test_without_water_it_agrees_with_the_linear_model() -> None:
    dry = Material(name="d", conductivity=1.6, capacity=2e6)
    section, full = column(dry, 0.1)
    start = np.full(len(full.capacity), 5.0)
    top = -20.0 * np.sin(2.0 * np.pi * np.arange(240) / 240.0)
    course = freeze_year(full, section, {"top": top, "deep": 5.0}, start=start, step=3600.0, days=9)
    linear = run_years(reduce_model(full), Drive(given={"top": top, "deep": 5.0}), start=5.0, marks=217)
    inner = (full.mesh.points[:, 1] < -0.15) & (full.mesh.points[:, 1] > -8.9)
    assert np.abs(course.temperature[8] - linear.field(216))[inner].max() < 0.05
    assert course.ice.max() == 0.0
    assert np.all((course.frozen(8) >= 0.0) & (course.frozen(8) <= 1.0))


def test_a_house_freezes_from_the_surface_and_stays_warm_inside(full: Conduction, section: Section) -> None:
    start = np.full(len(full.capacity), 6.0)
    given = {"room": 20.0, "roof": -12.0, "deep": 5.0}
    course = freeze_year(full, section, given, start=start, days=40)
    soil = full.looking @ course.temperature[39]
    assert course.balance < 1e-9
    assert course.added < 2.5e-4
    assert soil[full.watched.index("soil")] > 0.0
    assert course.ice[39] > course.ice[5] > 0.0


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"step": 5000.0}, "does not divide a day"),
        ({"step": 1.0}, "step is 1"),
        ({"start": np.zeros(3)}, "not as many temperatures"),
        ({"start": np.nan}, "start is nan"),
        ({"temperatures": {"room": 20.0, "roof": 0.0}}, "No temperature is given for deep"),
        ({"temperatures": {"room": 20.0, "roof": np.nan, "deep": 5.0}}, "temperature of roof|temperature"),
        ({"temperatures": {"room": np.zeros(48), "roof": np.zeros(24), "deep": 5.0}}, "different lengths"),
        ({"days": 0}, "days"),
    ],
)
def test_bad_input_is_refused(
    full: Conduction, section: Section, changed: dict[str, object], says: str
) -> None:
    good: dict[str, object] = {
        "temperatures": {"room": 20.0, "roof": -5.0, "deep": 5.0},
        "start": np.full(len(full.capacity), 5.0),
        "days": 2,
    }
    if isinstance(changed.get("start"), float):
        changed = {"start": np.full(len(full.capacity), np.nan)}
    with pytest.raises(OutOfRangeError, match=says):
        freeze_year(full, section, **(good | changed))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("density", "full_pores", "quartz"), [(700.0, 0.5, 0.3), (1600.0, 0.05, 0.3), (1600.0, 0.5, 1.1)]
)
def test_soils_that_cannot_be_are_refused(density: float, full_pores: float, quartz: float) -> None:
    with pytest.raises(OutOfRangeError):
        moist_conductivity(density, full_pores, quartz, fine=True)
    with pytest.raises(OutOfRangeError):
        soil_heat_capacity(density, -0.1)
    with pytest.raises(OutOfRangeError):
        freezing_heat(5000.0, 0.1)
