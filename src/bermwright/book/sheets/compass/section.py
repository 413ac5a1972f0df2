"""A dome cut through its axis: every course, the chain, the pivots of rods, and where steps are too large."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.dimensions import dimension_text
from bermwright.base.drawing import (
    Arc,
    Area,
    Dimension,
    Hatch,
    Ink,
    Item,
    Pen,
    Point,
    Sheet,
    Stroke,
    Text,
    View,
    Wash,
)
from bermwright.base.lettering import text_width
from bermwright.base.units import show
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import (
    FIGURE,
    Board,
    Figures,
    boxes_of,
    figure,
    note,
    path_of,
)
from bermwright.form.dome import PivotPlace
from bermwright.house.making.words import DomeUnit, Laid

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bermwright.form.dome import Course, DomeForm, PivotSetting

    Line = tuple[Point, Point]


SCALES = (20.0, 25.0, 50.0, 100.0)
SIDE, FOOT, HEAD = 34.0, 22.0, 12.0
"""Paper beside, under and over the dome (mm)."""
TALL = 190.0
NUMBERS = 5.0
"""Two course numbers need so much paper (mm)."""
_CROSS = 1.6
POINTS = 160
"""Points at which a line is looked at where a figure may stand."""
SHARES = (0.55, 0.65, 0.45, 0.75, 0.35, 0.82, 0.28)
"""Places along a line for its figure."""
_HATCHES = {
    DomeUnit.TUBES: (Wash.EARTH, Hatch.NONE),
    DomeUnit.BAGS: (Wash.EARTH, Hatch.NONE),
    DomeUnit.BRICKS: (Wash.INSITU, Hatch.NONE),
}


def dome_section(form: DomeForm, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The section; courses as they are laid, the drawn inner face, chain, rods and limits."""
    wide = 0.5 * form.dome.span + form.dome.thickness
    tall = form.face.rise + 0.4 * form.dome.thickness
    fits = (
        one for one in SCALES if 2000.0 * wide / one + 2.0 * SIDE <= width and 1000.0 * tall / one <= TALL
    )
    scale = next(fits, SCALES[-1])
    view = View(origin=(0.5 * width, FOOT), scale=scale)
    height = 1000.0 * tall / scale + FOOT + HEAD
    figures = Figures(system=system, metres=True)
    board, lines = Board(), _lines(form, view)
    items = [
        *_courses(form, view),
        *_face(form, view),
        *_rise(form, view, board, lines, figures),
        *(item for one in form.settings for item in _rod(form, one, view, board, lines, figures)),
        *_chain(form, view, board, lines, figures),
        *_numbers(form, view, board, figures),
        *_limit(form, view, board, system),
        *_sizes(form, view, figures),
        figure((0.0, 1.5), f"1:{scale:.0f}"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title=f"Section of {form.name}",
        alt=f"{len(form.courses)} courses, {form.dome.span:.2f} m wide and {form.face.rise:.2f} m high",
        view=view,
    )


def course_box(form: DomeForm, course: Course, side: float) -> tuple[Point, ...]:
    """The cross-section of one course in metres, on the right (+1) or left (-1)."""
    inner = (course.radius, course.height)
    out = form.dome.thickness * np.array([math.cos(course.tilt), math.sin(course.tilt)])
    if form.dome.laid is Laid.LEVEL:
        up = np.array([0.0, form.course_height])
    else:
        up = form.course_height * np.array([-math.sin(course.tilt), math.cos(course.tilt)])
    corners = [np.array(inner), np.array(inner) + out, np.array(inner) + out + up, np.array(inner) + up]
    return tuple((side * float(x), float(z)) for x, z in corners)


def _courses(form: DomeForm, view: View) -> Iterator[Item]:
    wash, hatch = _HATCHES[form.dome.unit]
    for course in form.courses:
        for side in (1.0, -1.0):
            path = tuple(view.point(x, z) for x, z in course_box(form, course, side))
            yield Area(path=path, wash=wash, hatch=hatch, outline=Pen.SEEN)


def _face(form: DomeForm, view: View) -> Iterator[Item]:
    for side in (1.0, -1.0):
        yield Stroke(path=path_of(view, side * form.face.radius, form.face.height), pen=Pen.CUT)
    low, high = view.point(0.0, -0.15), view.point(0.0, form.face.rise + 0.1)
    yield Stroke(path=(low, high), pen=Pen.NOT_YET)
    reach = 0.5 * form.dome.span + form.dome.thickness
    yield Stroke(path=(view.point(-reach, 0.0), view.point(reach, 0.0)), pen=Pen.SEEN)


def _lines(form: DomeForm, view: View) -> list[Line]:
    """The lines on which no figure stands: chains, rods, the axis, and from where steps are too large."""
    pivot = view.point(0.0, form.dome.pivot_height)
    lines = [(pivot, _inner(view, course, -1.0)) for course in _shown(form)]
    lines += [_rod_line(form, one, view) for one in form.settings if _on_paper(one, view)]
    lines.append((view.point(0.0, 0.0), view.point(0.0, form.face.rise)))
    over = form.first_over
    if over is not None:
        lines.append((_inner(view, over, -1.0), _inner(view, over, 1.0)))
    return lines


def _inner(view: View, course: Course, side: float) -> Point:
    return view.point(side * course.radius, course.height)


def _shown(form: DomeForm) -> Iterator[Course]:
    """The courses whose chains are drawn."""
    return (form.courses[round(share * (len(form.courses) - 1))] for share in (0.15, 0.45, 0.72))


def _clear(texts: Iterable[Text], lines: Sequence[Line]) -> list[Text]:
    """The places for a label, those that no line crosses before the others."""
    return sorted(texts, key=lambda one: any(_crosses(one, line) for line in lines))


def _crosses(text: Text, line: Line) -> bool:
    (x, y), (x_too, y_too) = line
    share = np.linspace(0.0, 1.0, POINTS)
    across, up = x + share * (x_too - x), y + share * (y_too - y)
    return any(
        bool(np.any((across > left) & (across < right) & (up > low) & (up < high)))
        for left, low, right, high in boxes_of(text, 0.0)
    )


def _chain(
    form: DomeForm, view: View, board: Board, lines: Sequence[Line], figures: Figures
) -> Iterator[Item]:
    pivot = view.point(0.0, form.dome.pivot_height)
    yield from _cross(pivot)
    for course in _shown(form):
        line = (pivot, _inner(view, course, -1.0))
        yield Stroke(path=line, pen=Pen.DIMENSION)
        words = f"{course.number}: {figures.length(course.chain)}"
        # The table holds every chain: one whose length finds no room is drawn without it.
        yield from board.fit(_clear(_along(*line, words), [one for one in lines if one != line]))


def _along(start: Point, end: Point, text: str, shares: tuple[float, ...] = SHARES) -> Iterator[Text]:
    """Places for a length on its own line, read from the foot of the sheet."""
    turn = math.atan2(end[1] - start[1], end[0] - start[0])
    if abs(turn) > 0.5 * math.pi:
        turn -= math.copysign(math.pi, turn)
    for share in shares:
        x, y = (a + share * (b - a) for a, b in zip(start, end, strict=True))
        at = (x - 1.0 * math.sin(turn), y + 1.0 * math.cos(turn))
        yield Text(at=at, text=text, height=FIGURE, anchor="middle", angle=turn)


def _cross(at: Point) -> Iterator[Item]:
    x, y = at
    yield Stroke(path=((x - _CROSS, y), (x + _CROSS, y)), pen=Pen.TICK)
    yield Stroke(path=((x, y - _CROSS), (x, y + _CROSS)), pen=Pen.TICK)
    yield Arc(centre=at, radius=0.8 * _CROSS, start=0.0, end=2.0 * math.pi, pen=Pen.LAYER)


def _rod_line(form: DomeForm, one: PivotSetting, view: View) -> Line:
    return view.point(-one.offset, one.height), view.point(float(form.face.at(one.high)), one.high)


def _on_paper(one: PivotSetting, view: View) -> bool:
    """Whether the pivot of a rod lies on the sheet."""
    x, y = view.point(-one.offset, one.height)
    return 4.0 < x < 2.0 * view.origin[0] - 4.0 and y > FIGURE


def _rod(
    form: DomeForm, one: PivotSetting, view: View, board: Board, lines: Sequence[Line], figures: Figures
) -> Iterator[Item]:
    """A rod from its pivot to the top of the stretch that it draws, on the right side."""
    pivot, top = _rod_line(form, one, view)
    if not _on_paper(one, view):
        return
    refused = one.place is PivotPlace.WALL
    pen, ink = (Pen.STOP, Ink.RED) if refused else (Pen.HIDDEN, Ink.INK)
    yield Stroke(path=(pivot, top), pen=pen, ink=ink)
    yield from _cross(pivot)
    board.block((pivot[0] - 6.0, pivot[1] - 3.0), (pivot[0] + 12.0, pivot[1] + 5.0))
    words = f"R {figures.length(one.radius)}{' refused' if refused else ''}"
    others = [line for line in lines if line != (pivot, top)]
    places = _clear(_along(pivot, top, words, (0.8, 0.86, 0.72, 0.64, 0.5, 0.4, 0.3)), others)
    yield from (board.put(places),) if refused else board.fit(places)


def _numbers(form: DomeForm, view: View, board: Board, figures: Figures) -> Iterator[Item]:
    """Course numbers outside on the right, levels on the left, no nearer than they can be read."""
    last = -math.inf
    for course in form.courses:
        corner = course_box(form, course, 1.0)
        at = view.point(corner[1][0], 0.5 * (corner[1][1] + corner[2][1]))
        if at[1] - last < NUMBERS:
            continue
        last = at[1]
        yield board.take(figure((at[0] + 2.0, at[1] - 0.5 * FIGURE), str(course.number)))
        left = view.point(-corner[1][0], course.height)
        level = figures.level(form.dome.springing + course.height)
        text = figure((left[0] - 5.0, left[1] - 0.5 * FIGURE), level, "end")
        if board.free(text):
            yield Stroke(path=((left[0] - 1.0, left[1]), (left[0] - 4.0, left[1])), pen=Pen.DIMENSION)
            yield board.take(text)


def _limit(form: DomeForm, view: View, board: Board, system: str) -> Iterator[Item]:
    """From where every course steps in by more than the limit."""
    course = form.first_over
    if course is None:
        return
    reach = course.radius + form.dome.thickness
    start, end = view.point(-reach, course.height), view.point(reach, course.height)
    yield Stroke(path=(start, (end[0] + 10.0, end[1])), pen=Pen.STOP, ink=Ink.RED, layer="mark")
    places = ((end[0] + 11.0, end[1] - 1.0), (end[0] + 11.0, end[1] + 1.0), (end[0] + 11.0, end[1] - 4.0))
    limit = f"over {show(form.step_limit, 'mm', 0, system)}"
    room = 2.0 * view.origin[0] - end[0] - 12.0
    whole = f"{limit} a course"
    words = whole if text_width(whole, FIGURE, strong=True) < room else limit
    yield board.put(
        Text(at=at, text=words, height=FIGURE, anchor="start", strong=True, ink=Ink.RED) for at in places
    )


def _sizes(form: DomeForm, view: View, figures: Figures) -> Iterator[Item]:
    half = form.courses[0].radius
    left, right = view.point(-half, 0.0), view.point(half, 0.0)
    yield Dimension(start=left, end=right, offset=-(FOOT - 8.0), text=figures.length(2.0 * half))
    edge = view.point(half + form.dome.thickness, 0.0)
    yield Dimension(start=right, end=edge, offset=-(FOOT - 8.0), text=figures.length(form.dome.thickness))


def _rise(
    form: DomeForm, view: View, board: Board, lines: Sequence[Line], figures: Figures
) -> Iterator[Item]:
    """The height of the crown, right of the axis, where no chain runs."""
    foot, top = view.point(0.0, 0.0), view.point(0.0, form.face.rise)
    text = figures.length(form.face.rise)
    places = [
        Dimension(start=foot, end=top, offset=-6.0, text=text, shift=(along, 0.0))
        for along in (0.0, 6.0, -6.0, 12.0, -12.0, 18.0, -18.0)
    ]
    free = [one for one in places if not any(_crosses(dimension_text(one), line) for line in lines)]
    chosen = (free or places)[0]
    board.take(dimension_text(chosen))
    yield chosen
