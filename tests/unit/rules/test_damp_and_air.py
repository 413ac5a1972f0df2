"""Rules on damp and air: each holds, fails and stays unknown, and says what to do."""

from __future__ import annotations

import re
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from bermwright.base.findings import Verdict
from bermwright.form import vault_form
from bermwright.handbook.damp import saturation_pressure
from bermwright.house import (
    Air,
    Cover,
    CoverKind,
    Drive,
    Heated,
    House,
    Moisture,
    Stove,
    StoveAir,
    StoveKind,
    Supply,
    TubeWall,
)
from bermwright.rules.damp.living import living_of, missing_for_living, vapour_made
from bermwright.rules.nouns import Whole
from bermwright.rules.registry import rule_named

DAMP_RULES = ("layers-dry-out", "corners-stay-free-of-mould", "buried-ribs-stay-dry-enough")
AIR_RULES = ("air-is-fresh", "intake-tube-drains-and-does-not-freeze", "stove-has-its-air")


def whole_of(house: House) -> Whole:
    studies: Any = {
        vault.name: SimpleNamespace(form=vault_form(house, vault), house=house) for vault in house.vaults
    }
    return Whole(house=house, studies=studies)


def said(rule: str, house: House) -> Any:
    (finding,) = rule_named(rule).run(whole_of(house))
    return finding


def with_air(house: House, **changes: Any) -> House:
    assert house.air is not None
    return replace(house, air=replace(house.air, **changes))


def with_tube(house: House, **changes: Any) -> House:
    assert house.air is not None
    assert house.air.tube is not None
    return with_air(house, tube=replace(house.air.tube, **changes))


def with_cover(house: House, cover: tuple[Any, ...]) -> House:
    return replace(house, vaults=(replace(house.vaults[0], cover=cover),))


def outside_in(house: House) -> House:
    """The tight sheet over the insulation instead of under it."""
    sheet = tuple(one for one in house.vaults[0].cover if one.kind is CoverKind.MEMBRANE)
    others = tuple(one for one in house.vaults[0].cover if one.kind is not CoverKind.MEMBRANE)
    return with_cover(house, (*others, *sheet))


def damp_rooms(house: House) -> House:
    """Little air, and a wash a day dried indoors."""
    assert house.moisture is not None
    return replace(with_air(house, flow=60.0 / 3600.0), moisture=replace(house.moisture, laundry=7))


def stove(**changes: Any) -> Stove:
    base = Stove(name="bench", kind=StoveKind.MASONRY, air=StoveAir.ROOM, batch=6.0, burn=5400.0)
    return replace(base, **changes)


@pytest.mark.parametrize("rule", [*DAMP_RULES, *AIR_RULES])
def test_the_careful_builder_is_told_that_it_holds(rule: str, larch_bank: House) -> None:
    house = replace(larch_bank, stoves=(stove(),))
    found = said(rule, house)
    assert found.verdict is Verdict.HOLDS, found.says()
    assert not found.advice


@pytest.mark.parametrize("rule", DAMP_RULES)
@pytest.mark.parametrize("table", ["heat", "air", "moisture"])
def test_damp_is_unknown_without_warmth_air_and_water(rule: str, table: str, larch_bank: House) -> None:
    found = said(rule, replace(larch_bank, **{table: None}))
    assert found.verdict is Verdict.UNKNOWN
    assert table in found.says()
    assert found.advice


def test_a_tight_sheet_outside_gathers_water_and_its_turning_is_advised(larch_bank: House) -> None:
    found = said("layers-dry-out", outside_in(damp_rooms(larch_bank)))
    assert found.verdict is Verdict.FAILS
    assert "rubber sheet" in found.says()
    assert "inside the insulation" in found.advice


def test_a_vapour_control_layer_is_advised_only_where_it_holds(larch_bank: House) -> None:
    sheet, wool = larch_bank.vaults[0].cover[1:]
    planks = larch_bank.vaults[0].cover[0]
    inner = replace(wool, name="wool", material="cellulose", conductivity=0.04)
    boards = replace(sheet, name="boards", material="OSB", thickness=0.018)
    wet = with_cover(damp_rooms(larch_bank), (planks, inner, boards))
    found = said("layers-dry-out", wet)
    assert found.verdict is Verdict.FAILS
    advised = re.search(r'vapour = "([0-9.]+) m" inside the wool', found.advice)
    assert advised is not None
    control = Cover(
        kind=CoverKind.VAPOUR_CONTROL,
        thickness=2e-4,
        conductivity=0.33,
        unit_weight=9e3,
        vapour=float(advised[1]),
    )
    mended = with_cover(wet, (planks, control, inner, boards))
    assert said("layers-dry-out", mended).verdict in {Verdict.HOLDS, Verdict.TIGHT}


def test_what_the_file_leaves_open_of_a_layer_is_asked(larch_bank: House) -> None:
    cover = tuple(replace(one, material=None) for one in larch_bank.vaults[0].cover)
    found = said("layers-dry-out", with_cover(larch_bank, cover))
    assert found.verdict is Verdict.UNKNOWN
    assert "vault.cover.material" in found.says()


def test_less_air_makes_the_corner_damper_until_it_moulds(larch_bank: House) -> None:
    ratios = [
        said("corners-stay-free-of-mould", with_air(larch_bank, flow=flow / 3600.0)).ratio
        for flow in (150.0, 80.0, 30.0)
    ]
    assert ratios == sorted(ratios)
    found = said("corners-stay-free-of-mould", with_air(larch_bank, flow=30.0 / 3600.0))
    assert found.verdict is Verdict.FAILS
    assert "[air] flow" in found.advice


def test_no_air_at_all_is_a_clear_failure_everywhere(larch_bank: House) -> None:
    still = with_air(larch_bank, flow=0.0)
    assert living_of(still).humidity == pytest.approx(np.ones(12))
    assert living_of(still).overflows == tuple(range(12))
    for rule in ("corners-stay-free-of-mould", "buried-ribs-stay-dry-enough", "air-is-fresh"):
        found = said(rule, still)
        assert found.verdict is Verdict.FAILS
        assert np.isfinite(found.demand)
    assert "without bound" in said("air-is-fresh", still).says()
    assert said("intake-tube-drains-and-does-not-freeze", still).verdict is Verdict.FAILS


def test_a_room_nobody_heats_waits_for_the_year_by_the_hour(larch_bank: House) -> None:
    assert larch_bank.heat is not None
    cold = replace(larch_bank, heat=replace(larch_bank.heat, heated=Heated.NO))
    (finding,) = _assessed(cold, "layers-dry-out")
    assert finding.verdict is Verdict.UNKNOWN
    assert "winter" in finding.says()


def _assessed(house: House, rule: str) -> list[Any]:
    from bermwright.rules.assess import _found_of_house

    return list(_found_of_house(rule_named(rule), whole_of(house)))  # type: ignore[arg-type]


def test_service_class_one_asks_for_drier_air(larch_bank: House) -> None:
    dry = replace(larch_bank, vaults=(replace(larch_bank.vaults[0], service_class=1),))
    two = said("buried-ribs-stay-dry-enough", larch_bank)
    one = said("buried-ribs-stay-dry-enough", dry)
    assert one.ratio == pytest.approx(two.ratio * 0.20 / 0.12)
    unknown = replace(larch_bank, vaults=(replace(larch_bank.vaults[0], service_class=None),))
    assert said("buried-ribs-stay-dry-enough", unknown).verdict is Verdict.UNKNOWN


def test_wood_in_air_that_nobody_changes_rots(larch_bank: House) -> None:
    stuffy = replace(larch_bank, air=replace(larch_bank.air, flow=0.0))
    finding = said("buried-ribs-stay-dry-enough", stuffy)
    assert finding.verdict is Verdict.FAILS
    days = float(finding.values["days"].value)
    assert finding.ratio == pytest.approx(365 / days)
    assert "begins to rot within" in finding.says()


def test_vapour_of_people_pots_showers_and_laundry_adds_up(larch_bank: House) -> None:
    about = replace(larch_bank.about, people=2)
    moisture = Moisture(presence=10 * 3600.0, cooking=3600.0, showers=3, laundry=7, others=1.0 / 86_400.0)
    made = vapour_made(replace(larch_bank, about=about, moisture=moisture)) * 86_400.0
    assert made == pytest.approx(2 * 0.05 * 10 + 1.05 + 3 * 2.5 / 12 + 2.6 + 1.0)


def test_an_empty_file_names_every_table(larch_bank: House) -> None:
    empty = replace(
        larch_bank,
        about=replace(larch_bank.about, people=None),
        site=replace(larch_bank.site, climate=None),
        heat=None,
        air=None,
        moisture=Moisture(),
    )
    assert set(missing_for_living(empty)) == {
        "house.people", "site.climate", "heat", "air", "moisture.cooking", "moisture.showers",
        "moisture.laundry",
    }  # fmt: skip


def test_air_outdoors_never_holds_more_than_frost_allows(larch_bank: House) -> None:
    living = living_of(larch_bank)
    assert np.all(living.pressure_outside <= saturation_pressure(living.outside) * (1 + 1e-12))


def test_air_for_people_is_proportional_and_unknown_without_them(larch_bank: House) -> None:
    crowd = replace(larch_bank, about=replace(larch_bank.about, people=9))
    found = said("air-is-fresh", crowd)
    assert found.verdict is Verdict.FAILS
    assert found.ratio == pytest.approx(3 * said("air-is-fresh", larch_bank).ratio)
    assert "225 m³/h" in found.advice
    nobody = replace(larch_bank, about=replace(larch_bank.about, people=None))
    assert said("air-is-fresh", nobody).verdict is Verdict.UNKNOWN
    assert said("air-is-fresh", with_air(larch_bank, supply=None)).verdict is Verdict.UNKNOWN


def test_windows_are_told_to_be_forgotten(larch_bank: House) -> None:
    shut = with_air(larch_bank, supply=Supply.WINDOWS, flow=30.0 / 3600.0, tube=None)
    assert "night" in said("air-is-fresh", shut).advice


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        ({"slope": 0.0}, "less than 1 in 100"),
        ({"drain": False}, "no drain"),
        ({"sealed": False}, "radon"),
        ({"material": TubeWall.CORRUGATED_PLASTIC}, "ribs of its wall"),
        ({"length": 15.0}, "freezes all the way"),
        ({"depth": 0.6}, "freezes all the way"),
    ],
)
def test_a_bad_tube_fails_and_says_why(changes: dict[str, Any], word: str, larch_bank: House) -> None:
    found = said("intake-tube-drains-and-does-not-freeze", with_tube(larch_bank, **changes))
    assert found.verdict is Verdict.FAILS
    assert word in found.says()
    assert found.advice


def test_a_stack_does_not_drive_a_narrow_tube_in_summer(larch_bank: House) -> None:
    stack = with_tube(larch_bank, drive=Drive.STACK, fan_pressure=None, stack_height=4.0)
    found = said("intake-tube-drains-and-does-not-freeze", stack)
    assert found.verdict is Verdict.FAILS
    assert "wider tube" in found.advice
    weak = with_tube(larch_bank, fan_pressure=5.0)
    assert said("intake-tube-drains-and-does-not-freeze", weak).ratio > 1.0


@pytest.mark.parametrize("name", ["depth", "material", "slope", "drain", "sealed", "drive", "fan_pressure"])
def test_a_tube_is_unknown_while_something_is_open(name: str, larch_bank: House) -> None:
    found = said("intake-tube-drains-and-does-not-freeze", with_tube(larch_bank, **{name: None}))
    assert found.verdict is Verdict.UNKNOWN
    assert name in found.says()


def test_without_a_tube_the_rule_does_not_apply(larch_bank: House) -> None:
    house = with_air(larch_bank, tube=None, supply=Supply.FAN)
    assert said("intake-tube-drains-and-does-not-freeze", house).verdict is Verdict.DOES_NOT_APPLY
    assert said("stove-has-its-air", replace(larch_bank, stoves=())).verdict is Verdict.DOES_NOT_APPLY


def test_a_stove_on_room_air_in_a_tight_house_fails(larch_bank: House) -> None:
    tight = Air(supply=Supply.WINDOWS, flow=120.0 / 3600.0, leakage=0.6, extract=200.0 / 3600.0)
    found = said("stove-has-its-air", replace(larch_bank, air=tight, stoves=(stove(),)))
    assert found.verdict is Verdict.FAILS
    assert "own duct" in found.advice
    own = replace(larch_bank, air=tight, stoves=(stove(air=StoveAir.OWN_DUCT),))
    assert said("stove-has-its-air", own).verdict is Verdict.HOLDS
    for hole in ({"air": None}, {"batch": None}):
        assert (
            said("stove-has-its-air", replace(larch_bank, stoves=(stove(**hole),))).verdict is Verdict.UNKNOWN
        )
    leaky = replace(larch_bank, air=replace(tight, leakage=None), stoves=(stove(),))
    assert said("stove-has-its-air", leaky).verdict is Verdict.UNKNOWN


def test_the_steps_can_be_worked_again(larch_bank: House) -> None:
    found = said("corners-stay-free-of-mould", larch_bank)
    by_symbol = {step.symbol: step.result.value for step in found.steps}
    pressure = by_symbol["p_i"]
    assert by_symbol["φ_si"] == pytest.approx(pressure / float(saturation_pressure(by_symbol["T_si"])))
    assert by_symbol["ratio"] == pytest.approx(by_symbol["φ_si"] / 0.8)
