from __future__ import annotations

import dataclasses
import math

import numpy as np
import pytest

from bermwright.data.climates import (
    AVERAGED,
    ESTEVAN,
    PLACES,
    PUBLISHED,
    UnknownClimateError,
    lookup,
    names_like,
    nearest,
    normals,
)


@pytest.mark.parametrize("name", ["normals:Estevan", "Estevan", " ESTEVAN ", "normals: estevan"])
def test_a_place_is_found_however_it_is_written(name):
    assert normals(name) is ESTEVAN


def test_accents_do_not_matter():
    assert normals("normals:Ostersund Froson") is normals("normals:Östersund Frösön")


def test_an_unknown_place_lists_what_there_is_and_the_nearest():
    with pytest.raises(UnknownClimateError, match=r'Nearest: "normals:Estevan".*74 places') as caught:
        normals("normals:Estevn")
    assert 'No climate is called "Estevn".' in str(caught.value)


def test_a_far_name_gets_no_nearest():
    with pytest.raises(UnknownClimateError) as caught:
        normals("Qqq")
    assert "Nearest" not in str(caught.value)


def test_every_place_has_a_name_a_station_and_a_source_of_its_own():
    assert len(PLACES) == 74
    assert len({place.name for place in PLACES}) == 74
    assert {place.kind for place in PLACES} == {PUBLISHED, AVERAGED}
    for place in PLACES:
        assert normals(f"normals:{place.name}") is place
        assert place.climate
        assert -90.0 < place.latitude < 90.0
        assert -180.0 <= place.longitude <= 180.0


def test_what_is_from_memory_says_so():
    assert [place.name for place in PLACES if place.cite.provenance.needs_review] == ["Leh"]
    assert any("memory" in doubt for doubt in normals("Leh").doubts)


def test_the_coldest_month_fits_the_hemisphere():
    winter = {True: {12, 1, 2, 3}, False: {6, 7, 8}}
    for place in PLACES:
        coldest = 1 + place.mean.index(min(place.mean))
        assert coldest in winter[place.latitude > 0.0], place.name


def test_sunshine_of_a_year_is_shorter_than_its_daylight():
    for place in PLACES:
        if place.sunshine is not None:
            assert 800.0 < sum(place.sunshine) < 4480.0, place.name


def test_humidity_and_vapour_pressure_tell_the_same():
    place = normals("Minsk")
    assert place.humidity is not None
    assert place.vapour_pressure is not None
    saturated = 611.2 * np.exp(17.62 * np.array(place.mean) / (243.12 + np.array(place.mean)))
    assert np.array(place.vapour_pressure) / saturated == pytest.approx(place.humidity, abs=0.04)


def test_permafrost_is_a_doubt_of_its_own():
    frozen = {place.name for place in PLACES if any("Permafrost" in doubt for doubt in place.doubts)}
    assert frozen >= {"Yakutsk", "Oymyakon", "Kuujjuaq", "Fairbanks AK"}
    assert "Estevan" not in frozen


def test_the_nearest_stations_of_a_site_come_with_their_distance():
    near = nearest(math.radians(62.9), math.radians(14.5))
    assert [place.name for place, _ in near] == ["Östersund Frösön", "Fokstugu (Dovre)", "Oslo-Gardermoen"]
    assert near[0][1] == pytest.approx(33_400.0, abs=200.0)


def test_a_degree_of_longitude_on_the_equator_is_111_km():
    point = dataclasses.replace(ESTEVAN, latitude=0.0, longitude=1.0)
    assert lookup._distance(point, 0.0, 0.0) == pytest.approx(111_195.0, abs=1.0)


@pytest.mark.parametrize(("written", "found"), [("tromso", "Tromsø"), ("Moron", "Mörön (Murun)")])
def test_brackets_and_strokes_may_be_left_out(written, found):
    assert normals(written).name == found


def test_a_second_name_is_found_as_a_near_one():
    assert names_like("toblach") == ("Dobbiaco / Toblach",)


@pytest.mark.parametrize(
    ("change", "match"),
    [
        ({"mean": ESTEVAN.mean[:11]}, "twelve"),
        ({"mean": (math.nan, *ESTEVAN.mean[1:])}, "finite"),
        ({"minimum": (0.0, *ESTEVAN.minimum[1:])}, "order"),
        ({"precipitation": (-1.0, *ESTEVAN.precipitation[1:])}, "below 0"),
        ({"minimum": (-300.0, *ESTEVAN.minimum[1:])}, "below -273"),
    ],
)
def test_a_bad_row_is_refused(change, match):
    with pytest.raises(ValueError, match=match):
        dataclasses.replace(ESTEVAN, **change)
