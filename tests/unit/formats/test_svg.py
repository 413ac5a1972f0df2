"""SVG: true millimetres, arcs as arcs, resolved colours, hatches inside their areas, the same every time."""

from __future__ import annotations

import math
import re
from xml.etree import ElementTree

import pytest
import shapely

from bermwright.base.drawing import (
    Arc,
    Area,
    Arrow,
    Band,
    Clip,
    Dimension,
    Hatch,
    Ink,
    Leader,
    Lettering,
    Pen,
    Sheet,
    Stroke,
    Text,
    Wash,
)
from bermwright.base.lettering import text_width
from bermwright.formats.drawings import svg
from bermwright.formats.drawings.curves import bezier_chain
from bermwright.formats.drawings.hatching import expand_area, expand_band
from bermwright.formats.drawings.lower import lower
from bermwright.formats.drawings.plain import Fill, Strokes
from bermwright.formats.drawings.plates import plate_of
from bermwright.formats.drawings.styles import PENS, THEMES

SVG = "{http://www.w3.org/2000/svg}"
HATCHES = [hatch for hatch in Hatch if hatch is not Hatch.NONE]


def sheet(*items):
    return Sheet(width=200.0, height=120.0, items=items, title="A < B", alt="two words")


def drawn(*items, theme="paper"):
    return ElementTree.fromstring(svg(sheet(*items), theme))  # noqa: S314  (our own text)


def test_a_hundred_millimetres_are_a_hundred_and_y_points_up():
    root = drawn(Stroke(path=((20.0, 10.0), (120.0, 10.0)), pen=Pen.CUT))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("200mm", "120mm", "0 0 200 120")
    path = root.findall(f"{SVG}path")[-1]
    assert path.get("d") == "M20 110L120 110"
    assert float(path.get("stroke-width")) == PENS[Pen.CUT].width == 0.5


def test_title_and_description_are_escaped():
    root = drawn()
    assert root.find(f"{SVG}title").text == "A < B"
    assert root.find(f"{SVG}desc").text == "two words"


def test_an_arc_is_one_command_and_runs_counter_clockwise():
    root = drawn(Arc(centre=(50.0, 50.0), radius=10.0, start=0.0, end=1.5 * math.pi, pen=Pen.SEEN))
    assert root.findall(f"{SVG}path")[-1].get("d") == "M60 70A10 10 0 1 0 50 80"


def test_a_full_circle_is_two_arcs():
    root = drawn(Arc(centre=(50.0, 50.0), radius=10.0, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN))
    assert root.findall(f"{SVG}path")[-1].get("d").count("A") == 2


def test_a_bezier_chain_passes_its_points_and_keeps_a_smooth_curve():
    points = tuple((30.0 * math.cos(a), 30.0 * math.sin(a)) for a in [math.pi * k / 24 for k in range(25)])
    chain = bezier_chain(points)
    assert [piece[0] for piece in chain] == list(points[:-1])
    for a, b, c, d in chain:
        middle = [(p + 3 * q + 3 * r + s) / 8 for p, q, r, s in zip(a, b, c, d, strict=True)]
        assert math.hypot(*middle) == pytest.approx(30.0, abs=0.01)


def test_two_points_give_a_straight_piece_and_one_gives_none():
    (piece,) = bezier_chain(((0.0, 0.0), (3.0, 0.0)))
    assert piece == ((0.0, 0.0), (1.0, 0.0), (2.0, 0.0), (3.0, 0.0))
    assert bezier_chain(((0.0, 0.0),)) == ()


@pytest.mark.parametrize("theme", THEMES)
def test_every_colour_is_resolved(theme):
    items = [Area(path=((0, 0), (9, 0), (9, 9), (0, 9)), wash=wash) for wash in Wash if wash is not Wash.NONE]
    items += [Stroke(path=((0, 0), (9, 9)), pen=pen, ink=ink) for pen in Pen for ink in Ink]
    text = svg(sheet(*items), theme)
    assert "var(" not in text
    assert "color-mix" not in text
    assert "<style" not in text
    colours = re.findall(r'(?:fill|stroke)="([^"]*)"', text)
    assert all(colour == "none" or re.fullmatch("#[0-9a-f]{6}", colour) for colour in colours)


def test_red_is_for_stop_marks_and_over_stress_alone():
    red = THEMES["paper"].inks[Ink.RED]
    assert [pen for pen in Pen if red in svg(sheet(Stroke(path=((0, 0), (9, 9)), pen=pen)))] == [Pen.STOP]


def test_a_dashed_pen_has_dashes_in_millimetres():
    path = drawn(Stroke(path=((0, 0), (50, 0)), pen=Pen.HIDDEN)).findall(f"{SVG}path")[-1]
    assert path.get("stroke-dasharray") == "1.5 0.8"


def test_text_has_its_height_its_halo_and_its_turn():
    text = drawn(Text(at=(10.0, 20.0), text="+2.00 & <", height=2.5, angle=math.pi / 2)).find(f"{SVG}text")
    assert text.text == "+2.00 & <"
    assert text.get("transform").startswith("translate(10 100) rotate(-90)")
    assert float(text.get("font-size")) * 0.729 == pytest.approx(2.5, abs=0.01)
    assert text.get("paint-order") == "stroke"
    assert text.get("stroke") == THEMES["paper"].inks[Ink.PAPER]


def test_in_print_letters_stand_on_a_plate_and_have_no_edge():
    words = Text(at=(100.0, 60.0), text="  604", height=2.0, angle=math.pi / 2)
    root = ElementTree.fromstring(svg(sheet(words), printed=True))  # noqa: S314  (our own text)
    plate = root.findall(f"{SVG}path")[-1]
    places = [tuple(map(float, place.split())) for place in re.findall(r"[\d.]+ [\d.]+", plate.get("d"))]
    letters = root.find(f"{SVG}text")
    assert plate.get("fill") == THEMES["paper"].inks[Ink.PAPER]
    assert (letters.get("stroke"), letters.get("paint-order")) == (None, None)
    xs, ys = zip(*places, strict=True)
    # Turned upwards: the letters stand left of their foot, and their spaces below have no plate.
    assert min(xs) < 98.0
    assert 100.0 < max(xs) < 100.5
    assert max(ys) == pytest.approx(60.0 - text_width("  ", 2.0) + 0.4, abs=0.01)
    assert min(ys) == pytest.approx(60.0 - text_width("  604", 2.0) - 0.4, abs=0.01)


def test_what_hangs_down_or_bears_an_accent_has_a_taller_plate():
    def tall(words):
        ys = [y for _, y in plate_of(Text(at=(0.0, 0.0), text=words, height=3.0))]
        return min(ys), max(ys)

    assert tall("604")[0] > tall("(6)")[0]
    assert tall("Ä")[1] > tall("A")[1] == tall("×")[1]


def test_a_hatch_is_laid_only_where_a_window_shows_it():
    ground = Area(path=((0, 0), (200, 0), (200, 120), (0, 120)), hatch=Hatch.EARTH_PLACED, levels=(30.0,))
    inside = Area(path=((0, 0), (40, 0), (40, 40), (0, 40)), hatch=Hatch.EARTH_PLACED, levels=(30.0,))
    (window,) = lower([Clip(low=(0.0, 0.0), high=(40.0, 40.0), items=(ground,))])
    (strokes,) = window.items
    points = [point for path in strokes.paths for point in path]
    assert max(max(point) for point in points) <= 41.0
    (alone,) = expand_area(inside)
    whole = [path for path in alone.paths if all(0.5 < x < 39.5 and 0.5 < y < 39.5 for x, y in path)]
    assert len(whole) > 40
    assert set(whole) <= set(strokes.paths)


def test_words_and_notes_are_set_in_their_own_faces():
    words = drawn(Text(at=(0, 0), text="Left", face=Lettering.WORDS, strong=True, halo=False)).find(
        f"{SVG}text"
    )
    italic = drawn(Text(at=(0, 0), text="finished ground", face=Lettering.NOTE)).find(f"{SVG}text")
    assert words.get("font-family").startswith("'Libertinus Serif'")
    assert (words.get("font-weight"), words.get("paint-order")) == ("700", None)
    assert italic.get("font-style") == "italic"


def test_dimension_draws_line_extensions_ticks_and_figure():
    root = drawn(Dimension(start=(20.0, 20.0), end=(120.0, 20.0), offset=8.0, text="5000"))
    line, ticks = root.findall(f"{SVG}path")
    assert line.get("d").startswith("M20 92L120 92")
    assert ticks.get("d").count("M") == 2
    assert root.find(f"{SVG}text").text == "5000"


def test_a_dimension_downwards_is_still_read_from_the_right():
    text = drawn(Dimension(start=(20.0, 80.0), end=(20.0, 20.0), offset=5.0, text="60")).find(f"{SVG}text")
    assert "rotate(-90)" in text.get("transform")


def test_clips_have_names_of_their_own():
    inner = (Stroke(path=((0, 0), (9, 9)), pen=Pen.CUT),)
    text = svg(
        sheet(*(Clip(low=(0, 0), high=(5, 5), items=inner, round=k == 1) for k in range(2))), prefix="q"
    )
    assert text.count('clip-path="url(#q') == 2
    assert "<ellipse" in text
    assert len(set(re.findall(r'clipPath id="(\w+)"', text))) == 2


def test_leader_and_arrow_are_closed_shapes():
    root = drawn(
        Leader(to=(10, 10), at=(40, 40), text="7"), Arrow(tail=(60, 60), head=(60, 40), pen=Pen.FORCE)
    )
    assert root.find(f"{SVG}text").text == "7"
    ink = THEMES["paper"].washes[Wash.INK]
    heads = [path for path in root.findall(f"{SVG}path") if path.get("fill") == ink]
    assert heads[-1].get("d").startswith("M60 80L")


@pytest.mark.parametrize("hatch", HATCHES)
def test_a_hatch_stays_inside_its_area_and_out_of_its_holes(hatch):
    ring = ((10, 10), (70, 12), (66, 58), (12, 50))
    hole = ((30, 25), (50, 25), (50, 40), (30, 40))
    area = Area(path=ring, holes=(hole,), hatch=hatch, levels=(20.0, 30.0, 40.0), along=0.4)
    (strokes,) = expand_area(area)
    allowed = shapely.difference(shapely.Polygon(ring), shapely.Polygon(hole)).buffer(1e-6)
    lines = shapely.MultiLineString(list(strokes.paths))
    assert len(strokes.paths) > 3
    assert allowed.contains(lines)


def test_a_hatch_does_not_move_when_its_area_grows():
    def strokes(high):
        (found,) = expand_area(
            Area(path=((0, 0), (60, 0), (60, high), (0, high)), hatch=Hatch.EARTH_IN_PLACE)
        )
        return {path for path in found.paths if max(y for _, y in path) < 25.0}

    assert strokes(30.0) == strokes(45.0) != set()


def test_placed_earth_has_a_line_at_each_true_lift():
    area = Area(path=((0, 0), (80, 0), (80, 30), (0, 30)), hatch=Hatch.EARTH_PLACED, levels=(7.3, 19.1))
    (strokes,) = expand_area(area)
    for level in area.levels:
        drawn_there = sum(b[0] - a[0] for a, b in strokes.paths if a[1] == b[1] == level)
        assert drawn_there > 0.8 * 80.0


def test_overfilled_soil_is_red_at_sixty_degrees():
    (strokes,) = expand_area(Area(path=((0, 0), (30, 0), (30, 20), (0, 20)), hatch=Hatch.OVERFILLED))
    assert strokes.ink is Ink.RED
    a, b = max(strokes.paths, key=lambda path: math.dist(*path))
    assert math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) == pytest.approx(60.0)


@pytest.mark.parametrize("hatch", [hatch for hatch in HATCHES if hatch is not Hatch.TURF])
def test_a_band_lies_to_the_left_of_its_path(hatch):
    arch = tuple((50 - 30 * math.cos(a), 30 * math.sin(a)) for a in [math.pi * k / 60 for k in range(61)])
    band = Band(path=arch, thickness=3.0, hatch=hatch, wash=Wash.TIMBER)
    radii = [
        math.hypot(x - 50.0, y)
        for part in expand_band(band)
        for path in (part.paths if isinstance(part, Strokes) else (part.path,))
        for x, y in path
    ]
    assert min(radii) > 30.0 - 0.05
    assert max(radii) < 33.0 + 0.05


def test_turf_grows_upwards_from_the_surface():
    (blades,) = expand_band(Band(path=((0, 10), (30, 10), (60, 10)), thickness=0.0, hatch=Hatch.TURF))
    assert len(blades.paths) > 50
    assert all(foot[1] == pytest.approx(10.0) and tip[1] > 10.0 for foot, tip in blades.paths)


def test_a_thin_membrane_is_thick_enough_to_be_seen():
    fill, dashes = expand_band(Band(path=((0, 0), (20, 0), (40, 0)), thickness=0.02, hatch=Hatch.MEMBRANE))
    assert isinstance(fill, Fill)
    assert max(y for _, y in fill.path) - min(y for _, y in fill.path) == pytest.approx(0.6)
    assert dashes.ink is Ink.PAPER


def test_the_same_sheet_gives_the_same_text():
    items = [Area(path=((0, 0), (50, 0), (50, 40), (0, 40)), hatch=hatch) for hatch in HATCHES]
    assert svg(sheet(*items)) == svg(sheet(*items))
