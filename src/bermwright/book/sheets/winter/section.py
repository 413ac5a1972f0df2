"""The section in a chosen week: what is frozen, how warm the ground is, the snow, the room."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.adapt.winter.telling.picture import field_of, week_of
from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES
from bermwright.book.sheets.paper import CAPTION, Board, figure, note, path_of
from bermwright.book.sheets.parts.earth import ground_items
from bermwright.book.sheets.parts.shell import shell_items
from bermwright.book.sheets.scene import scene_of
from bermwright.book.sheets.signs import level_texts, level_triangle, person
from bermwright.book.sheets.winter.frozen import (
    clipped,
    cold_items,
    frost_items,
    frost_lines,
    frozen_ground,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.adapt.winter.telling.picture import Week
    from bermwright.adapt.winter.winter import WinterYear
    from bermwright.book.sheets.scene import Scene, Support

    Array = NDArray[np.float64]

DEEP = 2.4
"""How far below the floor the section goes (m)."""
BESIDE = 5.0
"""How far out past the shell it is shown where paper allows (m)."""
SCALES = (50.0, 75.0, 100.0, 150.0, 200.0)
LITTLE_SNOW = 0.02
"""Less is not drawn (m)."""
MIDDLE_OF_MONTH = (15, 45, 74, 105, 135, 166, 196, 227, 258, 288, 319, 349)


def week_sheet(
    year: WinterYear, number: int, *, supports: tuple[Support, ...] = (), width: float = 174.0,
    system: str = "metric",
) -> Sheet:  # fmt: skip
    """One week as a section with isotherms and the line of frost."""
    week = week_of(year, number)
    scene = scene_of(year.form, None, lifts=(), supports=supports)
    face = year.form.soil_face.x
    half = float(np.max(np.abs(face))) + BESIDE
    scale = next((one for one in SCALES if 2000.0 * half / one <= width - 4.0), SCALES[-1])
    half = min(half + 10.0, (width - 4.0) * scale / 2000.0)
    top = float(year.form.ground.finished.level(np.linspace(-half, half, 401)).max()) + week.snow + 0.2
    factor = 1000.0 / scale
    height = (top + DEEP) * factor + 12.0
    view = View(origin=(0.5 * width, 6.0 + DEEP * factor), scale=scale, seen=((-half, -DEEP), (half, top)))
    items = tuple(_items(year, week, scene, view, system))
    names = f"{show(week.outdoors, 'degC', 0, system)} outdoors, {show(week.room, 'degC', 0, system)} inside"
    return Sheet(
        width=width,
        height=height,
        items=items,
        title=f"Week {number + 1}: the ground around {year.vault.name}",
        alt=f"{names}; open ground is frozen {show(week.frozen, 'm', 2, system)} deep.",
        view=view,
    )


def _items(year: WinterYear, week: Week, scene: Scene, view: View, system: str) -> Iterator[Item]:
    (low, bottom), (high, top) = view.seen
    window = (low, bottom, high, top)
    house = scene.silhouette()
    yield from ground_items(scene, view)
    ice = shapely.difference(frozen_ground(year.ground.mesh, week.temperature, window), house)
    yield from cold_items(ice, view)
    yield from _snow(scene, view, week)
    for lines in week.levels.values():
        for line in clipped(lines, window, house):
            yield Stroke(path=path_of(view, line[:, 0], line[:, 1]), pen=Pen.LAYER, layer="isotherms")
    x = scene.columns(low, high)
    frost = frost_lines(ice, np.column_stack([x, scene.surface(x)]), house, window)
    for line in frost:
        yield from frost_items(line, ice, view)
    yield from shell_items(scene, view)
    yield from person(view, scene.crown_x - 0.2 * scene.form.span)
    board = Board()
    yield from _words(year, week, view, board, system)
    yield from _frost_label(frost, week, view, (board, system))
    for level, lines in week.levels.items():
        yield from _level_label(tuple(clipped(lines, window, house)), level, view, (board, house))


def _snow(scene: Scene, view: View, week: Week) -> Iterator[Item]:
    if week.snow < LITTLE_SNOW:
        return
    (low, _bottom), (high, _top) = view.seen
    x = scene.columns(low, high)
    z = scene.surface(x)
    ring = np.concatenate([np.column_stack([x, z]), np.column_stack([x, z + week.snow])[::-1]])
    yield Area(path=path_of(view, ring[:, 0], ring[:, 1]), wash=Wash.SNOW, hatch=Hatch.SNOW, layer="snow")
    yield Stroke(path=path_of(view, x, z + week.snow), pen=Pen.SEEN, layer="snow")


def _words(year: WinterYear, week: Week, view: View, board: Board, system: str) -> Iterator[Item]:
    form = year.form
    floor = view.point(0.22 * form.span, 0.0)
    yield level_triangle(floor)
    yield board.put(level_texts(floor, "±0.00"))
    inside = view.point(0.1 * form.span, form.springing + 0.3 * form.rise)
    yield board.put((figure(inside, f"{show(week.room, 'degC', 0, system)} inside", "middle"),))
    (low, bottom), (high, top) = view.seen
    corner = view.point(low, top)
    yield board.put(
        (figure((corner[0] + 2.0, corner[1] - 4.0), f"{show(week.outdoors, 'degC', 0, system)} outdoors"),)
    )
    if week.snow >= LITTLE_SNOW:
        yield board.put(
            (figure((corner[0] + 2.0, corner[1] - 8.0), f"snow {show(week.snow, 'm', 2, system)}"),)
        )
    foot = view.point(high, bottom)
    yield board.put(
        (figure((foot[0] - 1.0, foot[1] - 4.5), f"1:{view.scale:.0f}, seen from the door", "end"),)
    )
    coldest = min(
        (name for name in week.watch if name.startswith("under footing")), key=lambda name: week.watch[name]
    )
    x, z = year.ground.heat.section.watch[coldest]
    at = view.point(x, z)
    value = show(week.watch[coldest], "degC", 1, system)
    yield Stroke(path=((at[0] - 0.7, at[1]), (at[0] + 0.7, at[1])), pen=Pen.TICK, layer="text")
    yield board.put(
        tuple(
            note((at[0] + dx, at[1] + dy), f"under the footing {value}", anchor)
            for dx, dy, anchor in ((0.0, -4.0, "middle"), (2.0, -5.5, "start"), (-2.0, -5.5, "end"))
        )
    )


def _level_label(
    lines: tuple[Array, ...], level: float, view: View, how: tuple[Board, Any]
) -> Iterator[Text]:
    """The figure on an isotherm, well away from the house where it can be."""
    board, house = how
    spots = [(float(x), float(z)) for line in lines for x, z in line[:: max(1, len(line) // 40)]]
    (low, bottom), (high, _top) = view.seen
    inner = shapely.box(low + 0.5, bottom + 0.35, high - 0.5, 100.0)
    spots = [spot for spot in spots if inner.contains(shapely.Point(spot)) and spot[0] > 0.0]
    spots.sort(key=lambda spot: -house.distance(shapely.Point(spot)))
    for x, z in spots:
        at = view.point(x, z)
        label = figure((at[0], at[1] - 0.5 * CAPTION), f"{level:+.0f}°", "middle")
        if board.free(label):
            yield board.take(label)
            return


def _frost_label(lines: tuple[Array, ...], week: Week, view: View, how: tuple[Board, str]) -> Iterator[Text]:
    board, system = how
    if not lines or week.frozen <= 0.0:
        return
    low = view.seen[0][0]
    places = []
    for line in sorted(lines, key=lambda one: float(one[:, 0].min())):
        x, z = line[int(np.argmin(line[:, 0]))]
        at = view.point(max(float(x), low), float(z))
        places += [note((at[0] + 2.5, at[1] + dy), _frost_words(week, system)) for dy in (-6.0, -9.0, 3.0)]
    yield board.put(places)


def _frost_words(week: Week, system: str) -> str:
    return f"frost line, {show(week.frozen, 'm', 2, system)} deep in the open"


def months_sheet(year: WinterYear, *, width: float = 174.0, columns: int = 4) -> Sheet:
    """Twelve small sections, one in the middle of each month: the frost comes and goes."""
    wide, tall = width / columns, 27.0
    rows = -(-12 // columns)
    scene = scene_of(year.form, None, lifts=(), supports=())
    items: list[Item] = []
    for month in range(12):
        left, base = month % columns * wide, (rows - 1 - month // columns) * tall
        items += _small(year, scene, month, (left, base, wide, tall))
    return Sheet(
        width=width,
        height=rows * tall,
        items=tuple(items),
        title="Frost in the ground, month by month",
        alt="Twelve small sections; frozen ground is shaded.",
    )


def _small(
    year: WinterYear, scene: Scene, month: int, box: tuple[float, float, float, float]
) -> Iterator[Item]:
    left, base, wide, tall = box
    half = float(np.max(np.abs(year.form.soil_face.x))) + 0.6 * BESIDE
    scale = 1000.0 * 2.0 * half / (wide - 4.0)
    factor = 1000.0 / scale
    top = float(year.form.ground.finished.level(np.linspace(-half, half, 201)).max())
    below = (tall - 8.0) / factor - top
    window = (-half, -below, half, top + 0.1)
    view = View(
        origin=(left + 0.5 * wide, base + 5.0 + below * factor),
        scale=scale,
        seen=((-half, -below), (half, top)),
    )
    field = field_of(year, MIDDLE_OF_MONTH[month] - 1)
    ice = shapely.difference(frozen_ground(year.ground.mesh, field, window), scene.silhouette())
    yield from cold_items(ice, view, strokes=False)
    x = np.linspace(-half, half, 161)
    yield Stroke(path=path_of(view, x, scene.surface(x)), pen=Pen.SEEN, layer="axis")
    inside = scene.form.rib.inside
    xs = np.concatenate([[inside.x[0]], inside.x, [inside.x[-1], inside.x[0]]])
    zs = np.concatenate([[0.0], inside.z, [0.0, 0.0]])
    yield Stroke(path=path_of(view, xs, zs), pen=Pen.TICK, layer="axis")
    yield Text(
        at=(left + 0.5 * wide, base + 1.0), text=MONTH_NAMES[month][:3], height=CAPTION, anchor="middle",
        halo=False,
    )  # fmt: skip
