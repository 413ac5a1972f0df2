"""What is built below the natural ground: footings, walls, floor and room, column by column."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.setout import SetOut
    from bermwright.form.setout.earthwork.dig import Dig
    from bermwright.form.setout.earthwork.strips import Strip
    from bermwright.form.shapes import VaultForm

    Array = NDArray[np.float64]

CELL = 0.05
"""Widest column, along and across (m)."""
HIGH = 1e3
"""Over any ground (m)."""
FACES = ("wall", "support")
"""How the words of an edge begin that belongs to what stands on the footing."""


@dataclass(frozen=True, slots=True)
class _Column:
    """Levels between which a column across is built: footing below, wall or room above (m)."""

    footing_low: Array
    footing_high: Array
    low: Array
    high: Array

    def under(self, ground: Array, footed: NDArray[np.bool_]) -> Array:
        """Height that is built below the ground; `footed`: along the vault, where its footings run."""
        footing = np.where(footed, np.minimum(ground, self.footing_high) - self.footing_low, 0.0)
        upper = np.minimum(ground, self.high) - self.low
        return np.asarray(np.maximum(footing, 0.0) + np.maximum(upper, 0.0))


def built_below(out: SetOut, form: VaultForm, dig: Dig) -> float:
    """All of it that displaces soil of the dig, from end wall to end wall (m3)."""
    across, wide = _middles(*_reach(out, form))
    first, last = _ends(out)
    along, deep = _middles(first, last)
    columns = _columns(out, form, dig.formation, across)
    u, v = np.meshgrid(along, across, indexing="ij")
    footed = (u > 0.0) & (u < form.length)
    return float(np.sum(columns.under(out.surface.level(u, v), footed)) * wide * deep)


def _middles(low: float, high: float) -> tuple[Array, float]:
    count = max(int(np.ceil((high - low) / CELL)), 1)
    step = (high - low) / count
    return np.asarray(low + step * (np.arange(count) + 0.5), dtype=float), step


def _ends(out: SetOut) -> tuple[float, float]:
    """Outer faces of the end walls, or the end ribs (m)."""
    places = [line.place for line in out.plan.strings if not line.along]
    return min(places), max(places)


def _reach(out: SetOut, form: VaultForm) -> tuple[float, float]:
    """Outermost of footings, walls and shell (m)."""
    half, face = 0.5 * form.span, form.soil_face.x
    left, right = (half + strip.outer for strip in out.strips)
    return min(-left, float(face.min())), max(right, float(face.max()))


def _columns(out: SetOut, form: VaultForm, formation: float, across: Array) -> _Column:
    low, high = _shell(form, formation, across)
    footing = np.full((2, across.size), HIGH)
    for strip, way in zip(out.strips, (-1.0, 1.0), strict=True):
        _stand(strip, way * across - 0.5 * form.span, form, low, high)
        faces, under = strip.footing, strip.footing_bottom
        if faces is None or under is None:
            continue
        beside = way * across - 0.5 * form.span
        within = (beside >= faces[0]) & (beside <= faces[1])
        top = strip.wall_bottom if strip.wall_bottom is not None else form.springing
        footing[:, within] = np.array([[under], [top]])
        low[within] = np.maximum(low[within], top)
    return _Column(footing[0], footing[1], low, high)


def _shell(form: VaultForm, formation: float, across: Array) -> tuple[Array, Array]:
    """Room and shell: from the bottom of the dig up to the soil face, under an overhang from its lower side.

    Below the feet it reaches as far as the foot of the soil face: the fill of the mound begins there too.
    """
    face = form.soil_face
    low, high = np.full(across.size, HIGH), np.full(across.size, HIGH)
    for way in (-1.0, 1.0):
        x, z = _half(way * face.x, face.z, way)
        widest = int(np.argmax(x))
        reach = way * across
        inside = (reach >= 0.0) & (reach <= x[widest])
        high[inside] = np.interp(reach[inside], x[: widest + 1], z[: widest + 1])
        low[inside] = formation
        over = inside & (reach > x[-1])
        if over.any() and widest < x.size - 1:
            low[over] = np.interp(reach[over], x[widest:][::-1], z[widest:][::-1])
    return low, high


def _half(x: Array, z: Array, way: float) -> tuple[Array, Array]:
    """One half of the soil face, from the crown down to its foot."""
    crown = int(np.argmax(z))
    return (x[crown:], z[crown:]) if way > 0.0 else (x[: crown + 1][::-1], z[: crown + 1][::-1])


def _stand(strip: Strip, beside: Array, form: VaultForm, low: Array, high: Array) -> None:
    """The wall on its footing, where it reaches past the shell or deeper than the floor."""
    faces = [edge.offset for edge in strip.edges if edge.words.startswith(FACES)]
    foot = strip.wall_bottom
    if not faces or foot is None:
        return
    within = (beside >= min(faces)) & (beside <= max(faces))
    outside = within & (high >= HIGH)
    high[outside] = strip.wall_top if strip.wall_top is not None else form.springing
    low[within] = foot
