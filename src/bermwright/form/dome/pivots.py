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
HEIGHTS = 2001
"""Heights at which a rod is looked at."""
NEAR = 1e-6
"""A sill that is higher than a rod by less does not hinder it (m)."""


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
    outside = place is PivotPlace.OUTSIDE
    ways = [(_through(dome, face, arc, one), one.name) for one in dome.openings if outside]
    through, door = max(ways, key=lambda way: way[0][1] - way[0][0], default=((0.0, 0.0), ""))
    return PivotSetting(
        low=max(low, 0.0),
        high=high,
        offset=offset,
        height=arc.z,
        radius=arc.radius,
        place=place,
        clearance=clearance,
        through_from=through[0] if outside else None,
        through_door=through[1] if outside else None,
        door=door if outside and through[1] > through[0] else "",
    )


def _place(offset: float, height: float, wall: float, clearance: float) -> PivotPlace:
    if abs(offset) < ON_AXIS:
        return PivotPlace.AXIS if height >= 0.0 else PivotPlace.BELOW
    if clearance < PIVOT_CLEAR.value:
        return PivotPlace.WALL
    return PivotPlace.ROOM if abs(offset) < wall else PivotPlace.OUTSIDE


def _through(dome: Dome, face: Face, arc: Arc, one: DomeOpening) -> tuple[float, float]:
    """Heights of the lowest and highest course that a rod from outside reaches through an opening (m)."""
    sill, head = one.sill - dome.springing, one.top - dome.springing
    away = -arc.x
    heights = np.linspace(max(arc.z, 0.0), face.rise, HEIGHTS)
    # A rod rises inwards: it strikes the outer edge of the sill and the inner edge of the head first.
    edges = (float(face.at(max(sill, 0.0))) + dome.thickness, float(face.at(max(head, 0.0))))
    over, under = (
        arc.z + rod_level_at_wall(heights - arc.z, face.at(heights), away, min(edge, away)) for edge in edges
    )
    passes = heights[(over >= sill - NEAR) & (under <= head)]
    return (float(passes[0]), float(passes[-1])) if passes.size else (0.0, 0.0)
