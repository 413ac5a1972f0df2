"""A dome's whole geometry, put together from its parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError
from bermwright.data.domes import STEP_LIMIT
from bermwright.form.dome.pivots import settings_of
from bermwright.form.dome.profile import DomeProblemError, inner_face
from bermwright.form.dome.rings import crews_of, middle_radius, next_start, pieces_of, tube_of
from bermwright.form.dome.shapes import Closing, Course, DomeForm, PivotPlace
from bermwright.handbook.compass import (
    brick_taper,
    chain_angle,
    chain_from_pivot,
    course_of_lead,
    dome_surface,
    dome_volume,
    level_courses,
    ring_joint,
    tilted_courses,
)
from bermwright.house.making.words import Laid

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome.shapes import CrewPart, Face, Piece, PivotSetting
    from bermwright.handbook.compass import Courses
    from bermwright.house.making.dome import Dome


class DomeUnknownError(BermwrightError):
    """The file leaves something open without which there are no courses."""

    def __init__(self, name: str, missing: tuple[str, ...]) -> None:
        self.missing = missing
        super().__init__(
            f'The courses of dome "{name}" are not known: the file does not say {", ".join(missing)}. '
            "`bermwright check` asks for each with the cheapest way to learn it."
        )


def missing_for_dome(dome: Dome) -> tuple[str, ...]:
    """What the courses need and the file does not say, as plain paths."""
    return () if dome.course is not None else ("dome.course",)


def dome_form(dome: Dome) -> DomeForm:
    """Everything geometric of one dome; refuses what cannot be built as it is described."""
    if dome.course is None:
        raise DomeUnknownError(dome.name, missing_for_dome(dome))
    face = inner_face(dome)
    laid = level_courses if dome.laid is Laid.LEVEL else tilted_courses
    rows = laid(face.height, face.radius, dome.course)
    limit = STEP_LIMIT.value if dome.step_limit is None else dome.step_limit
    closing = _closing(dome, face, rows, dome.course)
    courses = tuple(_courses(dome, rows, dome.course, closing, limit))
    settings = settings_of(dome, face)
    return DomeForm(
        dome=dome,
        face=face,
        course_height=dome.course,
        courses=courses,
        settings=settings,
        closing=closing,
        surface=dome_surface(face.height, face.radius),
        volume=dome_volume(face.height, face.radius),
        step_limit=limit,
        lead_course=_lead(dome, courses),
        remarks=tuple(_remarks(settings)),
    )


def _courses(dome: Dome, rows: Courses, course: float, closing: Closing, limit: float) -> Iterator[Course]:
    start = dome.start
    crews: tuple[CrewPart, ...] = ()
    under = 0.0
    radii = rows.radius.tolist()
    tops = [*radii[1:], closing.radius] if dome.laid is Laid.TILTED else radii
    beds = zip(*(part.tolist() for part in rows), strict=True)
    tilts = [*rows.tilt.tolist(), float(rows.tilt[-1])]
    for number, (height, radius, step, tilt) in enumerate(beds, 1):
        middle = middle_radius(dome, radius, tilt)
        pieces = pieces_of(dome, height, course, (radius, middle, tops[number - 1]), start)
        crews, under = crews_of(dome, pieces, crews, under), middle
        joint, outside = _joints(dome, pieces, (radius, tops[number - 1]), tilt)
        yield Course(
            number=number,
            height=height,
            radius=radius,
            step=step,
            tilt=tilt,
            chain=_chain(dome, number, height, radius),
            chain_angle=float(chain_angle(height, radius, dome.pivot_height)),
            start=start,
            middle=middle,
            pieces=pieces,
            tube=tube_of(dome, pieces) if dome.unit.runs_on else None,
            joint=joint,
            joint_outside=outside,
            bed_wedge=dome.thickness * (tilts[number] - tilt) if dome.laid is Laid.TILTED else None,
            crews=crews,
            over_limit=dome.laid is Laid.LEVEL and step > limit,
        )
        start = next_start(start, middle)


def _chain(dome: Dome, number: int, height: float, radius: float) -> float:
    length = float(chain_from_pivot(height, radius, dome.pivot_height)) - dome.hook
    if length <= 0.0:
        raise DomeProblemError(
            dome.name, "hook", f"takes {1e3 * dome.hook:.0f} mm: the chain of course {number} would be "
            f"{1e3 * length:.0f} mm long, shorter than nothing.", "Hook the chain nearer to the axis.",
        )  # fmt: skip
    return length


def _joints(
    dome: Dome, pieces: tuple[Piece, ...], radii: tuple[float, float], tilt: float
) -> tuple[float | None, float | None]:
    """Narrowest and widest joint of the longest piece: inside at the top of a brick, outside on its bed."""
    radius, top = radii
    piece = max(pieces, key=lambda one: one.length)
    if not piece.bricks or dome.unit_length is None:
        return None, None
    turn = min(piece.end - piece.start, 2.0 * np.pi)
    narrow, on_bed = (
        float(ring_joint(inner * turn, dome.unit_length, piece.bricks)) for inner in (top, radius)
    )
    whole = piece.bricks * 2.0 * np.pi / turn
    return narrow, on_bed + float(brick_taper(dome.thickness, tilt, whole))


def _closing(dome: Dome, face: Face, rows: Courses, course: float) -> Closing:
    if dome.laid is Laid.LEVEL:
        top = float(rows.height[-1]) + course
        radius = float(face.at(top))
    else:
        along = course * rows.height.size
        top, radius = (float(np.interp(along, face.along, part)) for part in (face.height, face.radius))
    return Closing(height=top, radius=radius, gap=face.rise - top, last_step=float(rows.radius[-1]) - radius)


def _lead(dome: Dome, courses: tuple[Course, ...]) -> int:
    if len(dome.crews) != 2:  # noqa: PLR2004  (two crews working opposite each other)
        return 0
    rates = sorted(1.0 / crew.metre_takes for crew in dome.crews)
    return course_of_lead([0.5 * course.length for course in courses], rates[1], rates[0], 1)


def _remarks(settings: tuple[PivotSetting, ...]) -> Iterator[str]:
    for one in settings:
        if one.place is PivotPlace.WALL:
            yield (
                f"The rod of {one.radius:.3f} m is refused: its pivot, {one.offset:.3f} m past the axis, "
                "lies in the wall or touches it. Set every course with the centre chain and the table."
            )
    if not settings:
        yield "This face is no chain of arcs: no rod of one length draws it. Set every course by the table."
