"""A value of the model as it is written in a house file."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.ranges import Range
from bermwright.base.units import DIMENSIONS, convert
from bermwright.house.fields import Quantity
from bermwright.house.values import Board, Nail

if TYPE_CHECKING:
    from bermwright.house.fields import Kind

_FINEST = 10
"""Significant digits: finer than anybody measures, coarse enough to hide the rounding of floats."""


def as_toml(value: object, kind: Kind) -> str:
    """The value as it stands right of the sign =, quotes included.

    >>> as_toml(0.2, Quantity("length")), as_toml(True, Quantity("length"))
    ('"0.2 m"', '"yes"')
    """
    match value:
        case bool():
            return '"yes"' if value else '"no"'
        case int():
            return str(value)
        case Board(thickness=first, width=second) | Nail(diameter=first, length=second):
            return f'"{_plain(first * 1e3)} x {_plain(second * 1e3)} mm"'
        case Range() | float() if isinstance(kind, Quantity):
            return f'"{as_text(value, kind)}"'
        case float():
            return _plain(value)
        case tuple():
            return "[" + ", ".join(f'["{_plain(x)} m", "{_plain(z)} m"]' for x, z in value) + "]"
        case _:
            return f'"{value}"'


def as_text(value: Range | float, kind: Quantity) -> str:
    """A quantity with its usual metric unit, as a house file has it.

    >>> as_text(Range(math.radians(30), math.radians(34)), Quantity("angle"))
    '30..34 deg'
    """
    due = DIMENSIONS[kind.dimension]
    unit = "a" if kind.dimension == "time" and kind.high.endswith("years") else due.units[0]
    shown = {"a": "years"}.get(unit, unit)
    if isinstance(value, Range) and not value.exact:
        return f"{_plain(convert(value.low, unit))}..{_plain(convert(value.high, unit))} {shown}"
    one = value.low if isinstance(value, Range) else value
    return f"{_plain(convert(one, unit))} {shown}"


def _plain(value: float) -> str:
    text = f"{value:.{_FINEST}g}"
    return text if math.isfinite(value) and "e" not in text else repr(value)
