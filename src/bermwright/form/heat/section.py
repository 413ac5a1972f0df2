"""A vault in its ground as a section for heat: what conducts, where the room and the weather touch it."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.limits import within
from bermwright.data.materials import material
from bermwright.form.heat.ground import ground_regions, soil_material
from bermwright.form.heat.layers import Layer, cover_layers, missing_in_covers, named
from bermwright.form.known import FormUnknownError, known
from bermwright.form.vault import missing_for_form
from bermwright.handbook.groundheat import Border, Region, Section, Source, end_factor

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from bermwright.form.heat.ground import Extent
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Vault

    Array = NDArray[np.float64]

DOWN, ASIDE, UP, OUTSIDE = 0.17, 0.13, 0.10, 0.04
"""Surface resistances of ISO 6946: floor, wall, under the crown, outside (m2 K/W)."""
STEEP = np.radians(60.0)
"""A curved surface less steep than this counts as heat flowing up."""
FLOOR_SIZE, WALL_SIZE, VAULT_SIZE, SURFACE_SIZE = 0.05, 0.05, 0.05, 0.07
"""Edges of triangles along the surfaces at fineness 1 (m)."""
CURVE_POINTS = 73
"""Points of the curve that are kept; a chord of 80 mm lies half a millimetre inside it."""
SLIGHT = 1e-3
"""Lengths under which a wall, a layer or a step is not there (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatSection:
    """A section with what it was made of."""

    section: Section
    assumed: tuple[str, ...]
    """What the file does not say and was assumed, as sentences with their source."""
    lengths: Mapping[str, float]
    """Developed length of vault, wall, floor, roof and field (m)."""
    room_area: float
    """Area of the air inside (m2): its volume for a metre of length."""
    end_factor: float
    """Ground heat of the whole length over length times this section (-)."""


def missing_for_heat(house: House, vault: Vault) -> tuple[str, ...]:
    """Everything that the heat of a vault needs and the file does not say, as plain paths."""
    missing = [*missing_for_form(house, vault), *missing_in_covers(vault)]
    given = house.ground_heat
    if given is None:
        missing.append("ground_heat")
    else:
        floor, wall = ("thickness", "material", "insulation"), ("material", "insulation", "footing_depth")
        missing += [f"ground_heat.floor.{name}" for name in floor if getattr(given.floor, name) is None]
        missing += [f"ground_heat.wall.{name}" for name in wall if getattr(given.wall, name) is None]
    if vault.feet is None or vault.feet.wall_width is None:
        missing.append("vault.feet.wall_width")
    return tuple(dict.fromkeys(missing))


def heat_section(house: House, vault: Vault, form: VaultForm, *, fineness: float = 1.0) -> HeatSection:
    """The section of a vault for heat; triangles are smaller by `fineness`.

    Raises `FormUnknownError` when the file leaves something open.
    """
    within("fineness", fineness, 0.2, 4.0)
    if missing := missing_for_heat(house, vault):
        raise FormUnknownError(vault.name, missing)
    shape = _Shape(house, vault, form, fineness)
    section = Section(
        regions=tuple(shape.regions()),
        borders=tuple(shape.borders()),
        sources=shape.sources(),
        watch=shape.watch(),
        largest=1.6 / fineness,
        growth=0.35,
    )
    return HeatSection(
        section=section,
        assumed=tuple(dict.fromkeys(shape.assumed)),
        lengths=shape.lengths(),
        room_area=shape.room_area(),
        end_factor=shape.end_factor(),
    )


class _Shape:
    """All the lines of the section."""

    def __init__(self, house: House, vault: Vault, form: VaultForm, fineness: float) -> None:
        heat, feet = known(house.ground_heat, "ground_heat"), known(vault.feet, "vault.feet")
        self.house, self.vault, self.form, self.fineness = house, vault, form, fineness
        self.floor, self.wall, self.umbrella = heat.floor, heat.wall, heat.umbrella
        self.assumed: list[str] = []
        self.span, self.top = 0.5 * form.span, form.springing
        within("springing over the floor", self.top, 0.0, 10.0, unit="m")
        self.width = known(feet.wall_width, "vault.feet.wall_width")
        self.inner, self.outer = self.span - 0.5 * self.width, self.span + 0.5 * self.width
        within("half the room between the walls", self.inner, 0.2, unit="m")
        self.foot = -known(self.wall.footing_depth, "ground_heat.wall.footing_depth")
        self.beside = known(self.wall.insulation, "ground_heat.wall.insulation")
        kept = np.unique(np.linspace(0, form.rib.outside.x.size - 1, CURVE_POINTS).round().astype(int))
        self.inside = np.stack([form.rib.outside.x, form.rib.outside.z], axis=1)[kept]
        self.slope = np.abs(form.rib.outside.angle)[kept]
        self.layers: tuple[Layer, ...] = cover_layers(vault, form, kept)
        self.fill = soil_material(house.fill(vault), "the fill", self.assumed)

    # ------------------------------------------------------------ regions
    def regions(self) -> list[Region]:
        """Everything from the far ground to the room, each painted over the one before."""
        regions, self.extent = ground_regions(self, self.assumed)
        regions += self._beside_walls()
        regions += self._floor()
        regions += self._walls()
        for layer in self.layers:
            ring = np.concatenate([layer.inner, layer.outer[::-1]])
            regions.append(Region(outline=ring, material=layer.material, size=self._size(layer.size)))
        return [*regions, Region(outline=self._room(), material=None)]

    def _size(self, size: float) -> float:
        return size / self.fineness

    def _beside_walls(self) -> list[Region]:
        """Insulation outside the walls, and the wedge between wall and covers."""
        if self.beside > SLIGHT:
            stuff = named(self.wall.insulation_material)
        else:
            stuff = self.fill
            self.assumed.append("No insulation stands outside the walls: soil meets them up to the covers.")
        regions = []
        for side in (-1.0, 1.0):
            out = self.outer + self.beside
            if self.beside > SLIGHT:
                x = sorted((side * self.outer, side * out))
                size = self._size(max(0.3 * self.beside, 0.03))
                regions.append(Region.box(stuff, (x[0], x[1]), (self.foot, self.top), size=size))
            if (wedge := self._wedge(side, out)) is not None:
                regions.append(Region(outline=wedge, material=stuff))
        return regions

    def _wedge(self, side: float, out: float) -> Array | None:
        import shapely

        foot = 0 if side < 0 else -1
        spots = [self.inside[foot], self.layers[-1].outer[foot]]
        spots += [np.array((side * x, self.top)) for x in (self.span, self.outer, out)]
        hull = shapely.MultiPoint(spots).convex_hull
        return np.asarray(hull.exterior.coords)[:-1] if hull.area > SLIGHT**2 else None

    def _floor(self) -> list[Region]:
        thickness = known(self.floor.thickness, "ground_heat.floor.thickness")
        below = known(self.floor.insulation, "ground_heat.floor.insulation")
        across = (-self.inner, self.inner)
        regions = []
        if below > SLIGHT:
            size = self._size(max(0.3 * below, 0.03))
            stuff = named(self.floor.insulation_material)
            regions.append(Region.box(stuff, across, (-thickness - below, -thickness), size=size))
        stuff = named(known(self.floor.material, "ground_heat.floor.material"))
        size = self._size(min(FLOOR_SIZE, max(0.5 * thickness, 0.02)))
        return [*regions, Region.box(stuff, across, (-thickness, 0.0), size=size)]

    def _walls(self) -> list[Region]:
        stuff = named(known(self.wall.material, "ground_heat.wall.material"))
        size = self._size(max(0.25 * self.width, WALL_SIZE))
        left = Region.box(stuff, (-self.outer, -self.inner), (self.foot, self.top), size=size)
        right = Region.box(stuff, (self.inner, self.outer), (self.foot, self.top), size=size)
        return [left, right]

    def _room(self) -> Array:
        """The outline of the air: floor, walls, their tops, and the inside of the planks."""
        spots = [self._corners(1.0)[::-1], self.inside[::-1], self._corners(-1.0)]
        return _without_steps(np.concatenate(spots))

    def _corners(self, side: float) -> Array:
        """From the top of a wall over the ribs' feet down its inside."""
        return np.array(
            [(side * self.span, self.top), (side * self.inner, self.top), (side * self.inner, 0.0)]
        )

    # ------------------------------------------------------------ borders
    def borders(self) -> list[Border]:
        """Where room, weather and the deep meet the section."""
        borders = [self._border("room", self._floor_line(), DOWN, FLOOR_SIZE)]
        borders += [self._border("room", line, ASIDE, WALL_SIZE) for line in self._wall_lines()]
        borders += [self._border("room", line, rest, VAULT_SIZE) for line, rest in self._vault_lines()]
        extent: Extent = self.extent
        borders += [self._border("roof", extent.roof, OUTSIDE, SURFACE_SIZE)]
        borders += [self._border("field", line, OUTSIDE, 2.0 * SURFACE_SIZE) for line in extent.field]
        deep = Border(port="deep", line=extent.deep, film=extent.deep_film)
        return [*borders, deep]

    def _border(self, port: str, line: Array, resistance: float, size: float) -> Border:
        return Border(port=port, line=line, film=1.0 / resistance, size=self._size(size))

    def _floor_line(self) -> Array:
        return np.array([(-self.inner, 0.0), (self.inner, 0.0)])

    def _wall_lines(self) -> list[Array]:
        """Inside of the walls, and the tops of the walls out to the planks."""
        lines = []
        for side, foot in ((-1.0, 0), (1.0, -1)):
            line = _without_steps(np.concatenate([self._corners(side), self.inside[foot][None]]))
            way = np.concatenate([self.inside[foot][None], self._corners(side)])
            lines.append(_without_steps(way) if len(line) > 1 else line)
        return lines

    def _vault_lines(self) -> list[tuple[Array, float]]:
        """Inside of the planks, cut where it becomes flatter than 60 degrees."""
        flat = 0.5 * (self.slope[:-1] + self.slope[1:]) < STEEP
        starts = np.flatnonzero(np.diff(flat.astype(int))) + 1
        ends = [0, *starts.tolist(), len(flat)]
        return [(self.inside[a : b + 1], UP if flat[a] else ASIDE) for a, b in pairwise(ends)]

    def sources(self) -> tuple[Source, ...]:
        """Where sun and stove may shine."""
        return (
            Source(name="floor", line=self._floor_line()),
            Source(
                name="walls",
                line=np.concatenate([self._corners(-1.0)[::-1], self.inside, self._corners(1.0)]),
            ),
        )

    # ------------------------------------------------------------ what is watched
    def watch(self) -> dict[str, tuple[float, float]]:
        """The places whose temperature is followed."""
        crown = len(self.inside) // 2
        spots = {
            "crown inside": self.inside[crown],
            "crown outside": self.layers[-1].outer[crown],
            "floor middle": (0.0, 0.0),
            "soil 1 m": (0.0, self._under_floor() - 1.0),
        }
        for name, side, foot in (("left", -1.0, 0), ("right", 1.0, -1)):
            spots[f"springing inside {name}"] = self.inside[foot]
            spots[f"wall foot inside {name}"] = (side * self.inner, 0.0)
            spots[f"floor edge {name}"] = (side * (self.inner - 0.3), 0.0)
            spots[f"under footing {name}"] = (side * self.span, self.foot)
            spots[f"rib foot {name}"] = self.layers[0].outer[foot]
            if self.umbrella is not None:
                spots[f"umbrella edge {name}"] = self.extent.umbrella_ends[0 if side < 0 else 1]
        return {name: (float(spot[0]), float(spot[1])) for name, spot in spots.items()}

    def _under_floor(self) -> float:
        return -known(self.floor.thickness, "ground_heat.floor.thickness") - known(
            self.floor.insulation, "ground_heat.floor.insulation"
        )

    # ------------------------------------------------------------ sizes
    def lengths(self) -> dict[str, float]:
        """Developed length of each surface (m)."""
        extent: Extent = self.extent
        return {
            "vault": _length(self.inside),
            "wall": sum(_length(line) for line in self._wall_lines()),
            "floor": 2.0 * self.inner,
            "roof": _length(extent.roof),
            "field": sum(_length(line) for line in extent.field),
        }

    def room_area(self) -> float:
        """Area of the air inside (m2)."""
        import shapely

        return float(shapely.Polygon(self._room()).area)

    def end_factor(self) -> float:
        """How much more the ground takes at the real length than this section says."""
        floor = material(known(self.floor.material, "ground_heat.floor.material"))
        below = material(self.floor.insulation_material)
        resistance = (
            DOWN
            + known(self.floor.thickness, "ground_heat.floor.thickness") / floor.conductivity
            + known(self.floor.insulation, "ground_heat.floor.insulation") / below.conductivity
        )
        return end_factor(
            self.form.length,
            2.0 * self.inner,
            wall=self.width + self.beside,
            conductivity=self.extent.soil.conductivity,
            resistance=resistance,
        )


def _length(line: Array) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())


def _without_steps(line: Array) -> Array:
    """A line without points that repeat the one before."""
    far = np.hypot(*np.diff(line, axis=0).T) > SLIGHT
    return np.asarray(line[np.concatenate([[True], far])])
