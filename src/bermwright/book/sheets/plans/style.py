"""How bodies look on paper: cut by the plane of the drawing, or seen beyond it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from bermwright.base.drawing import Area, Hatch, Path, Pen, Stroke, Wash
from bermwright.book.sheets.parts.shell import RIGID
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import parts_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from bermwright.base.drawing import Item
    from bermwright.form.solids import Solid
    from bermwright.form.solids.cutting import Face, Shape
    from bermwright.house import House

CUT = {
    Kind.GROUND: (Wash.INSITU, Hatch.EARTH_IN_PLACE),
    Kind.FOOTING: (Wash.PAPER, Hatch.CONCRETE),
    Kind.WALL: (Wash.PAPER, Hatch.MASONRY),
    Kind.WALL_INSULATION: (Wash.INSULATION, Hatch.INSULATION_RIGID),
    Kind.FLOOR: (Wash.PAPER, Hatch.CONCRETE),
    Kind.FLOOR_INSULATION: (Wash.INSULATION, Hatch.INSULATION_RIGID),
    Kind.RIB: (Wash.TIMBER, Hatch.TIMBER_ACROSS),
    Kind.LAGGING: (Wash.LAGGING, Hatch.TIMBER_ALONG),
    Kind.MEMBRANE: (Wash.INK, Hatch.NONE),
    Kind.VAPOUR_CONTROL: (Wash.INK, Hatch.NONE),
    Kind.INSULATION: (Wash.INSULATION, Hatch.INSULATION_RIGID),
    Kind.DRAINAGE: (Wash.PAPER, Hatch.GRAVEL),
    Kind.FLEECE: (Wash.GREY, Hatch.NONE),
    Kind.END: (Wash.LAGGING, Hatch.TIMBER_ALONG),
    Kind.UPPER_FLOOR: (Wash.TIMBER, Hatch.TIMBER_ALONG),
    Kind.OPENING: (Wash.PAPER, Hatch.NONE),
    Kind.FLUE: (Wash.GREY, Hatch.NONE),
    Kind.COURSE: (Wash.EARTH, Hatch.EARTH_TUBE),
    Kind.FILL: (Wash.EARTH, Hatch.EARTH_PLACED),
    Kind.TURF: (Wash.EARTH, Hatch.EARTH_PLACED),
}
"""Wash and hatch of each kind of body where the drawing cuts it."""
SEEN = {
    Kind.GROUND: Wash.INSITU,
    Kind.WALL: Wash.PAPER,
    Kind.RIB: Wash.TIMBER,
    Kind.LAGGING: Wash.LAGGING,
    Kind.END: Wash.LAGGING,
    Kind.OPENING: Wash.COLD,
    Kind.FILL: Wash.EARTH,
    Kind.TURF: Wash.EARTH,
    Kind.INSULATION: Wash.INSULATION,
    Kind.WALL_INSULATION: Wash.INSULATION,
    Kind.COURSE: Wash.EARTH,
}
"""Wash of what is seen; nothing else has one."""
EARTH = {Kind.GROUND, Kind.FILL, Kind.TURF}
LAYERS = {
    Kind.GROUND: "earth",
    Kind.FILL: "earth",
    Kind.TURF: "turf",
    Kind.FOOTING: "support",
    Kind.WALL: "support",
    Kind.WALL_INSULATION: "insulation",
    Kind.FLOOR: "floor",
    Kind.FLOOR_INSULATION: "insulation",
    Kind.RIB: "rib",
    Kind.END: "ends",
    Kind.OPENING: "openings",
    Kind.FLUE: "flue",
    Kind.COURSE: "courses",
}
"""Layer of a sheet for each kind; the layers over the ribs go by their own names."""
WALLS = {"concrete with bars": Hatch.CONCRETE, "earth tubes or bags": Hatch.EARTH_TUBE}
"""Hatches of walls that are no masonry."""


def layer_of(kind: Kind) -> str:
    """The layer of a sheet that bodies of a kind are drawn on."""
    return LAYERS.get(kind, str(kind))


def ring_path(ring: Shape, point: Callable[[float, float], tuple[float, float]]) -> Path:
    """A closed ring (m) as a path of the sheet."""
    return tuple(point(float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1])


def area(
    shape: Shape,
    point: Callable[[float, float], tuple[float, float]],
    wash: Wash,
    hatch: Hatch = Hatch.NONE,
    *,
    layer: str = "drawing",
    along: float | None = None,
) -> Area:
    """A polygon (m) as an area of the sheet."""
    return Area(
        path=ring_path(shape.exterior, point),
        holes=tuple(ring_path(ring, point) for ring in shape.interiors),
        wash=wash,
        hatch=hatch,
        along=along,
        layer=layer,
    )


def cut_items(
    faces: Iterable[Face],
    point: Callable[[float, float], tuple[float, float]],
    window: Shape,
    hatches: dict[str, Hatch],
) -> Iterator[Item]:
    """Cut bodies inside a window (m): the earth first and without an edge, then all else with one."""
    order = sorted(faces, key=lambda face: face.kind not in EARTH)
    for face in order:
        wash, hatch = CUT[face.kind]
        hatch = hatches.get(face.name, hatch)
        for part in parts_of(shapely.intersection(face.shape, window)):
            yield area(part, point, wash, hatch, layer=layer_of(face.kind), along=0.0)
    for face in order:
        pen = Pen.LAYER if face.kind in EARTH | {Kind.OPENING} else Pen.SEEN
        edge = shapely.intersection(face.shape.boundary, shapely.buffer(window, -1e-6))
        yield from strokes(edge, point, pen, layer_of(face.kind))


def strokes(
    lines: Shape, point: Callable[[float, float], tuple[float, float]], pen: Pen, layer: str
) -> Iterator[Stroke]:
    """Lines (m) as strokes of the sheet."""
    merged = shapely.line_merge(lines) if lines.geom_type == "MultiLineString" else lines
    for part in shapely.get_parts(merged):
        if part.geom_type == "LineString" and part.length > 1e-6:
            path = tuple(point(float(x), float(y)) for x, y in shapely.get_coordinates(part))
            yield Stroke(path=path, pen=pen, layer=layer)


def hatches_of(house: House, vault: str, solids: Iterable[Solid]) -> dict[str, Hatch]:
    """Hatches of bodies whose material is another than that of their kind."""
    found: dict[str, Hatch] = {}
    for wall in house.walls:
        if wall.vault == vault and str(wall.kind) in WALLS:
            found |= {f"{side} wall": WALLS[str(wall.kind)] for side in ("left", "right")}
    for end in house.ends:
        if end.vault == vault and str(end.kind) in {"blocks", "earth tubes"}:
            found[f"{end.at} wall"] = Hatch.MASONRY if str(end.kind) == "blocks" else Hatch.EARTH_TUBE
    for solid in solids:
        if solid.kind is Kind.INSULATION and not any(w in solid.name.lower() for w in RIGID):
            found[solid.name] = Hatch.INSULATION_SOFT
    return found
