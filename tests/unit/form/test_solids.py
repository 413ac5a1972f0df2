"""The house as closed bodies: whole, apart from each other, and holding what the take-off counts."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import shapely

from bermwright.form import vault_form
from bermwright.form.known import FormUnknownError
from bermwright.form.solids import Kind, house_solids, is_closed, vault_solids, volume_of
from bermwright.form.solids.bodies import box, pipe, solid
from bermwright.form.solids.cutting import contour, cut, shadow
from bermwright.form.solids.earthwork.heights import end_earth
from bermwright.form.solids.printing import print_parts
from bermwright.form.solids.seen import picture
from bermwright.formats.house_file import load
from bermwright.house.choices import CurveKind, Structure
from bermwright.takeoff.bodies import Compared, compared, differing

EXAMPLES = Path(__file__).parents[3] / "examples"
NAMES = ("larch-bank", "kettle-hill", "alder-loft", "sedge-bank")
THROUGH = {Kind.RIB}
"""Ribs stand square to their curve, so that a corner of each foot dips into its wall."""


@cache
def made(name):
    house = load(EXAMPLES / f"{name}.toml").house
    vault = house.vaults[0]
    form = vault_form(house, vault)
    return house, vault, form, vault_solids(house, vault, form)


@pytest.mark.parametrize("name", NAMES)
def test_every_body_is_closed_and_holds_something(name):
    *_, solids = made(name)
    names = [one.name for one in solids.solids]
    assert len(names) == len(set(names))
    for one in solids.solids:
        assert is_closed(one.triangles), one.name
        assert 0.0 < one.volume <= one.whole * (1.0 + 1e-9), one.name
        assert np.all(np.isfinite(one.vertices))


@pytest.mark.parametrize("name", NAMES)
def test_bodies_agree_with_the_take_off(name):
    rows = compared(*made(name))
    assert {"ribs, finished", "fill, compacted", "turf, volume"} <= {row.name for row in rows}
    for row in rows:
        assert row.agrees, (row.name, row.taken_off, row.bodies)


@pytest.mark.parametrize("name", NAMES)
def test_a_body_that_differs_from_the_take_off_says_why(name):
    rows = {row.name: row for row in compared(*made(name))}
    fill, turf = rows["fill, compacted"], rows["turf, volume"]
    assert abs(fill.apart) < 0.01
    assert abs(turf.apart) < 0.01
    assert "walls and their insulation" in fill.why


@pytest.mark.parametrize("name", NAMES)
def test_heights_on_a_grid_and_bodies_give_the_same_earth(name):
    rows = {row.name: row for row in compared(*made(name))}
    for earth in (rows["fill, compacted"], rows["turf, volume"]):
        assert earth.bodies == pytest.approx(earth.taken_off, rel=1e-4)


def test_the_ways_before_the_ends_are_not_filled():
    house, vault, form, _ = made("larch-bank")
    open_ways = end_earth(house, vault, form)
    filled = end_earth(replace(house, ends=()), vault, form)
    for side in ("front", "back"):
        assert open_ways[side].fill < 0.8 * filled[side].fill


def test_an_unknown_take_off_agrees_with_nothing():
    row = next(iter(compared(*made("larch-bank"))))
    assert not replace(row, taken_off=np.nan).agrees
    assert not replace(row, bodies=np.nan).agrees


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize(("axis", "share"), [("y", 0.51), ("y", 0.003), ("x", 0.6), ("z", 0.7)])
def test_no_two_bodies_are_in_the_same_place(name, axis, share):
    _, _, form, solids = made(name)
    at = {"y": share * form.length, "x": share, "z": share}[axis]
    faces = [face for face in cut(solids.solids, axis, at) if face.kind not in THROUGH]
    assert len(faces) > 2
    for place, one in enumerate(faces):
        for other in faces[:place]:
            both = shapely.intersection(one.shape, other.shape).area
            assert both < 2e-3, (one.name, other.name, both)


def test_slices_add_up_to_the_volume():
    *_, solids = made("sedge-bank")
    for name in ("fill", "turf"):
        one = solids.solid(name)
        assert one is not None
        places = np.linspace(one.low[1], one.high[1], 161)
        middles = 0.5 * (places[1:] + places[:-1])
        areas = [sum(face.shape.area for face in cut([one], "y", float(at))) for at in middles]
        assert float(np.mean(areas)) * (one.high[1] - one.low[1]) == pytest.approx(one.volume, rel=2e-3)


def test_the_hillside_rises_with_the_slope_of_the_file():
    house, _, form, solids = made("sedge-bank")
    ground = solids.solid("natural ground")
    assert ground is not None
    (section,) = cut([ground], "x", float(form.ground.natural.x[0]) + 0.5)
    ends = [at for at, _ in section.shape.exterior.coords]
    tops = [max(z for at, z in section.shape.exterior.coords if at == end) for end in (min(ends), max(ends))]
    rise = (tops[1] - tops[0]) / (max(ends) - min(ends))
    assert rise == pytest.approx(np.tan(house.site.slope), rel=1e-6)


def test_openings_are_cut_out_of_their_wall():
    house, _, _, solids = made("larch-bank")
    wall = solids.solid("front wall")
    assert wall is not None
    holes = [one for one in house.openings if str(one.side) == "front"]
    lost = sum(one.width * one.height for one in holes) * 0.06
    assert wall.whole - wall.volume == pytest.approx(lost, rel=1e-6)
    assert {hole.name for hole in solids.holes} == {one.name for one in house.openings}


def test_the_flue_cuts_the_rib_over_it_and_no_other():
    *_, solids = made("larch-bank")
    ribs = solids.layer(Kind.RIB)
    assert ribs is not None
    alike, cut_one = ribs.solids
    assert cut_one.name == "rib 7"
    assert len(alike.places) == 19
    assert cut_one.volume < cut_one.whole


def test_an_unknown_form_says_what_is_missing():
    house = load(EXAMPLES / "larch-bank.toml").house
    vault = replace(house.vaults[0], rise=None)
    with pytest.raises(FormUnknownError, match=r"vault\.rise"):
        house_solids(replace(house, vaults=(vault,)))


def test_walls_of_unknown_thickness_are_named_and_not_drawn():
    house, vault, form, _ = made("larch-bank")
    bare = replace(house, walls=(), footings=())
    solids = vault_solids(bare, vault, form)
    assert solids.layer(Kind.WALL) is None
    assert any("left wall is not drawn" in remark for remark in solids.remarks)


def test_a_round_rod_has_the_area_of_its_circle():
    assert pipe((0.0, 0.0), (0.0, 2.0), 0.15).volume() == pytest.approx(2.0 * np.pi * 0.075**2, rel=1e-9)


def test_volume_of_a_moved_box():
    one = solid("box", Kind.WALL, box((1.0, 3.0), (-2.0, 1.0), (5.0, 5.5)))
    assert volume_of(one.vertices, one.triangles) == pytest.approx(3.0)
    assert not is_closed(one.triangles[1:])


def test_what_stands_behind_is_not_seen():
    near = solid("near", Kind.WALL, box((0.0, 2.0), (0.0, 0.1), (0.0, 2.0)))
    far = solid("far", Kind.END, box((0.5, 3.0), (1.0, 1.1), (0.5, 1.5)))
    shown = picture([near, far], "front")
    far_lines = np.concatenate(
        [line for line, kind in zip(shown.lines, shown.kinds, strict=True) if kind is Kind.END]
    )
    assert far_lines[:, 0].min() == pytest.approx(2.0, abs=0.04)
    assert far_lines[:, 0].max() == pytest.approx(3.0)
    alone = picture([far], "front")
    lengths = np.hypot(*(alone.lines[:, 1] - alone.lines[:, 0]).T)
    assert lengths.sum() == pytest.approx(2.0 * (2.5 + 1.0), rel=1e-6)


@pytest.mark.parametrize("side", ["front", "back", "left", "right"])
def test_opposite_sides_show_mirror_images(side):
    block = solid("block", Kind.WALL, box((0.2, 1.0), (0.1, 2.0), (0.0, 0.5)))
    shown = picture([block], side)
    xs = shown.lines[:, :, 0]
    wanted = {"front": (0.2, 1.0), "back": (-1.0, -0.2), "left": (-2.0, -0.1), "right": (0.1, 2.0)}[side]
    assert (xs.min(), xs.max()) == pytest.approx(wanted)


def test_contours_close_round_the_house():
    _, _, form, solids = made("larch-bank")
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    inside = shapely.box(-2.0, 0.5, 2.0, form.length - 0.5)
    rings = contour(mound, 2.0, inside)
    assert all(ring.area < shadow(mound).area for ring in rings)
    assert any(ring.contains(inside.buffer(-0.1)) for ring in rings)


@pytest.mark.parametrize("name", ["larch-bank", "kettle-hill"])
def test_parts_to_print_are_closed_and_lie_on_the_bed(name):
    _, _, form, solids = made(name)
    parts = print_parts(solids, form)
    assert [part.name for part in parts] == ["shell", "base", "mound", "front wall", "back wall"]
    edge = -1.0
    for part in parts:
        assert is_closed(part.triangles), part.name
        assert part.vertices[:, 2].min() == pytest.approx(0.0, abs=1e-9)
        assert part.vertices[:, 0].min() > edge
        edge = float(part.vertices[:, 0].max())
        assert 0.0 < part.thinnest <= part.size.max()


def variant(name):
    house, vault, *_ = made("larch-bank")
    mound = vault.mound
    vaults = {
        "pointed": replace(vault, curve=CurveKind.POINTED, rise=2.6),
        "bent": replace(
            vault,
            curve=CurveKind.SEMICIRCLE,
            structure=Structure.BENT,
            board=replace(vault.board, thickness=0.025, width=0.15),
            layers=6,
            depth=None,
        ),
        "without turf": replace(vault, mound=replace(mound, turf=0.0)),
        "without end slopes": replace(vault, mound=replace(mound, front=None, back=None)),
        "drawn mound": replace(
            vault, mound=replace(mound, line=((-3.0, 0.45), (-2.0, 3.4), (2.0, 3.4), (3.0, 0.45)))
        ),
    }
    return replace(house, vaults=(vaults[name],)), vaults[name]


@pytest.mark.parametrize("name", ["pointed", "bent", "without turf", "without end slopes", "drawn mound"])
@pytest.mark.parametrize("bare", [False, True])
def test_other_shapes_are_closed_and_agree_too(name, bare):
    house, vault = variant(name)
    if bare:
        site = replace(house.site, slope=np.radians(6.0), faces=np.radians(100.0))
        house = replace(house, site=site, ends=(), openings=(), walls=(), footings=(), ground_heat=None)
    form = vault_form(house, vault)
    solids = vault_solids(house, vault, form)
    for one in solids.solids:
        assert is_closed(one.triangles), one.name
    for row in compared(house, vault, form, solids):
        assert row.agrees, (row.name, row.taken_off, row.bodies)


def test_bodies_agree_where_the_crown_is_a_valley():
    house = load(EXAMPLES / "larch-bank.toml").house
    # Lower than half its span, a pointed arch dips in the middle: only its inner faces show it.
    vault = replace(house.vaults[0], curve=CurveKind.POINTED, rise=1.4)
    assert vault.rise < 0.5 * vault.span
    form = vault_form(house, vault)
    rows = compared(house, vault, form, vault_solids(house, vault, form))
    assert [row.name for row in rows if not row.agrees] == []


def test_two_amounts_that_differ_are_told_with_digits_that_show_it():
    row = Compared(name="courses, volume", unit="m3", taken_off=6.5124, bodies=6.4926, true=6.6)
    assert not row.agrees
    assert differing(row) == "courses, volume is 6.51 m³ by the take-off and 6.49 m³ by bodies."
