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
TURN_BEFORE = 6
"""Place of the rotation before a joint itself in its row of couplings."""
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
    negative = _condense_joints(bars, equations, tension, held, factors)
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
    """Add every element, one that ends in a joint without the rotation at its far end.

    Its matrix is made of seven numbers: a, b, d of the shifts, c, s between shift and turn, and g, h of the
    turns (see `Bars`).
    """
    elastic, geometric, joint = bars.elastic, bars.geometric, bars.joint
    last = tension.size - 1
    for e in range(last + 1):
        i, pull = 3 * e, tension[e]
        a = factor * elastic[e, 0] + pull * geometric[e, 0]
        b = factor * elastic[e, 1] + pull * geometric[e, 1]
        c = factor * elastic[e, 2] + pull * geometric[e, 2]
        d = factor * elastic[e, 3] + pull * geometric[e, 3]
        s = factor * elastic[e, 4] + pull * geometric[e, 4]
        g = factor * elastic[e, 5] + pull * geometric[e, 5]
        band[i, 0] += a
        band[i, 1] += b
        band[i, 2] += c
        band[i, 3] = -a
        band[i, 4] = -b
        band[i + 1, 0] += d
        band[i + 1, 1] += s
        band[i + 1, 2] = -b
        band[i + 1, 3] = -d
        band[i + 2, 0] += g
        band[i + 2, 1] = -c
        band[i + 2, 2] = -s
        band[i + 3, 0] = a
        band[i + 3, 1] = b
        band[i + 4, 0] = d
        if e == last or joint[e + 1] == np.inf:
            band[i, 5] = c
            band[i + 1, 4] = s
            band[i + 2, 3] = factor * elastic[e, 6] + pull * geometric[e, 6]
            band[i + 3, 2] = -c
            band[i + 4, 1] = -s
            band[i + 5, 0] = g


@compiled
def _condense_joints(
    bars: Bars, equations: Equations, tension: Array, held: Array, factors: tuple[float, float]
) -> int:
    """Add the far rotation of every element that ends in a joint, condensed; count its negative pivots.

    It is tied to the rotation of the node by the joint's spring. The soil on the node is carried half by
    the rotation before and half by the rotation after it, so that a frame and its mirror image agree.
    """
    elastic, geometric, lever, joint = bars.elastic, bars.geometric, bars.lever_z, bars.joint
    hidden, band = equations.hidden, equations.band
    negative = 0
    for e in range(tension.size - 1):
        if joint[e + 1] < np.inf:
            i, pull = 3 * e, tension[e]
            half, spring, soil = -0.5 * lever[e + 1], joint[e + 1] * factors[1], held[e + 1]
            c = factors[0] * elastic[e, 2] + pull * geometric[e, 2]
            s = factors[0] * elastic[e, 4] + pull * geometric[e, 4]
            hidden[e, 0] = c
            hidden[e, 1] = s
            hidden[e, 2] = factors[0] * elastic[e, 6] + pull * geometric[e, 6]
            hidden[e, 3] = soil * half - c
            hidden[e, 4] = -s
            hidden[e, 5] = soil * half**2 - spring
            pivot = factors[0] * elastic[e, 5] + pull * geometric[e, 5] + spring + soil * half**2
            hidden[e, TURN_BEFORE] = pivot
            band[i + 3, 0] += soil
            band[i + 3, 2] += soil * half
            band[i + 5, 0] += spring + soil * half**2
            for row in range(6):
                share = hidden[e, row] / pivot
                for column in range(row, 6):
                    band[i + row, column - row] -= share * hidden[e, column]
            negative += pivot < 0.0
    return negative


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
    """Solve with the factors, in place; `right` has 6 idle entries after its end.

    The value that the next row waits for is handed on by itself, so that it need not go through memory.
    """
    near = right[0]
    for i in range(size):
        value = near
        near = right[i + 1] - band[i, 1] * value
        for k in range(2, 6):
            right[i + k] -= band[i, k] * value
        right[i] = value * band[i, 0]
    near = 0.0
    for i in range(size - 1, -1, -1):
        value = right[i]
        for k in range(5, 1, -1):
            value -= band[i, k] * right[i + k]
        near = value - band[i, 1] * near
        right[i] = near
