"""Surveyed points in a table: name, east, north and height, or latitude and longitude."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.setout import SurveyPoint
from bermwright.formats.survey.columns import columns_of, lines_of
from bermwright.handbook.setout import local_metres

if TYPE_CHECKING:
    from bermwright.formats.survey.columns import Lines

HEAD = "name, x [m], y [m], z [m]   (x to the east, y to the north), or name, lat, lon, z [m]"
_NAME = ("name", "point", "no", "nr", "id")
_EAST = ("x", "east", "easting", "e")
_NORTH = ("y", "north", "northing", "n")
_HEIGHT = ("z", "height", "level", "elevation", "h")
_LATITUDE = ("lat", "latitude")
_LONGITUDE = ("lon", "long", "lng", "longitude")


def table_points(name: str, content: bytes) -> tuple[SurveyPoint, ...]:
    """Points of a CSV file."""
    lines = lines_of(name, content, head=HEAD)
    globe = lines.column(_LATITUDE) is not None or lines.column(_LONGITUDE) is not None
    wanted = (
        {"latitude": _LATITUDE, "longitude": _LONGITUDE, "height": _HEIGHT}
        if globe
        else {"x (east)": _EAST, "y (north)": _NORTH, "z (height)": _HEIGHT}
    )
    first, second, height = columns_of(lines, wanted, head=HEAD).values()
    points = [_point(lines, line, cells, (first, second, height), globe=globe) for line, cells in lines.rows]
    lines.refuse()
    return from_globe(tuple(points)) if globe else tuple(points)


def _point(
    lines: Lines, line: int, cells: tuple[str, ...], columns: tuple[int, int, int], *, globe: bool
) -> SurveyPoint:
    at = lines.column(_NAME)
    name = cells[at] if at is not None and at < len(cells) else ""
    if globe:
        north = lines.degrees(line, cells, columns[0], "latitude", 90.0)
        east = lines.degrees(line, cells, columns[1], "longitude", 180.0)
    else:
        east = lines.length(line, cells, columns[0], "x")
        north = lines.length(line, cells, columns[1], "y")
    height = lines.length(line, cells, columns[2], "height")
    return SurveyPoint(name=name, east=east, north=north, height=height, line=line)


def from_globe(points: tuple[SurveyPoint, ...]) -> tuple[SurveyPoint, ...]:
    """Points whose east and north are longitude and latitude in degrees, in metres from the first."""
    if not points:
        return ()
    origin = points[0]
    places = local_metres(
        np.radians([point.north for point in points]),
        np.radians([point.east for point in points]),
        from_latitude=math.radians(origin.north),
        from_longitude=math.radians(origin.east),
    )
    return tuple(
        SurveyPoint(
            name=point.name, east=float(east), north=float(north), height=point.height, line=point.line
        )
        for point, (east, north) in zip(points, places, strict=True)
    )
