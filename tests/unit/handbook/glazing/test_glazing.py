from __future__ import annotations

import math
import time
from dataclasses import replace

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.data.climates import ESTEVAN, normals
from bermwright.data.glasses import CLEAR, GLASSES, Gap, Glass, aged
from bermwright.handbook import glazing
from bermwright.handbook.sun import Horizon, Niche, Plane
from bermwright.handbook.weather import synthesise

RAD = math.pi / 180.0
SOUTH, NORTH = (Plane(tilt=90 * RAD, azimuth=a * RAD) for a in (180.0, 0.0))
SQUARE = Niche(width=1.0, height=1.2)


def made(place, seed=1):
    return synthesise(place, np.random.default_rng(seed))  # noqa: TID251  (a test brings its own chance)


@pytest.fixture(scope="module")
def year():
    return made(ESTEVAN, 1)


@pytest.fixture(scope="module")
def path(year):
    return year.path()


# ---------------------------------------------------------------- glass
@pytest.mark.parametrize(
    ("name", "u", "g"),
    [
        ("single", (5.6, 5.9), (0.85, 0.87)),
        ("double", (2.8, 2.9), (0.75, 0.78)),
        ("double, coated", (1.0, 1.2), (0.60, 0.63)),
        ("triple", (1.8, 1.95), (0.68, 0.72)),
        ("triple, coated", (0.6, 0.75), (0.50, 0.53)),
    ],
)
def test_usual_glazings_have_usual_values(name, u, g):
    glass = GLASSES[name]
    assert u[0] <= glazing.glass_u(glass) <= u[1]
    assert g[0] - 0.005 <= float(glazing.solar_factor(glass)) <= g[1] + 0.005


@pytest.mark.parametrize("glass", GLASSES.values(), ids=lambda glass: glass.name)
def test_what_comes_in_and_what_is_caught_is_never_more_than_what_came(glass):
    angles = np.radians(np.arange(0.0, 91.0))
    caught, passed = glazing.absorbed(glass, angles)
    assert np.all(passed >= 0.0)
    assert all(np.all(part >= -1e-12) for part in caught)
    assert np.all(sum(caught) + passed <= 1.0 + 1e-12)
    factor = glazing.solar_factor(glass, angles)
    assert np.all(np.diff(factor) <= 1e-3)
    assert factor[-1] == pytest.approx(0.0, abs=1e-3)
    assert 0.8 < glazing.diffuse_factor(glass) / factor[0] < 0.93


@pytest.mark.parametrize("glass", GLASSES.values(), ids=lambda glass: glass.name)
def test_lying_flat_loses_more(glass):
    losses = [glazing.glass_u(glass, tilt=tilt * RAD) for tilt in (90.0, 60.0, 45.0, 0.0)]
    assert losses[-1] > losses[0]


@pytest.mark.parametrize("name", ["double", "double, coated", "triple", "triple, coated"])
def test_salvaged_glass_loses_as_much_or_more_and_lets_in_less(name):
    new, old = GLASSES[name], GLASSES[f"{name}, salvaged"]
    assert old == aged(new)
    assert glazing.glass_u(old) >= glazing.glass_u(new)
    assert glazing.solar_factor(old) < glazing.solar_factor(new)
    assert "Fog" in old.note


def test_the_best_gap_of_air_is_about_16_mm():
    def loss(width):
        return glazing.glass_u(replace(GLASSES["double"], gaps=(Gap(width=width),)))

    widths = np.arange(6, 30) / 1000.0
    assert widths[np.argmin([loss(w) for w in widths])] == pytest.approx(0.016, abs=0.0021)


def test_panes_without_their_gaps_are_refused():
    with pytest.raises(ValueError, match="n - 1 gaps"):
        Glass(name="x", panes=(CLEAR, CLEAR), cite=GLASSES["single"].cite)


# ---------------------------------------------------------------- windows over a year
def test_south_brings_most_and_north_least(year):
    rows = glazing.window_scan(
        year, GLASSES["triple, coated"], azimuths=tuple(np.radians((0.0, 90.0, 180.0, 270.0)))
    )
    gains = [row.balance.gain for row in rows]
    assert np.argmax(gains) == 2
    assert np.argmin(gains) == 0
    assert gains[1] == pytest.approx(gains[3], rel=0.05)


def test_the_south_of_the_south_is_its_north():
    far = made(normals("Ushuaia"), 1)
    south, north = glazing.window_scan(far, GLASSES["double"], azimuths=(math.pi, 0.0))
    assert north.balance.gain > 1.5 * south.balance.gain


def test_a_shutter_saves_and_costs_no_sun(year):
    plain, shut, thick = glazing.window_scan(year, GLASSES["double"], shutters=(0.0, 0.3, 1.0))
    assert plain.balance.gain == shut.balance.gain
    assert plain.balance.loss > shut.balance.loss > thick.balance.loss
    assert shut.balance.net > plain.balance.net


def test_a_small_window_has_more_frame(year):
    small, large = glazing.window_scan(year, GLASSES["triple, coated"], areas=(0.25, 4.0))
    assert small.balance.gain < 0.65 * large.balance.gain


def test_an_overhang_takes_surplus_before_it_takes_gain(year):
    niche = Niche(width=1.0, height=1.0, overhang=0.5, above=0.15)
    bare, under = glazing.window_scan(year, GLASSES["double"], niches=(Niche(width=1.0, height=1.0), niche))
    assert (bare.overhang, under.overhang) == (0.0, 0.5)
    kept = under.balance.gain / bare.balance.gain
    assert under.balance.surplus / bare.balance.surplus < kept < 1.0


def test_a_hill_in_the_south_takes_the_winter(year, path):
    window = glazing.window_of(GLASSES["double"], SOUTH, SQUARE)
    hill = Horizon(directions=(90 * RAD, 180 * RAD, 270 * RAD), heights=(0.0, 25 * RAD, 0.0))
    bare = glazing.window_year(window, year, path)
    hidden = glazing.window_year(window, year, path, horizon=hill)
    january = slice(0, 31 * 24)
    assert hidden.gain[january].sum() < 0.6 * bare.gain[january].sum()
    assert np.array_equal(hidden.loss, bare.loss)


def test_snow_on_the_ground_shows_in_the_gain(year, path):
    window = glazing.window_of(GLASSES["double"], SOUTH, SQUARE)
    bare = replace(year, snow_cover=np.zeros(8760))
    january = slice(0, 31 * 24)
    white = glazing.window_year(window, year, path).gain[january].sum()
    assert white > 1.08 * glazing.window_year(window, bare, path).gain[january].sum()


def test_the_balance_is_the_sum_of_its_hours(year, path):
    window = glazing.window_of(GLASSES["double"], SOUTH, SQUARE, shutter=0.5)
    hours = glazing.window_year(window, year, path)
    balance = glazing.window_balance(hours, year)
    whole = np.sum(hours.gain) * 3600.0 / window.area
    assert balance.gain + balance.surplus == pytest.approx(whole, rel=1e-12)
    assert balance.net == balance.gain - balance.loss
    assert set(np.round(hours.loss / window.area, 9)) == {round(window.u, 9), round(window.shutter_u, 9)}


def test_the_best_pane_comes_first(year):
    found = glazing.compare_glasses(year, tuple(GLASSES.values()), SOUTH)
    nets = [balance.net for _, balance in found]
    assert nets == sorted(nets, reverse=True)
    assert found[-1][0].glass.name == "single, salvaged"


def test_a_cold_dark_north_wall_wants_the_lowest_loss(year):
    found = glazing.compare_glasses(year, tuple(GLASSES.values()), NORTH)
    assert found[0][0].glass.name == "triple, coated"


def test_year_and_scan_are_quick():
    start = time.process_time()
    glazing.window_scan(
        made(ESTEVAN, 5),
        GLASSES["double, coated"],
        tilts=tuple(np.radians((0.0, 45.0, 90.0))),
        azimuths=tuple(np.radians((0.0, 90.0, 180.0, 270.0))),
        shutters=(0.0, 0.5),
    )
    assert time.process_time() - start < 0.6, "0.1 s on a free core"


def test_a_window_of_frame_alone_lets_nothing_in(year, path):
    window = glazing.window_of(GLASSES["double"], SOUTH, Niche(width=0.2, height=1.0))
    assert window.glass_share == 0.0
    assert window.u == pytest.approx(1.4)
    assert glazing.window_year(window, year, path).gain.sum() == 0.0


REFUSED = {
    "tilt over 90": lambda: glazing.glass_u(GLASSES["double"], tilt=2.0),
    "gap in mm": lambda: glazing.gas_conductance(Gap(width=12.0)),
    "share": lambda: glazing.gas_conductance(Gap(width=0.012, share=1.2)),
    "emissivity 0": lambda: glazing.radiant_conductance(0.0, 0.8),
    "angle in degrees": lambda: glazing.clear_pane(60.0),
    "a pane of more than all": lambda: glazing.solar_factor(
        replace(GLASSES["single"], panes=(replace(CLEAR, transmission=0.95),))
    ),
    "negative frame": lambda: glazing.frame_share(1.0, 1.0, -0.1),
    "no area": lambda: glazing.window_u(
        glass_area=0.0, frame_area=0.0, edge=0.0, glass_u=1.0, frame_u=1.0, edge_psi=0.0
    ),
    "U of nothing": lambda: glazing.shuttered_u(0.0, 0.5),
    "shutter NaN": lambda: glazing.window_of(GLASSES["double"], SOUTH, SQUARE, shutter=math.nan),
}


@pytest.mark.parametrize("ask", REFUSED.values(), ids=REFUSED.keys())
def test_outside_the_range_is_refused(ask):
    with pytest.raises(OutOfRangeError):
        ask()


def test_a_house_at_70_degrees_is_not_asked_for_in_a_balance(year):
    empty = glazing.WindowYear(area=1.0, gain=np.zeros(8760), loss=np.zeros(8760))
    with pytest.raises(OutOfRangeError):
        glazing.window_balance(empty, year, indoor=70.0)
    with pytest.raises(OutOfRangeError):
        glazing.window_balance(empty, year, heated_below=math.nan)
