"""A ring from above: openings, where the crews begin and meet, the zero mark and north."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Arrow, Hatch, Ink, Item, Pen, Point, Sheet, Stroke, Text, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import FIGURE, Board, Figures, figure, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import Course, DomeForm, Piece

SCALES = (20.0, 25.0, 50.0, 100.0)
SIDE = 27.0
"""Paper round the ring (mm)."""
STEP = math.radians(3.0)


def ring_sheet(form: DomeForm, course: Course, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """One course from above; the zero mark lies below, directions run clockwise."""
    reach = course.radius + form.dome.thickness
    scale = next((one for one in SCALES if 2000.0 * reach / one + 2.0 * SIDE <= width), SCALES[-1])
    height = 2000.0 * reach / scale + 2.0 * SIDE
    view = View(origin=(0.5 * width, 0.5 * height), scale=scale)
    board = Board()
    figures = Figures(system=system, metres=True)
    items = [
        *(item for piece in course.pieces for item in _piece(form, course, piece, view)),
        *_zero(view, reach, board),
        *_openings(form, course, view, board),
        *_crews(form, course, view, board),
        *_radius(course, view, board, figures),
        *_north(form, (width - 12.0, height - 12.0)),
        figure((0.0, 1.5), f"1:{scale:.0f}, course {course.number}"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    return Sheet(
        width=width, height=height, items=tuple(items),
        title=f"Course {course.number} of {form.name} from above",
        alt=f"{len(course.pieces)} pieces, {course.length:.2f} m in all", view=view,
    )  # fmt: skip


def on_paper(direction: float) -> float:
    """Angle on the sheet of a direction that counts clockwise from the zero mark below."""
    return -0.5 * math.pi - direction


def _spot(radius: float, direction: float) -> Point:
    turn = on_paper(direction)
    return radius * math.cos(turn), radius * math.sin(turn)


def _arc(radius: float, start: float, end: float) -> list[Point]:
    count = max(2, math.ceil((end - start) / STEP) + 1)
    return [_spot(radius, start + (end - start) * k / (count - 1)) for k in range(count)]


def _piece(form: DomeForm, course: Course, piece: Piece, view: View) -> Iterator[Item]:
    """A ring, or a part of one whose ends stand square to the opening beside it."""
    outer = course.radius + form.dome.thickness
    if piece.whole:
        ring = tuple(view.point(*at) for at in _arc(outer, 0.0, 2.0 * math.pi)[:-1])
        hole = tuple(view.point(*at) for at in _arc(course.radius, 0.0, 2.0 * math.pi)[:-1])
        yield Area(path=ring, holes=(hole,), wash=Wash.EARTH, hatch=Hatch.NONE, outline=Pen.CUT)
        return
    start, end = (_outside(form, course, turn, outer) for turn in (piece.start, piece.end))
    path = [*_arc(course.radius, piece.start, piece.end), *_arc(outer, start, end)[::-1]]
    yield Area(path=tuple(view.point(*at) for at in path), wash=Wash.EARTH, outline=Pen.CUT)


def _outside(form: DomeForm, course: Course, direction: float, outer: float) -> float:
    """Direction at the outer face of the end of a piece: the sides of an opening are parallel."""
    turn = 2.0 * math.pi
    nearest = min(
        form.dome.openings, key=lambda one: abs((direction - one.at + math.pi) % turn - math.pi), default=None
    )
    if nearest is None:
        return direction
    away = (direction - nearest.at + math.pi) % turn - math.pi
    beside = course.radius * math.sin(away)
    return direction - away + math.asin(max(-1.0, min(1.0, beside / outer)))


def _zero(view: View, reach: float, board: Board) -> Iterator[Item]:
    end = view.point(*_spot(reach + 0.15, 0.0))
    yield Stroke(path=(view.origin, end), pen=Pen.NOT_YET)
    yield board.take(figure((end[0] + 1.5, end[1] - 4.0), "zero mark"))


def _openings(form: DomeForm, course: Course, view: View, board: Board) -> Iterator[Item]:
    low = form.dome.springing + course.height
    for one in form.dome.openings:
        here = one.sill < low + form.course_height and one.top > low
        x, y = view.point(*_spot(course.radius * 0.62, one.at))
        words = f"{one.name} {math.degrees(one.at):.0f}°"
        if not here:
            ends = _spot(course.radius, one.at), _spot(course.radius + form.dome.thickness, one.at)
            yield Stroke(path=tuple(view.point(*end) for end in ends), pen=Pen.HIDDEN)
        yield board.put(
            Text(at=(x, y + up), text=words, height=FIGURE, anchor="middle") for up in (-1.0, 3.0, -5.0, 7.0)
        )


def _crews(form: DomeForm, course: Course, view: View, board: Board) -> Iterator[Item]:
    """An arrow where each crew begins, along its way, and where it meets the next."""
    outer = course.radius + form.dome.thickness
    for part in course.crews:
        tail, head = (view.point(*_spot(outer + 0.1, part.start + turn)) for turn in (0.0, 0.35))
        yield Arrow(tail=tail, head=head, pen=Pen.FORCE)
        x, y = view.point(*_spot(outer + 0.32, part.start + 0.12))
        anchor = "start" if x > view.origin[0] else "end"
        words = f"{part.crew} begins, {math.degrees(part.start):.0f}°"
        yield board.put(
            Text(at=(x, y + up), text=words, height=FIGURE, anchor=anchor, strong=True)
            for up in (0.0, 3.5, -3.5, 7.0)
        )


def _radius(course: Course, view: View, board: Board, figures: Figures) -> Iterator[Item]:
    end = view.point(*_spot(course.radius, 0.75 * math.pi))
    yield Stroke(path=(view.origin, end), pen=Pen.DIMENSION)
    middle = (0.5 * (view.origin[0] + end[0]), 0.5 * (view.origin[1] + end[1]))
    yield board.put(
        figure((middle[0] + 1.5, middle[1] + up), f"r {figures.length(course.radius)}")
        for up in (-3.0, 1.0, -7.0)
    )


def _north(form: DomeForm, at: Point) -> Iterator[Item]:
    if form.dome.axis is None:
        yield figure((at[0] + 10.0, at[1] + 6.0), "north: not given", "end")
        return
    turn = on_paper(-form.dome.axis)
    ahead = (7.0 * math.cos(turn), 7.0 * math.sin(turn))
    yield Arrow(
        tail=(at[0] - ahead[0], at[1] - ahead[1]), head=(at[0] + ahead[0], at[1] + ahead[1]), pen=Pen.FORCE
    )
    yield Text(
        at=(at[0] + 1.4 * ahead[0], at[1] + 1.4 * ahead[1] - 1.0), text="N", height=3.0, anchor="middle",
        strong=True, ink=Ink.INK,
    )  # fmt: skip
