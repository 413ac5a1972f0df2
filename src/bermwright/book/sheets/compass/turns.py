"""All courses of a dome rolled out by direction: where openings are, where crews begin and meet."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import CAPTION, figure, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import Course, DomeForm

WIDTH, LEFT, RIGHT = 174.0, 12.0, 6.0
FOOT, HEAD = 14.0, 6.0
TALLEST = 170.0
ROW = 4.2
"""Height of a course where there is room (mm)."""
NUMBERS = 3.2
"""Two course numbers need so much paper (mm)."""
DEGREES = tuple(range(0, 361, 30))
TURN = 2.0 * math.pi


def turns_sheet(form: DomeForm) -> Sheet:
    """One row a course from below: full where it is laid, a full stroke where two crews meet."""
    row = min(ROW, TALLEST / len(form.courses))
    height = row * len(form.courses) + FOOT + HEAD
    items = [*_frame(height)]
    last = -math.inf
    for course in form.courses:
        low = FOOT + row * (course.number - 1)
        items += [*_course(course, low, row)]
        if low - last >= NUMBERS:
            last = low
            items.append(figure((LEFT - 2.0, low + 0.5 * row - 1.2), str(course.number), "end"))
    items += [figure((0.0, 1.5), "not to scale"), note((WIDTH, 1.5), NOT_REVIEWED, "end")]
    return Sheet(
        width=WIDTH, height=height, items=tuple(items), title=f"Courses of {form.name}, rolled out",
        alt=f"{len(form.courses)} courses over 360 degrees from the zero mark",
    )  # fmt: skip


def place(direction: float) -> float:
    """Where a direction lies across the sheet (mm)."""
    return LEFT + (WIDTH - LEFT - RIGHT) * direction / TURN


def _frame(height: float) -> Iterator[Item]:
    for degree in DEGREES:
        x = place(math.radians(degree))
        yield Stroke(path=((x, FOOT - 1.5), (x, height - HEAD)), pen=Pen.HATCH)
        yield Text(at=(x, FOOT - 5.0), text=f"{degree}°", height=CAPTION, anchor="middle")


def _course(course: Course, low: float, row: float) -> Iterator[Item]:
    high = low + 0.8 * row
    for piece in course.pieces:
        for start, end in _within_a_turn(piece.start, piece.end):
            box = ((place(start), low), (place(end), low), (place(end), high), (place(start), high))
            yield Area(path=box, wash=Wash.EARTH, outline=Pen.LAYER)
    for part in course.crews:
        x = place(part.start % TURN)
        yield Stroke(path=((x, low), (x, high)), pen=Pen.STOP)
    if not course.crews:
        x = place(course.pieces[0].start % TURN)
        yield Stroke(path=((x, low), (x, high)), pen=Pen.STOP)


def _within_a_turn(start: float, end: float) -> Iterator[tuple[float, float]]:
    """A stretch of a ring cut at the zero mark."""
    first = start % TURN
    last = first + min(end - start, TURN)
    yield first, min(last, TURN)
    if last > TURN:
        yield 0.0, last - TURN
