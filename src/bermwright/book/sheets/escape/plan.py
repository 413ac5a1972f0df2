"""The plan of a vault with its beds, stoves, openings and the way from the farthest corner."""

from __future__ import annotations

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
from bermwright.house import OpeningKind, OpeningSide
from bermwright.rules.fire.escape import exit_of, place_along

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House, Opening, Vault
    from bermwright.house.living.fire import Bedroom

SCALES = (50.0, 100.0, 200.0)
SIDE, FOOT, HEAD = 30.0, 14.0, 12.0
"""Paper round the plan, for names (mm)."""
WALL = 0.3
"""The shell is drawn so thick (m)."""
NAME, INSIDE = 2.5, 5.0
"""From the wall out to a name, and how far inside its arrow begins (mm)."""

Ends = tuple[tuple[float, float], tuple[float, float]]


def escape_plan(house: House, vault: Vault, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The plan with the front on the left, seen from above; left as one walks in is up on the paper."""
    long = 1000.0 * (vault.length + 2.0 * WALL)
    scale = next((one for one in SCALES if long / one + 2.0 * SIDE <= width), SCALES[-1])
    factor = 1000.0 / scale
    height = (vault.span + 2.0 * WALL) * factor + FOOT + HEAD
    middle = 0.5 * width - 0.5 * vault.length * factor
    view = View(origin=(middle, FOOT + (0.5 * vault.span + WALL) * factor), scale=scale)
    items = tuple(_items(house, vault, view, Figures(system=system, metres=True)))
    return Sheet(
        width=width,
        height=height,
        items=items,
        title="Ways out",
        alt=f"Plan of {vault.name} with beds, openings and the way out",
        view=view,
    )


def _items(house: House, vault: Vault, view: View, figures: Figures) -> Iterator[Item]:
    board = Board()
    yield from _shell(vault, view)
    for room in house.bedrooms:
        if room.vault == vault.name:
            yield from _bedroom(room, vault, view, board)
    mine = [one for one in house.openings if one.vault == vault.name]
    for opening in sorted(mine, key=lambda one: one.side is not OpeningSide.CROWN):
        yield from _opening(opening, vault, view, board)
    yield from _way(mine, vault, view, figures, board)
    left, right = (
        view.point(0.0, -0.5 * vault.span - WALL),
        view.point(vault.length, -0.5 * vault.span - WALL),
    )
    yield Dimension(start=left, end=right, offset=-6.0, text=figures.length(vault.length))
    yield figure((2.0, 2.0), f"1:{view.scale:.0f}, seen from above")


def _shell(vault: Vault, view: View) -> Iterator[Item]:
    half = 0.5 * vault.span
    outer = _corners(view, -WALL, vault.length + WALL, half + WALL)
    inner = _corners(view, 0.0, vault.length, half)
    yield Area(path=outer, holes=(inner,), wash=Wash.TIMBER, hatch=Hatch.NONE, outline=Pen.CUT)
    yield Stroke(path=inner, pen=Pen.CUT, closed=True)


def _corners(view: View, start: float, end: float, half: float) -> tuple[tuple[float, float], ...]:
    return tuple(view.point(x, y) for x, y in ((start, -half), (end, -half), (end, half), (start, half)))


def _bedroom(room: Bedroom, vault: Vault, view: View, board: Board) -> Iterator[Item]:
    path = _corners(view, room.begins, room.ends, 0.5 * vault.span)
    yield Stroke(path=path, pen=Pen.SEEN if room.closed else Pen.HIDDEN, closed=True)
    x, y = view.point(0.5 * (room.begins + room.ends), -0.3 * vault.span)
    yield board.take(note((x, y), room.name, "middle"))
    yield board.take(note((x, y - 3.6), f"{room.people} sleep here", "middle"))


def _opening(opening: Opening, vault: Vault, view: View, board: Board) -> Iterator[Item]:
    """A gap in the wall; its name outside, with what it is worth as a way out."""
    if opening.side is OpeningSide.CROWN:
        yield from _overhead(opening, view, board)
        return
    ends = _ends(opening, vault)
    if ends is None:
        return
    way, outward = exit_of(opening, 0.0), _outward(opening)
    yield _gap(ends, outward, view)
    middle = view.point(0.5 * (ends[0][0] + ends[1][0]), 0.5 * (ends[0][1] + ends[1][1]))
    out = view.length(WALL) + NAME
    at = middle[0] + out * outward[0], middle[1] + out * outward[1]
    anchor = {1.0: "start", -1.0: "end", 0.0: "middle"}[outward[0]]
    low = at[1] - 3.0 if outward[1] <= 0.0 else at[1]
    yield board.take(note((at[0], low + 3.2), opening.name, anchor))
    sign = "way out" if way.passable else "not known" if way.passable is None else "no way out"
    ink = Ink.INK if way.passable else Ink.SOFT
    yield board.take(
        Text(at=(at[0], low), text=sign, height=1.9, anchor=anchor, strong=bool(way.passable), ink=ink)
    )
    if way.passable:
        tail = middle[0] - INSIDE * outward[0], middle[1] - INSIDE * outward[1]
        head = middle[0] + 0.8 * out * outward[0], middle[1] + 0.8 * out * outward[1]
        yield Arrow(tail=tail, head=head, pen=Pen.FORCE)


def _gap(ends: Ends, outward: tuple[float, float], view: View) -> Area:
    """The hole in the wall."""
    first, last = ends
    outer = [(x + WALL * outward[0], y + WALL * outward[1]) for x, y in (last, first)]
    path = tuple(view.point(*one) for one in (first, last, *outer))
    return Area(path=path, wash=Wash.PAPER, outline=Pen.SEEN)


def _overhead(opening: Opening, view: View, board: Board) -> Iterator[Item]:
    if opening.along is None:
        return
    half = 0.5 * opening.width
    low, high = view.point(opening.along - half, -half), view.point(opening.along + half, half)
    path = (low, (high[0], low[1]), high, (low[0], high[1]))
    yield Stroke(path=path, pen=Pen.HIDDEN, closed=True)
    if opening.kind is OpeningKind.FLUE:
        yield Stroke(path=(low, high), pen=Pen.LAYER)
        yield Stroke(path=(path[1], path[3]), pen=Pen.LAYER)
    yield board.take(note((0.5 * (low[0] + high[0]), high[1] + 1.2), opening.name, "middle"))


def _ends(opening: Opening, vault: Vault) -> Ends | None:
    """Both ends of an opening in the plan: along the axis, and across with left up."""
    half, wide = 0.5 * vault.span, 0.5 * opening.width
    match opening.side:
        case OpeningSide.FRONT:
            return (0.0, -opening.across - wide), (0.0, -opening.across + wide)
        case OpeningSide.BACK:
            return (vault.length, -opening.across - wide), (vault.length, -opening.across + wide)
        case _:
            if opening.along is None:
                return None
            y = half if opening.side is OpeningSide.LEFT else -half
            return (opening.along - wide, y), (opening.along + wide, y)


def _outward(opening: Opening) -> tuple[float, float]:
    return {
        OpeningSide.FRONT: (-1.0, 0.0),
        OpeningSide.BACK: (1.0, 0.0),
        OpeningSide.LEFT: (0.0, 1.0),
        OpeningSide.RIGHT: (0.0, -1.0),
        OpeningSide.CROWN: (0.0, 0.0),
    }[opening.side]


def _way(openings: list[Opening], vault: Vault, view: View, figures: Figures, board: Board) -> Iterator[Item]:
    """From the corner that is farthest from any way out, along and then across."""
    places = [place_along(one, vault) for one in openings if exit_of(one, 0.0).passable]
    known = sorted(place for place in places if place is not None)
    if not known:
        return
    along = np.linspace(0.0, vault.length, 301)
    nearest = np.min(np.abs(along[:, None] - np.array(known)), axis=1)
    at = int(np.argmax(nearest))
    goal = min(known, key=lambda place: abs(place - along[at]))
    half = 0.5 * vault.span
    corner, turn, end = (float(along[at]), 0.92 * half), (float(along[at]), 0.0), (goal, 0.0)
    path = tuple(view.point(x, y) for x, y in (corner, turn, end))
    yield Stroke(path=path, pen=Pen.NOT_YET)
    yield Arrow(tail=path[1], head=path[2], pen=Pen.LOAD)
    far = float(nearest[at]) + half
    middle, words = 0.5 * (path[1][0] + path[2][0]), f"{figures.length(far)} to the way out"
    yield board.put(figure((middle, path[1][1] + up), words, "middle") for up in (1.2, -3.6, -7.0))
