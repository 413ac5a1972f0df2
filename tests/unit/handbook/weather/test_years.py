from __future__ import annotations

import dataclasses
import importlib.util
import math
import re
import time
from pathlib import Path

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.climates import ESTEVAN, OSTERSUND, PLACES, normals
from bermwright.handbook import weather

DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
CUTS = np.cumsum(DAYS)[:-1]


def made(place, seed=1, **given):
    chance = np.random.default_rng(seed)  # noqa: TID251  (a test brings its own chance)
    return weather.synthesise(place, chance, **given)


def by_month(days, how=np.mean):
    return np.array([how(part) for part in np.split(days, CUTS)])


@pytest.fixture(scope="module")
def estevan():
    return made(ESTEVAN)


# ---------------------------------------------------------------- every packaged place
@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_every_place_gets_a_whole_year_with_its_own_months(place):
    year = made(place)
    assert weather.monthly(year.temperature) == pytest.approx(place.mean, abs=1e-9)
    assert np.all(year.humidity <= 1.0)
    assert np.all(year.humidity > 0.02)
    assert np.all(year.direct_normal <= 1100.0)
    assert 600.0 < year.global_horizontal.sum() / 1e3 < 2000.0
    if place.snow_days is not None:
        white = weather.monthly(year.snow_cover) * DAYS
        assert white == pytest.approx(np.minimum(place.snow_days, DAYS), abs=0.51)
    if place.vapour_pressure is not None:
        assert weather.monthly(year.vapour_pressure) == pytest.approx(place.vapour_pressure, rel=0.06)
    if place.daily_spread is not None:
        spread = by_month(weather.daily(year.temperature), np.std)
        assert np.median(np.abs(spread / place.daily_spread - 1.0)) < 0.02
        assert np.max(np.abs(spread - place.daily_spread)) < 1.6


def test_air_is_never_more_than_full_where_a_dew_point_was_read_too_high(estevan):
    read = dataclasses.replace(estevan, dew_point=estevan.temperature + 0.5)
    assert read.humidity.max() == read.humidity.min() == 1.0


def test_the_same_draw_gives_the_same_year_and_another_another(estevan):
    again, other = made(ESTEVAN), made(ESTEVAN, seed=2)
    assert np.array_equal(again.temperature, estevan.temperature)
    assert np.array_equal(again.direct_normal, estevan.direct_normal)
    assert not np.array_equal(other.temperature, estevan.temperature)
    assert "wind assumed" in estevan.source
    assert estevan.made


def test_many_draws_scatter_about_the_known_freezing_index():
    known = float(weather.freezing_index_normal_days(OSTERSUND.mean, OSTERSUND.daily_spread))
    found = [weather.freezing_index_of(made(OSTERSUND, seed)) for seed in range(12)]
    assert np.mean(found) == pytest.approx(known, rel=0.02)
    assert np.std(found) < 0.06 * known


def test_the_southern_summer_is_in_january():
    year = made(normals("Bariloche"))
    warm, light = weather.monthly(year.temperature), weather.monthly(year.global_horizontal)
    assert np.argmax(warm) in {0, 1, 11}
    assert light[0] > 3.0 * light[5]


def test_the_polar_night_is_dark_and_has_no_course_of_the_day():
    year = made(normals("Tromsø"))
    midwinter = slice(350 * 24, 360 * 24)
    assert np.all(year.global_horizontal[midwinter] == 0.0)
    hours = np.reshape(year.temperature[midwinter], (10, 24))
    assert np.abs(np.mean(hours[:, 15] - hours[:, 6])) < 1.5
    for row in ("temperature", "dew_point", "sky_temperature", "direct_normal"):
        assert np.all(np.isfinite(getattr(year, row)))


def test_a_place_at_latitude_80_can_be_made():
    place = dataclasses.replace(normals("Vardø"), latitude=80.0, sunshine=None)
    year = made(place)
    assert np.all(year.global_horizontal[: 30 * 24] == 0.0)
    june = np.reshape(year.global_horizontal[160 * 24 : 170 * 24], (10, 24))
    assert np.all(june > 0.0), "the midnight sun shines at midnight"


def test_days_run_into_each_other_without_steps(estevan):
    steps = np.abs(np.diff(estevan.temperature))
    midnight = steps[23::24]
    assert np.max(midnight) < 3.5
    assert np.mean(midnight) < 1.2 * np.mean(steps)


def test_the_warmest_hour_is_in_the_afternoon_and_the_coldest_before_sunrise(estevan):
    course = np.mean(np.reshape(estevan.temperature, (365, 24)), axis=0)
    assert np.argmax(course) in {14, 15}
    assert np.argmin(course) in {5, 6}


def test_the_sun_is_highest_where_it_shines_most(estevan):
    june = np.mean(np.reshape(estevan.global_horizontal[151 * 24 : 181 * 24], (30, 24)), axis=0)
    assert np.argmax(june) in {11, 12}
    split = estevan.direct_normal * np.maximum(np.sin(estevan.path().elevation), 0.0)
    day = estevan.path().elevation > np.radians(3.5)
    # The year is split by a standard air, this path is seen through the thinner air of Estevan.
    assert (split + estevan.diffuse_horizontal)[day] == pytest.approx(estevan.global_horizontal[day], abs=0.1)


def test_a_more_persistent_winter_has_longer_cold_spells():
    def alike(year):
        days = weather.daily(year.temperature) - weather.daily_means(ESTEVAN.mean)
        return float(np.corrcoef(days[1:], days[:-1])[0, 1])

    short, long = (made(ESTEVAN, 3, persistence=value) for value in (0.3, 0.9))
    assert alike(short) < 0.5
    assert alike(long) > 0.75
    assert weather.coldest_days(long, 5) < weather.coldest_days(short, 5)


def test_a_year_is_made_quickly():
    made(ESTEVAN)
    times = []
    for _ in range(5):
        start = time.process_time()
        made(ESTEVAN)
        times.append(time.process_time() - start)
    assert min(times) < 0.1, "11 ms on a free core"


def test_snow_follows_published_depths_roughly():
    """Brandon prints 21, 24, 15 cm for January to March and 13 cm for December."""
    depth = weather.monthly(made(normals("Brandon")).snow_depth)
    assert depth[[0, 1, 2, 11]] == pytest.approx([0.21, 0.24, 0.15, 0.13], abs=0.14)
    assert np.all(depth[5:9] == 0.0)


# ---------------------------------------------------------------- against real years
def real_years():
    """German test reference years: temperature, sunshine, latitude, longitude, altitude."""
    spec = importlib.util.find_spec("demandlib")
    assert spec is not None
    assert spec.origin is not None
    folder = Path(spec.origin).parent / "vdi" / "resources_weather"
    for number in (3, 8, 10, 11, 13, 15):
        text = (folder / f"TRY2010_{number:02d}_Jahr.dat").read_text(encoding="latin-1")
        place = re.search(r"Lage: +(\d+)\D+(\d+)\D+(\d+)\D+(\d+)\D+(\d+) Meter", text)
        assert place is not None
        parts = [float(part) for part in place.groups()]
        rows = np.array([line.split() for line in text.split("***")[1].split("\n") if line.strip()], float)
        yield pytest.param(rows[:, 8], rows[:, 13] + rows[:, 14], parts, id=f"TRY {number} at {parts[4]:g} m")


@pytest.mark.parametrize(("temperature", "sunshine", "where"), [*real_years()])
def test_a_made_year_is_like_the_real_one_it_has_its_months_from(temperature, sunshine, where):
    """Measured: degree-days within 0.5 %, freezing index 6 % (20 % of 48 K d), sunshine -4 to +22 %."""
    days = np.reshape(temperature, (365, 24))
    place = dataclasses.replace(
        ESTEVAN,
        latitude=where[0] + where[1] / 60.0,
        longitude=where[2] + where[3] / 60.0,
        elevation=where[4],
        mean=tuple(by_month(days.mean(axis=1))),
        maximum=tuple(by_month(days.max(axis=1))),
        minimum=tuple(by_month(days.min(axis=1))),
        daily_spread=tuple(by_month(days.mean(axis=1), np.std)),
        sunshine=None,
        snow_days=None,
    )
    years = [made(place, seed) for seed in range(4)]
    real = days.mean(axis=1)
    heating = np.mean([weather.degree_days(year) for year in years]) / 86400.0
    assert heating == pytest.approx(np.sum(np.maximum(18.0 - real, 0.0)), rel=0.006)
    freezing = np.mean([weather.freezing_index_of(year) for year in years]) / 86400.0
    assert freezing == pytest.approx(np.sum(np.maximum(-real, 0.0)), rel=0.25)
    light = np.mean([year.global_horizontal.sum() for year in years])
    assert light == pytest.approx(sunshine.sum(), rel=0.25)
    hourly = [np.std(year.temperature) for year in years]
    assert np.mean(hourly) == pytest.approx(np.std(temperature), rel=0.05)


# ---------------------------------------------------------------- refused
def changed(estevan, **rows):
    return dataclasses.replace(estevan, **rows)


REFUSED = {
    "8759 hours": lambda year: changed(year, wind=year.wind[1:]),
    "a gap": lambda year: changed(
        year, temperature=np.where(np.arange(8760) == 5, math.nan, year.temperature)
    ),
    "kelvins": lambda year: changed(year, temperature=year.temperature + 273.15),
    "negative sun": lambda year: changed(year, direct_normal=year.direct_normal - 1.0),
    "dew point over the air": lambda year: changed(year, dew_point=year.temperature + 2.0),
    "latitude in degrees": lambda year: changed(year, latitude=49.21),
    "zone in days": lambda year: changed(year, zone=86400.0),
    "hPa": lambda year: changed(year, pressure=year.pressure / 100.0),
    "too much snow": lambda year: changed(year, snow_cover=year.snow_cover + 1.0),
    "coldest of no days": lambda year: weather.coldest_days(year, 0),
    "base": lambda year: weather.degree_days(year, math.nan),
    "days": lambda _: weather.smooth_hours(np.zeros(364)),
    "NaN days": lambda _: weather.smooth_hours(np.full(365, math.nan)),
    "wrong row": lambda _: weather.monthly(np.zeros(365)),
    "snow of other days": lambda _: weather.snow_pack(np.zeros(3), np.zeros(4)),
    "rank": lambda _: weather.day_clearness(0.5, 1.5),
    "wind": lambda _: made(ESTEVAN, wind=math.nan),
    "persistence": lambda _: made(ESTEVAN, persistence=1.0),
    "share": lambda _: weather.design_day(ESTEVAN.mean, ESTEVAN.daily_spread, share=0.0),
}


@pytest.mark.parametrize("ask", REFUSED.values(), ids=REFUSED.keys())
def test_outside_the_range_is_refused(ask, estevan):
    with pytest.raises(OutOfRangeError):
        ask(estevan)


def test_a_year_cannot_be_written_to(estevan):
    with pytest.raises(ValueError, match="read-only"):
        estevan.temperature[0] = 30.0


def test_design_days_are_ordered():
    usual = weather.design_day(ESTEVAN.mean, ESTEVAN.daily_spread, share=0.05)
    rare = weather.design_day(ESTEVAN.mean, ESTEVAN.daily_spread, share=0.01)
    assert min(ESTEVAN.lowest or ()) < rare < usual < min(ESTEVAN.mean)


def test_longer_runs_are_never_colder(estevan):
    runs = [weather.coldest_days(estevan, days) for days in (1, 2, 3, 5, 10, 30)]
    assert runs == sorted(runs)
