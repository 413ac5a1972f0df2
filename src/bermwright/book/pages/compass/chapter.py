"""Everything that is set at the compass of a dome, and the cautions beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Document, Figure, Heading, Notice, PageBreak, Para, Points, plain
from bermwright.base.units import show
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.compass.measured import measured_blocks
from bermwright.book.pages.compass.tables import (
    brick_table,
    course_table,
    crew_table,
    opening_table,
    pivot_table,
)
from bermwright.book.sheets.compass import dome_section, ring_sheet, turns_sheet
from bermwright.book.sheets.jigs import dome_tools
from bermwright.data.domes import (
    BAG_WIDTHS_CITE,
    CLOSING_CITE,
    FIRST_STEP,
    LAP,
    STEP_LIMIT,
    STRAIGHT_CITE,
    WIDEST,
    bag_width_for,
)
from bermwright.form.dome import dome_form, missing_for_dome
from bermwright.house.making.words import DomeUnit, Laid

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import Correction, DomeForm
    from bermwright.house import House
    from bermwright.rules.assess import Assessment

NOT_KNOWN = (
    (
        "The strength of this dome is not known: no thrust, ring force, opening, soil, snow, wind or "
        "earthquake "
        "has been reckoned."
    ),
    (
        "Have it reviewed by an engineer who knows shells of this material before anything is laid. "
        "Local rules "
        "come first."
    ),
)
CAUTIONS = (
    "Nobody stands below or inside under a fresh course; helmets for all who work beside it.",
    (
        "Forms of doors and windows stay in until the dome is closed and dry; prop a course before it "
        "is touched "
        "from below."
    ),
    (
        "Stop where a stretch of the ring looks straight or a course moves: take it down to the last firm "
        "course."
    ),
)


def compass_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """The chapter of every dome of a house; nothing where there is none."""
    for dome in assessment.house.domes:
        missing = missing_for_dome(dome)
        if missing:
            yield Heading(text=f"Compass of {plain(dome.name)}")
            yield Para(f"Not drawn: the file does not say {', '.join(missing)}.")
            continue
        yield Heading(text=f"Compass of {plain(dome.name)}", lead="What to set for every course.")
        form = dome_form(dome)
        yield from compass_blocks(form, system)
        yield from _tools(assessment.house, form, system)


def compass_document(
    forms: tuple[DomeForm, ...],
    corrections: tuple[Correction, ...] = (),
    *,
    house: House,
    revision: str,
    date: str,
    system: str = "metric",
) -> Document:
    """The same as a document of its own, with what was measured at its head."""
    blocks: list[Block] = []
    for number, form in enumerate(forms):
        if number:
            blocks.append(PageBreak())
        blocks.append(Heading(text=f"Compass of {plain(form.name)}", level=0))
        blocks += [block for one in corrections for block in measured_blocks(form, one, system)]
        blocks += compass_blocks(form, system)
        blocks += _tools(house, form, system)
    return Document(
        title="Dome compass", subtitle=", ".join(form.name for form in forms), house=house.name,
        revision=revision, date=date, mark=NOT_REVIEWED, blocks=tuple(blocks), system=system,
    )  # fmt: skip


def compass_blocks(form: DomeForm, system: str) -> Iterator[Block]:
    """Pictures, cautions, then every table."""
    yield Notice(kind="stop", lines=NOT_KNOWN)
    yield Figure(sheet=dome_section(form, system=system), caption=_caption(form, system))
    yield Notice(kind="caution", lines=CAUTIONS)
    yield Points(items=tuple(_how(form, system)), numbered=True)
    yield PageBreak()
    yield Heading(text="Courses", level=2)
    yield course_table(form, system)
    yield from _rods(form, system)
    yield Figure(sheet=ring_sheet(form, form.courses[0], system=system), caption=_ring_caption(form))
    yield Figure(sheet=turns_sheet(form), caption=_rolled(form))
    yield from opening_table(form, system)
    yield from crew_table(form, system)
    yield from brick_table(form, system)
    yield Heading(text="Closing", level=2)
    yield Points(items=tuple(_closing(form, system)))
    yield Para(_rests(form), small=True)


def _tools(house: House, form: DomeForm, system: str) -> Iterator[Block]:
    """Drawings of simple tools, and what is missing for the rest."""
    yield Heading(text="Simple tools", level=2)
    yield from (Figure(sheet=sheet) for sheet in dome_tools(house, form, system))
    if form.dome.unit.runs_on and (house.setting_out is None or house.setting_out.tube is None):
        yield Para(
            "Stand and chute are not drawn: the file does not say how wide the tube lies flat "
            "([setting_out] tube)."
        )


def _caption(form: DomeForm, system: str) -> str:
    room, face = show(form.volume, "m3", 1, system), show(form.surface, "m2", 1, system)
    return f"Heavy line: the drawn inner face, {face}; under it {room} of room. Chains: course and length."


def _ring_caption(form: DomeForm) -> str:
    words = "Directions count clockwise as seen from above, from the zero mark. Dashed: openings higher up."
    if form.dome.axis is None:
        words += " Which way the zero mark lies is not said: dome.axis."
    return words


def _rolled(form: DomeForm) -> str:
    words = "As seen from inside; directions from the zero mark. Gaps: openings. "
    return words + ("Red: where each crew begins." if form.dome.crews else "Red: where the course begins.")


def _how(form: DomeForm, system: str) -> Iterator[str]:
    """How the chain is used, in the order of work."""
    pivot = show(form.dome.pivot_height + form.dome.springing, "level", 2, system)
    hook = show(form.dome.hook, "mm", 0, system)
    yield (
        f"Set a plumb pipe in the middle; the chain hooks on {hook} from the axis, at a level of {pivot}. "
        "Check it against two fixed marks every morning."
    )
    yield (
        "For each course set the chain to its length, walk it round, and mark the inner edge on the bed "
        "below. "
        "Lay to the mark, tamp, and measure again."
    )
    if form.dome.laid is Laid.LEVEL:
        yield (
            "The table takes every course as high as the file says. Measure after four courses; if it "
            "differs, "
            "write the true height and print again."
        )
    else:
        yield (
            "Bricks on a steep bed slide until their ring is closed: hold each with a weighted cord, "
            "and close "
            "every ring before the next is begun."
        )
    lap = show(LAP.value, "m", 2, system)
    yield f"Begin each course {lap} farther round than the one below, so that no end lies over an end."


def _rods(form: DomeForm, system: str) -> Iterator[Block]:
    yield Heading(text="Rods of one length", level=2)
    if form.settings:
        yield pivot_table(form, system)
    for remark in form.remarks:
        yield Para(remark)
    if form.settings:
        yield Para(
            "A rod off the axis draws the face in one upright plane only: find the point there, set the "
            "chain to "
            "it, and swing the chain round.",
            small=True,
        )


def _closing(form: DomeForm, system: str) -> Iterator[str]:
    closing = form.closing
    last = form.courses[-1]
    yield (
        f"Over course {last.number} a hole of {show(2.0 * closing.radius, 'm', 2, system)} is left, "
        f"{show(closing.gap, 'm', 2, system)} under the drawn crown."
    )
    over = form.first_over
    if over is not None:
        yield (
            f"From course {over.number} on every course steps in by more than "
            f"{show(form.step_limit, 'mm', 0, system)}: prop these courses, lay narrower ones, or close "
            f"with a "
            "form under them."
        )
    if form.dome.unit is not DomeUnit.BRICKS:
        yield (
            "Near the top tamp less: rows that bulge slide. A second string from the middle of the ring "
            "finds "
            "flat spots."
        )
    yield (
        "The closing ring is laid whole in one go, from a scaffold that stands on the floor, never on "
        "the dome."
    )


def _rests(form: DomeForm) -> str:
    parts = [
        (
            f"Step-in: {1e3 * FIRST_STEP.value:.1f} mm in the first courses, {1e3 * STEP_LIMIT.value:.0f} "
            f"mm and more "
            f"later, is what a handbook prints ({STEP_LIMIT.cite}); nobody has tested it as a limit."
        ),
        f"Straight stretches: {STRAIGHT_CITE}.",
    ]
    if form.dome.unit is not DomeUnit.BRICKS:
        parts.append(f"Closing: {CLOSING_CITE}.")
        width = bag_width_for(form.dome.span)
        said = (
            f"bags {1e3 * width:.0f} mm wide laid flat"
            if width
            else "no bag; none was taught for so wide a dome"
        )
        parts.append(
            f"For this width {said} ({BAG_WIDTHS_CITE}). {WIDEST.value:.1f} m was called about the widest "
            f"({WIDEST.cite})."
        )
    parts.append(f"Lap of ends: {LAP.cite.provenance}.")
    return " ".join(parts)
