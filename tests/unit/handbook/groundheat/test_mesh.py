"""Triangles follow the lines of a section and are of good shape."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat import (
    Border,
    Conduction,
    Material,
    Region,
    Section,
    Source,
    assemble,
    make_mesh,
)


def arc(radius: float, count: int = 33) -> np.ndarray:
    turn = np.linspace(0.0, np.pi, count)
    return np.stack([radius * np.cos(turn), radius * np.sin(turn)], axis=1)


STONE = Material(name="stone", conductivity=2.0, capacity=2e6)


def square(**changes: object) -> Section:
    given: dict[str, object] = {
        "regions": (Region.box(STONE, (0.0, 1.0), (0.0, 1.0), size=0.2),),
        "borders": (Border.of("in", [(0.0, 0.0), (1.0, 0.0)], 8.0),),
    }
    return Section(**(given | changes))  # type: ignore[arg-type]


def test_the_inner_surface_is_as_long_as_the_arc_and_has_no_steps(full: Conduction) -> None:
    chords = 32 * 2.0 * 1.5 * np.sin(np.pi / 64.0)
    assert full.lengths["room"] == pytest.approx(chords + 3.0, rel=1e-5)
    assert chords == pytest.approx(np.pi * 1.5, rel=5e-4)


def test_every_triangle_lies_in_one_material_and_areas_add_up(full: Conduction) -> None:
    mesh = full.mesh
    foam = mesh.areas[mesh.material == 1].sum()
    ring = 16.0 * np.sin(np.pi / 32.0) * (1.7**2 - 1.5**2)
    assert foam == pytest.approx(ring, rel=1e-4)
    assert np.all(mesh.areas > 0.0)


def test_triangles_are_of_good_shape(full: Conduction) -> None:
    corners = full.mesh.points[full.mesh.triangles]
    sides = np.sum((corners - np.roll(corners, 1, axis=1)) ** 2, axis=2)
    quality = 4.0 * np.sqrt(3.0) * full.mesh.areas / sides.sum(axis=1)
    assert np.median(quality) > 0.85
    assert quality.min() > 0.1


def test_each_inner_side_has_two_triangles_and_each_outer_one(full: Conduction) -> None:
    triangles = full.mesh.triangles
    pairs = np.sort(
        np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]]), axis=1
    )
    _, times = np.unique(pairs, axis=0, return_counts=True)
    assert set(times.tolist()) == {1, 2}
    assert (times == 1).sum() == len(full.mesh.edges)


def test_smaller_triangles_where_they_are_asked_for() -> None:
    coarse = make_mesh(square())
    fine = make_mesh(square(fine=((0.5, 0.5, 0.01),)))
    assert len(fine.points) > 2 * len(coarse.points)


def test_the_same_section_gives_the_same_mesh(section: Section) -> None:
    one, other = make_mesh(section), make_mesh(section)
    assert np.array_equal(one.points, other.points)
    assert np.array_equal(one.triangles, other.triangles)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"regions": (Region.box(None, (0, 1), (0, 1)),)}, "at least one region"),
        ({"borders": ()}, "at least one border"),
        ({"largest": 0.0}, "largest triangle"),
        ({"largest": float("nan")}, "largest triangle"),
        ({"growth": 2.0}, "growth"),
        ({"regions": (Region.box(STONE, (0.0, 1.0), (0.0, 1.0), size=1e-6),)}, "too small"),
        ({"regions": (Region.box(STONE, (0.0, float("nan")), (0.0, 1.0)),)}, "corners"),
    ],
)
def test_a_section_that_cannot_be_is_refused(changes: dict[str, object], says: str) -> None:
    with pytest.raises(OutOfRangeError, match=says):
        make_mesh(square(**changes))


def test_a_border_or_a_point_that_lies_nowhere_is_refused() -> None:
    astray = square(borders=(Border.of("in", [(2.0, 0.0), (3.0, 0.0)]),))
    with pytest.raises(OutOfRangeError, match='"in" lies nowhere'):
        assemble(make_mesh(astray), astray)
    outside = square(watch={"tree": (4.0, 4.0)})
    with pytest.raises(OutOfRangeError, match='"tree" lies outside'):
        assemble(make_mesh(outside), outside)
    shone = square(sources=(Source(name="sun", line=np.array([(0.0, 3.0), (1.0, 3.0)])),))
    with pytest.raises(OutOfRangeError, match='"sun" lies nowhere'):
        assemble(make_mesh(shone), shone)


@pytest.mark.parametrize(
    ("values", "says"),
    [
        ({"conductivity": 65e2}, "conductivity of cork"),
        ({"conductivity": 0.0}, "conductivity of cork"),
        ({"conductivity": float("nan")}, "conductivity of cork"),
        ({"frozen_conductivity": -1.0}, "frozen of cork"),
        ({"capacity": 10.0}, "heat capacity of cork"),
        ({"frozen_capacity": 1e9}, "frozen capacity of cork"),
        ({"latent": 1e9}, "latent heat of cork"),
    ],
)
def test_a_slipped_decimal_point_is_refused_with_what_is_allowed(values: dict[str, float], says: str) -> None:
    given = {"conductivity": 0.05, "capacity": 2e5} | values
    with pytest.raises(OutOfRangeError, match=f"{says}.*holds from"):
        Material(name="cork", **given)


def test_a_thin_sheet_between_thick_layers_is_followed() -> None:
    sheet = Material(name="sheet", conductivity=0.2, capacity=1e6)
    section = Section(
        regions=(
            Region.of(arc(2.0, 40), STONE, size=0.1),
            Region.of(arc(1.9, 40), sheet),
            Region.of(arc(1.88, 40), None),
        ),
        borders=(Border.of("in", arc(1.88, 40)), Border.of("out", arc(2.0, 40))),
    )
    mesh = make_mesh(section)
    assert mesh.areas[mesh.material == 1].sum() == pytest.approx(
        19.5 * np.sin(np.pi / 39) * (1.9**2 - 1.88**2), rel=1e-3
    )
