"""The geometry of a vault: faces, mesh, ground, and what it refuses."""

from __future__ import annotations

from dataclasses import fields, replace

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.form import FormUnknownError, headroom, missing_for_form, vault_form
from bermwright.house import Cover, CoverKind, CurveKind, Mound, Site


def test_tributary_lengths_add_up(form):
    mesh, face = form.mesh, form.soil_face
    assert np.sum(mesh.plan) == pytest.approx(face.x[-1] - face.x[0], abs=1e-12)
    assert np.sum(mesh.rise) == pytest.approx(face.z[-1] - face.z[0], abs=1e-12)
    assert np.sum(mesh.arc) == pytest.approx(form.rib.centreline.length, abs=1e-12)
    assert mesh.x.size == 73
    assert np.all(np.diff(mesh.s) > 0.01)


def test_every_butt_joint_is_a_node_and_so_is_the_crown(form):
    mesh = form.mesh
    assert mesh.s[list(mesh.joint_nodes)] == pytest.approx(form.rib.joints, abs=1e-9)
    assert len(set(mesh.joint_nodes)) == form.rib.joints.size
    assert mesh.z[mesh.crown] == pytest.approx(np.max(form.rib.centreline.z), abs=2e-3)


def test_faces_are_parallel_to_the_centreline(form):
    rib = form.rib
    apart = np.hypot(rib.outside.x - rib.centreline.x, rib.outside.z - rib.centreline.z)
    away_from_kinks = np.abs(rib.centreline.s - (rib.apex if rib.apex is not None else -9.0)) > 0.3
    assert apart[away_from_kinks] == pytest.approx(0.5 * rib.depth, abs=1e-9)
    total = 0.5 * rib.depth + sum(band.thickness for band in form.bands)
    out = np.hypot(form.soil_face.x - rib.centreline.x, form.soil_face.z - rib.centreline.z)
    assert out[away_from_kinks] == pytest.approx(total, abs=1e-9)
    assert np.array_equal(form.bands[-1].outer.x, form.soil_face.x)
    assert np.array_equal(form.bands[0].inner.x, rib.outside.x)


def test_feet_and_crown_stand_where_the_file_says(form):
    line = form.rib.centreline
    assert (line.x[0], line.x[-1]) == pytest.approx((-2.4, 2.4), abs=1e-9)
    assert line.z[[0, -1]] == pytest.approx(form.springing, abs=1e-9)
    assert np.max(line.z) == pytest.approx(form.springing + form.rise, abs=0.02)


def test_arrays_are_read_only(form):
    things = [form.mesh, form.soil_face, form.rib.centreline, form.ground.finished, form.ground.natural]
    for thing in things:
        for field in fields(thing):
            value = getattr(thing, field.name)
            if isinstance(value, np.ndarray):
                assert not value.flags.writeable, field.name


def test_even_vaults_have_even_meshes(house):
    for change in ({}, {"curve": CurveKind.UNDER_COVER}, {"curve": CurveKind.SEMICIRCLE, "rise": None}):
        built = house(**change)
        mesh = vault_form(built, built.vaults[0]).mesh
        assert mesh.plan == pytest.approx(mesh.plan[::-1], abs=1e-6)
        assert mesh.rise == pytest.approx(-mesh.rise[::-1], abs=1e-6)


def test_mound_runs_down_to_the_natural_ground(house):
    built = house()
    form = vault_form(built, built.vaults[0])
    top = form.crown_level
    assert form.ground.finished.level(0.0) == pytest.approx(top + 0.35)
    assert form.ground.natural.level(0.0) == pytest.approx(0.45)
    toe = (top + 0.35 - 0.45) * 2.5
    assert form.ground.finished.level(toe) == pytest.approx(0.45)
    assert form.ground.finished.level(0.5 * toe) == pytest.approx(0.45 + 0.5 * (top - 0.1))
    assert form.ground.finished.level(toe + 1.0) == pytest.approx(0.45)
    assert (form.ground.water_low, form.ground.water_high) == pytest.approx((0.45 - 2.6, 0.45 - 1.8))


def test_uphill_is_on_the_left_when_the_ground_falls_to_the_right(house):
    # Looking in at 75 degrees, right is 165 degrees: the way in which the ground falls.
    site = Site(floor=-0.45, slope=np.radians(8.0), faces=np.radians(165.0))
    built = house(site=site)
    ground = vault_form(built, built.vaults[0]).ground
    assert ground.natural.level(-3.0) == pytest.approx(0.45 + 3.0 * np.tan(np.radians(8.0)))
    along = house(site=replace(site, faces=np.radians(75.0)))
    assert vault_form(along, along.vaults[0]).ground.natural.level(-3.0) == pytest.approx(0.45)


def test_toes_and_flat_tops(house):
    mound = Mound(crown=0.3, left=np.arctan(0.5), right=np.arctan(0.5), turf=0.1, flat=0.8, right_toe=1.2)
    built = house(mound=mound)
    form = vault_form(built, built.vaults[0])
    top = form.crown_level + 0.3
    level = form.ground.finished.level
    assert level(0.79) == pytest.approx(top)
    assert level(0.8 + 2.0) == pytest.approx(top - 1.0)
    assert level(0.8 + 2.0 * (top - 1.2) + 3.0) == pytest.approx(1.2)
    assert level(-(0.8 + 2.0 * (top - 1.2) + 1.0)) == pytest.approx(0.7)


def test_drawn_ground_is_natural_beyond_its_ends(house):
    line = ((-5.0, 1.0), (0.0, 3.6), (5.0, 1.0))
    built = house(mound=Mound(turf=0.1, line=line, natural=((-20.0, 0.2), (20.0, 1.0))))
    ground = vault_form(built, built.vaults[0]).ground
    assert ground.finished.level(np.array([-2.5, 0.0])) == pytest.approx([2.3, 3.6])
    assert ground.finished.level(6.0) == pytest.approx(ground.natural.level(6.0))


def test_everything_missing_is_said_at_once(house):
    built = house(
        site=Site(slope=0.1), rise=None, mound=Mound(crown=0.3), board_length=None, cover=(), axis=None
    )
    missing = set(missing_for_form(built, built.vaults[0]))
    assert missing == {
        "vault.rise",
        "vault.mound.left",
        "vault.mound.right",
        "vault.mound.turf",
        "site.floor",
        "site.faces",
        "vault.axis",
        "vault.board_length",
        "vault.cover",
    }
    with pytest.raises(FormUnknownError, match=r'"day room" is not known: missing .*vault\.rise'):
        vault_form(built, built.vaults[0])


@pytest.mark.parametrize(
    ("change", "path"),
    [
        ({"mound": None}, "vault.mound"),
        ({"curve": CurveKind.UNDER_COVER, "fill": None}, "vault.fill.unit_weight"),
        (
            {"curve": CurveKind.UNDER_COVER, "cover": (Cover(kind=CoverKind.LAGGING, thickness=0.05),)},
            "vault.cover.unit_weight",
        ),
        ({"curve": CurveKind.THREE_CENTRED}, "vault.side_radius"),
        ({"curve": CurveKind.EGG}, "vault.base_centre"),
    ],
)
def test_each_curve_asks_for_what_it_needs(house, change, path):
    built = house(**change)
    assert path in missing_for_form(built, built.vaults[0])


def test_unknown_weights_of_layers_stay_unknown(house):
    built = house(cover=(Cover(kind=CoverKind.MEMBRANE, thickness=0.002),))
    assert np.isnan(vault_form(built, built.vaults[0]).bands[0].unit_weight)


def test_chain_gives_the_catenary(house):
    built = house(rise=None, chain=6.6)
    form = vault_form(built, built.vaults[0])
    assert form.rib.centreline.length == pytest.approx(6.6, abs=1e-4)


def test_a_crown_too_tight_for_the_rib_is_refused(house):
    built = house(rise=7.5, depth=0.4, span=1.6)
    with pytest.raises(OutOfRangeError, match="too tight"):
        vault_form(built, built.vaults[0])


def test_more_joints_than_can_be_reckoned_are_refused_with_the_way_out(house):
    built = house()
    with pytest.raises(
        OutOfRangeError, match=r"up to 10 can be reckoned. Write a longer \[vault\] board_length"
    ):
        vault_form(built, built.vaults[0], elements=12)


def test_headroom_counts_from_the_floor_between_the_inside_faces(house):
    built = house(curve=CurveKind.SEMICIRCLE, rise=None)
    form = vault_form(built, built.vaults[0])
    strip = headroom(form, 1.9)
    assert strip.width == pytest.approx(2.0 * np.sqrt((2.4 - 0.075) ** 2 - 1.0), abs=1e-3)
    assert headroom(form, 0.5).width == pytest.approx(2.0 * (2.4 - 0.075))
    with pytest.raises(OutOfRangeError):
        headroom(form, 3.4)


def test_remarks_speak_of_bulges_and_crowns(house):
    built = house(curve=CurveKind.UNDER_COVER, rise=2.2, mound=Mound(
        crown=0.35, left=np.arctan(1 / 2.5), right=np.arctan(1 / 3), turf=0.1))  # fmt: skip
    form = vault_form(built, built.vaults[0])
    said = " ".join(form.remarks)
    assert "free of bending when finished" in said
    assert "to the right of mid-span" in said
    assert "mm past its feet" in said
    assert form.undercut > 0.0
    assert np.any(form.mesh.plan < 0.0)
