"""The advice on one vault as blocks: sentence, drawing, picture, table, order of work, what to write."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.adapt.shape.advice import feet_words, wall_words
from bermwright.adapt.shape.families import Stand
from bermwright.adapt.shape.works import steps_of
from bermwright.base.document import Document, Figure, Heading, Headline, Notice, Para, Points, Table, plain
from bermwright.base.findings import Shown, Verdict
from bermwright.base.units import Money, show
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.pages.shape.rows import (
    bending_text,
    curve_rows,
    labelled,
    lever_rows,
    stands,
    unit_of,
    used_text,
)
from bermwright.book.sheets.shape import DrawnCurve, Panel, curves_sheet, stages_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from bermwright.adapt.shape.advice import Advice
    from bermwright.adapt.shape.candidate import Candidate
    from bermwright.base.document import Block
    from bermwright.base.drawing import Sheet

DRAWN, COMPARED = 5, 4
"""Curves in the drawing, and in the picture of bending."""
WHAT_COUNTS = (
    "Bending is the largest of every stage, case and soil run, per metre of vault, with all loads as they "
    "are. Strength used has every partial factor in it: boards and the nails at their joints, whichever is "
    "worse. Feet: the least and the greatest sideways push, heavy soil run included. Steep: the share of the "
    "vault's own back over 30 and over 45 degrees, where turf wants battens or does not stay. Hours are "
    "those that somebody has published, by hand: walls, ribs and end walls come on top."
)
WALLS_CAUTION = (
    "*A wall that holds back soil is a structure of its own.* Its footing, its sliding and its overturning "
    "are not part of this comparison: have it designed, and follow local rules."
)
FIGURES_CAUTION = (
    "*The order of curves is firm, the figures are not.* A frame of the ribs stands within a fifth of a "
    "continuum of the same soil; no buried timber rib has been measured."
)


def shape_document(
    advices: Sequence[Advice], *, house: str, revision: str, date: str, system: str = "metric"
) -> Document:
    """The advice on every vault as a document of its own."""
    blocks = tuple(block for advice in advices for block in shape_pages(advice, system))
    return Document(
        title="Shape advice",
        subtitle="",
        house=house,
        revision=revision,
        date=date,
        mark=NOT_REVIEWED,
        blocks=blocks,
        system=system,
    )


def shape_pages(advice: Advice, system: str = "metric") -> tuple[Block, ...]:
    """Everything that is said of one vault."""
    name = advice.chosen.vault.name
    first, second = (plain(sentence.says(system)) for sentence in advice.why)
    return (
        Heading(text=f"The curve of {plain(name)}", lead="What the ground asks of the curve, compared."),
        Headline(verdict=_verdict(advice), text=first, lead=second),
        Figure(sheet=_drawing(advice, system), caption=_drawing_says(advice)),
        *_beside(advice, system),
        Figure(sheet=_picture(advice, system), caption=_picture_says(advice, system)),
        *_table(advice, system),
        *_walls(advice, system),
        Notice(kind="caution", lines=(WALLS_CAUTION, FIGURES_CAUTION)),
        *_order(advice, system),
        *_writes(advice),
    )


def _verdict(advice: Advice) -> Verdict:
    if advice.holds:
        return Verdict.HOLDS
    return Verdict.UNKNOWN if advice.chosen.envelope.used is None else Verdict.FAILS


def picked(advice: Advice, most: int) -> tuple[tuple[str, Candidate], ...]:
    """The curves to draw: the one to take, the file's, the best on walls and from the floor, others."""
    every = labelled(advice)
    fixed = 1 if advice.keeps or advice.comparison.own is None else 2
    kept, rest = list(every[:fixed]), list(every[fixed:])
    for stand in (Stand.WALLS, Stand.GROUND):
        here = [one for one in rest if one[1].stand is stand]
        if here and not any(one.stand is stand for _, one in kept):
            kept.append(here[0])
            rest.remove(here[0])
    kinds, lowered = {one.vault.curve for _, one in kept}, advice.chosen.stand is Stand.LOWER
    rest.sort(key=lambda pair: (pair[1].vault.curve in kinds, pair[1].stand is Stand.LOWER and not lowered))
    return tuple(sorted([*kept, *rest][:most], key=lambda pair: pair[0]))


def _drawing(advice: Advice, system: str) -> Sheet:
    curves = [
        DrawnCurve(
            letter=letter,
            form=one.form,
            says=_key(one, system),
            replaced=one.stand is None and not advice.keeps,
        )
        for letter, one in picked(advice, DRAWN)
    ]
    feet = advice.chosen.vault.feet
    return curves_sheet(
        curves, standing=advice.chosen.standing, wall=feet.wall_width if feet else None, system=system
    )


def _key(one: Candidate, system: str) -> str:
    bends = bending_text(one.envelope.bending, system)
    rise = show(one.form.rise, "m", 2, system)
    return f"{one.vault.curve}, {rise} high, {stands(one, system)}: bends {bends}"


def _drawing_says(advice: Advice) -> str:
    way = "as in the file" if advice.keeps else "the one to take"
    chain = "" if advice.keeps else ", the chain line that of the file"
    return f"Middle lines of the ribs, true to scale; A is {way}{chain}."


def _picture(advice: Advice, system: str) -> Sheet:
    panels = [
        Panel(
            letter=letter,
            says=str(one.vault.curve),
            stands=tuple(stands(one, system).split(", ")),
            stages=one.envelope.stages,
        )
        for letter, one in picked(advice, COMPARED)
    ]
    return stages_sheet(panels, advice.corridor, system=system)


def _picture_says(advice: Advice, system: str) -> str:
    corridor = advice.corridor
    boards = show(corridor.boards, "kNm/m", 1, system)
    nails = "unknown" if math.isnan(corridor.nails) else bending_text(corridor.nails, system)
    return (
        "Largest bending at each stage, from the bare ribs to the long term, all on one scale. Grey is what "
        f"these ribs can take, red what they cannot: their boards {boards}, the nails of the joints {nails}."
    )


def _beside(advice: Advice, system: str) -> Iterator[Block]:
    """The curve to take beside that of the file, in a few lines."""
    count = 1 if advice.keeps or advice.comparison.own is None else 2
    every = [one for _, one in labelled(advice)[:count]]
    names = ("A, as in the file",) if advice.keeps else ("A, to take", "B, as in the file")
    lines = {
        "bends most": [bending_text(one.envelope.bending, system) for one in every],
        "strength used": [used_text(one.envelope.used) for one in every],
        "a foot pushes": [feet_words(one.envelope.outward, system) for one in every],
        "under the feet": [wall_words(one, system) for one in every],
        "soil": [show(one.fill, "m3", 0, system) for one in every],
        _floor_name(advice, system): [show(one.floor_width, "m", 2, system) for one in every],
    }
    yield Table(
        head=("", *names[:count]),
        rows=tuple((name, *map(plain, says)) for name, says in lines.items()),
        align="l" * (1 + count),
        widths=(2.2, 5.0, 5.0)[: 1 + count],
    )


def _floor_name(advice: Advice, system: str) -> str:
    return f"floor under {show(advice.chosen.standing, 'm', 2, system)}"


def _table(advice: Advice, system: str) -> Iterator[Block]:
    rows = curve_rows(advice, system)
    yield Heading(text="Every curve at its best", level=2)
    units = ("kNm/m", "", "kN/m", "m", "mm", "m3", "m")
    names = ("bends", "used", "feet", "crown", "board", "fill", "floor")
    figures = (f"{name} {unit_of(unit, system)}".strip() for name, unit in zip(names, units, strict=True))
    yield Table(
        head=("", "curve", "where and when", *figures, "steep %", "hours"),
        rows=tuple(
            (
                row.letter,
                plain(f"{row.curve}, {row.rise}; {row.stands}"),
                plain(row.where),
                row.bends,
                row.used,
                row.feet,
                row.radius,
                row.board,
                row.fill,
                row.floor,
                row.steep,
                row.hours,
            )
            for row in rows
        ),
        align="lllrrlrrrrrr",
        strong=(3,),
        widths=(0.5, 4.1, 4.4, 1.7, 2.1, 2.0, 1.4, 1.3, 1.6, 1.3, 1.6, 1.7),
    )
    yield Para(WHAT_COUNTS, small=True)
    plain_share, held_share = (100.0 * share for share in advice.chosen.mound_steep)
    yield Para(
        f"Of the finished ground over A {plain_share:.0f} % is steeper than 30 degrees, {held_share:.0f} % "
        "steeper than 45.",
        small=True,
    )
    for row in rows:
        if row.alike:
            yield Para(plain(f"{row.letter} is also the best {row.alike}."), small=True)
        if row.cut:
            yield Para(plain(f"{row.letter}: {row.cut}."), small=True)
    for one in advice.comparison.left_out:
        yield Para(plain(f"Not compared: {one}"), small=True)


def _walls(advice: Advice, system: str) -> Iterator[Block]:
    """Which wall or footing each curve asks for; curves that ask for the same share a line."""
    asked: dict[str, list[str]] = {}
    for row in curve_rows(advice, system):
        asked.setdefault(row.walls, []).append(row.letter)
    yield Heading(text="What stands under the feet", level=2)
    yield Points(items=tuple(plain(f"{', '.join(letters)}: {walls}.") for walls, letters in asked.items()))


def _order(advice: Advice, system: str) -> Iterator[Block]:
    order = advice.order
    yield Heading(text="Order of work for this curve", level=2)
    yield Para(plain(order_says(advice, system)))
    done = steps_of(order.chosen.works, advice.chosen.form)
    steps = tuple(plain(_filled(says, values, system)) for says, values in done)
    if steps:
        yield Points(items=steps, numbered=True)
    yield Table(
        head=("what each lever does alone", "bends", "of that", "used", "hours", "carried up"),
        rows=tuple(
            (row.work, row.bends, row.share, row.used, row.hours, row.lifted)
            for row in lever_rows(advice, system)
        ),
        strong=(2,),
        widths=(5, 2, 1.5, 1.5, 1.5, 2),
    )
    yield Para(
        "While the vault is filled, without people and snow. Ballast brings in soil that is pressed hard "
        "against the ribs while it lies there. Hours are rough.",
        small=True,
    )


def order_says(advice: Advice, system: str) -> str:
    """What the order of work comes to, in a sentence or two."""
    order, effort = advice.order, advice.order.chosen.effort
    before, after = used_text(order.before.used), used_text(order.chosen.used)
    cost = f"{show(effort.hours, 'ph', 0, system)}, {show(effort.lifted, 'kg', 0, system)} carried up"
    hired = advice.comparison.house.prices.work
    if hired is not None:
        cost += f", {Money(hired.amount * effort.hours, hired.currency)} if every hour were hired"
    if order.before.holds:
        return f"Filled as the file has it every stage holds: at most {before} of the strength is used."
    so_far = f"Filled as the file has it the ribs would use {before} times their strength"
    if order.chosen.holds:
        return f"{so_far}; in this order {after}. It is the cheapest that holds: {cost}."
    if not order.needed:
        return f"{so_far}, and no order of work mends that."
    return (
        f"{so_far}. No order of work makes every stage hold: this one goes furthest, to {after} ({cost}). "
        "The rest must come from the curve, the ribs or their nails."
    )


def _filled(says: str, values: Mapping[str, Shown | str], system: str) -> str:
    texts = {name: one.text(system) if isinstance(one, Shown) else one for name, one in values.items()}
    return says.format_map(texts)


def _writes(advice: Advice) -> Iterator[Block]:
    lines = toml_lines(advice)
    if not lines:
        return
    yield Heading(text="What to write into the house file", level=2)
    yield Para(plain("; ".join(lines)) + ".")


def toml_lines(advice: Advice) -> tuple[str, ...]:
    """The lines of the house file for the advised curve and order, table by table."""
    lines: list[str] = []
    if advice.curve_writes:
        lines.append(f'[[vault]]  (name = "{advice.chosen.vault.name}")')
        lines += [f'{name} = "{value}"' for name, value in advice.curve_writes.items()]
        lines += [f"take out: {name}" for name in advice.takes_out]
    table = ""
    for place, value in advice.order.writes.items():
        here, name = place.rsplit(".", 1)
        if here != table:
            lines.append(f"[[{here}]]" if here == "stages.prop" else f"[{here}]")
            table = here
        lines.append(f'{name} = "{value}"')
    return tuple(lines)
