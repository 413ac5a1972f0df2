"""The whole wall with its footing, and every force on it at the moment it is nearest to giving way."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from bermwright.base.drawing import (
    Area,
    Clip,
    Dimension,
    Hatch,
    Item,
    Path,
    Pen,
    Sheet,
    Stroke,
    View,
    Wash,
)
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.book.sheets.parts.earth import ground_items
from bermwright.book.sheets.parts.shell import shell_items
from bermwright.book.sheets.scene import Scene, Support, scene_of
from bermwright.book.sheets.supports.forces import LINE, Force, force_items, force_list

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.stages.nouns import Stage

WIDE = 172.0
SCALES = (20.0, 25.0, 50.0, 100.0)
BESIDE, ABOVE = 0.9, 0.8
"""Of the room and the ground shown beside and over the support (m)."""
UNDER = 31.0
"""Of the ground shown under it, room for the longest arrow (mm)."""
TALL = 165.0
"""The tallest window (mm)."""
HEAD, FOOT = 9.0, 15.0
HAIR = 1e-6
MORE = 0.3
"""Drawn beyond the window, so that nothing breaks off inside it (m)."""
CUT_OFF = 0.06
"""A slab is broken off this far inside the window (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WallView:
    """Measures of the right support, in the section (m)."""

    room_edge: float
    outer_edge: float
    """Edges of its base (x)."""
    room_face: float
    outer_face: float
    """Faces of its wall (x); alike where there is none."""
    base: float
    bottom: float
    top: float
    """Levels: underside of the base, underside of the wall, the foot."""
    slab: tuple[float, float] | None = None
    """Underside and top of a slab that joins both feet (level)."""
    when: str = ""
    """The moment that is shown."""


def wall_sheet(
    form: VaultForm,
    wall: WallView,
    forces: tuple[Force, ...],
    *,
    stage: Stage | None = None,
    supports: tuple[Support, ...] = (),
    system: str = "metric",
) -> Sheet:
    """The support under the right foot, its forces and its measures."""
    figures = Figures(system=system)
    left, right = wall.room_edge - BESIDE, wall.outer_edge + BESIDE
    top = wall.top + ABOVE
    scale = next((one for one in SCALES if _fits(wall, one)), SCALES[-1])
    bottom = wall.base - 1e-3 * UNDER * scale
    factor = 1000.0 / scale
    wide, tall = (right - left) * factor, (top - bottom) * factor
    height = tall + HEAD + FOOT + LINE * len(forces) + 4.0
    low = (1.0 + 0.5 * (WIDE - wide), height - HEAD - tall)
    origin = (low[0] - left * factor, low[1] - bottom * factor)
    view = View(origin=origin, scale=scale, seen=((left, bottom), (right, top)))
    scene = scene_of(form, stage, lifts=(), supports=supports)
    high = (low[0] + wide, low[1] + tall)
    items: list[Item] = [heading((1.0, height - 5.0), "What carries the feet", 3.6)]
    items.append(note((WIDE, height - 5.0), f"1:{scale:.0f}, right side; {NOT_REVIEWED}", "end"))
    items.append(Clip(low=low, high=high, items=tuple(_building(scene, wall, view))))
    items.append(Stroke(path=_box(low, high), pen=Pen.LAYER, closed=True))
    items += force_items(forces, view)
    items += _measures(wall, view, low[1], figures)
    items += force_list(forces, low[1] - FOOT, 2.0)
    alt = f"The support under the right foot of {form.name}, {wall.when}: " + "; ".join(
        force.words for force in forces
    )
    return Sheet(
        width=WIDE + 2.0, height=height, items=tuple(items), title="What carries the feet", alt=alt, view=view
    )


def _fits(wall: WallView, scale: float) -> bool:
    """Whether the window fits its paper at a scale."""
    wide = 1000.0 / scale * (wall.outer_edge - wall.room_edge + 2.0 * BESIDE)
    return wide <= WIDE and 1000.0 / scale * (wall.top + ABOVE - wall.base) + UNDER <= TALL


def _box(low: tuple[float, float], high: tuple[float, float]) -> Path:
    return low, (high[0], low[1]), high, (low[0], high[1])


def _building(scene: Scene, wall: WallView, view: View) -> Iterator[Item]:
    (first, bottom), (last, top) = view.seen
    wider = replace(view, seen=((first - MORE, bottom - MORE), (last + MORE, top + MORE)))
    yield from ground_items(scene, wider)
    yield from shell_items(scene, wider)
    if wall.slab is not None:
        under, over = wall.slab
        left = view.seen[0][0] - CUT_OFF
        corners = ((left, under), (wall.room_face, under), (wall.room_face, over), (left, over))
        yield Area(
            path=tuple(view.point(*corner) for corner in corners),
            wash=Wash.PAPER,
            hatch=Hatch.CONCRETE,
            outline=Pen.SEEN,
            layer="support",
        )


def _measures(wall: WallView, view: View, under: float, figures: Figures) -> Iterator[Item]:
    """Base, toe, wall and heel under the window; levels at its left."""
    places = sorted({wall.room_edge, wall.room_face, wall.outer_face, wall.outer_edge})
    for start, end in pairwise(places):
        if end - start > HAIR:
            yield _across(view, under, start, end, -4.5, figures)
    if len(places) > 2:
        yield _across(view, under, wall.room_edge, wall.outer_edge, -10.0, figures)
    left = view.point(view.seen[0][0], 0.0)[0]
    for level in sorted({wall.top, wall.bottom, wall.base}):
        y = view.point(0.0, level)[1]
        edge = view.point(wall.room_face if level == wall.top else wall.room_edge, 0.0)[0]
        yield Stroke(path=((left, y), (edge, y)), pen=Pen.DIMENSION, layer="dimension")
        yield figure((left + 1.5, y + 0.9), figures.level(level))


def _across(view: View, under: float, start: float, end: float, offset: float, figures: Figures) -> Dimension:
    ends = ((view.point(start, 0.0)[0], under), (view.point(end, 0.0)[0], under))
    return Dimension(start=ends[0], end=ends[1], offset=offset, text=figures.length(end - start))
