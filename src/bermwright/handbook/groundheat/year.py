"""The year that repeats itself, found directly, and the first winters from a cold start."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.groundheat.assembly import NO_FLOW_TOLERANCE, steady
from bermwright.handbook.groundheat.drive import Course, Start, series

if TYPE_CHECKING:
    from collections.abc import Mapping

    from bermwright.handbook.groundheat.drive import Drive, Series
    from bermwright.handbook.groundheat.reduction import Reduced
    from bermwright.handbook.groundheat.section import Array
    from bermwright.handbook.groundheat.stepping import Kept, Modes, Nodes

REPEATS_TOLERANCE = 1e-4
"""How near the end of the year must come to its start (K)."""
NEAR_TOLERANCE = 0.02
"""How near it comes in the sweep before the last, as a rule (K)."""
SWEEP_STEPS = 60
MEMORY_STEPS = 5
"""Sweeps that are remembered to guess the next start."""


def periodic_year(model: Reduced, drive: Drive, *, states: bool = True) -> Course:
    """The year that repeats itself, without running in.

    Each mode forgets its start by exp(-λ·year); what is missing to a repeating year is added at once,
    with heating and snow inside, until the end meets the start.

    Parameters
    ----------
    model : Reduced
        A reduced section.
    drive : Drive
        Everything that it meets in one year (or any time that repeats).
    states : bool
        Whether the ground is kept at every mark; without it there is only the air and its heat.

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
        # The sweep that is likely to be the last writes the ground down; if it is not, the next one does.
        kept = run.pages(len(x) if states and drift < NEAR_TOLERANCE else 0)
        end, air_end = run.march(x, air, run.marks, kept)
        wanted = np.concatenate([(end - run.forgets * x) / (1.0 - run.forgets), air_end.ravel()])
        drift = run.apart(end - x, (air_end - air).ravel())
        if drift < REPEATS_TOLERANCE and len(kept.states) == states * run.marks:
            return run.told(kept, (x, end), sweeps=sweeps, drift=drift)
        if drift < REPEATS_TOLERANCE:
            return run.course(x, air, run.marks, sweeps=sweeps + 1, drift=drift)
        memory = [*memory[-MEMORY_STEPS + 1 :], (np.concatenate([x, air.ravel()]), wanted)]
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
    within("marks", count, 2, 2_000_000)
    return run.course(x, air, count, sweeps=1, drift=np.nan)


class _Run:
    """A model and a drive, ready to march."""

    def __init__(self, model: Reduced, given: Series) -> None:
        self.model, self.given = model, given
        self.marks = len(given.inputs)
        self.modes = modes_of(model, given)
        self.nodes = nodes_of(model, given, self.modes)
        self.forgets = np.exp(-model.decay * given.step * self.marks)

    def pages(self, size: int, marks: int | None = None) -> Kept:
        """Room to write every mark down, with so many modes."""
        from bermwright.handbook.groundheat.stepping import Kept

        count, nodes = marks or self.marks, len(self.given.places)
        return Kept(
            np.zeros((count if size else 0, size)), np.zeros((count, nodes)), np.zeros((count, nodes))
        )

    def march(self, x: Array, air: Array, steps: int, kept: Kept) -> tuple[Array, Array]:
        """The state after some steps."""
        from bermwright.handbook.groundheat.stepping import march

        end = (x[None].copy(), air.copy())  # air: of this mark and of the one before
        march(self.modes, self.nodes, end, steps, kept)
        return end[0][0], end[1]

    def rest(self) -> tuple[Array, Array]:
        """A first guess: the steady state of the mean of the known temperatures."""
        full = self.model.full
        mean = self.given.inputs.mean(axis=0)[: len(full.ports)]
        nodes = self.given
        for at, place in enumerate(nodes.places):
            warm = nodes.set_point[:, at]
            mean[place] = np.mean(np.where(np.isnan(warm), nodes.outside[:, at], warm))
        return self.model.into[:, : len(full.ports)] @ mean / self.model.decay, self.twice(mean[nodes.places])

    def twice(self, air: Array) -> Array:
        """Air that has been as it is for a step."""
        return np.stack([air, air])

    def begin(self, start: float | Mapping[str, float] | Start) -> tuple[Array, Array]:
        """The start of a run as modes and temperatures of the nodes."""
        full = self.model.full
        names = [full.ports[place] for place in self.given.places]
        if isinstance(start, Start):
            return start.modes.copy(), np.array(
                [[one[name] for name in names] for one in (start.air, start.before)]
            )
        ports = dict.fromkeys(full.ports, float(start)) if isinstance(start, (int, float)) else dict(start)
        still = steady(full, ports)
        model = self.model
        modes = model.turn.T @ (model.basis.T @ (full.capacity * still.temperature))
        return modes, self.twice(np.array([ports[name] for name in names], dtype=float))

    def split(self, both: Array) -> tuple[Array, Array]:
        """Modes and temperatures of the nodes."""
        size = len(self.model.decay)
        return both[:size], both[size:].reshape(2, -1)

    def apart(self, modes: Array, air: Array) -> float:
        """The largest difference at the watched points, the surfaces and in the air (K)."""
        model = self.model
        leaving = model.into[:, : len(model.full.ports)].T / model.full.conductances[:, None]
        seen = np.concatenate([model.watching @ modes, leaving @ modes, air])
        return float(np.max(np.abs(seen)))

    def course(self, x: Array, air: Array, steps: int, *, sweeps: int, drift: float) -> Course:
        """Run and write everything down."""
        kept, repeats = self.pages(len(x), steps), not np.isnan(drift)
        end = self.march(x, air, steps if repeats else steps - 1, kept)
        if not repeats:  # the first entry is the start
            kept.states[0], kept.air[0] = x, air[0]
        return self.told(kept, (x, end[0]), sweeps=sweeps, drift=drift)

    def told(self, kept: Kept, ends: tuple[Array, Array], *, sweeps: int, drift: float) -> Course:
        """What was written down, as a course; what the ground did is empty where it was not kept."""
        full, given = self.model.full, self.given
        ports = len(full.ports)
        index = np.arange(len(kept.air)) % self.marks
        met = given.inputs[index, :ports].copy()
        met[:, given.places] = kept.air
        states = kept.states if kept.states.size else np.zeros((0, len(self.model.decay)))
        flow = met[: len(states)] * full.conductances - states @ self.model.into[:, :ports]
        names = [full.ports[place] for place in given.places]
        below = np.maximum(given.set_point[index] - kept.air, 0.0)
        unmet = np.where(np.isnan(below), 0.0, below)
        return Course(
            model=self.model,
            air=dict(zip(names, kept.air.T, strict=True)),
            heat=dict(zip(names, kept.heat.T, strict=True)),
            unmet=dict(zip(names, unmet.T, strict=True)),
            flow=dict(zip(full.ports, flow.T, strict=True)),
            watch=dict(zip(full.watched, self.model.watching @ states.T, strict=True)),
            states=states,
            balance=self._balance(
                (met, flow, given.inputs[index, ports:]), (*ends, states), repeats=not np.isnan(drift)
            ),
            sweeps=sweeps,
            drift=drift,
            step=given.step,
        )

    def _balance(
        self, passed: tuple[Array, Array, Array], went: tuple[Array, Array, Array], *, repeats: bool
    ) -> float:
        """Heat that passes the surfaces in each step against what the ground then holds more.

        Each step starts from the state that was written down, so that a step which was not marched as it
        should be, or a mode that loses heat, leaves something over. NaN where no state was written down.
        """
        (met, flow, heats), (first, last, states) = passed, went
        if not states.size:
            return float("nan")
        model, full, step = self.model, self.model.full, self.given.step
        ports = len(full.ports)
        both = np.concatenate([met, heats], axis=1)
        before, after = step_weights(model.decay, step)
        gives = np.sum(model.into[:, :ports], axis=1) / model.decay
        shares = np.stack([np.expm1(-model.decay * step) * gives, model.holds], axis=1)
        seen = states @ shares
        if repeats:  # the first entry of what was kept is the end of the year
            both = np.concatenate([both, both[:1]])
            seen = np.concatenate([(first @ shares)[None], seen[1:], (last @ shares)[None]])
        brought = np.concatenate([full.conductances, np.ones(both.shape[1] - ports)])
        half = 0.5 * step * (brought - model.into.T @ gives)
        passes = both[:-1] @ (half + model.into.T @ (before * gives))
        passes += both[1:] @ (half + model.into.T @ (after * gives)) + seen[:-1, 0]
        scale = float(np.abs(np.concatenate([flow, heats], axis=1)).sum() * step) or NO_FLOW_TOLERANCE
        return float(np.abs(passes - np.diff(seen[:, 1])).sum()) / scale


def modes_of(model: Reduced, given: Series) -> Modes:
    """What one step does to the modes, exactly, for inputs that are straight over the step."""
    from bermwright.handbook.groundheat.stepping import Modes

    before, after = step_weights(model.decay, given.step)
    keep = np.exp(-model.decay * given.step)
    known = np.flatnonzero(np.any(given.inputs != 0.0, axis=0))
    into = model.into[:, np.concatenate([given.places, known])].T
    leaving = np.ascontiguousarray(into[: len(given.places)])
    return Modes(
        keep=keep,
        after=np.ascontiguousarray(after * into),
        joined=np.ascontiguousarray((before + keep * after) * into),
        known=np.ascontiguousarray(given.inputs[:, known]),
        leaving=leaving,
        echo=np.ascontiguousarray(leaving @ (after * leaving).T),
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


def nodes_of(model: Reduced, given: Series, modes: Modes) -> Nodes:
    """The nodes as the compiled step reads them."""
    from bermwright.handbook.groundheat.stepping import AHEAD, Nodes

    inertia = given.capacity / given.step
    at_once = modes.after[len(given.places) :] @ modes.leaving.T
    return Nodes(
        inertia=inertia,
        ties=given.loss + (AHEAD * inertia + model.full.conductances[given.places]),
        brings=given.loss * given.outside + given.gains + modes.known @ at_once,
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
