"""Details in the ground: footing and frost, edge of the membrane, toe of the cover, air intake."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Arc, Area, Band, Hatch, Item, Pen, Sheet, Stroke, Wash
from bermwright.base.errors import BermwrightError
from bermwright.base.units import show
from bermwright.book.sheets.details.cell import (
    LOW,
    WINDOW,
    Subject,
    Words,
    cut_of,
    detail,
    fitting,
    window,
)
from bermwright.book.sheets.paper import Board, figure, note
from bermwright.book.sheets.plans.measures import chain
from bermwright.book.sheets.signs import level_triangle
from bermwright.data.rates import SKIRT
from bermwright.form.solids import Kind
from bermwright.rules.lasting.frost import cold_ground

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import View

FEWEST = 5e-3
"""Levels nearer to the floor than this are the floor's (m)."""


def footing(subject: Subject) -> Sheet | None:
    """The right footing with its wall, floor and frost line."""
    layer = subject.solids.layer(Kind.FOOTING)
    if layer is None:
        return None
    strip = next((one for one in layer.solids if one.name.startswith("right")), layer.solids[0])
    low, high = strip.low, strip.high
    top = max(0.35, float(subject.form.ground.natural.level(float(high[0]))) + 0.2)
    scale = fitting(float(high[0] - low[0]) + 0.5, top - float(low[2]) + 0.6)
    middle = max(0.5 * (top + float(low[2])) - 0.05, _drawn_to(subject) + 0.5e-3 * WINDOW * scale + 0.02)
    view = window((0.5 * float(low[0] + high[0]), middle), scale)
    figures, board = subject.figures, Board()
    frost, said = _frost(subject)
    inside = [*cut_of(subject, "y", subject.bay, view), *_frost_line(frost, view)]
    levels = [(0.0, "floor"), (float(low[2]), "underside of footing")]
    if abs(float(high[2])) > FEWEST:
        levels.append((float(high[2]), "top of footing"))
    over = [*_levels(levels, view, board, subject)]
    over += _wall_chain(subject, float(low[0]), float(high[0]), view)
    shows = [
        f"footing {figures.length(float(high[0] - low[0]))} × {figures.length(float(high[2] - low[2]))}",
        *_bars(subject),
        *_wall_words(subject),
        f"depth under natural ground {figures.length(_depth(subject, float(low[2])))}",
        said,
    ]
    words = Words(
        code="D2",
        title="footing and frost",
        shows=tuple(shows),
        without=(
            "Not drawn: drain, bedding and bars; their places are not in the file.",
            "Frost by the method of the check on footings; ask the building office for its depth.",
        ),
    )
    return detail(words, view, inside, over)


def _depth(subject: Subject, base: float) -> float:
    return float(subject.form.ground.natural.level(0.0)) - base


def _drawn_to(subject: Subject) -> float:
    """Level down to which ground is drawn (m)."""
    ground = subject.solids.layer(Kind.GROUND)
    return min((float(one.low[2]) for one in ground.solids), default=0.0) if ground else 0.0


def _frost(subject: Subject) -> tuple[float | None, str]:
    """Level of the frost line in open ground, and words."""
    house, figures = subject.house, subject.figures
    soil = house.site.soil[0] if house.site.soil else None
    try:
        cold = cold_ground(house, soil, soil.name if soil else "the ground")
    except (BermwrightError, KeyError, ValueError):
        return None, "frost: not known without a packaged climate"
    level = float(subject.form.ground.natural.level(0.0)) - cold.open
    drawn = _drawn_to(subject)
    words = f"frost of a hard winter in open ground {figures.length(cold.open)} deep, without snow"
    return (level if level > drawn else None), words if level > drawn else f"{words}: below this drawing"


def _frost_line(level: float | None, view: View) -> Iterator[Item]:
    """The line with its teeth towards the ice."""
    if level is None:
        return
    start, end = view.point(view.seen[0][0] - 0.1, level), view.point(view.seen[1][0] + 0.1, level)
    yield Stroke(path=(start, end), pen=Pen.CUT, layer="frost")
    for k in range(1, int((end[0] - start[0]) / 4.0)):
        x = start[0] + 4.0 * k
        tooth = ((x - 0.9, start[1]), (x + 0.9, start[1]), (x, start[1] + 1.8))
        yield Area(path=tooth, wash=Wash.INK, layer="frost")


def _bars(subject: Subject) -> list[str]:
    strip = next((one for one in subject.house.footings if one.vault == subject.form.name), None)
    if strip is None or strip.bars is None or strip.bar_spacing is None:
        return []
    figures = subject.figures
    return [f"bars {figures.length(strip.bars)} at {figures.length(strip.bar_spacing)} across"]


def _wall_words(subject: Subject) -> list[str]:
    figures, found = subject.figures, []
    wall = next((one for one in subject.house.walls if one.vault == subject.form.name), None)
    if wall is not None and wall.thickness is not None:
        found.append(f"wall {figures.length(wall.thickness)}: {wall.kind or 'of unknown make'}")
    heat = subject.house.ground_heat
    if heat is not None and heat.wall.insulation:
        found.append(f"insulation outside {figures.length(heat.wall.insulation)}")
    if heat is not None and heat.floor.thickness:
        under = f" on insulation {figures.length(heat.floor.insulation)}" if heat.floor.insulation else ""
        found.append(f"floor {figures.length(heat.floor.thickness)}{under}")
    return found


def _levels(levels: list[tuple[float, str]], view: View, board: Board, subject: Subject) -> Iterator[Item]:
    """Levels at the left edge of the window."""
    x = LOW[0] + 2.2
    for level, words in sorted(levels):
        y = view.point(0.0, level)[1]
        if not LOW[1] + 2.0 < y < LOW[1] + WINDOW - 4.0:
            continue
        yield level_triangle((x, y))
        yield board.put(
            figure((x + 2.2, y + up), f"{subject.figures.level(level)} {words}") for up in (0.5, -3.3, 3.6)
        )


def _wall_chain(subject: Subject, low: float, high: float, view: View) -> Iterator[Item]:
    """Toe, wall and heel under the window."""
    walls = subject.solids.layer(Kind.WALL)
    places = {low, high}
    for one in () if walls is None else walls.solids:
        if low - 1e-6 <= float(one.low[0]) and float(one.high[0]) <= high + 1e-6:
            places |= {float(one.low[0]), float(one.high[0])}
    cuts = sorted(places)
    points = [(view.point(at, 0.0)[0], LOW[1]) for at in cuts]
    yield from chain(cuts, points, subject.figures, offset=-4.5)


def membrane_edge(subject: Subject) -> Sheet | None:
    """How the membrane ends past the right foot: down over the wall, its edge free to drip."""
    band = next((one for one in subject.form.bands if one.kind == "membrane"), None)
    if band is None:
        return None
    figures, skirt = subject.figures, SKIRT.value
    foot = (float(band.outer.x[-1]), float(band.outer.z[-1]))
    view = window((foot[0] + 0.05, foot[1] - 0.12), 10.0)
    path = _edge_path(subject, foot, skirt)
    line = tuple(view.point(*at) for at in path)
    inside = [*cut_of(subject, "y", subject.bay, view)]
    inside.append(Band(path=line, thickness=0.7, hatch=Hatch.MEMBRANE, layer="membrane"))
    upright = abs(line[2][0] - line[1][0]) < 1.0
    ends = [line[2], line[1]] if upright else [line[1], line[2]]
    over = chain([0.0, skirt], ends, figures, offset=-7.0 if upright else 7.0)
    words = Words(
        code="D4",
        title="edge of the membrane",
        shows=(
            f"{band.name}, {figures.length(band.thickness)}",
            f"past the foot {figures.length(skirt)} (common practice, no source)",
            "laps fall with the water, the upper strip over the lower",
            "its lower edge hangs free into drained soil",
        ),
        without=(
            "Not drawn: fleece on both sides, fixing, drain under the edge; they are not in the file.",
            "Not checked: whether it is tight; fill a trial patch with water before soil lies on it.",
        ),
    )
    return detail(words, view, inside, over)


def _edge_path(subject: Subject, foot: tuple[float, float], skirt: float) -> tuple[tuple[float, float], ...]:
    """Down the outermost face of the wall, or out over the footing where there is none.

    Never back under the insulation; where exactly the edge lies, the file does not say.
    """
    walls = subject.solids.layer(Kind.WALL_INSULATION) or subject.solids.layer(Kind.WALL)
    top = min(foot[1], subject.form.springing)
    if walls is None:
        return foot, (foot[0], top + 0.004), (foot[0] + skirt, top + 0.004)
    outer = max(foot[0], *(float(one.high[0]) for one in walls.solids))
    return foot, (outer, top - 0.02), (outer, top - 0.02 - skirt)


def cover_toe(subject: Subject) -> Sheet | None:
    """Where the mound meets the natural ground on the right."""
    mound = [one for one in subject.solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    if not mound:
        return None
    figures, form = subject.figures, subject.form
    toe = max(float(one.high[0]) for one in mound if one.kind is Kind.TURF or len(mound) == 1)
    x = form.ground.finished.x
    toe = min(toe, float(x[-1]))
    level = float(form.ground.natural.level(toe))
    view = window((toe - 0.55, level + 0.1), 20.0)
    mound_of = subject.vault.mound
    slope = mound_of.right if mound_of is not None else None
    turf = form.ground.turf
    steps = [f"turf {figures.length(turf)}, square to the slope"] if turf > 0.0 else []
    if slope:
        steps.append(f"slope 1:{1.0 / math.tan(slope):.2g} ({show(slope, 'deg', 1, figures.system)})")
    rise = form.ground.finished.level(np.array(toe - 1.0)) - form.ground.natural.level(np.array(toe - 1.0))
    shows = (
        *steps,
        f"{figures.length(toe)} from the axis to the toe",
        f"one metre inside the toe it stands {figures.length(float(rise))} high",
        f"natural ground {figures.level(level)}",
    )
    words = Words(
        code="D5",
        title="toe of the cover",
        shows=shows,
        without=(
            "Not drawn: topsoil taken off first, a ditch or stones at the toe; they are not in the file.",
            "The slope and its turf are checked in the chapter on the whole house.",
        ),
    )
    inside = [*cut_of(subject, "y", subject.bay, view)]
    top = view.point(toe, level)
    over: list[Item] = [level_triangle(top), note((top[0] + 2.0, top[1] + 1.4), "toe")]
    return detail(words, view, inside, over)


def intake(subject: Subject) -> Sheet | None:
    """The mouth of the air tube: riser over the ground, tube in its depth, falling to its drain."""
    air = subject.house.air
    tube = air.tube if air is not None else None
    if tube is None or tube.depth is None:
        return None
    figures = subject.figures
    mouth = tube.inlet_height if tube.inlet_height is not None else 0.5
    scale = fitting(2.0, tube.depth + mouth + 1.2)
    view = window((0.9, 0.5 * (mouth - tube.depth)), scale)
    slope = tube.slope or 0.0
    inside = [*_soil_round(view), *_tube(tube.diameter, tube.depth, mouth, slope, view)]
    ground, axis, top = view.point(0.0, 0.0), view.point(0.0, -tube.depth), view.point(0.0, mouth)
    x = view.point(-0.35, 0.0)[0]
    places, spots = [-tube.depth, 0.0, mouth], [(x, axis[1]), (x, ground[1]), (x, top[1])]
    over = chain(places, spots, figures, offset=0.0)
    words = Words(
        code="D7",
        title="air intake",
        shows=tuple(_tube_words(subject)),
        without=(
            "Its way on the site, bends, hood, screen and drain pit are not in the file.",
            "A trench so deep is shored or sloped; nobody stands in it otherwise. Local rules hold.",
        ),
    )
    return detail(words, view, inside, over)


def _tube_words(subject: Subject) -> Iterator[str]:
    figures = subject.figures
    tube = subject.house.air.tube if subject.house.air is not None else None
    assert tube is not None  # noqa: S101  (the caller has looked)
    yield f"tube {figures.length(tube.diameter)} inside, {figures.length(tube.length)} long"
    if tube.material is not None:
        yield f"{tube.material}"
    if tube.slope is not None:
        yield f"falls {100.0 * tube.slope:.3g} in 100 to its drain, without a dip"
    yield {True: "drain at its lowest point", False: "no drain", None: "drain: not said"}[tube.drain]
    yield {True: "joints tight against soil gas", False: "joints not tight", None: "joints: not said"}[
        tube.sealed
    ]
    if tube.drive is not None:
        yield f"driven by {'a fan' if str(tube.drive) == 'fan' else 'a stack'}"
    if tube.inlet_height is None:
        yield "height of the mouth: not in the file, drawn at half a metre"


def _soil_round(view: View) -> Iterator[Item]:
    (low, bottom), (high, _) = view.seen
    corners = ((low - 0.1, bottom - 0.1), (high + 0.1, bottom - 0.1), (high + 0.1, 0.0), (low - 0.1, 0.0))
    path = tuple(view.point(*corner) for corner in corners)
    yield Area(path=path, wash=Wash.INSITU, hatch=Hatch.EARTH_IN_PLACE, layer="earth")
    yield Stroke(path=(path[3], path[2]), pen=Pen.CUT, layer="earth")


def _tube(wide: float, depth: float, mouth: float, slope: float, view: View) -> Iterator[Item]:
    """Riser and tube as one outline; a sweep instead of a sharp bend."""
    half, far = 0.5 * wide, view.seen[1][0] + 0.2
    drop = slope * far
    outer = [(-half, mouth), (-half, -depth - half), (far, -depth - half - drop)]
    inner = [(far, -depth + half - drop), (half, -depth + half), (half, mouth)]
    path = tuple(view.point(*at) for at in (*outer, *inner))
    yield Area(path=path, wash=Wash.PAPER, layer="air")
    for side in (outer, inner):
        yield Stroke(path=tuple(view.point(*at) for at in side), pen=Pen.SEEN, layer="air")
    cap = view.point(0.0, mouth)
    hood = (
        view.point(-1.6 * half, mouth + 0.06),
        view.point(0.0, mouth + 0.06 + 0.9 * half),
        view.point(1.6 * half, mouth + 0.06),
    )
    yield Stroke(path=hood, pen=Pen.SEEN, closed=True, layer="air")
    yield Arc(centre=cap, radius=0.4, start=0.0, end=2.0 * math.pi, pen=Pen.LAYER, layer="air")
    tail = view.point(0.55 * far, -depth - slope * 0.55 * far)
    yield Stroke(path=(view.point(0.0, -depth), view.point(far, -depth - drop)), pen=Pen.NOT_YET, layer="air")
    yield note((tail[0], tail[1] + view.length(half) + 1.0), "falls this way", "middle")
