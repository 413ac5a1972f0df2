"""One lane through all its states: soil law, second order and one-sided props together (compiled).

Each pass assembles the frame with the axial forces and the soil of the last one and solves it. It
is over when soil and props keep their sense and the movements no longer change.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.band import NO_PIVOT, TURN_BEFORE, assemble, clear_held, factor, solve_band
from bermwright.handbook.frames.compiled import compiled, entrance
from bermwright.handbook.frames.links import add_links, inherit_links, set_links, stretch
from bermwright.handbook.frames.records import Equations, Ground, History, Shape, Ties
from bermwright.handbook.frames.results import (
    write_bars,
    write_feet,
    write_links,
    write_moves,
    write_soil,
    write_springs,
)
from bermwright.handbook.frames.soil_law import free_pressure, inherit, set_faces, set_law, set_soil

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array, Whole
    from bermwright.handbook.frames.records import Bars, Out, Task, Work

FREE_STEPS = 6
"""Passes that go the whole way to the new shape; later ones stop where the energy is least."""
CALM_STEPS = 12
"""Passes after which axial forces go half of the way only, so that they cannot swing."""
ROUNDING_TOLERANCE = 1e-6
"""Change, over the largest movement, that can be rounding in a fine mesh with hinges."""
WHOLE_STEP = 1.0
HALVING_STEPS = 30
"""Halvings in the search for that place."""


@compiled
def make_equations(elements: int) -> Equations:
    """Scratch for the equations of one frame."""
    size = 3 * elements + 3
    return Equations(
        band=np.zeros((size + 6, 6)),
        scale=np.zeros(size),
        right=np.zeros(size + 6),
        hidden=np.zeros((elements, 7)),
    )


@compiled
def make_work(elements: int, links: int, states: int) -> Work:
    """Scratch for one frame and its states."""
    nodes = elements + 1
    size = 3 * nodes
    return (
        make_equations(elements),
        Shape(
            move=np.zeros(size),
            turn=np.zeros(elements),
            face=np.zeros(nodes),
            face_before=np.zeros(nodes),
            step=np.zeros(size + 6),
            tension=np.zeros(elements),
        ),
        Ground(
            base=np.zeros(size),
            load=np.zeros(size),
            rest=np.zeros(nodes),
            low=np.zeros(nodes),
            high=np.zeros(nodes),
            spring=np.zeros(nodes),
            held=np.zeros(nodes),
            side=np.zeros(nodes, dtype=np.int64),
        ),
        Ties(
            carry=np.zeros((links, size + 6)),
            load=np.zeros(links),
            on=np.zeros(links, dtype=np.bool_),
            small=np.zeros((links, links + 1)),
        ),
        History(
            face=np.zeros((states, nodes)),
            reference=np.zeros((states, nodes)),
            covered=np.zeros((states, nodes), dtype=np.bool_),
            link_reference=np.zeros((states, links)),
        ),
    )


@compiled
def set_right(bars: Bars, equations: Equations, load: Array, joint_factor: float) -> None:
    """Write the right-hand side: half of a node's moment acts on either side of its joint."""
    right, hidden, joint = equations.right, equations.hidden, bars.joint
    for i in range(right.size):
        right[i] = load[i] if i < load.size else 0.0
    for e in range(bars.length.size - 1):
        if joint[e + 1] < np.inf:
            half = 0.5 * load[3 * e + 5]
            share = half / hidden[e, TURN_BEFORE]
            right[3 * e + 5] -= half + hidden[e, 5] * share
            for a in range(5):
                right[3 * e + a] -= hidden[e, a] * share
    clear_held(bars, right, joint_factor)


@compiled
def set_turns(bars: Bars, hidden: Array, load: Array, shape: Shape) -> None:
    """Rotation of each element's far end, before the joint that may follow."""
    move, turns, joint = shape.move, shape.turn, bars.joint
    last = turns.size - 1
    for e in range(last + 1):
        turn = move[3 * e + 5]
        if e < last and joint[e + 1] < np.inf:
            rest = 0.5 * load[3 * e + 5]
            for a in range(6):
                rest -= hidden[e, a] * move[3 * e + a]
            turn = rest / hidden[e, TURN_BEFORE]
        turns[e] = turn


@compiled
def set_tension(bars: Bars, shape: Shape, stiffness: float, share: float) -> None:
    """Bring the tension of each element (N) by a share of the way to what its lengthening asks."""
    move, tension = shape.move, shape.tension
    cos, sin, axial, length = bars.cos, bars.sin, bars.axial, bars.length
    for e in range(tension.size):
        across, up = move[3 * e + 3] - move[3 * e], move[3 * e + 4] - move[3 * e + 1]
        asked = stiffness * axial[e] * (cos[e] * across + sin[e] * up) / length[e]
        tension[e] += share * (asked - tension[e])


@compiled
def one_pass(task: Task, state: int, work: Work) -> int:
    """Solve the frame once; `right` then holds the new movements. Returns negative pivots."""
    equations, shape, ground, ties, _ = work
    factors = (task.steps.stiffness[state], task.steps.joint_stiffness[state])
    negative = assemble(task.bars, equations, shape.tension, ground.held, factors)
    negative += factor(equations.band, equations.scale)
    if negative >= NO_PIVOT:
        return negative
    set_right(task.bars, equations, ground.load, factors[1])
    solve_band(equations.band, equations.right, equations.scale.size)
    return negative - add_links(task.bars, task.links, equations, ties, factors[1])


@compiled
def take_over(shape: Shape, new: Array) -> float:
    """Move to the new shape; returns the change over the largest movement, NaN when it is not known."""
    move, step = shape.move, shape.step
    change, largest = 0.0, 0.0
    for i in range(move.size):
        step[i] = new[i] - move[i]
        change = max(change, abs(step[i]))
        largest = max(largest, abs(new[i]))
        move[i] = new[i]
        if not np.isfinite(step[i]):
            return np.nan
    return 0.0 if change == 0.0 else change / largest


@compiled
def step_energy(band: Array, step: Array, size: int) -> float:
    """step^T K step, from the factors of K."""
    whole_step = 0.0
    for i in range(size):
        row_step = step[i]
        for k in range(1, 6):
            row_step = row_step + band[i, k] * step[i + k]
        whole_step = whole_step + row_step**2 / band[i, 0]
    return whole_step


@compiled
def soil_slope(task: Task, state: int, work: Work, back_step: float) -> float:
    """Work along the last step of what the pass took soil for, less what soil is short of its end."""
    _, shape, ground, _, history = work
    rise, reference = task.bars.rise, history.reference[state]
    sum_step = 0.0
    for i in range(rise.size):
        face_step = shape.face[i] - shape.face_before[i]
        gone_step = shape.face[i] - back_step * face_step - reference[i]
        free = free_pressure(ground.rest[i], ground.spring[i], gone_step, rise[i])
        pressure = min(max(free, ground.low[i]), ground.high[i])
        taken_step = ground.load[3 * i] - ground.base[3 * i] - ground.held[i] * shape.face[i]
        elastic_step = back_step * ground.held[i] * face_step
        sum_step = sum_step + (taken_step + elastic_step - pressure * rise[i]) * face_step
    return sum_step


@compiled
def link_slope(task: Task, state: int, work: Work, back_step: float) -> float:
    """The same of the props and ties."""
    _, shape, _, ties, history = work
    links = task.links
    sum_step = 0.0
    for link in range(links.start.size):
        if task.steps.member_on[state, link]:
            end_step = stretch(links, link, shape.move) - history.link_reference[state, link]
            long_step = stretch(links, link, shape.step)
            there_step = end_step - back_step * long_step
            carries = links.sense[link] == 0 or links.sense[link] * there_step > 0.0
            force_step = (there_step if carries else 0.0) - (end_step if ties.on[link] else 0.0)
            sum_step = sum_step + links.stiffness[link] * force_step * long_step
    return sum_step


@compiled
def too_far(task: Task, state: int, work: Work, back_step: float, bent: float) -> bool:
    """Whether the energy still falls backwards, `back_step` of the last step short of its end."""
    slope_step = soil_slope(task, state, work, back_step) + link_slope(task, state, work, back_step)
    return slope_step > back_step * bent


@compiled
def hold_back(task: Task, state: int, work: Work) -> bool:
    """Go back on the last step to where the energy is least, so that the passes cannot go in circles.

    Returns whether it had gone too far.
    """
    equations, shape, _, _, _ = work
    bent = step_energy(equations.band, shape.step, equations.scale.size)
    if not too_far(task, state, work, 0.0, bent):
        return False
    near_step = 0.0
    far_step = 1.0
    for _ in range(HALVING_STEPS):
        middle_step = 0.5 * (near_step + far_step)
        if too_far(task, state, work, middle_step, bent):
            near_step = middle_step
        else:
            far_step = middle_step
    for i in range(shape.move.size):
        shape.move[i] = between(shape.move[i], near_step, shape.step[i])
    for i in range(shape.face.size):
        shape.face[i] = between(shape.face[i], near_step, shape.face[i] - shape.face_before[i])
    return True


@compiled
def between(value: float, back_step: float, step: float) -> float:
    """The value a share of its step ago."""
    return value - back_step * step


@compiled
def follow(task: Task, state: int, work: Work, share: float) -> bool:
    """Bring soil, axial forces and links up to the new shape; returns whether any changed its sense."""
    _, shape, ground, ties, history = work
    if task.control.second_order:
        set_tension(task.bars, shape, task.steps.stiffness[state], share)
    moved = set_law(task.bars, ground, shape.face, history.reference[state])
    stands, reference = task.steps.member_on[state], history.link_reference[state]
    return set_links(task.links, stands, reference, shape.move, ties) or moved


@compiled
def settle(task: Task, state: int, work: Work) -> int:
    """Repeat passes until nothing changes; returns their number, negative without an answer."""
    equations, shape, ground, _, _ = work
    control = task.control
    if not control.second_order:
        for e in range(shape.tension.size):
            shape.tension[e] = 0.0
    change_before = np.inf
    for count in range(1, control.most + 1):
        negative = one_pass(task, state, work)
        if negative >= NO_PIVOT:
            return -count
        change = take_over(shape, equations.right)
        if np.isnan(change):
            return -count
        for i in range(shape.face.size):
            shape.face_before[i] = shape.face[i]
        set_turns(task.bars, equations.hidden, ground.load, shape)
        set_faces(task.bars, shape)
        far = count > FREE_STEPS and negative == 0 and hold_back(task, state, work)
        half_step = WHOLE_STEP if count < CALM_STEPS else 0.5
        moved = follow(task, state, work, half_step)
        # Of the same size as before and tiny: what is left is rounding, not movement.
        rounding_step = change < ROUNDING_TOLERANCE and change > 0.5 * change_before
        still = rounding_step or change <= control.tolerance or not control.second_order
        if still and not (far or moved):
            return count if negative == 0 else -count
        change_before = change
    return -control.most


@compiled
def start_from(shape: Shape, parent: int, moved: Array, faces: Array) -> None:
    """Take over the shape of the parent, or the straight one (a loop compiles faster than a slice)."""
    for i in range(shape.face.size):
        shape.face[i] = faces[parent, i] if parent >= 0 else 0.0
        for way in range(3):
            shape.move[3 * i + way] = moved[parent, i, way] if parent >= 0 else 0.0


@compiled
def begin(task: Task, place: tuple[int, int], work: Work, out: Out) -> bool:
    """Start from the parent's shape; False when a value is missing or the parent has no answer."""
    lane, state = place
    _, shape, ground, ties, history = work
    parent = task.steps.parent[state]
    if task.gaps.lanes[lane] or task.gaps.states[state]:
        return False
    if parent >= 0 and not out.converged[lane, parent]:
        return False
    start_from(shape, parent, out.displacement[lane], history.face)
    set_tension(task.bars, shape, task.steps.stiffness[state], WHOLE_STEP)
    inherit(task.steps, state, shape.face, history)
    inherit_links(task.links, task.steps, state, shape.move, history)
    set_soil(task.bars, task.lanes, task.steps, place, ground)
    for i in range(ground.side.size):
        ground.side[i] = 0
    for link in range(ties.on.size):
        ties.on[link] = True
    set_law(task.bars, ground, shape.face, history.reference[state])
    set_links(task.links, task.steps.member_on[state], history.link_reference[state], shape.move, ties)
    return True


@entrance
def run_lanes(task: Task, out: Out, lanes: Whole) -> None:
    """Solve some lanes and write their results."""
    elements = task.bars.length.size
    work = make_work(elements, task.links.start.size, task.steps.parent.size)
    _, shape, ground, _, history = work
    for number in range(lanes.size):
        lane = int(lanes[number])
        for state in range(task.steps.parent.size):
            place = (lane, state)
            if not begin(task, place, work, out):
                continue
            passes = settle(task, state, work)
            out.iterations[lane, state] = abs(passes)
            if passes > 0:
                out.converged[lane, state] = True
                write_moves(shape, out.displacement[place], history.face[state])
                write_bars(task.bars, shape, out, place, task.steps.stiffness[state])
                write_soil(task.bars, ground, shape, history.reference[state], out.pressure[place])
                write_springs(task.bars, ground, out.spring[place])
                write_links(task.links, work, state, out.member[place])
                write_feet(task.bars, shape, ground.load, out, place)
