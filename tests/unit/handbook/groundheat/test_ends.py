"""Floors that end: cells made smaller until the flow stops, and the factor against them."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat import (
    FloorCase,
    end_factor,
    floor_conductance,
    floor_flow,
    strip_conductance,
)

SLAB = {"length": 12.0, "width": 12.0, "wall": 0.24, "conductivity": 1.9}
EDGES = ((0.12, 1.5), (0.06, 1.3), (0.03, 1.3))


@pytest.mark.slow
@pytest.mark.parametrize(
    ("case", "programs", "own"),
    [
        (FloorCase(**SLAB, depth=30.0, far=20.0), (2585.0, 2695.0), 2676.0),
        (
            FloorCase(**SLAB, depth=15.0, far=15.0, film_inside=100.0, film_outside=100.0),
            (2504.0, 2570.0),
            2552.0,
        ),
        (FloorCase(**SLAB, depth=15.0, far=8.0, film_inside=7.95), (2123.0, 2154.0), 2147.0),
    ],
    ids=["GC30a", "GC30b", "GC30c"],
)
def test_smaller_cells_bring_the_flow_among_the_published_programs(
    case: FloorCase, programs: tuple[float, float], own: float
) -> None:
    flow = [floor_flow(case, edge=edge, growth=growth) for edge, growth in EDGES]
    rise = np.diff(flow)
    assert np.all(rise > 0.0)
    assert rise[-1] < 0.8 * rise[0]
    assert programs[0] < flow[-1] < programs[1]
    assert flow[-1] == pytest.approx(own, rel=0.025)


@pytest.mark.parametrize(
    ("length", "width", "resistance"),
    [
        (7.5, 4.2, 0.17),
        (7.5, 4.2, 2.17),
        (7.5, 4.2, 5.17),
        (5.0, 5.0, 3.17),
        (12.0, 4.0, 1.17),
        (6.0, 6.0, 0.67),
    ],
)
def test_the_factor_of_the_ends_lies_within_three_percent_of_three_dimensions(
    length: float, width: float, resistance: float
) -> None:
    ground = {
        "width": width, "wall": 0.4, "conductivity": 2.0, "depth": 25.0, "far": 20.0,
        "film_inside": 1.0 / resistance, "film_outside": 25.0,
    }  # fmt: skip
    whole = floor_flow(FloorCase(length=length, **ground), edge=0.1, growth=1.4)
    endless = floor_flow(FloorCase(length=np.inf, **ground), edge=0.1, growth=1.4)
    factor = end_factor(length, width, wall=0.4, conductivity=2.0, resistance=resistance)
    assert factor == pytest.approx(whole / (length * endless), rel=0.03)


def test_a_long_floor_has_no_ends() -> None:
    endless = strip_conductance(5.0, wall=0.3, conductivity=2.0)
    rest = [
        floor_conductance(a, 5.0, wall=0.3, conductivity=2.0) - a * endless for a in (100.0, 200.0, 400.0)
    ]
    assert np.diff(rest) == pytest.approx(0.0, abs=0.5)
    assert end_factor(1000.0, 4.0, wall=0.3, conductivity=2.0, resistance=1.0) == pytest.approx(1.0, abs=0.01)


@pytest.mark.parametrize(
    "wrong", [{"length": 0.0}, {"width": -1.0}, {"wall": 0.0}, {"conductivity": np.nan}, {"resistance": 20.0}]
)
def test_floors_that_cannot_be_are_refused(wrong: dict[str, float]) -> None:
    good = {"length": 7.5, "width": 4.2, "wall": 0.4, "conductivity": 2.0, "resistance": 1.0}
    with pytest.raises(OutOfRangeError):
        end_factor(**(good | wrong))


@pytest.mark.parametrize(
    ("wrong", "size"),
    [
        ({"depth": 0.0}, {}),
        ({"inside": np.nan}, {}),
        ({"film_inside": 0.0}, {}),
        ({}, {"edge": 0.0}),
        ({}, {"growth": 1.0}),
    ],
)
def test_cases_that_cannot_be_are_refused(wrong: dict[str, float], size: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        floor_flow(FloorCase(**({**SLAB, "depth": 10.0, "far": 8.0} | wrong)), **size)


def test_more_boxes_than_fit_are_refused() -> None:
    with pytest.raises(OutOfRangeError, match="boxes are more"):
        floor_flow(FloorCase(**SLAB, depth=30.0, far=20.0), edge=0.002, growth=1.03)
