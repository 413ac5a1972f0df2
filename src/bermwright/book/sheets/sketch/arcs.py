"""A chain of arcs with its centres: what a compass needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Arc, Dimension, Item, Pen, Sheet, Stroke, Text, View
from bermwright.book.sheets.paper import Board, Figures, figure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.handbook.curves import Arc as CurveArc
    from bermwright.handbook.fitting import ArcFit

SIDE, FOOT, HEAD = 14.0, 12.0, 9.0
"""Paper round the arcs (mm)."""
SCALES = (20.0, 50.0, 100.0, 200.0)
"""Reductions of ISO 5455."""
FARTHEST = 0.85
"""Centres farther off than this many spans are pointed at, not drawn."""
FOOT_LINE = 5.0
"""Height of the dimension of the span on the sheet (mm)."""
LEVEL_SIDE = 0.4
"""Share of its radius by which the middle of an arc lies aside, from which its figure stands beside it."""
MARK = 1.0
"""Half the size of a centre's cross (mm)."""


def arc_sheet(chain: ArcFit, *, width: float = 84.0, system: str = "metric") -> Sheet:
    """The chain with its joints, centres and radii, centres below the springing among them."""
    first, last = chain.arcs[0], chain.arcs[-1]
    left, right = first.point(first.start), last.point(last.end)
    span = float(right[0] - left[0])
    ends = [
        arc.point(turn) for arc in chain.arcs for turn in (arc.start, 0.5 * (arc.start + arc.end), arc.end)
    ]
    tops = [float(end[1]) for end in ends]
    centres = [(arc.x, arc.z) for arc in chain.arcs if _near(arc.x, arc.z, span)]
    low = min([0.0, *(z for _, z in centres)])
    wide = max(abs(float(x)) for x, _ in [*ends, *centres])
    scale = next((one for one in SCALES if 2000.0 * wide / one + 2.0 * SIDE <= width), SCALES[-1])
    factor = 1000.0 / scale
    height = (max(tops) - low) * factor + FOOT + HEAD
    view = View(origin=(0.5 * width, FOOT - low * factor), scale=scale)
    items = tuple(_items(chain, view, span, Figures(system=system, metres=True)))
    return Sheet(
        width=width,
        height=height,
        items=items,
        title=f"{len(chain.arcs)} arc{'s' if len(chain.arcs) > 1 else ''}",
        alt=f"radii {', '.join(f'{arc.radius:.2f} m' for arc in chain.arcs)}",
        view=view,
    )


def _near(x: float, z: float, span: float) -> bool:
    return float(np.hypot(x, z)) <= FARTHEST * span


def _items(chain: ArcFit, view: View, span: float, figures: Figures) -> Iterator[Item]:
    board = Board()
    for arc in chain.arcs:
        centre = view.point(arc.x, arc.z)
        yield Arc(centre=centre, radius=view.length(arc.radius), start=arc.end, end=arc.start, pen=Pen.SEEN)
        for turn in (arc.start, arc.end):
            end = arc.point(turn)
            yield from _spoke(view, (arc.x, arc.z), (float(end[0]), float(end[1])), span)
        if _near(arc.x, arc.z, span):
            yield Stroke(path=((centre[0] - MARK, centre[1]), (centre[0] + MARK, centre[1])), pen=Pen.TICK)
            yield Stroke(path=((centre[0], centre[1] - MARK), (centre[0], centre[1] + MARK)), pen=Pen.TICK)
        yield board.put(_radius_places(arc, view, figures))
    first, last = chain.arcs[0], chain.arcs[-1]
    left, right = (
        view.point(*map(float, arc.point(turn))) for arc, turn in ((first, first.start), (last, last.end))
    )
    yield Dimension(start=left, end=right, offset=FOOT_LINE - left[1], text=figures.length(span))
    yield figure((left[0] - 13.0, FOOT_LINE), f"1:{view.scale:.0f}")


def _spoke(view: View, centre: tuple[float, float], end: tuple[float, float], span: float) -> Iterator[Item]:
    """From a joint to its centre; only its beginning where the centre is far off."""
    share = 1.0
    if not _near(*centre, span):
        share = 0.35 * span / float(np.hypot(centre[0] - end[0], centre[1] - end[1]))
    inner = end[0] + share * (centre[0] - end[0]), end[1] + share * (centre[1] - end[1])
    yield Stroke(path=(view.point(*end), view.point(*inner)), pen=Pen.DIMENSION)


def _radius_places(arc: CurveArc, view: View, figures: Figures) -> Iterator[Text]:
    """Places for a radius, outside the middle of its arc."""
    middle = 0.5 * (arc.start + arc.end)
    for outward in (3.0, 5.5, 8.0):
        reach = arc.radius + outward * view.scale / 1000.0
        at = view.point(arc.x + reach * float(np.cos(middle)), arc.z + reach * float(np.sin(middle)))
        side = "middle" if abs(np.cos(middle)) < LEVEL_SIDE else "start" if np.cos(middle) > 0.0 else "end"
        yield figure((at[0], at[1] - 1.2), f"R {figures.length(arc.radius)}", side)
