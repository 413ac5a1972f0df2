"""Comfort, warmth of people and animals, against the standards' own tables and hand-worked values."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.fabric import EN16798
from bermwright.data.works.room import CIGR1984, ISO7730
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.room import (
    adaptive_comfort,
    animal_warmth,
    comfort_band,
    comfort_vote,
    operative_temperature,
    person_warmth,
    running_mean,
    share_uneasy,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

_TABLE = Cite(work=ISO7730, place="table D.1", provenance=Provenance.MEMORY)
_EQUATION = Cite(work=ISO7730, place="equations 1 to 5", provenance=Provenance.DERIVED)
_ADAPTIVE = Cite(work=EN16798, place="adaptive comfort, category II", provenance=Provenance.MEMORY)
_HAND = Cite(work=EN16798, place="adaptive comfort, category II", provenance=Provenance.DERIVED)
_ANIMALS = Cite(work=CIGR1984, place="total heat and dry share", provenance=Provenance.DERIVED)
_STOPS_EARLY = "the program printed in the standard stops its iteration early; solved to the end it gives {}"


def _pressure(air: float, humidity: float) -> float:
    """Vapour pressure as the program of the standard has it (Pa)."""
    return humidity * 1000.0 * float(np.exp(16.6536 - 4030.183 / (air + 235.0)))


def _vote(
    name: str,
    room: tuple[float, float, float, float],
    body: tuple[float, float],
    expected: str,
    solved: str = "",
) -> Row:
    air, radiant, speed, humidity = room
    return Row(
        id=f"ISO7730-{name}",
        cite=_TABLE,
        kind=Kind.PUBLISHED,
        call=comfort_vote,
        inputs={
            "air": air,
            "radiant": radiant,
            "speed": speed,
            "vapour_pressure": _pressure(air, humidity),
            "activity": body[0],
            "clothing": body[1],
        },
        expected=expected,
        rel=0.02 if solved else None,
        note=_STOPS_EARLY.format(solved) if solved else "",
    )


def _hand(
    name: str, call: Any, inputs: Mapping[str, Any], expected: str, note: str, cite: Cite = _EQUATION,
    pick: Any = float,
) -> Row:  # fmt: skip
    return Row(
        id=f"{cite.work.key}-{name}",
        cite=cite,
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        note=note,
        pick=pick,
    )


_MONTH = np.concatenate([np.zeros(29), np.full(1, 10.0)])
_SPELL = np.concatenate([np.zeros(120), np.full(20, 10.0)])

ROWS: tuple[Row, ...] = (
    _vote("d1-1", (22.0, 22.0, 0.1, 0.6), (1.2, 0.5), "-0.75"),
    _vote("d1-2", (27.0, 27.0, 0.1, 0.6), (1.2, 0.5), "0.77", "0.764"),
    _vote("d1-3", (27.0, 27.0, 0.3, 0.6), (1.2, 0.5), "0.44", "0.433"),
    _vote("d1-4", (23.5, 25.5, 0.1, 0.6), (1.2, 0.5), "-0.01"),
    _vote("d1-7", (19.0, 19.0, 0.1, 0.4), (1.2, 1.0), "-0.60"),
    _vote("d1-9", (23.5, 23.5, 0.3, 0.4), (1.2, 1.0), "0.12"),
    _vote("d1-10", (23.0, 21.0, 0.1, 0.4), (1.2, 1.0), "0.05"),
    _vote("d1-12", (22.0, 22.0, 0.1, 0.6), (1.6, 0.5), "0.05"),
    _vote("d1-13", (27.0, 27.0, 0.1, 0.6), (1.6, 0.5), "1.17"),
    _hand(
        "bare",
        comfort_vote,
        {
            "air": 29.0,
            "radiant": 29.0,
            "speed": 0.3,
            "vapour_pressure": 2000.0,
            "activity": 1.0,
            "clothing": 0.0,
        },
        "-0.81885",
        "skin 35.7 − 0.028·58.15 = 34.0718 °C, film 12.1·√0.3 = 6.6274, radiation 3.96e-8·(307.0718⁴ − 302⁴) "
        "= 22.691, convection 33.613, skin moisture 10.146, breath 3.823, dry breath 0.407, no sweat; "
        "M − all = −12.530, times 0.303·e^(−2.0934) + 0.028 = 0.06535",
    ),
    _hand(
        "thick-clothes",
        comfort_vote,
        {
            "air": 16.0,
            "radiant": 14.0,
            "speed": 0.05,
            "vapour_pressure": 700.0,
            "activity": 1.2,
            "clothing": 1.5,
        },
        "-0.600711",
        "equations 1 to 4, the clothes' surface solved by halving an interval two hundred times",
    ),
    _hand(
        "just-over-light",
        comfort_vote,
        {
            "air": 16.0,
            "radiant": 14.0,
            "speed": 0.05,
            "vapour_pressure": 700.0,
            "activity": 1.2,
            "clothing": 0.51,
        },
        "-2.919922",
        "as thick clothes; 0.51·0.155 is just over the 0.078 at which the factor of clothed area changes",
    ),
    _hand(
        "still-air",
        comfort_vote,
        {
            "air": 18.0,
            "radiant": 16.0,
            "speed": 0.0,
            "vapour_pressure": 800.0,
            "activity": 1.0,
            "clothing": 0.3,
        },
        "-4.546048",
        "equations 1 to 4, the clothes' surface solved by halving an interval two hundred times",
    ),
    _hand(
        "working-in-sun",
        comfort_vote,
        {
            "air": 24.0,
            "radiant": 30.0,
            "speed": 0.2,
            "vapour_pressure": 1500.0,
            "activity": 2.0,
            "clothing": 0.2,
        },
        "0.866119",
        "equations 1 to 4, the clothes' surface solved by halving an interval two hundred times",
    ),
    _hand("uneasy-neutral", share_uneasy, {"vote": 0.0}, "0.05", "1 − 0.95"),
    _hand("uneasy-half", share_uneasy, {"vote": 0.5}, "0.10225", "1 − 0.95·e^(−0.002096 − 0.054475)"),
    _hand("uneasy-two", share_uneasy, {"vote": 2.0}, "0.767618", "1 − 0.95·e^(−0.53648 − 0.8716)"),
    _hand("operative", operative_temperature, {"air": 20.0, "radiant": 16.0}, "18.0", "(20 + 16)/2"),
    _hand(
        "sitting",
        person_warmth,
        {"activity": 1.2, "vapour_pressure": 1200.0},
        "84.6",
        "1.8·(69.78 − [3.05e-3·(5733 − 487.762 − 1200) + 0.42·11.63 + 1.7e-5·69.78·4667])",
    ),
    _hand(
        "asleep",
        person_warmth,
        {"activity": 0.8, "vapour_pressure": 1000.0, "body": 1.0},
        "29.2271",
        "46.52 − [3.05e-3·(5733 − 325.1748 − 1000) + 1.7e-5·46.52·4867], below 1 met nobody sweats",
    ),
    _hand("adaptive-20", adaptive_comfort, {"running": 20.0}, "25.40", "0.33·20 + 18.8", _ADAPTIVE),
    _hand("adaptive-10", adaptive_comfort, {"running": 10.0}, "22.10", "0.33·10 + 18.8", _ADAPTIVE),
    _hand("band-low", comfort_band, {"running": 20.0}, "21.40", "25.40 − 4", _HAND, lambda band: band[0]),
    _hand("band-high", comfort_band, {"running": 20.0}, "28.40", "25.40 + 3", _HAND, lambda band: band[1]),
    _hand("cold-low", comfort_band, {"running": 3.0}, "20.0", "heated", _HAND, lambda band: band[0]),
    _hand("cold-high", comfort_band, {"running": 3.0}, "25.0", "heated", _HAND, lambda band: band[1]),
    _hand("band-hot", comfort_band, {"running": 35.0}, "31.70", "28.70 + 3", _HAND, lambda band: band[1]),
    _hand("band-edge", comfort_band, {"running": 10.0}, "18.10", "22.10 − 4", _HAND, lambda band: band[0]),
    _hand(
        "running-first",
        running_mean,
        {"daily": _SPELL},
        "2.0",
        "0.2·10 after a hundred days of 0",
        _HAND,
        lambda days: days[121],
    ),
    _hand(
        "running-third",
        running_mean,
        {"daily": _SPELL},
        "4.880",
        "10·(1 − 0.8³)",
        _HAND,
        lambda days: days[123],
    ),
    _hand(
        "sheep",
        animal_warmth,
        {"mass": 60.0, "coefficient": 6.4, "air": 20.0},
        "89.703",
        "6.4·21.5587·(0.8 − 0.14985)",
        _ANIMALS,
    ),
    _hand(
        "cow",
        animal_warmth,
        {"mass": 500.0, "coefficient": 5.6, "air": 10.0},
        "474.422",
        "5.6·105.737·(0.8 − 0.0296)·(1 + 0.04)",
        _ANIMALS,
    ),
    _hand(
        "running-month",
        running_mean,
        {"daily": _MONTH},
        "2.00248",
        "2/(1 − 0.8³⁰): the month repeats itself",
        _HAND,
        lambda days: days[0],
    ),
)
