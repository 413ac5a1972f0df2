"""The section of a vault: the same drawing for a stage page, a sheet or a screen, at any scale."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Dimension, Item, Pen, Sheet, Stroke, Text, View
from bermwright.base.marks import Comb, FootForce
from bermwright.book.sheets.marks import draw_mark
from bermwright.book.sheets.paper import CAPTION, FIGURE, Board, Figures, figure, heading, smooth_path
from bermwright.book.sheets.parts.earth import finished_label, ground_items, lift_labels
from bermwright.book.sheets.parts.shell import shell_items
from bermwright.book.sheets.scene import Scene, Support, scene_of
from bermwright.book.sheets.signs import compass, level_texts, level_triangle, person
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.base.marks import Mark
    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.stages.nouns import Stage

SCALES = (10.0, 20.0, 50.0, 100.0, 200.0, 500.0)
"""Reductions of ISO 5455."""
MARGIN = 1.0
"""Ground shown beyond the toes of the mound (m)."""
BELOW = 0.8
"""Ground shown below the lowest thing built (m)."""
HANDLE = 2.2
"""Half of what a handle covers (mm)."""
LEVEL_LINE = 19.0
"""How far out in the air the figure of a level stands that finds no room on the fill (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dress:
    """What a section wears besides the building itself."""

    figures: Figures = field(default_factory=Figures)
    axis: float | None = None
    """Direction one looks when walking in (rad from north); None where it is not known."""
    person: bool = True
    dimensions: bool = True
    """The span, under the ground."""
    heights: bool = True
    """Rise and springing, in the room."""
    sides: bool = True
    """Left and right in words, with the compass."""
    keep_off: tuple[tuple[float, float], ...] = ()
    """Places of the section (m) on which something else will lie: no lettering there."""
    lifts: bool = False
    """L1 … and R1 … at the ends of the lifts."""


def section_sheet(  # noqa: PLR0913  (a drawing has many independent choices, all by name)
    form: VaultForm,
    *,
    stage: Stage | None = None,
    scale: float = 50.0,
    width: float | None = None,
    lifts: tuple[float, ...] = (),
    supports: tuple[Support, ...] = (),
    marks: tuple[Mark, ...] = (),
    dress: Dress | None = None,
) -> Sheet:
    """The section at a scale of 1 : `scale`, finished or at a stage, as wide as it needs.

    With `width` (mm) the ground is cut to fit by freehand lines; where even the vault does not fit,
    the next smaller scale of ISO 5455 is taken.
    """
    scene = scene_of(form, stage, lifts=lifts, supports=supports)
    return scene_sheet(scene, scale=scale, width=width, marks=marks, dress=dress or Dress())


def stage_sheet(  # noqa: PLR0913  (a drawing has many independent choices, all by name)
    form: VaultForm,
    stage: Stage,
    *,
    width: float = 174.0,
    lifts: tuple[float, ...] = (),
    supports: tuple[Support, ...] = (),
    marks: tuple[Mark, ...] = (),
    axis: float | None = None,
    system: str = "metric",
) -> Sheet:
    """The small section of a stage page, 1 : 100 where it fits, with lifts, marks and both sides named."""
    figures = Figures(system=system, metres=True)
    dress = Dress(figures=figures, axis=axis, person=False, heights=False, lifts=True)
    scene = scene_of(form, stage, lifts=lifts, supports=supports)
    return scene_sheet(scene, scale=100.0, width=width, marks=marks, dress=dress)


def scene_sheet(
    scene: Scene, *, scale: float, width: float | None, marks: tuple[Mark, ...], dress: Dress
) -> Sheet:
    """A scene on paper."""
    low, high = scene.extent()
    scale = _fitting(scale, width, scene)
    side = 14.0 if dress.sides else 3.0
    shown = (low - MARGIN, high + MARGIN)
    room = width if width is not None else (shown[1] - shown[0]) * 1000.0 / scale + 2.0 * side
    shown = _cropped(shown, (room - 6.0) * scale / 1000.0, scene.crown_x)
    bottom = min(scene.bottom() - BELOW, float(scene.base(np.linspace(*shown, 101)).min()) - BELOW)
    top = _top(scene, *shown)
    foot = 13.0 if dress.dimensions else 8.0
    head = 12.0 if dress.sides else 6.0
    factor = 1000.0 / scale
    height = (top - bottom) * factor + foot + head
    middle = 0.5 * (shown[0] + shown[1])
    view = View(
        origin=(0.5 * room - middle * factor, foot - bottom * factor),
        scale=scale,
        seen=((shown[0], bottom), (shown[1], top)),
    )
    return sheet_in(view, scene, (room, height), marks, dress)


def sheet_in(
    view: View, scene: Scene, size: tuple[float, float], marks: tuple[Mark, ...], dress: Dress
) -> Sheet:
    """A scene through a view that is chosen already, on a sheet of that size (mm)."""
    items = tuple(_items(scene, view, marks, dress, size))
    title, alt = _title(scene), _alt(scene, dress)
    return Sheet(width=size[0], height=size[1], items=items, title=title, alt=alt, view=view)


def _fitting(scale: float, width: float | None, scene: Scene) -> float:
    """The wanted scale, or the next smaller one at which the vault and a little fill fit the width."""
    if width is None:
        return scale
    face = scene.form.soil_face.x
    needed = (float(face.max() - face.min()) + 2.0) * 1000.0
    wanted = [scale, *[step for step in SCALES if step > scale]]
    return next((step for step in wanted if needed / step <= width - 40.0), wanted[-1])


def _cropped(shown: tuple[float, float], room: float, middle: float) -> tuple[float, float]:
    """What is shown, cut about the middle of the vault to the room there is (m)."""
    if shown[1] - shown[0] <= room:
        return shown
    left = min(middle - shown[0], max(0.5 * room, room - (shown[1] - middle)))
    return middle - left, middle - left + room


def _top(scene: Scene, low: float, high: float) -> float:
    """Highest level of anything drawn (m)."""
    x = np.linspace(low, high, 801)
    return max(float(scene.form.ground.finished.level(x).max()), float(scene.form.soil_face.z.max())) + 0.1


def _items(
    scene: Scene, view: View, marks: tuple[Mark, ...], dress: Dress, size: tuple[float, float]
) -> Iterator[Item]:
    """Everything of a section, the ground first and lettering last."""
    board = Board()
    for x, y in smooth_path(view, scene.face, 1.5):
        board.block((x - 0.4, y - 0.4), (x + 0.4, y + 0.4))
    for x, y in (view.point(*place) for place in dress.keep_off):
        board.block((x - HANDLE, y - HANDLE), (x + HANDLE, y + HANDLE))
    yield from ground_items(scene, view)
    yield from shell_items(scene, view)
    if any(isinstance(mark, Comb | FootForce) for mark in marks):
        dress = replace(dress, heights=False, person=False)  # their words need the room
    if dress.person:
        yield from person(view, _person_x(scene))
    words = list(_words(scene, view, dress, board, size))
    if dress.lifts:
        words += lift_labels(scene, view, board)
    for mark in sorted(marks, key=_late):
        yield from draw_mark(mark, view, scene, board, dress.figures)
    yield from words
    yield from _levels(scene, view, dress, board)
    yield from finished_label(scene, view, board)


def _late(mark: Mark) -> int:
    """Combs and arrows are drawn under stop marks and words, and frozen ground under all of them."""
    return {"GroundHeat": -1, "Comb": 0, "Arrows": 1, "StopMark": 2}.get(type(mark).__name__, 3)


def _person_x(scene: Scene) -> float:
    """Left of the middle, clear of the plumb line and of dimensions."""
    return scene.crown_x - 0.18 * scene.form.span


def _words(scene: Scene, view: View, dress: Dress, board: Board, size: tuple[float, float]) -> Iterator[Item]:
    """Dimensions, sides and scale: lettering that has a fixed place."""
    if dress.dimensions:
        yield from _span(scene, view, dress, board)
    if dress.heights:
        yield from _heights(scene, view, dress, board)
    if dress.sides:
        yield from _sides(dress, board, size)
    text = f"1:{view.scale:.0f}, seen from the door" if dress.sides else f"1:{view.scale:.0f}"
    corner = view.point(*view.seen[1])[0], view.point(*view.seen[0])[1]
    yield board.take(figure((min(corner[0], size[0] - 1.0), corner[1] - 6.5), text, "end"))


def _levels(scene: Scene, view: View, dress: Dress, board: Board) -> Iterator[Item]:
    """Level marks of the floor, of the fill as it stands and of the finished top."""
    spots: list[tuple[float, float, float | None]] = [(0.2 * scene.form.span, 0.0, None)]
    if scene.kind is StageKind.FILL:
        for level, sign in ((scene.left, -1.0), (scene.right, 1.0)):
            ends = scene.reach(level, sign) if level is not None else None
            if level is not None and ends is not None:
                spots.append((0.5 * (ends[0] + ends[1]), level, ends[1]))
    if scene.reached(StageKind.COVER):
        top = float(scene.surface(np.array(scene.crown_x)))
        spots.append((scene.crown_x, top, None))
    for x, level, edge in spots:
        at = view.point(x, level)
        yield level_triangle(at)
        end = None if edge is None else view.point(edge, level)
        text, handles = dress.figures.level(level), bool(dress.keep_off)
        yield from _level_words(at, end, text, board, under_handles=handles)
        board.block((at[0] - 1.3, at[1]), (at[0] + 1.3, at[1] + 2.0))


def _level_words(
    at: Point, edge: Point | None, text: str, board: Board, *, under_handles: bool
) -> Iterator[Item]:
    """The figure of a level mark; out in the air on a thin line where it would stand on the shell."""
    places = level_texts(at, text)
    if under_handles:
        places = (*places[:3], *_higher(at, text), *places[3:])
    wide = edge is None or abs(edge[0] - at[0]) > 0.5 * LEVEL_LINE
    if edge is None or wide or any(board.free(place) for place in places[:3]):
        yield board.put(places)
        return
    sign = 1.0 if edge[0] > at[0] else -1.0
    far = edge[0] + sign * LEVEL_LINE
    outer = figure((far, edge[1] - FIGURE - 1.5), text, "start" if sign < 0 else "end")
    chosen = board.put((outer, *places))
    if chosen is outer:
        yield Stroke(path=(edge, (far, edge[1])), pen=Pen.DIMENSION, layer="dimension")
    yield chosen


def _higher(at: Point, text: str) -> tuple[Text, ...]:
    """Places further up for the figure of a level, where something lies on the nearer ones."""
    return tuple(figure((at[0], at[1] + up), text, "middle") for up in (4.4, 6.0))


def measured_curve(form: VaultForm) -> CurveLine:
    """The face of the rib whose feet stand the named span apart."""
    faces = (form.rib.centreline, form.rib.inside, form.rib.outside)
    return min(faces, key=lambda face: abs(float(face.x[-1] - face.x[0]) - form.span))


def _span(scene: Scene, view: View, dress: Dress, board: Board) -> Iterator[Item]:
    """The span below the ground."""
    form, figures = scene.form, dress.figures
    curve = measured_curve(form)
    left, right = float(curve.x[0]), float(curve.x[-1])
    foot = view.seen[0][1]
    start, end = view.point(left, foot), view.point(right, foot)
    yield Dimension(start=start, end=end, offset=-5.5, text=figures.length(form.span))
    board.block((start[0], start[1] - 6.5), (end[0], start[1] - 1.0))


def _heights(scene: Scene, view: View, dress: Dress, board: Board) -> Iterator[Item]:
    """Rise and springing, near the middle of the room."""
    form, figures = scene.form, dress.figures
    x = scene.crown_x + 0.09 * form.span
    crown = view.point(x, form.springing + form.rise)
    springing = view.point(x, form.springing)
    yield Dimension(start=springing, end=crown, offset=0.0, text=figures.length(form.rise))
    top = view.point(scene.crown_x, form.springing + form.rise)
    yield Stroke(
        path=((top[0] - 1.2, top[1]), (crown[0] + 1.2, crown[1])), pen=Pen.DIMENSION, layer="dimension"
    )
    edge = view.point(float(form.rib.inside.x[-1]), form.springing)
    yield Stroke(path=((springing[0] - 1.2, springing[1]), edge), pen=Pen.DIMENSION, layer="dimension")
    board.block((crown[0] - 4.5, springing[1]), (crown[0] + 1.5, crown[1]))
    if form.springing * 1000.0 / view.scale > 8.0:
        floor = view.point(x, 0.0)
        yield Dimension(start=floor, end=springing, offset=0.0, text=figures.length(form.springing))
        board.block((floor[0] - 4.5, floor[1]), (floor[0] + 1.5, springing[1]))


def _sides(dress: Dress, board: Board, size: tuple[float, float]) -> Iterator[Item]:
    """Left and right as seen when walking in, and where north lies."""
    y = size[1] - 8.0
    yield board.take(heading((2.0, y), "Left", 3.9))
    yield board.take(heading((size[0] - 2.0, y), "Right", 3.9, "end"))
    if dress.axis is None:
        yield board.take(figure((2.0, y - 5.0), "north: not given"))
        return
    at = (10.0, y - 14.0)
    board.block((0.0, at[1] - 16.0), (at[0] + 7.0, at[1] + 10.0))
    yield from compass(at, dress.axis, 5.0 + 0.3 * CAPTION)


def _title(scene: Scene) -> str:
    """Title of the drawing."""
    return f"Section of {scene.form.name}, {scene.kind.value}"


def _alt(scene: Scene, dress: Dress) -> str:
    """The drawing in words."""
    form, figures = scene.form, dress.figures
    words = (
        f"Section through {form.name}: span {figures.length(form.span)}, rise {figures.length(form.rise)}, "
        f"springing at {figures.level(form.springing)}."
    )
    if scene.kind is StageKind.FILL and scene.left is not None and scene.right is not None:
        left, right = figures.level(scene.left), figures.level(scene.right)
        words += f" Fill stands at {left} on the left, {right} on the right."
    return words
