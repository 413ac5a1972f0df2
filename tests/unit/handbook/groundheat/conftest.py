"""A small house in the ground that the tests of this folder share."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.handbook.groundheat import (
    Border,
    Conduction,
    Material,
    Reduced,
    Region,
    Section,
    Source,
    assemble,
    make_mesh,
    reduce_model,
)

SOIL = Material(
    name="soil", conductivity=1.6, capacity=2.2e6, frozen_conductivity=2.1, frozen_capacity=1.8e6, latent=50e6
)
FOAM = Material(name="foam", conductivity=0.036, capacity=5e4)
EARTH = Material(name="earth", conductivity=0.9, capacity=1.7e6)
SURFACE = [(-8.0, 0.5), (-3.0, 0.5), (-0.6, 2.3), (0.6, 2.3), (3.0, 0.5), (8.0, 0.5)]


def arc(radius: float, count: int = 33) -> np.ndarray:
    turn = np.linspace(0.0, np.pi, count)
    return np.stack([radius * np.cos(turn), radius * np.sin(turn)], axis=1)


def small_house() -> Section:
    """A half-round vault of 1.5 m under foam, on the ground, with a floor of earth on foam."""
    ground = [*SURFACE, (8.0, -6.0), (-8.0, -6.0)]
    return Section(
        regions=(
            Region.of(ground, SOIL),
            Region.of(arc(1.7), FOAM, size=0.1),
            Region.box(FOAM, (-1.5, 1.5), (-0.25, -0.1), size=0.1),
            Region.box(EARTH, (-1.5, 1.5), (-0.1, 0.0), size=0.07),
            Region.of(arc(1.5), None, size=0.1),
        ),
        borders=(
            Border.of("room", arc(1.5), 8.0),
            Border.of("room", [(-1.5, 0.0), (1.5, 0.0)], 6.0, size=0.1),
            Border.of("roof", SURFACE, 25.0, size=0.12),
            Border.of("deep", [(-8.0, -6.0), (8.0, -6.0)], 0.2),
        ),
        sources=(Source(name="floor", line=np.array([(-1.5, 0.0), (1.5, 0.0)])),),
        watch={"crown": (0.0, 1.5), "corner": (1.5, 0.0), "soil": (0.0, -1.0), "floor": (0.0, 0.0)},
        fine=((-1.5, 0.0, 2e-3), (1.5, 0.0, 2e-3)),
        largest=1.2,
        growth=0.3,
    )


@pytest.fixture(scope="session")
def section() -> Section:
    return small_house()


@pytest.fixture(scope="session")
def full(section: Section) -> Conduction:
    return assemble(make_mesh(section), section)


@pytest.fixture(scope="session")
def model(full: Conduction) -> Reduced:
    return reduce_model(full)
