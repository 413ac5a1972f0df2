"""The year for the terminal: sentences, what does not hold, what would take less, the months, the working."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.adapt.winter.telling.findings import findings_of
from bermwright.adapt.winter.telling.saying import advice, sentences
from bermwright.adapt.winter.telling.working import working
from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES, finding_words, step_words
from bermwright.formats.assessment_text import CLOSING, wrapped

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.winter.winter import WinterYear

KWH = 3.6e6


def winter_text(house: str, years: Sequence[WinterYear], system: str = "metric") -> str:
    """Every vault of a house."""
    lines = [f"{house}: the year by the hour"]
    for year in years:
        lines += ["", *_vault(year, system)]
    return "\n".join([*lines, "", CLOSING])


def _vault(year: WinterYear, system: str) -> Iterator[str]:
    name = year.vault.name
    yield name
    yield "=" * min(len(name), 92)
    for sentence in sentences(year, system):
        yield wrapped(f"- {sentence}")
    yield ""
    for finding in findings_of(year):
        words = finding_words(finding, system)
        ratio = f"  {words.ratio}" if words.ratio else ""
        yield wrapped(f"{words.verdict.upper()}{ratio}  {words.says}")
        if words.advice:
            yield wrapped(words.advice, "    ")
    yield from _less(year, system)
    yield from _months(year, system)
    yield from _glasses(year)
    yield from _figures(year, system)


def _less(year: WinterYear, system: str) -> Iterator[str]:
    found = advice(year, system)
    if found:
        yield ""
        yield "What would take less"
        yield from (wrapped(f"- {one.text}", "  ") for one in found)


def _months(year: WinterYear, system: str) -> Iterator[str]:
    out, room = (row.reshape(365, 24).mean(axis=1) for row in (year.weather.temperature, year.shown.room))
    yield ""
    yield "Month       outdoors       room    heat kWh     sun kWh"
    first = 0
    for month, length in enumerate((31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)):
        days = slice(first, first + length)
        first += length
        cold, warm = (show(float(row[days].mean()), "degC", 1, system) for row in (out, room))
        heat, sun = (float(year.balance.gains[name][month]) / KWH for name in ("stove", "sun"))
        yield f"{MONTH_NAMES[month]:<10} {cold:>9}  {warm:>9}  {heat:>10.0f}  {sun:>10.0f}"


def _glasses(year: WinterYear) -> Iterator[str]:
    if year.glasses is None:
        return
    name, rows = year.glasses
    yield ""
    yield wrapped(
        f"Other glass in {name}: kWh for a square metre of hole in the days that need heat (sun "
        "less lost is left)"
    )
    for window, balance in rows:
        figures = f"{balance.gain / KWH:5.0f} - {balance.loss / KWH:5.0f} = {balance.net / KWH:5.0f}"
        yield f"  {window.glass.name:<28} U {window.u:.2f}  g {window.g:.2f}   {figures.replace('-', '−')}"


def _figures(year: WinterYear, system: str) -> Iterator[str]:
    yield ""
    yield "The figures and how they are found"
    for step in working(year):
        words = step_words(step, system)
        source = f" [{words.source}]" if words.source else ""
        yield wrapped(f"{words.says}: {words.line}{source}", "  ")
    yield wrapped(
        f"In and out of the year differ by {year.balance.error:.0e}; the reduced ground lies within "
        f"{year.ground.model.error} of the full one.",
        "  ",
    )
    yield ""
    yield "What was assumed"
    yield from (wrapped(f"- {one}", "  ") for one in year.assumed)
