"""One mark to the next: exact for the ground, with the balance of every node inside the step (compiled).

The heat capacity of a node is followed over two steps, C/dt·(3/2 T(n+1) - 2 T(n) + 1/2 T(n-1)): right to
second order, and a room without capacity does not swing.
Helpers take plain arrays, not tuples of them: unpacking a tuple in every step costs more than the step.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.handbook.groundheat.compiled import entrance, inner

if TYPE_CHECKING:
    from bermwright.handbook.groundheat.section import Array, Whole

SWITCHING_STEPS = 8
"""How often the heating may change its mind within one step."""
OFF, HOLDS, FULL = 0, 1, 2
AHEAD, NOW, BEFORE = 1.5, 2.0, 0.5
"""Weights of the next, this and the last temperature in the rate of change (-)."""
CLOSE_TOLERANCE = 1e-9
"""How near to its set point a node counts as there (K)."""


class Modes(NamedTuple):
    """What a step of this length does to the modes."""

    keep: Array
    """(r,) exp(-λ dt)."""
    after: Array
    """(nodes + known, r) what a kelvin of a node or input at the end of the step adds."""
    joined: Array
    """(nodes + known, r) what a kelvin at a mark adds to the next, through both steps beside it."""
    known: Array
    """(N, known) the inputs that are known (°C, W/m)."""
    leaving: Array
    """(nodes, r) heat from each mode to a node (W/m)."""
    echo: Array
    """(nodes, nodes) heat that comes back at once from a kelvin of a node (W/(m K))."""


class Nodes(NamedTuple):
    """The nodes at every mark."""

    inertia: Array
    """(nodes,) C/dt (W/(m K))."""
    ties: Array
    """(N, nodes) all that holds a node: 3/2 C/dt, its loss and its surface (W/(m K))."""
    brings: Array
    """(N, nodes) what its outside, its gains and the known inputs at that mark bring (W/m)."""
    set_point: Array
    power: Array
    """(N, nodes) each."""


class Kept(NamedTuple):
    """What is written down at every mark; empty where nothing is."""

    states: Array
    air: Array
    heat: Array


@inner
def solve_small(matrix: Array, right: Array) -> None:
    """Gauss's elimination in place; the answer stands in `right`. Rows are led by their diagonal."""
    size = right.size
    for column in range(size):
        for row in range(column + 1, size):
            factor = matrix[row, column] / matrix[column, column]
            for other in range(column, size):
                matrix[row, other] -= factor * matrix[column, other]
            right[row] -= factor * right[column]
    for row in range(size - 1, -1, -1):
        for other in range(row + 1, size):
            right[row] -= matrix[row, other] * right[other]
        right[row] /= matrix[row, row]


@inner
def set_balance(  # noqa: PLR0913, PLR0917  (plain arrays, see above)
    matrix: Array,
    right: Array,
    mark: int,
    duty: Whole,
    load: Array,
    ties: Array,
    echo: Array,
    set_point: Array,
    power: Array,
) -> None:
    """Temperatures of all nodes for a duty of each heating: off, holding its set point, at full power."""
    for p in range(load.size):
        for q in range(load.size):
            matrix[p, q] = -echo[p, q]
        matrix[p, p] += ties[mark, p]
        right[p] = load[p]
        if duty[p] == FULL:
            right[p] += power[mark, p]
        elif duty[p] == HOLDS:
            for q in range(load.size):
                matrix[p, q] = 0.0
            matrix[p, p] = 1.0
            right[p] = set_point[mark, p]
    solve_small(matrix, right)


@inner
def needed(tie: float, load: float, p: int, echo: Array, air: Array) -> float:
    """Heat that a node needs to have the temperature that it has (W/m)."""
    heat: float = tie * air[p] - load
    for q in range(air.size):
        heat -= echo[p, q] * air[q]
    return heat


@inner
def switched(  # noqa: PLR0913, PLR0917  (plain arrays, see above)
    air: Array,
    mark: int,
    duty: Whole,
    load: Array,
    ties: Array,
    echo: Array,
    set_point: Array,
    power: Array,
) -> bool:
    """Whether a heating must change its duty; it has been changed then."""
    changed = False
    for p in range(load.size):
        if duty[p] == OFF:
            if air[p] < set_point[mark, p] - CLOSE_TOLERANCE:
                duty[p] = HOLDS
                changed = True
        elif duty[p] == HOLDS:
            heat = needed(ties[mark, p], load[p], p, echo, air)
            if heat < 0.0 or heat > power[mark, p]:
                duty[p] = OFF if heat < 0.0 else FULL
                changed = True
        elif air[p] > set_point[mark, p] + CLOSE_TOLERANCE:
            duty[p] = HOLDS
            changed = True
    return changed


@inner
def set_heat(  # noqa: PLR0913, PLR0917  (plain arrays, see above)
    heats: Array,
    airs: Array,
    air: Array,
    at: int,
    mark: int,
    duty: Whole,
    load: Array,
    ties: Array,
    echo: Array,
    power: Array,
) -> None:
    """Write down the temperature of each node and what its heating gives (W/m)."""
    for p in range(load.size):
        airs[at, p] = air[p]
        heats[at, p] = 0.0
        if duty[p] == HOLDS:
            heats[at, p] = min(max(needed(ties[mark, p], load[p], p, echo, air), 0.0), power[mark, p])
        elif duty[p] == FULL:
            heats[at, p] = power[mark, p]


@inner
def write_state(
    free: Array, air: Array, mark: int, after: Array, known: Array, states: Array, at: int
) -> None:
    """The state with what the air and the inputs at its mark add."""
    for i in range(free.size):
        states[at, i] = free[i]
    for p in range(air.size):
        for i in range(free.size):
            states[at, i] += after[p, i] * air[p]
    for k in range(known.shape[1]):
        value, row = known[mark, k], air.size + k
        for i in range(free.size):
            states[at, i] += after[row, i] * value


@inner
def advance(free: Array, air: Array, here: int, keep: Array, known: Array, joined: Array) -> None:
    """The modes at the next mark, without what the air and the inputs there add."""
    for i in range(free.size):
        free[i] *= keep[i]
    for p in range(air.size):
        for i in range(free.size):
            free[i] += joined[p, i] * air[p]
    for k in range(known.shape[1]):
        value, row = known[here, k], air.size + k
        for i in range(free.size):
            free[i] += joined[row, i] * value


@inner
def set_load(  # noqa: PLR0913, PLR0917  (plain arrays, see above)
    load: Array,
    free: Array,
    air: Array,
    older: Array,
    there: int,
    inertia: Array,
    brings: Array,
    leaving: Array,
) -> None:
    """What comes to each node at the next mark whatever its temperature is."""
    for p in range(load.size):
        comes = inertia[p] * (NOW * air[p] - BEFORE * older[p]) + brings[there, p]
        for i in range(free.size):
            comes += leaving[p, i] * free[i]
        load[p] = comes


@entrance
def march(modes: Modes, nodes: Nodes, start: tuple[Array, Array], steps: int, kept: Kept) -> None:
    """Run from mark to mark; at the end `start` holds the last state (a row), air and air before."""
    state, air, older = start[0], start[1][0], start[1][1]
    keep, known, after, joined = modes.keep, modes.known, modes.after, modes.joined
    leaving, echo, inertia, ties = modes.leaving, modes.echo, nodes.inertia, nodes.ties
    brings, set_point, power = nodes.brings, nodes.set_point, nodes.power
    states, airs, heats = kept.states, kept.air, kept.heat
    size, count, marks = keep.size, air.size, known.shape[0]
    matrix, right = np.zeros((count, count)), np.zeros(count)
    load, duty, kept_marks = np.zeros(count), np.zeros(count, dtype=np.int64), airs.shape[0]
    # `free` is the state without what air and inputs at its own mark add: one pass a step is enough.
    free = state[0].copy()
    for i in range(size):
        for p in range(count):
            free[i] -= after[p, i] * air[p]
        for k in range(known.shape[1]):
            free[i] -= after[count + k, i] * known[0, k]
    for step in range(steps):
        there = (step + 1) % marks
        advance(free, air, step % marks, keep, known, joined)
        set_load(load, free, air, older, there, inertia, brings, leaving)
        for _ in range(SWITCHING_STEPS):
            set_balance(matrix, right, there, duty, load, ties, echo, set_point, power)
            if not switched(right, there, duty, load, ties, echo, set_point, power):
                break
        for p in range(count):
            older[p] = air[p]
            air[p] = right[p]
        if kept_marks > 0:
            at = (step + 1) % kept_marks
            set_heat(heats, airs, right, at, there, duty, load, ties, echo, power)
            if states.size > 0:
                write_state(free, air, there, after, known, states, at)
    write_state(free, air, steps % marks, after, known, state, 0)
