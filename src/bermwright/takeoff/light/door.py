"""An insulated door leaf for a cold climate: layers, heat loss, mass, and the pull on its upper hinge."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.data.materials import material
from bermwright.data.openings import CORES, HINGES_IN, PACKING, SKIN, STILE
from bermwright.handbook.conduction import OUTSIDE, HeatFlow, bridged_resistance, inside_resistance
from bermwright.house import OpeningKind
from bermwright.takeoff.light.holes import holes_of

if TYPE_CHECKING:
    from bermwright.data.materials import Material
    from bermwright.house import House, Opening

GRAVITY = 9.81
LEAST = 0.05
"""Of core between stiles or rails; less is solid wood (m)."""
CORE, WOOD = "wood fibre insulation", "softwood"


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorLayer:
    """One layer of the leaf, from the room out."""

    name: str
    thickness: float
    material: str
    conductivity: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DoorLeaf:
    """A leaf with one thickness of core."""

    opening: str
    width: float
    height: float
    layers: tuple[DoorLayer, ...]
    timber: float
    """Share of its face that is stiles and rails (-)."""
    u: float
    """W/m2K, the leaf without frame and gaps."""
    error: float
    """How far the truth may lie from it, as a share (-)."""
    mass: float
    """kg."""
    pull: float
    """Sideways on the upper hinge (N)."""

    @property
    def thickness(self) -> float:
        """Of the leaf (m)."""
        return sum(layer.thickness for layer in self.layers)


def door_leaves(house: House) -> tuple[tuple[DoorLeaf, ...], ...]:
    """For every door of the house leaves with thicker and thicker cores."""
    doors = [one for one in holes_of(house) if one.kind is OpeningKind.DOOR and _has_core(one)]
    return tuple(tuple(door_leaf(door, core) for core in CORES) for door in doors)


def door_leaf(door: Opening, core: float) -> DoorLeaf:
    """The leaf of a door with a core of wood fibre between stiles."""
    wood, soft = material(WOOD), material(CORE)
    width, height = _size(door)
    timber = _timber_share(width, height)
    skin = SKIN.value
    found = bridged_resistance(
        [
            [(1.0, skin / wood.conductivity)],
            [(1.0 - timber, core / soft.conductivity), (timber, core / wood.conductivity)],
            [(1.0, skin / wood.conductivity)],
        ],
        inside=inside_resistance(HeatFlow.HORIZONTAL),
        outside=OUTSIDE,
    )
    density = 2.0 * skin * wood.density + core * (timber * wood.density + (1.0 - timber) * soft.density)
    mass = width * height * density
    return DoorLeaf(
        opening=door.name,
        width=width,
        height=height,
        layers=_layers(core, wood, soft),
        timber=timber,
        u=found.transmittance,
        error=found.error,
        mass=mass,
        pull=mass * GRAVITY * 0.5 * width / (height - 2.0 * HINGES_IN.value),
    )


def _size(door: Opening) -> tuple[float, float]:
    """Width and height of the leaf: the hole less its packing and frame (m)."""
    width, height = (size - 2.0 * PACKING.value - 2.0 * STILE.value for size in (door.width, door.height))
    return width, height


def _has_core(door: Opening) -> bool:
    """Whether anything is left between stiles and rails: a hatch as narrow as its frame has no leaf."""
    width, height = _size(door)
    return width > 2.0 * STILE.value + LEAST and height > 3.0 * STILE.value + LEAST


def _timber_share(width: float, height: float) -> float:
    """Two stiles, three rails."""
    stile = STILE.value
    clear = (width - 2.0 * stile) * (height - 3.0 * stile)
    return 1.0 - clear / (width * height)


def _layers(core: float, wood: Material, soft: Material) -> tuple[DoorLayer, ...]:
    skin = SKIN.value
    return (
        DoorLayer(name="boarding inside", thickness=skin, material=WOOD, conductivity=wood.conductivity),
        DoorLayer(name="core between stiles", thickness=core, material=CORE, conductivity=soft.conductivity),
        DoorLayer(name="boarding outside", thickness=skin, material=WOOD, conductivity=wood.conductivity),
    )
