from __future__ import annotations

from dataclasses import replace

import pytest

from bermwright.data.climates import OSTERSUND, UnknownClimateError
from bermwright.house import About, House, Site
from bermwright.takeoff import site_seasons
from bermwright.takeoff.seasons import Seasons


def at(**site):
    return site_seasons(House(about=About(name="Test"), site=Site(**site)))


def test_the_station_of_the_file_gives_the_winter():
    seasons = at(climate="normals:Östersund Frösön", altitude=320.0)
    assert seasons.place is OSTERSUND
    said = " ".join(seasons.sentences())
    assert "below 5 °C from about 10 October to about 5 May" in said
    assert "911 K d" in said
    assert "reads low" not in said
    assert "lies" not in said
    assert len(seasons.cites) == 2


def test_a_site_far_above_its_station_says_so():
    said = " ".join(at(climate="normals:Estevan", altitude=900.0).sentences())
    assert "319 m higher than the station" in said


def test_a_site_of_unknown_height_says_so():
    assert any("not known" in said for said in at(climate="normals:Estevan").sentences())


@pytest.mark.parametrize("climate", [None, "weather/site.epw"])
def test_without_packaged_normals_nothing_is_said(climate):
    assert at(climate=climate) is None


def test_a_wrong_name_is_refused():
    with pytest.raises(UnknownClimateError, match="Nearest"):
        at(climate="normals:Estevann")


def test_without_a_spread_the_index_reads_low(monkeypatch):
    bare = replace(OSTERSUND, daily_spread=None, daily_spread_cite=None)
    monkeypatch.setattr("bermwright.takeoff.seasons.normals", lambda _name: bare)
    seasons = at(climate="normals:any")
    assert isinstance(seasons, Seasons)
    said = " ".join(seasons.sentences())
    assert "840 K d" in said
    assert "reads low" in said


def test_a_warm_place_has_no_winter(monkeypatch):
    warm = replace(
        OSTERSUND,
        mean=tuple(value + 20.0 for value in OSTERSUND.mean),
        maximum=tuple(value + 20.0 for value in OSTERSUND.maximum),
        minimum=tuple(value + 20.0 for value in OSTERSUND.minimum),
    )
    monkeypatch.setattr("bermwright.takeoff.seasons.normals", lambda _name: warm)
    said = " ".join(at(climate="normals:any").sentences())
    assert "0 °C on no day of the average year" in said
