"""A changed house against the house as it was: what now holds, what fails that did not, what is now tight."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.mend.nouns import Target
from bermwright.base.findings import Verdict, worst

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.rules.assess import Assessment

    Group = tuple[str, str]

HELD = frozenset({Verdict.HOLDS, Verdict.TIGHT, Verdict.DOES_NOT_APPLY})


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What a changed house does to a target and to everything else."""

    assessment: Assessment
    after: tuple[Finding, ...]
    holds: bool
    """Whether the target holds."""
    broken: tuple[Target, ...]
    """What fails and did not."""
    unknown: tuple[Target, ...]
    """What held and is not known any more."""
    mends: tuple[str, ...]
    worse: tuple[str, ...]

    @property
    def lost(self) -> tuple[Target, ...]:
        """What fails or is not known and held."""
        return (*self.broken, *self.unknown)


def group_of(findings: tuple[Finding, ...], target: Target) -> tuple[Finding, ...]:
    """What a rule says of a part, worst first; of all parts where that part is no more."""
    rule = tuple(one for one in findings if one.rule == target.rule)
    own = tuple(one for one in rule if one.part == target.part)
    return own or rule


def worst_of(findings: tuple[Finding, ...]) -> Verdict:
    """The worst verdict."""
    return worst(findings)


def judge(before: Assessment, after: Assessment, target: Target, good: frozenset[Verdict]) -> Judged:
    """Compare two assessments, rule by rule and part by part."""
    was, now = _groups(before), _groups(after)
    own = group_of(after.findings, target)
    rules = _by_rule(was)
    held = {group: was.get(group, rules.get(group[0], Verdict.HOLDS)) in HELD for group in now}
    lost = [group for group, verdict in now.items() if verdict is Verdict.FAILS and held[group]]
    unknown = [group for group, verdict in now.items() if verdict is Verdict.UNKNOWN and held[group]]
    tight = [group for group, verdict in now.items() if verdict is Verdict.TIGHT and was.get(group) in HELD]
    tight = [group for group in tight if was.get(group) is not Verdict.TIGHT]
    mended = [
        group
        for group, verdict in was.items()
        if verdict in {Verdict.FAILS, Verdict.TIGHT}
        and now.get(group) in {Verdict.HOLDS, Verdict.DOES_NOT_APPLY}
    ]
    return Judged(
        assessment=after,
        after=own,
        holds=bool(own) and all(one.verdict in good for one in own),
        broken=tuple(_target(target, group) for group in lost),
        unknown=tuple(_target(target, group) for group in unknown),
        mends=tuple(", ".join(group) for group in mended if group != (target.rule, target.part)),
        worse=(
            *(f"{rule}, {part}: tight" for rule, part in tight),
            *(f"{rule}, {part}: not known" for rule, part in unknown),
        ),
    )


def broken(judged: Judged) -> bool:
    """Whether anything fails that did not."""
    return bool(judged.broken)


def _target(like: Target, group: Group) -> Target:
    return Target(rule=group[0], part=group[1], vault=like.vault)


def _groups(assessment: Assessment) -> dict[Group, Verdict]:
    found: dict[Group, Verdict] = {}
    for one in assessment.findings:
        key = (one.rule, one.part)
        found[key] = min(found.get(key, one.verdict), one.verdict, key=lambda verdict: verdict.severity)
    return found


def _by_rule(groups: dict[Group, Verdict]) -> dict[str, Verdict]:
    """The worst verdict of each rule, for parts that were not there before."""
    found: dict[str, Verdict] = {}
    for (rule, _), verdict in groups.items():
        found[rule] = min(found.get(rule, verdict), verdict, key=lambda one: one.severity)
    return found
