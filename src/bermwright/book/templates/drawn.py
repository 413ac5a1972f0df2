"""A rib piece drawn at full size: the line to cut, the side to keep, ordinates, nails and joints."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Ink, Item, Pen, Stroke, Text, Wash
from bermwright.book.templates.lengths import METRIC
from bermwright.book.templates.marks import arrow_to, nail_mark, small_words
from bermwright.book.templates.tiles import box_of
from bermwright.form.rib.flat import crossing

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.base.drawing import Path, Point
    from bermwright.book.templates.lengths import Lengths
    from bermwright.form.rib.flat import Flat
    from bermwright.form.rib.nails import NailSet

    Box = tuple[float, float, float, float]

_MM = 1000.0
_KEEP = 4.0
_TICK = 4.0
_CROSS = 2.2
_INWARD = tuple((along, across) for across in (14.0, 20.0, 26.0, 32.0) for along in (23.0, 12.0, 36.0, 48.0))
"""Places of a corner's figures, along and across from the corner into the piece (mm)."""


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


def piece_items(laying: Laying, nails: Sequence[NailSet], lengths: Lengths = METRIC) -> tuple[Item, ...]:
    """Everything on the template of a piece, in millimetres of its own drawing."""
    ordinates = tuple(_ordinates(laying, lengths))
    figures = [one for one in ordinates if isinstance(one, Text)]
    return (
        *_grid(laying, lengths.grid),
        *_keep(laying),
        *_joints(laying),
        *_board_edge(laying),
        *ordinates,
        *_corners(laying, lengths, figures),
        *_nails(laying, nails),
        Stroke(path=laying.outline, pen=Pen.TEMPLATE, closed=True, layer="cut"),
        *_words(laying),
    )


def _grid(laying: Laying, grid: float) -> Iterator[Item]:
    points = np.asarray(laying.outline)
    low, high = points.min(axis=0) - grid, points.max(axis=0) + grid
    for x in np.arange(grid * np.floor(low[0] / grid), high[0] + grid, grid).tolist():
        yield Stroke(path=((x, float(low[1])), (x, float(high[1]))), pen=Pen.HATCH, layer="grid")
    for y in np.arange(grid * np.floor(low[1] / grid), high[1] + grid, grid).tolist():
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


def _ordinates(laying: Laying, lengths: Lengths) -> Iterator[Item]:
    """Distance of both faces from the edge of the board, every 25 mm or every inch along it."""
    flat = laying.flat
    first = max(flat.corners[0][0], flat.corners[1][0]) * _MM
    last = min(flat.corners[2][0], flat.corners[3][0]) * _MM
    start, edge = flat.start * _MM, flat.edge * _MM
    figures: list[Text] = []
    for station in np.arange(start, float(flat.along.max()) * _MM + 1e-6, lengths.station).tolist():
        yield from _tick(laying, station, _middle(flat))
        words = lengths.bare(station - start, 0)
        figures.append(_figure(laying, station, _middle(flat), words, ink=Ink.SOFT))
        if not first < station < last:
            continue
        low, high = (place * _MM for place in crossing(flat, station / _MM))
        for place, side in ((low, 1.0), (high, -1.0)):
            yield from _tick(laying, station, place)
            figures.append(_figure(laying, station, place, lengths.bare(place - edge), side=side, clear=5.4))
    yield from figures


def _corners(laying: Laying, lengths: Lengths, figures: Sequence[Text]) -> Iterator[Item]:
    """Along and across of every corner, so that a piece can be set out without paper; clear of ordinates."""
    flat, taken = laying.flat, [box_of(one) for one in figures]
    middle = (float(flat.along.mean()) * _MM, _middle(flat))
    for u, v in flat.corners:
        along, across = u * _MM, v * _MM
        ahead, in_ = (1.0 if along < middle[0] else -1.0, 1.0 if across < middle[1] else -1.0)
        text = (
            f"{lengths.bare(abs(along - flat.start * _MM))} / {lengths.bare(abs(across - flat.edge * _MM))}"
        )
        spots = (laying.at(along + ahead * u, across + in_ * v) for u, v in _INWARD)
        places = [
            Text(at=(x, y - 1.1), text=text, height=2.2, anchor="middle", strong=True) for x, y in spots
        ]
        chosen = next((one for one in places if _free(box_of(one), taken)), places[0])
        taken.append(box_of(chosen))
        yield chosen


def _free(box: Box, taken: Sequence[Box]) -> bool:
    """Whether a rectangle meets none of others."""
    left, low, right, high = box
    return not any(left < b[2] and b[0] < right and low < b[3] and b[1] < high for b in taken)


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
