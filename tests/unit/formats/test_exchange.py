"""Files for other programs, each read back by a reader that is not ours."""

from __future__ import annotations

import csv
import io
import json
import re
import struct
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
import shapely

from bermwright.app.modelling import model_glb
from bermwright.form import vault_form
from bermwright.form.setout import setting_out
from bermwright.form.solids import Kind, vault_solids
from bermwright.form.solids.printing import print_parts
from bermwright.formats.exchange import (
    ExtraMissingError,
    NotPlacedError,
    SiteVault,
    body_table,
    compared_table,
    glb,
    ifc,
    quantity_table,
    site_geojson,
    stl,
)
from bermwright.formats.house_file import load
from bermwright.formats.tables import table_csv, tables_xlsx
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.bodies import compared

EXAMPLES = Path(__file__).parents[3] / "examples"
DATE = "2026-11-30"


@cache
def made(name="larch-bank"):
    house = load(EXAMPLES / f"{name}.toml").house
    vault = house.vaults[0]
    form = vault_form(house, vault)
    return house, vault, form, vault_solids(house, vault, form)


# ------------------------------------------------------------------ GLB


def chunks(content):
    magic, version, size = struct.unpack_from("<III", content)
    assert (magic, version, size) == (0x46546C67, 2, len(content))
    length, kind = struct.unpack_from("<II", content, 12)
    assert kind == 0x4E4F534A
    document = json.loads(content[20 : 20 + length])
    rest, kind = struct.unpack_from("<II", content, 20 + length)
    assert kind == 0x004E4942
    assert 28 + length + rest == len(content)
    return document, content[28 + length :]


def test_glb_has_the_structure_of_gltf():
    """What the validator checks; its own run gave 0 errors, 0 warnings, 0 infos, 0 hints on all examples."""
    house, _, _, solids = made()
    document, body = chunks(model_glb(house))
    assert document["asset"]["version"] == "2.0"
    assert document["buffers"] == [{"byteLength": len(body)}]
    for view in document["bufferViews"]:
        assert view["byteOffset"] % 4 == 0
        assert view["byteOffset"] + view["byteLength"] <= len(body)
    children = [child for node in document["nodes"] for child in node.get("children", ())]
    assert sorted([*children, *document["scenes"][0]["nodes"]]) == list(range(len(document["nodes"])))
    for mesh in document["meshes"]:
        (part,) = mesh["primitives"]
        place, index = (
            document["accessors"][one] for one in (part["attributes"]["POSITION"], part["indices"])
        )
        view = document["bufferViews"][index["bufferView"]]
        corners = np.frombuffer(body, "<u4", index["count"], view["byteOffset"])
        assert corners.max() == place["count"] - 1
        view = document["bufferViews"][place["bufferView"]]
        points = np.frombuffer(body, "<f4", 3 * place["count"], view["byteOffset"]).reshape(-1, 3)
        assert np.allclose(points.min(axis=0), place["min"])
        assert np.allclose(points.max(axis=0), place["max"])
    layers = [node for node in document["nodes"] if "layer" in node.get("extras", {}) and "mesh" not in node]
    assert [node["name"] for node in layers] == [layer.name for layer in solids.layers]
    assert [node["extras"]["layer"] for node in layers] == list(range(len(layers)))


@pytest.mark.parametrize("name", ["larch-bank", "kettle-hill"])
def test_glb_is_read_back_with_its_volumes_and_stands_upright(name):
    trimesh = pytest.importorskip("trimesh")
    house, _, form, solids = made(name)
    scene = trimesh.load(io.BytesIO(glb(house.name, [solids])), file_type="glb")
    found = {}
    for node in scene.graph.nodes_geometry:
        transform, geometry = scene.graph[node]
        mesh = scene.geometry[geometry].copy()
        mesh.apply_transform(transform)
        found[node] = mesh
    assert len(found) == sum(len(one.places) for one in solids.solids)
    for one in solids.solids:
        if len(one.places) == 1:
            mesh = found[one.name]
            assert mesh.is_watertight, one.name
            assert mesh.volume == pytest.approx(one.volume, rel=1e-4, abs=1e-6)
    fill = found["turf"]
    # glTF is upright along y: the top of the mound is its greatest y, the way in its greatest z.
    assert fill.bounds[1][1] == pytest.approx(float(form.ground.finished.z.max()), abs=1e-4)
    assert found["front wall"].bounds[1][2] == pytest.approx(0.0, abs=1e-4)
    assert found["back wall"].bounds[0][2] == pytest.approx(-form.length, abs=1e-4)


# ------------------------------------------------------------------ STL


def test_stl_is_closed_at_its_scale_and_lies_on_the_bed():
    trimesh = pytest.importorskip("trimesh")
    _, _, form, solids = made()
    parts = print_parts(solids, form)
    content = stl(parts, scale=20.0)
    assert not content.startswith(b"solid")
    assert len(content) == 84 + 50 * struct.unpack_from("<I", content, 80)[0]
    mesh = trimesh.load(io.BytesIO(content), file_type="stl")
    assert mesh.is_watertight
    assert mesh.body_count == len(parts)
    assert mesh.bounds[0][2] == pytest.approx(0.0, abs=1e-6)
    shell = trimesh.load(io.BytesIO(stl(parts[:1], scale=20.0)), file_type="stl")
    across = float(form.soil_face.x.max() - form.soil_face.x.min())
    assert shell.extents[0] == pytest.approx(50.0 * across, rel=1e-5)
    assert shell.extents[1] == pytest.approx(50.0 * (form.length + form.rib.width), rel=1e-5)


# ------------------------------------------------------------------ IFC


@cache
def ifc_text():
    house, _, _, solids = made()
    return ifc(house, [solids], date=DATE).decode("utf-8")


def test_ifc_is_the_same_every_time_with_ids_of_its_own():
    pytest.importorskip("ifcopenshell")
    house, _, _, solids = made()
    assert ifc(house, [solids], date=DATE).decode("utf-8") == ifc_text()
    assert f"{DATE}T00:00:00" in ifc_text()
    ids = re.findall(r"^#\d+=IFC\w+\('([0-9A-Za-z_$]{22})'", ifc_text(), re.MULTILINE)
    assert len(ids) > 100
    assert len(set(ids)) == len(ids)


def test_ifc_points_to_nothing_that_is_not_there():
    """The library's validator lets an index past the end of its points through: it is looked for here."""
    pytest.importorskip("ifcopenshell")
    lines = dict(re.findall(r"^#(\d+)=(.*);$", ifc_text(), re.MULTILINE))
    for line in lines.values():
        for reference in re.findall(r"#(\d+)", re.sub(r"'[^']*'", "", line)):
            assert reference in lines
    faces = [line for line in lines.values() if line.startswith("IFCTRIANGULATEDFACESET(")]
    assert len(faces) > 15
    for line in faces:
        points, corners = coordinates(lines, line)
        assert corners.min() == 1
        assert corners.max() == len(points)


def coordinates(lines, line):
    found = re.match(r"IFCTRIANGULATEDFACESET\(#(\d+),\$,\.T\.,\((.*)\),\$\)", line)
    points = np.array(json.loads(numbers(lines[found[1]][len("IFCCARTESIANPOINTLIST3D(") :].split(",$")[0])))
    return points, np.array(json.loads(numbers(f"({found[2]})")))


def numbers(text):
    text = text.removesuffix(")") if text.count(")") > text.count("(") else text
    return re.sub(r"(\d)\.(?=[,\]E])", r"\1.0", text.replace("(", "[").replace(")", "]"))


def test_ifc_is_valid_and_its_volumes_are_those_of_the_bodies():
    library = pytest.importorskip("ifcopenshell")
    import ifcopenshell.geom
    import ifcopenshell.util.shape
    import ifcopenshell.validate

    house, vault, form, solids = made()
    model = library.file.from_string(ifc_text())
    logger = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model, logger)
    assert logger.statements == []
    settings = ifcopenshell.geom.settings()
    for kind in ("IfcWall", "IfcFooting", "IfcGeographicElement", "IfcDoor", "IfcWindow", "IfcSlab"):
        for element in model.by_type(kind):
            shape = ifcopenshell.geom.create_shape(settings, element)
            volume = ifcopenshell.util.shape.get_volume(shape.geometry)
            assert volume == pytest.approx(amounts(element)["BodyVolume"], rel=1e-4), element.Name
            assert volume == pytest.approx(solids.solid(element.Name).volume, rel=1e-4)
    rows = {row.name: row for row in compared(house, vault, form, solids)}
    taken = {element.Name: amounts(element).get("TakenOffVolume") for element in model.by_type("IfcElement")}
    assert taken["fill"] == pytest.approx(rows["fill, compacted"].taken_off, rel=1e-3)
    assert taken["rigid foam"] == pytest.approx(rows["rigid foam, volume"].taken_off, rel=1e-3)
    ribs = sum(
        value for name, value in taken.items() if name.startswith("rib") and value and "foam" not in name
    )
    assert ribs == pytest.approx(rows["ribs, finished"].taken_off, rel=1e-3)


def amounts(element):
    sets = [one.RelatingPropertyDefinition for one in element.IsDefinedBy]
    return {
        one.Name: one.VolumeValue
        for found in sets
        if found.is_a("IfcElementQuantity")
        for one in found.Quantities
    }


def test_ifc_says_which_extra_is_missing(monkeypatch):
    import sys

    house, _, _, solids = made()
    monkeypatch.setitem(sys.modules, "ifcopenshell", None)
    with pytest.raises(ExtraMissingError, match=r"bermwright\[exchange\]"):
        ifc(house, [solids], date=DATE)


# ------------------------------------------------------------------ GeoJSON


def placed_house():
    house = made()[0]
    return replace(house, site=replace(house.site, longitude=np.radians(14.5)))


def test_geojson_needs_a_place_on_the_globe():
    house, _, _, solids = made()
    bare = replace(house, site=replace(house.site, longitude=None))
    with pytest.raises(NotPlacedError, match=r"site\.longitude"):
        site_geojson(bare, [SiteVault(solids=solids)])


def test_geojson_is_read_back_with_true_areas():
    solids = made()[3]
    data = json.loads(site_geojson(placed_house(), [SiteVault(solids=solids)]))
    metres = json.loads(site_geojson(placed_house(), [SiteVault(solids=solids)], metres=True))
    assert "metres" in metres["coordinates"]
    assert "coordinates" not in data
    latitude = placed_house().site.latitude
    # Metres to a degree by the series for the WGS 84 ellipsoid (another way than the writer's radii).
    north = 111132.92 - 559.82 * np.cos(2 * latitude) + 1.175 * np.cos(4 * latitude)
    east = 111412.84 * np.cos(latitude) - 93.5 * np.cos(3 * latitude)
    for feature, flat in zip(data["features"], metres["features"], strict=True):
        if feature["geometry"]["type"] != "Polygon":
            continue
        shape = shapely.geometry.shape(feature["geometry"])
        assert shape.is_valid
        assert shape.exterior.is_ccw
        area = feature["properties"]["area_m2"]
        assert shape.area * north * east == pytest.approx(area, rel=1e-3)
        assert shapely.geometry.shape(flat["geometry"]).area == pytest.approx(area, rel=1e-3)


def test_the_axis_runs_the_way_the_file_says():
    solids = made()[3]
    data = json.loads(site_geojson(placed_house(), [SiteVault(solids=solids)], metres=True))
    (line,) = [one for one in data["features"] if one["properties"]["part"].startswith("axis")]
    (east, north), (far_east, far_north) = line["geometry"]["coordinates"]
    assert np.hypot(far_east - east, far_north - north) == pytest.approx(7.5, abs=1e-3)
    assert np.degrees(np.arctan2(far_east - east, far_north - north)) == pytest.approx(75.0, abs=0.01)


def test_pegs_keep_their_distances():
    house, vault, form, solids = made()
    pegs = setting_out(house, vault, form).plan.pegs
    data = json.loads(site_geojson(placed_house(), [SiteVault(solids=solids, pegs=pegs)], metres=True))
    found = {
        one["properties"]["name"]: np.array(one["geometry"]["coordinates"])
        for one in data["features"]
        if one["properties"]["part"] == "peg"
    }
    assert len(found) == len(pegs) > 3
    first, *others = pegs
    for peg in others:
        true = np.hypot(peg.at[0] - first.at[0], peg.at[1] - first.at[1])
        assert np.hypot(*(found[peg.name] - found[first.name])) == pytest.approx(true, abs=1e-3)


# ------------------------------------------------------------------ CSV and XLSX


def tables():
    house, vault, form, solids = made()
    counted = vault_quantities(house, vault, form)
    rows = [(vault.name, row) for row in compared(house, vault, form, solids)]
    return counted, (quantity_table([counted]), body_table([solids]), compared_table(rows))


def test_csv_is_read_back_row_by_row():
    counted, (table, *_) = tables()
    rows = list(csv.DictReader(io.StringIO(table_csv(table).decode("utf-8"))))
    assert [row["what"] for row in rows] == [row.name for row in counted.rows]
    fill = next(row for row in rows if row["what"] == "fill, compacted")
    assert float(fill["high"]) == pytest.approx(counted.row("fill, compacted").high)
    assert fill["unit"] == "m3"
    unknown = [row for row, one in zip(rows, counted.rows, strict=True) if not one.known]
    assert all(row["low"] == "" for row in unknown)


def test_a_text_that_looks_like_a_formula_is_none():
    table = replace(tables()[1][0], rows=(("=1+1", "-x", "@y", 1.0, 2.0, "+", "", "", "", ""),))
    line = table_csv(table).decode("utf-8").splitlines()[1]
    assert line.startswith(" =1+1, -x, @y,1,2, +")


def test_xlsx_is_read_back_and_the_same_every_time():
    openpyxl = pytest.importorskip("openpyxl")
    counted, all_tables = tables()
    content = tables_xlsx(all_tables, title="Quantities", date=DATE)
    assert content == tables_xlsx(all_tables, title="Quantities", date=DATE)
    book = openpyxl.load_workbook(io.BytesIO(content))
    assert book.sheetnames == ["quantities", "bodies", "take-off and bodies"]
    rows = list(book["quantities"].values)
    assert len(rows) == len(counted.rows) + 1
    assert rows[1][0] == counted.rows[0].name
    agree = {row[0]: row[5] for row in list(book["take-off and bodies"].values)[1:]}
    assert set(agree.values()) == {"yes"}
    solids = made()[3]
    total = sum(row[6] for row in list(book["bodies"].values)[1:] if row[3] == str(Kind.RIB))
    assert total == pytest.approx(sum(one.total for one in solids.layer(Kind.RIB).solids), rel=1e-5)


def test_two_vaults_stand_side_by_side_in_every_file():
    house, vault, _, _ = made()
    other = replace(vault, name="store")
    twins = [vault_solids(house, one, vault_form(house, one)) for one in (vault, other)]
    document, _ = chunks(glb(house.name, twins))
    tops = [node for node in document["nodes"] if node.get("extras", {}).get("kind") == "vault"]
    assert [node["name"] for node in tops] == ["day room", "store"]
    assert tops[0]["translation"] == [0.0, 0.0, 0.0]
    far = tops[1]["translation"][0]
    reach = [
        max(float(one.high[0]) for one in twins[0].solids),
        min(float(one.low[0]) for one in twins[1].solids),
    ]
    assert far > reach[0] - reach[1]
    data = json.loads(site_geojson(placed_house(), [SiteVault(solids=one) for one in twins], metres=True))
    mounds = [
        shapely.geometry.shape(one["geometry"])
        for one in data["features"]
        if one["properties"]["part"] == "mound outline"
    ]
    assert len(mounds) == 2
    assert not mounds[0].intersects(mounds[1])
