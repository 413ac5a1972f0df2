"""One shape, many conductivities: a small model for every insulation and soil without starting again.

The stiffness of a section is a sum of parts, one for each material that may change. Answers at the corners of
what is allowed span a space that holds the answers in between; the parts are seen in it once, and each new
choice is a small sum and a small problem of modes.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.groundheat.assembly import assemble, conducting, factored, in_order
from bermwright.handbook.groundheat.reduction import (
    LEAST_DECAY,
    QUICKEST_GUESS,
    SLOWEST_GUESS,
    ModelError,
    Reduced,
    independent,
)
from bermwright.handbook.groundheat.section import CONDUCTS_LEAST, CONDUCTS_MOST

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.handbook.groundheat.assembly import Conduction, Matrix
    from bermwright.handbook.groundheat.mesh import Mesh
    from bermwright.handbook.groundheat.section import Array, Section

CORNER_STEPS = 16
"""Shifts at each corner."""
MOST_MATERIALS = 3
SPANNED_TOLERANCE = 1e-10
"""Share of the strongest direction under which a direction is left out (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """All models of one shape whose materials conduct more or less."""

    full: Conduction
    """At the middle of what is allowed."""
    limits: Mapping[str, tuple[float, float]]
    """Conductivities that each material may have (W/(m K))."""
    basis: Array
    parts: tuple[Array, ...]
    """(r, r) what does not change, then one for each material at 1 W/(m K), seen in the basis."""
    entries: tuple[Array, ...]
    """The same as entries of the whole matrix."""
    into: Array
    watching: Array
    holds: Array

    def at(self, conductivities: Mapping[str, float]) -> Reduced:
        """The small model for one choice (W/(m K)); its error is unknown until `error_of` is asked.

        Raises `OutOfRangeError` outside the limits for which the family was made.
        """
        chosen = in_order("conductivity", tuple(self.limits), conductivities)
        for value, (name, (low, high)) in zip(chosen, self.limits.items(), strict=True):
            within(f"conductivity of {name}", value, low, high, unit="W/(m K)")
        weights = np.concatenate([[1.0], chosen])
        held = sum(weight * part for weight, part in zip(weights, self.parts, strict=True))
        decay, turn = np.linalg.eigh(held)
        matrix = self.full.stiffness.copy()
        matrix.data = sum(weight * one for weight, one in zip(weights, self.entries, strict=True))
        return Reduced(
            full=replace(self.full, stiffness=matrix),
            decay=np.maximum(decay, LEAST_DECAY),
            into=turn.T @ self.into,
            watching=self.watching @ turn,
            holds=turn.T @ self.holds,
            basis=self.basis,
            turn=turn,
            error=ModelError(temperature=np.nan, flow=np.nan),
        )


def reduce_family(
    mesh: Mesh,
    section: Section,
    limits: Mapping[str, tuple[float, float]],
    *,
    shifts: int = CORNER_STEPS,
    share: Callable[..., Any] = map,
) -> Family:
    """Small models of one shape for every conductivity of up to three materials.

    Parameters
    ----------
    mesh : Mesh
        Triangles over the section.
    section : Section
        The section; what is not in `limits` stays as it is there.
    limits : Mapping[str, tuple[float, float]]
        Lowest and highest conductivity of each material by name [W/(m K)].
    shifts : int
        Number of waves at each corner of the limits.
    share : Callable[..., Any]
        A `map` that may run on several threads.

    Returns
    -------
    Family
        Ask it with `.at({name: conductivity})` [W/(m K)].

    References
    ----------
    [GRIMME1997] : chapter 5, one projection for several points.
    """
    names = _known(section, limits)
    entries, pattern = _entries(mesh, section, names)
    full = assemble(mesh, section)
    inputs = np.concatenate([full.films, full.shares], axis=1)
    shift_guess = [0.0, *np.geomspace(SLOWEST_GUESS, QUICKEST_GUESS, shifts - 1)]
    tasks = list(product(product(*(limits[name] for name in names)), shift_guess))

    def answer(task: tuple[tuple[float, ...], float]) -> Array:
        from scipy import sparse

        points = (1.0, *task[0])
        matrix = pattern.copy()
        matrix.data = sum(weight * one for weight, one in zip(points, entries, strict=True))
        return np.asarray(factored(matrix + task[1] * sparse.diags(full.capacity))(inputs))

    basis = independent(np.concatenate(list(share(answer, tasks)), axis=1), full.capacity, SPANNED_TOLERANCE)
    basis = _upright(basis, full.capacity)
    parts = []
    for one in entries:
        matrix = pattern.copy()
        matrix.data = one
        parts.append(np.asarray(basis.T @ (matrix @ basis)))
    middle = (1.0, *(float(np.mean(limits[name])) for name in names))
    pattern.data = sum(weight * one for weight, one in zip(middle, entries, strict=True))
    return Family(
        full=replace(full, stiffness=pattern),
        limits={name: limits[name] for name in names},
        basis=basis,
        parts=tuple(parts),
        entries=entries,
        into=basis.T @ inputs,
        watching=np.asarray(full.looking @ basis),
        holds=basis.T @ full.capacity,
    )


def _known(section: Section, limits: Mapping[str, tuple[float, float]]) -> tuple[str, ...]:
    within("number of materials", len(limits), 1, MOST_MATERIALS)
    there = {region.material.name for region in section.regions if region.material}
    if strange := sorted(set(limits) - there):
        raise OutOfRangeError(
            f"No region is made of {', '.join(strange)}; there are {', '.join(sorted(there))}."
        )
    for name, (low, high) in limits.items():
        within(f"conductivity of {name}", (low, high), CONDUCTS_LEAST, CONDUCTS_MOST, unit="W/(m K)")
        within(f"highest conductivity of {name}", high, low, unit="W/(m K)", open_low=True)
    return tuple(limits)


def _entries(mesh: Mesh, section: Section, names: tuple[str, ...]) -> tuple[tuple[Array, ...], Matrix]:
    """Entries of what does not change and of each material at 1 W/(m K), in one pattern."""
    materials = [region.material for region in section.regions]
    called = np.array([one.name if one else "" for one in materials])[mesh.material]
    own = np.array([one.conductivity if one else np.nan for one in materials])[mesh.material]
    pattern = conducting(mesh, np.where(np.isin(called, names), 0.0, own))
    pattern.setdiag(pattern.diagonal() + assemble(mesh, section).films.sum(axis=1))
    parts = [conducting(mesh, np.where(called == name, 1.0, 0.0)).data for name in names]
    return (pattern.data.copy(), *parts), pattern


def _upright(basis: Array, capacity: Array) -> Array:
    """Directions of length one and square to each other, by the heat that they hold."""
    import scipy.linalg as dense

    weight = basis.T @ (capacity[:, None] * basis)
    lower = np.linalg.cholesky(weight)
    return np.asarray(dense.solve_triangular(lower, basis.T, lower=True).T)
