"""A changed house looked at quickly: one rule on one part, with as little solved again as can be.

What a change does not touch is not solved again: a wider footing leaves the ribs as they were. Where the ribs
have to be solved, only the soil corners that can govern are: the full look at what is proposed comes after.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from bermwright.adapt.mend.nouns import Place
from bermwright.adapt.shape.envelope import GOVERNING, worth_trying
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Verdict
from bermwright.data.rule_sets import SERVICE
from bermwright.data.timber_classes import strength_class
from bermwright.form import vault_form
from bermwright.rules import readings
from bermwright.rules.analysis.lanes import build_lanes
from bermwright.rules.analysis.states import situations_of
from bermwright.rules.analysis.strength import RibStrength
from bermwright.rules.nouns import HouseRule, Whole
from bermwright.rules.registry import rule_named
from bermwright.rules.study import Study, rib_model, stage_ratios
from bermwright.stages import FILLING, build_of, staged

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.adapt.mend.nouns import Target, Writes
    from bermwright.base.findings import Finding
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House, Vault
    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.nouns import SurveyAtHand

RUNS = GOVERNING | {"expected"}
STOP_MARKS = "fill-keeps-to-its-stop-marks"
DEAR = frozenset({"vault", "site", "stages", "rules"})
"""Tables with which the ribs have to be solved again."""
GOOD = frozenset({Verdict.HOLDS, Verdict.DOES_NOT_APPLY})


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What one rule says of one part of a changed house."""

    findings: tuple[Finding, ...]
    ratio: float
    """The worst of them; infinite where one fails or is not known without a number."""
    holds: bool


def dear(writes: Writes) -> bool:
    """Whether the ribs have to be solved again."""
    return any(key[0] in DEAR for key, _ in writes)


def lean_study(house: House, vault: Vault, share: Share = map) -> Study:
    """The study of a vault without stop marks, in the soil corners that can govern."""
    form = vault_form(house, vault)
    timber = strength_class(vault.timber)
    given = readings.given(house, vault, form, timber)
    stages = staged(build_of(form, given))
    strength = RibStrength.of(vault, form, timber)
    model = replace(rib_model(house, vault, form, strength), share=share)
    situations = situations_of(stages)
    analyses = model.analyse_situations(situations, only=_lanes(model))
    plain = replace(model, factor_sets=(SERVICE,), model_factor=1.0)
    (service,) = plain.analyse_situations(situations, only=_lanes(plain))
    return Study(
        house=house,
        vault=vault,
        part=f'vault "{vault.name}"',
        form=form,
        given=given,
        stages=stages,
        model=model,
        strength=strength,
        analyses=analyses,
        service=service,
        marks=(),
        remedies=(),
        stage_ratio=stage_ratios(analyses, stages, strength),
    )


def _lanes(model: RibModel) -> dict[str, frozenset[Lane]]:
    return {
        factors.name: frozenset(worth_trying(build_lanes(model.soil, factors), RUNS))
        for factors in model.factor_sets
    }


@dataclass(slots=True, kw_only=True)
class Bench:
    """Where changed houses are looked at; what was solved once is kept."""

    house: House
    studies: Mapping[str, Study]
    good: frozenset[Verdict] = GOOD
    """What counts as holding."""
    share: Share = map
    survey: SurveyAtHand | None = None
    """Surveyed points that the house as it is was held against."""
    solved: dict[tuple[object, ...], Study] = field(default_factory=dict)

    def place(self, target: Target, house: House) -> Place:
        """Where levers look for what they may change for a target."""
        names = [vault.name for vault in house.vaults]
        number = names.index(target.vault) if target.vault in names else (0 if len(names) == 1 else None)
        return Place(house=house, part=target.part, vault=number)

    def outcome(self, target: Target, house: House) -> Outcome:
        """What the target's rule says of its part in a changed house. Raises `BermwrightError`."""
        studies = self.studies_of(house, None if target.vault is None else frozenset({target.vault}))
        if target.rule == STOP_MARKS and target.vault in studies:
            return self._filling(studies[target.vault])
        rule = rule_named(target.rule)
        if isinstance(rule, HouseRule):
            found = rule.run(Whole(house=house, studies=studies, survey=self.survey))
        else:
            found = tuple(one for study in studies.values() for one in rule.run(study))
        own = tuple(one for one in found if one.part == target.part)
        return outcome_of(own or found, self.good)

    def _filling(self, study: Study) -> Outcome:
        """In place of the stop marks: the strength used while the fill is placed with the permitted lead."""
        used = [study.stage_ratio[stage.name] for stage in study.stages if stage.kind in FILLING]
        ratio = max((math.inf if one is None else one for one in used), default=math.inf)
        return Outcome(findings=(), ratio=ratio, holds=ratio <= 1.0)

    def studies_of(self, house: House, wanted: frozenset[str] | None = None) -> dict[str, Study]:
        """The studies of a changed house: those that exist where nothing they read has changed."""
        return {
            vault.name: self._study(house, vault)
            for vault in house.vaults
            if wanted is None or vault.name in wanted
        }

    def _study(self, house: House, vault: Vault) -> Study:
        ready = self.studies.get(vault.name)
        if ready is not None and _reads(house, vault) == _reads(ready.house, ready.vault):
            return replace(ready, house=house)
        key = _reads(house, vault)
        if key not in self.solved:
            if readings.missing_for_statics(house, vault):
                raise BermwrightError(f"Too little is known of {vault.name}.")
            self.solved[key] = lean_study(house, vault, self.share)
        return replace(self.solved[key], house=house)


def _reads(house: House, vault: Vault) -> tuple[object, ...]:
    """Everything of a house that the study of one of its vaults reads."""
    return vault, house.site, house.stages, house.rules


def same_studies(one: House, other: House) -> bool:
    """Whether no vault of two houses has to be solved again."""
    return _alike(one) == _alike(other)


def _alike(house: House) -> tuple[object, ...]:
    return house.vaults, house.site, house.stages, house.rules


def outcome_of(findings: tuple[Finding, ...], good: frozenset[Verdict]) -> Outcome:
    """The worst of some findings; nothing found does not hold."""
    ratio = max((_ratio(one, good) for one in findings), default=math.inf)
    holds = bool(findings) and all(one.verdict in good for one in findings)
    return Outcome(findings=findings, ratio=ratio, holds=holds)


def _ratio(finding: Finding, good: frozenset[Verdict]) -> float:
    if finding.ratio is not None:
        return finding.ratio
    return 0.0 if finding.verdict in good else math.inf
