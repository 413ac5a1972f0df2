"""A form that climbs along a wall: a section through one lift, and one panel seen from outside."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Dimension, Hatch, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import Figures, figure, heading, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path
    from bermwright.form.developed import SlipPlan

SCALES = (5.0, 10.0, 20.0, 25.0, 50.0, 100.0)
WIDTH, TALLEST = 174.0, 90.0
SECTION = 62.0
"""Paper for the section, its figures not counted (mm)."""
FOOT, HEAD, LEFT, BETWEEN, RIGHT = 24.0, 20.0, 14.0, 40.0, 14.0
BELOW = 0.25
"""Of the lift below that is drawn (m)."""


def slip_sheet(slip: SlipPlan, *, system: str = "metric") -> Sheet:
    """Section at the left, panel at the right, each as large as it can be."""
    figures = Figures(system=system)
    across, tall = slip.thickness + 2.0 * (slip.boards + slip.stud[1]) + 0.12, slip.height + BELOW
    scale = _scale(across, tall, SECTION)
    beside = LEFT + 1e3 * across / scale + BETWEEN
    small = max(scale, _scale(slip.length, slip.height, WIDTH - beside - RIGHT))
    height = FOOT + 1e3 * tall / scale + HEAD
    return Sheet(
        width=WIDTH,
        height=height,
        items=(
            *_section(slip, 1e3 / scale, figures),
            *_panel(slip, beside, 1e3 / small, figures),
            heading((0.0, height - 4.5), f"Climbing form: {slip.name}"),
            figure((0.0, height - 10.5), f"section 1:{scale:.0f}; one panel from outside 1:{small:.0f}"),
            note((WIDTH, 1.5), NOT_REVIEWED, "end"),
        ),
        title=f"Climbing form {slip.name}",
        view=View(origin=(LEFT, FOOT), scale=scale),
        alt=f"Two panels {figures.length(slip.height)} high, {figures.length(slip.thickness)} apart, ties "
        f"under and over a lift of {figures.length(slip.lift)}.",
    )


def _scale(wide: float, tall: float, room: float) -> float:
    fits = (one for one in SCALES if 1e3 * wide / one <= room and 1e3 * tall / one <= TALLEST)
    return next(fits, SCALES[-1])


def _box(x: float, y: float, wide: float, tall: float) -> Path:
    return ((x, y), (x + wide, y), (x + wide, y + tall), (x, y + tall))


def _levels(slip: SlipPlan, factor: float) -> tuple[float, float, float, float]:
    """On the paper: foot of the panel, top of the lift below, top of the fill, top of the panel (mm)."""
    foot = FOOT + (BELOW - slip.grip) * factor
    joint = FOOT + BELOW * factor
    return foot, joint, joint + slip.lift * factor, foot + slip.height * factor


def _section(slip: SlipPlan, factor: float, figures: Figures) -> Iterator[Item]:
    foot, joint, fill, top = _levels(slip, factor)
    wide, board, stud = (size * factor for size in (slip.thickness, slip.boards, slip.stud[1]))
    x = LEFT + 0.06 * factor + board + stud
    yield Area(path=_box(x, FOOT, wide, joint - FOOT), wash=Wash.GREY, outline=Pen.CUT)
    yield Area(path=_box(x, joint, wide, fill - joint), wash=Wash.SOFT, outline=Pen.CUT)
    for left, outer in ((x - board, x - board - stud), (x + wide, x + wide + board)):
        yield Area(path=_box(left, foot, board, top - foot), wash=Wash.LAGGING, outline=Pen.CUT)
        yield Area(
            path=_box(outer, foot, stud, top - foot),
            wash=Wash.TIMBER,
            hatch=Hatch.TIMBER_ALONG,
            outline=Pen.CUT,
        )
    ends = x - board - stud - 0.05 * factor, x + wide + board + stud + 0.05 * factor
    for level in _ties(slip, factor):
        yield Stroke(path=((ends[0], level), (ends[1], level)), pen=Pen.CUT)
        for end in ends:
            yield Stroke(path=((end, level - 1.6), (end, level + 1.6)), pen=Pen.CUT)
    yield Dimension(start=(x, FOOT), end=(x + wide, FOOT), offset=-6.0, text=figures.length(slip.thickness))
    right = ends[1] + 1.0
    yield Dimension(start=(right, joint), end=(right, fill), offset=-6.0, text=figures.length(slip.lift))
    yield Dimension(start=(right, foot), end=(right, joint), offset=-15.0, text=figures.length(slip.grip))
    yield note((x + 0.5 * wide, 0.5 * (joint + fill) - 1.0), "this lift", "middle")
    yield note((x + 0.5 * wide, FOOT + 1.2), "below", "middle")


def _ties(slip: SlipPlan, factor: float) -> tuple[float, float]:
    _, joint, fill, _ = _levels(slip, factor)
    return joint - 0.5 * slip.grip * factor, fill + slip.clear * factor


def _panel(slip: SlipPlan, x: float, factor: float, figures: Figures) -> Iterator[Item]:
    foot, _, _, top = _levels(slip, factor)
    long, stud = slip.length * factor, slip.stud[0] * factor
    yield Area(path=_box(x, foot, long, top - foot), wash=Wash.LAGGING, outline=Pen.SEEN)
    for number in range(slip.studs):
        at = x + number * slip.spacing * factor
        yield Area(path=_box(at, foot, stud, top - foot), wash=Wash.TIMBER, outline=Pen.SEEN)
        for level in _ties(slip, factor):
            middle = at + 0.5 * stud
            yield Stroke(path=((middle - 1.2, level), (middle + 1.2, level)), pen=Pen.CUT)
            yield Stroke(path=((middle, level - 1.2), (middle, level + 1.2)), pen=Pen.CUT)
    first = x + 0.5 * stud
    yield Dimension(
        start=(first, foot),
        end=(first + slip.spacing * factor, foot),
        offset=-6.0,
        text=figures.length(slip.spacing),
    )
    yield Dimension(start=(x, foot), end=(x + long, foot), offset=-14.0, text=figures.length(slip.length))
    yield Dimension(
        start=(x + long, foot), end=(x + long, top), offset=-7.0, text=figures.length(slip.height)
    )
