"""A vault of mixed shape and load that several tests look at from different sides."""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass, field

import numpy as np
import pytest

from bermwright.handbook.frames import FIXED, Frame, Soil, States, Works


@pytest.fixture
def vault() -> Frame:
    """An uneven arch of 16 elements with a soil face outside, changing section and no joints."""
    turn = np.linspace(2.7, 0.35, 17)
    frame = Frame.bare(
        2.4 * np.cos(turn),
        2.2 * np.sin(turn) + 0.1 * np.cos(3 * turn),
        axial=np.linspace(2.0e8, 2.6e8, 16),
        bending=np.linspace(5.0e5, 8.0e5, 16),
        feet=FIXED,
        width=0.6,
    )
    return dataclasses.replace(
        frame, lever_x=0.12 * np.cos(turn), lever_z=0.12 * np.sin(turn), cushion=np.full(17, 2e-8)
    )


@pytest.fixture
def loads(vault: Frame) -> dict[str, np.ndarray]:
    """Forces in all three ways on every node."""
    s = np.linspace(0.0, 1.0, vault.x.size)
    return {"across": 300.0 * np.sin(5 * s), "down": 900.0 + 600.0 * s, "moment": 150.0 * np.cos(4 * s)}


@pytest.fixture
def filling(vault: Frame, loads: dict[str, np.ndarray]) -> States:
    """Bare, filled in two lifts with the left side ahead, loaded on top."""
    low = np.maximum(np.where(vault.x < 0, 1.5, 1.1) - vault.z, 0.0)
    high = np.maximum(2.7 - 0.3 * np.abs(vault.x) - vault.z, 0.0)
    depth = np.array([0.0 * low, low, high, high])
    surcharge = np.array([0.0, 0.0, 0.0, 2500.0])[:, None] * (vault.x < 0.5)
    return States.build(
        vault.x.size, parent=[-1, 0, 1, 2], depth=depth, surcharge=surcharge, down=0.3 * loads["down"]
    )


@dataclass
class Dense:
    """A second formulation of the same frame: dense, every rotation written out, one root in all unknowns.

    Nothing of the program is used but its input types. Each element end has a rotation of its own; a joint
    is a spring between the two at its node, and the soil is a force that depends on the movement.
    """

    frame: Frame
    soil: Soil
    states: States
    second_order: bool
    shapes: list[np.ndarray] = field(default_factory=list)
    references: list[np.ndarray] = field(default_factory=list)
    lengths: list[np.ndarray] = field(default_factory=list)

    def __post_init__(self) -> None:
        n = self.frame.elements
        jointed = [0 < i < n and np.isfinite(self.frame.joint[i]) for i in range(n + 1)]
        # Numbers of ux, uz, rotation after and rotation before the node.
        self.before = np.arange(n + 1) * 3 + 2
        self.extra = 3 * (n + 1)
        for i in np.flatnonzero(jointed):
            self.before[i] = self.extra
            self.extra += 1
        self.size = self.extra

    def ends(self, e: int) -> list[int]:
        return [3 * e, 3 * e + 1, 3 * e + 2, 3 * e + 3, 3 * e + 4, int(self.before[e + 1])]

    def element_force(self, e: int, u: np.ndarray, factor: float) -> np.ndarray:
        """Forces that hold the ends of an element in place, by the shape functions of a cubic."""
        f = self.frame
        dx, dz = f.x[e + 1] - f.x[e], f.z[e + 1] - f.z[e]
        length = np.hypot(dx, dz)
        c, s = dx / length, dz / length
        turn = np.kron(np.eye(2), [[c, s, 0], [-s, c, 0], [0, 0, 1]])
        d = turn @ u[self.ends(e)]
        tension = factor * f.axial[e] * (d[3] - d[0]) / length
        points, weights = np.polynomial.legendre.leggauss(5)
        t = 0.5 * (points + 1.0)
        bend = np.array([12 * t - 6, (6 * t - 4) * length, 6 - 12 * t, (6 * t - 2) * length]) / length**2
        slope = np.array(
            [
                6 * t * t - 6 * t,
                (1 - 4 * t + 3 * t * t) * length,
                6 * t - 6 * t * t,
                (3 * t * t - 2 * t) * length,
            ]
        )
        slope = slope / length
        v = d[[1, 2, 4, 5]]
        w = 0.5 * weights * length
        inner = (factor * f.bending[e] * (v @ bend) * w) @ bend.T
        if self.second_order:
            inner += (tension * (v @ slope) * w) @ slope.T
        local = np.array([-tension, inner[0], inner[1], tension, inner[2], inner[3]])
        return turn.T @ local

    def face(self, u: np.ndarray) -> np.ndarray:
        n = self.frame.elements
        turn = 0.5 * (u[2 : 3 * n + 3 : 3] + u[self.before])
        return u[0 : 3 * n + 3 : 3] - self.frame.lever_z * turn

    def pressure(self, lane: int, state: int, u: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
        so, st, f = self.soil, self.states, self.frame
        sv = np.maximum(so.weight[lane] * st.depth[state] + st.surcharge[state] - st.pore[state], 0.0)
        mean = np.maximum(sv * (1 + 2 * so.ratio[lane]) / 3, 5e3)
        k = so.spring[lane] * so.modulus[lane] * np.sqrt(mean / 50e3)
        k = np.where(st.springs_on[state] & (sv > 0), k, 0.0)
        k = np.divide(1.0, f.cushion + np.divide(1.0, k, where=k > 0, out=np.full_like(k, np.inf)))
        towards = -np.sign(f.rise) * (self.face(u) - self.references[state])
        free = so.ratio[lane] * sv + np.where(np.isfinite(k), k, 0.0) * towards
        return np.clip(free, so.active[lane] * sv, so.passive[lane] * sv), sv

    def out_of_balance(self, lane: int, state: int, u: np.ndarray) -> np.ndarray:
        f, st, n = self.frame, self.states, self.frame.elements
        r = np.zeros(self.size)
        for e in range(n):
            r[self.ends(e)] += self.element_force(e, u, st.stiffness[state])
        p, sv = self.pressure(lane, state, u)
        up = -np.where(f.plan >= 0, self.soil.vertical[lane], self.soil.underside[lane]) * sv * f.plan
        across = p * f.rise
        moment = f.lever_x * up - f.lever_z * across + st.moment[state]
        r[0 : 3 * n + 3 : 3] -= across + st.across[state]
        r[1 : 3 * n + 3 : 3] -= up - st.down[state]
        r[2 : 3 * n + 3 : 3] -= 0.5 * moment
        np.add.at(r, self.before, -0.5 * moment)
        for i in range(1, n):
            if np.isfinite(f.joint[i]):
                twist = st.joint_stiffness[state] * f.joint[i] * (u[3 * i + 2] - u[self.before[i]])
                r[3 * i + 2] += twist
                r[self.before[i]] -= twist
        self.add_links(state, u, r)
        for side, node in enumerate((0, n)):
            for way in range(3):
                row, k = 3 * node + way, f.feet[side, way]
                r[row] = u[row] * f.bending.mean() if np.isinf(k) else r[row] + k * u[row]
        return r

    def add_links(self, state: int, u: np.ndarray, r: np.ndarray) -> None:
        for m, member in enumerate(self.states.members):
            if self.states.member_on[state, m]:
                longer = self.length(m, u) - self.lengths[state][m]
                force = member.stiffness * longer
                if member.works is Works.TENSION:
                    force = max(force, 0.0)
                if member.works is Works.COMPRESSION:
                    force = min(force, 0.0)
                way = self.way(m)
                r[3 * member.start : 3 * member.start + 2] -= force * way
                if member.end >= 0:
                    r[3 * member.end : 3 * member.end + 2] += force * way

    def way(self, m: int) -> np.ndarray:
        member, f = self.states.members[m], self.frame
        way = np.array(member.towards)
        if member.end >= 0:
            i, j = member.start, member.end
            way = np.array([f.x[j] - f.x[i], f.z[j] - f.z[i]])
        return way / np.hypot(*way)

    def length(self, m: int, u: np.ndarray) -> float:
        member = self.states.members[m]
        far = u[3 * member.end : 3 * member.end + 2] if member.end >= 0 else np.zeros(2)
        return float(self.way(m) @ (far - u[3 * member.start : 3 * member.start + 2]))

    def solve(self, lane: int) -> list[np.ndarray]:
        from scipy.optimize import root

        for state, parent in enumerate(self.states.parent):
            start = self.shapes[parent] if parent >= 0 else np.zeros(self.size)
            reference, length = self.face(start), np.array([self.length(m, start) for m in self.marks()])
            if parent >= 0:
                covered = self.covered(parent)
                reference = np.where(covered, self.references[parent], reference)
                stood = self.states.member_on[parent]
                length = np.where(stood, self.lengths[parent], length)
            self.references.append(reference)
            self.lengths.append(length)
            found = root(lambda u, s=state: self.out_of_balance(lane, s, u), start, tol=1e-13)
            assert np.abs(found.fun).max() < 1e-4
            self.shapes.append(found.x)
        return self.shapes

    def covered(self, state: int) -> np.ndarray:
        covered = np.zeros(self.frame.x.size, dtype=bool)
        while state >= 0:
            covered |= self.states.depth[state] > 0
            state = int(self.states.parent[state])
        return covered

    def marks(self) -> range:
        return range(len(self.states.members))


@pytest.fixture
def dense() -> type[Dense]:
    """The second formulation."""
    return Dense
