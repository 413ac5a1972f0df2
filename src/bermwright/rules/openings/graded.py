"""Boards graded by eye: the grade they earn, and whether it is what they are used for."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.data.timber_grades import CLASSES_CITE, LIMITS_CITE, class_of_grade
from bermwright.data.works.carpentry import HFM4074
from bermwright.handbook.carpentry import visual_grade
from bermwright.house import BoardSide
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.openings.timbers import missing, nothing
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.handbook.carpentry import Graded
    from bermwright.house import GradedBoards
    from bermwright.rules.nouns import Whole

EDGE_CITE = Cite(
    work=HFM4074, place="N1.1: boards on edge are graded as squared timber", provenance=Provenance.READ
)
MEASURES = ("knot", "knot_in", "grain", "rings", "wane", "cracks", "rotten")
FAULTS = {"": "nothing", "rings": "the width of its rings", "grain": "the slope of its grain"}


def shares(boards: GradedBoards) -> dict[str, float] | None:
    """The measured faults as the standard wants them; None while one is not measured."""
    if any(getattr(boards, name) is None for name in MEASURES):
        return None
    side = boards.section.width if boards.knot_in is BoardSide.WIDE else boards.section.thickness
    thin = boards.section.thickness
    return {
        "knots": min((boards.knot or 0.0) / side, 1.0),
        "grain": math.tan(boards.grain or 0.0),
        "rings": boards.rings or math.nan,
        "wane": min((boards.wane or 0.0) / thin, 1.0),
        "cracks": min((boards.cracks or 0.0) / thin, 1.0),
    }


def _decide(whole: Whole) -> Iterator[Said]:
    for boards in whole.house.graded:
        yield _said(boards)
    if not whole.house.graded:
        yield nothing("No stack of boards is graded by eye: [[graded]].")


def _said(boards: GradedBoards) -> Said:
    part, measured = f'boards "{boards.name}"', shares(boards)
    if measured is None:
        left = ", ".join(name for name in MEASURES if getattr(boards, name) is None)
        return missing(
            part, f"what these boards are worth: {left} is not measured", "Measure it on every board."
        )
    grade = visual_grade(**measured, rotten=bool(boards.rotten))
    earned = class_of_grade(grade.number)
    if earned is None:
        return _rejected(part, grade, measured)
    wanted = boards.counts_as
    enough = wanted is None or (
        wanted in TIMBER_CLASSES and TIMBER_CLASSES[wanted].bending <= TIMBER_CLASSES[earned].bending
    )
    asked = "" if wanted is None else "; they are used as {wanted}"
    return Said(
        part=part,
        verdict=Verdict.HOLDS if enough else Verdict.FAILS,
        template="Their worst board earns S{grade}, which counts as {earned}" + asked + ".",
        values={"grade": str(grade.number), "earned": earned, "wanted": wanted or ""},
        advice="" if enough else f"Use them as {earned}, or take out the boards spoiled by {_fault(grade)}.",
        steps=_steps(measured),
        cites=(CLASSES_CITE,),
    )


def _rejected(part: str, grade: Graded, measured: dict[str, float]) -> Said:
    return Said(
        part=part,
        verdict=Verdict.FAILS,
        template="Their worst board earns no grade: {fault}.",
        values={"fault": _fault(grade)},
        advice="Take the worst boards out, cut the worst places off, and measure again.",
        steps=_steps(measured),
    )


def _fault(grade: Graded) -> str:
    return FAULTS.get(grade.by, grade.by)


def _steps(measured: dict[str, float]) -> tuple[Step, ...]:
    words = {
        "knots": ("Largest knot over its side", "d / b"),
        "grain": ("Slope of the grain", "across / along"),
        "wane": ("Missing edge over the thickness", "w / t"),
        "cracks": ("Deepest crack over the thickness", "r / t"),
    }
    lines = [
        step(says, name, formula, "", Shown(measured[name], "", 2), LIMITS_CITE)
        for name, (says, formula) in words.items()
    ]
    rings = step("Mean width of the rings", "rings", "", "", Shown(measured["rings"], "mm", 1), LIMITS_CITE)
    return (*lines, rings)


BOARDS_ARE_GRADED = HouseRule(
    name="salvaged-boards-are-graded",
    title="Salvaged boards are graded before they carry",
    why="Old timber is often better than new, and sometimes far worse: only a look at every board tells.",
    cites=(LIMITS_CITE, EDGE_CITE),
    decide=_decide,
    asks=tuple(f"graded.{name}" for name in MEASURES),
)
