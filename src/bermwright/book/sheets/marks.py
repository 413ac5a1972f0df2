"""The marks of rules drawn into a section: one small function for each kind."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, assert_never

import numpy as np
import shapely

from bermwright.base.drawing import Arc, Area, Arrow, Hatch, Ink, Item, Pen, Spline, Stroke, Text, View, Wash
from bermwright.base.lettering import text_width
from bermwright.base.marks import (
    Arrows,
    Bags,
    Comb,
    FootForce,
    GroundHeat,
    LevelMark,
    Mark,
    Note,
    PlumbLine,
    Ring,
    Side,
    StopMark,
)
from bermwright.base.units import show
from bermwright.book.sheets.paper import FIGURE, Board, Figures, figure, note, path_of
from bermwright.book.sheets.signs import bob, flag, level_texts, level_triangle, red_line

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.book.sheets.scene import Scene

    Array = NDArray[np.float64]

COMB = 11.0
"""Half-width of the corridor, or height of the tallest tooth where that is more (mm)."""
ARROW = 11.0
"""Length of the longest load arrow (mm)."""
FOOT = 12.0
"""Length of a foot's force arrow (mm)."""
BAG = 0.4
"""Width of a bag as it is drawn (m)."""
RING = 6.5
"""Radius of a ring (mm)."""


def draw_mark(mark: Mark, view: View, scene: Scene, board: Board, figures: Figures) -> Iterator[Item]:  # noqa: C901  (an arm for each)
    """A mark of a rule as items of the sheet; its lettering finds a free place on the board."""
    match mark:
        case StopMark():
            yield from _stop(mark, view, scene, board, figures)
        case Ring():
            yield from _ring(mark, view, board)
        case Comb():
            yield from _comb(mark, view, board)
        case Arrows():
            yield from _arrows(mark, view)
        case FootForce():
            yield from _foot(mark, view, scene, (board, figures))
        case LevelMark():
            at = view.point(mark.spot.x, mark.spot.z)
            yield level_triangle(at)
            yield board.put(level_texts(at, mark.text))
        case PlumbLine():
            yield from _plumb(mark, view, board)
        case Note():
            yield from _note(mark, view, board)
        case Bags():
            yield from _bags(mark, view, scene, board)
        case GroundHeat():
            from bermwright.book.sheets.winter.ground import ground_heat

            yield from ground_heat(mark, view, scene, board)
        case _:
            assert_never(mark)


def _bags(mark: Bags, view: View, scene: Scene, board: Board) -> Iterator[Item]:
    """Filled bags side by side on the shell, with their weight."""
    face = scene.face
    x, z = face.x - scene.crown_x, face.z
    on = (np.abs(x) <= mark.half) & (z > float(np.median(z)))
    if np.count_nonzero(on) < 2 or not mark.height > 0.0:
        return
    low = np.column_stack([face.x[on], z[on]])
    ring = np.concatenate([low, (low + np.array([0.0, mark.height]))[::-1]])
    count = max(2, round(2.0 * mark.half / BAG))
    yield Area(path=path_of(view, ring[:, 0], ring[:, 1]), wash=Wash.EARTH, outline=Pen.SEEN, layer="ballast")
    for at in np.linspace(low[0, 0], low[-1, 0], count + 1)[1:-1].tolist():
        foot = float(np.interp(at, low[:, 0], low[:, 1]))
        ends = (view.point(at, foot), view.point(at, foot + mark.height))
        yield Stroke(path=ends, pen=Pen.LAYER, layer="ballast")
    top = view.point(float(low[0, 0]), float(low[0, 1]) + mark.height)
    yield board.put(note((top[0] - 1.5, top[1] + up), mark.text, "end") for up in (1.0, 4.5, -3.0))


def _stop(mark: StopMark, view: View, scene: Scene, board: Board, figures: Figures) -> Iterator[Item]:
    """A red bar from the shell through the fill into free air, its flag pointing at the shell."""
    sign = -1.0 if mark.side is Side.LEFT else 1.0
    if mark.filled_to is not None:
        yield from _overfilled(mark, view, scene)
    ends = scene.reach(mark.level, sign)
    if ends is None:
        return
    (low, _), (high, _) = view.seen
    start = view.point(ends[0], mark.level)
    end = (view.point(min(max(ends[1], low), high), mark.level)[0] + sign * 5.0, start[1])
    yield red_line((start, (end[0] - sign * 1.5, end[1])))
    yield Area(path=flag(end, -sign), wash=Wash.STOP, layer="mark")
    board.block((min(start[0], end[0]), start[1] - 0.4), (max(start[0], end[0]), start[1] + 0.4))
    board.block((end[0] - 2.2, end[1] - 2.2), (end[0] + 2.2, end[1] + 2.2))
    text = f"STOP {figures.level(mark.level)}"
    anchor = "end" if sign < 0 else "start"
    over = (end[0] - sign * 2.6, end[1] + 1.5)
    beside = end[0] + sign * 3.2
    places = (
        (beside, end[1] - 0.5 * FIGURE),
        (beside, end[1] + 0.6),
        (beside, end[1] + 1.6),
        over,
        (over[0], end[1] - FIGURE - 1.5),
    )
    anchors = (anchor, anchor, anchor, "start" if sign < 0 else "end", "start" if sign < 0 else "end")
    yield board.put(
        Text(at=at, text=text, height=FIGURE, anchor=how, strong=True, ink=Ink.RED)
        for at, how in zip(places, anchors, strict=True)
    )


def _overfilled(mark: StopMark, view: View, scene: Scene) -> Iterator[Item]:
    """Soil past the mark: red wash with strokes at 60 degrees."""
    (low, _), (high, _) = view.seen
    left, right = (low, scene.crown_x) if mark.side is Side.LEFT else (scene.crown_x, high)
    above = shapely.box(left, mark.level, right, 1e3)
    for part in scene.placed(low, high):
        for piece in shapely.get_parts(shapely.intersection(part, above)):
            if piece.geom_type == "Polygon" and piece.area > 1e-4:
                points = shapely.get_coordinates(piece.exterior)
                path = path_of(view, points[:, 0], points[:, 1])[:-1]
                yield Area(
                    path=path,
                    wash=Wash.RED,
                    hatch=Hatch.OVERFILLED,
                    outline=Pen.LAYER,
                    ink=Ink.RED,
                    layer="mark",
                )


def _ring(mark: Ring, view: View, board: Board) -> Iterator[Item]:
    """A red ring and its words beside it."""
    at = view.point(mark.spot.x, mark.spot.z)
    yield Arc(centre=at, radius=RING, start=0.0, end=2.0 * math.pi, pen=Pen.STOP, layer="mark")
    if mark.text:
        places = _around(at, RING + 1.5)
        yield board.put(
            Text(at=p, text=mark.text, height=FIGURE, anchor=how, strong=True, ink=Ink.RED)
            for p, how in places
        )


def _around(at: tuple[float, float], gap: float) -> tuple[tuple[tuple[float, float], str], ...]:
    """Places for words round a spot: right, left, above, below."""
    return (
        ((at[0] + gap, at[1] - 0.5 * FIGURE), "start"),
        ((at[0] - gap, at[1] - 0.5 * FIGURE), "end"),
        ((at[0], at[1] + gap), "middle"),
        ((at[0], at[1] - gap - FIGURE), "middle"),
    )


def _comb(mark: Comb, view: View, board: Board) -> Iterator[Item]:
    """Bending inside its corridor; what sticks out is red, with teeth and a thick edge."""
    points = np.array([view.point(x, z) for x, z in zip(mark.x, mark.z, strict=True)])
    moment, corridor = np.array(mark.moment), np.array(mark.corridor)
    finite = np.isfinite(moment) & np.isfinite(corridor)
    if not finite.all() or not (corridor > 0.0).any():
        return
    tangent = np.gradient(points, axis=0)
    tangent /= np.hypot(tangent[:, 0], tangent[:, 1])[:, None]
    inward = np.column_stack([tangent[:, 1], -tangent[:, 0]])
    scale = COMB / max(float(np.max(corridor)), float(np.max(np.abs(moment))) / 1.4)
    tips = points + scale * moment[:, None] * inward
    yield Area(path=_pairs(np.concatenate([points, tips[::-1]])), wash=Wash.PALE, layer="bending")
    yield Spline(path=_pairs(points), pen=Pen.SEEN, layer="bending")
    over = np.abs(moment) > corridor
    for k in range(len(points)):
        teeth = (_pair(points[k]), _pair(tips[k]))
        yield Stroke(path=teeth, pen=Pen.HATCH, layer="bending")
    yield Stroke(path=_pairs(tips), pen=Pen.LAYER, layer="bending")
    for sign in (1.0, -1.0):
        edge = points + sign * scale * corridor[:, None] * inward
        yield Stroke(path=_pairs(edge), pen=Pen.LIMIT, layer="bending")
    yield from _teeth(points, inward, scale, (moment, corridor, over))
    yield from _comb_words(mark, (points, tips, over), view, board)


def _teeth(
    points: Array, inward: Array, scale: float, values: tuple[Array, Array, NDArray[np.bool_]]
) -> Iterator[Item]:
    """The red part of a comb: teeth from the corridor's edge, and a thick edge over them."""
    moment, corridor, over = values
    limit = points + scale * (np.sign(moment) * corridor)[:, None] * inward
    tips = points + scale * moment[:, None] * inward
    for k in np.flatnonzero(over).tolist():
        yield Stroke(path=(_pair(limit[k]), _pair(tips[k])), pen=Pen.TICK, ink=Ink.RED, layer="bending")
    places = np.flatnonzero(over)
    for run in np.split(places, np.flatnonzero(np.diff(places) > 1) + 1) if places.size else []:
        if run.size > 1:
            yield red_line(_pairs(tips[run]), "bending")


def _comb_words(
    mark: Comb, drawn: tuple[Array, Array, NDArray[np.bool_]], view: View, board: Board
) -> Iterator[Item]:
    """The figure of the worst place with a thin line to it, in the room or outside where that is full."""
    if not mark.text:
        return
    points, tips, over = drawn
    share = np.abs(np.array(mark.moment)) / np.maximum(np.array(mark.corridor), 1e-9)
    worst = int(np.argmax(share))
    red = bool(over.any())
    middle = view.point(0.0, 0.5 * (min(mark.z) + max(mark.z)))
    heart = (0.5 * (points[0, 0] + points[-1, 0]), middle[1])
    ink = Ink.RED if red else Ink.INK
    lines = [mark.text, *([mark.allowed] if mark.allowed else [])]
    for k, words in enumerate(lines):
        at = (heart[0], heart[1] + 4.0 - 4.0 * k)
        yield board.take(
            Text(
                at=at,
                text=words,
                height=FIGURE,
                anchor="middle",
                strong=k == 0,
                ink=ink if k == 0 else Ink.INK,
            )
        )
    tip = _pair(tips[worst])
    side = math.copysign(0.5 * text_width(mark.text, FIGURE, strong=True) + 1.2, tip[0] - heart[0])
    pen = Pen.LAYER if red else Pen.DIMENSION
    start = (heart[0] + side, heart[1] + 4.0 + 0.5 * FIGURE)
    yield Stroke(path=(start, tip), pen=pen, ink=ink, layer="bending")


def _pair(row: Array) -> tuple[float, float]:
    """A row as a point."""
    return float(row[0]), float(row[1])


def _pairs(rows: Array) -> tuple[tuple[float, float], ...]:
    """Rows as points."""
    return tuple(_pair(row) for row in rows)


def _arrows(mark: Arrows, view: View) -> Iterator[Item]:
    """Soft arrows that end on the face they press; the longest is one length in every view."""
    across, down = np.array(mark.across), np.array(mark.down)
    size = np.hypot(across, down)
    largest = float(np.max(size)) if size.size else 0.0
    if not largest > 0.0 or not math.isfinite(largest):
        return
    for x, z, u, w in zip(mark.x, mark.z, across.tolist(), down.tolist(), strict=True):
        head = view.point(x, z)
        tail = (head[0] - ARROW * u / largest, head[1] + ARROW * w / largest)
        if math.dist(head, tail) > 1.0:
            yield Arrow(tail=tail, head=head, pen=Pen.LOAD, ink=Ink.SOFT)


def _foot(mark: FootForce, view: View, scene: Scene, lettering: tuple[Board, Figures]) -> Iterator[Item]:
    """One black arrow in its true direction at the larger inward end, and the range in words.

    The words stand in the room; where that is too narrow for both feet's, outside of it; where there is no
    room either, one foot's under the other's.
    """
    board, figures = lettering
    sign = 1.0 if mark.side is Side.LEFT else -1.0
    at = view.point(mark.spot.x, mark.spot.z)
    down, inward = mark.down[1], max(mark.inward, key=abs)
    size = math.hypot(down, inward)
    if size > 0.0 and math.isfinite(size):
        head = (at[0] + sign * FOOT * inward / size, at[1] - FOOT * down / size)
        yield Arrow(tail=at, head=head, pen=Pen.FORCE, layer="force")
    if not mark.words:
        return
    ways = ((mark.down, "down", "up"), (mark.inward, "inward", "outward"))
    lines = [force_range(ends, plus, minus, figures.system) for ends, plus, minus in ways]
    wide = max(text_width(words, FIGURE) for words in lines) + FOOT + 3.0
    first = 0
    if 2.0 * wide > view.length(scene.form.span):
        edges = [view.point(edge[0], 0.0)[0] for edge in view.seen]
        if edges[0] < at[0] - sign * wide < edges[1]:
            sign = -sign
        elif mark.side is Side.RIGHT:
            first = len(lines)
    anchor = "start" if sign > 0 else "end"
    for k, words in enumerate(lines, first):
        x = at[0] + sign * (FOOT + 3.0)
        yield board.take(figure((x, at[1] - 5.0 - 4.0 * k), words, anchor))


def force_range(ends: tuple[float, float], plus: str, minus: str, system: str = "metric") -> str:
    """A range of forces in words, never with a bare minus sign; kN/m go without saying, pounds do not."""
    low, high = sorted(ends)
    if not (math.isfinite(low) and math.isfinite(high)):
        return f"{plus} unknown"
    if _force(low, system) == _force(high, system):
        return f"{_force(abs(high), system)} {plus if high >= 0.0 else minus}"
    if low >= 0.0 or high <= 0.0:
        near, far = (_force(value, system) for value in sorted((abs(low), abs(high))))
        return f"{near} to {far} {plus if low >= 0.0 else minus}"
    return f"{_force(-low, system)} {minus} to {_force(high, system)} {plus}"


def _force(value: float, system: str) -> str:
    return f"{value / 1e3:.1f}" if system == "metric" else show(value, "kN/m", 1, system)


def _plumb(mark: PlumbLine, view: View, board: Board) -> Iterator[Item]:
    """A plumb line with its words across it."""
    top, bottom = view.point(mark.top.x, mark.top.z), view.point(mark.top.x, mark.bottom)
    yield from bob(top, bottom)
    if mark.text:
        middle = 0.35 * top[1] + 0.65 * bottom[1]
        yield board.put(note((top[0], y), mark.text, "middle") for y in (middle, middle + 5.0, middle - 5.0))


def _note(mark: Note, view: View, board: Board) -> Iterator[Item]:
    """Italic words, with a thin line to what they speak of."""
    at = view.point(mark.spot.x, mark.spot.z)
    text = board.put(note((at[0], at[1] + dy), mark.text, "middle") for dy in (0.0, 5.0, -5.0))
    if mark.to is not None:
        yield Stroke(
            path=((text.at[0], text.at[1] - 1.0), view.point(mark.to.x, mark.to.z)),
            pen=Pen.DIMENSION,
            layer="text",
        )
    yield text
