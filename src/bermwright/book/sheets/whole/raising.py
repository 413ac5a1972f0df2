"""The bare ribs seen from the side, as they stand in the wind: braces, guys, anchors and their forces."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Arc, Area, Dimension, Ink, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.base.units import show
from bermwright.book.sheets.paper import Board, figure, heading, note
from bermwright.book.sheets.whole.arrows import force_arrow, whole
from bermwright.rules.erection.works import (
    WIND_FACTOR,
    board_force,
    guy_angle,
    guy_holds,
    guy_lever,
    holding,
    rib_wind,
)

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.house import BraceBoards, Guy
    from bermwright.rules.erection.works import RibWind
    from bermwright.rules.study import Study

WIDTH = 174.0
SCALES = (50.0, 100.0, 200.0)
BELOW = 16.0
ABOVE = 26.0


def raising_sheet(study: Study, *, system: str = "metric") -> Sheet | None:
    """Elevation along the axis, the front on the left; None while nothing is said of braces and guys."""
    erection, form = study.house.erection, study.form
    if erection is None:
        return None
    reach = max([1.2, *(guy.reach for guy in erection.guys)])
    room = (form.length + 2.0 * reach + 1.0) * 1000.0
    scale = next((one for one in SCALES if room / one <= WIDTH), SCALES[-1])
    ground = float(form.ground.natural.level(0.0))
    low = min(ground, 0.0)
    top = float(form.rib.centreline.z.max())
    factor = 1000.0 / scale
    view = View(origin=(0.5 * WIDTH - 0.5 * form.length * factor, BELOW - low * factor), scale=scale)
    height = (top - low) * factor + BELOW + ABOVE
    board = Board()
    items: list[Item] = [
        heading((0.0, height - 5.0), f"{study.vault.name}, ribs up, from the left side", 3.2),
        figure((0.0, height - 10.5), f"1:{scale:.0f}; the front is on the left; the other side is alike"),
    ]
    items += _ribs(study, view, ground)
    for brace in erection.braces:
        items += _boards(study, brace, view)
    for guy in erection.guys:
        items += _guys(study, guy, view, ground)
    wind = rib_wind(study)
    if wind is not None:
        items += _forces(study, wind, view, board, system)
    ends = (view.point(0.0, low), view.point(form.length, low))
    items.append(Dimension(start=ends[0], end=ends[1], offset=-7.0, text=show(form.length, "m", 2, system)))
    alt = f"The {form.ribs} bare ribs of {study.vault.name} from the side, with braces and guys."
    return Sheet(width=WIDTH, height=height, items=tuple(items), title="Raising the ribs", alt=alt, view=view)


def _ribs(study: Study, view: View, ground: float) -> Iterator[Item]:
    form = study.form
    low, high = form.springing, float(form.rib.outside.z.max())
    left, right = view.point(-6.0, ground), view.point(form.length + 6.0, ground)
    yield Stroke(
        path=((max(left[0], 0.0), left[1]), (min(right[0], WIDTH), right[1])), pen=Pen.CUT, layer="earth"
    )
    start, end = view.point(-0.1, min(ground, low)), view.point(form.length + 0.1, low)
    wall = (start, (end[0], start[1]), end, (start[0], end[1]))
    yield Area(path=wall, wash=Wash.INSITU, outline=Pen.SEEN, layer="wall")
    half = 0.5 * form.rib.width
    for number in range(form.ribs):
        middle = number * form.length / (form.ribs - 1)
        a, b = view.point(middle - half, low), view.point(middle + half, high)
        yield Area(path=(a, (b[0], a[1]), b, (a[0], b[1])), wash=Wash.TIMBER, outline=Pen.LAYER, layer="rib")


def _boards(study: Study, brace: BraceBoards, view: View) -> Iterator[Item]:
    """Boards of one side: half of them each way, spread over the length."""
    form = study.form
    run = (brace.ribs - 1) * form.length / (form.ribs - 1)
    tall = float(form.rib.centreline.z.max()) - form.springing
    rise = min(run * math.tan(brace.slant), 0.92 * tall)
    room = max(form.length - run, 0.0)
    for number in range(brace.count):
        start = room * (number / max(brace.count - 1, 1))
        up = number % 2 == 0
        feet = (start if up else start + run, form.springing + 0.04 * tall)
        head = (start + run if up else start, form.springing + 0.04 * tall + rise)
        yield from _board(view.point(*feet), view.point(*head), view.length(brace.section.width))


def _board(start: Point, end: Point, width: float) -> Iterator[Item]:
    size = math.dist(start, end)
    u, v = (end[0] - start[0]) / size, (end[1] - start[1]) / size
    half = 0.5 * max(width, 0.8)
    path = (
        (start[0] - half * v, start[1] + half * u),
        (end[0] - half * v, end[1] + half * u),
        (end[0] + half * v, end[1] - half * u),
        (start[0] + half * v, start[1] - half * u),
    )
    yield Area(path=path, wash=Wash.PAPER, outline=Pen.SEEN, layer="brace")


def _guys(study: Study, guy: Guy, view: View, ground: float) -> Iterator[Item]:
    for x, way in ((0.0, -1.0), (study.form.length, 1.0)):
        top = view.point(x, guy.level)
        foot = view.point(x + way * guy.reach, ground)
        yield Stroke(path=(top, foot), pen=Pen.TICK, layer="brace")
        yield Arc(centre=foot, radius=1.1, start=0.0, end=2.0 * math.pi, pen=Pen.CUT, layer="brace")
        yield Stroke(
            path=((foot[0], foot[1]), (foot[0] + 1.2 * way, foot[1] - 4.0)), pen=Pen.CUT, layer="brace"
        )


def _forces(study: Study, wind: RibWind, view: View, board: Board, system: str) -> Iterator[Item]:
    erection, form = study.house.erection, study.form
    asked = WIND_FACTOR * wind.all
    head = view.point(-0.05, form.springing + wind.height)
    yield from force_arrow(
        head,
        (1.0, 0.0),
        length=16.0,
        words=(whole(asked, system), "wind on all ribs"),
        board=board,
        ink=Ink.RED,
    )
    held = holding(study, wind)
    middle = view.point(0.5 * form.length, float(form.rib.outside.z.max()))
    lines = []
    for brace in () if erection is None else erection.braces:
        share = asked * held.braces / held.all if held.all else asked
        lines.append(f"each brace board takes {whole(board_force(brace, share), system)}")
    for guy in () if erection is None else erection.guys:
        lines += _guy_lines(study, guy, wind, (asked, held.all), system)
    for number, line in enumerate(lines):
        yield board.take(note((middle[0], middle[1] + 3.0 + 4.2 * (len(lines) - 1 - number)), line, "middle"))


def _guy_lines(
    study: Study, guy: Guy, wind: RibWind, sums: tuple[float, float], system: str
) -> Iterator[str]:
    asked, there = sums
    holds = guy_holds(study, guy)
    if holds is None or not there:
        yield f"guys at {guy.level:+.2f}: what they hold is not said"
        return
    share = asked * holds * guy_lever(study, guy, wind) / there / guy_lever(study, guy, wind)
    angle = guy_angle(study, guy)
    pull = share / guy.count / math.cos(angle)
    up = pull * math.sin(angle)
    yield f"each guy pulls {whole(pull, system)}, and lifts its anchor with {whole(up, system)}"
