"""The bundles of arrays that the compiled kernels pass to each other (no object survives there)."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.frames.nouns import Array, Frame, Member, Soil, States, Truth, Whole


Along = tuple["Array", "Array", "Array", "Array", "Array"]
"""An element's matrix in its own axes: for lengthening, for shift across, between shift and turn of an end,
for the turn of an end, and between the turns of both."""


class Bars(NamedTuple):
    """The frame, with its elements' matrices in global axes."""

    elastic: Array
    """(n, 7) what the stiffness matrix is made of: rows 0 and 1 begin with a, b, c and b, d, s; row 2 holds g
    for its own turn, h for that of the far end. All others are these again, with one sign or the other."""
    geometric: Array
    """(n, 7) the same per newton of tension."""
    cos: Array
    sin: Array
    length: Array
    axial: Array
    bending: Array
    joint: Array
    feet: Array
    plan: Array
    rise: Array
    lever_x: Array
    lever_z: Array
    cushion: Array


class Lanes(NamedTuple):
    """The soil's values, (L,) each; see `nouns.Soil`."""

    ratio: Array
    active: Array
    passive: Array
    spring: Array
    modulus: Array
    weight: Array
    vertical: Array
    underside: Array


class Steps(NamedTuple):
    """The states; see `nouns.States`."""

    parent: Whole
    across: Array
    down: Array
    moment: Array
    depth: Array
    surcharge: Array
    pore: Array
    springs_on: Truth
    stiffness: Array
    joint_stiffness: Array
    member_on: Truth


class Links(NamedTuple):
    """Props and ties, (m,) each; the direction leads from start to end."""

    start: Whole
    end: Whole
    cos: Array
    sin: Array
    stiffness: Array
    sense: Whole
    """+1 carries tension only, -1 compression only, 0 both."""


class Gaps(NamedTuple):
    """Where a value is missing, so that nothing may come out."""

    lanes: Truth
    """(L,) soil."""
    states: Truth
    """(S,) loads and members; all of them when the frame lacks a value."""


class Control(NamedTuple):
    """How to iterate."""

    second_order: bool
    tolerance: float
    most: int
    """Linear solutions after which there is no answer."""


class Task(NamedTuple):
    """All that goes in."""

    bars: Bars
    lanes: Lanes
    steps: Steps
    links: Links
    gaps: Gaps
    control: Control


class Equations(NamedTuple):
    """The frame's equations at one pass."""

    band: Array
    """(3 n + 3 + 6, 6) upper band by rows; after `factor` the factors L and 1/D."""
    scale: Array
    """(3 n + 3,) diagonal before the factors."""
    right: Array
    """(3 n + 3 + 6,) right-hand side, then the solution."""
    hidden: Array
    """(n, 7) for every element that ends in a joint, what couples the rotation before the joint to the six
    movements that stay, then its own stiffness."""


class Shape(NamedTuple):
    """The bent frame."""

    move: Array
    """(3 n + 3,) movements: to the right, up, counter-clockwise at each node."""
    turn: Array
    """(n,) rotation of each element's far end, before its joint."""
    face: Array
    """(n + 1,) movement of the soil face to the right."""
    face_before: Array
    """(n + 1,) the same one pass before."""
    step: Array
    """(3 n + 3 + 6,) change of the movements in a pass."""
    tension: Array
    """(n,) axial force that acts on the bent shape."""


class Ground(NamedTuple):
    """The soil on each node at one state."""

    base: Array
    """(3 n + 3,) the loads that do not move with the soil law."""
    load: Array
    """(3 n + 3,) all loads, soil included."""
    rest: Array
    low: Array
    high: Array
    """(n + 1,) sideways pressure where nothing moves, active, passive (Pa)."""
    spring: Array
    """(n + 1,) stiffness k of the soil (Pa/m)."""
    held: Array
    """(n + 1,) stiffness of the elastic soil on each node (N/m)."""
    side: Whole
    """(n + 1,) -1 active, 0 elastic, 1 passive."""


class Ties(NamedTuple):
    """Scratch of the props and ties."""

    carry: Array
    """(m, 3 n + 3 + 6) movement of the frame by a unit of pull in each."""
    load: Array
    """(m,) force that would undo the length at which it was put in (N)."""
    on: Truth
    """(m,) whether it carries."""
    small: Array
    """(m, m + 1) equations of their forces."""


class History(NamedTuple):
    """What later states inherit, (S, n + 1) or (S, m)."""

    face: Array
    reference: Array
    """Movement of the soil face from which the soil's spring counts."""
    covered: Truth
    link_reference: Array
    """Lengthening of each link when it was put in."""


Work = tuple[Equations, Shape, Ground, Ties, History]
"""Scratch of one lane."""


class Out(NamedTuple):
    """The result arrays; see `nouns.Response`."""

    axial: Array
    moment: Array
    shear: Array
    displacement: Array
    feet: Array
    pressure: Array
    spring: Array
    member: Array
    converged: Truth
    iterations: Whole


def bars_of(frame: Frame) -> Bars:
    """The frame's elements, ready to be summed."""
    run, climb = np.diff(frame.x), np.diff(frame.z)
    length = np.hypot(run, climb)
    cos, sin = run / length, climb / length
    elastic, geometric = _elastic(frame.axial, frame.bending, length), _geometric(length)
    return Bars(
        elastic=_parts(elastic, cos, sin),
        geometric=_parts(geometric, cos, sin),
        cos=cos,
        sin=sin,
        length=length,
        axial=_array(frame.axial),
        bending=_array(frame.bending),
        joint=_array(frame.joint),
        feet=_array(frame.feet),
        plan=_array(frame.plan),
        rise=_array(frame.rise),
        lever_x=_array(frame.lever_x),
        lever_z=_array(frame.lever_z),
        cushion=_array(frame.cushion),
    )


def lanes_of(soil: Soil) -> Lanes:
    """The soil as a bundle."""
    return Lanes(*(_array(getattr(soil, name)) for name in Lanes._fields))


def steps_of(states: States) -> Steps:
    """The states as a bundle."""
    arrays = {
        name: _array(getattr(states, name))
        for name in Steps._fields
        if name not in {"parent", "springs_on", "member_on"}
    }
    return Steps(
        parent=np.ascontiguousarray(states.parent, dtype=np.int64),
        springs_on=np.ascontiguousarray(states.springs_on, dtype=np.bool_),
        member_on=np.ascontiguousarray(states.member_on, dtype=np.bool_),
        **arrays,
    )


def links_of(frame: Frame, states: States) -> Links:
    """The props and ties with their directions."""
    ways = np.array([_way(frame, member) for member in states.members]).reshape(-1, 2)
    return Links(
        start=np.array([m.start for m in states.members], dtype=np.int64),
        end=np.array([m.end for m in states.members], dtype=np.int64),
        cos=np.ascontiguousarray(ways[:, 0]),
        sin=np.ascontiguousarray(ways[:, 1]),
        stiffness=np.array([m.stiffness for m in states.members], dtype=float),
        sense=np.array([_sense(m.works) for m in states.members], dtype=np.int64),
    )


def _sense(works: str) -> int:
    return (works == "tension") - (works == "compression")


def _way(frame: Frame, member: Member) -> Array:
    """Unit vector from a member's start to its end."""
    i, j = member.start, member.end
    between = (frame.x[j] - frame.x[i], frame.z[j] - frame.z[i])
    way = np.array(member.towards if j < 0 else between)
    return np.asarray(way / np.hypot(way[0], way[1]))


def gaps_of(frame: Frame, soil: Soil, states: States) -> Gaps:
    """Which lanes and states hold a number that is missing or cannot be meant."""
    lanes = ~np.isfinite(np.array([getattr(soil, name) for name in Lanes._fields])).all(axis=0)
    loads = [states.across, states.down, states.moment, states.depth, states.surcharge, states.pore]
    broken = ~np.isfinite(np.array(loads)).all(axis=(0, 2))
    factors = np.array([states.stiffness, states.joint_stiffness])
    broken |= ~(np.isfinite(factors) & (factors > 0.0)).all(axis=0)
    forces = np.array([member.stiffness for member in states.members])
    broken |= (states.member_on & ~(np.isfinite(forces) & (forces > 0.0))).any(axis=1)
    return Gaps(lanes=lanes, states=broken | frame_lacks(frame))


def frame_lacks(frame: Frame) -> bool:
    """Whether a number of the frame is missing or cannot be meant."""
    whole = (
        *(frame.x, frame.z, frame.plan, frame.rise),
        *(frame.lever_x, frame.lever_z, frame.cushion),
    )
    stiff = np.concatenate([frame.axial, frame.bending])
    springs = np.concatenate([frame.joint, frame.feet.ravel(), frame.cushion])
    good = (
        np.isfinite(np.concatenate(whole)).all()
        and (np.isfinite(stiff) & (stiff > 0.0)).all()
        and (springs >= 0.0).all()
    )
    return not good


def out_of(lanes: int, states: int, elements: int, links: int) -> Out:
    """Result arrays that say "no answer" until one is written."""
    lead = (lanes, states)

    def unknown(*shape: int) -> NDArray[np.float64]:
        return np.full(lead + shape, np.nan)

    return Out(
        axial=unknown(elements),
        moment=unknown(elements, 2),
        shear=unknown(elements),
        displacement=unknown(elements + 1, 3),
        feet=unknown(2, 3),
        pressure=unknown(elements + 1),
        spring=unknown(elements + 1),
        member=unknown(links),
        converged=np.zeros(lead, dtype=np.bool_),
        iterations=np.zeros(lead, dtype=np.int64),
    )


def _array(value: Array) -> Array:
    return np.ascontiguousarray(value, dtype=np.float64)


def _elastic(axial: Array, bending: Array, length: Array) -> Along:
    turn = bending / length
    return axial / length, 12 * turn / length**2, 6 * turn / length, 4 * turn, 2 * turn


def _geometric(length: Array) -> Along:
    none = np.zeros(length.size)
    return none, 1.2 / length, none + 0.1, 2 * length / 15, -length / 30


def _parts(along: Along, cos: Array, sin: Array) -> Array:
    """The seven numbers of every element in global axes."""
    pull, shear, slope, near, far = along
    shifts = (pull * cos**2 + shear * sin**2, (pull - shear) * cos * sin, -slope * sin)
    return np.stack([*shifts, pull * sin**2 + shear * cos**2, slope * cos, near, far], axis=1)
