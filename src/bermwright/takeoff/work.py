"""Hours of hand work by published rates, from low to high, and days of the crew."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.ranges import Range
from bermwright.data.rates import COMPACT, CUT_TURF, DIG, LAG, LAY_TURF, LOAD, MEMBRANE, WHEEL, Rate
from bermwright.stages.nouns import StageKind
from bermwright.takeoff.lines import line, measured, number
from bermwright.takeoff.nouns import Group, Quantity

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.house import Crew, House
    from bermwright.takeoff.earth import Earth

HOURS = "hours that have a rate"
"""Name of the row that sums them."""
NOT_TIMED = (
    "cutting and nailing ribs: time the first one",
    "raising and bracing ribs: time the first one",
    "insulation and drainage layers: nobody has published hours for a curved roof",
    "end walls, openings, walls and footings: not part of the vault",
)


def work_rows(form: VaultForm, house: House, earth: Earth) -> tuple[Quantity, ...]:
    """Hours of every task with a rate, their sum, and days."""
    tasks = tuple(_tasks(form, earth))
    if not tasks:
        return ()
    total = _total(tasks)
    return (*tasks, total, *_days(house.crew, total))


def _tasks(form: VaultForm, earth: Earth) -> Iterator[Quantity]:
    compacted = Range(earth.compacted, earth.compacted)
    yield _hours(DIG, earth.bank, StageKind.FILL, note="where the fill is dug by hand; not from a heap")
    yield _hours(LOAD, earth.bank, StageKind.FILL)
    yield _hours(WHEEL, earth.bank, StageKind.FILL)
    yield _hours(COMPACT, compacted, StageKind.FILL)
    for rate, kind, stage in (
        (LAG, "lagging", StageKind.LAGGED),
        (MEMBRANE, "membrane", StageKind.WRAPPED),
    ):
        area = sum(band.inner.length for band in form.bands if band.kind == kind) * form.length
        if area > 0.0:
            yield _hours(rate, Range(area, area), stage)
    if earth.turf_area > 0.0:
        turf = Range(earth.turf_area, earth.turf_area)
        yield _hours(CUT_TURF, turf, StageKind.TURF)
        yield _hours(LAY_TURF, turf, StageKind.TURF)


def _hours(rate: Rate, amount: Range, stage: StageKind, note: str = "") -> Quantity:
    low, high = amount.low * rate.hours.low, amount.high * rate.hours.high
    span = f"{rate.hours.low:g}" if rate.hours.exact else f"{rate.hours.low:g} to {rate.hours.high:g}"
    step = line(
        f"Published: {span} person-hours for one {number(1.0, rate.unit, 0).removeprefix('1 ')}",
        "h",
        "V·r" if rate.unit == "m3" else "A·r",
        f"{number(amount.high, rate.unit, 1)}·{rate.hours.high:g}",
        result=Shown(high, "ph", 0),
        cite=rate.cite,
    )
    return measured(
        rate.name,
        Group.WORK,
        Shown(high, "ph", 0),
        low=low,
        working=(step,),
        stage=stage,
        note=note or rate.note,
    )


def _total(tasks: tuple[Quantity, ...]) -> Quantity:
    low, high = sum(task.low for task in tasks), sum(task.high for task in tasks)
    step = line(
        "Sum of the lines above, by hand, without a machine",
        "H",
        "Σ h",
        " + ".join(number(task.high) for task in tasks),
        result=Shown(high, "ph", 0),
    )
    return measured(
        HOURS,
        Group.WORK,
        Shown(high, "ph", 0),
        low=low,
        working=(step,),
        note="ribs, insulation, end walls and openings come on top: nobody has published hours for them",
    )


def _days(crew: Crew | None, total: Quantity) -> Iterator[Quantity]:
    if crew is None or crew.people is None or crew.hours is None:
        return
    hours = crew.hours / 3600.0
    each_day = crew.people * hours
    days = 86400.0 * total.high / each_day
    step = line(
        f"{crew.people} people, {number(hours, '', 1)} hours a day",
        "d",
        "H/(p·h)",
        f"{number(total.high)}/({crew.people}·{number(hours, '', 1)})",
        result=Shown(days, "d", 1),
    )
    yield measured(
        "days of work for those hours",
        Group.WORK,
        Shown(days, "d", 1),
        low=86400.0 * total.low / each_day,
        working=(step,),
        note="working days of the crew, not calendar days; weather, meals and waiting not counted",
    )
