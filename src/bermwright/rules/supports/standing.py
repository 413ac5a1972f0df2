"""What stands under one foot of a vault, resolved from the house file: levels, widths, weights, ground.

Across, everything counts from the edge of the base in the room outward (m).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, TypeVar

import numpy as np

from bermwright.house.parts.support_words import Retains, Sides
from bermwright.rules.grids.holding import held_side
from bermwright.rules.study import once

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.base.ranges import Range
    from bermwright.form.shapes import VaultForm
    from bermwright.house import Fill, House, Soil
    from bermwright.house.parts.holds import FloorTie, Ring, Socket
    from bermwright.house.parts.walls import Buttress, Footing, Wall
    from bermwright.rules.grids.blocks import Block
    from bermwright.rules.study import Study

Part = TypeVar("Part", "Wall", "Footing", "Buttress", "Ring", "Socket")

SIDES = ("left", "right")
INSIDE_BUILD_UP = 0.2
"""The room's ground lies this far under its finished floor while it is built (m)."""
CLEAR = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The soil under the base."""

    name: str
    friction: Range
    cohesion: float
    """Least, Pa."""
    weight: float
    """Least, N/m3."""
    saturated: float
    """Least, N/m3."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """One side: everything known of what stands under its foot."""

    side: int
    """0 left, 1 right."""
    wall: Wall | None
    footing: Footing | None
    buttress: Buttress | None
    """One that stands outside, bonded to the wall."""
    inner_buttress: Buttress | None
    tie: FloorTie | None
    foot: float
    """Middle of the rib's foot, from the room edge of the base (m)."""
    toe: float
    thickness: float
    """Of the wall; 0 where there is none (m)."""
    width: float
    """Of the base, buttresses left out (m)."""
    top: float
    bottom: float
    base: float
    """Levels: where the foot stands, underside of the wall, underside of the base (m)."""
    weight: float
    arm: float
    """Of wall and footing (N/m), and where it acts from the room edge (m)."""
    face: float
    """From the foot out to the soil face of the vault (m)."""
    plane_top: float
    """Level up to which soil presses on the support; above it, it presses on the vault (m)."""
    retains: bool
    ground: Ground | None
    water: float | None
    """Highest ground water (m); None where it is not known."""
    block: Block | None = None
    """Fill in steps of geogrid that stands by itself behind the wall; None where the fill leans on it."""

    @property
    def part(self) -> str:
        """Its name in a finding."""
        if self.wall is not None:
            return f'wall "{self.wall.name}"'
        return f'footing "{self.footing.name}"' if self.footing else "support"

    @property
    def side_name(self) -> str:
        """Left or right."""
        return SIDES[self.side]

    @property
    def height(self) -> float:
        """From the underside of the base to the foot (m)."""
        return self.top - self.base

    @property
    def middle(self) -> float:
        """Height of the middle of weight of wall and footing over the base (m)."""
        deep = self.bottom - self.base
        strip = self.footing.unit_weight * self.width * deep if self.footing else 0.0
        wall = self.weight - strip
        return (strip * 0.5 * deep + wall * (deep + 0.5 * (self.top - self.bottom))) / max(self.weight, 1e-9)

    @property
    def outer_face(self) -> float:
        """Outer face of the wall, or of the foot where there is none (m)."""
        return self.toe + self.thickness if self.thickness else self.foot

    @property
    def heel(self) -> tuple[float, float]:
        """From where to where soil rests on the base outside (m)."""
        start = min(max(self.outer_face, self.foot + self.face), self.width)
        return start, self.width

    @property
    def helped(self) -> Buttress | None:
        """A buttress outside that is bonded to the wall."""
        one = self.buttress
        return one if one is not None and one.bond else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """A side about which too little is known, and what to write."""

    side: int
    part: str
    places: tuple[str, ...]
    """Empty where nothing at all stands there."""


@once
def standings(study: Study) -> tuple[Standing | Missing, ...]:
    """What stands under the left and the right foot."""
    return tuple(_standing(study, side) for side in (0, 1))


def on_side(parts: Iterable[Part], vault: str, side: int) -> Part | None:
    """The part of that vault on that side."""
    wanted = {Sides.BOTH, Sides(SIDES[side])}
    return next((part for part in parts if part.vault == vault and part.side in wanted), None)


def tie_of(house: House, vault: str) -> FloorTie | None:
    """What joins both feet of a vault."""
    return next((tie for tie in house.floor_ties if tie.vault == vault), None)


def _standing(study: Study, side: int) -> Standing | Missing:
    house, name, form = study.house, study.vault.name, study.form
    wall = on_side(house.walls, name, side)
    footing = on_side(house.footings, name, side)
    if wall is None and footing is None:
        return Missing(side=side, part=study.part, places=())
    lost = (*_lost(house, wall, footing), *_wet(study))
    if lost:
        part = f'wall "{wall.name}"' if wall else f'footing "{footing.name}"' if footing else study.part
        return Missing(side=side, part=part, places=lost)
    return _resolved(study, side, form, wall, footing)


def _lost(house: House, wall: Wall | None, footing: Footing | None) -> tuple[str, ...]:
    needed: dict[str, object] = {}
    if wall is not None:
        needed |= {f"wall.{key}": getattr(wall, key) for key in ("thickness", "bottom", "unit_weight")}
    if footing is not None:
        needed |= {f"footing.{key}": getattr(footing, key) for key in ("width", "thickness")}
    if not house.site.soil:
        needed["site.soil"] = None
    return tuple(place for place, value in needed.items() if value is None)


def _wet(study: Study) -> tuple[str, ...]:
    """What must be known of the water behind the support."""
    fill = study.house.fill(study.vault)
    drained = fill is not None and fill.drained is True
    return () if drained or study.house.site.overflow is not None else ("vault.fill.drained",)


def _resolved(
    study: Study, side: int, form: VaultForm, wall: Wall | None, footing: Footing | None
) -> Standing:
    thick = (wall.thickness or 0.0) if wall else 0.0
    width = (footing.width or 0.0) if footing else thick
    inset = wall.foot if wall and wall.foot is not None else 0.5 * thick
    toe = footing.toe if footing and footing.toe is not None else 0.5 * (width - thick)
    top = wall.top if wall and wall.top is not None else form.springing
    bottom = wall.bottom if wall and wall.bottom is not None else top
    deep = (footing.thickness or 0.0) if footing else 0.0
    parts = [
        ((wall.unit_weight or 0.0) * thick * (top - bottom) if wall else 0.0, toe + 0.5 * thick),
        (footing.unit_weight * width * deep if footing else 0.0, 0.5 * width),
    ]
    weight = sum(one for one, _ in parts)
    mesh, end = form.mesh, (0, -1)[side]
    base = bottom - deep
    buttresses = [one for one in study.house.buttresses if one.vault == study.vault.name]
    out = [one for one in buttresses if not one.inside]
    within = [one for one in buttresses if one.inside]
    return Standing(
        side=side,
        wall=wall,
        footing=footing,
        buttress=on_side(out, study.vault.name, side),
        inner_buttress=on_side(within, study.vault.name, side),
        tie=tie_of(study.house, study.vault.name),
        foot=toe + inset,
        toe=toe,
        thickness=thick,
        width=width,
        top=top,
        bottom=bottom,
        base=base,
        weight=weight,
        arm=sum(one * arm for one, arm in parts) / weight if weight > 0.0 else 0.5 * width,
        face=abs(float(mesh.soil_x[end])) - abs(float(mesh.x[end])),
        plane_top=max(top, float(mesh.soil_z[end])) if wall else top,
        retains=wall is None or wall.retains is Retains.OUTSIDE,
        ground=_ground(study, footing, base, side),
        water=form.ground.water_high,
        block=held_side(study.house, form, study.vault.name, side),
    )


def _ground(study: Study, footing: Footing | None, base: float, side: int) -> Ground | None:
    house, form = study.house, study.form
    named = house.soil(footing.soil) if footing and footing.soil else None
    surface = float(form.ground.natural.level(form.mesh.x[(0, -1)[side]]))
    soil = named or _layer(house, surface - base)
    if soil is None or soil.friction_angle is None or soil.unit_weight is None:
        return None
    wet = soil.saturated_unit_weight or soil.unit_weight
    return Ground(
        name=soil.name,
        friction=soil.friction_angle,
        cohesion=soil.cohesion.low if soil.cohesion else 0.0,
        weight=soil.unit_weight.low,
        saturated=max(wet.low, 1e4),
    )


def _layer(house: House, depth: float) -> Soil | None:
    """The site's soil at a depth below the natural ground."""
    reached = 0.0
    for soil in house.site.soil:
        if soil.thickness is None:
            return soil
        reached += soil.thickness
        if depth < reached - CLEAR:
            return soil
    return house.site.soil[-1] if house.site.soil else None


def retained(study: Study, standing: Standing) -> Fill | Soil | None:
    """The soil that lies against a support."""
    wall = standing.wall
    named = study.house.soil(wall.soil) if wall and wall.soil else None
    return named or study.house.fill(study.vault)


def across(study: Study, standing: Standing, place: float) -> float:
    """Place in the section (x, m) of a distance from the room edge of the base."""
    foot = float(study.form.mesh.x[(0, -1)[standing.side]])
    return foot + (-1.0, 1.0)[standing.side] * (place - standing.foot)


def surface_line(study: Study, place: float) -> tuple[float, float]:
    """Level of the soil under its turf, and of the natural ground, over a place of the section (m)."""
    ground = study.form.ground
    finished = float(ground.finished.level(np.array(place))) - ground.turf
    return finished, min(float(ground.natural.level(np.array(place))), finished)
