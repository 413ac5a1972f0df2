"""The nails about a butt joint, those of every layer as the rules have checked them."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Clip, Dimension, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.book.templates.marks import nail_mark, nail_words
from bermwright.form.rib.flat import NAILED_FROM, crossing, lay_flat
from bermwright.form.rib.nails import NailSet, nail_spots, stops_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.rib.flat import Flat
    from bermwright.form.rib.nails import Nailing
    from bermwright.form.shapes import VaultForm

SCALE = 2.5
"""The window is about as wide as a sheet of paper is long."""
HEAD, FOOT, SIDE = 20.0, 18.0, 4.0
CROSS = 1.6
SAME = 1e-4
"""A joint is found again, and nails of one row keep to their share of the depth, within this (m, -)."""
TWO = 2


def nail_sheet(
    form: VaultForm, nailing: Nailing, *, width: float = 174.0, system: str = "metric"
) -> Sheet | None:
    """The nails about the joint that is nearest to the crown; None where no piece lies over a joint."""
    if form.rib.bent or form.rib.joints.size < 2 or form.rib.layers == 1:
        return None
    figures, flat = Figures(system=system), _crossed(form)
    joint = flat.joints[len(flat.joints) // 2][0]
    half = 0.5 * (width - 2 * SIDE) * SCALE / 1000.0
    low, high = flat.edge, float(flat.across.max())
    factor = 1000.0 / SCALE
    view = View(origin=(0.5 * width - joint * factor, FOOT - low * factor), scale=SCALE)
    height = (high - low) * factor + FOOT + HEAD
    seen = [
        replace(one, spots=tuple(spot for spot in one.spots if abs(spot[0] - joint) <= half))
        for one in _sets(form, flat, nailing)
    ]
    parts = (
        Area(path=tuple(view.point(u, v) for u, v in flat.points), wash=Wash.TIMBER, outline=Pen.SEEN),
        *_joints(flat, view),
        *(
            item
            for one in seen
            for spot in one.spots
            for item in nail_mark(one.turn, view.point(*spot), CROSS)
        ),
    )
    corner = (SIDE, FOOT - 1.0)
    items: list[Item] = [
        Clip(low=corner, high=(width - SIDE, height - HEAD + 1.0), items=parts),
        *_distances(flat, nailing, seen[0].spots, joint, view, figures),
        heading((0.0, height - 5.0), f"Nails about a joint, ribs of {form.name}"),
        figure((0.0, height - 10.5), _words(nailing, figures)),
        figure((0.0, height - 14.5), _marks(seen)),
        *(note((0.0, 5.0 - 3.5 * line), words) for line, words in enumerate(_between_layers(seen, figures))),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Nails about a joint",
        alt=f"{nailing.count} nails or more between two butt joints; {_marks(seen)}.",
        view=view,
    )


def _sets(form: VaultForm, flat: Flat, nailing: Nailing) -> list[NailSet]:
    """The nails of the piece's own layer first, then those of the layers whose nails stand in one board."""
    layers = range(NAILED_FROM, form.rib.layers + 1)
    return [
        NailSet(
            turn=turn,
            layers=tuple(layer for layer in layers if nailing.turn_of(layer) == turn),
            spots=nail_spots(flat, nailing, NAILED_FROM + turn),
        )
        for turn in range(nailing.turns)
    ]


def _words(nailing: Nailing, figures: Figures) -> str:
    size = f"{nailing.diameter * 1000.0:.1f} × {nailing.length * 1000.0:.0f}"
    if figures.system != "metric":
        size = f"{figures.length(nailing.diameter)} × {figures.length(nailing.length)}"
    return f"1:{SCALE:g}; nails {size}; chain lines: butt joints of the other layers"


def _marks(sets: Sequence[NailSet]) -> str:
    """Which mark belongs to which layer."""
    return "; ".join(
        f"{nail_words(one.turn)}: layer{'s' if len(one.layers) > 1 else ''} {', '.join(map(str, one.layers))}"
        for one in sets
    )


def _between_layers(sets: Sequence[NailSet], figures: Figures) -> Iterator[str]:
    """How near nails of two layers come to each other here, and what gives them more room."""
    if len(sets) == 1:
        return
    places = [np.array(one.spots).reshape(-1, 2) for one in sets]
    least = min(
        float(np.min(np.hypot(*(one[:, None] - other[None]).transpose(2, 0, 1)), initial=np.inf))
        for one, other in combinations(places, 2)
    )
    yield f"every layer has lines of its own, {figures.length(least)} or more from those of the others; drill"
    if len(sets) > TWO:
        yield "nails no longer than two boards leave more room"


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


def _distances(
    flat: Flat,
    nailing: Nailing,
    seen: Sequence[tuple[float, float]],
    joint: float,
    view: View,
    figures: Figures,
) -> Iterator[Item]:
    """How far the first nails stand from the butt, from each other and from the edge."""
    cut, following = next(pair for pair in pairwise(stops_of(flat)[1:]) if abs(pair[0].at - joint) < SAME)

    def share(spot: tuple[float, float]) -> float:
        low, high = crossing(flat, spot[0])
        return (spot[1] - low - nailing.edge) / (high - low - 2.0 * nailing.edge)

    behind = [spot for spot in seen if cut.along(spot[1]) < spot[0] < following.along(spot[1])]
    least = min(map(share, behind), default=0.0)
    # One row, along the lower edge: where the cut slants, columns lean with it.
    row = sorted(spot for spot in behind if share(spot) < least + SAME)
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
