"""Parts of a house for a small printed model: few, closed, each lying on the bed.

Thin layers are one with each other and with the ribs; end walls lie flat; the ground is left out.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError
from bermwright.form.solids.bodies import arrays_of, joined, pushed, without, without_crumbs
from bermwright.form.solids.cutting import body_of
from bermwright.form.solids.nouns import Kind
from bermwright.form.solids.shell import between, kept
from bermwright.form.solids.welding import on_grid, touching

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids.bodies import Body
    from bermwright.form.solids.nouns import VaultSolids

    Array = NDArray[np.float64]
    Indices = NDArray[np.int64]

APART = 0.2
"""Parts lie so far from each other, at full size (m)."""
SEAM = 1e-3
"""Ribs reach so far into the layers over them, so that both are one body (m)."""
BASE = frozenset({Kind.FOOTING, Kind.WALL, Kind.WALL_INSULATION, Kind.FLOOR, Kind.FLOOR_INSULATION})
MOUND = frozenset({Kind.FILL, Kind.TURF})
GRAINS = (1e-4, 5e-5, 2e-4, 2e-5, 5e-4, 1e-3)
"""Grids on which a part may be laid, the first on which it is closed: a file of few digits must close (m)."""
TRIES = 3
"""So often edges that only touch are joined by a hair."""
SPECK = 1e-6
"""Crumbs that the joining of layers leaves are not printed (m3)."""


class NotClosedError(BermwrightError, ValueError):
    """A part that a printer could not tell inside from outside of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintPart:
    """A part at full size, lying on the level 0."""

    name: str
    vertices: Array
    triangles: Indices
    thinnest: float
    """Thinnest wall of it (m)."""
    what: str
    """What that wall is."""

    @property
    def size(self) -> Array:
        """Width, depth and height at full size (m)."""
        return np.asarray(self.vertices.max(axis=0) - self.vertices.min(axis=0))


@dataclass(frozen=True, slots=True)
class _Raw:
    """A part where it stands in the house."""

    name: str
    body: Body
    thinnest: float
    what: str


def print_parts(vault: VaultSolids, form: VaultForm) -> tuple[PrintPart, ...]:
    """Every part of a vault, in a row along x."""
    walls = vault.layer(Kind.END)
    flat = [
        _Raw(one.name, body_of(one).rotate((-90.0, 0.0, 0.0)), float(one.high[1] - one.low[1]), one.name)
        for one in (() if walls is None else walls.solids)
    ]
    return tuple(_in_a_row([_shell(vault, form), *_base(vault), *_mound(vault, form), *flat]))


def print_dome(name: str, shell: Body, thickness: float) -> PrintPart:
    """The courses of a dome as one part."""
    (part,) = _in_a_row([_Raw(f"shell of {name}", shell, thickness, "the wall, along a bed")])
    return part


def _shell(vault: VaultSolids, form: VaultForm) -> _Raw:
    """Ribs and everything over them as one; a rib is one piece."""
    points = kept(form)
    layers = pushed(between(form.rib.outside, form.soil_face, points), 0.0, form.length)
    outline = between(form.rib.inside, form.rib.outside, points)
    half = len(outline) // 2
    # The outer edge of the rib goes a hair into the layers.
    out = outline[half:] - outline[:half][::-1]
    outline[half:] += SEAM * out / np.hypot(*out.T)[:, None]
    rib = pushed(outline, -0.5 * form.rib.width, 0.5 * form.rib.width)
    ribs = [rib.translate((0.0, min(k * form.spacing, form.length), 0.0)) for k in range(form.ribs)]
    whole = joined([layers, *ribs])
    holes = [
        _hole(hole.vertices, hole.triangles) for hole in vault.holes if hole.side not in {"front", "back"}
    ]
    layered = sum(band.thickness for band in form.bands)
    walls = [
        (layered, "the layers over the ribs together"),
        (form.rib.width, "a rib, across"),
        (form.rib.depth, "a rib, deep"),
    ]
    thinnest, what = min(walls)
    return _Raw("shell", without(whole, holes), thinnest, what)


def _hole(vertices: Array, triangles: Indices) -> Body:
    from manifold3d import Manifold, Mesh64

    return Manifold(Mesh64(np.array(vertices), np.array(triangles, dtype=np.uint64)))


def _base(vault: VaultSolids) -> Iterator[_Raw]:
    mine = [one for one in vault.solids if one.kind in BASE]
    if mine:
        thin, what = min((float(np.min(one.high - one.low)), one.name) for one in mine)
        yield _Raw("base", joined([body_of(one) for one in mine]), thin, what)


def _mound(vault: VaultSolids, form: VaultForm) -> Iterator[_Raw]:
    mine = [one for one in vault.solids if one.kind in MOUND]
    if mine:
        cover = form.ground.top - form.crown_level
        what = "over the crown; at its toes the mound runs out to nothing"
        # Turf reaches a hair into the fill, so that both are one body.
        sunk = [body_of(one).translate((0.0, 0.0, -SEAM)) for one in mine if one.kind is Kind.TURF]
        yield _Raw("mound", joined([*(body_of(one) for one in mine), *sunk]), cover, what)


def _closed(raw: _Raw) -> tuple[Array, Indices]:
    """A part that is closed for every reader; one that is not is never written."""
    body = raw.body
    for _ in range(TRIES):
        arrays = arrays_of(without_crumbs(body, SPECK))
        found = (on_grid(*arrays, grain) for grain in GRAINS)
        closed = next((one for one in found if one is not None), None)
        if closed is not None:
            return closed
        body = joined([body, *(_rod(*ends) for ends in touching(*arrays, GRAINS[0]))])
    raise NotClosedError(
        f"The {raw.name} of the printed model does not close and is not written. Write .glb instead, or move "
        "what lies a hair beside another part."
    )


def _rod(start: Array, end: Array) -> Body:
    """A hair along an edge at which a part only touches itself: no printer could join it there."""
    from manifold3d import Manifold

    along = (end - start) / np.linalg.norm(end - start)
    aside = np.cross(along, np.eye(3)[np.argmin(np.abs(along))])
    sides = [aside, -aside, np.cross(along, aside), -np.cross(along, aside)]
    ends = (start - SEAM * along, end + SEAM * along)
    return Manifold.hull_points(np.array([at + SEAM * side for at in ends for side in sides]))


def _in_a_row(found: Iterable[_Raw]) -> Iterator[PrintPart]:
    edge = 0.0
    for raw in found:
        vertices, triangles = _closed(raw)
        moved = vertices - vertices.min(axis=0) + np.array([edge, 0.0, 0.0])
        edge = float(moved[:, 0].max()) + APART
        yield PrintPart(
            name=raw.name, vertices=moved, triangles=triangles, thinnest=raw.thinnest, what=raw.what
        )
