"""Parts as places of a drawing: what a hand points at, and which table of the file that is.

In the living section they are outlines made from the form alone; in plans and elevations they are the boxes
of the bodies, as those are seen from that side. Larger places lie under smaller ones.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.form.solids import Kind
from bermwright.form.solids.seen import SIDES

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from numpy.typing import NDArray

    from bermwright.book.sheets import Scene
    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.form.solids import Solid, VaultSolids
    from bermwright.house import House, Opening, Vault

    Array = NDArray[np.float64]
    Place = dict[str, Any]
    Edges = tuple[float, float, float]
    """Least and greatest x and the lowest level that are shown (m)."""

COARSE = 0.03
"""How far an outline may leave the true one (m): a pointer is no finer."""
COLUMNS = 40
"""Of the outline of a layer of soil."""
REACH = 0.35
"""So far round a thin part the hand still finds it (m)."""
DRAWN_IN: dict[str, set[Kind]] = {
    "floor": {Kind.WALL, Kind.END, Kind.OPENING},
    "along": {Kind.END, Kind.UPPER_FLOOR, Kind.OPENING, Kind.FLUE},
    "front": {Kind.FILL, Kind.END, Kind.OPENING, Kind.FLUE},
    "back": {Kind.FILL, Kind.END, Kind.OPENING, Kind.FLUE},
    "left": {Kind.FILL, Kind.OPENING, Kind.FLUE},
    "right": {Kind.FILL, Kind.OPENING, Kind.FLUE},
}
"""What can be chosen in each drawing."""
EYES = {"floor": SIDES["above"], "along": SIDES["right"]}
"""From where plan and section along are seen; an elevation from its own side."""


# ---------------------------------------------------------------- the living section


def section_places(house: House, number: int, form: VaultForm, scene: Scene, edges: Edges) -> list[Place]:
    """Every part that the section of a vault shows."""
    vault = house.vaults[number]
    found = [
        *_soils(house, form, edges),
        *_mound(number, scene, edges),
        *_room(house, vault, form),
        *_shell(vault, number, form),
        *_feet(house, vault, number, scene),
        *_openings(house, vault, form),
    ]
    return sorted(found, key=_under)


def _under(one: Place) -> tuple[bool, float]:
    """Order of drawing: large parts first, what is let into them last."""
    return one["at"].startswith("opening"), -float(shapely.Polygon(one["ring"]).area)


def _place(at: str, name: str, kind: str, x: Iterable[float], z: Iterable[float]) -> Place:
    ring = [[round(float(a), 3), round(float(b), 3)] for a, b in zip(x, z, strict=True)]
    return {"at": at, "name": name, "kind": kind, "ring": ring}


def _between(at: str, name: str, kind: str, upper: tuple[Array, Array], lower: tuple[Array, Array]) -> Place:
    x, z = (np.concatenate([one, other[::-1]]) for one, other in zip(upper, lower, strict=True))
    outline = shapely.simplify(shapely.linestrings(np.column_stack([x, z])), COARSE)
    return _place(at, name, kind, *shapely.get_coordinates(outline).T)


def _soils(house: House, form: VaultForm, edges: Edges) -> Iterator[Place]:
    """Layers of the natural ground from the top down, each to the lower edge of the drawing."""
    low, high, bottom = edges
    x = np.linspace(low, high, COLUMNS)
    top = np.minimum(form.ground.natural.level(x), form.ground.finished.level(x))
    depth = 0.0
    for place, soil in enumerate(house.site.soil):
        upper = top - depth
        if float(upper.max()) > bottom:
            lower = np.full_like(x, bottom)
            yield _between(
                f"site.soil.{place}", soil.name, "soil", (x, np.maximum(upper, bottom)), (x, lower)
            )
        depth += soil.thickness or 0.0


def _mound(number: int, scene: Scene, edges: Edges) -> Iterator[Place]:
    for part in scene.placed(edges[0], edges[1]):
        x, z = shapely.get_coordinates(shapely.simplify(part.exterior, COARSE)).T
        yield _place(f"vault.{number}.mound", "mound", "mound", x, z)


def _room(house: House, vault: Vault, form: VaultForm) -> Iterator[Place]:
    """The end wall that one sees on walking in."""
    inside = form.rib.inside
    x = [float(inside.x[0]), *inside.x[::20].tolist(), float(inside.x[-1])]
    z = [0.0, *inside.z[::20].tolist(), 0.0]
    for place, end in enumerate(house.ends):
        if end.vault == vault.name and str(end.at) == "back":
            yield _place(f"end.{place}", "back end", "end", x, z)


def _shell(vault: Vault, number: int, form: VaultForm) -> Iterator[Place]:
    yield _band(f"vault.{number}", vault.name, "vault", form.rib.inside, form.rib.outside)
    for place, (layer, band) in enumerate(zip(vault.cover, form.bands, strict=True)):
        yield _band(f"vault.{number}.cover.{place}", layer.title, "cover", band.inner, band.outer)


def _band(at: str, name: str, kind: str, inner: CurveLine, outer: CurveLine) -> Place:
    return _between(at, name, kind, (outer.x, outer.z), (inner.x, inner.z))


def _feet(house: House, vault: Vault, number: int, scene: Scene) -> Iterator[Place]:
    """Walls and footings under both springings."""
    for outline, support in scene.support_outlines():
        side = "left" if outline[0][0] < scene.crown_x else "right"
        is_footing = support.name == "footing"
        at, name = _foot(house, vault, side, footing=is_footing) or (f"vault.{number}.feet", support.name)
        yield _place(at, name, "footing" if is_footing else "wall", *np.array(outline).T)


def _foot(house: House, vault: Vault, side: str, *, footing: bool) -> tuple[str, str] | None:
    """The table of the wall or the footing on a side."""
    key = "footing" if footing else "wall"
    tables: tuple[Any, ...] = house.footings if footing else house.walls
    for place, one in enumerate(tables):
        if one.vault == vault.name and one.side in {"both", side}:
            return f"{key}.{place}", one.name
    return None


def _openings(house: House, vault: Vault, form: VaultForm) -> Iterator[Place]:
    """Holes of the end that one looks at, and those in the shell."""
    for place, one in enumerate(house.openings):
        box = _hole(one, form) if one.vault == vault.name else None
        if box is not None:
            low, bottom, high, top = box
            corners = ((low, high, high, low), (bottom, bottom, top, top))
            yield _place(f"opening.{place}", one.name, str(one.kind), *corners)


def _hole(one: Opening, form: VaultForm) -> tuple[float, float, float, float] | None:
    """Where an opening is seen in the section (m); None where it is not, or the file does not say."""
    side, face = str(one.side), form.soil_face
    if side == "crown":
        middle = one.across or 0.0
        low = float(np.interp(middle, form.rib.inside.x, form.rib.inside.z))
        return middle - 0.5 * one.width, low, middle + 0.5 * one.width, float(face.z.max()) + REACH
    if side == "back" and one.sill is not None:
        middle = one.across or 0.0
        return middle - 0.5 * one.width, one.sill, middle + 0.5 * one.width, one.sill + one.height
    if side in {"left", "right"} and one.sill is not None:
        near, far = 0.5 * form.span - REACH, 0.5 * form.span + REACH
        low, high = (near, far) if side == "right" else (-far, -near)
        return low, one.sill, high, one.sill + one.height
    return None


# ---------------------------------------------------------------- plans and elevations


def seen_places(house: House, number: int, solids: VaultSolids, drawing: str) -> list[Place]:
    """Parts as boxes on a plan, the section along or an elevation; none in other drawings."""
    kinds, eye = DRAWN_IN.get(drawing, set()), EYES.get(drawing, SIDES.get(drawing))
    vault = house.vaults[number]
    found = [_whole(vault, number, solids, drawing)] if drawing in {"floor", "along"} else []
    for one in solids.solids:
        named = _table(house, vault, number, one) if one.kind in kinds else None
        if named is not None and eye is not None and _faces(house, one, drawing):
            found.append(_box(*named, one.low, one.high, eye))
    return sorted(found, key=_under)


def _whole(vault: Vault, number: int, solids: VaultSolids, drawing: str) -> Place:
    half, top = 0.5 * solids.span, float(max(one.high[2] for one in solids.solids if one.kind is Kind.RIB))
    low, high = np.array([-half, 0.0, 0.0]), np.array([half, solids.length, top])
    return _box(f"vault.{number}", vault.name, "vault", low, high, EYES[drawing])


def _box(at: str, name: str, kind: str, low: Array, high: Array, eye: Array) -> Place:
    one, other = eye[:2] @ low, eye[:2] @ high
    (left, down), (right, up) = np.minimum(one, other), np.maximum(one, other)
    if right - left < REACH:
        left, right = 0.5 * (left + right - REACH), 0.5 * (left + right + REACH)
    return _place(at, name, kind, (left, right, right, left), (down, down, up, up))


def _faces(house: House, solid: Solid, drawing: str) -> bool:
    """Whether a part looks to the side of an elevation; plans show all."""
    if drawing in {"floor", "along"} or solid.kind in {Kind.FILL, Kind.FLUE}:
        return True
    if solid.kind is Kind.END:
        return solid.name.startswith(drawing)
    opening = next((one for one in house.openings if one.name == solid.name), None)
    return opening is not None and str(opening.side) in {drawing, "crown"}


def _table(house: House, vault: Vault, number: int, solid: Solid) -> tuple[str, str, str] | None:
    """Place, name and kind of the table that a body comes from."""
    side = solid.name.partition(" ")[0]
    match solid.kind:
        case Kind.OPENING | Kind.FLUE:
            return _named("opening", house.openings, solid.name)
        case Kind.UPPER_FLOOR:
            return _named("floor", house.floors, solid.name.removesuffix(" upper floor"))
        case Kind.END:
            ends = ((place, str(one.at)) for place, one in enumerate(house.ends) if one.vault == vault.name)
            return next(((f"end.{place}", f"{at} end", "end") for place, at in ends if at == side), None)
        case Kind.WALL:
            found = _foot(house, vault, side, footing=False)
            return (*found, "wall") if found is not None else (f"vault.{number}.feet", "wall", "wall")
        case Kind.FILL:
            return f"vault.{number}.mound", "mound", "mound"
        case _:
            return None


def _named(key: str, tables: Iterable[Any], name: str) -> tuple[str, str, str] | None:
    places = (place for place, one in enumerate(tables) if one.name == name)
    return next(((f"{key}.{place}", name, key) for place in places), None)
