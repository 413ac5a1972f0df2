"""Surveyed points in GeoJSON: longitude, latitude and height of every point."""

from __future__ import annotations

import json
import math
import re
from typing import TYPE_CHECKING, Any

from bermwright.form.setout import SetOutError, SurveyPoint
from bermwright.formats.survey.table import from_globe

if TYPE_CHECKING:
    from collections.abc import Iterator

_NAMES = ("name", "id", "point")
_HEIGHTS = ("height", "elevation", "elev", "altitude", "z", "level")
_NUMBER = re.compile(r"[-+−]?\d+(?:[.,]\d+)?$")
MOST_TOLD = 12


def geojson_points(name: str, content: bytes, latitude: float | None = None) -> tuple[SurveyPoint, ...]:
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
    return from_globe(tuple(points), name, latitude)


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
    given = feature.get("properties")
    properties = given if isinstance(given, dict) else {}
    name = _name(feature, properties)
    spots = geometry.get("coordinates")
    spots = [spots] if kind == "Point" or not isinstance(spots, list) else spots
    for count, spot in enumerate(spots, start=1):
        # The places of one feature are not one place measured more than once.
        own = f"{name} {count}" if name and len(spots) > 1 else name
        point = _point(spot, properties, own, number)
        if isinstance(point, str):
            mistakes.append(f"  feature {number}{f' ({own})' if own else ''}: {point}")
        else:
            yield point


def _name(feature: dict[str, Any], properties: dict[str, Any]) -> str:
    given = [*(properties.get(key) for key in _NAMES), feature.get("id")]
    return next((str(one).strip() for one in given if one is not None), "")


def _point(spot: Any, properties: dict[str, Any], name: str, number: int) -> SurveyPoint | str:  # noqa: ANN401  (what stands in a file)
    if not isinstance(spot, list) or len(spot) < 2 or not all(map(_is_number, spot)):
        return "its coordinates are no numbers; write [longitude, latitude, height]"
    longitude, latitude = float(spot[0]), float(spot[1])
    if not (-180.0 <= longitude <= 180.0 and -90.0 <= latitude <= 90.0):
        return f"[{longitude:g}, {latitude:g}] is no longitude and latitude; GeoJSON is in WGS 84 degrees"
    given = [spot[2]] if len(spot) > 2 else [properties[key] for key in _HEIGHTS if key in properties]
    height = _height(given[0]) if given else None
    if height is None:
        return 'it has no height; write it as third coordinate or as the property "height", in metres'
    return SurveyPoint(name=name, east=longitude, north=latitude, height=height, line=number)


def _height(given: Any) -> float | None:  # noqa: ANN401  (JSON)
    """A number, or a number that was saved as text."""
    if isinstance(given, str) and _NUMBER.match(given.strip()):
        given = float(given.strip().replace(",", ".").replace("−", "-"))
    return float(given) if _is_number(given) else None


def _is_number(value: Any) -> bool:  # noqa: ANN401  (what stands in a file)
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
