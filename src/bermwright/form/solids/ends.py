"""End walls, what stands in their openings, and the holes in the shell."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.form.solids.bodies import Body, box, pipe, pushed, solid, without
from bermwright.form.solids.nouns import Hole, Kind, Layer, Pushed
from bermwright.form.solids.shell import room_outline
from bermwright.house.parts.choices import EndKind, EndSide, OpeningKind, OpeningSide

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids.nouns import Solid
    from bermwright.form.solids.under import Support
    from bermwright.house import End, House, Opening, Vault

    Array = NDArray[np.float64]

LEAF = 0.06
"""Doors and windows are drawn so thick where their wall is thicker (m); the file does not say it."""
OUT = 30.0
"""Further than any shaft reaches (m)."""
OVER = 0.5
"""Holes of end walls are cut so far past both faces (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A hole with its body."""

    opening: Opening
    body: Body


def in_ends(house: House, vault: Vault) -> tuple[Cut, ...]:
    """Holes of the end walls that have a sill."""
    return tuple(
        Cut(opening=one, body=_through(one, vault.length))
        for one in house.openings
        if one.vault == vault.name and one.side.in_end and one.sill is not None
    )


def _through(opening: Opening, length: float) -> Body:
    half, sill = 0.5 * opening.width, opening.sill or 0.0
    start = 0.0 if opening.side is OpeningSide.FRONT else length
    return box(
        (opening.across - half, opening.across + half),
        (start - OVER, start + OVER),
        (sill, sill + opening.height),
    )


def in_shell(house: House, vault: Vault, form: VaultForm) -> tuple[Cut, ...]:
    """Holes of the shell: upright through the crown, level through a side."""
    cuts = []
    for one in house.openings:
        if one.vault != vault.name or one.side.in_end or one.along is None:
            continue
        along = (one.along - 0.5 * one.width, one.along + 0.5 * one.width)
        if one.side is OpeningSide.CROWN:
            top = float(form.mesh.soil_x[form.mesh.crown])
            across = (top - 0.5 * one.height, top + 0.5 * one.height)
            lowest = float(np.min(np.interp(across, form.rib.inside.x, form.rib.inside.z))) - form.rib.depth
            cuts.append(Cut(opening=one, body=box(across, along, (lowest, OUT))))
        elif one.sill is not None:
            across = (-OUT, 0.0) if one.side is OpeningSide.LEFT else (0.0, OUT)
            cuts.append(Cut(opening=one, body=box(across, along, (one.sill, one.sill + one.height))))
    return tuple(cuts)


def end_layer(
    house: House, vault: Vault, form: VaultForm, supports: tuple[Support, Support], cuts: Sequence[Cut]
) -> tuple[Layer | None, tuple[tuple[str, Body], ...]]:
    """The end walls inside the ribs, their holes cut out."""
    found: list[Solid] = []
    bodies: list[tuple[str, Body]] = []
    for end in house.ends:
        if end.vault != vault.name or end.kind is EndKind.OPEN or end.thickness is None:
            continue
        start, stop = _reach(end, vault)
        whole = pushed(_outline(form, supports), start, stop)
        holes = [cut.body for cut in cuts if str(cut.opening.side) == str(end.at)]
        body = without(whole, holes)
        bodies.append((f"{end.at} wall", whole))
        outline = Pushed(outline=_outline(form, supports), start=start, end=stop)
        found.append(
            solid(f"{end.at} wall", Kind.END, body, pushed_from=outline, whole=float(whole.volume()))
        )
    layer = Layer(name="end walls", kind=Kind.END, solids=tuple(found)) if found else None
    return layer, tuple(bodies)


def _reach(end: End, vault: Vault) -> tuple[float, float]:
    thick = end.thickness or 0.0
    return (0.0, thick) if end.at is EndSide.FRONT else (vault.length - thick, vault.length)


def _outline(form: VaultForm, supports: tuple[Support, Support]) -> Array:
    """Inside of the ribs, and between the walls down to the floor."""
    outline = room_outline(form, 0.0)
    low, high = supports[0].inside, supports[1].inside
    under = outline[:, 1] < form.springing - 1e-9
    outline = outline.copy()
    outline[under, 0] = np.clip(outline[under, 0], low, high)
    return _stepped(outline, form.springing, (low, high))


def _stepped(outline: Array, level: float, walls: tuple[float, float]) -> Array:
    """The feet of the ribs stand back from the walls' faces: the outline steps in at the springing."""
    low, high = walls
    top = float(outline[:, 1].max()) + 1.0
    room = shapely.union_all(
        [shapely.box(-OUT, level, OUT, top), shapely.box(low, -OUT, high, level)]
    ).intersection(shapely.make_valid(shapely.Polygon(outline)))
    best = max(shapely.get_parts(room), key=lambda part: part.area)
    ring = shapely.get_coordinates(shapely.geometry.polygon.orient(best, 1.0).exterior)[:-1]
    return np.asarray(ring)


def leaf_layer(house: House, vault: Vault, cuts: Sequence[Cut]) -> Layer | None:
    """Doors and windows as plain leaves in their holes."""
    found = []
    for cut in cuts:
        end = next(
            (one for one in house.ends if one.vault == vault.name and str(one.at) == str(cut.opening.side)),
            None,
        )
        if end is None or end.thickness is None or end.kind is EndKind.OPEN:
            continue
        thick = min(LEAF, end.thickness)
        start = 0.5 * (end.thickness - thick)
        low = start if end.at is EndSide.FRONT else vault.length - start - thick
        one, sill = cut.opening, cut.opening.sill or 0.0
        body = box(
            (one.across - 0.5 * one.width, one.across + 0.5 * one.width),
            (low, low + thick),
            (sill, sill + one.height),
        )
        found.append(solid(one.name, Kind.OPENING, body))
    return Layer(name="doors and windows", kind=Kind.OPENING, solids=tuple(found)) if found else None


def flue_layer(house: House, vault: Vault, form: VaultForm, cuts: Sequence[Cut]) -> tuple[Layer | None, str]:
    """The flue through the crown, from under the ribs to its terminal; what is missing in words."""
    flues = [cut for cut in cuts if cut.opening.kind is OpeningKind.FLUE]
    if not flues:
        return None, ""
    stove = next((one for one in house.stoves if one.vault == vault.name and one.flue is not None), None)
    if stove is None or stove.flue is None:
        return None, "The flue is not drawn: the file gives it no diameter (stove.flue)."
    found = []
    for cut in flues:
        top = float(form.mesh.soil_x[form.mesh.crown])
        surface = float(form.ground.finished.level(top))
        low = float(np.min(form.rib.inside.z[np.argmax(form.rib.inside.z)])) - form.rib.depth
        high = surface + (stove.terminal_height or 0.0)
        body = pipe((top, cut.opening.along or 0.0), (low, high), stove.flue)
        found.append(solid(cut.opening.name, Kind.FLUE, body))
    return Layer(name="flue", kind=Kind.FLUE, solids=tuple(found)), ""


def hole_nouns(cuts: Sequence[Cut], names: dict[str, tuple[str, ...]]) -> tuple[Hole, ...]:
    """The holes as plain arrays, each with the bodies it is cut out of."""
    holes = []
    for cut in cuts:
        mesh = cut.body.to_mesh64()
        holes.append(
            Hole(
                name=cut.opening.name,
                kind=str(cut.opening.kind),
                side=str(cut.opening.side),
                width=cut.opening.width,
                height=cut.opening.height,
                vertices=np.asarray(mesh.vert_properties[:, :3], dtype=float),
                triangles=np.asarray(mesh.tri_verts, dtype=np.int64),
                cuts=names.get(cut.opening.name, ()),
            )
        )
    return tuple(holes)
