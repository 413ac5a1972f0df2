"""Strength by stage for the hands; findings worst first with every line of working for the reviewer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, FindingBlock, Heading, plain
from bermwright.book.sheets import AxisStep, axis_strip

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.book.pages.inputs import BookInputs, VaultPages


def ordered(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Worst first, then by the strength used."""
    return tuple(
        sorted(
            findings, key=lambda finding: (finding.verdict.severity, -(finding.ratio or 0.0), finding.rule)
        )
    )


def axis_pages(book: BookInputs) -> tuple[Block, ...]:
    """The strength used from stage to stage, vault by vault."""
    drawn = [block for vault in book.vaults for block in _axis(vault)]
    return (Heading(text="Strength used by stage", level=2), *drawn) if drawn else ()


def _axis(vault: VaultPages) -> tuple[Block, ...]:
    """The stages in a row with the strength each uses."""
    known = [stage for stage in vault.stages if stage.name in vault.stage_ratio]
    if not known:
        return ()
    ratios = vault.stage_ratio
    steps = tuple(
        AxisStep(stage=stage, label=_short(stage.name), ratio=ratios[stage.name]) for stage in known
    )
    caption = plain(f"{vault.name}: strength used by stage")
    return (Figure(sheet=axis_strip(vault.form, steps), caption=caption),)


def _short(name: str) -> str:
    """A stage's name as it fits under its little section."""
    return name.replace("fill to ", "fill ")


def working_pages(book: BookInputs) -> tuple[Block, ...]:
    """Every finding, worst first, line by line where it was calculated."""
    if not book.findings:
        return ()
    return (
        Heading(
            text="Findings with their working",
            lead="For whoever reviews this: formula, numbers filled in, source.",
        ),
        *(FindingBlock(finding=finding, working=True) for finding in ordered(book.findings)),
    )
