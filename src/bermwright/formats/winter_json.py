"""The year as plain data for JSON, documented in docs/reference/json.md; unknown numbers are null."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from bermwright.adapt.winter.telling.findings import findings_of
from bermwright.adapt.winter.telling.picture import WEEKS, week_of
from bermwright.adapt.winter.telling.saying import advice, sentences
from bermwright.adapt.winter.telling.seasons import by_days
from bermwright.adapt.winter.telling.working import working
from bermwright.base.wording import NOT_REVIEWED
from bermwright.formats.assessment_json import FORMAT, finding_data, number, step_data

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    import numpy as np
    from numpy.typing import NDArray

    from bermwright.adapt.winter.winter import WinterYear

    Array = NDArray[np.float64]

HUNDREDTHS = 2


def winter_data(house: str, years: Sequence[WinterYear], system: str = "metric") -> dict[str, Any]:
    """Everything that `winter` says; temperatures in °C, heat in J, lengths in m."""
    return {
        "format": FORMAT,
        "house": house,
        "mark": NOT_REVIEWED,
        "vaults": [_vault(year, system) for year in years],
    }


def _vault(year: WinterYear, system: str) -> dict[str, Any]:
    return {
        "vault": year.vault.name,
        "weather": {"place": year.weather.place, "source": year.weather.source, "made": year.weather.made},
        "says": list(sentences(year, system)),
        "findings": [finding_data(one, system) for one in findings_of(year)],
        "advice": [{"text": one.text, "saves": number(one.saves)} for one in advice(year, system)],
        "heat": number(year.heat),
        "wood": _wood(year),
        "months": {
            "gains": _rows(year.balance.gains),
            "losses": _rows(year.balance.losses),
            "balance_error": number(year.balance.error),
        },
        "days": {
            "outdoors": _daily(year.weather.temperature),
            "room": _daily(year.shown.room),
            "heat": _daily(year.shown.heat),
            "comfort_low": _daily(year.comfort.low),
            "comfort_high": _daily(year.comfort.high),
            "watch": {name: _daily(row) for name, row in year.watch.items()},
        },
        "weeks": [_week(year, count) for count in range(WEEKS)],
        "left_alone": {
            "from_hour": year.alone.hour,
            "hours_above_5": year.alone.stays_above(5.0),
            "hours_above_0": year.alone.stays_above(0.0),
        },
        "first_winters": [number(heat) for heat in year.winters],
        "hours_too_warm": year.comfort.hot_hours,
        "days_too_cold": year.comfort.cold_days,
        "working": [step_data(step, system) for step in working(year)],
        "ground_model": {
            "points": len(year.ground.mesh.points),
            "modes": int(year.ground.model.decay.size),
            "error_temperature": number(year.ground.model.error.temperature),
            "error_flow": number(year.ground.model.error.flow),
        },
        "assumed": list(year.assumed),
    }


def _wood(year: WinterYear) -> dict[str, Any] | None:
    if year.fire is None:
        return None
    wood = year.fire.wood_for(year.heat)
    return {
        "species": wood.species,
        "moisture": number(wood.moisture),
        "stacked": wood.stacked,
        "volume": number(wood.volume, "m3"),
        "mass": number(wood.mass, "kg"),
        "charges": number(wood.charges),
    }


def _week(year: WinterYear, count: int) -> dict[str, Any]:
    week = week_of(year, count)
    return {
        "week": count + 1,
        "outdoors": number(round(week.outdoors, HUNDREDTHS)),
        "room": number(round(week.room, HUNDREDTHS)),
        "snow": number(round(week.snow, HUNDREDTHS)),
        "frozen": number(round(week.frozen, HUNDREDTHS)),
    }


def _rows(rows: Mapping[str, Array]) -> dict[str, list[float | None]]:
    return {name: [number(float(value)) for value in row] for name, row in rows.items()}


def _daily(hourly: Array) -> list[float]:
    return [round(float(value), HUNDREDTHS) for value in by_days(hourly)]
