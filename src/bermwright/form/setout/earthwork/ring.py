"""Where boards and the post of the datum stand: outside this dig, every other dig and the mound."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.form.setout.nouns import Spot

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.earthwork.mound import MoundReach
    from bermwright.form.setout.nouns import StringLine

ROUND = 0.05
"""Boards stand at whole steps of this where the tape is metric (m)."""
ASIDE = 0.6
"""How far beyond boards and mound the post of the datum stands (m)."""
KEPT = 0.5
"""Free ground round the post (m)."""
HAIR = 1e-9
MOST_MOVES = 12
"""More digs than that in a row are no house."""

Span = tuple[float, float]
Edges = tuple[tuple[Spot, ...], ...]


def ring_of(
    outline: tuple[Spot, ...], strings: tuple[StringLine, ...], distance: float, step: float = ROUND
) -> tuple[Spot, Spot]:
    """The ring of boards: outside the dig and outside every string, at whole steps."""
    points = np.array(outline)
    along = [string.place for string in strings if not string.along]
    across = [string.place for string in strings if string.along]
    low = np.minimum(points.min(axis=0), [min(along), min(across)]) - distance
    high = np.maximum(points.max(axis=0), [max(along), max(across)]) + distance
    low, high = step * np.floor(low / step + HAIR), step * np.ceil(high / step - HAIR)
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def past_digs(
    low: Spot, high: Spot, spans: dict[str, tuple[Span, ...]], others: Edges, distance: float, step: float
) -> tuple[Spot, Spot]:
    """The ring with each side moved out until its boards keep their distance from the other digs too.

    `spans` are the places that the boards of a side take along it: front, back, left, right.
    """
    places = {"front": (0, -1.0, low[0]), "back": (0, 1.0, high[0])}
    places |= {"left": (1, -1.0, low[1]), "right": (1, 1.0, high[1])}
    found = {
        side: _moved(axis, way, at, spans[side], others, distance, step)
        for side, (axis, way, at) in places.items()
    }
    return (found["front"], found["left"]), (found["back"], found["right"])


def _moved(
    axis: int, way: float, at: float, spans: tuple[Span, ...], others: Edges, distance: float, step: float
) -> float:
    digs = [shapely.Polygon(edge) for edge in others]
    for _ in range(MOST_MOVES):
        near = [
            float(np.max(way * shapely.get_coordinates(shapely.intersection(dig, band))[:, axis]))
            for span in spans
            for dig in digs
            if shapely.distance(_line(axis, at, span), dig) < distance - HAIR
            and not (band := _band(axis, span, distance)).disjoint(dig)
        ]
        if not near:
            break
        at = way * step * float(np.ceil((max(near) + distance) / step - HAIR))
    return at


def _line(axis: int, at: float, span: Span) -> shapely.LineString:
    return shapely.LineString([(at, one) if axis == 0 else (one, at) for one in span])


def _band(axis: int, span: Span, distance: float) -> shapely.Polygon:
    """All ground that a board would cross on its way out, with its distance on both sides."""
    first, last, far = span[0] - distance, span[1] + distance, 1e3
    return shapely.box(-far, first, far, last) if axis == 0 else shapely.box(first, -far, last, far)


def post_place(low: Spot, high: Spot, mound: MoundReach, others: Edges, step: float) -> Spot:
    """The nearest free place for the post of the datum, at the front right where that will do."""
    digs = [shapely.Polygon(edge) for edge in others]
    wanted = (low[0] - ASIDE, high[1] + ASIDE)
    places = sorted(_places(low, high, mound), key=lambda spot: _far(spot, wanted))
    free = (
        spot
        for spot in places
        if not mound.covers(spot, KEPT) and all(shapely.Point(spot).distance(dig) > KEPT for dig in digs)
    )
    along, across = next(free, places[-1])
    return step * round(along / step), step * round(across / step)


def _places(low: Spot, high: Spot, mound: MoundReach) -> Iterator[Spot]:
    along = (low[0], min(low[0], mound.front))
    beyond = (high[0], max(high[0], mound.back))
    right, left = (high[1], max(high[1], mound.right)), (low[1], min(low[1], mound.left))
    for ends, way in ((along, -1.0), (beyond, 1.0)):
        for end in ends:
            yield from ((end + way * ASIDE, side + ASIDE) for side in right)
            yield from ((end + way * ASIDE, side - ASIDE) for side in left)


def _far(spot: Spot, other: Spot) -> float:
    return round(float(np.hypot(spot[0] - other[0], spot[1] - other[1])), 6)
