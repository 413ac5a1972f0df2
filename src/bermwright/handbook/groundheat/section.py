"""What a section through house and ground is made of: materials, outlines, borders and what is watched.

Axes: x to the right, z up, in metres; everything is for one metre of length.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Whole = NDArray[np.int64]
    Truth = NDArray[np.bool_]

CONDUCTS_LEAST, CONDUCTS_MOST = 0.005, 450.0
"""Between a vacuum panel and copper (W/(m K))."""
HOLDS_LEAST, HOLDS_MOST = 1e3, 5e6
"""Between still air and wet peat (J/(m3 K))."""
FIXED_FILM = 1e7
"""What stands for a surface whose temperature is held: nothing conducts a thousandth of it (W/(m2 K))."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What a region is made of."""

    name: str
    conductivity: float
    """W/(m K)."""
    capacity: float
    """Of a volume (J/(m3 K))."""
    frozen_conductivity: float | None = None
    """W/(m K); None: it does not change with frost."""
    frozen_capacity: float | None = None
    """J/(m3 K); None: it does not change with frost."""
    latent: float = 0.0
    """Heat of freezing of the water in it (J/m3)."""

    def __post_init__(self) -> None:
        """Refuse a slipped decimal point before it becomes a warm house."""
        for value, what in ((self.conductivity, "conductivity"), (self.frozen_conductivity, "frozen")):
            if value is not None:
                name = f"{what} of {self.name}"
                within(name, value, CONDUCTS_LEAST, CONDUCTS_MOST, unit="W/(m K)")
        for value, what in ((self.capacity, "heat capacity"), (self.frozen_capacity, "frozen capacity")):
            if value is not None:
                within(f"{what} of {self.name}", value, HOLDS_LEAST, HOLDS_MOST, unit="J/(m3 K)")
        within(f"latent heat of {self.name}", self.latent, 0.0, 334e6, unit="J/m3")


@dataclass(frozen=True, slots=True, kw_only=True)
class Region:
    """An area of one material; a later region is painted over an earlier one."""

    outline: Array
    """(n, 2) corners; the last joins the first."""
    material: Material | None
    """None: nothing is there (a room)."""
    size: float = np.inf
    """Largest edge of a triangle along its outline (m)."""

    @classmethod
    def of(cls, corners: ArrayLike, material: Material | None, size: float = np.inf) -> Region:
        """A region from its corners."""
        return cls(outline=np.array(corners, dtype=float), material=material, size=size)

    @classmethod
    def box(
        cls, material: Material | None, x: tuple[float, float], z: tuple[float, float], size: float = np.inf
    ) -> Region:
        """A rectangle."""
        corners = [(x[0], z[0]), (x[1], z[0]), (x[1], z[1]), (x[0], z[1])]
        return cls.of(corners, material, size)


@dataclass(frozen=True, slots=True, kw_only=True)
class Border:
    """A part of the boundary that meets a temperature; what has no border lets no heat through."""

    port: str
    """Name of the temperature that it meets; several borders may share one."""
    line: Array
    """(n, 2) a line that lies on the boundary."""
    film: float = np.inf
    """Conductance between that temperature and the surface (W/(m2 K)); infinite: the surface has it."""
    size: float = np.inf
    """Largest edge of a triangle along it (m)."""

    @classmethod
    def of(cls, port: str, line: ArrayLike, film: float = np.inf, size: float = np.inf) -> Border:
        """A border from its points."""
        return cls(port=port, line=np.array(line, dtype=float), film=film, size=size)


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """Heat that is spread evenly over a line of the boundary, such as sun on a floor."""

    name: str
    line: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A whole section, ready for a mesh."""

    regions: tuple[Region, ...]
    borders: tuple[Border, ...]
    sources: tuple[Source, ...] = ()
    watch: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    """Points whose temperature is followed, by name."""
    fine: tuple[tuple[float, float, float], ...] = ()
    """x, z and size (m) of places that need small triangles, such as the edge of a hot strip."""
    largest: float = 1.0
    """Largest edge of any triangle (m)."""
    growth: float = 0.3
    """How much larger triangles get per metre of distance from where they are small (-)."""

    @property
    def ports(self) -> tuple[str, ...]:
        """Names of the temperatures it meets, each once."""
        return tuple(dict.fromkeys(border.port for border in self.borders))


def checked(section: Section) -> Section:
    """The section, or an error that says what is wrong with it."""
    if not any(region.material is not None for region in section.regions):
        raise OutOfRangeError("A section needs at least one region of a material.")
    if not section.borders:
        raise OutOfRangeError("A section needs at least one border that meets a temperature.")
    for region in section.regions:
        within("corners of a region", region.outline)
        within("size of triangles", region.size, 0.0, open_low=True, unit="m")
    for border in section.borders:
        within(f"line of {border.port}", border.line)
        within(f"film of {border.port}", border.film, 0.0, open_low=True, unit="W/(m2 K)")
    within("largest triangle", section.largest, 0.0, open_low=True, unit="m")
    within("growth of triangles", section.growth, 0.05, 1.0)
    return section
