"""A rectangular floor on the ground in three dimensions, by finite volumes: against this the ends are judged.

A quarter of it is cut into boxes that grow away from the wall's edges, where the heat leaves. The flow still
rises as the edge cells get smaller: make them smaller until it stops.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from bermwright.handbook.groundheat.section import Array

SOLVER_TOLERANCE = 1e-9
SOLVER_STEPS = 20_000
MOST_GRID_CELLS = 1_500_000


@dataclass(frozen=True, slots=True, kw_only=True)
class FloorCase:
    """A floor inside a wall that lets no heat through its top, on even ground."""

    length: float
    """m; infinite: one metre of an endless floor."""
    width: float
    wall: float
    conductivity: float
    """Of the ground (W/(m K))."""
    depth: float
    """Down to where the ground is held at `deep` (m)."""
    far: float
    """From the wall out to where no heat passes (m)."""
    inside: float = 30.0
    outside: float = 10.0
    deep: float = 10.0
    """°C."""
    film_inside: float = np.inf
    film_outside: float = np.inf
    """W/(m2 K); infinite: the surface has the temperature."""


def floor_flow(case: FloorCase, *, edge: float = 0.03, growth: float = 1.2) -> float:
    """Steady heat from a floor into the ground, by finite volumes.

    Parameters
    ----------
    case : FloorCase
        Floor, wall and ground.
    edge : float
        Size of the boxes at the edges of the wall [m], 0.002 to 0.5.
    growth : float
        How much larger each next box is [-], 1.02 to 2.

    Returns
    -------
    float
        Heat [W], of a metre where the floor is endless.

    References
    ----------
    [NREL2008] : cases GC30a to c.
    """
    within("edge cell", edge, 0.002, 0.5, unit="m")
    within("growth", growth, 1.02, 2.0)
    _checked(case)
    x, floor_x, open_x = _across(case.length, case, edge, growth)
    y, floor_y, open_y = _across(case.width, case, edge, growth)
    z = _grown(case.depth, edge, growth)
    if x.size * y.size * z.size > MOST_GRID_CELLS:
        raise OutOfRangeError(f"{x.size * y.size * z.size} boxes are more than {MOST_GRID_CELLS}.")
    surface = np.outer(x, y)
    floor = np.outer(floor_x, floor_y)
    ground = np.maximum.outer(open_x, open_y)
    to_room = _skin(surface * floor, z[0], case.conductivity, case.film_inside)
    to_air = _skin(surface * ground, z[0], case.conductivity, case.film_outside)
    to_deep = 2.0 * case.conductivity * surface / z[-1]
    warm = _solved((x, y, z), case, (to_room, to_air, to_deep))
    flow = float(np.sum(to_room * (case.inside - warm[:, :, 0])))
    return flow * (4.0 if np.isfinite(case.length) else 2.0)


def _checked(case: FloorCase) -> None:
    lengths = (("length", case.length), ("width", case.width), ("wall", case.wall))
    for name, value in (*lengths, ("depth", case.depth), ("far", case.far)):
        if not (name == "length" and value == np.inf):
            within(name, value, 0.0, 1e3, unit="m", open_low=True)
    within("conductivity", case.conductivity, 0.0, 450.0, unit="W/(m K)", open_low=True)
    for name in ("inside", "outside", "deep"):
        within(f"temperature {name}", getattr(case, name), -100.0, 200.0, unit="°C")
    for name in ("film_inside", "film_outside"):
        within(name, getattr(case, name), 0.0, unit="W/(m2 K)", open_low=True)


def _grown(length: float, first: float, growth: float) -> Array:
    """Boxes from the first one on, stretched a little so that they end where they should."""
    count = max(int(np.ceil(np.log1p(length * (growth - 1.0) / first) / np.log(growth))), 1)
    sizes = np.cumprod(np.full(count, growth))
    return np.asarray(sizes * (length / sizes.sum()))


def _across(span: float, case: FloorCase, edge: float, growth: float) -> tuple[Array, Array, Array]:
    """Boxes from the middle of the floor out, and which of them are floor and open ground."""
    if span == np.inf:
        return np.ones(1), np.ones(1), np.zeros(1)
    floor = _grown(0.5 * span, edge, growth)[::-1]
    half = _grown(0.5 * case.wall, edge, growth)
    strip = np.concatenate([half, half[::-1]])
    ground = _grown(case.far, edge, growth)
    sizes = np.asarray(np.concatenate([floor, strip, ground]), dtype=float)
    index = np.arange(sizes.size)
    return sizes, np.where(index < floor.size, 1.0, 0.0), np.where(index < floor.size + strip.size, 0.0, 1.0)


def _skin(area: Array, box: float, conductivity: float, film: float) -> Array:
    """Conductance from a temperature outside to the middle of the uppermost boxes (W/K)."""
    return np.asarray(area / (0.5 * box / conductivity + 1.0 / film))


def _solved(sizes: tuple[Array, Array, Array], case: FloorCase, skins: tuple[Array, Array, Array]) -> Array:
    """Temperature of every box."""
    from scipy import sparse

    x, y, z = sizes
    shape = (x.size, y.size, z.size)
    volume = x[:, None, None] * y[None, :, None] * z[None, None, :]
    own = np.zeros(shape)
    right = np.zeros(shape)
    for skin, layer, held in zip(skins, (0, 0, -1), (case.inside, case.outside, case.deep), strict=True):
        own[:, :, layer] += skin
        right[:, :, layer] += skin * held
    number = np.arange(volume.size).reshape(shape)
    matrix: Any = sparse.diags(own.ravel())
    for axis, size in enumerate(sizes):
        if size.size == 1:
            continue
        near, far = np.moveaxis(number, axis, 0)[:-1].ravel(), np.moveaxis(number, axis, 0)[1:].ravel()
        face = np.moveaxis(volume, axis, 0)
        face = face[0] / size[0]
        between = 0.5 * (size[:-1] + size[1:])
        joins = (case.conductivity * face[None] / between.reshape(-1, 1, 1)).ravel()
        both = np.concatenate([near, far, near, far]), np.concatenate([far, near, near, far])
        values = np.concatenate([-joins, -joins, joins, joins])
        matrix = matrix + sparse.csr_matrix((values, both), shape=matrix.shape)
    return _found(matrix.tocsr(), right.ravel(), case.outside).reshape(shape)


def _found(matrix: Any, right: Array, guess: float) -> Array:  # noqa: ANN401  (a matrix of scipy)
    """Conjugate gradients, with sums of numpy's own: threads of a library cost more than so short vectors."""
    inverse = np.reciprocal(matrix.diagonal())
    warm = np.full(right.size, guess)
    rest = right - matrix @ warm
    way = inverse * rest
    size = float(np.sum(rest * way))
    square_tolerance = SOLVER_TOLERANCE**2 * float(np.sum(right * inverse * right))
    for _ in range(SOLVER_STEPS):
        if size <= square_tolerance:
            return warm
        drop = matrix @ way
        step = size / float(np.sum(way * drop))
        warm += step * way
        rest -= step * drop
        new = float(np.sum(rest * inverse * rest))
        way = inverse * rest + new / size * way
        size = new
    raise OutOfRangeError("The temperatures of the boxes were not found.")
