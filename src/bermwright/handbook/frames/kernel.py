"""One lane through all its states: soil law, second order and one-sided props together (compiled).

Each pass assembles the frame with the axial forces and the soil of the last one and solves it. It
is over when soil and props keep their sense and the movements no longer change.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.band import (
    NO_PIVOT,
    assemble,
    clear_held,
    factor,
    jointed,
    solve_band,
)
from bermwright.handbook.frames.compiled import compiled
from bermwright.handbook.frames.links import (
    add_links,
    inherit_links,
    link_force,
    pull,
    set_links,
)
from bermwright.handbook.frames.records import History, Work
from bermwright.handbook.frames.soil_law import (
    inherit,
    pressure_at,
    set_faces,
    set_law,
    set_soil,
)

if TYPE_CHECKING:
    from bermwright.handbook.frames.records import Bars, Links, Out, Steps, Task

CALM = 20
"""Passes after which soil and props are decided on the mean of the last two shapes."""


@compiled
def make_work(elements: int, links: int) -> Work:
    """Scratch for one frame."""
    nodes = elements + 1
    size = 3 * nodes
    return Work(
        band=np.zeros((size + 6, 6)),
        scale=np.zeros(size),
        right=np.zeros(size + 6),
        move=np.zeros(size),
        small=np.zeros((7, 7)),
        hidden=np.zeros((elements, 7)),
        load=np.zeros(size),
        base=np.zeros(size),
        turn=np.zeros(elements),
        face=np.zeros(nodes),
        tension=np.zeros(elements),
        rest=np.zeros(nodes),
        low=np.zeros(nodes),
        high=np.zeros(nodes),
        spring=np.zeros(nodes),
        law=np.zeros(nodes, dtype=np.int64),
        held=np.zeros(nodes),
        carry=np.zeros((links, size + 6)),
        link_load=np.zeros(links),
        link_on=np.zeros(links, dtype=np.int64),
        link_small=np.zeros((links, links + 1)),
    )


@compiled
def set_right(bars: Bars, work: Work, joint_factor: float) -> None:
    """Write the right-hand side: half of a node's moment acts on either side of its joint."""
    size = work.load.size
    work.right[:size] = work.load
    work.right[size:] = 0.0
    for i in range(1, bars.length.size):
        if jointed(bars, i):
            half = 0.5 * work.load[3 * i + 2]
            hidden = work.hidden[i - 1]
            share = half / hidden[5]
            work.right[3 * i + 2] -= half + hidden[6] * share
            for a in range(5):
                work.right[3 * i - 3 + a] -= hidden[a] * share
    clear_held(bars, work.right, joint_factor)


@compiled
def set_turns(bars: Bars, work: Work) -> None:
    """Rotation of each element's far end, before the joint that may follow."""
    for e in range(bars.length.size):
        turn = work.move[3 * e + 5]
        if jointed(bars, e + 1):
            hidden = work.hidden[e]
            rest = 0.5 * work.load[3 * e + 5] - hidden[6] * turn
            for a in range(5):
                rest -= hidden[a] * work.move[3 * e + a]
            turn = rest / hidden[5]
        work.turn[e] = turn


@compiled
def lengthening(bars: Bars, work: Work, e: int) -> float:
    """How much longer an element has become (m)."""
    across = work.move[3 * e + 3] - work.move[3 * e]
    up = work.move[3 * e + 4] - work.move[3 * e + 1]
    return float(bars.cos[e] * across + bars.sin[e] * up)


@compiled
def set_tension(bars: Bars, work: Work, stiffness: float) -> None:
    """Tension of each element from its lengthening (N)."""
    for e in range(bars.length.size):
        work.tension[e] = stiffness * bars.axial[e] * lengthening(bars, work, e) / bars.length[e]


@compiled
def one_pass(bars: Bars, steps: Steps, links: Links, state: int, work: Work) -> int:
    """Solve the frame once; `right` then holds the new movements. Returns negative pivots."""
    joint_factor = steps.joint_stiffness[state]
    negative = assemble(bars, work, steps.stiffness[state], joint_factor)
    negative += factor(work.band, work.scale)
    if negative >= NO_PIVOT:
        return negative
    set_right(bars, work, joint_factor)
    solve_band(work.band, work.right, work.move.size)
    return negative - add_links(bars, links, work, joint_factor)


@compiled
def take_over(work: Work, share: float) -> float:
    """Move to the new shape, or a share of the way; returns the change over the largest movement."""
    change, largest = 0.0, 0.0
    for i in range(work.move.size):
        step = work.right[i] - work.move[i]
        change = max(change, abs(step))
        largest = max(largest, abs(work.right[i]))
        work.move[i] += share * step
        if not np.isfinite(step):
            return np.nan
    return 0.0 if change == 0.0 else change / largest


@compiled
def settle(task: Task, state: int, work: Work, history: History) -> int:
    """Repeat passes until nothing changes; returns their number, negative without an answer."""
    bars, steps, links, control = task.bars, task.steps, task.links, task.control
    if not control.second_order:
        work.tension[:] = 0.0
    for count in range(1, control.most + 1):
        negative = one_pass(bars, steps, links, state, work)
        change = np.nan if negative >= NO_PIVOT else take_over(work, 1.0 if count < CALM else 0.5)
        if np.isnan(change):
            return -count
        set_turns(bars, work)
        set_faces(bars, work)
        if control.second_order:
            set_tension(bars, work, steps.stiffness[state])
        moved = set_law(bars, work, history, state)
        swapped = set_links(links, steps, state, work, history)
        still = change <= control.tolerance or not (control.second_order or count >= CALM)
        if still and not moved and not swapped:
            return count if negative == 0 else -count
    return -control.most


@compiled
def write_bars(bars: Bars, work: Work, out: Out, lane: int, state: int, stiffness: float) -> None:
    """Axial force, bending and shear of every element, the second-order part included."""
    for e in range(bars.length.size):
        length = bars.length[e]
        tension = work.tension[e]
        side = bars.cos[e] * (work.move[3 * e + 4] - work.move[3 * e + 1])
        side -= bars.sin[e] * (work.move[3 * e + 3] - work.move[3 * e])
        chord = side / length
        near, far = work.move[3 * e + 2] - chord, work.turn[e] - chord
        bend = stiffness * bars.bending[e] / length
        start = bend * (4.0 * near + 2.0 * far)
        end = bend * (2.0 * near + 4.0 * far)
        start += tension * length * (4.0 * near - far) / 30.0
        end += tension * length * (4.0 * far - near) / 30.0
        out.axial[lane, state, e] = -stiffness * bars.axial[e] * lengthening(bars, work, e) / length
        out.moment[lane, state, e, 0] = -start
        out.moment[lane, state, e, 1] = end
        out.shear[lane, state, e] = (start + end) / length


@compiled
def write_soil(
    bars: Bars, links: Links, work: Work, history: History, out: Out, lane: int, state: int
) -> None:
    """Pressure of the soil and forces of the links; `load` becomes all that acts on the nodes."""
    for i in range(bars.plan.size):
        pressure = pressure_at(bars, work, i, history.reference[state, i])
        across = pressure * bars.rise[i]
        out.pressure[lane, state, i] = pressure
        out.spring[lane, state, i] = work.spring[i] if work.law[i] == 0 else 0.0
        work.load[3 * i] = work.base[3 * i] + across
        work.load[3 * i + 2] = work.base[3 * i + 2] - bars.lever_z[i] * across
    for link in range(links.start.size):
        force = link_force(links, link, work, history.link_reference[state, link])
        out.member[lane, state, link] = force
        pull(links, link, force, work.load)


@compiled
def write_feet(bars: Bars, work: Work, out: Out, lane: int, state: int) -> None:
    """What the rib gives to its supports: what its end gives, and what acts on the end itself."""
    for side in range(2):
        e = side * (bars.length.size - 1)
        node = 3 * side * bars.length.size
        way = 1.0 if side == 0 else -1.0
        up = work.move[3 * e + 4] - work.move[3 * e + 1]
        over = work.move[3 * e + 3] - work.move[3 * e]
        tilt = (bars.cos[e] * up - bars.sin[e] * over) / bars.length[e]
        push = out.axial[lane, state, e]
        # Across the chord as drawn: the shear of the bent rib and the tilt of the axial force.
        side_force = out.shear[lane, state, e] + work.tension[e] * -tilt
        x = push * bars.cos[e] - side_force * bars.sin[e]
        z = push * bars.sin[e] + side_force * bars.cos[e]
        out.feet[lane, state, side, 0] = x - way * work.load[node]
        out.feet[lane, state, side, 1] = way * z - work.load[node + 1]
        out.feet[lane, state, side, 2] = out.moment[lane, state, e, side] + way * work.load[node + 2]


@compiled
def begin(task: Task, lane: int, state: int, work: Work, history: History, out: Out) -> bool:
    """Start from the parent's shape; False when a value is missing or the parent has no answer."""
    bars, steps, links = task.bars, task.steps, task.links
    if task.gaps.lanes[lane] or task.gaps.states[state]:
        return False
    parent = steps.parent[state]
    work.move[:] = 0.0
    work.face[:] = 0.0
    if parent >= 0:
        if not out.converged[lane, parent]:
            return False
        work.face[:] = history.face[parent]
        work.move[:] = out.displacement[lane, parent].ravel()
    set_tension(bars, work, steps.stiffness[state])
    inherit(bars, steps, state, work, history)
    inherit_links(links, steps, state, work, history)
    set_soil(bars, task.lanes, steps, lane, state, work)
    work.law[:] = 0
    set_law(bars, work, history, state)
    set_links(links, steps, state, work, history)
    return True


@compiled
def run_lanes(task: Task, out: Out, span: tuple[int, int]) -> None:
    """Solve the lanes from `span[0]` to before `span[1]` and write their results."""
    bars, steps, links = task.bars, task.steps, task.links
    elements, count = bars.length.size, links.start.size
    states = steps.parent.size
    work = make_work(elements, count)
    history = History(
        face=np.zeros((states, elements + 1)),
        reference=np.zeros((states, elements + 1)),
        covered=np.zeros((states, elements + 1), dtype=np.bool_),
        link_reference=np.zeros((states, count)),
    )
    for lane in range(span[0], span[1]):
        for state in range(states):
            if not begin(task, lane, state, work, history, out):
                continue
            passes = settle(task, state, work, history)
            out.iterations[lane, state] = abs(passes)
            if passes > 0:
                history.face[state] = work.face
                out.converged[lane, state] = True
                out.displacement[lane, state] = work.move.reshape(elements + 1, 3)
                write_bars(bars, work, out, lane, state, steps.stiffness[state])
                write_soil(bars, links, work, history, out, lane, state)
                write_feet(bars, work, out, lane, state)
