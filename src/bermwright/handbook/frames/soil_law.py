"""What the soil does to the frame at one state (compiled).

Sideways pressure p = clip(K sv + k u, Ka sv, Kp sv), sv the vertical pressure of the soil itself, u
the movement of the soil face towards the soil since the soil was placed.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.compiled import compiled

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, Ground, History, Lanes, Shape, Steps

LEAST_STRESS = 5e3
"""Mean stress below which the soil gets no softer (Pa)."""
REFERENCE_STRESS = 50e3
"""Mean stress at which the soil's modulus is given (Pa)."""
EDGE_TOLERANCE = 1e-6
"""Distance from a limit of the law that is rounding and nothing else (Pa)."""


@compiled
def modulus_factor(pressure: float, ratio: float) -> float:
    """Young's modulus of the soil under a vertical pressure, over that at the reference stress."""
    mean = max(pressure * (1.0 + 2.0 * ratio) / 3.0, LEAST_STRESS)
    return float(np.sqrt(mean / REFERENCE_STRESS))


@compiled
def set_soil(bars: Bars, lanes: Lanes, steps: Steps, place: tuple[int, int], ground: Ground) -> None:
    """Write what does not depend on movement: pressures, springs and upright loads at each node."""
    lane, state = place
    depth, surcharge, pore = steps.depth[state], steps.surcharge[state], steps.pore[state]
    plan, cushion, springs_on = bars.plan, bars.cushion, steps.springs_on[state]
    rest, low, high, springs = ground.rest, ground.low, ground.high, ground.spring
    ratio, weight = lanes.ratio[lane], lanes.weight[lane]
    upper, under = lanes.vertical[lane], lanes.underside[lane]
    soft = lanes.spring[lane] * lanes.modulus[lane]
    for i in range(plan.size):
        pressure = max(weight * depth[i] + surcharge[i] - pore[i], 0.0)
        low[i] = lanes.active[lane] * pressure
        high[i] = lanes.passive[lane] * pressure
        rest[i] = ratio * pressure
        spring = 0.0
        if soft != 0.0 and springs_on[i] and pressure > 0.0:
            spring = soft * modulus_factor(pressure, ratio)
            spring /= 1.0 + spring * cushion[i]
        springs[i] = spring
        down = (upper if plan[i] >= 0.0 else under) * pressure * plan[i]
        ground.base[3 * i] = steps.across[state, i]
        ground.base[3 * i + 1] = -steps.down[state, i] - down
        ground.base[3 * i + 2] = steps.moment[state, i] - bars.lever_x[i] * down


@compiled
def same(pressure: float, limit: float) -> bool:
    """Whether two pressures differ by rounding only."""
    return abs(pressure - limit) < EDGE_TOLERANCE


@compiled
def side_of(free: float, low: float, high: float, before: int) -> int:
    """-1 active, 0 elastic, 1 passive; at the very edge it stays what it was."""
    if same(free, low) or same(free, high):
        return before
    if free < low:
        return -1
    return int(free > high)


@compiled
def free_pressure(rest: float, spring: float, gone: float, rise: float) -> float:
    """K sv + k u after the soil face has gone so far to the right (Pa)."""
    return rest - spring * gone if rise >= 0.0 else rest + spring * gone


@compiled
def set_law(bars: Bars, ground: Ground, face: Array, reference: Array) -> bool:
    """Decide at each node between active, elastic and passive; write loads and springs.

    Returns whether any node has changed.
    """
    rise, lever, base, load = bars.rise, bars.lever_z, ground.base, ground.load
    rest, low, high, spring = ground.rest, ground.low, ground.high, ground.spring
    held, sides = ground.held, ground.side
    changed = False
    for i in range(rise.size):
        free = free_pressure(rest[i], spring[i], face[i] - reference[i], rise[i])
        side = side_of(free, low[i], high[i], sides[i])
        held[i] = spring[i] * abs(rise[i]) if side == 0 else 0.0
        push = rest[i] if held[i] > 0.0 else min(max(free, low[i]), high[i])
        across = push * rise[i] + held[i] * reference[i]
        load[3 * i] = base[3 * i] + across
        load[3 * i + 1] = base[3 * i + 1]
        load[3 * i + 2] = base[3 * i + 2] - lever[i] * across
        changed = changed or side != sides[i]
        sides[i] = side
    return changed


@compiled
def set_faces(bars: Bars, shape: Shape) -> None:
    """Movement of the soil face to the right at every node (m)."""
    move, turns, face, joint, lever = shape.move, shape.turn, shape.face, bars.joint, bars.lever_z
    last = face.size - 1
    for i in range(last + 1):
        turn = move[3 * i + 2]
        if 0 < i < last and joint[i] < np.inf:
            turn = 0.5 * (turn + turns[i - 1])
        face[i] = move[3 * i] - lever[i] * turn


@compiled
def inherit(steps: Steps, state: int, face: Array, history: History) -> None:
    """Where the soil is first placed in this state, its spring counts from the parent's shape."""
    parent = steps.parent[state]
    for i in range(face.size):
        before = parent >= 0 and history.covered[parent, i]
        history.covered[state, i] = before or steps.depth[state, i] > 0.0
        history.reference[state, i] = history.reference[parent, i] if before else face[i]
