"""Wood where it lies, pipes under their soil, drains: holding, failing and unknown."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bermwright.base.findings import Verdict
from bermwright.house import CoverKind, Outlet, PipeKind, Timbers, Tree, TubeWall, contradictions
from bermwright.rules.lasting.pipes import DRAINS_OPEN, PIPES_HOLD
from bermwright.rules.lasting.places import timber_places
from bermwright.rules.lasting.wood import WOOD_FITS, lasting_timbers
from bermwright.rules.nouns import Whole

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House, Pipe, WoodPart
    from bermwright.rules.nouns import HouseRule

YEAR = 365.25 * 86_400.0


def said(rule: HouseRule, house: House) -> tuple[Finding, ...]:
    return rule.run(Whole(house=house, studies={}))


def with_wood(house: House, part: Timbers | None, **changes: object) -> House:
    def changed(one: WoodPart) -> WoodPart:
        return replace(one, **changes) if one.part is part else one

    return replace(house, wood_parts=tuple(changed(one) for one in house.wood_parts))


def with_drain(house: House, **changes: object) -> House:
    def changed(one: Pipe) -> Pipe:
        return replace(one, **changes) if one.kind is PipeKind.DRAIN else one

    return replace(house, pipes=tuple(changed(one) for one in house.pipes))


def about(findings: tuple[Finding, ...], words: str) -> Finding:
    return next(one for one in findings if one.says().startswith(words))


# ------------------------------------------------------------------ wood


def test_the_example_lasts_where_it_is_renewed_as_planned(larch_bank: House) -> None:
    findings = said(WOOD_FITS, larch_bank)
    assert {one.verdict for one in findings} == {Verdict.HOLDS}
    posts = about(findings, "End posts")
    assert posts.ratio == pytest.approx(25.0 / 30.0)
    assert posts.steps[-1].result.value == pytest.approx(posts.ratio)


def test_wood_in_the_ground_does_not_last_as_long_as_the_house(larch_bank: House) -> None:
    house = with_wood(larch_bank, Timbers.END_POSTS, renewed_every=None)
    found = about(said(WOOD_FITS, house), "End posts")
    assert found.verdict is Verdict.FAILS
    assert found.ratio == pytest.approx(50.0 / 30.0)


@pytest.mark.parametrize(("tree", "years"), [(Tree.SPRUCE, 2), (Tree.LARCH, 2), (Tree.ROBINIA, 2)])
def test_sapwood_rots_first_whatever_the_tree(larch_bank: House, tree: Tree, years: int) -> None:
    house = with_wood(larch_bank, Timbers.END_POSTS, species=tree, treated_for=None, treated_years=None)
    (posts,) = (one for one in lasting_timbers(house) if one.place.timbers is Timbers.END_POSTS)
    assert posts.life == pytest.approx(years * YEAR)


def test_heartwood_of_robinia_outlasts_heartwood_of_larch_in_the_ground(larch_bank: House) -> None:
    lives = []
    for tree in (Tree.LARCH, Tree.ROBINIA):
        house = with_wood(
            larch_bank, Timbers.END_POSTS, species=tree, heartwood_only=True, treated_for=None,
            treated_years=None,
        )  # fmt: skip
        lives += [one.life or 0.0 for one in lasting_timbers(house) if one.place.timbers is Timbers.END_POSTS]
    assert lives[1] > 2.0 * lives[0]


def test_a_treatment_for_a_milder_place_counts_for_nothing(larch_bank: House) -> None:
    house = with_wood(larch_bank, Timbers.END_POSTS, treated_for=3)
    assert about(said(WOOD_FITS, house), "End posts").verdict is Verdict.FAILS


def test_a_certificate_for_a_hundred_years_is_not_believed(larch_bank: House) -> None:
    house = with_wood(larch_bank, Timbers.END_POSTS, treated_years=100.0 * YEAR, renewed_every=40.0 * YEAR)
    assert about(said(WOOD_FITS, house), "End posts").verdict is Verdict.FAILS


def test_without_a_sheet_everything_lies_in_the_ground(larch_bank: House) -> None:
    vault = larch_bank.vaults[0]
    bare = tuple(one for one in vault.cover if one.kind is not CoverKind.MEMBRANE)
    house = replace(larch_bank, vaults=(replace(vault, cover=bare),))
    of_vault = [one for one in timber_places(house) if one.at is None]
    assert {one.use_class for one in of_vault} == {4}
    findings = said(WOOD_FITS, house)
    ribs = about(findings, "Ribs")
    assert ribs.verdict is Verdict.FAILS
    assert "service class 2" in ribs.says()


def test_plates_without_felt_and_ends_without_air_count_worse(larch_bank: House) -> None:
    wet = about(said(WOOD_FITS, with_wood(larch_bank, None, damp_course=False)), "Plates")
    assert wet.verdict is Verdict.FAILS
    (ribs,) = (
        one
        for one in lasting_timbers(with_wood(larch_bank, None, ends_aired=False))
        if one.place.timbers is Timbers.RIBS
    )
    assert ribs.use_class == 3


def test_what_nobody_can_look_at_fails(larch_bank: House) -> None:
    ribs = about(said(WOOD_FITS, with_wood(larch_bank, None, looked_at="")), "Ribs")
    assert ribs.verdict is Verdict.FAILS
    assert "looked_at" in ribs.advice


@pytest.mark.parametrize("name", ["species", "ends_aired", "damp_course"])
def test_what_is_not_said_of_the_wood_is_not_known(larch_bank: House, name: str) -> None:
    plates = about(said(WOOD_FITS, with_wood(larch_bank, None, **{name: None})), "Plates")
    assert plates.verdict is Verdict.UNKNOWN
    assert name in plates.advice


def test_a_house_that_says_nothing_of_its_wood_is_not_known(larch_bank: House) -> None:
    findings = said(WOOD_FITS, replace(larch_bank, wood_parts=()))
    assert {one.verdict for one in findings} == {Verdict.UNKNOWN}


# ------------------------------------------------------------------ pipes


def test_pipes_of_the_example_keep_their_shape(larch_bank: House) -> None:
    assert {one.verdict for one in said(PIPES_HOLD, larch_bank)} == {Verdict.HOLDS}
    assert {one.verdict for one in said(DRAINS_OPEN, larch_bank)} == {Verdict.HOLDS}


def test_a_soft_hose_in_silt_is_pressed_flat(larch_bank: House) -> None:
    from bermwright.house import Bedding

    house = with_drain(larch_bank, stiffness=2000.0, bedding=Bedding.SOIL, tamped=False)
    drain = next(one for one in said(PIPES_HOLD, house) if "drain" in one.part)
    assert drain.verdict is Verdict.FAILS
    assert drain.steps[-1].result.value == pytest.approx(drain.ratio)


def test_stiffer_pipe_and_less_soil_give_way_less(larch_bank: House) -> None:
    def used(**changes: object) -> float:
        found = said(PIPES_HOLD, with_drain(larch_bank, **changes))
        return next(one.ratio or math.nan for one in found if "drain" in one.part)

    assert used(stiffness=16e3) < used()
    assert used(soil_over=1.4) == pytest.approx(0.5 * used(soil_over=2.8))


@pytest.mark.parametrize("changes", [{"stiffness": None}, {"bedding": None}, {"material": TubeWall.CLAY}])
def test_a_pipe_about_which_too_little_is_known(larch_bank: House, changes: dict[str, object]) -> None:
    drain = next(one for one in said(PIPES_HOLD, with_drain(larch_bank, **changes)) if "drain" in one.part)
    assert drain.verdict is Verdict.UNKNOWN
    assert drain.advice


def test_the_air_tube_is_asked_for(larch_bank: House) -> None:
    drains = tuple(one for one in larch_bank.pipes if one.kind is PipeKind.DRAIN)
    findings = said(PIPES_HOLD, replace(larch_bank, pipes=drains))
    assert Verdict.UNKNOWN in {one.verdict for one in findings}


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        ({"filter": False}, Verdict.FAILS),
        ({"outlet": Outlet.NONE}, Verdict.FAILS),
        ({"fall": math.atan(0.001)}, Verdict.FAILS),
        ({"fall": math.atan(0.005)}, Verdict.TIGHT),
        ({"outlet": Outlet.PUMP}, Verdict.TIGHT),
        ({"rinsed": False}, Verdict.TIGHT),
        ({"filter": None}, Verdict.UNKNOWN),
        ({"fall": None}, Verdict.UNKNOWN),
    ],
)
def test_a_drain_stays_open_or_not(larch_bank: House, changes: dict[str, object], verdict: Verdict) -> None:
    (drain,) = said(DRAINS_OPEN, with_drain(larch_bank, **changes))
    assert drain.verdict is verdict
    assert (drain.advice == "") == (verdict is Verdict.HOLDS)


def test_drains_that_nobody_names_are_asked_for(larch_bank: House) -> None:
    for rule in (PIPES_HOLD, DRAINS_OPEN):
        (found,) = said(rule, replace(larch_bank, pipes=()))
        assert found.verdict is Verdict.UNKNOWN


def test_sentences_are_short(larch_bank: House, kettle_hill: House) -> None:
    for house in (larch_bank, kettle_hill, with_wood(larch_bank, None, looked_at="")):
        for rule in (WOOD_FITS, PIPES_HOLD, DRAINS_OPEN):
            for one in said(rule, house):
                assert len(one.says().split()) <= 24, one.says()
                assert one.says()[0].isupper()


# ------------------------------------------------------------------ what does not fit together


def test_what_does_not_fit_together_is_said_at_its_place(larch_bank: House) -> None:
    first, *rest = larch_bank.wood_parts
    house = replace(
        larch_bank,
        wood_parts=(
            replace(first, at="front"),
            replace(first, at="front"),
            replace(first, vault="barn", treated_years=30 * YEAR, looked_at="", renewed_every=9 * YEAR),
            *rest,
        ),
        pipes=(replace(larch_bank.pipes[0], kind=PipeKind.CABLE), *larch_bank.pipes[1:]),
    )
    found = {(one.path[0], one.path[-1]) for one in contradictions(house)}
    assert {
        ("wood_part", "at"), ("wood_part", "part"), ("wood_part", "vault"), ("wood_part", "treated_years"),
        ("wood_part", "renewed_every"), ("pipe", "fall"),
    } <= found  # fmt: skip
