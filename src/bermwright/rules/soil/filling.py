"""Stop marks: how far one side of the fill may be ahead, and what must come first where nothing may."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict
from bermwright.base.marks import Side, StopMark
from bermwright.base.wording import level_text
from bermwright.rules.analysis.stop_marks import STEP
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.bending import SOIL_CITE
from bermwright.rules.ribs.common import NAILS_ASKED, STIFFER, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.analysis.stop_marks import LeadMark
    from bermwright.rules.study import Study

SAME = 1e-9
"""Lengths closer than this are one (m)."""


def _decide(study: Study) -> Iterator[Said]:
    if not study.marks:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The stop marks were not computed.",
            advice="Run the check with its stop marks.",
        )
        return
    blocked = [mark for mark in study.marks if mark.blocked]
    # What blocks one level blocks the work: the levels above it are named with it, not one by one.
    passed = [mark for mark in study.marks if mark not in blocked[1:]]
    found = [_said(study, mark, len(blocked)) for mark in passed]
    against = [said for said in found if said is not None]
    yield from against or [_all_hold(study)]


def _said(study: Study, mark: LeadMark, blocked: int) -> Said | None:
    """What speaks against a mark; None where the fill may go as far ahead as the file permits."""
    if mark.lead is None or mark.allowed is None:
        return _lost(study, mark)
    if mark.blocked:
        return _blocked(study, mark, blocked - 1)
    # The mark is painted rounded down; whether the permitted lead holds is read from what was solved.
    wanted = _wanted(study, mark)
    return _too_little(study, mark, mark.lead, wanted) if mark.allowed + SAME < wanted else None


def _wanted(study: Study, mark: LeadMark) -> float:
    return min(study.given.lead, mark.cap)


def _lost(study: Study, mark: LeadMark) -> Said:
    loose = study.strength.loose
    return Said(
        verdict=Verdict.UNKNOWN,
        template="How far one side may be ahead at {level} is not known: {why}.",
        values={
            "level": level_text(mark.level),
            "why": "the nails are not" if loose else "the ribs find no state of rest",
        },
        stage=_stage(study, mark),
        place=_place(mark),
        advice=NAILS_ASKED if loose else STIFFER,
        spot=_spot(study, mark),
    )


def _blocked(study: Study, mark: LeadMark, more: int) -> Said:
    above = ", here and at {more} levels above." if more else "."
    return Said(
        verdict=Verdict.FAILS,
        template="With both sides at {level} not even {step} of lead holds" + above,
        values={
            "level": level_text(mark.level),
            "step": Shown(min(STEP, mark.cap), "m", 2),
            "more": str(more),
        },
        stage=_stage(study, mark),
        place=_place(mark),
        ratio=mark.ratio_next if math.isfinite(mark.ratio_next) else None,
        corner={"governs": mark.corner},
        advice=study.remedy(mark),
        steps=_steps(mark),
        spot=_spot(study, mark),
    )


def _too_little(study: Study, mark: LeadMark, lead: float, wanted: float) -> Said:
    shown = Shown(lead, "m", 2)
    return Said(
        verdict=Verdict.FAILS,
        template="At {level} one side may be {lead} ahead; the file permits {permitted}.",
        values={
            "level": level_text(mark.level),
            "lead": shown,
            "permitted": Shown(study.given.lead, "m", 2),
        },
        stage=_stage(study, mark),
        place=_place(mark),
        demand=wanted,
        capacity=lead,
        unit="m",
        ratio=wanted / lead,
        corner={"governs": mark.corner},
        advice=f'Write [stages] lead = "{shown.text()}".',
        steps=(*_steps(mark), _lead_step(wanted, lead)),
        spot=_spot(study, mark),
    )


def _all_hold(study: Study) -> Said:
    tightest = min(study.marks, key=lambda mark: mark.lead or 0.0)
    lead = tightest.lead or 0.0
    return Said(
        verdict=Verdict.HOLDS,
        template="At every level one side may be as far ahead as the file permits, {permitted}.",
        values={
            "permitted": Shown(study.given.lead, "m", 2),
            "level": level_text(tightest.level),
            "lead": Shown(lead, "m", 2),
        },
        stage=_stage(study, tightest),
        place=_place(tightest),
        demand=_wanted(study, tightest),
        capacity=tightest.allowed,
        unit="m",
        corner={"governs": tightest.corner},
        steps=_steps(tightest),
        spot=_spot(study, tightest),
    )


def _steps(mark: LeadMark) -> tuple[Step, ...]:
    """How much is used past the mark; nothing was solved past it where a lift ends."""
    if not math.isfinite(mark.ratio_next):
        return ()
    return (
        step(
            f"Strength used one step past the mark, {mark.corner}",
            "ratio",
            "largest of bending, shear and nails",
            "",
            Shown(mark.ratio_next, "", 3),
            SOIL_CITE,
        ),
    )


def _lead_step(wanted: float, lead: float) -> Step:
    return step(
        "Lead that the file permits over the mark",
        "ratio",
        "permitted / mark",
        f"{wanted:.3f} / {lead:.3f}",
        Shown(wanted / lead, "", 3),
    )


def _place(mark: LeadMark) -> str:
    return f"at {level_text(mark.level)}"


def _spot(study: Study, mark: LeadMark) -> Spot:
    """The mark's level on the left face; that on the right is the same."""
    mesh = study.form.mesh
    left = slice(0, mesh.crown + 1)
    node = int(np.argmin(np.abs(mesh.soil_z[left] - mark.level)))
    return Spot(float(mesh.soil_x[node]), mark.level)


def _stage(study: Study, mark: LeadMark) -> str | None:
    return next((stage.name for stage in study.stages if stage.filling and stage.level == mark.level), None)


def _draws(study: Study, finding: Finding) -> tuple[Mark, ...]:
    level = next((m for m in study.marks if _place(m) == finding.place), None)
    stop = None if level is None else study.stop(level)
    if stop is None:
        return ()
    return tuple(StopMark(level=stop, side=side) for side in Side)


STOP_MARKS = Rule(
    name="fill-keeps-to-its-stop-marks",
    title="The fill keeps to its stop marks",
    why="Most vaults that fail, fail while they are filled unevenly. The marks are painted on the shell "
    "before the first barrow.",
    cites=(SOIL_CITE,),
    decide=_decide,
    asks=("stages.compaction", "stages.compactor_distance", "stages.wet_fill"),
    draws=_draws,
)
