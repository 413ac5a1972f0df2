"""Assess a house: every rule on every vault, worst first. Pure; app adds progress and executors."""

from __future__ import annotations

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError, OutOfRangeError
from bermwright.base.findings import Finding, Verdict
from bermwright.data.rule_sets import AMERICAN_LOADS
from bermwright.house import questions
from bermwright.rules import readings
from bermwright.rules.nouns import Whole
from bermwright.rules.registry import EVERY_RULE, HOUSE_RULES, NOT_CHECKED, RULES
from bermwright.rules.ribs.common import NAILS_ASKED
from bermwright.rules.soil.validity import BEYOND, outside
from bermwright.rules.study import Study, study_vault

if TYPE_CHECKING:
    from collections.abc import Callable, Container, Iterable, Mapping

    from bermwright.base.findings import Question
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House, Vault
    from bermwright.rules.nouns import AnyRule, HouseRule, Rule, SurveyAtHand


ASKED = "Answer the questions below; each tells the cheapest way."
BEYOND_IT = (
    "Change what is named so that it lies within the method; or have this designed by somebody licensed, "
    "with another one."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Assessment:
    """What was found of a house."""

    house: House
    findings: tuple[Finding, ...]
    """Worst first."""
    questions: tuple[Question, ...]
    not_checked: tuple[str, ...]
    """What no rule covers yet, by name."""
    not_read: tuple[str, ...]
    """Tables of the file that no rule reads yet."""
    studies: Mapping[str, Study]
    """By the name of the vault; a vault about which too little is known has none."""
    survey: SurveyAtHand | None = None
    """The surveyed points that were looked at, so that a changed house is held against the same ones."""


def assess(  # noqa: PLR0913  (only the house must be given)
    house: House,
    *,
    not_read: tuple[str, ...] = (),
    stop_marks: bool = True,
    ready: Mapping[str, Study] = MappingProxyType({}),
    only: Container[str] | None = None,
    survey: SurveyAtHand | None = None,
    progress: Callable[[str], None] = lambda _step: None,
    share: Share = map,
) -> Assessment:
    """Run every rule on every vault of a house; `share` is like `map` and may work side by side.

    `ready` are studies that need not be made again, by the name of their vault; `only` are the names of
    the rules to run, every rule where it is not given; `survey` is what the file of points holds.
    """
    vault_rules = tuple(rule for rule in RULES if only is None or rule.name in only)
    house_rules = tuple(rule for rule in HOUSE_RULES if only is None or rule.name in only)
    findings: list[Finding] = []
    studies: dict[str, Study] = {}
    for vault in house.vaults:
        missing = readings.missing_for_statics(house, vault)
        if missing:
            findings += _unknown(vault_rules, vault, f"the file does not say {', '.join(missing)}")
            continue
        try:
            study = ready.get(vault.name) or study_vault(
                house, vault, stop_marks=stop_marks, progress=progress, share=share
            )
        except BermwrightError as error:
            # The curve cannot be built, or something that the form needs is not said.
            findings += _unknown(vault_rules, vault, str(error))
            continue
        studies[vault.name] = study
        for rule in vault_rules:
            progress(f"{vault.name}: {rule.title}")
            findings += _found(rule, study)
    whole = Whole(house=house, studies=studies, survey=survey)
    for house_rule in house_rules:
        progress(f"{house.name}: {house_rule.title}")
        findings += _found_of_house(house_rule, whole)
    return Assessment(
        house=house,
        findings=tuple(sorted(findings, key=_severity)),
        questions=questions(house, _blocked()),
        not_checked=NOT_CHECKED,
        not_read=not_read,
        studies=studies,
        survey=survey,
    )


def _found(rule: Rule, study: Study) -> tuple[Finding, ...]:
    """What a rule finds; outside its method's range it is unknown, and says why."""
    try:
        findings = rule.run(study)
    except OutOfRangeError as error:
        return (_cannot_say(rule, study.part, str(error), BEYOND_IT),)
    mixed = _mixed(study.house)
    if mixed and rule.reads_ribs:
        return tuple(_set_apart(finding, *mixed) for finding in findings)
    doubt = _doubt(rule, study)
    return findings if doubt is None else tuple(_doubted(finding, *doubt) for finding in findings)


def _found_of_house(rule: HouseRule, whole: Whole) -> tuple[Finding, ...]:
    """What a rule finds of the house; outside its method's range it is unknown, and says why."""
    try:
        found = rule.run(whole)
    except BermwrightError as error:
        beyond = isinstance(error, OutOfRangeError)
        return (_cannot_say(rule, "house", str(error), BEYOND_IT if beyond else ASKED),)
    mixed = _mixed(whole.house)
    if mixed is None:
        return found
    return tuple(_set_apart(finding, *mixed) for finding in found)


def _set_apart(finding: Finding, doubt: str, advice: str) -> Finding:
    """A load of one family over a strength of the other is no finding, whether it would hold or fail."""
    if finding.capacity is None and finding.ratio is None:
        return finding
    return replace(
        _doubted(replace(finding, verdict=Verdict.HOLDS), doubt, advice), ratio=None, capacity=None
    )


def _mixed(house: House) -> tuple[str, str] | None:
    """Loads of one family of codes never meet the strengths of another in one check."""
    if house.rules.set != AMERICAN_LOADS:
        return None
    return (
        "loads by ASCE 7 must not meet strengths by EN 1995 and EN 1997 in one check",
        'Give the forces to an engineer with the strengths of that family, or write [rules] set = "EN 1990".',
    )


def _doubt(rule: Rule, study: Study) -> tuple[str, str] | None:
    """Why nothing of what this rule says may be said to hold, and what to do; None when it may."""
    beyond = ", ".join(says[0].lower() + says[1:] for says in outside(study))
    if beyond:
        return f"{beyond} is outside what the methods hold for", BEYOND
    loose = study.strength.loose
    return ("how the nails tie the layers is not known", NAILS_ASKED) if loose and rule.reads_ribs else None


def _doubted(finding: Finding, doubt: str, advice: str) -> Finding:
    """In doubt nothing is said to hold; what fails still fails."""
    if finding.verdict not in {Verdict.HOLDS, Verdict.TIGHT}:
        return finding
    return replace(
        finding,
        verdict=Verdict.UNKNOWN,
        template=finding.template + " But {doubt}.",
        values={**finding.values, "doubt": doubt},
        advice=advice,
    )


def _unknown(rules: Iterable[Rule], vault: Vault, reason: str) -> list[Finding]:
    return [_cannot_say(rule, f'vault "{vault.name}"', reason) for rule in rules]


def _cannot_say(rule: AnyRule, part: str, reason: str, advice: str = ASKED) -> Finding:
    return Finding(
        rule=rule.name,
        title=rule.title,
        part=part,
        verdict=Verdict.UNKNOWN,
        template="{title}: not known, because {reason}.",
        values={"title": rule.title, "reason": reason.rstrip(".")},
        cites=rule.cites,
        advice=advice,
    )


def _severity(finding: Finding) -> tuple[int, float, str]:
    return finding.verdict.severity, -(finding.ratio or 0.0), finding.rule


def _blocked() -> dict[str, tuple[str, ...]]:
    """Which rules stay unknown without which place in the file."""
    blocked: dict[str, tuple[str, ...]] = {}
    for rule in EVERY_RULE:
        for place in rule.asks:
            blocked[place] = (*blocked.get(place, ()), rule.name)
    return blocked
