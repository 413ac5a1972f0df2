"""Survey files as they come: other columns, commas, swapped degrees, blunders on a hill, points on a line."""

from __future__ import annotations

import json
import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.form.setout import SetOutError, surveyed
from bermwright.formats.house_file import load
from bermwright.formats.survey import read_points, read_readings
from bermwright.house import Survey

HILL = Path(__file__).resolve().parents[3] / "examples" / "sedge-bank.toml"
SPOTS = (("M", 0, 0, 100), ("A", 5, 0, 101), ("B", 0, 5, 100), ("C", 5, 5, 101))


@pytest.fixture(scope="module")
def house():
    found = load(HILL).house
    return replace(found, survey=Survey(points="p.csv", middle="M"))


def read(text, name="p.csv"):
    return [(p.name, p.east, p.north, p.height) for p in read_points(name, text.encode())]


def grid(height, *, off=()):
    """Five by five points, 4 m apart, with a rough surface of 20 mm."""
    rough = 0.03 * np.sin(np.arange(25) * 7.3 + 1.0)
    lines = ["name,x,y,z"]
    for at in range(25):
        x, y = 4.0 * (at // 5 - 2), 4.0 * (at % 5 - 2)
        z = height(x, y) + rough[at] + dict(off).get(at, 0.0)
        lines.append(f"{'M' if at == 12 else f'P{at}'},{x},{y},{z:.3f}")
    return "\n".join(lines).encode()


@pytest.mark.parametrize(
    "text",
    [
        "name,x,y,z\n{}",
        "\ufeffName;X;Y;Z\n{}",
        "# made by hand; twice\nname\tx (east)\ty (north)\tz [m]\n{}",
        "name x y z\n{}",
        "id,pt,elev,northing,easting\n{}",
    ],
)
def test_columns_stand_in_any_order_and_are_parted_by_any_mark(text):
    mark = next((one for one in ";\t," if one in text.partition("\n{}")[0].split("\n")[-1]), " ")
    order = (lambda s: (7, s[0], s[3], s[2], s[1])) if "elev" in text else (lambda s: s)
    rows = "\n".join(mark.join(map(str, order(spot))) for spot in SPOTS)
    assert read(text.format(rows)) == list(SPOTS)


def test_units_stand_behind_the_name():
    found = read("name,x_ft,y_ft,z (cm)\nM,10,0,250\n")
    assert found == [("M", pytest.approx(3.048), 0.0, pytest.approx(2.5))]


def test_decimal_commas_between_commas_are_refused_not_cut_off():
    with pytest.raises(SetOutError, match=r"line 2: 5 values for 4 columns(.|\n)*line 3"):
        read("name,x,y,z\nM,0,0,100,2\nA,5,0,101,1\n")
    with pytest.raises(SetOutError, match="6 values for 4 columns"):
        read_readings("r.csv", b"from,to,back,fore\nH,A,1,000,1,250\n")
    assert read("name;x;y;z\nM;0,5;0;100,2\n") == [("M", 0.5, 0.0, 100.2)]


def test_degrees_in_the_wrong_order_are_told_by_the_latitude_of_the_house():
    text = "name,lat,lon,z\nM,14.5,62.9,10\nN,14.5001,62.9,10.5\n"
    with pytest.raises(SetOutError, match=r"the wrong way round(.|\n)*latitude 62.9"):
        read_points("p.csv", text.encode(), math.radians(62.9))
    assert len(read_points("p.csv", text.encode(), math.radians(14.4))) == 2
    assert len(read_points("p.csv", text.encode())) == 2


def test_degrees_called_metres_are_told(house):
    text = b"name,x,y,z\nM,25.1,62.9,100\nA,25.1001,62.9,101\nB,25.1,62.9001,100\n"
    with pytest.raises(SetOutError, match="call the columns lat and lon"):
        surveyed(house, house.vaults[0], read_points("p.csv", text), name="p.csv")


def feature(spot, kind="Point", **properties):
    return {"type": "Feature", "properties": properties, "geometry": {"type": kind, "coordinates": spot}}


def collection(*features):
    return json.dumps({"type": "FeatureCollection", "features": list(features)}).encode()


def test_geojson_with_other_things_in_it():
    found = read_points(
        "p.geojson",
        collection(
            feature([14.5, 62.9, 100.0], name=None, id="M"),
            feature([[14.5, 62.9], [14.6, 62.9]], "LineString"),
            None,
            {"type": "Feature", "properties": ["name"], "geometry": None},
            feature([[14.5001, 62.9, 101.0], [14.5, 62.9001, 102.0]], "MultiPoint", name="row"),
            feature([14.5002, 62.9], elevation="101,5"),
        ),
    )
    assert [point.name for point in found] == ["M", "row 1", "row 2", ""]
    assert [point.height for point in found] == [100.0, 101.0, 102.0, 101.5]
    with pytest.raises(SetOutError, match="lines and areas are left out"):
        read_points("p.geojson", collection(feature([[14.5, 62.9], [14.6, 62.9]], "LineString")))
    with pytest.raises(SetOutError, match="coordinates are no numbers"):
        read_points("p.geojson", collection(feature(None, "MultiPoint")))


def test_a_blunder_shows_on_a_bent_hill_too(house):
    vault = house.vaults[0]

    def hill(x, y):
        return 100.0 - 0.02 * x * x - 0.01 * y * y + 0.1 * y

    found = surveyed(house, vault, read_points("p.csv", grid(hill)), name="p.csv")
    assert not found.surface.plane
    with pytest.raises(SetOutError, match=r'"P3" in line 5(.|\n)*make it 98\.\d\d m'):
        surveyed(house, vault, read_points("p.csv", grid(hill, off=((3, 0.8),))), name="p.csv")


def test_a_terrace_is_said_to_be_no_even_ground(house):
    points = read_points("p.csv", grid(lambda x, _: 100.0 + (1.5 if x > 2.0 else 0.0)))
    says = surveyed(house, house.vaults[0], points, name="p.csv").says
    assert any("not even" in said for said in says)
    even = read_points("p.csv", grid(lambda x, _: 100.0 + 0.1 * x))
    assert not any("not even" in said for said in surveyed(house, house.vaults[0], even, name="p.csv").says)


@pytest.mark.parametrize("jitter", [0.0, 0.05])
def test_points_along_a_line_make_no_surface(house, jitter):
    off = jitter * np.array([1.0, -1.0, 0.4, 0.0, -0.7, 0.9])
    rows = "\n".join(
        f"{'M' if at == 3 else at},{3 * at},{3 * at + o},{100 + 0.1 * at}" for at, o in enumerate(off)
    )
    with pytest.raises(SetOutError, match=r"on one line(.|\n)*both sides"):
        surveyed(house, house.vaults[0], read_points("p.csv", f"name,x,y,z\n{rows}".encode()), name="p.csv")


def test_one_name_for_two_places_says_so(house):
    text = b"name,x,y,z\nM,0,0,100\ng,5,0,101\ng,0,5,100\nC,5,5,101\n"
    with pytest.raises(SetOutError, match=r"7\.07 m apart\. Two points need two names"):
        surveyed(house, house.vaults[0], read_points("p.csv", text), name="p.csv")
