"""Templates print true, fit the piece, leave out blank sheets and say what they are."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pdfplumber
import pytest

from bermwright.app.opening import open_house
from bermwright.base.document import Document, FullPage
from bermwright.base.drawing import Area, Clip, Pen, Stroke, Text, Wash
from bermwright.book.templates import (
    Nailing,
    Stamp,
    lay_flat,
    nail_spots,
    patterns,
    rib_templates,
    template_count,
    template_summary,
)
from bermwright.book.templates.drawn import inset
from bermwright.book.templates.tiles import PAPERS, mark_name, tiling, window
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.form import vault_form
from bermwright.form.rib.flat import crossing
from bermwright.form.rib.nails import stops_of
from bermwright.formats.documents import pdf
from bermwright.rules.analysis.joint import nailed_joint

ROOT = Path(__file__).parents[3]
STAMP = Stamp(house="Larch Bank", revision="14")
NAILS = Nailing(
    diameter=0.0034,
    length=0.09,
    count=8,
    rows=3,
    along=0.034,
    across=0.017,
    edge=0.024,
    end=0.051,
    spacing=0.1,
)
MM = 72.0 / 25.4


@pytest.fixture(scope="module")
def sheets(form):
    return rib_templates(form, stamp=STAMP, nailing=NAILS)


def texts(sheet):
    found = [item for item in sheet.items if isinstance(item, Text)]
    found += [
        item
        for clip in sheet.items
        if isinstance(clip, Clip)
        for item in clip.items
        if isinstance(item, Text)
    ]
    return [item.text for item in found]


def test_mirrored_and_repeated_pieces_share_one_template(form):
    groups = {pattern.names: pattern for pattern in patterns(form.rib)}
    assert ("1L1", "1R1", "3L1", "3R1") in groups
    first = groups["1L1", "1R1", "3L1", "3R1"]
    assert first.turned == ("1R1", "3R1")
    assert first.per_rib == 4
    assert first.layers == (1, 3)
    assert sum(pattern.per_rib for pattern in groups.values()) == len(form.rib.pieces)


def test_a_piece_that_differs_by_a_millimetre_gets_its_own_template(form):
    pieces = list(form.rib.pieces)
    pieces[0] = replace(pieces[0], end=pieces[0].end + 0.001)
    longer = tuple((x + (0.001 if i in (32, 33) else 0.0), z) for i, (x, z) in enumerate(pieces[0].outline))
    pieces[0] = replace(pieces[0], outline=longer)
    assert len(patterns(replace(form.rib, pieces=tuple(pieces)))) == len(patterns(form.rib)) + 1


def test_laid_flat_a_piece_keeps_its_size_and_starts_at_its_foot(form):
    for piece in form.rib.pieces:
        flat = lay_flat(form.rib, piece)
        x, z = np.asarray(piece.outline).T
        shoelace = abs(np.sum(x * np.roll(z, -1) - np.roll(x, -1) * z))
        u, v = flat.along, flat.across
        assert abs(np.sum(u * np.roll(v, -1) - np.roll(u, -1) * v)) == pytest.approx(shoelace, rel=1e-9)
        low, high = crossing(flat, 0.5 * flat.chord)
        assert high - low == pytest.approx(form.rib.depth, rel=0.01)
        assert flat.corners[0][0] > flat.corners[1][0] - 1e-9


def test_the_count_is_known_before_anything_is_drawn(form, sheets):
    assert template_count(form) == len(sheets)
    assert template_summary(form).first(1) == template_summary(form).sheets[0] + 1
    assert template_count(form, "A3") < template_count(form, "A4")


def test_another_paper_is_refused(form):
    with pytest.raises(ValueError, match="A4 or A3"):
        template_count(form, "letter")


def test_every_sheet_carries_what_it_must(sheets):
    for number, sheet in enumerate(sheets, start=1):
        said = " ".join(texts(sheet))
        for part in (
            "calculation aid, not reviewed",
            "Larch Bank",
            "revision 14",
            "±1 mm",
            "THIS FACE OUT",
            "check 100.0",
        ):
            assert part in said
        assert f"template page {number} of {len(sheets)}" in said
        assert "tint is the side you keep" in said
        assert (sheet.width, sheet.height) == PAPERS["A4"]


def test_no_sheet_is_blank_and_the_whole_line_is_printed(form, sheets):
    """The cut line seen on all sheets of a piece together is as long as the outline."""
    for pattern, first, count in zip(patterns(form.rib), *starts(form), strict=True):
        closed = np.asarray([*pattern.flat.points, pattern.flat.points[0]]) * 1000.0
        length = float(np.sum(np.hypot(*np.diff(closed, axis=0).T)))
        shown = [seen_length(sheet) for sheet in sheets[first - 1 : first - 1 + count]]
        assert min(shown) > 0.0
        assert sum(shown) == pytest.approx(length, rel=1e-6)


def starts(form):
    summary = template_summary(form)
    return [summary.first(i) for i in range(len(summary.sheets))], summary.sheets


def seen_length(sheet):
    clip = next(item for item in sheet.items if isinstance(item, Clip))
    cut = [item for item in clip.items if isinstance(item, Stroke) and item.pen is Pen.TEMPLATE]
    return sum(clipped_length(stroke.path, clip.low, clip.high) for stroke in cut)


def clipped_length(path, low, high):
    total = 0.0
    for start, end in zip(path, (*path[1:], path[0]), strict=True):
        fine = np.linspace(start, end, 2)
        enter, leave = 0.0, 1.0
        for axis in (0, 1):
            step = fine[1][axis] - fine[0][axis]
            if step == 0.0:
                if not low[axis] <= fine[0][axis] <= high[axis]:
                    leave = -1.0
                continue
            ends = sorted(((low[axis] - fine[0][axis]) / step, (high[axis] - fine[0][axis]) / step))
            enter, leave = max(enter, ends[0]), min(leave, ends[1])
        total += max(0.0, leave - enter) * math.dist(*fine)
    return total


def test_neighbours_share_marks(sheets):
    first, second = texts(sheets[0]), texts(sheets[1])
    assert {"a1", "b1", "a2", "b2"} <= set(first)
    assert {"a2", "b2"} <= set(second)
    assert "lay on marks a2 b2" in " ".join(second)
    assert mark_name(2, 0) == "c1"


def test_a_hollow_tile_is_left_out():
    wide, tall = window(PAPERS["A4"])
    ring = ((0.0, 0.0), (3 * wide - 20, 0.0), (3 * wide - 20, 3 * tall - 20), (0.0, 3 * tall - 20))
    plan = tiling(ring, PAPERS["A4"])
    assert (plan.columns, plan.rows) == (3, 3)
    assert (1, 1) not in plan.cells
    assert len(plan.cells) == 8


def test_the_check_square_measures_100_mm_in_the_pdf(sheets):
    document = Document(
        title="t", subtitle="", house="h", revision="1", date="2026-11-24", mark=STAMP.mark,
        blocks=tuple(FullPage(sheet=sheet) for sheet in sheets[:3]),
    )  # fmt: skip
    with pdfplumber.open(io.BytesIO(pdf(document, date="2026-11-24"))) as book:
        assert len(book.pages) == 3
        for page in book.pages:
            assert float(page.width) / MM == pytest.approx(297.0, abs=0.05)
            corners = corner_points(page)
            xs, ys = sorted({round(x, 2) for x, _ in corners}), sorted({round(y, 2) for _, y in corners})
            assert (xs[-1] - xs[0]) / MM == pytest.approx(100.0, abs=0.1)
            assert (ys[-1] - ys[0]) / MM == pytest.approx(100.0, abs=0.1)
            assert math.hypot(xs[-1] - xs[0], ys[-1] - ys[0]) / MM == pytest.approx(141.4, abs=0.1)


def corner_points(page):
    """The middle points of the four L marks: curves of three points with legs of 8 mm."""
    found = []
    for curve in page.curves:
        points = curve["pts"]
        if len(points) == 3 and all(
            abs(math.dist(a, points[1]) / MM - 8.0) < 0.01 for a in (points[0], points[2])
        ):
            found.append(points[1])
    assert len(found) == 4
    return found


def test_figures_give_the_distance_from_the_straight_edge(form, sheets):
    flat = patterns(form.rib)[0].flat
    station = flat.start + 0.2
    low, high = crossing(flat, station)
    said = {text for sheet in sheets[:8] for text in texts(sheet)}
    assert f"{(low - flat.edge) * 1000:.1f}" in said
    assert f"{(high - flat.edge) * 1000:.1f}" in said
    assert low - flat.edge >= 0.0


def test_the_tint_lies_on_the_side_that_is_kept(sheets):
    clip = next(item for item in sheets[2].items if isinstance(item, Clip))
    keep = next(item for item in clip.items if isinstance(item, Area) and item.wash is Wash.KEEP)
    assert area(keep.holes[0]) < area(keep.path)


def area(path):
    x, y = np.asarray(path).T
    return abs(float(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))) / 2.0


def test_an_inset_square_is_smaller_by_its_border():
    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    assert area(inset(square, 1.0)) == pytest.approx(64.0)
    assert area(inset(square[::-1], 1.0)) == pytest.approx(64.0)


def test_nails_keep_off_edges_ends_and_joints(form):
    for pattern in patterns(form.rib):
        spots = nail_spots(pattern.flat, NAILS)
        assert spots
        for u, v in spots:
            low, high = crossing(pattern.flat, u)
            assert low + NAILS.edge - 1e-9 <= v <= high - NAILS.edge + 1e-9
            # Along the grain, from cuts that slant: at the height of the nail, not at the middle line.
            stops = [stop.along(v) for stop in stops_of(pattern.flat)]
            assert min(abs(u - stop) for stop in stops) >= NAILS.end - 1e-6


@pytest.mark.parametrize("name", ["larch-bank", "kettle-hill", "alder-loft"])
def test_no_two_nails_of_a_drawn_pattern_are_nearer_than_the_rule_permits(name):
    house = open_house(ROOT / "examples" / f"{name}.toml").house
    vault = house.vaults[0]
    form = vault_form(house, vault)
    joint = nailed_joint(vault, form, TIMBER_CLASSES[vault.timber])
    nailing = joint.nailing
    for pattern in patterns(form.rib):
        spots = np.array(nail_spots(pattern.flat, nailing))
        along = np.abs(spots[:, None, 0] - spots[None, :, 0])
        across = np.abs(spots[:, None, 1] - spots[None, :, 1])
        near = (along < nailing.along - 1e-6) & (across < nailing.across - 1e-6)
        assert int(near.sum()) == len(spots)
        # Each half of a piece that is cut at both ends holds what the rule counts on.
        half = 0.5 * pattern.flat.chord
        counted = joint.count + max(0, int((half - joint.zone) / joint.spacing))
        if all(pattern.flat.butts):
            assert (spots[:, 0] < half).sum() >= counted
            assert (spots[:, 0] > half).sum() >= counted


def test_two_groups_without_room_beside_each_other_become_one_block():
    house = open_house(ROOT / "examples" / "larch-bank.toml").house
    form = vault_form(house, house.vaults[0])
    flat = next(lay_flat(form.rib, piece) for piece in form.rib.pieces if piece.name == "1C")
    nailing = replace(NAILS, count=12, along=0.025, across=0.02, edge=0.035, end=0.06, spacing=0.03)
    low, high, *_ = stops_of(flat)
    between = [u for u, v in nail_spots(flat, nailing) if low.along(v) < u < high.along(v)]
    # 57 mm beside the joints hold three columns, so that the nails of one joint stand in four rows.
    assert len(between) == nailing.count


def test_each_side_of_a_joint_gets_its_nails_and_a_foot_none(form):
    foot = next(pattern.flat for pattern in patterns(form.rib) if pattern.names[0] == "2L1")
    assert foot.butts == (False, True)
    spots = nail_spots(foot, NAILS)
    near = [u for u, _ in spots if foot.chord - u < NAILS.end + 3 * NAILS.along]
    assert len(near) == NAILS.count
    assert sum(u < NAILS.end + 3 * NAILS.along for u, _ in spots) <= 2


def test_the_nails_between_joints_stand_no_wider_than_checked(form):
    for pattern in patterns(form.rib):
        places = sorted(u for u, _ in nail_spots(pattern.flat, NAILS))
        stops = [joint[0] for joint in pattern.flat.joints]
        for low, high in pairwise(places):
            crosses = any(low < stop < high for stop in stops)
            assert high - low <= (2 * NAILS.end if crosses else NAILS.spacing) * 1.51


def test_without_a_nail_pattern_the_sheet_says_so(form):
    sheet = rib_templates(form, stamp=STAMP)[0]
    assert "nails: not in the house file" in " ".join(texts(sheet))


def test_a_very_long_house_name_is_cut_not_spilled(form):
    sheet = rib_templates(form, stamp=Stamp(house="x" * 200, revision="1"))[0]
    line = next(text for text in texts(sheet) if "xxx" in text)
    assert "…" in line
    assert len(line) < 100
