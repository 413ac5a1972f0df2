"""Points and readings from files: metres and degrees, all mistakes at once, what does not close refused."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.form.setout import SetOutError, reduce_readings, surveyed
from bermwright.formats.house_file import load
from bermwright.formats.survey import read_ordinates, read_points, read_readings
from bermwright.house import Survey

HILL = Path(__file__).resolve().parents[3] / "examples" / "sedge-bank.toml"


@pytest.fixture(scope="module")
def house():
    found = load(HILL).house
    return replace(found, survey=Survey(points="points.csv", middle="M"))


def table(slope=9.0, faces=255.0, *, wrong=(), bend=0.0):
    """Nine points on a slope, 5 m apart, the middle one called M."""
    lines = ["name,x [m],y [m],z [m]"]
    fall, turn = math.tan(math.radians(slope)), math.radians(faces)
    for number, (x, y) in enumerate((x, y) for y in (-5.0, 0.0, 5.0) for x in (-5.0, 0.0, 5.0)):
        z = 100.0 - fall * (x * math.sin(turn) + y * math.cos(turn)) + bend * (x * x + y * y)
        z += dict(wrong).get(number, 0.0)
        lines.append(f"{'M' if number == 4 else f'P{number}'},{x},{y},{z:.3f}")
    return "\n".join(lines).encode()


def test_the_surface_agrees_with_the_file_and_runs_through_the_floor(house):
    vault = house.vaults[0]
    found = surveyed(house, vault, read_points("points.csv", table()), name="points.csv")
    assert math.degrees(found.slope) == pytest.approx(9.0, abs=0.01)
    assert math.degrees(found.faces) == pytest.approx(255.0, abs=0.1)
    assert any("they agree" in said for said in found.says)
    assert found.surface.level(0.5 * vault.length, 0.0) == pytest.approx(0.45)
    rise = found.surface.level(vault.length, 0.0) - found.surface.level(0.0, 0.0)
    assert rise == pytest.approx(vault.length * math.tan(math.radians(9.0)), abs=0.01)


def test_every_point_has_its_place_along_and_across_and_its_level(house):
    vault = house.vaults[0]
    found = surveyed(house, vault, read_points("points.csv", table()), name="points.csv")
    places = {place.name: place for place in found.places}
    assert places["M"].at == pytest.approx((0.5 * vault.length, 0.0))
    assert places["M"].level == pytest.approx(0.45, abs=0.002)
    for place in found.places:
        assert place.level == pytest.approx(float(found.surface.level(*place.at)), abs=0.002)
    # P5 lies 5 m east of the middle: along the axis (75°) by sin, across it by cos.
    turn = math.radians(75.0)
    assert places["P5"].at == pytest.approx((0.5 * vault.length + 5.0 * math.sin(turn), 5.0 * math.cos(turn)))


def test_another_slope_says_what_to_write(house):
    found = surveyed(
        house, house.vaults[0], read_points("p.csv", table(slope=14.0, faces=200.0)), name="p.csv"
    )
    assert 'slope = "14.0 deg" and faces = "200 deg"' in found.says[0]


def test_a_bent_hillside_is_a_bent_surface(house):
    found = surveyed(house, house.vaults[0], read_points("p.csv", table(bend=0.004)), name="p.csv")
    assert not found.surface.plane
    assert "bent surface" in found.surface.words
    assert found.spread < 0.01


def test_an_outlier_is_named_with_what_it_should_be(house):
    with pytest.raises(SetOutError, match=r'"P2" in line 4: height 9[0-9.]+ m'):
        surveyed(house, house.vaults[0], read_points("p.csv", table(wrong=((2, -1.0),))), name="p.csv")


def test_a_place_measured_twice_must_agree(house):
    again = table() + b"\nM,0.0,0.0,100.090\n"
    with pytest.raises(SetOutError, match=r'does not close(.|\n)*"M" in line 6 and line 11: 90 mm'):
        surveyed(house, house.vaults[0], read_points("p.csv", again), name="p.csv")
    near = table() + b"\nM,0.0,0.0,100.010\n"
    found = surveyed(house, house.vaults[0], read_points("p.csv", near), name="p.csv")
    assert len(found.used) == 9


def test_the_middle_must_be_named_and_there(house):
    points = read_points("p.csv", table())
    for middle, words in ((None, "survey.middle"), ("Q", 'no point is called "Q"')):
        asked = replace(house, survey=Survey(points="p.csv", middle=middle))
        with pytest.raises(SetOutError, match=words):
            surveyed(asked, asked.vaults[0], points, name="p.csv")


def test_latitude_and_longitude_are_metres_from_the_first_point():
    text = b"name,lat,lon,z\nM,62.9,14.5,10\nN,62.9001,14.5,10.5\nE,62.9,14.5002,9\n"
    middle, north, east = read_points("p.csv", text)
    assert (middle.east, middle.north) == (0.0, 0.0)
    assert north.north == pytest.approx(11.146, abs=0.002)
    assert east.east == pytest.approx(10.169, abs=0.002)


def test_geojson_gives_the_same_points_as_the_table():
    spots = {"M": [14.5, 62.9, 10.0], "N": [14.5, 62.9001, 10.5], "E": [14.5002, 62.9, 9.0]}
    data = {
        "type": "FeatureCollection",
        "features": [
            {
                "type": "Feature",
                "properties": {"name": name},
                "geometry": {"type": "Point", "coordinates": spot},
            }
            for name, spot in spots.items()
        ],
    }
    lines = "name;lat;lon;z\n" + "\n".join(f"{n};{y};{x};{z}" for n, (x, y, z) in spots.items())
    from_json = read_points("p.geojson", json.dumps(data).encode())
    from_table = read_points("p.csv", lines.encode())
    assert [(p.name, p.east, p.north, p.height) for p in from_json] == [
        (p.name, p.east, p.north, p.height) for p in from_table
    ]


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [
        ("p.csv", b"", "empty"),
        ("p.csv", b"a,b\n1,2\n", "no x"),
        ("p.csv", b"name,x,y,z\nA,1,b,3\nB,c,2,\n", "3 things to put right"),
        ("p.csv", b"name,lat,lon,z\nA,95,14,3\n", "from -90 to 90"),
        ("p.csv", b"\xff\xfe", "UTF-8"),
        ("p.xlsx", b"", "end in"),
        ("p.geojson", b"{", "no JSON in line 1"),
        ("p.geojson", b'{"type": "Polygon"}', "no GeoJSON"),
        ("p.geojson", b'{"type": "FeatureCollection", "features": []}', "no point"),
        (
            "p.geojson",
            b'{"type": "Feature", "geometry": {"type": "Point", "coordinates": [14, 62]}, "properties": {}}',
            "no height",
        ),
        (
            "p.geojson",
            b'{"type": "Feature", "geometry": {"type": "Point", "coordinates": [500000, 62, 1]}}',
            "WGS 84 degrees",
        ),
    ],
)
def test_a_file_that_is_no_survey_says_what_to_write(name, content, words):
    with pytest.raises(SetOutError, match=words):
        read_points(name, content)


def test_feet_and_inches_are_read():
    (point,) = read_points("p.csv", b"name,x [ft],y [ft],z [m]\nA,10,20,3.5\n")
    assert (point.east, point.north, point.height) == (pytest.approx(3.048), pytest.approx(6.096), 3.5)


# ------------------------------------------------------------------------------------------------ levels
LOOP = b"from,to,back,fore,length\nH,A,1.000,1.250,10\nA,B,1.100,1.302,20\nB,H,1.400,.950,20\n"


def test_a_loop_is_closed_by_length():
    levels = reduce_readings(read_readings("r.csv", LOOP), datum="H")
    heights = dict(levels.heights)
    assert levels.closure == pytest.approx(-0.002)
    assert heights["A"] == pytest.approx(-0.250 + 0.002 * 0.2)
    assert heights["B"] == pytest.approx(-0.452 + 0.002 * 0.6)
    assert sum(levels.corrections) == pytest.approx(0.002)
    assert [leg.residual for leg in levels.legs] == pytest.approx(list(levels.corrections))


def test_a_loop_that_misses_is_refused_with_the_way_out():
    wrong = LOOP.replace(b".950", b".850")
    with pytest.raises(SetOutError, match=r"misses by \+98 mm.*level the loop again"):
        reduce_readings(read_readings("r.csv", wrong), datum="H")


def test_legs_measured_twice_are_adjusted_and_a_wrong_one_is_refused():
    twice = LOOP + b"H,B,1.000,1.4505,25\n"
    levels = reduce_readings(read_readings("r.csv", twice), datum="H")
    assert levels.closure is None
    assert abs(dict(levels.heights)["B"] + 0.4507) < 0.001
    assert levels.spread > 0.0
    with pytest.raises(SetOutError, match="do not close"):
        reduce_readings(read_readings("r.csv", LOOP + b"H,B,1.000,1.550,25\n"), datum="H")


def test_an_open_line_says_that_nothing_was_checked_and_a_loose_point_is_refused():
    levels = reduce_readings(read_readings("r.csv", b"from,to,back,fore\nH,A,1,1.2\nA,B,1,1.1\n"), datum=None)
    assert dict(levels.heights) == {"H": 0.0, "A": pytest.approx(-0.2), "B": pytest.approx(-0.3)}
    assert "measured twice" in levels.says[0]
    assert not np.isfinite(levels.spread)
    with pytest.raises(SetOutError, match='leads from the datum "H" to "C", "D"'):
        reduce_readings(read_readings("r.csv", b"from,to,back,fore\nH,A,1,1.2\nC,D,1,1.1\n"), datum="H")
    with pytest.raises(SetOutError, match='datum "X"'):
        reduce_readings(read_readings("r.csv", LOOP), datum="X")


def test_readings_with_mistakes_are_told_at_once():
    with pytest.raises(SetOutError, match=r"3 things(.|\n)*line 2(.|\n)*line 3"):
        read_readings("r.csv", b"from,to,back,fore\nH,H,1,x\nA,B,,1\n")
    with pytest.raises(SetOutError, match="Give all or none"):
        read_readings("r.csv", b"from,to,back,fore,length\nH,A,1,1,\nA,B,1,1,5\n")


def test_ordinates_come_in_order():
    at, heights = read_ordinates("o.csv", b"x [m],z [m]\n0.5,1.2\n-0.5,1.1\n0,1.3\n")
    assert at.tolist() == [-0.5, 0.0, 0.5]
    assert heights.tolist() == [1.1, 1.3, 1.2]
