"""The site plan: mound with contour lines, vault under it, ways in, levels; north up where it is known."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.drawing import Area, Arrow, Item, Pen, Sheet, Text, View, Wash
from bermwright.base.units import show
from bermwright.book.sheets.paper import Board, Figures, figure, heading, note
from bermwright.book.sheets.plans.measures import bar_length, chain, north, scale_bar, section_mark
from bermwright.book.sheets.plans.style import area, strokes
from bermwright.book.sheets.settling import settled
from bermwright.book.sheets.signs import level_triangle
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import contour, parts_of, shadow

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import Solid, VaultSolids
    from bermwright.house import House, Vault

    Mapping = Callable[[float, float], Point]

SCALES = (50.0, 100.0, 200.0, 500.0, 1000.0)
EVERY, EVERY_FEET = 0.5, 0.6096
"""Contour lines are drawn so far apart in height (m): half metres, or two feet."""
BESIDE = 1.0
"""Ground shown round the mound (m)."""
FOOT, HEAD, SIDE = 22.0, 20.0, 22.0
SMALL = 200.0
"""Scales beyond this have no room for the levels of contour lines and for small parts."""
"""Paper under, over and beside the plan (mm)."""
SEAM = 0.03
"""A vault is taken as so much wider than its soil face, so that no line runs between it and the fill (m)."""
PAST = 18.0
"""Section marks stand so far past the toe on the sides with dimensions (mm)."""
AROUND = tuple(
    (u, v) for v in (0.0, -5.0, 5.0, -10.0, 10.0, -15.0, 15.0) for u in (0.0, -9.0, 9.0, -18.0, 18.0)
)
"""Where a word may move to when its own place is taken (mm)."""
LEVEL_GROUND = math.radians(0.1)
"""A slope that counts as none (rad)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """Places of the vault (across, along) on the paper, turned so that north is up where it is known."""

    view: View
    turn: float
    """Direction of the vault's axis on paper (rad from the right, anticlockwise)."""

    def point(self, x: float, y: float) -> Point:
        """The sheet point (mm)."""
        cosine, sine = math.cos(self.turn), math.sin(self.turn)
        # Right, as seen walking in, is a quarter turn clockwise from the axis.
        return self.view.point(y * cosine + x * sine, y * sine - x * cosine)

    def way(self, x: float, y: float) -> Point:
        """A direction of the vault on paper, one long."""
        zero, one = self.point(0.0, 0.0), self.point(x, y)
        size = math.dist(zero, one)
        return (one[0] - zero[0]) / size, (one[1] - zero[1]) / size


def site_plan(
    house: House,
    vault: Vault,
    form: VaultForm,
    solids: VaultSolids,
    *,
    width: float = 380.0,
    height: float = 250.0,
    system: str = "metric",
) -> Sheet:
    """The plan of the site round one vault, at the largest scale of ISO 5455 that fits."""
    figures = Figures(system=system)
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    outline = shadow(mound) if mound else shapely.box(*_footprint(form, solids))
    turn = 0.5 * math.pi - vault.axis if vault.axis is not None else 0.0
    frame = _bounds(outline, form, solids, turn)
    scale = next((one for one in SCALES if _fits(frame, one, width, height)), SCALES[-1])
    factor = 1000.0 / scale
    size = (
        (frame[2] - frame[0]) * factor + 2.0 * SIDE,
        (frame[3] - frame[1]) * factor + FOOT + HEAD,
    )
    view = View(origin=(SIDE - frame[0] * factor, FOOT - frame[1] * factor), scale=scale)
    turned = Turned(view=view, turn=turn)
    board = Board()
    items: list[Item] = [*_ground(outline, mound, form, solids, turned)]
    items += _sections(form, outline, turned, board)
    items += _measures(form, outline, turned, figures)
    levels = list(_levels(house, form, turned, outline, board, figures))
    words = list(_vault(house, form, turned, board, figures))
    items += [*_contours(solids, form, turned, board, figures), *words, *levels]
    title = f"Site plan, {form.name}"
    items += [heading((2.0, size[1] - 5.0), title), figure((2.0, size[1] - 10.5), _words(scale, figures))]
    items += _fall(house, _past_bar(scale, figures), figures)
    items += _north(vault, size)
    items += scale_bar((2.0, 3.0), scale, figures)
    alt = f"Site plan of {form.name}: mound, vault under it, contour lines and levels."
    return settled(Sheet(width=size[0], height=size[1], items=tuple(items), title=title, alt=alt, view=view))


def _words(scale: float, figures: Figures) -> str:
    return f"1:{scale:.0f}; levels in {'m' if figures.system == 'metric' else 'ft'} from the finished floor"


def _footprint(form: VaultForm, solids: VaultSolids) -> tuple[float, float, float, float]:
    built = [one for one in solids.solids if one.kind not in {Kind.GROUND, Kind.FILL, Kind.TURF}]
    return (
        min(float(one.low[0]) for one in built),
        0.0,
        max(float(one.high[0]) for one in built),
        form.length,
    )


def _bounds(
    outline: shapely.Polygon, form: VaultForm, solids: VaultSolids, turn: float
) -> tuple[float, float, float, float]:
    """What is shown on the paper's axes (m)."""
    whole = shapely.union_all([outline, shapely.box(*_footprint(form, solids))]).envelope
    corners = shapely.get_coordinates(shapely.buffer(whole, BESIDE, join_style="mitre"))
    u = corners[:, 1] * math.cos(turn) + corners[:, 0] * math.sin(turn)
    v = corners[:, 1] * math.sin(turn) - corners[:, 0] * math.cos(turn)
    return float(u.min()), float(v.min()), float(u.max()), float(v.max())


def _fits(frame: tuple[float, float, float, float], scale: float, width: float, height: float) -> bool:
    wide = (frame[2] - frame[0]) * 1000.0 / scale + 2.0 * SIDE
    return wide <= width and (frame[3] - frame[1]) * 1000.0 / scale + FOOT + HEAD <= height


def _ground(
    outline: shapely.Polygon, mound: list[Solid], form: VaultForm, solids: VaultSolids, turned: Turned
) -> Iterator[Item]:
    """The mound with its toe, and the ways that are kept free."""
    for part in parts_of(outline):
        yield area(part, turned.point, Wash.EARTH, layer="earth")
    if mound:
        yield from strokes(outline.boundary, turned.point, Pen.CUT, "earth")
    del form, solids


def _vault(
    house: House,
    form: VaultForm,
    turned: Turned,
    board: Board,
    figures: Figures,
) -> Iterator[Item]:
    """The shell and the footings under the mound, dashed; the way in as an arrow; the name."""
    face = form.soil_face.x
    shell = shapely.box(float(face.min()), 0.0, float(face.max()), form.length)
    yield from strokes(shell.boundary, turned.point, Pen.SEEN, "shell")
    inner = shapely.box(float(form.rib.inside.x[0]), 0.0, float(form.rib.inside.x[-1]), form.length)
    yield from strokes(inner.boundary, turned.point, Pen.HIDDEN, "rib")
    for one in house.openings:
        if one.vault != form.name:
            continue
        if str(one.kind) == "door" and one.side.in_end:
            sign = 1.0 if str(one.side) == "front" else -1.0
            base = 0.0 if sign > 0 else form.length
            tail, head = (
                turned.point(one.across, base - sign * 1.6),
                turned.point(one.across, base + sign * 0.3),
            )
            yield Arrow(tail=tail, head=head, pen=Pen.FORCE, layer="openings")
            xs, ys = zip(tail, head, strict=True)
            board.block((min(xs) - 1.0, min(ys) - 1.0), (max(xs) + 1.0, max(ys) + 1.0))
            words = f"way in: {one.name}"
            if turned.view.scale > SMALL:
                continue
            yield board.put(note((tail[0] + u, tail[1] - 4.0 + v), words, "middle") for u, v in AROUND)
        elif str(one.side) == "crown" and one.along is not None and turned.view.scale <= SMALL:
            at = turned.point(float(form.mesh.soil_x[form.mesh.crown]), one.along)
            size = max(0.5 * turned.view.length(one.width), 0.8)
            box = tuple((at[0] + a * size, at[1] + b * size) for a, b in ((-1, -1), (1, -1), (1, 1), (-1, 1)))
            yield Area(path=box, wash=Wash.PAPER, outline=Pen.SEEN, layer="openings")
            board.block(box[0], box[2])
            yield board.put(note((at[0] + size + 1.0 + u, at[1] - 0.9 + v), one.name) for u, v in AROUND)
    middle = turned.point(0.0, 0.55 * form.length)
    yield board.put(
        heading((middle[0] + u, middle[1] + 3.0 + v), form.name, 3.4, "middle") for u, v in AROUND
    )
    words = f"floor {figures.level(0.0)}"
    if turned.view.scale > SMALL:
        return
    yield board.put(figure((middle[0] + u, middle[1] - 3.0 + v), words, "middle") for u, v in AROUND)


def _contours(
    solids: VaultSolids, form: VaultForm, turned: Turned, board: Board, figures: Figures
) -> Iterator[Item]:
    """Lines of equal height of the finished ground, each with its level."""
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    if not mound:
        return
    earth = [*mound, *(one for one in solids.solids if one.kind is Kind.GROUND)]
    window = shapely.buffer(shadow(mound).envelope, 0.5 * BESIDE)
    low, top = float(form.ground.natural.z.min()), float(form.ground.finished.z.max())
    every = EVERY if figures.system == "metric" else EVERY_FEET
    for level in np.arange(math.floor(low / every + 1.0) * every, top - 1e-6, every):
        for ring in contour(earth, float(level) + 1e-4, _shell_at(form, float(level))):
            edge = shapely.intersection(ring.exterior, window)
            if edge.is_empty:
                continue
            yield from strokes(edge, turned.point, Pen.LAYER, "earth")
            if turned.view.scale <= SMALL:
                yield from _contour_figure(edge, float(level), turned, board, figures)


def _shell_at(form: VaultForm, level: float) -> shapely.Polygon:
    """What the vault itself fills at a level: no contour line runs through the house."""
    face = form.soil_face
    inside = face.x[face.z >= level]
    if level < form.springing or inside.size == 0:
        inside = face.x if level < form.springing else np.zeros(2)
    return shapely.box(float(inside.min()) - SEAM, 0.0, float(inside.max()) + SEAM, form.length)


def _contour_figure(
    edge: shapely.Geometry, level: float, turned: Turned, board: Board, figures: Figures
) -> Iterator[Item]:
    """The level of a line, on the first place along it that is free."""
    points = [edge.interpolate(share, normalized=True) for share in np.linspace(0.03, 0.97, 24)]
    tall = 2.0
    for point in points:
        at = turned.point(point.x, point.y)
        text = Text(
            at=(at[0], at[1] - 0.5 * tall),
            text=figures.level(level),
            height=tall,
            anchor="middle",
            layer="earth",
        )
        if board.free(text):
            yield board.take(text)
            return


def _top(form: VaultForm) -> float:
    """Highest level of the finished ground (m)."""
    return form.ground.top


def _levels(
    house: House,
    form: VaultForm,
    turned: Turned,
    outline: shapely.Polygon,
    board: Board,
    figures: Figures,
) -> Iterator[Item]:
    """Top of the mound, natural ground left and right, what lies before the ends."""
    ground = form.ground
    low_x, low_y, high_x, high_y = outline.bounds
    top = float(ground.finished.x[int(np.argmax(ground.finished.z))])
    left, right = (float(ground.natural.level(x)) for x in (low_x - 0.35, high_x + 0.35))
    spots = [
        (0.0 if abs(top) < 1.0 else top, 0.3 * form.length, f"{figures.level(_top(form))} finished"),
        (low_x - 0.7, 0.1 * form.length, f"{figures.level(left)} natural"),
    ]
    if abs(right - left) > SEAM:
        spots.append((high_x + 0.35, 0.1 * form.length, f"{figures.level(right)} natural"))
    for end in house.ends:
        if end.vault == form.name and end.soil_to is not None:
            y = (
                low_y + 0.35 * (0.0 - low_y)
                if str(end.at) == "front"
                else high_y - 0.3 * (high_y - form.length)
            )
            spots.append((0.9, y, f"{figures.level(end.soil_to)} finished"))
    for x, y, words in spots:
        at = turned.point(x, y)
        yield level_triangle(at)
        board.block((at[0] - 1.5, at[1]), (at[0] + 1.5, at[1] + 2.2))
        yield board.put(
            (
                figure((at[0] + 2.1, at[1] + 0.3), words),
                figure((at[0] - 2.1, at[1] + 0.3), words, "end"),
                figure((at[0], at[1] + 3.2), words, "middle"),
                figure((at[0], at[1] - 4.0), words, "middle"),
            )
        )


def _measures(form: VaultForm, outline: shapely.Polygon, turned: Turned, figures: Figures) -> Iterator[Item]:
    """Chains behind and beside the mound: how far it reaches past the vault on all four sides, and whole."""
    low_x, low_y, high_x, high_y = outline.bounds
    across = sorted({low_x, float(form.soil_face.x.min()), float(form.soil_face.x.max()), high_x})
    along = sorted({low_y, 0.0, form.length, high_y})
    for offset, places in ((6.0, across), (12.0, [low_x, high_x])):
        ends = [turned.point(x, high_y) for x in places]
        yield from chain(places, ends, figures, offset=offset)
    for offset, places in ((-6.0, along), (-12.0, [low_y, high_y])):
        ends = [turned.point(high_x, y) for y in places]
        yield from chain(places, ends, figures, offset=offset)


def _sections(form: VaultForm, outline: shapely.Polygon, turned: Turned, board: Board) -> Iterator[Item]:
    low_x, low_y, high_x, high_y = outline.bounds
    near, far = (one * turned.view.scale / 1000.0 for one in (5.0, PAST))
    for x in (low_x - near, high_x + far):
        at = turned.point(x, 0.5 * form.length)
        board.block((at[0] - 6.0, at[1] - 6.0), (at[0] + 6.0, at[1] + 6.0))
        yield from section_mark(at, turned.way(0.0, 1.0), "A")
    for y in (low_y - near, high_y + far):
        at = turned.point(0.0, y)
        board.block((at[0] - 6.0, at[1] - 6.0), (at[0] + 6.0, at[1] + 6.0))
        yield from section_mark(at, turned.way(-1.0, 0.0), "B")


def _past_bar(scale: float, figures: Figures) -> Point:
    """A place beside the bar of the scale, in the lower left corner: the title block is in the other one."""
    return 2.0 + bar_length(scale, figures) + 14.0, 3.0


def _fall(house: House, at: Point, figures: Figures) -> Iterator[Item]:
    """The direction in which the natural ground falls, and how steeply."""
    slope, faces = house.site.slope, house.site.faces
    if slope is None:
        yield note(at, "slope of the ground: not given")
        return
    if abs(slope) < LEVEL_GROUND:
        yield note(at, "natural ground level")
        return
    words = f"ground falls {show(slope, 'deg', 1, figures.system)}"
    yield note((at[0] + 8.0, at[1]), words if faces is not None else f"{words}, direction not given")
    if faces is not None:
        turn = 0.5 * math.pi - faces
        middle, reach = (at[0], at[1] + 3.0), 5.0
        tail = (middle[0] - reach * math.cos(turn), middle[1] - reach * math.sin(turn))
        head = (middle[0] + reach * math.cos(turn), middle[1] + reach * math.sin(turn))
        yield Arrow(tail=tail, head=head, pen=Pen.FORCE, layer="earth")


def _north(vault: Vault, size: tuple[float, float]) -> Iterator[Item]:
    if vault.axis is None:
        yield figure((size[0] - 2.0, size[1] - 8.0), "north: not given", "end")
        return
    yield from north((size[0] - 12.0, size[1] - 16.0), 0.5 * math.pi, 8.0)
