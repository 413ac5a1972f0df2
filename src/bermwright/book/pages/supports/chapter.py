"""What carries the feet: the joint and the whole wall in pictures, forces by stage, measures, findings."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Table, plain
from bermwright.base.units import show
from bermwright.base.wording import level_text, ratio_text
from bermwright.book.pages.found import found
from bermwright.book.pages.supports.drawings import joint_drawing, wall_drawing
from bermwright.book.pages.supports.steps import steps_of_geogrid
from bermwright.rules.supports.common import when
from bermwright.rules.supports.stages import governing_turn, stage_forces
from bermwright.rules.supports.standing import Standing, standings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.rules.assess import Assessment
    from bermwright.rules.study import Study
    from bermwright.rules.supports.stages import StageForces

OURS = frozenset(
    {
        "feet-press-on-their-supports", "feet-stay-on-their-supports", "supports-do-not-turn-over",
        "supports-do-not-slide", "ground-carries-the-supports", "force-stays-under-the-base",
        "walls-do-not-break", "footings-do-not-break", "floor-tie-holds-the-feet", "bond-beam-holds",
        "buttresses-stand-without-tension", "supports-stand-an-earthquake",
        "geogrid-steps-stand-by-themselves",
    }
)  # fmt: skip
DIGGING = (
    "A trench deeper than a person's waist falls in without warning: slope its sides or shore them, and "
    "follow the local rules for excavations."
)
FRESH = (
    "Fresh walls and footings carry no soil: wait until mortar and concrete have hardened, and prop them "
    "where whoever signs asks for it. What joins the feet under the floor comes before the first lift."
)


def supports_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """The picture first, then the forces of each stage, then the measures, then what was found."""
    if not assessment.studies:
        return
    yield Heading(text="Supports", lead="What carries the feet of the vault, and every force on it.")
    for study in assessment.studies.values():
        yield from _supports(study, system)
    yield from steps_of_geogrid(assessment, system)
    yield Notice(kind="caution", lines=(DIGGING, FRESH))
    yield from found(assessment.findings, sorted(OURS), system)
    yield Para(
        "Soil presses on the wall as it does on the vault in each soil run; what lies in front of it in the "
        "room is not counted on. Forces are factored; they act on a metre of vault.",
        small=True,
    )


def _supports(study: Study, system: str) -> Iterator[Block]:
    name = plain(study.vault.name)
    joint, wall = joint_drawing(study, system), wall_drawing(study, system)
    if joint is not None:
        caption = f"{name}: the joint of vault and wall, with the ends of every force over all stages."
        yield Figure(sheet=joint, caption=caption)
    known = [one for one in standings(study) if isinstance(one, Standing)]
    if wall is not None:
        top = governing_turn(study, known[-1])
        moment = f" ({plain(when(top)).lower()})" if top is not None else ""
        yield Figure(sheet=wall, caption=f"{name}: the moment nearest to turning over{moment}.")
    if not known:
        yield Para(f"What stands under the feet of {name} is not described: nothing here is known of it.")
    yield from _force_tables(study, known, system)
    if known:
        yield _measures(known, system)


def _force_tables(study: Study, known: list[Standing], system: str) -> Iterator[Table]:
    """One for each side, or one for both where they are alike."""
    tables = [
        _force_table(study, one.side_name, rows, system)
        for one in known
        if (rows := stage_forces(study, one))
    ]
    if len({table.rows for table in tables}) == 1 and len(tables) > 1:
        yield _force_table(study, "either", stage_forces(study, known[0]), system)
        return
    yield from tables


def _force_table(study: Study, side: str, rows: tuple[StageForces, ...], system: str) -> Table:
    return Table(
        head=("stage", "push of the foot", "down", "soil beside", "turning", "sliding"),
        rows=tuple(_row(row, system) for row in rows),
        caption=f"{plain(study.vault.name)}, {side} side: ends over all cases and soil runs, "
        "factored; push is outward, with a minus sign into the room; turning and sliding are shares of what "
        "holds.",
        align="lrrrrr",
        strong=(4, 5),
    )


def _row(row: StageForces, system: str) -> tuple[str, ...]:
    return (
        row.stage,
        _span(row.outward, system),
        _span(row.down, system),
        _span(row.soil, system),
        _share(row.turning),
        _share(row.sliding),
    )


def _span(ends: tuple[float, float], system: str) -> str:
    low, high = (show(end, "kN/m", 1, system) for end in ends)
    return low if low == high else f"{low.rsplit(' ', 1)[0]} to {high}"


def _share(value: float) -> str:
    return ratio_text(value) if math.isfinite(value) else "gives way"


def _measures(known: list[Standing], system: str) -> Table:
    rows = [
        (
            one.side_name,
            show(one.thickness, "m", 2, system) if one.thickness else "none",
            show(one.width, "m", 2, system),
            show(one.toe, "m", 2, system),
            *(level_text(level, system) for level in (one.top, one.bottom, one.base)),
        )
        for one in known
    ]
    return Table(
        head=("side", "wall", "base", "toe in the room", "foot at", "wall down to", "base down to"),
        rows=tuple(rows),
        caption="Measures of what carries the feet.",
        align="lrrrrrr",
    )
