"""The balance of a room, hour by hour: bodies that store heat, air, sun, a thermostat or a stove.

Everything known is its mean over an hour; the room's temperature is taken as constant over the hour,
and the bodies answer to that exactly. What flows into a body is what it stores or passes on, to the
last digit, so that the year's books close.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    from bermwright.handbook.room.walls import Body

    Array = NDArray[np.float64]

HOUR = 3600.0
"""s."""
SWEEPS, MEMORY = 30, 8
SAME_TOLERANCE = 1e-6
"""How near the end of a year lies to its beginning (K)."""
TINY = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class Solids:
    """All bodies of a room as one, with what they receive beside the room's warmth."""

    decay: Array
    room_gain: Array
    port: float
    """W/K, all bodies."""
    forcing: Array
    """(hours, modes): what outdoors, ground and sun put into each mode."""
    parts: tuple[tuple[int, int, float], ...]
    """First mode, mode past the last, and port of each body."""

    @property
    def hours(self) -> int:
        """How many hours are known."""
        return int(self.forcing.shape[0])


def solids(bodies: Sequence[tuple[Body, Array]]) -> Solids:
    """Several bodies with their known inputs, as one set of modes.

    forcing = Σ_j gain_j u_j over all inputs j but the room

    Parameters
    ----------
    bodies : sequence of (Body, array)
        Each body with its known inputs in order, (hours, inputs - 1), temperatures [°C] and sun [W].

    Returns
    -------
    Solids
        Their modes side by side.

    References
    ----------
    [CARSLAW1959] : section 1.14, superposition; linear bodies that meet only at the room's air.
    """
    if not bodies:
        raise OutOfRangeError("A room has at least one wall.")
    first, parts = 0, []
    for body, _known in bodies:
        parts.append((first, first + body.decay.size, body.port))
        first += body.decay.size
    return Solids(
        decay=np.concatenate([body.decay for body, _known in bodies]),
        room_gain=np.concatenate([body.gain[:, 0] for body, _known in bodies]),
        port=float(sum(body.port for body, _known in bodies)),
        forcing=np.concatenate(
            [np.asarray(known, dtype=float) @ body.gain[:, 1:].T for body, known in bodies], axis=1
        ),
        parts=tuple(parts),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Air:
    """What reaches the air of the room, one value an hour, and what holds it warm."""

    capacity: float
    """Air and light things in it (J/K)."""
    loss: Array
    """Conductance to everything without mass: windows, doors, fresh air (W/K)."""
    source: Array
    """Those conductances times the temperature behind each, and all free heat (W)."""
    set_point: Array
    """What the heater is asked for (°C); -273 where it is off."""
    power: Array
    """The most that the heater gives (W)."""
    open_above: float = 1e9
    """Room temperature over which windows are opened, if it is cooler outside (°C)."""
    open_loss: float = 0.0
    """What open windows add (W/K)."""
    outdoors: Array | None = None
    """Outdoor air (°C), needed where windows are opened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Burning:
    """A stove by batches: what one charge gives in each hour after lighting, and when it may be lit."""

    curve: Array
    """Heat in each hour after lighting of a full charge (W); its tail may be cut where nothing is left."""
    lightings: Array
    """1 in hours in which a fire may be laid, else 0."""
    least: float = 0.25
    """Share of a full charge under which no fire is lit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """What the balance gives, one value an hour."""

    room: Array
    """°C."""
    heat: Array
    """What the heater or stove gave (W)."""
    opened: Array
    """Heat let out by opened windows (W)."""
    charges: Array
    """Share of a full charge lit in each hour."""
    end: Array
    """State of the modes at the end."""
    last: float
    """Room temperature of the last hour (°C)."""
    kept: Array
    """State of the modes at the end of every hour `keep` asks for, (kept, modes)."""


def run_hours(
    bodies: Solids,
    air: Air,
    start: Array,
    *,
    room_before: float,
    burning: Burning | None = None,
    keep: int = 168,
) -> Hours:
    """The balance of a room over all hours that are known.

    C (T − T')/Δt = S − K T + Q + Σ g·z̄ − A T, z exact for a room constant over the hour

    Parameters
    ----------
    bodies : Solids
        Everything that stores heat [-].
    air : Air
        Loss, source, set point and power, one value an hour [W, W/K, °C].
    start : array
        State of the modes at the beginning [-].
    room_before : float
        Room temperature of the hour before, -80 to 200 [°C].
    burning : Burning or None
        A stove by batches; then the set point is what the keeper aims at and `power` is not used.
    keep : int
        The state is kept at the end of each `keep` hours [-].

    Returns
    -------
    Hours
        Room temperature [°C], heat [W], fires and states.

    Notes
    -----
    The keeper of a stove lays at each lighting as much wood as brings the mean until the next lighting to
    the set point, at most a full charge, and nothing under `least` of one. He knows the coming weather.

    References
    ----------
    [INCROPERA] : chapter 1, conservation of energy; first law for the room's air; modes by their closed form.
    """
    from bermwright.handbook.room.kernel import march

    within("temperature before", room_before, -80.0, 200.0, unit="°C")
    hours = bodies.hours
    curve = np.zeros(1) if burning is None else np.ascontiguousarray(burning.curve, dtype=float)
    lightings = np.zeros(hours) if burning is None else np.asarray(burning.lightings, dtype=float)
    outdoors = np.full(hours, 1e9) if air.outdoors is None else np.asarray(air.outdoors, dtype=float)
    rows = [_row(name, getattr(air, name), hours) for name in ("loss", "source", "set_point", "power")]
    if not (np.isfinite(start).all() and np.isfinite(bodies.forcing).all()):
        raise OutOfRangeError("The state and the inputs of a room must be numbers.")
    within("heat capacity of the air", air.capacity, 0.0, unit="J/K")
    answer, end, kept = march(
        (bodies.decay, bodies.room_gain, np.ascontiguousarray(bodies.forcing)),
        np.stack([*rows, outdoors, lightings], axis=1),
        np.array([air.capacity / HOUR, bodies.port, air.open_above, air.open_loss]),
        np.asarray(start, dtype=float),
        float(room_before),
        curve,
        (burning is not None, 0.0 if burning is None else burning.least, keep),
    )
    room, heat, opened, charges = answer.T
    return Hours(
        room=room, heat=heat, opened=opened, charges=charges, end=end, last=float(room[-1]), kept=kept
    )


def _row(name: str, values: Array, hours: int) -> Array:
    row = np.broadcast_to(np.asarray(values, dtype=float), (hours,))
    if not np.isfinite(row).all():
        raise OutOfRangeError(f"{name} of a room must be numbers.")
    return row


def settled_start(bodies: Solids, air: Air, guess: float = 15.0) -> tuple[Array, float]:
    """The state with which a year begins as it ends, and the room temperature of its last hour.

    z0 ← (z_end − a z0)/(1 − a), a = e^(−decay·year), sweeps combined by Anderson until the year closes

    Parameters
    ----------
    bodies : Solids
        Everything that stores heat [-].
    air : Air
        The room's year, with a thermostat or without heat [-].
    guess : float
        Room temperature to begin with, -80 to 200 [°C].

    Returns
    -------
    tuple of array and float
        State of the modes [-], room temperature of the hour before [°C].

    References
    ----------
    [CARSLAW1959] : section 1.14, superposition, mode by mode; the thermostat runs inside.
    """
    forgets = np.exp(-bodies.decay * HOUR * bodies.hours)
    scale = np.append(np.abs(bodies.room_gain) / bodies.port + TINY, 1.0)
    guesses: list[Array] = []
    misses: list[Array] = []
    guess_now = np.append((bodies.forcing.mean(axis=0) + bodies.room_gain * guess) / bodies.decay, guess)
    for _sweep in range(SWEEPS):
        found = run_hours(bodies, air, guess_now[:-1], room_before=guess_now[-1], keep=bodies.hours)
        after = np.append((found.end - forgets * guess_now[:-1]) / (1.0 - forgets), found.last)
        guesses.append(guess_now)
        misses.append((after - guess_now) * scale)
        if float(np.max(np.abs(misses[-1]))) < SAME_TOLERANCE:
            break
        guess_now = _nearer(guesses[-MEMORY:], misses[-MEMORY:], scale)
    return guess_now[:-1], float(guess_now[-1])


def _nearer(guesses: list[Array], misses: list[Array], scale: Array) -> Array:
    """The combination of the last guesses that would miss least, moved by what it still misses."""
    if len(guesses) == 1:
        return guesses[0] + misses[0] / scale
    turns = np.stack([one - misses[-1] for one in misses[:-1]], axis=1)
    shares = np.linalg.lstsq(turns, -misses[-1], rcond=1e-10)[0]
    best = guesses[-1] + sum(
        share * (one - guesses[-1]) for share, one in zip(shares, guesses[:-1], strict=True)
    )
    return np.asarray(best + (misses[-1] + turns @ shares) / scale)


def part_states(bodies: Solids, part: int, start: Array, room: Array) -> Array:
    """State of one body at the end of every hour, once the room's temperature is known.

    z⁺ = e^(−λΔt) z + (1 − e^(−λΔt))/λ·(forcing + g T)

    Parameters
    ----------
    bodies : Solids
        The bodies [-].
    part : int
        Which one, counted from 0 [-].
    start : array
        State of all modes at the beginning [-].
    room : array
        Room temperature of every hour [°C].

    Returns
    -------
    array
        States of the body's modes, (hours, modes) [-].

    References
    ----------
    [CARSLAW1959] : section 1.14, superposition, mode by mode.
    """
    from bermwright.handbook.room.kernel import follow

    first, past, _port = bodies.parts[part]
    return follow(
        bodies.decay[first:past],
        bodies.room_gain[first:past],
        np.ascontiguousarray(bodies.forcing[:, first:past]),
        np.asarray(start, dtype=float)[first:past],
        np.asarray(room, dtype=float),
    )


def heat_into(bodies: Solids, part: int, start: Array, room: Array) -> Array:
    """Mean heat that one body takes from the room in every hour.

    Q = A·T − g·z̄, z̄ = the mean of the state over the hour

    Parameters
    ----------
    bodies : Solids
        The bodies [-].
    part : int
        Which one, counted from 0 [-].
    start : array
        State of all modes at the beginning [-].
    room : array
        Room temperature of every hour [°C].

    Returns
    -------
    array
        Heat into the body [W], below zero where it warms the room.

    References
    ----------
    [INCROPERA] : chapter 1, conservation of energy; what passes the film.
    """
    first, past, port = bodies.parts[part]
    states = part_states(bodies, part, start, room)
    before = np.concatenate([start[np.newaxis, first:past], states[:-1]])
    drive = bodies.forcing[:, first:past] + np.outer(room, bodies.room_gain[first:past])
    mean = (drive - (states - before) / HOUR) / bodies.decay[first:past]
    return np.asarray(port * room - mean @ bodies.room_gain[first:past])


def surface_temperature(bodies: Solids, part: int, state: Array) -> Array:
    """Mean temperature of one body's face towards the room.

    T_s = g·z/A

    Parameters
    ----------
    bodies : Solids
        The bodies [-].
    part : int
        Which one, counted from 0 [-].
    state : array
        States of the modes, the last axis [-].

    Returns
    -------
    float or array
        Mean temperature of the face [°C].

    References
    ----------
    [INCROPERA] : chapter 1, conservation of energy; what passes the film is port times the difference.
    """
    first, past, port = bodies.parts[part]
    return np.asarray(np.asarray(state)[..., first:past] @ bodies.room_gain[first:past] / port)
