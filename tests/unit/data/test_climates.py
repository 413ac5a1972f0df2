from __future__ import annotations

import dataclasses
import math

import pytest

from bermwright.data.climates import ESTEVAN, PLACES, UnknownClimateError, normals


@pytest.mark.parametrize("name", ["normals:Estevan", "Estevan", " ESTEVAN ", "normals: estevan"])
def test_a_place_is_found_however_it_is_written(name):
    assert normals(name) is ESTEVAN


def test_accents_do_not_matter():
    assert normals("normals:Ostersund Froson") is normals("normals:Östersund Frösön")


def test_an_unknown_place_lists_what_there_is_and_the_nearest():
    with pytest.raises(UnknownClimateError, match=r"Nearest: normals:Estevan.*Östersund") as caught:
        normals("normals:Estevn")
    assert 'No climate is called "Estevn".' in str(caught.value)


def test_a_far_name_gets_no_nearest():
    with pytest.raises(UnknownClimateError) as caught:
        normals("Qqq")
    assert "Nearest" not in str(caught.value)


def test_both_places_are_published_normals_with_frost_and_without_permafrost():
    for place in PLACES:
        assert place.kind == "published normals"
        assert not place.cite.provenance.needs_review
        assert min(place.mean) < 0.0 < place.annual_mean
        assert place.coldest_month == 1


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
