"""Everything that is cut after a pattern: what it is for, its measures, how it is set and struck."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Document, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import lengths_in, show
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.forms.slip import slip_blocks
from bermwright.book.pages.forms.tables import cord_table, levels_table, slat_table, waiting_table
from bermwright.book.sheets.forms import pattern_sheet, tile_count
from bermwright.data.domes import BOX_SPARE, STRIKE_TAPER, WEDGE_RISE, WEDGE_SLOPE
from bermwright.data.rates import LIFT_LIMIT
from bermwright.form.developed import forms_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.developed import Box, Forms, Meeting, Pattern, SheetPlan
    from bermwright.rules.assess import Assessment

STRIKING = (
    (
        "Forms carry the wall over them until it is closed, cured and loaded as reckoned. When that is, "
        "is not "
        "reckoned here: ask whoever answers for the wall."
    ),
    "Loosen all wedges by a little, in turns from the crown out, look, and stop at the first crack or sound.",
    "Nobody stands under a form while its wedges are loosened. Local rules come first.",
)
LAYING = (
    (
        "A sheet is a sail: lay it in calm air, with a rope on each end; nobody walks on a steep face "
        "without a line."
    ),
    (
        "What a person may lift depends on reach, footing and how often; less on a slope. Local rules come "
        "first."
    ),
)


def forms_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """The chapter of a house; nothing where nothing is cut after a pattern."""
    ready = {name: study.form for name, study in assessment.studies.items()}
    forms = forms_of(assessment.house, ready=ready)
    if not (forms.boxes or forms.sheets or forms.meetings or forms.slips):
        return
    yield Heading(text="Boxes, forms and patterns", lead="What is cut, bent and lapped after a drawing.")
    yield from forms_blocks(forms, system)


def forms_document(
    forms: Forms,
    *,
    house: str,
    revision: str,
    date: str,
    system: str = "metric",
    paper: str = "A4",
    stretch: Point = (1.0, 1.0),
) -> Document:
    """The same as a document of its own."""
    blocks = (
        Heading(text="Boxes, forms and patterns", level=0),
        *forms_blocks(forms, system),
        *_count(forms, paper, stretch),
    )
    return Document(
        title="Forms and patterns", subtitle="", house=house, revision=revision, date=date, mark=NOT_REVIEWED,
        blocks=blocks, system=system,
    )  # fmt: skip


def printed_patterns(forms: Forms) -> tuple[Pattern, ...]:
    """Patterns that are worth printing at full size; strips and gores are set out by their ordinates."""
    found: list[Pattern] = []
    for box in forms.boxes:
        found += box.patterns
        found += [one for one in (box.arch.pattern if box.arch else None, box.eyebrow) if one is not None]
    found += [box.wedge for box in forms.boxes[:1]]
    for meeting in forms.meetings:
        found += _drawn(meeting)
    return tuple(found)


def _count(forms: Forms, paper: str, stretch: Point) -> Iterator[Block]:
    """How many sheets the full size takes, and the ordinates first."""
    patterns = printed_patterns(forms)
    if not patterns:
        return
    rows = tuple((pattern.name, str(tile_count(pattern, paper, stretch))) for pattern in patterns)
    total = sum(int(row[1]) for row in rows)
    yield Heading(text="At full size", level=2)
    yield Para(
        f"*First consider the ordinates.* A batten through measured points is quicker than {total} "
        f"sheets of {paper} "
        "and does not stretch. DXF and SVG give every pattern on one sheet at 1:1."
    )
    yield Table(head=("pattern", f"sheets of {paper}"), rows=rows)


def forms_blocks(forms: Forms, system: str) -> Iterator[Block]:
    """Boxes, then sheets, then meeting lines, then cords, then what is missing."""
    if forms.empty:
        yield Para("Nothing in this file is cut after a pattern.")
    if forms.boxes:
        yield Notice(kind="caution", lines=STRIKING)
    for box in forms.boxes:
        yield from _box(box, system)
    for box in forms.boxes[:1]:
        yield Heading(text="Folding wedges, alike for every box", level=2)
        yield Figure(sheet=pattern_sheet(box.wedge, system=system), caption=_beside(box.wedge, system))
    yield from _sheets(forms.sheets, system)
    for meeting in forms.meetings:
        yield from _meeting(meeting, system)
    for slip in forms.slips:
        yield from slip_blocks(slip, system)
    for cords in forms.cords:
        yield from cord_table(cords, system)
    yield from waiting_table(forms.waiting, system)


def _box(box: Box, system: str) -> Iterator[Block]:
    yield Heading(text=f"Box of {plain(box.part)}", level=2)
    yield Points(items=tuple(_making(box, system)))
    for pattern in box.patterns:
        yield Figure(sheet=pattern_sheet(pattern, system=system), caption=_beside(pattern, system))
    if box.arch is not None:
        yield Figure(sheet=pattern_sheet(box.arch.pattern, system=system), caption=box.arch.pattern.note)
        yield slat_table(box.arch, system)
    if box.eyebrow is not None:
        yield Figure(sheet=pattern_sheet(box.eyebrow, system=system), caption=box.eyebrow.note)
        yield Para(
            "An eyebrow is plaster on mesh over bars or a form of its own: no course of the wall lies on it.",
        )
        yield levels_table(box.meets, system, "Where the eyebrow meets the outer face, both sides alike.")


def _beside(pattern: Pattern, system: str) -> str:
    words = ". ".join(part.rstrip(".") for part in (pattern.side, pattern.note) if part) + "."
    return lengths_in(words, system)


def _making(box: Box, system: str) -> Iterator[str]:
    def mm(value: float) -> str:
        return show(value, "mm", 0, system)

    deep = "as deep as the wall steps in" if box.curved else "as deep as the wall is thick"
    yield (
        f"Hole {mm(box.width)} wide; the box is {mm(box.height)} high and {mm(box.depth)} deep: {deep}, "
        f"and it stands out {mm(BOX_SPARE.value)} on both faces."
    )
    if box.settlement > 0.0:
        yield (
            f"It is built {mm(box.settlement)} higher than the hole: so much the fresh wall settles. "
            f"Set the frame "
            "only when it has."
        )
    else:
        yield "No settlement is allowed for: a wall of fresh earth needs it, bricks in mortar do not."
    yield (
        f"It is {mm(STRIKE_TAPER.value)} narrower outside than inside, so that it is drawn into the "
        f"room. Brace its "
        "corners; check both diagonals when it stands."
    )
    between = "bottom and head run through" if box.arch is None else "the bottom runs through"
    yield (
        f"Patterns are the faces that touch the wall, boards not counted: {between} over the whole width, "
        "and the sides are shorter by the thickness of what they stand between."
    )
    yield (
        f"Stand it on pairs of folding wedges that rise 1 in {1.0 / WEDGE_SLOPE.value:.0f}: "
        f"driven apart by {mm(WEDGE_RISE.value / WEDGE_SLOPE.value)} they let it down by "
        f"{mm(WEDGE_RISE.value)}. A pair is {mm(box.pack)} high: cut the sides shorter by so much at "
        "the foot."
    )
    if box.arch is not None:
        yield "The arch form stands on pairs of its own, on ledges inside the sides; it is let down first."


def _sheets(plans: tuple[SheetPlan, ...], system: str) -> Iterator[Block]:
    if not plans:
        return
    yield Heading(text="Membranes laid flat", level=2)
    yield Table(
        head=("part", "way", "strips", "one strip", "weighs", "people"),
        rows=tuple(_lifted(plan, system) for plan in plans),
        align="llrrrl",
        widths=(3, 1, 0, 0, 0, 0),
    )
    yield Table(
        head=("part", "way", "covers", "cut", "seams"),
        rows=tuple(_covered(plan, system) for plan in plans),
        align="llrrr",
        widths=(3, 1, 0, 0, 0),
        caption="Cut: with laps and upstands. Upstands stand at every edge.",
    )
    yield Notice(kind="caution", lines=LAYING)
    yield Para(
        f"People: by {LIFT_LIMIT.value:.0f} kg for one under the best conditions ({LIFT_LIMIT.cite}).",
        small=True,
    )
    for plan in plans:
        if plan.pattern is not None and plan.pattern.name == "gore":
            yield from _gores(plan, system)
        elif plan.pattern is not None:
            yield Figure(
                sheet=pattern_sheet(plan.pattern, system=system),
                caption=f"{plain(plan.part)}. {plan.pattern.note}",
            )


def _lifted(plan: SheetPlan, system: str) -> tuple[str, ...]:
    size = f"{show(plan.strip_length, 'm', 2, system)} × {show(plan.strip_width, 'm', 2, system)}"
    long = " (longer than the roll)" if plan.too_long else ""
    mass = "not known" if plan.mass is None else show(plan.mass, "kg", 1, system)
    people = "tackle" if plan.mass is not None and plan.people is None else str(plan.people or "not known")
    return plain(plan.part), plan.way, str(plan.strips), size + long, mass, people


def _covered(plan: SheetPlan, system: str) -> tuple[str, ...]:
    areas = (show(area, "m2", 1, system) for area in (plan.net_area, plan.cut_area))
    return plain(plan.part), plan.way, *areas, show(plan.seams, "m", 1, system)


def _gores(plan: SheetPlan, system: str) -> Iterator[Block]:
    pattern = plan.pattern
    assert pattern is not None  # noqa: S101  (only gores come here)
    yield Figure(sheet=pattern_sheet(pattern, system=system), caption=_beside(pattern, system))
    yield Para(
        f"A dome cannot be laid flat: the edge of a gore is {100.0 * plan.excess:.1f} % longer than its "
        f"middle, and "
        "the sheet gives or folds by so much. More gores give less."
    )
    yield Table(
        head=("up the gore", "left edge", "right edge"),
        rows=tuple(
            (show(up, "m", 3, system), show(left, "m", 3, system), show(right, "m", 3, system))
            for up, left, right in pattern.ordinates
        ),
        align="rrr",
        caption="Edges from the left side of the blank; the lap is added to the right.",
    )
    if plan.cap is not None:
        across = show(plan.cap.size[0], "m", 2, system)
        yield Para(f"Over the tips of all gores lies a round cap, {across} across; it is laid last.")


def _drawn(meeting: Meeting) -> Iterator[Pattern]:
    """The patterns that there are."""
    every = (meeting.end, meeting.hole, meeting.hip, meeting.hip_left)
    return (pattern for pattern in every if pattern is not None)


def _meeting(meeting: Meeting, system: str) -> Iterator[Block]:
    yield Heading(text=f"{plain(meeting.name)}: {plain(meeting.part)}", level=2)
    for pattern in _drawn(meeting):
        yield Figure(sheet=pattern_sheet(pattern, system=system), caption=_beside(pattern, system))
    if meeting.no_hip:
        yield Para(lengths_in(meeting.no_hip, system))
    if meeting.levels:
        yield levels_table(meeting.levels, system, "Where the small vault meets the inner face of the dome.")
