"""Supports that cannot be true: each contradiction once, and its advice."""

from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.base.ranges import Range
from bermwright.house import About, House, Site, Soil, contradictions
from bermwright.house.choices import Structure
from bermwright.house.parts.holds import FloorTie, Ring, Socket
from bermwright.house.parts.support_words import Sides, SocketKind, TieKind, WallKind
from bermwright.house.parts.walls import Buttress, Footing, Wall
from bermwright.house.questions import plain_path, questions
from bermwright.house.values import Board
from bermwright.house.vault import CurveKind, Vault

VAULT = Vault(
    name="day room",
    curve=CurveKind.UNDER_COVER,
    span=4.8,
    rise=2.2,
    length=7.5,
    springing=0.9,
    structure=Structure.SEGMENT_RIBS,
    board=Board(0.032, 0.195),
    layers=4,
    spacing=0.6,
    timber="C18",
)
WALL = Wall(name="walls", vault="day room", kind=WallKind.MORTARED, thickness=0.4, bottom=-0.6)
STRIP = Footing(name="strips", vault="day room", width=1.2, thickness=0.3, toe=0.3)
LOG = Socket(name="sockets", vault="day room", kind=SocketKind.LOG, log=0.3, depth=0.08, lip=0.07)
RING = Ring(name="beam", vault="day room")
TIE = FloorTie(name="slab", vault="day room", kind=TieKind.SLAB, level=-0.1)
PIER = Buttress(name="piers", vault="day room", spacing=2.0, width=0.5)
HOUSE = House(
    about=About(name="x"),
    site=Site(soil=(Soil(name="till"),)),
    vaults=(VAULT,),
    walls=(WALL,),
    footings=(STRIP,),
    sockets=(LOG,),
    rings=(RING,),
    floor_ties=(TIE,),
    buttresses=(PIER,),
)


def found(house: House) -> dict[str, str]:
    return {".".join(map(str, one.path)): f"{one.allowed} {one.advice}" for one in contradictions(house)}


def test_supports_that_fit_together_have_no_contradiction() -> None:
    assert found(HOUSE) == {}


@pytest.mark.parametrize(
    ("changed", "place", "words"),
    [
        ({"walls": (replace(WALL, vault="day rom"),)}, "wall.0.vault", 'Did you mean "day room"'),
        ({"walls": (replace(WALL, top=0.5),)}, "wall.0.top", "stand on air"),
        ({"walls": (replace(WALL, top=1.4),)}, "wall.0.top", "inside the wall"),
        ({"walls": (replace(WALL, bottom=0.9),)}, "wall.0.bottom", "lower level"),
        ({"walls": (replace(WALL, friction=Range(0.0, 0.5)),)}, "wall.0.friction", "nothing built does"),
        ({"walls": (replace(WALL, foot=0.4),)}, "wall.0.foot", "beside it"),
        ({"walls": (replace(WALL, bars=0.01, bar_cover=0.2),)}, "wall.0.bar_cover", "past the middle"),
        ({"walls": (replace(WALL, soil="clay"),)}, "wall.0.soil", '"till"'),
        ({"walls": (WALL, replace(WALL, name="more", side=Sides.LEFT))}, "wall.1.side", "stands already"),
        ({"walls": (replace(WALL, side=Sides.LEFT), replace(WALL, side=Sides.RIGHT))}, "wall.1.name", "once"),
        ({"footings": (replace(STRIP, width=0.6),)}, "footing.0.width", "0.7 m"),
        ({"footings": (replace(STRIP, soil="clay"),)}, "footing.0.soil", "no soil of the site"),
        ({"sockets": (replace(LOG, depth=0.3),)}, "socket.0.depth", "go through it"),
        ({"sockets": (replace(LOG, lip=0.3),)}, "socket.0.lip", "no socket beside it"),
        ({"sockets": (replace(LOG, friction=Range(0.0, 0.2)),)}, "socket.0.friction", "tilt until it slides"),
        ({"rings": (replace(RING, radius=2.0, held_every=2.0),)}, "ring.0.held_every", "one too many"),
        ({"floor_ties": (replace(TIE, level=1.2),)}, "tie.0.level", "[[stages.tie]]"),
        ({"buttresses": (replace(PIER, width=2.0),)}, "buttress.0.spacing", "thicker wall"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_cannot_be_true_is_told_at_its_place(changed: dict[str, object], place: str, words: str) -> None:
    told = found(replace(HOUSE, **changed))
    assert set(told) == {place}
    assert words in told[place]


def test_a_barred_wall_has_no_courses_that_slide() -> None:
    barred = replace(WALL, kind=WallKind.CONCRETE, friction=Range(0.0, 0.5))
    assert found(replace(HOUSE, walls=(barred,))) == {}


def test_a_house_without_supports_is_asked_for_them() -> None:
    asked = {question.place for question in questions(replace(HOUSE, walls=(), footings=(), sockets=()))}
    assert {"wall", "socket"} <= asked
    assert "wall" not in {question.place for question in questions(replace(HOUSE, walls=()))}


def test_only_what_a_part_needs_is_asked() -> None:
    slab = {plain_path(one.place) for one in questions(HOUSE)}
    assert {"tie.thickness", "tie.concrete"} <= slab
    assert not {"tie.section", "tie.rod", "wall.bar_spacing"} & slab
    rod = replace(HOUSE, floor_ties=(replace(TIE, kind=TieKind.ROD),))
    assert {"tie.rod", "tie.spacing"} <= {plain_path(one.place) for one in questions(rod)}
