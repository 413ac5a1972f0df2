"""Differences in words, the sun of a day, points to a curve."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from bermwright.app.opening import open_house
from bermwright.app.showing.differences import differences
from bermwright.app.showing.sketched import Marked, changes_of, fit_marked
from bermwright.app.showing.sun import NoSunError, sun_of_day
from bermwright.app.showing.variants import _apart, _moved
from bermwright.base.findings import Finding, Verdict
from bermwright.form.sketch import SketchError
from bermwright.handbook.sun import declination, sun_day

HOUSE = """
[house]
name = "A"
[[vault]]
name = "room"
span = "4 m"
points = [["0 m", "0 m"], ["1 m", "2 m"], ["2 m", "0 m"]]
[[vault.cover]]
kind = "lagging"
thickness = "50 mm"
[[end]]
vault = "room"
at = "front"
kind = "planks"
"""


def told(before: str, after: str) -> list[tuple[str, str, str]]:
    return [(one.place, one.before, one.after) for one in differences(before, after)]


def test_the_same_file_and_other_remarks_differ_in_nothing():
    assert told(HOUSE, HOUSE + "\n# a remark\n") == []


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ('span = "4 m"', 'span = "4.2 m"', [('vault "room", span', "4 m", "4.2 m")]),
        ('span = "4 m"', "", [('vault "room", span', "4 m", "not given")]),
        ('"50 mm"', '"45 mm"', [('vault "room", cover "lagging", thickness', "50 mm", "45 mm")]),
        (
            'at = "front"',
            'at = "front"\ndrained = "yes"',
            [('end "room front planks", drained', "not given", "yes")],
        ),
        (
            '["1 m", "2 m"], ',
            '["1 m", "2.2 m"], ',
            [('vault "room", points', "3 points", "3 points, other ones")],
        ),
    ],
)
def test_what_was_changed_is_named_where_it_stands(old, new, says):
    assert told(HOUSE, HOUSE.replace(old, new)) == says


def test_a_part_that_came_and_one_that_went_are_named_as_such():
    more = HOUSE + '\n[[opening]]\nname = "door"\nwidth = "1 m"\n'
    assert told(HOUSE, more) == [
        ('opening "door"', "not given", "new"),
        ('opening "door", name', "not given", "door"),
        ('opening "door", width', "not given", "1 m"),
    ]
    assert told(more, HOUSE) == [('opening "door"', "there", "taken out")]


def test_a_place_is_explained_by_the_reference_of_the_house_file():
    (one,) = differences(HOUSE, HOUSE.replace('"4 m"', '"5 m"'))
    assert one.says.startswith("Width between the feet")


def finding(rule: str, verdict: Verdict, ratio: float | None) -> Finding:
    return Finding(rule=rule, title=rule, part="vault", verdict=verdict, template="x", ratio=ratio)


def test_a_changed_verdict_stands_before_a_changed_ratio():
    before = [
        finding("a", Verdict.HOLDS, 0.5),
        finding("b", Verdict.HOLDS, 0.5),
        finding("c", Verdict.HOLDS, 0.5),
    ]
    after = [
        finding("a", Verdict.HOLDS, 0.8),
        finding("b", Verdict.FAILS, 1.1),
        finding("c", Verdict.HOLDS, 0.5001),
    ]
    assert [one.title for one in _moved(before, after)] == ["b", "a"]


def test_the_worst_finding_of_a_rule_speaks_for_it():
    before = [finding("a", Verdict.TIGHT, 0.95), finding("a", Verdict.HOLDS, 0.2)]
    (one,) = _moved(before, [finding("a", Verdict.HOLDS, 0.2)])
    assert (one.before, one.after, one.ratio_before) == (Verdict.TIGHT, Verdict.HOLDS, 0.95)


def test_an_unknown_ratio_differs_from_a_known_one():
    assert _apart(None, 0.5)
    assert not _apart(None, None)
    assert not _apart(0.501, 0.499)


@pytest.mark.parametrize("day", [1, 80, 172, 266, 355])
def test_the_noon_of_every_season_agrees_with_the_formula_of_the_day(repository, day):
    house = open_house(repository / "examples/larch-bank.toml").house
    found = sun_of_day(house, house.vaults[0], day)
    noon = math.degrees(float(sun_day(house.site.latitude, declination(day)).noon_elevation))
    assert max(found.height) == pytest.approx(noon, abs=0.4)  # refraction of a low sun; leap years
    assert found.height[24] == max(found.height)
    assert len(found.height) == len(found.turn) == 49
    assert np.abs(found.turn).max() <= 180.0


def test_the_sun_turns_with_the_axis(repository):
    house = open_house(repository / "examples/larch-bank.toml").house
    south, west = (replace(house.vaults[0], axis=math.radians(axis)) for axis in (180.0, 270.0))
    assert sun_of_day(house, south, 172).turn[24] == pytest.approx(0.0, abs=0.1)
    assert sun_of_day(house, west, 172).turn[24] == pytest.approx(-90.0, abs=0.1)


@pytest.mark.parametrize("day", [45, 307])
def test_morning_and_afternoon_mirror_each_other_though_clocks_do_not(repository, day):
    house = open_house(repository / "examples/larch-bank.toml").house
    found = sun_of_day(house, replace(house.vaults[0], axis=math.pi), day)
    assert found.height[20] == pytest.approx(found.height[28], abs=0.1)
    assert found.turn[20] == pytest.approx(-found.turn[28], abs=0.2)


def test_without_a_latitude_there_is_no_sun(repository):
    house = open_house(repository / "examples/larch-bank.toml").house
    nowhere = replace(house, site=replace(house.site, latitude=None))
    with pytest.raises(NoSunError, match=r"site\.latitude"):
        sun_of_day(nowhere, nowhere.vaults[0], 172)


def test_a_picture_of_any_size_gives_the_same_curve():
    turn = np.linspace(math.pi, 0.0, 15)
    found = []
    for dots in (80.0, 4000.0):
        points = tuple(
            zip((dots * np.cos(turn)).tolist(), (-0.8 * dots * np.sin(turn)).tolist(), strict=True)
        )
        marked = Marked(points=points, ends=(points[0], points[-1]), length="13 ft 1 1/2 in")
        found.append(fit_marked(marked, None, None).offers[0])
    assert found[0].family == found[1].family == "ellipse"
    assert found[0].measures == found[1].measures


def test_a_picture_without_size_is_refused():
    with pytest.raises(SketchError, match="one apart from the other"):
        fit_marked(Marked(points=((0, 0), (1, -1), (2, 0)), ends=((0, 0), (0, 0)), length="4 m"), None, None)


def test_what_described_the_old_curve_goes_out_of_the_file():
    changes = changes_of(1, (("curve", "ellipse"), ("span", "4 m"), ("rise", "2 m")))
    assert changes["vault", 1, "side_radius"] is None
    assert changes["vault", 1, "points"] is None
    assert changes["vault", 1, "rise"] == "2 m"
