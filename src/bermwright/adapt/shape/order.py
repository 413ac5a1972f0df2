"""The cheapest order of work with which every stage of filling holds, for one curve.

Coarse to fine: each lever is tried alone at a few amounts; those that help are combined from the cheapest
upwards; the first combination that holds is cut down to the least that still does, and is then looked at with
every case. Where nothing holds, the order that goes furthest is named, and how far that is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.shape.envelope import GOVERNING, bending_by_situation, worth_trying
from bermwright.adapt.shape.works import Bags, Effort, Works, effort, written
from bermwright.data.rule_sets import SERVICE
from bermwright.rules import readings
from bermwright.rules.analysis.lanes import build_lanes
from bermwright.rules.analysis.remedies import SMALL_LEAD
from bermwright.rules.analysis.states import situations_of
from bermwright.rules.analysis.strength import rib_ratios
from bermwright.rules.study import rib_model
from bermwright.stages import FILLING, StageKind, build_of, fill_levels, staged
from bermwright.takeoff.earth import earth_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.adapt.shape.envelope import Ribs
    from bermwright.house import Stages
    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.analysis.response import Analysis
    from bermwright.stages import Stage

    Array = NDArray[np.float64]
    Progress = Callable[[str], None]

CROWN_SOIL = (0.1, 0.2, 0.35)
"""Thickness of crown soil that is tried (m)."""
BALLAST = (1.5e3, 3.0e3, 6.0e3)
"""Ballast that is tried (Pa): half bags often beat full ones, and full ones can do harm."""
WIDTH, WIDER, STEP = 1 / 3, 1 / 2, 0.1
"""Widths of crown soil and ballast over the span (-), and to what they are rounded (m)."""
LAID = (0.35, 0.55)
"""Share of the rise to which the fill stands when ballast is laid (-)."""
LIFTS = (0.3, 0.2)
"""Lifts that are tried, where the file's are thicker (m)."""
HELPS = 0.98
"""A lever helps that brings the strength used below this share of what it was (-)."""
HOPEFUL = 1.3
"""Strength that a combination may be guessed to use and is still tried (-)."""
MOST_COMBINED = 40
"""Combinations that are tried before it is given up."""
FURTHEST = 2
"""Combinations that are looked at where none holds: those that should go furthest."""
NEARLY = 1.05
"""Strength used over the least at which an order counts as going as far (-)."""
LIGHTEST, THINNEST = 0.5e3, 0.05
"""Steps by which ballast (Pa) and crown soil (m) are cut down."""
CUTS = 4
"""How often they are cut down at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """Works that were tried, and what came of them while the vault is filled."""

    works: Works
    used: float
    """Largest strength used; infinite where the ribs find no rest, or where it is not known."""
    effort: Effort
    bending: float = math.nan
    """Largest bending per metre of vault (N m/m), characteristic; NaN where nobody asked."""

    @property
    def holds(self) -> bool:
        """Whether every stage of filling holds."""
        return self.used <= 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderOfWork:
    """The order that was chosen, and what each lever does alone."""

    before: Trial
    """As the file has it."""
    chosen: Trial
    """The cheapest that holds; where none does, the one that goes furthest."""
    levers: tuple[Trial, ...]
    """Each kind of work alone, at the amount that does most; without loads that come and go."""
    plain: Trial
    """What the levers are measured against: as the file has it, without loads that come and go."""
    writes: Mapping[str, str]
    """What to write into the house file, by its place."""

    @property
    def needed(self) -> bool:
        """Whether anything is to be done beyond what the file says."""
        return self.chosen.works != Works()


def order_of_work(ribs: Ribs, progress: Progress = lambda _step: None) -> OrderOfWork:
    """Search the order of work of a vault that is ready to be solved."""
    site = Site(ribs=ribs, fill=earth_of(ribs.house, ribs.vault, ribs.form).compacted)
    progress(f"{ribs.vault.name}: order of work, each lever alone")
    plain = site.tried(Works())
    alone = [[site.tried(works) for works in amounts] for amounts in _levers(site)]
    full = site.tried(Works(), quick=False)
    if full.holds:
        chosen = full
    else:
        progress(f"{ribs.vault.name}: order of work, levers together")
        chosen = _combined(site, plain, alone, full)
    return OrderOfWork(
        before=site.bent(full),
        chosen=site.bent(chosen),
        levers=tuple(site.bent(min(trials, key=_used)) for trials in alone if trials),
        plain=site.bent(plain),
        writes=written(chosen.works, site.like, ribs.form),
    )


def _used(trial: Trial) -> float:
    return trial.used


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """One vault and its fill, on which works are tried."""

    ribs: Ribs
    fill: float
    """Compacted soil (m3)."""

    @property
    def like(self) -> Stages:
        """How the file has it."""
        return self.ribs.house.stages

    def tried(self, works: Works, *, quick: bool = True) -> Trial:
        """Solve the filling with these works; quickly without loads that come and go."""
        model, stages = self._filled(works, quick=quick)
        analyses = _solved(model, stages)
        # Unlike `max`, numpy passes on what is not a number: what is not known must not hold.
        used = float(np.max([_while_filling(one, rib_ratios(one, self.ribs.strength)) for one in analyses]))
        return Trial(
            works=works,
            used=used if math.isfinite(used) else math.inf,
            effort=effort(
                works,
                like=self.like,
                form=self.ribs.form,
                fill=self.fill,
                unit_weight=model.soil.unit_weight.high,
            ),
        )

    def bent(self, trial: Trial) -> Trial:
        """The same with its largest bending."""
        model, stages = self._filled(trial.works, quick=True)
        (service,) = _solved(replace(model, factor_sets=(SERVICE,), model_factor=1.0), stages)
        bending = bending_by_situation(self.ribs.form, service)[None, :]
        return replace(trial, bending=_while_filling(service, bending))

    def _filled(self, works: Works, *, quick: bool) -> tuple[RibModel, tuple[Stage, ...]]:
        """The ribs and the stages of filling with these works."""
        ribs, form = self.ribs, self.ribs.form
        house = replace(ribs.house, stages=works.stages(self.like, form))
        given = readings.given(house, ribs.vault, form, ribs.strength.timber)
        stages = staged(
            build_of(form, given),
            variable=not quick,
            wanted=lambda kind, _level: kind in FILLING or kind is StageKind.WRAPPED,
        )
        return replace(rib_model(house, ribs.vault, form, ribs.strength), share=ribs.model.share), stages


def _solved(model: RibModel, stages: tuple[Stage, ...]) -> tuple[Analysis, ...]:
    only = {
        factors.name: frozenset(worth_trying(build_lanes(model.soil, factors), GOVERNING))
        for factors in model.factor_sets
    }
    return model.analyse_situations(situations_of(stages), only=only)


def _while_filling(analysis: Analysis, values: Array) -> float:
    """The largest of (L, S) values in the stages of filling; NaN is passed on."""
    return float(values[:, analysis.where_situation(lambda now: now.stage.kind in FILLING)].max())


def _levers(site: Site) -> Iterator[list[Works]]:
    """Each kind of work alone, from the least amount upwards."""
    like, model = site.like, site.ribs.model
    if model.placing.heavy:
        yield [Works(gentle=True)]
    if like.permitted_lead > SMALL_LEAD:
        yield [Works(lead=SMALL_LEAD)]
    yield [Works(lift=lift) for lift in LIFTS if lift < like.lift]
    yield list(_crown_soil(site))
    yield list(_bags(site))
    yield [Works(props=where) for where in ("crown", "haunches")]


def _width(site: Site, share: float = WIDTH) -> float:
    return round(round(site.ribs.form.span * share / STEP) * STEP, 1)


def _crown_soil(site: Site) -> Iterator[Works]:
    """As thick as the finished ground leaves room under its turf."""
    form = site.ribs.form
    room = float(form.ground.finished.level(0.0)) - form.ground.turf - form.crown_level
    thicknesses = dict.fromkeys(math.floor(min(thick, room) * 100.0) / 100.0 for thick in CROWN_SOIL)
    for thick, share in product(thicknesses, (WIDTH, WIDER)):
        if thick > 0.0:
            yield Works(crown_soil=thick, crown_width=_width(site, share))


def _bags(site: Site) -> Iterator[Works]:
    """Laid with the fill at either of two levels, taken off with the fill at the crown."""
    form = site.ribs.form
    levels = fill_levels(form, site.like.lift)
    for weight, share in product(BALLAST, LAID):
        wanted = form.springing + share * form.rise
        start = min(levels[:-1], key=lambda level, wanted=wanted: abs(level - wanted))  # type: ignore[misc]
        bags = Bags(weight=weight, width=_width(site), start=round(start, 3), until=round(levels[-1], 3))
        yield Works(bags=bags)


def _combined(site: Site, plain: Trial, alone: list[list[Trial]], full: Trial) -> Trial:
    """The cheapest combination that holds with every load; else the one that goes furthest."""
    helpful = [[one for one in trials if one.used < HELPS * plain.used] for trials in alone]
    ranked = sorted(_together(plain, [trials for trials in helpful if trials]), key=lambda one: one[0].rank)
    # What levers do together is guessed from what they do alone, so that hopeless ones are not solved.
    margin = full.used / plain.used if math.isfinite(full.used) and plain.used else 1.0
    hopeful = [works for _, works, share in ranked if share * plain.used * margin <= HOPEFUL]
    best = full
    for works in hopeful[:MOST_COMBINED]:
        if site.tried(works).used * margin > 1.0:
            continue
        found = site.tried(works, quick=False)
        best = min(best, found, key=_used)
        if found.holds:
            return _least(site, found)
    furthest = sorted(ranked, key=lambda one: one[2])[:FURTHEST]
    tried = [best, *(site.tried(works, quick=False) for _, works, _ in furthest)]
    least = min(trial.used for trial in tried)
    # What does nearly as much for less work is the better advice.
    return min((one for one in tried if one.used <= NEARLY * least), key=lambda one: one.effort.rank)


def _together(plain: Trial, helpful: list[list[Trial]]) -> Iterator[tuple[Effort, Works, float]]:
    """Every combination of levers: its cost, its works, and to which share it may bring the strength."""
    for chosen in product(*([None, *trials] for trials in helpful)):
        taken = [trial for trial in chosen if trial is not None]
        if not taken:
            continue
        works = merged([trial.works for trial in taken])
        share = math.prod(trial.used / plain.used for trial in taken)
        cost = Effort(
            hours=sum(trial.effort.hours for trial in taken),
            lifted=sum(trial.effort.lifted for trial in taken),
        )
        yield cost, works, share


def merged(works: Iterable[Works]) -> Works:
    """All of them at once; each kind stands in one at most."""
    nothing, together = Works(), {}
    for one in works:
        for name in Works.__dataclass_fields__:
            if getattr(one, name) != getattr(nothing, name):
                together[name] = getattr(one, name)
    return Works(**together)


def _least(site: Site, found: Trial) -> Trial:
    """The same with its weights cut down to the least that still holds with every load."""
    best = found
    for lighter in (_lighter_bags, _thinner_soil):
        for _ in range(CUTS):
            works = lighter(best.works)
            if works is None:
                break
            tried = site.tried(works)
            if not tried.holds:
                break
            full = site.tried(works, quick=False)
            if not full.holds:
                break
            best = full
    return best


def _lighter_bags(works: Works) -> Works | None:
    bags = works.bags
    if bags is None or bags.weight <= LIGHTEST:
        return None
    return replace(works, bags=replace(bags, weight=bags.weight - LIGHTEST))


def _thinner_soil(works: Works) -> Works | None:
    if works.crown_soil <= THINNEST:
        return None
    return replace(works, crown_soil=round(works.crown_soil - THINNEST, 3))
