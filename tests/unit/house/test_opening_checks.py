from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.base.errors import HouseFileError
from bermwright.formats.house_file import read
from bermwright.house import (
    About,
    Beam,
    Board,
    CurveKind,
    End,
    EndKind,
    EndSide,
    Floor,
    House,
    Opening,
    OpeningKind,
    OpeningSide,
    Post,
    Structure,
    Vault,
    contradictions,
    questions,
)

VAULT = Vault(
    name="day room", curve=CurveKind.UNDER_COVER, span=4.8, rise=2.2, length=7.5, springing=0.9,
    structure=Structure.SEGMENT_RIBS, board=Board(0.032, 0.195), layers=4, spacing=0.6, timber="C18",
)  # fmt: skip
DOOR = Opening(
    name="door",
    vault="day room",
    side=OpeningSide.FRONT,
    kind=OpeningKind.DOOR,
    width=0.9,
    height=2.0,
    sill=0.0,
)
WINDOW = replace(
    DOOR, name="window", side=OpeningSide.LEFT, kind=OpeningKind.WINDOW, along=3.0, height=0.8, sill=1.2
)
END = End(vault="day room", at=EndSide.FRONT, kind=EndKind.PLANKS)
POST = Post(name="post", length=2.4, diameter=0.2)
BEAM = Beam(name="beam", span=3.0, diameter=0.2)
FLOOR = Floor(name="loft", span=3.0, joist=Board(0.045, 0.195), spacing=0.4)
HOUSE = House(
    about=About(name="x"), vaults=(VAULT,), openings=(DOOR, WINDOW), ends=(END,), posts=(POST,),
    beams=(BEAM,), floors=(FLOOR,),
)  # fmt: skip


def found(house: House) -> dict[str, str]:
    return {".".join(map(str, one.path)): f"{one.allowed} {one.advice}" for one in contradictions(house)}


def test_parts_that_fit_together_have_no_contradiction():
    assert found(HOUSE) == {}


@pytest.mark.parametrize(
    ("changes", "key", "says"),
    [
        ({"width": 5.0}, "width", "does not fit into an end that is 4.8 m wide"),
        ({"across": 2.2}, "width", "move it nearer to the middle"),
        ({"along": 2.0}, "along", "counts along the shell"),
        ({"height": 3.2}, "height", "above the crown"),
        ({"clear_width": 1.0}, "clear_width", "more than the hole: 0.9 m"),
        ({"opens": True, "clear_height": 2.1}, "clear_height", "more than the hole: 2 m"),
        ({"vault": "day rom"}, "vault", 'Did you mean "day room"?'),
        ({"hanger": 5e3, "header_nails": 8}, "header_nails", "Keep hanger or header_nails."),
    ],
)
def test_an_opening_in_an_end_that_does_not_fit_is_refused(changes, key, says):
    assert says in found(replace(HOUSE, openings=(replace(DOOR, **changes),)))[f"opening.0.{key}"]


@pytest.mark.parametrize(
    ("changes", "key", "says"),
    [
        ({"along": 0.3}, "along", "does not fit into a vault 7.5 m long"),
        ({"along": 7.2}, "along", "does not fit into a vault 7.5 m long"),
        ({"width": 8.0}, "width", "does not fit into a vault 7.5 m long"),
        ({"across": 0.5}, "across", "this is in the shell"),
        ({"side": OpeningSide.CROWN}, "sill", "a hole in the crown has none"),
        ({"side": OpeningSide.CROWN, "sill": None, "height": 5.0}, "height", "in the crown it counts across"),
        ({"height": 2.5}, "height", "above the crown"),
    ],
)
def test_an_opening_in_the_shell_that_does_not_fit_is_refused(changes, key, says):
    assert says in found(replace(HOUSE, openings=(replace(WINDOW, **changes),)))[f"opening.0.{key}"]


@pytest.mark.parametrize(
    ("second", "clash"),
    [
        ({"along": 3.5}, True),
        ({"along": 3.9}, False),
        ({"along": 3.5, "sill": 2.0}, False),
        ({"along": 3.5, "sill": 1.9}, True),
        ({"along": 3.5, "side": OpeningSide.RIGHT}, False),
        ({"along": None}, False),
    ],
)
def test_two_openings_must_not_overlap(second, clash):
    other = replace(WINDOW, name="other", **second)
    said = found(replace(HOUSE, openings=(WINDOW, other)))
    assert ("opening.1.along" in said) is clash


def test_two_openings_in_an_end_count_across():
    other = replace(DOOR, name="other", across=0.6)
    assert 'overlaps with "door"' in found(replace(HOUSE, openings=(DOOR, other)))["opening.1.across"]
    assert found(replace(HOUSE, openings=(DOOR, replace(other, across=1.0)))) == {}


@pytest.mark.parametrize("kind", ["openings", "posts", "beams", "floors"])
def test_every_name_is_used_once(kind):
    first = getattr(HOUSE, kind)[0]
    key = kind.removesuffix("s")
    assert "used once" in found(replace(HOUSE, **{kind: (first, first)}))[f"{key}.1.name"]


@pytest.mark.parametrize(
    ("changes", "key", "says"),
    [
        ({"soil": "clay"}, "soil", "there is none"),
        ({"vault": "barn"}, "vault", "is not a name in this file"),
        ({"post": Board(0.1, 0.1), "post_diameter": 0.2}, "post_diameter", "Keep post or post_diameter."),
        ({"kind": EndKind.BLOCKS, "post_spacing": 0.8}, "post_spacing", 'this end is "blocks"'),
    ],
)
def test_an_end_that_does_not_fit_is_refused(changes, key, says):
    assert says in found(replace(HOUSE, ends=(replace(END, **changes),)))[f"end.0.{key}"]


def test_an_end_is_described_once():
    assert "is described by end number 1 already" in found(replace(HOUSE, ends=(END, END)))["end.1.at"]
    assert found(replace(HOUSE, ends=(END, replace(END, at=EndSide.BACK)))) == {}


@pytest.mark.parametrize(
    ("kind", "changes", "key", "says"),
    [
        ("posts", {"notch": 0.2}, "notch", "goes through the whole timber, which is 200 mm deep"),
        ("beams", {"notch": 0.25}, "notch", "goes through the whole timber, which is 200 mm deep"),
        ("floors", {"notch": 0.195}, "notch", "which is 195 mm deep"),
        ("beams", {"section": Board(0.1, 0.2)}, "diameter", "Keep section or diameter."),
        ("posts", {"thick_end": 0.15}, "thick_end", "thinner than the thin end, 200 mm"),
        ("beams", {"diameter": None, "thick_end": 0.2}, "thick_end", "without the thin end"),
        ("beams", {"carries": "attic"}, "carries", 'Did you mean "loft"?'),
        ("posts", {"under": "beem"}, "under", 'Did you mean "beam"?'),
        ("floors", {"spacing": 0.04}, "spacing", "leaves no gap between joists"),
        ("floors", {"vault": "day room", "level": 3.2}, "level", "above the crown"),
        ("floors", {"vault": "barn"}, "vault", "is not a name"),
    ],
)
def test_a_timber_that_does_not_fit_is_refused(kind, changes, key, says):
    house = replace(HOUSE, **{kind: (replace(getattr(HOUSE, kind)[0], **changes),)})
    assert says in found(house)[f"{kind.removesuffix('s')}.0.{key}"]


def test_a_shallow_notch_is_allowed():
    assert found(replace(HOUSE, posts=(replace(POST, notch=0.05),))) == {}


TEXT = """
format = 1
[house]
name = "x"
[[vault]]
name = "day room"
curve = "segment"
span = "wide"
rise = "1.5 m"
length = "7.5 m"
springing = "0.9 m"
structure = "segment ribs"
board = "32 x 195 mm"
layers = 4
spacing = "0.6 m"
timber = "C18"
[[opening]]
name = "door"
vault = "day room"
in = "front"
kind = "door"
width = "0.9 m"
height = "2 m"
[[opening]]
name = "window"
vault = "day room"
in = "roof"
kind = "window"
width = "0.9 m"
height = "2 m"
[[floor]]
name = "loft"
span = "3 m"
joist = "thick"
spacing = "0.4 m"
"""


def test_a_file_with_mistakes_elsewhere_gets_the_rest_of_the_checks():
    with pytest.raises(HouseFileError) as caught:
        read(TEXT, "x.toml")
    places = {mistake.place for mistake in caught.value.mistakes}
    assert any("span" in place for place in places)
    assert any("joist" in place for place in places)


def test_what_is_not_said_is_asked():
    asked = {question.place for question in questions(HOUSE)}
    assert 'opening "window".panes' in asked
    assert 'opening "door".panes' not in asked
    assert 'opening "window".hanger' in asked
    assert 'opening "door".hanger' not in asked
    assert "end number 1.soil_to" in asked
    assert 'post "post".load' in asked
    assert 'floor "loft".use' in asked
    bare = questions(replace(HOUSE, openings=(), ends=()))
    assert {"opening", "end"} <= {question.place for question in bare}
