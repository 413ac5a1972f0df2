"""One mark to the next: exact for the ground, with the balance of every node inside the step (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.handbook.groundheat.compiled import entrance, inner

if TYPE_CHECKING:
    from bermwright.handbook.groundheat.section import Array, Whole

SWITCHING_STEPS = 6
"""How often the heating may change its mind within one step."""
OFF, HOLDS, FULL = 0, 1, 2


class Modes(NamedTuple):
    """What a step of this length does to the modes."""

    keep: Array
    """(r,) exp(-λ dt)."""
    after: Array
    """(nodes, r) what a kelvin of a node at the end of the step adds."""
    joined: Array
    """(nodes, r) what a kelvin of a node at a mark adds to the next, through both steps beside it."""
    leaving: Array
    """(nodes, r) heat from each mode to a node (W/m)."""
    echo: Array
    """(nodes, nodes) heat that comes back at once from a kelvin of a node (W/(m K))."""
    surface: Array
    """(nodes,) conductance of a node to the section (W/(m K))."""


class Nodes(NamedTuple):
    """The nodes at every mark."""

    inertia: Array
    """(nodes,) C/dt (W/(m K))."""
    loss: Array
    outside: Array
    gains: Array
    set_point: Array
    power: Array
    """(N, nodes) each."""


class Kept(NamedTuple):
    """What is written down at every mark."""

    states: Array
    air: Array
    heat: Array


@inner
def add(target: Array, factor: float, what: Array) -> None:
    """Add a multiple of one row to another."""
    for i in range(target.size):
        target[i] += factor * what[i]


@inner
def together(one: Array, other: Array) -> float:
    """Sum of the products of two rows."""
    total = 0.0
    for i in range(one.size):
        total += one[i] * other[i]
    return total


@inner
def fade(target: Array, keep: Array, push: Array) -> None:
    """What is left of each mode after a step, and what the known inputs add."""
    for i in range(target.size):
        target[i] = keep[i] * target[i] + push[i]


@inner
def solve_small(matrix: Array, right: Array) -> None:
    """Gauss's elimination with pivots in place; the answer stands in `right`."""
    size = right.size
    for column in range(size):
        best = column
        for row in range(column + 1, size):
            if abs(matrix[row, column]) > abs(matrix[best, column]):
                best = row
        if best != column:
            for other in range(column, size):
                matrix[column, other], matrix[best, other] = matrix[best, other], matrix[column, other]
            right[column], right[best] = right[best], right[column]
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
def set_balance(
    modes: Modes, nodes: Nodes, mark: int, load: Array, duty: Whole, scratch: tuple[Array, Array]
) -> None:
    """Temperatures of all nodes for a duty of each heating: off, holding its set point, at full power."""
    matrix, right = scratch
    for p in range(load.size):
        if duty[p] == HOLDS:
            for q in range(load.size):
                matrix[p, q] = 1.0 if p == q else 0.0
            right[p] = nodes.set_point[mark, p]
            continue
        for q in range(load.size):
            matrix[p, q] = -modes.echo[p, q]
        matrix[p, p] += nodes.inertia[p] + nodes.loss[mark, p] + modes.surface[p]
        right[p] = load[p] + (nodes.power[mark, p] if duty[p] == FULL else 0.0)
    solve_small(matrix, right)


@inner
def needed(modes: Modes, nodes: Nodes, mark: int, p: int, load: Array, air: Array) -> float:
    """Heat that a node needs to have the temperature that it has (W/m)."""
    heat: float = (nodes.inertia[p] + nodes.loss[mark, p] + modes.surface[p]) * air[p] - load[p]
    for q in range(air.size):
        heat -= modes.echo[p, q] * air[q]
    return heat


@inner
def switched(
    modes: Modes, nodes: Nodes, mark: int, load: Array, duty: Whole, scratch: tuple[Array, Array]
) -> bool:
    """Whether a heating must change its duty; it has been changed then."""
    air = scratch[1]
    changed = False
    for p in range(load.size):
        if duty[p] == OFF and air[p] < nodes.set_point[mark, p] - 1e-9:
            duty[p] = HOLDS
            changed = True
        elif duty[p] == HOLDS:
            heat = needed(modes, nodes, mark, p, load, air)
            if heat < 0.0:
                duty[p] = OFF
                changed = True
            elif heat > nodes.power[mark, p]:
                duty[p] = FULL
                changed = True
        elif duty[p] == FULL and air[p] > nodes.set_point[mark, p] + 1e-9:
            duty[p] = HOLDS
            changed = True
    return changed


@inner
def set_air(
    modes: Modes,
    nodes: Nodes,
    mark: int,
    loads: tuple[Array, Whole],
    scratch: tuple[Array, Array],
    kept: tuple[Array, Array],
) -> None:
    """Temperature and heat of all nodes at a mark, from what the free section gives them."""
    load, duty = loads
    air, heat = kept
    duty[:] = OFF
    for _ in range(SWITCHING_STEPS):
        set_balance(modes, nodes, mark, load, duty, scratch)
        if not switched(modes, nodes, mark, load, duty, scratch):
            break
    for p in range(load.size):
        air[p] = scratch[1][p]
    for p in range(load.size):
        heat[p] = 0.0
        if duty[p] == HOLDS:
            heat[p] = min(max(needed(modes, nodes, mark, p, load, air), 0.0), nodes.power[mark, p])
        elif duty[p] == FULL:
            heat[p] = nodes.power[mark, p]


@inner
def write_state(modes: Modes, free: Array, air: Array, state: Array) -> None:
    """The state with what the air at its mark adds."""
    for i in range(state.size):
        state[i] = free[i]
    for p in range(air.size):
        add(state, air[p], modes.after[p])


@entrance
def march(
    modes: Modes, nodes: Nodes, push: Array, start: tuple[Array, Array], steps: int, kept: Kept
) -> None:
    """Run from mark to mark; at the end `start` holds the last state. Nothing is kept where `kept` is empty.

    `push` (N, r) is what the known inputs add to the modes over the step that begins at each mark.
    """
    state, air = start
    count, marks = air.size, push.shape[0]
    scratch = (np.zeros((count, count)), np.zeros(count))
    load, heat = np.zeros(count), np.zeros(count)
    duty = np.zeros(count, dtype=np.int64)
    # `free` is the state without what the air at the end of the step adds: one pass a step is enough.
    free = state.copy()
    for p in range(count):
        add(free, -air[p], modes.after[p])
    for step in range(steps):
        here, there = step % marks, (step + 1) % marks
        fade(free, modes.keep, push[here])
        for p in range(count):
            warm = air[p]
            add(free, warm, modes.joined[p])
            load[p] = nodes.inertia[p] * warm + nodes.loss[there, p] * nodes.outside[there, p]
        for p in range(count):
            load[p] += nodes.gains[there, p] + together(modes.leaving[p], free)
        set_air(modes, nodes, there, (load, duty), scratch, (air, heat))
        if kept.states.size > 0:
            at = (step + 1) % kept.states.shape[0]
            write_state(modes, free, air, kept.states[at])
            kept.air[at] = air
            kept.heat[at] = heat
    write_state(modes, free, air, state)
