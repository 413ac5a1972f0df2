"""Assembly, factors and solution of the frame's banded equations (compiled).

Arrays are taken out of their bundles before a loop: each such step costs as much as an addition. Loops
stand where numpy would take a slice, because slices compile slowly.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.compiled import compiled

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, Equations

SINGULAR = 1e-12
"""A pivot smaller than this share of its own diagonal entry is no pivot but rounding."""
NO_PIVOT = 1_000_000
"""Count returned by `factor` when a pivot vanishes or is NaN."""
KEPT = (0, 1, 2, 3, 4, 6)
"""Rows of the small matrix that stay: all but the rotation before the joint."""
TURN = 2
"""Number of the rotation among the movements of a node."""


@compiled
def assemble(
    bars: Bars, equations: Equations, tension: Array, held: Array, factors: tuple[float, float]
) -> int:
    """Sum the elements, the tension in them, the elastic soil and the feet into the band.

    `factors` act on the elements and on the joints. Returns how many of the condensed rotations before a
    joint have a negative pivot.
    """
    clear(equations.band)
    _add_elements(bars, equations.band, tension, factors[0])
    negative = 0
    for e in range(bars.length.size - 1):
        if bars.joint[e + 1] < np.inf:
            _jointed_matrix(bars, equations.small, e, tension[e], held[e + 1], factors)
            negative += _add_jointed(equations, e)
    _add_soil(bars, equations.band, held)
    _add_feet(bars, equations.band, factors[1])
    return negative


@compiled
def clear(matrix: Array) -> None:
    """Set a matrix to zero."""
    for i in range(matrix.shape[0]):
        for j in range(matrix.shape[1]):
            matrix[i, j] = 0.0


@compiled
def _add_elements(bars: Bars, band: Array, tension: Array, factor: float) -> None:
    """Add every element that does not end in a joint."""
    elastic, geometric, joint = bars.elastic, bars.geometric, bars.joint
    last = tension.size - 1
    for e in range(last + 1):
        if e < last and joint[e + 1] < np.inf:
            continue
        pull = tension[e]
        m = 0
        for r in range(6):
            for c in range(6 - r):
                band[3 * e + r, c] += factor * elastic[e, m] + pull * geometric[e, m]
                m += 1


@compiled
def _jointed_matrix(
    bars: Bars, small: Array, e: int, tension: float, held: float, factors: tuple[float, float]
) -> None:
    """Write the 7 x 7 matrix of an element that ends in a joint.

    Its far end has a rotation of its own (row 5) and the joint's spring to the node (row 6). The
    soil on the node is carried half by the rotation before and half by the rotation after it, so
    that a frame and its mirror image agree.
    """
    clear(small)
    m = 0
    for r in range(6):
        for c in range(r, 6):
            small[r, c] = factors[0] * bars.elastic[e, m] + tension * bars.geometric[e, m]
            small[c, r] = small[r, c]
            m += 1
    joint, half = bars.joint[e + 1] * factors[1], -0.5 * bars.lever_z[e + 1]
    small[3, 3] += held
    for turning in (5, 6):
        small[3, turning] += held * half
        small[turning, 3] += held * half
        small[turning, turning] += joint + held * half**2
    small[5, 6] += held * half**2 - joint
    small[6, 5] = small[5, 6]


@compiled
def _add_jointed(equations: Equations, e: int) -> int:
    """Condense row 5 of the small matrix and add the rest to the band."""
    small, band = equations.small, equations.band
    pivot = small[5, 5]
    for c in range(7):
        equations.hidden[e, c] = small[5, c]
    for r in range(6):
        row = KEPT[r]
        for c in range(r, 6):
            column = KEPT[c]
            band[3 * e + r, c - r] += small[row, column] - small[row, 5] * small[5, column] / pivot
    return int(pivot < 0.0)


@compiled
def _add_soil(bars: Bars, band: Array, held: Array) -> None:
    lever_z, joint = bars.lever_z, bars.joint
    last = held.size - 1
    for i in range(last + 1):
        if held[i] > 0.0 and not (0 < i < last and joint[i] < np.inf):
            lever = lever_z[i]
            band[3 * i, 0] += held[i]
            band[3 * i, 2] -= held[i] * lever
            band[3 * i + 2, 0] += held[i] * lever**2


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
def _add_feet(bars: Bars, band: Array, joint_factor: float) -> None:
    for side in range(2):
        for way in range(3):
            stiffness = foot_stiffness(bars, side, way, joint_factor)
            row = 3 * side * bars.length.size + way
            if stiffness == np.inf:
                _hold(band, row)
            else:
                band[row, 0] += stiffness


@compiled
def _hold(band: Array, row: int) -> None:
    for k in range(6):
        band[row, k] = 0.0
        if row >= k:
            band[row - k, k] = 0.0
    band[row, 0] = 1.0


@compiled
def clear_held(bars: Bars, right: Array, joint_factor: float) -> None:
    """No load reaches the frame where a support takes it directly."""
    for side in range(2):
        for way in range(3):
            if foot_stiffness(bars, side, way, joint_factor) == np.inf:
                right[3 * side * bars.length.size + way] = 0.0


@compiled
def factor(band: Array, scale: Array) -> int:
    """Factor the band into L and the inverse of D in place and count the negative pivots."""
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
        inverse = 1.0 / pivot
        for k in range(1, 6):
            share = band[i, k] * inverse
            for j in range(k, 6):
                band[i + k, j - k] -= share * band[i, j]
            band[i, k] = share
        band[i, 0] = inverse
    return negative


@compiled
def solve_band(band: Array, right: Array, size: int) -> None:
    """Solve with the factors, in place; `right` has 6 idle entries after its end."""
    for i in range(size):
        value = right[i]
        for k in range(1, 6):
            right[i + k] -= band[i, k] * value
        right[i] = value * band[i, 0]
    for i in range(size - 1, -1, -1):
        value = right[i]
        for k in range(1, 6):
            value -= band[i, k] * right[i + k]
        right[i] = value
