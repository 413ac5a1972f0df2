"""Gauge stick with the levels and courses of the walls, and the water level with its staffs."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from bermwright.base.drawing import Dimension, Item, Pen, Sheet, Stroke, Text
from bermwright.base.lettering import text_width
from bermwright.book.sheets.jigs.common import WIDTH, box, scale_for, told, tool_sheet
from bermwright.book.sheets.paper import Figures, figure, note
from bermwright.book.sheets.setout.marks import spread
from bermwright.data.jigs import HOSE, HOSE_SPARE, STAFF, STICK

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

APART = 4.2
NAMED = 3.4
"""Two named courses need so much room (mm)."""
LEFT, TOP = 2.0, 7.0
"""Paper left of the stick; from the stick to the figures over it (mm)."""
MARK, WORDS, COURSE = 2.3, 1.9, 2.2
"""Heights of lettering (mm)."""


def gauge_stick(out: SetOut, figures: Figures) -> Sheet | None:
    """A stick that stands on the footing; None where no wall says where it begins."""
    foot = next((strip.wall_bottom for strip in out.strips if strip.wall_bottom is not None), None)
    if foot is None:
        return None
    reach, course = out.form.springing - foot, out.settings.course
    marks = {
        (row.level - foot, row.words) for row in out.heights.rows if -1e-9 <= row.level - foot <= reach + 1e-9
    }
    said = (
        "Courses are not marked: setting_out.course is not given. Measure ten as laid."
        if course is None
        else _courses(course, reach, figures)
    )
    notes = ("Its foot stands on the footing; numbers count from the foot.", said)
    return stick_sheet(sorted(marks), _courses_to(reach, course), reach, figures, notes)


def stick_sheet(
    marks: list[tuple[float, str]],
    courses: list[float],
    reach: float,
    figures: Figures,
    notes: tuple[str, ...],
) -> Sheet:
    """A stick with levels over it and the upper edges of courses under it, all counted from its foot."""
    scale = scale_for(reach + 0.1, 0.2, (WIDTH - 8.0, 60.0))
    factor = 1000.0 / scale
    under = 6.0 + max((text_width(figures.length(at), COURSE) for at in courses), default=0.0)
    over = max((_wide(at, words, figures) for at, words in marks), default=0.0)
    items = [*_stick(reach, under, factor), *_marks(marks, under, factor, figures)]
    items += _course_marks(courses, under, factor, figures)
    return tool_sheet(
        "Gauge stick",
        items,
        height=under + _tall(factor) + TOP + over + 2.0,
        scale=scale,
        notes=(
            f"Batten {told(STICK.value, figures)} wide, straight, {told(reach + 0.1, figures)} long.",
            *notes,
        ),
        origin=(LEFT, under),
    )


def _courses_to(reach: float, course: float | None) -> list[float]:
    """Upper edges of the courses up to the springing (m over the foot)."""
    if course is None:
        return []
    return [number * course for number in range(1, math.floor(reach / course + 1e-9) + 1)]


def _courses(course: float, reach: float, figures: Figures) -> str:
    count = reach / course
    whole = math.floor(count + 1e-9)
    rest, most = reach - whole * course, max(round(count), 1)
    if rest < 0.002:
        return f"{whole} courses of {told(course, figures)} end at the springing."
    return (
        f"{whole} courses of {told(course, figures)} leave {told(rest, figures)} to the springing: "
        f"spread it over the joints, {told(reach / most, figures)} each with {most} courses."
    )


def _tall(factor: float) -> float:
    """Height of the stick as drawn (mm)."""
    return max(STICK.value * factor, 4.0)


def _wide(at: float, words: str, figures: Figures) -> float:
    """Room of a mark's figure with its words behind it (mm)."""
    return text_width(figures.length(at), MARK, strong=True) + 2.0 + text_width(words, WORDS)


def _stick(reach: float, y: float, factor: float) -> Iterator[Item]:
    yield box(LEFT, y, (reach + 0.1) * factor, _tall(factor))


def _course_marks(courses: list[float], y: float, factor: float, figures: Figures) -> Iterator[Item]:
    """Every course a line; as many named as can be read."""
    apart = min((later - one for one, later in pairwise((0.0, *courses))), default=1.0)
    every = max(1, math.ceil(NAMED / (apart * factor)))
    for number, at in enumerate(courses, start=1):
        x = LEFT + at * factor
        yield Stroke(path=((x, y), (x, y + 0.5 * _tall(factor))), pen=Pen.SEEN)
        if number % every:
            continue
        yield Text(at=(x, y - 3.2), text=str(number), height=WORDS, anchor="middle", halo=False)
        said = figures.length(at)
        yield Text(
            at=(x + 0.9, y - 4.6 - text_width(said, COURSE)), text=said, height=COURSE, angle=0.5 * math.pi
        )


def _marks(marks: list[tuple[float, str]], y: float, factor: float, figures: Figures) -> Iterator[Item]:
    """Levels over the stick: figure and words in one upright line."""
    top = y + _tall(factor)
    places = spread([LEFT + at * factor for at, _ in marks], APART)
    for (at, words), place in zip(marks, places, strict=True):
        x, said = LEFT + at * factor, figures.length(at)
        yield Stroke(path=((x, y), (x, top)), pen=Pen.CUT)
        yield Stroke(path=((x, top), (x, top + 2.0), (place, top + 6.0)), pen=Pen.DIMENSION)
        for text, up, height, strong in (
            (said, 0.0, MARK, True),
            (words, text_width(said, MARK, strong=True) + 2.0, WORDS, False),
        ):
            yield Text(
                at=(place + 0.9, top + TOP + up), text=text, height=height, angle=0.5 * math.pi, strong=strong
            )


def water_level(out: SetOut, figures: Figures) -> Sheet:
    """Hose and staffs, long enough for the farthest peg."""
    post = out.plan.peg("H").at
    far = max(math.dist(post, peg.at) for peg in out.plan.pegs)
    lowest = min(row.level for row in out.heights.rows)
    return level_sheet(
        far,
        figures,
        f"From post H to the farthest peg it is {told(far, figures)}.",
        f"The mark stands {figures.level(out.heights.datum)} over the floor.",
        f"The deepest point lies {told(out.heights.down(lowest), figures)} under the mark.",
    )


def level_sheet(far: float, figures: Figures, *notes: str) -> Sheet:
    """Hose and staffs that reach from a mark to a place `far` away."""
    hose = 0.5 * math.ceil(2.0 * (far + HOSE_SPARE.value + 2.0 * STAFF.value))
    fine = "millimetres" if figures.system == "metric" else "sixteenths of an inch"
    return tool_sheet(
        "Water level",
        _level_items(figures, hose),
        height=76.0,
        scale=20.0,
        origin=(20.0, 4.0),
        notes=(
            f"{told(hose, figures)} of clear hose, bore {told(HOSE.value, figures)}.",
            *notes,
            "Fill it from a bucket in one go, tap the bubbles out, thumbs off, wait until it rests.",
            "Read the foot of the bow of the water at both ends.",
            f"Both staffs are marked in {fine} from one end.",
            "Sun on half the hose, a kink or a bubble gives a wrong height: read, swap the ends, read again.",
        ),
    )


def _level_items(figures: Figures, hose: float) -> Iterator[Item]:
    tall = 1000.0 * STAFF.value / 20.0
    for x in (20.0, 150.0):
        yield box(x, 0.0, 3.0, tall)
        for step in range(1, 15):
            long = 2.0 if step % 5 == 0 else 1.0
            y = tall * step / 15.0
            yield Stroke(path=((x, y), (x + long, y)), pen=Pen.LAYER)
    path = [(24.0, 60.0), (24.0, 6.0)]
    path += [(24.0 + 125.0 * k / 24.0, 6.0 - 4.0 * math.sin(math.pi * k / 24.0)) for k in range(25)]
    path += [(149.0, 6.0), (149.0, 60.0)]
    yield Stroke(path=tuple(path), pen=Pen.CUT)
    yield Stroke(path=((23.0, 44.0), (26.0, 44.0)), pen=Pen.SEEN)
    yield Stroke(path=((24.0, 44.0), (149.0, 44.0)), pen=Pen.HIDDEN)
    yield note((86.0, 45.5), "water stands at one height", "middle")
    yield figure((86.0, 8.0), f"hose {figures.length(hose)}", "middle")
    yield Dimension(start=(20.0, 0.0), end=(20.0, tall), offset=6.0, text=figures.length(STAFF.value))
