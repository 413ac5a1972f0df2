"""The nails at a butt joint, as the rules have checked them."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Clip, Dimension, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.form.rib.flat import NAILED_FROM, crossing, lay_flat
from bermwright.form.rib.nails import nail_spots, stops_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.rib.flat import Flat
    from bermwright.form.rib.nails import Nailing
    from bermwright.form.shapes import VaultForm

SCALE = 2.5
"""The window is about as wide as a sheet of paper is long."""
HEAD, FOOT, SIDE = 16.0, 16.0, 4.0
CROSS = 1.6
SAME = 1e-4
"""Nails of one row keep to their edge within this (m)."""
MARK = "calculation aid, not reviewed"


def nail_sheet(
    form: VaultForm, nailing: Nailing, *, width: float = 174.0, system: str = "metric"
) -> Sheet | None:
    """Both sides of the joint that is nearest to the crown; None where no piece lies over a joint."""
    if form.rib.bent or form.rib.joints.size < 2 or form.rib.layers == 1:
        return None
    figures, crossed = Figures(system=system), _crossed(form)
    # One joint alone: where several lie near each other, the template has the nails of all of them.
    flat = replace(crossed, joints=crossed.joints[len(crossed.joints) // 2 :][:1], butts=(False, False))
    joint = flat.joints[0][0]
    half = 0.5 * (width - 2 * SIDE) * SCALE / 1000.0
    low, high = flat.edge, float(flat.across.max())
    factor = 1000.0 / SCALE
    view = View(origin=(0.5 * width - joint * factor, FOOT - low * factor), scale=SCALE)
    height = (high - low) * factor + FOOT + HEAD
    seen = [spot for spot in nail_spots(flat, nailing) if abs(spot[0] - joint) <= half]
    parts = (
        Area(path=tuple(view.point(u, v) for u, v in flat.points), wash=Wash.TIMBER, outline=Pen.SEEN),
        *_joints(flat, view),
        *(item for spot in seen for item in _nail(view.point(*spot))),
    )
    corner = (SIDE, FOOT - 1.0)
    items: list[Item] = [
        Clip(low=corner, high=(width - SIDE, height - HEAD + 1.0), items=parts),
        *_distances(flat, seen, joint, view, figures),
        heading((0.0, height - 5.0), f"Nails at a joint, ribs of {form.name}"),
        figure((0.0, height - 10.5), _words(nailing, figures)),
        note((width, 1.5), MARK, "end"),
    ]
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Nails at a joint",
        alt=f"{nailing.count} nails on each side of a butt joint in {nailing.rows} rows.",
        view=view,
    )


def _words(nailing: Nailing, figures: Figures) -> str:
    size = f"{nailing.diameter * 1000.0:.1f} × {nailing.length * 1000.0:.0f}"
    if figures.system != "metric":
        size = f"{figures.length(nailing.diameter)} × {figures.length(nailing.length)}"
    return (
        f"1:{SCALE:g}; {nailing.count} nails {size} in {nailing.rows} rows on each side of the butt "
        "(chain line)"
    )


def _crossed(form: VaultForm) -> Flat:
    """The piece of the first nailed layer that lies over the joint nearest to the crown."""
    rib = form.rib
    top = float(rib.centreline.s[int(np.argmax(rib.centreline.z))])
    flats = [lay_flat(rib, piece) for piece in rib.pieces]
    crossed = [flat for flat in flats if flat.joints]
    return min(
        crossed or flats,
        key=lambda flat: (
            flat.piece.layer != NAILED_FROM,
            abs(0.5 * (flat.piece.start + flat.piece.end) - top),
        ),
    )


def _joints(flat: Flat, view: View) -> Iterator[Item]:
    for u, v, slope in flat.joints:
        low, high = crossing(flat, u)
        path = tuple(view.point(float(u + np.tan(slope) * (side - v)), side) for side in (low, high))
        yield Stroke(path=path, pen=Pen.NOT_YET, layer="joints")


def _nail(at: tuple[float, float]) -> Iterator[Item]:
    x, y = at
    yield Stroke(path=((x - CROSS, y), (x + CROSS, y)), pen=Pen.SEEN, layer="nails")
    yield Stroke(path=((x, y - CROSS), (x, y + CROSS)), pen=Pen.SEEN, layer="nails")


def _distances(
    flat: Flat, seen: list[tuple[float, float]], joint: float, view: View, figures: Figures
) -> Iterator[Item]:
    """How far the first nails stand from the butt, from each other and from the edge."""
    (cut,) = stops_of(flat)[1:-1]
    rows = [spot for spot in seen if spot[0] > joint]
    low = min((v - crossing(flat, u)[0] for u, v in rows), default=0.0)
    # One row, along the lower edge: where the cut slants, columns lean with it.
    row = sorted(spot for spot in rows if abs(spot[1] - crossing(flat, spot[0])[0] - low) < SAME)
    if not row:
        return
    foot = FOOT - 5.0
    places = [cut.along(row[0][1]), *(u for u, _ in row[:2])]
    for first, second in pairwise(places):
        start, end = view.point(first, flat.edge)[0], view.point(second, flat.edge)[0]
        yield Dimension(
            start=(start, foot), end=(end, foot), offset=-1.0, text=figures.length(second - first)
        )
    u, v = row[0]
    edge = crossing(flat, u)[0]
    x = view.point(u, 0.0)[0] + 4.0
    yield Dimension(
        start=(x, view.point(0.0, edge)[1]),
        end=(x, view.point(0.0, v)[1]),
        offset=-8.0,
        text=figures.length(v - edge),
    )
