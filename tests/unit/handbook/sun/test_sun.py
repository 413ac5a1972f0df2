from __future__ import annotations

import math
import time
import warnings

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import sun

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import pandas as pd
    import pvlib

RAD = math.pi / 180.0
PLACES = [(64.84, -147.7, -9), (-35.0, 0.0, 0), (80.0, 20.0, 1), (0.0, 120.0, 8)]
SOUTH_WALL = sun.Plane(tilt=90 * RAD, azimuth=180 * RAD)


def path_at(latitude: float, longitude: float = 0.0, zone: float = 0.0) -> sun.SunPath:
    return sun.sun_path(latitude * RAD, longitude * RAD, zone=zone * 3600.0)


@pytest.fixture(scope="module")
def real():
    """One real year: Sand Point, Alaska, as the package carries it."""
    file = f"{pvlib.__path__[0]}/data/703165TY.csv"
    data, _ = pvlib.iotools.read_tmy3(file, map_variables=True)
    split = sun.Split(
        direct_normal=data.dni.to_numpy(float),
        diffuse_horizontal=data.dhi.to_numpy(float),
        global_horizontal=data.ghi.to_numpy(float),
    )
    return split, path_at(55.317, -160.517, -9)


@pytest.mark.parametrize(("latitude", "longitude", "zone"), PLACES)
def test_a_whole_year_agrees_with_a_reference_library(latitude, longitude, zone):
    path = sun.sun_path(latitude * RAD, longitude * RAD, zone=zone * 3600.0, year=2023)
    times = pd.date_range("2023-01-01 00:30", periods=8760, freq="h", tz="UTC") - pd.Timedelta(hours=zone)
    found = pvlib.solarposition.spa_python(
        times, latitude, longitude, pressure=101325, temperature=10, delta_t=69
    )
    assert path.elevation / RAD == pytest.approx(found.apparent_elevation.to_numpy(), abs=1e-6)
    apart = (path.azimuth / RAD - found.azimuth.to_numpy() + 180.0) % 360.0 - 180.0
    assert np.max(np.abs(apart)) < 1e-5


def test_a_year_of_positions_is_quick():
    path_at(60.0)
    times = []
    for _ in range(5):
        start = time.process_time()
        path_at(60.0)
        times.append(time.process_time() - start)
    assert min(times) < 0.15, "50 ms on a free core"


def test_sunrise_of_the_published_examples():
    """Sunrise of NREL's report: 35 degrees south in July, 35 north in January, at 7:08."""
    for latitude, day in ((-35.0, 187), (35.0, 2)):
        declination = sun.declination(day)
        when = sun.sun_day(latitude * RAD, declination)
        equation = sun.sun_position(sun.julian_day(1996, (day - 1) * 24 + 12), 0.0, longitude=0.0)
        clock = float(when.rise) - float(equation.equation_of_time)
        assert clock == pytest.approx(7 * 3600 + 8 * 60 + 13, abs=60.0)


@pytest.mark.parametrize("latitude", [80.0, -80.0, 90.0, -90.0, 68.0])
def test_polar_day_and_night_have_lengths(latitude):
    days = sun.sun_day(latitude * RAD, sun.declination(np.arange(1, 366)))
    assert np.all(np.isfinite(days.length))
    assert days.length.min() == 0.0
    assert days.length.max() == 86400.0
    assert np.all(days.rise <= days.set)


def test_the_polar_night_has_no_sun_on_any_plane():
    path = path_at(80.0)
    december = slice(334 * 24, 365 * 24)
    assert not path.up[december].any()
    split = sun.Split(
        direct_normal=np.zeros(8760), diffuse_horizontal=np.zeros(8760), global_horizontal=np.zeros(8760)
    )
    for model in sun.SkyModel:
        found = sun.on_plane(split, path, plane=SOUTH_WALL, model=model)
        assert np.all(found.total == 0.0)


def test_a_southern_noon_stands_in_the_north():
    path = path_at(-41.0, -71.0, -5)
    noon = np.argmax(path.elevation[:24])
    assert abs((path.azimuth[noon] / RAD + 180) % 360 - 180) < 15.0


def test_the_mirror_year_is_the_same_half_a_year_later():
    """Length of day of the south is that of the north half a year apart."""
    north = sun.sun_day(50 * RAD, 20 * RAD).length
    south = sun.sun_day(-50 * RAD, -20 * RAD).length
    assert north == pytest.approx(south, rel=1e-12)


@pytest.mark.parametrize("model", list(sun.SkyModel))
@pytest.mark.parametrize(("tilt", "azimuth"), [(90, 180), (90, 90), (90, 270), (90, 0), (60, 180), (0, 180)])
def test_a_real_year_on_planes_agrees_with_a_reference_library(real, model, tilt, azimuth):
    split, path = real
    zenith, around = path.zenith / RAD, path.azimuth / RAD
    found = sun.on_plane(split, path, plane=sun.Plane(tilt=tilt * RAD, azimuth=azimuth * RAD), model=model)
    common = (tilt, azimuth, split.diffuse_horizontal)
    match model:
        case sun.SkyModel.EVEN:
            sky = pvlib.irradiance.isotropic(tilt, split.diffuse_horizontal)
        case sun.SkyModel.HAY_DAVIES:
            sky = pvlib.irradiance.haydavies(
                *common, split.direct_normal, path.extraterrestrial, zenith, around
            )
        case _:
            mass = pvlib.atmosphere.get_relative_airmass(zenith)
            sky = pvlib.irradiance.perez(
                *common, split.direct_normal, path.extraterrestrial, zenith, around, mass
            )
    up = path.up
    assert (found.sky + found.around)[up] == pytest.approx(np.asarray(sky)[up], abs=2e-2)
    beam = split.direct_normal * np.maximum(
        np.cos(np.radians(pvlib.irradiance.aoi(tilt, azimuth, zenith, around))), 0.0
    )
    assert found.beam[up] == pytest.approx(beam[up], abs=1e-6)


def test_a_real_year_gives_the_known_sums(real):
    """kWh/m2 by pvlib with mid-hour sun: vertical S, E, W, N and 60 degrees S."""
    split, path = real
    known = {
        sun.SkyModel.EVEN: (743.2, 530.3, 535.5, 331.5, 936.6),
        sun.SkyModel.HAY_DAVIES: (782.7, 536.3, 543.4, 304.9, 980.6),
        sun.SkyModel.PEREZ: (807.3, 543.2, 552.1, 295.9, 1007.8),
    }
    planes = [(90, 180), (90, 90), (90, 270), (90, 0), (60, 180)]
    for model, expected in known.items():
        sums = [
            float(
                np.sum(
                    sun.on_plane(
                        split, path, plane=sun.Plane(tilt=t * RAD, azimuth=a * RAD), model=model
                    ).total
                )
            )
            / 1e3
            for t, a in planes
        ]
        assert sums == pytest.approx(expected, rel=0.005)


def test_stamps_shifted_by_half_an_hour_would_show(real):
    split, path = real
    late = sun.sun_path(55.317 * RAD, -160.517 * RAD, zone=-9 * 3600.0 - 1800.0)
    east, west = (sun.Plane(tilt=90 * RAD, azimuth=a * RAD) for a in (90, 270))
    right = [np.sum(sun.on_plane(split, path, plane=p).total) for p in (east, west)]
    wrong = [np.sum(sun.on_plane(split, late, plane=p).total) for p in (east, west)]
    assert abs(wrong[0] / right[0] - 1.0) + abs(wrong[1] / right[1] - 1.0) > 0.02


def test_snow_brightens_a_wall_and_not_a_flat_roof(real):
    split, path = real
    flat = sun.Plane(tilt=0.0, azimuth=0.0)
    gains = {}
    for plane in (SOUTH_WALL, flat):
        bare = sun.on_plane(split, path, plane=plane, albedo=sun.ground_albedo(0.0)).total.sum()
        white = sun.on_plane(split, path, plane=plane, albedo=sun.ground_albedo(1.0)).total.sum()
        gains[plane] = white / bare
    assert gains[SOUTH_WALL] > 1.2
    assert gains[flat] == pytest.approx(1.0)


def test_the_shares_of_a_day_sum_to_about_one():
    for sunset in (30.0, 60.0, 90.0, 120.0, 180.0):
        hours = (np.arange(24) + 0.5 - 12.0) * 15.0 * RAD
        assert np.sum(sun.hour_share(hours, sunset * RAD)) == pytest.approx(1.0, abs=0.07)


def test_a_level_horizon_hides_nothing_and_a_high_one_the_winter_sun(real):
    split, path = real
    open_sky = sun.on_plane(split, path, plane=SOUTH_WALL)
    level = sun.Horizon(directions=(0.0,), heights=(0.0,))
    kept = sun.behind_horizon(open_sky, path, plane=SOUTH_WALL, horizon=level)
    assert kept.total.sum() == pytest.approx(open_sky.total.sum(), rel=1e-3)
    hill = sun.Horizon(directions=(90 * RAD, 180 * RAD, 270 * RAD), heights=(0.0, 20 * RAD, 0.0))
    shaded = sun.behind_horizon(open_sky, path, plane=SOUTH_WALL, horizon=hill)
    december, june = slice(334 * 24, 8760), slice(151 * 24, 181 * 24)
    assert shaded.beam[december].sum() < 0.05 * open_sky.beam[december].sum()
    assert shaded.beam[june].sum() > 0.95 * open_sky.beam[june].sum()


def test_an_overhang_takes_the_summer_and_leaves_the_winter(real):
    split, path = real
    sunny = sun.on_plane(split, path, plane=SOUTH_WALL)
    niche = sun.Niche(width=1.5, height=1.0, overhang=0.6, above=0.2)
    under = sun.in_niche(sunny, path, plane=SOUTH_WALL, niche=niche)
    december, june = slice(334 * 24, 8760), slice(151 * 24, 181 * 24)
    assert under.beam[december].sum() > 0.95 * sunny.beam[december].sum()
    assert under.beam[june].sum() < 0.7 * sunny.beam[june].sum()
    assert np.all(under.total <= sunny.total + 1e-9)


def test_a_deeper_reveal_never_lets_in_more(real):
    _, path = real
    last = np.ones(8760)
    for depth in (0.0, 0.1, 0.3, 0.6, 1.5):
        lit = sun.lit_share(sun.Niche(width=0.8, height=1.0, reveal=depth), path, plane=SOUTH_WALL)
        assert np.all(lit <= last + 1e-12)
        assert np.all((lit >= 0.0) & (lit <= 1.0))
        last = lit


REFUSED = {
    "day before the range": lambda: sun.sun_position(1.0, 0.0, longitude=0.0),
    "day NaN": lambda: sun.sun_position(math.nan, 0.0, longitude=0.0),
    "latitude in degrees": lambda: sun.sun_position(2451545.0, 62.9, longitude=0.0),
    "longitude NaN": lambda: sun.sun_position(2451545.0, 0.0, longitude=math.nan),
    "altitude": lambda: sun.sun_position(2451545.0, 0.0, longitude=0.0, altitude=20000.0),
    "year 1500": lambda: sun.julian_day(1500, 0.0),
    "zone in hours is odd but small; 100000 s is not": lambda: sun.sun_path(0.0, 0.0, zone=1e5),
    "declination": lambda: sun.sun_day(0.0, 1.0),
    "depth": lambda: sun.sun_day(0.0, 0.0, seen_at=1.0),
    "day 400": lambda: sun.declination(400),
    "clearness": lambda: sun.erbs_fraction(-0.1),
    "month": lambda: sun.erbs_month(0.1, 1.0),
    "negative sun": lambda: sun.erbs_split(-1.0, 0.0, 1361.0),
    "zenith NaN": lambda: sun.erbs_split(1.0, math.nan, 1361.0),
    "albedo 20": lambda: sun.ground_albedo(20.0),
    "tilt": lambda: sun.Plane(tilt=90.0, azimuth=0.0),
    "no horizon": lambda: sun.Horizon(directions=(), heights=()),
    "falling horizon": lambda: sun.Horizon(directions=(1.0, 0.5), heights=(0.1, 0.1)),
    "horizon below": lambda: sun.Horizon(directions=(1.0,), heights=(-0.1,)),
    "uneven horizon": lambda: sun.Horizon(directions=(1.0, 2.0), heights=(0.1,)),
    "no window": lambda: sun.Niche(width=0.0, height=1.0),
    "negative overhang": lambda: sun.Niche(width=1.0, height=1.0, overhang=-1.0),
    "pressure in hPa": lambda: sun.clear_sky(0.5, 1361.0, pressure=1013.0),
    "ozone in cm": lambda: sun.clear_sky(0.5, 1361.0, pressure=101325.0, ozone=0.3),
    "distance in km": lambda: sun.extraterrestrial_normal(1.5e8),
    "cold": lambda: sun.refraction(0.1, temperature=-300.0),
    "azimuth NaN": lambda: sun.horizon_height(sun.Horizon(directions=(0.0,), heights=(0.1,)), math.nan),
}


@pytest.mark.parametrize("ask", REFUSED.values(), ids=REFUSED.keys())
def test_outside_the_range_is_refused(ask):
    with pytest.raises(OutOfRangeError):
        ask()
