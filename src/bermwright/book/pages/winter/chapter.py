"""The year of one vault as blocks: a sentence first, pictures, what does not hold, then the figures."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.telling.findings import findings_of
from bermwright.adapt.winter.telling.picture import deepest_frost
from bermwright.adapt.winter.telling.saying import advice, headline, sentences
from bermwright.adapt.winter.telling.working import working
from bermwright.base.document import (
    Document,
    Figure,
    FindingBlock,
    Heading,
    Headline,
    Notice,
    Para,
    Points,
    Table,
    plain,
)
from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES, NOT_REVIEWED, step_words
from bermwright.book.pages.quantities import short_source
from bermwright.book.sheets import supports_of
from bermwright.book.sheets.winter import balance_sheet, months_sheet, pile_sheet, week_sheet, year_sheet

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.winter.winter import WinterYear
    from bermwright.base.document import Block

KWH = 3.6e6
CAUTIONS = (
    (
        "*A fire kills by its gas before anybody smells it.* Hang a carbon monoxide alarm where "
        "people sleep, give "
        "the fire air of its own, and let a chimney sweep look at the flue before the first fire."
    ),
    (
        "*This is an average year.* A cold winter may take a fifth more; stack a reserve. Local "
        "rules on stoves, flues "
        "and insulation come before anything said here."
    ),
)


def winter_document(
    years: Sequence[WinterYear], *, revision: str, date: str, system: str = "metric"
) -> Document:
    """The year of every vault as a document of its own."""
    blocks = tuple(block for year in years for block in winter_pages(year, system))
    return Document(
        title="The year: warmth, wood and frost",
        subtitle="",
        house=years[0].house.name,
        revision=revision,
        date=date,
        mark=NOT_REVIEWED,
        blocks=blocks,
        system=system,
    )


def winter_pages(year: WinterYear, system: str = "metric") -> tuple[Block, ...]:
    """Everything that is said of one vault's year."""
    findings = findings_of(year)
    verdict, first = headline(year, findings, system)
    return (
        Heading(
            text=f"The year of {plain(year.vault.name)}", lead="What it takes by the hour, ground included."
        ),
        Headline(verdict=verdict, text=plain(first), lead=plain(_weather(year, system))),
        *_section(year, system),
        Points(items=tuple(plain(one) for one in sentences(year, system)[1:])),
        Figure(
            sheet=year_sheet(year, system=system),
            caption="Daily means; the frost below hangs from the surface.",
        ),
        *_advice(year, system),
        *(FindingBlock(finding=one, working=True) for one in findings),
        Notice(kind="caution", lines=CAUTIONS),
        *_wood(year, system),
        Heading(text="Where the warmth comes from and where it goes", level=2),
        Figure(sheet=balance_sheet(year), caption=_closes(year)),
        *_months(year, system),
        *_glasses(year),
        *_figures(year, system),
        *_assumed(year),
    )


def _weather(year: WinterYear, system: str) -> str:
    weather = year.weather
    made = "made from monthly normals, the same draw every time" if weather.made else "as measured"
    return f"Weather of {weather.place}, {made}; mean {show(weather.mean_temperature, 'degC', 1, system)}."


def _section(year: WinterYear, system: str) -> Iterator[Block]:
    number = deepest_frost(year)
    supports = supports_of(year.vault, year.house)
    yield Figure(
        sheet=week_sheet(year, number, supports=supports, system=system),
        caption=f"{_week_words(number)}, when the frost is deepest. Frozen ground is shaded, its edge "
        "toothed towards the ice; thin lines are equally warm.",
    )
    yield Figure(sheet=months_sheet(year), caption="In the middle of each month.")


def _week_words(number: int) -> str:
    """A week in words: early, mid or late in its month."""
    day = 7 * number + 3
    for month, length in enumerate((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)):
        if day < length:
            third = ("Early", "Mid", "Late")[min(3 * day // length, 2)]
            return f"{third} {MONTH_NAMES[month]}"
        day -= length
    return "Late December"


def _advice(year: WinterYear, system: str) -> Iterator[Block]:
    found = advice(year, system)
    if found:
        yield Heading(text="What would take less", level=2)
        yield Points(items=tuple(plain(one.text) for one in found))


def _wood(year: WinterYear, system: str) -> Iterator[Block]:
    if year.fire is None or year.heat <= 0.0:
        return
    wood = year.fire.wood_for(year.heat)
    yield Heading(text="The wood of one year", level=2)
    yield Figure(
        sheet=pile_sheet(wood, system=system),
        caption=f"{show(wood.volume, 'm3', 1, system)} of {wood.species} as it lies, "
        f"{show(wood.mass, 'kg', 0, system)} at {wood.moisture:.0%} water.",
    )


def _closes(year: WinterYear) -> str:
    return (
        "kWh a month. What goes out of a month and does not come in was kept by ground and walls. "
        "In and out of "
        f"the year differ by {year.balance.error:.0e} of it."
    )


def _months(year: WinterYear, system: str) -> Iterator[Block]:
    room, out = (row.reshape(365, 24).mean(axis=1) for row in (year.shown.room, year.weather.temperature))
    ends = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
    rows = []
    for month in range(12):
        days = slice(int(ends[month]), int(ends[month + 1]))
        heat = float(year.balance.gains["stove"][month])
        wood = "" if year.fire is None else show(year.fire.wood_for(heat).volume, "m3", 2, system)
        rows.append(
            (
                MONTH_NAMES[month],
                show(float(out[days].mean()), "degC", 1, system),
                show(float(room[days].mean()), "degC", 1, system),
                f"{heat / KWH:.0f}",
                wood,
                f"{float(year.balance.gains['sun'][month]) / KWH:.0f}",
            )
        )
    yield Table(
        head=("month", "outdoors", "room", "heat, kWh", "wood", "sun, kWh"), rows=tuple(rows), strong=(3,)
    )


def _glasses(year: WinterYear) -> Iterator[Block]:
    if year.glasses is None:
        return
    name, rows = year.glasses
    yield Heading(text=f"Other glass in {plain(name)}", level=2)
    yield Table(
        head=("glass", "U, W/m²K", "g", "sun", "lost", "left"),
        rows=tuple(
            (
                window.glass.name,
                f"{window.u:.2f}",
                f"{window.g:.2f}",
                f"{balance.gain / KWH:.0f}",
                f"{balance.loss / KWH:.0f}",
                f"{balance.net / KWH:.0f}".replace("-", "−"),
            )
            for window, balance in rows
        ),
        caption=(
            "kWh for a square metre of hole in the days that need heat, at 20 °C inside, without shutter."
        ),
        strong=(5,),
    )


def _figures(year: WinterYear, system: str) -> Iterator[Block]:
    yield Heading(text="The figures and how they are found", level=2)
    rows = tuple(
        (
            plain(step.says),
            plain(step_words(step, system).line),
            plain(short_source(step.cite)) if step.cite else "",
        )
        for step in working(year)
    )
    yield Table(
        head=("what", "working", "source"),
        rows=rows,
        align="lll",
        widths=(4, 6, 2),
    )
    yield Para(
        "The room's balance is solved every hour of the year with the ground as a reduced model "
        "of the section "
        f"({len(year.ground.mesh.points)} points, {year.ground.model.decay.size} modes), which lies within "
        f"{year.ground.model.error} of the full one. The heat of freezing closes to "
        f"{year.frost.balance:.0e}.",
        small=True,
    )


def _assumed(year: WinterYear) -> Iterator[Block]:
    yield Heading(text="What was assumed", level=2)
    yield Points(items=tuple(plain(f"{one[0].upper()}{one[1:]}") for one in year.assumed))
