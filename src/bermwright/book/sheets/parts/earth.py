"""The ground in a section: in place, placed by lifts, the surfaces, and what is still to come."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.base.drawing import Area, Band, Hatch, Item, Path, Pen, Stroke, Text, View, Wash
from bermwright.book.sheets.paper import FINE, Board, note, path_of
from bermwright.book.sheets.scene import THIN, Scene, valid
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    Array = NDArray[np.float64]


def ground_items(scene: Scene, view: View) -> Iterator[Item]:
    """Ground in place with its break lines, fill by lifts, turf, and the surface as it stands."""
    (low, bottom), (high, _) = view.seen
    yield from _in_place(scene, view, low, high, bottom)
    levels = tuple(view.point(0.0, level)[1] for level in scene.lifts)
    for part in scene.placed(low, high):
        yield _area(part, view, Wash.EARTH, Hatch.EARTH_PLACED, levels)
    yield from _natural_under_fill(scene, view, low, high)
    if scene.reached(StageKind.TURF) and scene.form.ground.turf > 0.0:
        yield from _turf(scene, view, low, high)
    yield from _surface(scene, view, low, high)
    yield from _not_yet(scene, view, low, high)


def _ring(view: View, ring: Any) -> Path:  # noqa: ANN401  (the geometry library has no types)
    """A ring of a polygon on the sheet, closed by its writer."""
    points = shapely.get_coordinates(ring)
    return path_of(view, points[:, 0], points[:, 1])[:-1]


def _area(part: Any, view: View, wash: Wash, hatch: Hatch, levels: tuple[float, ...] = ()) -> Area:  # noqa: ANN401  (the geometry library has no types)
    """A polygon (m) as an area of the sheet."""
    holes = tuple(_ring(view, hole) for hole in part.interiors)
    return Area(
        path=_ring(view, part.exterior), holes=holes, wash=wash, hatch=hatch, levels=levels, layer="earth"
    )


def _in_place(scene: Scene, view: View, low: float, high: float, bottom: float) -> Iterator[Item]:
    """Ground in place, ending in freehand lines on both sides and below."""
    left = _freehand((low, float(scene.base(np.array(low)))), (low, bottom), view)
    below = _freehand((low, bottom), (high, bottom), view)
    right = _freehand((high, bottom), (high, float(scene.base(np.array(high)))), view)
    edge = left + below[1:] + right[1:]
    x = scene.columns(low, high)[::-1]
    ring = edge + tuple(zip(x.tolist(), scene.base(x).tolist(), strict=True))
    body = shapely.difference(valid(shapely.polygons(ring)), scene.silhouette())
    for part in shapely.get_parts(body):
        # A window that a footing fills has no ground in it, but an empty polygon.
        if shapely.get_type_id(part) == shapely.GeometryType.POLYGON and not part.is_empty:
            yield _area(part, view, Wash.INSITU, Hatch.EARTH_IN_PLACE)
    top = [(end, float(scene.surface(np.array(end)))) for end in (low, high)]
    xs, zs = np.array([top[0], *edge, top[1]]).T
    yield Stroke(path=path_of(view, xs, zs), pen=Pen.LAYER, layer="earth")


def _freehand(
    start: tuple[float, float], end: tuple[float, float], view: View
) -> tuple[tuple[float, float], ...]:
    """A line as the hand draws it where the drawing breaks off (m); its sway is one of paper."""
    length = math.dist(start, end)
    count = max(4, math.ceil(view.length(length) / 3.0))
    sway = 0.6 * view.scale / 1000.0
    along = ((end[0] - start[0]) / max(length, 1e-9), (end[1] - start[1]) / max(length, 1e-9))
    points = []
    for k in range(count + 1):
        u = length * k / count
        paper = view.length(u)
        calm = min(k, count - k, 3) / 3.0
        v = calm * sway * (math.sin(0.37 * paper) + 0.6 * math.sin(0.83 * paper + 1.0))
        points.append((start[0] + u * along[0] - v * along[1], start[1] + u * along[1] + v * along[0]))
    return tuple(points)


def _lines(line: Any, view: View, pen: Pen, layer: str = "earth") -> Iterator[Stroke]:  # noqa: ANN401  (the geometry library has no types)
    """Strokes along what is left of a line (m)."""
    for part in shapely.get_parts(shapely.line_merge(line) if line.geom_type == "MultiLineString" else line):
        points = shapely.get_coordinates(part)
        if len(points) > 1 and part.length * 1000.0 / view.scale > FINE:
            yield Stroke(path=path_of(view, points[:, 0], points[:, 1]), pen=pen, layer=layer)


def _free(scene: Scene, x: Array, z: Array) -> Any:  # noqa: ANN401  (the geometry library has no types)
    """The part of a surface that lies outside everything built."""
    return shapely.difference(shapely.LineString(np.column_stack([x, z])), scene.hull)


def _natural_under_fill(scene: Scene, view: View, low: float, high: float) -> Iterator[Stroke]:
    """The existing ground line, dashed where fill lies on it."""
    x = scene.columns(low, high)
    base = scene.base(x)
    buried = scene.surface(x) - base > THIN
    for run in _runs(buried):
        if run.size > 1:
            yield from _lines(_free(scene, x[run], base[run]), view, Pen.HIDDEN)


def _runs(wanted: NDArray[np.bool_]) -> list[NDArray[np.intp]]:
    """Groups of neighbouring places where `wanted` is true."""
    places = np.flatnonzero(wanted)
    return np.split(places, np.flatnonzero(np.diff(places) > 1) + 1) if places.size else []


def _surface(scene: Scene, view: View, low: float, high: float) -> Iterator[Stroke]:
    """The surface of the soil as it stands."""
    x = scene.columns(low, high)
    yield from _lines(_free(scene, x, scene.surface(x)), view, Pen.CUT)


def _not_yet(scene: Scene, view: View, low: float, high: float) -> Iterator[Stroke]:
    """The finished ground as a chain line where it is still to come."""
    x = scene.columns(low, high)
    finished = scene.form.ground.finished.level(x)
    for run in _runs(finished - scene.surface(x) > THIN):
        if run.size > 1:
            line = shapely.LineString(np.column_stack([x[run], finished[run]]))
            yield from _lines(line, view, Pen.NOT_YET)


def _turf(scene: Scene, view: View, low: float, high: float) -> Iterator[Item]:
    """Turf on everything that is filled."""
    x = scene.columns(low, high)
    ground = scene.form.ground
    top = ground.finished.level(x)
    for run in _runs(top - scene.base(x) > THIN):
        if run.size > 3:
            under = np.maximum(top[run] - ground.turf, scene.base(x[run]))
            yield Stroke(path=path_of(view, x[run], under), pen=Pen.LAYER, layer="earth")
            yield Band(path=path_of(view, x[run], top[run]), thickness=0.01, hatch=Hatch.TURF, layer="turf")


def lift_labels(scene: Scene, view: View, board: Board) -> Iterator[Text]:
    """L1, L2 … under the outer ends of the lifts on the left, R1, R2 … on the right; the top one first."""
    (low, _), (high, _) = view.seen
    for side, sign, reached in (("L", -1.0, scene.left), ("R", 1.0, scene.right)):
        for number, level in reversed(tuple(enumerate(scene.lifts, start=1))):
            ends = scene.reach(level, sign)
            if ends is None or (reached is not None and level > reached + 1e-6):
                continue
            edge = view.point(min(max(ends[1], low), high), level)
            anchor = "start" if sign < 0 else "end"
            at = (edge[0] + sign * 0.4, edge[1] - 2.35)
            label = Text(at=at, text=f"{side}{number}", height=2.1, anchor=anchor)
            if board.free(label):
                yield board.take(label)


def finished_label(scene: Scene, view: View, board: Board) -> Iterator[Text]:
    """The words "finished ground" along its chain line on the right."""
    x = np.linspace(scene.crown_x, view.seen[1][0], 400)
    z = scene.form.ground.finished.level(x)
    gap = z - scene.surface(x)
    if gap.max() < 0.3:
        return
    places = []
    for k in range(30, len(x) - 30, 8):
        start, end = (
            view.point(float(x[k - 25]), float(z[k - 25])),
            view.point(float(x[k + 25]), float(z[k + 25])),
        )
        angle = math.atan2(end[1] - start[1], end[0] - start[0])
        middle = view.point(float(x[k]), float(z[k]))
        at = (middle[0] - 1.6 * math.sin(angle), middle[1] + 1.6 * math.cos(angle))
        if gap[k] > THIN:
            places.append(note(at, "finished ground", "middle", angle))
    wanted = [text for text in places if board.free(text)]
    if wanted:
        yield board.take(wanted[len(wanted) // 2])
