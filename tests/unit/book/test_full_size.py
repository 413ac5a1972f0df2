"""Full-size drawings measured in the file: over 3 m across sheets, on a printer that errs, in SVG and DXF."""

from __future__ import annotations

import io
import math
import re
from fractions import Fraction
from pathlib import Path

import numpy as np
import pdfplumber
import pytest

from bermwright.app.making.templating import PrinterError, printer_stretch
from bermwright.base.drawing import Clip, Text
from bermwright.book.templates import (
    Lengths,
    Stamp,
    curve_count,
    curve_templates,
    patterns,
    rib_templates,
    template_count,
    whole_curves,
    whole_templates,
)
from bermwright.book.templates.curve import halves
from bermwright.book.templates.tiles import PAPERS, box_of, mark_name, tiling
from bermwright.form import vault_form
from bermwright.formats.drawings import dxf, pdf, svg
from bermwright.formats.house_file import load
from bermwright.house import CurveKind

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"
MM = 72.0 / 25.4
STAMP = Stamp(house="Kettle Hill", revision="1")
WRONG = (100.8, 99.1)
"""A check square of this printer measures so much (mm)."""


@pytest.fixture(scope="module")
def tall():
    """A catenary 4 m high: its half is over 4.6 m from foot to crown."""
    house = load(EXAMPLES / "kettle-hill.toml").house
    return vault_form(house, house.vaults[0])


def measured(page, height):
    """Points of every black line of a page, in millimetres from its lower left corner."""
    found = []
    for curve in [*page.curves, *page.lines]:
        points = np.array([(x / MM, (height * MM - y) / MM) for x, y in curve["pts"]])
        found.append((float(curve["linewidth"] or 0.0) / MM, points))
    return found


def crosses(page, height):
    """Middles of the crosses that are measured: two strokes of 12 mm through one point."""
    strokes = [points for _, points in measured(page, height) if len(points) == 2]
    level = [p.mean(axis=0) for p in strokes if abs(np.ptp(p[:, 0]) - 12.0) < 0.2 and np.ptp(p[:, 1]) < 0.01]
    upright = [
        p.mean(axis=0) for p in strokes if abs(np.ptp(p[:, 1]) - 12.0) < 0.2 and np.ptp(p[:, 0]) < 0.01
    ]
    return [a for a in level for b in upright if math.dist(a, b) < 0.05]


def frame(page, height):
    """Lower left and upper right of the dashed frame, on which neighbours are laid."""
    shapes = [points for _, points in measured(page, height)]
    shapes += [
        np.array([(r["x0"] / MM, height - r["bottom"] / MM), (r["x1"] / MM, height - r["top"] / MM)])
        for r in page.rects
    ]
    wide = [p for p in shapes if 255.0 < np.ptp(p[:, 0]) < 290.0 and 150.0 < np.ptp(p[:, 1]) < 200.0]
    box = min(wide, key=lambda p: np.ptp(p[:, 0]))
    return box.min(axis=0), box.max(axis=0)


@pytest.mark.parametrize("stretch", [(1.0, 1.0), printer_stretch("100.8,99.1")])
def test_three_metres_across_sheets_are_true_to_a_tenth_of_a_millimetre(tall, stretch):
    """The sheets are laid together by their marks, as a builder does; then two crosses are measured."""
    (half,) = halves(tall)
    sheets = curve_templates(tall, stamp=STAMP, stretch=stretch)
    plan = tiling(half.outline, PAPERS["A4"], stretch=stretch)
    assert len(sheets) == len(plan.cells) == curve_count(tall, stretch=stretch)
    wanted = {}
    for name, point in (("foot", half.foot), ("crown", half.crown)):
        inside = [
            all(
                plan.origin(cell)[k] + 7.0 < point[k] < plan.origin(cell)[k] + plan.window[k] - 7.0
                for k in (0, 1)
            )
            for cell in plan.cells
        ]
        assert any(inside), f"{name} lies on the edge of a sheet"
        wanted[name] = inside.index(True)
    book = pdf(*(sheets[at] for at in wanted.values()), date="2026-11-30")
    placed = []
    with pdfplumber.open(io.BytesIO(book)) as document:
        for page, at in zip(document.pages, wanted.values(), strict=True):
            column, row = plan.cells[at]
            corner, far = frame(page, 210.0)
            assert mark_name(column, row) in page.extract_text()
            (cross,) = [
                spot
                for spot in crosses(page, 210.0)
                if all(abs(spot[k] - mark[k]) > 5.0 for mark in (corner, far) for k in (0, 1))
            ]
            # What this printer makes of the sheet.
            printed = [(cross[k] - corner[k]) / stretch[k] for k in (0, 1)]
            size = [(far[k] - corner[k]) / stretch[k] for k in (0, 1)]
            placed.append(np.array([column * size[0] + printed[0], row * size[1] + printed[1]]))
    length = math.dist(*placed)
    assert length > 3000.0
    assert length == pytest.approx(math.dist(half.foot, half.crown), abs=0.1)
    assert placed[1] - placed[0] == pytest.approx(np.array(half.crown) - half.foot, abs=0.1)


def test_a_printer_that_errs_prints_a_true_square(tall):
    stretch = printer_stretch(f"{WRONG[0]},{WRONG[1]}")
    sheet = curve_templates(tall, stamp=STAMP, stretch=stretch)[0]
    with pdfplumber.open(io.BytesIO(pdf(sheet, date="2026-11-30"))) as document:
        page = document.pages[0]
        assert float(page.width) / MM == pytest.approx(297.0, abs=0.05)
        legs = [
            p for _, p in measured(page, 210.0) if len(p) == 3 and abs(math.dist(p[0], p[1]) - 8.0) < 0.01
        ]
    corners = np.array([p[1] for p in legs])
    size = np.ptp(corners, axis=0)
    assert size * np.array(WRONG) / 100.0 == pytest.approx([100.0, 100.0], abs=0.1)


@pytest.mark.parametrize("bar", ["100,100", "97 x 103", " 100.6mm , 99.8 mm"])
def test_a_bar_in_range_is_a_stretch(bar):
    across, up = printer_stretch(bar)
    assert 0.97 < across < 1.031
    assert 0.97 < up < 1.031


@pytest.mark.parametrize(("bar", "words"), [
    ("94.2,94.2", "94.2 mm across and 94.2 mm up"), ("100,103.1", "103.1 mm up"), ("100", "no two measures"),
    ("abc,100", "no two measures"), ("-100,100", "no two measures"), ("10.0,10.0", "Nothing was written"),
])  # fmt: skip
def test_a_printer_that_cannot_print_true_is_refused(bar, words):
    with pytest.raises(PrinterError, match=re.escape(words)):
        printer_stretch(bar)


def test_a_roll_takes_one_sheet_for_each_piece(form):
    assert template_count(form, "roll") == len(patterns(form.rib))
    assert template_count(form, "roll") < template_count(form, "A3")


def test_every_sheet_of_the_curve_says_what_it_is(tall):
    (half,) = halves(tall)
    for number, sheet in enumerate(curve_templates(tall, stamp=STAMP), start=1):
        said = " ".join(item.text for item in sheet.items if isinstance(item, Text))
        for words in ("left half", "all layers", "THIS FACE OUT", "foot at the left, crown at the axis",
                      "revision 1", "Kettle Hill", "calculation aid, not reviewed", "diagonal foot to crown",
                      f"template page {number} of", "turned over for the right half"):  # fmt: skip
            assert words in said
        assert f"{math.dist(half.foot, half.crown):.1f} mm" in said


def test_halves_that_differ_are_two_templates(tall):
    shifted = np.array(tall.rib.centreline.x)
    shifted[: shifted.size // 3] -= 0.002
    from dataclasses import replace

    line = replace(tall.rib.centreline, x=shifted)
    assert len(halves(replace(tall, rib=replace(tall.rib, centreline=line)))) == 2


def shaped(**curve):
    """The form of an invented vault with another curve than its example."""
    from dataclasses import replace

    house = load(EXAMPLES / "kettle-hill.toml").house
    words = {"rise": None, "points": (), "depth": 0.15, **curve}
    vault = replace(house.vaults[0], **words)
    return vault_form(replace(house, vaults=(vault,), openings=(), ends=()), vault)


def test_a_pointed_curve_ends_where_both_its_faces_meet():
    """Closed form: the inside is two arcs that cross over mid-span; outside both run on straight."""
    span, rise, depth = 3.6, 2.9, 0.15
    radius = (1.8**2 + rise**2) / span
    offset = radius - 0.5 * span
    (half,) = halves(shaped(curve=CurveKind.POINTED, span=span, rise=rise, depth=depth))
    inside = math.sqrt((radius - 0.5 * depth) ** 2 - offset**2)
    outside = rise + 0.5 * depth * math.hypot(offset, rise) / rise
    for face, out, top in (
        (half.inside, -0.5, inside),
        (half.middle, 0.0, rise),
        (half.outside, 0.5, outside),
    ):
        assert face[-1] == pytest.approx((0.0, 1000.0 * top), abs=0.01)
        away = np.hypot(face[:-8, 0] - 1000.0 * offset, face[:-8, 1])
        assert away == pytest.approx(1000.0 * (radius + out * depth), abs=0.01)


def test_a_curve_whose_points_miss_the_axis_is_still_two_equal_halves():
    egg = shaped(
        curve=CurveKind.EGG,
        span=2.2,
        rise=2.9,
        base_centre=1.1,
        flank_radius=2.9,
        crown_radius=0.8,
        depth=0.08,
    )
    assert not np.any(np.abs(egg.rib.centreline.x) < 0.001)
    (half,) = halves(egg)
    assert half.crown == pytest.approx((0.0, 1000.0 * (2.9 - 0.04)), abs=0.05)


def test_a_curve_that_leans_is_two_halves_that_meet():
    points = ((-1.5, 0.0), (-1.3, 0.8), (-0.5, 1.9), (0.6, 2.5), (1.35, 2.2), (1.7, 1.2), (1.5, 0.0))
    left, right = halves(shaped(curve=CurveKind.DRAWN, span=3.0, points=points, depth=0.09))
    assert left.crown == pytest.approx(right.crown, abs=0.001)
    assert left.crown[0] > 500.0


def words_of(sheet):
    inside = [item for part in sheet.items if isinstance(part, Clip) for item in part.items]
    return [item for item in (*sheet.items, *inside) if isinstance(item, Text)]


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_every_sheet_names_its_part_and_no_words_lie_where_printers_do_not_print(tall, system):
    lengths = Lengths(system=system)
    pieces = rib_templates(tall, stamp=STAMP, lengths=lengths)[::7]
    for sheet in (*pieces, *curve_templates(tall, stamp=STAMP, lengths=lengths)[::3]):
        words = words_of(sheet)
        assert any(tall.name in one.text for one in words)
        assert min(one.at[1] for one in words) > 5.0
        texts = [one for one in words if one.at[1] < 30.0 and one.anchor == "start"]
        heights = sorted(one.at[1] for one in texts if one.at[0] == texts[0].at[0])
        assert np.min(np.diff(heights)) > 2.4


def test_in_feet_and_inches_a_template_has_no_other_lengths():
    """Only the bar that corrects a printer, and the nails, are told in millimetres."""
    lengths = Lengths(system="imperial")
    form = shaped(curve=CurveKind.SEMICIRCLE, span=3.7, depth=0.14)
    (whole,) = whole_curves(form, stamp=STAMP, lengths=lengths)
    half = halves(form)[0]
    said = "\n".join(one.text for one in words_of(whole))
    chord = math.dist(half.foot, half.crown) / 25.4
    assert f"{chord // 12:.0f} ft" in said
    assert " mm" not in said
    ordinates = [one.text.split(" / ") for one in words_of(whole) if " / " in one.text and one.height < 2.5]
    for across, over in (pair for pair in ordinates if len(pair) == 2):
        x, z = (inches(word) for word in (across, over))
        assert math.hypot(x, z) == pytest.approx((1850.0 - 70.0) / 25.4, abs=1.0 / 16.0)
        assert min(x % 4.0, z % 4.0) < 1e-9
    assert len(ordinates) > 15


def inches(words):
    """A figure such as −12 3/8 as a number."""
    sign = -1.0 if words.startswith("−") else 1.0
    parts = words.lstrip("−").split()
    return sign * sum(float(Fraction(part)) for part in parts)


def test_figures_of_the_corners_keep_off_the_ordinates(tall):
    for system in ("metric", "imperial"):
        for sheet in whole_templates(tall, stamp=STAMP, lengths=Lengths(system=system)):
            texts = [one for one in words_of(sheet) if one.height == 2.2]
            corners = [box_of(one) for one in texts if one.strong]
            others = [box_of(one) for one in texts if not one.strong]
            assert len(corners) == 4
            for a in corners:
                assert not any(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3] for b in others)


@pytest.mark.parametrize(("column", "name"), [(0, "a1"), (25, "z1"), (26, "aa1"), (51, "az1"), (52, "ba1")])
def test_a_long_piece_has_enough_names_for_its_marks(column, name):
    assert mark_name(column, 0) == name


def test_in_dxf_a_piece_is_as_large_as_it_is(form):
    import ezdxf

    sheets = whole_templates(form, stamp=STAMP)
    document = ezdxf.read(io.StringIO(dxf(*sheets).decode()))
    assert document.header["$INSUNITS"] == 4
    cut = [
        np.array([(p[0], p[1]) for p in line.get_points()])
        for line in document.modelspace().query("LWPOLYLINE")
        if "cut" in line.dxf.layer.casefold()
    ]
    assert len(cut) == len(patterns(form.rib))
    for pattern, points in zip(patterns(form.rib), cut, strict=True):
        outline = 1000.0 * np.array(pattern.flat.points)
        assert np.ptp(points, axis=0) == pytest.approx(np.ptp(outline, axis=0), abs=0.001)


def test_in_svg_the_curve_is_in_millimetres(tall):
    (half,) = halves(tall)
    (sheet,) = whole_curves(tall, stamp=STAMP)
    text = svg(sheet)
    assert f'width="{sheet.width:.3f}'.rstrip("0").rstrip(".") in text
    longest = max(re.findall(r'<path d="M([^"Z]*)"', text), key=len)
    points = np.array([[float(v) for v in pair.split()] for pair in longest.split("L")])
    assert math.dist(points[0], points[-1]) == pytest.approx(math.dist(half.foot, half.crown), rel=0.05)
