"""What a winter needs and the file does not say is named, and nothing is computed without it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from bermwright.adapt.winter.room.ends import profile_of
from bermwright.adapt.winter.room.fire import fire_of, lightings
from bermwright.adapt.winter.room.known import WinterUnknownError, missing_for_winter
from bermwright.adapt.winter.room.living import living_gains, set_point
from bermwright.adapt.winter.room.windows import openings_year
from bermwright.adapt.winter.winter import winter_of
from bermwright.app.climate import weather_of_place
from bermwright.form import vault_form
from bermwright.formats.house_file import load
from bermwright.house import (
    AnimalKind,
    Animals,
    EndKind,
    Heat,
    Heated,
    House,
    Species,
    Stacked,
    Stove,
    StoveKind,
    Wood,
)


@pytest.fixture(scope="module")
def house(repository) -> House:
    return load(repository / "examples" / "larch-bank.toml").house


@pytest.fixture(scope="module")
def weather():
    return weather_of_place("normals:Estevan")


def test_nothing_is_missing_in_the_example(house):
    assert missing_for_winter(house, house.vaults[0]) == ()


@pytest.mark.parametrize(
    ("change", "missing"),
    [
        ({"heat": None}, "heat"),
        ({"heat": Heat()}, "heat.heated"),
        ({"heat": Heat(heated=Heated.YES)}, "heat.day"),
        ({"air": None}, "air.flow"),
        ({"ends": ()}, "end at front"),
        ({"ground_heat": None}, "ground_heat"),
    ],
)
def test_what_is_missing_is_named(house, weather, change, missing):
    less = replace(house, **change)
    assert missing in missing_for_winter(less, less.vaults[0])
    with pytest.raises(WinterUnknownError, match=missing.replace(".", r"\.")):
        winter_of(less, less.vaults[0], weather)


def test_an_open_end_cannot_be_kept_warm(house):
    ends = tuple(replace(end, kind=EndKind.OPEN) for end in house.ends)
    assert any(
        "stands open" in name for name in missing_for_winter(replace(house, ends=ends), house.vaults[0])
    )


def test_a_window_without_panes_is_asked(house):
    blind = tuple(
        replace(one, panes=None, u_value=None, g_value=None) if one.kind.glazed else one
        for one in house.openings
    )
    assert 'opening "south window".panes' in missing_for_winter(
        replace(house, openings=blind), house.vaults[0]
    )


# ---------------------------------------------------------------- parts
def test_the_profile_has_the_area_of_the_room(house):
    vault = house.vaults[0]
    form = vault_form(house, vault)
    profile = profile_of(form, vault.feet.wall_width)
    assert profile.area(form.springing) == pytest.approx(
        (vault.span - vault.feet.wall_width) * form.springing, rel=0.01
    )
    assert profile.area(1.0) < profile.area()
    assert profile.area(-1.0) == 0.0


def test_set_points_by_day_night_and_frost_guard():
    day = set_point(Heat(heated=Heated.YES, day=21.0, night=15.0))
    assert day[12] == 21.0
    assert day[3] == 15.0
    assert set_point(Heat(heated=Heated.YES, day=21.0))[3] == 21.0
    assert set_point(Heat(heated=Heated.FROST_ONLY))[3] == 5.0
    assert set_point(Heat(heated=Heated.NO))[3] < -200.0


def test_animals_warm_the_house(house):
    goats = replace(house.heat, animals=(Animals(kind=AnimalKind.GOAT, number=2),))
    gains = {one.name: one for one in living_gains(replace(house, heat=goats))}
    assert 150.0 < gains["animals"].heat.mean() < 300.0
    assert gains["cooking"].heat.sum() * 3600.0 == pytest.approx(365 * house.heat.cooking)


@pytest.mark.parametrize(("firings", "hours"), [(1, {17}), (2, {6, 18}), (4, {6, 10, 14, 18})])
def test_when_somebody_fires(firings, hours):
    lit = lightings(Heat(), firings)
    assert {int(hour) for hour in np.flatnonzero(lit[:24])} == hours
    assert lit.sum() == 365 * firings


def test_a_stove_without_a_charge_has_no_fire_yet(house):
    bare = replace(house, stoves=(Stove(name="s", kind=StoveKind.IRON),))
    fire = fire_of(bare, bare.vaults[0])
    assert fire.burning is None
    assert fire.charge is None
    assert fire_of(replace(house, stoves=()), house.vaults[0]) is None
    assert fire_of(replace(house, wood=None), house.vaults[0]) is None


def test_wetter_wood_and_lighter_piles_take_more_room(house):
    def volume(**changes):
        wood = replace(Wood(species=Species.BIRCH, moisture=0.2), **changes)
        other = replace(house, wood=wood)
        return fire_of(other, other.vaults[0]).wood_for(1e10).volume

    assert volume(moisture=0.35) > volume()
    assert volume(species=Species.POPLAR) > volume(species=Species.BEECH)
    assert volume(stacked=Stacked.LOOSE) > volume() > volume(stacked=Stacked.SHORT)


def test_shutters_and_salvaged_glass(house, weather):
    path, vault = weather.path(), house.vaults[0]
    window = next(one for one in house.openings if one.kind.glazed)

    def year(**changes):
        return openings_year(replace(house, openings=(replace(window, **changes),)), vault, weather, path)

    plain, closed, old = year(), year(shutter=True), year(salvaged=True)
    night, noon = 2, 12
    assert closed.losses[0].conductance[night] < plain.losses[0].conductance[night]
    assert closed.losses[0].conductance[noon] == plain.losses[0].conductance[noon]
    assert old.losses[0].conductance[noon] > plain.losses[0].conductance[noon]
    assert 0.0 < old.sun.sum() < plain.sun.sum()
    assert year(overhang=2.0).sun.sum() < plain.sun.sum()
    given = year(u_value=0.8, g_value=0.4)
    assert given.losses[0].conductance[noon] == pytest.approx(0.8 * window.area)
    assert given.sun.sum() < plain.sun.sum()
