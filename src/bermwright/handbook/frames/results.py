"""From movements to forces (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.handbook.frames.compiled import compiled
from bermwright.handbook.frames.links import pull, stretch
from bermwright.handbook.frames.soil_law import free_pressure

if TYPE_CHECKING:
    from bermwright.handbook.frames.nouns import Array
    from bermwright.handbook.frames.records import Bars, Ground, Links, Out, Shape, Work


@compiled
def write_moves(shape: Shape, moved: Array, face: Array) -> None:
    """Movements of the nodes, and of the soil face for the states that follow."""
    for i in range(face.size):
        face[i] = shape.face[i]
        for way in range(3):
            moved[i, way] = shape.move[3 * i + way]


@compiled
def write_bars(bars: Bars, shape: Shape, out: Out, place: tuple[int, int], stiffness: float) -> None:
    """Axial force, bending and shear of every element, the second-order part included."""
    move, turn = shape.move, shape.turn
    axial, moment, shear = out.axial[place], out.moment[place], out.shear[place]
    for e in range(turn.size):
        length, tension, cos, sin = bars.length[e], shape.tension[e], bars.cos[e], bars.sin[e]
        across, up = move[3 * e + 3] - move[3 * e], move[3 * e + 4] - move[3 * e + 1]
        # Rotations against the chord: the chord's own turn then adds nothing to the bending.
        chord = (cos * up - sin * across) / length
        near, far = move[3 * e + 2] - chord, turn[e] - chord
        bend = stiffness * bars.bending[e] / length
        start = bend * (4.0 * near + 2.0 * far) + tension * length * (4.0 * near - far) / 30.0
        end = bend * (2.0 * near + 4.0 * far) + tension * length * (4.0 * far - near) / 30.0
        axial[e] = -stiffness * bars.axial[e] * (cos * across + sin * up) / length
        moment[e, 0] = -start
        moment[e, 1] = end
        shear[e] = (start + end) / length


@compiled
def write_soil(bars: Bars, ground: Ground, shape: Shape, reference: Array, pressure: Array) -> None:
    """Sideways pressure of the soil; `load` becomes all that acts on the nodes."""
    for i in range(bars.plan.size):
        gone = shape.face[i] - reference[i]
        free = free_pressure(ground.rest[i], ground.spring[i], gone, bars.rise[i])
        pressure[i] = min(max(free, ground.low[i]), ground.high[i])
        across = pressure[i] * bars.rise[i]
        ground.load[3 * i] = ground.base[3 * i] + across
        ground.load[3 * i + 2] = ground.base[3 * i + 2] - bars.lever_z[i] * across


@compiled
def write_springs(bars: Bars, ground: Ground, spring: Array) -> None:
    """Stiffness of the soil where it is elastic."""
    for i in range(bars.plan.size):
        spring[i] = ground.spring[i] if ground.side[i] == 0 else 0.0


@compiled
def write_links(links: Links, work: Work, state: int, member: Array) -> None:
    """Forces of the props and ties; they too act on the nodes."""
    _, shape, ground, ties, history = work
    for link in range(links.start.size):
        longer = stretch(links, link, shape.move) - history.link_reference[state, link]
        member[link] = links.stiffness[link] * longer if ties.on[link] else 0.0
        pull(links, link, member[link], ground.load)


@compiled
def write_feet(bars: Bars, shape: Shape, load: Array, out: Out, place: tuple[int, int]) -> None:
    """What the rib gives to its supports: what its end gives, and what acts on the end itself."""
    move, feet = shape.move, out.feet[place]
    for side in range(2):
        e = side * (bars.length.size - 1)
        node = 3 * side * bars.length.size
        way = 1.0 if side == 0 else -1.0
        across, up = move[3 * e + 3] - move[3 * e], move[3 * e + 4] - move[3 * e + 1]
        tilt = (bars.cos[e] * up - bars.sin[e] * across) / bars.length[e]
        push = out.axial[place][e]
        # Across the chord as drawn: the shear of the bent rib and the tilt of the axial force.
        beside = out.shear[place][e] - shape.tension[e] * tilt
        feet[side, 0] = push * bars.cos[e] - beside * bars.sin[e] - way * load[node]
        feet[side, 1] = way * (push * bars.sin[e] + beside * bars.cos[e]) - load[node + 1]
        feet[side, 2] = out.moment[place][e, side] + way * load[node + 2]
