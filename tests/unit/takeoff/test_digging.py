"""Dig, backfill and spare by another route: the section as polygons, the pit on a finer grid."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
import shapely

from bermwright.form import vault_form
from bermwright.form.setout import setting_out
from bermwright.form.setout.earthwork.pits import Pit, pit_corners, pit_outline
from bermwright.form.setout.ground import Surface
from bermwright.formats.house_file import load
from bermwright.house import SettingOut
from bermwright.takeoff.digging import balance_of
from bermwright.takeoff.digging.built import built_below

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"


def opened(name, **site):
    house = load(EXAMPLES / f"{name}.toml").house
    house = replace(house, site=replace(house.site, **site))
    vault = house.vaults[0]
    form = vault_form(house, vault)
    return house, vault, form, setting_out(house, vault, form)


def body(form, out):
    """The house in section, between its ends and over its footings."""
    face, floor = form.soil_face, out.dig.formation
    parts = [shapely.Polygon([*zip(face.x, face.z, strict=True), (face.x[-1], floor), (face.x[0], floor)])]
    footings = []
    for strip, way in zip(out.strips, (-1.0, 1.0), strict=True):
        if strip.footing is not None:
            low, high = sorted(way * (0.5 * form.span + offset) for offset in strip.footing)
            top = strip.wall_bottom if strip.wall_bottom is not None else form.springing
            footings.append(shapely.box(low, strip.footing_bottom, high, top))
        faces = [edge.offset for edge in strip.edges if edge.words.startswith("wall")]
        if faces:
            low, high = sorted(way * (0.5 * form.span + offset) for offset in faces)
            parts.append(shapely.box(low, strip.wall_bottom, high, strip.wall_top))
    whole = shapely.union_all(parts)
    return whole, shapely.union_all([whole, *footings])


@pytest.mark.parametrize(
    ("name", "site"),
    [
        ("larch-bank", {}),
        ("kettle-hill", {}),
        ("alder-loft", {}),
        ("sedge-bank", {}),
        ("sedge-bank", {"slope": math.radians(18.0), "faces": math.radians(165.0)}),
        ("sedge-bank", {"slope": math.radians(15.0), "floor": 0.3}),
    ],
)
def test_what_is_built_below_the_ground_is_the_section_under_it(name, site):
    _, _, form, out = opened(name, **site)
    ends, footed = body(form, out)
    across = np.linspace(-30.0, 30.0, 601)
    places = [line.place for line in out.plan.strings if not line.along]
    edges = np.linspace(min(places), max(places), 161)
    held = 0.0
    for place in 0.5 * (edges[1:] + edges[:-1]):
        ground = [(-30.0, -40.0), *zip(across, out.surface.level(place, across), strict=True), (30.0, -40.0)]
        section = footed if 0.0 < place < form.length else ends
        held += section.intersection(shapely.Polygon(ground)).area * (edges[1] - edges[0])
    assert built_below(out, form, out.dig) == pytest.approx(held, rel=5e-3)


def test_the_dig_less_what_is_built_and_put_back_leaves_nothing():
    house, vault, form, out = opened("sedge-bank")
    balance = balance_of(house, vault, form, out)
    built = built_below(out, form, out.dig)
    shares = 1.0 / 1.2, 1.2
    assert balance.backfill.low < (out.dig.bank.high - built) * shares[1]
    assert balance.backfill.high > (out.dig.bank.low - built) * shares[0]
    spoil = balance.spare.low + balance.mound.high
    assert balance.cut.high - balance.backfill.high == pytest.approx(spoil, abs=1e-6)


def test_a_trench_is_dug_out_of_the_layers_that_it_goes_through():
    house, vault, form, _ = opened("kettle-hill")
    soil = house.site.soil[0]
    layers = (replace(soil, name="topsoil", thickness=0.3), replace(soil, name="rock below", thickness=None))
    layers = (layers[0], replace(soil, name="clay", thickness=2.0), layers[1])
    house = replace(house, site=replace(house.site, soil=layers), setting_out=SettingOut())
    cuts = {cut.soil: cut.bank for cut in setting_out(house, vault, form).dig.cuts}
    # The bottom lies 0.08 m deep, both trenches 0.50 m: 1.1 m wide and 9 m long.
    pit = (9.0 + 0.06 + 0.45 + 1.2) * (5.0 + 2.0 * 0.55 + 1.2) * 0.08
    assert cuts["topsoil"].low == pytest.approx(pit + 2.0 * 1.1 * 9.0 * 0.22, rel=1e-6)
    assert cuts["clay"].low == pytest.approx(2.0 * 1.1 * 9.0 * 0.20, rel=1e-6)
    assert cuts["rock below"].high == 0.0


def test_a_trench_takes_only_what_lies_over_its_bottom():
    _, _, form, out = opened("sedge-bank", slope=math.radians(15.0), floor=0.3)
    along = np.linspace(0.0, form.length, 751)
    low, high = out.dig.trenches[0].low[1], out.dig.trenches[0].high[1]
    ground = out.surface.level(along, 0.5 * (low + high))
    over, under = out.dig.formation, out.dig.trenches[0].bottom
    deep = np.maximum(ground - under, 0.0) - np.maximum(ground - over, 0.0)
    trench = 2.0 * (high - low) * float(np.trapezoid(deep, along))
    pit = out.dig.pit
    u = np.linspace(pit.low[0], pit.high[0], 2001)
    upright = (pit.high[1] - pit.low[1]) * float(
        np.trapezoid(np.maximum(out.surface.level(u, 0.0) - over, 0.0), u)
    )
    assert out.dig.bank.low == pytest.approx(upright + trench, rel=2e-3)


@pytest.mark.parametrize("bend", [(-0.03, 0.0, -0.08), (0.01, 0.02, -0.05), (0.008, 0.0, 0.015)])
def test_over_uneven_ground_the_edge_of_the_dig_is_traced(bend):
    pit = Pit(low=(0.0, -3.0), high=(8.0, 3.0), bottom=-0.3, batter=1.0)
    surface = Surface(coefficients=(1.8, 0.02, 0.0, *bend), middle=4.0, words="bent")
    edge = shapely.Polygon(pit_outline(pit, surface))
    u, v = np.meshgrid(np.arange(-8.0, 16.0, 0.05), np.arange(-11.0, 11.0, 0.05))
    dug = surface.level(u, v) > pit.level(u, v) + 0.02
    spots = shapely.points(u[dug], v[dug])
    assert edge.buffer(0.03).contains(spots).all()
    assert edge.area == pytest.approx(dug.sum() * 0.05**2, rel=0.03)
    four = shapely.Polygon(pit_corners(pit, surface))
    assert edge.area != pytest.approx(four.area, rel=0.02)
