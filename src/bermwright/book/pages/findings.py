"""Findings worst first, and later the same with every line of working."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, FindingBlock, Heading, Para

if TYPE_CHECKING:
    from bermwright.base.findings import Finding
    from bermwright.book.pages.inputs import BookInputs


def ordered(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Worst first, then by the strength used."""
    return tuple(
        sorted(
            findings, key=lambda finding: (finding.verdict.severity, -(finding.ratio or 0.0), finding.rule)
        )
    )


def finding_pages(book: BookInputs) -> tuple[Block, ...]:
    """Every finding as a sentence."""
    return (
        Heading(
            text="Findings",
            lead="Worst first. The figure at the right is the share of the strength that is used.",
        ),
        *(FindingBlock(finding=finding) for finding in ordered(book.findings)),
        *(() if book.findings else (Para("Nothing could be checked: answer the questions first."),)),
    )


def working_pages(book: BookInputs) -> tuple[Block, ...]:
    """Every finding that was calculated, line by line."""
    shown = tuple(finding for finding in ordered(book.findings) if finding.steps)
    if not shown:
        return ()
    return (
        Heading(
            text="Working, line by line", lead="For whoever reviews this: formula, numbers filled in, source."
        ),
        *(FindingBlock(finding=finding, working=True) for finding in shown),
    )
