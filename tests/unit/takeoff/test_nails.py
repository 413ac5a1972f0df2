"""One nail pattern: what is counted is what the templates and the data of the templates show."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.app.making.templating import _pattern_data
from bermwright.app.opening import open_house
from bermwright.base.drawing import Stroke
from bermwright.book.templates import Stamp, patterns, whole_templates
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.form import vault_form
from bermwright.form.rib.flat import lay_flat
from bermwright.form.rib.nails import nail_spots, nailing_of, turns_of
from bermwright.house import Board, Nail
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.members import trimmer_ribs
from bermwright.takeoff.nails import rib_nails

ROOT = Path(__file__).parents[3]
FEW = {"layers": 3, "nails_each_side": 6, "nail_spacing": 0.08, "nails": Nail(diameter=0.004, length=0.1)}
LONG = {"board_length": 2.2, "board": Board(thickness=0.045, width=0.295), "nails_each_side": 9}
HOUSES = (
    ("larch-bank", {}),
    ("kettle-hill", {}),
    ("alder-loft", {}),
    ("larch-bank", FEW),
    ("larch-bank", LONG),
)


def of(name, changes):
    house = open_house(ROOT / "examples" / f"{name}.toml").house
    vault = replace(house.vaults[0], **changes)
    house = replace(house, vaults=(vault, *house.vaults[1:]))
    return house, vault, vault_form(house, vault)


@pytest.mark.parametrize(
    ("name", "changes"), HOUSES, ids=["larch", "kettle", "alder", "three-layers", "long"]
)
def test_the_count_is_the_sum_of_all_crosses_on_the_templates(name, changes):
    house, vault, form = of(name, changes)
    nailing = nailing_of(vault, form.rib, TIMBER_CLASSES[vault.timber])
    sheets = whole_templates(form, stamp=Stamp(house="x", revision="1"), nailing=nailing)
    drawn = written = 0
    layer_of = {piece.name: piece.layer for piece in form.rib.pieces}
    for sheet, pattern in zip(sheets, patterns(form.rib), strict=True):
        # Two strokes cross at each nail; the marks of all layers that the template serves are drawn once.
        crosses = sum(
            isinstance(item, Stroke) and item.layer == "nails" and not item.closed for item in sheet.items
        )
        data = _pattern_data(vault, form, pattern)
        assert crosses == 2 * sum(len(one["at_m"]) for one in data["nails"])
        assert sorted(layer for one in data["nails"] for layer in one["layers"]) == sorted(
            {layer_of[name] for name in data["nailed"]}
        )
        for nailed in data["nailed"]:
            (own,) = (one for one in data["nails"] if layer_of[nailed] in one["layers"])
            written += len(own["at_m"])
            piece = next(piece for piece in form.rib.pieces if piece.name == nailed)
            spots = np.array(nail_spots(lay_flat(form.rib, piece), nailing))
            assert spots == pytest.approx(np.array(own["at_m"]), abs=1e-3)
            drawn += len(spots)
    assert drawn == written == rib_nails(form, vault).each
    assert drawn > form.rib.joints.size * vault.nails_each_side
    row = vault_quantities(house, vault, form).row("rib nails")
    assert row.high == drawn * (form.ribs + trimmer_ribs(house, form))
    # The sum of the working is that of its layers.
    layers = [int(number) for number in re.findall(r"\d+", row.working[0].filled)]
    assert sum(layers) == drawn
    assert len(layers) == form.rib.layers - 1


def in_the_rib(rib, nailing):
    """Places of all nails in the plane of the rib, layer by layer (m)."""
    found = {}
    for piece in rib.pieces:
        if piece.layer == 1:
            continue
        flat = lay_flat(rib, piece)
        x, z, _ = rib.centreline.at(
            np.array([piece.end, piece.start] if flat.mirrored else [piece.start, piece.end])
        )
        ahead = np.array([x[1] - x[0], z[1] - z[0]]) / flat.chord
        out = np.array([-ahead[1], ahead[0]]) * (-1.0 if flat.mirrored else 1.0)
        spots = [np.array([x[0], z[0]]) + u * ahead + v * out for u, v in nail_spots(flat, nailing)]
        found.setdefault(piece.layer, []).extend(spots)
    return {layer: np.array(spots) for layer, spots in found.items()}


SIX_THIN = {"layers": 6, "board": Board(thickness=0.032, width=0.245), "nails_each_side": 8}
UNDRILLED = {"predrilled": False, "nails": Nail(diameter=0.0031, length=0.08), "nails_each_side": 6}
SHALLOW = {
    "depth": 0.1,
    "predrilled": False,
    "nails": Nail(diameter=0.0042, length=0.1),
    "nails_each_side": 4,
}


@pytest.mark.parametrize(
    ("name", "changes"),
    [*HOUSES, ("larch-bank", SIX_THIN), ("kettle-hill", UNDRILLED), ("larch-bank", SHALLOW)],
)
def test_no_nail_meets_one_of_a_layer_that_it_reaches_into(name, changes):
    _, vault, form = of(name, changes)
    rib = form.rib
    nailing = nailing_of(vault, rib, TIMBER_CLASSES[vault.timber])
    places = in_the_rib(rib, nailing)
    reached = 0
    for layer, spots in places.items():
        for other in range(layer + 1, rib.layers + 1):
            # A nail of the other layer begins at its face and ends its own length below.
            if (other - layer) * rib.board < nailing.length - 1e-9:
                reached += 1
                apart = np.hypot(*(spots[:, None] - places[other][None]).transpose(2, 0, 1))
                assert apart.min() >= 1.2 * nailing.diameter
    assert reached >= rib.layers - 2
    assert all(len(spots) > rib.joints.size for spots in places.values())


def test_a_nail_stands_beside_those_of_as_many_layers_as_it_reaches_into():
    rib = of("larch-bank", {})[2].rib
    assert [turns_of(length, rib) for length in (0.045, 0.08, 0.09, 0.1, 0.13, 0.14, 0.3)] == [
        1,
        2,
        2,
        3,
        3,
        4,
        4,
    ]
    assert turns_of(0.13, replace(rib, layers=2)) == 1


def test_nails_of_bent_boards_go_in_lines_and_need_no_number_at_joints():
    _, vault, form = of("larch-bank", {})
    bent = replace(form, rib=replace(form.rib, bent=True))
    nails = rib_nails(bent, replace(vault, nails_each_side=None))
    assert not nails.drawn
    assert len(nails.layers) == form.rib.layers - 1
    assert nails.each == 4 * nails.layers[0]


def test_timber_that_takes_no_nails_undrilled_has_none_counted():
    house, vault, form = of("larch-bank", {"timber": "D40", "predrilled": False})
    row = vault_quantities(house, vault, form).row("rib nails")
    assert not row.known
    assert "vault.predrilled" in row.note
