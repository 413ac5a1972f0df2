"""The year as a strip: outdoors, the room, the ground under the footing, the band of comfort, the frost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.telling.picture import WEEKS, week_of
from bermwright.adapt.winter.telling.seasons import by_days, date
from bermwright.base.drawing import Area, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.units import show
from bermwright.base.wording import MONTH_NAMES
from bermwright.book.sheets.paper import CAPTION, Board, figure, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.adapt.winter.winter import WinterYear

    Array = NDArray[np.float64]

LEFT, RIGHT, TALL, FROST = 17.0, 3.0, 62.0, 20.0
STEP = 10.0
"""Degrees between two lines of the scale (K)."""
FIRST_OF_MONTH = np.array([0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365])


def year_sheet(year: WinterYear, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """Temperatures through the year over the depth of frost in open ground."""
    height = TALL + FROST + 18.0
    return Sheet(
        width=width,
        height=height,
        items=tuple(_items(year, width, system)),
        title=f"The year of {year.vault.name}",
        alt=_alt(year, system),
    )


def _alt(year: WinterYear, system: str) -> str:
    room, out = year.shown.room, year.weather.temperature
    return (
        f"Outdoors from {show(float(out.min()), 'degC', 0, system)} to "
        f"{show(float(out.max()), 'degC', 0, system)}, "
        f"the room from {show(float(room.min()), 'degC', 0, system)} to "
        f"{show(float(room.max()), 'degC', 0, system)}."
    )


class _Scale:
    """Days and degrees on the sheet."""

    def __init__(self, low: float, high: float, width: float) -> None:
        self.low, self.high, self.wide = low, high, width - LEFT - RIGHT
        self.base = FROST + 14.0

    def x(self, day: Array | float) -> Array:
        """Place of a day (mm)."""
        return np.asarray(LEFT + np.asarray(day, dtype=float) / 365.0 * self.wide)

    def y(self, degrees: Array | float) -> Array:
        """Place of a temperature (mm)."""
        share = (np.asarray(degrees, dtype=float) - self.low) / (self.high - self.low)
        return np.asarray(self.base + TALL * share)

    def path(self, days: Array, degrees: Array) -> tuple[tuple[float, float], ...]:
        """A curve."""
        return tuple(zip(self.x(days).tolist(), self.y(degrees).tolist(), strict=True))


def _items(year: WinterYear, width: float, system: str) -> Iterator[Item]:
    days = np.arange(365.0) + 0.5
    out, room = by_days(year.weather.temperature), by_days(year.shown.room)
    footing = np.min(
        [by_days(row) for name, row in year.watch.items() if name.startswith("under footing")], axis=0
    )
    low = STEP * np.floor(min(out.min(), footing.min(), room.min()) / STEP)
    high = STEP * np.ceil(max(out.max(), room.max(), by_days(year.comfort.high).max()) / STEP)
    scale = _Scale(float(low), float(high), width)
    yield from _grid(scale, system)
    band = np.concatenate([by_days(year.comfort.low), by_days(year.comfort.high)[::-1]])
    yield Area(path=scale.path(np.concatenate([days, days[::-1]]), band), wash=Wash.PALE, layer="comfort")
    board = Board()
    board.block(
        (scale.x(0.0).item(), scale.y(float(room.min())).item()), (width, scale.y(float(room.max())).item())
    )
    yield Stroke(path=scale.path(days, out), pen=Pen.DIMENSION, layer="outdoors")
    yield Stroke(path=scale.path(days, footing), pen=Pen.HIDDEN, layer="footing")
    yield Stroke(path=scale.path(days, room), pen=Pen.CUT, layer="room")
    yield from _names(scale, (out, room, footing), year, board)
    yield from _frost(year, scale, system)


def _grid(scale: _Scale, system: str) -> Iterator[Item]:
    right = scale.x(365.0).item()
    for level in np.arange(scale.low, scale.high + 0.5 * STEP, STEP):
        y = scale.y(level).item()
        pen = Pen.SEEN if level == 0.0 else Pen.HATCH
        yield Stroke(path=((LEFT, y), (right, y)), pen=pen, layer="axis")
        yield Text(
            at=(LEFT - 1.5, y - 0.5 * CAPTION), text=show(float(level), "degC", 0, system), height=CAPTION,
            anchor="end", halo=False,
        )  # fmt: skip
    for month in range(13):
        x = scale.x(float(FIRST_OF_MONTH[month])).item()
        yield Stroke(path=((x, scale.base - 1.5), (x, scale.base)), pen=Pen.SEEN, layer="axis")
    for month in range(12):
        middle = scale.x(0.5 * float(FIRST_OF_MONTH[month] + FIRST_OF_MONTH[month + 1])).item()
        yield Text(at=(middle, 1.0), text=MONTH_NAMES[month][:3], height=CAPTION, anchor="middle", halo=False)


def _names(scale: _Scale, rows: tuple[Array, Array, Array], year: WinterYear, board: Board) -> Iterator[Item]:
    out, room, footing = rows
    spots = (
        (out, "outdoors", (95, 60, 130, 285), -5.0),
        (footing, "ground under the footing", (265, 240, 300, 40), -5.0),
        (room, "the room" if year.house.heat is None or year.house.heat.warmed else "the room, "
            "not heated", (200, 150, 30), 2.2),
    )  # fmt: skip
    for row, text, days, over in spots:
        places = [
            note((scale.x(float(day)).item(), scale.y(float(row[day])).item() + more), text, "middle")
            for day in days
            for more in (over, -over, 2.0 * over)
        ]
        yield board.put(places)
    at = scale.x(4.0).item(), scale.y(float(by_days(year.comfort.high)[4])).item() + 1.2
    yield board.put((note(at, "the band in which people are content"),))


def _frost(year: WinterYear, scale: _Scale, system: str) -> Iterator[Item]:
    """Weekly depth of frost in open ground, hanging from its own line."""
    depths = [week_of(year, number).frozen for number in range(WEEKS)]
    deepest = max(*depths, 0.5)
    line = FROST + 6.0
    right = scale.x(365.0).item()
    yield Stroke(path=((LEFT, line), (right, line)), pen=Pen.SEEN, layer="axis")
    for number, depth in enumerate(depths):
        if depth > 0.0:
            left, end = scale.x(7.0 * number).item(), scale.x(min(7.0 * number + 7.0, 365.0)).item()
            low = line - (FROST - 2.0) * depth / deepest
            box = ((left, low), (end, low), (end, line), (left, line))
            yield Area(path=box, wash=Wash.COLD, outline=Pen.HATCH, layer="frost")
    for count, words in enumerate(("frost in", "open ground")):
        yield Text(at=(0.0, line - 3.0 - 3.2 * count), text=words, height=CAPTION, halo=False)
    if max(depths) > 0.0:
        worst = int(np.argmax(depths))
        idle = max(range(WEEKS), key=lambda week: min((week - at) % WEEKS for at in _frozen_weeks(depths)))
        place = scale.x(7.0 * (idle - 8)).item(), line - 6.5
        day = date(7 * worst + 6)
        yield figure(place, f"{show(depths[worst], 'm', 2, system)} deep about {day}", "middle")
    else:
        yield note((LEFT + 3.0, line - 5.0), "never frozen")


def _frozen_weeks(depths: list[float]) -> list[int]:
    """Weeks in which open ground is frozen."""
    return [week for week, depth in enumerate(depths) if depth > 0.0]
