"""Ends, the rolled-out shell and bent ribs as drawings, and the chapter that shows them."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from bermwright.base.document import Figure, FindingBlock, Heading, Notice, Table
from bermwright.base.drawing import Area, Clip, Dimension, Text
from bermwright.base.lettering import body_size
from bermwright.book.pages.openings import openings_chapter
from bermwright.book.pages.setting_out.bent import bent_rib_pages
from bermwright.book.sheets.bent import bent_rib_sheet
from bermwright.book.sheets.openings import end_sheet, hole_sheet, shell_sheet
from bermwright.book.sheets.openings.ends import post_places
from bermwright.form import vault_form
from bermwright.form.holes import hole_of, shell_openings
from bermwright.formats.house_file import load
from bermwright.house import Board, CurveKind, EndSide, OpeningSide, Structure
from bermwright.rules.assess import assess

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.fixture(scope="module")
def house():
    return load(EXAMPLES / "larch-bank.toml").house


@pytest.fixture(scope="module")
def form(house):
    return vault_form(house, house.vaults[0])


@pytest.fixture(scope="module")
def sheets(house, form):
    made = [
        end_sheet(
            form,
            side,
            next(end for end in house.ends if end.at is side),
            tuple(one for one in house.openings if str(one.side) == str(side)),
        )
        for side in EndSide
    ]
    holes = tuple(hole_of(form, one) for one in shell_openings(house, form.name))
    return [*made, shell_sheet(form, holes), *(hole_sheet(form, hole) for hole in holes)]


def parts(items):
    for item in items:
        if isinstance(item, Clip):
            yield from parts(item.items)
        yield item


def texts(sheet):
    return [item.text for item in parts(sheet.items) if isinstance(item, Text)]


def test_every_sheet_fits_its_page_bears_the_mark_and_can_be_read(sheets):
    for sheet in sheets:
        assert sheet.width <= 174.0
        assert sheet.alt
        assert "calculation aid, not reviewed" in texts(sheet)
        assert all(
            body_size(item.height, item.face) >= 2.6 - 1e-9
            for item in parts(sheet.items)
            if isinstance(item, Text)
        )


def test_an_end_shows_its_openings_with_size_and_level(sheets, house):
    front = texts(sheets[0])
    for opening in house.openings:
        if opening.side is OpeningSide.FRONT:
            assert opening.name in front
            assert f"{opening.width * 1e3:.0f} × {opening.height * 1e3:.0f}" in front
    dimensions = {item.text for item in parts(sheets[0].items) if isinstance(item, Dimension)}
    assert {f"{one.width * 1e3:.0f}" for one in house.openings if one.side is OpeningSide.FRONT} <= dimensions


def test_an_end_that_is_not_said_is_drawn_without_a_wall(form):
    sheet = end_sheet(form, EndSide.BACK, None, ())
    assert any("not said" in text for text in texts(sheet))


def test_posts_stand_beside_openings_and_not_in_them(house, form):
    window = next(one for one in house.openings if one.side is OpeningSide.BACK)
    places = post_places(form, 0.6, 0.1, (window,))
    assert all(abs(place - window.across) >= 0.5 * (window.width + 0.1) - 1e-9 for place in places)
    assert window.across + 0.5 * (window.width + 0.1) in places
    assert places == tuple(sorted(places))


def test_the_rolled_out_shell_interrupts_the_cut_rib(form, house):
    holes = tuple(hole_of(form, one) for one in shell_openings(house, form.name))
    ribs = [
        item
        for item in parts(shell_sheet(form, holes).items)
        if isinstance(item, Area) and item.layer == "rib"
    ]
    doubled = sum(hole.opening.doubled - 1 for hole in holes) * 2
    cut = sum(len(hole.cut) for hole in holes)
    assert len(ribs) == form.ribs + doubled + cut


def test_the_chapter_shows_pictures_before_figures(house):
    blocks = list(openings_chapter(assess(house, stop_marks=False), "metric"))
    kinds = [type(block) for block in blocks]
    assert kinds[0] is Heading
    assert kinds.index(Figure) < kinds.index(Table)
    assert FindingBlock not in kinds, "what holds stands in one table"
    assert Notice in kinds


def test_a_house_without_any_of_it_has_no_such_chapter(house):
    bare = replace(house, ends=(), openings=(), posts=(), beams=(), floors=())
    found = replace(assess(bare, stop_marks=False), findings=())
    assert list(openings_chapter(found, "metric")) == []


def test_a_rib_of_bent_boards_is_drawn_once_with_every_butt(house):
    vault = replace(
        house.vaults[0], structure=Structure.BENT, board=Board(0.017, 0.22), depth=None, layers=10,
        board_length=3.0, curve=CurveKind.SEGMENT,
    )  # fmt: skip
    form = vault_form(replace(house, vaults=(vault,)), vault)
    sheet = bent_rib_sheet(form)
    boards = [item for item in sheet.items if isinstance(item, Area)]
    assert len(boards) == len(form.rib.pieces)
    assert len(form.rib.pieces) > 10
    assert callable(bent_rib_pages)
