"""The room by the hour: books that close, refusals, and agreement with finer steps."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.room import (
    Air,
    Burning,
    Layer,
    comfort_band,
    heating_value,
    release_curve,
    run_hours,
    running_mean,
    settled_start,
    solids,
    wall_body,
)

CLAY = Layer(thickness=0.2, conductivity=0.9, heat_capacity=1.7e6)
WOOL = Layer(thickness=0.3, conductivity=0.04, heat_capacity=5e4)


def outdoors(hours: int) -> np.ndarray:
    at = np.arange(hours)
    return 3.0 - 14.0 * np.cos(2 * np.pi * at / 8760) + 5.0 * np.sin(2 * np.pi * at / 24)


def a_room(hours: int = 8760, *, heated: bool = True):
    known = np.stack([outdoors(hours), np.full(hours, 40.0)], axis=1)
    wall = wall_body((CLAY, WOOL), 80.0, inside_film=8.0, outside_film=25.0)
    mass = wall_body((CLAY,), 15.0, inside_film=8.0, outside_film=None)
    bodies = solids([(wall, known), (mass, np.zeros((hours, 1)))])
    air = Air(
        capacity=4e5,
        loss=np.full(hours, 25.0),
        source=25.0 * outdoors(hours) + 200.0,
        set_point=np.full(hours, 20.0 if heated else -273.0),
        power=np.full(hours, 6000.0),
        open_above=26.0,
        open_loss=300.0,
        outdoors=outdoors(hours),
    )
    return bodies, air, (wall, mass)


def test_a_year_begins_as_it_ends_and_its_books_close():
    bodies, air, (wall, _mass) = a_room()
    start, before = settled_start(bodies, air)
    year = run_hours(bodies, air, start, room_before=before)
    face = np.abs(bodies.room_gain * (year.end - start)) / bodies.port
    assert face.max() < 1e-4
    assert year.last == pytest.approx(before, abs=1e-4)
    # In and out of the whole room: heat + free heat + sun on the wall = windows + opened + through the wall.
    given = year.heat.sum() + 200.0 * 8760 + 40.0 * 8760
    windows = (25.0 * (year.room - outdoors(8760))).sum()
    steady = -wall.gain[:, 0] @ (wall.gain[:, 1] / wall.decay)
    through = -steady * (year.room - outdoors(8760)).sum()
    comes_back = (wall.gain[:, 1] @ (wall.gain[:, 2] / wall.decay)) * 40.0 * 8760
    assert given == pytest.approx(windows + year.opened.sum() + through + comes_back, rel=1e-6)


def test_the_thermostat_holds_what_it_can_and_no_more():
    bodies, air, _ = a_room()
    start, before = settled_start(bodies, air)
    year = run_hours(bodies, air, start, room_before=before)
    heating = year.heat > 0
    assert year.room[heating & (year.heat < 6000.0)] == pytest.approx(20.0, abs=1e-9)
    assert year.heat.max() <= 6000.0 + 1e-9
    assert (year.room >= 20.0 - 1e-9)[year.heat < 6000.0].all()


def test_more_heat_capacity_swings_less():
    swings = []
    for area in (1.0, 60.0):
        mass = wall_body((CLAY,), area, inside_film=8.0, outside_film=None)
        bodies = solids([(mass, np.zeros((480, 1)))])
        swing = 20.0 * np.sin(2 * np.pi * np.arange(480) / 24)
        air = Air(
            capacity=1e5, loss=np.full(480, 30.0), source=30.0 * swing, set_point=np.full(480, -273.0),
            power=np.zeros(480),
        )  # fmt: skip
        start, before = settled_start(bodies, air)
        room = run_hours(bodies, air, start, room_before=before).room
        swings.append(room.max() - room.min())
    assert swings[1] < 0.5 * swings[0]


def test_hours_agree_with_a_fine_integration():
    """Against one-minute backward steps of the same room, after two days of heating from cold."""
    bodies, _air, _ = a_room(48)
    at = np.zeros(48)
    air = Air(
        capacity=4e5, loss=np.full(48, 25.0), source=np.full(48, 2500.0), set_point=at - 273.0, power=at
    )
    start = np.zeros(bodies.decay.size)
    coarse = run_hours(bodies, air, start, room_before=0.0).room
    state, room, step = start.copy(), 0.0, 60.0
    shrink = 1.0 / (1.0 + step * bodies.decay)
    fine = []
    for minute in range(48 * 60):
        known = bodies.forcing[minute // 60]
        free = shrink * (state + step * known)
        answer = bodies.room_gain @ (shrink * step * bodies.room_gain)
        inflow = 4e5 / step * room + 2500.0 + bodies.room_gain @ free
        room = inflow / (4e5 / step + 25.0 + bodies.port - answer)
        state = free + shrink * step * bodies.room_gain * room
        fine.append(room)
    means = np.array(fine).reshape(48, 60).mean(axis=1)
    assert np.abs(coarse - means)[3:].max() < 0.06


def test_a_stove_keeps_the_mean_where_it_is_wanted_and_burns_whole_charges():
    bodies, air, _ = a_room()
    start, before = settled_start(bodies, air)
    lightings = np.zeros(8760)
    lightings[7::12] = 1.0
    curve = release_curve(1.1e8, burn=5400.0, direct=0.15, fade=36000.0)
    year = run_hours(
        bodies, air, start, room_before=before, burning=Burning(curve=curve, lightings=lightings)
    )
    winter = slice(0, 59 * 24)
    assert year.room[winter].mean() == pytest.approx(20.0, abs=0.3)
    assert ((year.charges == 0.0) | ((year.charges >= 0.25) & (year.charges <= 1.0))).all()
    assert year.charges[lightings == 0.0].sum() == 0.0
    late = 80 * 1.1e8 / 3600.0  # what the last charges still hold when the year ends
    assert year.heat.sum() == pytest.approx(year.charges.sum() * 1.1e8 / 3600.0, abs=late / 40)


@pytest.mark.parametrize(
    "layer",
    [
        Layer(thickness=0.1, conductivity=650.0, heat_capacity=1e6),
        Layer(thickness=0.1, conductivity=float("nan"), heat_capacity=1e6),
        Layer(thickness=0.0, conductivity=1.0, heat_capacity=1e6),
        Layer(thickness=0.1, conductivity=1.0, heat_capacity=-1.0),
    ],
)
def test_a_wall_that_cannot_be_is_refused(layer):
    with pytest.raises(OutOfRangeError):
        wall_body((layer,), 1.0, inside_film=8.0, outside_film=25.0)


def test_nothing_and_nan_are_refused():
    bodies, air, _ = a_room(24)
    with pytest.raises(OutOfRangeError):
        wall_body((), 1.0, inside_film=8.0, outside_film=None)
    with pytest.raises(OutOfRangeError):
        solids([])
    with pytest.raises(OutOfRangeError):
        run_hours(bodies, air, np.full(bodies.decay.size, np.nan), room_before=10.0)
    with pytest.raises(OutOfRangeError):
        run_hours(bodies, air, np.zeros(bodies.decay.size), room_before=float("nan"))
    holed = Air(
        capacity=1.0, loss=np.full(24, np.nan), source=air.source, set_point=air.set_point, power=air.power
    )
    with pytest.raises(OutOfRangeError):
        run_hours(bodies, holed, np.zeros(bodies.decay.size), room_before=10.0)


@pytest.mark.parametrize("moisture", [-0.1, 0.8, float("nan")])
def test_wood_with_impossible_water_is_refused(moisture):
    with pytest.raises(OutOfRangeError):
        heating_value(moisture, 18.5e6)


def test_a_few_days_are_no_running_mean():
    with pytest.raises(OutOfRangeError):
        running_mean(np.zeros(7))


def test_the_band_of_a_cold_day_is_that_of_heated_rooms():
    low, high = comfort_band(np.array([-20.0, 9.99, 10.0]))
    assert low.tolist() == pytest.approx([20.0, 20.0, 18.1])
    assert high.tolist() == pytest.approx([25.0, 25.0, 25.1])
