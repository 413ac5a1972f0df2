"""Walls as bodies and the room's hours, against ISO 13786, closed forms and hand-worked balances."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fabric import CARSLAW1959, INCROPERA, ISO13786
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.room import (
    Air,
    Body,
    Burning,
    Layer,
    heat_into,
    part_states,
    run_hours,
    settled_start,
    solids,
    surface_temperature,
    wall_answer,
    wall_body,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.handbook.room import Solids

_DAY = 86_400.0
_WAVES = Cite(work=ISO13786, place="matrices of a layered wall, 24 h", provenance=Provenance.DERIVED)
_SLAB = Cite(work=CARSLAW1959, place="chapter 3, slab with film coefficients", provenance=Provenance.DERIVED)
_LUMPED = Cite(work=INCROPERA, place="chapter 5, lumped capacitance", provenance=Provenance.DERIVED)

_CONCRETE = Layer(thickness=0.20, conductivity=1.8, heat_capacity=2400.0 * 1000.0)
_FOAM = Layer(thickness=0.10, conductivity=0.04, heat_capacity=30.0 * 1400.0)
_RENDER = Layer(thickness=0.005, conductivity=1.0, heat_capacity=1200.0 * 1500.0)
_FILMS = {"area": 1.0, "inside_film": 1.0 / 0.13, "outside_film": 1.0 / 0.04}
_BARE = wall_body((_CONCRETE,), **_FILMS)
_OUTSIDE = wall_body((_CONCRETE, _FOAM, _RENDER), **_FILMS)
_INSIDE = wall_body((_RENDER, _FOAM, _CONCRETE), **_FILMS)


def _wave(name: str, body: Body, pick: Callable[[Any], float], expected: str, note: str) -> Row:
    return Row(
        id=f"ISO13786-body-{name}",
        cite=_WAVES,
        kind=Kind.DERIVED,
        call=wall_answer,
        inputs={"body": body, "period": _DAY},
        expected=expected,
        rel=2e-3,
        note=f"{note}; exact layers, the body has finite elements",
        pick=pick,
    )


def _steady(name: str, body: Body, expected: str, note: str) -> Row:
    return Row(
        id=f"ISO13786-body-{name}",
        cite=_WAVES,
        kind=Kind.DERIVED,
        call=wall_answer,
        inputs={"body": body, "period": float("inf")},
        expected=expected,
        note=note,
        pick=lambda answer: float(answer[1].real),
    )


def _lag(answer: Any) -> float:
    return float(np.angle(answer[1]) * 24.0 / (2.0 * np.pi))


# A room whose only solid takes heat and gives it back within seconds: a plain conductance.
_THIN = Layer(thickness=0.01, conductivity=1.0, heat_capacity=0.0)
_HOURS = 48


def _plain_room(conductance: float, outdoors: float, hours: int = _HOURS) -> Solids:
    """1/(1/8 + 0.01 + 1/8) of it a square metre."""
    body = wall_body((_THIN,), conductance * 0.26, inside_film=8.0, outside_film=8.0)
    return solids([(body, np.stack([np.full(hours, outdoors), np.zeros(hours)], axis=1))])


def _air(capacity: float, **given: Any) -> Air:
    rows = {"loss": np.zeros(1), "source": np.zeros(1), "set_point": np.full(1, -273.0), "power": np.zeros(1)}
    return Air(capacity=capacity, **{**rows, **given})


def _still(room: Solids, temperature: float) -> Any:
    """The modes as they are when the solids lie at one temperature that the forcing holds."""
    return (room.forcing[0] + room.room_gain * temperature) / room.decay


def _thick(hours: int) -> Solids:
    """Half of a rammed-earth wall of 0.4 m: nothing passes its middle."""
    earth = Layer(thickness=0.2, conductivity=1.1, heat_capacity=1.9e6)
    body = wall_body((earth,), 1.0, inside_film=8.0, outside_film=None)
    return solids([(body, np.zeros((hours, 1)))])


_COLD = _plain_room(60.0, -20.0)
_WARM = _plain_room(60.0, 0.0)
_WALL = _thick(24)
_ALL_20 = _WALL.room_gain * 20.0 / _WALL.decay
"""The wall at 20 °C throughout."""


def _swinging(days: int = 10) -> Solids:
    """The bare concrete wall under a daily swing of 10 K, its peak inside in the last hour of the day."""
    hours = np.arange(24 * days) + 0.5
    outdoors = 10.0 * np.cos(2.0 * np.pi * (hours + 0.5 + 0.95 + 5.68) / 24.0)
    return solids([(_BARE, np.stack([outdoors, np.zeros(hours.size)], axis=1))])


_SWING = _swinging()


def _slow_day() -> Solids:
    """The wall with foam outside under a day of 5 °C and a swing of 10 K, its peak inside at the end."""
    hours = np.arange(24) + 0.5
    outdoors = 5.0 + 10.0 * np.cos(2.0 * np.pi * (hours + 0.5 + 0.85 + 8.11) / 24.0)
    return solids([(_OUTSIDE, np.stack([outdoors, np.zeros(24)], axis=1))])


_SLOW = _slow_day()
_STEADY = {"set_point": np.full(_HOURS, 20.0), "power": np.full(_HOURS, 1e5)}
_LIT = np.zeros(_HOURS)
_LIT[[0, 24]] = 1.0
_BATCH = Burning(curve=np.array([1000.0, 500.0]), lightings=_LIT)
_HALF_DAYS = np.zeros(_HOURS)
_HALF_DAYS[::12] = 1.0
_LONG = Burning(curve=np.full(24, 1000.0), lightings=_HALF_DAYS)
_TWICE = Burning(curve=np.full(24, 4000.0), lightings=_LIT)
_LOW = Burning(curve=np.full(24, 40_000.0), lightings=_LIT)


def _room(  # noqa: PLR0913  (one row of the table below, in the order of its columns)
    name: str, room: Solids, air: Air, start: float, pick: Callable[[Any], float], expected: str, note: str,
    *, burning: Burning | None = None, rel: float | None = None,
) -> Row:  # fmt: skip
    return Row(
        id=f"INCROPERA-room-{name}",
        cite=_LUMPED,
        kind=Kind.DERIVED,
        call=run_hours,
        inputs={
            "bodies": room,
            "air": air,
            "start": _still(room, start),
            "room_before": start,
            "burning": burning,
            "keep": 24,
        },
        expected=expected,
        note=note,
        pick=pick,
        rel=rel,
    )


_STEPS = "steps of an hour, backward: "
ROWS: tuple[Row, ...] = (
    _steady("bare-steady", _BARE, "3.5573", "1/(0.13 + 0.2/1.8 + 0.04)"),
    _steady("foam-steady", _OUTSIDE, "0.3589", "1/(0.13 + 0.11111 + 2.5 + 0.005 + 0.04)"),
    _wave("bare-y11", _BARE, lambda answer: abs(answer[0]), "5.704", "Y11"),
    _wave("bare-y12", _BARE, lambda answer: abs(answer[1]), "1.8271", "Y12"),
    _wave("bare-lag", _BARE, _lag, "-5.68", "shift of Y12, h"),
    _wave("foam-y11", _OUTSIDE, lambda answer: abs(answer[0]), "5.942", "Y11"),
    _wave("foam-y12", _OUTSIDE, lambda answer: abs(answer[1]), "0.0606", "Y12"),
    _wave("foam-lag", _OUTSIDE, _lag, "-8.11", "shift of Y12, h"),
    _wave("inside-y12", _INSIDE, lambda answer: abs(answer[1]), "0.1182", "Y12, insulation inside"),
    _room(
        "cools",
        _COLD,
        _air(20.0e6),
        20.0,
        lambda hours: float(hours.room[11]),
        "15.162",
        _STEPS + "40·(1 + 60·3600/20e6)^(−12) − 20; continuous 15.14",
        rel=2e-4,
    ),
    _room(
        "holds",
        _COLD,
        _air(20.0e6, **_STEADY),
        20.0,
        lambda hours: float(hours.heat[5]),
        "2400.0",
        "60·(20 + 20)",
        rel=1e-5,
    ),
    _room(
        "loses-more",
        _WARM,
        _air(20.0e6, **_STEADY, loss=np.full(_HOURS, 10.0), source=np.full(_HOURS, 50.0)),
        20.0,
        lambda hours: float(hours.heat[5]),
        "1350.0",
        "60·20 + 10·20 − 50",
        rel=1e-5,
    ),
    _room(
        "too-weak",
        _WARM,
        _air(1e5, set_point=np.full(_HOURS, 20.0), power=np.full(_HOURS, 900.0)),
        15.0,
        lambda hours: float(hours.room[-1]),
        "15.0",
        "900/60",
        rel=1e-5,
    ),
    _room(
        "opens",
        _WARM,
        _air(
            1e5,
            source=np.full(_HOURS, 3000.0),
            open_above=26.0,
            open_loss=1000.0,
            outdoors=np.full(_HOURS, 6.0),
        ),
        26.0,
        lambda hours: float(hours.opened[-1]),
        "1440.0",
        "3000 − 60·26, as much is opened as needed",
        rel=1e-5,
    ),
    _room(
        "opens-all",
        _WARM,
        _air(
            1e5,
            source=np.full(_HOURS, 3000.0),
            open_above=26.0,
            open_loss=40.0,
            outdoors=np.full(_HOURS, 6.0),
        ),
        26.0,
        lambda hours: float(hours.room[-1]),
        "32.4",
        "(3000 + 40·6)/(60 + 40)",
        rel=1e-5,
    ),
    _room(
        "hotter-outside",
        _WARM,
        _air(
            1e5,
            source=np.full(_HOURS, 1800.0),
            open_above=26.0,
            open_loss=40.0,
            outdoors=np.full(_HOURS, 30.0),
        ),
        26.0,
        lambda hours: float(hours.room[-1]),
        "30.0",
        "1800/60: opening would not cool",
        rel=1e-5,
    ),
    _room(
        "batch",
        _WARM,
        _air(36e3, set_point=np.full(_HOURS, 20.0)),
        0.0,
        lambda hours: float(hours.room[1]),
        "9.184",
        "10 W/K hold it: 1000/70, then (10·14.286 + 500)/70; the faces hold a little too",
        burning=_BATCH,
        rel=0.015,
    ),
    _room(
        "batch-heat",
        _WARM,
        _air(36e3, set_point=np.full(_HOURS, 20.0)),
        0.0,
        lambda hours: float(hours.heat.sum()),
        "3000.0",
        "two full charges of 1500 Wh",
        burning=_BATCH,
    ),
    _room(
        "part-charge",
        _WARM,
        _air(36e3, set_point=np.full(_HOURS, 20.0)),
        20.0,
        lambda hours: float(hours.charges[24]),
        "0.300",
        "mean of a day: 20 = 20/144 + f·(4000/60)·(1 − 1/144)",
        burning=_TWICE,
        rel=0.004,
    ),
    _room(
        "not-worth-it",
        _WARM,
        _air(36e3, set_point=np.full(_HOURS, 20.0)),
        20.0,
        lambda hours: float(hours.charges.sum()),
        "0.0",
        "0.03 of a charge would do; under 0.25 none is lit",
        burning=_LOW,
    ),
    _room(
        "overlap",
        _WARM,
        _air(
            36e2, set_point=np.full(_HOURS, 20.0), loss=np.full(_HOURS, 15.0), source=np.full(_HOURS, 150.0)
        ),
        15.333,
        lambda hours: float(hours.charges[12]),
        "0.35",
        "what still comes gives (1000 + 150)/75 = 15.33; 4.667 are missing, a charge gives 13.333",
        burning=_LONG,
        rel=0.01,
    ),
    _room(
        "least-fire",
        _WARM,
        _air(
            36e2, set_point=np.full(_HOURS, 5.3667), loss=np.full(_HOURS, 15.0), source=np.full(_HOURS, 150.0)
        ),
        2.0,
        lambda hours: float(hours.charges[0]),
        "0.2525",
        "150/75 = 2; 3.3667 are missing, a charge gives 13.333: just over a quarter, and so it is lit",
        burning=_LONG,
        rel=0.004,
    ),
    _room(
        "one-day-ahead",
        _WARM,
        _air(
            36e2, set_point=np.full(_HOURS, 10.0), loss=np.full(_HOURS, 15.0), source=np.full(_HOURS, 150.0)
        ),
        2.0,
        lambda hours: float(hours.charges[0]),
        "0.600",
        "8 K are missing, a charge gives 13.333 for a day; no further is looked although no other fire comes",
        burning=Burning(curve=np.full(24, 1000.0), lightings=np.eye(1, _HOURS)[0]),
        rel=0.01,
    ),
    Row(
        id="INCROPERA-room-weeks-kept",
        cite=_LUMPED,
        kind=Kind.DERIVED,
        call=run_hours,
        inputs={
            "bodies": _plain_room(60.0, 0.0, 340),
            "air": _air(36e2),
            "start": _still(_WARM, 0.0),
            "room_before": 0.0,
        },
        expected="2",
        note="340 hours hold two weeks of 168; the state is kept at the end of each",
        pick=lambda hours: float(hours.kept.shape[0]),
    ),
    *(
        Row(
            id=f"CARSLAW1959-rammed-earth-{hours}",
            cite=_SLAB,
            kind=Kind.DERIVED,
            call=run_hours,
            inputs={
                "bodies": _thick(hours),
                "air": _air(1.0, loss=np.full(hours, 1e7)),
                "start": _ALL_20,
                "room_before": 0.0,
                "keep": hours,
            },
            expected=expected,
            unit="degC",
            pick=lambda found: float(found.kept[-1] @ _WALL.room_gain / _WALL.port),
            rel=0.004,
            note="series for a slab of 0.4 m from 20 °C into air of 0 °C, k 1.1, h 8: its face",
        )
        for hours, expected in ((6, "9.599"), (12, "7.062"), (24, "3.880"), (48, "1.171"))
    ),
    Row(
        id="ISO13786-settled-swing",
        cite=_WAVES,
        kind=Kind.DERIVED,
        call=settled_start,
        inputs={
            "bodies": _SWING,
            "air": _air(1.0, set_point=np.full(240, -273.0)),
            "guess": 3.0,
        },
        expected="3.203",
        rel=0.01,
        note="a room that loses to one wall alone swings by |Y12/Y11|·10 K = 10·1.8271/5.704",
        pick=lambda found: float(found[1]),
    ),
    Row(
        id="INCROPERA-face",
        cite=_LUMPED,
        kind=Kind.DERIVED,
        call=surface_temperature,
        inputs={"bodies": _WALL, "part": 0, "state": _ALL_20},
        expected="20.000",
        note="a wall at one temperature has a face of that temperature",
    ),
    Row(
        id="INCROPERA-holds",
        cite=_LUMPED,
        kind=Kind.DERIVED,
        call=wall_body,
        inputs={"layers": (_CONCRETE, _FOAM), "area": 2.0, "inside_film": 8.0, "outside_film": 25.0},
        expected="968400",
        note="2·(0.2·2.4e6 + 0.1·42e3)",
        pick=lambda body: body.stores,
    ),
    Row(
        id="INCROPERA-skin",
        cite=_LUMPED,
        kind=Kind.DERIVED,
        call=wall_body,
        inputs={"layers": (_THIN,), "area": 3.0, "inside_film": 8.0, "outside_film": 25.0},
        expected="600",
        note="a layer without capacity: two faces of 100 J/m2K",
        pick=lambda body: body.stores,
    ),
    *(
        Row(
            id=f"ISO13786-made-{name}",
            cite=_WAVES,
            kind=Kind.DERIVED,
            call=wall_body,
            inputs={"layers": (_CONCRETE, _FOAM, _RENDER), **_FILMS},
            expected=expected,
            rel=2e-3,
            note=note,
            pick=pick,
        )
        for name, pick, expected, note in (
            ("steady", lambda body: wall_answer(body, np.inf)[1].real, "0.3589", "1/2.78611"),
            ("y11", lambda body: abs(wall_answer(body, _DAY)[0]), "5.942", "Y11, exact layers"),
            ("y12", lambda body: abs(wall_answer(body, _DAY)[1]), "0.0606", "Y12, exact layers"),
            (
                "sun",
                lambda body: wall_answer(body, np.inf)[2].real,
                "0.95334",
                "2.65611/2.78611 of it comes in",
            ),
        )
    ),
    Row(
        id="ISO13786-settled-slow",
        cite=_WAVES,
        kind=Kind.DERIVED,
        call=settled_start,
        inputs={"bodies": _SLOW, "air": _air(1.0, set_point=np.full(24, -273.0)), "guess": 15.0},
        expected="5.102",
        rel=1e-3,
        note="5 + 10·0.0606/5.942 after one day that repeats itself; the wall itself needs weeks",
        pick=lambda found: float(found[1]),
    ),
    Row(
        id="INCROPERA-ports",
        cite=_LUMPED,
        kind=Kind.DERIVED,
        call=solids,
        inputs={
            "bodies": (
                (_BARE, np.zeros((3, 2))),
                (wall_body((_CONCRETE,), 3.0, inside_film=5.0, outside_film=None), np.zeros((3, 1))),
            )
        },
        expected="22.6923",
        note="1/0.13 + 3·5",
        pick=lambda found: found.port,
    ),
    Row(
        id="CARSLAW1959-into-earth",
        cite=_SLAB,
        kind=Kind.DERIVED,
        call=heat_into,
        inputs={"bodies": _WALL, "part": 0, "start": _ALL_20, "room": np.zeros(24)},
        expected="-62.044",
        rel=0.001,
        note="0.2·1.9e6·(20 − 5.8932)/86 400 s: the series for the mean of a slab of 0.4 m from 20 °C in air "
        "of 0 °C after 24 h",
        pick=lambda found: float(found.mean()),
    ),
    Row(
        id="CARSLAW1959-state-of-earth",
        cite=_SLAB,
        kind=Kind.DERIVED,
        call=part_states,
        inputs={"bodies": _WALL, "part": 0, "start": _ALL_20, "room": np.zeros(24)},
        expected="3.880",
        rel=0.004,
        note="series for a slab of 0.4 m from 20 °C into air of 0 °C: its face after 24 h",
        pick=lambda states: float(states[-1] @ _WALL.room_gain / _WALL.port),
    ),
    Row(
        id="CARSLAW1959-out-of-the-room",
        cite=_SLAB,
        kind=Kind.DERIVED,
        call=heat_into,
        inputs={"bodies": _WALL, "part": 0, "start": np.zeros(_ALL_20.size), "room": np.full(24, 20.0)},
        expected="62.044",
        rel=0.001,
        note="the same slab from 0 °C in a room of 20 °C takes as much",
        pick=lambda found: float(found.mean()),
    ),
)
