"""A rib piece drawn at full size: the line to cut, the side to keep, ordinates, nails and joints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Ink, Item, Pen, Stroke, Text, Wash
from bermwright.book.templates.marks import arrow_to, nail_mark, small_words
from bermwright.form.rib.flat import crossing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.base.drawing import Path, Point
    from bermwright.form.rib.flat import Flat
    from bermwright.form.rib.nails import NailSet

_MM = 1000.0
STATION = 25.0
"""Spacing of the ordinates along the chord (mm)."""
_KEEP = 4.0
_GRID = 100.0
_TICK = 4.0
_CROSS = 2.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Laying:
    """How a piece lies on its sheets: `upright` with its foot below, else with its foot at the left."""

    flat: Flat
    upright: bool

    def at(self, along: float, across: float) -> Point:
        """A place of the piece (mm along and across) in the drawing; the soil lies left or above."""
        return (-across, along) if self.upright else (along, across)

    @property
    def outline(self) -> Path:
        """The outline in the drawing (mm)."""
        return tuple(self.at(u * _MM, v * _MM) for u, v in self.flat.points)


def piece_items(laying: Laying, nails: Sequence[NailSet]) -> tuple[Item, ...]:
    """Everything on the template of a piece, in millimetres of its own drawing."""
    return (
        *_grid(laying),
        *_keep(laying),
        *_joints(laying),
        *_board_edge(laying),
        *_ordinates(laying),
        *_corners(laying),
        *_nails(laying, nails),
        Stroke(path=laying.outline, pen=Pen.TEMPLATE, closed=True, layer="cut"),
        *_words(laying),
    )


def _grid(laying: Laying) -> Iterator[Item]:
    points = np.asarray(laying.outline)
    low, high = points.min(axis=0) - _GRID, points.max(axis=0) + _GRID
    for x in np.arange(_GRID * np.floor(low[0] / _GRID), high[0] + _GRID, _GRID).tolist():
        yield Stroke(path=((x, float(low[1])), (x, float(high[1]))), pen=Pen.HATCH, layer="grid")
    for y in np.arange(_GRID * np.floor(low[1] / _GRID), high[1] + _GRID, _GRID).tolist():
        yield Stroke(path=((float(low[0]), y), (float(high[0]), y)), pen=Pen.HATCH, layer="grid")


def _keep(laying: Laying) -> Iterator[Item]:
    yield Area(path=laying.outline, wash=Wash.KEEP, holes=(inset(laying.outline, _KEEP),), layer="keep")


def inset(outline: Path, by: float) -> Path:
    """A closed outline moved inwards by a distance, with mitred corners."""
    points = np.asarray(outline)
    points = points[np.any(points != np.roll(points, 1, axis=0), axis=1)]
    step = np.roll(points, -1, axis=0) - points
    twice_area = float(
        np.sum(points[:, 0] * np.roll(points[:, 1], -1) - np.roll(points[:, 0], -1) * points[:, 1])
    )
    turn = 1.0 if twice_area > 0 else -1.0
    after = turn * np.column_stack([-step[:, 1], step[:, 0]]) / np.hypot(*step.T)[:, None]
    before = np.roll(after, 1, axis=0)
    moved = points + by * (before + after) / (1.0 + np.sum(before * after, axis=1))[:, None]
    return tuple((float(x), float(y)) for x, y in moved)


def _board_edge(laying: Laying) -> Iterator[Item]:
    """The straight edge of the board, from which the ordinates count, and the line of the stations."""
    flat = laying.flat
    low, high = flat.start * _MM, float(flat.along.max()) * _MM
    yield Stroke(path=(laying.at(low, flat.edge * _MM), laying.at(high, flat.edge * _MM)), pen=Pen.HIDDEN)
    yield Stroke(
        path=(laying.at(low, _middle(flat)), laying.at(high, _middle(flat))), pen=Pen.HIDDEN, ink=Ink.SOFT
    )


def _middle(flat: Flat) -> float:
    """Half way across the board (mm)."""
    return 0.5 * _MM * (flat.edge + float(flat.across.max()))


def _ordinates(laying: Laying) -> Iterator[Item]:
    """Distance of both faces from the edge of the board, every 25 mm along it."""
    flat = laying.flat
    first = max(flat.corners[0][0], flat.corners[1][0]) * _MM
    last = min(flat.corners[2][0], flat.corners[3][0]) * _MM
    start, edge = flat.start * _MM, flat.edge * _MM
    figures: list[Text] = []
    for station in np.arange(start, float(flat.along.max()) * _MM + 1e-6, STATION).tolist():
        yield from _tick(laying, station, _middle(flat))
        figures.append(_figure(laying, station, _middle(flat), f"{station - start:.0f}", ink=Ink.SOFT))
        if not first < station < last:
            continue
        low, high = (place * _MM for place in crossing(flat, station / _MM))
        for place, side in ((low, 1.0), (high, -1.0)):
            yield from _tick(laying, station, place)
            figures.append(_figure(laying, station, place, f"{place - edge:.1f}", side=side, clear=5.4))
    yield from figures


def _corners(laying: Laying) -> Iterator[Item]:
    """Along and across of every corner, so that a piece can be set out without paper."""
    flat = laying.flat
    middle = (float(flat.along.mean()) * _MM, _middle(flat))
    for u, v in flat.corners:
        along, across = u * _MM, v * _MM
        inward = (23.0 if along < middle[0] else -23.0, 14.0 if across < middle[1] else -14.0)
        x, y = laying.at(along + inward[0], across + inward[1])
        text = f"{abs(along - flat.start * _MM):.1f} / {abs(across - flat.edge * _MM):.1f}"
        yield Text(at=(x, y - 1.1), text=text, height=2.2, anchor="middle", strong=True)


def _tick(laying: Laying, along: float, across: float) -> Iterator[Item]:
    path = (laying.at(along, across - 0.5 * _TICK), laying.at(along, across + 0.5 * _TICK))
    yield Stroke(path=path, pen=Pen.LAYER)


def _figure(
    laying: Laying,
    along: float,
    across: float,
    text: str,
    *,
    side: float = 1.0,
    clear: float = 3.4,
    ink: Ink = Ink.INK,
) -> Text:
    """A figure beside a tick, on the piece."""
    x, y = laying.at(along, across + side * clear)
    if not laying.upright:
        return Text(
            at=(x, y - (0.0 if side > 0 else 2.2)),
            text=text,
            height=2.2,
            anchor="middle",
            ink=ink,
            halo=False,
        )
    return Text(
        at=(x, y - 1.1), text=text, height=2.2, anchor="end" if side > 0 else "start", ink=ink, halo=False
    )


def _nails(laying: Laying, nails: Sequence[NailSet]) -> Iterator[Item]:
    for one in nails:
        for u, v in one.spots:
            yield from nail_mark(one.turn, laying.at(u * _MM, v * _MM), _CROSS)


def _joints(laying: Laying) -> Iterator[Item]:
    """Butt joints of the other layers, so that no nail stands in an end."""
    for u, v, slope in laying.flat.joints:
        low, high = crossing(laying.flat, u)
        ends = [(u + np.tan(slope) * (side - v), side) for side in (low, high)]
        path = tuple(laying.at(float(along) * _MM, float(across) * _MM) for along, across in ends)
        yield Stroke(path=path, pen=Pen.NOT_YET, layer="joints")
        x, y = laying.at(u * _MM, 0.5 * (low + v) * _MM)
        yield Text(at=(x, y + 1.2), text="joint of another layer", height=1.9, anchor="middle", ink=Ink.SOFT)


def _words(laying: Laying) -> Iterator[Item]:
    """Which side is soil and which is room, and the way to the crown, again and again along the piece."""
    chord = laying.flat.chord * _MM
    turn = 0.5 * np.pi if laying.upright else 0.0
    for station in np.arange(87.0, max(chord - 30.0, 88.0), 150.0).tolist():
        low, high = (place * _MM for place in crossing(laying.flat, station / _MM))
        quarter = 0.28 * (high - low)
        yield small_words(laying.at(station, high - quarter), "soil side", angle=turn)
        yield small_words(laying.at(station, low + quarter), "room side", angle=turn)
    if laying.upright:
        yield from arrow_to(laying.at(0.5 * chord, _middle(laying.flat) - 24.0), "crown")
