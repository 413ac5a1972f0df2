"""The runs: the year that repeats itself, the stove by batches, left alone, the first winters."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Balance, Course, monthly
from bermwright.handbook.room import heat_into, run_hours, settled_start

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.adapt.winter.nouns import Room
    from bermwright.handbook.room import Air, Burning, Hours, Solids

    Array = NDArray[np.float64]

WEEK = 168
HOUR = 3600.0


def settled(bodies: Solids, air: Air) -> Course:
    """The year that begins as it ends."""
    start, before = settled_start(bodies, air)
    return course(run_hours(bodies, air, start, room_before=before, keep=WEEK), start)


def fired(bodies: Solids, air: Air, ideal: Course, burning: Burning) -> Course:
    """A year with a stove by batches, run twice so that the second begins as the first ends."""
    first = run_hours(bodies, air, ideal.start, room_before=float(ideal.room[-1]), burning=burning, keep=WEEK)
    second = run_hours(bodies, air, first.end, room_before=first.last, burning=burning, keep=WEEK)
    return course(second, first.end)


def course(hours: Hours, start: Array) -> Course:
    """A run with its beginning."""
    return Course(
        room=hours.room,
        heat=hours.heat,
        opened=hours.opened,
        charges=hours.charges,
        start=start,
        weeks=hours.kept,
    )


def turned(bodies: Solids, air: Air, first: int) -> tuple[Solids, Air]:
    """The same year beginning at another hour."""

    def roll(row: Array) -> Array:
        return np.roll(row, -first, axis=0) if np.ndim(row) and np.shape(row)[0] == HOURS else row

    moved = replace(
        air,
        loss=roll(air.loss),
        source=roll(air.source),
        set_point=roll(air.set_point),
        power=roll(air.power),
        outdoors=None if air.outdoors is None else roll(air.outdoors),
    )
    return replace(bodies, forcing=roll(bodies.forcing)), moved


def state_at(bodies: Solids, air: Air, whole: Course, hour: int) -> tuple[Array, float]:
    """State of the modes at the beginning of an hour of the year, and the room an hour before."""
    if hour == 0:
        return whole.start, float(whole.room[-1])
    part = replace(
        air,
        **{
            name: getattr(air, name)[:hour]
            for name in ("loss", "source", "set_point", "power", "outdoors")
            if getattr(air, name) is not None
        },
    )
    found = run_hours(
        replace(bodies, forcing=bodies.forcing[:hour]),
        part,
        whole.start,
        room_before=float(whole.room[-1]),
        keep=hour,
    )
    return found.end, found.last


def left_alone(room: Room, bodies: Solids, whole: Course, hour: int) -> Array:
    """Room temperature in the year after nobody heats or lives there any more, from an hour on."""
    heated = room.air()
    start, before = state_at(bodies, heated, whole, hour)
    empty = room.without("people", "cooking", "electric", "animals").air(heated=False)
    later, air = turned(bodies, empty, hour)
    return run_hours(later, air, start, room_before=before, keep=HOURS).room


def first_winters(room: Room, bodies: Solids, empty: Course, hour: int, years: int) -> list[Hours]:
    """Year by year what the ground takes when a house that stood empty is heated from an hour on."""
    start, before = state_at(bodies, room.air(heated=False), empty, hour)
    later, air = turned(bodies, room.air(), hour)
    found: list[Hours] = []
    for _year in range(years):
        found.append(run_hours(later, air, start, room_before=before, keep=HOURS))
        start, before = found[-1].end, found[-1].last
    return found


def balance(room: Room, bodies: Solids, run: Course) -> Balance:
    """Everything that came in and went out, month by month (J)."""
    gains = {one.name: HOUR * monthly(one.heat) for one in room.gains}
    gains["stove"] = HOUR * monthly(run.heat)
    losses = {one.name: HOUR * monthly(one.conductance * (run.room - one.behind)) for one in room.losses}
    if run.opened.any():
        losses["opened windows"] = HOUR * monthly(run.opened)
    on_solids = sum((one.heat * (1.0 - one.to_air) for one in room.gains), np.zeros(HOURS))
    kept = monthly(room.capacity * np.diff(np.concatenate([run.room[-1:], run.room])))
    for part, solid in enumerate(room.solids):
        taken = HOUR * monthly(heat_into(bodies, part, run.start, run.room))
        if part == 0:
            # Sun that falls on floor and walls warms the room through them: it counts once, as a gain.
            losses[solid.name] = taken + HOUR * monthly(on_solids)
        elif solid.resistance > 0.0:
            losses[solid.name] = taken
        else:
            kept = kept + taken
    losses["kept inside"] = kept
    come, gone = sum(map(np.sum, gains.values())), sum(map(np.sum, losses.values()))
    return Balance(gains=gains, losses=losses, error=float(abs(come - gone) / max(come, 1.0)))
