"""Surveyed points in a table: name, east, north and height, or latitude and longitude."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.setout import SetOutError, SurveyPoint
from bermwright.formats.survey.columns import columns_of, lines_of
from bermwright.handbook.setout import local_metres

if TYPE_CHECKING:
    from bermwright.formats.survey.columns import Lines

HEAD = "name, x [m], y [m], z [m]   (x to the east, y to the north), or name, lat, lon, z [m]"
_NAME = ("name", "point", "label", "station", "pt", "no", "nr", "id")
_EAST = ("x", "east", "easting", "e")
_NORTH = ("y", "north", "northing", "n")
_HEIGHT = ("z", "height", "level", "elevation", "elev", "altitude", "alt", "h")
_LATITUDE = ("lat", "latitude")
_LONGITUDE = ("lon", "long", "lng", "longitude")
NEAR = 2.0
"""Points of a house lie no further from its latitude than this (degrees)."""


def table_points(name: str, content: bytes, latitude: float | None = None) -> tuple[SurveyPoint, ...]:
    """Points of a CSV file; `latitude` of the house (rad), where it is known, tells swapped columns."""
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
    return from_globe(tuple(points), name, latitude) if globe else tuple(points)


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


def from_globe(points: tuple[SurveyPoint, ...], name: str, latitude: float | None) -> tuple[SurveyPoint, ...]:
    """Points whose east and north are longitude and latitude in degrees, in metres from the first."""
    if not points:
        return ()
    _refuse_swapped(points[0], name, latitude)
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


def _refuse_swapped(point: SurveyPoint, name: str, latitude: float | None) -> None:
    """The house's own latitude stands where the longitude should be."""
    if latitude is None:
        return
    told = math.degrees(latitude)
    if abs(point.east - told) < NEAR < abs(point.north - told):
        raise SetOutError(
            f"{name}: latitude and longitude are the wrong way round. The house lies at latitude {told:.4g}° "
            f"(site.latitude), the points at latitude {point.north:.4g}° and longitude {point.east:.4g}°. "
            "GeoJSON has [longitude, latitude, height]; in a table the names lat and lon say which is which."
        )
