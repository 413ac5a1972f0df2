"""Ground that freezes: the heat of its water by the method of enthalpy, over a year of given surfaces.

What a point holds is counted as heat from thawed soil at 0 °C; temperature follows from it over a narrow
range of freezing. Steps are explicit and stabilised (Runge, Kutta, Legendre): one of three hours takes a
dozen sweeps over the points; how frozen soil conducts is brought up to date at each of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.groundheat.assembly import HALF, THIRD, in_order, sides_of
from bermwright.handbook.groundheat.drive import COLDEST, HOTTEST

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike

    from bermwright.handbook.groundheat.assembly import Conduction
    from bermwright.handbook.groundheat.frost.kernel import Grid
    from bermwright.handbook.groundheat.section import Array, Section, Truth, Whole

FREEZING_RANGE = 0.05
"""Between 0 °C and what all water of a point is frozen at (K)."""
DAY = 86400.0
DAY_TOLERANCE = 1.0
"""What whole steps may leave of a day (s)."""
LEAST_MOVED_TOLERANCE = 1.0
"""Heat below which nothing has moved (J/m)."""
HELD = 1e3
"""A point that is tied more strongly than this simply has the temperature of its port (W/(m K))."""
SHORTEST_STEP = 150.0
"""The smallest triangles get so much more heat capacity that they bear an explicit step as long (s)."""
MOST_ADDED = 2e-4
"""The most of it, over all; where it would be more, the step is shorter (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostCourse:
    """A year of freezing ground, kept day by day."""

    temperature: Array
    """(days, n) at the points of the mesh at the end of each day (°C)."""
    ice: Array
    """(days,) heat of all water that is ice at the end of each day (J/m)."""
    stages: int
    """Sweeps over the points within a step."""
    added: float
    """Heat capacity that the smallest triangles were given on top, over all (-)."""
    moved: float
    """Heat that the points took in and gave away, added up (J/m)."""
    balance: float
    """Heat through the surfaces less the change of the heat held, over the heat moved (-)."""

    @property
    def hardest(self) -> int:
        """The day on which most water is ice."""
        return int(np.argmax(self.ice))

    def frozen(self, day: int) -> Array:
        """(n,) share of the water of each point that is ice at the end of a day (-)."""
        return np.asarray(np.clip(-self.temperature[day] / FREEZING_RANGE, 0.0, 1.0))


def freeze_year(
    full: Conduction,
    section: Section,
    temperatures: Mapping[str, ArrayLike],
    *,
    start: Array,
    step: float = 10800.0,
    days: int | None = None,
) -> FrostCourse:
    """Temperatures of a section whose soils freeze and thaw.

    Parameters
    ----------
    full : Conduction
        The equations of the section.
    section : Section
        Its materials with frozen values and latent heat.
    temperatures : Mapping[str, ArrayLike]
        Temperature of every port [°C], one number or one an hour.
    start : array
        At the points of the mesh [°C].
    step : float
        Length of a step [s]: 3600 where surfaces matter, 10800 for the depth of frost.
    days : int or None
        How long; None: as long as the temperatures go.

    Returns
    -------
    FrostCourse
        Temperatures [°C] and frozen shares [-] day by day, and the balance of heat [-].

    References
    ----------
    [MEYER2014] : section 2, the first-order scheme RKL1.
    """
    from bermwright.handbook.groundheat.frost.kernel import march_frost

    within("step", step, 60.0, DAY, unit="s")
    steps_a_day = round(DAY / step)
    if abs(steps_a_day * step - DAY) > DAY_TOLERANCE:
        raise OutOfRangeError(f"A step of {step:g} s does not divide a day.")
    within("start", start, COLDEST, HOTTEST, unit="°C")
    if len(start) != len(full.capacity):
        raise OutOfRangeError("The start has not as many temperatures as the mesh has points.")
    met, length = _means(full, temperatures, step, days)
    plain = frost_grid(full, section)
    grid = _eased(plain)
    heat = enthalpy(start, grid)
    # Stable as long as the step is no longer than (s² + s)/2 plain ones.
    stages = max(int(np.ceil(0.5 * (np.sqrt(1.0 + 8.0 * step / stable_steps(grid).min()) - 1.0))), 2)
    temperature = np.zeros((length, len(start)))
    ice, moved = np.zeros(length), np.zeros(2)
    before = float(heat[~grid.held].sum())
    march_frost(grid, heat, met, (step, stages, steps_a_day), (temperature, ice, moved))
    change = float(heat[~grid.held].sum()) - before
    return FrostCourse(
        temperature=temperature,
        ice=ice,
        stages=stages,
        added=float((grid.thawed - plain.thawed).sum() / plain.thawed.sum()),
        moved=float(moved[1]),
        balance=abs(moved[0] - change) / max(moved[1], LEAST_MOVED_TOLERANCE),
    )


def _means(
    full: Conduction, temperatures: Mapping[str, ArrayLike], step: float, days: int | None
) -> tuple[Array, int]:
    """(steps, ports) mean of each port over each step, from hourly values straight between them."""
    lengths = {np.size(one) for one in temperatures.values()} - {1}
    if len(lengths) > 1:
        raise OutOfRangeError("The temperatures have different lengths.")
    hours = lengths.pop() if lengths else 24 * (days or 365)
    count = days if days is not None else hours // 24
    within("days", count, 1, 20_000)
    spread = {name: float(np.mean(np.asarray(one))) for name, one in temperatures.items()}
    in_order("temperature", full.ports, spread)
    columns = []
    for name in full.ports:
        values = np.broadcast_to(np.asarray(temperatures[name], dtype=float), (hours,))
        within(f"temperature of {name}", values, COLDEST, HOTTEST, unit="°C")
        closed = np.concatenate([values, values[:1]])
        whole = np.concatenate([[0.0], np.cumsum(HALF * (closed[1:] + closed[:-1]))])
        marks = np.arange(round(count * DAY / step) + 1) * step / 3600.0
        rounds, within_year = np.divmod(marks, hours)
        total = rounds * whole[-1] + _integral(whole, closed, within_year)
        columns.append(np.diff(total) * 3600.0 / step)
    return np.ascontiguousarray(np.stack(columns, axis=1)), count


def _integral(whole: Array, values: Array, hours: Array) -> Array:
    """Integral of straight pieces up to some hours."""
    at = np.minimum(hours.astype(int), len(values) - 2)
    rest = hours - at
    slope = values[at + 1] - values[at]
    return np.asarray(whole[at] + rest * (values[at] + HALF * slope * rest))


def stable_steps(grid: Grid) -> Array:
    """The longest step that a plain explicit sweep bears at each point that is not held (s)."""
    size = len(grid.thawed)
    leaving = grid.film.sum(axis=1)
    hardest = np.abs(grid.weights) * np.maximum(grid.hard, grid.soft)[:, None]
    for side in range(3):
        for end in (1, 2):
            corner = grid.triangles[:, (side + end) % 3]
            leaving += np.bincount(corner, weights=hardest[:, side], minlength=size)
    return np.asarray((np.minimum(grid.thawed, grid.hardened) / leaving)[~grid.held])


def _eased(grid: Grid) -> Grid:
    """The same with more heat capacity in the few triangles that are too small for the sweep."""
    bears, aim = stable_steps(grid), SHORTEST_STEP
    own = np.minimum(grid.thawed, grid.hardened)[~grid.held]
    while aim > bears.min() and np.sum(own * np.maximum(aim / bears - 1.0, 0.0)) > MOST_ADDED * own.sum():
        aim *= HALF
    more = np.ones(len(grid.thawed))
    more[~grid.held] = np.maximum(aim / bears, 1.0)
    return grid._replace(thawed=grid.thawed * more, hardened=grid.hardened * more)


def frost_grid(full: Conduction, section: Section) -> Grid:
    """The section as the compiled sweep reads it."""
    from bermwright.handbook.groundheat.frost.kernel import Grid

    mesh = full.mesh
    kinds = [region.material for region in section.regions]
    rows = [
        (k.conductivity, k.frozen_conductivity or k.conductivity, k.capacity, k.frozen_capacity or k.capacity,
         k.latent) if k else (np.nan,) * 5
        for k in kinds
    ]  # fmt: skip
    soft, hard, thawed, hardened, latent = np.array(rows)[mesh.material].T
    size = len(mesh.points)
    starts, others, slots = _neighbours(mesh.triangles, size)
    areas = mesh.areas
    held = full.films.max(axis=1) > HELD
    return Grid(
        triangles=mesh.triangles,
        weights=sides_of(mesh),
        soft=np.ascontiguousarray(soft),
        hard=np.ascontiguousarray(hard),
        thawed=_shared(mesh.triangles, thawed * areas, size),
        hardened=_shared(mesh.triangles, hardened * areas, size),
        latent=_shared(mesh.triangles, latent * areas, size),
        film=np.ascontiguousarray(full.films),
        held=held,
        starts=starts,
        others=others,
        slots=slots,
        edge=np.flatnonzero((full.films.sum(axis=1) > 0.0) & ~held),
        links=_links(starts, others, held),
    )


def _shared(triangles: Whole, amount: Array, size: int) -> Array:
    total = np.zeros(size)
    for corner in range(3):
        total += np.bincount(triangles[:, corner], weights=THIRD * amount, minlength=size)
    return total


def _neighbours(triangles: Whole, size: int) -> tuple[Whole, Whole, Whole]:
    """Neighbours of each point one after the other, and where each triangle's sides stand among them."""
    sides = np.stack([triangles[:, [1, 2]], triangles[:, [2, 0]], triangles[:, [0, 1]]], axis=1)
    both = np.concatenate([sides.reshape(-1, 2), sides.reshape(-1, 2)[:, ::-1]])
    key, where = np.unique(both[:, 0] * size + both[:, 1], return_inverse=True)
    starts = np.searchsorted(key // size, np.arange(size + 1)).astype(np.int64)
    half = where.reshape(2, -1)
    slots = np.stack([half[0].reshape(-1, 3), half[1].reshape(-1, 3)], axis=2)
    return starts, (key % size).astype(np.int32), np.ascontiguousarray(slots.astype(np.int64))


def _links(starts: Whole, others: Whole, held: Truth) -> Whole:
    """Every point that is not held beside one that is."""
    point = np.repeat(np.arange(len(held)), np.diff(starts))
    at = np.flatnonzero(~held[point] & held[others])
    return np.stack([point[at], others[at].astype(np.int64), at], axis=1)


def enthalpy(temperature: Array, grid: Grid) -> Array:
    """Heat of each point from thawed at 0 °C (J/m)."""
    part = np.clip(-temperature / FREEZING_RANGE, 0.0, 1.0)
    cold = np.minimum(temperature + np.where(grid.latent > 0.0, FREEZING_RANGE, 0.0), 0.0)
    ice = np.where(grid.latent > 0.0, part * grid.latent, 0.0)
    return np.asarray(np.maximum(temperature, 0.0) * grid.thawed - ice + cold * grid.hardened)
