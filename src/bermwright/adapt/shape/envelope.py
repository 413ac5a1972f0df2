"""The largest bending of a vault over soil runs, stages and cases, and where and when it comes.

Loads are characteristic (all factors 1), so that curves are compared by what bends them and not by a rule
set; the strength used beside it is the design value that `check` gives.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.ranges import Range
from bermwright.data.rule_sets import SERVICE
from bermwright.data.timber_classes import strength_class
from bermwright.form import FormUnknownError, vault_form
from bermwright.rules import readings
from bermwright.rules.analysis.lanes import build_lanes
from bermwright.rules.analysis.model import TIGHT
from bermwright.rules.analysis.states import situations_of
from bermwright.rules.analysis.strength import RibStrength, bending_ratio, nail_ratio, shear_ratio
from bermwright.rules.ribs.common import place_on, spot_on
from bermwright.rules.study import rib_model
from bermwright.stages import StageKind, build_of, staged

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Sequence

    from numpy.typing import NDArray

    from bermwright.base.findings import Spot
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.frames import Frame
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House, Vault
    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.model import RibModel
    from bermwright.rules.analysis.response import Analysis
    from bermwright.stages import Build, Stage

    Array = NDArray[np.float64]

FINE, COARSE = 72, 28
"""Elements of the rib: as `check` takes them, and for searches."""
ROUGH = 1e-4
"""Tolerance of a quick look: bending then stands within a part in a million."""
SEARCH_RUNS = frozenset({"low", "compacted"})
"""The expected run lies between them: it is left to the last look, as the heavy one where it is no load."""
LOW_FILL = 0.45
"""Fill below this share of the rise is left out of the quick look (-)."""
EVEN, EVEN_PLACES = 1e-6, 41
"""Difference between left and right that counts as none (m), and at how many places it is looked at."""
GOVERNING = SEARCH_RUNS | {"heavy"}
"""Runs that are solved for lists of curves: the heavy one pushes the feet even where it bends nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StageBending:
    """The largest bending while one stage lasts, over its cases and the soil runs."""

    stage: Stage
    bending: float
    """N m per metre of vault, characteristic; infinite where no state of rest was found."""
    boards: float | None
    """Largest strength of the boards used in bending with thrust, and in shear (design); None: not known."""
    nails: float | None
    """Largest strength used of the nails at the butt joints (design); None: not known, 0: no joints."""

    @property
    def used(self) -> float | None:
        """The larger of both; None where either is not known."""
        return None if self.boards is None or self.nails is None else max(self.boards, self.nails)

    @property
    def level(self) -> float | None:
        """Level of the fill (m); None before there is any."""
        return self.stage.level


@dataclass(frozen=True, slots=True, kw_only=True)
class Envelope:
    """What one curve leaves of bending, and what it does to its feet."""

    vault: Vault
    form: VaultForm
    bending: float
    """Largest bending per metre of vault (N m/m), characteristic; infinite where the ribs find no rest."""
    inside: bool
    """Whether the room side is in tension there."""
    place: str
    """Such as `left, at +1.74`."""
    spot: Spot
    stage: str
    case: str
    run: str
    """Soil run that governs."""
    stages: tuple[StageBending, ...]
    outward: Range
    """Push of a foot per metre of vault over everything, heavy soil run included (N/m): + presses the feet
    apart, - presses them together."""
    down: Range
    """The same downwards; below 0 the foot is lifted."""

    @property
    def used(self) -> float | None:
        """Largest strength used over all stages; None where any is not known."""
        return _largest_known([one.used for one in self.stages])

    def used_but(self, kinds: Container[StageKind]) -> float | None:
        """The same over all other stages than those of some kinds."""
        return _largest_known([one.used for one in self.stages if one.stage.kind not in kinds])

    @property
    def boards(self) -> float | None:
        """The same of the boards alone, without the nails of their joints."""
        return _largest_known([one.boards for one in self.stages])

    @property
    def filling(self) -> float:
        """Largest bending while soil is placed, up to the crown (N m/m)."""
        kinds = {StageKind.CROWN_SOIL, StageKind.FILL}
        return max((one.bending for one in self.stages if one.stage.kind in kinds), default=math.nan)

    @property
    def finished(self) -> float:
        """Largest bending of the finished house (N m/m)."""
        kinds = {StageKind.SETTLED, StageKind.LONG_TERM}
        return max((one.bending for one in self.stages if one.stage.kind in kinds), default=math.nan)


def _largest_known(values: Sequence[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return max(known) if known and len(known) == len(values) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ribs:
    """A vault that is ready to be solved: its form, its building sequence, its frame and its strength."""

    house: House
    vault: Vault
    form: VaultForm
    stages: tuple[Stage, ...]
    model: RibModel
    strength: RibStrength


def ribs_of(house: House, vault: Vault, *, quick: bool = False, share: Share = map) -> Ribs:
    """Form, stages and frame of a vault; quickly with a coarse rib that runs through without joints.

    Raises `BermwrightError` where something is missing in the file or the curve cannot be had.
    """
    missing = readings.missing_for_statics(house, vault)
    if missing:
        raise FormUnknownError(vault.name, missing)
    form = vault_form(house, vault, elements=COARSE if quick else FINE, pieces=not quick)
    timber = strength_class(vault.timber)
    build = build_of(form, readings.given(house, vault, form, timber))
    # Joints are left out of the search: their nails are then not asked for either.
    nailed = replace(vault, nails=None) if quick else vault
    # Curves are compared, not how their pieces happen to end: a usual number of nails in every piece.
    strength = RibStrength.of(nailed, form, timber).provisional
    return Ribs(
        house=house,
        vault=vault,
        form=form,
        stages=_quick_stages(build) if quick else staged(build),
        model=replace(
            rib_model(house, vault, form, strength), share=share, tolerance=ROUGH if quick else TIGHT
        ),
        strength=strength,
    )


def _quick_stages(build: Build) -> tuple[Stage, ...]:
    """The stages and cases that can govern, for a quick look.

    The quick runs have no springs, so that a state does not depend on those before it. Bare ribs, and fill
    that lies low beside them, never bend most; what long term adds to the settled house is only softer.
    Under an even ground the cases with the right side ahead or loaded mirror those with the left.
    """
    form = build.form
    low = form.springing + LOW_FILL * form.rise
    early = {StageKind.RIBS, StageKind.LAGGED, StageKind.SETTLED}

    def wanted(kind: StageKind, level: float | None) -> bool:
        return kind not in early and (kind is not StageKind.FILL or level is None or level >= low)

    stages = staged(build, wanted=wanted)
    if not _even(form):
        return stages
    return tuple(
        replace(stage, cases=tuple(case for case in stage.cases if "right" not in case.name))
        for stage in stages
    )


def _even(form: VaultForm) -> bool:
    """Whether left and right of the section are each other's mirror image."""
    x, line = np.linspace(0.0, form.span, EVEN_PLACES), form.rib.centreline
    grounds = (form.ground.finished, form.ground.natural)
    level = all(np.allclose(one.level(x), one.level(-x), atol=EVEN) for one in grounds)
    return level and bool(np.allclose(line.x, -line.x[::-1], atol=EVEN))


def bending_envelope(
    house: House, vault: Vault, *, every_corner: bool = True, share: Share = map
) -> Envelope:
    """The whole envelope of a vault, with the strength used at every stage: a few tenths of a second.

    Without `every_corner` the corners of the soil's ranges that hardly ever govern are left out, which is
    three times as fast: for lists of many curves.
    """
    ribs = ribs_of(house, vault, share=share)
    situations = situations_of(ribs.stages)
    plain = replace(ribs.model, factor_sets=(SERVICE,), model_factor=1.0)
    (service,) = plain.analyse_situations(situations, only=_lanes(plain, every_corner=every_corner))
    design = ribs.model.analyse_situations(situations, only=_lanes(ribs.model, every_corner=every_corner))
    return envelope_of(ribs, service, design)


def _lanes(model: RibModel, *, every_corner: bool) -> dict[str, frozenset[Lane]] | None:
    """The lanes to be solved, for each set of factors; None: all."""
    if every_corner:
        return None
    return {
        factors.name: frozenset(worth_trying(build_lanes(model.soil, factors), GOVERNING))
        for factors in model.factor_sets
    }


@dataclass(frozen=True, slots=True, kw_only=True)
class Screen:
    """The largest bending of variants of one vault, alone and quickly: tens of milliseconds each.

    A coarse rib whose butt joints are spread evenly along it, the heaviest soil, and the soil runs that can
    govern: within a few parts in a hundred of the whole envelope.
    """

    house: House
    joint_stiffness: float
    """Rotational spring of a butt joint (N m/rad)."""
    joints: float
    """Butt joints per metre of rib (1/m)."""

    @classmethod
    def of(cls, ribs: Ribs) -> Screen:
        """Take the joints from a vault that is laid out in full."""
        rib = ribs.form.rib
        return cls(
            house=ribs.house,
            joint_stiffness=ribs.strength.joint_stiffness,
            joints=rib.joints.size / rib.centreline.length,
        )

    def bending(self, vault: Vault) -> float:
        """The largest bending (N m per metre of vault), characteristic; infinite where there is no rest."""
        return self.bending_of(ribs_of(self.house, vault, quick=True))

    def bending_of(self, ribs: Ribs) -> float:
        """The same of ribs that were made for a quick look."""
        model = replace(ribs.model, frame=self._jointed(ribs), factor_sets=(SERVICE,), model_factor=1.0)
        runs = SEARCH_RUNS | {"heavy"} if _heavy(ribs) else SEARCH_RUNS
        lanes = frozenset(worth_trying(build_lanes(model.soil, SERVICE), runs))
        (analysis,) = model.analyse_situations(situations_of(ribs.stages), only={SERVICE.name: lanes})
        return float(np.max(bending_by_situation(ribs.form, analysis)))

    def _jointed(self, ribs: Ribs) -> Frame:
        """The frame with its butt joints spread over all nodes; a pointed crown stays the hinge it is."""
        frame, length = ribs.model.frame, ribs.form.rib.centreline.length
        spread = self.joint_stiffness * (frame.x.size - 1) / max(self.joints * length, 1e-9)
        joint = np.minimum(frame.joint, spread)
        joint[[0, -1]] = frame.joint[[0, -1]]
        return replace(frame, joint=joint)


def _heavy(ribs: Ribs) -> bool:
    """Whether the heavy soil run counts for bending anywhere."""
    return ribs.model.placing.heavy or any(case.ballast for stage in ribs.stages for case in stage.cases)


def worth_trying(lanes: tuple[Lane, ...], runs: frozenset[str]) -> Iterator[Lane]:
    """Heaviest soil; least push of the low run, greatest of the others."""
    weight = max(lane.unit_weight for lane in lanes)
    angles = [lane.friction_angle for lane in lanes]
    for lane in lanes:
        corner = max(angles) if lane.run == "low" else min(angles)
        if lane.run in runs and lane.unit_weight == weight and lane.friction_angle == corner:
            yield lane


def bending_by_situation(form: VaultForm, analysis: Analysis) -> Array:
    """(S,) largest bending in each situation (N m per metre); infinite where there is no state of rest."""
    bent = np.where(np.isfinite(analysis.moment), np.abs(analysis.moment), -np.inf).max(axis=(0, 2, 3))
    lost = (analysis.bends & ~analysis.response.converged).any(axis=0)
    return np.asarray(np.where(lost, np.inf, bent / form.spacing))


def envelope_of(ribs: Ribs, analysis: Analysis, design: Sequence[Analysis]) -> Envelope:
    """Read the envelope out of a vault that is solved with characteristic and with design loads."""
    form = ribs.form
    by_situation = bending_by_situation(form, analysis)
    worst = int(np.argmax(by_situation))
    moment = np.where(np.isfinite(analysis.moment), analysis.moment, 0.0)[:, worst]
    lane, element, end = (int(i) for i in np.unravel_index(int(np.argmax(np.abs(moment))), moment.shape))
    now = analysis.situations[worst]
    return Envelope(
        vault=ribs.vault,
        form=form,
        bending=float(by_situation[worst]),
        inside=bool(moment[lane, element, end] > 0.0),
        place=place_on(form, element + end),
        spot=spot_on(form, element + end),
        stage=now.stage.name,
        case=now.case.name,
        run=analysis.lanes[lane].run,
        stages=tuple(_by_stage(ribs, analysis, by_situation, design)),
        outward=_foot_range(form, analysis, 0),
        down=_foot_range(form, analysis, 1),
    )


def _by_stage(
    ribs: Ribs, analysis: Analysis, bending: Array, design: Sequence[Analysis]
) -> Iterator[StageBending]:
    boards = np.max([_counted(one, board_ratios(one, ribs.strength)) for one in design], axis=0)
    nails = np.max([_counted(one, _nail_ratios(one, ribs.strength)) for one in design], axis=0)
    for stage in ribs.stages:
        here = analysis.where_situation(lambda now, stage=stage: now.stage is stage)  # type: ignore[misc]
        yield StageBending(
            stage=stage,
            bending=float(bending[here].max()),
            boards=_known(boards[here].max()),
            nails=_known(nails[here].max()),
        )


def board_ratios(analysis: Analysis, strength: RibStrength) -> Array:
    """(L, S) largest strength of the boards used, in bending with thrust and in shear."""
    bent = bending_ratio(analysis, strength).max(axis=(2, 3))
    return np.asarray(np.maximum(bent, shear_ratio(analysis, strength).max(axis=2)))


def _nail_ratios(analysis: Analysis, strength: RibStrength) -> Array:
    if not strength.joint_nodes.size:
        return np.zeros(analysis.bends.shape)
    return np.asarray(nail_ratio(analysis, strength).max(axis=2))


def _counted(analysis: Analysis, ratios: Array) -> Array:
    """(S,) the worst of the lanes that count for bending; NaN is passed on."""
    return np.asarray(np.where(analysis.bends, ratios, -np.inf).max(axis=0))


def _known(value: float) -> float | None:
    return float(value) if math.isfinite(value) else None


def _foot_range(form: VaultForm, analysis: Analysis, component: int) -> Range:
    force = analysis.response.feet[..., component] / form.spacing
    # Where no state of rest was found the bending says so already; the rest of the range still helps.
    known = force[np.isfinite(force)]
    return Range(float(known.min()), float(known.max())) if known.size else Range(np.nan, np.nan)
