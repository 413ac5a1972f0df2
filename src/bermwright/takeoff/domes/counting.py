"""All quantities of one dome, as far as its shape and its courses say them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.form.dome.bodies import wall_of
from bermwright.form.solids import Kind
from bermwright.house.making.words import Laid
from bermwright.takeoff.bodies import Compared
from bermwright.takeoff.lines import count, line, measured, number, unknown
from bermwright.takeoff.nouns import Group, Quantities, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import DomeForm
    from bermwright.form.solids import VaultSolids

REMARKS = (
    "Courses end at the widest place of an opening, whole courses high; nothing is added for waste.",
    "Footing, floor, plaster, cover and the closing of the crown are not counted: the file describes none.",
    "Boxes, arch forms and the sheet over it stand, with their sizes, in `bermwright forms`.",
)
NOT_TIMED = ("filling, tamping and lifting beyond laying: time the first course", "boxes and forms")
NO_LENGTH = "the length of a brick or bag is not given (dome.unit_length)"
NO_CREW = "no crew says how long a metre takes it (dome.crew)"


def dome_quantities(form: DomeForm) -> Quantities:
    """Count everything of a dome, with the working of each number."""
    return Quantities(
        vault=form.name,
        rows=tuple(_rows(form)),
        pieces=(),
        lifts=(),
        costs=(),
        totals=(),
        not_priced=(),
        not_timed=NOT_TIMED,
        remarks=REMARKS,
    )


def dome_compared(form: DomeForm, solids: VaultSolids) -> tuple[Compared, ...]:
    """The courses of the take-off beside their bodies."""
    layer = solids.layer(Kind.COURSE)
    courses = () if layer is None else layer.solids
    return (
        Compared(
            name="courses, volume",
            unit="m3",
            taken_off=wall_of(form).volume,
            bodies=sum(one.counted.volume for one in courses if one.counted),
            true=sum(one.total for one in courses),
            why=next((one.counted.why for one in courses if one.counted and one.counted.why), ""),
        ),
    )


def _rows(form: DomeForm) -> Iterator[Quantity]:
    yield _courses(form)
    yield _length(form)
    yield _pieces(form)
    yield _volume(form)
    yield _face(form)
    yield from _hours(form)


def _courses(form: DomeForm) -> Quantity:
    laid = "one over the other" if form.dome.laid is Laid.LEVEL else "along the face"
    step = line(
        f"Whole courses {laid} under the crown",
        "n",
        "⌊h/c⌋",
        f"c = {number(form.course_height, 'mm')}, {number(form.closing.gap, 'mm')} left under the crown",
        result=Shown(len(form.courses), "", 0),
    )
    return count("courses", Group.DOME, len(form.courses), working=(step,))


def _length(form: DomeForm) -> Quantity:
    length = sum(course.length for course in form.courses)
    step = line(
        "Middle lines of all courses, openings taken out",
        "l",
        "Σ l_k",
        f"{number(form.courses[0].length, 'm', 2)} + … + {number(form.courses[-1].length, 'm', 2)}",
        result=Shown(length, "m", 1),
    )
    return measured("courses, middle line", Group.DOME, Shown(length, "m", 1), working=(step,))


def _pieces(form: DomeForm) -> Quantity:
    """Tube with its folded ends, or whole bricks or bags."""
    unit = str(form.dome.unit)
    if form.dome.unit.runs_on:
        tube = form.tube or 0.0
        step = line(
            "Every course with what is folded under at its ends",
            "l",
            "Σ (l_k + ends)",
            "",
            result=Shown(tube, "m", 1),
        )
        return measured(unit, Group.DOME, Shown(tube, "m", 1), working=(step,))
    if form.bricks is None:
        return unknown(unit, Group.DOME, "", note=NO_LENGTH)
    step = line(
        "Whole ones in every piece of every course, by its inner edge",
        "n",
        "Σ ⌊l/(b + j)⌋",
        "",
        result=Shown(form.bricks, "", 0),
    )
    return count(unit, Group.DOME, form.bricks, working=(step,))


def _volume(form: DomeForm) -> Quantity:
    volume = wall_of(form).volume
    step = line(
        "Section of every course times the way of its middle, openings taken out",
        "V",
        "Σ A·(2π·r − w)",
        f"{len(form.courses)} courses, {number(form.dome.thickness, 'mm')} wide; w: what openings take of "
        "their middle line",
        result=Shown(volume, "m3", 2),
    )
    note = "as laid, joints in it" if form.dome.laid is Laid.TILTED else "as it lies after tamping"
    return measured("courses, volume", Group.DOME, Shown(volume, "m3", 2), working=(step,), note=note)


def _face(form: DomeForm) -> Quantity:
    step = line(
        "The drawn inner face, openings not taken out",
        "A",
        "2π·∫ r ds",
        "",
        result=Shown(form.surface, "m2", 1),
    )
    return measured("inner face, area", Group.DOME, Shown(form.surface, "m2", 1), working=(step,))


def _hours(form: DomeForm) -> Iterator[Quantity]:
    """What each crew lays, by the time that the file says for a metre."""
    if not form.dome.crews:
        yield unknown("laying the courses", Group.WORK, "ph", note=NO_CREW)
    for crew in form.dome.crews:
        parts = [part for course in form.courses for part in course.crews if part.crew == crew.name]
        hours = sum(part.seconds for part in parts)
        metres = sum(part.length for part in parts)
        step = line(
            "Metres of course that it lays, by its own time for one",
            "h",
            "l·t",
            f"{number(metres, 'm', 1)}·{number(crew.metre_takes / 60.0, '', 0)} min",
            result=Shown(hours, "h", 1),
        )
        yield measured(
            f"laying, {crew.name}",
            Group.WORK,
            Shown(hours, "h", 1),
            working=(step,),
            note="hours of the crew as a whole, not of each person in it",
        )
