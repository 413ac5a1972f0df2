from __future__ import annotations

import math

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.climates import ESTEVAN, OSTERSUND, PLACES
from bermwright.handbook import weather

WARM = (9.0, 9.0, 11.0, 13.0, 16.0, 20.0, 22.0, 22.0, 19.0, 15.0, 12.0, 10.0)


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_trapezoid_is_below_simple_is_below_normal_days(place):
    trapezoid = weather.freezing_index_trapezoid(place.mean)
    simple = weather.freezing_index_simple(place.mean)
    assert trapezoid <= 1.001 * simple
    if place.daily_spread is not None:
        assert simple < weather.freezing_index_normal_days(place.mean, place.daily_spread)


def test_without_spread_the_index_says_that_it_reads_low():
    assert weather.freezing_index(ESTEVAN.mean).reads_low
    assert not weather.freezing_index(ESTEVAN.mean, ESTEVAN.daily_spread).reads_low


def test_many_places_at_once():
    both = np.array([OSTERSUND.mean, ESTEVAN.mean])
    single = [float(weather.freezing_index_trapezoid(row)) for row in both]
    assert weather.freezing_index_trapezoid(both) == pytest.approx(single)


@pytest.mark.parametrize("index", [weather.freezing_index_simple, weather.freezing_index_trapezoid])
def test_eleven_months_are_refused(index):
    with pytest.raises(OutOfRangeError, match="Twelve monthly values"):
        index(ESTEVAN.mean[:11])


UNKNOWN = (math.nan,) * 12
REFUSED = {
    "simple, NaN": lambda: weather.freezing_index_simple(UNKNOWN),
    "trapezoid, NaN": lambda: weather.freezing_index_trapezoid(UNKNOWN),
    "spread NaN": lambda: weather.freezing_index_normal_days(ESTEVAN.mean, UNKNOWN),
    "spread below zero": lambda: weather.freezing_index_normal_days(ESTEVAN.mean, (-1.0,) * 12),
    "course, NaN": lambda: weather.daily_means(UNKNOWN),
    "limit NaN": lambda: weather.cold_season(ESTEVAN.mean, below=math.nan),
    "negative time": lambda: weather.cold_below(0.0, 1.0, -1.0),
    "kelvins instead of degrees": lambda: weather.cold_below(273.15, 1.0, 1.0),
    "day 366": lambda: weather.month_and_day(366),
    "day 0": lambda: weather.month_and_day(0),
}


@pytest.mark.parametrize("ask", REFUSED.values(), ids=REFUSED.keys())
def test_outside_the_range_is_refused(ask):
    with pytest.raises(OutOfRangeError):
        ask()


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_the_daily_course_keeps_each_month_its_mean(place):
    course = weather.daily_means(place.mean)
    days = np.split(course, np.cumsum([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30]))
    assert [month.mean() for month in days] == pytest.approx(place.mean)


@pytest.mark.parametrize("place", PLACES, ids=lambda place: place.name)
def test_the_daily_course_does_not_overshoot_by_much(place):
    course = weather.daily_means(place.mean)
    assert min(place.mean) - 1.5 < course.min()
    assert course.max() < max(place.mean) + 1.5


def test_winter_runs_over_new_year():
    season = weather.cold_season(OSTERSUND.mean, below=5.0)
    assert season.begins > season.ends
    assert season.days == 365 - season.begins + 1 + season.ends
    assert weather.month_and_day(season.begins)[0] == 10
    assert weather.month_and_day(season.ends)[0] == 5


def test_southern_winter_lies_within_the_year():
    season = weather.cold_season(ESTEVAN.mean[6:] + ESTEVAN.mean[:6], below=5.0)
    assert season.begins < season.ends
    assert season.days == season.ends - season.begins + 1


def test_no_winter_and_always_winter():
    assert weather.cold_season(WARM, below=0.0) == weather.ColdSeason(begins=None, ends=None, days=0)
    assert weather.cold_season(WARM, below=40.0) == weather.ColdSeason(begins=None, ends=None, days=365)


def test_every_day_has_its_date():
    dates = [weather.month_and_day(day) for day in range(1, 366)]
    assert len(set(dates)) == 365
    assert dates == sorted(dates)
    assert dates[58] == (2, 28)
