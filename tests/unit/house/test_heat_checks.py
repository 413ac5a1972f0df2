"""Warmth, stove and wood that do not fit together, and limits that say what follows."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file.reading import read
from bermwright.house import About, Heat, Heated, House, Stove, StoveKind, contradictions, questions

HOUSE = House(about=About(name="Larch Bank"))
STOVE = Stove(name="bench stove", kind=StoveKind.MASONRY)


def told(house: House) -> list[tuple[str, str]]:
    return [(".".join(map(str, one.path)), one.allowed) for one in contradictions(house)]


def test_a_good_table_is_taken():
    heat = Heat(heated=Heated.YES, day=20.0, night=16.0)
    assert told(replace(HOUSE, heat=heat, stoves=(STOVE,))) == []
    assert heat.warmed
    assert not Heat(heated=Heated.NO).warmed


@pytest.mark.parametrize(
    ("heat", "path", "teaches"),
    [
        (Heat(day=18.0, night=21.0), "heat.night", "warmer than by day"),
        (Heat(day_begins=22, day_ends=6), "heat.day_ends", "no later than"),
        (Heat(day_begins=6, day_ends=6), "heat.day_ends", "no hours"),
    ],
)
def test_days_and_nights(heat, path, teaches):
    [(found, allowed)] = told(replace(HOUSE, heat=heat))
    assert found == path
    assert teaches in allowed


@pytest.mark.parametrize(
    ("stove", "path", "teaches"),
    [
        (replace(STOVE, vault="barn"), "stove.0.vault", "name of no vault"),
        (replace(STOVE, shield_gap=0.03), "stove.0.shield_gap", "names no shield"),
        (replace(STOVE, shield=False, shield_gap=0.03), "stove.0.shield_gap", "names no shield"),
        (replace(STOVE, firings=8, burn=4 * 3600.0), "stove.0.firings", "longer than a day"),
    ],
)
def test_a_stove_that_cannot_be(stove, path, teaches):
    [(found, allowed)] = told(replace(HOUSE, stoves=(stove,)))
    assert found == path
    assert teaches in allowed


def test_a_stove_may_burn_all_day_and_has_a_shield():
    good = replace(STOVE, firings=6, burn=4 * 3600.0, shield=True, shield_gap=0.03)
    assert told(replace(HOUSE, stoves=(good,))) == []


def test_every_stove_has_a_name_of_its_own():
    assert told(replace(HOUSE, stoves=(STOVE, STOVE)))


FILE = """\
[house]
name = "Bare"

[[vault]]
name = "store"
curve = "catenary"
span = "4 m"
rise = "2 m"
length = "6 m"
springing = "1 m"
structure = "segment ribs"
board = "32 x 195 mm"
layers = 4
spacing = "0.6 m"
timber = "C18"

[heat]
heated = "yes"
day = "{day}"
"""


def test_forty_degrees_indoors_are_refused_with_what_follows():
    with pytest.raises(HouseFileError, match="makes people ill") as caught:
        read(FILE.format(day="40 degC"), "bare.toml")
    assert "twentieth more wood" in str(caught.value)


def test_twenty_are_taken_in_both_systems():
    assert read(FILE.format(day="20 degC"), "bare.toml").house.heat.day == pytest.approx(20.0)
    assert read(FILE.format(day="68 degF"), "bare.toml").house.heat.day == pytest.approx(20.0)


def test_what_is_open_is_asked():
    asked = {one.place for one in questions(replace(HOUSE, heat=Heat(), stoves=(STOVE,)))}
    assert {"heat.heated", 'stove "bench stove".batch', "wood"} <= asked
    warm = {one.place for one in questions(replace(HOUSE, heat=Heat(heated=Heated.YES)))}
    assert "heat.day" in warm
    assert "heat.day" not in {one.place for one in questions(replace(HOUSE, heat=Heat(heated=Heated.NO)))}
