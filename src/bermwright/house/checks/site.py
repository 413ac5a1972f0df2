"""What does not fit together of the place and its soils."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.data.climates import PREFIX, UnknownClimateError, names_like, nearest, normals
from bermwright.data.weather_limits import FARTHEST_NORTH
from bermwright.house.checks.common import (
    Check,
    Contradiction,
    Key,
    bound,
    clash,
    lighter_when_wet,
    names_once,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.data.climates import MonthlyNormals
    from bermwright.house.model import House
    from bermwright.house.site import Site, Soil

WEATHER_FILES = (".epw", ".csv")
"""Endings of the weather files that are read."""


def site_checks(house: House) -> Iterator[Check]:
    """The checks of the place and of each soil."""
    soils = house.site.soil
    yield Check(("site",), ("climate", "latitude"), lambda: _climate(house.site))
    yield Check(("site",), ("horizon",), lambda: _horizon(house.site))
    yield names_once(("site", "soil"), soils)
    for count, soil in enumerate(soils):
        here: Key = ("site", "soil", count)
        yield Check(here, ("unit_weight", "saturated_unit_weight"), bound(lighter_when_wet, here, soil))
        if count < len(soils) - 1:
            yield Check(here, ("thickness",), bound(_bottomless, here, soil))


def _bottomless(here: Key, soil: Soil) -> Iterator[Contradiction]:
    if soil.thickness is None:
        yield clash(
            here,
            "thickness",
            "",
            "is missing, but another soil lies below; only the lowest one has no end.",
            "Write how thick this layer is.",
        )


def _climate(site: Site) -> Iterator[Contradiction]:
    """A station that is not packaged, and a name that is neither a station nor a weather file."""
    if site.climate is None:
        return
    if site.climate.startswith(PREFIX):
        try:
            place = normals(site.climate)
        except UnknownClimateError:
            yield _no_station(site, site.climate)
        else:
            yield from _far(site, place)
    elif not site.climate.lower().endswith(WEATHER_FILES):
        near = names_like(site.climate)
        yield clash(
            ("site",),
            "climate",
            f'"{site.climate}"',
            f"is neither {PREFIX}NAME nor the path of a weather file ({' or '.join(WEATHER_FILES)}).",
            f'Write "{PREFIX}{near[0]}".' if near else f"Write {PREFIX} before the name of a station.",
        )


def _far(site: Site, place: MonthlyNormals) -> Iterator[Contradiction]:
    """A climate from another latitude: its sun and its seasons are not those of the site."""
    if site.latitude is None:
        return
    here = math.degrees(site.latitude)
    if abs(here - place.latitude) > FARTHEST_NORTH:
        yield clash(
            ("site",),
            "latitude",
            f'"{here:.1f} deg"',
            f"is far from {place.name} at {place.latitude:.1f} deg, whose climate the file names; south of "
            "the equator is negative.",
            f"Put the latitude right, or name a climate within {FARTHEST_NORTH:.0f} degrees of it.",
        )


def _no_station(site: Site, given: str) -> Contradiction:
    like = [f'"{PREFIX}{name}"' for name in names_like(given)]
    said = [f"Written like it: {', '.join(like)}."] if like else []
    if site.latitude is not None and site.longitude is not None:
        near = nearest(site.latitude, site.longitude)
        listed = ", ".join(f'"{PREFIX}{place.name}" ({apart / 1000.0:.0f} km)' for place, apart in near)
        said.append(f"Nearest to the site: {listed}.")
    said.append("`bermwright schema --climates` lists every station.")
    return clash(("site",), "climate", f'"{given}"', "is not a packaged station.", " ".join(said))


def _horizon(site: Site) -> Iterator[Contradiction]:
    seen: dict[tuple[float, float], int] = {}
    for count, point in enumerate(site.horizon):
        # 0 and 360 degrees are one direction.
        towards = (round(math.sin(point.direction), 6), round(math.cos(point.direction), 6))
        first = seen.setdefault(towards, count)
        if first < count:
            yield clash(
                ("site", "horizon", count),
                "direction",
                "",
                f"is the direction of number {first + 1} too; the horizon has one height in each direction.",
                "Leave one of the two out.",
            )
