"""What the year says of stove, frost, warmth and wood, as findings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.telling.seasons import date, hardest_day
from bermwright.base.findings import Finding, Shown, Step, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.firewood import CITE as WOOD_CITE
from bermwright.data.works.fabric import EN16798, ISO6946, ISO13370
from bermwright.data.works.practice import TRADE
from bermwright.data.works.room import ENISO17225
from bermwright.house import Frost, Heated

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.adapt.winter.room.fire import Fire
    from bermwright.adapt.winter.winter import WinterYear

    Array = NDArray[np.float64]

FROZEN_FOR_EVER = -1.0
"""Mean of the year under which patches of ground never thaw (°C)."""
CLOSE = 0.9
"""Share of what is allowed over which advice is given."""
HOURS_OUTSIDE = 0.03 * 8760
"""Hours of a year that may lie outside the band of comfort."""
DAYS_OUTSIDE = 0.03 * 365
_ROOM = (
    Cite(work=ISO6946, place="resistances of layers and surfaces", provenance=Provenance.MEMORY),
    Cite(
        work=ISO13370, place="ground as it is, by the section's own equations", provenance=Provenance.DERIVED
    ),
)
_BAND = Cite(work=EN16798, place="category II, 3 % of the hours outside", provenance=Provenance.MEMORY)
_WOOD = Cite(work=ENISO17225, place="net heating value as received", provenance=Provenance.DERIVED)
_PERMAFROST = Cite(
    work=TRADE, place="permafrost in patches under a mean of about -1 °C", provenance=Provenance.PRACTICE
)
_TRADE = Cite(work=TRADE, place="frost under footings", provenance=Provenance.PRACTICE)


def findings_of(year: WinterYear) -> tuple[Finding, ...]:
    """Everything the year says, the worst first."""
    found = [
        *_stove(year),
        *_permafrost(year),
        *_air(year),
        *_guard(year),
        *_frost(year),
        *_comfort(year),
        *_wood(year),
    ]
    return tuple(sorted(found, key=lambda one: one.verdict.severity))


def _finding(  # noqa: PLR0913  (the parts of a finding, most by name)
    year: WinterYear,
    rule: tuple[str, str],
    verdict: Verdict,
    template: str,
    values: Mapping[str, Shown | str],
    *,
    ratio: float | None = None,
    advice: str = "",
    steps: tuple[Step, ...] = (),
    cites: tuple[Cite, ...] = (),
    stage: str | None = None,
) -> Finding:
    return Finding(
        rule=rule[0],
        title=rule[1],
        part=f'vault "{year.vault.name}"',
        verdict=verdict,
        template=template,
        values=values,
        ratio=ratio,
        advice=advice,
        steps=steps,
        cites=cites,
        stage=stage,
    )


STOVE = ("stove-carries-the-coldest-day", "The stove carries the coldest day")
FOOTING = ("footing-stays-free-of-frost", "The footing stays free of frost")
SHELL = ("empty-shell-keeps-frost-out", "The empty shell keeps frost from its footing")
HOT = ("room-stays-cool-enough", "The room stays cool enough")
COLD = ("room-gets-warm-enough", "The room gets as warm as is wanted")
PERMAFROST = ("ground-is-not-frozen-for-ever", "The ground is not frozen for ever")
AIR = ("fresh-air-is-counted", "Fresh air is counted")
GUARD = ("frost-stays-out-of-the-room", "Frost stays out of the room")
READY = ("wood-is-ready", "The wood that is there lasts the winter")


def _stove(year: WinterYear) -> Iterator[Finding]:
    day, needed = hardest_day(year.ideal.heat)
    if needed <= 0.0:
        yield _finding(
            year,
            STOVE,
            Verdict.DOES_NOT_APPLY,
            "Nobody heats it, as the file says." if _unheated(year) else "No day of the year needs a fire.",
            {},
        )
        return
    fire = year.fire
    values: dict[str, Shown | str] = {"day": date(day), "need": Shown(needed, "kW", 2)}
    if fire is None or fire.output is None:
        yield _finding(
            year,
            STOVE,
            Verdict.UNKNOWN,
            "The hardest day, about {day}, takes {need} all day long; the file names no stove that gives it.",
            values,
            advice="Write a [[stove]] table with batch and firings, and a [wood] table with species.",
            cites=_ROOM,
        )
        return
    yield _stove_said(year, fire, needed, values)


def _stove_said(year: WinterYear, fire: Fire, needed: float, values: dict[str, Shown | str]) -> Finding:
    """The hardest day against what the stove gives, its output known."""
    stove, output = fire.stove, fire.output
    assert output is not None  # noqa: S101  (asked before)
    ratio = needed / output
    values |= {
        "stove": stove.name,
        "charges": str(stove.firings),
        "mass": Shown(stove.batch or np.nan, "kg", 1),
        "gives": Shown(output, "kW", 2),
    }
    verdict = verdict_of(ratio)
    more = int(np.ceil(ratio * (stove.firings or 1) - 1e-9))
    return _finding(
        year,
        STOVE,
        verdict,
        "The hardest day, about {day}, takes {need}; {stove} gives {gives} with {charges} charges "
        "of {mass} a "
        "day.",
        values,
        ratio=ratio,
        advice=""
        if verdict is Verdict.HOLDS
        else f"Fire {more} times a day, take a larger stove, or keep the room cooler in the worst weeks.",
        steps=(
            Step(
                says="The stove's mean output over a day",
                symbol="P",
                formula="n·H / 24 h",
                filled=f"{stove.firings} · {(fire.charge or 0.0) / 3.6e6:.2f} kWh / 24 h",
                result=Shown(output, "kW", 2),
            ),
            Step(
                says="What the hardest day takes of it",
                symbol="ratio",
                formula="need / P",
                filled=f"{needed / 1e3:.3f} / {output / 1e3:.3f}",
                result=Shown(ratio, "", 2),
            ),
        ),
        cites=(*_ROOM, _WOOD),
    )


def _permafrost(year: WinterYear) -> Iterator[Finding]:
    mean = year.weather.mean_temperature
    if mean > FROZEN_FOR_EVER:
        return
    yield _finding(
        year,
        PERMAFROST,
        Verdict.UNKNOWN,
        "The mean of the year is {mean}: the ground may be permafrost, and a warm house thaws "
        "what it stands on.",
        {"mean": Shown(mean, "degC", 1)},
        advice="Ask who knows the ground there: a house on permafrost stands off the ground. None of the "
        "figures here holds on it.",
        cites=(_PERMAFROST,),
    )


def _unheated(year: WinterYear) -> bool:
    return year.house.heat is None or year.house.heat.heated is Heated.NO


def _days(count: int) -> str:
    return f"{count} day{'' if count == 1 else 's'}"


def _air(year: WinterYear) -> Iterator[Finding]:
    """Without fresh air the year is too kind, and nobody can live in it."""
    if any(one.name == "fresh air" and one.conductance.any() for one in year.room.losses):
        return
    yield _finding(
        year,
        AIR,
        Verdict.FAILS,
        "No fresh air is counted: nobody can live in it, everything grows mould, and the wood is too little.",
        {},
        advice="Write [air] flow: 25 to 30 m³/h for everybody who lives there.",
        cites=(_BAND,),
    )


def _guard(year: WinterYear) -> Iterator[Finding]:
    """Whether a house that is only kept free of frost is that."""
    if year.house.heat is None or year.house.heat.heated is not Heated.FROST_ONLY:
        return
    holds = year.comfort.coldest > 0.0
    known = year.stove is not None
    verdict = (Verdict.HOLDS if holds else Verdict.FAILS) if known else Verdict.UNKNOWN
    yield _finding(
        year,
        GUARD,
        verdict,
        "With this stove it is never colder inside than {cold}."
        if holds and known
        else "It falls to {cold} inside: water freezes."
        if known
        else "Who keeps the frost out is not said: the file names no stove.",
        {"cold": Shown(year.comfort.coldest, "degC", 1)},
        advice="" if holds and known else "Fire more often, or raise [heat] frost_guard.",
        cites=_ROOM,
    )


def _frost(year: WinterYear) -> Iterator[Finding]:
    yield _footing(year, FOOTING, year.watch, "In an ordinary year, lived in,", None)
    if year.house.stages.unheated_first_winter is False:
        yield _finding(
            year,
            SHELL,
            Verdict.DOES_NOT_APPLY,
            "It is heated from its first winter on, as the file says.",
            {},
        )
    else:
        yield _footing(year, SHELL, year.empty_watch, "Empty and without fire", "first winter")


def _footing(
    year: WinterYear, rule: tuple[str, str], watch: Mapping[str, Array], when: str, stage: str | None
) -> Finding:
    """The coldest that it gets under either footing."""
    rows = {name: row for name, row in watch.items() if name.startswith("under footing")}
    place, row = min(rows.items(), key=lambda item: float(item[1].min()))
    coldest, day = float(row.min()), date(int(np.argmin(row)) // 24)
    values: dict[str, Shown | str] = {
        "when": when, "temperature": Shown(coldest, "degC", 1), "place": ("under the "
            f"{place.rsplit(maxsplit=1)[-1]} footing"), "day": day,
    }  # fmt: skip
    if coldest > 0.0:
        return _finding(
            year, rule, Verdict.HOLDS, "{when} it is never colder than {temperature} {place}, about {day}.",
            values, cites=_ROOM, stage=stage,
        )  # fmt: skip
    soils = [soil.frost for soil in year.house.site.soil]
    if soils and all(soil is Frost.NOT_SUSCEPTIBLE for soil in soils):
        return _finding(
            year, rule, Verdict.HOLDS,
            "{when} it falls to {temperature} {place}, about {day}; this soil does not heave.",
            values, cites=(*_ROOM, _TRADE), stage=stage,
        )  # fmt: skip
    heaves = any(soil is Frost.SUSCEPTIBLE for soil in soils)
    return _finding(
        year, rule, Verdict.FAILS if heaves else Verdict.UNKNOWN,
        "{when} it falls to {temperature} {place}, about {day}"
        + ("; this soil heaves." if heaves else "; whether the soil heaves is not said."),
        values,
        advice="Lay an insulation umbrella ([ground_heat.umbrella]) or make it wider, go deeper with the "
        "footing, or keep the house above frost."
        if heaves
        else "Answer the question about [[site.soil]] frost.",
        cites=(*_ROOM, _TRADE), stage=stage,
    )  # fmt: skip


def _comfort(year: WinterYear) -> Iterator[Finding]:
    comfort = year.comfort
    ratio = comfort.hot_hours / HOURS_OUTSIDE
    values: dict[str, Shown | str] = {
        "hours": str(comfort.hot_hours),
        "most": f"{HOURS_OUTSIDE:.0f}",
        "hot": Shown(comfort.hottest, "degC", 1),
    }
    never = comfort.hot_hours == 0
    yield _finding(
        year,
        HOT,
        verdict_of(ratio),
        "It never gets warmer than people like; it reaches {hot}."
        if never
        else "In {hours} hours of the year it is warmer than people like; {most} are allowed. It reaches "
        "{hot}.",
        values,
        ratio=ratio,
        advice=""
        if ratio <= CLOSE
        else "Shade the windows from May to August, or open more of them at night.",
        cites=(*_ROOM, _BAND),
    )
    if year.house.heat is None or year.house.heat.heated is not Heated.YES:
        return
    ratio = comfort.cold_days / DAYS_OUTSIDE
    yield _finding(
        year,
        COLD,
        verdict_of(ratio) if year.stove is not None else Verdict.UNKNOWN,
        "On {days} of the year the stove leaves it half a degree or more colder than wanted; {most} are "
        "allowed. At the worst hour it is {cold}."
        if year.stove is not None
        else "Whether it gets as warm as is wanted hangs on a stove that the file does not name.",
        {
            "days": _days(comfort.cold_days),
            "most": f"{DAYS_OUTSIDE:.0f}",
            "cold": Shown(comfort.coldest, "degC", 1),
        },
        ratio=ratio if year.stove is not None else None,
        advice=""
        if ratio <= CLOSE and year.stove is not None
        else "Fire more often, or take a larger stove.",
        cites=(*_ROOM, _BAND),
    )


def _wood(year: WinterYear) -> Iterator[Finding]:
    wood = None if year.fire is None else year.fire.wood_for(year.heat)
    if wood is None or wood.heat <= 0.0:
        return
    ready = year.house.wood.ready if year.house.wood is not None else None
    values: dict[str, Shown | str] = {"need": Shown(wood.volume, "m3", 1), "species": wood.species}
    if ready is None:
        yield _finding(
            year, READY, Verdict.UNKNOWN,
            "The winter takes {need} of {species}; how much lies ready is not said.", values,
            advice="Measure the stack: length, height, depth, and write [wood] ready.",
            cites=(WOOD_CITE, _WOOD),
        )  # fmt: skip
        return
    ratio = wood.volume / ready if ready > 0.0 else np.inf
    yield _finding(
        year, READY, verdict_of(ratio),
        "The winter takes {need} of {species}; {ready} lie ready.",
        values | {"ready": Shown(ready, "m3", 1)},
        ratio=ratio,
        advice="" if ratio <= CLOSE else f"Stack {max(wood.volume * 1.15 - ready, 0.1):.1f} m³ "
            "more, with a reserve "
        "for a cold year.",
        cites=(WOOD_CITE, _WOOD),
    )  # fmt: skip
