"""The year in sentences: what it does by itself, what it takes, and what to do."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.telling.seasons import by_days, date, hardest_day, span_text, without_fire
from bermwright.base.findings import Verdict, worst
from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES
from bermwright.house import Heated

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.winter.winter import WinterYear
    from bermwright.base.findings import Finding

KWH = 3.6e6
WORTH_SAYING = 0.02
"""Share of the year's heat under which a saving is not worth a sentence."""
LESS = 0.05
"""Share by which a first winter must differ to be told."""
MONTHS, DRY_ENOUGH = 12, 0.21
HOT_ENOUGH = 24
"""Hours of a year over which it is worth shading."""
ENOUGH = 0.95
"""Share of the heat under which a stove cannot keep the house warm."""
PILES = {
    "split 1 m": "split and stacked at 1 m",
    "short logs": "short logs, stacked",
    "loose": "short logs, tipped",
}


@dataclass(frozen=True, slots=True)
class Advice:
    """Something that would take less wood or make the room better, with what it brings."""

    text: str
    saves: float
    """Heat a year (J); 0 where it is not about wood."""


def heat_text(joules: float) -> str:
    """Heat as people know it from bills, the same in both systems."""
    return f"{joules / KWH:.0f} kWh"


def wood_text(year: WinterYear, joules: float, system: str, digits: int = 1) -> str:
    """Heat as wood, where the file names stove and wood; else as heat."""
    if year.fire is None:
        return heat_text(joules)
    wood = year.fire.wood_for(joules)
    return f"{show(wood.volume, 'm3', digits, system)} of {wood.species}"


def headline(year: WinterYear, findings: tuple[Finding, ...], system: str = "metric") -> tuple[Verdict, str]:
    """The worst verdict, and the sentence a reader sees first."""
    return worst(findings), first_sentence(year, system)


def first_sentence(year: WinterYear, system: str = "metric") -> str:
    """When it heats itself, and how much wood it takes when it does not."""
    heat = year.house.heat
    if heat is not None and heat.heated is Heated.NO:
        return (
            "Nobody heats it: by itself it lies between "
            f"{show(float(year.shown.room.min()), 'degC', 1, system)} "
            f"and {show(float(year.shown.room.max()), 'degC', 1, system)}."
        )
    if year.heat <= 0.0:
        return "It heats itself all the year, as warm as it is wanted."
    idle = without_fire(year.ideal.heat)
    takes = heat_text(year.heat)
    if year.fire is not None:
        wood = year.fire.wood_for(year.heat)
        takes += (
            f": {show(wood.volume, 'm3', 1, system)} of {wood.species}, {PILES[wood.stacked]}, "
            f"at {wood.moisture:.0%} water"
        )
    if idle is None:
        return f"There is no season in which it heats itself. A year takes {takes}."
    return f"It heats itself from {date(idle[0])} to {date(idle[1])}. The rest of the year takes {takes}."


def sentences(year: WinterYear, system: str = "metric") -> tuple[str, ...]:
    """What a builder should know, one sentence each, the most important first."""
    return tuple(
        said
        for said in (
            first_sentence(year, system),
            _free(year, system),
            _hardest(year, system),
            _firing(year, system),
            _where_it_goes(year),
            _sun(year),
            _alone(year, system),
            _first_winters(year, system),
            _empty(year, system),
            _warm(year, system),
        )
        if said
    )


def _free(year: WinterYear, system: str) -> str:
    if year.house.heat is None or year.house.heat.heated is Heated.NO:
        return ""
    room = year.free.room
    low, high = int(np.argmin(room)), int(np.argmax(room))
    return (
        f"Lived in but never heated it would lie between {show(float(room[low]), 'degC', 0, system)} about "
        f"{date(low // 24)} and {show(float(room[high]), 'degC', 0, system)} about {date(high // 24)}."
    )


def _hardest(year: WinterYear, system: str) -> str:
    day, needed = hardest_day(year.ideal.heat)
    if needed <= 0.0:
        return ""
    outdoors = float(by_days(year.weather.temperature)[day])
    return (
        f"The hardest day, about {date(day)} at {show(outdoors, 'degC', 0, system)}, takes "
        f"{show(needed, 'kW', 1)} from morning to morning."
    )


def _firing(year: WinterYear, system: str) -> str:
    fire, run = year.fire, year.stove
    if fire is None or run is None:
        return ""
    if year.given < ENOUGH * year.heat:
        return (
            f"This stove gives only {heat_text(year.given)} of the {heat_text(year.heat)} that it "
            "would take: the "
            f"room falls to {show(year.comfort.coldest, 'degC', 0, system)}."
        )
    coldest = int(np.argmin(by_days(year.weather.temperature)))
    month = (run.charges.reshape(365, 24).sum(axis=1))[max(coldest - 15, 0) : coldest + 15]
    lit = run.room[run.heat > 0.0]
    return (
        f"About {run.charges.sum():.0f} charges of {show(fire.stove.batch or 0.0, 'kg', 1, system)} a year, "
        f"{float(month.mean()):.1f} a day in the coldest month; the room then swings between "
        f"{show(float(np.percentile(lit, 2)), 'degC', 0, system)} and "
        f"{show(float(np.percentile(lit, 98)), 'degC', 0, system)}."
    )


def _where_it_goes(year: WinterYear) -> str:
    losses = {name: float(row.sum()) for name, row in year.balance.losses.items() if row.sum() > 0.0}
    whole = sum(losses.values())
    if whole <= 0.0:
        return ""
    most = sorted(losses.items(), key=lambda item: -item[1])[:3]
    parts = [
        f"{share / whole:.0%} by {'the ' if name == 'shell and ground' else ''}{name}" for name, share in most
    ]
    return f"Of all warmth, {', '.join(parts[:-1])} and {parts[-1]} leaves." if len(parts) > 1 else ""


def _sun(year: WinterYear) -> str:
    """Month by month whether the windows bring more than they lose."""
    names = set(year.window_names)
    if not names:
        return "There is no window: the sun brings nothing."
    lost = sum((year.balance.losses[name] for name in sorted(names)), np.zeros(12))
    won = year.balance.gains["sun"] - lost
    pays = [month for month in range(12) if won[month] > 0.0]
    if len(pays) == MONTHS:
        return f"The windows bring more than they lose in every month, {heat_text(float(won.sum()))} a year."
    if not pays:
        return "In no month do the windows bring more than they lose: shutters at night pay here."
    return (
        "The windows lose more than they bring in "
        f"{_months([m for m in range(12) if m not in pays])}; over the "
        f"year they {'bring' if won.sum() > 0 else 'cost'} {heat_text(abs(float(won.sum())))}."
    )


def _months(months: list[int]) -> str:
    """Months in a row as a span, over the turn of the year too."""
    begins = [month for month in months if (month - 1) % 12 not in months]
    ends = [month for month in months if (month + 1) % 12 not in months]
    spans = []
    for begin in begins:
        end = next(month % 12 for month in range(begin, begin + 12) if month % 12 in ends)
        spans.append(MONTH_NAMES[begin] if begin == end else f"{MONTH_NAMES[begin]} to {MONTH_NAMES[end]}")
    return " and ".join(spans)


def _alone(year: WinterYear, system: str) -> str:
    cool, frost = year.alone.stays_above(5.0), year.alone.stays_above(0.0)
    when = date(year.alone.hour // 24)
    if cool is None:
        return (
            f"Left alone from {when}, in the coldest week, it never falls below "
            f"{show(5.0, 'degC', 0, system)}."
        )
    if cool == 0:
        kept = "and never freezes" if frost is None else f"and stays above {show(0.0, 'degC', 0, system)} for"
        more = "" if frost is None else f" {span_text(frost)}"
        return f"Left alone from {when}, in the coldest week, it is cold at once {kept}{more}."
    text = (
        f"Left alone from {when}, in the coldest week, it stays above {show(5.0, 'degC', 0, system)} for "
        f"{span_text(cool)}"
    )
    if frost is None:
        return f"{text} and never freezes."
    return f"{text} and above {show(0.0, 'degC', 0, system)} for {span_text(frost)}."


def _first_winters(year: WinterYear, system: str) -> str:
    whole = float(year.ideal.heat.sum() * 3600.0)
    if whole <= 0.0 or not year.winters:
        return ""
    more = year.winters[0] / whole - 1.0
    if abs(more) < LESS:
        return (
            f"A new house takes hardly more in its first winter ({more:+.0%}): warming its "
            "ground takes little."
        ).replace("-", "−")
    third = year.winters[-1] / whole - 1.0
    return (
        f"The first winter takes {more:.0%} more than later ones "
        f"({wood_text(year, year.winters[0], system)}), "
        f"because the ground is still cold; the third {third:.0%} more."
    )


def _empty(year: WinterYear, system: str) -> str:
    lowest = float(year.empty.room.min())
    footing = min(
        float(row.min()) for name, row in year.empty_watch.items() if name.startswith("under footing")
    )
    return (
        f"Empty, boarded up and without fire it falls to {show(lowest, 'degC', 1, system)} inside and "
        f"{show(footing, 'degC', 1, system)} under the footing."
    )


def _warm(year: WinterYear, system: str) -> str:
    comfort = year.comfort
    if comfort.hot_hours == 0:
        return (
            "In summer it never gets warmer than people like; it reaches "
            f"{show(comfort.hottest, 'degC', 0, system)}."
        )
    return (
        f"In {comfort.hot_hours} hours of the year it is warmer than people like; it reaches "
        f"{show(comfort.hottest, 'degC', 0, system)}."
    )


def advice(year: WinterYear, system: str = "metric") -> tuple[Advice, ...]:
    """What would help, the largest saving first."""
    found = [*_habits(year, system), *_fuel(year)]
    return tuple(sorted(found, key=lambda one: -one.saves))


def _habits(year: WinterYear, system: str) -> Iterator[Advice]:
    for change, saves in year.saved.items():
        verb = "save" if change.startswith("doors") else "saves"
        if saves > WORTH_SAYING * year.heat:
            text = f"{change[0].upper()}{change[1:]} {verb} {wood_text(year, saves, system)} a year."
            yield Advice(text, saves)
    if year.comfort.hot_hours > HOT_ENOUGH:
        hot = by_days(np.maximum(year.shown.room - year.comfort.high, 0.0)) > 0.0
        months = sorted(set((np.flatnonzero(hot) * MONTHS // 365).tolist()))
        yield Advice(f"Shade the windows and air at night in {_months(months)}.", 0.0)
    won = year.balance.gains["sun"] - sum(
        (year.balance.losses[name] for name in year.window_names), np.zeros(MONTHS)
    )
    if year.window_names and won.sum() > 0.0:
        yield Advice(
            "More glass this way would bring more than it loses over the year; shade it in summer.", 0.0
        )
    elif year.window_names:
        yield Advice("No larger windows: over the year they lose more than the sun brings.", 0.0)


def _fuel(year: WinterYear) -> Iterator[Advice]:
    fire = year.fire
    if fire is None or year.heat <= 0.0 or fire.moisture <= DRY_ENOUGH:
        return
    yield Advice(
        f"The wood has {fire.moisture:.0%} water: under a roof for two summers it falls below 20 %, burns "
        "without tar and gives more of its heat.",
        0.0,
    )
