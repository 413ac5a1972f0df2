"""Ribs and the layers over them as bodies."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.form.solids.bodies import Body, apart, is_nothing, pushed, solid, without
from bermwright.form.solids.nouns import Counted, Kind, Layer, Pushed, Solid

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, RibForm, VaultForm

    Array = NDArray[np.float64]

FINE = 3e-4
"""A body's edge may leave the true curve by this much (m)."""
BOARD = 5e-4
"""And the edge of a single board of a rib by this much (m)."""
THIN_BOARD = 5e-5
"""Boards bent over each other are so thin that it has to be less (m)."""
SAME = 1e-6
"""Lengths that count as one (m)."""
CUT = "openings are cut out of it; the take-off does not deduct them"


def kept(form: VaultForm) -> NDArray[np.intp]:
    """Which points of the curves are enough to draw them.

    They are the same ones for every face, so that layers stay as thick as they are.
    """
    found = _needed(form.soil_face)
    inside = form.rib.inside
    left = shapely.LineString(line_of(inside, found))
    if shapely.hausdorff_distance(left, shapely.LineString(np.column_stack([inside.x, inside.z]))) > FINE:
        # Where the crown is a valley the outer faces lose what the inner ones still have.
        found = np.union1d(found, _needed(inside))
    return found


def _needed(face: CurveLine) -> NDArray[np.intp]:
    """Which points of one face are enough to draw it."""
    points = np.column_stack([face.x, face.z])
    slim = shapely.get_coordinates(shapely.simplify(shapely.LineString(points), FINE))
    # Simplifying keeps points of the line itself, in their order.
    found, at = [], 0
    for x, z in slim:
        at += int(np.argmin(np.hypot(points[at:, 0] - x, points[at:, 1] - z)))
        found.append(at)
    return np.unique(np.array([*found, 0, len(points) - 1], dtype=np.intp))


def line_of(curve: CurveLine, points: NDArray[np.intp]) -> Array:
    """A curve through some of its points, (n, 2)."""
    return np.column_stack([curve.x[points], curve.z[points]])


def between(inner: CurveLine, outer: CurveLine, points: NDArray[np.intp]) -> Array:
    """The outline between two faces."""
    return np.vstack([line_of(inner, points)[::-1], line_of(outer, points)])


def rib_layer(form: VaultForm, cutters: Sequence[Body]) -> Layer:
    """The ribs: whole ones are one body in many places, ribs that an opening cuts each their own.

    The boards of a rib stay bodies of their own that lie against each other.
    """
    rib = form.rib
    fine = THIN_BOARD if rib.bent else BOARD
    boards = [_piece(rib, _slim(piece.outline, fine), piece.layer) for piece in rib.pieces]
    places = np.array([[0.0, min(i * form.spacing, form.length), 0.0] for i in range(form.ribs)])
    moved = [[board.translate(tuple(place)) for board in boards] for place in places]
    hurt = np.array([_meets(rib_boards, cutters) for rib_boards in moved])
    whole = float(sum(board.volume() for board in boards))
    solids: list[Solid] = []
    if not hurt.all():
        alike = places[~hurt]
        counted = Counted(volume=whole * len(alike))
        solids.append(solid("ribs", Kind.RIB, boards, places=alike, whole=whole, counted=counted))
    for number in np.flatnonzero(hurt):
        left = [without(board, cutters) for board in moved[number]]
        bodies = [body for body in left if not is_nothing(body)]
        counted = Counted(volume=whole, why=CUT)
        solids.append(solid(f"rib {number + 1}", Kind.RIB, bodies, whole=whole, counted=counted))
    return Layer(name="ribs", kind=Kind.RIB, solids=tuple(solids))


def end_ribs(form: VaultForm) -> list[Body]:
    """The halves of the first and the last rib that stand out past the ends of the vault."""
    outline = between(form.rib.inside, form.rib.outside, kept(form))
    half = 0.5 * form.rib.width
    return [pushed(outline, -half, 0.0), pushed(outline, form.length, form.length + half)]


def _meets(boards: Sequence[Body], cutters: Sequence[Body]) -> bool:
    """Whether an opening cuts any board of a rib."""
    return any(not apart(board, cutter) for board in boards for cutter in cutters)


def _slim(outline: tuple[tuple[float, float], ...], fine: float) -> Array:
    """An outline with as few points as its curve needs."""
    ring = shapely.get_coordinates(shapely.simplify(shapely.LinearRing(outline), fine))[:-1]
    return np.asarray(ring[::-1] if shapely.LinearRing(ring).is_ccw is False else ring)


def _piece(rib: RibForm, outline: Array, layer: int) -> Body:
    """One board of a rib: side by side with its neighbours, or bent over them and as wide as the rib."""
    half = 0.5 * rib.width
    if rib.bent:
        return pushed(outline, -half, half)
    start = -half + (layer - 1) * rib.board
    return pushed(outline, start, start + rib.board)


def band_layers(form: VaultForm, cutters: Sequence[Body]) -> tuple[Layer, ...]:
    """Lagging, membrane, insulation, from the inside out."""
    points = kept(form)
    layers = []
    for band in form.bands:
        outline = between(band.inner, band.outer, points)
        whole = pushed(outline, 0.0, form.length)
        body = without(whole, cutters)
        kind = Kind(band.kind)
        one = solid(
            band.name,
            kind,
            body,
            pushed_from=Pushed(outline=outline, start=0.0, end=form.length),
            whole=float(whole.volume()),
            counted=Counted(volume=float(whole.volume()), why=CUT if cutters else ""),
        )
        layers.append(Layer(name=band.name, kind=kind, solids=(one,)))
    return tuple(layers)


def faces(form: VaultForm) -> tuple[Array, Array]:
    """Inside of the ribs and soil face, with the points that bodies keep."""
    points = kept(form)
    return line_of(form.rib.inside, points), line_of(form.soil_face, points)


def shell_body(form: VaultForm, *, floor: float) -> Body:
    """Shell and room in one: what no soil fills, from a level up to the soil face."""
    _, outer = faces(form)
    return pushed(_closed(outer, floor), 0.0, form.length)


def room_outline(form: VaultForm, floor: float) -> Array:
    """The room inside the ribs, down to a level."""
    inner, _ = faces(form)
    return _closed(inner, floor)


def _closed(face: Array, level: float) -> Array:
    feet = np.array([[face[-1, 0], level], [face[0, 0], level]])
    ring = np.vstack([face, feet])[::-1]
    keep = [True] + [bool(np.hypot(*(b - a)) > SAME) for a, b in pairwise(ring)]
    return np.asarray(ring[np.array(keep)])
