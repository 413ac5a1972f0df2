"""The pieces of a nail-laminated rib: cut to equal sagitta, joints staggered, ends square to the curve.

Along the rib runs a number u that grows faster where the curve is tighter, so that pieces from u to u + 1
have about the same sagitta. Layer k of n is cut at u = j + (k - 1)/n, from four layers on half an nth
later, which keeps the pieces at the feet long: any two joints of different layers lie 1/n of a piece
apart, every piece but those at the feet is a whole one, and on an even curve the left pieces of one layer
are the right pieces of another turned over.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.lines import frozen
from bermwright.form.shapes import RibForm, RibPiece

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine

    Array = NDArray[np.float64]

EDGE_POINTS = 33
"""Points along each long edge of an outline."""
LEAST_PIECE = 0.4
"""Shorter whole pieces are not proposed: two nail groups no longer find room (m; common practice)."""
FLATTEST = 1e-3
"""Curvature that counts where the curve is straighter still (1/m)."""
FEW_LAYERS = 3
"""Up to so many layers the first starts with a whole piece."""
LEAST_STUB = 0.2
"""A piece at a foot shorter than this share of a whole one is joined to its neighbour."""
SAW = 1e-4
"""Excess of a blank over its board that no saw notices (m)."""

Layout = tuple[list[list[float]], tuple[RibPiece, ...]]
"""Ends of all pieces, layer by layer, and the pieces."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """What a rib is made of."""

    thickness: float
    width: float
    longest: float
    """Longest board or piece wanted (m)."""
    layers: int
    depth: float
    """Of the rib, square to its curve (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Faces:
    """Centreline and faces of a rib, point by point, and where its pieces may not cross."""

    centreline: CurveLine
    inside: CurveLine
    outside: CurveLine
    apex: float | None
    """Arc length of a pointed crown, at which every layer is cut (m)."""


def rib_form(faces: Faces, boards: Boards) -> tuple[RibForm, tuple[str, ...]]:
    """The rib with the fewest pieces that fit their boards, and what had to be said about it.

    Where no pieces fit, because the curve is too tight or the rib too deep for the boards, the longest
    pieces are laid out and the width that they need is said.
    """
    first = _first_count(faces, boards)
    most = int(faces.centreline.length / LEAST_PIECE)
    tried = (_fitting(faces, boards, count) for count in range(first, max(most, first) + 1))
    found = next((layout for layout in tried if layout is not None), None)
    cuts, pieces = found or _laid_out(faces, boards, _shortest_count(faces, boards))
    rib = _rib(faces, boards, cuts, pieces)
    return rib, tuple(_remarks(rib, boards))


def uncut_rib(faces: Faces, boards: Boards) -> tuple[RibForm, tuple[str, ...]]:
    """The rib as if its boards were as long as itself: without pieces and without joints."""
    return _rib(faces, boards, [], ()), ()


def _laid_out(faces: Faces, boards: Boards, count: int) -> Layout:
    """Cuts and pieces for a number of pieces to a layer."""
    cuts = _cuts(faces, boards.layers, count)
    return cuts, tuple(_pieces(faces, cuts, _sawn(faces, cuts)))


def _fitting(faces: Faces, boards: Boards, count: int) -> Layout | None:
    """The same where every piece fits its board."""
    cuts = _cuts(faces, boards.layers, count)
    sawn = _sawn(faces, cuts)
    if np.any(sawn.width > boards.width + SAW) or np.any(sawn.length > boards.longest + SAW):
        return None
    return cuts, tuple(_pieces(faces, cuts, sawn))


def _shortest_count(faces: Faces, boards: Boards) -> int:
    """Pieces of a layer when only their length counts."""
    return max(1, int(np.ceil(faces.outside.length / boards.longest)))


def _first_count(faces: Faces, boards: Boards) -> int:
    """Pieces of a layer by the rules for a circle: from here the count only grows."""
    spare = max(boards.width - boards.depth, 0.0) + SAW
    tight = np.sqrt(np.maximum(_curvature(faces.centreline), FLATTEST) / (8.0 * spare))
    need = np.maximum(tight, 1.0 / boards.longest)
    count = float(np.trapezoid(need, faces.centreline.s))
    most = faces.centreline.length / LEAST_PIECE
    return max(1, int(min(0.8 * count, most)))


def _curvature(line: CurveLine) -> Array:
    run = np.diff(line.s)
    turn = -np.diff(line.angle)
    smooth = run > 0.0
    middle = 0.5 * (line.s[:-1] + line.s[1:])[smooth]
    return np.asarray(np.interp(line.s, middle, turn[smooth] / run[smooth]))


def _measure(line: CurveLine) -> Array:
    """u, not yet scaled: grows with the root of the curvature, so that sagittas come out alike.

    Where the curve is nearly straight the pieces would become longer than boards; a share of plain
    length keeps them within three times the shortest.
    """
    root = np.sqrt(np.maximum(_curvature(line), FLATTEST))
    pace = np.maximum(root, np.max(root) / 3.0)
    steps = 0.5 * (pace[1:] + pace[:-1]) * np.diff(line.s)
    return np.concatenate([[0.0], np.cumsum(steps)])


def _cuts(faces: Faces, layers: int, count: int) -> list[list[float]]:
    """Arc lengths of the ends of all pieces, foot to foot, layer by layer."""
    line = faces.centreline
    u = _measure(line)
    apex = faces.apex
    whole = count if apex is None else max(1, round(count / 2))
    cuts = []
    for layer in range(layers):
        share = _run(layer, layers, whole) / whole
        if apex is None:
            ends = share * u[-1]
        else:
            # Halves that meet in a point are each other's mirror, layer by layer.
            middle = float(np.interp(apex, line.s, u))
            ends = np.concatenate([share * middle, u[-1] - share[-2::-1] * (u[-1] - middle)])
        cuts.append(np.interp(ends, u, line.s).tolist())
    return cuts


def _run(layer: int, layers: int, whole: int) -> Array:
    """Where a layer is cut along a run of whole pieces, both ends included."""
    first = (layer + (0.5 if layers > FEW_LAYERS else 0.0)) / layers
    ends = np.unique(np.concatenate([[0.0], first + np.arange(whole), [whole]]))
    pieces = np.diff(ends)
    keep = np.ones(ends.size, dtype=bool)
    if ends.size > 2:  # noqa: PLR2004  (a single piece has nothing to join)
        keep[1] = pieces[0] >= LEAST_STUB
        keep[-2] &= pieces[-1] >= LEAST_STUB
    return np.asarray(ends[keep])


def _pieces(faces: Faces, cuts: list[list[float]], sawn: _Sawn) -> Iterator[RibPiece]:
    line = faces.centreline
    top = float(line.s[int(np.argmax(line.z))])
    number = 0
    for layer, ends in enumerate(cuts, start=1):
        spans = list(pairwise(ends))
        for at, (start, end) in enumerate(spans):
            first, last = sawn.bevels[number].tolist()
            yield RibPiece(
                name=f"{layer}{_place(spans, at, top)}",
                layer=layer,
                start=start,
                end=end,
                outline=tuple(map(tuple, sawn.outline[number].tolist())),
                blank_width=float(sawn.width[number]),
                blank_length=float(sawn.length[number]),
                end_bevels=(first, last),
                sagitta=float(sawn.sagitta[number]),
            )
            number += 1


def _place(spans: list[tuple[float, float]], at: int, top: float) -> str:
    start, end = spans[at]
    if start < top - SAW and end > top + SAW:
        return "C"
    return f"L{at + 1}" if end <= top + SAW else f"R{len(spans) - at}"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sawn:
    """All pieces of a rib at once, (P, ...), layer by layer."""

    outline: Array
    """(P, points, 2) closed."""
    width: Array
    length: Array
    """Of the straight board that each is cut from (m)."""
    bevels: Array
    """(P, 2) of the start and the end (rad)."""
    sagitta: Array


def _sawn(faces: Faces, cuts: list[list[float]]) -> _Sawn:
    start, end = np.array([span for ends in cuts for span in pairwise(ends)]).T
    along = np.linspace(start, end, EDGE_POINTS, axis=1)
    line = faces.centreline
    inside, outside, middle = (_edge(line, face, along) for face in (faces.inside, faces.outside, line))
    outline = np.concatenate([inside, outside[:, ::-1], inside[:, :1]], axis=1)
    chord = middle[:, -1] - middle[:, 0]
    tilt = np.arctan2(chord[:, 1], chord[:, 0])
    across = np.stack([-np.sin(tilt), np.cos(tilt)], axis=1)[..., None]
    edge = np.stack([np.cos(tilt), np.sin(tilt)], axis=1)[..., None]
    bevels = [_tangent(line, start, end) - tilt, tilt - _tangent(line, end, start)]
    return _Sawn(
        outline=outline,
        width=np.ptp(outline @ across, axis=(1, 2)),
        length=np.ptp(outline @ edge, axis=(1, 2)),
        bevels=np.stack(bevels, axis=1),
        sagitta=np.max(np.abs((middle - middle[:, :1]) @ across), axis=(1, 2)),
    )


def _edge(line: CurveLine, face: CurveLine, along: Array) -> Array:
    """Points of a face at places along the centreline, x and z last."""
    return np.stack([np.interp(along, line.s, face.x), np.interp(along, line.s, face.z)], axis=-1)


def _tangent(line: CurveLine, at: Array, toward: Array) -> Array:
    """Tangent angle at an end of each piece, on the piece's own side of a pointed crown."""
    hair = np.sign(toward - at) * 1e-9
    return np.asarray(np.interp(at + hair, line.s, line.angle))


def _rib(faces: Faces, boards: Boards, cuts: list[list[float]], pieces: tuple[RibPiece, ...]) -> RibForm:
    joints = sorted(
        (joint, layer + 1)
        for layer, ends in enumerate(cuts)
        for joint in ends[1:-1]
        if faces.apex is None or abs(joint - faces.apex) > SAW
    )
    return RibForm(
        depth=boards.depth,
        width=boards.thickness * boards.layers,
        layers=boards.layers,
        centreline=faces.centreline,
        inside=faces.inside,
        outside=faces.outside,
        pieces=pieces,
        joints=frozen([joint for joint, _ in joints]),
        joint_layers=tuple(layer for _, layer in joints),
        apex=faces.apex,
    )


def _remarks(rib: RibForm, boards: Boards) -> Iterator[str]:
    wide = max(piece.blank_width for piece in rib.pieces)
    if wide > boards.width + SAW:
        yield (
            f"Boards {1e3 * boards.width:.0f} mm wide are too narrow for a rib "
            f"{1e3 * boards.depth:.0f} mm deep on this curve: pieces of up to {boards.longest:.2f} m need "
            f"{np.ceil(1e3 * wide):.0f} mm. Take a shallower rib (depth) or wider boards."
        )
    longest = max(piece.blank_length for piece in rib.pieces)
    if longest > boards.longest + SAW:
        yield f"The longest piece needs a board of {longest:.2f} m, over the {boards.longest:.2f} m given."
    if rib.joints.size > 1 and boards.layers > 1:
        nearest = float(np.min(np.diff(rib.joints)))
        yield f"Butt joints of different layers lie at least {nearest:.2f} m apart."
    if boards.layers == 1:
        yield "A rib of one layer is cut through at every butt joint."
    if rib.apex is not None:
        yield "At the pointed crown every layer is cut: the two halves meet there in one joint."
