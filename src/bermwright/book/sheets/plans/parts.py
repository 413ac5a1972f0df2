"""The plan of all parts of a house: each vault and dome where the file places it, north up."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely
from shapely.affinity import affine_transform

from bermwright.base.drawing import Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import Board, Figures, figure, heading, note
from bermwright.book.sheets.plans.measures import north, scale_bar
from bermwright.book.sheets.plans.style import area, strokes
from bermwright.book.sheets.settling import settled
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import parts_of, shadow

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.solids import VaultSolids

SCALES = (50.0, 100.0, 200.0, 500.0, 1000.0)
AROUND = 20.0
"""Paper round the parts (mm)."""
CROSS = 2.0
"""Half the cross at the middle of a part (mm)."""
EARTH = frozenset({Kind.FILL, Kind.TURF})
BELOW = frozenset({*EARTH, Kind.GROUND, Kind.FOOTING})


def are_placed(parts: Sequence[VaultSolids]) -> bool:
    """Whether the file says of all parts, more than one, where they lie and which way they look."""
    known = all(one.axis is not None for one in parts) and all(one.middle is not None for one in parts[1:])
    return len(parts) > 1 and known


def parts_plan(parts: Sequence[VaultSolids], *, width: float, height: float, system: str = "metric") -> Sheet:
    """Outlines of mounds and walls, and how far each middle lies from that of the first part."""
    figures = Figures(system=system)
    outlines = [(_outline(one, EARTH, inside=True), _outline(one, BELOW, inside=False)) for one in parts]
    low, bottom, high, top = shapely.union_all([shape for pair in outlines for shape in pair]).bounds
    scale = next(
        (
            one
            for one in SCALES
            if (high - low) * 1e3 / one + 2 * AROUND <= width
            and (top - bottom) * 1e3 / one + 3 * AROUND <= height
        ),
        SCALES[-1],
    )
    factor = 1000.0 / scale
    size = ((high - low) * factor + 2.0 * AROUND, (top - bottom) * factor + 3.0 * AROUND)
    size = (max(size[0], 150.0), size[1])
    view = View(origin=(AROUND - low * factor, AROUND - bottom * factor), scale=scale)
    board = Board()
    items: list[Item] = []
    for mound, _ in outlines:
        items += _mound(mound, view)
    for _, walls in outlines:
        items += _walls(walls, view)
    for one in parts:
        items += _named(one, parts[0], view, board, figures)
    title = "Plan of the parts"
    items += [
        heading((2.0, size[1] - 5.0), title),
        figure((2.0, size[1] - 10.5), f"1:{scale:.0f}; from middle to middle, north up"),
        *north((size[0] - 12.0, size[1] - 16.0), 0.5 * math.pi, 8.0),
        *scale_bar((2.0, 3.0), scale, figures),
    ]
    names = ", ".join(one.name for one in parts)
    sheet = Sheet(
        width=size[0],
        height=size[1],
        items=tuple(items),
        title=title,
        alt=f"Plan of where the parts of the house lie to each other: {names}.",
        view=view,
    )
    return settled(sheet)


def _outline(one: VaultSolids, kinds: frozenset[Kind], *, inside: bool) -> shapely.Geometry:
    """What bodies of these kinds (or of all others) cover, to the east and north of the first middle (m)."""
    flat = shadow([body for body in one.solids if (body.kind in kinds) is inside])
    turn = one.axis or 0.0
    cosine, sine = math.cos(turn), math.sin(turn)
    east, north_of = one.middle or (0.0, 0.0)
    half = 0.5 * one.length
    return affine_transform(flat, [cosine, sine, -sine, cosine, east - half * sine, north_of - half * cosine])


def _mound(mound: shapely.Geometry, view: View) -> Iterator[Item]:
    for part in parts_of(mound):
        yield area(part, view.point, Wash.EARTH, layer="earth")
        yield from strokes(part.boundary, view.point, Pen.CUT, "earth")


def _walls(walls: shapely.Geometry, view: View) -> Iterator[Item]:
    for part in parts_of(walls):
        yield from strokes(part.boundary, view.point, Pen.SEEN, "shell")


def _named(
    one: VaultSolids, first: VaultSolids, view: View, board: Board, figures: Figures
) -> Iterator[Item]:
    """A cross at its middle, its name, and how far it lies from the middle of the first."""
    middle, zero = one.middle or (0.0, 0.0), first.middle or (0.0, 0.0)
    east, north_of = middle[0] - zero[0], middle[1] - zero[1]
    at = view.point(*middle)
    for u, v in ((CROSS, 0.0), (0.0, CROSS)):
        ends = ((at[0] - u, at[1] - v), (at[0] + u, at[1] + v))
        yield Stroke(path=ends, pen=Pen.SEEN, layer="text")
    yield board.put(heading((at[0] + 3.0, at[1] + up), one.name, 3.2) for up in (1.2, 8.0, -12.0, 14.0))
    if one is not first:
        words = (
            f"{figures.length(abs(east))} {'east' if east >= 0.0 else 'west'}",
            f"{figures.length(abs(north_of))} {'north' if north_of >= 0.0 else 'south'}",
        )
        yield board.put(figure((at[0] + 3.0, at[1] + up), ", ".join(words)) for up in (-3.6, -8.0, 12.0))
        return
    yield board.put(note((at[0] + 3.0, at[1] + up), "measured from here") for up in (-3.6, -8.0, 12.0))
