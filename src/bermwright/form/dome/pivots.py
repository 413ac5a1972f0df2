"""The rods that draw a face made of arcs, and where their pivots come to lie."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.domes import PIVOT_CLEAR
from bermwright.form.dome.shapes import PivotPlace, PivotSetting
from bermwright.handbook.compass import pivot_clearance, rod_level_at_wall

if TYPE_CHECKING:
    from bermwright.form.dome.shapes import Face
    from bermwright.handbook.curves import Arc
    from bermwright.house.making.dome import Dome, DomeOpening

ON_AXIS = 1e-6


def settings_of(dome: Dome, face: Face) -> tuple[PivotSetting, ...]:
    """One setting for every arc, from the foot up; none where the face is no chain of arcs."""
    return tuple(_setting(dome, face, arc) for arc in reversed(face.arcs))


def _setting(dome: Dome, face: Face, arc: Arc) -> PivotSetting:
    low = float(arc.point(arc.end)[1])
    over_crown = arc.start > 0.5 * np.pi
    high = face.rise if over_crown else float(arc.point(arc.start)[1])
    offset = -arc.x
    wall = float(face.at(min(max(arc.z, 0.0), face.rise)))
    clearance = float(pivot_clearance(offset, wall, dome.thickness))
    place = _place(offset, arc.z, wall, clearance)
    door = max(dome.openings, key=lambda one: one.top, default=None) if place is PivotPlace.OUTSIDE else None
    return PivotSetting(
        low=max(low, 0.0),
        high=high,
        offset=offset,
        height=arc.z,
        radius=arc.radius,
        place=place,
        clearance=clearance,
        through_door=_reach(dome, face, arc, door) if place is PivotPlace.OUTSIDE else None,
        door="" if door is None else door.name,
    )


def _place(offset: float, height: float, wall: float, clearance: float) -> PivotPlace:
    if abs(offset) < ON_AXIS:
        return PivotPlace.AXIS if height >= 0.0 else PivotPlace.BELOW
    if clearance < PIVOT_CLEAR.value:
        return PivotPlace.WALL
    return PivotPlace.ROOM if abs(offset) < wall else PivotPlace.OUTSIDE


def _reach(dome: Dome, face: Face, arc: Arc, door: DomeOpening | None) -> float:
    """Height of the highest course that a rod from outside reaches through an opening on its way (m)."""
    if door is None:
        return 0.0
    head = door.top - dome.springing - arc.z
    heights = np.linspace(max(arc.z, 0.0), face.rise, 2001)
    through = rod_level_at_wall(heights - arc.z, face.at(heights), -arc.x, 0.5 * dome.span)
    return float(heights[through <= head][-1]) if bool(np.any(through <= head)) else 0.0
