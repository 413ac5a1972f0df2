"""What a measured ring says, and the chain of every course that leads it back."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Heading, Notice, Para, Table
from bermwright.base.units import show
from bermwright.data.domes import CHANGE, STRAIGHT_CITE

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import Correction, DomeForm

MOST_PLACES = 3
"""Bad places that are named."""
SHOWN = 12
"""Courses ahead that are printed; the rest lies on the drawing, or cannot be reached."""


def measured_blocks(form: DomeForm, one: Correction, system: str) -> Iterator[Block]:
    """The ring as measured, the verdict on it, and the next courses."""
    yield Heading(text=f"Course {one.course} as measured", level=2)
    yield Para(_ring(one, system))
    if one.left_out:
        yield Para(
            f"Only course {one.course}, the highest of the table, is judged; {one.left_out} radii of lower "
            "courses are left out."
        )
    if one.flat:
        yield Notice(kind="stop", lines=tuple(_flat(one)))
    if one.bad_steps:
        yield Notice(kind="stop", lines=tuple(_stepping(one, system)))
    if not one.recovers:
        yield Notice(kind="stop", lines=(lost(one, system),))
    elif one.goes_on:
        yield Para(back(one))
    else:
        yield Para("The table below holds only when that stretch has been put right and measured again.")
    yield Table(
        head=("course", "radius drawn", "radius to lay", "step-in", "chain"),
        rows=tuple(
            (
                str(row.number),
                show(row.drawn, "m", 3, system),
                show(row.radius, "m", 3, system),
                show(row.step, "mm", 0, system),
                show(row.chain, "m", 3, system),
            )
            for row in one.ahead[:SHOWN]
        ),
        strong=(2, 4),
        caption=f"No course is corrected by more than {show(CHANGE.value, 'mm', 0, system)} "
        f"({CHANGE.cite.provenance}) or steps in by more than {show(form.step_limit, 'mm', 0, system)}, "
        f"or than "
        "the drawing's own step.",
    )


def _ring(one: Correction, system: str) -> str:
    mean, error = show(one.fit.radius, "m", 3, system), show(abs(one.error), "mm", 0, system)
    way = "outside of" if one.error > 0.0 else "inside of"
    shift = show(one.fit.shift, "mm", 0, system)
    toward = f"{math.degrees(one.fit.toward):.0f}°"
    words = (
        f"{len(one.readings)} radii, mean {mean}: {error} {way} the drawing. Its middle lies {shift} "
        f"off the axis "
        f"towards {toward}"
    )
    if one.fit.oval > 0.0:
        words += f"; it is oval by {show(one.fit.oval, 'mm', 0, system)} each way"
    return words + ". The chain from the axis takes both out in the next course."


def _flat(one: Correction) -> Iterator[str]:
    place = f"{math.degrees(one.flattest.direction):.0f}°"
    yield (
        f"Stop: at {place} the ring has {max(0.0, float(one.roundness.share.min())):.0%} of its roundness. "
        "A stretch that is straight folds in."
    )
    yield f"Take it down there to the last round course before anything is laid on it ({STRAIGHT_CITE})."


def _stepping(one: Correction, system: str) -> Iterator[str]:
    for direction, step in one.bad_steps[:MOST_PLACES]:
        way = "out" if step < 0.0 else "in"
        far = show(abs(step), "mm", 0, system)
        yield f"At {math.degrees(direction):.0f}° the next course would step {way} by {far}."
    if len(one.bad_steps) > MOST_PLACES:
        yield f"So it would at {len(one.bad_steps) - MOST_PLACES} more places."
    yield "Measure there again; if it is so, take that stretch down to the last course that lies right."


def back(one: Correction) -> str:
    """When the ring lies on its drawing again."""
    if one.back_at == one.course:
        return "It lies on the drawing: go on by the table."
    return f"Laid by this table, course {one.back_at} lies on the drawing again."


def lost(one: Correction, system: str) -> str:
    """That the error cannot be made good."""
    left = show(abs(one.left), "mm", 0, system)
    return (
        f"This error cannot be made good: the last course would still lie {left} off. Take courses down "
        f"until the "
        "ring is near its drawing, or have the shape drawn anew from here."
    )
