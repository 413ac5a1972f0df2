"""A rib of long boards bent over each other: laminations, where each is butted, what they look like.

The boards lie flat on a form and on each other. Each layer is cut at its own places, so that no two
neighbours are butted near each other; pieces are as long as the boards.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.form.lines import frozen
from bermwright.form.shapes import RibForm, RibPiece

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.rib.pieces import Boards, Faces

    Array = NDArray[np.float64]

POINTS = 65
"""Points along each long edge of a lamination."""
FIRST = 0.25
"""Shortest first board of a layer, as a share of a whole one."""


def bent_rib(faces: Faces, boards: Boards, *, pieces: bool = True) -> tuple[RibForm, tuple[str, ...]]:
    """The rib, and what had to be said about it. Raises `OutOfRangeError` at a pointed crown."""
    if faces.apex is not None:
        raise OutOfRangeError("Boards cannot be bent round a pointed crown; choose a curve without a point.")
    found = tuple(_pieces(faces, boards)) if pieces else ()
    rib = RibForm(
        depth=boards.depth,
        width=boards.width,
        layers=boards.layers,
        centreline=faces.centreline,
        inside=faces.inside,
        outside=faces.outside,
        pieces=found,
        joints=frozen([]),
        joint_layers=(),
        bent=True,
    )
    return rib, ("The boards are bent over a form: no templates are cut for them.",) if pieces else ()


def cuts_of(length: float, longest: float, layers: int) -> list[list[float]]:
    """Arc lengths at which each layer is cut, both feet included."""
    if length <= longest:
        return [[0.0, length] for _ in range(layers)]
    return [_layer_cuts(length, longest, (layer, layers)) for layer in range(layers)]


def _layer_cuts(length: float, longest: float, place: tuple[int, int]) -> list[float]:
    """Neighbouring layers begin about half a board apart from each other."""
    layer, layers = place
    first = longest * (FIRST + (1.0 - FIRST) * _stagger(layer, layers))
    return [0.0, *np.arange(first, length, longest).tolist(), length]


def _stagger(layer: int, layers: int) -> float:
    """Where a layer begins, as a share: every second one in the first half, the others in the second."""
    return (layer // 2 + layer % 2 * -(-layers // 2)) / layers


def _pieces(faces: Faces, boards: Boards) -> Iterator[RibPiece]:
    line = faces.centreline
    top = float(line.s[int(np.argmax(line.z))])
    # The outermost board is the longest; along the middle line all are counted shorter than they are.
    longest = boards.longest * line.length / faces.outside.length
    for layer, cuts in enumerate(cuts_of(line.length, longest, boards.layers), start=1):
        spans = list(pairwise(cuts))
        for at, (start, end) in enumerate(spans):
            across = "C" if start < top < end else f"L{at + 1}" if end <= top else f"R{len(spans) - at}"
            yield _lamination(faces, boards, f"{layer}{across}", layer, (start, end))


def _lamination(faces: Faces, boards: Boards, name: str, layer: int, ends: tuple[float, float]) -> RibPiece:
    along = np.linspace(*ends, POINTS)
    inner, outer, middle = (_at(faces, along, (layer - share) / boards.layers) for share in (1.0, 0.0, 0.5))
    outline = np.vstack([inner, outer[::-1], inner[:1]])
    chord = middle[-1] - middle[0]
    across = np.array([-chord[1], chord[0]]) / np.hypot(*chord)
    return RibPiece(
        name=name,
        layer=layer,
        start=ends[0],
        end=ends[1],
        outline=tuple((float(x), float(z)) for x, z in outline),
        blank_width=boards.width,
        blank_length=float(np.sum(np.hypot(*np.diff(middle, axis=0).T))),
        end_bevels=(0.0, 0.0),
        sagitta=float(np.max(np.abs((middle - middle[0]) @ across))),
    )


def _at(faces: Faces, along: Array, share: float) -> Array:
    """Points at a share of the depth, counted from the inside."""
    s = faces.centreline.s
    x = faces.inside.x + share * (faces.outside.x - faces.inside.x)
    z = faces.inside.z + share * (faces.outside.z - faces.inside.z)
    return np.column_stack([np.interp(along, s, x), np.interp(along, s, z)])
