"""What a dome may not say: each mistake once, with its place and the way out."""

from __future__ import annotations

from pathlib import Path

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file import read

TEXT = (Path(__file__).parents[3] / "examples" / "domes" / "rowan-ring.toml").read_text(encoding="utf-8")

ROUND = 'head = "round"\nsettlement = "20 mm"\neyebrow'
LOW = "less than its round"
WRONG = [
    ('width = "0.9 m"', 'width = "4.3 m"', 'opening "door" > width', "from 0.1 m to 3 m"),
    ('height = "0.9 m"', 'height = "3.6 m"', 'opening "back window" > height', "over the crown"),
    ('at = "100 deg"', 'at = "10 deg"', 'opening "west window" > at', 'leaves no wall beside "door"'),
    ('height = "0.8 m"\nhead', 'height = "0.2 m"\nhead', 'opening "west window" > height', ("less than "
    "its round")),
    ('rise = "4.2 m"', 'rise = "1.2 m"', "rise", "the crown would be a valley"),
    ('rise = "4.2 m"', 'centre_offset = "1 m"\nrise = "4.2 m"', "centre_offset", "gives a rise of 2.934 m"),
    ('curve = "pointed"', 'curve = "hemisphere"', "rise", "is not half of the span"),
    ('curve = "pointed"', 'curve = "segment"', "rise", "would lean out over its foot"),
    ('curve = "pointed"', 'curve = "egg"', "flank_radius", "is missing"),
    ('curve = "pointed"', 'curve = "drawn"', "points", "is missing"),
    ('laid = "level"', 'laid = "tilted"', "laid", "slide off a tilted bed"),
    ('course = "125 mm"', 'rise_of = "1"', "rise_of", "is not a known key"),
    ('pivot = "0 m"', 'pivot = "4 m"', "pivot", "near the inner crown"),
    ('lap = "100 mm"', 'lap = "600 mm"\nx = 1', "sheet > x", "is not a known key"),
    (ROUND, 'settlement = "20 mm"\neyebrow', "eyebrow", "needs a round head"),
    ('name = "second crew"', 'name = "first crew"', 'crew "first crew" > name', "name of number 1 too"),
    ('name = "back window"', 'name = "door"', "name", "name of number 1 too"),
]  # fmt: skip


def mistakes(text):
    with pytest.raises(HouseFileError) as caught:
        read(text, "dome.toml")
    return [str(one) for one in caught.value.mistakes]


@pytest.mark.parametrize(("right", "wrong", "place", "words"), WRONG)
def test_a_mistake_is_said_with_its_place(right, wrong, place, words):
    assert right in TEXT
    found = mistakes(TEXT.replace(right, wrong, 1))
    assert any(place in one and words in one for one in found), found


DRAWN = """
[house]
name = "Drawn"

[[dome]]
name = "store"
curve = "drawn"
span = "4 m"
springing = "0 m"
unit = "bricks"
laid = "tilted"
thickness = "115 mm"
course = "75 mm"
points = POINTS
"""


@pytest.mark.parametrize(
    ("points", "words"),
    [
        ('[["2 m", "0 m"], ["2.1 m", "0.8 m"], ["1.2 m", "1.6 m"], ["0 m", "2 m"]]', "overhangs"),
        ('[["2 m", "0 m"], ["1.9 m", "0.8 m"], ["1.2 m", "0.7 m"], ["0 m", "2 m"]]', "overhangs"),
        ('[["1.5 m", "0 m"], ["1.4 m", "0.8 m"], ["1.2 m", "1.6 m"], ["0 m", "2 m"]]', "half of the span"),
        ('[["2 m", "0 m"], ["1.9 m", "0.8 m"], ["1.8 m", "1.6 m"], ["1.7 m", "2 m"]]', "near the axis"),
    ],
)
def test_drawn_points_that_no_course_can_follow(points, words):
    found = mistakes(DRAWN.replace("POINTS", points))
    assert any("points" in one and words in one for one in found), found


def test_an_opening_as_wide_as_the_dome_is_refused():
    small = TEXT.replace('span = "4.2 m"', 'span = "2.4 m"').replace('width = "0.9 m"', 'width = "2.5 m"')
    assert any("as wide as the dome" in one for one in mistakes(small))


def test_a_drawn_dome_alone_is_a_house():
    points = '[["2 m", "0 m"], ["1.9 m", "0.8 m"], ["1.2 m", "1.6 m"], ["0 m", "2 m"]]'
    opened = read(DRAWN.replace("POINTS", points), "dome.toml")
    assert opened.house.domes[0].points[1] == (1.9, 0.8)
    assert 'dome "store".axis' in {one.place for one in opened.questions}


def test_an_egg_that_leans_out_is_refused():
    egg = TEXT.replace(
        'curve = "pointed"',
        'curve = "egg"\nflank_radius = "6 m"\ncrown_radius = "1 m"\nbase_centre = "0.4 m"',
    )
    assert any("base_centre" in one and "lean out" in one for one in mistakes(egg))


def test_a_file_without_vault_and_dome_says_so():
    assert any("no vault and no dome" in one for one in mistakes('[house]\nname = "None"\n'))


def test_a_crossing_names_parts_that_are_there():
    found = mistakes(TEXT + '\n[[crossing]]\nname = "way"\nof = "passage"\ninto = "round room"\n')
    assert any("crossing" in one and '"passage"' in one for one in found)


def test_two_domes_of_one_name_are_refused():
    dome = "[[dome]]" + TEXT.partition("[[dome]]")[2].partition("[[dome.opening]]")[0]
    assert any('dome "round room" > name' in one for one in mistakes(TEXT + "\n" + dome))
