"""Boxes for doors and windows: every panel flat, in straight walls and in round ones."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Protocol

import numpy as np

from bermwright.data.domes import (
    BOX_SPARE,
    SLAT,
    SLAT_WIDTH,
    STRIKE_TAPER,
    WEDGE_HEEL,
    WEDGE_RISE,
    WEDGE_SLOPE,
    WEDGE_THIN,
)
from bermwright.form.developed.shapes import ArchForm, Box, Pattern, Slat
from bermwright.form.dome.profile import outer_face
from bermwright.handbook.developing import reach_of_dome
from bermwright.house.making.words import Laid

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from bermwright.base.drawing import Path
    from bermwright.form.dome.shapes import DomeForm

    Array = NDArray[np.float64]

STEPS = 48
"""Parts into which a curved edge is divided; its chords stay within a tenth of a millimetre."""


class Faces(Protocol):
    """Both faces of a wall, as distances outwards at a place beside the opening's middle and a level."""

    def inner(self, beside: ArrayLike, level: ArrayLike) -> Array:
        """Inner face (m)."""

    def outer(self, beside: ArrayLike, level: ArrayLike) -> Array:
        """Outer face (m)."""


class StraightWall:
    """A wall of one thickness."""

    def __init__(self, thickness: float) -> None:
        self.thickness = thickness

    def inner(self, beside: ArrayLike, level: ArrayLike) -> Array:
        """Inner face (m)."""
        return np.zeros(np.broadcast(np.asarray(beside), np.asarray(level)).shape)

    def outer(self, beside: ArrayLike, level: ArrayLike) -> Array:
        """Outer face (m)."""
        return self.inner(beside, level) + self.thickness


class DomeWall:
    """A dome's wall, counted from its axis; under the springing it stands plumb."""

    def __init__(self, form: DomeForm) -> None:
        self.springing = form.dome.springing
        self.face = form.face
        self.out = outer_face(form.face, form.dome.thickness, level=form.dome.laid is Laid.LEVEL)

    def inner(self, beside: ArrayLike, level: ArrayLike) -> Array:
        """Inner face (m)."""
        height = np.maximum(np.asarray(level, dtype=float) - self.springing, 0.0)
        return reach_of_dome(beside, self.face.at(height))

    def outer(self, beside: ArrayLike, level: ArrayLike) -> Array:
        """Outer face (m)."""
        return reach_of_dome(beside, self.radius_outside(level))

    def radius_outside(self, level: ArrayLike) -> Array:
        """Radius of the outer face at levels (m)."""
        height = np.maximum(np.asarray(level, dtype=float) - self.springing, 0.0)
        return self.out.at(np.maximum(height, float(self.out.height[0])))


class Hole:
    """The hole of an opening: levels, half width, and whether its head is a half circle."""

    def __init__(self, *, name: str, width: float, sill: float, top: float, is_round: bool) -> None:
        self.name, self.width, self.sill, self.top, self.is_round = name, width, sill, top, is_round

    @property
    def half(self) -> float:
        """Half of its width (m)."""
        return 0.5 * self.width

    @property
    def springing(self) -> float:
        """Level at which its sides end (m)."""
        return self.top - self.half if self.is_round else self.top

    def built(self, settlement: float) -> Hole:
        """The hole as it is built: higher by what the wall settles."""
        return Hole(
            name=self.name,
            width=self.width,
            sill=self.sill,
            top=self.top + settlement,
            is_round=self.is_round,
        )

    def half_at(self, level: ArrayLike) -> Array:
        """Half of its width at levels between sill and top (m)."""
        over = np.maximum(np.asarray(level, dtype=float) - self.springing, 0.0)
        round_head = np.sqrt(np.maximum(self.half**2 - over**2, 0.0))
        return round_head if self.is_round else np.full(over.shape, self.half)


def box_of(hole: Hole, faces: Faces, part: str, *, settlement: float, curved: bool) -> Box:
    """The box of a hole: it is made higher by the settlement, and wider inside by the taper."""
    built = hole.built(settlement)
    patterns = [_jamb(built, faces, part), _sill(built, faces, part)]
    patterns.append(_soffit(built, faces, part) if hole.is_round else _head(built, faces, part))
    low, high = _reach(built, faces)
    return Box(
        name=hole.name,
        part=part,
        curved=curved,
        width=hole.width,
        height=built.top - built.sill,
        settlement=settlement,
        taper=STRIKE_TAPER.value,
        depth=high - low,
        patterns=tuple(patterns),
        wedge=_wedge(part),
        pack=2.0 * WEDGE_THIN.value + _wedge_length() * WEDGE_SLOPE.value,
        arch=_arch(built, faces, part) if hole.is_round else None,
    )


def _wedge_length() -> float:
    """Long enough to let the form down and still to bear (m)."""
    return WEDGE_RISE.value / WEDGE_SLOPE.value + WEDGE_HEEL.value


def _wedge(part: str) -> Pattern:
    length, thin = _wedge_length(), WEDGE_THIN.value
    thick = thin + length * WEDGE_SLOPE.value
    return Pattern(
        name="folding wedge",
        part=part,
        outline=((0.0, 0.0), (length, 0.0), (length, thin), (0.0, thick)),
        count=4,
        across="along the grain",
        up="thickness",
        side="two make a pair, slopes together, thin end to thick end",
        ordinates=((0.0, 0.0, thick), (0.5 * length, 0.0, 0.5 * (thick + thin)), (length, 0.0, thin)),
        note="Of hard, dry wood, as wide as the sides of the box; never greased.",
    )


def _reach(hole: Hole, faces: Faces) -> tuple[float, float]:
    """The innermost and outermost of the box (m)."""
    levels = np.linspace(hole.sill, hole.top, STEPS + 1)
    low = min(float(np.min(faces.inner(0.0, levels))), float(np.min(faces.inner(hole.half, levels[0]))))
    return low - BOX_SPARE.value, float(np.max(faces.outer(0.0, levels))) + BOX_SPARE.value


def _panel(stations: Array, low: Array, high: Array) -> Path:
    """A closed outline from two edges over the same stations."""
    there = list(zip(stations.tolist(), low.tolist(), strict=True))
    back = list(zip(stations[::-1].tolist(), high[::-1].tolist(), strict=True))
    return tuple((float(x), float(y)) for x, y in there + back)


def _between(  # noqa: PLR0913  (what stands on the panel, all by name)
    name: str, part: str, stations: Array, edges: tuple[Array, Array], *, across: str, up: str, note: str,
    count: int = 1, side: str = "",
) -> Pattern:  # fmt: skip
    """A panel between the inner and the outer face, standing out beyond both, with the faces marked."""
    inner, outer = edges
    start = float(np.min(inner)) - BOX_SPARE.value
    low, high = inner - BOX_SPARE.value - start, outer + BOX_SPARE.value - start
    faces = (("inner face of the wall", inner - start), ("outer face of the wall", outer - start))
    every = max(1, (stations.size - 1) // 12)
    return Pattern(
        name=name,
        part=part,
        outline=_panel(stations - stations[0], low, high),
        count=count,
        lines=tuple(
            (word, tuple(zip((stations - stations[0]).tolist(), line.tolist(), strict=True)))
            for word, line in faces
        ),
        across=across,
        up=up,
        side=side,
        ordinates=tuple(
            (float(x), float(a), float(b))
            for x, a, b in zip((stations - stations[0])[::every], low[::every], high[::every], strict=True)
        ),
        note=note,
    )


def _jamb(hole: Hole, faces: Faces, part: str) -> Pattern:
    levels = np.linspace(hole.sill, hole.springing, STEPS + 1)
    edges = faces.inner(hole.half, levels), faces.outer(hole.half, levels)
    return _between(
        f"{hole.name}: side",
        part,
        levels,
        edges,
        across="up from the sill",
        up="outwards",
        count=2,
        side="left as drawn, seen from inside of the box; right turned over",
        note="The outer end leans in by half of the taper.",
    )


def _flat(hole: Hole, faces: Faces, part: str, level: float, name: str) -> Pattern:
    beside = np.linspace(-hole.half, hole.half, STEPS + 1)
    edges = faces.inner(beside, level), faces.outer(beside, level)
    pattern = _between(
        f"{hole.name}: {name}",
        part,
        beside,
        edges,
        across="from side to side",
        up="outwards",
        side="both halves alike",
        note="",
    )
    return _tapered(pattern, hole.width)


def _tapered(pattern: Pattern, width: float) -> Pattern:
    """The same with its outer end narrower by the taper, so that the box can be drawn into the room."""
    tall = pattern.size[1]

    def moved(point: tuple[float, float]) -> tuple[float, float]:
        x, y = point
        inward = STRIKE_TAPER.value * y / tall
        return (x - (x / width - 0.5) * inward, y)

    return replace(
        pattern,
        outline=tuple(map(moved, pattern.outline)),
        lines=tuple((word, tuple(map(moved, line))) for word, line in pattern.lines),
        note=f"{1e3 * STRIKE_TAPER.value:.0f} mm narrower outside, so that it can be drawn into the room.",
    )


def _sill(hole: Hole, faces: Faces, part: str) -> Pattern:
    return _flat(hole, faces, part, hole.sill, "bottom")


def _head(hole: Hole, faces: Faces, part: str) -> Pattern:
    return _flat(hole, faces, part, hole.top, "head")


def _round(hole: Hole, count: int = STEPS) -> tuple[Array, Array, Array]:
    """Places along a round head from its left springing: angle, beside the middle, level."""
    turn = np.linspace(np.pi, 0.0, count + 1)
    return turn, hole.half * np.cos(turn), hole.springing + hole.half * np.sin(turn)


def _soffit(hole: Hole, faces: Faces, part: str) -> Pattern:
    turn, beside, level = _round(hole)
    edges = faces.inner(beside, level), faces.outer(beside, level)
    return _between(
        f"{hole.name}: round head, unrolled",
        part,
        hole.half * (np.pi - turn),
        edges,
        across="round the head from the left springing",
        up="outwards",
        side="soffit, seen from outside of the form",
        note="Wrap it over the battens.",
    )


def _arch(hole: Hole, faces: Faces, part: str) -> ArchForm:
    radius = hole.half - SLAT.value
    count = int(np.ceil(np.pi * hole.half / SLAT_WIDTH.value - 1e-9))
    _, beside, level = _round(hole, 2 * count)
    inner, outer = faces.inner(beside, level), faces.outer(beside, level)
    start = float(np.min(inner)) - BOX_SPARE.value
    slats = tuple(
        Slat(
            number=k + 1,
            start=float(np.min(inner[2 * k : 2 * k + 3])) - BOX_SPARE.value - start,
            end=float(np.max(outer[2 * k : 2 * k + 3])) + BOX_SPARE.value - start,
        )
        for k in range(count)
    )
    return ArchForm(
        radius=radius,
        faces=2,
        slat_width=np.pi * hole.half / count,
        slat_thickness=SLAT.value,
        slats=slats,
        pattern=_arch_face(hole, radius, part),
    )


def _arch_face(hole: Hole, radius: float, part: str) -> Pattern:
    turn = np.linspace(0.0, np.pi, STEPS + 1)
    x, y = radius * (1.0 + np.cos(turn)), radius * np.sin(turn)
    outline = tuple(zip(x.tolist(), y.tolist(), strict=True))
    stations = np.linspace(0.0, 2.0 * radius, 13)
    heights = np.sqrt(np.maximum(radius**2 - (stations - radius) ** 2, 0.0))
    return Pattern(
        name=f"{hole.name}: face of the arch form",
        part=part,
        outline=outline,
        count=2,
        lines=(("plumb line", ((radius, 0.0), (radius, radius))),),
        across="from side to side",
        up="over the springing",
        side="both alike",
        ordinates=tuple((float(a), 0.0, float(b)) for a, b in zip(stations, heights, strict=True)),
        note="It stands on folding wedges; driven, its foot is at the springing of the head.",
    )
