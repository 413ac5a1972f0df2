"""`bermwright compass` and `bermwright forms`: what they say, what they write, and that it prints true."""

from __future__ import annotations

import io
import json
from dataclasses import replace
from pathlib import Path

import pdfplumber
import pytest

from bermwright.app.opening import open_house
from bermwright.base.dimensions import dimension_text
from bermwright.base.document import Heading, Notice
from bermwright.base.drawing import Dimension, Stroke, Text
from bermwright.base.lettering import text_width
from bermwright.book.pages.chapters import house_chapters
from bermwright.book.pages.forms import printed_patterns
from bermwright.book.sheets.compass import band_of_chain, band_of_heights, band_sheets, dome_section
from bermwright.book.sheets.compass.band import EACH, GLUE, LEFT, STRIP, TALL, TOP
from bermwright.book.sheets.forms import full_sheet, tile_count, tiled
from bermwright.book.sheets.paper import boxes_of
from bermwright.form.developed import forms_of
from bermwright.form.dome import dome_form
from bermwright.formats.drawings import pdf
from bermwright.house.making.words import DomeCurve
from bermwright.rules.assess import assess

ROOT = Path(__file__).resolve().parents[2]
ROWAN = ROOT / "examples" / "domes" / "rowan-ring.toml"
LARCH = ROOT / "examples" / "larch-bank.toml"
POINT = 25.4 / 72.0
DAY = "2026-11-30"
MARK = "calculation aid, not reviewed"


def strict(text):
    return json.loads(text, parse_constant=lambda word: pytest.fail(f"{word} is no JSON"))


@pytest.fixture
def readings(tmp_path):
    def written(*radii, course=12):
        rows = [f"{course},{45 * k} deg,{radius} m" for k, radius in enumerate(radii)]
        path = tmp_path / "ring.csv"
        path.write_text("\n".join(["course,direction,radius", *rows]), encoding="utf-8")
        return path

    return written


# ------------------------------------------------- compass
def test_compass_says_every_course_and_what_is_not_known(run):
    code, out, err = run("compass", ROWAN, "--date", DAY)
    said = " ".join(out.split())
    assert (code, err) == (0, "")
    assert "The strength of this dome is not known" in said
    assert "Nobody stands below" in said
    assert "33 +4.000 0.250 m 142 mm * 3.968 m" in said
    assert "outside of the wall, in line with door" in said
    assert "a whole course ahead at course 6" in said


def test_compass_in_feet(run):
    code, out, _ = run("compass", ROWAN, "--units", "imperial", "--date", DAY)
    assert code == 0
    assert "6 ft 10 11/16 in" in out
    assert " mm" not in out.partition("Courses")[2].partition("Rods")[0].replace("75 mm", "")


def test_the_json_holds_all_that_the_table_says(run):
    data = strict(run("compass", ROWAN, "--json")[1])
    dome = data["domes"][0]
    assert len(dome["courses"]) == 33
    assert dome["first_course_over_limit"] == 24
    assert dome["rods"][0]["refused"] is False
    assert dome["courses"][8]["pieces"][0]["whole_ring"] is False
    assert data["not_checked"]
    for course in dome["courses"]:
        assert sum(part["length_m"] for part in course["crews"]) == pytest.approx(course["middle_line_m"])


def test_a_ring_that_lies_right_goes_on(run, readings):
    code, out, _ = run("compass", ROWAN, "--measured", readings(*[1.93] * 8))
    said = " ".join(out.split())
    assert code == 0
    assert "mean 1.930 m: 13 mm outside of the drawing" in said
    assert "course 13 lies on the drawing again" in said


def test_a_ring_with_a_dent_stops_the_work(run, readings):
    code, out, _ = run(
        "compass", ROWAN, "--measured", readings(1.95, 1.95, 1.95, 1.55, 1.95, 1.95, 1.95, 1.95)
    )
    said = " ".join(out.split())
    assert code == 1
    assert "Stop: at 135° the ring has" in said
    assert "would step out by" in said


def test_a_table_with_mistakes_names_them_all(run, tmp_path):
    path = tmp_path / "bad.csv"
    path.write_text(
        "course,direction,radius\n1x,0 deg,2 m\n12,45,1.95 m\n12,90 deg,-1 m\n3,4\n", encoding="utf-8"
    )
    code, out, err = run("compass", ROWAN, "--measured", path)
    assert (code, out) == (2, "")
    assert "4 things to put right" in err
    for line in ("line 2", "line 3", "line 4", "line 5"):
        assert line in err


@pytest.mark.parametrize(
    ("words", "complaint"),
    [
        (("compass", LARCH), "has no dome"),
        (("compass", ROWAN, "--dome", "round rom"), 'Did you mean "round room"'),
        (("compass", ROWAN, "--measured", "nowhere.csv"), "cannot be read"),
        (("compass", ROWAN, "--out", "dome.txt"), "must end in .pdf or .svg or .dxf"),
        (("forms", ROWAN, "--settlement", "20"), "has no unit"),
        (("forms", ROWAN, "--printer-bar", "90,100"), "no printer that can be corrected"),
        (("compass", ROWAN, "--printer-bar", "100"), "no two measures"),
        (("forms", ROWAN, "--settlement", "2 m"), "from 0 mm to 200 mm"),
    ],
)
def test_what_cannot_be_is_said_in_one_line(run, words, complaint):
    code, out, err = run(*words)
    assert (code, out) == (2, "")
    assert complaint in err
    assert len(err.strip().splitlines()) == 1


def test_a_pivot_in_the_wall_is_refused_and_the_table_stays(run, tmp_path):
    path = tmp_path / "wall.toml"
    text = ROWAN.read_text(encoding="utf-8").replace('rise = "4.2 m" ', 'centre_offset = "2.2 m" ')
    path.write_text(text, encoding="utf-8")
    code, out, _ = run("compass", path)
    assert code == 0
    assert "is refused: its pivot" in " ".join(out.split())
    assert strict(run("compass", path, "--json")[1])["domes"][0]["rods"][0]["refused"] is True


def test_the_pages_with_their_bands_are_written_twice_alike(run, tmp_path):
    paths = [tmp_path / name for name in ("a.pdf", "b.pdf")]
    for path in paths:
        assert run("compass", ROWAN, "--band", "--date", DAY, "--out", path)[0] == 0
    assert paths[0].read_bytes() == paths[1].read_bytes()
    with pdfplumber.open(paths[0]) as document:
        words = [document.pages[place].extract_text() for place in (0, -1)]
    assert all(MARK in text for text in words)
    assert "band for the pole" in words[1]


@pytest.mark.parametrize("ending", [".svg", ".dxf"])
def test_the_drawings_of_the_compass_are_written(run, tmp_path, ending):
    assert run("compass", ROWAN, "--date", DAY, "--out", tmp_path / f"dome{ending}")[0] == 0
    assert sum(path.suffix == ending for path in tmp_path.iterdir()) == (6 if ending == ".svg" else 1)


# ------------------------------------------------- the band measured in the PDF
def upright_lines(page):
    """x of every upright stroke and its two ends up the page, in millimetres."""
    return [
        (line["x0"] * POINT, line["top"] * POINT, line["bottom"] * POINT)
        for line in [*page.lines, *page.rects, *page.curves]
        if abs(line["x1"] - line["x0"]) < 0.01
    ]


@pytest.mark.parametrize("maker", [band_of_chain, band_of_heights])
def test_every_mark_of_a_band_measures_true(maker):
    form = dome_form(open_house(ROWAN).house.domes[0])
    band = maker(form)
    sheets = band_sheets(band, "stamp")
    found = []
    with pdfplumber.open(io.BytesIO(pdf(*sheets, date=DAY))) as document:
        for number, page in enumerate(document.pages):
            lines = upright_lines(page)
            for row in range(4):
                foot = TOP + TALL + row * EACH
                marks = [x for x, _, low in lines if abs(low - foot) < 0.05 and _tall(lines, x, foot, 6.0)]
                found += [(number * 4 + row) * STRIP + x - LEFT for x in marks if x - LEFT < STRIP + GLUE]
    wanted = [1e3 * (value - band.start) for value, _ in band.marks]
    assert len(wanted) == 33
    for place in wanted:
        assert min(abs(place - one) for one in found) < 0.1


def _tall(lines, x, foot, height):
    return any(
        abs(at - x) < 0.01 and abs(low - top - height) < 0.05 and abs(low - foot) < 0.05
        for at, top, low in lines
    )


def test_the_bar_of_a_band_is_a_hundred_millimetres():
    form = dome_form(open_house(ROWAN).house.domes[0])
    (first, *_) = band_sheets(band_of_chain(form), "stamp")
    with pdfplumber.open(io.BytesIO(pdf(first, date=DAY))) as document:
        ends = [
            x
            for x, top, low in upright_lines(document.pages[0])
            if abs(low - top - 4.0) < 0.05 and top < 20.0
        ]
        words = document.pages[0].extract_text()
    assert max(ends) - min(ends) == pytest.approx(100.0, abs=0.05)
    assert "check 100.0 mm" in words


def texts_of(sheet):
    return [one for one in sheet.items if isinstance(one, Text)]


def overlapping(texts):
    """Pairs of words that stand over each other."""

    def meet(one, other):
        return any(a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
                   for a in boxes_of(one, 0.0) for b in boxes_of(other, 0.0))  # fmt: skip

    return [(a.text, b.text) for at, a in enumerate(texts) for b in texts[at + 1 :] if meet(a, b)]


@pytest.mark.parametrize("maker", [band_of_chain, band_of_heights])
@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_no_figure_of_a_band_stands_on_the_name_of_a_join(maker, system):
    form = dome_form(open_house(ROWAN).house.domes[0])
    band = maker(form, system)
    sheets = band_sheets(band, "stamp")
    joins = [one.text for sheet in sheets for one in texts_of(sheet) if one.text.startswith("join")]
    assert joins.count(f"join {band.strips - 1}") == 2
    assert f"join {band.strips}" not in joins  # nothing is glued behind the last strip
    for sheet in sheets:
        assert overlapping(texts_of(sheet)) == []


EGG = {"curve": DomeCurve.EGG, "span": 3.6, "rise": 2.7, "flank_radius": 3.6, "crown_radius": 1.0}
SHAPES = (
    {},
    EGG,
    {"curve": DomeCurve.SEGMENT, "span": 3.4, "rise": 1.2},
    {"rise": None, "centre_offset": 2.2},
)


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("shape", SHAPES)
def test_figures_of_the_section_keep_off_each_other_and_on_the_sheet(shape, system):
    dome = replace(open_house(ROWAN).house.domes[0], openings=(), crews=(), **shape)
    sheet = dome_section(dome_form(dome), system=system)
    sizes = [dimension_text(one) for one in sheet.items if isinstance(one, Dimension)]
    assert overlapping([*texts_of(sheet), *sizes]) == []
    for one in texts_of(sheet):
        assert one.at[0] + text_width(
            one.text, one.height, one.face, strong=one.strong
        ) < sheet.width + 1.0 or (one.anchor != "start" or one.angle)
        assert system == "metric" or " mm" not in one.text


def test_a_printer_that_prints_small_is_corrected_in_both_ways():
    form = dome_form(open_house(ROWAN).house.domes[0])
    true, large = (
        band_sheets(band_of_chain(form), "stamp", stretch=one)[0] for one in ((1.0, 1.0), (1.02, 0.99))
    )
    for before, after in zip(true.items, large.items, strict=True):
        if isinstance(before, Stroke):
            for (x, y), (u, v) in zip(before.path, after.path, strict=True):
                assert (u, v) == pytest.approx((1.02 * x, 0.99 * y))
                assert u < 297.0


# ------------------------------------------------- forms
def test_forms_say_boxes_sheets_and_what_is_missing(run):
    code, out, err = run("forms", ROWAN, "--date", DAY)
    said = " ".join(out.split())
    assert (code, err) == (0, "")
    assert "Hole 900 mm wide; the box is 2070 mm high" in said
    assert "built 20 mm higher than the hole" in said
    assert "Nobody stands under a form while its wedges are loosened" in said
    assert "29 battens 25 mm thick over 2 faces of radius 425 mm" in said
    code, out, _ = run("forms", LARCH)
    assert code == 0
    assert "Write a [sheet] table" in " ".join(out.split())
    assert "stove pipe: sleeve, unrolled" in out


def test_the_json_of_forms_holds_the_outlines(run):
    data = strict(run("forms", ROWAN, "--json")[1])
    panel = data["boxes"][0]["panels"][0]
    assert panel["count"] == 2
    assert len(panel["outline_m"]) > 40
    assert data["sheets"][0]["people"] == 1
    assert data["waiting"] == []


def test_a_pattern_at_full_size_is_read_back_true_from_dxf_and_pdf(run, tmp_path):
    import ezdxf

    path = tmp_path / "door.dxf"
    assert run("forms", ROWAN, "--only", "door: side", "--out", path, "--date", DAY)[0] == 0
    pattern = forms_of(open_house(ROWAN).house).boxes[0].patterns[0]
    cut = [one for one in ezdxf.readfile(path).modelspace() if one.dxf.layer.startswith("A-CUT")]
    points = [(x, y) for x, y in cut[0].get_points("xy")]
    wide, tall = (max(axis) - min(axis) for axis in zip(*points, strict=True))
    assert (wide, tall) == pytest.approx((1e3 * pattern.size[0], 1e3 * pattern.size[1]), abs=0.01)
    sheet = full_sheet(pattern, house="Rowan", revision="x")
    with pdfplumber.open(io.BytesIO(pdf(sheet, date=DAY))) as document:
        shapes = [
            one
            for one in [*document.pages[0].curves, *document.pages[0].rects]
            if one["width"] > 1000.0 / POINT
        ]
    widths = [one["width"] * POINT for one in shapes]
    assert min(abs(one - 1e3 * pattern.size[0]) for one in widths) < 0.1


def test_tiles_are_counted_before_and_bear_the_mark():
    pattern = forms_of(open_house(ROWAN).house).boxes[0].eyebrow
    sheets = tiled(pattern, "A4", house="Rowan", revision="x")
    assert len(sheets) == tile_count(pattern, "A4")
    with pdfplumber.open(io.BytesIO(pdf(*sheets[:2], date=DAY))) as document:
        words = [page.extract_text() for page in document.pages]
    assert all(MARK in text and "check 100.0 mm" in text and "lay on" in words[1] for text in words)


def test_the_words_say_how_many_sheets_the_full_size_takes(run):
    out = run("forms", ROWAN, "--date", DAY, "--paper", "A3")[1]
    patterns = printed_patterns(forms_of(open_house(ROWAN).house))
    total = sum(tile_count(pattern, "A3") for pattern in patterns)
    assert f"{total} sheets of A3" in " ".join(out.split())


def test_a_pattern_that_is_not_there_is_named(run, tmp_path):
    code, _, err = run("forms", ROWAN, "--only", "porch", "--out", tmp_path / "x.dxf")
    assert code == 2
    assert 'No pattern is called "porch"' in err


def test_the_site_book_has_both_chapters():
    chapters = house_chapters(assess(open_house(ROWAN).house), "metric")
    heads = [block.text for block in chapters if isinstance(block, Heading) and block.level == 1]
    assert "Compass of round room" in heads
    assert "Boxes, forms and patterns" in heads
    notices = [line for block in chapters if isinstance(block, Notice) for line in block.lines]
    assert any("strength of this dome is not known" in line for line in notices)
