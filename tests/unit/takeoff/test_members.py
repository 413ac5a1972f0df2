"""All timber: what is counted is what is cut, and how long each piece is."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.app.opening import open_house
from bermwright.form import vault_form
from bermwright.house import Board, Prop
from bermwright.stages.nouns import StageKind
from bermwright.takeoff import vault_quantities
from bermwright.takeoff.cutting import Part, house_plan
from bermwright.takeoff.members import Wooden, trimmer_ribs, wooden_members
from bermwright.takeoff.nouns import Group

EXAMPLES = Path(__file__).resolve().parents[3] / "examples"


def opened(name):
    house = open_house(EXAMPLES / f"{name}.toml").house
    return house, vault_form(house, house.vaults[0])


@pytest.fixture(scope="module")
def larch():
    """Larch Bank with a row of props, so that every kind of temporary timber is in it."""
    house, form = opened("larch-bank")
    prop = Prop(level=2.1, start=0.0, until=1.5, section=Board(thickness=0.1, width=0.1), spacing=1.2)
    return replace(house, stages=replace(house.stages, props=(prop,)), stock=(), logs=()), form


@pytest.mark.parametrize("name", ["larch", "alder-loft"])
def test_what_is_counted_of_timber_is_what_is_cut(name, larch):
    house, form = larch if name == "larch" else opened(name)
    house = replace(house, stock=(), logs=())
    counted = vault_quantities(house, house.vaults[0], form)
    plan = house_plan(house, ((house.vaults[0], form),))
    cut = Counter()
    for one in plan.lists:
        for board in one.boards:
            for placed in board.placed:
                cut[placed.kind.part, placed.kind.name] += len(placed.labels)
    members = [one for one in wooden_members(house, form) if not one.missing]
    assert {one.what for one in members} >= {Wooden.HEADER, Wooden.LINTEL, Wooden.BRACE}
    for one in members:
        assert counted.row(one.name).high == one.count == cut[Part(str(one.what)), one.name] > 0
    ribs = sum(row.high for row in counted.rows if row.name in {"ribs", "trimmer ribs"})
    assert sum(n for (part, _), n in cut.items() if part is Part.RIBS) == ribs * len(form.rib.pieces)
    planks = [row for row in counted.of(Group.LAYERS) if row.name.endswith("rows of planks")]
    placed = [one for cuts in plan.lists for board in cuts.boards for one in board.placed]
    run = sum((one.end - one.start) * len(one.labels) for one in placed if one.kind.part is Part.LAGGING)
    # Planks are cut up to whole millimetres.
    assert run == pytest.approx(sum(row.high for row in planks) * form.length, rel=2e-3)
    assert plan.complete


def test_a_prop_is_as_long_as_it_is_high_and_stands_at_both_ends(larch):
    house, form = larch
    (prop,) = [one for one in wooden_members(house, form) if one.what is Wooden.PROP]
    assert prop.length == 2.1
    assert prop.count == np.ceil(form.length / 1.2) + 1
    assert prop.stage is StageKind.FILL
    row = vault_quantities(house, house.vaults[0], form).row("props, row 1")
    assert "100 mm × 100 mm, 2.10 m long" in row.note
    assert "until" in row.note


def test_a_header_fills_what_is_left_between_doubled_trimmers(larch):
    house, form = larch
    (header,) = [one for one in wooden_members(house, form) if one.what is Wooden.HEADER]
    # One rib is cut: two spaces of 0.40 m, less a doubled rib of 0.225 m, half of it on each side.
    assert header.length == pytest.approx(2 * 0.4 - 2 * 0.225)
    assert header.count == 2
    assert trimmer_ribs(house, form) == 2
    single = tuple(replace(one, doubled=1) for one in house.openings)
    assert trimmer_ribs(replace(house, openings=single), form) == 0


def test_a_size_that_is_missing_is_said_and_not_cut(larch):
    house, form = larch
    bare = tuple(replace(one, bearing=None) for one in house.openings)
    without = replace(house, openings=bare)
    row = vault_quantities(without, house.vaults[0], form).row("lintels, front door")
    assert not row.known
    assert row.note == "not given: opening.bearing"
    plan = house_plan(without, ((house.vaults[0], form),))
    assert "Lintels, front door of day room are not laid out: missing opening.bearing." in plan.remarks
    assert not any(kind.part is Part.LINTEL for one in plan.lists for kind in one.kinds)
