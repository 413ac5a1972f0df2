"""The plan of a vault on the ground: boards, strings and pegs, the dig with its heaps, walls, ribs, mound."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import (
    Area,
    Arrow,
    Dimension,
    Hatch,
    Ink,
    Item,
    Pen,
    Sheet,
    Stroke,
    Text,
    View,
    Wash,
)
from bermwright.book.sheets.paper import Board, Figures, figure, note
from bermwright.book.sheets.setout.marks import fanned, north_arrow, peg, triangle

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path, Point
    from bermwright.form.setout import BatterBoard, SetOut
    from bermwright.form.setout.heaping import Heap
    from bermwright.form.setout.nouns import Spot
    from bermwright.form.setout.surveyed import Place

SCALES = (50.0, 100.0, 150.0, 200.0, 300.0, 500.0)
ROOM = 9.0
"""Paper round the plan, for letters (mm)."""
FAN = 12.0
"""From the end of a string out to its number (mm)."""
APART = 4.8
"""Least distance of two numbers (mm)."""
BOARD_PEN = 1.1
"""Half the drawn thickness of a board (mm)."""
ROUND_POINTS = 40
FAR = 2.0
"""Lengths of the house from its middle beyond which a surveyed point is left off the plan."""


class Shows(StrEnum):
    """What a plan is for."""

    GROUND = "ground"
    PEGS = "pegs"
    DIG = "dig"
    FOOTINGS = "footings"
    WALLS = "walls"
    RIBS = "ribs"
    MOUND = "mound"


@dataclass(frozen=True, slots=True)
class _Hand:
    """What every part of the drawing needs."""

    out: SetOut
    view: View
    figures: Figures
    board: Board
    low: Spot
    high: Spot
    """Corners of what is shown."""

    def at(self, spot: Spot) -> Point:
        """A place on the paper: along to the right, across downward, as left walking in lies up."""
        return self.view.point(spot[0], -spot[1])

    def path(self, spots: list[Spot] | tuple[Spot, ...]) -> Path:
        """Places on the paper."""
        return tuple(self.at(spot) for spot in spots)


def plan_sheet(
    out: SetOut, shows: Shows, *, width: float = 174.0, tallest: float = 128.0, system: str = "metric"
) -> Sheet:
    """The plan, as large as an ISO scale lets it be on the paper."""
    low, high = _reach(out, shows)
    scale = next((one for one in SCALES if _fits(low, high, one, width, tallest)), SCALES[-1])
    factor = 1000.0 / scale
    height = (high[1] - low[1]) * factor + 2.0 * ROOM
    middle = 0.5 * (width - (low[0] + high[0]) * factor)
    view = View(origin=(middle, ROOM + high[1] * factor), scale=scale)
    hand = _Hand(out, view, Figures(system=system), Board(), low, high)
    items = tuple(_items(hand, shows, width, height))
    words = f"Plan of {out.vault}: {shows.value}, 1:{scale:.0f}"
    return Sheet(width=width, height=height, items=items, title=words, alt=words, view=view)


def _fits(low: Spot, high: Spot, scale: float, width: float, tallest: float) -> bool:
    factor = 1000.0 / scale
    wide, tall = (high[0] - low[0]) * factor, (high[1] - low[1]) * factor
    return wide + 2.0 * ROOM <= width and tall + 2.0 * ROOM <= tallest


def _reach(out: SetOut, shows: Shows) -> tuple[Spot, Spot]:
    """Corners of what is shown: along and across (m)."""
    spots = [out.plan.low, out.plan.high]
    if shows is Shows.GROUND and out.survey is not None:
        spots += [place.at for place in out.survey.places if _near(place.at, out)]
    if shows in {Shows.PEGS, Shows.DIG}:
        spots += [peg.at for peg in out.plan.pegs]
    if shows is Shows.DIG:
        for heap in out.heaps:
            if heap.middle is not None:
                for way in (-0.5, 0.5):
                    spots.append((heap.middle[0] + way * heap.length, heap.middle[1] + way * heap.width))
    if shows is Shows.MOUND:
        left, right = mound_toes(out)
        spots += [(0.0, left), (0.0, right)]
    if shows in {Shows.FOOTINGS, Shows.WALLS, Shows.RIBS}:
        faces = [abs(string.place) for string in out.plan.strings if string.along]
        reach = (0.5 * out.form.span if shows is Shows.RIBS else max(faces)) + 1.0
        spots = [(-1.2, -reach), (out.ribs[-1] + 1.2, reach)]
    table = np.array(spots)
    low, high = table.min(axis=0), table.max(axis=0)
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def _near(spot: Spot, out: SetOut) -> bool:
    """Whether a point is worth the paper: not farther off than the house is long, twice."""
    return math.dist(spot, (0.5 * out.form.length, 0.0)) <= FAR * out.form.length


def mound_toes(out: SetOut) -> tuple[float, float]:
    """Where the finished ground meets the natural one, left and right of the axis (m)."""
    ground = out.form.ground
    x = np.linspace(float(ground.finished.x[0]), float(ground.finished.x[-1]), 4001)
    apart = np.flatnonzero(ground.finished.level(x) - ground.natural.level(x) > 0.005)
    if not apart.size:
        return 0.0, 0.0
    return float(x[apart[0]]), float(x[apart[-1]])


def _items(hand: _Hand, shows: Shows, width: float, height: float) -> Iterator[Item]:
    yield from _BY_KIND[shows](hand)
    if hand.out.axis is not None:
        yield from north_arrow((width - 9.0, height - 9.0), hand.out.axis)
    else:
        yield hand.board.take(figure((width - 2.0, height - 4.0), "north: not given", "end"))
    yield figure((1.0, 1.0), f"1:{hand.view.scale:.0f}, seen from above")
    door = hand.view.point(0.0, 0.0)[1]
    yield Arrow(tail=(1.0, door), head=(10.0, door), pen=Pen.FORCE)
    yield note((1.0, door + 1.6), "way in")


# ------------------------------------------------------------------------------------------------ days


def _ground(hand: _Hand) -> Iterator[Item]:
    """Surveyed points with their levels, the house among them, and levels of the surface at its corners."""
    plan, out = hand.out.plan, hand.out
    corners = [plan.peg(name).at for name in "ABCD"]
    yield Area(path=hand.path(corners), wash=Wash.PAPER, outline=Pen.CUT)
    if out.dig is not None:
        yield Stroke(path=hand.path(out.dig.outline), pen=Pen.HIDDEN, closed=True, ink=Ink.SOFT)
    for name, spot in zip("ABCD", corners, strict=True):
        yield from peg(hand.at(spot), name, hand.board)
        x, y = hand.at(spot)
        level = hand.figures.level(float(out.surface.level(*spot)))
        yield hand.board.put(figure((x + 5.0, y + up), level) for up in (0.6, -3.2, 4.4, -7.0))
    for place in _places(out):
        x, y = hand.at(place.at)
        yield Stroke(path=((x - 1.4, y - 1.4), (x + 1.4, y + 1.4)), pen=Pen.SEEN)
        yield Stroke(path=((x - 1.4, y + 1.4), (x + 1.4, y - 1.4)), pen=Pen.SEEN)
        words = f"{place.name} {hand.figures.level(place.level)}".strip()
        yield hand.board.put(figure((x + 2.2, y + up), words) for up in (-0.9, 2.4, -4.2, 5.6))


def _places(out: SetOut) -> tuple[Place, ...]:
    return tuple(one for one in out.survey.places if _near(one.at, out)) if out.survey is not None else ()


def _pegs(hand: _Hand) -> Iterator[Item]:
    plan = hand.out.plan
    if hand.out.dig is not None:
        yield Stroke(path=hand.path(hand.out.dig.outline), pen=Pen.HIDDEN, closed=True, ink=Ink.SOFT)
        yield _label(hand, hand.out.dig.corners[3], "edge of the dig", 0.0, -1.0)
    yield from _strings(hand, every=True)
    corners = [plan.peg(name).at for name in "ABCD"]
    yield Stroke(path=hand.path(corners), pen=Pen.SEEN, closed=True)
    for first, last in (("A", "C"), ("B", "D")):
        yield Stroke(path=hand.path((plan.peg(first).at, plan.peg(last).at)), pen=Pen.NOT_YET)
    if plan.triangle > 0.0:
        yield from _three_four_five(hand)
    for one in plan.boards:
        yield from _board(hand, one, named=True)
    a, b, d = (hand.at(plan.peg(name).at) for name in "ABD")
    yield Dimension(start=b, end=a, offset=7.0, text=hand.figures.length(_apart(hand, "A", "B")))
    yield Dimension(start=a, end=d, offset=5.0, text=hand.figures.length(_apart(hand, "A", "D")))
    for mark in plan.pegs:
        yield from peg(hand.at(mark.at), mark.name, hand.board)


def _apart(hand: _Hand, first: str, last: str) -> float:
    return math.dist(hand.out.plan.peg(first).at, hand.out.plan.peg(last).at)


def _three_four_five(hand: _Hand) -> Iterator[Item]:
    plan = hand.out.plan
    a, along, across = plan.peg("A").at, plan.peg("D").at, plan.peg("B").at
    long_is_along = math.dist(a, along) >= math.dist(a, across)
    shares = (4.0, 3.0) if long_is_along else (3.0, 4.0)
    first = (a[0] + shares[0] * plan.triangle, a[1])
    second = (a[0], a[1] + shares[1] * plan.triangle)
    words = [hand.figures.length(share * plan.triangle) for share in (*shares, 5.0)]
    yield from triangle(hand.path((a, first, second)), words, hand.board)


def _dig(hand: _Hand) -> Iterator[Item]:
    dig = hand.out.dig
    if dig is None:
        yield from _pegs(hand)
        return
    bottom = _rectangle(dig.pit.low, dig.pit.high)
    outline = hand.path(dig.outline)
    yield Area(path=outline, holes=(hand.path(bottom),), wash=Wash.INSITU, hatch=Hatch.NONE, outline=Pen.CUT)
    yield Stroke(path=hand.path(bottom), pen=Pen.SEEN, closed=True)
    for inner, outer in zip(bottom, dig.corners, strict=True):
        yield Stroke(path=hand.path((inner, outer)), pen=Pen.HATCH)
    yield from _falls(hand, bottom, dig.corners)
    for trench in dig.trenches:
        yield Area(path=hand.path(_rectangle(trench.low, trench.high)), wash=Wash.GREY, outline=Pen.SEEN)
    for heap in hand.out.heaps:
        yield from _heap(hand, heap)
    for one in hand.out.plan.boards:
        yield from _board(hand, one, named=False)
    yield from _pit_words(hand, bottom)
    for mark in hand.out.plan.pegs:
        if mark.name in "EFH":
            yield from peg(hand.at(mark.at), mark.name, hand.board)


def _pit_words(hand: _Hand, bottom: list[Spot]) -> Iterator[Item]:
    dig, figures = hand.out.dig, hand.figures
    if dig is None:
        return
    size = dig.pit.high[0] - dig.pit.low[0], dig.pit.high[1] - dig.pit.low[1]
    yield Dimension(
        start=hand.at(bottom[0]), end=hand.at(bottom[3]), offset=-2.5, text=figures.length(size[0])
    )
    yield Dimension(
        start=hand.at(bottom[1]), end=hand.at(bottom[0]), offset=-2.5, text=figures.length(size[1])
    )
    middle = 0.5 * (dig.pit.low[0] + dig.pit.high[0])
    yield hand.board.take(figure(hand.at((middle, 0.0)), f"bottom {figures.level(dig.formation)}", "middle"))
    for trench in dig.trenches:
        spot = middle, 0.5 * (trench.low[1] + trench.high[1])
        x, y = hand.at(spot)
        yield hand.board.take(figure((x, y - 1.2), f"trench {figures.level(trench.bottom)}", "middle"))


def _falls(hand: _Hand, inner: list[Spot], outer: tuple[Spot, ...]) -> Iterator[Item]:
    """Short strokes down the sides, from the edge inward."""
    for number in range(4):
        a0, a1 = np.array(outer[number]), np.array(outer[(number + 1) % 4])
        b0, b1 = np.array(inner[number]), np.array(inner[(number + 1) % 4])
        if np.hypot(*(a0 - b0)) < 0.05:
            continue
        count = max(int(hand.view.length(float(np.hypot(*(a1 - a0)))) / 4.0), 2)
        for step in range(1, count):
            share = step / count
            top, foot = a0 + share * (a1 - a0), b0 + share * (b1 - b0)
            part = 0.75 if step % 2 else 0.4
            end = top + part * (foot - top)
            yield Stroke(
                path=hand.path(((float(top[0]), float(top[1])), (float(end[0]), float(end[1])))),
                pen=Pen.HATCH,
            )


def _heap(hand: _Hand, heap: Heap) -> Iterator[Item]:
    if heap.middle is None:
        return
    yield Area(path=hand.path(_stadium(heap)), wash=Wash.EARTH, hatch=Hatch.NONE, outline=Pen.SEEN)
    x, y = hand.at(heap.middle)
    figures = hand.figures
    yield hand.board.take(note((x, y + 1.2), f"{heap.soil}, loose", "middle"))
    size = f"{figures.length(heap.length)} × {figures.length(heap.width)}, {figures.length(heap.height)} high"
    yield hand.board.take(figure((x, y - 2.8), size, "middle"))


def _stadium(heap: Heap) -> list[Spot]:
    radius = 0.5 * heap.width
    straight = 0.5 * max(heap.length - heap.width, 0.0)
    u0, v0 = heap.middle or (0.0, 0.0)
    spots = []
    for step in range(ROUND_POINTS):
        angle = 2.0 * math.pi * step / ROUND_POINTS
        shift = straight if math.cos(angle) >= 0.0 else -straight
        spots.append((u0 + shift + radius * math.cos(angle), v0 + radius * math.sin(angle)))
    return spots


def _footings(hand: _Hand) -> Iterator[Item]:
    yield from _strip_areas(hand, "footing", Hatch.CONCRETE)
    yield from _strings(hand, every=True)
    yield from _feet_frame(hand)


def _walls(hand: _Hand) -> Iterator[Item]:
    yield from _strip_areas(hand, "footing", Hatch.NONE)
    yield from _strip_areas(hand, "wall", Hatch.MASONRY)
    yield from _strings(hand, every=False)
    yield from _feet_frame(hand)


def _ribs(hand: _Hand) -> Iterator[Item]:
    half = 0.5 * hand.out.form.span
    for number, place in enumerate(hand.out.ribs, start=1):
        yield Stroke(path=hand.path(((place, -half), (place, half))), pen=Pen.CUT)
        if number in {1, len(hand.out.ribs)} or number % 5 == 0:
            x, y = hand.at((place, -half))
            yield hand.board.take(figure((x, y + 1.4), f"{number}", "middle"))
    yield from _feet_frame(hand)
    yield from _openings(hand)
    if len(hand.out.ribs) > 1:
        first, second = hand.out.ribs[0], hand.out.ribs[1]
        yield Dimension(
            start=hand.at((first, half)), end=hand.at((second, half)), offset=-5.0,
            text=hand.figures.length(second - first),
        )  # fmt: skip


def _openings(hand: _Hand) -> Iterator[Item]:
    """Openings as thick strokes where they are marked, with their names."""
    half, last = 0.5 * hand.out.form.span, hand.out.ribs[-1]
    for one in hand.out.openings:
        if one.in_end:
            along = -0.25 if one.side == "front" else last + 0.25
            ends: tuple[Spot, Spot] = ((along, one.low), (along, one.high))
        else:
            across = {"left": -half - 0.25, "right": half + 0.25}.get(one.side, 0.0)
            ends = ((one.low, across), (one.high, across))
        path = hand.path(ends)
        yield Stroke(path=path, pen=Pen.FRAME)
        x, y = 0.5 * (path[0][0] + path[1][0]), 0.5 * (path[0][1] + path[1][1])
        anchor = {"front": "end", "back": "start"}.get(one.side, "middle")
        away = {"front": -2.0, "back": 2.0}.get(one.side, 0.0)
        up = -1.0 if one.in_end else 2.0
        yield hand.board.put(note((x + away, y + up + shift), one.name, anchor) for shift in (0.0, 4.0, -5.0))


def _mound(hand: _Hand) -> Iterator[Item]:
    out, form = hand.out, hand.out.form
    left, right = mound_toes(out)
    last = out.ribs[-1]
    corners: list[Spot] = [(0.0, left), (last, left), (last, right), (0.0, right)]
    yield Area(path=hand.path(corners), wash=Wash.EARTH, outline=Pen.CUT)
    half = 0.5 * form.span
    yield Stroke(path=hand.path(_rectangle((0.0, -half), (last, half))), pen=Pen.HIDDEN, closed=True)
    yield Stroke(path=hand.path(((0.0, 0.0), (last, 0.0))), pen=Pen.NOT_YET)
    for toe, side in ((left, "left"), (right, "right")):
        x, y = hand.at((0.5 * last, toe))
        yield hand.board.take(
            note((x, y + (1.2 if toe < 0 else -3.4)), f"toe of the mound, {side}", "middle")
        )
        ends = (hand.at((0.0, 0.0)), hand.at((0.0, toe)))
        first, second = ends if toe < 0.0 else ends[::-1]
        yield Dimension(start=first, end=second, offset=4.0, text=hand.figures.length(abs(toe)))


_BY_KIND = {
    Shows.GROUND: _ground,
    Shows.PEGS: _pegs,
    Shows.DIG: _dig,
    Shows.FOOTINGS: _footings,
    Shows.WALLS: _walls,
    Shows.RIBS: _ribs,
    Shows.MOUND: _mound,
}


# ------------------------------------------------------------------------------------------------ parts


def _rectangle(low: Spot, high: Spot) -> list[Spot]:
    """Corners round from the front left."""
    return [(low[0], low[1]), (low[0], high[1]), (high[0], high[1]), (high[0], low[1])]


def _label(hand: _Hand, spot: Spot, words: str, right: float, up: float) -> Text:
    x, y = hand.at(spot)
    return hand.board.put(note((x + right, y + up + shift), words, "end") for shift in (0.0, -3.4, 3.4))


def _strings(hand: _Hand, *, every: bool) -> Iterator[Item]:
    """Strings across what is shown, numbered in a row before their front and left ends."""
    plan = hand.out.plan
    inside = (min(plan.high[0], hand.high[0]), min(plan.high[1], hand.high[1]))
    outside = (max(plan.low[0], hand.low[0]), max(plan.low[1], hand.low[1]))
    wanted = [one for one in plan.strings if every or "footing" not in one.words]
    for along in (True, False):
        group = [one for one in wanted if one.along is along]
        starts = []
        for one in group:
            ends: tuple[Spot, Spot] = (
                ((outside[0], one.place), (inside[0], one.place))
                if along
                else ((one.place, outside[1]), (one.place, inside[1]))
            )
            pen = Pen.NOT_YET if one.words == "axis" else Pen.DIMENSION
            yield Stroke(path=hand.path(ends), pen=pen)
            starts.append(hand.at(ends[0]))
        yield from fanned(
            starts, [one.number for one in group], hand.board, upright=along, away=FAN, apart=APART
        )


def _feet_frame(hand: _Hand) -> Iterator[Item]:
    """The rectangle of the feet with its letters and two measures."""
    plan = hand.out.plan
    yield Stroke(path=hand.path([plan.peg(name).at for name in "ABCD"]), pen=Pen.SEEN, closed=True)
    for name in "ABCD":
        yield from peg(hand.at(plan.peg(name).at), name, hand.board)


def _strip_areas(hand: _Hand, kind: str, hatch: Hatch) -> Iterator[Item]:
    half, last = 0.5 * hand.out.form.span, hand.out.ribs[-1]
    for strip, way in zip(hand.out.strips, (-1.0, 1.0), strict=True):
        faces = [edge.offset for edge in strip.edges if edge.words.startswith((kind, "support"))]
        if not faces:
            continue
        across = sorted(way * (half + face) for face in faces)
        path = hand.path(_rectangle((0.0, across[0]), (last, across[-1])))
        yield Area(path=path, wash=Wash.PAPER, hatch=hatch, outline=Pen.CUT)


def _board(hand: _Hand, one: BatterBoard, *, named: bool) -> Iterator[Item]:
    (x0, y0), (x1, y1) = hand.at(one.start), hand.at(one.end)
    upright = abs(x1 - x0) < abs(y1 - y0)
    thick = (BOARD_PEN, 0.0) if upright else (0.0, BOARD_PEN)
    path = (
        (x0 - thick[0], y0 - thick[1]), (x1 - thick[0], y1 - thick[1]),
        (x1 + thick[0], y1 + thick[1]), (x0 + thick[0], y0 + thick[1]),
    )  # fmt: skip
    yield Area(path=path, wash=Wash.TIMBER, outline=Pen.SEEN)
    if named:
        middle = 0.5 * (x0 + x1), 0.5 * (y0 + y1)
        shift = {"F": (0.0, 0.0), "B": (5.0, -1.2), "L": (-7.0, -1.2), "R": (0.0, -6.0)}[one.name[0]]
        if one.name[0] == "F":
            shift = (0.0, 0.5 * abs(y1 - y0) + 1.6)
        yield hand.board.take(
            Text(
                at=(middle[0] + shift[0], middle[1] + shift[1]),
                text=one.name,
                height=2.6,
                anchor="middle",
                strong=True,
            )
        )
