"""One end of a vault in elevation, as seen walking in: wall, posts, openings, lintels, soil."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.drawing import Area, Dimension, Hatch, Ink, Item, Pen, Point, Sheet, Stroke, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import Board, Figures, curve_path, figure, heading, note
from bermwright.book.sheets.settling import settled
from bermwright.house import EndKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path
    from bermwright.form.shapes import VaultForm
    from bermwright.house import End, EndSide, Floor, Opening

PAGE = (174.0, 240.0)
"""Width and height of a drawing on a page of the book (mm)."""
SCALES = (20.0, 50.0, 100.0)
"""Reductions of ISO 5455."""
SIDE, FOOT, HEAD = 34.0, 26.0, 14.0
"""Paper beside, under and over the wall (mm)."""
WALLS = {
    EndKind.PLANKS: (Wash.LAGGING, Hatch.TIMBER_ALONG),
    EndKind.LOGS: (Wash.TIMBER, Hatch.TIMBER_ALONG),
    EndKind.BLOCKS: (Wash.INSITU, Hatch.MASONRY),
    EndKind.EARTH_TUBES: (Wash.EARTH, Hatch.EARTH_TUBE),
    EndKind.OPEN: (Wash.NONE, Hatch.NONE),
}
COURSE = 0.12
"""Height of a course of earth tube as drawn (m)."""


def end_sheet(
    form: VaultForm,
    side: EndSide,
    end: End | None,
    openings: tuple[Opening, ...],
    *,
    floors: tuple[Floor, ...] = (),
    room: tuple[float, float] = PAGE,
    system: str = "metric",
) -> Sheet:
    """The elevation of one end, as large as `room` allows (mm); what is not known is left out and said."""
    width, height = room
    wide, top = float(np.ptp(form.rib.outside.x)), float(form.rib.outside.z.max())
    fits = (
        one
        for one in SCALES
        if 1000.0 * wide / one + 2 * SIDE <= width and 1000.0 * top / one + FOOT + HEAD <= height
    )
    scale = next(fits, SCALES[-1])
    factor = 1000.0 / scale
    middle = 0.5 * float(form.rib.outside.x.min() + form.rib.outside.x.max())
    view = View(origin=(0.5 * width - middle * factor, FOOT), scale=scale)
    tall = top * factor + FOOT + HEAD
    figures = Figures(system=system)
    items = [
        *_wall(form, end, openings, view),
        *_posts(form, end, openings, view),
        *_soil(form, end, view, figures),
        *(item for floor in floors for item in _floor(form, floor, view, figures)),
        *(item for opening in openings for item in _hole(form, opening, view, figures)),
        *_levels(openings, view, figures),
        heading((0.0, tall - 5.0), f"The {side} end of {form.name}"),
        figure((0.0, tall - 10.5), f"1:{scale:.0f}, as seen walking in; {_words(end, figures)}"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    names = ", ".join(opening.name for opening in openings) or "no opening"
    alt = f"Elevation of the {side} end of {form.name}: {_words(end, figures)}; {names}."
    return settled(
        Sheet(width=width, height=tall, items=tuple(items), title=f"The {side} end", alt=alt, view=view)
    )


def _words(end: End | None, figures: Figures) -> str:
    """The wall in words."""
    if end is None:
        return "what closes it is not said"
    if end.kind is EndKind.OPEN:
        return "open"
    words = str(end.kind)
    if end.thickness is not None:
        words += f" {figures.length(end.thickness)}"
    if end.post_spacing is not None:
        words += f", posts at {figures.length(end.post_spacing)}"
    return words


def _box(view: View, x: tuple[float, float], z: tuple[float, float]) -> Path:
    low, high = view.point(x[0], z[0]), view.point(x[1], z[1])
    return low, (high[0], low[1]), high, (low[0], high[1])


def _hole_box(opening: Opening, view: View) -> Path | None:
    if opening.sill is None or opening.head is None:
        return None
    half = 0.5 * opening.width
    return _box(view, (opening.across - half, opening.across + half), (opening.sill, opening.head))


def _inside(form: VaultForm, view: View) -> Path:
    """The outline of the wall: the inside of the ribs, closed along the floor."""
    inside = curve_path(view, form.rib.inside)
    floor = view.point(0.0, 0.0)[1]
    return (*inside, (inside[-1][0], floor), (inside[0][0], floor))


def _wall(form: VaultForm, end: End | None, openings: tuple[Opening, ...], view: View) -> Iterator[Item]:
    outline = _inside(form, view)
    wash, hatch = (Wash.NONE, Hatch.NONE) if end is None else WALLS[end.kind]
    holes = [shapely.Polygon(box) for one in openings if (box := _hole_box(one, view)) is not None]
    whole = shapely.Polygon(outline).buffer(0.0).difference(shapely.union_all(holes))
    top = max(z for _, z in outline)
    step = view.length(COURSE)
    levels = tuple(np.arange(outline[-1][1] + step, top, step)) if hatch is Hatch.EARTH_TUBE else ()
    for part in getattr(whole, "geoms", [whole]):
        if isinstance(part, shapely.Polygon) and not part.is_empty:
            yield Area(
                path=_ring(part.exterior),
                holes=tuple(_ring(ring) for ring in part.interiors),
                wash=wash,
                hatch=hatch,
                along=0.0,
                levels=tuple(float(level) for level in levels),
                outline=Pen.SEEN,
                layer="ends",
            )
    ribs = (*curve_path(view, form.rib.outside), *reversed(curve_path(view, form.rib.inside)))
    yield Area(path=ribs, wash=Wash.TIMBER, outline=Pen.CUT, layer="rib")
    left, right = float(form.rib.outside.x.min()), float(form.rib.outside.x.max())
    yield Stroke(path=(view.point(left, 0.0), view.point(right, 0.0)), pen=Pen.CUT)


def _ring(ring: shapely.LinearRing) -> Path:
    return tuple((float(x), float(z)) for x, z in shapely.get_coordinates(ring)[:-1])


def _posts(form: VaultForm, end: End | None, openings: tuple[Opening, ...], view: View) -> Iterator[Item]:
    """Posts behind the planks, dashed, from under the floor to where they are held; none in an opening."""
    if end is None or end.post_spacing is None:
        return
    inside = form.rib.inside
    wide = end.post.thickness if end.post else end.post_diameter or 0.1
    foot = -(end.post_depth or 0.0)
    for place in post_places(form, end.post_spacing, wide, openings):
        roof = float(np.interp(place, inside.x, inside.z))
        head = roof if end.post_head is None else min(end.post_head, roof)
        for x in (place - 0.5 * wide, place + 0.5 * wide):
            yield Stroke(path=(view.point(x, foot), view.point(x, head)), pen=Pen.HIDDEN, layer="ends")
    if end.post_head is not None:
        yield from _beam(form, end.post_head, view)


def post_places(
    form: VaultForm, spacing: float, wide: float, openings: tuple[Opening, ...]
) -> tuple[float, ...]:
    """Middles of the posts across the end: a spacing apart, and one on each side of every opening."""
    half = 0.5 * float(form.rib.inside.x[-1] - form.rib.inside.x[0])
    count = int(half / spacing)
    sides = [one.across + side * 0.5 * (one.width + wide) for one in openings for side in (-1.0, 1.0)]
    even = [spacing * k for k in range(-count, count + 1)]
    free = [place for place in even if all(abs(place - at) > 1.1 * wide for at in sides)]
    clear = [
        place for place in free if all(abs(place - one.across) > 0.5 * (one.width + wide) for one in openings)
    ]
    return tuple(sorted([*clear, *sides]))


def _beam(form: VaultForm, level: float, view: View) -> Iterator[Item]:
    inside = form.rib.inside
    wide = inside.x[inside.z >= level]
    if wide.size:
        ends = view.point(float(wide.min()), level), view.point(float(wide.max()), level)
        yield Stroke(path=ends, pen=Pen.HIDDEN, layer="ends")


def _soil(form: VaultForm, end: End | None, view: View, figures: Figures) -> Iterator[Item]:
    """The level up to which soil lies against the outside of it."""
    if end is None or end.soil_to is None or end.kind is EndKind.OPEN:
        return
    left, right = float(form.rib.outside.x.min()) - 0.25, float(form.rib.outside.x.max()) + 0.25
    start, stop = view.point(left, end.soil_to), view.point(right, end.soil_to)
    yield Stroke(path=(start, stop), pen=Pen.NOT_YET, ink=Ink.INK, layer="ground")
    yield note((stop[0] + 1.0, stop[1] + 0.6), "soil outside")
    yield figure((stop[0] + 1.0, stop[1] - 3.4), figures.level(end.soil_to))


def _floor(form: VaultForm, floor: Floor, view: View, figures: Figures) -> Iterator[Item]:
    """An upper floor behind the wall: its upper side and the underside of its joists, dashed."""
    if floor.level is None:
        return
    inside = form.rib.inside
    deep = floor.joist.width + (floor.boards or 0.0)
    for level in (floor.level, floor.level - deep):
        wide = inside.x[inside.z >= level]
        if wide.size:
            ends = view.point(float(wide.min()), level), view.point(float(wide.max()), level)
            yield Stroke(path=ends, pen=Pen.HIDDEN, layer="ends")
    right = view.point(float(form.rib.outside.x.max()) + 0.25, floor.level)
    yield note((right[0] + 1.0, right[1] + 0.6), floor.name)
    yield figure((right[0] + 1.0, right[1] - 3.4), figures.level(floor.level))


def _hole(form: VaultForm, opening: Opening, view: View, figures: Figures) -> Iterator[Item]:
    box = _hole_box(opening, view)
    if box is None:
        return
    low, high = box[0], box[2]
    yield Area(path=box, wash=Wash.PAPER, outline=Pen.CUT, layer="openings")
    if opening.kind.glazed:
        yield Stroke(path=(box[0], box[2]), pen=Pen.LAYER, layer="openings")
        yield Stroke(path=(box[1], box[3]), pen=Pen.LAYER, layer="openings")
    middle = 0.5 * (low[0] + high[0])
    yield note((middle, 0.5 * (low[1] + high[1]) + 0.6), opening.name, "middle")
    yield figure(
        (middle, 0.5 * (low[1] + high[1]) - 3.2),
        f"{figures.length(opening.width)} × {figures.length(opening.height)}",
        "middle",
    )
    yield from _lintel(form, opening, view)


def _lintel(form: VaultForm, opening: Opening, view: View) -> Iterator[Item]:
    """The lintel, cut off where it would reach into the ribs."""
    if opening.header is None or opening.head is None:
        return
    out = 0.5 * opening.width + (opening.bearing or 0.0)
    box = _box(
        view,
        (opening.across - out, opening.across + out),
        (opening.head, opening.head + opening.header.width),
    )
    left = shapely.Polygon(box).intersection(shapely.Polygon(_inside(form, view)).buffer(0.0))
    if isinstance(left, shapely.Polygon) and not left.is_empty:
        yield Area(
            path=_ring(left.exterior),
            wash=Wash.TIMBER,
            hatch=Hatch.TIMBER_ALONG,
            along=0.0,
            outline=Pen.CUT,
            layer="openings",
        )


def _levels(openings: tuple[Opening, ...], view: View, figures: Figures) -> Iterator[Item]:
    """Where each opening stands across, under the floor; its sill and head on the nearer side."""
    board = Board()
    floor = view.point(0.0, 0.0)[1]
    shown = [one for one in openings if one.sill is not None]
    axis = view.point(0.0, 0.0)
    if shown:
        yield Stroke(path=((axis[0], floor - 20.0), (axis[0], floor + 4.0)), pen=Pen.NOT_YET)
        yield note((axis[0] + 0.8, floor - 20.0), "axis")
    for opening in sorted(shown, key=lambda one: one.across):
        under = any(_below(other, opening) for other in shown)
        near, far = _edges(opening, view, view.point(0.0, opening.sill or 0.0)[1] if under else floor)
        yield Dimension(
            start=near, end=far, offset=-4.0 if under else -6.0, text=figures.length(opening.width)
        )
        middle = view.point(opening.across, 0.0)[0]
        if abs(opening.across) > 1e-6:
            start, stop = sorted((axis[0], middle))
            yield Dimension(
                start=(start, floor),
                end=(stop, floor),
                offset=-13.0,
                text=figures.length(abs(opening.across)),
            )
        yield from _heights(opening, view, figures, board)


def _below(other: Opening, opening: Opening) -> bool:
    """Whether another opening lies under one, so that its own width has no room at the floor."""
    beside = abs(other.across - opening.across) >= 0.5 * (other.width + opening.width)
    return not beside and (other.sill or 0.0) < (opening.sill or 0.0)


def _edges(opening: Opening, view: View, floor: float) -> tuple[Point, Point]:
    left = view.point(opening.across - 0.5 * opening.width, 0.0)[0]
    right = view.point(opening.across + 0.5 * opening.width, 0.0)[0]
    return (left, floor), (right, floor)


def _heights(opening: Opening, view: View, figures: Figures, board: Board) -> Iterator[Item]:
    """Sill and head as levels beside the opening, inside its edges."""
    for level, lift in ((opening.sill, 0.8), (opening.head, -3.6)):
        if level is None:
            continue
        at = view.point(opening.across - 0.5 * opening.width, level)
        yield board.take(figure((at[0] + 1.0, at[1] + lift), figures.level(level)))
