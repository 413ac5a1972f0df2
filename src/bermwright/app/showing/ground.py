"""The ground through the year: open ground at once, and that of this very house once `winter` has run.

What is shown always says which of the two it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.open_ground import WEEKS, open_ground
from bermwright.app.climate import weather_of
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Spot
from bermwright.base.marks import GroundHeat
from bermwright.base.units import show
from bermwright.data.climates import PREFIX, normals

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from numpy.typing import NDArray

    from bermwright.adapt.winter.open_ground import OpenGround
    from bermwright.adapt.winter.winter import WinterYear
    from bermwright.book.sheets import Scene
    from bermwright.house import House

    Array = NDArray[np.float64]

Line = tuple[tuple[float, float], ...]

BESIDE = 1.0
"""Nearer to the house than this the ground is not open: nothing is drawn there (m)."""
LEAST_FROST = 0.005
"""Frost that is less deep than this is none (m)."""
DEPTHS = (0.5, 1.0, 2.0, 3.0)
"""Depths whose temperature is written at both edges of the drawing (m)."""
EDGE = 0.55
"""From the edge of the drawing to those figures (m)."""
COARSE = 0.02
"""How far a drawn line may leave the reckoned one (m)."""
REACH = (14.0, -6.0, 12.0)
"""Half width, lowest and highest level of what is kept of a reckoned week (m)."""
ISOTHERMS = ("+4°", "+8°", "+12°", "+16°")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekInGround:
    """One reckoned week: frozen ground, its lower edge, lines of equal temperature."""

    ice: tuple[Line, ...]
    frost: tuple[Line, ...]
    isotherms: tuple[tuple[Line, ...], ...]
    depth: float
    """Of the frost in open ground (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GroundYear:
    """What is known of the ground of one vault through the year."""

    open: OpenGround | None = None
    reckoned: tuple[WeekInGround, ...] = ()
    """By the week, where the winter of just this house was reckoned."""


def open_year(house: House, folder: Path) -> OpenGround | None:
    """Open ground in the climate of a house; None where the file names none, or none that can be read."""
    try:
        return open_ground(house, monthly_means(house, folder))
    except BermwrightError:
        return None


def monthly_means(house: House, folder: Path) -> tuple[float, ...]:
    """Monthly means of the air (°C): the published ones, or those of the weather file."""
    climate = house.site.climate or ""
    if climate.startswith(PREFIX):
        return normals(climate).mean
    weather = weather_of(house, folder)
    return tuple(float(weather.temperature[weather.month == month].mean()) for month in range(1, 13))


def ground_mark(
    year: GroundYear, week: int, scene: Scene, edges: tuple[float, float], *, when: str, system: str
) -> GroundHeat | None:
    """One week (counted from 0) in the shown ground; None where nothing is known of it."""
    if year.reckoned:
        return _reckoned(year.reckoned[week], when, system)
    if year.open is not None:
        return _open(year.open, week, scene, edges, (when, system))
    return None


def _reckoned(week: WeekInGround, when: str, system: str) -> GroundHeat:
    frozen = week.depth > LEAST_FROST
    return GroundHeat(
        ice=week.ice,
        frost=week.frost,
        isotherms=tuple(zip(ISOTHERMS, week.isotherms, strict=True)),
        depth=f"frost {show(week.depth, 'm', 2, system)} deep in the open" if frozen else "",
        says=f"ground of this house, {when}, with its warmth and its snow",
    )


def _open(
    ground: OpenGround, week: int, scene: Scene, edges: tuple[float, float], words: tuple[str, str]
) -> GroundHeat:
    when, system = words
    deep, thawed = float(ground.frost[week]), float(ground.thawed[week])
    sides = [x for x in _beside(scene, edges) if x.size > 1] if deep > LEAST_FROST else []
    surfaces = [scene.surface(x) for x in sides]
    return GroundHeat(
        ice=tuple(_band(x, z - thawed, z - deep) for x, z in zip(sides, surfaces, strict=True)),
        frost=tuple(_line(x, z - deep) for x, z in zip(sides, surfaces, strict=True)),
        figures=tuple(_figures(ground, week, scene, edges, system)),
        depth=f"frost line, {show(deep, 'm', 2, system)} deep" if sides else "",
        says=f"open ground, {when}: average year, no snow, no house",
    )


def _beside(scene: Scene, edges: tuple[float, float]) -> tuple[Array, Array]:
    """Places of the ground left and right of the house."""
    face = scene.form.soil_face.x
    low, high = float(face.min()) - BESIDE, float(face.max()) + BESIDE
    x = scene.columns(*edges)
    return x[x <= low], x[x >= high]


def _line(x: Array, z: Array) -> Line:
    return tuple(zip(x.tolist(), z.tolist(), strict=True))


def _band(x: Array, top: Array, bottom: Array) -> Line:
    return (*_line(x, top), *_line(x[::-1], bottom[::-1]))


def _figures(
    ground: OpenGround, week: int, scene: Scene, edges: tuple[float, float], system: str
) -> list[tuple[Spot, str]]:
    """How warm the ground is at some depths under its surface, near the right edge."""
    x = edges[1] - 3.0 * EDGE
    top = float(scene.surface(np.array([x]))[0])
    return [
        (Spot(x, top - depth), f"{show(ground.temperature(depth, week), 'degC', 0, system)}")
        for depth in DEPTHS
    ]


def weeks_in_ground(year: WinterYear) -> tuple[WeekInGround, ...]:
    """Every week of a reckoned winter, as little as a drawing needs of it."""
    return tuple(_week(year, number) for number in range(WEEKS))


def _week(year: WinterYear, number: int) -> WeekInGround:
    import shapely

    from bermwright.adapt.winter.telling.picture import LEVELS, week_of
    from bermwright.book.sheets.winter.frozen import frost_lines, frozen_ground, polygons

    half, low, high = REACH
    window = (-half, low, half, high)
    week = week_of(year, number)
    body = frozen_ground(year.ground.mesh, week.temperature, window) if week.frost else shapely.Polygon()
    x = np.linspace(-half, half, 561)
    surface = np.column_stack([x, year.form.ground.finished.level(x)])
    frost = frost_lines(body, surface, shapely.Polygon(), window) if week.frost else ()
    return WeekInGround(
        ice=tuple(_coarse(part.exterior) for part in polygons(body)),
        frost=tuple(_coarse(shapely.LineString(line)) for line in frost),
        isotherms=tuple(
            tuple(_coarse(shapely.LineString(line)) for line in week.levels[level] if len(line) > 1)
            for level in LEVELS
        ),
        depth=week.frozen,
    )


def _coarse(line: object) -> Line:
    import shapely

    points = shapely.get_coordinates(shapely.simplify(line, COARSE))
    return tuple((round(x, 3), round(z, 3)) for x, z in points.tolist())


def reckoned_weeks(years: tuple[WinterYear, ...]) -> Mapping[str, tuple[WeekInGround, ...]]:
    """By the name of the vault."""
    return {year.vault.name: weeks_in_ground(year) for year in years}
