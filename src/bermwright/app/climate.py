"""The year of weather of a house: made from the normals it names, or read from the file it names."""

from __future__ import annotations

import math
from pathlib import Path
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.data.climates import PREFIX, normals
from bermwright.data.weather_limits import FARTHEST_NORTH
from bermwright.formats.weather import WeatherFileError, read_weather
from bermwright.handbook.weather import synthesise

if TYPE_CHECKING:
    from bermwright.handbook.weather import WeatherYear
    from bermwright.house import House

SEED = 1
"""Of the draw of a year from normals: the same house always gets the same weather."""
LARGEST = 20_000_000
"""A year by the hour has about 2 MB; more than this is another kind of file (bytes)."""


class NoClimateError(BermwrightError):
    """The house file does not say which climate it has."""


def weather_of(house: House, folder: str | Path = ".", *, seed: int = SEED) -> WeatherYear:
    """The weather of the house's climate; a weather file is looked for beside the house file.

    Raises `NoClimateError`, `UnknownClimateError` or `WeatherFileError`.
    """
    climate = house.site.climate
    if climate is None:
        raise NoClimateError(
            'The file names no climate. Write [site] climate = "normals:NAME" or a weather file.'
        )
    if climate.startswith(PREFIX):
        return weather_of_place(climate, seed=seed)
    return _near(read_weather(_text(Path(folder) / climate), climate), climate, house)


def _near(weather: WeatherYear, name: str, house: House) -> WeatherYear:
    """The weather, where it comes from the site's part of the world."""
    if house.site.latitude is None:
        return weather
    here, there = math.degrees(house.site.latitude), math.degrees(weather.latitude)
    if abs(here - there) > FARTHEST_NORTH:
        raise WeatherFileError(
            f"{name} is from latitude {there:.1f} deg, [site] latitude is {here:.1f} deg: another "
            "sun and other seasons. Put the latitude right, or take the weather of a nearer place."
        )
    return weather


def weather_of_place(name: str, *, seed: int = SEED) -> WeatherYear:
    """A year made from the packaged normals of a place."""
    import numpy as np

    return synthesise(normals(name), np.random.default_rng(seed))  # noqa: TID251  (the edge brings the chance)


def _text(path: Path) -> str:
    try:
        if path.stat().st_size > LARGEST:
            raise WeatherFileError(f"{path}: a year by the hour has about 2 MB. Is it the right file?")
        return path.read_text(encoding="utf-8", errors="replace")
    except OSError as error:
        why = error.strerror or str(error)
        raise WeatherFileError(
            f"{path} could not be read: {why}. It is looked for beside the house file."
        ) from None
