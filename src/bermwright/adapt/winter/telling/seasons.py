"""When the house heats itself, and what its coldest days are like."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.takeoff import day_text

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]

DAYS = 365
LITTLE = 0.10
"""Share of the hardest day's heat under which nobody would light a fire."""
LONG = 10
"""Days over which hours no longer matter."""
SHORTEST = 7
"""Fewer days in a row are no season."""


def by_days(hourly: Array) -> Array:
    """Means of the days."""
    return np.asarray(np.mean(np.reshape(hourly, (DAYS, 24)), axis=1))


def hardest_day(heat: Array) -> tuple[int, float]:
    """Day of the year, counted from 0, that takes most heat, and its mean (W)."""
    days = by_days(heat)
    return int(np.argmax(days)), float(days.max())


def without_fire(heat: Array) -> tuple[int, int] | None:
    """First and last day (from 0) of the longest run of days without a fire; None where there is none."""
    days = by_days(heat)
    if days.max() <= 0.0:
        return 0, DAYS - 1
    idle = days < LITTLE * days.max()
    best, length, begins = (0, 0), 0, 0
    for place in range(2 * DAYS):
        if not idle[place % DAYS]:
            length = 0
            continue
        begins = place if length == 0 else begins
        length += 1
        if length > best[1]:
            best = (begins, length)
    if best[1] < SHORTEST:
        return None
    return best[0] % DAYS, (best[0] + min(best[1], DAYS) - 1) % DAYS


def date(day: int) -> str:
    """A day counted from 0 as day and month."""
    return day_text(day % DAYS + 1)


def span_text(hours: int) -> str:
    """A time in days and hours.

    >>> span_text(7), span_text(119), span_text(48), span_text(400)
    ('7 h', '4 days 23 h', '2 days', '16 days')
    """
    days, rest = divmod(hours, 24)
    if days == 0:
        return f"{rest} h"
    text = f"{days} day{'s' if days > 1 else ''}"
    return text if rest == 0 or days >= LONG else f"{text} {rest} h"
