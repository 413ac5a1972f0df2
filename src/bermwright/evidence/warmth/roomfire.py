"""Firewood against published tables, and the release of a stove against its closed form."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.base.sources import Cite, Provenance
from bermwright.data.firewood import FIREWOOD
from bermwright.data.works.fabric import INCROPERA
from bermwright.data.works.room import BOILERMANUAL, COTTAGEWOOD, ENISO17225
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.room import (
    charge_heat,
    dry_heating_value,
    heating_value,
    mean_output,
    release_curve,
    released,
    stack_volume,
    stacked_heat,
    water_in_dry_terms,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

_KWH = 3.6e6
_HOUR = 3600.0
_FORM = Cite(work=ENISO17225, place="net heating value as received", provenance=Provenance.DERIVED)
_TABLE = Cite(work=BOILERMANUAL, place="page 69", provenance=Provenance.READ)
_FINNISH = Cite(work=COTTAGEWOOD, place="energy of a stacked cubic metre", provenance=Provenance.READ)
_STORE = Cite(work=INCROPERA, place="chapter 5, lumped capacitance", provenance=Provenance.DERIVED)


def _derived(  # noqa: PLR0913  (one row of the table below, in the order of its columns)
    name: str, call: Callable[..., Any], inputs: Mapping[str, Any], expected: str, note: str, *,
    unit: str = "", cite: Cite = _FORM, pick: Any = float,
) -> Row:  # fmt: skip
    return Row(
        id=f"{cite.work.key}-{name}",
        cite=cite,
        kind=Kind.DERIVED,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        note=note,
        pick=pick,
    )


def _wet(name: str, expected: str) -> Row:
    """Heating value at 30 % water, out of that at 15 %."""
    dry = float(dry_heating_value(FIREWOOD[name].value, 0.15))
    return Row(
        id=f"BOILERMANUAL-{name}-30",
        cite=_TABLE,
        kind=Kind.PUBLISHED,
        call=heating_value,
        inputs={"moisture": 0.30, "dry": dry},
        expected=expected,
        unit="kWh/kg",
        rel=0.015,
        note="from the same table's value at 15 % water; the table is rounded",
    )


def _stack(name: str, moisture: float, expected: str, *, cite: Cite = _TABLE, rel: float = 0.02) -> Row:
    wood = FIREWOOD[name]
    return Row(
        id=f"{cite.work.key}-{name}-stack-{moisture * 100:.0f}",
        cite=cite,
        kind=Kind.PUBLISHED,
        call=stacked_heat,
        inputs={
            "dry_mass": wood.dry_mass,
            "moisture": moisture,
            "dry": float(dry_heating_value(wood.value, 0.15)),
        },
        expected=expected,
        unit="kWh/m3",
        rel=rel,
        note="trade table rounded to ten; another table of stacks differs by several per cent",
    )


_BURN = {"burn": 2.0 * _HOUR, "direct": 0.25, "fade": 8.0 * _HOUR}

ROWS: tuple[Row, ...] = (
    _derived(
        "hard-15",
        heating_value,
        {"moisture": 0.15, "dry": 18.5e6},
        "15.359",
        "15.725 − 0.36645",
        unit="MJ/kg",
    ),
    _derived(
        "soft-50", heating_value, {"moisture": 0.5, "dry": 19.1e6}, "8.329", "9.55 − 1.2215", unit="MJ/kg"
    ),
    _derived(
        "dry-again",
        dry_heating_value,
        {"value": 12.637e6, "moisture": 0.30},
        "19.100",
        "(12.637 + 0.7329)/0.7",
        unit="MJ/kg",
    ),
    _derived("meter", water_in_dry_terms, {"moisture": 0.20}, "0.25", "0.2/0.8"),
    _wet("spruce", "3.58"),
    _wet("pine", "3.44"),
    _wet("larch", "3.39"),
    _wet("birch", "3.18"),
    _wet("beech", "3.28"),
    _wet("oak", "3.25"),
    _wet("poplar", "3.16"),
    _stack("spruce", 0.15, "1310"),
    _stack("pine", 0.15, "1550"),
    _stack("larch", 0.15, "1580"),
    _stack("birch", 0.15, "1570"),
    _stack("beech", 0.15, "1800"),
    _stack("oak", 0.15, "1760"),
    _stack("poplar", 0.15, "1020"),
    _stack("birch", 0.30, "1430", rel=0.06),
    _stack("birch", 0.20, "1700", cite=_FINNISH, rel=0.12),
    _stack("pine", 0.20, "1465", cite=_FINNISH, rel=0.10),
    _derived(
        "stack-fresh",
        stacked_heat,
        {"dry_mass": 400.0, "moisture": 0.5, "dry": 18.5e6},
        "6422.8",
        "800·(9.25 − 1.2215)",
        unit="MJ/m3",
    ),
    _derived(
        "volume",
        stack_volume,
        {"heat": 9.0e9, "of_stack": 5.0e9, "efficiency": 0.75},
        "2.4",
        "9/(0.75·5)",
        unit="m3",
    ),
    _derived(
        "charge",
        charge_heat,
        {"mass": 6.0, "heating_value": 15.0e6, "efficiency": 0.8},
        "72.0",
        "0.8·6·15",
        unit="MJ",
    ),
    _derived(
        "burning",
        released,
        {"time": 1.0 * _HOUR, **_BURN},
        "0.147491",
        "0.25·0.5 + 0.75·[0.5 − 4·(1 − e^(−1/8))]",
        cite=_STORE,
    ),
    _derived(
        "after",
        released,
        {"time": 10.0 * _HOUR, **_BURN},
        "0.755876",
        "0.25 + 0.75·[1 − 4·(1 − e^(−1/4))·e^(−1)]",
        cite=_STORE,
    ),
    _derived(
        "first-hour",
        release_curve,
        {"heat": 36.0e6, **_BURN},
        "1474.907",
        "36 MJ·0.1474907/3600 s",
        unit="W",
        cite=_STORE,
        pick=lambda curve: float(curve[0]),
    ),
    _derived(
        "all-of-it",
        release_curve,
        {"heat": 36.0e6, **_BURN},
        "36.0",
        "the whole charge",
        unit="MJ",
        cite=_STORE,
        pick=lambda curve: float(curve.sum() * _HOUR),
    ),
    _derived(
        "day",
        mean_output,
        {"heat": 43.2e6, "firings": 2.0},
        "1000.0",
        "2·43.2 MJ/86 400 s",
        unit="W",
        cite=_STORE,
    ),
    _derived(
        "hours",
        release_curve,
        {"heat": 36.0e6, **_BURN},
        "59",
        "ceil(2 + 8·ln 1000) + 1",
        cite=_STORE,
        pick=lambda curve: float(curve.size),
    ),
)
