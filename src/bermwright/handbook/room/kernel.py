"""The hours of a room one after the other (compiled)."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.frames.compiled import compiled, entrance

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

HOUR = 3600.0
LOSS, SOURCE, SET_POINT, POWER, OUTDOORS, LIGHTING = range(6)
"""Columns of the table of hours."""
AIR, PORT, OPEN_ABOVE, OPEN_LOSS = range(4)
"""Places of the room's own numbers."""
LONGEST = 24
"""Hours that a keeper looks ahead."""


@compiled
def _weights(decay: Array, gain: Array) -> Array:
    """For each mode: what stays, what an input adds, both means over the hour, and the gain."""
    weights = np.full((5, decay.size), np.nan)
    for mode in range(decay.size):
        stays = np.exp(-decay[mode] * HOUR)
        adds = (1.0 - stays) / decay[mode]
        weights[0, mode] = stays
        weights[1, mode] = adds
        weights[2, mode] = adds / HOUR
        weights[3, mode] = (HOUR - adds) / (decay[mode] * HOUR)
        weights[4, mode] = gain[mode]
    return weights


@compiled
def _answers(weights: Array) -> float:
    """What a kelvin of the room brings back to it out of the bodies within the hour (W/K)."""
    back = 0.0
    for mode in range(weights.shape[1]):
        back += weights[4, mode] * weights[4, mode] * weights[3, mode]
    return back


@compiled
def _from_bodies(weights: Array, state: Array, known: Array) -> float:
    """Mean heat from the bodies in the coming hour, were the room at zero (W)."""
    heat = 0.0
    for mode in range(state.size):
        heat += weights[4, mode] * (weights[2, mode] * state[mode] + weights[3, mode] * known[mode])
    return heat


@compiled
def _step(weights: Array, state: Array, known: Array, room: float) -> None:
    """Move the bodies over the hour."""
    for mode in range(state.size):
        state[mode] = weights[0, mode] * state[mode] + weights[1, mode] * (
            known[mode] + weights[4, mode] * room
        )


@compiled
def _ahead(weights: Array, forcing: Array, table: Array, about: Array, state: Array, coming: Array) -> float:
    """Mean room temperature until the next lighting, with the heat that is coming and no other.

    `about`: capacity of the air (W/K), room temperature before, first hour, hours, what holds the room (W/K).
    """
    modes = state.copy()
    before = about[1]
    first, count = int(about[2]), int(about[3])
    total = 0.0
    for hour in range(first, first + count):
        heat = about[0] * before + table[hour, SOURCE] + coming[hour]
        heat += _from_bodies(weights, modes, forcing[hour])
        before = heat / (about[4] + table[hour, LOSS])
        _step(weights, modes, forcing[hour], before)
        total += before
    return total / count


@compiled
def _until_next(table: Array, hour: int) -> int:
    """Hours from a lighting to the next one, or to the end."""
    ahead = 1
    while hour + ahead < table.shape[0] and ahead < LONGEST and table[hour + ahead, LIGHTING] == 0.0:
        ahead += 1
    return ahead


@compiled
def _lay(
    weights: Array, forcing: Array, table: Array, about: Array, state: Array, coming: Array, curve: Array
) -> float:
    """How much of a full charge brings the mean until the next lighting to the set point."""
    hour = int(about[2])
    without = _ahead(weights, forcing, table, about, state, coming)
    wanted = table[hour, SET_POINT] - without
    if wanted <= 0.0:
        return 0.0
    full = coming.copy()
    for after in range(min(curve.size, full.size - hour)):
        full[hour + after] += curve[after]
    return float(wanted / max(_ahead(weights, forcing, table, about, state, full) - without, 1e-9))


@entrance
def march(
    solid: tuple[Array, Array, Array],
    table: Array,
    numbers: Array,
    start: Array,
    before: float,
    curve: Array,
    burning: tuple[bool, float, int],
) -> tuple[Array, Array, Array]:
    """Every hour in turn; see `run_hours`. Gives (hours, 4) room, heat, opened, charge; end; kept."""
    decay, gain, forcing = solid
    lit, least, keep = burning
    hours = table.shape[0]
    weights = _weights(decay, gain)
    held = numbers[AIR] + numbers[PORT] - _answers(weights)
    answer = np.zeros((hours, 4))
    coming = np.zeros(hours)
    state = start.copy()
    kept = np.zeros((hours // keep, start.size))
    about = np.zeros(5)
    about[0], about[4] = numbers[AIR], held
    for hour in range(hours):
        if lit and table[hour, LIGHTING] > 0.0:
            about[1], about[2], about[3] = before, hour, _until_next(table, hour)
            share = min(_lay(weights, forcing, table, about, state, coming, curve), 1.0)
            if share >= least:
                answer[hour, 3] = share
                for after in range(min(curve.size, hours - hour)):
                    coming[hour + after] += share * curve[after]
        heat = numbers[AIR] * before + table[hour, SOURCE] + coming[hour]
        heat += _from_bodies(weights, state, forcing[hour])
        loses = held + table[hour, LOSS]
        room = heat / loses
        given, out = coming[hour], 0.0
        if not lit and room < table[hour, SET_POINT]:
            given = min((table[hour, SET_POINT] - room) * loses, table[hour, POWER])
            room += given / loses
        outdoors = table[hour, OUTDOORS]
        if room > numbers[OPEN_ABOVE] and outdoors < numbers[OPEN_ABOVE]:
            enough = (heat - loses * numbers[OPEN_ABOVE]) / (numbers[OPEN_ABOVE] - outdoors)
            opened = min(enough, numbers[OPEN_LOSS])
            room = (heat + opened * outdoors) / (loses + opened)
            out = opened * (room - outdoors)
        _step(weights, state, forcing[hour], room)
        before = room
        answer[hour, 0], answer[hour, 1], answer[hour, 2] = room, given, out
        if (hour + 1) % keep == 0:
            kept[(hour + 1) // keep - 1] = state
    return answer, state, kept


@entrance
def follow(decay: Array, gain: Array, forcing: Array, start: Array, room: Array) -> Array:
    """State of the modes of a body at the end of every hour, the room being known; see `part_states`."""
    weights = _weights(decay, gain)
    state = start.copy()
    states = np.full((room.size, start.size), np.nan)
    for hour in range(room.size):
        _step(weights, state, forcing[hour], room[hour])
        states[hour] = state
    return states
