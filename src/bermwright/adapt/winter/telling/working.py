"""The figures of the report line by line: each is computed from the numbers printed beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.room.air import AIR_CAPACITY
from bermwright.adapt.winter.telling.seasons import hardest_day
from bermwright.base.findings import Shown, Step
from bermwright.base.sources import Cite, Provenance
from bermwright.data.firewood import CITE as WOOD_CITE
from bermwright.data.firewood import FIREWOOD, STACKS, STACKS_CITE, TABLE_MOISTURE
from bermwright.data.works.fabric import ISO6946
from bermwright.data.works.room import ENISO17225

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.winter.room.fire import Fire
    from bermwright.adapt.winter.winter import WinterYear

KWH = 3.6e6
_LAYERS = Cite(work=ISO6946, place="layers in series", provenance=Provenance.MEMORY)
_VALUE = Cite(work=ENISO17225, place="net heating value as received", provenance=Provenance.DERIVED)


def working(year: WinterYear) -> tuple[Step, ...]:
    """Every line, from the room over its losses to the wood."""
    return (
        *_room(year),
        *_losses(year),
        *_year(year),
        *([] if year.fire is None else _wood(year, year.fire)),
    )


def _room(year: WinterYear) -> Iterator[Step]:
    length, area = year.vault.length, year.ground.heat.room_area
    width = year.ground.heat.lengths["floor"]
    yield _line("Air of the room", "V", "A·L", f"{area:.3f} · {length:.2f}", year.volume, "m3", 2)
    yield _line("Floor", "A_f", "b·L", f"{width:.3f} · {length:.2f}", year.floor_area, "m2", 2)
    ground = year.ground
    yield _line(
        "Length of the section, with what the ground at both ends adds to floor and walls",
        "L′",
        "L·(1 + s·(f − 1))",
        f"{length:.2f} · (1 + {ground.low_share:.4f} · ({ground.heat.end_factor:.4f} − 1))",
        ground.length,
        "m",
        3,
    )
    yield _line(
        "Shell and ground, were everything outside at one temperature for ever",
        "H_g",
        "q·L′",
        f"{ground.steady_loss:.4f} · {ground.length:.3f}",
        ground.steady_loss * ground.length,
        "W/K",
        2,
    )


def _losses(year: WinterYear) -> Iterator[Step]:
    total, parts = year.ground.steady_loss * year.ground.length, []
    parts.append(f"{total:.2f}")
    for one in year.room.losses:
        mean = float(one.conductance.mean())
        if one.name == "fresh air":
            flow = mean / AIR_CAPACITY * 3600.0
            yield _line(
                "Fresh air",
                "H_a",
                "V̇·ρ·c",
                f"{flow:.2f} · 1.2 · 1006 / 3600",
                mean,
                "W/K",
                2,
            )
        else:
            area = year.opening_areas[one.name]
            yield _line(
                f"{one.name[0].upper()}{one.name[1:]}, mean of the year",
                "H",
                "U·A",
                f"{mean / area:.4f} · {area:.3f}",
                mean,
                "W/K",
                2,
            )
        total += mean
        parts.append(f"{mean:.2f}")
    for name, area, resistance in year.end_parts:
        yield _line(
            f"{name[0].upper()}{name[1:]}",
            "H",
            "A/R",
            f"{area:.3f} / {resistance:.3f}",
            area / resistance,
            "W/K",
            2,
            _LAYERS,
        )
        total += area / resistance
        parts.append(f"{area / resistance:.2f}")
    yield _line("All of it", "H", "ΣH", " + ".join(parts), total, "W/K", 2)


def _year(year: WinterYear) -> Iterator[Step]:
    gains = {name: float(row.sum()) / KWH for name, row in year.balance.gains.items()}
    losses = {name: float(row.sum()) / KWH for name, row in year.balance.losses.items()}
    for one in year.room.losses:
        mean = float(one.conductance.mean())
        hours = float((one.conductance * (year.shown.room - one.behind)).sum()) / mean if mean > 0.0 else 0.0
        yield _line(
            f"Through {one.name} in a year: its conductance times the kelvin-hours between room and outside",
            "Q",
            "H·ΣΔT / 1000",
            f"{mean:.3f} · {hours:.0f} / 1000",
            mean * hours * 3600.0,
            "kWh",
            0,
        )
    come, gone = sum(gains.values()), sum(losses.values())
    yield _line(
        "Warmth that comes in a year: " + ", ".join(gains), "", "ΣQ",
        " + ".join(f"{value:.1f}" for value in gains.values()), come * KWH, "kWh", 0,
    )  # fmt: skip
    yield _line(
        "Warmth that goes: " + ", ".join(losses), "", "ΣQ",
        " + ".join(f"{value:.1f}" if value >= 0 else f"(−{-value:.1f})" for value in losses.values()),
        gone * KWH, "kWh", 0,
    )  # fmt: skip
    yield _line(
        "Heat for a square metre of floor", "q", "Q/A_f",
        f"{year.heat / KWH:.1f} / {year.floor_area:.2f}", year.heat / year.floor_area, "kWh/m2", 1,
    )  # fmt: skip
    day, hardest = hardest_day(year.ideal.heat)
    if hardest > 0.0:
        warm = float(year.ideal.heat[day * 24 : day * 24 + 24].sum()) / 1e3
        yield _line("Mean of the hardest day", "P", "Q/24 h", f"{warm:.2f} / 24", hardest, "kW", 3)
        whole = year.ideal.heat.sum() / 1e3
        yield _line(
            "The first winter against later ones",
            "",
            "Q₁/Q",
            f"{year.winters[0] / KWH:.1f} / {whole:.1f}",
            year.winters[0] / KWH / whole,
            "",
            3,
        )


def _wood(year: WinterYear, fire: Fire) -> Iterator[Step]:
    kind, water = FIREWOOD[fire.species], fire.moisture
    table = kind.value / KWH
    yield _line(
        f"Net heating value of dry {fire.species}, from the table's at 15 % water", "q₀",
        "(q₁₅ + 0.6786·0.15)/0.85", f"({table:.2f} + 0.6786 · 0.15) / "
            "0.85", fire.dry_value, "kWh/kg", 3, WOOD_CITE,
    )  # fmt: skip
    yield _line(
        "As burned", "q", "q₀·(1 − w) − 0.6786·w",
        f"{fire.dry_value / KWH:.4f} · (1 − {water:.3f}) − 0.6786 · "
        f"{water:.3f}", fire.value, "kWh/kg", 3, _VALUE,
    )  # fmt: skip
    factor = STACKS[fire.stacked]
    yield _line(
        "In a cubic metre as it lies", "h", "m₁₅·0.85/(1 − w)·q/k",
        f"{kind.stacked:.0f} · {1.0 - TABLE_MOISTURE:.2f} / (1 − {water:.3f}) · "
        f"{fire.value / KWH:.4f} / {factor:.3f}",
        fire.of_stack, "kWh/m3", 0, STACKS_CITE,
    )  # fmt: skip
    wood = fire.wood_for(year.heat)
    yield _line(
        "Wood for the year, as it lies", "V", "Q/(η·h)",
        f"{year.heat / KWH:.1f} / ({fire.efficiency:.3f} · {fire.of_stack / KWH:.1f})", wood.volume, "m3", 2,
    )  # fmt: skip
    yield _line(
        "Its mass as burned", "m", "Q/(η·q)",
        f"{year.heat / KWH:.1f} / ({fire.efficiency:.3f} · {fire.value / KWH:.4f})", wood.mass, "kg", 0,
    )  # fmt: skip
    stove = fire.stove
    if fire.charge is None or stove.batch is None:
        return
    yield _line(
        "What one full charge leaves in the house", "H₁", "η·m₁·q",
        f"{fire.efficiency:.3f} · {stove.batch:.2f} · {fire.value / KWH:.4f}", fire.charge, "kWh", 2,
    )  # fmt: skip
    yield _line(
        "Full charges a year", "n", "Q/H₁", f"{year.heat / KWH:.1f} / {fire.charge / KWH:.4f}",
        year.heat / fire.charge, "", 0,
    )  # fmt: skip
    if fire.output is not None and stove.firings is not None:
        yield _line(
            "The most the stove gives on average over a day", "P₁", "n₁·H₁/24 h",
            f"{stove.firings} · {fire.charge / KWH:.4f} / 24", fire.output, "kW", 3,
        )  # fmt: skip
        _day, hardest = hardest_day(year.ideal.heat)
        yield _line(
            "The hardest day's share of it", "", "P/P₁",
            f"{hardest / 1e3:.4f} / {fire.output / 1e3:.4f}", hardest / fire.output, "", 3,
        )  # fmt: skip


def _line(  # noqa: PLR0913, PLR0917  (one row of the working, in the order it is read)
    says: str, symbol: str, formula: str, filled: str, value: float, unit: str, digits: int,
    cite: Cite | None = None,
) -> Step:  # fmt: skip
    return Step(
        says=says, symbol=symbol, formula=formula, filled=filled.replace("-", "−"),
        result=Shown(float(np.asarray(value)), unit, digits), cite=cite,
    )  # fmt: skip
