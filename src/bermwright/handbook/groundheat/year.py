"""The year that repeats itself, found directly, and the first winters from a cold start."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.groundheat.assembly import steady
from bermwright.handbook.groundheat.drive import Course, Start, series

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.handbook.groundheat.drive import Drive, Series
    from bermwright.handbook.groundheat.reduction import Reduced
    from bermwright.handbook.groundheat.section import Array
    from bermwright.handbook.groundheat.stepping import Kept, Modes, Nodes

REPEATS_TOLERANCE = 1e-6
"""How near the end of the year must come to its start (K)."""
SWEEP_STEPS = 60
MEMORY_STEPS = 5
"""Sweeps that are remembered to guess the next start."""


def periodic_year(model: Reduced, drive: Drive) -> Course:
    """The year that repeats itself, without running in.

    Each mode forgets its start by exp(-λ·year); what is missing to a repeating year is added at once,
    with heating and snow inside, until the end meets the start.

    Parameters
    ----------
    model : Reduced
        A reduced section.
    drive : Drive
        Everything that it meets in one year (or any time that repeats).

    Returns
    -------
    Course
        Temperatures [°C], heat and flows [W/m], and how well both ends meet [K].

    References
    ----------
    [GRIMME1997] : chapter 2, the state of a diagonal system in closed form.
    """
    run = _Run(model, series(model, drive))
    x, air = run.rest()
    memory: list[tuple[Array, Array]] = []
    drift = np.inf
    for sweeps in range(1, SWEEP_STEPS + 1):
        end, air_end = run.march(x, air, run.marks, None)
        wanted = np.concatenate([(end - run.forgets * x) / (1.0 - run.forgets), air_end])
        drift = run.apart(end - x, air_end - air)
        if drift < REPEATS_TOLERANCE:
            return run.course(x, air, run.marks, sweeps=sweeps + 1, drift=drift)
        memory = [*memory[-MEMORY_STEPS + 1 :], (np.concatenate([x, air]), wanted)]
        x, air = run.split(_next_guess(memory))
    raise OutOfRangeError(
        f"The year does not come to repeat itself: {drift:.1e} K are left after {SWEEP_STEPS} runs."
    )


def run_years(
    model: Reduced,
    drive: Drive,
    *,
    start: float | Mapping[str, float] | Start,
    years: int = 1,
    marks: int | None = None,
) -> Course:
    """Temperatures and heat from a start that the ground does not like: the first winters.

    Parameters
    ----------
    model : Reduced
        A reduced section.
    drive : Drive
        Everything that it meets in one year; it is repeated.
    start : float or Mapping[str, float] or Start
        One temperature of everything [°C], a temperature of each port in a steady state [°C], or the state of
        another course at a mark.
    years : int
        How often the drive is run through.
    marks : int or None
        Number of marks instead of whole years.

    Returns
    -------
    Course
        Temperatures [°C], heat and flows [W/m] at every mark; the first entry is the start.

    References
    ----------
    [GRIMME1997] : chapter 2, the state of a diagonal system in closed form.
    """
    within("years", years, 1, 50)
    run = _Run(model, series(model, drive))
    x, air = run.begin(start)
    count = years * run.marks if marks is None else marks
    within("marks", count, 1, 2_000_000)
    return run.course(x, air, count, sweeps=1, drift=np.nan)


class _Run:
    """A model and a drive, ready to march."""

    def __init__(self, model: Reduced, given: Series) -> None:
        self.model, self.given = model, given
        self.marks = len(given.inputs)
        self.modes = modes_of(model, given)
        self.nodes = nodes_of(model, given)
        self.forgets = np.exp(-model.decay * given.step * self.marks)

    def march(self, x: Array, air: Array, steps: int, kept: Kept | None) -> tuple[Array, Array]:
        """The state after some steps."""
        from bermwright.handbook.groundheat.stepping import Kept, march

        nothing = np.zeros((0, 0))
        end = (x[None].copy(), air.copy())
        march(self.modes, self.nodes, end, steps, kept or Kept(nothing, nothing, nothing))
        return end[0][0], end[1]

    def rest(self) -> tuple[Array, Array]:
        """A first guess: the steady state of the mean of the known temperatures."""
        full = self.model.full
        mean = self.given.inputs.mean(axis=0)[: len(full.ports)]
        nodes = self.given
        for at, place in enumerate(nodes.places):
            warm = nodes.set_point[:, at]
            mean[place] = np.mean(np.where(np.isnan(warm), nodes.outside[:, at], warm))
        return self.model.into[:, : len(full.ports)] @ mean / self.model.decay, mean[nodes.places]

    def begin(self, start: float | Mapping[str, float] | Start) -> tuple[Array, Array]:
        """The start of a run as modes and temperatures of the nodes."""
        full = self.model.full
        names = [full.ports[place] for place in self.given.places]
        if isinstance(start, Start):
            return start.modes.copy(), np.array([start.air[name] for name in names])
        ports = dict.fromkeys(full.ports, float(start)) if isinstance(start, (int, float)) else dict(start)
        still = steady(full, ports)
        model = self.model
        modes = model.turn.T @ (model.basis.T @ (full.capacity * still.temperature))
        return modes, np.array([ports[name] for name in names], dtype=float)

    def split(self, both: Array) -> tuple[Array, Array]:
        """Modes and temperatures of the nodes."""
        size = len(self.model.decay)
        return both[:size], both[size:]

    def apart(self, modes: Array, air: Array) -> float:
        """The largest difference at the watched points, the surfaces and in the air (K)."""
        model = self.model
        leaving = model.into[:, : len(model.full.ports)].T / model.full.conductances[:, None]
        seen = np.concatenate([model.watching @ modes, leaving @ modes, air])
        return float(np.max(np.abs(seen)))

    def course(self, x: Array, air: Array, steps: int, *, sweeps: int, drift: float) -> Course:
        """Run and write everything down."""
        from bermwright.handbook.groundheat.stepping import Kept

        size, nodes = len(x), len(air)
        kept = Kept(np.zeros((steps, size)), np.zeros((steps, nodes)), np.zeros((steps, nodes)))
        end = self.march(x, air, steps, kept)
        if np.isnan(drift):  # not a repeating year: the first entry is the start, not the last step
            kept.states[0], kept.air[0], kept.heat[0] = x, air, 0.0
        return self._told(kept, (x, end[0]), sweeps=sweeps, drift=drift)

    def _told(self, kept: Kept, ends: tuple[Array, Array], *, sweeps: int, drift: float) -> Course:
        full, given = self.model.full, self.given
        ports = len(full.ports)
        index = np.arange(len(kept.air)) % self.marks
        met = given.inputs[index, :ports].copy()
        met[:, given.places] = kept.air
        flow = met * full.conductances - kept.states @ self.model.into[:, :ports]
        names = [full.ports[place] for place in given.places]
        below = np.maximum(given.set_point[index] - kept.air, 0.0)
        unmet = np.where(np.isnan(below), 0.0, below)
        return Course(
            model=self.model,
            air=dict(zip(names, kept.air.T, strict=True)),
            heat=dict(zip(names, kept.heat.T, strict=True)),
            unmet=dict(zip(names, unmet.T, strict=True)),
            flow=dict(zip(full.ports, flow.T, strict=True)),
            watch=dict(zip(full.watched, self.model.watching @ kept.states.T, strict=True)),
            states=kept.states,
            balance=self._balance(met, given.inputs[index, ports:], ends),
            sweeps=sweeps,
            drift=drift,
            step=given.step,
        )

    def _balance(self, met: Array, heats: Array, ends: tuple[Array, Array]) -> float:
        """Heat through all surfaces, integrated exactly, against the heat that stays in the ground."""
        model, full = self.model, self.model.full
        ports = len(full.ports)
        met = np.concatenate([met, met[:1]]) if len(met) == self.marks else met
        heats = np.concatenate([heats, heats[:1]]) if len(heats) < len(met) else heats
        time = self.given.step
        total = np.trapezoid(np.concatenate([met, heats], axis=1), dx=time, axis=0)
        change = ends[1] - ends[0]
        if len(met) != self.marks + 1:  # the last step of a run of years has no mark of its own
            return float(np.nan)
        mean = (model.into @ total - change) / model.decay
        into = total[:ports] * full.conductances - model.into[:, :ports].T @ mean
        stays = float(model.holds @ change)
        scale = float(np.abs(into).sum() + np.abs(total[ports:]).sum()) or 1.0
        return abs(float(into.sum() + total[ports:].sum()) - stays) / scale


def modes_of(model: Reduced, given: Series) -> Modes:
    """What one step does to the modes, exactly, for inputs that are straight over the step."""
    from bermwright.handbook.groundheat.stepping import Modes

    before, after = step_weights(model.decay, given.step)
    keep = np.exp(-model.decay * given.step)
    into = model.into[:, given.places].T
    # The known inputs add before·u(n) + after·u(n + 1).
    known = np.flatnonzero(np.any(given.inputs != 0.0, axis=0))
    inputs, ways = given.inputs[:, known], model.into[:, known].T
    both = np.concatenate([inputs, np.roll(inputs, -1, axis=0)], axis=1)
    push = both @ np.concatenate([ways * before, ways * after])
    return Modes(
        keep=keep,
        push=push,
        after=np.ascontiguousarray(after * into),
        joined=np.ascontiguousarray((before + keep * after) * into),
        leaving=np.ascontiguousarray(into),
        echo=np.ascontiguousarray(into @ (after * into).T),
    )


def step_weights(decay: Array, step: float) -> tuple[Array, Array]:
    """What an input at the start and at the end of a step adds to a mode that decays.

    With e = exp(-λt): the input held gives (1 - e)/λ, its rise over the step (t - (1 - e)/λ)/(λt).

    Parameters
    ----------
    decay : float or array
        Rate λ of each mode [1/s], above 0.
    step : float
        Length t of the step [s], above 0.

    Returns
    -------
    tuple
        Weight of the value at the start and at the end [s].

    References
    ----------
    [GRIMME1997] : chapter 2, the state of a diagonal system in closed form.

    Examples
    --------
    >>> before, after = step_weights(1.0, 1.0)  # 1 - 2/e and 1/e
    >>> round(float(before), 6), round(float(after), 6)
    (0.264241, 0.367879)
    """
    within("decay", decay, 0.0, unit="1/s", open_low=True)
    within("step", step, 0.0, unit="s", open_low=True)
    gone = -np.expm1(-np.asarray(decay, dtype=float) * step) / decay
    after = (step - gone) / (np.asarray(decay, dtype=float) * step)
    return np.asarray(gone - after), np.asarray(after)


def nodes_of(model: Reduced, given: Series) -> Nodes:
    """The nodes as the compiled step reads them."""
    from bermwright.handbook.groundheat.stepping import Nodes

    inertia = given.capacity / given.step
    return Nodes(
        inertia=inertia,
        ties=given.loss + (inertia + model.full.conductances[given.places]),
        brings=given.loss * given.outside + given.gains,
        set_point=given.set_point,
        power=given.power,
    )


def _next_guess(memory: list[tuple[Array, Array]]) -> Array:
    """The start from which the year would repeat itself if it answered in straight lines (Anderson)."""
    starts = np.stack([one[0] for one in memory])
    wanted = np.stack([one[1] for one in memory])
    rest = wanted - starts
    if len(memory) == 1:
        return np.asarray(wanted[-1])
    share = np.linalg.lstsq(np.diff(rest, axis=0).T, rest[-1], rcond=1e-12)[0]
    return np.asarray(wanted[-1] - share @ np.diff(wanted, axis=0))
