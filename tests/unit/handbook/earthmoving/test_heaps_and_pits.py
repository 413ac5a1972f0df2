"""Heaps stand at their slope; a pit has one volume by every route."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.earthmoving import (
    cone_heap,
    grid_volume,
    pit_volume,
    prismoidal_volume,
    slice_volume,
    windrow,
)


def test_a_cone_holds_its_volume_at_its_slope():
    heap = cone_heap(20.0, repose=0.6)
    assert np.pi * heap.radius**2 * heap.height / 3.0 == pytest.approx(20.0)
    assert heap.height / heap.radius == pytest.approx(np.tan(0.6))


def test_a_row_is_as_steep_as_a_cone():
    row = windrow(2.0, repose=0.6)
    assert row.area == pytest.approx(0.5 * row.width * 2.0)
    assert 4.0 / row.width == pytest.approx(np.tan(0.6))


@pytest.mark.parametrize(
    ("length", "width", "depth", "batter"), [(6, 5, 2, 1), (8, 3, 1.2, 1.5), (4, 4, 3, 0)]
)
def test_closed_form_prismoidal_rule_and_slices_agree(length, width, depth, batter):
    def area(up):
        return (length + 2 * batter * up) * (width + 2 * batter * up)

    closed = float(pit_volume(length, width, depth=depth, batter=batter))
    middle = prismoidal_volume(area(0), area(depth / 2), area(depth), length=depth)
    levels = np.linspace(0.0, depth, 7)
    assert closed == pytest.approx(float(middle))
    assert slice_volume(levels, [area(z) for z in levels]) == pytest.approx(closed)


def test_a_grid_comes_nearer_with_smaller_cells():
    def by_grid(step):
        x, y = np.arange(-5.0, 5.0 + step / 2, step), np.arange(-4.5, 4.5 + step / 2, step)
        past = np.maximum(np.abs(x)[None, :] - 3.0, np.abs(y)[:, None] - 2.5)
        return grid_volume(2.0 - np.clip(past, 0.0, 2.0), spacing_x=step, spacing_y=step)

    true = float(pit_volume(6.0, 5.0, depth=2.0, batter=1.0))
    assert abs(by_grid(0.1) - true) < 0.3 * abs(by_grid(0.5) - true) + 1e-9
    assert by_grid(0.1) == pytest.approx(true, rel=2e-3)


def test_a_grid_of_one_row_and_slices_without_middles_are_refused():
    with pytest.raises(OutOfRangeError, match="two rows"):
        grid_volume([[1.0, 2.0]], spacing_x=1.0, spacing_y=1.0)
    with pytest.raises(OutOfRangeError, match="halfway"):
        slice_volume([0.0, 1.0], [1.0, 1.0])
    with pytest.raises(OutOfRangeError):
        cone_heap(10.0, repose=1.2)
