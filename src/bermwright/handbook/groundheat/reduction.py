"""A few dozen numbers that answer as the whole section does: the reduced model by rational Krylov.

The answers of the section to steady and ever quicker waves at its ports, X(s) = (K + sM)⁻¹B, span a
small space; the equations seen in it fall apart into single modes x' = -λx + Br·u, y = Cr·x. Galerkin's
projection of symmetric equations is stable, and as the even temperature is in the space, no heat is lost.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.limits import within
from bermwright.handbook.groundheat.assembly import factored

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.handbook.groundheat.assembly import Conduction
    from bermwright.handbook.groundheat.section import Array

SLOWEST_GUESS, QUICKEST_GUESS = 2.0 * np.pi / (60.0 * 365.0 * 86400.0), 2.0 / 3600.0
"""Range of the shifts (1/s): from sixty years to half an hour."""
SHIFT_STEPS = 16
SAME_TOLERANCE = 1e-13
"""Share of the strongest direction under which a direction says nothing new (-)."""
LEAST_DECAY = 1e-14
"""Of a section that nearly keeps its heat for ever (1/s)."""
CHECK_STEPS = ((3600.0, 36), (86400.0, 30), (30.0 * 86400.0, 24))
"""Lengths of a step (s) and their number, over which both models are marched and compared."""
CHECK_SWING = 20.0
"""Sudden change of every port in that comparison (K)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelError:
    """How far the reduced model lies from the full one when every port jumps by 20 K in turn."""

    temperature: float
    """Largest difference at a watched point (K)."""
    flow: float
    """Largest difference of the flow through a port, over its length (W/m2)."""

    def __str__(self) -> str:
        return f"{self.temperature:.2g} K at the watched points, {self.flow:.2g} W/m² through the surfaces"


@dataclass(frozen=True, kw_only=True)
class Reduced:
    """The reduced model of one section."""

    full: Conduction
    decay: Array
    """(r,) λ of each mode (1/s)."""
    into: Array
    """(r, ports + sources) Br."""
    watching: Array
    """(watched, r) Cr."""
    holds: Array
    """(r,) heat in each mode (J/m)."""
    basis: Array
    turn: Array
    """(n, b) and (b, r): temperature of the points in each mode is their product."""
    error: ModelError

    @cached_property
    def shapes(self) -> Array:
        """(n, r) temperature of the points in each mode."""
        return np.asarray(self.basis @ self.turn)


def reduce_model(
    full: Conduction,
    *,
    shifts: int = SHIFT_STEPS,
    share: Callable[..., Any] = map,
    check: bool = True,
) -> Reduced:
    """A small model that answers like a section, and how far it lies from it.

    Parameters
    ----------
    full : Conduction
        The equations of the section.
    shifts : int
        Number of waves from which it is made; with 16 it lies within some millikelvins.
    share : Callable[..., Any]
        A `map` that may run on several threads.
    check : bool
        Whether both are marched and compared; otherwise the error is unknown.

    Returns
    -------
    Reduced
        Decay rates [1/s], inputs, outputs and shapes of the modes, and the error [K] and [W/m2].

    References
    ----------
    [GRIMME1997] : chapter 5, rational Krylov projection with several real shifts.
    """
    import scipy.linalg as dense
    from scipy import sparse

    within("number of shifts", shifts, 2, 60)
    inputs = np.concatenate([full.films, full.shares], axis=1)
    mass = sparse.diags(full.capacity)

    def answer(shift: float) -> Array:
        return np.asarray(factored(full.stiffness + shift * mass)(inputs))

    shift_guess = [0.0, *np.geomspace(SLOWEST_GUESS, QUICKEST_GUESS, shifts - 1)]
    basis = independent(np.concatenate(list(share(answer, shift_guess)), axis=1), full.capacity)
    held = basis.T @ (full.stiffness @ basis)
    weight = basis.T @ (full.capacity[:, None] * basis)
    decay, turn = dense.eigh(held, weight)
    model = Reduced(
        full=full,
        decay=np.maximum(decay, LEAST_DECAY),
        into=turn.T @ (basis.T @ inputs),
        watching=np.asarray(full.looking @ basis) @ turn,
        holds=turn.T @ (basis.T @ full.capacity),
        basis=basis,
        turn=turn,
        error=ModelError(temperature=np.nan, flow=np.nan),
    )
    return replace(model, error=error_of(model, share)) if check else model


def independent(vectors: Array, capacity: Array, least: float = SAME_TOLERANCE) -> Array:
    """Directions of the vectors that differ, weighted with the heat that they hold; the even one first."""
    even = np.full((len(capacity), 1), 1.0 / np.sqrt(capacity.sum()))
    uneven = vectors - even * (even.T @ (capacity[:, None] * vectors))
    scaled = uneven / np.sqrt(capacity @ uneven**2)
    strength, directions = np.linalg.eigh(scaled.T @ (capacity[:, None] * scaled))
    kept = strength > least * strength[-1]
    return np.concatenate([even, scaled @ (directions[:, kept] / np.sqrt(strength[kept]))], axis=1)


def error_of(model: Reduced, share: Callable[..., Any] = map) -> ModelError:
    """How far a model lies from the full one, by marching both through three lengths of step.

    Parameters
    ----------
    model : Reduced
        A reduced section.
    share : Callable[..., Any]
        A `map` that may run on several threads.

    Returns
    -------
    ModelError
        Largest differences [K] and [W/m2].

    References
    ----------
    [GRIMME1997] : chapter 5, the answer of the projected system against the whole one.
    """
    found = list(share(lambda one: _difference(model, *one), CHECK_STEPS))
    return ModelError(temperature=max(one[0] for one in found), flow=max(one[1] for one in found))


def _difference(model: Reduced, step: float, count: int) -> tuple[float, float]:
    """Largest difference of watched points and flows after a jump of each port, by the same steps."""
    from scipy import sparse

    full, ports = model.full, len(model.full.ports)
    solve = factored(full.stiffness + sparse.diags(full.capacity / step))
    shrink = 1.0 / (1.0 + step * model.decay)
    whole = np.zeros((len(full.capacity), ports))
    modes = np.zeros((len(model.decay), ports))
    lengths = np.array([full.lengths[name] for name in full.ports])
    worst = [0.0, 0.0]
    for _ in range(count):
        whole = solve(full.films + full.capacity[:, None] / step * whole)
        modes = shrink[:, None] * (modes + step * model.into[:, :ports])
        apart = full.looking @ whole - model.watching @ modes
        leaving = (full.films.T @ whole - model.into[:, :ports].T @ modes) / lengths[:, None]
        for at, one in enumerate((apart, leaving)):
            worst[at] = max(worst[at], CHECK_SWING * float(np.max(np.abs(one), initial=0.0)))
    return worst[0], worst[1]
