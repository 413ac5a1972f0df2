"""What reaches the terminal: clean text, JSON, and a progress line where somebody looks."""

from __future__ import annotations

import json
import sys
import threading
import unicodedata
from typing import TYPE_CHECKING, Any, Self

if TYPE_CHECKING:
    from types import TracebackType

    from rich.status import Status
    from rich.text import Text

WORTH_SHOWING = 0.3
"""Work that is over sooner shows no progress (s)."""
WORTH_SAYING = 5.0
"""Where nobody looks at a terminal, work that takes longer says once what it is at (s)."""


def say(text: str) -> None:
    """Print an answer."""
    print(printable(text))


def complain(text: object) -> None:
    """Print what went wrong, beside the answer."""
    print(printable(str(text)), file=sys.stderr)


def say_json(data: Any) -> None:  # noqa: ANN401  (plain data of any shape)
    """Print JSON; a number that is none cannot be written."""
    print(json.dumps(data, indent=2, ensure_ascii=False, allow_nan=False))


def printable(text: str) -> str:
    r"""Text without signs that steer a terminal or turn a line round: names come from files.

    >>> printable("day\x1b[31m room\u202e")
    'day[31m room'
    """
    return "".join(
        letter
        for letter in text
        if letter == "\n" or unicodedata.category(letter) not in {"Cc", "Cf", "Cs", "Zl", "Zp"}
    )


class Progress:
    """A line on the error stream that says what is being done; nothing for quick work or into a file.

    Use it as a context manager and call it with each step.
    """

    def __init__(self) -> None:
        self._step = "reading"
        self._status: Status | None = None
        self._over = False
        self._lock = threading.Lock()
        self._watched = sys.stderr.isatty()
        self._timer = threading.Timer(WORTH_SHOWING if self._watched else WORTH_SAYING, self._show)
        self._timer.daemon = True

    def __call__(self, step: str) -> None:
        """Say the next step."""
        with self._lock:
            self._step = printable(step)
            if self._status is not None:
                self._status.update(self._line())

    def __enter__(self) -> Self:
        self._timer.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._timer.cancel()
        with self._lock:
            self._over = True
            if self._status is not None:
                self._status.stop()

    def _show(self) -> None:
        """After a while, unless all is over by then."""
        with self._lock:
            if self._over:
                return
            if self._watched:
                self._start()
            else:
                complain(f"Working: {self._step} ...")

    def _start(self) -> None:
        from rich.console import Console
        from rich.status import Status

        self._status = Status(self._line(), console=Console(stderr=True))
        self._status.start()

    def _line(self) -> Text:
        """The step as text in which no bracket is markup."""
        from rich.text import Text

        return Text(self._step)
