"""Steady heat against an independent solver, laws that always hold, and bad input."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from skfem import Basis, BilinearForm, ElementTriP0, ElementTriP2, FacetBasis, LinearForm, MeshTri, solve

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat import (
    Border,
    Conduction,
    Material,
    Region,
    Section,
    assemble,
    isotherms,
    linear_transmittance,
    make_mesh,
    steady,
    surface_temperature,
)

HELD = {"room": 20.0, "roof": -5.0, "deep": 5.0}


def test_scikit_fem_with_elements_of_second_order_agrees_on_the_same_section(
    full: Conduction, section: Section
) -> None:
    mesh = MeshTri(full.mesh.points.T.copy(), full.mesh.triangles.T.copy())
    basis = Basis(mesh, ElementTriP2())
    kinds = np.array([region.material.conductivity if region.material else 0 for region in section.regions])
    each = basis.with_element(ElementTriP0()).interpolate(kinds[full.mesh.material])

    @BilinearForm
    def conduct(u, v, w):
        return w["k"] * (u.grad[0] * v.grad[0] + u.grad[1] * v.grad[1])

    @BilinearForm
    def film(u, v, w):
        return w["h"] * u * v

    @LinearForm
    def load(v, w):
        return w["h"] * v

    import shapely

    matrix, right, flow_in = conduct.assemble(basis, k=each), np.zeros(basis.N), {}
    facets = mesh.boundary_facets()
    middle = mesh.p[:, mesh.facets[:, facets]].mean(axis=1).T
    for border in section.borders:
        near = shapely.distance(shapely.LineString(border.line), shapely.points(middle)) < 1e-4
        part = FacetBasis(mesh, ElementTriP2(), facets=facets[near])
        h = border.film + 0.0 * part.dx
        matrix = matrix + film.assemble(part, h=h)
        weight = load.assemble(part, h=h)
        right = right + HELD[border.port] * weight
        flow_in.setdefault(border.port, []).append(weight)
    theirs = solve(matrix, right)
    ours = steady(full, HELD)
    for port, weights in flow_in.items():
        there = sum(HELD[port] * weight.sum() - weight @ theirs for weight in weights)
        assert ours.flow[port] == pytest.approx(there, rel=0.006, abs=0.02)
    at_points = theirs[basis.nodal_dofs[0]]
    # Linear triangles are worst in the corner, where foam, soil and room meet in one point.
    corner = np.hypot(np.abs(full.mesh.points[:, 0]) - 1.5, full.mesh.points[:, 1]) < 0.1
    assert np.abs(ours.temperature - at_points)[~corner].max() < 0.2
    assert np.sqrt(np.mean((ours.temperature - at_points) ** 2)) < 0.03


def test_heat_in_is_heat_out(full: Conduction) -> None:
    assert steady(full, HELD, {"floor": 40.0}).balance < 1e-12


def test_no_place_is_warmer_or_colder_than_what_it_meets(full: Conduction) -> None:
    warm = steady(full, HELD).temperature
    assert warm.max() < 20.0
    assert warm.min() > -5.0


def test_one_temperature_everywhere_stays(full: Conduction) -> None:
    still = steady(full, dict.fromkeys(full.ports, 7.0))
    assert np.allclose(still.temperature, 7.0, atol=1e-9)
    assert max(map(abs, still.flow.values())) < 1e-9


@settings(max_examples=15)
@given(room=st.floats(-40, 60), roof=st.floats(-40, 60), deep=st.floats(-10, 20), sun=st.floats(0, 500))
def test_answers_add_up(full: Conduction, room: float, roof: float, deep: float, sun: float) -> None:
    whole = steady(full, {"room": room, "roof": roof, "deep": deep}, {"floor": sun})
    alone = [
        steady(full, {"room": room, "roof": 0.0, "deep": 0.0}).temperature,
        steady(full, {"room": 0.0, "roof": roof, "deep": 0.0}).temperature,
        steady(full, {"room": 0.0, "roof": 0.0, "deep": deep}, {"floor": sun}).temperature,
    ]
    assert np.allclose(whole.temperature, sum(alone), atol=1e-8)


@settings(max_examples=8)
@given(better=st.floats(0.02, 0.035), worse=st.floats(0.036, 0.08))
def test_more_insulation_never_loses_more(better: float, worse: float) -> None:
    flow = []
    for conductivity in (better, worse):
        foam = Material(name="foam", conductivity=conductivity, capacity=5e4)
        soil = Material(name="soil", conductivity=1.5, capacity=2e6)
        wall = Section(
            regions=(
                Region.box(soil, (0.0, 2.0), (0.0, 1.0)),
                Region.box(foam, (0.4, 0.6), (0.2, 1.0), size=0.1),
            ),
            borders=(
                Border.of("in", [(0.0, 0.0), (0.0, 1.0)], 8.0),
                Border.of("out", [(2.0, 0.0), (2.0, 1.0)], 25.0),
            ),
        )
        flow.append(steady(assemble(make_mesh(wall), wall), {"in": 20.0, "out": 0.0}).flow["in"])
    assert flow[0] <= flow[1]


def test_iso_10211_case_2_closes_on_the_own_value_with_smaller_triangles() -> None:
    from bermwright.evidence.warmth.groundheat import _bridge

    coarse = _bridge()
    fine = Section(
        regions=tuple(
            Region(outline=one.outline, material=one.material, size=0.4 * one.size) for one in coarse.regions
        ),
        borders=coarse.borders,
        watch=coarse.watch,
        largest=0.01,
    )
    still = steady(assemble(make_mesh(fine), fine), {"outside": 0.0, "inside": 20.0})
    assert still.flow["inside"] == pytest.approx(9.491, abs=0.01)
    assert still.watch["D"] == pytest.approx(6.263, abs=0.01)


@pytest.mark.parametrize(
    ("temperatures", "sources", "says"),
    [
        ({"room": 20.0, "roof": 0.0}, {}, "No temperature is given for deep"),
        (HELD | {"attic": 3.0}, {}, "attic: this section has only"),
        (HELD | {"room": float("nan")}, {}, "temperature is nan"),
        (HELD, {"lamp": 3.0}, "lamp: this section has only floor"),
        (HELD, {"floor": float("nan")}, "source is nan"),
    ],
)
def test_bad_input_is_refused(
    full: Conduction, temperatures: dict[str, float], sources: dict[str, float], says: str
) -> None:
    with pytest.raises(OutOfRangeError, match=says):
        steady(full, temperatures, sources)


def test_isotherms_of_each_level_are_lines_and_of_none_nothing(full: Conduction) -> None:
    warm = steady(full, HELD).temperature
    cold, mild, never = isotherms(full.mesh, warm, (0.0, 10.0, 99.0))
    assert never == ()
    assert all(line.shape[1] == 2 and len(line) >= 2 for line in (*cold, *mild))
    # The 10 degree line runs from foam to foam around the floor: one long line, not crumbs.
    assert max(len(line) for line in mild) > 50


def test_the_coldest_place_of_the_room_is_its_corner(full: Conduction) -> None:
    points, warm = surface_temperature(full, steady(full, HELD).temperature, "room")
    x, z = points[np.argmin(warm)]
    assert abs(x) == pytest.approx(1.5, abs=0.05)
    assert z == pytest.approx(0.0, abs=0.05)


def test_a_bridge_needs_a_difference(full: Conduction) -> None:
    still = steady(full, HELD)
    with pytest.raises(OutOfRangeError, match="difference"):
        linear_transmittance(still, still, "room", 0.0)
    assert linear_transmittance(still, still, "room", 25.0) == 0.0
