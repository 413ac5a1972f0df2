"""One nail pattern: what is counted is what the templates and the data of the templates show."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from bermwright.app.making.templating import _pattern_data
from bermwright.app.opening import open_house
from bermwright.base.drawing import Stroke
from bermwright.book.templates import Stamp, patterns, whole_templates
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.form import vault_form
from bermwright.form.rib.nails import nailing_of
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
    for sheet, pattern in zip(sheets, patterns(form.rib), strict=True):
        # Two strokes cross at each nail.
        crosses = sum(isinstance(item, Stroke) and item.layer == "nails" for item in sheet.items) // 2
        nailed = sum(piece_name[0] != "1" for piece_name in pattern.names)
        drawn += crosses * nailed
        data = _pattern_data(vault, form, pattern)
        written += len(data["nails_m"]) * len(data["nailed"])
        if crosses:
            assert crosses == len(data["nails_m"])
        assert bool(crosses) == bool(nailed)
    assert drawn == written == rib_nails(form, vault).each
    assert drawn > form.rib.joints.size * vault.nails_each_side
    row = vault_quantities(house, vault, form).row("rib nails")
    assert row.high == drawn * (form.ribs + trimmer_ribs(house, form))
    # The sum of the working is that of its layers.
    layers = [int(number) for number in re.findall(r"\d+", row.working[0].filled)]
    assert sum(layers) == drawn
    assert len(layers) == form.rib.layers - 1


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
