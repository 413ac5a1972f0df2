"""Boxes, arch forms, sheets and meeting lines as plain data."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, number

if TYPE_CHECKING:
    from bermwright.form.developed import (
        ArchForm,
        Box,
        CordTable,
        Forms,
        Meeting,
        Pattern,
        SheetPlan,
        SlipPlan,
    )


def forms_data(house: str, forms: Forms) -> dict[str, Any]:
    """Everything that `forms` says; outlines in metres."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "boxes": [_box(one) for one in forms.boxes],
        "sheets": [_sheet(one) for one in forms.sheets],
        "meetings": [_meeting(one) for one in forms.meetings],
        "cords": [_cords(one) for one in forms.cords],
        "slip_forms": [_slip(one) for one in forms.slips],
        "waiting": [
            {"what": one.what, "place": one.place, "cheapest_way": one.cheapest_way} for one in forms.waiting
        ],
    }


def _pattern(one: Pattern | None) -> dict[str, Any] | None:
    if one is None:
        return None
    wide, tall = one.size
    rising, falling = one.diagonals
    return {
        "name": one.name,
        "part": one.part,
        "count": one.count,
        "across": one.across,
        "up": one.up,
        "side": one.side,
        "note": one.note,
        "width_m": number(wide),
        "height_m": number(tall),
        "area_m2": number(one.area),
        "diagonals_m": [number(rising), number(falling)],
        "outline_m": [[number(x), number(y)] for x, y in one.outline],
        "lines_m": [
            {"word": word, "points": [[number(x), number(y)] for x, y in line]} for word, line in one.lines
        ],
        "ordinates_m": [[number(value) for value in row] for row in one.ordinates],
    }


def _box(one: Box) -> dict[str, Any]:
    return {
        "opening": one.name,
        "part": one.part,
        "curved_wall": one.curved,
        "width_m": number(one.width),
        "height_m": number(one.height),
        "depth_m": number(one.depth),
        "settlement_m": number(one.settlement),
        "taper_m": number(one.taper),
        "panels": [_pattern(panel) for panel in one.patterns],
        "wedge": _pattern(one.wedge),
        "wedge_pack_m": number(one.pack),
        "arch": None if one.arch is None else _arch(one.arch),
        "eyebrow": _pattern(one.eyebrow),
        "eyebrow_meets": [
            {"level_m": number(level), "beside_deg": number(math.degrees(turn))} for level, turn in one.meets
        ],
    }


def _arch(one: ArchForm) -> dict[str, Any]:
    return {
        "face_radius_m": number(one.radius),
        "faces": one.faces,
        "slat_thickness_m": number(one.slat_thickness),
        "slat_pitch_m": number(one.slat_width),
        "slats": [
            {"number": slat.number, "from_m": number(slat.start), "length_m": number(slat.length)}
            for slat in one.slats
        ],
        "face": _pattern(one.pattern),
    }


def _sheet(one: SheetPlan) -> dict[str, Any]:
    return {
        "part": one.part,
        "way": one.way,
        "strips": one.strips,
        "strip_length_m": number(one.strip_length),
        "strip_width_m": number(one.strip_width),
        "covered_m2": number(one.net_area),
        "cut_m2": number(one.cut_area),
        "seams_m": number(one.seams),
        "strip_mass_kg": None if one.mass is None else number(one.mass),
        "people": one.people,
        "longer_than_roll": one.too_long,
        "mass_kg": None if one.whole_mass is None else number(one.whole_mass),
        "edge_longer": number(one.excess),
        "pattern": _pattern(one.pattern),
        "cap": _pattern(one.cap),
    }


def _meeting(one: Meeting) -> dict[str, Any]:
    return {
        "name": one.name,
        "part": one.part,
        "end": _pattern(one.end),
        "hole": _pattern(one.hole),
        "hip": _pattern(one.hip),
        "hip_left": _pattern(one.hip_left),
        "no_hip": one.no_hip,
        "meets": [
            {"level_m": number(level), "beside_deg": number(math.degrees(turn))} for level, turn in one.levels
        ],
    }


def _slip(one: SlipPlan) -> dict[str, Any]:
    return {
        "name": one.name,
        "part": one.part,
        "filling": str(one.filling),
        "wall_thickness_m": number(one.thickness),
        "lift_m": number(one.lift),
        "grip_m": number(one.grip),
        "panel_height_m": number(one.height),
        "panel_length_m": number(one.length),
        "boards_m": number(one.boards),
        "stud_m": [number(side) for side in one.stud],
        "stud_spacing_m": number(one.spacing),
        "studs_a_panel": one.studs,
        "ties_a_setting": one.ties,
        "lifts": one.lifts,
        "settings": one.settings,
        "boards_m2": number(one.area),
        "panel_mass_kg": None if one.mass is None else number(one.mass),
        "people": one.people,
        "pressure_Pa": number(one.pressure),
        "largest_lift_m": number(one.best_lift),
        "asked": [
            {"what": row.what, "demand_si": number(row.demand), "capacity_si": number(row.capacity),
             "share": number(row.share), "working": row.working}
            for row in one.asked
        ],
    }  # fmt: skip


def _cords(one: CordTable) -> dict[str, Any]:
    return {
        "part": one.part,
        "note": one.note,
        "rows": [
            {
                "along_m": number(along),
                "across_m": number(across),
                "over_springing_m": number(over),
                "cord_m": number(cord),
            }
            for along, across, over, cord in one.rows
        ],
    }
