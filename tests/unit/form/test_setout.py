"""Pegs outside the dig, lengths that prove, heights from one mark, a volume by two routes, arcs."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.form import vault_form
from bermwright.form.setout import SetOutError, compare_ordinates, house_surface, setting_out
from bermwright.form.setout.curve import curve_out
from bermwright.form.setout.earthwork.dig import Pit, cut_by_grid, cut_by_sections
from bermwright.form.setout.earthwork.heaping import heaps_of
from bermwright.form.setout.ground import Surface
from bermwright.formats.house_file import load
from bermwright.handbook.earthmoving import pit_volume
from bermwright.handbook.fitting import distance_to_curve
from bermwright.handbook.setout import corner_angle
from bermwright.house import CurveKind, SettingOut
from bermwright.takeoff.digging import balance_of

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"


def opened(name):
    house = load(EXAMPLES / f"{name}.toml").house
    return house, house.vaults[0]


@pytest.fixture(scope="module")
def bank():
    house, vault = opened("larch-bank")
    form = vault_form(house, vault)
    return house, vault, form, setting_out(house, vault, form)


@pytest.fixture(scope="module")
def hill():
    house, vault = opened("sedge-bank")
    form = vault_form(house, vault)
    return house, vault, form, setting_out(house, vault, form)


@pytest.mark.parametrize("place", ["bank", "hill"])
def test_boards_stand_outside_the_dig_and_carry_every_string(place, request):
    _, _, _, out = request.getfixturevalue(place)
    outline = np.array(out.dig.outline)
    for board in out.plan.boards:
        spot = np.array(board.start)
        outside = np.maximum(outline.min(axis=0) - spot, spot - outline.max(axis=0)).max()
        assert outside >= out.settings.board_distance - 1e-9
        for number in board.strings:
            line = out.plan.strings[number - 1]
            axis = 1 if line.along else 0
            low, high = sorted((board.start[axis], board.end[axis]))
            assert low + 0.29 <= line.place <= high - 0.29
    carried = [number for board in out.plan.boards for number in board.strings]
    assert {carried.count(line.number) for line in out.plan.strings if line.words != "axis"} == {2}


def test_the_lengths_to_check_are_those_between_the_pegs(bank):
    _, vault, _, out = bank
    for check in out.plan.checks:
        for pair in check.between.split(", "):
            first, last = pair.split("–")
            assert math.dist(out.plan.peg(first).at, out.plan.peg(last).at) == pytest.approx(check.length)
    k = out.plan.triangle
    assert corner_angle(3 * k, 4 * k, 5 * k) == pytest.approx(0.5 * math.pi)
    assert vault.span - 0.3 < 3 * k <= vault.span + 1e-9


def test_strings_lie_where_walls_and_footings_have_their_faces(bank):
    _, vault, _, out = bank
    places = {line.words: line.place for line in out.plan.strings}
    assert places["right wall, outside"] - places["right wall, inside"] == pytest.approx(0.4)
    assert places["left footing, inside"] - places["left footing, outside"] == pytest.approx(1.8)
    assert places["right wall, inside"] - places["right footing, inside"] == pytest.approx(0.4)
    assert places["right line of the feet"] == pytest.approx(0.5 * vault.span)


def test_openings_are_marked_by_their_edges(bank):
    house, _, _, out = bank
    found = {one.name: one for one in out.openings}
    door = next(one for one in house.openings if one.name == "front door")
    assert (found["front door"].low, found["front door"].high) == pytest.approx((-1.075, -0.125))
    assert found["front door"].head == pytest.approx(door.sill + door.height)
    assert found["front door"].in_end
    assert (found["stove pipe"].low, found["stove pipe"].high) == pytest.approx((2.225, 2.575))
    assert found["stove pipe"].sill is None


def test_heights_are_measured_from_one_mark_over_the_ground(bank):
    _, _, form, out = bank
    levels = {row.words: row.level for row in out.heights.rows}
    assert levels["underside of the footing"] == pytest.approx(-0.9)
    assert levels["springing, line of the feet"] == form.springing
    assert out.heights.down(levels["finished floor"]) == out.heights.datum
    assert [row.level for row in out.heights.rows] == sorted(levels.values(), reverse=True)
    assert [corner.to_footing for corner in out.heights.corners] == pytest.approx([1.35] * 4)


def test_on_a_slope_boards_step_and_footings_may(hill):
    _, vault, _, out = hill
    tops = {board.top for board in out.plan.boards}
    assert len(tops) > 1
    assert all(0.4 - 1e-9 <= board.high <= 1.2 + 1e-9 for board in out.plan.boards)
    steps = out.heights.steps[0]
    assert steps.count * steps.height == pytest.approx(steps.fall)
    assert steps.height <= out.settings.step
    assert steps.fall == pytest.approx(vault.length * math.tan(math.radians(9.0)), rel=1e-6)


@pytest.mark.parametrize("place", ["bank", "hill"])
def test_the_dig_has_one_volume_by_two_routes(place, request):
    _, _, _, out = request.getfixturevalue(place)
    assert out.dig.by_grid == pytest.approx(out.dig.by_sections, rel=2e-3)


@pytest.mark.parametrize("batter", [0.0, 0.5, 1.5])
@pytest.mark.parametrize("turn", [0.0, 0.7, 2.1, 4.0])
def test_sections_and_grid_agree_under_a_plane(batter, turn):
    pit = Pit(low=(-1.0, -3.0), high=(8.0, 3.0), bottom=-0.4, batter=batter)
    slope = 0.25 * np.array([np.cos(turn), np.sin(turn)])
    surface = Surface(coefficients=(0.9, *slope), middle=3.5, words="a plane")
    sections = cut_by_sections(pit, surface)
    assert cut_by_grid(pit, surface, cell=0.05) == pytest.approx(sections, rel=3e-3)
    level = Surface(coefficients=(0.9, 0.0, 0.0), middle=3.5, words="level")
    assert cut_by_sections(pit, level) == pytest.approx(float(pit_volume(9.0, 6.0, depth=1.3, batter=batter)))


def test_a_plane_that_dips_under_the_bottom_is_cut_only_where_it_lies_above():
    pit = Pit(low=(0.0, -2.0), high=(8.0, 2.0), bottom=0.0, batter=0.0)
    surface = Surface(coefficients=(0.0, 0.25, 0.0), middle=4.0, words="half of it")
    assert cut_by_sections(pit, surface) == pytest.approx(0.5 * 4.0 * 1.0 * 4.0)
    assert cut_by_grid(pit, surface) == pytest.approx(8.0, rel=1e-3)


def test_layers_add_up_and_swell(bank):
    house, vault, form, _ = bank
    soil = house.site.soil[0]
    layers = (replace(soil, name="topsoil, loam", thickness=0.25), soil)
    site = replace(house.site, soil=layers)
    settings = SettingOut(dig_slope=math.radians(45.0))
    out = setting_out(replace(house, site=site, setting_out=settings), vault, form)
    one = setting_out(replace(house, setting_out=settings), vault, form)
    assert out.dig.bank.low == pytest.approx(one.dig.bank.low, rel=1e-9)
    assert [cut.soil for cut in out.dig.cuts] == ["topsoil, loam", soil.name]
    assert all(cut.loose.low > cut.bank.low for cut in out.dig.cuts)
    assert one.dig.bank.low == one.dig.bank.high
    assert one.dig.known_slope


def test_heaps_stand_beyond_the_boards_at_their_slope(bank):
    house, _, _, out = bank
    (heap,) = heaps_of(house, out.dig, out.plan)
    assert -heap.middle[1] - 0.5 * heap.width >= -out.plan.low[1] + 1.0 - 1e-9
    assert math.tan(heap.repose) == pytest.approx(2.0 * heap.height / heap.width)
    straight = heap.length - heap.width
    held = 0.5 * heap.width * heap.height * straight + math.pi / 12.0 * heap.width**2 * heap.height
    assert held == pytest.approx(heap.loose)


def test_cut_less_backfill_and_mound_is_spare_or_missing(bank):
    house, vault, form, out = bank
    balance = balance_of(house, vault, form, out)
    assert balance.missing
    assert balance.spare.low <= balance.cut.low - balance.mound.high
    assert balance.cut.high == out.dig.bank.high
    assert balance.other == ()


def test_a_hillside_as_steep_as_the_dig_is_refused(hill):
    house, vault, form, _ = hill
    steep = replace(
        house,
        setting_out=SettingOut(dig_slope=math.radians(20.0)),
        site=replace(house.site, slope=math.radians(21.0)),
    )
    with pytest.raises(SetOutError, match="never meet this hillside"):
        setting_out(steep, vault, form)


def test_without_a_floor_there_is_no_dig_and_the_question_says_so(bank):
    house, vault, form, _ = bank
    out = setting_out(replace(house, ground_heat=None, setting_out=None), vault, form)
    assert out.dig is None
    assert out.heaps == ()
    assert "floor_build_up" in out.open[0]
    assert len(out.plan.boards) == 8


def test_the_file_turns_the_fall_into_along_and_across(hill):
    house, vault, form, _ = hill
    surface = house_surface(house, vault, form)
    # It faces 255°, the axis runs to 75°: walking in is straight uphill.
    rise = surface.level(vault.length, 0.0) - surface.level(0.0, 0.0)
    assert rise == pytest.approx(vault.length * math.tan(math.radians(9.0)))
    assert surface.level(2.0, 3.0) == pytest.approx(surface.level(2.0, -3.0))
    assert surface.level(0.5 * vault.length, 0.0) == pytest.approx(0.45)


@pytest.mark.parametrize("place", ["bank", "hill"])
def test_the_arcs_lie_on_the_curve_and_touch(place, request):
    _, _, form, out = request.getfixturevalue(place)
    line = form.rib.inside
    for before, after in zip(out.curve.arcs, out.curve.arcs[1:], strict=False):
        assert before.end == pytest.approx(after.start, abs=1e-6)
        apart = math.hypot(before.x - after.x, before.z - after.z)
        assert apart == pytest.approx(abs(before.centreline - after.centreline), abs=1e-6)
    for arc in out.curve.arcs:
        ends = np.array([arc.start, arc.end]) - [arc.x, arc.z]
        turns = np.linspace(*np.arctan2(ends[:, 1], ends[:, 0]), 30)
        x, z = arc.x + arc.inside * np.cos(turns), arc.z + arc.inside * np.sin(turns)
        off = distance_to_curve(x, z, line.x, line.z - form.springing)
        assert np.abs(off).max() < out.curve.deviation + 1e-4


HORSESHOE = ((-1.7, 0.0), (-2.05, 0.8), (-1.85, 1.8), (-1.0, 2.6), (0.0, 2.85), (1.0, 2.6), (1.85, 1.8),
             (2.05, 0.8), (1.7, 0.0))  # fmt: skip
UNLIKE = ((-2.2, 0.0), (-2.05, 0.9), (-1.3, 1.75), (-0.3, 2.1), (0.8, 1.9), (1.7, 1.15), (2.2, 0.0))


@pytest.mark.parametrize("points", [HORSESHOE, UNLIKE])
def test_the_allowance_for_the_shell_holds_for_feet_that_lean_out_or_differ(points):
    """The nails found from the clear span lie where the feet of the middle line are."""
    house, vault = opened("kettle-hill")
    span = points[-1][0] - points[0][0]
    drawn = replace(vault, curve=CurveKind.DRAWN, points=points, span=span, rise=None, depth=0.11)
    form = vault_form(replace(house, vaults=(drawn,), openings=(), ends=()), drawn)
    line = curve_out(form, drawn).string
    assert line.nails == pytest.approx(span, abs=1e-9)
    assert line.from_clear == pytest.approx(span, abs=1e-5)


def test_the_string_of_a_catenary_is_the_curve_and_its_shell_leaves_the_clear_span():
    house, vault = opened("kettle-hill")
    out = setting_out(house, vault, vault_form(house, vault))
    line = out.curve.string
    assert line.hangs
    assert line.hung == pytest.approx(line.length, abs=1e-4)
    assert line.from_clear == pytest.approx(line.nails, abs=1e-3)
    assert line.clear < line.nails


def test_a_wrong_ordinate_is_named_on_the_drawn_curve(bank):
    _, _, form, _ = bank
    at = np.arange(-1.5, 1.51, 0.25)
    line = form.rib.inside
    drawn = np.interp(at, line.x, line.z) - form.springing
    measured = drawn.copy()
    measured[4] += 0.012
    rows = compare_ordinates(form, at, measured)
    assert [row.at for row in rows if row.unfair] == [pytest.approx(-0.5)]
    assert rows[4].off == pytest.approx(0.012, abs=1e-4)
    assert not any(row.unfair for row in compare_ordinates(form, at, drawn))
    with pytest.raises(SetOutError, match="even distances"):
        compare_ordinates(form, at[:4], measured[:4])
