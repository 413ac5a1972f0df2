"""What stands under the feet and under the floor: walls, their insulation, footings, slab."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.form.solids.bodies import Body, box, solid, without
from bermwright.form.solids.nouns import Kind, Layer

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids.nouns import Solid
    from bermwright.house import House, Vault
    from bermwright.house.parts.walls import Footing, Wall

SIDES = (("left", -1.0), ("right", 1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Support:
    """Wall and footing under one foot as ends across and levels (m); None where the file does not say."""

    side: str
    sign: float
    foot: float
    """Place of the foot of the ribs."""
    wall: tuple[float, float] | None
    """Ends across, left and right."""
    top: float
    bottom: float | None
    footing: tuple[float, float] | None
    base: float | None
    """Underside of the footing."""
    insulation: float
    """Thickness outside of the wall."""

    @property
    def inside(self) -> float:
        """Face towards the room."""
        return self.foot if self.wall is None else self.wall[0 if self.sign > 0 else 1]

    @property
    def outside(self) -> float:
        """Face towards the soil, its insulation included."""
        edge = self.foot if self.wall is None else self.wall[1 if self.sign > 0 else 0]
        return edge + self.sign * self.insulation


def supports_under(house: House, vault: Vault, form: VaultForm) -> tuple[Support, Support]:
    """What stands under the left and the right foot."""
    left, right = (_support(house, vault, form, side, sign) for side, sign in SIDES)
    return left, right


def _support(house: House, vault: Vault, form: VaultForm, side: str, sign: float) -> Support:
    foot = float(form.rib.centreline.x[0 if sign < 0 else -1])
    wall = next((one for one in house.walls if one.vault == vault.name and one.side in {"both", side}), None)
    strip = next(
        (one for one in house.footings if one.vault == vault.name and one.side in {"both", side}), None
    )
    ends, bottom = _wall_ends(wall, foot, sign), vault.springing if wall is None else wall.bottom
    heat = house.ground_heat
    return Support(
        side=side,
        sign=sign,
        foot=foot,
        wall=ends,
        top=vault.springing if wall is None or wall.top is None else wall.top,
        bottom=bottom,
        footing=_footing_ends(strip, ends, foot, sign),
        base=None if strip is None or strip.thickness is None or bottom is None else bottom - strip.thickness,
        insulation=(heat.wall.insulation or 0.0) if heat is not None and ends is not None else 0.0,
    )


def _wall_ends(wall: Wall | None, foot: float, sign: float) -> tuple[float, float] | None:
    """Both faces, left and right."""
    if wall is None or wall.thickness is None:
        return None
    inside = foot - sign * (0.5 * wall.thickness if wall.foot is None else wall.foot)
    low, high = sorted((inside, inside + sign * wall.thickness))
    return low, high


def _footing_ends(
    strip: Footing | None, wall: tuple[float, float] | None, foot: float, sign: float
) -> tuple[float, float] | None:
    """Both edges, left and right; without a toe it stands evenly under its wall."""
    if strip is None or strip.width is None:
        return None
    low, high = wall or (foot, foot)
    inside = low if sign > 0 else high
    toe = 0.5 * (strip.width - (high - low)) if strip.toe is None else strip.toe
    edge = inside - sign * toe
    start, end = sorted((edge, edge + sign * strip.width))
    return start, end


def wall_bodies(support: Support, length: float) -> dict[Kind, Body]:
    """Wall, its insulation and its footing as bodies, as far as the file knows them."""
    along = (0.0, length)
    bodies: dict[Kind, Body] = {}
    if support.wall is not None and support.bottom is not None:
        bodies[Kind.WALL] = box(support.wall, along, (support.bottom, support.top))
        if support.insulation > 0.0:
            edge = support.wall[1 if support.sign > 0 else 0]
            low, high = sorted((edge, edge + support.sign * support.insulation))
            bodies[Kind.WALL_INSULATION] = box((low, high), along, (support.bottom, support.top))
    if support.footing is not None and support.base is not None and support.bottom is not None:
        bodies[Kind.FOOTING] = box(support.footing, along, (support.base, support.bottom))
    return bodies


NAMES = {Kind.WALL: "wall", Kind.WALL_INSULATION: "wall insulation", Kind.FOOTING: "footing"}
LAYERS = {
    Kind.FOOTING: "footings",
    Kind.WALL: "walls",
    Kind.WALL_INSULATION: "insulation outside the walls",
}


def support_layers(supports: tuple[Support, Support], length: float) -> tuple[tuple[Layer, ...], list[Body]]:
    """Layers from the footings up, and every body in them."""
    found: dict[Kind, list[Solid]] = {kind: [] for kind in LAYERS}
    bodies: list[Body] = []
    for support in supports:
        for kind, body in wall_bodies(support, length).items():
            bodies.append(body)
            found[kind].append(solid(f"{support.side} {NAMES[kind]}", kind, body))
    layers = tuple(
        Layer(name=title, kind=kind, solids=tuple(found[kind]))
        for kind, title in LAYERS.items()
        if found[kind]
    )
    return layers, bodies


def floor_layers(
    house: House, supports: tuple[Support, Support], length: float, standing: Sequence[Body]
) -> tuple[tuple[Layer, ...], list[Body]]:
    """Floor and the insulation under it, from wall to wall; what stands there already is left out."""
    floor = house.ground_heat.floor if house.ground_heat is not None else None
    if floor is None or floor.thickness is None:
        return (), []
    across = (supports[0].inside, supports[1].inside)
    slab = without(box(across, (0.0, length), (-floor.thickness, 0.0)), standing)
    layers = [Layer(name="floor", kind=Kind.FLOOR, solids=(solid("floor", Kind.FLOOR, slab),))]
    bodies = [slab]
    if floor.insulation:
        low = -floor.thickness - floor.insulation
        under = without(box(across, (0.0, length), (low, -floor.thickness)), standing)
        one = solid("floor insulation", Kind.FLOOR_INSULATION, under)
        layers.insert(0, Layer(name="insulation under the floor", kind=Kind.FLOOR_INSULATION, solids=(one,)))
        bodies.append(under)
    return tuple(layers), bodies
