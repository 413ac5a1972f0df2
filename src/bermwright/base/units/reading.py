"""Text of people to SI numbers. Nothing is guessed: what could be read in two ways is refused.

`parse` reads a value or a range of a dimension; feet and inches are in `feet.py`, the words of the
refusals in `teaching.py`.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from bermwright.base.errors import QuantityError
from bermwright.base.ranges import Range
from bermwright.base.units.dimensions import DIMENSIONS, Dimension
from bermwright.base.units.feet import read_feet
from bermwright.base.units.teaching import (
    dots_and_commas,
    missing_unit,
    no_number,
    reversed_range,
    turned_slope,
    two_dots,
    unknown_unit,
    write,
    wrong_dimension,
)

if TYPE_CHECKING:
    from bermwright.base.units.atoms import Unit

NUMBER = r"[+-]?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?"
_AMOUNT = re.compile(rf"({NUMBER})\s*(.*)", re.ASCII | re.DOTALL)
_SLOPE = re.compile(r"([+-]?)(\d+(?:\.\d+)?)\s*:\s*(\d+(?:\.\d+)?)", re.ASCII)
_PAIR = re.compile(r"\s*[x×]\s*")
_HALVES = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
_LONGEST = 80


def parse(text: str, dimension: str) -> Range:
    """Read a value or a range `a..b` of a dimension of `DIMENSIONS`, as SI.

    Angles and slopes come in radians, temperatures in degC, work in person-hours. Raises
    `QuantityError` with a message that says what to write.

    >>> parse("22..30 deg", "angle") == Range(math.radians(22), math.radians(30))
    True
    >>> parse("5 ft 3 1/2 in", "length").low, parse("18 kN/m3", "unit weight").low
    (1.6129, 18000.0)
    """
    due = DIMENSIONS[dimension]
    plain = _tidy(text, due)
    ends = [end.strip() for end in plain.split("..")]
    if len(ends) > 2 or "" in ends or "..." in plain:  # noqa: PLR2004  (two ends make a range)
        raise QuantityError(two_dots(plain, due))
    if len(ends) == 1:
        value = _one(plain, due)
        return Range(value, value)
    low, high = _one(_with_unit_of(ends[0], ends[1], due), due), _one(ends[1], due)
    if low > high:
        raise QuantityError(reversed_range(ends[0], ends[1], due))
    return Range(low, high)


def parse_exact(text: str, dimension: str) -> float:
    """Read one value; a range is refused.

    >>> parse_exact("-13 degF", "temperature")
    -25.0
    """
    found = parse(text, dimension)
    if not found.exact:
        raise QuantityError(
            f'"{text.strip()}" is a range; one value is due here. {write(DIMENSIONS[dimension])}'
        )
    return found.low


def parse_pair(text: str, dimension: str = "length") -> tuple[float, float]:
    """Read `32 x 195 mm` (or `2 x 8 in`, `32 mm x 195 mm`) as two values.

    >>> parse_pair("32 x 195 mm")
    (0.032, 0.195)
    """
    due = DIMENSIONS[dimension]
    parts = _PAIR.split(_tidy(text, due))
    if len(parts) != 2 or not all(parts):  # noqa: PLR2004  (a pair)
        raise QuantityError(
            f'"{text.strip()}" is not two measures. Write for example "32 x 195 mm" or "2 x 8 in".'
        )
    return _one(_with_unit_of(parts[0], parts[1], due), due), _one(parts[1], due)


def _tidy(text: str, due: Dimension) -> str:
    plain = text.replace("−", "-").replace("–", "-")
    plain = re.sub(r"^\s*±\s*(?=0)", "", plain) if due.name == "level" else plain
    for sign, spelled in _HALVES.items():
        plain = plain.replace(sign, spelled)
    plain = " ".join(plain.split())
    if not plain:
        raise QuantityError(f"Nothing is written here; {due.says} is due. {write(due)}")
    if len(plain) > _LONGEST:
        raise QuantityError(f"{plain[:20]!r}... is too long for {due.says}. {write(due)}")
    return plain


def _with_unit_of(first: str, second: str, due: Dimension) -> str:
    """The first end of a range or pair, with the unit of the second where it has none."""
    bare = re.fullmatch(rf"(?:{NUMBER}|(?:\d+ )?\d+/\d+)", first, re.ASCII)
    if bare is None:
        return first
    if due.name in {"length", "thickness", "level"} and re.search(r"in$|\"$", second):
        return f"{first} in" if not re.search(r"ft|'", second) else first
    unit = _AMOUNT.fullmatch(second)
    return f"{first} {unit[2]}" if unit else first


def _one(text: str, due: Dimension) -> float:
    if due.name == "slope" and ":" in text:
        return _ratio(text, due)
    if due.name in {"length", "thickness", "level"}:
        feet = read_feet(text)
        if feet is not None:
            return feet
    found = _AMOUNT.fullmatch(text)
    if found is None:
        raise QuantityError(no_number(text, due))
    return _sized(text, float(found[1]), found[2], due)


def _sized(text: str, value: float, unit: str, due: Dimension) -> float:
    problem = dots_and_commas(text, value, unit, due)
    if problem:
        raise QuantityError(problem)
    if due.name in {"number", "count"}:
        return _plain(text, value, unit, due)
    if not unit or re.fullmatch(r"/ ?\d+", unit):
        raise QuantityError(missing_unit(text, due))
    if due.name == "slope" and unit == "%":
        return math.atan(value / 100.0)
    known = due.read_unit(unit)
    if known is None:
        raise QuantityError(unknown_unit(text, unit, due))
    return _checked(text, value, unit, known, due)


def _checked(text: str, value: float, unit: str, known: Unit, due: Dimension) -> float:
    if known.powers != due.powers or unit in {"-", "1", "level", "slope"}:
        raise QuantityError(wrong_dimension(text, value, unit, due))
    return known.si(value)


def _plain(text: str, value: float, unit: str, due: Dimension) -> float:
    if unit == "%" and due.name == "number":
        return value / 100.0
    if unit:
        raise QuantityError(f'"{text}" has a unit; {due.says} is due, without one. {write(due)}')
    if due.name == "count" and not value.is_integer():
        raise QuantityError(f'"{text}" is not a whole number. {write(due)}')
    return value


def _ratio(text: str, due: Dimension) -> float:
    found = _SLOPE.fullmatch(text)
    if found is None:
        raise QuantityError(f'"{text}" is not a slope. {write(due)}')
    up, along = float(found[2]), float(found[3])
    if not up or not along:
        raise QuantityError(f'"{text}" has a zero. A level surface is "0 deg". {write(due)}')
    if up != 1.0:
        raise QuantityError(turned_slope(text, up, along))
    angle = math.atan(up / along)
    return -angle if found[1] == "-" else angle
