"""Assembly, factors and solution of the frame's banded equations (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.compiled import compiled

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, Work

SINGULAR = 1e-12
"""A pivot smaller than this share of its own diagonal entry is no pivot but rounding."""
NO_PIVOT = 1_000_000
"""Count returned by `factor` when a pivot vanishes or is NaN."""

KEPT = (0, 1, 2, 3, 4, 6)
"""Rows of the small matrix that stay: all but the rotation before the joint."""
TURN = 2
"""Number of the rotation among the movements of a node."""


@compiled
def assemble(bars: Bars, work: Work, factor: float, joint_factor: float) -> int:
    """Sum the elements, the tension in them, the elastic soil and the feet into the band.

    Returns how many of the condensed joint rotations have a negative pivot.
    """
    work.band[:] = 0.0
    elements = bars.length.size
    negative = 0
    for e in range(elements):
        joint = bars.joint[e + 1] * joint_factor
        if e + 1 < elements and joint < np.inf:
            _jointed_matrix(bars, work, e, factor, joint)
            negative += _add_jointed(work, e)
        else:
            _add_plain(bars, work, e, factor)
    _add_soil(bars, work)
    _add_feet(bars, work, joint_factor)
    return negative


@compiled
def _add_plain(bars: Bars, work: Work, e: int, factor: float) -> None:
    tension = work.tension[e]
    m = 0
    for r in range(6):
        for c in range(6 - r):
            work.band[3 * e + r, c] += factor * bars.elastic[e, m] + tension * bars.geometric[e, m]
            m += 1


@compiled
def _jointed_matrix(bars: Bars, work: Work, e: int, factor: float, joint: float) -> None:
    """Write the 7 x 7 matrix of an element that ends in a joint.

    Its far end has a rotation of its own (row 5) and the joint's spring to the node (row 6). The
    soil on the node is carried half by the rotation before and half by the rotation after it, so
    that a frame and its mirror image agree.
    """
    small = work.small
    small[:] = 0.0
    m = 0
    for r in range(6):
        for c in range(r, 6):
            small[r, c] = factor * bars.elastic[e, m] + work.tension[e] * bars.geometric[e, m]
            small[c, r] = small[r, c]
            m += 1
    held, half = work.held[e + 1], -0.5 * bars.lever_z[e + 1]
    small[3, 3] += held
    for turning in (5, 6):
        small[3, turning] += held * half
        small[turning, 3] += held * half
        small[turning, turning] += joint + held * half**2
    small[5, 6] += held * half**2 - joint
    small[6, 5] = small[5, 6]


@compiled
def _add_jointed(work: Work, e: int) -> int:
    """Condense row 5 of the small matrix and add the rest to the band."""
    pivot = work.small[5, 5]
    work.hidden[e] = work.small[5]
    for r in range(6):
        row = KEPT[r]
        for c in range(r, 6):
            column = KEPT[c]
            work.band[3 * e + r, c - r] += (
                work.small[row, column] - work.small[row, 5] * work.small[5, column] / pivot
            )
    return 1 if pivot < 0.0 else 0


@compiled
def jointed(bars: Bars, node: int) -> bool:
    """Whether an inner node has a joint that turns."""
    return 0 < node < bars.length.size and bars.joint[node] < np.inf


@compiled
def _add_soil(bars: Bars, work: Work) -> None:
    for i in range(bars.plan.size):
        held = work.held[i]
        if held > 0.0 and not jointed(bars, i):
            lever = bars.lever_z[i]
            work.band[3 * i, 0] += held
            work.band[3 * i, 2] -= held * lever
            work.band[3 * i + 2, 0] += held * lever**2


@compiled
def foot_stiffness(bars: Bars, side: int, way: int, joint_factor: float) -> float:
    """Stiffness of a support; the joint at the foot lies in series with its rotation."""
    foot = float(bars.feet[side, way])
    joint = float(bars.joint[side * bars.length.size]) * joint_factor
    if way != TURN or joint == np.inf:
        return foot
    if foot == np.inf:
        return joint
    return 0.0 if joint == 0.0 or foot == 0.0 else foot * joint / (foot + joint)


@compiled
def _add_feet(bars: Bars, work: Work, joint_factor: float) -> None:
    for side in range(2):
        for way in range(3):
            stiffness = foot_stiffness(bars, side, way, joint_factor)
            row = 3 * side * bars.length.size + way
            if stiffness == np.inf:
                _hold(work, row)
            else:
                work.band[row, 0] += stiffness


@compiled
def _hold(work: Work, row: int) -> None:
    work.band[row] = 0.0
    for k in range(1, min(6, row + 1)):
        work.band[row - k, k] = 0.0
    work.band[row, 0] = 1.0


@compiled
def held_row(bars: Bars, side: int, way: int, joint_factor: float) -> bool:
    """Whether a support holds this movement altogether."""
    return foot_stiffness(bars, side, way, joint_factor) == np.inf


@compiled
def clear_held(bars: Bars, right: Array, joint_factor: float) -> None:
    """No load reaches the frame where a support takes it directly."""
    for side in range(2):
        for way in range(3):
            if held_row(bars, side, way, joint_factor):
                right[3 * side * bars.length.size + way] = 0.0


@compiled
def factor(band: Array, scale: Array) -> int:
    """Factor the band into L D L^T in place and count the negative pivots."""
    size = scale.size
    for i in range(size):
        scale[i] = abs(band[i, 0])
    negative = 0
    for i in range(size):
        pivot = band[i, 0]
        if not abs(pivot) > SINGULAR * scale[i]:
            return NO_PIVOT
        if pivot < 0.0:
            negative += 1
        for k in range(1, 6):
            share = band[i, k] / pivot
            for j in range(k, 6):
                band[i + k, j - k] -= share * band[i, j]
            band[i, k] = share
    return negative


@compiled
def solve_band(band: Array, right: Array, size: int) -> None:
    """Solve with the factors, in place; `right` has 6 idle entries after its end."""
    for i in range(size):
        value = right[i]
        for k in range(1, 6):
            right[i + k] -= band[i, k] * value
        right[i] = value / band[i, 0]
    for i in range(size - 1, -1, -1):
        value = right[i]
        for k in range(1, 6):
            value -= band[i, k] * right[i + k]
        right[i] = value
