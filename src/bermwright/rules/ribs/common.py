"""What the rib rules share: phases of building, the governing place, verdicts over soil runs, working."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Step, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text, ratio_text, share_text
from bermwright.data.works.timber import EN1995
from bermwright.rules.analysis.response import Peak, peak
from bermwright.rules.nouns import Said
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.analysis.strength import RibStrength
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

RIBS_FIRST = "Mend the ribs first; see what is said of their bending and buckling."

PHASES: Mapping[str, frozenset[StageKind]] = {
    "while it is raised": frozenset({StageKind.RIBS, StageKind.LAGGED, StageKind.WRAPPED}),
    "while it is filled": frozenset({StageKind.CROWN_SOIL, StageKind.FILL}),
    "once it is covered": frozenset({StageKind.COVER, StageKind.TURF, StageKind.SETTLED}),
    "after decades": frozenset({StageKind.LONG_TERM}),
}
EXPECTED = "expected"
OWN_STATE = "permanent"
"""Name of a stage's own case: nothing that a sentence must add."""
STIFFER = "Make [vault] spacing smaller, or layers and depth larger."
NAILS_ASKED = "Answer the questions about [vault] nails, nails_each_side and nail_spacing."


def timber_cite(place: str) -> Cite:
    """A place in EN 1995-1-1; its text was not open, its worked values were."""
    return Cite(work=EN1995, place=place, provenance=Provenance.MEMORY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Worst:
    """The governing entry of a ratio, and what the expected soil run alone gives."""

    peak: Peak
    expected: float
    """Largest ratio in the expected run (NaN: not known)."""

    @property
    def ratio(self) -> float | None:
        """Demand over capacity; None when it is not known."""
        return self.peak.ratio if math.isfinite(self.peak.ratio) else None

    @property
    def verdict(self) -> Verdict:
        """What holds in the expected run only, thanks to the soil giving way, is tight."""
        verdict = verdict_of(self.ratio)
        only_expected = verdict is Verdict.FAILS and self.expected <= 1.0
        return Verdict.TIGHT if only_expected else verdict

    @property
    def only_expected(self) -> bool:
        """Whether it holds thanks to the soil's springs alone."""
        return self.verdict is Verdict.TIGHT and (self.ratio or 0.0) > 1.0


def worst_of(
    study: Study,
    ratios: Callable[[Analysis, RibStrength], Array],
    wanted: Callable[[Situation], bool] = lambda _now: True,
    *,
    every_run: bool = False,
) -> Worst | None:
    """The worst of all sets of partial factors in the wanted situations; None when there are none.

    Lanes that do not count for bending are left out unless every soil run counts, as for connections.
    """
    found: list[Worst] = []
    for analysis in study.analyses:
        values = ratios(analysis, study.strength)
        situations = analysis.where_situation(wanted)
        lanes = np.ones_like(analysis.bends) if every_run else analysis.bends
        top = _peak(analysis, values, situations, lanes)
        if top is None:
            continue
        expected = np.array([lane.run == EXPECTED for lane in analysis.lanes])
        calm = _peak(analysis, values, situations, analysis.bends & expected[:, None])
        found.append(Worst(peak=top, expected=math.nan if calm is None else calm.ratio))
    if not found:
        return None
    # Something that fails outranks something that is not known, which outranks the rest.
    return max(found, key=lambda one: (one.verdict is Verdict.FAILS, one.ratio is None, one.ratio or 0.0))


def _peak(analysis: Analysis, values: Array, situations: Truth, lanes: Truth) -> Peak | None:
    """The worst entry; one that came to no number is not known, even where the ribs came to rest."""
    top = peak(analysis, values, situations, lanes)
    counted = lanes & situations[None, :]
    lost = counted & ~np.isfinite(values).all(axis=tuple(range(2, values.ndim)))
    if top is None or not lost.any() or top.ratio > 1.0:
        return top
    lane, situation = (int(i) for i in np.argwhere(lost)[0])
    return replace(top, lane=lane, situation=situation, ratio=math.nan)


def in_phase(phase: str) -> Callable[[Situation], bool]:
    """Whether a situation belongs to a phase."""
    kinds = PHASES[phase]
    return lambda now: now.stage.kind in kinds


def lagged(now: Situation) -> bool:
    """Whether the planks are on."""
    return now.stage.kind is not StageKind.RIBS


def spot_of(study: Study, node: int) -> Spot:
    """A node of the mesh as a place in the section."""
    return spot_on(study.form, node)


def spot_on(form: VaultForm, node: int) -> Spot:
    """The same for a form alone."""
    return Spot(float(form.mesh.x[node]), float(form.mesh.z[node]))


def place_of(study: Study, node: int) -> str:
    """A node in words: `crown`, `left foot`, `right, at +1.74`."""
    return place_on(study.form, node)


def place_on(form: VaultForm, node: int) -> str:
    """The same for a form alone."""
    spot = spot_on(form, node)
    if abs(spot.x) < 0.05 * form.span and spot.z > form.springing + 0.9 * form.rise:
        return "crown"
    side = "left" if spot.x < 0 else "right"
    at_foot = node in {0, form.mesh.x.size - 1}
    return f"{side} foot" if at_foot else f"{side}, at {level_text(spot.z)}"


def corner_of(analysis: Analysis, lane: int) -> dict[str, Shown | str]:
    """The governing corner, with the set of partial factors."""
    return {**analysis.lanes[lane].corner, "factors": analysis.factors.name}


def moment_of(now: Situation) -> dict[str, Shown | str]:
    """Stage and case as values of a sentence; `when` begins it."""
    stage, case = now.stage.name, now.case.name
    when = stage[:1].upper() + stage[1:] + ("" if case == OWN_STATE else f", {case}")
    return {"stage": stage, "case": case, "when": when}


def at_worst(study: Study, worst: Worst, node: int, said: Said) -> Said:
    """What is said of the governing place, with stage, case, place and corner; `{when}` and `{used}`.

    What holds needs no advice. What holds in the expected soil run only says so.
    """
    now, template = worst.peak.now, said.template
    if worst.only_expected:
        template += " It holds only thanks to soil that gives way: {expected} in the expected run."
    used = {"used": share_text(worst.ratio), "expected": ratio_text(worst.expected)}
    return replace(
        said,
        template=template,
        values={**moment_of(now), **used, **said.values},
        stage=now.stage.name,
        case=now.case.name,
        place=place_of(study, node),
        ratio=worst.ratio,
        corner=corner_of(worst.peak.analysis, worst.peak.lane),
        advice="" if said.verdict is Verdict.HOLDS else said.advice,
        spot=spot_of(study, node),
    )


def not_known(worst: Worst) -> Said:
    """Said of a moment for which no state of rest was found."""
    now = worst.peak.now
    return Said(
        verdict=Verdict.UNKNOWN,
        template="{when}: the ribs find no state of rest. They buckle, or a value is missing.",
        values=moment_of(now),
        stage=now.stage.name,
        case=now.case.name,
        advice=STIFFER,
    )


def kmod_of(study: Study, worst: Worst) -> float:
    """How much of the strength is left under the governing case's duration, in this damp."""
    return float(study.strength.kmods(worst.peak.analysis)[worst.peak.situation])


def step(
    says: str,
    symbol: str,
    formula: str,
    filled: str,
    result: Shown,
    cite: Cite | None = None,
) -> Step:
    """One line of working. What is filled in is in the units of the result, or in N and mm."""
    return Step(says=says, symbol=symbol, formula=formula, filled=filled, result=result, cite=cite)


def factor_step(study: Study, worst: Worst) -> Step:
    """How the strength is reduced for damp and time."""
    strength, duration = study.strength, worst.peak.now.case.duration
    return step(
        f"{strength.timber.name}, {duration} load, service class {strength.service_class}",
        "k_mod",
        "table 3.1",
        "",
        Shown(kmod_of(study, worst), "", 2),
        timber_cite("table 3.1"),
    )


def ratio_step(says: str, formula: str, filled: str, ratio: float | None, cite: Cite | None = None) -> Step:
    """The last line of a working: the strength used."""
    return step(says, "ratio", formula, filled, Shown(math.nan if ratio is None else ratio, "", 3), cite)
