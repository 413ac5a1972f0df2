"""A house of domes in every command that draws, counts or models, as far as its data go."""

from __future__ import annotations

import io
import json
from pathlib import Path

import numpy as np
import pytest

from bermwright.app.opening import open_house
from bermwright.cli.main import main
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids, wall_of
from bermwright.form.solids import Kind, is_closed
from bermwright.takeoff.domes import dome_compared, dome_quantities

ROWAN = Path(__file__).parents[2] / "examples" / "domes" / "rowan-ring.toml"
DAY = ("--date", "2026-06-01")
BRICKS = (
    ('laid = "level"', 'laid = "tilted"'),
    ('unit = "earth tubes"', 'unit = "bricks"\nunit_length = "240 mm"'),
    ('thickness = "380 mm"', 'thickness = "240 mm"'),
    ('slope = "0 deg"', 'slope = "8 deg"\nfaces = "120 deg"'),
)


def run(capsys, *words):
    code = main([str(word) for word in words])
    out = capsys.readouterr()
    return code, out.out, out.err


@pytest.fixture(scope="module")
def tilted(tmp_path_factory):
    text = ROWAN.read_text(encoding="utf-8")
    for old, new in BRICKS:
        assert old in text
        text = text.replace(old, new)
    path = tmp_path_factory.mktemp("dome") / "bricks.toml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.fixture(scope="module", params=["level", "tilted"])
def made(request, tilted):
    house = open_house(tilted if request.param == "tilted" else ROWAN).house
    form = dome_form(house.domes[0])
    return house, form, dome_solids(house, form)


def test_courses_are_closed_bodies_that_hold_what_is_counted(made):
    _, form, solids = made
    courses = solids.layer(Kind.COURSE).solids
    assert len(courses) == len(form.courses)
    assert all(is_closed(one.triangles) and one.volume > 0.0 for one in courses)
    (row,) = dome_compared(form, solids)
    assert row.agrees
    assert row.taken_off == pytest.approx(row.bodies, rel=6e-4)
    # A course without openings is a ring: two circles of the same height for level beds.
    ring = form.courses[0] if form.dome.openings[0].sill > 1.0 else form.courses[-1]
    assert courses[ring.number - 1].volume == pytest.approx(wall_of(form).courses[ring.number - 1], rel=1e-6)


def test_a_level_course_is_the_ring_between_two_cylinders():
    form = dome_form(open_house(ROWAN).house.domes[0])
    course = form.courses[25]
    outer = course.radius + form.dome.thickness
    expected = np.pi * (outer**2 - course.radius**2) * form.course_height
    assert wall_of(form).courses[25] == pytest.approx(expected, rel=1e-12)


def test_the_middle_line_of_a_tilted_course_comes_in_with_its_bed(tilted):
    form = dome_form(open_house(tilted).house.domes[0])
    last = form.courses[-1]
    # By the half of its thickness as seen from above, not by the half along the bed.
    assert last.length == pytest.approx(2.0 * np.pi * (last.radius + 0.12 * np.cos(last.tilt)), rel=1e-9)
    assert last.length < 0.95 * 2.0 * np.pi * (last.radius + 0.12)


def test_an_opening_lies_where_its_direction_says(made):
    house, form, solids = made
    reach = 0.5 * solids.length
    west = next(one for one in form.dome.openings if one.name == "west window")
    course = next(one for one in form.courses if one.height > west.sill + 0.2)
    body = solids.solid(f"course {course.number}")
    x, y = body.vertices[:, 0], body.vertices[:, 1] - reach
    away = np.abs((np.arctan2(-x, -y) - west.at + np.pi) % (2.0 * np.pi) - np.pi)
    # No corner of the ring stands in the middle of the hole; those at its sides do.
    assert np.degrees(away.min()) > 4.0
    assert house.name == "Rowan Ring"
    assert solids.axis == pytest.approx(form.dome.axis + np.pi)


def test_sloping_ground_falls_the_way_it_faces(tilted):
    house = open_house(tilted).house
    form = dome_form(house.domes[0])
    ground = dome_solids(house, form).solid("ground")
    reach = 0.5 * dome_solids(house, form).length
    middle = ground.vertices - np.array([0.0, reach, -house.site.floor])
    bearing = form.dome.axis + np.pi
    east = middle[:, 0] * np.cos(bearing) + middle[:, 1] * np.sin(bearing)
    north = -middle[:, 0] * np.sin(bearing) + middle[:, 1] * np.cos(bearing)
    downhill = east * np.sin(house.site.faces) + north * np.cos(house.site.faces)
    corners = np.abs(middle[:, :2]).max(axis=1) > reach + 1.9
    upper = corners & (np.abs(middle[:, 2] + np.tan(house.site.slope) * downhill) < 1e-9)
    assert upper.sum() == 4


def test_count_says_what_is_laid_and_what_is_not_counted(capsys, tilted):
    code, out, err = run(capsys, "count", ROWAN)
    assert (code, err) == (0, "")
    assert "courses: 33" in out
    assert "courses, volume: 15.68 m³" in out
    assert "Footing, floor, plaster, cover and the closing of the crown are not counted" in out
    data = json.loads(run(capsys, "count", tilted, "--json")[1])
    rows = {row["name"]: row for row in data["domes"][0]["quantities"]}
    form = dome_form(open_house(tilted).house.domes[0])
    assert data["vaults"] == []
    assert rows["bricks"]["high"] == form.bricks == dome_quantities(form).row("bricks").high


def test_a_dome_is_written_as_model_and_read_back(tmp_path, capsys):
    import trimesh

    taken_off = wall_of(dome_form(open_house(ROWAN).house.domes[0])).volume
    code, out, _ = run(capsys, "model", ROWAN, "-o", tmp_path / "dome.glb", *DAY)
    assert code == 0
    assert "Its footing, floor, boxes, plaster and cover are not" in out
    scene = trimesh.load(io.BytesIO((tmp_path / "dome.glb").read_bytes()), file_type="glb")
    courses = [mesh for name, mesh in scene.geometry.items() if name.startswith("course")]
    assert len(courses) == 33
    # Openings are cut to their own heads; the take-off ends courses whole.
    assert taken_off < sum(mesh.volume for mesh in courses) < 1.006 * taken_off
    assert run(capsys, "model", ROWAN, "-o", tmp_path / "dome.stl", *DAY)[0] == 0
    printed = trimesh.load(io.BytesIO((tmp_path / "dome.stl").read_bytes()), file_type="stl")
    assert printed.is_watertight
    assert printed.body_count == 1


@pytest.fixture(scope="module")
def few(tmp_path_factory):
    """The same dome of few, high courses: quicker to look at from all sides."""
    path = tmp_path_factory.mktemp("few") / "few.toml"
    text = ROWAN.read_text(encoding="utf-8").replace('course = "125 mm"', 'course = "400 mm"')
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize(("what", "count"), [("set", 6), ("plan", 1), ("section", 1)])
def test_the_drawings_of_a_dome(what, count, few, tmp_path, capsys):
    code, out, _ = run(capsys, "draw", few, "--what", what, "-o", tmp_path / "dome.svg", *DAY)
    assert code == 0
    assert f"{count} sheet" in out
    words = "".join(path.read_text(encoding="utf-8") for path in sorted(tmp_path.glob("*.svg")))
    assert words.count("calculation aid, not reviewed") >= count


def test_what_a_dome_has_no_drawing_of_is_said_with_what_there_is(tmp_path, capsys):
    code, _, err = run(capsys, "draw", ROWAN, "--what", "ribs", "-o", tmp_path / "dome.pdf")
    assert code == 2
    assert "A dome has no drawing called ribs" in err
    code, _, err = run(capsys, "templates", ROWAN)
    assert code == 2
    assert "`bermwright compass --band`" in err
