"""The plan of a vault on the ground: boards, strings and pegs, the dig with its heaps, walls, ribs, mound."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

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
from bermwright.book.sheets.setout.marks import block_peg, fanned, north_arrow, peg, triangle
from bermwright.book.sheets.setout.reach import ROOM, Shows, near, post_shown, shown

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path, Point
    from bermwright.form.setout import BatterBoard, SetOut
    from bermwright.form.setout.earthwork.heaping import Heap
    from bermwright.form.setout.nouns import Spot
    from bermwright.form.setout.surveyed import Place

FAN = 12.0
"""From the end of a string out to its number (mm)."""
APART = 4.8
"""Least distance of two numbers (mm)."""
BOARD_PEN = 1.1
"""Half the drawn thickness of a board (mm)."""
ROUND_POINTS = 40
RIB_NUMBERS = ((0.0, 1.4), (0.0, 4.8), (-3.6, 1.4), (3.6, 4.8), (-3.6, 4.8), (0.0, -3.8), (0.0, 8.4))
"""Where the number of a rib may stand beside its left foot (mm)."""
EDGE_CORNERS = ((3, "end"), (2, "end"), (1, "start"), (0, "start"), (2, "start"), (3, "start"))
"""Corners of the dig, round from the front left, at which its edge may be named."""
SMALL_ENOUGH = 250.0
"""On a plan of this scale heaps are shown whatever it costs."""
HEAPS_COST = 1.4
"""Heaps may make the scale of the plan so many times smaller, no more."""
PAPER = 174.0
TO_POST = 6.0
"""Length of the arrow towards it (mm)."""
WAY_SHIFTS = tuple(way * step for step in range(0, 64, 4) for way in (1.0, -1.0))
"""How far from the axis the arrow of the way in may stand (mm)."""
NAME_SHIFTS = (0.0, 4.0, -5.0, 8.0, -9.0, 12.0, -13.0)
HEAP_SHIFTS = (0.0, 8.0, -8.0, 16.0, -16.0)
TOE_LEAST = 0.05
"""Slopes that run out shorter than this are no slopes (m)."""


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
    heaps: bool
    """Whether heaps are on the paper."""

    def at(self, spot: Spot) -> Point:
        """A place on the paper: along to the right, across downward, as left walking in lies up."""
        return self.view.point(spot[0], -spot[1])

    def path(self, spots: list[Spot] | tuple[Spot, ...]) -> Path:
        """Places on the paper."""
        return tuple(self.at(spot) for spot in spots)


def plan_sheet(
    out: SetOut, shows: Shows, *, width: float = 174.0, tallest: float = 128.0, system: str = "metric"
) -> Sheet:
    """The plan, as large as a scale lets it be on the paper; heaps are left off where they make it small."""
    low, high, scale = shown(out, shows, width, tallest, heaps=True)
    bare = shown(out, shows, width, tallest, heaps=False)
    heaps = scale <= max(HEAPS_COST * bare[2], SMALL_ENOUGH)
    if not heaps:
        low, high, scale = bare
    factor = 1000.0 / scale
    height = (high[1] - low[1]) * factor + 2.0 * ROOM
    middle = 0.5 * (width - (low[0] + high[0]) * factor)
    view = View(origin=(middle, ROOM + high[1] * factor), scale=scale)
    hand = _Hand(out, view, Figures(system=system), Board(), low, high, heaps)
    items = tuple(_items(hand, shows, width, height))
    words = f"Plan of {out.vault}: {shows.value}, 1:{scale:.0f}"
    return Sheet(width=width, height=height, items=items, title=words, alt=words, view=view)


def _items(hand: _Hand, shows: Shows, width: float, height: float) -> Iterator[Item]:
    if hand.out.axis is None:
        yield hand.board.take(figure((width - 2.0, height - 4.0), "north: not given", "end"))
    else:
        yield from north_arrow((width - 9.0, height - 9.0), hand.out.axis)
        hand.board.block((width - 2.0 * ROOM, height - 2.0 * ROOM), (width, height))
    yield from _BY_KIND[shows](hand)
    yield from _way_in(hand, height)
    scale = f"1:{hand.view.scale:.0f}, seen from above"
    if not hand.heaps:
        scale += "; heaps lie off this plan"
    corners = [(1.0, 1.0, "start"), (width - 1.0, 1.0, "end"), (0.5 * width, 1.0, "middle")]
    corners += [(1.0, 5.0, "start"), (1.0, height - 4.0, "start"), (width - 1.0, 5.0, "end")]
    yield hand.board.put(figure((x, y), scale, anchor) for x, y, anchor in corners)


def _way_in(hand: _Hand, height: float) -> Iterator[Item]:
    """An arrow along the axis at the left edge, beside it where a number stands there."""
    door = hand.view.point(0.0, 0.0)[1]
    for up in WAY_SHIFTS:
        words = note((1.0, door + 1.6 + up), "way in")
        shaft = figure((1.0, door - 1.2 + up), "way in")
        if ROOM < door + up < height - ROOM and hand.board.free(words) and hand.board.free(shaft):
            hand.board.take(shaft)
            yield hand.board.take(words)
            yield Arrow(tail=(1.0, door + up), head=(10.0, door + up), pen=Pen.FORCE)
            return


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
    places = _places(out)
    for place in places:
        x, y = hand.at(place.at)
        yield Stroke(path=((x - 1.4, y - 1.4), (x + 1.4, y + 1.4)), pen=Pen.SEEN)
        yield Stroke(path=((x - 1.4, y + 1.4), (x + 1.4, y - 1.4)), pen=Pen.SEEN)
    for place in sorted(places, key=lambda one: math.dist(one.at, (0.5 * out.form.length, 0.0))):
        yield from _levelled(hand, place)


def _levelled(hand: _Hand, place: Place) -> Iterator[Text]:
    """Name and level of a point, or its level alone where points lie close; nothing where no room is."""
    x, y = hand.at(place.at)
    level = hand.figures.level(place.level)
    yield from hand.board.fit(
        figure((x + right, y + up), words, anchor)
        for words in (f"{place.name} {level}".strip(), level)
        for right, anchor in ((2.2, "start"), (-2.2, "end"))
        for up in (-0.9, 2.4, -4.2)
    )


def _places(out: SetOut) -> tuple[Place, ...]:
    return tuple(one for one in out.survey.places if near(one.at, out)) if out.survey is not None else ()


def _pegs(hand: _Hand) -> Iterator[Item]:
    plan = hand.out.plan
    yield from _other_digs(hand)
    if hand.out.dig is not None:
        yield Stroke(path=hand.path(hand.out.dig.outline), pen=Pen.HIDDEN, closed=True, ink=Ink.SOFT)
    yield from _strings(hand, every=True)
    corners = [plan.peg(name).at for name in "ABCD"]
    yield Stroke(path=hand.path(corners), pen=Pen.SEEN, closed=True)
    for first, last in (("A", "C"), ("B", "D")):
        yield Stroke(path=hand.path((plan.peg(first).at, plan.peg(last).at)), pen=Pen.NOT_YET)
    for mark in plan.pegs:
        block_peg(hand.at(mark.at), hand.board)
    for one in plan.boards:
        yield from _board(hand, one, named=True)
    yield from _marks(hand, "ABCDEFH")
    yield from _measured(hand)
    if plan.triangle > 0.0:
        yield from _three_four_five(hand)
    if hand.out.dig is not None:
        yield from _edge_words(hand, hand.out.dig.corners)


def _other_digs(hand: _Hand) -> Iterator[Item]:
    """The digs of the other parts of the house, as far as they are on the paper."""
    window = shapely.box(hand.low[0], hand.low[1], hand.high[0], hand.high[1])
    for name, edge in hand.out.others:
        seen = shapely.intersection(shapely.Polygon(edge), window)
        if not isinstance(seen, shapely.Polygon) or seen.is_empty:
            continue
        spots = [(float(u), float(v)) for u, v in shapely.get_coordinates(seen)]
        yield Stroke(path=hand.path(spots), pen=Pen.HIDDEN, closed=True, ink=Ink.SOFT)
        x, y = hand.at((float(seen.centroid.x), float(seen.centroid.y)))
        yield hand.board.put(note((x, y + up), f"dig of {name}", "middle") for up in (0.0, 4.0, -4.0))


def _marks(hand: _Hand, names: str) -> Iterator[Item]:
    """Pegs with their letters; an arrow towards the post of the datum where it stands off the paper."""
    for mark in hand.out.plan.pegs:
        if mark.name not in names:
            continue
        if mark.name != "H" or post_shown(hand.out):
            yield from peg(hand.at(mark.at), mark.name, hand.board)
            continue
        x, y = hand.at(mark.at)
        (left, top), (right, foot) = hand.at(hand.low), hand.at(hand.high)
        edge = min(max(x, left), right), min(max(y, foot), top)
        far = math.hypot(x - edge[0], y - edge[1]) or 1.0
        tip = edge[0] + TO_POST * (x - edge[0]) / far, edge[1] + TO_POST * (y - edge[1]) / far
        yield Arrow(tail=edge, head=tip, pen=Pen.FORCE)
        hand.board.block(
            (min(edge[0], tip[0]), min(edge[1], tip[1])), (max(edge[0], tip[0]), max(edge[1], tip[1]))
        )
        yield from hand.board.fit(
            figure((tip[0] + away, tip[1] + up), "to post H", anchor)
            for away, up, anchor in (
                (2.0, 0.0, "start"),
                (2.0, 3.6, "start"),
                (-2.0, 0.0, "end"),
                (-2.0, 3.6, "end"),
            )
            if TO_POST < tip[0] + 10.0 * away < PAPER - TO_POST
        )


def _block(hand: _Hand, one: Point, other: Point, beside: float = 0.0) -> None:
    """Keep labels off what lies between two points of the paper."""
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(one, other, strict=True))
    hand.board.block((x0 - beside, y0 - beside), (x1 + beside, y1 + beside))


def _measured(hand: _Hand) -> Iterator[Item]:
    """Width at the front and length on the left."""
    a, b, d = (hand.at(hand.out.plan.peg(name).at) for name in "ABD")
    for start, end, names in ((b, a, "AB"), (a, d, "AD")):
        text = hand.figures.length(_apart(hand, *names))
        yield from hand.board.measure(
            Dimension(start=start, end=end, offset=away, text=text)
            for away in (7.0, 5.0, 9.5, 3.0, -4.0, -7.0)
        )


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
    for heap in hand.out.heaps if hand.heaps else ():
        yield from _heap(hand, heap)
    for one in hand.out.plan.boards:
        yield from _board(hand, one, named=False)
    yield from _marks(hand, "EFH")
    yield from _pit_words(hand, bottom)
    for heap in hand.out.heaps if hand.heaps else ():
        yield from _heap_words(hand, heap)


def _pit_words(hand: _Hand, bottom: list[Spot]) -> Iterator[Item]:
    dig, figures = hand.out.dig, hand.figures
    if dig is None:
        return
    size = dig.pit.high[0] - dig.pit.low[0], dig.pit.high[1] - dig.pit.low[1]
    middle = 0.5 * (dig.pit.low[0] + dig.pit.high[0])
    places = [
        (0.5 * (one.low[1] + one.high[1]), f"trench {figures.level(one.bottom)}") for one in dig.trenches
    ]
    places.append((0.0, f"bottom {figures.level(dig.formation)}"))
    for across, words in places:
        x, y = hand.at((middle, across))
        yield from hand.board.fit(figure((x, y + up), words, "middle") for up in (-1.2, 0.6, -3.0, 2.4, -4.8))
    for start, end, length in ((0, 3, size[0]), (1, 0, size[1])):
        yield from hand.board.measure(
            Dimension(
                start=hand.at(bottom[start]),
                end=hand.at(bottom[end]),
                offset=away,
                text=figures.length(length),
            )
            for away in (-2.5, -5.0, -7.5, 3.0)
        )


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


def _heap_words(hand: _Hand, heap: Heap) -> Iterator[Item]:
    if heap.middle is None:
        return
    x, y = hand.at(heap.middle)
    figures = hand.figures
    size = f"{figures.length(heap.length)} × {figures.length(heap.width)}, {figures.length(heap.height)} high"
    yield from hand.board.fit(note((x, y + 1.2 + up), f"{heap.soil}, loose", "middle") for up in HEAP_SHIFTS)
    yield from hand.board.fit(figure((x, y - 3.2 + up), size, "middle") for up in HEAP_SHIFTS)


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
    for place in hand.out.ribs:
        yield Stroke(path=hand.path(((place, -half), (place, half))), pen=Pen.CUT)
    yield from _feet_frame(hand)
    yield from _openings(hand)
    for number, place in enumerate(hand.out.ribs, start=1):
        if number in {1, len(hand.out.ribs)} or number % 5 == 0:
            x, y = hand.at((place, -half))
            yield from hand.board.fit(
                figure((x + right, y + up), f"{number}", "middle") for right, up in RIB_NUMBERS
            )
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
        _block(hand, path[0], path[1], beside=0.5)
        x, y = 0.5 * (path[0][0] + path[1][0]), 0.5 * (path[0][1] + path[1][1])
        anchor = {"front": "end", "back": "start"}.get(one.side, "middle")
        away = {"front": -2.0, "back": 2.0}.get(one.side, 0.0)
        up = -1.0 if one.in_end else 2.0
        yield hand.board.put(note((x + away, y + up + shift), one.name, anchor) for shift in NAME_SHIFTS)


def _mound(hand: _Hand) -> Iterator[Item]:
    """Toes all round: of the long sides as the section has them, of the ends where the file slopes them."""
    out, form, mound = hand.out, hand.out.form, hand.out.mound
    last = out.ribs[-1]
    feet = _rectangle((mound.front, mound.left), (mound.back, mound.right))
    yield Area(path=hand.path(feet), wash=Wash.EARTH, outline=Pen.CUT)
    top = _rectangle((0.0, 0.0), (last, 0.0))
    for spot, foot in zip(top, feet, strict=True):
        yield Stroke(path=hand.path((spot, foot)), pen=Pen.HATCH)
    half = 0.5 * form.span
    yield Stroke(path=hand.path(_rectangle((0.0, -half), (last, half))), pen=Pen.HIDDEN, closed=True)
    yield Stroke(path=hand.path(((0.0, 0.0), (last, 0.0))), pen=Pen.NOT_YET)
    for toe, side in ((mound.left, "left"), (mound.right, "right")):
        x, y = hand.at((0.5 * last, toe))
        words, up = f"toe of the mound, {side}", 1.2 if toe < 0 else -3.4
        yield hand.board.put(note((x, y + up + more), words, "middle") for more in (0.0, 4.0, -4.0))
        ends = (hand.at((mound.front, 0.0)), hand.at((mound.front, toe)))
        first, second = ends if toe < 0.0 else ends[::-1]
        text = hand.figures.length(abs(toe))
        yield from hand.board.measure(
            Dimension(start=first, end=second, offset=away, text=text) for away in (4.0, 7.0, -4.0)
        )
    yield from _mound_ends(hand)


def _mound_ends(hand: _Hand) -> Iterator[Item]:
    """How far the slopes before and behind the vault run out."""
    mound, last = hand.out.mound, hand.out.ribs[-1]
    half = 0.5 * hand.out.form.span
    for start, end, soil in ((mound.front, 0.0, mound.front_soil), (last, mound.back, mound.back_soil)):
        if end - start > TOE_LEAST:
            if soil is not None:
                way = hand.path(_rectangle((start, -half), (end, half)))
                yield Area(path=way, wash=Wash.PAPER, outline=Pen.HIDDEN)
                x, y = hand.at((0.5 * (start + end), 0.5 * half))
                words = f"soil to {hand.figures.level(soil)}"
                yield from hand.board.fit(figure((x, y + up), words, "middle") for up in (-1.2, -4.8, 2.4))
            yield from hand.board.measure(
                Dimension(
                    start=hand.at((start, 0.0)),
                    end=hand.at((end, 0.0)),
                    offset=away,
                    text=hand.figures.length(end - start),
                )
                for away in (3.0, -4.0, 6.0, -7.0)
            )


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


def _edge_words(hand: _Hand, corners: tuple[Spot, ...]) -> Iterator[Text]:
    """What the dashed line is, on it near one of its corners."""
    spots = [(hand.at(corners[number]), anchor) for number, anchor in EDGE_CORNERS]
    yield from hand.board.fit(
        note((x + (2.0 if anchor == "start" else -2.0), y + up), "edge of the dig", anchor)
        for (x, y), anchor in spots
        for up in (1.0, -3.4, -1.0)
    )


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
    (x0, y0), (x1, y1) = sorted([(x0, y0), (x1, y1)])
    path = (
        (x0 - thick[0], y0 - thick[1]), (x1 - thick[0], y1 - thick[1]),
        (x1 + thick[0], y1 + thick[1]), (x0 + thick[0], y0 + thick[1]),
    )  # fmt: skip
    yield Area(path=path, wash=Wash.TIMBER, outline=Pen.SEEN)
    hand.board.block(path[0], path[2])
    if named:
        long, wide = 0.5 * abs(y1 - y0), 0.5 * abs(x1 - x0)
        shifts = {
            "F": ((0.0, long + 1.6), (0.0, -long - 4.2), (-4.0, -1.2), (4.5, -1.2)),
            "B": ((5.0, -1.2), (0.0, long + 1.6), (0.0, -long - 4.2)),
            "L": ((-5.5 - wide, -1.2), (4.5 + wide, -1.2), (0.0, 2.6), (0.0, -4.6)),
            "R": ((0.0, -6.0), (-5.5 - wide, -1.2), (4.5 + wide, -1.2)),
        }[one.name[0]]
        yield hand.board.put(
            Text(
                at=(0.5 * (x0 + x1) + right, 0.5 * (y0 + y1) + up),
                text=one.name,
                height=2.6,
                anchor="middle",
                strong=True,
            )
            for right, up in shifts
        )
