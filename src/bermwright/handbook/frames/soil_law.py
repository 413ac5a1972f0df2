"""What the soil does to the frame at one state (compiled).

Sideways pressure p = clip(K sv + k u, Ka sv, Kp sv), sv the vertical pressure of the soil itself, u
the movement of the soil face towards the soil since the soil was placed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.band import jointed
from bermwright.handbook.frames.compiled import compiled

if TYPE_CHECKING:
    from bermwright.handbook.frames.records import Bars, History, Lanes, Steps, Work

LEAST_STRESS = 5e3
"""Mean stress below which the soil gets no softer (Pa)."""
REFERENCE_STRESS = 50e3
"""Mean stress at which the soil's modulus is given (Pa)."""

EDGE = 1e-6
"""Distance from a limit of the law that is rounding and nothing else (Pa)."""


@compiled
def vertical_pressure(lanes: Lanes, steps: Steps, lane: int, state: int, node: int) -> float:
    """Vertical pressure of the soil itself at a node (Pa)."""
    pressure = (
        lanes.weight[lane] * steps.depth[state, node] + steps.surcharge[state, node] - steps.pore[state, node]
    )
    return max(float(pressure), 0.0)


@compiled
def modulus_at(lanes: Lanes, lane: int, pressure: float) -> float:
    """Young's modulus of the soil under a vertical pressure (Pa)."""
    mean = max(pressure * (1.0 + 2.0 * lanes.ratio[lane]) / 3.0, LEAST_STRESS)
    return float(lanes.modulus[lane] * np.sqrt(mean / REFERENCE_STRESS))


@compiled
def set_soil(bars: Bars, lanes: Lanes, steps: Steps, lane: int, state: int, work: Work) -> None:
    """Write the loads that do not depend on movement, and the law's numbers at each node."""
    for i in range(bars.plan.size):
        pressure = vertical_pressure(lanes, steps, lane, state, i)
        share = lanes.vertical[lane] if bars.plan[i] >= 0.0 else lanes.underside[lane]
        down = share * pressure * bars.plan[i]
        work.base[3 * i] = steps.across[state, i]
        work.base[3 * i + 1] = -steps.down[state, i] - down
        work.base[3 * i + 2] = steps.moment[state, i] - bars.lever_x[i] * down
        work.low[i] = lanes.active[lane] * pressure
        work.high[i] = lanes.passive[lane] * pressure
        work.rest[i] = lanes.ratio[lane] * pressure
        spring = 0.0
        if steps.springs_on[state, i] and pressure > 0.0:
            spring = lanes.spring[lane] * modulus_at(lanes, lane, pressure)
            spring /= 1.0 + spring * bars.cushion[i]
        work.spring[i] = spring


@compiled
def movement(bars: Bars, work: Work, node: int, reference: float) -> float:
    """Movement of the soil face towards the soil since the reference (m)."""
    gone = float(work.face[node]) - reference
    return -gone if bars.rise[node] >= 0.0 else gone


@compiled
def pressure_at(bars: Bars, work: Work, node: int, reference: float) -> float:
    """Sideways pressure of the soil at a node for the present movement (Pa)."""
    pressure = float(work.rest[node])
    if work.spring[node] > 0.0:
        pressure += work.spring[node] * movement(bars, work, node, reference)
    return min(max(pressure, float(work.low[node])), float(work.high[node]))


@compiled
def side_of(free: float, low: float, high: float, before: int) -> int:
    """-1 active, 0 elastic, 1 passive; at the very edge it stays what it was."""
    if free < (low + EDGE if before < 0 else low - EDGE):
        return -1
    if free > (high - EDGE if before > 0 else high + EDGE):
        return 1
    return 0


@compiled
def set_law(bars: Bars, work: Work, history: History, state: int) -> bool:
    """Decide at each node between active, elastic and passive; write loads and springs.

    Returns whether any node has changed.
    """
    changed = False
    for i in range(bars.plan.size):
        reference = history.reference[state, i]
        law = 0
        push = pressure_at(bars, work, i, reference)
        held = 0.0
        if work.spring[i] > 0.0:
            free = work.rest[i] + work.spring[i] * movement(bars, work, i, reference)
            law = side_of(free, work.low[i], work.high[i], work.law[i])
            if law == 0:
                held = work.spring[i] * abs(bars.rise[i])
                push = work.rest[i]
        work.held[i] = held
        across = push * bars.rise[i] + held * reference
        work.load[3 * i] = work.base[3 * i] + across
        work.load[3 * i + 1] = work.base[3 * i + 1]
        work.load[3 * i + 2] = work.base[3 * i + 2] - bars.lever_z[i] * across
        changed = changed or law != work.law[i]
        work.law[i] = law
    return changed


@compiled
def set_faces(bars: Bars, work: Work) -> None:
    """Movement of the soil face to the right at every node (m)."""
    for i in range(bars.plan.size):
        turn = work.move[3 * i + 2]
        if jointed(bars, i):
            turn = 0.5 * (turn + work.turn[i - 1])
        work.face[i] = work.move[3 * i] - bars.lever_z[i] * turn


@compiled
def inherit(bars: Bars, steps: Steps, state: int, work: Work, history: History) -> None:
    """Where the soil was first placed in this state, its spring counts from the parent's shape."""
    parent = steps.parent[state]
    for i in range(bars.plan.size):
        before = parent >= 0 and history.covered[parent, i]
        history.covered[state, i] = before or steps.depth[state, i] > 0.0
        if before:
            history.reference[state, i] = history.reference[parent, i]
        else:
            history.reference[state, i] = work.face[i]
