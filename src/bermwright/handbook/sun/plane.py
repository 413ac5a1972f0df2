"""Sunshine on a plane that faces any way: beam, sky and ground, under three models of the sky."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, assert_never

import numpy as np

from bermwright.base.limits import within
from bermwright.data.sky_tables import PEREZ, PEREZ_LIMITS
from bermwright.handbook.sun.position import TURN, SunPosition, julian_day, sun_position
from bermwright.handbook.sun.sky import Split, air_mass, extraterrestrial_normal

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

HOURS = 8760
REFERENCE_YEAR = 2026
"""An ordinary year halfway between two leap years: its sun is the average one."""
LOWEST_HEIGHT = 0.01745
"""Least sine of the elevation by which the brightness round the sun is divided."""
PEREZ_HEIGHT = np.cos(np.radians(85.0))
"""The same in the Perez model."""
BARE_GROUND = 0.2
SNOWY_GROUND = 0.7
"""Shares that bare and snow-covered ground throw back; fresh snow up to 0.85, old snow 0.5."""


class SkyModel(StrEnum):
    """How brightness is spread over the sky."""

    EVEN = "even"
    """Alike everywhere: too little on a sunny wall."""
    HAY_DAVIES = "brighter round the sun"
    PEREZ = "brighter round the sun and at the horizon"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """A plane that sunshine falls on."""

    tilt: float
    """From lying flat, facing up (rad); a wall has π/2."""
    azimuth: float
    """The way it faces, from north clockwise (rad)."""

    def __post_init__(self) -> None:
        within("tilt", self.tilt, 0.0, np.pi, unit="rad")
        within("azimuth", self.azimuth, -TURN, 2.0 * TURN, unit="rad")


@dataclass(frozen=True, slots=True, kw_only=True)
class SunPath:
    """Where the sun stands at some hours, as seen from one place."""

    elevation: Array
    """Refraction included (rad)."""
    azimuth: Array
    """From north clockwise (rad)."""
    extraterrestrial: Array
    """Irradiance before the air on a plane that faces the sun (W/m²)."""

    @property
    def zenith(self) -> Array:
        """From straight up (rad)."""
        return np.asarray(0.5 * np.pi - self.elevation)

    @property
    def up(self) -> NDArray[np.bool_]:
        """Whether the middle of the sun is over the level horizon."""
        return np.asarray(self.elevation > 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaneSun:
    """Sunshine on a plane by where it comes from (W/m²)."""

    beam: Array
    """Straight from the sun."""
    around: Array
    """From the sky close around the sun: shaded where the beam is."""
    sky: Array
    """From the rest of the sky."""
    ground: Array
    """Thrown back by the ground before it."""
    incidence: Array
    """Angle between the beam and the normal of the plane (rad); π/2 and more: from behind."""

    @property
    def total(self) -> Array:
        """All of it (W/m²)."""
        return np.asarray(self.beam + self.around + self.sky + self.ground)


def sun_path(
    latitude: float,
    longitude: float,
    *,
    zone: float,
    altitude: float = 0.0,
    pressure: float = 101_325.0,
    year: int = REFERENCE_YEAR,
) -> SunPath:
    """Path of the sun at the middle of each hour of an ordinary year.

    the position at k + ½ hours standard time, k = 0 to 8759

    Parameters
    ----------
    latitude : float
        Latitude, north positive [rad], from -π/2 to π/2.
    longitude : float
        Longitude, east positive [rad], from -2π to 2π.
    zone : float
        Standard time less universal time [s], from -50400 to 50400.
    altitude : float
        Height above the sea [m], from -500 to 9000.
    pressure : float
        Pressure of the air, for refraction [Pa].
    year : int
        Year of the calendar; its 366th day is left out.

    Returns
    -------
    SunPath
        Elevation and azimuth [rad] and irradiance before the air [W/m2], 8760 of each.

    Notes
    -----
    An hourly value that is stamped with the end of its hour belongs to the sun half an hour before.

    References
    ----------
    [REDA2004] : solar position.
    """
    within("zone", zone, -50_400.0, 50_400.0, unit="s")
    hours = np.arange(HOURS) + 0.5 - zone / 3600.0
    found = sun_position(
        julian_day(year, hours), latitude, longitude=longitude, altitude=altitude, pressure=pressure
    )
    return path_of(found)


def path_of(found: SunPosition) -> SunPath:
    """The path through some positions.

    elevation and azimuth as they are, irradiance 1361/r²

    Parameters
    ----------
    found : SunPosition
        Positions of the sun.

    Returns
    -------
    SunPath
        Elevation and azimuth [rad], irradiance before the air [W/m2].

    References
    ----------
    [IAU2015] : nominal total solar irradiance.
    """
    return SunPath(
        elevation=found.elevation,
        azimuth=found.azimuth,
        extraterrestrial=extraterrestrial_normal(found.distance),
    )


def facing(plane: Plane, elevation: ArrayLike, azimuth: ArrayLike) -> Array:
    """How squarely the beam meets a plane.

    cos θ = sin e·cos β + cos e·sin β·cos(A − γ)

    Parameters
    ----------
    plane : Plane
        The plane, tilted by β, facing γ.
    elevation : float or array
        Elevation of the sun, e [rad], from -π/2 to π/2.
    azimuth : float or array
        Azimuth of the sun, A [rad].

    Returns
    -------
    float or array
        Cosine of the angle of incidence, below zero from behind [-].

    References
    ----------
    [DUFFIE2013] : equation 1.6.3.
    """
    within("elevation", elevation, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
    within("azimuth", azimuth)
    high = np.asarray(elevation, dtype=float)
    across = np.cos(np.asarray(azimuth) - plane.azimuth)
    return np.asarray(np.sin(high) * np.cos(plane.tilt) + np.cos(high) * np.sin(plane.tilt) * across)


def on_plane(
    sunshine: Split,
    path: SunPath,
    *,
    plane: Plane,
    albedo: ArrayLike = BARE_GROUND,
    model: SkyModel = SkyModel.PEREZ,
) -> PlaneSun:
    """Sunshine on a plane.

    B·cos θ + sky + G·ρ·(1 − cos β)/2; even sky: D·(1 + cos β)/2; Hay-Davies: D·[A·R + (1 − A)·(1 + cos β)/2];
    Perez: D·[(1 − F₁)·(1 + cos β)/2 + F₁·a/b + F₂·sin β]

    Parameters
    ----------
    sunshine : Split
        Beam B, sky D and both on level ground G [W/m2].
    path : SunPath
        Where the sun stands.
    plane : Plane
        The plane.
    albedo : float or array
        Share that the ground throws back, ρ [-], from 0 to 1.
    model : SkyModel
        How brightness is spread over the sky.

    Returns
    -------
    PlaneSun
        Beam, sky round the sun, rest of the sky, ground [W/m2] and the angle of incidence [rad].

    References
    ----------
    [HAYDAVIES1980] : sky brighter round the sun.
    [PEREZ1990] : sky brighter round the sun and at the horizon, all sites.
    [LIUJORDAN1963] : even sky and ground.
    """
    within("albedo", albedo, 0.0, 1.0)
    cosine = facing(plane, path.elevation, path.azimuth)
    beam = np.where(path.up, sunshine.direct_normal * np.maximum(cosine, 0.0), 0.0)
    around, sky = _sky(sunshine, path, plane, cosine, model)
    return PlaneSun(
        beam=beam,
        around=around,
        sky=sky,
        ground=np.asarray(sunshine.global_horizontal * np.asarray(albedo) * 0.5 * (1.0 - np.cos(plane.tilt))),
        incidence=np.arccos(np.clip(cosine, -1.0, 1.0)),
    )


def _sky(sunshine: Split, path: SunPath, plane: Plane, cosine: Array, model: SkyModel) -> tuple[Array, Array]:
    """Sky round the sun, and the rest."""
    diffuse = sunshine.diffuse_horizontal
    view = 0.5 * (1.0 + np.cos(plane.tilt))
    match model:
        case SkyModel.EVEN:
            return np.zeros_like(cosine), np.asarray(diffuse * view)
        case SkyModel.HAY_DAVIES:
            share = np.where(path.up, sunshine.direct_normal / path.extraterrestrial, 0.0)
            ratio = np.maximum(cosine, 0.0) / np.maximum(np.sin(path.elevation), LOWEST_HEIGHT)
            return np.asarray(diffuse * share * ratio), np.asarray(diffuse * (1.0 - share) * view)
        case SkyModel.PEREZ:
            near, rim = _perez(sunshine, path)
            ratio = np.maximum(cosine, 0.0) / np.maximum(np.sin(path.elevation), PEREZ_HEIGHT)
            rest = (1.0 - near) * view + rim * np.sin(plane.tilt)
            total = np.maximum(diffuse * (near * ratio + rest), 0.0)
            # A rim darker than the sky takes from the bright part what the rest cannot give.
            sky = np.minimum(np.maximum(diffuse * rest, 0.0), total)
            return np.asarray(total - sky), sky
        case _:  # pragma: no cover
            assert_never(model)


def _perez(sunshine: Split, path: SunPath) -> tuple[Array, Array]:
    """Brightness round the sun and at the horizon; nothing of either without a sun."""
    zenith = np.asarray(path.zenith)
    diffuse = np.asarray(sunshine.diffuse_horizontal, dtype=float)
    there = diffuse > 0.0
    curve = 1.041 * zenith**3
    clear = (1.0 + sunshine.direct_normal / np.where(there, diffuse, np.inf) + curve) / (1.0 + curve)
    kind = np.array(PEREZ)[np.digitize(clear, PEREZ_LIMITS)]
    bright = diffuse * air_mass(zenith) / path.extraterrestrial
    near = np.maximum(kind[..., 0] + kind[..., 1] * bright + kind[..., 2] * zenith, 0.0)
    rim = kind[..., 3] + kind[..., 4] * bright + kind[..., 5] * zenith
    lit = there & path.up
    return np.where(lit, near, 0.0), np.where(lit, rim, 0.0)


def ground_albedo(snow_cover: ArrayLike) -> Array:
    """Share of the sunshine that the ground throws back.

    ρ = 0.2 + (0.7 − 0.2)·s

    Parameters
    ----------
    snow_cover : float or array
        Share of the ground that is white, s [-], from 0 to 1.

    Returns
    -------
    float or array
        Albedo [-].

    Notes
    -----
    Fresh snow throws back up to 0.85, old and dirty snow 0.5, wet dark soil 0.1.

    References
    ----------
    [DUFFIE2013] : 2.16, the usual 0.2 and 0.7 (after [LIUJORDAN1963]).

    Examples
    --------
    >>> round(float(ground_albedo(0.0)), 1)
    0.2
    """
    within("snow cover", snow_cover, 0.0, 1.0)
    return np.asarray(BARE_GROUND + (SNOWY_GROUND - BARE_GROUND) * np.asarray(snow_cover, dtype=float))
