"""What runs in the workers: plain functions that take and give plain things."""

from __future__ import annotations

import signal
import threading
from contextlib import suppress
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.app.live.nouns import Found

_HERE: dict[str, Any] = {}


class Stopped(Exception):  # noqa: N818  (nothing is wrong: somebody has had enough)
    """The job was told to end."""


def begin(stops: Any, lines: Any) -> None:  # noqa: ANN401  (shared between processes)
    """Remember by what a worker is told to end and where it tells how far it is."""
    _HERE["stops"], _HERE["lines"] = stops, lines
    if threading.current_thread() is threading.main_thread() and "tests" not in _HERE:
        with suppress(ValueError):
            # Ctrl-C in the terminal goes to every process of the group: the server ends its workers itself.
            signal.signal(signal.SIGINT, signal.SIG_IGN)


def warm() -> None:
    """Load what every run needs, so that the first one does not wait for it."""
    from bermwright.app.live import full, scene  # noqa: F401
    from bermwright.handbook.frames import kernel  # noqa: F401


def teller(number: int) -> Callable[[str], None]:
    """The progress line of a job; it ends the job once that is wanted."""

    def told(step: str) -> None:
        stops = _HERE["stops"]
        if stops[number % len(stops)]:
            raise Stopped
        _HERE["lines"].put((number, step))

    return told


def full(number: int, text: str, name: str) -> Found:
    """Every rule on the house of a text."""
    from bermwright.app.live.full import full_run
    from bermwright.formats.house_file import read

    opened = read(text, name)
    return full_run(opened.house, opened.not_read, progress=teller(number))[1]
