"""Stop marks: how far one side of the fill may be ahead, and what must come first where nothing may."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.base.marks import Side, StopMark
from bermwright.base.wording import level_text
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.bending import SOIL_CITE
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding, Step
    from bermwright.base.marks import Mark
    from bermwright.rules.analysis.stop_marks import LeadMark
    from bermwright.rules.study import Study


def _decide(study: Study) -> Iterator[Said]:
    if not study.marks:
        yield Said(verdict=Verdict.UNKNOWN, template="Stop marks were not computed.", advice="Run check without leaving them out.")
        return
    permitted = study.given.lead
    for mark in study.marks:
        if mark.lead is None:
            yield Said(
                verdict=Verdict.UNKNOWN,
                template="How far one side may be ahead at {level} is not known: a value is missing or no state of rest was found.",
                values={"level": level_text(mark.level)},
                stage=_stage(study, mark),
                place=level_text(mark.level),
            )
        elif mark.blocked or mark.lead + 1e-9 < min(permitted, mark.cap):
            yield _too_little(study, mark, permitted)
    tightest = min((mark for mark in study.marks if mark.lead is not None), key=lambda mark: mark.lead or 0.0, default=None)
    if tightest is not None and all(m.lead is not None and m.lead + 1e-9 >= min(permitted, m.cap) and not m.blocked for m in study.marks):
        yield Said(
            verdict=Verdict.HOLDS,
            template="At every level one side may be as far ahead as the file permits, {permitted}; least is left at {level}: {lead}.",
            values={
                "permitted": Shown(permitted, "m", 2), "level": level_text(tightest.level), "lead": Shown(tightest.lead or 0.0, "m", 2),
            },
            stage=_stage(study, tightest),
            place=level_text(tightest.level),
            demand=permitted,
            capacity=tightest.cap if (tightest.lead or 0.0) + 1e-9 >= tightest.cap else tightest.lead,
            unit="m",
            corner={"governs": tightest.corner},
            steps=(_step(tightest),),
        )  # fmt: skip


def _too_little(study: Study, mark: LeadMark, permitted: float) -> Said:
    remedy = study.remedy(mark)
    template = (
        "With both sides at {level} the fill cannot go on: not even {step} of lead holds."
        if mark.blocked
        else "At {level} one side may be {lead} ahead; the file permits {permitted}."
    )
    return Said(
        verdict=Verdict.FAILS,
        template=template,
        values={
            "level": level_text(mark.level), "step": Shown(0.05, "m", 2), "lead": Shown(mark.lead or 0.0, "m", 2),
            "permitted": Shown(permitted, "m", 2),
        },
        stage=_stage(study, mark),
        place=level_text(mark.level),
        demand=permitted,
        capacity=mark.lead,
        unit="m",
        ratio=max(mark.ratio_level, 1.0 + 1e-6) if mark.blocked else permitted / (mark.lead or 1e-9),
        corner={"governs": mark.corner},
        advice=remedy if mark.blocked else f"Permit {Shown(mark.lead or 0.0, 'm', 2).text()} in [stages] lead.",
        steps=(_step(mark),),
    )  # fmt: skip


def _step(mark: LeadMark) -> Step:
    return step("Strength used one step past the mark", "ratio", "largest of bending, shear and nails", mark.corner,
                mark.ratio_next, "", 2, SOIL_CITE)  # fmt: skip


def _stage(study: Study, mark: LeadMark) -> str | None:
    return next((stage.name for stage in study.stages if stage.filling and stage.level == mark.level), None)


def _draws(study: Study, finding: Finding) -> tuple[Mark, ...]:
    level = next((m for m in study.marks if level_text(m.level) == finding.place), None)
    if level is None or level.stop is None:
        return ()
    return tuple(StopMark(level=level.stop, side=side) for side in Side)


STOP_MARKS = Rule(
    name="fill-keeps-to-its-stop-marks",
    title="The fill keeps to its stop marks",
    why="Most vaults that fail, fail while they are filled unevenly. The marks are painted on the shell before the "
    "first barrow.",
    cites=(SOIL_CITE,),
    decide=_decide,
    asks=("stages.compaction", "stages.compactor_distance", "stages.wet_fill"),
    draws=_draws,
)
