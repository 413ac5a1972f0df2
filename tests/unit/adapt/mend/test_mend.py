"""Mending: the smallest step, nothing that held breaks, pairs, questions, the copy of the file."""

from __future__ import annotations

import math
import pickle
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from bermwright.adapt.mend import mend as mending
from bermwright.adapt.mend.costs import Bill, cost_of
from bermwright.adapt.mend.judging import HELD, group_of, judge
from bermwright.adapt.mend.levers import LEVERS
from bermwright.adapt.mend.mend import cheapest_first, mend, target_of, targets
from bermwright.adapt.mend.nouns import Amount, Change, Lever, Target, merged
from bermwright.adapt.mend.solving import Inverse, Reach, pairs, reach
from bermwright.adapt.mend.trying import GOOD, Bench, lean_study, outcome_of
from bermwright.adapt.mend.writing import NoSuchHouseError, changed
from bermwright.base.findings import Verdict
from bermwright.form.setout import SetOutError, SurveyPoint
from bermwright.formats.house_file import load, starter
from bermwright.formats.house_file.reading import read
from bermwright.formats.mends import mended_copy, mends_data, mends_text
from bermwright.house import Survey
from bermwright.rules.assess import assess
from bermwright.rules.nouns import SurveyAtHand
from bermwright.rules.registry import EVERY_RULE

if TYPE_CHECKING:
    from bermwright.adapt.mend.nouns import Mended, Writes
    from bermwright.house import House
    from bermwright.rules.assess import Assessment

EXAMPLES = Path(__file__).resolve().parents[4] / "examples"
QUICK = (
    "walls-do-not-break",
    "feet-stay-on-their-supports",
    "flue-ends-over-the-snow",
    "stove-keeps-off-the-wood",
    "floors-carry",
)


def target(assessment: Assessment, rule: str) -> Target:
    return next(one for one in targets(assessment) if one.rule == rule)


def inverse_of(assessment: Assessment, rule: str) -> Inverse:
    wanted = target(assessment, rule)
    bench = Bench(house=assessment.house, studies=assessment.studies)
    now = outcome_of(group_of(assessment.findings, wanted), GOOD)
    return Inverse(bench=bench, target=wanted, house=assessment.house, before=now.ratio)


def test_levers_name_rules_that_exist_and_are_many() -> None:
    names = {rule.name for rule in EVERY_RULE}
    assert len({lever.name for lever in LEVERS}) == len(LEVERS) >= 14
    assert {rule for lever in LEVERS for rule in lever.helps} <= names


@pytest.mark.parametrize("rule", QUICK)
def test_one_step_less_does_not_hold(weak: Assessment, rule: str) -> None:
    inverse = inverse_of(weak, rule)
    found = 0
    for lever in (one for one in LEVERS if rule in one.helps):
        amounts = inverse.amounts(lever)
        if not amounts or any(key[0] in {"vault", "stages", "site"} for key, _ in amounts[0].writes):
            continue
        one = reach(inverse, lever)
        assert one is not None
        if one.at is None:
            continue
        found += 1
        assert inverse.ratio(amounts[one.at].writes)[1]
        if one.at and lever.monotone:
            assert not inverse.ratio(amounts[one.at - 1].writes)[1]
        elif one.at:
            assert not any(inverse.ratio(amount.writes)[1] for amount in amounts[: one.at])
    assert found


@pytest.mark.parametrize("rule", ["flue-ends-over-the-snow", "walls-do-not-break"])
def test_what_is_proposed_holds_and_nothing_that_held_fails(weak: Assessment, rule: str) -> None:
    mended = mend(weak, target(weak, rule))
    assert mended.proposals
    assert list(mended.proposals) == cheapest_first(mended.proposals, lambda one: one.cost)
    one = mended.proposals[0]
    after = assess(changed(weak.house, one.writes))
    assert all(f.verdict in GOOD for f in group_of(after.findings, mended.target))
    judged = judge(weak, after, mended.target, GOOD)
    assert judged.holds
    assert not judged.lost


def test_a_rib_that_bends_too_much_is_mended_by_the_least_layers(thin: Assessment) -> None:
    inverse = inverse_of(thin, "ribs-bend")
    layers = next(lever for lever in LEVERS if lever.name == "more layers")
    one = reach(inverse, layers)
    assert one is not None
    assert one.at is not None
    full = [assess(changed(thin.house, amount.writes)) for amount in one.amounts[: one.at + 1]]
    held = [outcome_of(group_of(a.findings, inverse.target), GOOD).holds for a in full]
    assert held == [False] * one.at + [True]


def test_the_quick_look_is_the_full_one_where_it_governs(thin: Assessment) -> None:
    vault = thin.house.vaults[0]
    lean = lean_study(thin.house, vault)
    full = thin.studies[vault.name]
    for rule in (one for one in EVERY_RULE if one.name in {"ribs-bend", "ribs-do-not-buckle", "feet-bear"}):
        quick, slow = (max(f.ratio or 0.0 for f in rule.run(study)) for study in (lean, full))  # type: ignore[arg-type]
        assert quick == pytest.approx(slow, rel=0.02)
        assert quick <= slow * (1.0 + 1e-9)


def test_the_same_twice(weak: Assessment) -> None:
    wanted = target(weak, "flue-ends-over-the-snow")
    first, second = (mend(weak, wanted) for _ in range(2))
    assert first == second
    assert pickle.loads(pickle.dumps(first.proposals[0].writes)) == first.proposals[0].writes  # noqa: S301


def test_what_is_not_known_becomes_a_question_and_no_guess(loft: House) -> None:
    assessment = assess(replace(loft, bedrooms=()), stop_marks=False)
    finding = next(one for one in assessment.findings if one.rule == "every-bed-has-two-ways-out")
    assert finding.verdict is Verdict.UNKNOWN
    mended = mend(assessment, target_of(assessment, finding))
    assert not mended.proposals
    assert any("bedroom" in one.place for one in mended.questions)
    assert mend(assessment, target_of(assessment, finding)).proposals == ()


def test_a_finding_without_any_force_asks_first_what_the_forces_need() -> None:
    house = read(starter(), "starter").house
    assessment = assess(house, stop_marks=False)
    asked = {one.place for one in mend(assessment, target(assessment, "ribs-bend")).questions}
    assert {"site.floor", "site.slope", 'vault "day room".board_length', 'vault "day room".nails'} <= asked
    assert 'vault "day room".cover number 1.unit_weight' in asked


def test_what_holds_is_left_alone(weak: Assessment) -> None:
    finding = next(one for one in weak.findings if one.rule == "hearth-catches-embers")
    mended = mend(weak, target_of(weak, finding))
    assert mended.proposals == ()
    assert mended.remarks == ("It holds.",)


class TwoSided:
    """A finding whose ratio falls with two keys, so that neither alone is enough."""

    house = None
    target = None

    def __init__(self) -> None:
        self.looked = 0

    before = 2.0

    def ratio(self, writes: Writes) -> tuple[float, bool]:
        self.looked += 1
        values = {key[-1]: float(str(value)) for key, value in writes}
        ratio = 2.0 - 0.15 * values.get("a", 0.0) - 0.1 * values.get("b", 0.0)
        return ratio, ratio <= 0.9 + 1e-9


def _lever(name: str, steps: int) -> Reach:
    amounts = tuple(
        Amount(says=str(number), writes=((("stages", name), number),)) for number in range(1, steps + 1)
    )
    lever = Lever(name=name, does=name, helps=frozenset(), amounts=lambda _place: amounts)
    return Reach(lever=lever, amounts=amounts, at=None, nearest=steps - 1, ratio=2.0 - 0.1 * steps)


def test_a_pair_is_found_at_its_smallest_steps() -> None:
    count, found = pairs(TwoSided(), [_lever("a", 6), _lever("b", 6)])  # type: ignore[arg-type]
    assert count == 1
    first, second = found[0].changes
    values = [int(str(change.writes[0][1])) for change in (first, second)]
    steps = dict(zip((first.lever, second.lever), values, strict=True))
    used = 0.15 * steps["a"] + 0.1 * steps["b"]
    assert used >= 1.1 - 1e-9
    assert used - 0.15 < 1.1
    assert used - 0.1 < 1.1


def test_no_pair_where_even_the_nearest_is_far_off() -> None:
    far = replace(_lever("a", 6), ratio=3.5)
    inverse = TwoSided()
    inverse.before = 9.0
    assert pairs(inverse, [far, far]) == (0, ())  # type: ignore[arg-type]
    assert inverse.looked == 0


def test_the_copy_reads_and_holds_with_comments_kept() -> None:
    document = (EXAMPLES / "kettle-hill.toml").read_text(encoding="utf-8")
    opened = read(document, "kettle")
    assessment = assess(opened.house, stop_marks=False)
    wanted = next(one for one in targets(assessment) if one.rule == "flue-ends-over-the-snow")
    one = mend(assessment, wanted).proposals[0]
    text = mended_copy(document, one, "copy")
    lines = [line for line in text.splitlines() if line not in document.splitlines()]
    assert len(lines) == len(one.writes)
    assert all("# mend: flue-ends-over-the-snow, was " in line for line in lines)
    assert [line for line in document.splitlines() if line.startswith("#")] == [
        line for line in text.splitlines() if line.startswith("#")
    ]
    again = assess(read(text, "copy").house, stop_marks=False)
    assert all(f.verdict in HELD for f in group_of(again.findings, wanted))
    assert replace(read(text, "copy").house, assumptions=()) == replace(
        changed(opened.house, one.writes), assumptions=()
    )


def test_texts_become_what_the_file_reader_makes_of_them(loft: House) -> None:
    house = changed(
        loft,
        (
            (("vault", 0, "board"), "50 x 245 mm"),
            (("vault", 0, "mound", "left"), "1:3"),
            (("stages", "prop", 0, "level"), "2.5 m"),
            (("stages", "prop", 0, "from"), "0 m"),
            (("stages", "prop", 0, "until"), "3 m"),
            (("stages", "prop", 0, "section"), "100 x 100 mm"),
            (("stages", "prop", 0, "spacing"), "1.2 m"),
            (("fire", "lining_gaps"), "yes"),
        ),
    )
    assert house.vaults[0].board.thickness == pytest.approx(0.05)
    assert house.vaults[0].mound is not None
    assert house.vaults[0].mound.left == pytest.approx(math.atan(1.0 / 3.0))
    assert house.stages.props[0].until == pytest.approx(3.0)
    assert house.fire is not None
    assert house.fire.lining_gaps is True


@pytest.mark.parametrize(
    "write",
    [
        (("vault", 0, "layers"), 40),
        (("vault", 0, "depth"), "400 mm"),
        (("vault", 3, "layers"), 4),
        (("wall", 0, "bars"), "12 kN"),
    ],
)
def test_no_house_can_be_like_that(loft: House, write: tuple[tuple[str | int, ...], str | int]) -> None:
    with pytest.raises(NoSuchHouseError):
        changed(loft, (write,))


def test_later_changes_of_a_key_count_and_cost_is_a_difference() -> None:
    key = ("vault", 0, "layers")
    assert merged(((key, 4),), ((key, 5),)) == ((key, 5),)
    less, more = Bill(money={"EUR": 5.0}, hours=1.0, mass=2.0), Bill(money={"EUR": 9.0}, hours=4.0, mass=1.0)
    cost = cost_of(less, more, [Change(lever="a", does="b", says="c", writes=(), hours=2.0)])
    assert (cost.money, cost.currency, cost.hours, cost.lifted) == (4.0, "EUR", 5.0, -1.0)
    unpriced = cost_of(replace(less, money={}), replace(more, money={}), [])
    assert unpriced.money is None
    # What the file has no price for may cost anything: it is not free, and nothing is ranked by money then.
    walls = replace(more, unpriced={"walls": 2.0})
    assert cost_of(less, walls, []).money is None
    assert cost_of(less, replace(more, money=less.money), []).money is None
    dear, slow = replace(cost, money=900.0, hours=1.0), replace(cost, money=5.0, hours=30.0)
    ways = {"dear": dear, "slow": slow}
    assert cheapest_first(ways, lambda way: ways[way]) == ["slow", "dear"]
    ways["unpriced"] = replace(unpriced, hours=2.0)
    assert cheapest_first(ways, lambda way: ways[way]) == ["dear", "unpriced", "slow"]


@pytest.fixture(scope="module")
def flue(weak: Assessment) -> Mended:
    return mend(weak, target(weak, "flue-ends-over-the-snow"))


def test_text_and_data_say_the_same(flue: Mended) -> None:
    text, data = mends_text("Alder Loft", (flue,)), mends_data("Alder Loft", (flue,))
    found = data["findings"][0]["proposals"]
    assert [one["number"] for one in found] == list(range(1, len(found) + 1))
    for key, value in flue.proposals[0].writes:
        assert f'{key[-1]} = "{value}"' in text
    assert "safe" not in text.lower().split()
    assert "Nothing here is to be mended." in mends_text("Alder Loft", ())


def test_kettle_hill_is_mended_by_another_curve_on_walls() -> None:
    assessment = assess(load(EXAMPLES / "kettle-hill.toml").house)
    first = targets(assessment)[0]
    assert first.rule == "fill-keeps-to-its-stop-marks"
    (one,) = mend(assessment, first).proposals
    assert one.changes[0].lever == "another curve"
    assert "wall under the feet" in {change.lever for change in one.changes}
    assert one.fails < sum(f.verdict is Verdict.FAILS for f in assessment.findings)


def test_a_changed_house_is_held_against_the_same_surveyed_points(
    weak: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A remedy that moves the ground may make the measured ground another one; that must be seen."""
    hump = SurveyPoint(name="H", east=30.0, north=30.0, height=9.0, line=2)
    survey = SurveyAtHand(name="points.csv", points=(hump,), why_not=SetOutError("No point stands there."))
    house = replace(weak.house, survey=Survey(points="points.csv", middle="M"))
    measured = replace(
        weak, house=house, survey=survey,
        studies={name: replace(study, house=house) for name, study in weak.studies.items()},
    )  # fmt: skip
    (vault,) = house.vaults
    asked = Target(rule="ground-as-surveyed", part=f'vault "{vault.name}"', vault=vault.name)
    bench = Bench(house=house, studies=measured.studies, survey=survey)
    (finding,) = bench.outcome(asked, house).findings
    assert finding.verdict is Verdict.UNKNOWN
    given: list[object] = []

    def looked_at(*_house: object, **told: object) -> Assessment:
        given.append(told["survey"])
        return measured

    monkeypatch.setattr(mending, "assess", looked_at)
    mend(measured, target(measured, "flue-ends-over-the-snow"))
    assert given
    assert all(one is survey for one in given)
