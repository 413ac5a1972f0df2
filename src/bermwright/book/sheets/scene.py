"""What a section shows: the vault at one moment, with its surfaces cut into clean areas.

A scene holds no paper: everything is in metres of the section.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.base.drawing import Hatch
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.earth import grid_levels

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import CoverBand, CurveLine, VaultForm
    from bermwright.house import House, Vault
    from bermwright.house.parts.walls import Wall
    from bermwright.stages.nouns import Stage

    Array = NDArray[np.float64]

_ORDER = tuple(StageKind)
BROKEN_OFF = 0.35
"""How far below the floor a support of unknown depth is drawn (m)."""
THIN = 0.02
"""Earth thinner than this (m) is not drawn as fill."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """What stands under one springing, as far as the house file says it; metres."""

    name: str
    """Such as "wall of earth tubes" or "strip footing"."""
    hatch: Hatch
    width: float
    bottom: float | None = None
    """Level of its underside; not known: it is drawn a little below the floor and broken off there."""
    course: float | None = None
    """Height of one course, where it has courses."""
    plate: float = 0.0
    """Thickness of a timber plate under the rib's foot."""
    offset: float = 0.0
    """From the middle of the rib's foot outward to its own middle."""
    side: int | None = None
    """Under the left (0) or the right (1) foot only; None: under both."""
    grids: tuple[float, ...] = ()
    """Levels of layers of geogrid in the fill behind it (m)."""
    reach: float = 0.0
    """How far those reach back from its face (m)."""


@dataclass(frozen=True, kw_only=True)
class Scene:
    """The section at one moment of the building. What is asked of it again is worked out once."""

    form: VaultForm
    kind: StageKind = StageKind.SETTLED
    left: float | None = None
    right: float | None = None
    """Level of the fill on each side (m) while it rises."""
    lifts: tuple[float, ...] = ()
    """Levels of all lifts, ascending (m)."""
    supports: tuple[Support, ...] = ()
    """One for both feet, or left and right; from the springing down where there are several."""
    coarse: float = 0.0
    """How far soil may be cut from the true face of the shell (m): nothing on paper, a hair on a screen."""

    def reached(self, kind: StageKind) -> bool:
        """Whether the building has come as far as a kind of stage."""
        return _ORDER.index(self.kind) >= _ORDER.index(kind)

    @property
    def bands(self) -> tuple[CoverBand, ...]:
        """The layers that are on by now."""
        if self.reached(StageKind.WRAPPED):
            return self.form.bands
        if self.reached(StageKind.LAGGED):
            return tuple(band for band in self.form.bands if band.kind == "lagging")
        return ()

    @property
    def face(self) -> CurveLine:
        """The outermost surface of the shell by now."""
        return self.bands[-1].outer if self.bands else self.form.rib.outside

    @property
    def crown_x(self) -> float:
        """Where the top of the vault is (m)."""
        return float(self.form.mesh.soil_x[self.form.mesh.crown])

    def columns(self, low: float, high: float) -> Array:
        """Places x (m) between two ends where surfaces are taken, all corners among them."""
        ground = self.form.ground
        step = np.array([self.crown_x - 1e-6, self.crown_x + 1e-6])
        x = np.concatenate([np.linspace(low, high, 481), ground.natural.x, ground.finished.x, step])
        return np.unique(x[(x >= low) & (x <= high)])

    def base(self, x: Array) -> Array:
        """Surface of the ground in place (m): natural, or dug down to the finished one."""
        ground = self.form.ground
        return np.minimum(ground.natural.level(x), ground.finished.level(x))

    def surface(self, x: Array) -> Array:
        """Surface of the soil by now (m)."""
        ground = self.form.ground
        if self.reached(StageKind.TURF):
            return ground.finished.level(x)
        if self.reached(StageKind.COVER):
            return np.maximum(ground.finished.level(x) - ground.turf, self.base(x))
        if self.kind is StageKind.FILL and self.left is not None and self.right is not None:
            return ground.filled(x, self.left, self.right, self.crown_x)
        return self.base(x)

    def extent(self) -> tuple[float, float]:
        """Least and greatest x (m) that belong to the building: its mound and its face."""
        x = np.linspace(-40.0, 40.0, 4001)
        ground = self.form.ground
        fill = x[ground.finished.level(x) - ground.natural.level(x) > THIN]
        face = self.form.soil_face.x
        ends = np.concatenate([fill, face])
        return float(ends.min()), float(ends.max())

    def bottom(self) -> float:
        """Lowest level of anything that is built (m)."""
        return min([0.0, *(self.underside(support) for support in self.supports)])

    def underside(self, support: Support) -> float:
        """Level at which a support ends, or is broken off where the file does not say (m)."""
        if support.bottom is not None:
            return support.bottom
        return min(0.0, self.form.springing) - BROKEN_OFF

    def reach(self, level: float, sign: float) -> tuple[float, float] | None:
        """From the shell to the outer end of a level lift on one side (x, m); None where there is none.

        A lift ends at the finished slope, or at the natural ground of a hillside.
        """
        face = self.face
        outward = sign * (face.x - self.crown_x)
        side = outward > 0.0
        start = float(face.x[side][np.argmin(np.abs(face.z[side] - level))])
        x = start + sign * np.linspace(0.0, 40.0, 4001)
        ground = self.form.ground
        inside = (ground.finished.level(x) >= level) & (self.base(x) < level)
        if not inside[1]:
            return None
        last = int(np.argmin(inside)) - 1 if not inside.all() else inside.size - 1
        return start, float(x[last])

    def silhouette(self) -> Any:  # noqa: ANN401  (the geometry library has no types)
        """Everything that is not soil: shell, room down to the floor, and supports."""
        return self._silhouette

    @cached_property
    def _silhouette(self) -> Any:  # noqa: ANN401  (the geometry library has no types)
        face = self.face
        inside = self.form.rib.inside
        right, left = float(inside.x[-1]), float(inside.x[0])
        foot = [(right, float(inside.z[-1])), (right, 0.0), (left, 0.0), (left, float(inside.z[0]))]
        shell = valid(shapely.polygons(np.concatenate([np.column_stack([face.x, face.z]), foot])))
        if self.coarse:
            shell = shapely.simplify(shell, self.coarse, preserve_topology=True)
        parts = [shell] + [shapely.Polygon(outline) for outline, _ in self.support_outlines()]
        return shapely.union_all(parts)

    @cached_property
    def hull(self) -> Any:  # noqa: ANN401  (the geometry library has no types)
        """The same, a hair smaller, so that surfaces that touch it are not cut."""
        return self._silhouette.buffer(-1e-3)

    def support_outlines(self) -> tuple[tuple[tuple[tuple[float, float], ...], Support], ...]:
        """Rectangle of each support under each springing (m), from the springing down."""
        found = []
        line = self.form.rib.centreline
        for side, end in enumerate((0, -1)):
            foot, top = float(line.x[end]), self.form.springing
            for support in self.supports:
                if support.side not in {None, side}:
                    continue
                middle = foot + (-1.0, 1.0)[side] * support.offset
                low, high = middle - 0.5 * support.width, middle + 0.5 * support.width
                bottom = self.underside(support)
                found.append((((low, bottom), (high, bottom), (high, top), (low, top)), support))
                top = bottom
        return tuple(found)

    def placed(self, low: float, high: float) -> tuple[Any, ...]:
        """Areas of placed soil between two ends, left to right."""
        x = self.columns(low, high)
        base, top = self.base(x), self.surface(x)
        top = np.where(top - base > 1e-4, top, base)
        bodies = [between(x[run], base[run], top[run]) for run in _thick(top > base)]
        return areas(shapely.difference(shapely.union_all(bodies), self.silhouette()), 0.002)


def _thick(wanted: NDArray[np.bool_]) -> list[NDArray[np.intp]]:
    """Groups of neighbouring places where `wanted` is true, with the place before and after."""
    places = np.flatnonzero(wanted)
    if not places.size:
        return []
    runs = np.split(places, np.flatnonzero(np.diff(places) > 1) + 1)
    last = wanted.size - 1
    return [np.arange(max(run[0] - 1, 0), min(run[-1] + 1, last) + 1) for run in runs]


def between(x: Array, low: Array, high: Array) -> Any:  # noqa: ANN401  (the geometry library has no types)
    """The area between two surfaces."""
    ring = np.concatenate([np.column_stack([x, high]), np.column_stack([x, low])[::-1]])
    return valid(shapely.polygons(ring))


def valid(shape: Any) -> Any:  # noqa: ANN401  (the geometry library has no types)
    """The shape, put right where its edge crosses itself."""
    return shape if shapely.is_valid(shape) else shapely.make_valid(shape)


def areas(shape: Any, least: float = 1e-6) -> tuple[Any, ...]:  # noqa: ANN401  (the geometry library has no types)
    """The polygons of a shape that are larger than `least` (m²), left to right."""
    parts = [part for part in shapely.get_parts(shapely.get_parts(shape)) if part.area > least]
    return tuple(sorted(parts, key=lambda part: float(part.centroid.x)))


_MATERIALS = (
    (("tube", "bag"), Hatch.EARTH_TUBE),
    (("block", "brick", "stone", "masonry", "adobe"), Hatch.MASONRY),
    (("concrete",), Hatch.CONCRETE),
    (("gravel",), Hatch.GRAVEL),
    (("timber", "wood", "log", "sleeper"), Hatch.TIMBER_ACROSS),
    (("earth", "soil"), Hatch.EARTH_PLACED),
)


def under_right(supports: tuple[Support, ...]) -> tuple[Support, ...]:
    """Those under the right foot, which details and keys show."""
    return tuple(support for support in supports if support.side in {None, 1})


def supports_of(vault: Vault, house: House | None = None) -> tuple[Support, ...]:
    """What a house file says of walls and footings under a vault; nothing where it gives no width."""
    described = _described(vault, house) if house is not None else ()
    return described or _of_feet(vault)


def _described(vault: Vault, house: House) -> tuple[Support, ...]:
    """Walls and footings of the file, from the springing down, side by side."""
    found: list[Support] = []
    for side, name in enumerate(("left", "right")):
        walls = [one for one in house.walls if one.vault == vault.name and one.side in {"both", name}]
        strips = [one for one in house.footings if one.vault == vault.name and one.side in {"both", name}]
        wall, strip = next(iter(walls), None), next(iter(strips), None)
        thick = wall.thickness if wall is not None and wall.thickness is not None else 0.0
        inset = wall.foot if wall is not None and wall.foot is not None else 0.5 * thick
        bottom = wall.bottom if wall is not None else vault.springing
        if wall is not None and thick:
            words = f"wall: {wall.kind or 'of unknown make'}"
            levels, reach = _grids(house, vault, name, wall)
            found.append(
                Support(
                    name=words,
                    hatch=_WALLS.get(str(wall.kind), Hatch.NONE),
                    width=thick,
                    bottom=bottom,
                    offset=0.5 * thick - inset,
                    side=side,
                    grids=levels,
                    reach=reach,
                )
            )
        if (
            strip is not None
            and strip.width is not None
            and strip.thickness is not None
            and bottom is not None
        ):
            toe = strip.toe if strip.toe is not None else 0.5 * (strip.width - thick)
            found.append(
                Support(
                    name="footing",
                    hatch=Hatch.CONCRETE,
                    width=strip.width,
                    bottom=bottom - strip.thickness,
                    offset=0.5 * strip.width - toe - inset,
                    side=side,
                )
            )
    return tuple(found)


def _grids(house: House, vault: Vault, side: str, wall: Wall) -> tuple[tuple[float, ...], float]:
    """Layers of geogrid behind the foot wall of a side: their levels, and how far they reach back (m)."""
    for grid in house.geogrids:
        low = wall.bottom if grid.bottom is None else grid.bottom
        top = vault.springing if wall.top is None else wall.top
        here = grid.vault == vault.name and grid.behind in {side, "both sides"}
        if here and grid.spacing and grid.length and low is not None and top is not None:
            return grid_levels(low, top, grid.spacing), grid.length
    return (), 0.0


_WALLS = {
    "filled blocks with bars": Hatch.MASONRY,
    "concrete with bars": Hatch.CONCRETE,
    "mortared": Hatch.MASONRY,
    "dry stone": Hatch.MASONRY,
    "earth tubes or bags": Hatch.EARTH_TUBE,
}


def _of_feet(vault: Vault) -> tuple[Support, ...]:
    """What stands in [vault.feet], where no wall or footing has a table of its own."""
    feet = vault.feet
    if feet is None or feet.on is None or feet.wall_width is None:
        return ()
    material = (feet.wall_material or "").lower()
    found = (hatch for words, hatch in _MATERIALS if any(word in material for word in words))
    name = f"{feet.on.value} of {feet.wall_material}" if feet.wall_material else feet.on.value
    return (Support(name=name, hatch=next(found, Hatch.NONE), width=feet.wall_width),)


def scene_of(
    form: VaultForm, stage: Stage | None, *, lifts: tuple[float, ...], supports: tuple[Support, ...]
) -> Scene:
    """The scene of a stage in its own, even state; the finished section without a stage."""
    if stage is None:
        return Scene(form=form, lifts=lifts, supports=supports)
    first = stage.cases[0] if stage.cases else None
    left = first.left if first is not None and first.left is not None else stage.level
    right = first.right if first is not None and first.right is not None else stage.level
    return Scene(form=form, kind=stage.kind, left=left, right=right, lifts=lifts, supports=supports)
