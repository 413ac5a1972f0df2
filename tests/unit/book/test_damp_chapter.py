"""The chapter on damp and air: picture first, every month, every rule, nothing said that is not known."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from bermwright.base.document import Figure, Heading, Notice, Table
from bermwright.base.drawing import Area, Text, Wash
from bermwright.book.pages.damp import damp_chapter
from bermwright.book.pages.damp.chapter import layer_lines
from bermwright.book.sheets.damp import layer_sheet
from bermwright.form import vault_form
from bermwright.formats.house_file import load
from bermwright.house import CoverKind, House
from bermwright.rules.damp.layers import damp_year, studied_assembly
from bermwright.rules.damp.living import living_of
from bermwright.rules.nouns import Whole

EXAMPLE = Path(__file__).parents[3] / "examples" / "larch-bank.toml"


@pytest.fixture(scope="module")
def house() -> House:
    return load(EXAMPLE).house


def _studies(house: House) -> Any:
    return {vault.name: SimpleNamespace(form=vault_form(house, vault)) for vault in house.vaults}


def _blocks(house: House) -> list[Any]:
    assessment: Any = SimpleNamespace(house=house, studies=_studies(house), findings=())
    return list(damp_chapter(assessment, "metric"))


def test_the_picture_comes_before_the_tables(house: House) -> None:
    blocks = _blocks(house)
    assert isinstance(blocks[0], Heading)
    kinds = [type(block) for block in blocks]
    assert kinds.index(Figure) < kinds.index(Table)
    months, _layers, tube = (block for block in blocks if isinstance(block, Table))
    assert len(months.rows) == len(tube.rows) == 12
    assert "unknown" not in str(months.rows)
    assert any(isinstance(block, Notice) for block in blocks)


def test_a_house_that_says_nothing_of_air_has_no_chapter(house: House) -> None:
    assert _blocks(replace(house, air=None, moisture=None)) == []
    assert not any(isinstance(block, Figure) for block in _blocks(replace(house, moisture=None)))


def _sheet(house: House) -> Any:
    whole = Whole(house=house, studies=_studies(house))
    return layer_sheet(layer_lines(damp_year(studied_assembly(whole, house.vaults[0]), living_of(house))))


def test_water_is_drawn_only_where_it_gathers(house: House) -> None:
    dry = _sheet(house)
    assert not [item for item in dry.items if isinstance(item, Area) and item.wash is Wash.STOP]
    assert house.air is not None
    sheet = [one for one in house.vaults[0].cover if one.kind is CoverKind.MEMBRANE]
    others = [one for one in house.vaults[0].cover if one.kind is not CoverKind.MEMBRANE]
    wet = replace(
        house,
        vaults=(replace(house.vaults[0], cover=(*others, *sheet)),),
        air=replace(house.air, flow=40.0 / 3600.0),
    )
    drawn = _sheet(wet)
    assert [item for item in drawn.items if isinstance(item, Area) and item.wash is Wash.STOP]
    assert "Water gathers" in drawn.alt


def test_no_name_lies_on_another(house: House) -> None:
    from bermwright.base.drawing import Lettering
    from bermwright.base.lettering import text_width

    names = {layer.title for layer in house.vaults[0].cover} | {"fill", "turf"}
    labels = [
        item
        for item in _sheet(house).items
        if isinstance(item, Text) and item.text.rsplit(",", 1)[0] in names
    ]
    assert len(labels) == len(names)
    for one in labels:
        for other in labels:
            if one is other or one.at[1] != other.at[1] or one.at[0] > other.at[0]:
                continue
            wide = text_width(one.text, one.height, Lettering.FIGURES)
            assert one.at[0] + wide < other.at[0]


def test_the_line_of_warmth_falls_all_the_way(house: House) -> None:
    whole = Whole(house=house, studies=_studies(house))
    lines = layer_lines(damp_year(studied_assembly(whole, house.vaults[0]), living_of(house)))
    assert np.all(np.diff(lines.temperature) < 0.0)
    assert lines.room > lines.temperature[0]
    assert lines.outdoors < lines.temperature[-1]
    assert np.all(lines.vapour <= lines.saturation * (1 + 1e-9))
