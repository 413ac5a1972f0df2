"""One value of the file to what the model holds, by the kind of its field.

Raises `QuantityError` with a sentence that says what to write.
"""

from __future__ import annotations

import difflib
import itertools
import math
import re
from typing import TYPE_CHECKING, Any, assert_never

from bermwright.base.errors import QuantityError
from bermwright.base.units import DIMENSIONS, parse, parse_exact, parse_money, parse_pair
from bermwright.house.fields import (
    Choice,
    Cost,
    Day,
    Number,
    Path,
    Quantity,
    Size,
    Whole,
    Words,
    YesNo,
)

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.base.ranges import Range
    from bermwright.base.units import Money

Plain = Quantity | Whole | Number | Choice | YesNo | Words | Day | Size | Path | Cost
"""Kinds that are a single value."""

_LONGEST_TEXT = 500


def value_of(raw: Any, kind: Plain) -> object:  # noqa: ANN401  (whatever TOML holds)
    """The value of a field from what TOML holds."""
    match kind:
        case Quantity():
            return _quantity(raw, kind)
        case Whole():
            return _whole(raw, kind)
        case Number():
            return _number(raw, kind)
        case Choice():
            return _choice(raw, kind)
        case YesNo():
            return _yes_no(raw)
        case Words():
            return _words(raw, kind)
        case Day():
            return _day(raw)
        case Size():
            return _size(raw, kind)
        case Path():
            return _path(raw, kind)
        case Cost():
            return _cost(raw, kind)
        case _:
            assert_never(kind)


def _text(raw: object, says: str, example: str) -> str:
    if isinstance(raw, str):
        if len(raw) > _LONGEST_TEXT:
            raise QuantityError(f"The text is longer than {_LONGEST_TEXT} letters.")
        return raw
    if isinstance(raw, bool):
        raise QuantityError(
            f'{str(raw).lower()} is no value here; {says} is due. Write for example "{example}".'
        )
    if isinstance(raw, int | float):
        raise QuantityError(f"A number stands here without quotes; {says} is due. {_quoted(raw, example)}")
    raise QuantityError(f'{_kind_of(raw)} stands here; {says} is due. Write for example "{example}".')


def _quoted(raw: float, example: str) -> str:
    unit = re.sub(r"^[\d.:+-]+ ?", "", example)
    if not math.isfinite(raw) or not unit:
        return f'Write for example "{example}".'
    return f'Write "{raw} {unit}" if you mean {unit}.'


def _kind_of(raw: object) -> str:
    match raw:
        case dict():
            return "A table"
        case list():
            return "A list"
        case _:
            return "Another kind of value"


def _quantity(raw: object, kind: Quantity) -> float | Range:
    due = DIMENSIONS[kind.dimension]
    text = _text(raw, due.says, due.example)
    if not kind.ranged:
        value = parse_exact(text, kind.dimension)
        _inside((value, value), kind)
        return value
    found = parse(text, kind.dimension)
    _inside((found.low, found.high), kind)
    return found


def _inside(ends: tuple[float, float], kind: Quantity) -> None:
    low, high = kind.bounds
    slack = (
        1e-9 * max(abs(value) for value in (low, high) if math.isfinite(value))
        if kind.low or kind.high
        else 0.0
    )
    # "not (a and b)" so that a NaN, should one ever get here, is refused and not let through.
    if not (low - slack <= ends[0] and ends[1] <= high + slack):
        raise QuantityError(f"It must lie from {kind.low} to {kind.high}: {kind.because}.")


def _whole(raw: object, kind: Whole) -> int:
    if isinstance(raw, str):
        raise QuantityError(f"A whole number is due, without quotes. {_from_to(kind)}")
    if isinstance(raw, bool) or not isinstance(raw, int):
        raise QuantityError(f"A whole number is due. {_from_to(kind)}")
    if not kind.low <= raw <= kind.high:
        raise QuantityError(f"{_from_to(kind)}")
    return raw


def _from_to(kind: Whole | Number) -> str:
    because = f": {kind.because}" if kind.because else ""
    return f"It must lie from {kind.low:g} to {kind.high:g}{because}."


def _number(raw: object, kind: Number) -> float:
    if isinstance(raw, bool) or not isinstance(raw, int | float):
        raise QuantityError(f"A number is due, without quotes and without a unit. {_from_to(kind)}")
    if not kind.low <= raw <= kind.high:
        raise QuantityError(_from_to(kind))
    return float(raw)


def _choice(raw: object, kind: Choice) -> object:
    words = [str(option) for option in kind.options]
    text = _text(raw, "a word", words[0])
    if text in words:
        return kind.options(text)
    if text in kind.later:
        raise QuantityError(f'"{text}" is not read yet; so far there is: {_listed(words)}.')
    raise QuantityError(f"Allowed are: {_listed(words)}.{nearest(text, words)}")


def _listed(words: Sequence[str]) -> str:
    return ", ".join(f'"{word}"' for word in words)


def nearest(text: str, words: Sequence[str]) -> str:
    """The question whether a near word was meant; nothing where none is near."""
    folded = {word.lower(): word for word in words}
    near = difflib.get_close_matches(text.lower(), list(folded), n=1, cutoff=0.5)
    return f' Did you mean "{folded[near[0]]}"?' if near else ""


def _yes_no(raw: object) -> bool:
    if isinstance(raw, bool):
        return raw
    text = _text(raw, "yes or no", "yes")
    if text not in {"yes", "no"}:
        raise QuantityError(f'"yes" or "no" is due.{nearest(text, ["yes", "no"])}')
    return text == "yes"


def _words(raw: object, kind: Words) -> str:
    text = _text(raw, "a text", kind.options[0] if kind.options else "in plain words")
    if not text.strip():
        raise QuantityError("The text is empty. Write it, or take the line out.")
    if kind.options and text not in kind.options:
        raise QuantityError(f"Allowed are: {', '.join(kind.options)}.{nearest(text, kind.options)}")
    if kind.name and any(sign in text for sign in '"\n\t\\'):
        raise QuantityError('A name has no " or \\ in it and stands on one line.')
    return text


def _day(raw: object) -> str:
    import datetime

    if isinstance(raw, datetime.date) and not isinstance(raw, datetime.datetime):
        return raw.isoformat()
    text = _text(raw, "a day", "2027-06-01")
    if not re.fullmatch(r"\d{4}-\d{2}-\d{2}", text, re.ASCII):
        raise QuantityError('A day is written year-month-day. Write for example "2027-06-01".')
    try:
        datetime.date.fromisoformat(text)
    except ValueError:
        raise QuantityError("The calendar has no such day.") from None
    return text


def _size(raw: object, kind: Size) -> object:
    text = _text(raw, f"{kind.words[0]} x {kind.words[1]}", "32 x 195 mm")
    sizes = parse_pair(text)
    for value, one, word in zip(sizes, (kind.first, kind.second), kind.words, strict=True):
        low, high = one.bounds
        if not low <= value <= high:
            raise QuantityError(f"The {word} must lie from {one.low} to {one.high}: {one.because}.")
    return kind.of(*sizes)


def _path(raw: object, kind: Path) -> tuple[tuple[float, float], ...]:
    example = '[["-8 m", "0 m"], ["8 m", "0 m"]]'
    if not isinstance(raw, list) or len(raw) < kind.least:
        raise QuantityError(f"A list of at least {kind.least} points is due. Write for example {example}.")
    points = tuple(_point(entry, count, example) for count, entry in enumerate(raw, 1))
    if kind.rising:
        for count, (first, second) in enumerate(itertools.pairwise(points), 1):
            if second[0] <= first[0]:
                raise QuantityError(
                    f"Points run from left to right; point {count + 1} is not right of point {count}."
                )
    return points


def _point(entry: object, count: int, example: str) -> tuple[float, float]:
    if not isinstance(entry, list) or len(entry) != 2:
        raise QuantityError(f"Point {count} is not two lengths. Write for example {example}.")
    try:
        across, up = (parse_exact(_text(part, "a length", "1.2 m"), "level") for part in entry)
    except QuantityError as error:
        raise QuantityError(f"Point {count}: {error}") from None
    return across, up


def _cost(raw: object, kind: Cost) -> Money:
    found = parse_money(_text(raw, "a price", f"12.50 EUR/{kind.per}"))
    if found.per != kind.per:
        raise QuantityError(
            f'This price is per {kind.per}. Write for example "12.50 {found.currency}/{kind.per}".'
        )
    return found
