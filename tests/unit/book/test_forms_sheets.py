"""Patterns on paper: nothing is written over anything else, in millimetres and in feet and inches."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.document import Figure
from bermwright.base.drawing import Text
from bermwright.book.pages.forms import forms_blocks, printed_patterns
from bermwright.book.sheets.forms import pattern_sheet
from bermwright.book.sheets.paper import boxes_of
from bermwright.form.developed import forms_of
from bermwright.formats.house_file import load
from bermwright.house import CurveKind
from bermwright.house.making.sheets import Crossing, SheetRoll

EXAMPLES = Path(__file__).parents[3] / "examples"
ROWAN = load(EXAMPLES / "domes" / "rowan-ring.toml").house
LARCH = load(EXAMPLES / "larch-bank.toml").house
TOUCH = 0.15


def crossed(span: float, turn: float):
    vault = replace(LARCH.vaults[0], curve=CurveKind.SEMICIRCLE, rise=None, board_length=0.9)
    vaults = (replace(vault, name="passage", span=span, length=3.0), replace(vault, name="hall", span=4.2))
    crossing = Crossing(name="passage", of="passage", into="hall", turn=np.radians(turn))
    return replace(LARCH, vaults=vaults, crossings=(crossing,), openings=(), ends=())


HOUSES = [
    ROWAN,
    replace(LARCH, sheet=SheetRoll(width=2.0, length=15.0, lap=0.1, upstand=0.3)),
    crossed(2.4, 90.0),
    crossed(2.4, 45.0),
    crossed(4.2, 60.0),
]


def patterns_of(house):
    forms = forms_of(house)
    flat = [one for plan in forms.sheets for one in (plan.pattern, plan.cap) if one is not None]
    return [*printed_patterns(forms), *flat]


def written_over(sheet):
    texts = [item for item in sheet.items if isinstance(item, Text)]
    rooms = [boxes_of(text, margin=-TOUCH) for text in texts]
    for at, one in enumerate(rooms):
        for other in range(at):
            for a in one:
                for b in rooms[other]:
                    if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]:
                        yield texts[at].text, texts[other].text
        for a in one:
            if a[0] < -1.0 or a[1] < -1.0 or a[2] > sheet.width + 1.0 or a[3] > sheet.height + 1.0:
                yield texts[at].text, "leaves the sheet"


@pytest.mark.parametrize("system", ["metric", "imperial"])
@pytest.mark.parametrize("number", range(len(HOUSES)))
def test_no_figure_of_a_pattern_is_written_over(number, system):
    for pattern in patterns_of(HOUSES[number]):
        assert list(written_over(pattern_sheet(pattern, system=system))) == [], pattern.name


def test_lines_that_have_no_room_for_their_word_have_a_letter_and_a_key():
    bottom = next(one for one in printed_patterns(forms_of(ROWAN)) if one.name == "door: bottom")
    words = [item.text for item in pattern_sheet(bottom).items if isinstance(item, Text)]
    assert any(text.startswith("a inner face of the wall") for text in words)
    assert words.count("a") == 2


def test_words_of_a_pattern_follow_the_wanted_units():
    meeting = next(one for one in printed_patterns(forms_of(HOUSES[2])) if one.name.endswith("end, unrolled"))
    said = " ".join(
        one.text for one in pattern_sheet(meeting, system="imperial").items if isinstance(one, Text)
    )
    assert "from a square line 6 ft 11" in said
    assert " m from" not in said


def test_strips_are_drawn_with_their_laps_and_upstands():
    blocks = [one for one in forms_blocks(forms_of(HOUSES[1]), "imperial") if isinstance(one, Figure)]
    strip = next(one.sheet for one in blocks if one.sheet.title.startswith("strip over the crown"))
    said = " ".join(one.text for one in strip.items if isinstance(one, Text))
    assert "edge of the face, 11 13/16 in of upstand" in said
    assert "the next strip laps to here, 3 15/16 in" in said
