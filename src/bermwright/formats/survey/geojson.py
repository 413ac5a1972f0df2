"""Surveyed points in GeoJSON: longitude, latitude and height of every point."""

from __future__ import annotations

import json
import math
from typing import TYPE_CHECKING, Any

from bermwright.form.setout import SetOutError, SurveyPoint
from bermwright.formats.survey.table import from_globe

if TYPE_CHECKING:
    from collections.abc import Iterator

_NAMES = ("name", "id", "point")
_HEIGHTS = ("height", "elevation", "z", "level")
MOST_TOLD = 12


def geojson_points(name: str, content: bytes) -> tuple[SurveyPoint, ...]:
    """Every point of a feature collection; heights as third coordinate or as a property."""
    data = _data(name, content)
    mistakes: list[str] = []
    points = [
        point
        for number, feature in enumerate(_features(data), start=1)
        for point in _points(feature, number, mistakes)
    ]
    if mistakes:
        count = len(mistakes)
        things = "1 thing" if count == 1 else f"{count} things"
        rest = [f"  and {count - MOST_TOLD} more"] if count > MOST_TOLD else []
        raise SetOutError("\n".join([f"{name}: {things} to put right", *mistakes[:MOST_TOLD], *rest]))
    return from_globe(tuple(points))


def _data(name: str, content: bytes) -> dict[str, Any]:
    try:
        data = json.loads(content)
    except (ValueError, RecursionError) as error:
        where = f" in line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        raise SetOutError(f"{name} is no JSON{where}. Export the points as GeoJSON again.") from None
    if not isinstance(data, dict) or data.get("type") not in {"FeatureCollection", "Feature"}:
        raise SetOutError(f'{name} is no GeoJSON: it has no "type": "FeatureCollection".')
    if "crs" in data and "CRS84" not in json.dumps(data["crs"]) and "4326" not in json.dumps(data["crs"]):
        raise SetOutError(
            f"{name}: its coordinates are not longitude and latitude (WGS 84). Export it in WGS 84."
        )
    return data


def _features(data: dict[str, Any]) -> list[Any]:
    features = data.get("features", []) if data["type"] == "FeatureCollection" else [data]
    return features if isinstance(features, list) else []


def _points(feature: Any, number: int, mistakes: list[str]) -> Iterator[SurveyPoint]:  # noqa: ANN401  (JSON)
    geometry = feature.get("geometry") if isinstance(feature, dict) else None
    kind = geometry.get("type") if isinstance(geometry, dict) else None
    if geometry is None or kind not in {"Point", "MultiPoint"}:
        return  # lines and areas are other things of the same map
    properties = feature.get("properties") or {}
    name = next((str(properties[key]) for key in _NAMES if key in properties), str(feature.get("id", "")))
    spots = [geometry.get("coordinates")] if kind == "Point" else geometry.get("coordinates", [])
    for spot in spots:
        point = _point(spot, properties, name, number)
        if isinstance(point, str):
            mistakes.append(f"  feature {number}{f' ({name})' if name else ''}: {point}")
        else:
            yield point


def _point(spot: Any, properties: dict[str, Any], name: str, number: int) -> SurveyPoint | str:  # noqa: ANN401
    if not isinstance(spot, list) or len(spot) < 2 or not all(map(_is_number, spot)):
        return "its coordinates are no numbers; write [longitude, latitude, height]"
    longitude, latitude = float(spot[0]), float(spot[1])
    if not (-180.0 <= longitude <= 180.0 and -90.0 <= latitude <= 90.0):
        return f"[{longitude:g}, {latitude:g}] is no longitude and latitude; GeoJSON is in WGS 84 degrees"
    given = (
        spot[2] if len(spot) > 2 else next((properties[key] for key in _HEIGHTS if key in properties), None)
    )
    if given is None or not _is_number(given):
        return 'it has no height; write it as third coordinate or as the property "height", in metres'
    return SurveyPoint(name=name, east=longitude, north=latitude, height=float(given), line=number)


def _is_number(value: Any) -> bool:  # noqa: ANN401
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
