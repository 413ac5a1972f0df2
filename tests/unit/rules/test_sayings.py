"""What rules say: short sentences, places that can be found, advice, and working that adds up."""

from __future__ import annotations

import math
import re
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from bermwright.base.findings import Verdict
from bermwright.base.units import convert
from bermwright.rules.assess import assess
from bermwright.rules.registry import HOUSE_RULES, RULES, rule_named
from bermwright.rules.ribs.common import PHASES
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.house import House
    from bermwright.rules.study import Study

MOST_WORDS = 24
"""With stage and case, which a sentence begins with."""
OWN_WORDS = 18
FORBIDDEN = re.compile(
    r"\b(safe\w*|ok|error|warning|critical|utili[sz]ation|please|simply|congratulations)\b|!", re.IGNORECASE
)
BARE_MINUS = re.compile(r"(?<!\S)[-−]\d")


@pytest.fixture(scope="session")
def said(good_study: Study, bad_study: Study) -> tuple[Finding, ...]:
    """Everything that the rules say of both examples, and of the first with most of it not known."""
    unknown = replace(
        good_study,
        house=replace(
            good_study.house,
            site=replace(good_study.house.site, ground_snow=None, overflow=None, accessible_roof=None),
        ),
        vault=replace(good_study.vault, nails=None, cover=good_study.vault.cover[1:]),
        strength=replace(good_study.strength, joint=None),
        marks=tuple(replace(mark, allowed=None) for mark in good_study.marks),
    )
    studies = (good_study, bad_study, unknown)
    return tuple(finding for rule in RULES for study in studies for finding in rule.run(study))


def test_sentences_are_short_and_plain(said: tuple[Finding, ...]) -> None:
    for finding in said:
        text = finding.says()
        assert text[0].isupper()
        assert text.endswith((".", "?"))
        assert len(text.split()) <= MOST_WORDS, text
        assert len(finding.template.split()) <= OWN_WORDS, finding.template
        for words in (text, finding.advice, finding.says("imperial")):
            assert not FORBIDDEN.search(words), words
            assert not BARE_MINUS.search(words), words


def test_every_verdict_against_the_builder_says_what_to_do(said: tuple[Finding, ...]) -> None:
    against = [one for one in said if one.verdict in {Verdict.FAILS, Verdict.TIGHT, Verdict.UNKNOWN}]
    assert {one.verdict for one in against} >= {Verdict.FAILS, Verdict.UNKNOWN}
    for finding in against:
        assert finding.advice.endswith("."), finding.says()


def test_what_is_doubted_says_what_to_do(larch_bank: House) -> None:
    short = replace(larch_bank, vaults=(replace(larch_bank.vaults[0], length=3.0),))
    # What rules of the house say of doors, alarms and damp rests on no vault's numbers: it may hold.
    of_house = {rule.name for rule in HOUSE_RULES}
    for finding in assess(short, stop_marks=False).findings:
        holds = finding.rule in of_house and finding.verdict is Verdict.HOLDS
        assert finding.advice or finding.verdict is Verdict.DOES_NOT_APPLY or holds


def test_a_place_in_the_section_has_a_spot(said: tuple[Finding, ...]) -> None:
    placed = [one for one in said if one.place and not one.place.startswith(("site.", "vault."))]
    assert placed
    for finding in placed:
        unknown_level = finding.verdict is Verdict.UNKNOWN and finding.rule == "planks-carry-the-soil"
        assert finding.spot is not None or unknown_level, finding.says()
        assert re.fullmatch(
            r"crown|(left|right) (foot|slope)|((left|right|base), )?at [+±−]\d+\.\d\d"
            r"|(left|right), (outward|into the room)"
            r"|between [+±−]\d+\.\d\d and [+±−]\d+\.\d\d",
            finding.place or "",
        )


def test_every_kind_of_stage_belongs_to_one_phase() -> None:
    found = [kind for kinds in PHASES.values() for kind in kinds]
    assert sorted(found) == sorted(StageKind)


# ------------------------------------------------------------------ working


def test_the_last_line_of_working_is_the_ratio(said: tuple[Finding, ...]) -> None:
    for finding in said:
        if finding.ratio is not None:
            last = finding.steps[-1]
            assert last.symbol == "ratio"
            assert last.result.value == pytest.approx(finding.ratio)


def test_demand_over_capacity_fails_where_the_ratio_does(said: tuple[Finding, ...]) -> None:
    for finding in said:
        if finding.demand is None or finding.capacity is None or finding.ratio is None:
            continue
        assert (finding.demand > finding.capacity) == (finding.ratio > 1.0), finding.says()
        if finding.rule != "ribs-bend":  # there a little of the strength goes into the thrust, squared
            assert finding.demand / finding.capacity == pytest.approx(finding.ratio)


def worked(filled: str) -> float | None:
    """What numbers filled in come to; None where they are not all numbers."""
    text = filled.replace("·10⁶", "e6").replace("²", "**2").replace("^", "**").replace("−", "-")
    text = text.replace("·", "*").replace("√", "sqrt")
    if not re.fullmatch(r"[\d.e+\-*/() ]+", text.replace("sqrt", "").replace("atan", "")):
        return None
    return float(eval(text, {"sqrt": math.sqrt, "atan": math.atan}))  # noqa: S307  (own text, digits only)


def test_numbers_filled_in_come_to_the_result(said: tuple[Finding, ...]) -> None:
    symbols = set()
    for finding in said:
        for step in finding.steps:
            value = worked(step.filled)
            if value is None:
                continue
            symbols.add(step.symbol)
            result = step.result
            shown = result.value if result.unit == "deg" else convert(result.value, result.unit or "-")
            digit = 10.0**-result.digits
            assert value == pytest.approx(shown, rel=5e-3, abs=digit), f"{finding.rule}: {step}"
    assert {"ratio", "τ", "σ_m", "σ_c", "W", "M_d", "f_m,d", "f_v,d", "f_h,k", "M_y,k", "F_v,d"} <= symbols
    assert {"m", "A", "σ", "u_max", "δ", "λ_rel,m", "V"} <= symbols


def test_a_plank_a_millimetre_thinner_than_needed_fails(good_study: Study, bad_study: Study) -> None:
    planks_carry = rule_named("planks-carry-the-soil")

    def worst(study: Study, thickness: float) -> float:
        planks, *rest = study.vault.cover
        cover = (replace(planks, thickness=thickness), *rest)
        again = replace(study, vault=replace(study.vault, cover=cover))
        return max(one.ratio or math.nan for one in planks_carry.run(again))

    for study in (good_study, bad_study):
        needed = max(one.values["needed"].value for one in planks_carry.run(study))  # type: ignore[union-attr]
        assert worst(study, needed) <= 1.0
        assert worst(study, needed - 1e-3) > 1.0


def test_strength_used_is_rounded_up_in_the_sentence(good_study: Study) -> None:
    for name in ("ribs-bend", "ribs-shear", "ribs-do-not-buckle", "ribs-do-not-tip"):
        for finding in rule_named(name).run(good_study):
            used, ratio = float(str(finding.values["used"]).split()[0]), finding.ratio or math.nan
            assert ratio <= used < ratio + 0.01


def test_relief_by_crown_cover_that_does_not_count_is_a_line_of_its_own(good_study: Study) -> None:
    covered = [
        one for one in rule_named("ribs-bend").run(good_study) if one.values["phase"] == "once it is covered"
    ]
    lines = [step for one in covered for step in one.steps if "relief" in step.says]
    assert len(lines) == 1
    first = covered[0].steps[0]
    assert lines[0].result.value > first.result.value
