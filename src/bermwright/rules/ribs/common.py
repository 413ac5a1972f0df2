"""What the rib rules share: phases of building, the governing place, verdicts over soil runs, working."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Step, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.works.timber import EN1995
from bermwright.rules.analysis.response import Peak, peak
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from bermwright.rules.analysis.response import Analysis
    from bermwright.rules.analysis.states import Situation
    from bermwright.rules.analysis.strength import RibStrength
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

PHASES: Mapping[str, frozenset[StageKind]] = {
    "while it is raised": frozenset({StageKind.RIBS, StageKind.LAGGED, StageKind.WRAPPED}),
    "while it is filled": frozenset({StageKind.FILL}),
    "once it is covered": frozenset({StageKind.COVER, StageKind.TURF, StageKind.SETTLED}),
    "after decades": frozenset({StageKind.LONG_TERM}),
}
EXPECTED = "expected"


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
    wanted: Callable[[Situation], bool],
) -> Worst | None:
    """The worst of all sets of partial factors in the wanted situations; None when there are none."""
    found: list[Worst] = []
    for analysis in study.analyses:
        values = ratios(analysis, study.strength)
        situations = analysis.where_situation(wanted)
        top = peak(analysis, values, situations, analysis.bends)
        if top is None:
            continue
        expected = np.array([lane.run == EXPECTED for lane in analysis.lanes])
        calm = peak(analysis, values, situations, analysis.bends & expected[:, None])
        found.append(Worst(peak=top, expected=math.nan if calm is None else calm.ratio))
    if not found:
        return None
    # Something that fails outranks something that is not known, which outranks the rest.
    return max(found, key=lambda one: (one.verdict is Verdict.FAILS, one.ratio is None, one.ratio or 0.0))


def in_phase(phase: str) -> Callable[[Situation], bool]:
    """Whether a situation belongs to a phase."""
    kinds = PHASES[phase]
    return lambda now: now.stage.kind in kinds


def spot_of(study: Study, node: int) -> Spot:
    """A node of the mesh as a place in the section."""
    mesh = study.form.mesh
    return Spot(float(mesh.x[node]), float(mesh.z[node]))


def place_of(study: Study, node: int) -> str:
    """A node in words."""
    spot = spot_of(study, node)
    if abs(spot.x) < 0.05 * study.form.span and spot.z > study.form.springing + 0.9 * study.form.rise:
        return "crown"
    side = "left" if spot.x < 0 else "right"
    return f"{side}, at {level_text(spot.z)}"


def corner_of(worst: Worst) -> dict[str, Shown | str]:
    """The governing corner, with the set of partial factors."""
    return {**worst.peak.corner.corner, "factors": worst.peak.analysis.factors.name}


def not_known(worst: Worst) -> tuple[str, dict[str, Shown | str]]:
    """Sentence for a place where no state of rest was found."""
    now = worst.peak.now
    return (
        "At {stage} ({case}) no state of rest of the ribs was found: they buckle, or a value is missing.",
        {"stage": now.stage.name, "case": now.case.name},
    )


def step(  # noqa: PLR0913  (one argument for each part of a line of working)
    says: str, symbol: str, formula: str, filled: str, value: float, unit: str = "", digits: int = 2, cite: Cite | None = None
) -> Step:
    """One line of working."""
    return Step(says=says, symbol=symbol, formula=formula, filled=filled, result=Shown(value, unit, digits), cite=cite)


def factor_step(study: Study, worst: Worst) -> Step:
    """How the strength is reduced for damp and time."""
    now = worst.peak.now
    kmod = float(study.strength.kmods(worst.peak.analysis)[worst.peak.situation])
    return step(
        f"{study.strength.timber.name}, {now.case.duration} load, service class {study.strength.service_class}",
        "k_mod", "table", f"{now.case.duration}", kmod, "", 2, timber_cite("table 3.1"),
    )  # fmt: skip
