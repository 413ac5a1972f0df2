"""Sections, details, ribs and frames: true places, no label over another, nothing too small to read."""

from __future__ import annotations

import itertools
import math
from dataclasses import replace

import numpy as np
import pytest
import shapely

from bermwright.base.drawing import Area, Arrow, Band, Clip, Dimension, Hatch, Ink, Pen, Stroke, Text, Wash
from bermwright.base.findings import Spot
from bermwright.base.lettering import body_size
from bermwright.base.marks import (
    Arrows,
    Comb,
    FootForce,
    LevelMark,
    Note,
    PlumbLine,
    Ring,
    Side,
    StopMark,
)
from bermwright.book.sheets import (
    AxisStep,
    Board,
    Dress,
    Figures,
    Placed,
    Scene,
    Support,
    TitleBlock,
    axis_strip,
    detail_sheet,
    draw_mark,
    frame_sheet,
    legend_sheet,
    rib_sheet,
    rib_sheets,
    section_plate,
    section_sheet,
    stage_sheet,
    supports_of,
)
from bermwright.book.sheets.axis import ratio_text
from bermwright.book.sheets.frame import border, fitted, title_items, wrapped
from bermwright.book.sheets.paper import boxes_of, moved
from bermwright.book.sheets.plate import hatches_used
from bermwright.form.shapes import Line
from bermwright.house import Feet, Vault
from bermwright.house.choices import CurveKind, Structure
from bermwright.house.choices import Support as On
from bermwright.house.values import Board as Plank
from bermwright.stages.nouns import Case, Compaction, Duration, Stage, StageKind

WALL = (
    Support(
        name="wall of earth tubes", hatch=Hatch.EARTH_TUBE, width=0.38, bottom=-0.6, course=0.12, plate=0.075
    ),
    Support(name="strip footing", hatch=Hatch.CONCRETE, width=0.6, bottom=-1.0),
)
LIFTS = (0.85, 1.05, 1.25, 1.45, 1.65, 1.85, 2.05, 2.25, 2.45, 2.65)
BLOCK = TitleBlock(
    owner="Larch Bank",
    title="Section through the day room",
    number="LB-101",
    revision="14",
    date="2026-11-24",
    sheet=3,
    sheets=9,
    not_checked="wind on the bare ribs; earthquake; fire",
)


def stage(kind, left=None, right=None):
    case = Case(
        name="permanent",
        title="Permanent only",
        duration=Duration.PERMANENT,
        actions=(),
        left=left,
        right=left if right is None else right,
        depth=np.zeros(81),
    )
    return Stage(
        name=kind.value,
        kind=kind,
        title=kind.value,
        do=(),
        cautions=(),
        level=left,
        compaction=Compaction.HAND,
        braced=False,
        long_term=False,
        cases=(case,),
    )


def parts(items):
    for item in items:
        if isinstance(item, Clip):
            yield from parts(item.items)
        yield item


def of(kind, sheet):
    return [item for item in parts(sheet.items) if isinstance(item, kind)]


def texts(sheet):
    return {item.text for item in of(Text, sheet)}


def stops(level):
    return tuple(StopMark(level=level, side=side) for side in Side)


# ------------------------------------------------------------------ scene


def test_placed_soil_reaches_the_level_of_its_side(form):
    scene = Scene(form=form, kind=StageKind.FILL, left=2.05, right=1.45)
    left, right = scene.placed(-9.0, 9.0)
    assert left.bounds[3] == pytest.approx(2.05)
    assert right.bounds[3] == pytest.approx(1.45)
    assert left.bounds[1] == right.bounds[1] == pytest.approx(0.45)


def test_soil_and_vault_share_no_ground(form):
    scene = Scene(form=form, supports=WALL)
    shell = scene.silhouette()
    for part in scene.placed(-9.0, 9.0):
        assert shapely.intersection(part, shell).area < 1e-9


@pytest.mark.parametrize(
    ("kind", "count"), [(StageKind.RIBS, 0), (StageKind.LAGGED, 1), (StageKind.WRAPPED, 2)]
)
def test_layers_come_with_their_stage(form, kind, count):
    assert len(Scene(form=form, kind=kind).bands) == min(count, len(form.bands))
    assert Scene(form=form, kind=kind).placed(-9.0, 9.0) == ()


def test_the_surface_goes_from_natural_to_finished(form):
    x = np.array([-4.0, 0.0, 4.0])
    ground = form.ground
    assert Scene(form=form, kind=StageKind.WRAPPED).surface(x) == pytest.approx(ground.natural.level(x))
    assert Scene(form=form, kind=StageKind.TURF).surface(x) == pytest.approx(ground.finished.level(x))
    cover = Scene(form=form, kind=StageKind.COVER).surface(x)
    assert cover == pytest.approx(ground.finished.level(x) - ground.turf)


def test_supports_stand_on_each_other_under_both_feet(form):
    outlines = Scene(form=form, supports=WALL).support_outlines()
    assert [support.name for _, support in outlines] == ["wall of earth tubes", "strip footing"] * 2
    tops = [max(z for _, z in outline) for outline, _ in outlines]
    assert tops == pytest.approx([form.springing, -0.6] * 2)


def house_vault(feet):
    return Vault(
        name="day room",
        curve=CurveKind.CATENARY,
        span=4.8,
        rise=2.2,
        length=7.5,
        springing=0.9,
        structure=Structure.SEGMENT_RIBS,
        board=Plank(thickness=0.032, width=0.195),
        layers=4,
        spacing=0.6,
        timber="C18",
        feet=feet,
    )


@pytest.mark.parametrize(
    ("material", "hatch"),
    [
        ("earth tubes", Hatch.EARTH_TUBE),
        ("dry-laid stone", Hatch.MASONRY),
        ("concrete blocks", Hatch.MASONRY),
        ("concrete", Hatch.CONCRETE),
        (None, Hatch.NONE),
    ],
)
def test_a_wall_is_drawn_as_the_file_says(material, hatch):
    (wall,) = supports_of(house_vault(Feet(on=On.WALL, wall_width=0.4, wall_material=material)))
    assert (wall.hatch, wall.width, wall.bottom) == (hatch, 0.4, None)


def test_no_wall_is_invented():
    assert supports_of(house_vault(Feet(on=On.WALL))) == ()
    assert supports_of(house_vault(Feet(wall_width=0.4))) == ()


# ------------------------------------------------------------------ sections


def test_a_section_measures_true_at_its_scale(form):
    sheet = section_sheet(form, scale=50.0, supports=WALL)
    dimensions = {item.text: math.dist(item.start, item.end) for item in of(Dimension, sheet)}
    assert dimensions["4800"] == pytest.approx(4800.0 / 50.0, abs=0.01)
    assert dimensions["2200"] == pytest.approx(2200.0 / 50.0, abs=0.01)
    assert dimensions["900"] == pytest.approx(900.0 / 50.0, abs=0.01)


def test_lift_lines_lie_at_the_true_lifts(form):
    sheet = section_sheet(form, scale=50.0, lifts=LIFTS)
    placed = next(item for item in of(Area, sheet) if item.hatch is Hatch.EARTH_PLACED)
    assert placed.levels == pytest.approx([sheet.view.point(0.0, level)[1] for level in LIFTS])


def test_the_finished_ground_is_a_chain_line_until_it_is_built(form):
    def chain(kind, level=None):
        return any(item.pen is Pen.NOT_YET for item in of(Stroke, stage_sheet(form, stage(kind, level))))

    assert chain(StageKind.RIBS)
    assert chain(StageKind.FILL, 2.05)
    assert not chain(StageKind.SETTLED, 3.75)


def test_a_stage_page_has_both_sides_lifts_levels_stops_and_north(form):
    sheet = stage_sheet(form, stage(StageKind.FILL, 2.05), lifts=LIFTS, marks=stops(2.45), axis=1.3)
    found = texts(sheet)
    assert {"Left", "Right", "N", "door", "L7", "R7", "STOP +2.45", "+2.05", "±0.00"} <= found
    assert "4.80" in {item.text for item in of(Dimension, sheet)}
    assert "L8" not in found  # not reached yet
    assert sheet.width == 174.0
    assert sheet.view.scale == 100.0


def test_an_unknown_north_is_said(form):
    assert "north: not given" in texts(stage_sheet(form, stage(StageKind.RIBS)))


def test_a_section_is_cut_to_its_width_and_keeps_the_vault(form):
    sheet = section_sheet(form, scale=50.0, width=180.0)
    (low, _), (high, _) = sheet.view.seen
    assert sheet.width == 180.0
    assert low < form.soil_face.x.min()
    assert high > form.soil_face.x.max()
    for item in of(Area, sheet):
        assert all(-0.5 <= x <= 180.5 for x, _ in item.path)


def test_a_smaller_scale_is_taken_where_the_vault_does_not_fit(form):
    assert section_sheet(form, scale=20.0, width=200.0).view.scale == 50.0
    assert section_sheet(form, scale=20.0, width=174.0).view.scale == 100.0


def marked(form, kind, left=None, right=None):
    marks = (
        *stops(2.45),
        PlumbLine(top=Spot(0.0, 3.0), bottom=0.05, text="plumb line from the crown"),
        LevelMark(spot=Spot(-5.0, 0.45), text="+0.45"),
    )
    return stage_sheet(form, stage(kind, left, right), lifts=LIFTS, supports=WALL, marks=marks, axis=1.3)


@pytest.mark.parametrize("level", LIFTS)
def test_no_label_covers_another(form, level):
    sheet = marked(form, StageKind.FILL, level)
    boxes = [(item.text, boxes_of(item, margin=0.0)) for item in of(Text, sheet)]
    for (one, first), (other, second) in itertools.combinations(boxes, 2):
        for a in first:
            for b in second:
                apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
                assert apart, f"{one} covers {other}"


def every_sheet(form):
    yield section_sheet(form, lifts=LIFTS, supports=WALL, dress=Dress(axis=0.4))
    yield marked(form, StageKind.FILL, 2.05)
    yield section_plate(form, BLOCK, supports=WALL, lifts=LIFTS, axis=0.4)
    yield detail_sheet(form, supports=WALL)
    yield from rib_sheets(form)
    yield axis_strip(form, (AxisStep(stage=stage(StageKind.FILL, 2.05), label="fill +2.05", ratio=0.7),))


def test_nothing_is_too_small_to_read_or_off_the_sheet(form):
    for sheet in every_sheet(form):
        for item in of(Text, sheet):
            assert body_size(item.height, item.face) >= 2.6 - 1e-9, item.text
            for low_x, low_y, high_x, high_y in boxes_of(item, margin=0.0):
                assert low_x > -1.0, item.text
                assert low_y > -1.0, item.text
                assert high_x < sheet.width + 1.0, item.text
                assert high_y < sheet.height + 1.0, item.text


def test_every_sheet_says_what_it_shows(form):
    assert all(sheet.title and sheet.alt for sheet in every_sheet(form))


def test_feet_and_inches(form):
    sheet = section_sheet(form, dress=Dress(figures=Figures(system="imperial")))
    assert any("ft" in item.text for item in of(Dimension, sheet))


@pytest.mark.parametrize(
    ("level", "mm", "metres"),
    [
        (0.0, "±0.000", "±0.00"),
        (2.4, "+2.400", "+2.40"),
        (-0.45, "−0.450", "−0.45"),
        (0.0004, "±0.000", "±0.00"),
    ],
)
def test_levels_carry_a_sign(level, mm, metres):
    assert Figures().level(level) == mm
    assert Figures(metres=True).level(level) == metres


# ------------------------------------------------------------------ marks


def draw(form, mark, **scene):
    sheet = section_sheet(form, scale=50.0)
    shown = Scene(form=form, **scene)
    return tuple(draw_mark(mark, sheet.view, shown, Board(), Figures(metres=True))), sheet.view


@pytest.mark.parametrize("side", Side)
def test_a_stop_mark_runs_from_the_shell_into_free_air(form, side):
    items, view = draw(form, StopMark(level=2.0, side=side), kind=StageKind.FILL, left=1.5, right=1.5)
    bar = next(item for item in items if isinstance(item, Stroke))
    (x0, y0), (x1, y1) = bar.path
    assert y0 == y1 == view.point(0.0, 2.0)[1]
    assert (x1 < x0) == (side is Side.LEFT)
    face = form.soil_face.x[np.argmin(np.abs(form.soil_face.z - 2.0))]
    assert abs(x0 - view.origin[0]) == pytest.approx(view.length(abs(float(face))), abs=1.0)
    flag = next(item for item in items if isinstance(item, Area))
    assert flag.wash is Wash.STOP
    assert any(isinstance(item, Text) and item.text == "STOP +2.00" and item.ink is Ink.RED for item in items)


def test_soil_past_its_mark_is_red_and_only_that_soil(form):
    mark = StopMark(level=1.8, side=Side.LEFT, filled_to=2.05)
    items, view = draw(form, mark, kind=StageKind.FILL, left=2.05, right=1.5)
    over = [item for item in items if isinstance(item, Area) and item.hatch is Hatch.OVERFILLED]
    assert over
    for area in over:
        ys, xs = [y for _, y in area.path], [x for x, _ in area.path]
        assert min(ys) == pytest.approx(view.point(0.0, 1.8)[1], abs=0.01)
        assert max(ys) == pytest.approx(view.point(0.0, 2.05)[1], abs=0.01)
        assert max(xs) < view.point(0.0, 0.0)[0]


def nodes(form):
    line = form.rib.centreline
    x, z, _ = line.at(np.linspace(0.0, line.length, 81))
    return tuple(x.tolist()), tuple(z.tolist())


def comb(form, moment, corridor=1000.0):
    x, z = nodes(form)
    return Comb(
        x=x, z=z, moment=tuple(moment), corridor=(corridor,) * len(x), text="2.30 kNm", allowed="of 1.72"
    )


def test_a_comb_within_its_corridor_has_no_red(form):
    items, _ = draw(form, comb(form, [900.0 * math.sin(k / 5.0) for k in range(81)]))
    assert all(getattr(item, "ink", Ink.INK) is not Ink.RED for item in items)
    assert sum(isinstance(item, Stroke) and item.pen is Pen.LIMIT for item in items) == 2


def test_a_comb_outside_its_corridor_has_red_teeth_at_those_nodes(form):
    moment = [0.0] * 81
    moment[20:25] = [1500.0] * 5
    items, _ = draw(form, comb(form, moment))
    teeth = [i for i in items if isinstance(i, Stroke) and i.pen is Pen.TICK and i.ink is Ink.RED]
    assert len(teeth) == 5


def test_positive_bending_is_drawn_on_the_room_side(form):
    items, view = draw(form, comb(form, [500.0] * 81))
    edge = next(item for item in items if isinstance(item, Stroke) and item.pen is Pen.LAYER)
    crown = max(y for _, y in edge.path)
    assert crown < view.point(0.0, form.springing + form.rise)[1] - 1.0


def test_an_unknown_comb_is_not_drawn(form):
    moment = [0.0] * 81
    moment[3] = math.nan
    assert draw(form, comb(form, moment))[0] == ()


@pytest.mark.parametrize(
    ("inward", "words"),
    [
        ((4800.0, 4800.0), "4.8 inward"),
        ((2400.0, 4800.0), "2.4 to 4.8 inward"),
        ((-4800.0, -2400.0), "2.4 to 4.8 outward"),
        ((-1200.0, 4800.0), "1.2 outward to 4.8 inward"),
        ((math.nan, 4800.0), "inward unknown"),
    ],
)
def test_foot_forces_in_words_without_a_minus(form, inward, words):
    mark = FootForce(side=Side.LEFT, spot=Spot(-2.4, 0.9), down=(6900.0, 24300.0), inward=inward)
    items, _ = draw(form, mark)
    found = {item.text for item in items if isinstance(item, Text)}
    assert found == {"6.9 to 24.3 down", words}


def test_a_foot_pushed_inward_points_into_the_room(form):
    for side, x in ((Side.LEFT, -2.4), (Side.RIGHT, 2.4)):
        mark = FootForce(side=side, spot=Spot(x, 0.9), down=(5000.0, 5000.0), inward=(5000.0, 5000.0))
        items, view = draw(form, mark)
        arrow = next(item for item in items if isinstance(item, Arrow))
        middle = view.point(0.0, 0.0)[0]
        assert abs(arrow.head[0] - middle) < abs(arrow.tail[0] - middle)
        assert arrow.head[1] < arrow.tail[1]


def test_load_arrows_end_on_the_face_and_share_one_scale(form):
    mark = Arrows(x=(-2.4, -2.0), z=(1.0, 2.0), across=(1000.0, 500.0), down=(0.0, 0.0))
    items, view = draw(form, mark)
    lengths = [math.dist(item.tail, item.head) for item in items]
    assert items[0].head == view.point(-2.4, 1.0)
    assert items[0].tail[0] < items[0].head[0]
    assert lengths[0] == pytest.approx(2.0 * lengths[1])
    nothing = Arrows(x=(0.0,), z=(1.0,), across=(math.nan,), down=(0.0,))
    assert draw(form, nothing)[0] == ()


def test_rings_and_notes_find_a_free_place(form):
    board = Board()
    sheet = section_sheet(form)
    scene = Scene(form=form)
    for mark in (
        Ring(spot=Spot(0.0, 2.0), text="2.67 kNm"),
        Ring(spot=Spot(0.05, 2.0), text="2.60 kNm"),
        Note(spot=Spot(0.0, 1.2), text="a note", to=Spot(1.0, 1.0)),
    ):
        assert tuple(draw_mark(mark, sheet.view, scene, board, Figures()))
    for a, b in itertools.combinations(board.boxes, 2):
        assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]


# ------------------------------------------------------------------ frame, key, details, axis


def test_the_frame_has_its_borders_and_centring_marks():
    items = tuple(border(420.0, 297.0))
    frame = next(item for item in items if isinstance(item, Stroke) and item.closed)
    assert frame.path == ((20.0, 10.0), (410.0, 10.0), (410.0, 287.0), (20.0, 287.0))
    marks = [i for i in items if isinstance(i, Stroke) and i.pen is Pen.FRAME and not i.closed]
    assert {mark.path[0] for mark in marks} == {(0.0, 148.5), (420.0, 148.5), (210.0, 0.0), (210.0, 297.0)}
    letters = {item.text for item in items if isinstance(item, Text)}
    assert {"1", "8", "A", "F"} <= letters


def test_the_title_block_holds_every_field_and_the_mark():
    items = tuple(title_items(BLOCK, (0.0, 0.0)))
    found = " ".join(item.text for item in items if isinstance(item, Text))
    for words in (
        *("owner", "title", "number", "revision", "date of issue", "sheet", "3 of 9", "scale", "language"),
        *("drawn by", "approved by", "kind of document", "not checked here", "LB-101", "2026-11-24"),
        "calculation aid, not reviewed",
    ):
        assert words in found


def test_long_fields_shrink_wrap_and_stay_whole():
    words = (
        "wind on the bare ribs; earthquake; fire; snow drifts against the end walls; settlement of the walls"
    )
    lines, size = fitted(words, 108.0, 10.6)
    assert " ".join(lines) == words
    assert size >= 1.9
    assert wrapped("one two", 1e3, 3.0) == ["one two"]


def test_the_key_of_materials_shows_what_occurs_and_no_more(form):
    sheet = section_sheet(form, supports=WALL)
    used = set(hatches_used(sheet.items))
    assert Hatch.EARTH_TUBE in used
    assert Hatch.SNOW not in used
    legend = legend_sheet(sheet.items)
    drawn = {item.hatch for item in (*of(Area, legend), *of(Band, legend))}
    assert used <= drawn
    assert Hatch.SNOW not in drawn


def test_a_framed_sheet_moves_its_drawings_and_keeps_the_view(form):
    section = section_sheet(form, width=300.0, scale=100.0)
    sheet = frame_sheet((Placed(sheet=section, at=(30.0, 120.0)),), BLOCK)
    assert (sheet.width, sheet.height) == (420.0, 297.0)
    before, after = section.view.point(1.0, 2.0), sheet.view.point(1.0, 2.0)
    assert (after[0] - before[0], after[1] - before[1]) == pytest.approx((30.0, 120.0))
    span = next(item for item in of(Dimension, sheet) if item.text == "4800")
    old = next(item for item in of(Dimension, section) if item.text == "4800")
    assert span.start[0] - old.start[0] == pytest.approx(30.0)


def test_moving_there_and_back_changes_nothing(form):
    for item in section_plate(form, BLOCK, supports=WALL).items:
        back = moved(moved(item, (64.0, 32.0)), (-64.0, -32.0))
        assert type(back) is type(item)
        if isinstance(item, Text):
            assert back.at == pytest.approx(item.at)
            assert replace(back, at=item.at) == item


def test_rib_sheets_fit_the_page_and_show_every_piece_once(form):
    sheets = rib_sheets(form, height=150.0)
    assert len(sheets) > 1
    assert all(sheet.height <= 150.0 for sheet in sheets)
    names = [item.text for sheet in sheets for item in of(Text, sheet)]
    assert all(names.count(piece.name) == 1 for piece in form.rib.pieces)
    numbers = sorted(int(name) for name in names if name.isdigit())
    assert numbers == list(range(1, len(form.rib.joints) + 1))


def test_a_rib_sheet_is_at_scale(form):
    sheet = rib_sheet(form)
    (span,) = of(Dimension, sheet)
    assert math.dist(span.start, span.end) == pytest.approx(4800.0 / sheet.view.scale, abs=0.01)


def test_the_detail_shows_rib_bands_plate_and_wall(form):
    sheet = detail_sheet(form, supports=WALL)
    found = " ".join(texts(sheet))
    assert "plate 75 × 380" in found
    assert "1:10" in found
    (clip,) = (item for item in sheet.items if isinstance(item, Clip))
    assert clip.round
    layers = {item.layer for item in clip.items}
    assert {"rib", "support", "earth"} <= layers


@pytest.mark.parametrize(
    ("ratio", "words"), [(0.7301, "0.74"), (0.73, "0.73"), (0.9961, "0.997"), (1.001, "1.01"), (1.56, "1.56")]
)
def test_a_ratio_never_looks_better_than_it_is(ratio, words):
    assert ratio_text(ratio) == words
    assert ratio_text(math.inf) == "no strength"


def test_the_axis_says_fails_and_unknown_in_words(form):
    steps = tuple(
        AxisStep(stage=stage(StageKind.FILL, 2.05), label=f"step {k}", ratio=ratio)
        for k, ratio in enumerate((0.4, 1.34, None, math.nan))
    )
    sheet = axis_strip(form, steps)
    assert {"0.40", "1.34 fails", "unknown"} <= texts(sheet)
    over = [item for item in of(Area, sheet) if item.hatch is Hatch.OVERFILLED]
    (area,) = over
    limit = next(item for item in of(Stroke, sheet) if item.pen is Pen.HIDDEN)
    assert min(y for _, y in area.path) == pytest.approx(limit.path[0][1])


def test_a_long_axis_takes_more_rows(form):
    step = AxisStep(stage=stage(StageKind.FILL, 2.05), label="fill", ratio=0.5)
    assert axis_strip(form, (step,) * 20).height == pytest.approx(3 * axis_strip(form, (step,)).height)


# ------------------------------------------------------------------ hillside


@pytest.fixture
def hillside(form):
    """The same vault with the natural ground rising by 1 in 5 to the right."""
    x = np.array([-30.0, 30.0])
    natural = Line(x=x, z=0.45 + 0.2 * x)
    span = np.linspace(-30.0, 30.0, 601)
    finished = Line(x=span, z=np.maximum(form.ground.finished.level(span), natural.level(span)))
    return replace(form, ground=replace(form.ground, natural=natural, finished=finished))


def test_a_lift_ends_at_the_slope_or_at_the_hill(hillside):
    scene = Scene(form=hillside, kind=StageKind.FILL, left=1.45, right=1.45)
    left, right = scene.reach(1.45, -1.0), scene.reach(1.45, 1.0)
    assert hillside.ground.finished.level(left[1]) == pytest.approx(1.45, abs=0.02)
    assert hillside.ground.natural.level(right[1]) == pytest.approx(1.45, abs=0.02)
    assert right[1] == pytest.approx(5.0, abs=0.02)


def test_a_lift_below_the_hill_is_neither_drawn_nor_named(hillside):
    scene = Scene(form=hillside, kind=StageKind.FILL, left=0.85, right=0.85)
    assert scene.reach(0.85, 1.0) is None
    sheet = stage_sheet(hillside, stage(StageKind.FILL, 0.85), lifts=LIFTS, marks=stops(0.9))
    found = texts(sheet)
    assert "L1" in found
    assert "R1" not in found
    assert sum(text.startswith("STOP") for text in found) == 1


def test_marks_and_levels_stay_on_a_hillside_sheet(hillside):
    sheet = stage_sheet(hillside, stage(StageKind.FILL, 2.05), lifts=LIFTS, marks=stops(2.2))
    for item in (*of(Area, sheet), *of(Stroke, sheet)):
        assert all(-1.0 <= x <= sheet.width + 1.0 for x, _ in item.path)
    assert [item.text for item in of(Text, sheet)].count("+2.05") == 2
