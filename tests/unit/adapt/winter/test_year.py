"""A solved year closes its books, prints what can be recomputed, and tells two climates apart."""

from __future__ import annotations

import ast
import operator
import re
import time
from dataclasses import replace

import numpy as np
import pytest

from bermwright.adapt.winter.telling.findings import findings_of
from bermwright.adapt.winter.telling.picture import WEEKS, deepest_frost, week_of
from bermwright.adapt.winter.telling.saying import advice, sentences
from bermwright.adapt.winter.telling.seasons import by_days, hardest_day, span_text, without_fire
from bermwright.adapt.winter.telling.working import working
from bermwright.adapt.winter.winter import comfort_of
from bermwright.base.errors import OutOfRangeError
from bermwright.base.findings import Verdict
from bermwright.base.units import convert
from bermwright.base.wording import step_words
from bermwright.house import Frost

KWH = 3.6e6


def finding(year, rule):
    return next(one for one in findings_of(year) if one.rule == rule)


# ---------------------------------------------------------------- books
def test_what_comes_in_goes_out(larch_bank, kettle_hill):
    for year in (larch_bank, kettle_hill):
        assert year.balance.error < 1e-6
        come = sum(row.sum() for row in year.balance.gains.values())
        gone = sum(row.sum() for row in year.balance.losses.values())
        assert come == pytest.approx(gone, rel=1e-6)
        assert year.frost.balance < 1e-6


def test_nothing_is_unknown_in_between(larch_bank):
    for row in (larch_bank.shown.room, larch_bank.shown.heat, *larch_bank.watch.values()):
        assert np.isfinite(row).all()
    assert np.isfinite(larch_bank.frost.temperature).all()


def test_the_reduced_ground_says_its_own_error(larch_bank):
    assert 0.0 < larch_bank.ground.model.error.temperature < 0.1


# ---------------------------------------------------------------- printed lines
OPERATORS = {
    ast.Add: operator.add, ast.Sub: operator.sub, ast.Mult: operator.mul, ast.Div: operator.truediv,
    ast.USub: operator.neg,
}  # fmt: skip


def evaluated(text: str) -> float:
    """A printed calculation, worked out again."""
    plain = re.sub(r" (kWh|h)\b", "", text.replace("·", "*").replace("−", "-"))

    def work(node):
        match node:
            case ast.Constant():
                return node.value
            case ast.BinOp():
                return OPERATORS[type(node.op)](work(node.left), work(node.right))
            case ast.UnaryOp():
                return OPERATORS[type(node.op)](work(node.operand))
        raise AssertionError(f"{text}: {ast.dump(node)}")

    return work(ast.parse(plain, mode="eval").body)


def test_every_printed_line_follows_from_its_printed_numbers(larch_bank, kettle_hill):
    checked = 0
    for year in (larch_bank, kettle_hill):
        for step in working(year):
            printed = step_words(step).line.rsplit(" = ", maxsplit=1)[-1]
            shown = float(re.match(r"[−\d.]+", printed).group().replace("−", "-"))
            half = 0.5 * 10.0**-step.result.digits
            assert evaluated(step.filled) == pytest.approx(shown, abs=1.01 * half, rel=2e-3), step.says
            assert convert(step.result.value, step.result.unit) == pytest.approx(shown, abs=1.01 * half)
            checked += 1
    assert checked >= 40


def test_at_least_twenty_lines_are_printed_for_one_house(larch_bank):
    assert len(working(larch_bank)) >= 20


# ---------------------------------------------------------------- climates
def test_two_climates_give_unlike_advice(larch_bank, larch_bank_on_the_prairie):
    here, there = sentences(larch_bank), sentences(larch_bank_on_the_prairie)
    assert here[0] != there[0]
    assert sum(one != other for one, other in zip(here, there, strict=True)) >= 6
    told = [" ".join(one.text for one in advice(year)) for year in (larch_bank, larch_bank_on_the_prairie)]
    assert "No larger windows" in told[0]
    assert "More glass this way" in told[1]
    carries = [
        finding(year, "stove-carries-the-coldest-day") for year in (larch_bank, larch_bank_on_the_prairie)
    ]
    assert carries[0].ratio < carries[1].ratio


def test_permafrost_is_not_known(larch_bank):
    weather = replace(larch_bank.weather, temperature=np.full(8760, -9.0), dew_point=np.full(8760, -12.0))
    found = finding(replace(larch_bank, weather=weather), "ground-is-not-frozen-for-ever")
    assert found.verdict is Verdict.UNKNOWN
    assert "permafrost" in found.says()
    assert not [one for one in findings_of(larch_bank) if one.rule == found.rule]


def test_a_footing_that_freezes_depends_on_the_soil(larch_bank):
    cold = {
        name: row - 20.0 if name.startswith("under footing") else row
        for name, row in larch_bank.watch.items()
    }

    def verdict(frost):
        soil = tuple(replace(one, frost=frost) for one in larch_bank.house.site.soil)
        house = replace(larch_bank.house, site=replace(larch_bank.house.site, soil=soil))
        return finding(replace(larch_bank, watch=cold, house=house), "footing-stays-free-of-frost").verdict

    assert verdict(Frost.SUSCEPTIBLE) is Verdict.FAILS
    assert verdict(Frost.NOT_SUSCEPTIBLE) is Verdict.HOLDS
    assert verdict(None) is Verdict.UNKNOWN


def test_without_a_stove_it_is_not_known_who_keeps_it_warm(larch_bank):
    cold = replace(larch_bank, stove=None, fire=None)
    assert finding(cold, "stove-carries-the-coldest-day").verdict is Verdict.UNKNOWN
    assert finding(cold, "room-gets-warm-enough").verdict is Verdict.UNKNOWN
    assert not [one for one in findings_of(cold) if one.rule == "wood-is-ready"]
    assert "kWh" in sentences(cold)[0]
    assert "birch" not in " ".join(sentences(cold))


def test_a_hot_room_is_told_with_its_months(larch_bank):
    hot = larch_bank.shown.room.copy()
    hot[4500:5300] = 33.0
    comfort = comfort_of(larch_bank.weather, hot, larch_bank.room.set_point)
    year = replace(larch_bank, comfort=comfort, stove=replace(larch_bank.stove, room=hot))
    assert finding(year, "room-stays-cool-enough").verdict is Verdict.FAILS
    assert any("Shade the windows and air at night in July" in one.text for one in advice(year))


def test_the_prairie_has_more_sun_and_harder_days(larch_bank, larch_bank_on_the_prairie):
    one, other = larch_bank, larch_bank_on_the_prairie
    assert other.balance.gains["sun"].sum() > 1.15 * one.balance.gains["sun"].sum()
    assert hardest_day(other.ideal.heat)[1] > hardest_day(one.ideal.heat)[1]
    assert other.comfort.hottest > one.comfort.hottest


# ---------------------------------------------------------------- what is said
def test_larch_bank_is_warm_and_its_wood_lasts(larch_bank):
    verdicts = {one.rule: one.verdict for one in findings_of(larch_bank)}
    assert verdicts["stove-carries-the-coldest-day"] is Verdict.HOLDS
    assert verdicts["room-gets-warm-enough"] is Verdict.HOLDS
    assert verdicts["wood-is-ready"] is Verdict.HOLDS
    assert verdicts["footing-stays-free-of-frost"] is Verdict.HOLDS
    assert verdicts["empty-shell-keeps-frost-out"] is Verdict.DOES_NOT_APPLY


def test_kettle_hill_is_cold_and_says_so(kettle_hill):
    stove = finding(kettle_hill, "stove-carries-the-coldest-day")
    assert stove.verdict is Verdict.FAILS
    assert stove.ratio > 2.0
    assert "times a day" in stove.advice
    assert finding(kettle_hill, "room-gets-warm-enough").verdict is Verdict.FAILS
    assert finding(kettle_hill, "empty-shell-keeps-frost-out").verdict is Verdict.FAILS
    assert finding(kettle_hill, "wood-is-ready").verdict is Verdict.UNKNOWN
    assert any("gives only" in one for one in sentences(kettle_hill))


def test_whatever_is_against_the_builder_has_advice(larch_bank, kettle_hill):
    for year in (larch_bank, kettle_hill):
        for one in findings_of(year):
            if one.verdict in {Verdict.FAILS, Verdict.UNKNOWN, Verdict.TIGHT}:
                assert one.advice, one.rule


def test_no_sentence_claims_safety(larch_bank, kettle_hill):
    for year in (larch_bank, kettle_hill):
        words = " ".join([*sentences(year), *(one.text for one in advice(year)), *year.assumed])
        assert "safe" not in words.lower()
        assert "nan" not in words.lower().split()


def test_imperial_words_have_no_metric_lengths(larch_bank):
    for said in sentences(larch_bank, "imperial"):
        assert "°C" not in said
        assert " m³" not in said


def test_one_degree_less_saves_wood_and_so_does_less_air(larch_bank):
    assert 0.0 < larch_bank.saved["one degree cooler"] < 0.15 * larch_bank.heat
    assert larch_bank.saved["half of the fresh air's warmth kept"] > 0.0


def test_left_alone_it_cools_and_the_better_house_later(larch_bank, kettle_hill):
    assert larch_bank.alone.room[0] > larch_bank.alone.room[72] > larch_bank.alone.room[240]
    assert larch_bank.alone.stays_above(5.0) > kettle_hill.alone.stays_above(5.0)
    assert larch_bank.alone.stays_above(5.0) < larch_bank.alone.stays_above(0.0)
    assert larch_bank.alone.stays_above(-60.0) is None


def test_the_first_winter_takes_most(larch_bank):
    first, second, third = larch_bank.winters
    assert first > second > third > 0.97 * larch_bank.ideal.heat.sum() * 3600.0


def test_the_empty_shell_is_colder_than_the_house_lived_in(larch_bank):
    assert larch_bank.empty.room.mean() < larch_bank.free.room.mean() < larch_bank.ideal.room.mean()
    assert larch_bank.empty_watch["under footing left"].min() < larch_bank.watch["under footing left"].min()


# ---------------------------------------------------------------- pictures
def test_a_week_follows_the_hand(larch_bank):
    week_of(larch_bank, 0)
    took = []
    for number in range(0, WEEKS, 4):
        begin = time.perf_counter()
        week_of(larch_bank, number)
        took.append(time.perf_counter() - begin)
    assert np.median(took) < 0.050


def test_frost_comes_and_goes(larch_bank):
    assert week_of(larch_bank, 30).frozen == 0.0
    hardest = week_of(larch_bank, deepest_frost(larch_bank))
    assert 0.3 < hardest.frozen < 3.0
    assert hardest.frost
    assert set(hardest.levels) == {4.0, 8.0, 12.0, 16.0}


@pytest.mark.parametrize("number", [-1, 52])
def test_there_is_no_such_week(larch_bank, number):
    with pytest.raises(OutOfRangeError, match="weeks 0 to 51"):
        week_of(larch_bank, number)


# ---------------------------------------------------------------- seasons
def test_the_longest_run_without_a_fire_may_pass_the_turn_of_the_year():
    heat = np.full(8760, 100.0)
    heat[: 20 * 24] = 0.0
    heat[-5 * 24 :] = 0.0
    assert without_fire(heat) == (360, 19)
    assert without_fire(np.full(8760, 5.0)) is None
    assert without_fire(np.zeros(8760)) == (0, 364)


def test_days_and_spans():
    assert by_days(np.arange(8760.0))[0] == pytest.approx(11.5)
    assert span_text(25) == "1 day 1 h"
