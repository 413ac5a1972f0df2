"""Geogrid in the fill: counted by hand, and drawn where it is counted."""

from __future__ import annotations

import math

import pytest

from bermwright.base.drawing import Pen, Stroke
from bermwright.book.sheets import section_sheet, supports_of
from bermwright.form import vault_form
from bermwright.formats.house_file import read
from bermwright.takeoff import vault_quantities

SIDES = """
[[geogrid]]
name = "steps"
vault = "day room"
behind = "both sides"
spacing = "0.3 m"
length = "1.6 m"
"""


def read_with(repository, text: str):
    file = repository / "examples/larch-bank.toml"
    house = read(file.read_text(encoding="utf-8") + text, file.name).house
    return house, house.vaults[0], vault_form(house, house.vaults[0])


def test_behind_the_walls(repository) -> None:
    house, vault, form = read_with(repository, SIDES)
    (wall,) = (one for one in house.walls if one.vault == vault.name)
    layers = math.ceil((vault.springing - wall.bottom) / 0.3 - 1e-9)
    row = vault_quantities(house, vault, form).row("steps, geogrid area")
    assert row.high == pytest.approx(2 * layers * form.length * (1.6 + 0.3 + 1.0))
    sheet = section_sheet(form, supports=supports_of(vault, house))
    drawn = [one for one in sheet.items if isinstance(one, Stroke) and one.layer == "support"]
    lines = [one.path for one in drawn if one.pen is Pen.HIDDEN]
    assert len(lines) == 2 * layers
    for (x0, y0), (x1, y1) in lines:
        assert y0 == y1
        assert abs(x1 - x0) == pytest.approx(sheet.view.length(1.6))


def test_behind_an_end(repository) -> None:
    house, vault, form = read_with(repository, SIDES.replace("both sides", "back"))
    (end,) = (one for one in house.ends if one.vault == vault.name and one.at == "back")
    layers = math.ceil(end.soil_to / 0.3 - 1e-9)
    row = vault_quantities(house, vault, form).row("steps, geogrid area")
    assert row.high == pytest.approx(layers * form.span * 2.9)


def test_what_is_not_said_is_not_counted(repository) -> None:
    house, vault, form = read_with(repository, SIDES.replace('spacing = "0.3 m"', ""))
    assert not vault_quantities(house, vault, form).row("steps, geogrid area").known


def test_it_is_priced_or_named_as_not_priced(repository) -> None:
    name = "steps, geogrid area"
    counted = vault_quantities(*read_with(repository, SIDES))
    assert name in counted.not_priced
    bought = vault_quantities(*read_with(repository, SIDES + '\n[prices]\ngeogrid = "3.50 EUR/m2"\n'))
    (cost,) = (one for one in bought.costs if one.name == name)
    assert cost.high.amount == pytest.approx(3.5 * bought.row(name).high)
    assert name not in bought.not_priced
    bare = SIDES.replace('spacing = "0.3 m"', "")
    assert f"{name} (amount unknown)" in vault_quantities(*read_with(repository, bare)).not_priced
