"""The ground and the shell as one body of the room, with the snow on them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Solid
from bermwright.data.materials import material
from bermwright.form.heat import heat_section
from bermwright.handbook.groundheat import (
    Drive,
    Node,
    assemble,
    make_mesh,
    periodic_year,
    reduce_model,
    snow_loss,
    steady,
)
from bermwright.handbook.room import Body

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from numpy.typing import NDArray

    from bermwright.form.heat import HeatSection
    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.groundheat import Mesh, Reduced
    from bermwright.house import House, Vault

    Array = NDArray[np.float64]

SNOW = "settled snow"
"""What lies on the ground, of the table of materials."""
OPEN_GROUND = 4.0
"""How far past the last change of the surface the ground counts as open (m)."""
FLOOR = 0.02
"""What lies under this level is floor (m)."""
LITTLE_SNOW = 0.05
"""Less hardly keeps the cold out (m)."""
FLOOR_SHARE, WALL_SHARE = 0.5, 0.4
"""Where the sun falls that comes in; the rest warms the air."""
SLOWEST = 1e-13
"""A mode slower than this does not change in a lifetime (1/s)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The section of one vault, its reduced model, and how long it counts."""

    heat: HeatSection
    mesh: Mesh
    model: Reduced
    plain_length: float
    """Of the vault (m)."""
    low_share: float
    """Share of the room's loss that leaves through the floor and the foot of the walls (-)."""

    @property
    def length(self) -> float:
        """Length of the vault with what the ground at its ends adds to floor and walls (m)."""
        return self.plain_length * (1.0 + self.low_share * (self.heat.end_factor - 1.0))

    @property
    def beside(self) -> float:
        """A place in the open ground, past toes and umbrella (m from the axis)."""
        roof = next(one.line for one in self.heat.section.borders if one.port == "roof")
        return float(np.max(np.abs(roof[:, 0]))) + OPEN_GROUND

    @property
    def steady_loss(self) -> float:
        """Heat of a kelvin between the room and everything outside, by the section alone (W/mK)."""
        full = self.model.full
        still = steady(full, {name: float(name == "room") for name in full.ports})
        return still.flow["room"]

    @property
    def body(self) -> Body:
        """All of it, seen from the room."""
        full, model = self.model.full, self.model
        room = full.ports.index("room")
        others = [at for at in range(len(full.ports)) if at != room]
        scale = np.sqrt(self.length)
        sources = model.into[:, len(full.ports) :] * scale / self.length
        return Body(
            decay=np.maximum(model.decay, SLOWEST),
            gain=np.concatenate([model.into[:, [room, *others]] * scale, sources], axis=1),
            port=float(full.conductances[room] * self.length),
            inputs=("room", *(full.ports[at] for at in others), *(f"sun on {name}" for name in full.sources)),
        )

    def watch(self, states: Array) -> Mapping[str, Array]:
        """Temperature of what is watched, from states of the body, one row a time (°C)."""
        rows = states @ self.model.watching.T / np.sqrt(self.length)
        return dict(zip(self.model.full.watched, rows.T, strict=True))

    def field(self, state: Array) -> Array:
        """Temperature of every point of the mesh (°C)."""
        return np.asarray(self.model.shapes @ (state / np.sqrt(self.length)))


def ground_of(
    house: House, vault: Vault, form: VaultForm, *, fineness: float = 1.0,
    share: Callable[..., Any] = map,
) -> Ground:  # fmt: skip
    """Mesh, equations and reduced model of a vault in its ground."""
    heat = heat_section(house, vault, form, fineness=fineness)
    mesh = make_mesh(heat.section)
    model = reduce_model(assemble(mesh, heat.section), share=share)
    return Ground(
        heat=heat,
        mesh=mesh,
        model=model,
        plain_length=vault.length,
        low_share=_low_share(mesh, model, form.springing),
    )


def _low_share(mesh: Mesh, model: Reduced, springing: float) -> float:
    """Share of the room's steady loss that leaves below the springing."""
    full = model.full
    room = full.ports.index("room")
    still = steady(full, {name: float(name == "room") for name in full.ports})
    flow = full.films[:, room] * (1.0 - still.temperature)
    return float(flow[mesh.points[:, 1] < max(springing, FLOOR)].sum() / flow.sum())


@dataclass(frozen=True, slots=True, kw_only=True)
class Surface:
    """Temperatures of the ground's surfaces under the snow (°C)."""

    roof: Array
    field: Array
    deep: float


def surface_of(ground: Ground, outdoors: Array, snow_depth: Array, room: Array) -> Surface:
    """The year of the surfaces, with the room at what is wanted: it hardly matters to them."""
    lengths = dict(ground.model.full.lengths)
    deep = float(outdoors.mean()) + _warmer_under_snow(snow_depth)
    nodes = tuple(
        Node(
            port=name,
            loss=snow_loss(lengths[name], snow_depth, material(SNOW).conductivity),
            outside=outdoors,
        )
        for name in ("roof", "field")
    )
    year = periodic_year(ground.model, Drive(given={"room": room, "deep": deep}, nodes=nodes))
    return Surface(roof=year.air["roof"], field=year.air["field"], deep=deep)


def _warmer_under_snow(snow_depth: Array) -> float:
    """Snow keeps the cold out, not the heat: two kelvins where it lies half the year, in proportion."""
    return 4.0 * float((snow_depth > LITTLE_SNOW).mean())


def ground_solid(ground: Ground, surface: Surface, sun: Array) -> Solid:
    """Ground and shell with what they meet, `sun` is all the sun that comes in (W)."""
    body = ground.body
    known = {
        "roof": surface.roof,
        "field": surface.field,
        "deep": np.full(HOURS, surface.deep),
        "sun on floor": FLOOR_SHARE * sun,
        "sun on walls": WALL_SHARE * sun,
    }
    return Solid(
        name="shell and ground",
        body=body,
        known=np.stack([known[name] for name in body.inputs[1:]], axis=1),
        how=f"{ground.steady_loss:.3f} W/mK over {ground.length:.2f} m, its ends counted",
    )
