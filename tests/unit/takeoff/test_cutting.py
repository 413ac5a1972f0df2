"""The cut list of the example: every piece once, nothing on a fault, pieces that make the rib again."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import combinations, pairwise
from pathlib import Path

import numpy as np
import pytest
import shapely
from shapely.affinity import translate

from bermwright.app.opening import open_house
from bermwright.base.errors import HouseFileError
from bermwright.book.templates import lay_flat
from bermwright.form import vault_form
from bermwright.form.rib.flat import crossing
from bermwright.formats.house_file.reading import read
from bermwright.house import Board, Saw, Stock
from bermwright.takeoff.cutting import NothingFitsError, Offcut, Part, end_wall, end_walls, house_plan
from bermwright.takeoff.cutting.end_wall import LEAST, STAGGER
from bermwright.takeoff.cutting.nesting import beside_other
from bermwright.takeoff.cutting.wanted import rib_kinds, run_lengths

EXAMPLE = Path(__file__).resolve().parents[3] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def house():
    return open_house(EXAMPLE).house


@pytest.fixture(scope="module")
def forms(house):
    return tuple((vault, vault_form(house, vault)) for vault in house.vaults)


@pytest.fixture(scope="module")
def plan(house, forms):
    return house_plan(house, forms)


def test_every_piece_of_every_rib_is_cut_once(plan, forms):
    form = forms[0][1]
    cut = Counter(
        label
        for one in plan.lists
        for board in one.boards
        for placed in board.placed
        for label in placed.labels
        if placed.kind.part is Part.RIBS
    )
    # Two ribs more: those beside the stove pipe are doubled.
    ribs = [*range(1, form.ribs + 1), "T1", "T2"]
    wanted = {f"{rib}-{piece.name}" for rib in ribs for piece in form.rib.pieces}
    assert plan.complete
    assert set(cut) == wanted
    assert set(cut.values()) == {1}


def test_nothing_lies_on_a_fault_or_on_its_neighbour(plan):
    for board in plan.lists[0].boards:
        taken = sorted(
            [(one.start, one.end) for one in board.placed]
            + [(one.start, one.end) for one in board.offcuts]
            + list(board.faults)
        )
        assert all(after[0] >= before[1] - 1e-9 for before, after in pairwise(taken))
        assert taken[0][0] >= 0.0
        assert taken[-1][1] <= board.length + 1e-9
        assert all(one.width <= board.width + 1e-9 for one in board.placed)
        for before, after in pairwise(board.placed):
            assert after.start - before.end >= plan.saw.kerf - 1e-9
    assert any(len(board.faults) > 2 for board in plan.lists[0].boards)


def test_the_stretch_behind_a_fault_is_kept_when_only_the_first_is_cut(plan):
    boards = [one for one in plan.lists[0].boards if one.stock == "nailed ones"]
    assert boards
    for board in boards:
        if board.placed[-1].end < 1.4:
            assert any(
                one.start == pytest.approx(1.52) and one.end == pytest.approx(2.95) for one in board.offcuts
            )


def test_the_bound_is_near_and_below(plan):
    one = plan.lists[0]
    assert one.bound is not None
    assert one.bound <= one.used <= 1.01 * one.bound
    assert one.nested > 0


def test_outlines_beside_each_other_do_not_meet_and_fit_their_blank(plan, forms):
    rib = forms[0][1].rib
    for kind in plan.lists[0].kinds:
        if kind.part is not Part.RIBS:
            continue
        for name in kind.name.split(", "):
            flat = lay_flat(rib, next(one for one in rib.pieces if one.name == name))
            first = shapely.Polygon(flat.points)
            second = shapely.affinity.translate(first, 0.0, kind.step)
            assert first.distance(second) >= 0.9 * plan.saw.kerf
            both = shapely.union_all([first, second]).bounds
            assert both[2] - both[0] <= kind.length + 1e-6
            assert both[3] - both[1] <= kind.stack_width(2) + 1e-6


def placed_on(points, source, target):
    """Points moved rigidly so that two marks fall on two others as nearly as they can."""
    a, b = np.asarray(source), np.asarray(target)
    u, _, v = np.linalg.svd((a - a.mean(0)).T @ (b - b.mean(0)))
    turn = v.T @ np.diag([1.0, np.sign(np.linalg.det(v.T @ u.T))]) @ u.T
    return (np.asarray(points) - a.mean(0)) @ turn.T + b.mean(0)


@pytest.mark.parametrize("rounded", [False, True])
def test_pieces_put_together_again_are_the_rib_within_a_millimetre(forms, rounded):
    """Each piece as printed (ordinates to 0.1 mm), end to end with its corners on its neighbours' corners."""
    rib = forms[0][1].rib
    true = {face: shapely.LineString(np.column_stack([line.x, line.z])) for face, line in
            (("inside", rib.inside), ("outside", rib.outside))}  # fmt: skip
    worst = 0.0
    for layer in range(1, rib.layers + 1):
        for piece in (one for one in rib.pieces if one.layer == layer):
            flat = lay_flat(rib, piece)
            stations = np.arange(0.03, flat.chord - 0.03, 0.025)
            faces = [(float(u), v) for u in stations for v in crossing(flat, float(u))]
            corners = list(flat.corners)
            if rounded:
                faces = [(u, round(v, 4)) for u, v in faces]
                corners = [(round(u, 4), round(v, 4)) for u, v in corners]
            # The joints of the neighbours on the jig: both ends of the piece on the rib, square to it.
            ends = [piece.end, piece.start] if flat.mirrored else [piece.start, piece.end]
            x, z, angle = rib.centreline.at(np.array(ends))
            out = 0.5 * rib.depth * np.column_stack([-np.sin(angle), np.cos(angle)])
            spots = np.column_stack([x, z])
            marks = [spots[0] - out[0], spots[0] + out[0], spots[1] + out[1], spots[1] - out[1]]
            turned = [(-u, v) for u, v in faces] if flat.mirrored else faces
            own = [(-u, v) for u, v in corners] if flat.mirrored else corners
            for spot in placed_on(turned, own, marks):
                point = shapely.Point(spot)
                worst = max(worst, min(line.distance(point) for line in true.values()))
    assert worst < (0.0002 if rounded else 1e-4)


def test_planks_end_on_ribs_and_joints_shift():
    places = tuple(min(0.4 * number, 7.5) for number in range(20))
    odd, even = run_lengths(places, 3.86, 1), run_lengths(places, 3.86, 2)
    for runs in (odd, even):
        joints = np.cumsum(runs)
        assert joints[-1] == pytest.approx(7.5, abs=5e-3)
        assert all(min(abs(place - joint) for place in places) < 5e-3 for joint in joints)
        assert max(runs) <= 3.86
    shifted = [abs(a - b) for a in np.cumsum(odd)[:-1] for b in np.cumsum(even)[:-1]]
    assert min(shifted) > 0.35
    assert run_lengths(places, 0.3, 1) == ()


def with_stock(house, *stock, saw=None):
    return replace(house, stock=stock, logs=(), saw=saw)


def board(name, length, width, count, thickness=0.045):
    section = type(open_house(EXAMPLE).house.stock[0].section)(thickness, width)
    return Stock(name=name, section=section, length=length, count=count)


def test_a_board_shorter_than_every_piece_is_said_and_left(house, forms):
    found = house_plan(with_stock(house, board("good", 4.2, 0.25, 400), board("blocks", 0.2, 0.25, 9)), forms)
    assert any("blocks" in remark for remark in found.lists[0].remarks)
    assert ("blocks", 9) in found.lists[0].left


def test_too_few_boards_say_what_is_missing_and_the_rest_is_cut(house, forms):
    found = house_plan(with_stock(house, board("few", 4.2, 0.25, 3)), forms)
    assert not found.complete
    assert found.lists[0].pieces > 0
    assert found.lists[0].bound is None
    assert all("run out" in one.why for one in found.lists[0].missing)


def test_boards_too_narrow_for_a_piece_say_so(house, forms):
    found = house_plan(with_stock(house, board("narrow", 4.2, 0.125, 400)), forms)
    assert any("wide" in one.why for one in found.lists[0].missing)


@pytest.mark.parametrize(("length", "width", "thickness"), [(0.1, 0.3, 0.045), (4.0, 0.3, 0.022)])
def test_boards_that_take_nothing_are_refused_with_the_way_out(house, forms, length, width, thickness):
    with pytest.raises(NothingFitsError, match="add boards"):
        house_plan(with_stock(house, board("none", length, width, 9, thickness)), forms)


def test_without_stock_boards_of_the_wanted_length_are_counted(house, forms):
    found = house_plan(with_stock(house, saw=Saw(trim=0.0)), forms)
    assert found.invented
    assert found.complete


def test_logs_become_boards_that_are_cut(plan):
    assert any(one.stock.startswith("larch 1") for one in plan.lists[0].boards)
    assert plan.logs[0].volume == pytest.approx(0.4297, abs=1e-3)


STACK = '[[stock]]\nname = "a"\nsection = "45 x 225 mm"\n'
LOG = '[[log]]\nname = "a"\nlength = "4 m"\n'
BAD = {
    STACK + 'length = "3 m"\nfaults = [["2.9 m", "3.2 m"]]': "within the",
    STACK + 'length = "3 m"\nfaults = [["2 m", "1 m"]]': "nearer",
    STACK + 'length = "0.5 m"\n[saw]\ntrim = "300 mm"': "leaves nothing",
    '[saw]\nkerf = "-3 mm"': "cuts something",
    LOG + 'diameter = "0.3 m"\nthick_end = "0.2 m"\nthickness = "45 mm"': "thinner",
    LOG + 'diameter = "0.1 m"\nthickness = "150 mm"': "no board",
}


@pytest.mark.parametrize(("text", "says"), BAD.items(), ids=BAD.values())
def test_what_cannot_be_true_of_the_yard_is_told(text, says):
    with pytest.raises(HouseFileError, match=says):
        read(f'[house]\nname = "Bare"\n{text}\n', "bare.toml")


@pytest.fixture(scope="module")
def wall(house, forms, plan):
    return end_walls(house, [form for _, form in forms], plan)[0]


def test_the_end_wall_is_full_where_nothing_is_missing(wall, forms, house):
    form = forms[0][1]
    inside = form.rib.inside
    outline = [(float(inside.x[0]), 0.0), *zip(inside.x, inside.z, strict=True), (float(inside.x[-1]), 0.0)]
    region = shapely.Polygon(outline)
    for one in house.openings:
        if str(one.side) == wall.side:
            region = region.difference(
                shapely.box(one.across - one.width / 2, one.sill, one.across + one.width / 2, one.head)
            )
    laid = sum(shapely.Polygon(piece.outline).area for piece in wall.pieces)
    gaps = sum(shapely.Polygon(gap.outline).area for gap in wall.gaps)
    assert laid + gaps == pytest.approx(region.area, rel=0.02)


def test_joints_of_neighbouring_rows_are_staggered_and_pieces_long_enough(wall):
    for row in range(1, len(wall.rows)):
        joints = [joints_of(wall, number) for number in (row, row + 1)]
        assert all(abs(a - b) >= STAGGER - 1e-6 for a in joints[0] for b in joints[1])
    assert all(piece.length >= min(LEAST, 0.17) - 1e-6 for piece in wall.pieces)


def joints_of(wall, row):
    """Places where two pieces of a row meet."""
    ends = [max(x for x, _ in piece.outline) for piece in wall.pieces if piece.row == row]
    starts = [min(x for x, _ in piece.outline) for piece in wall.pieces if piece.row == row]
    return [end for end in ends if any(abs(end - start) < 1e-3 for start in starts)]


def test_no_offcut_gives_more_than_it_has(wall, plan):
    used = Counter()
    for piece in wall.pieces:
        used[piece.offcut] += piece.length
    lengths = {one.name: one.length for one in plan.offcuts}
    assert all(length <= lengths[name] + 1e-6 for name, length in used.items())


def test_an_offcut_has_a_name_of_its_own_among_boards_of_every_thickness(plan):
    names = [one.name for one in plan.offcuts]
    assert len({one.thickness for one in plan.offcuts}) > 1
    assert len(set(names)) == len(names)
    assert names == [f"K{number}" for number in range(1, len(names) + 1)]


def test_offcuts_that_a_wall_does_not_take_lie_there_as_they_were(forms, plan):
    wall = end_wall(forms[0][1], "back", [], plan.offcuts, kerf=plan.saw.kerf)
    assert wall is not None
    taken = {piece.offcut for piece in wall.pieces}
    untouched = [one for one in plan.offcuts if one.name not in taken]
    assert any(one.thickness != wall.thickness for one in untouched)
    assert all(one in wall.left for one in untouched)
    before = {one.name: one for one in plan.offcuts}
    for rest in (one for one in wall.left if one.name in taken):
        own = before[rest.name]
        assert (rest.end, rest.width, rest.thickness) == (own.end, own.width, own.thickness)
        assert rest.start > own.start


def test_an_end_without_offcuts_is_no_wall(forms):
    assert end_wall(forms[0][1], "front", [], [], kerf=0.004) is None


def short_boards(count, length):
    """Offcuts of one length, in rows 225 mm high."""
    return [
        Offcut(name=f"K{at}", board="b", start=0.0, end=length, width=0.225, thickness=0.045)
        for at in range(count)
    ]


def test_an_opening_lower_than_a_row_stays_open(forms, house):
    form = forms[0][1]
    (door, *_) = (one for one in house.openings if str(one.side) == "front")
    vent = replace(door, name="vent", width=0.12, height=0.1, across=0.7, sill=0.3)
    wall = end_wall(form, "front", [vent], short_boards(40, 3.0), kerf=0.004)
    assert wall is not None
    (holed,) = (piece for piece in wall.pieces if piece.holes)
    assert shapely.Polygon(holed.holes[0]).area == pytest.approx(0.12 * 0.1)
    laid = shapely.union_all([shapely.Polygon(piece.outline, piece.holes) for piece in wall.pieces])
    assert laid.intersection(shapely.box(0.64, 0.3, 0.76, 0.4)).area == pytest.approx(0.0, abs=1e-6)


def test_strips_over_and_under_an_opening_come_out_of_one_length(forms, house):
    form = forms[0][1]
    (door, *_) = (one for one in house.openings if str(one.side) == "front")
    slot = replace(door, name="slot", width=1.6, height=0.05, across=0.0, sill=0.3)
    wall = end_wall(form, "front", [slot], short_boards(90, 0.7), kerf=0.004)
    assert wall is not None
    upper = [piece for piece in wall.pieces if piece.ripped_with is not None]
    assert upper
    for piece in upper:
        under = wall.pieces[piece.ripped_with - 1]
        assert (under.number, under.offcut, under.length) == (piece.ripped_with, piece.offcut, piece.length)
        assert min(z for _, z in piece.outline) >= max(z for _, z in under.outline)
    used = Counter()
    for piece in wall.pieces:
        used[piece.offcut] += piece.length if piece.ripped_with is None else 0.0
    assert max(used.values()) <= 0.7 + 1e-9


def test_what_is_missing_in_a_wall_is_said(forms, plan):
    poor = end_wall(forms[0][1], "back", [], plan.offcuts[:4], kerf=0.004)
    assert poor is not None
    assert poor.gaps
    assert poor.missing > 5.0


def outline_of(rib, kind):
    """The worst of the pieces cut from a blank, lying on its lower edge with its end at 0."""
    flats = [lay_flat(rib, piece) for piece in rib.pieces if piece.name in kind.name.split(", ")]
    return [shapely.Polygon(np.column_stack([f.along - f.start, f.across - f.edge])) for f in flats]


def test_two_unlike_outlines_lie_a_saw_cut_apart_in_one_blank(forms):
    form = forms[0][1]
    kinds = {kind.name: kind for kind in rib_kinds(form, 0.004)}
    long, short = kinds["1L1, 5R1"], kinds["2L1, 4R1"]
    other = beside_other(long, short, 0.004)
    upper = [translate(one, other.shift, other.gap) for one in outline_of(form.rib, short)]
    for one in outline_of(form.rib, long):
        for two in upper:
            assert one.distance(two) >= 0.004 - 2e-4
    # Closer by a saw cut and a half they would touch: nothing is given away.
    assert any(
        one.intersects(translate(two, 0.0, -0.008)) for one in outline_of(form.rib, long) for two in upper
    )


LONG_PIECES = {"board": Board(thickness=0.038, width=0.3), "layers": 3, "board_length": 2.4, "depth": 0.12}


@pytest.mark.parametrize(
    ("name", "changes"), [("kettle-hill", {}), ("larch-bank", LONG_PIECES), ("alder-loft", LONG_PIECES)]
)
def test_a_saw_passes_between_any_two_outlines_that_share_a_blank(name, changes):
    house = open_house(EXAMPLE.with_name(f"{name}.toml")).house
    form = vault_form(house, replace(house.vaults[0], **changes))
    kinds = sorted(rib_kinds(form, 0.004), key=lambda kind: -kind.length)
    for long, short in combinations(kinds, 2):
        other = beside_other(long, short, 0.004)
        upper = [translate(one, other.shift, other.gap) for one in outline_of(form.rib, short)]
        apart = min(one.distance(two) for one in outline_of(form.rib, long) for two in upper)
        assert apart >= 0.004 - 1e-4, (long.name, short.name)
        assert max(two.bounds[2] for two in upper) <= long.length + 1e-6


def test_unlike_outlines_share_wide_boards_that_take_no_equal_ones(house, forms):
    # 358 mm: two of the longest need 361 mm, one of them and the next narrower one 357 mm.
    wide = Stock(name="wide", section=Board(thickness=0.045, width=0.358), length=3.0, count=400)
    poor = replace(house, stock=(wide,), logs=(), openings=(), erection=None)
    bare = replace(forms[0][0], cover=())
    one = house_plan(poor, ((bare, replace(forms[0][1], bands=())),)).lists[0]
    pairs = [placed for board in one.boards for placed in board.placed if placed.other is not None]
    assert pairs
    for placed in pairs:
        assert len(placed.labels) == len(placed.kinds) == 2
        assert placed.kinds[0].length >= placed.kinds[1].length
        assert placed.width <= 0.358 + 1e-9
    labels = Counter(label for board in one.boards for placed in board.placed for label in placed.labels)
    assert set(labels.values()) == {1}
    assert len(labels) == forms[0][1].ribs * len(forms[0][1].rib.pieces)
    assert not one.missing
    assert one.bound is not None
    assert one.used >= one.bound * (1.0 - 1e-9)


def test_a_saw_cut_of_an_eighth_of_an_inch_is_counted_and_said(house, forms):
    eighth = replace(house, saw=replace(house.saw, kerf=0.003175))
    plan = house_plan(eighth, forms)
    assert plan.complete
    assert plan.saw.kerf == pytest.approx(0.0032)
    assert any("3.175 mm" in one and "3.2 mm" in one for one in plan.saw.assumed)
    assert not any("tenths" in one for one in house_plan(house, forms).saw.assumed)


def test_names_of_planks_and_of_boards_from_logs_read_in_feet_and_inches(house, forms):
    plan = house_plan(house, forms, system="imperial")
    planks = [kind for one in plan.lists for kind in one.kinds if kind.part is Part.LAGGING]
    assert {kind.name for kind in planks} >= {"spruce planks, 11 ft 9 3/4 in"}
    assert len({kind.name for kind in planks}) == len(planks)
    assert any(board.stock == "larch 1, 12 in wide" for one in plan.lists for board in one.boards)
    assert len(plan.codes) == sum(len(one.kinds) for one in plan.lists)


def test_a_board_of_faults_alone_is_refused_for_its_faults(house, forms):
    line = {"section": Board(thickness=0.045, width=0.225), "count": 3, "price": None}
    spoilt = Stock(name="spoilt", length=4.0, faults=((0.0, 3.99),), **line)
    with pytest.raises(NothingFitsError, match="leave no clear stretch"):
        house_plan(replace(house, stock=(spoilt,), logs=()), forms)
    holed = replace(spoilt, faults=((0.2, 3.9),))
    with pytest.raises(NothingFitsError, match='the longest clear stretch, on "spoilt", is 180 mm'):
        house_plan(replace(house, stock=(holed,), logs=()), forms)


def test_a_log_that_gives_no_board_is_told(house, forms):
    pole = replace(house.logs[0], name="pole", diameter=0.09, thick_end=None)
    plan = house_plan(replace(house, logs=(pole,)), forms)
    assert '"pole" gives no board 45 mm thick: it is too thin for one 75 mm wide.' in plan.remarks
    assert not any("gives no board" in one for one in house_plan(house, forms).remarks)
