"""A dome's courses, rods, crews and corrections as plain data."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.compass.chapter import NOT_KNOWN
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.form.dome import Closing, Correction, Course, DomeForm, PivotSetting


def compass_data(
    house: str, forms: Sequence[DomeForm], corrections: Sequence[Correction] = ()
) -> dict[str, Any]:
    """Everything that `compass` says."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "not_checked": list(NOT_KNOWN),
        "domes": [_dome(form) for form in forms],
        "measured": [_correction(one) for one in corrections],
    }


def _dome(form: DomeForm) -> dict[str, Any]:
    return {
        "dome": form.name,
        "span_m": number(form.dome.span),
        "rise_m": number(form.face.rise),
        "springing_m": number(form.dome.springing),
        "course_height_m": number(form.course_height),
        "step_limit_m": number(form.step_limit),
        "first_course_over_limit": form.first_over.number if form.first_over else None,
        "surface_m2": number(form.surface),
        "volume_m3": number(form.volume),
        "tube_m": None if form.tube is None else number(form.tube),
        "units": form.bricks,
        "course_of_lead": form.lead_course or None,
        "courses": [_course(form, one) for one in form.courses],
        "rods": [_rod(one) for one in form.settings],
        "closing": _closing(form.closing),
        "remarks": list(form.remarks),
    }


def _course(form: DomeForm, one: Course) -> dict[str, Any]:
    return {
        "course": one.number,
        "level_m": number(form.dome.springing + one.height),
        "height_m": number(one.height),
        "radius_m": number(one.radius),
        "step_in_m": number(one.step),
        "over_limit": one.over_limit,
        "tilt_deg": _degrees(one.tilt),
        "chain_m": number(one.chain),
        "chain_angle_deg": _degrees(one.chain_angle),
        "start_deg": _turn(one.start),
        "middle_line_m": number(one.length),
        "tube_m": None if one.tube is None else number(one.tube),
        "units": one.bricks,
        "joint_inside_m": None if one.joint is None else number(one.joint),
        "joint_outside_m": None if one.joint_outside is None else number(one.joint_outside),
        "bed_wedge_m": None if one.bed_wedge is None else number(one.bed_wedge),
        "pieces": [
            {
                "from_deg": _turn(piece.start),
                "to_deg": _turn(piece.end),
                "middle_line_m": number(piece.length),
                "whole_ring": piece.whole,
                "units": piece.bricks,
            }
            for piece in one.pieces
        ],
        "crews": [
            {
                "crew": part.crew,
                "from_deg": _turn(part.start),
                "meets_at_deg": _turn(part.end),
                "length_m": number(part.length),
                "hours": number(part.seconds / 3600.0),
            }
            for part in one.crews
        ],
    }


def _rod(one: PivotSetting) -> dict[str, Any]:
    return {
        "from_height_m": number(one.low),
        "to_height_m": number(one.high),
        "pivot_past_axis_m": number(one.offset),
        "pivot_height_m": number(one.height),
        "length_m": number(one.radius),
        "place": str(one.place),
        "refused": one.place.value == "in the wall",
        "clearance_m": number(one.clearance),
        "through_opening": one.door or None,
        "through_from_height_m": None if one.through_from is None else number(one.through_from),
        "through_to_height_m": None if one.through_door is None else number(one.through_door),
    }


def _closing(one: Closing) -> dict[str, Any]:
    return {
        "height_m": number(one.height),
        "hole_radius_m": number(one.radius),
        "gap_m": number(one.gap),
        "last_step_m": number(one.last_step),
    }


def _correction(one: Correction) -> dict[str, Any]:
    return {
        "course": one.course,
        "readings": len(one.readings),
        "mean_radius_m": number(one.fit.radius),
        "error_m": number(one.error),
        "shift_m": number(one.fit.shift),
        "shift_toward_deg": _turn(one.fit.toward),
        "oval_m": number(one.fit.oval),
        "least_roundness": number(float(one.roundness.share.min())),
        "flat": one.flat,
        "flattest_deg": _turn(one.flattest.direction),
        "bad_steps": [
            {"direction_deg": _turn(direction), "step_in_m": number(step)}
            for direction, step in one.bad_steps
        ],
        "goes_on": one.goes_on,
        "recovers": one.recovers,
        "on_the_drawing_at_course": one.back_at,
        "error_left_m": number(one.left),
        "ahead": [
            {
                "course": row.number,
                "radius_drawn_m": number(row.drawn),
                "radius_m": number(row.radius),
                "step_in_m": number(row.step),
                "chain_m": number(row.chain),
            }
            for row in one.ahead
        ],
    }


def _degrees(angle: float) -> float | None:
    return number(math.degrees(angle))


def _turn(angle: float) -> float | None:
    return number(math.degrees(angle) % 360.0)
