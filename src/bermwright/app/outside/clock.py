"""The one look at the clock: everything below takes its date as an argument."""

from __future__ import annotations

import datetime as dt

from bermwright.base.errors import BermwrightError

_FIRST, _LAST = 1980, 2999


def time_of_day() -> str:
    """The hour and minute now, such as `09:41`."""
    return dt.datetime.now().astimezone().strftime("%H:%M")  # noqa: TID251  (the one place with a clock)


class DateError(BermwrightError, ValueError):
    """A text that is no date."""


def day(given: str | None) -> str:
    """The given day as ISO date; today where none is given.

    >>> day("2026-11-24")
    '2026-11-24'
    """
    if given is None:
        return dt.datetime.now().astimezone().date().isoformat()  # noqa: TID251  (the one place with a clock)
    try:
        date = dt.date.fromisoformat(given)
    except ValueError:
        raise DateError(f'"{given}" is no date. Write year, month and day: 2026-11-24.') from None
    if not _FIRST <= date.year <= _LAST:
        raise DateError(f"The date {given} must lie between {_FIRST} and {_LAST}.")
    return date.isoformat()
