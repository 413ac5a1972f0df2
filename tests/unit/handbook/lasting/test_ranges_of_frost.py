"""Outside of its range nothing is said of frost and water, and unknown stays unknown."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.lasting import (
    frost_correction,
    frost_depth,
    insulated_frost_depth,
    latent_heat,
    lifting_head,
    stefan_depth,
)

if TYPE_CHECKING:
    from collections.abc import Callable

SILT = {
    "conductivity": 1.3, "index": 1.2e8, "mean": 3.0, "duration": 1.4e7, "latent": 8e7, "capacity": 1.9e6,
}  # fmt: skip


@pytest.mark.parametrize(
    ("call", "inputs"),
    [
        (latent_heat, {"dry_density": 100.0, "water": 0.1}),
        (latent_heat, {"dry_density": 1600.0, "water": np.nan}),
        (stefan_depth, {"conductivity": 0.0, "index": 1e8, "latent": 8e7}),
        (stefan_depth, {"conductivity": 1.0, "index": -1.0, "latent": 8e7}),
        (frost_correction, {"warmth": -0.1, "fusion": 0.2}),
        (frost_correction, {"warmth": 1.0, "fusion": 0.0}),
        (frost_depth, {**SILT, "mean": -2.0}),
        (frost_depth, {**SILT, "duration": 10.0}),
        (frost_depth, {**SILT, "capacity": np.nan}),
        (insulated_frost_depth, {"depth": -1.0, "conductivity": 1.0, "resistance": 1.0}),
        (insulated_frost_depth, {"depth": 1.0, "conductivity": 1.0, "resistance": 50.0}),
        (lifting_head, {"weight": -1.0}),
        (lifting_head, {"weight": 3600.0, "favourable": 1.2}),
    ],
)
def test_out_of_range_raises(call: Callable[..., Any], inputs: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        call(**inputs)


def test_they_broadcast() -> None:
    depths = insulated_frost_depth(np.array([1.0, 2.0]), 1.5, np.array([[0.0], [2.0]]))
    assert depths.shape == (2, 2)
    assert depths[0] == pytest.approx([1.0, 2.0])
    assert (np.diff(frost_correction(np.array([0.0, 1.0, 3.0]), 0.2)) < 0.0).all()
