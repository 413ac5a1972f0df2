"""A curve as arcs: centres, radii and joints, to be drawn by compass on a floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Item, Pen, Sheet, Stroke, Text, View
from bermwright.book.sheets.paper import Board, Figures, curve_path, figure
from bermwright.book.sheets.setout.marks import spread

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

WIDTH = 174.0
SCALES = (20.0, 25.0, 50.0, 100.0, 200.0, 500.0)
TALL = 110.0
CROSS = 1.6
APART, DROP = 9.0, 10.0
"""Names of the centres: how far apart, and how far under the lowest (mm)."""


def curve_sheet(out: SetOut, *, system: str = "metric") -> Sheet:
    """The three curves of the rib with the centres that draw them."""
    rib, springing = out.form.rib, out.form.springing
    low = min([0.0, *(arc.z for arc in out.curve.arcs)])
    tall = float(rib.outside.z.max()) - springing - low
    sides = [-float(rib.outside.x.min()), float(rib.outside.x.max()), *(abs(arc.x) for arc in out.curve.arcs)]
    wide = 2.0 * max(sides)
    fits = (one for one in SCALES if 1000.0 * tall / one <= TALL and 1000.0 * wide / one <= WIDTH - 20.0)
    scale = next(fits, SCALES[-1])
    view = View(origin=(0.5 * WIDTH, 14.0 - 1000.0 * (low + springing) / scale), scale=scale)
    items = tuple(_items(out, view, Figures(system=system)))
    height = 1000.0 * tall / scale + 28.0
    words = f"Curve of {out.vault} by {len(out.curve.arcs)} arcs, 1:{scale:.0f}"
    return Sheet(width=WIDTH, height=height, items=items, title="Arcs", alt=words, view=view)


def _items(out: SetOut, view: View, figures: Figures) -> Iterator[Item]:
    rib, springing, board = out.form.rib, out.form.springing, Board()
    for line, pen in ((rib.inside, Pen.CUT), (rib.centreline, Pen.NOT_YET), (rib.outside, Pen.SEEN)):
        yield Stroke(path=curve_path(view, line), pen=pen)
    half = 0.5 * out.form.span
    left, right = view.point(-half - 0.4, springing), view.point(half + 0.4, springing)
    yield Stroke(path=(left, right), pen=Pen.HIDDEN)
    yield board.take(figure((right[0] + 1.0, right[1] - 1.2), "springing"))
    top = view.point(0.0, float(rib.outside.z.max()) + 0.1)
    yield Stroke(path=(view.point(0.0, springing - 0.1), top), pen=Pen.NOT_YET)
    for arc in out.curve.arcs:
        centre = view.point(arc.x, arc.z + springing)
        ends = [view.point(x, z + springing) for x, z in (arc.start, arc.end)]
        yield Stroke(path=(ends[0], centre, ends[1]), pen=Pen.DIMENSION)
        yield Stroke(path=((centre[0] - CROSS, centre[1]), (centre[0] + CROSS, centre[1])), pen=Pen.SEEN)
        yield Stroke(path=((centre[0], centre[1] - CROSS), (centre[0], centre[1] + CROSS)), pen=Pen.SEEN)
        yield Arc(centre=centre, radius=0.9, start=0.0, end=6.283185307, pen=Pen.SEEN)
        middle = 0.5 * (ends[0][0] + ends[1][0]), max(ends[0][1], ends[1][1])
        said = f"R {figures.length(arc.inside)}"
        yield board.put(figure((middle[0], middle[1] + up), said, "middle") for up in (3.0, 7.0, 11.0, -9.0))
    yield from _names(out, view)


def _names(out: SetOut, view: View) -> Iterator[Item]:
    """The names of the centres in a row under them, each with a line to its own."""
    centres = [view.point(arc.x, arc.z + out.form.springing) for arc in out.curve.arcs]
    order = sorted(range(len(centres)), key=lambda at: centres[at][0])
    places = spread([centres[at][0] for at in order], APART)
    foot = min(y for _, y in centres) - DROP
    for at, place in zip(order, places, strict=True):
        yield Stroke(path=(centres[at], (place, foot + 3.4)), pen=Pen.DIMENSION)
        yield Text(at=(place, foot), text=f"C{at + 1}", height=2.5, anchor="middle", strong=True)
