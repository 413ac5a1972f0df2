"""A dome set out from its middle: circles, a square cross outside the dig, openings, dig by two routes."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.drawing import Arc
from bermwright.book.pages.setting_out.daily.rounds import round_days
from bermwright.form.setout import SetOutError, round_out, tape_of
from bermwright.formats.house_file import load
from bermwright.handbook.earthmoving import slice_volume
from bermwright.house import SettingOut

RING = Path(__file__).resolve().parents[3] / "examples" / "domes" / "rowan-ring.toml"
METRIC = tape_of("metric")


def house_of(settings=None, **site):
    house = load(RING).house
    return replace(house, site=replace(house.site, **site), setting_out=settings)


def set_out(settings=None, **site):
    house = house_of(settings, **site)
    return round_out(house, house.domes[0], tape=METRIC)


DUG = SettingOut(floor_build_up=0.35, dig_slope=math.radians(45.0))


def test_the_circles_are_the_wall_and_the_chain_is_shorter_by_its_hook():
    out = set_out()
    assert [one.radius for one in out.circles] == pytest.approx([2.1, 2.29, 2.48, 3.08])
    assert [one.radius - one.chain for one in out.circles] == pytest.approx([0.04] * 4)


def test_the_cross_is_square_and_its_lengths_are_those_between_the_pegs():
    out = set_out(DUG, floor=-0.2)
    pegs = [out.pegs * np.array([math.cos(t), math.sin(t)]) for t in np.arange(4) * 0.5 * math.pi]
    lengths = {one.words: one.length for one in out.checks}
    assert math.dist(pegs[0], pegs[2]) == pytest.approx(lengths["straight through the middle, both alike"])
    assert math.dist(pegs[0], pegs[1]) == pytest.approx(lengths["all four alike: the cross is square"])
    assert 5.0 * out.triangle <= lengths["all four alike: the cross is square"]


@pytest.mark.parametrize("slope", [0.0, 6.0, 14.0])
def test_pegs_and_post_stand_outside_the_dig(slope):
    out = set_out(DUG, floor=-0.3, slope=math.radians(slope), faces=math.radians(210.0))
    edge = max(radius for _, radius in out.edge)
    assert out.pegs >= edge + 1.2 - 1e-9
    assert out.post > out.pegs
    assert min(radius for _, radius in out.edge) >= 3.08 - 1e-9


def test_the_edge_of_the_dig_lies_on_the_side_and_on_the_ground():
    slope, faces = math.radians(8.0), math.radians(210.0)
    out = set_out(DUG, floor=-0.3, slope=slope, faces=faces)
    for turn, radius in out.edge:
        ground = 0.3 - math.tan(slope) * radius * math.cos(out.axis + turn - faces)
        assert ground == pytest.approx(-0.35 + (radius - 3.08), abs=1e-9)
    for number, level in enumerate(out.ground[1:]):
        turn = out.axis + number * 0.5 * math.pi
        assert level == pytest.approx(0.3 - math.tan(slope) * out.pegs * math.cos(turn - faces))


def test_the_dig_under_level_ground_is_a_cone_cut_off():
    out = set_out(DUG, floor=-0.65)
    cone = slice_volume([0.0, 0.5, 1.0], [math.pi * (3.08 + up) ** 2 for up in (0.0, 0.5, 1.0)])
    assert out.cuts[0].bank.low == pytest.approx(cone, rel=2e-4)
    assert out.cuts[0].bank.low == out.cuts[0].bank.high
    unknown = set_out(SettingOut(floor_build_up=0.35), floor=-0.65)
    assert unknown.cuts[0].bank.low == pytest.approx(math.pi * 3.08**2 * 1.0, rel=2e-4)
    assert unknown.cuts[0].bank.high > cone


def test_layers_add_up_on_a_slope():
    soil = load(RING.parents[1] / "larch-bank.toml").house.site.soil[0]
    layers = (replace(soil, name="topsoil, loam", thickness=0.3), soil)
    where = {"floor": -0.4, "slope": math.radians(9.0), "faces": math.radians(20.0)}
    one, two = set_out(DUG, **where, soil=(soil,)), set_out(DUG, **where, soil=layers)
    assert sum(cut.bank.low for cut in two.cuts) == pytest.approx(one.cuts[0].bank.low, rel=1e-9)
    u, v = np.meshgrid(np.arange(-6.0, 6.0, 0.02) + 0.01, np.arange(-6.0, 6.0, 0.02) + 0.01)
    away = np.hypot(u, v)
    falls = math.radians(20.0) - one.axis
    ground = 0.4 - math.tan(where["slope"]) * (u * math.cos(falls) + v * math.sin(falls))
    depth = np.maximum(ground + 0.35 - np.maximum(away - 3.08, 0.0), 0.0)
    assert one.cuts[0].bank.low == pytest.approx(float(depth.sum()) * 0.02**2, rel=2e-3)
    assert two.cuts[0].bank.low == pytest.approx(float(np.minimum(depth, 0.3).sum()) * 0.02**2, rel=2e-3)


def test_both_edges_of_an_opening_lie_on_the_inner_circle():
    house = house_of()
    out = set_out()
    zero = np.array([2.1, 0.0])
    for mark, opening in zip(out.marks, house.domes[0].openings, strict=True):
        spots = [2.1 * np.array([math.cos(turn), math.sin(turn)]) for turn in mark.turns]
        assert math.dist(*spots) == pytest.approx(opening.width)
        assert [math.dist(zero, spot) for spot in spots] == pytest.approx(list(mark.chords))


def test_what_is_not_known_is_asked_and_a_hill_as_steep_as_the_dig_is_refused():
    said = " ".join(set_out().open)
    assert "floor_build_up" in said
    assert "dig_slope" in said
    bare = set_out(DUG, floor=None)
    assert bare.cuts == ()
    assert "site.floor" in " ".join(bare.open)
    with pytest.raises(SetOutError, match="never meet this hillside"):
        set_out(
            SettingOut(floor_build_up=0.3, dig_slope=math.radians(20.0)),
            slope=math.radians(21.0),
            faces=0.0,
        )


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_the_days_fit_their_paper_and_are_drawn_true(system):
    house = house_of(DUG, floor=-0.3, slope=math.radians(8.0), faces=math.radians(210.0))
    out = round_out(house, house.domes[0], tape=tape_of(system))
    cross, circles = round_days(out, system)
    assert max(cross.height, circles.height) <= 218.0
    for sheet in (cross, circles):
        radii = sorted(item.radius for item in sheet.items if isinstance(item, Arc))
        assert radii == pytest.approx(sorted(1000.0 * one.radius / sheet.view.scale for one in out.circles))
