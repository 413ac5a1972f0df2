"""In balance: every force on the house at every stage, pictures first, and that they come to nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Table, plain
from bermwright.base.units import show
from bermwright.book.pages.found import found
from bermwright.book.sheets import stage_sheet, supports_of
from bermwright.book.sheets.whole import force_plan, force_section
from bermwright.rules.whole.along import end_push, racking
from bermwright.rules.whole.forces import balances
from bermwright.rules.whole.wheels import WHEELS_KEEP_OFF
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Finding
    from bermwright.rules.assess import Assessment
    from bermwright.rules.study import Study
    from bermwright.rules.whole.forces import Balance
    from bermwright.stages.nouns import Stage

RULES = (
    "forces-on-the-shell-close",
    "house-stays-between-its-fills",
    "house-does-not-lean-along",
    "storms-do-not-lean-it-along",
    "slopes-stay",
    "cover-stays-on-its-sheet",
    "shell-stands-the-wind",
    "house-stands-an-earthquake",
    "wheels-keep-off",
)
BESIDE = (
    "Nobody stands between the shell and a bank that can slide. Everybody out when the plumb line moves.",
    "Local rules and the person who signs for the work come before this page.",
)


def balance_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """For each vault: forces in section, from above, and a table of all stages."""
    if not assessment.studies:
        return
    yield Heading(
        text="In balance",
        lead="What pushes the house, what pushes back, and what is left over: nothing may be.",
    )
    for study in assessment.studies.values():
        yield from _vault(study, assessment.findings, system)
    yield from _findings(assessment, system)
    yield Notice(kind="caution", lines=BESIDE)


def _vault(study: Study, findings: tuple[Finding, ...], system: str) -> Iterator[Block]:
    found = {one.stage: one for one in balances(study)}
    yield Heading(text=plain(study.vault.name), level=2)
    if not found:
        yield Para("The ribs find no state of rest, so there is no balance to draw.")
        return
    stands = supports_of(study.vault, study.house)
    for stage in _shown(study):
        balance = found.get(stage.name)
        if balance is not None:
            sheet = force_section(study, stage, balance, supports=stands, system=system)
            caption = f"{stage.title}: forces on one metre of vault, all factors 1, in the expected soil run."
            yield Figure(sheet=sheet, caption=caption)
    last = next((found[stage.name] for stage in study.stages[::-1] if stage.name in found), None)
    if last is not None:
        yield from _plan(study, last, system)
    yield _table(tuple(found.values()), system)
    yield from _barrier(study, findings, system)
    yield Para(
        "Left over is the sum of all forces, and of moments about the middle of the floor; feet come from "
        "the frame, not from the sum.",
        small=True,
    )


def _barrier(study: Study, findings: tuple[Finding, ...], system: str) -> Iterator[Block]:
    """Where wheels must stop, in the finished section."""
    wheel = next(
        (
            one
            for one in findings
            if one.rule == WHEELS_KEEP_OFF.name and one.part == study.part and one.case == "wheel"
        ),
        None,
    )
    settled = next((stage for stage in study.stages if stage.kind is StageKind.SETTLED), None)
    if wheel is None or settled is None or WHEELS_KEEP_OFF.draws is None:
        return
    stands = supports_of(study.vault, study.house)
    marks = WHEELS_KEEP_OFF.draws(study, wheel)
    sheet = stage_sheet(
        study.form, settled, supports=stands, marks=marks, axis=study.vault.axis, system=system
    )
    yield Figure(sheet=sheet, caption="A barrier of stones or posts on both sides keeps every wheel off.")


def _shown(study: Study) -> tuple[Stage, ...]:
    """Wrapped, filled half way, in use."""
    fills = [one for one in study.stages if one.kind is StageKind.FILL and one.cases[0].depth.any()]
    wrapped = [stage for stage in study.stages if stage.kind is StageKind.WRAPPED]
    settled = [stage for stage in study.stages if stage.kind is StageKind.SETTLED]
    return (*wrapped, *fills[len(fills) // 2 : len(fills) // 2 + 1], *settled)


def _plan(study: Study, balance: Balance, system: str) -> Iterator[Block]:
    fill = study.house.fill(study.vault)
    if fill is None or fill.friction_angle is None:
        return
    ends = {
        str(one.at): end_push(study, one, fill.friction_angle.low)
        for one in study.house.ends
        if one.vault == study.vault.name and one.soil_to is not None
    }
    pushes = {at: push.soil for at, push in ends.items()}
    held = racking(study)
    net = pushes.get("back", 0.0) - pushes.get("front", 0.0)
    shell = sum(push.force * (1.0 if at == "back" else -1.0) for at, push in ends.items())
    holders = (
        ("the ground at the feet of the posts", abs(net - shell)),
        ("nails of the planks", held.nails or 0.0),
        ("boards that stay", held.boards),
        ("half of the soil's grip at the sides", held.sides),
    )
    sheet = force_plan(study, balance, ends=pushes, held=holders, system=system)
    yield Figure(sheet=sheet, caption="The same from above, on the whole length.")


def _table(found: tuple[Balance, ...], system: str) -> Table:
    head = ("stage", "down", "from the left", "from the right", "left foot", "right foot", "left over")
    rows = tuple(_row(one, system) for one in found)
    return Table(head=head, rows=rows, align="lrrrrrr", caption="On one metre of vault, all factors 1.")


def _row(balance: Balance, system: str) -> tuple[str, ...]:
    def across(name: str) -> str:
        force = balance.named(name)
        return "–" if force is None else show(abs(force.across), "kN/m", 1, system)

    def foot(name: str) -> str:
        force = balance.named(name)
        return "–" if force is None else show(force.up, "kN/m", 1, system)

    return (
        plain(balance.stage),
        show(balance.down, "kN/m", 1, system),
        across("soil from the left"),
        across("soil from the right"),
        foot("left foot"),
        foot("right foot"),
        f"{max(balance.closing, 1e-15):.0e} of it",
    )


def _findings(assessment: Assessment, system: str) -> Iterator[Block]:
    yield Heading(text="What was found", level=2)
    yield from found(assessment.findings, RULES, system)
