"""Sunshine before and behind the air: what arrives, and how it splits into beam and sky."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.sun.day import STEEPEST
from bermwright.handbook.sun.position import DAY

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

SOLAR_CONSTANT = 1361.0
"""Irradiance of the sun at the mean distance of the Earth (W/m²), IAU 2015 resolution B3."""
LEAST_HEIGHT = 0.065
"""Least sine of the sun's elevation that a clearness is divided by: at sunrise it has no meaning."""
OVERCAST, CLEAR = 0.22, 0.8
"""Clearness between which the hour's sky is neither."""
SHORTEST_TOLERANCE = 1e-4
"""Hour angle of sunset below which the day has no sun (rad)."""
LOWEST_BEAM = np.radians(87.0)
"""Zenith from which no beam is told apart (rad): hourly values at sunrise split into nonsense."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Split:
    """Sunshine on level ground, taken apart."""

    direct_normal: Array
    """Beam on a plane that faces the sun (W/m²)."""
    diffuse_horizontal: Array
    """From the rest of the sky, on level ground (W/m²)."""
    global_horizontal: Array
    """Both together on level ground (W/m²)."""


def extraterrestrial_normal(distance: ArrayLike) -> Array:
    """Irradiance before the air, on a plane that faces the sun.

    I = 1361/r²

    Parameters
    ----------
    distance : float or array
        Distance from the sun, r [-] in astronomical units, from 0.95 to 1.05.

    Returns
    -------
    float or array
        Irradiance [W/m2].

    References
    ----------
    [IAU2015] : nominal total solar irradiance.

    Examples
    --------
    >>> round(float(extraterrestrial_normal(1.0)))
    1361
    """
    within("distance", distance, 0.95, 1.05)
    return np.asarray(SOLAR_CONSTANT / np.asarray(distance, dtype=float) ** 2)


def extraterrestrial_day(latitude: ArrayLike, declination: ArrayLike, normal: ArrayLike) -> Array:
    """Energy before the air on level ground in a day.

    H₀ = I·(86400/π)·(cos φ·cos δ·sin ω + ω·sin φ·sin δ), cos ω = −tan φ·tan δ held from −1 to 1

    Parameters
    ----------
    latitude : float or array
        Latitude, φ [rad], from -π/2 to π/2.
    declination : float or array
        Declination, δ [rad], from -0.42 to 0.42.
    normal : float or array
        Irradiance on a plane that faces the sun, I [W/m2], from 1200 to 1500.

    Returns
    -------
    float or array
        Energy of the day, H₀ [J/m2]; nothing in the polar night.

    References
    ----------
    [DUFFIE2013] : equation 1.10.3.

    Examples
    --------
    >>> round(float(extraterrestrial_day(1.047, declination=-0.3651, normal=1410.0)))
    3420402
    """
    within("latitude", latitude, -0.5 * np.pi, 0.5 * np.pi, unit="rad")
    within("declination", declination, -STEEPEST, STEEPEST, unit="rad")
    within("extraterrestrial irradiance", normal, 1200.0, 1500.0, unit="W/m2")
    north, sun = np.asarray(latitude, dtype=float), np.asarray(declination, dtype=float)
    half = np.arccos(np.clip(-np.tan(north) * np.tan(sun), -1.0, 1.0))
    shape = np.cos(north) * np.cos(sun) * np.sin(half) + half * np.sin(north) * np.sin(sun)
    return np.asarray(np.asarray(normal) * DAY / np.pi * np.maximum(shape, 0.0))


def erbs_fraction(clearness: ArrayLike) -> Array:
    """Share of the hour's sunshine that comes from the sky, not from the sun.

    k_d = 1 − 0.09·k to k = 0.22; 0.9511 − 0.1604·k + 4.388·k² − 16.638·k³ + 12.336·k⁴ to 0.8; then 0.165

    Parameters
    ----------
    clearness : float or array
        Hourly sunshine over that before the air, k [-], from 0 to 1.5.

    Returns
    -------
    float or array
        Diffuse share [-].

    References
    ----------
    [ERBS1982] : equation 1, hourly fractions.

    Examples
    --------
    >>> round(float(erbs_fraction(0.222)), 4)
    0.9797
    """
    within("clearness", clearness, 0.0, 1.5)
    k = np.asarray(clearness, dtype=float)
    middle = 0.9511 - 0.1604 * k + 4.388 * k**2 - 16.638 * k**3 + 12.336 * k**4
    return np.asarray(np.where(k <= OVERCAST, 1.0 - 0.09 * k, np.where(k <= CLEAR, middle, 0.165)))


def erbs_split(global_horizontal: ArrayLike, zenith: ArrayLike, normal: ArrayLike) -> Split:
    """Sunshine on level ground taken apart into beam and sky.

    k = G/(I·max(cos z, 0.065)), D = k_d(k)·G, B = (G − D)/cos z, no beam below 3° over the horizon

    Parameters
    ----------
    global_horizontal : float or array
        Irradiance of level ground, G [W/m2], from 0 to 1500.
    zenith : float or array
        Angle of the sun from straight up, z [rad], from 0 to π.
    normal : float or array
        Irradiance before the air on a plane that faces the sun, I [W/m2], from 1200 to 1500.

    Returns
    -------
    Split
        Beam, sky and both [W/m2].

    References
    ----------
    [ERBS1982] : equation 1; the cut near the horizon as is usual with it.
    """
    within("global irradiance", global_horizontal, 0.0, 1500.0, unit="W/m2")
    within("zenith", zenith, 0.0, np.pi, unit="rad")
    within("extraterrestrial irradiance", normal, 1200.0, 1500.0, unit="W/m2")
    total, height = np.asarray(global_horizontal, dtype=float), np.cos(zenith)
    clearness = np.minimum(total / (np.asarray(normal) * np.maximum(height, LEAST_HEIGHT)), 1.0)
    low = np.asarray(zenith) > LOWEST_BEAM
    sky = np.where(low, total, erbs_fraction(clearness) * total)
    beam = np.where(low, 0.0, (total - sky) / np.where(low, 1.0, height))
    return Split(direct_normal=np.asarray(beam), diffuse_horizontal=sky, global_horizontal=total)


def erbs_month(clearness: ArrayLike, sunset: ArrayLike) -> Array:
    """Share of a month's sunshine that comes from the sky.

    1.391 − 3.560·K + 4.189·K² − 2.137·K³ for ω ≤ 81.4°, else 1.311 − 3.022·K + 3.427·K² − 1.821·K³

    Parameters
    ----------
    clearness : float or array
        Mean daily sunshine of the month over that before the air, K [-], from 0.3 to 0.8.
    sunset : float or array
        Hour angle of sunset, ω [rad], from 0 to π.

    Returns
    -------
    float or array
        Diffuse share [-].

    References
    ----------
    [ERBS1982] : monthly fractions.

    Examples
    --------
    >>> round(float(erbs_month(0.3, sunset=1.047)), 4)
    0.6423
    """
    within("clearness", clearness, 0.3, 0.8)
    within("hour angle of sunset", sunset, 0.0, np.pi, unit="rad")
    k = np.asarray(clearness, dtype=float)
    winter = 1.391 - 3.560 * k + 4.189 * k**2 - 2.137 * k**3
    summer = 1.311 - 3.022 * k + 3.427 * k**2 - 1.821 * k**3
    return np.asarray(np.where(np.asarray(sunset) <= np.radians(81.4), winter, summer))


def hour_share(hour_angle: ArrayLike, sunset: ArrayLike) -> Array:
    """Share of a day's sunshine that falls in one hour.

    r = (π/24)·(a + b·cos ω)·(cos ω − cos s)/(sin s − s·cos s), a = 0.409 + 0.5016·sin(s − π/3),
    b = 0.6609 − 0.4767·sin(s − π/3)

    Parameters
    ----------
    hour_angle : float or array
        Of the middle of the hour, from noon, ω [rad], from -π to π.
    sunset : float or array
        Hour angle of sunset, s [rad], from 0 to π.

    Returns
    -------
    float or array
        Share [-]; nothing between sunset and sunrise. The shares of a day sum to about 1, not exactly.

    References
    ----------
    [COLLARES1979] : as given in [DUFFIE2013], equation 2.13.1.

    Examples
    --------
    >>> round(float(hour_share(0.1309, sunset=1.047)), 1)
    0.2
    """
    within("hour angle", hour_angle, -np.pi, np.pi, unit="rad")
    within("hour angle of sunset", sunset, 0.0, np.pi, unit="rad")
    at, end = np.asarray(hour_angle, dtype=float), np.asarray(sunset, dtype=float)
    short = end < SHORTEST_TOLERANCE
    shift = np.sin(end - np.pi / 3.0)
    shape = (0.409 + 0.5016 * shift) + (0.6609 - 0.4767 * shift) * np.cos(at)
    area = np.where(short, np.inf, np.sin(end) - end * np.cos(end))
    share = np.pi / 24.0 * shape * (np.cos(at) - np.cos(end)) / area
    return np.asarray(np.where(short | (np.abs(at) >= end), 0.0, np.maximum(share, 0.0)))


def air_mass(zenith: ArrayLike) -> Array:
    """How many times the upright depth of air the beam goes through.

    m = 1/(cos z + 0.50572·(96.07995 − z)^−1.6364), z in degrees

    Parameters
    ----------
    zenith : float or array
        Angle of the sun from straight up, z [rad], from 0 to π; beyond the horizon it counts as there.

    Returns
    -------
    float or array
        Relative air mass at sea level [-].

    References
    ----------
    [KASTEN1989] : equation 3 with its table.

    Examples
    --------
    >>> round(float(air_mass(0.1745)), 3)
    1.015
    """
    within("zenith", zenith, 0.0, np.pi, unit="rad")
    bounded = np.minimum(np.asarray(zenith, dtype=float), 0.5 * np.pi)
    degrees = np.degrees(bounded)
    return np.asarray(1.0 / (np.cos(bounded) + 0.50572 * (96.07995 - degrees) ** -1.6364))


def clear_sky(
    zenith: ArrayLike,
    normal: ArrayLike,
    *,
    pressure: float,
    water: float = 0.01,
    ozone: float = 0.003,
    haze: tuple[float, float] = (0.1, 0.07),
    albedo: float = 0.2,
) -> Split:
    """Sunshine under a sky without clouds.

    B = 0.9662·I·T_R·T_O·T_G·T_W·T_A; sky from scattering by air and haze and from the ground thrown back

    Parameters
    ----------
    zenith : float or array
        Angle of the sun from straight up [rad], from 0 to π.
    normal : float or array
        Irradiance before the air on a plane that faces the sun [W/m2], from 1200 to 1500.
    pressure : float
        Pressure of the air [Pa], from 20000 to 110000.
    water : float
        Depth of the water in the air column [m], from 0 to 0.1.
    ozone : float
        Depth of the ozone in the air column [m], from 0 to 0.006.
    haze : tuple of float
        Optical depth of the haze at 380 nm and at 500 nm [-].
    albedo : float
        Share that the ground throws back [-], from 0 to 1.

    Returns
    -------
    Split
        Beam, sky and both [W/m2]; nothing when the sun is below the horizon.

    References
    ----------
    [BIRD1981] : equations of the simple clear sky model; asymmetry of the haze 0.85.
    """
    within("zenith", zenith, 0.0, np.pi, unit="rad")
    within("extraterrestrial irradiance", normal, 1200.0, 1500.0, unit="W/m2")
    within("pressure", pressure, 20_000.0, 110_000.0, unit="Pa")
    within("water", water, 0.0, 0.1, unit="m")
    within("ozone", ozone, 0.0, 0.006, unit="m")
    within("haze", haze, 0.0, 1.0)
    within("albedo", albedo, 0.0, 1.0)
    low, before = np.asarray(zenith, dtype=float), np.asarray(normal, dtype=float)
    mass = _bird_mass(low)
    dense = mass * pressure / 101_300.0
    rayleigh = np.exp(-0.0903 * dense**0.84 * (1.0 + dense - dense**1.01))
    gas = _ozone(mass * ozone * 100.0) * np.exp(-0.0127 * dense**0.26) * _vapour(mass * water * 100.0)
    depth = 0.27583 * haze[0] + 0.35 * haze[1]
    dust = np.exp(-(depth**0.873) * (1.0 + depth - depth**0.7088) * mass**0.9108)
    return _bird_split(low, before, (mass, rayleigh, gas, dust), albedo)


def _bird_mass(zenith: Array) -> Array:
    degrees = np.degrees(np.minimum(zenith, np.radians(90.0)))
    return np.asarray(1.0 / (np.cos(np.radians(degrees)) + 0.15 * (93.885 - degrees) ** -1.25))


def _ozone(depth: Array) -> Array:
    """Share let through; `depth` in cm along the beam."""
    return np.asarray(
        1.0
        - 0.1611 * depth * (1.0 + 139.48 * depth) ** -0.3035
        - 0.002715 * depth / (1.0 + 0.044 * depth + 0.0003 * depth**2)
    )


def _vapour(depth: Array) -> Array:
    """Share let through; `depth` in cm along the beam."""
    return np.asarray(1.0 - 2.4959 * depth / ((1.0 + 79.034 * depth) ** 0.6828 + 6.385 * depth))


def _bird_split(zenith: Array, normal: Array, air: tuple[Array, Array, Array, Array], albedo: float) -> Split:
    mass, rayleigh, gas, dust = air
    absorbed = 1.0 - 0.1 * (1.0 - mass + mass**1.06) * (1.0 - dust)
    scattered = dust / absorbed
    thrown_back = 0.0685 + (1.0 - 0.85) * (1.0 - scattered)
    height = np.maximum(np.cos(zenith), 0.0)
    beam = np.where(height > 0.0, 0.9662 * normal * rayleigh * gas * dust, 0.0)
    sky = (
        0.79 * normal * height * gas * absorbed
        * (0.5 * (1.0 - rayleigh) + 0.85 * (1.0 - scattered)) / (1.0 - mass + mass**1.02)
    )  # fmt: skip
    total = (beam * height + sky) / (1.0 - albedo * thrown_back)
    return Split(
        direct_normal=np.asarray(beam), diffuse_horizontal=total - beam * height, global_horizontal=total
    )
