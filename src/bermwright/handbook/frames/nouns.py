"""What a plane rib frame is made of, what presses on it, and what comes out.

Axes: x to the right, z up, rotations counter-clockwise. Nodes run from the left foot over the crown
to the right foot, so the outside (the soil) lies to the left of the direction of travel. Everything
is for one rib with the width of soil that it carries.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]
    Whole = NDArray[np.int64]

INFINITE = float("inf")
PINNED = ((INFINITE, INFINITE, 0.0), (INFINITE, INFINITE, 0.0))
"""Both feet held in place and free to turn: kx, kz, k-theta of the left and the right support."""
FIXED = ((INFINITE, INFINITE, INFINITE), (INFINITE, INFINITE, INFINITE))
"""Both feet held in place and against turning."""
NO_PARENT = -1
"""What stands in `States.parent` for a state that rests on no other."""
GROUND = -1
"""The far end of a member that stands on something that does not move with the frame."""


WHOLE = 1.0
"""Factor on stiffness where no creep is given."""
SIMPLE_SOIL = {
    "active": 0.0,
    "passive": 1e6,
    "spring": 0.0,
    "modulus": 0.0,
    "vertical": 1.0,
    "underside": 1.0,
}
"""Soil that presses by its ratio whatever moves."""


BOTH_ENDS = (0.5, 0.5)
"""Shares of a piece that go to its two nodes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A chain of n straight elements over n + 1 nodes, standing on two feet."""

    x: Array
    z: Array
    """(n + 1,) nodes on the centreline (m)."""
    axial: Array
    bending: Array
    """(n,) EA (N) and EI (N m2) of the elements."""
    joint: Array
    """(n + 1,) rotational stiffness of the joint at each node (N m/rad): infinite where the rib
    runs through, 0 for a hinge. At the two ends it lies in series with the foot."""
    feet: Array
    """(2, 3) stiffness of the left and the right support: kx, kz (N/m), k-theta (N m/rad)."""
    plan: Array
    """(n + 1,) signed horizontal soil area of each node (m2): + where soil rests on it."""
    rise: Array
    """(n + 1,) signed upright soil area of each node (m2): + where soil pushes to the right."""
    lever_x: Array
    lever_z: Array
    """(n + 1,) soil face minus centreline (m): soil forces act at the soil face."""
    cushion: Array
    """(n + 1,) softness of insulation and drain layer between rib and soil (m/Pa): thickness over
    modulus; in series with the soil's spring."""

    @classmethod
    def bare(
        cls,
        x: ArrayLike,
        z: ArrayLike,
        *,
        axial: ArrayLike,
        bending: ArrayLike,
        feet: ArrayLike = PINNED,
        joint: ArrayLike = INFINITE,
        width: float = 0.0,
    ) -> Frame:
        """A frame whose soil face is its centreline; single values hold for all elements or nodes.

        It carries the soil of `width` (m); with 0 soil does not touch it.
        """
        nodes, levels = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
        zero = np.zeros(nodes.size)
        return cls(
            x=nodes,
            z=levels,
            axial=_spread(axial, nodes.size - 1),
            bending=_spread(bending, nodes.size - 1),
            joint=_spread(joint, nodes.size),
            feet=np.array(feet, dtype=float),
            plan=width * tributary(np.diff(nodes)),
            rise=width * tributary(np.diff(levels)),
            lever_x=zero,
            lever_z=zero,
            cushion=zero,
        )

    @property
    def elements(self) -> int:
        """Number of elements n."""
        return self.x.size - 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Soil:
    """The soil's values in each of L lanes: runs of the soil law and corners of its ranges."""

    ratio: Array
    """(L,) K: sideways over vertical pressure where nothing moves (-)."""
    active: Array
    """(L,) Ka: least ratio (-)."""
    passive: Array
    """(L,) greatest ratio (-): Kp divided by the mobilisation factor."""
    spring: Array
    """(L,) b: spring of the soil per modulus (1/m); 0 where K holds whatever moves."""
    modulus: Array
    """(L,) Es: Young's modulus at a mean stress of 50 kPa (Pa)."""
    weight: Array
    """(L,) unit weight times its load factor (N/m3)."""
    vertical: Array
    """(L,) factor on the vertical pressure that rests on the rib (-)."""
    underside: Array
    """(L,) factor on the upward pressure on undercut faces (-): 1, Ka or 0."""

    @classmethod
    def lanes(cls, **values: ArrayLike) -> Soil:
        """Soil lanes from numbers and arrays that broadcast against each other.

        What is not given is taken from `SIMPLE_SOIL`: no spring, no limits, its whole weight.
        """
        given: dict[str, ArrayLike] = {**SIMPLE_SOIL, **values}
        names = list(given)
        shapes = np.broadcast_arrays(*(np.atleast_1d(np.asarray(v, float)) for v in given.values()))
        return cls(**{name: np.array(a, dtype=float) for name, a in zip(names, shapes, strict=True)})

    @classmethod
    def absent(cls) -> Soil:
        """One lane without any soil."""
        return cls.lanes(ratio=0.0, weight=0.0)


class Works(StrEnum):
    """In which sense a prop or tie carries."""

    TENSION = "tension"
    COMPRESSION = "compression"
    BOTH = "both"


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """A prop, strut or tie: from node `start` to node `end`, or to the ground.

    It is free of force at the state in which it is put in, and works from there on.
    """

    start: int
    end: int
    """Node, or `GROUND`."""
    stiffness: float
    """EA over length (N/m)."""
    works: Works
    towards: tuple[float, float] = (0.0, -1.0)
    """Direction from `start` to the ground, (0, -1) for an upright prop; not read between nodes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class States:
    """S states in order: a state comes after its parent."""

    parent: Whole
    """(S,) index of the state from which it goes on, or -1."""
    across: Array
    down: Array
    moment: Array
    """(S, n + 1) all loads but soil: N to the right, N down, N m counter-clockwise, on one rib."""
    depth: Array
    """(S, n + 1) soil over the soil face (m)."""
    surcharge: Array
    """(S, n + 1) pressure on the fill (Pa): adds to the vertical pressure, pushes sideways by K."""
    pore: Array
    """(S, n + 1) water pressure at the soil face (Pa), taken off the soil's own pressure. The push
    of the water itself belongs into `across` and `down`."""
    springs_on: Truth
    """(S, n + 1) False where soil is loose or frozen: it presses but does not hold."""
    stiffness: Array
    joint_stiffness: Array
    """(S,) factor on EA and EI, and on the joints (creep)."""
    members: tuple[Member, ...]
    member_on: Truth
    """(S, m) whether each prop or tie stands in each state."""

    @classmethod
    def build(
        cls,
        nodes: int,
        *,
        parent: Sequence[int] = (NO_PARENT,),
        members: Sequence[Member] = (),
        member_on: ArrayLike = True,
        springs_on: ArrayLike = True,
        **loads: ArrayLike,
    ) -> States:
        """States from what is given; loads are 0, factors 1 where nothing is said."""
        count = len(parent)
        names = ("across", "down", "moment", "depth", "surcharge", "pore")
        factors = ("stiffness", "joint_stiffness")
        unknown = set(loads).difference(names, factors)
        if unknown:
            message = f"States have no {', '.join(sorted(unknown))}."
            raise TypeError(message)
        arrays = {name: _spread(loads.get(name, 0.0), (count, nodes)) for name in names}
        numbers = {name: _spread(loads.get(name, WHOLE), (count,)) for name in factors}
        return cls(
            parent=np.array(parent, dtype=np.int64),
            springs_on=np.array(np.broadcast_to(springs_on, (count, nodes)), dtype=bool),
            members=tuple(members),
            member_on=np.array(np.broadcast_to(member_on, (count, len(members))), dtype=bool),
            **arrays,
            **numbers,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Response:
    """What a frame does in every lane and state, (L, S, ...); NaN where it has no answer."""

    axial: Array
    """(L, S, n) axial force of the elements (N), + compression."""
    moment: Array
    """(L, S, n, 2) bending at the start and the end of each element (N m), + tension inside."""
    shear: Array
    """(L, S, n) force across the element (N): change of bending per length of travel."""
    displacement: Array
    """(L, S, n + 1, 3) to the right (m), up (m), counter-clockwise (rad)."""
    feet: Array
    """(L, S, 2, 3) of the rib on its left and right support: outwards (N), down (N), bending of the
    rib at the foot (N m), + tension inside."""
    pressure: Array
    """(L, S, n + 1) sideways pressure of the soil (Pa)."""
    spring: Array
    """(L, S, n + 1) stiffness of the soil that is neither active nor passive (Pa/m)."""
    member: Array
    """(L, S, m) force of the props and ties (N), + tension."""
    converged: Truth
    """(L, S) False: no state of rest was found (it buckles, is a mechanism, or lacks a value)."""
    iterations: Whole
    """(L, S) solutions of the linear frame that were needed."""

    @property
    def largest_bending(self) -> Array:
        """(L, S) the largest bending of either sign (N m)."""
        return np.asarray(np.abs(self.moment).max(axis=(2, 3)))

    @property
    def largest_axial(self) -> Array:
        """(L, S) the largest compression (N)."""
        return np.asarray(self.axial.max(axis=2))


def tributary(pieces: Array) -> Array:
    """Half of each piece to the node at either of its ends: (n,) to (n + 1,)."""
    return np.convolve(pieces, BOTH_ENDS)


def _spread(value: ArrayLike, shape: int | tuple[int, ...]) -> Array:
    return np.array(np.broadcast_to(np.asarray(value, dtype=float), shape))
