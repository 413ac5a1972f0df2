"""The floor plan of a vault: cut one metre over the floor, the front on the left, left as one walks in up."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.drawing import Area, Dimension, Item, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.book.sheets.paper import CAPTION, Board, Figures, figure, heading, note
from bermwright.book.sheets.plans.measures import chain, north, section_mark, without_crowding
from bermwright.book.sheets.plans.style import cut_items, hatches_of
from bermwright.book.sheets.settling import settled
from bermwright.book.sheets.signs import level_triangle
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import cut

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House, Opening, Vault

LEVEL = 1.0
"""Where the plan is cut, over the floor (m): common practice, no source."""
HAIR = 2e-3
"""The cut lies so far over that level, so that it never runs along a sill (m)."""
SCALES = (20.0, 50.0, 100.0, 200.0)
OUTSIDE = 19.0
"""Earth shown round the building (mm of paper)."""
SMALL = 50.0
"""Scales beyond this have no room for the size of an opening beside its name."""
SIDE, FOOT, HEAD = 24.0, 26.0, 12.0
"""Paper beside, under and over the plan (mm)."""
NORTH_CLEAR = 118.0
"""North stands so far past mid-length that the levels beside the house end before it (mm)."""
NEAR = 11.0
"""Numbers of ribs need so much paper (mm)."""


def floor_plan(
    house: House,
    vault: Vault,
    form: VaultForm,
    solids: VaultSolids,
    *,
    width: float = 380.0,
    height: float | None = None,
    system: str = "metric",
) -> Sheet:
    """The plan with its chains of dimensions, levels, section marks and north."""
    figures = Figures(system=system)
    scale = _scale(form, solids, width, height)
    window = _window(form, solids, scale)
    factor = 1000.0 / scale
    low, bottom, high, top = window.bounds
    view = View(
        origin=(SIDE - low * factor, FOOT - bottom * factor), scale=scale, seen=((low, bottom), (high, top))
    )
    size = ((high - low) * factor + 2.0 * SIDE, (top - bottom) * factor + FOOT + HEAD)
    # Words over a short vault are longer than it: north keeps clear of them.
    size = (max(size[0], view.point(0.5 * form.length, 0.0)[0] + NORTH_CLEAR), size[1])
    board = Board()
    items: list[Item] = [*_cut(house, form, solids, window, view)]
    items += _overhead(form, _left_face(form, solids), view, board)
    items += _hidden(solids, view)
    holes = [item for one in _mine(house, vault) for item in _opening(one, form, view, board, figures)]
    # Names over everything: the paper of one opening must not cover the name of another.
    items += sorted(holes, key=lambda item: isinstance(item, Text))
    items += _rooms(house, vault, form, view, board, figures)
    items += _chains(house, vault, form, solids, view, figures)
    items += _marks(form, view, window)
    items += _ground(form, view, window, board, figures)
    title = f"Floor plan of {form.name}"
    items += [heading((2.0, size[1] - 5.0), title), figure((2.0, size[1] - 10.5), _words(scale, figures))]
    items += _north(vault.axis, (size[0] - 13.0, size[1] - 15.0))
    sheet = Sheet(
        width=size[0],
        height=size[1],
        items=tuple(items),
        title=title,
        alt=f"Floor plan of {form.name}, cut {LEVEL:g} m over the floor: {_alt(house, vault)}.",
        view=view,
    )
    return settled(sheet)


def _words(scale: float, figures: Figures) -> str:
    return f"1:{scale:.0f}, cut {figures.length(LEVEL)} over the floor; the front on the left"


def _alt(house: House, vault: Vault) -> str:
    return ", ".join(one.name for one in _mine(house, vault)) or "no opening"


def _mine(house: House, vault: Vault) -> list[Opening]:
    return [one for one in house.openings if one.vault == vault.name]


def _window(form: VaultForm, solids: VaultSolids, scale: float) -> shapely.Polygon:
    """What is shown, on the paper's axes (along, left) (m)."""
    round_it = OUTSIDE * scale / 1000.0
    built = [one for one in solids.solids if one.kind not in {Kind.GROUND, Kind.FILL, Kind.TURF}]
    low = min(float(one.low[0]) for one in built) - round_it
    high = max(float(one.high[0]) for one in built) + round_it
    return shapely.box(-round_it, -high, form.length + round_it, -low)


def _scale(form: VaultForm, solids: VaultSolids, width: float, height: float | None) -> float:
    for scale in SCALES:
        low, bottom, high, top = _window(form, solids, scale).bounds
        wide = (high - low) * 1000.0 / scale + 2.0 * SIDE
        tall = (top - bottom) * 1000.0 / scale + FOOT + HEAD
        if wide <= width and (height is None or tall <= height):
            return scale
    return SCALES[-1]


def _cut(
    house: House, form: VaultForm, solids: VaultSolids, window: shapely.Polygon, view: View
) -> Iterator[Item]:
    low, bottom, high, top = window.bounds
    turned = shapely.box(-top, low, -bottom, high)
    faces = cut(solids.solids, "z", LEVEL + HAIR)
    yield from cut_items(
        faces, lambda x, y: view.point(y, -x), turned, hatches_of(house, form.name, solids.solids)
    )


def _overhead(form: VaultForm, room: float, view: View, board: Board) -> Iterator[Item]:
    """The middle lines of the ribs overhead, dashed; as many numbered as there is room for.

    `room` is the face of the left wall, on the paper's axis (m).
    """
    inside = form.rib.inside
    left, right = -float(inside.x[0]), -float(inside.x[-1])
    last = -1e9
    for number in range(1, form.ribs + 1):
        at = min((number - 1) * form.spacing, form.length)
        ends = view.point(at, left), view.point(at, right)
        yield Stroke(path=ends, pen=Pen.HIDDEN, layer="rib")
        far = view.point(form.length, 0.0)[0] - ends[0][0] >= NEAR
        if (ends[0][0] - last >= NEAR and far) or number in {1, form.ribs}:
            last = ends[0][0]
            end = number == form.ribs
            spot = (ends[0][0] + (-0.8 if end else 0.8), view.point(at, room)[1] - 3.0)
            text = Text(
                at=spot, text=f"R{number}", height=CAPTION, anchor="end" if end else "start", layer="rib"
            )
            if board.free(text):
                yield board.take(text)


def _left_face(form: VaultForm, solids: VaultSolids) -> float:
    """The face of the left wall towards the room, left of the axis (m)."""
    walls = solids.layer(Kind.WALL)
    faces = [-float(one.high[0]) for one in (walls.solids if walls else ()) if one.high[0] < 0.0]
    return min([-float(form.rib.inside.x[0]), *faces])


def _hidden(solids: VaultSolids, view: View) -> Iterator[Item]:
    """Footings under the floor, dashed."""
    layer = solids.layer(Kind.FOOTING)
    for one in () if layer is None else layer.solids:
        low, high = one.low, one.high
        corners = ((low[1], -high[0]), (high[1], -high[0]), (high[1], -low[0]), (low[1], -low[0]))
        path = tuple(view.point(float(u), float(v)) for u, v in corners)
        yield Stroke(path=path, pen=Pen.HIDDEN, closed=True, layer="support")


def _opening(one: Opening, form: VaultForm, view: View, board: Board, figures: Figures) -> Iterator[Item]:
    """The name and size of an opening; one over the head of the plan dashed."""
    size = f"{figures.length(one.width)} × {figures.length(one.height)}"
    if one.side.in_end:
        front = str(one.side) == "front"
        at = view.point(0.0 if front else form.length, -one.across)
        way = 1.0 if front else -1.0
        anchor = "start" if front else "end"
        room = 3.0 + view.length(0.1)
        x = at[0] + way * room
        name = one.name if _is_cut(one) else f"{one.name}, not in this plane"
        yield board.put(note((x, at[1] + up), name, anchor) for up in (0.8, 4.4, -4.4, 8.0, -8.0, 12.0))
        if view.scale <= SMALL:
            yield board.take(figure((x, at[1] - 3.2), size, anchor))
        return
    if one.along is None:
        return
    if str(one.side) == "crown":
        low, high = (
            view.point(one.along - 0.5 * one.width, -0.5 * one.height),
            view.point(one.along + 0.5 * one.width, 0.5 * one.height),
        )
        box = (low, (high[0], low[1]), high, (low[0], high[1]))
        yield Area(path=box, wash=Wash.PAPER, layer="openings")
        yield Stroke(path=box, pen=Pen.HIDDEN, closed=True, layer="openings")
        yield Stroke(path=(box[0], box[2]), pen=Pen.LAYER, layer="openings")
        yield Stroke(path=(box[1], box[3]), pen=Pen.LAYER, layer="openings")
        at = (high[0] + 1.2, high[1] - 2.4)
    else:
        half = 0.5 * form.span * (1.0 if str(one.side) == "left" else -1.0)
        at = view.point(one.along, 0.8 * half)
    words = f"{one.name}, over" if str(one.side) == "crown" else one.name
    yield board.put(note((at[0], at[1] + up), words) for up in (0.0, 4.0, -5.0, 8.0))
    if view.scale <= SMALL:
        yield board.take(figure((at[0], at[1] - 4.0), size))


def _rooms(
    house: House, vault: Vault, form: VaultForm, view: View, board: Board, figures: Figures
) -> Iterator[Item]:
    """Beds, the room's name, its floor level."""
    for room in house.bedrooms:
        if room.vault != vault.name:
            continue
        half = float(form.rib.inside.x[-1]) - 0.05
        start = view.point(room.begins, -half), view.point(room.begins, half)
        yield Stroke(path=start, pen=Pen.SEEN if room.closed else Pen.NOT_YET, layer="drawing")
        at = view.point(min(room.ends, form.length), -0.35 * form.span)
        at = (at[0] - 3.0, at[1])
        words = f"{room.name}, {room.people} sleep here"
        yield board.put(note((at[0], at[1] + up), words, "end") for up in (0.0, -4.0, 4.0, -8.0))
    level = view.point(0.5 * form.length + 0.1 * form.span, -0.2 * form.span)
    yield level_triangle(level)
    words = f"{figures.level(0.0)} finished floor" if view.scale <= SMALL else figures.level(0.0)
    yield board.take(figure((level[0] + 2.1, level[1] + 0.4), words))
    middle = view.point(0.5 * form.length, 0.0)
    yield board.put(
        heading((middle[0], middle[1] + up), form.name, 3.2, "middle")
        for up in (4.0, 12.0, -9.0, 8.0, 16.0, -13.0, 20.0)
    )


def _chains(
    house: House, vault: Vault, form: VaultForm, solids: VaultSolids, view: View, figures: Figures
) -> Iterator[Item]:
    """Under the plan: end walls and room, ribs, all. Beside it: walls, and what stands in the ends."""
    (_, bottom), _ = view.seen
    walls = solids.layer(Kind.END)
    inner = [0.0, form.length]
    for one in () if walls is None else walls.solids:
        front = float(one.low[1]) < 0.5 * form.length
        inner[0 if front else 1] = float(one.high[1] if front else one.low[1])
    y = view.point(0.0, bottom)[1]
    clear = [(view.point(at, 0.0)[0], y) for at in inner]
    yield Dimension(
        start=clear[0], end=clear[1], offset=-5.0, text=f"{figures.length(inner[1] - inner[0])} clear"
    )
    ends = [(view.point(at, 0.0)[0], y) for at in (0.0, form.length)]
    yield Dimension(start=ends[0], end=ends[1], offset=-12.0, text=_rib_words(form, figures))
    yield Dimension(start=ends[0], end=ends[1], offset=-19.0, text=figures.length(form.length))
    yield from _across(form, solids, view, figures)
    for side, base, sign in (("front", 0.0, -1.0), ("back", form.length, 1.0)):
        holes = [one for one in _mine(house, vault) if str(one.side) == side and _is_cut(one)]
        if not holes:
            continue
        low, high = (float(edge) for edge in (form.rib.inside.x[0], form.rib.inside.x[-1]))
        edges = [e for one in holes for e in (one.across - 0.5 * one.width, one.across + 0.5 * one.width)]
        cuts = without_crowding([low, *edges, high], view.scale, 3.0)
        x = view.point(base, 0.0)[0] + sign * (OUTSIDE - 5.0)
        offset = 4.0 * sign
        spots = [(x, view.point(0.0, -at)[1]) for at in cuts]
        yield from chain(cuts, spots, figures, offset=-offset * sign)


def _is_cut(one: Opening) -> bool:
    """Whether the plane of the plan runs through an opening of an end wall."""
    return one.sill is not None and one.sill <= LEVEL + HAIR < one.sill + one.height


def _rib_words(form: VaultForm, figures: Figures) -> str:
    """Spaces between the ribs, such as "18 × 400, last 300"."""
    last = form.length - (form.ribs - 2) * form.spacing
    even = abs(last - form.spacing) < 1e-6
    count = form.ribs - 1 if even else form.ribs - 2
    words = f"ribs at {count} × {figures.length(form.spacing)}"
    return words if even else f"{words}, last {figures.length(last)}"


def _across(form: VaultForm, solids: VaultSolids, view: View, figures: Figures) -> Iterator[Item]:
    """Walls and the clear width, on the right of the plan; the footings outside of it."""
    (_, _), (high, _) = view.seen
    walls = solids.layer(Kind.WALL)
    places = [float(v) for one in (walls.solids if walls else ()) for v in (one.low[0], one.high[0])]
    places = places or [float(form.rib.inside.x[0]), float(form.rib.inside.x[-1])]
    x = view.point(high, 0.0)[0]
    cuts = without_crowding(places, view.scale, 5.0)
    yield from chain(cuts, [(x, view.point(0.0, -at)[1]) for at in cuts], figures, offset=4.5)
    strips = solids.layer(Kind.FOOTING)
    if strips is None:
        return
    edges = sorted(float(v) for one in strips.solids for v in (one.low[0], one.high[0]))
    cuts = without_crowding(edges, view.scale, 5.0)
    yield from chain(cuts, [(x, view.point(0.0, -at)[1]) for at in cuts], figures, offset=11.5)


def _marks(form: VaultForm, view: View, window: shapely.Polygon) -> Iterator[Item]:
    """A–A across at mid-length, B–B along the axis."""
    low, bottom, high, top = window.bounds
    del low, high
    middle = 0.5 * form.length
    for v, sign in ((top, 1.0), (bottom, -1.0)):
        at = view.point(middle, v)
        yield from section_mark((at[0], at[1] - sign * 4.0), (1.0, 0.0), "A")
    for u in (window.bounds[0], window.bounds[2]):
        at = view.point(u, 0.0)
        yield from section_mark((at[0] + (5.0 if u < 0 else -5.0), at[1]), (0.0, 1.0), "B")


def _ground(
    form: VaultForm, view: View, window: shapely.Polygon, board: Board, figures: Figures
) -> Iterator[Item]:
    """Natural and finished levels beside the house."""
    _, bottom, _, top = window.bounds
    for v, sign in ((top, -1.0), (bottom, 1.0)):
        edge = view.point(0.5 * form.length, v)
        at = (edge[0] + 8.0, edge[1] + sign * 5.0 - (0.0 if sign > 0 else 2.0))
        x = -v
        natural, finished = form.ground.natural.level(np.array(x)), form.ground.finished.level(np.array(x))
        yield level_triangle(at)
        words = f"natural {figures.level(float(natural))}, finished {figures.level(float(finished))}"
        yield board.put(figure((at[0] + 2.1, at[1] + up), words) for up in (0.4, -4.4))


def _north(axis: float | None, at: Point) -> Iterator[Item]:
    if axis is None:
        yield figure((at[0] + 10.0, at[1]), "north: not given", "end")
        return
    # The axis points to the right on the paper; north lies as far anticlockwise of it as it is from north.
    yield from north(at, axis, 8.0)
