"""Bodies stay closed for readers that know corners by their places; printed parts hold what they should."""

from __future__ import annotations

import numpy as np
import pytest
from invented import VAULTS, invented

from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids, shell_of
from bermwright.form.solids import Kind, vault_solids, volume_of
from bermwright.form.solids.bodies import box, joined, pushed, pushed_across
from bermwright.form.solids.printing import NotClosedError, _closed, _Raw, print_dome, print_parts
from bermwright.form.solids.welding import on_grid, touching, welded

CUBE = np.array([[x, y, z] for x in (0.0, 1.0) for y in (0.0, 1.0) for z in (0.0, 1.0)])
FACES = np.array([
    [0, 1, 3], [0, 3, 2], [4, 6, 7], [4, 7, 5], [0, 4, 5], [0, 5, 1],
    [2, 3, 7], [2, 7, 6], [0, 2, 6], [0, 6, 4], [1, 5, 7], [1, 7, 3],
])  # fmt: skip


def faces_at_edges(vertices, triangles):
    """How many triangles meet at each edge when corners are known by their places."""
    _, again = np.unique(np.round(vertices, 6), axis=0, return_inverse=True)
    corners = again.ravel()[triangles]
    edges = np.sort(np.concatenate([corners[:, [0, 1]], corners[:, [1, 2]], corners[:, [2, 0]]]), axis=1)
    return set(np.unique(edges, axis=0, return_counts=True)[1].tolist())


def test_corners_that_lie_on_each_other_become_one():
    doubled = np.vstack([CUBE, CUBE + 1e-9])
    faces = np.where(np.arange(12)[:, None] % 2, FACES, FACES + 8)
    vertices, triangles = welded(doubled, faces)
    assert len(vertices) == 8
    assert faces_at_edges(vertices, triangles) == {2}
    assert volume_of(vertices, triangles) == pytest.approx(1.0, rel=1e-8)


def test_a_sheet_without_thickness_is_taken_off():
    sheet = np.vstack([CUBE, [[0.5, 0.5, 2.0]]])
    flap = np.array([[1, 3, 8], [1, 8, 3]])
    vertices, triangles = welded(sheet, np.vstack([FACES, flap]))
    assert len(triangles) == 12
    assert volume_of(vertices, triangles) == pytest.approx(1.0)


def test_what_would_not_stay_closed_is_left_as_it_was():
    beside = CUBE + np.array([1.0, 1.0, 0.0])
    both, faces = np.vstack([CUBE, beside]), np.vstack([FACES, FACES + 8])
    vertices, triangles = welded(both, faces)
    assert vertices is both
    assert triangles is faces
    assert on_grid(both, faces, 1e-4) is None
    (edge,) = touching(both, faces, 1e-4)
    assert sorted(map(tuple, edge)) == [(1.0, 1.0, 0.0), (1.0, 1.0, 1.0)]


def test_ends_lie_where_they_were_asked_for():
    start, end = 5.05, 10.895984848484
    ring = [[0.1, 0.2], [7.3152000123, 0.2], [1.0, 3.0]]
    along = np.array(pushed(ring, start, end).bounding_box())
    assert along.tolist() == [0.1, start, 0.2, 7.3152000123, end, 3.0]
    across = np.array(pushed_across(ring, start, end).bounding_box())
    assert across.tolist() == [start, 0.1, 0.2, end, 7.3152000123, 3.0]
    assert pushed(ring, start, end).volume() == pytest.approx(0.5 * 7.2152000123 * 2.8 * (end - start))


def test_parts_that_only_touch_are_printed_as_one():
    pair = joined([box((0, 1), (0, 1), (0, 1)), box((1, 2), (1, 2), (0, 1))])
    vertices, triangles = _closed(_Raw("pair", pair, 1.0, "a cube"))
    assert faces_at_edges(vertices, triangles) == {2}
    assert volume_of(vertices, triangles) == pytest.approx(2.0, rel=1e-4)


def test_a_part_that_cannot_be_closed_is_refused(monkeypatch):
    monkeypatch.setattr("bermwright.form.solids.printing.on_grid", lambda *_: None)
    with pytest.raises(NotClosedError, match="does not close and is not written"):
        _closed(_Raw("cube", box((0, 1), (0, 1), (0, 1)), 1.0, "a cube"))


@pytest.mark.parametrize("name", VAULTS)
def test_bodies_and_printed_parts_of_other_houses_are_closed_and_whole(name):
    house = invented(name)
    vault = house.vaults[0]
    form = vault_form(house, vault)
    solids = vault_solids(house, vault, form)
    for one in solids.solids:
        if one.kind is not Kind.RIB:  # boards that touch each other stay boards
            assert faces_at_edges(one.vertices, one.triangles) == {2}, one.name
    parts = {part.name: part for part in print_parts(solids, form)}
    for part in parts.values():
        assert faces_at_edges(part.vertices / 20.0, part.triangles) == {2}, part.name
    mound = parts["mound"]
    earth = sum(one.total for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF})
    assert volume_of(mound.vertices, mound.triangles) == pytest.approx(earth, rel=5e-4)


@pytest.mark.parametrize("place", [0, 1])
def test_a_dome_is_printed_as_one_closed_part(place):
    house = invented("two domes")
    form = dome_form(house.domes[place])
    part = print_dome(form.name, shell_of(form), form.dome.thickness)
    assert faces_at_edges(part.vertices / 20.0, part.triangles) == {2}
    courses = sum(one.volume for one in dome_solids(house, form).solids if one.kind is Kind.COURSE)
    assert volume_of(part.vertices, part.triangles) == pytest.approx(courses, rel=1e-4)
