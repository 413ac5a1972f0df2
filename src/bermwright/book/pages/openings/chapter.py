"""Openings and ends: each end in elevation, the shell rolled out, then what is built around each hole."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.pages.found import found
from bermwright.book.pages.openings.drawings import end_drawings, shell_drawings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import House, Opening
    from bermwright.rules.assess import Assessment
    from bermwright.rules.study import Study

RULES = (
    "ends-are-closed",
    "end-planks-carry-the-soil",
    "end-posts-hold-the-soil",
    "end-walls-stand",
    "openings-fit-under-the-ribs",
    "lintels-carry-the-wall",
    "headers-carry-the-cut-ribs",
    "trimmers-carry-for-the-cut-ribs",
    "collars-stand-out-of-the-ground",
    "ribs-stand-near-the-ends",
    "beams-carry",
    "posts-carry",
    "floors-carry",
    "floors-are-firm",
)
"""What this chapter says the findings of, in this order."""
CUTTING = (
    (
        "Never cut a rib that carries. Leave it out when the ribs are raised, or prop both halves from the "
        "floor until trimmers and headers are nailed."
    ),
    "Helmets on, nobody under the shell while props are set or struck. Local rules come first.",
)
FILLING = (
    (
        "Hold the heads of the posts before soil is laid against an end; fill against it in layers as thin "
        "as beside the vault, and keep the plate off it."
    ),
    "Stay out of the room while soil is placed against its end.",
)


def openings_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Pictures first, then figures, then how it is done."""
    house = assessment.house
    if not (house.ends or house.openings or house.floors or house.posts or house.beams):
        return
    yield Heading(
        text="Openings and ends", lead="What closes the vault, and what is built around every hole."
    )
    for study in assessment.studies.values():
        yield from _vault(house, study, system)
    yield from _openings(house, system)
    yield from _findings(assessment, system)


def _vault(house: House, study: Study, system: str) -> Iterator[Block]:
    for sheet in end_drawings(house, study.form, system):
        yield Figure(sheet=sheet)
    shell = shell_drawings(house, study.form, system)
    for sheet in shell:
        yield Figure(sheet=sheet)
    if shell:
        yield Para("Doubled ribs and headers are hatched along their grain.", small=True)
        yield Notice(kind="caution", lines=CUTTING)
    if any(end.vault == study.vault.name and (end.soil_to or 0.0) > 0.0 for end in house.ends):
        yield Notice(kind="caution", lines=FILLING)


def _openings(house: House, system: str) -> Iterator[Block]:
    if not house.openings:
        return
    rows = tuple(_row(opening, system) for opening in house.openings)
    head = ("opening", "in", "hole", "sill", "free when open", "header or lintel", "beside it")
    yield Table(head=head, rows=rows, align="lllrlll", caption="Holes are without frames and packing.")
    yield Points(
        items=(
            "Measure every hole again when the ribs stand, and order frames after that.",
            "Leave 10 to 15 mm around a frame; the ribs go on settling through the first year.",
            "Carry the membrane up the collar on all sides and lap it downhill.",
        )
    )


def _row(opening: Opening, system: str) -> tuple[str, ...]:
    hole = f"{_mm(opening.width, system)} × {_mm(opening.height, system)}"
    sill = "" if opening.sill is None else show(opening.sill, "level", 2, system)
    free = (
        ""
        if opening.clear_width is None or opening.clear_height is None
        else f"{_mm(opening.clear_width, system)} × {_mm(opening.clear_height, system)}"
    )
    return (
        plain(opening.name),
        str(opening.side),
        hole,
        sill,
        free,
        _header(opening, system),
        _beside(opening),
    )


def _mm(metres: float, system: str) -> str:
    return show(metres, "mm", 0, system)


def _header(opening: Opening, system: str) -> str:
    if opening.header is None:
        return "not said"
    boards = "" if opening.header_boards == 1 else f"{opening.header_boards} of "
    size = f"{_mm(opening.header.thickness, system)} × {_mm(opening.header.width, system)}"
    return f"{boards}{size}, {opening.header_timber or 'class not said'}"


def _beside(opening: Opening) -> str:
    if opening.in_end:
        return ""
    ribs = "1 rib" if opening.doubled == 1 else f"{opening.doubled} ribs"
    held = f", {opening.header_nails} nails an end" if opening.header_nails else ""
    return ribs + held


def _findings(assessment: Assessment, system: str) -> Iterator[Block]:
    """Every finding on ends, openings and what stands in the room, the worst of each rule first."""
    met = [one for one in assessment.findings if one.rule in RULES and one.verdict.value != "does not apply"]
    if not met:
        return
    yield Heading(text="What was found of them", level=2)
    yield from found(assessment.findings, RULES, system)
    yield Para(
        "Headers are checked with the thrust and shear that the uncut rib has there, at every stage; the cut "
        "rib's bending goes to the ribs beside it. End walls are checked for soil at rest, compacted, loaded "
        "and full of water.",
        small=True,
    )
