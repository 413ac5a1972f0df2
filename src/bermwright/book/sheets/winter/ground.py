"""Frozen ground in the living section: its wash, the line of frost with its teeth, the warmth of the rest."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypeAlias

import numpy as np
import shapely

from bermwright.base.drawing import Item, Path, Pen, Stroke, Text, View
from bermwright.book.sheets.paper import FIGURE, Board, figure, note, path_of
from bermwright.book.sheets.winter.frozen import clipped, cold_items, frost_items

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.marks import GroundHeat
    from bermwright.book.sheets.scene import Scene

    Array = NDArray[np.float64]

Shape: TypeAlias = Any
"""A shape of the geometry library, which has no types."""
LOW = 0.1
"""Figures nearer to the lower edge are left out (m)."""
UNDER = 0.015
"""The ground's own line stays in sight over the ice (m)."""


def ground_heat(mark: GroundHeat, view: View, scene: Scene, board: Board) -> Iterator[Item]:
    """Everything of one week in the ground."""
    (low, bottom), (high, top) = view.seen
    window, house = (low, bottom, high, top), scene.silhouette()
    ice = shapely.intersection(_body(mark), shapely.difference(_earth(scene, view), house))
    yield from cold_items(ice, view)
    for name, lines in mark.isotherms:
        pieces = tuple(clipped(_arrays(lines), window, house))
        for line in pieces:
            yield Stroke(path=path_of(view, line[:, 0], line[:, 1]), pen=Pen.LAYER, layer="isotherms")
        yield from _name(pieces, name, view, board)
    frost = tuple(clipped(_arrays(mark.frost), window, house))
    for line in frost:
        yield from frost_items(line, ice, view)
    yield from _words(mark, frost, view, board)


def _arrays(lines: tuple[Path, ...]) -> tuple[Array, ...]:
    return tuple(np.array(line, dtype=float).reshape(-1, 2) for line in lines)


def _body(mark: GroundHeat) -> Shape:
    rings = [shapely.Polygon(ring) for ring in mark.ice if len(ring) > 2]
    return shapely.union_all([one if one.is_valid else shapely.make_valid(one) for one in rings])


def _earth(scene: Scene, view: View) -> Shape:
    """All ground under its surface as it stands."""
    (low, bottom), (high, _top) = view.seen
    x = scene.columns(low, high)
    upper = np.column_stack([x, scene.surface(x) - UNDER])
    return shapely.make_valid(shapely.Polygon([(low, bottom), *upper, (high, bottom)]))


def _name(pieces: tuple[Array, ...], name: str, view: View, board: Board) -> Iterator[Text]:
    """The figure on an isotherm, where there is room for it."""
    for line in sorted(pieces, key=len, reverse=True):
        for x, z in line[len(line) // 6 :: max(1, len(line) // 12)].tolist():
            at = view.point(x, z)
            label = figure((at[0], at[1] - 0.5 * FIGURE), name, "middle")
            if board.free(label):
                yield board.take(label)
                return


def _words(mark: GroundHeat, frost: tuple[Array, ...], view: View, board: Board) -> Iterator[Item]:
    """Depth of the frost beside its line, temperatures at their places, and whose ground it is."""
    bottom = view.seen[0][1]
    for spot, text in mark.figures:
        if spot.z < bottom + LOW:
            continue
        at = view.point(spot.x, spot.z)
        label = figure((at[0] + 1.6, at[1] - 0.5 * FIGURE), text)
        if board.free(label):
            yield Stroke(path=((at[0] - 0.7, at[1]), (at[0] + 0.7, at[1])), pen=Pen.TICK, layer="text")
            yield board.take(label)
    if mark.depth and frost:
        line = min(frost, key=lambda one: float(one[:, 0].min()))
        x, z = line[int(np.argmin(line[:, 0]))].tolist()
        at = view.point(x, z)
        yield board.put(note((at[0] + 2.5, at[1] + up), mark.depth) for up in (-4.5, 2.5, -8.0, 6.0))
    if mark.says:
        foot = view.point(*view.seen[0])
        yield board.put(note((foot[0] + 1.0, foot[1] - down), mark.says) for down in (6.5, 9.5, 3.5))
