"""The small model against the whole section, years that repeat, cold starts, and bad input."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.groundheat import (
    Conduction,
    Drive,
    Node,
    Reduced,
    Section,
    error_of,
    periodic_year,
    reduce_family,
    reduce_model,
    run_years,
    snow_loss,
    steady,
    step_weights,
)
from bermwright.handbook.groundheat import year as year_module

HOURS = 24 * 40
HOUR = np.arange(HOURS)
AIR = 2.0 - 8.0 * np.cos(2.0 * np.pi * HOUR / HOURS) + 4.0 * np.sin(2.0 * np.pi * HOUR / 24.0)
SUN = np.maximum(np.sin(2.0 * np.pi * (HOUR - 6) / 24.0), 0.0) * 150.0
ROOM = Node(port="room", capacity=2e4, loss=4.0, outside=AIR, gains=20.0, set_point=18.0, power=300.0)


def drive(*nodes: Node, **given: float) -> Drive:
    return Drive(given={"deep": 5.0, "roof": AIR} | given, sources={"floor": SUN}, nodes=nodes or (ROOM,))


def test_the_model_says_how_far_it_lies_and_more_shifts_bring_it_nearer(full: Conduction) -> None:
    few, many = reduce_model(full, shifts=6).error, reduce_model(full, shifts=18).error
    assert many.temperature < 0.02 < few.temperature
    assert many.flow < few.flow
    assert "K at the watched points" in str(many)


def test_an_even_temperature_stays_in_the_small_model(model: Reduced) -> None:
    still = periodic_year(model, Drive(given=dict.fromkeys(model.full.ports, 11.0)))
    assert np.allclose(still.field(0), 11.0, atol=1e-6)
    assert max(np.abs(flow).max() for flow in still.flow.values()) < 1e-6


def test_a_steady_drive_gives_the_steady_state(model: Reduced) -> None:
    held = {"room": 20.0, "roof": -5.0, "deep": 5.0}
    course, still = periodic_year(model, Drive(given=held)), steady(model.full, held)
    for port in held:
        assert course.flow[port][0] == pytest.approx(still.flow[port], abs=1e-4)
    assert np.abs(course.field(0) - still.temperature).max() < 0.01


def test_the_whole_section_marched_in_small_steps_agrees(model: Reduced) -> None:
    """Backward Euler in steps of a minute over two days; the room follows its own balance."""
    from scipy import sparse
    from scipy.sparse.linalg import splu

    full, parts, hours = model.full, 60, 48
    course = periodic_year(model, drive())
    first, step = 200, 3600.0 / parts
    marks = first + np.arange(hours * parts + 1) / parts
    air, sun = np.interp(marks, HOUR, AIR), np.interp(marks, HOUR, SUN)
    solve = splu((full.stiffness + sparse.diags(full.capacity / step)).tocsc()).solve
    room, roof, deep = (full.films[:, full.ports.index(name)] for name in ("room", "roof", "deep"))
    echo = solve(room)
    warm, inside = course.field(first), course.air["room"][first]
    worst = 0.0
    for at in range(hours * parts):
        load = full.capacity / step * warm + deep * 5.0 + roof * air[at + 1] + full.shares[:, 0] * sun[at + 1]
        free = solve(load)
        tie = ROOM.capacity / step + 4.0 + room.sum() - room @ echo
        brings = ROOM.capacity / step * inside + 4.0 * air[at + 1] + 20.0 + room @ free
        inside = brings / tie
        if inside < 18.0:
            inside = min(18.0, (brings + 300.0) / tie)
        warm = free + echo * inside
        if (at + 1) % parts == 0:
            mark = first + (at + 1) // parts
            seen = np.array([course.watch[name][mark] for name in full.watched])
            worst = max(
                worst, abs(inside - course.air["room"][mark]), np.abs(full.looking @ warm - seen).max()
            )
    assert worst < 0.05


def test_the_end_of_the_year_meets_its_start_and_no_heat_is_lost(model: Reduced) -> None:
    snow = Node(port="roof", loss=snow_loss(14.0, np.where(HOUR > 500, 0.3, 0.0), 0.15), outside=AIR)
    for nodes in ((ROOM,), (ROOM, snow), (Node(port="room", loss=3.0, outside=AIR),), (Node(port="room"),)):
        given = {"deep": 5.0} if len(nodes) == 2 else {"deep": 5.0, "roof": AIR}
        year = periodic_year(model, Drive(given=given, sources={"floor": SUN}, nodes=nodes))
        assert year.drift < 1e-3
        assert year.balance < 1e-6
        again = run_years(model, Drive(given=given, sources={"floor": SUN}, nodes=nodes), start=year.state(0))
        assert np.abs(again.air["room"] - year.air["room"]).max() < 1e-3


def test_a_march_that_loses_heat_on_its_way_is_seen_in_the_balance(
    model: Reduced, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is no identity of the model: states that were stepped wrongly leave heat over."""
    modes = year_module.modes_of

    def leaking(*given: object) -> object:
        made = modes(*given)  # type: ignore[arg-type]
        return made._replace(keep=made.keep * (1.0 - 1e-4))

    whole = run_years(model, drive(), start=9.0)
    monkeypatch.setattr(year_module, "modes_of", leaking)
    lost = run_years(model, drive(), start=9.0)
    assert whole.balance < 1e-9
    assert lost.balance > 1e-3


def test_without_states_the_balance_is_not_known(model: Reduced) -> None:
    assert np.isnan(periodic_year(model, drive(), states=False).balance)


def test_the_balance_of_the_room_closes_at_every_mark(model: Reduced) -> None:
    year = periodic_year(model, drive())
    air, heat = year.air["room"], year.heat["room"]
    stored = ROOM.capacity / 3600.0 * (1.5 * air - 2.0 * np.roll(air, 1) + 0.5 * np.roll(air, 2))
    rest = 4.0 * (AIR - air) + 20.0 + heat - year.flow["room"] - stored
    assert np.abs(rest).max() < 1e-8


def test_heating_keeps_the_set_point_gives_no_more_than_it_can_and_says_what_is_missing(
    model: Reduced,
) -> None:
    year = periodic_year(model, drive())
    air, heat, unmet = year.air["room"], year.heat["room"], year.unmet["room"]
    assert heat.max() <= 300.0
    assert heat.min() >= 0.0
    assert np.all((air >= 18.0 - 1e-6) | (heat >= 300.0 - 1e-6))
    assert np.allclose(unmet, np.maximum(18.0 - air, 0.0))
    assert np.all((heat == 0.0) | (air <= 18.0 + 1e-6))
    weak = periodic_year(model, drive(Node(port="room", loss=4.0, outside=AIR, set_point=18.0, power=30.0)))
    assert weak.unmet["room"].max() > 1.0
    assert weak.heat["room"].max() == pytest.approx(30.0)


def test_without_states_the_air_is_the_same(model: Reduced) -> None:
    whole, short = periodic_year(model, drive()), periodic_year(model, drive(), states=False)
    assert np.allclose(whole.air["room"], short.air["room"], atol=1e-3)
    assert np.allclose(whole.heat["room"], short.heat["room"], atol=0.05)
    assert short.states.size == 0
    assert all(one.size == 0 for one in short.flow.values())


def test_the_first_winters_of_a_cold_start_need_more_and_come_to_the_repeating_year(model: Reduced) -> None:
    heated = Node(port="room", loss=4.0, outside=AIR, set_point=18.0)
    year = periodic_year(model, drive(heated))
    cold = run_years(model, drive(heated), start=4.0, years=60 // 10 * 8)
    heat = cold.heat["room"].reshape(-1, HOURS).sum(axis=1)
    assert np.all(np.diff(heat[1:]) <= 1e-6)
    assert heat[1] > year.heat["room"].sum()
    assert heat[-1] == pytest.approx(year.heat["room"].sum(), rel=0.002)
    assert cold.watch["soil"][0] == pytest.approx(4.0, abs=0.01)
    assert cold.balance < 1e-6


def test_a_start_may_give_each_port_its_temperature(model: Reduced) -> None:
    held = {"room": 15.0, "roof": 0.0, "deep": 6.0}
    course = run_years(model, drive(), start=held, marks=5)
    assert course.watch["soil"][0] == pytest.approx(steady(model.full, held).watch["soil"], abs=0.01)
    assert len(course.air["room"]) == 5


def test_a_family_agrees_with_the_model_of_one_choice(full: Conduction, section: Section) -> None:
    family = reduce_family(full.mesh, section, {"soil": (1.0, 2.5), "foam": (0.025, 0.05)})
    one = family.at({"soil": 1.3, "foam": 0.04})
    alone = reduce_model(one.full)
    here, there = periodic_year(one, drive()), periodic_year(alone, drive())
    assert max(np.abs(here.watch[name] - there.watch[name]).max() for name in here.watch) < 0.1
    assert here.heat["room"].sum() == pytest.approx(there.heat["room"].sum(), rel=1e-4)
    assert error_of(one).temperature < 0.5
    with pytest.raises(OutOfRangeError, match="conductivity of foam"):
        family.at({"soil": 1.3, "foam": 0.5})
    with pytest.raises(OutOfRangeError, match="No conductivity is given for foam"):
        family.at({"soil": 1.3})
    with pytest.raises(OutOfRangeError, match="No region is made of cork"):
        reduce_family(full.mesh, section, {"cork": (0.03, 0.06)})


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        (Drive(given={"deep": 5.0, "roof": AIR}), "No temperature and no node is given for room"),
        (Drive(given={"deep": 5.0, "roof": AIR, "room": 1.0, "cellar": 3.0}), "cellar: this section"),
        (Drive(given={"deep": 5.0, "roof": AIR, "room": AIR[:-1]}), "different lengths"),
        (Drive(given={"deep": 5.0, "roof": AIR * np.nan, "room": 2.0}), "temperature of roof is nan"),
        (Drive(given={"deep": 500.0, "roof": AIR, "room": 2.0}), "temperature of deep is 500"),
        (Drive(given={"deep": 5.0, "roof": AIR, "room": 2.0}, sources={"lamp": 1.0}), "lamp: this section"),
        (Drive(given={"deep": 5.0, "roof": AIR, "room": 2.0}, nodes=(ROOM,)), "given twice"),
        (Drive(given={"deep": 5.0, "roof": AIR}, nodes=(Node(port="room", loss=-1.0),)), "loss of room"),
        (Drive(given={"deep": 5.0, "roof": AIR}, nodes=(Node(port="room", gains=np.nan),)), "gains of room"),
        (Drive(given={"deep": 5.0, "roof": AIR}, nodes=(Node(port="room", power=np.nan),)), "power of room"),
        (Drive(given={"deep": 5.0, "roof": AIR, "room": 2.0}, step=0.0), "step is 0"),
    ],
)
def test_a_drive_that_cannot_be_is_refused(model: Reduced, changed: Drive, says: str) -> None:
    with pytest.raises(OutOfRangeError, match=says):
        periodic_year(model, changed)


def test_the_weights_of_a_step_add_up_to_what_a_held_input_gives() -> None:
    decay = np.geomspace(1e-9, 1.0, 30)
    before, after = step_weights(decay, 3600.0)
    assert np.allclose(before + after, -np.expm1(-decay * 3600.0) / decay)
    assert np.allclose((before, after)[0][0], 1800.0, rtol=1e-4)
    with pytest.raises(OutOfRangeError, match="decay"):
        step_weights(0.0, 3600.0)


@pytest.mark.parametrize(
    "wrong", [{"length": 0.0}, {"depth": -0.1}, {"conductivity": 5.0}, {"depth": np.nan}]
)
def test_snow_that_cannot_be_is_refused(wrong: dict[str, float]) -> None:
    with pytest.raises(OutOfRangeError):
        snow_loss(**({"length": 10.0, "depth": 0.2, "conductivity": 0.2} | wrong))
