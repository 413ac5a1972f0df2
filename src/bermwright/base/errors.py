"""One root for every error that bermwright raises on purpose."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any


class BermwrightError(Exception):
    """Something that a person can put right; the message says how."""

    def __reduce__(self) -> tuple[Any, ...]:
        """Go from process to process whole, also where `__init__` is given other things than the message."""
        return _again, (type(self), self.args, dict(self.__dict__))


def _again(kind: type[BermwrightError], args: tuple[Any, ...], known: dict[str, Any]) -> BermwrightError:
    error = kind.__new__(kind, *args)
    error.args = args
    error.__dict__.update(known)
    return error


class OutOfRangeError(BermwrightError, ValueError):
    """A handbook function was asked outside the range for which its source holds."""


class QuantityError(BermwrightError, ValueError):
    """A text that is not the quantity that is due; the message teaches the right form."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One mistake in a house file.

    `place` is the table path as a builder would say it (`vault "day room" > span`), `line` counts
    from 1 (None when the mistake has no line, such as a missing table).
    """

    place: str
    line: int | None
    given: str
    allowed: str
    advice: str

    def __str__(self) -> str:
        where = f"line {self.line}: " if self.line else ""
        given = f" ({self.given})" if self.given else ""
        return f"{where}{self.place}{given}: {self.allowed} {self.advice}".rstrip()


class HouseFileError(BermwrightError):
    """Everything that is wrong with a house file, all at once."""

    def __init__(self, path: str, mistakes: tuple[Mistake, ...]) -> None:
        self.path = path
        self.mistakes = mistakes
        things = "1 thing" if len(mistakes) == 1 else f"{len(mistakes)} things"
        lines = [f"{path}: {things} to put right"]
        super().__init__("\n".join(lines + [f"  {mistake}" for mistake in mistakes]))
