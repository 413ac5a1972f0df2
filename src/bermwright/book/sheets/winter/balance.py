"""Where warmth comes from and where it goes, month by month: gains up, losses down."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.wording import MONTH_NAMES
from bermwright.book.sheets.paper import CAPTION

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.adapt.winter.winter import WinterYear

    Array = NDArray[np.float64]
    Style = tuple[Wash, Hatch]

KWH = 3.6e6
LEFT, RIGHT, TALL = 17.0, 46.0, 96.0
UP: Mapping[str, Style] = {
    "stove": (Wash.GREY, Hatch.NONE),
    "sun": (Wash.PAPER, Hatch.NONE),
    "people": (Wash.PALE, Hatch.NONE),
    "cooking": (Wash.INSULATION, Hatch.NONE),
    "animals": (Wash.EARTH, Hatch.NONE),
    "electric": (Wash.SNOW, Hatch.NONE),
}
"""Gains in the order in which they are stacked, and how each is drawn."""
DOWN: Mapping[str, Style] = {
    "shell and ground": (Wash.INSITU, Hatch.EARTH_IN_PLACE),
    "fresh air": (Wash.COLD, Hatch.NONE),
    "windows and doors": (Wash.PAPER, Hatch.NONE),
    "end walls": (Wash.LAGGING, Hatch.TIMBER_ACROSS),
    "opened windows": (Wash.SNOW, Hatch.SNOW),
}
"""The same of losses."""
LITTLE = 0.01
"""Share of the year under which a way of warmth joins the rest."""


def balance_sheet(year: WinterYear, *, width: float = 174.0) -> Sheet:
    """Bars of the months; the same height goes up and down but for what is kept from month to month."""
    gains = {name: year.balance.gains[name] for name in UP if name in year.balance.gains}
    losses = _grouped(year)
    most = max(_peak(gains), _peak(losses), KWH)
    return Sheet(
        width=width,
        height=TALL + 14.0,
        items=tuple(_items(gains, losses, most / KWH, width)),
        title="Where the warmth comes from and where it goes",
        alt=", ".join(f"{name} {row.sum() / KWH:.0f} kWh" for name, row in (*gains.items(), *losses.items())),
    )


def _grouped(year: WinterYear) -> dict[str, Array]:
    """Losses in their order; windows and end walls joined."""
    found: dict[str, Array] = {}
    for name, row in year.balance.losses.items():
        group = _group(year, name)
        if group:
            found[group] = found.get(group, np.zeros(12)) + row
    whole = sum(float(row.sum()) for row in found.values())
    return {name: found[name] for name in DOWN if name in found and found[name].sum() > LITTLE * whole}


def _group(year: WinterYear, name: str) -> str:
    if name in year.opening_areas:
        return "windows and doors"
    if " end" in name:
        return "end walls"
    return "" if name == "kept inside" else name


def _peak(rows: Mapping[str, Array]) -> float:
    return float(np.max(sum((np.maximum(row, 0.0) for row in rows.values()), np.zeros(12))))


def _items(
    gains: Mapping[str, Array], losses: Mapping[str, Array], most: float, width: float
) -> Iterator[Item]:
    wide = (width - LEFT - RIGHT) / 12.0
    middle = 0.5 * TALL + 7.0
    factor = (0.5 * TALL - 4.0) / most
    step = _round(most / 3.0)
    for count in range(-3, 4):
        y = middle + count * step * factor
        if abs(count) * step <= most * 1.02:
            pen = Pen.SEEN if count == 0 else Pen.HATCH
            yield Stroke(path=((LEFT, y), (width - RIGHT, y)), pen=pen, layer="axis")
            text = f"{abs(count) * step:.0f}" + (
                " kWh" if count in {3, 2} and (count + 1) * step > most else ""
            )
            yield Text(
                at=(LEFT - 1.5, y - 0.5 * CAPTION), text=text, height=CAPTION, anchor="end", halo=False
            )
    for rows, styles, sign in ((gains, UP, 1.0), (losses, DOWN, -1.0)):
        yield from _bars(rows, styles, sign, (wide, middle, factor))
        yield from _legend(rows, styles, sign, (width, middle))
    for month in range(12):
        x = LEFT + (month + 0.5) * wide
        yield Text(at=(x, 1.0), text=MONTH_NAMES[month][:3], height=CAPTION, anchor="middle", halo=False)


def _bars(
    rows: Mapping[str, Array], styles: Mapping[str, Style], sign: float, place: tuple[float, float, float]
) -> Iterator[Item]:
    wide, middle, factor = place
    stand = np.zeros(12)
    for name, row in rows.items():
        wash, hatch = styles[name]
        for month in range(12):
            amount = max(float(row[month]) / KWH, 0.0) * factor
            if amount < 0.15:
                continue
            left = LEFT + (month + 0.14) * wide
            low, high = middle + sign * stand[month], middle + sign * (stand[month] + amount)
            box = ((left, low), (left + 0.72 * wide, low), (left + 0.72 * wide, high), (left, high))
            yield Area(path=box, wash=wash, hatch=hatch, outline=Pen.LAYER, layer="bars")
            stand[month] += amount


def _legend(
    rows: Mapping[str, Array], styles: Mapping[str, Style], sign: float, place: tuple[float, float]
) -> Iterator[Item]:
    """Names beside the bars, in the order in which they are stacked, with the year's sum."""
    width, middle = place
    x = width - RIGHT + 4.0
    count = len(rows)
    for number, (name, row) in enumerate(rows.items()):
        wash, hatch = styles[name]
        y = middle + sign * 4.0 + sign * number * 6.4 - (0.0 if sign > 0 else 3.4)
        box = ((x, y), (x + 6.0, y), (x + 6.0, y + 3.4), (x, y + 3.4))
        yield Area(path=box, wash=wash, hatch=hatch, outline=Pen.LAYER, layer="legend")
        yield Text(at=(x + 8.0, y + 1.3), text=name, height=CAPTION, halo=False)
        yield Text(at=(x + 8.0, y - 1.6), text=f"{row.sum() / KWH:.0f} kWh", height=CAPTION, halo=False)
    word = "comes in" if sign > 0 else "goes out"
    y = middle + sign * (4.0 + 6.4 * count) - (0.0 if sign > 0 else 3.4)
    yield Text(at=(x, y), text=word, height=CAPTION + 0.5, strong=True, halo=False)


def _round(value: float) -> float:
    """A fair step of a scale."""
    size = 10.0 ** np.floor(np.log10(max(value, 1.0)))
    return float(next(one * size for one in (1.0, 2.0, 2.5, 5.0, 10.0) if one * size >= value))
