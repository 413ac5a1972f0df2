"""Stabilised explicit steps of freezing ground (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from bermwright.handbook.groundheat.compiled import entrance, inner

if TYPE_CHECKING:
    from bermwright.handbook.groundheat.section import Array, Truth, Whole

MUSHY = 0.05
"""Between 0 °C and what all water of a point is frozen at (K)."""


class Grid(NamedTuple):
    """Points, their heat, and what joins them."""

    triangles: Whole
    weights: Array
    """(m, 3) conductance of each side per conductivity (-)."""
    soft: Array
    hard: Array
    """(m,) conductivity of each triangle thawed and frozen (W/(m K))."""
    thawed: Array
    hardened: Array
    """(n,) heat capacity of each point thawed and frozen (J/(m K))."""
    latent: Array
    """(n,) heat of freezing of each point (J/m)."""
    film: Array
    """(n, ports) conductance to each port (W/(m K))."""
    held: Truth
    """(n,) whether a point simply has the temperature of its port."""
    starts: Whole
    """(n + 1,) where the neighbours of each point begin."""
    others: Whole
    slots: Whole
    """(m, 3, 2) where each side of a triangle stands among the neighbours, from both ends."""
    edge: Whole
    """Points with a film that are not held."""
    links: Whole
    """(k, 3) point, held neighbour and its place among the neighbours."""


@inner
def warmth(heat: float, thawed: float, hardened: float, latent: float) -> float:
    """Temperature of a point from its heat (°C)."""
    if heat >= 0.0:
        return heat / thawed
    if latent <= 0.0:
        return heat / hardened
    if heat >= -latent:
        return heat * MUSHY / latent
    return (heat + latent) / hardened - MUSHY


@inner
def set_conductances(grid: Grid, heat: Array, conducts: Array, joins: Array) -> None:
    """How well each point is joined to its neighbours, as frozen as it is now; what is as before stays."""
    for t in range(grid.triangles.shape[0]):
        if grid.soft[t] == grid.hard[t] and conducts[t] > 0.0:
            continue
        ice = 0.0
        for corner in range(3):
            at = grid.triangles[t, corner]
            if grid.latent[at] > 0.0:
                ice += min(max(-heat[at] / grid.latent[at], 0.0), 1.0) / 3.0
        change = grid.soft[t] + ice * (grid.hard[t] - grid.soft[t]) - conducts[t]
        if change != 0.0:
            conducts[t] += change
            for side in range(3):
                join = grid.weights[t, side] * change
                joins[grid.slots[t, side, 0]] += join
                joins[grid.slots[t, side, 1]] += join


@inner
def set_entering(grid: Grid, met: Array, given: tuple[Array, Array]) -> None:
    """What the ports bring to each point, and how strongly each point is tied to them."""
    brings, ties = given
    for i in range(brings.size):
        brings[i] = 0.0
        ties[i] = 0.0
        for p in range(met.size):
            brings[i] += grid.film[i, p] * met[p]
            ties[i] += grid.film[i, p]


@inner
def sweep(
    grid: Grid,
    joins: Array,
    given: tuple[Array, Array],
    factors: tuple[float, float, float],
    heats: tuple[Array, Array, Array],
    warm: tuple[Array, Array],
) -> None:
    """One stage: the heat of every point from the two stages before and the flow into it."""
    own, before, rest = factors
    now, older, new = heats
    brings, ties = given
    here, there = warm
    held, starts, others = grid.held, grid.starts, grid.others
    thawed, hardened, latent = grid.thawed, grid.hardened, grid.latent
    for i in range(now.size):
        temperature = here[i]
        flow = brings[i] - ties[i] * temperature
        for k in range(starts[i], starts[i + 1]):
            flow += joins[k] * (here[others[k]] - temperature)
        heat = own * now[i] + before * older[i] + rest * flow
        new[i] = now[i] if held[i] else heat
        there[i] = temperature if held[i] else warmth(heat, thawed[i], hardened[i], latent[i])


@entrance
def march_frost(
    grid: Grid,
    heat: Array,
    met: Array,
    pace: tuple[float, int, int],
    kept: tuple[Array, Array, Array],
) -> None:
    """Run all steps; `heat` holds the last state, `kept` the days and the heat that came through surfaces."""
    step, stages, steps_a_day = pace
    temperatures, ice, moved = kept
    size = heat.size
    joins, conducts = np.zeros(grid.others.size), np.zeros(grid.soft.size)
    given = (np.zeros(size), np.zeros(size))
    first, second, third = np.zeros(size), np.zeros(size), np.zeros(size)
    here, there = np.zeros(size), np.zeros(size)
    for i in range(size):
        here[i] = warmth(heat[i], grid.thawed[i], grid.hardened[i], grid.latent[i])
    share = 2.0 * step / (stages * stages + stages)
    for at in range(met.shape[0]):
        set_conductances(grid, heat, conducts, joins)
        set_entering(grid, met[at], given)
        hold(grid, given, heat, here)
        first[:] = heat
        second[:] = heat
        came, came_before = 0.0, 0.0
        for stage in range(1, stages + 1):
            own = (2.0 * stage - 1.0) / stage
            before = (1.0 - stage) / stage
            comes = own * came + before * came_before + own * share * entering(grid, joins, given, here)
            came, came_before = comes, came
            sweep(grid, joins, given, (own, before, own * share), (first, second, third), (here, there))
            first, second, third = third, first, second
            here, there = there, here
        moved[0] += came
        add_change(first, heat, moved)
        heat[:] = first
        if (at + 1) % steps_a_day == 0:
            day = (at + 1) // steps_a_day - 1
            temperatures[day] = here
            for i in range(size):
                ice[day] += min(max(-heat[i], 0.0), grid.latent[i])


@inner
def hold(grid: Grid, given: tuple[Array, Array], heat: Array, here: Array) -> None:
    """Give the held points the temperature of their port."""
    for i in range(heat.size):
        if grid.held[i]:
            here[i] = given[0][i] / given[1][i]


@inner
def entering(grid: Grid, joins: Array, given: tuple[Array, Array], here: Array) -> float:
    """Heat that comes in through all surfaces now (W/m)."""
    total = 0.0
    for i in grid.edge:
        total += given[0][i] - given[1][i] * here[i]
    for k in range(grid.links.shape[0]):
        total += joins[grid.links[k, 2]] * (here[grid.links[k, 1]] - here[grid.links[k, 0]])
    return total


@inner
def add_change(after: Array, before: Array, moved: Array) -> None:
    """Add up by how much the heat of the points has changed, either way."""
    for i in range(after.size):
        moved[1] += abs(after[i] - before[i])
