"""Files of houses that are none of the examples: closed, valid, and holding what the take-off counts."""

from __future__ import annotations

import io
import json

import numpy as np
import pytest
import shapely
from invented import invented

from bermwright.app.modelling import model_glb
from bermwright.form import vault_form
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids
from bermwright.form.solids import house_solids, vault_solids
from bermwright.formats.exchange import SiteVault, ifc, site_geojson
from bermwright.takeoff.bodies import compared
from bermwright.takeoff.domes import dome_compared

DATE = "2026-11-30"
PLACED = ("lopsided", "vault and dome", "two domes", "skep")


def bodies(name):
    house = invented(name)
    return house, [*house_solids(house), *(dome_solids(house, dome_form(one)) for one in house.domes)]


@pytest.mark.parametrize("name", ["lopsided", "feet", "vault and dome", "skep"])
def test_the_take_off_and_the_bodies_agree(name):
    house = invented(name)
    rows = []
    for vault in house.vaults:
        form = vault_form(house, vault)
        rows += compared(house, vault, form, vault_solids(house, vault, form))
    for dome in house.domes:
        form = dome_form(dome)
        rows += dome_compared(form, dome_solids(house, form))
    assert rows
    for row in rows:
        assert row.bodies == pytest.approx(row.taken_off, rel=1e-3), row.name


@pytest.mark.parametrize("name", PLACED)
def test_outlines_are_valid_rings_that_turn_as_the_standard_says(name):
    house, solids = bodies(name)
    content = site_geojson(house, [SiteVault(solids=one) for one in solids])
    shapes = [shapely.geometry.shape(one["geometry"]) for one in json.loads(content)["features"]]
    flats = [shape for shape in shapes if shape.geom_type == "Polygon"]
    assert len(flats) >= len(solids)
    for shape in flats:
        assert shape.is_valid, shapely.is_valid_reason(shape)
        assert shape.exterior.is_ccw
        assert not any(ring.is_ccw for ring in shape.interiors)
    # What one sees through from above: a crown left open, a window in a wall that leans; no sliver.
    flat = json.loads(site_geojson(house, [SiteVault(solids=one) for one in solids], metres=True))
    for one in flat["features"]:
        for ring in one["geometry"]["coordinates"][1:] if one["geometry"]["type"] == "Polygon" else ():
            assert not shapely.Polygon(ring).buffer(-4e-3).is_empty


def test_a_building_model_is_valid_and_every_face_set_closed():
    library = pytest.importorskip("ifcopenshell")
    import ifcopenshell.geom
    import ifcopenshell.util.shape
    import ifcopenshell.validate

    house, solids = bodies("vault and dome")
    model = library.file.from_string(ifc(house, solids, date=DATE).decode("utf-8"))
    logger = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model, logger)
    assert logger.statements == []
    for one in model.by_type("IfcTriangulatedFaceSet"):
        corners = np.array(one.CoordIndex)
        assert corners.min() == 1
        assert corners.max() == len(one.Coordinates.CoordList)
        _, places = np.unique(np.array(one.Coordinates.CoordList), axis=0, return_inverse=True)
        faces = places.ravel()[corners - 1]
        edges = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1)
        assert set(np.unique(edges, axis=0, return_counts=True)[1].tolist()) == {2}
    settings = ifcopenshell.geom.settings()
    counted = {one.name: one for part in solids for one in part.solids}
    for kind in ("IfcWall", "IfcGeographicElement", "IfcMember"):
        for element in model.by_type(kind):
            shape = ifcopenshell.geom.create_shape(settings, element)
            volume = ifcopenshell.util.shape.get_volume(shape.geometry)
            name = element.Name if element.Name in counted else element.Name.rsplit(" ", 1)[0]
            if kind != "IfcGeographicElement":  # two grounds bear one name
                assert volume == pytest.approx(counted[name].volume, rel=1e-4), element.Name
            assert volume > 0.0
    # Every body hangs in one storey of the building on the site.
    (inside,) = model.by_type("IfcRelContainedInSpatialStructure")
    assert {one.id() for one in inside.RelatedElements} == {
        one.id() for one in model.by_type("IfcElement") if not one.is_a("IfcOpeningElement")
    }


def test_vaults_and_domes_stand_in_one_scene():
    trimesh = pytest.importorskip("trimesh")
    house, solids = bodies("vault and dome")
    scene = trimesh.load(io.BytesIO(model_glb(house)), file_type="glb")
    tops = {"day room", "round room"}
    assert tops <= set(scene.graph.nodes)
    assert len(scene.graph.nodes_geometry) == sum(len(one.places) for part in solids for one in part.solids)
    # Its middle lies 9 m west and 2.4 m south of that of the vault, whose axis looks to 75 degrees.
    middle = scene.graph["course 1"][0][:3, 3]
    assert np.all(np.isfinite(middle))
    vault, dome = (scene.graph[name][0] for name in ("day room", "round room"))
    centre = dome @ [0.0, 0.5 * solids[1].length, 0.0, 1.0] - vault @ [0.0, 0.5 * solids[0].length, 0.0, 1.0]
    axis = np.radians(75.0)
    right = -9.0 * np.cos(axis) + 2.4 * np.sin(axis)
    inwards = -9.0 * np.sin(axis) - 2.4 * np.cos(axis)
    assert centre[0] == pytest.approx(right, abs=1e-3)
    assert centre[2] == pytest.approx(-inwards, abs=1e-3)
