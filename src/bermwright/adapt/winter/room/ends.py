"""The two end walls: what of them stands free, and what has soil behind it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Solid
from bermwright.adapt.winter.room.known import end_of, openings_of
from bermwright.data.materials import material
from bermwright.form.known import known
from bermwright.handbook.conduction import buried_wall_transmittance
from bermwright.handbook.room import Layer, wall_body
from bermwright.house import EndKind, EndSide

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.groundheat import Material
    from bermwright.house import End, House, Vault

    Array = NDArray[np.float64]

INSIDE, OUTSIDE = 0.13, 0.04
"""Surface resistances of ISO 6946 (m2K/W)."""
MADE_OF = {
    EndKind.PLANKS: "softwood",
    EndKind.LOGS: "softwood",
    EndKind.BLOCKS: "concrete blocks",
    EndKind.EARTH_TUBES: "earth bags",
}
LIGHT = 5e4
"""Heat capacity of an insulation by volume: so light that it does not matter (J/m3K)."""
LEAST_AREA, LEAST_SOIL = 0.05, 0.05


@dataclass(frozen=True, slots=True, kw_only=True)
class Profile:
    """The cross-section of the room: half widths over the levels."""

    z: Array
    width: Array

    def area(self, below: float = np.inf) -> float:
        """Area of the room under a level (m2)."""
        inside = np.clip(self.z, None, below)
        return float(np.trapezoid(np.interp(inside, self.z, self.width), inside))


def profile_of(form: VaultForm, wall_width: float) -> Profile:
    """Width of the room at every level, from the floor to the crown."""
    line = form.rib.outside
    crown = int(np.argmax(line.z))
    levels = np.linspace(0.0, float(line.z[crown]), 400)
    sides = []
    for part in (slice(None, crown + 1), slice(crown, None)):
        x, z = line.x[part], line.z[part]
        order = np.argsort(z)
        wall = np.sign(x[0] + x[-1]) * (0.5 * form.span - 0.5 * wall_width)
        sides.append(np.where(levels < form.springing, wall, np.interp(levels, z[order], x[order])))
    return Profile(z=levels, width=np.abs(sides[1] - sides[0]))


def end_solids(
    house: House, vault: Vault, profile: Profile, ground: Material, outdoors: Array
) -> Iterator[Solid]:
    """Both end walls, each as a free and a buried part."""
    for side in EndSide:
        end = known(end_of(house, vault, side), f"end at {side}")
        holes = [one for one in openings_of(house, vault) if one.side.value == side.value]
        buried_to = max(known(end.soil_to, "end.soil_to"), 0.0)
        buried = profile.area(buried_to)
        free = profile.area() - buried - sum(one.area for one in holes)
        layers = _layers(house, end, side)
        if free > LEAST_AREA:
            yield _solid(f"{side} end", layers, free, outdoors)
        if buried > LEAST_AREA and buried_to > LEAST_SOIL:
            soil = _soil(ground, sum(one.resistance for one in layers), buried_to)
            more = f", {soil.thickness:.2f} m of it the way through the soil"
            yield _solid(f"{side} end in the soil", (*layers, soil), buried, outdoors, more)


def _layers(house: House, end: End, side: EndSide) -> tuple[Layer, ...]:
    row = material(MADE_OF[end.kind])
    wall = Layer(
        thickness=known(end.thickness, "end.thickness"),
        conductivity=row.conductivity,
        heat_capacity=row.density * row.heat_capacity,
    )
    heat = known(house.heat, "heat")
    front = side is EndSide.FRONT
    thick = heat.front_insulation if front else heat.back_insulation
    conducts = heat.front_conductivity if front else heat.back_conductivity
    if thick <= 0.0:
        return (wall,)
    return (wall, Layer(thickness=thick, conductivity=conducts, heat_capacity=LIGHT))


def _soil(ground: Material, resistance: float, depth: float) -> Layer:
    """Soil as thick as makes the wall lose what quarter circles of heat give."""
    whole = resistance + INSIDE + OUTSIDE
    loss = float(buried_wall_transmittance(whole, depth, conductivity=ground.conductivity))
    thickness = max(ground.conductivity * (1.0 / loss - whole), 0.01)
    return Layer(thickness=thickness, conductivity=ground.conductivity, heat_capacity=ground.capacity)


def _solid(name: str, layers: tuple[Layer, ...], area: float, outdoors: Array, more: str = "") -> Solid:
    whole = INSIDE + sum(one.resistance for one in layers) + OUTSIDE
    return Solid(
        name=name,
        body=wall_body(layers, area, inside_film=1.0 / INSIDE, outside_film=1.0 / OUTSIDE),
        known=np.stack([outdoors, np.zeros(HOURS)], axis=1),
        how=f"{area:.2f} m² / {whole:.2f} m²K/W{more}",
        area=area,
        resistance=whole,
    )
