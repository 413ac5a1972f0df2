"""The advice: which curve and why, in two sentences; lines that make the house file say it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import pytest

from bermwright.adapt.shape.advice import Advice, advice_from, choose, feet_words, wall_words
from bermwright.adapt.shape.candidate import crown_radius
from bermwright.adapt.shape.families import RADII, Stand
from bermwright.adapt.shape.works import Effort
from bermwright.base.findings import Verdict
from bermwright.base.ranges import Range
from bermwright.book.pages.shape import shape_document, shape_pages
from bermwright.book.pages.shape.advice import order_says, picked, toml_lines
from bermwright.book.pages.shape.rows import bare, curve_rows, labelled, unit_of
from bermwright.form import vault_form
from bermwright.formats.shape_json import shape_data
from bermwright.formats.shape_text import shape_text
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.house import House

NAMES = ("tall from the ground", "thick cover on walls", "well as it is")


@pytest.fixture(scope="module")
def advice(sections: Mapping[str, Any]) -> Advice:
    one = sections[NAMES[0]]
    return advice_from(one.comparison, one.vault)


@pytest.fixture(scope="module")
def kept(sections: Mapping[str, Any]) -> Advice:
    one = sections[NAMES[2]]
    return advice_from(one.comparison, one.vault)


def test_the_reason_is_two_sentences(advice: Advice) -> None:
    first, second = (sentence.says() for sentence in advice.why)
    assert first.startswith('Take the curve "under cover", 1.13 m high on walls of 1.50 m: it bends at most ')
    assert "where the catenary of the file bends 42.9 kNm/m" in first
    assert second.startswith("The crown comes down from +4.00 to +2.63")
    assert "the walls hold back 1.50 m of soil" in second
    assert first.count(". ") == second.count(". ") == 0


def test_the_chosen_curve_holds_and_bends_what_is_said(advice: Advice) -> None:
    assert advice.holds
    assert advice.chosen.envelope.bending < 1.02 * advice.comparison.others[0].envelope.bending
    assert not advice.keeps


def test_the_lines_describe_the_chosen_vault(advice: Advice) -> None:
    vault = advice.chosen.vault
    written = {"curve": "under cover", "rise": f"{vault.rise:.2f} m", "springing": "1.50 m"}
    assert advice.curve_writes == written
    assert toml_lines(advice)[:2] == ('[[vault]]  (name = "great room")', 'curve = "under cover"')
    assert float(written["rise"].split()[0]) == vault.rise


def test_what_is_good_is_kept(kept: Advice) -> None:
    assert kept.keeps
    assert kept.curve_writes == {}
    assert toml_lines(kept) == ()
    first, second = (sentence.says() for sentence in kept.why)
    assert first.startswith("Keep the three-centred arch of the file")
    assert second.startswith("Room, mound and templates stay as they are")


def test_a_curve_that_cannot_be_cut_is_not_advised(sections: Mapping[str, Any]) -> None:
    comparison = sections[NAMES[0]].comparison
    best = choose(comparison)
    assert best is not None
    narrow = [
        replace(one, board_given=0.1) if one.vault.curve is best.vault.curve else one
        for one in comparison.others
    ]
    other = choose(replace(comparison, others=tuple(narrow)))
    assert other is not None
    assert other.vault.curve is not best.vault.curve


def test_nothing_known_to_hold_still_gives_the_least(sections: Mapping[str, Any]) -> None:
    comparison = sections[NAMES[0]].comparison
    standing = tuple(one for one in comparison.others if one.stand is Stand.WALLS)
    best = choose(replace(comparison, others=standing))
    assert best is not None
    assert not best.holds
    assert best.envelope.bending == pytest.approx(standing[0].envelope.bending, rel=0.1)


def test_without_any_curve_nothing_is_chosen(sections: Mapping[str, Any]) -> None:
    comparison = sections[NAMES[0]].comparison
    assert choose(replace(comparison, own=None, others=())) is None


@pytest.mark.parametrize(
    ("low", "high", "says"),
    [
        (-21e3, 4.4e3, "4 kN/m outward to 21 kN/m inward"),
        (1e3, 18e3, "1 kN/m to 18 kN/m outward"),
        (-18e3, -1e3, "1 kN/m to 18 kN/m inward"),
        (math.nan, 1.0, "an unknown push"),
    ],
)
def test_feet_in_words(low: float, high: float, says: str) -> None:
    assert feet_words(Range(low, high) if low == low else Unknown()) == says  # noqa: PLR0124


class Unknown:
    """A range of which nothing is known."""

    low = high = math.nan


def test_walls_in_words(advice: Advice) -> None:
    own = advice.comparison.own
    assert own is not None
    assert wall_words(own).startswith("footings: floor strut")
    assert wall_words(advice.chosen) == "walls behind 1.50 m of soil, 18 kN/m: mass or tie"


def test_every_curve_has_a_letter_and_the_first_are_the_chosen_and_the_own(advice: Advice) -> None:
    letters = labelled(advice)
    assert [letter for letter, _ in letters[:2]] == ["A", "B"]
    assert letters[0][1] is advice.chosen
    assert letters[1][1] is advice.comparison.own
    assert len({letter for letter, _ in letters}) == len(letters)
    drawn = picked(advice, 4)
    assert [letter for letter, _ in drawn] == sorted(letter for letter, _ in drawn)
    assert {"A", "B"} < {letter for letter, _ in drawn}


def test_figures_leave_their_unit_to_the_head() -> None:
    assert (bare(2.5, "m", 2, "metric"), unit_of("m", "metric")) == ("2.50", "m")
    assert (bare(2.5, "m", 2, "imperial"), unit_of("m", "imperial")) == ("8.2", "ft")
    assert (bare(0.245, "mm", 0, "imperial"), unit_of("mm", "imperial")) == ("9.6", "in")
    assert bare(math.nan, "m", 2, "metric") == "unknown"
    assert (bare(3e3, "kN/m", 0, "imperial"), unit_of("kN/m", "imperial")) == ("206", "lb/ft")


@pytest.mark.parametrize("system", ["metric", "imperial"])
def test_text_and_pages_say_the_same(advice: Advice, system: str) -> None:
    text = shape_text("Kettle Hill", (advice,), system)
    flat = " ".join(text.split())
    for sentence in advice.why:
        assert sentence.says(system) in flat
        assert ("kN" in sentence.says(system)) is (system == "metric")
    for row in curve_rows(advice, system):
        assert row.where.split("; ", 1)[0] in flat
    document = shape_document(
        (advice,), house="Kettle Hill", revision="abc", date="2026-11-25", system=system
    )
    assert document.mark == "calculation aid, not reviewed"
    headline = next(block for block in document.blocks if type(block).__name__ == "Headline")
    assert headline.verdict is Verdict.HOLDS
    kinds = [type(block).__name__ for block in shape_pages(advice, system)]
    assert kinds.count("Figure") == 2
    assert kinds.index("Figure") < kinds.index("Table")


def test_json_has_no_number_that_is_none(advice: Advice) -> None:
    import json

    data = shape_data("Kettle Hill", (advice,))
    json.dumps(data, allow_nan=False)
    vault = data["vaults"][0]
    assert vault["curves"][0]["taken"] is True
    assert vault["curves"][0]["bending"]["largest"] == pytest.approx(advice.chosen.envelope.bending / 1e3)
    gone = [one for one in vault["curves"] if one["bending"]["largest"] is None]
    assert all(one["strength_used"] is None for one in gone)


def test_the_crown_radius_of_a_circle_is_its_own(kettle_hill: House) -> None:
    vault = replace(kettle_hill.vaults[0], curve=CurveKind.SEMICIRCLE, rise=None)
    line = vault_form(kettle_hill, vault, pieces=False).rib.centreline
    assert crown_radius(line, vault.span) == pytest.approx(2.5, rel=1e-3)
    point = replace(vault, curve=CurveKind.POINTED, rise=3.2)
    assert crown_radius(vault_form(kettle_hill, point, pieces=False).rib.centreline, 5.0) == 0.0
    assert "rise" not in RADII


def test_an_order_that_costs_says_what(advice: Advice) -> None:
    from bermwright.base.units import Money

    house = advice.comparison.house
    house = replace(house, prices=replace(house.prices, work=Money(30.0, "EUR", "ph")))
    before, chosen = advice.order.before, advice.order.chosen
    failing = replace(before, used=1.3)
    works = replace(chosen, works=replace(chosen.works, lead=0.05), effort=Effort(hours=4.0, lifted=900.0))
    paid = replace(
        advice,
        comparison=replace(advice.comparison, house=house),
        order=replace(advice.order, before=failing, chosen=works),
    )
    says = order_says(paid, "metric")
    assert "use 1.30 times their strength" in says
    assert "4 ph, 900 kg carried up, 120.00 EUR if every hour were hired" in says
    stuck = replace(paid, order=replace(paid.order, chosen=replace(works, used=1.2)))
    assert "this one goes furthest, to 1.20" in order_says(stuck, "metric")
    nothing = replace(paid, order=replace(paid.order, chosen=failing))
    assert order_says(nothing, "metric").endswith("and no order of work mends that.")
