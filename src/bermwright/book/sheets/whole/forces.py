"""All forces on the house at one stage: in section per metre, in plan for its whole length."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.book.sheets.paper import Board, boxes_of, figure, heading
from bermwright.book.sheets.section import stage_sheet
from bermwright.book.sheets.whole.arrows import force_arrow, per_metre, reach, whole

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point, View
    from bermwright.book.sheets.scene import Support
    from bermwright.rules.study import Study
    from bermwright.rules.whole.forces import Balance, Force
    from bermwright.stages.nouns import Stage

FEET = ("left foot", "right foot")
SMALL = 50.0
"""Forces under this are not drawn (N/m)."""
WIDTH = 174.0
PLAN_SCALE = 100.0
HEAD = 7.0
OVER = 28.0
"""More room above a section for what presses from above (mm)."""


def force_section(
    study: Study,
    stage: Stage,
    balance: Balance,
    *,
    supports: tuple[Support, ...] = (),
    system: str = "metric",
) -> Sheet:
    """The section at a stage with every force on the shell, and what is left over."""
    base = stage_sheet(
        study.form, stage, width=WIDTH, supports=supports, axis=study.vault.axis, system=system
    )
    view = base.view
    if view is None:
        return base
    board = Board()
    for item in base.items:
        if isinstance(item, Text):
            board.boxes += boxes_of(item)
    forces = [one for one in balance.forces if max(abs(one.across), abs(one.up)) > SMALL]
    strongest = max((float(np.hypot(one.across, one.up)) for one in forces), default=1.0)
    items: list[Item] = list(base.items)
    for force in forces:
        items += _arrow(study, force, view, board, (strongest, system))
    items.append(figure((0.0, base.height + OVER - 4.0), _left_over(balance)))
    return replace(
        base,
        height=base.height + OVER,
        items=tuple(items),
        title=f"Forces, {stage.name}",
        alt=_alt(balance, system),
    )


def _left_over(balance: Balance) -> str:
    sums = (("ΣF across", balance.open_across), ("ΣF up", balance.open_up), ("ΣM", balance.open_moment))
    said = ", ".join(f"{name} {abs(value):.0e}" for name, value in sums)
    return f"Left over (N, Nm a metre): {said}"


def _arrow(study: Study, force: Force, view: View, board: Board, dress: tuple[float, str]) -> Iterator[Item]:
    strongest, system = dress
    size = float(np.hypot(force.across, force.up))
    names = (per_metre(size, system), force.name)
    if force.name in FEET:
        head = view.point(force.x, force.z)
        words = (f"{per_metre(force.up, system)} up", _sideways(force, system), force.name)
        yield from force_arrow(
            head, (force.across, force.up), length=reach(size, strongest), words=words, board=board
        )
        return
    x, z = _place(study, force)
    yield from force_arrow(
        view.point(x, z), (force.across, force.up), length=reach(size, strongest), words=names, board=board
    )


def _sideways(force: Force, system: str) -> str:
    inward = (force.across > 0.0) == (force.name == FEET[0])
    return f"{per_metre(force.across, system)} {'inwards' if inward else 'outwards'}"


def _place(study: Study, force: Force) -> Point:
    """Where the line of a force meets the shell from outside (m)."""
    face = study.form.soil_face
    top = int(np.argmax(face.z))
    if force.name == "weight and loads on the shell":
        return force.x, study.form.springing - 0.1 * study.form.rise
    if abs(force.up) > abs(force.across):
        order = np.argsort(face.x)
        return force.x, float(np.interp(force.x, face.x[order], face.z[order]))
    if force.across > 0.0:
        return float(np.interp(force.z, face.z[: top + 1], face.x[: top + 1])), force.z
    return float(np.interp(force.z, face.z[top:][::-1], face.x[top:][::-1])), force.z


def _alt(balance: Balance, system: str) -> str:
    parts = "; ".join(
        f"{one.name} {per_metre(float(np.hypot(one.across, one.up)), system)}" for one in balance.forces
    )
    return f"Forces on the shell at the stage {balance.stage}: {parts}. They close."


def force_plan(
    study: Study,
    balance: Balance,
    *,
    ends: dict[str, float],
    held: tuple[tuple[str, float], ...],
    system: str = "metric",
) -> Sheet:
    """The house from above: what both sides and both ends push with, and what holds along the axis."""
    form, board = study.form, Board()
    items: list[Item] = []
    wide, long = form.length * 1000.0 / PLAN_SCALE, form.span * 1000.0 / PLAN_SCALE
    tall = long + 96.0
    low = (0.5 * (WIDTH - wide), 40.0)
    high = (low[0] + wide, low[1] + long)
    middle = (0.5 * (low[0] + high[0]), 0.5 * (low[1] + high[1]))
    box = (low, (high[0], low[1]), high, (low[0], high[1]))
    items += [
        Area(path=box, wash=Wash.TIMBER, hatch=Hatch.NONE, outline=Pen.CUT, layer="plan"),
        *(
            Stroke(
                path=(
                    (low[0] + k * wide / (form.ribs - 1), low[1]),
                    (low[0] + k * wide / (form.ribs - 1), high[1]),
                ),
                pen=Pen.HATCH,
                layer="plan",
            )
            for k in range(form.ribs)
        ),
        heading((0.0, tall - 5.0), f"{study.vault.name}, from above, {balance.stage}", 3.2),
        figure((0.0, tall - 10.5), f"1:{PLAN_SCALE:.0f}; the front is on the left, the left side below"),
    ]
    left, right = (balance.named(f"soil from the {side}") for side in ("left", "right"))
    both = [abs(one.across) * form.length if one else 0.0 for one in (left, right)]
    strongest = max([*both, *map(abs, ends.values()), *(value for _, value in held), 1.0])
    for value, head, way, name in (
        (both[0], (middle[0], low[1]), (0.0, 1.0), "soil from the left"),
        (both[1], (middle[0], high[1]), (0.0, -1.0), "soil from the right"),
        (ends.get("back", 0.0), (high[0], middle[1]), (-1.0, 0.0), "soil behind the back"),
        (ends.get("front", 0.0), (low[0], middle[1]), (1.0, 0.0), "soil before the front"),
    ):
        if value > 1.0:
            items += force_arrow(
                head, way, length=reach(value, strongest), words=(whole(value, system), name), board=board
            )
    net = ends.get("back", 0.0) - ends.get("front", 0.0)
    for number, (name, value) in enumerate(held):
        if value > 1.0:
            items += _holder(
                (middle[0] + HEAD, low[1] + (number + 1) * long / (len(held) + 1)),
                name,
                value,
                (net, strongest, system),
                board,
            )
    alt = f"Plan of {study.vault.name}: left {whole(both[0], system)}, right {whole(both[1], system)}."
    return Sheet(width=WIDTH, height=tall, items=tuple(items), title="Forces from above", alt=alt)


def _holder(
    at: Point, name: str, value: float, dress: tuple[float, float, str], board: Board
) -> Iterator[Item]:
    """What can hold along the axis, against the push."""
    net, strongest, system = dress
    way = 1.0 if net >= 0.0 else -1.0
    length = reach(value, strongest)
    head = (at[0] + way * length, at[1])
    yield from force_arrow(
        head,
        (way, 0.0),
        length=length,
        words=(f"up to {whole(value, system)}", name),
        board=board,
        pen=Pen.TICK,
    )
