"""A second, plain model of a nailed rib: every layer a chain of beam elements, every nail a spring.

Bends under a constant moment that all layers share at both ends. Nothing in it is smeared or averaged.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Layered:
    """What came out: stiffness over that of whole boards, and the largest moment of a layer over M/n."""

    stiffness_ratio: float
    moment_peak: float
    turn: float
    """Extra turn from end to end (rad/Nm)."""


def shapes(at: float, h: float) -> tuple[Array, Array]:
    """Deflection and turn within an element by its four freedoms."""
    w = [1 - 3 * at**2 + 2 * at**3, h * (at - 2 * at**2 + at**3), 3 * at**2 - 2 * at**3, h * (at**3 - at**2)]
    turn = [(6 * at**2 - 6 * at) / h, 1 - 4 * at + 3 * at**2, (6 * at - 6 * at**2) / h, 3 * at**2 - 2 * at]
    return np.array(w), np.array(turn)


def beam(h: float) -> Array:
    """Stiffness of a beam element of length h with EI/h³ taken out."""
    first, second = [12, 6 * h, -12, 6 * h], [6 * h, 4 * h**2, -6 * h, 2 * h**2]
    third, fourth = [-12, -6 * h, 12, -6 * h], [6 * h, 2 * h**2, -6 * h, 4 * h**2]
    return np.array([first, second, third, fourth])


def bend(
    stiffness: float,
    layers: int,
    length: float,
    cuts: list[tuple[float, int]],
    *,
    slip: float,
    rows: list[float],
    spacing: float,
) -> Layered:
    """Turn of a rib of `length` with cuts (place, layer), nails joining each layer to the next."""
    pieces = round(length / 0.1)
    h = length / pieces
    freedom, count = {}, 0
    for layer in range(layers):
        cut = {round(x / h) for x, one in cuts if one == layer}
        for node in range(pieces + 1):
            freedom[layer, node, "before"] = count
            count += 2 if node in cut else 0
            freedom[layer, node, "after"] = count
            count += 2
    matrix, force = np.zeros((count, count)), np.zeros(count)
    element = stiffness / h**3 * beam(h)

    def of(layer: int, piece: int) -> list[int]:
        start, end = freedom[layer, piece, "after"], freedom[layer, piece + 1, "before"]
        return [start, start + 1, end, end + 1]

    for layer in range(layers):
        for piece in range(pieces):
            matrix[np.ix_(of(layer, piece), of(layer, piece))] += element
        force[freedom[layer, 0, "after"] + 1] -= 1 / layers
        force[freedom[layer, pieces, "before"] + 1] += 1 / layers
    for x in np.arange(spacing / 2, length, spacing):
        piece = min(int(x / h + 1e-9), pieces - 1)
        w, turn = shapes(x / h - piece, h)
        for layer in range(layers - 1):
            both = [*of(layer, piece), *of(layer + 1, piece)]
            across, turned = np.concatenate([w, -w]), np.concatenate([turn, -turn])
            tie = len(rows) * np.outer(across, across) + sum(y**2 for y in rows) * np.outer(turned, turned)
            matrix[np.ix_(both, both)] += slip * tie
    held = {freedom[0, 0, "after"], freedom[0, pieces, "before"]}
    free = [one for one in range(count) if one not in held]
    found = np.zeros(count)
    found[free] = np.linalg.solve(matrix[np.ix_(free, free)], force[free])
    ends = [
        found[freedom[n, pieces, "before"] + 1] - found[freedom[n, 0, "after"] + 1] for n in range(layers)
    ]
    whole = length / (layers * stiffness)
    middle = range(int(0.3 * pieces), int(0.7 * pieces))
    peak = max(
        abs(stiffness * (found[of(n, piece)[3]] - found[of(n, piece)[1]]) / h)
        for n in range(layers)
        for piece in middle
    )
    turned_by = float(np.mean(ends))
    return Layered(stiffness_ratio=whole / turned_by, moment_peak=peak * layers, turn=turned_by - whole)


def staggered(
    layers: int, piece: float, order: list[int], pieces: int = 8
) -> tuple[float, list[tuple[float, int]]]:
    """Length and cuts of a rib whose layers are cut one after the other, evenly."""
    apart = piece / layers
    return piece * pieces, [(apart * (k + 0.5), order[k % layers]) for k in range(layers * pieces)]
