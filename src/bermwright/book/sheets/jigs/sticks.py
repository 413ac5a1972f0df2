"""Gauge stick with the levels and courses of the walls, and the water level with its staffs."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Dimension, Item, Pen, Sheet, Stroke, Text
from bermwright.book.sheets.jigs.common import WIDTH, box, scale_for, tool_sheet
from bermwright.book.sheets.paper import Figures, figure, note
from bermwright.book.sheets.setout.marks import spread
from bermwright.data.jigs import HOSE, HOSE_SPARE, STAFF, STICK

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

APART = 4.2
MOST_NAMED = 40


def gauge_stick(out: SetOut, figures: Figures) -> Sheet | None:
    """A stick that stands on the footing; None where no wall says where it begins."""
    foot = next((strip.wall_bottom for strip in out.strips if strip.wall_bottom is not None), None)
    if foot is None:
        return None
    top = out.form.springing
    scale = scale_for(top - foot + 0.1, 0.2, (WIDTH - 8.0, 60.0))
    factor = 1000.0 / scale
    marks = [(row.level - foot, row.words) for row in out.heights.rows if foot <= row.level <= top + 1e-9]
    items = list(_stick(marks, out.settings.course, top - foot, factor, figures))
    notes = [
        f"Batten {figures.length(STICK.value)} wide, straight, {figures.length(top - foot + 0.1)} long.",
        "Its foot stands on the footing; numbers count from the foot.",
    ]
    if out.settings.course is None:
        notes.append("Courses are not marked: setting_out.course is not given. Measure ten as laid.")
    else:
        notes.append(_courses(out.settings.course, top - foot, figures))
    return tool_sheet("Gauge stick", items, height=74.0, scale=scale, notes=tuple(notes), origin=(2.0, 26.0))


def _courses(course: float, reach: float, figures: Figures) -> str:
    count = reach / course
    whole = math.floor(count + 1e-9)
    rest, most = reach - whole * course, max(round(count), 1)
    if rest < 0.002:
        return f"{whole} courses of {figures.length(course)} end at the springing."
    return (
        f"{whole} courses of {figures.length(course)} leave {figures.length(rest)} to the springing: "
        f"spread it over the joints, {figures.length(reach / most)} each with {most} courses."
    )


def _stick(
    marks: list[tuple[float, str]], course: float | None, reach: float, factor: float, figures: Figures
) -> Iterator[Item]:
    x0, y0, wide = 2.0, 26.0, STICK.value * factor
    yield box(x0, y0, (reach + 0.1) * factor, max(wide, 4.0))
    tall = max(wide, 4.0)
    if course is not None:
        for number in range(1, min(math.floor(reach / course + 1e-9), MOST_NAMED) + 1):
            x = x0 + number * course * factor
            yield Stroke(path=((x, y0), (x, y0 + 0.5 * tall)), pen=Pen.SEEN)
            yield Text(at=(x, y0 - 3.2), text=str(number), height=1.9, anchor="middle", halo=False)
            yield Text(
                at=(x + 0.9, y0 - 14.5), text=figures.length(number * course), height=2.2, angle=0.5 * math.pi
            )
    order = sorted(set(marks))
    places = spread([x0 + at * factor for at, _ in order], APART)
    for (at, words), place in zip(order, places, strict=True):
        x = x0 + at * factor
        yield Stroke(path=((x, y0), (x, y0 + tall)), pen=Pen.CUT)
        yield Stroke(path=((x, y0 + tall), (x, y0 + tall + 2.0), (place, y0 + tall + 6.0)), pen=Pen.DIMENSION)
        yield Text(
            at=(place + 0.9, y0 + tall + 7.0),
            text=f"{figures.length(at)}",
            height=2.3,
            angle=0.5 * math.pi,
            strong=True,
        )
        yield Text(at=(place + 3.6, y0 + tall + 7.0), text=words, height=1.9, angle=math.radians(60.0))


def water_level(out: SetOut, figures: Figures) -> Sheet:
    """Hose and staffs, long enough for the farthest peg."""
    post = out.plan.peg("H").at
    far = max(math.dist(post, peg.at) for peg in out.plan.pegs)
    hose = 0.5 * math.ceil(2.0 * (far + HOSE_SPARE.value + 2.0 * STAFF.value))
    lowest = min(row.level for row in out.heights.rows)
    items = list(_level_items(figures, hose))
    return tool_sheet(
        "Water level",
        items,
        height=76.0,
        scale=20.0,
        origin=(20.0, 4.0),
        notes=(
            f"{figures.length(hose)} of clear hose, bore {figures.length(HOSE.value)}.",
            f"From post H to the farthest peg it is {figures.length(far)}.",
            "Fill it from a bucket in one go, tap the bubbles out, thumbs off, wait until it rests.",
            "Read the foot of the bow of the water at both ends.",
            "Both staffs are marked in millimetres from one end.",
            f"The mark stands {figures.level(out.heights.datum)} over the floor.",
            f"The deepest point lies {figures.length(out.heights.down(lowest))} under the mark.",
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
