"""The tables of a dome: courses, rods, openings, crews, bricks."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.form.dome import PivotPlace
from bermwright.house.making.words import DomeUnit, Laid

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import Course, CrewPart, DomeForm, Piece, PivotSetting


def course_table(form: DomeForm, system: str) -> Table:
    """What to set for every course; a star where the step-in is over the limit."""
    head = ["course", "level of bed", "radius", "step-in", "chain", "chain over level", "middle line"]
    last = {DomeUnit.TUBES: "tube with ends", DomeUnit.BAGS: "bags", DomeUnit.BRICKS: "bricks"}[
        form.dome.unit
    ]
    rows = tuple((*_course(form, one, system), _units(form, one, system)) for one in form.courses)
    words = "Radius: from the axis to the inner edge on the bed, level. Chain: from its hook."
    if form.dome.laid is Laid.LEVEL:
        words += f" *: steps in by more than {show(form.step_limit, 'mm', 0, system)}."
    total = form.tube if form.dome.unit.runs_on else form.bricks
    if total is not None:
        words += f" In all {_amount(form, total, system)} of {form.dome.unit}."
    return Table(head=(*head, last), rows=rows, strong=(2, 4), caption=words)


def _course(form: DomeForm, one: Course, system: str) -> tuple[str, ...]:
    step = "" if one.number == 1 else show(one.step, "mm", 0, system) + (" *" if one.over_limit else "")
    return (
        str(one.number),
        show(form.dome.springing + one.height, "level", 3, system),
        show(one.radius, "m", 3, system),
        step,
        show(one.chain, "m", 3, system),
        show(one.chain_angle, "deg", 1, system),
        show(one.length, "m", 2, system),
    )


def _units(form: DomeForm, one: Course, system: str) -> str:
    count = one.tube if form.dome.unit.runs_on else one.bricks
    return "not known" if count is None else _amount(form, count, system)


def _amount(form: DomeForm, count: float, system: str) -> str:
    return show(count, "m", 2, system) if form.dome.unit.runs_on else f"{count:.0f}"


def pivot_table(form: DomeForm, system: str) -> Table:
    """Every rod: from where to where it draws, its pivot and its length."""
    return Table(
        head=("from level", "to level", "pivot past the axis", "pivot level", "length", "where the pivot is"),
        rows=tuple(_rod(form, one, system) for one in form.settings),
        align="rrrrrl",
        caption="Past the axis: on the other side of it than the wall that is drawn.",
    )


def _rod(form: DomeForm, one: PivotSetting, system: str) -> tuple[str, ...]:
    base = form.dome.springing
    length = "refused" if one.place is PivotPlace.WALL else show(one.radius, "m", 3, system)
    return (
        show(base + one.low, "level", 2, system),
        show(base + one.high, "level", 2, system),
        show(one.offset, "m", 3, system),
        show(base + one.height, "level", 3, system),
        length,
        _where(form, one, system),
    )


def _where(form: DomeForm, one: PivotSetting, system: str) -> str:
    if one.place is not PivotPlace.OUTSIDE or one.through_door is None:
        return str(one.place)
    if not one.door:
        return f"{one.place}: no opening lets it through; take the table"
    low, high = (
        show(form.dome.springing + height, "level", 2, system)
        for height in (one.through_from or 0.0, one.through_door)
    )
    courses = [course.height for course in form.courses if course.height >= one.low]
    from_low = "" if (one.through_from or 0.0) <= min(courses, default=0.0) else f"from {low} "
    return f"{one.place}, in line with {plain(one.door)}: through it {from_low}up to {high}"


def degrees(direction: float) -> str:
    """A direction from the zero mark.

    >>> degrees(math.radians(370.4))
    '10.4°'
    """
    return f"{round(math.degrees(direction) % 360.0, 1) % 360.0:.1f}°"


def opening_table(form: DomeForm, system: str) -> Iterator[Block]:
    """The pieces of every course that an opening interrupts."""
    rows = tuple(
        (str(one.number), str(number), *_piece(piece, system))
        for one in form.courses
        for number, piece in enumerate(one.pieces, 1)
        if not piece.whole
    )  # fmt: skip
    if not rows:
        return
    yield Heading(text="Courses that openings interrupt", level=2)
    count = rows if any(row[-1] for row in rows) else tuple(row[:-1] for row in rows)
    head = ("course", "piece", "from", "to", "middle line", "units")
    yield Table(
        head=head[: len(count[0])],
        rows=count,
        caption="Directions at the inner face, clockwise; the sides of an opening are parallel, so the "
        "middle "
        "line ends elsewhere.",
    )


def _piece(piece: Piece, system: str) -> tuple[str, ...]:
    units = "" if piece.bricks is None else str(piece.bricks)
    return degrees(piece.start), degrees(piece.end), show(piece.length, "m", 3, system), units


def crew_table(form: DomeForm, system: str) -> Iterator[Block]:
    """Who begins where, meets whom, and for how long."""
    crews = form.courses[0].crews
    if not crews:
        return
    yield Heading(text="Two crews at once" if len(crews) > 1 else "The crew", level=2)
    head = ["course"]
    for crew in crews:
        head += [f"{plain(crew.crew)}: from", "meets at", "length"]
    rows = tuple((str(one.number), *_shares(one.crews, system)) for one in form.courses)
    yield Table(head=(*head, "hours"), rows=rows, caption=_pace(form))
    yield Points(items=tuple(_together(form)))


def _shares(crews: tuple[CrewPart, ...], system: str) -> Iterator[str]:
    for crew in crews:
        yield degrees(crew.start)
        yield degrees(crew.end)
        yield show(crew.length, "m", 2, system)
    yield f"{max(crew.seconds for crew in crews) / 3600.0:.1f}"


def _pace(form: DomeForm) -> str:
    hours = sum(max(crew.seconds for crew in one.crews) for one in form.courses) / 3600.0
    paces = ", ".join(
        f"{plain(one.name)} {one.metre_takes / 60.0:.0f} min a metre" for one in form.dome.crews
    )
    return f"All go clockwise and come to their ends together. {paces}; {hours:.0f} h of laying in all."


def _together(form: DomeForm) -> Iterator[str]:
    yield "Nobody lays over a bed that the other crew has not tamped; wait where the two meet."
    if form.lead_course:
        yield (
            f"With equal halves the quicker crew would be a whole course ahead at course "
            f"{form.lead_course}: keep "
            "to the shares above, or wait."
        )
    yield "Measure the ring together after every course, from the same pipe with the same chain."


def brick_table(form: DomeForm, system: str) -> Iterator[Block]:
    """Bricks a course, joints inside and outside, and the wedge of the beds."""
    if form.dome.unit is not DomeUnit.BRICKS:
        return
    yield Heading(text=f"{str(form.dome.unit).capitalize()} by course", level=2)
    if form.bricks is None:
        yield Para("Not counted: the file does not say dome.unit_length.")
        return
    rows = tuple(
        (
            str(one.number),
            str(one.bricks),
            *_joints(one, system),
            _wedge(one, system),
            f"{math.degrees(one.tilt):.1f}°",
        )
        for one in form.courses
    )
    yield Table(
        head=("course", "units", "joint inside, top", "joint outside, bed", "bed wedge", "tilt of bed"),
        rows=rows,
        caption="Whole units, as many as fit at their upper inner edge, where the ring is narrowest. The "
        "joints share what is left: where they come out wider than you lay them, cut one brick; where none "
        "fits, cut wedges. Bed wedge: how much thicker the bed joint over the course is outside than inside.",
    )


def _joints(one: Course, system: str) -> tuple[str, str]:
    if one.joint is None or one.joint_outside is None:
        return "", ""
    return show(one.joint, "mm", 1, system), show(one.joint_outside, "mm", 1, system)


def _wedge(one: Course, system: str) -> str:
    return "" if one.bed_wedge is None else show(one.bed_wedge, "mm", 1, system)
