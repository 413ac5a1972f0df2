"""One door for surveyed points: a table (CSV) or GeoJSON, by the ending of the file's name."""

from __future__ import annotations

from pathlib import PurePath
from typing import TYPE_CHECKING

from bermwright.form.setout import SetOutError
from bermwright.formats.survey.geojson import geojson_points
from bermwright.formats.survey.table import table_points

if TYPE_CHECKING:
    from bermwright.form.setout import SurveyPoint

ENDINGS = (".csv", ".txt", ".geojson", ".json")
LINE = "Write name, x, y, z and a line for every point."
FEATURE = 'Each is a feature of the type "Point" with a height; lines and areas are left out.'
LARGEST = 8_000_000
"""A survey of a house is far smaller (bytes)."""
MOST_POINTS = 3000
"""More points than anybody measures by hand."""


def read_points(name: str, content: bytes, latitude: float | None = None) -> tuple[SurveyPoint, ...]:
    """Points in metres, to the east and north of the first one; every mistake at once.

    `latitude` is that of the house (rad), where it is known: it tells points whose degrees are swapped.
    """
    ending = PurePath(name).suffix.lower()
    if ending not in ENDINGS:
        raise SetOutError(f"{name}: surveyed points end in {', '.join(ENDINGS)}.")
    if len(content) > LARGEST:
        raise SetOutError(f"{name} has {len(content) / 1e6:.0f} MB; a survey of a house has less than 8 MB.")
    reader, wanted = (geojson_points, FEATURE) if ending in {".geojson", ".json"} else (table_points, LINE)
    points = reader(name, content, latitude)
    if not points:
        raise SetOutError(f"{name}: there is no point in it. {wanted}")
    if len(points) > MOST_POINTS:
        raise SetOutError(
            f"{name}: {len(points)} points; take those within 30 m of the house, at most {MOST_POINTS}."
        )
    return points
