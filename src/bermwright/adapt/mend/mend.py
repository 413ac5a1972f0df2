"""The smallest changes with which a finding holds, cheapest first, each looked at as a whole house again.

1. Levers that can help the rule are solved inversely on that one rule.
2. The cheapest are put into the house and all stages of all parts are assessed again. A proposal is kept only
   if the finding now holds and nothing fails that did not; where something would, the least change that mends
   it too is looked for.
3. Where no lever works alone, the few that come nearest are tried in pairs; then the curve is searched anew.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, TypeVar

from bermwright.adapt.mend.costs import Bill, bill_of, cost_of
from bermwright.adapt.mend.curve import advised, remedies, same_rise
from bermwright.adapt.mend.judging import Judged, broken, group_of, judge, worst_of
from bermwright.adapt.mend.levers import LEVERS
from bermwright.adapt.mend.levers.ribs import STRONGER
from bermwright.adapt.mend.nouns import Change, Cost, Mended, Proposal, Target, Tried, merged
from bermwright.adapt.mend.solving import HOPELESS, Inverse, Reach, chosen, pairs, reach
from bermwright.adapt.mend.trying import GOOD, STOP_MARKS, Bench, dear, outcome_of, same_studies
from bermwright.adapt.mend.writing import changed
from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Verdict
from bermwright.house.questions import plain_path
from bermwright.rules.assess import assess
from bermwright.rules.readings import missing_for_statics
from bermwright.rules.registry import EVERY_RULE, rule_named
from bermwright.stages import FILLING

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from bermwright.adapt.mend.nouns import Lever, Writes
    from bermwright.base.findings import Finding, Question
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House
    from bermwright.rules.assess import Assessment

    Progress = Callable[[str], None]

Way = TypeVar("Way")
"""A change, or what holds one."""
SHOWN = 3
"""Proposals that are kept."""
RERUNS = 5
"""Whole houses that are assessed again for the levers of one finding."""
MORE = 2
"""Steps beyond the smallest that are tried where the full look finds it a little short."""
FOLLOWING = 6
"""Changes that may follow so that nothing else fails."""
WHOLE = "house."
INSTEAD = " in place of "
ROUNDS = 2
"""How often what has to follow is looked for."""
CURVES = STRONGER | {"feet-press-on-their-supports", "feet-stay-on-their-supports"}
"""Rules that another curve can help."""
NOT_IN_TIME = "it fails when the filling is over, too: nothing that is only there meanwhile helps"
TOO_FAR = "more than three times what is there is asked: nothing temporary makes up for that"
OTHERS_CHEAPER = "it works too; cheaper ones are shown"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mender:
    """One finding of an assessed house that is to be mended."""

    assessment: Assessment
    target: Target
    bench: Bench
    bill: Bill
    progress: Progress
    share: Share
    reached: list[Reach] = field(default_factory=list)
    tried: list[Tried] = field(default_factory=list)
    reruns: list[int] = field(default_factory=list)

    @property
    def house(self) -> House:
        """The house as it is."""
        return self.assessment.house

    @property
    def before(self) -> tuple[Finding, ...]:
        """What the rule says of the part now."""
        return group_of(self.assessment.findings, self.target)

    def search(self) -> Mended:
        """Everything that is said of mending it."""
        ratio = outcome_of(self.before, self.bench.good).ratio
        inverse = Inverse(bench=self.bench, target=self.target, house=self.house, before=ratio)
        self.reached.extend(one for one in self._levers(inverse))
        ways = [((one.change,), one) for one in self.reached if one.at is not None]
        kept = self._kept(ways)
        count = 0
        if not kept:
            count, couples = pairs(inverse, [one for one in self.reached if one.at is None])
            self.progress(f"{self.target.rule}: {count} pairs of levers")
            kept = self._kept([(one.changes, None) for one in couples])
        if not kept:
            kept = self._curve()
        self.tried.extend(one.tried("not enough alone") for one in self.reached if one.at is None)
        return Mended(
            target=self.target,
            before=self.before,
            proposals=tuple(cheapest_first(kept, lambda one: one.cost)),
            tried=tuple(
                sorted(self.tried, key=lambda one: (not math.isfinite(one.ratio), one.ratio, one.name))
            ),
            pairs=count,
        )

    def _levers(self, inverse: Inverse) -> Iterator[Reach]:
        """Each lever as far as it has to go, or as near as it comes."""
        for lever in self._own_levers():
            why = self._vain(lever, inverse.before)
            if why:
                self.tried.append(Tried(name=lever.name, says="", ratio=math.inf, why=why))
                continue
            self.progress(f"{self.target.rule}: {lever.name}")
            found = reach(inverse, lever)
            if found is not None:
                yield found

    def _own_levers(self) -> Iterator[Lever]:
        yield from (lever for lever in LEVERS if self.target.rule in lever.helps)
        study = self.assessment.studies.get(self.target.vault or "")
        if self.target.rule == STOP_MARKS and study is not None:
            yield from remedies(self.house, study, frozenset({STOP_MARKS}))
        number = self.bench.place(self.target, self.house).vault
        if number is not None and self.target.rule in CURVES:
            self.progress(f"{self.target.rule}: curves of the same span and rise")
            lever = same_rise(self.house, number, CURVES)
            if lever is not None:
                yield lever

    def _vain(self, lever: Lever, ratio: float) -> str:
        """Why something temporary need not be tried; nothing where it may help."""
        if not lever.temporary:
            return ""
        study = self.assessment.studies.get(self.target.vault or "")
        late = {stage.name for stage in study.stages if stage.kind not in FILLING} if study else set()
        failing = (one for one in self.before if one.verdict not in self.bench.good)
        if any(one.stage in late for one in failing):
            return NOT_IN_TIME
        far = ratio > HOPELESS or (self.target.rule == STOP_MARKS and self._ribs_lost())
        return TOO_FAR if far else ""

    def _ribs_lost(self) -> bool:
        """Whether the ribs need several times what they have at some stage of filling."""
        study = self.assessment.studies.get(self.target.vault or "")
        if study is None:
            return False
        used = [study.stage_ratio[stage.name] for stage in study.stages if stage.kind in FILLING]
        return any(one is None or one > HOPELESS for one in used)

    def _kept(self, ways: Sequence[tuple[tuple[Change, ...], Reach | None]]) -> list[Proposal]:
        """The cheapest that hold with everything else, looked at as whole houses."""
        kept: list[Proposal] = []
        runs = 0
        named = sorted(ways, key=lambda way: [one.lever for one in way[0]])
        ranked = cheapest_first(named, lambda way: self._cost(way[0]))
        for changes, found in ranked:
            if len(kept) == SHOWN or runs == RERUNS:
                if found is not None:
                    self.tried.append(found.tried(OTHERS_CHEAPER))
                continue
            runs += 1
            proposal = self._proposal(changes, found)
            if proposal is not None:
                kept.append(proposal)
        return kept

    def _proposal(self, changes: tuple[Change, ...], found: Reach | None) -> Proposal | None:
        """A change as a proposal: a step more where it falls short, and what has to follow; or None."""
        judged = self._judged(changes)
        for number in range(MORE):
            if judged is None or judged.holds or found is None or found.at is None:
                break
            if found.at + 1 + number >= len(found.amounts):
                break
            changes = (chosen(found.lever, found.amounts[found.at + 1 + number]),)
            judged = self._judged(changes)
        name = " and ".join(change.lever for change in changes)
        if judged is None or not judged.holds:
            ratio = math.inf if judged is None else outcome_of(judged.after, self.bench.good).ratio
            why = "looked at with all stages and corners it does not hold"
            self.tried.append(Tried(name=name, says=changes[-1].says, ratio=ratio, why=why))
            return None
        if judged.lost:
            return self._followed(changes, judged, name)
        return self._made(changes, judged)

    def _followed(self, changes: tuple[Change, ...], judged: Judged, name: str) -> Proposal | None:
        """The same with what has to follow so that nothing else fails."""
        last: Judged | None = judged
        following, watched = changes, list(judged.lost)
        for _ in range(ROUNDS):
            if last is None or not last.holds or not last.lost:
                break
            more = self._following(following, last, (len(changes), watched))
            if more == following:
                break
            following, last = more, self._judged(more, last.assessment)
            watched += () if last is None else last.lost
        if last is None or not last.holds or last.lost:
            lost = (last or judged).lost
            what = "; ".join(f"{one.rule} of {one.part}" for one in lost[:3])
            ratio = outcome_of(judged.after, self.bench.good).ratio
            why = f"with it fails, or is not known, {what}"
            self.tried.append(Tried(name=name, says=changes[-1].says, ratio=ratio, why=why))
            return None
        return self._made(following, last)

    def _following(
        self, changes: tuple[Change, ...], judged: Judged, about: tuple[int, list[Target]]
    ) -> tuple[Change, ...]:
        """Changes that follow: the least of the cheap levers for whatever would fail or not be known.

        `about` is how many changes are not to be taken out again, and everything that has to hold.
        """
        base = judged.assessment
        bench = Bench(
            house=base.house, studies=base.studies, good=self.bench.good, share=self.share, survey=base.survey
        )
        waiting = [*sorted(judged.broken, key=lambda one: _far(base, one, bench.good)), *judged.unknown]
        while waiting and len(changes) < FOLLOWING:
            target = waiting.pop(0)
            self.progress(f"what has to follow: {target.rule}")
            step = self._step(bench, changed(self.house, _all_writes(changes)), target)
            if step is not None:
                changes = (*changes, step)
        return self._needed(bench, _once(changes), about)

    def _needed(
        self, bench: Bench, changes: tuple[Change, ...], about: tuple[int, list[Target]]
    ) -> tuple[Change, ...]:
        """Without those that nothing needs any more, because a later one does what they did."""
        first, watched = about
        for one in changes[first:]:
            fewer = tuple(other for other in changes if other is not one)
            try:
                house = changed(self.house, _all_writes(fewer))
                enough = all(bench.outcome(target, house).holds for target in watched)
            except BermwrightError:
                continue
            if enough:
                changes = fewer
        return changes

    def _step(self, bench: Bench, house: House, target: Target) -> Change | None:
        """The cheapest smallest step for one finding of a changed house, without solving its ribs again."""
        try:
            now = bench.outcome(target, house)
        except BermwrightError:
            return None
        if now.holds:
            return None
        inverse = Inverse(bench=bench, target=target, house=house, before=now.ratio)
        found = []
        for lever in (one for one in LEVERS if target.rule in one.helps):
            amounts = inverse.amounts(lever)
            ready = amounts and (lever.name == "nails of the planks" or not dear(amounts[-1].writes))
            one = reach(inverse, lever) if ready else None
            if one is not None and one.at is not None:
                found.append(one.change)
        named = sorted(found, key=lambda change: change.lever)
        ranked = cheapest_first(named, lambda change: self._cost((change,), house))
        return ranked[0] if ranked else None

    def _curve(self) -> list[Proposal]:
        """The curve that the whole search advises, with a wall under its feet where it needs one."""
        number = self.bench.place(self.target, self.house).vault
        if number is None or self.target.rule not in CURVES:
            return []
        change = advised(self.house, number, self.progress, self.share)
        if change is None:
            return []
        changes = (change, *self._wall(change))
        proposal = self._proposal(changes, None)
        return [] if proposal is None else [proposal]

    def _wall(self, change: Change) -> Iterator[Change]:
        """A wall under feet that now stand high, where the file has none."""
        lever = next(one for one in LEVERS if one.name == "wall under the feet")
        house = changed(self.house, change.writes)
        amounts = lever.amounts(self.bench.place(self.target, house))
        if amounts:
            yield chosen(lever, amounts[min(1, len(amounts) - 1)])

    def _judged(self, changes: tuple[Change, ...], like: Assessment | None = None) -> Judged | None:
        """A changed house assessed as a whole; None where there is no such house.

        Ribs that were solved for the house as it is, or for one `like` it, are not solved again.
        """
        writes = _all_writes(changes)
        self.progress("all stages of all parts: " + ", ".join(change.lever for change in changes))
        self.reruns.append(1)
        try:
            house = changed(self.house, writes)
        except BermwrightError:
            return None
        known = self.assessment if like is None else like
        bench = Bench(house=known.house, studies=known.studies, good=self.bench.good, survey=known.survey)
        ready = bench.studies_of(house) if same_studies(house, known.house) else {}
        new = assess(house, ready=ready, share=self.share, progress=self._told, survey=self.assessment.survey)
        return judge(self.assessment, new, self.target, self.bench.good)

    def _told(self, _step: str) -> None:
        """Steps of a whole assessment are only asked whether to go on."""
        self.progress(_step)

    def _cost(self, changes: tuple[Change, ...], house: House | None = None) -> Cost:
        """What changes cost beyond the house as it is."""
        start = self.house if house is None else house
        try:
            new = changed(start, _all_writes(changes))
            before = self.bill if house is None else bill_of(start, self.bench.studies_of(start))
            return cost_of(before, bill_of(new, self.bench.studies_of(new)), changes)
        except BermwrightError:
            return Cost(money=None, currency="", hours=math.inf, lifted=math.inf)

    def _made(self, changes: tuple[Change, ...], judged: Judged) -> Proposal:
        new = judged.assessment
        return Proposal(
            target=self.target,
            changes=changes,
            before=self.before,
            after=judged.after,
            cost=cost_of(self.bill, bill_of(new.house, new.studies), changes),
            mends=judged.mends,
            worse=judged.worse,
            fails=sum(one.verdict is Verdict.FAILS for one in new.findings),
        )


def _once(changes: tuple[Change, ...]) -> tuple[Change, ...]:
    """Each lever once: its last step, beside what the file had."""
    found: dict[str, Change] = {}
    for one in changes:
        first = found.get(one.lever)
        says = one.says
        if first is not None and INSTEAD in says and INSTEAD in first.says:
            was = first.says.partition(INSTEAD)[2].partition(",")[0]
            head, _, tail = says.partition(INSTEAD)
            says = head + INSTEAD + was + "".join(tail.partition(",")[1:])
        found[one.lever] = replace(one, says=says)
    return tuple(found.values())


def _far(assessment: Assessment, target: Target, good: frozenset[Verdict]) -> tuple[bool, float]:
    """What is furthest from holding comes first; what has no number, last."""
    ratio = outcome_of(group_of(assessment.findings, target), good).ratio
    return not math.isfinite(ratio), -ratio


def cheapest_first(ways: Iterable[Way], cost_of_one: Callable[[Way], Cost]) -> list[Way]:
    """By money where every one of them is priced, else by hours and lifted weight; ties stay in order."""
    priced = [(cost_of_one(way), way) for way in ways]
    by_money = all(cost.money is not None for cost, _ in priced)
    return [way for _, way in sorted(priced, key=lambda pair: pair[0].rank(by_money=by_money))]


def _all_writes(changes: Iterable[Change]) -> Writes:
    return merged(*(change.writes for change in changes))


def mend(
    assessment: Assessment,
    target: Target,
    *,
    accept_tight: bool = False,
    progress: Progress = lambda _step: None,
    share: Share = map,
) -> Mended:
    """The smallest changes with which a finding of an assessed house holds.

    `assessment` comes with its stop marks. `accept_tight` lets a finding that is only tight count as holding.
    What `progress` raises ends the search.
    """
    before = group_of(assessment.findings, target)
    if worst_of(before) is Verdict.UNKNOWN:
        questions = _questions(assessment, target)
        return Mended(target=target, before=before, proposals=(), tried=(), pairs=0, questions=questions)
    good = GOOD | ({Verdict.TIGHT} if accept_tight else frozenset())
    if before and all(one.verdict in good for one in before):
        return Mended(target=target, before=before, proposals=(), tried=(), pairs=0, remarks=("It holds.",))
    assessment = _shared(assessment, share)
    mender = Mender(
        assessment=assessment,
        target=target,
        bench=Bench(
            house=assessment.house,
            studies=assessment.studies,
            good=good,
            share=share,
            survey=assessment.survey,
        ),
        bill=bill_of(assessment.house, assessment.studies),
        progress=progress,
        share=share,
    )
    return mender.search()


def _shared(assessment: Assessment, share: Share) -> Assessment:
    """The assessment with ribs that are solved by this `share`: the one it was made with may be over."""
    studies = {
        name: replace(study, model=replace(study.model, share=share))
        for name, study in assessment.studies.items()
    }
    return replace(assessment, studies=studies)


def target_of(assessment: Assessment, finding: Finding) -> Target:
    """What has to hold for a finding to be mended: all that its rule says of its part."""
    return Target(rule=finding.rule, part=finding.part, vault=_vault_of(assessment.house, finding.part))


def _vault_of(house: House, part: str) -> str | None:
    """The vault that a part of a finding belongs to."""
    names = [vault.name for vault in house.vaults]
    for name in names:
        if part in {f'vault "{name}"', f'end "{name}", front', f'end "{name}", back'}:
            return name
    tables = (house.walls, house.footings, house.buttresses, house.rings, house.floor_ties, house.sockets,
              house.openings, house.stoves, house.bedrooms, house.geogrids)  # fmt: skip
    for one in (one for table in tables for one in table):
        if part.endswith(f'"{one.name}"'):
            return one.vault
    return names[0] if len(names) == 1 else None


def targets(assessment: Assessment, *, accept_tight: bool = False) -> tuple[Target, ...]:
    """All that does not hold: what fails or is tight in the order of building, then what is not known."""
    good = GOOD | ({Verdict.TIGHT} if accept_tight else frozenset())
    found: dict[Target, tuple[int, int, int]] = {}
    rules: dict[str, int] = {}
    for finding in assessment.findings:
        if finding.verdict in good:
            continue
        target = target_of(assessment, finding)
        number = rules.setdefault(finding.rule, _rule_number(finding.rule))
        key = (finding.verdict is Verdict.UNKNOWN, _stage_number(assessment, target, finding), number)
        found[target] = min(found.get(target, key), key)
    return tuple(sorted(found, key=lambda target: (found[target], target.part)))


def _rule_number(name: str) -> int:
    return next((number for number, rule in enumerate(EVERY_RULE) if rule.name == name), len(EVERY_RULE))


def _stage_number(assessment: Assessment, target: Target, finding: Finding) -> int:
    study = assessment.studies.get(target.vault or "")
    names = [stage.name for stage in study.stages] if study is not None else []
    return names.index(finding.stage) if finding.stage in names else len(names) + 1


def _questions(assessment: Assessment, target: Target) -> tuple[Question, ...]:
    asks = {place.removeprefix(WHOLE) for place in rule_named(target.rule).asks}
    first = _before_any_force(assessment, target)
    return tuple(
        one
        for one in assessment.questions
        if target.rule in one.blocks or one.place.removeprefix(WHOLE) in asks or one.place in first
    )


def _before_any_force(assessment: Assessment, target: Target) -> set[str]:
    """The places that leave the forces of its vault unknown, whatever else its rule asks for."""
    vault = next((one for one in assessment.house.vaults if one.name == target.vault), None)
    if vault is None or vault.name in assessment.studies:
        return set()
    missing = {re.sub(r" \d+\.", ".", place) for place in missing_for_statics(assessment.house, vault)}
    own = (f'vault "{vault.name}"', "site")
    return {
        one.place
        for one in assessment.questions
        if one.place.startswith(own) and plain_path(one.place) in missing
    }


__all__ = ["broken", "mend", "target_of", "targets"]
