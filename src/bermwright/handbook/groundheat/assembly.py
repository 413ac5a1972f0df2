"""From triangles to equations: M dT/dt = -K T + B u + S w, with the steady state and the full march.

Linear triangles; heat capacity and surface films are lumped on the points, so that no temperature ever
overshoots its neighbours. Flow of a port is positive into the section.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.groundheat.mesh import ON_LINE_TOLERANCE, twice_areas
from bermwright.handbook.groundheat.section import FIXED_FILM

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.handbook.groundheat.mesh import Mesh
    from bermwright.handbook.groundheat.section import Array, Section, Whole

    Matrix = Any
    """A sparse matrix of scipy, which has no types."""

OUTSIDE_TOLERANCE = 0.01
"""How far outside of its triangle a watched point may lie, over the height of the triangle (-)."""
NO_FLOW_TOLERANCE = 1.0
"""Stands for the sum of all flows where there are none (W/m)."""
HALF = 0.5
THIRD = 1.0 / 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Conduction:
    """A section as equations, for one metre of length."""

    mesh: Mesh
    stiffness: Matrix
    """(n, n) sparse: conduction and films (W/(m K))."""
    capacity: Array
    """(n,) heat capacity of each point's share (J/(m K))."""
    ports: tuple[str, ...]
    films: Array
    """(n, ports) conductance of each point to each port (W/(m K))."""
    sources: tuple[str, ...]
    shares: Array
    """(n, sources) share of each source that enters at each point (-)."""
    watched: tuple[str, ...]
    looking: Matrix
    """(watched, n) sparse: from the points to what is watched."""
    lengths: Mapping[str, float]
    """Developed length of each port and source (m)."""

    @property
    def conductances(self) -> Array:
        """(ports,) conductance from each port to its surface (W/(m K))."""
        return np.asarray(self.films.sum(axis=0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Still:
    """A steady state."""

    temperature: Array
    """(n,) at the points of the mesh (°C)."""
    flow: Mapping[str, float]
    """Heat from each port into the section (W/m)."""
    watch: Mapping[str, float]
    """Temperature of what is watched (°C)."""
    balance: float
    """What all flows add up to, over the sum of their sizes (-): heat in less heat out."""


def assemble(mesh: Mesh, section: Section) -> Conduction:
    """The equations of conduction on a mesh, from linear triangles.

    Parameters
    ----------
    mesh : Mesh
        Triangles over the section.
    section : Section
        Materials, borders, sources and what is watched.

    Returns
    -------
    Conduction
        Conductances [W/(m K)], capacities [J/(m K)] and the shares of ports, sources and watched points.

    References
    ----------
    [ISO10211] : clause 7, heat balance of the nodes of a two-dimensional model.
    """
    materials = [region.material for region in section.regions]
    conductivity = np.array([one.conductivity if one else np.nan for one in materials])[mesh.material]
    heat = np.array([one.capacity if one else np.nan for one in materials])[mesh.material]
    ports = section.ports
    films = np.zeros((len(mesh.points), len(ports)))
    lengths = dict.fromkeys(ports, 0.0)
    for border in section.borders:
        share, length = _along_border(mesh, border.line, border.port)
        films[:, ports.index(border.port)] += min(border.film, FIXED_FILM) * share
        lengths[border.port] += length
    shares = np.zeros((len(mesh.points), len(section.sources)))
    for at, source in enumerate(section.sources):
        share, length = _along_border(mesh, source.line, source.name)
        shares[:, at] = share / length
        lengths[source.name] = length
    return Conduction(
        mesh=mesh,
        stiffness=_with_diagonal(conducting(mesh, conductivity), films.sum(axis=1)),
        capacity=_lumped(mesh, heat),
        ports=ports,
        films=films,
        sources=tuple(source.name for source in section.sources),
        shares=shares,
        watched=tuple(section.watch),
        looking=_looking(mesh, section.watch),
        lengths=lengths,
    )


def steady(
    conduction: Conduction,
    temperatures: Mapping[str, float],
    sources: Mapping[str, float] | None = None,
) -> Still:
    """Temperatures that no longer change, and the heat that passes.

    Parameters
    ----------
    conduction : Conduction
        The equations of a section.
    temperatures : Mapping[str, float]
        Temperature of every port [°C].
    sources : Mapping[str, float] or None
        Heat of each source [W/m]; what is left out gives none.

    Returns
    -------
    Still
        Temperatures [°C], flows into the section [W/m] and the relative heat balance [-].

    References
    ----------
    [ISO10211] : clause 7.3, temperatures and heat flow rates by a linear set of equations.
    """
    held = in_order("temperature", conduction.ports, temperatures)
    within("temperature", held, -100.0, 2000.0, unit="°C")
    given = dict.fromkeys(conduction.sources, 0.0) | dict(sources or {})
    heat = in_order("source", conduction.sources, given)
    within("source", heat, -1e5, 1e5, unit="W/m")
    right = conduction.films @ held + conduction.shares @ heat
    temperature = factored(conduction.stiffness)(right)
    flow = flows(conduction, temperature, held)
    into = np.concatenate([flow, heat])
    scale = float(np.sum(np.abs(into))) or NO_FLOW_TOLERANCE
    return Still(
        temperature=temperature,
        flow=dict(zip(conduction.ports, map(float, flow), strict=True)),
        watch=dict(zip(conduction.watched, map(float, conduction.looking @ temperature), strict=True)),
        balance=abs(float(np.sum(into))) / scale,
    )


def flows(conduction: Conduction, temperature: Array, held: Array) -> Array:
    """(ports,) heat from each port into the section (W/m)."""
    return np.asarray(np.sum(conduction.films * (held - temperature[:, None]), axis=0))


def linear_transmittance(with_bridge: Still, without: Still, port: str, difference: float) -> float:
    """Thermal transmittance of a linear bridge ψ = (Q - Q₀) / Δθ.

    Parameters
    ----------
    with_bridge : Still
        The section with the bridge in it.
    without : Still
        The same section without it, or the flow by one-dimensional layers.
    port : str
        The warm side.
    difference : float
        Temperature between the warm and the cold side [K].

    Returns
    -------
    float
        Extra flow per metre of the bridge and kelvin [W/(m K)].

    References
    ----------
    [ISO10211] : clause 10.3, thermal coupling less one-dimensional transmittance.
    """
    within("difference", difference, 0.0, 200.0, unit="K", open_low=True)
    return (with_bridge.flow[port] - without.flow[port]) / difference


def factored(matrix: Matrix) -> Any:  # noqa: ANN401  (a function of scipy)
    """A function that solves with a symmetric matrix."""
    from scipy.sparse.linalg import splu

    solver = splu(
        matrix.tocsc(),
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    )
    return solver.solve


def in_order(what: str, names: tuple[str, ...], given: Mapping[str, float]) -> Array:
    """The given numbers in the order of the names; each must be there, and no other."""
    if missing := [name for name in names if name not in given]:
        raise OutOfRangeError(f"No {what} is given for {', '.join(missing)}.")
    if strange := [name for name in given if name not in names]:
        raise OutOfRangeError(f"{', '.join(strange)}: this section has only {', '.join(names) or 'none'}.")
    return np.array([given[name] for name in names], dtype=float)


# ---------------------------------------------------------------- matrices
def conducting(mesh: Mesh, conductivity: Array) -> Matrix:
    """(n, n) conductances of linear triangles with a conductivity each (W/(m K))."""
    from scipy import sparse

    weights = sides_of(mesh) * conductivity[:, None]
    rows, columns, values = [], [], []
    for side in range(3):
        i, j = mesh.triangles[:, (side + 1) % 3], mesh.triangles[:, (side + 2) % 3]
        w = weights[:, side]
        rows += [i, j, i, j]
        columns += [i, j, j, i]
        values += [w, w, -w, -w]
    size = len(mesh.points)
    entries = (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns)))
    return sparse.csc_matrix(entries, shape=(size, size))


def sides_of(mesh: Mesh) -> Array:
    """(m, 3) half the cotangent of the angle opposite each side: its conductance per conductivity."""
    corner = [mesh.points[mesh.triangles[:, i]] for i in range(3)]
    double = twice_areas(mesh.points, mesh.triangles)
    found = []
    for side in range(3):
        one = corner[(side + 1) % 3] - corner[side]
        other = corner[(side + 2) % 3] - corner[side]
        found.append(HALF * np.sum(one * other, axis=1) / double)
    return np.stack(found, axis=1)


def _lumped(mesh: Mesh, heat: Array) -> Array:
    share = heat * mesh.areas * THIRD
    total = np.zeros(len(mesh.points))
    for i in range(3):
        total += np.bincount(mesh.triangles[:, i], weights=share, minlength=len(total))
    return total


def _with_diagonal(matrix: Matrix, diagonal: Array) -> Matrix:
    from scipy import sparse

    return (matrix + sparse.diags(diagonal)).tocsc()


def _along_border(mesh: Mesh, line: Array, name: str) -> tuple[Array, float]:
    """(n,) length of the boundary that belongs to each point, and the whole length (m)."""
    import shapely

    ends = mesh.points[mesh.edges]
    middle = ends.mean(axis=1)
    near = shapely.distance(shapely.LineString(line), shapely.points(middle)) < ON_LINE_TOLERANCE
    if not near.any():
        raise OutOfRangeError(f'The border "{name}" lies nowhere on the boundary of the section.')
    length = np.hypot(*(ends[near, 1] - ends[near, 0]).T)
    share = np.zeros(len(mesh.points))
    for i in range(2):
        share += np.bincount(mesh.edges[near, i], weights=HALF * length, minlength=len(share))
    return share, float(length.sum())


def _looking(mesh: Mesh, watch: Mapping[str, tuple[float, float]]) -> Matrix:
    """(watched, n) shares of the corners of the triangle in which each watched point lies."""
    from scipy import sparse

    rows: list[Array] = []
    columns: list[Whole] = []
    double = twice_areas(mesh.points, mesh.triangles)
    a, b, c = (mesh.points[mesh.triangles[:, i]] for i in range(3))
    for name, place in watch.items():
        spot = np.array(place)
        shares = np.stack([_cross(b, c, spot), _cross(c, a, spot), _cross(a, b, spot)], axis=1)
        shares /= double[:, None]
        best = int(np.argmax(shares.min(axis=1)))
        lowest = float(shares[best].min())
        if lowest < -OUTSIDE_TOLERANCE:
            raise OutOfRangeError(f'The watched point "{name}" lies outside the section.')
        rows.append(np.clip(shares[best], 0.0, None) / np.clip(shares[best], 0.0, None).sum())
        columns.append(mesh.triangles[best])
    size = (len(watch), len(mesh.points))
    if not watch:
        return sparse.csr_matrix(size)
    row = np.repeat(np.arange(len(watch)), 3)
    return sparse.csr_matrix((np.concatenate(rows), (row, np.concatenate(columns))), shape=size)


def _cross(one: Array, other: Array, spot: Array) -> Array:
    return np.asarray(
        (one[:, 0] - spot[0]) * (other[:, 1] - spot[1]) - (one[:, 1] - spot[1]) * (other[:, 0] - spot[0])
    )
