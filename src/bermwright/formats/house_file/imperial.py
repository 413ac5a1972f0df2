"""An example of a house file in feet, inches and pounds: a round value close by that is allowed there too."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from bermwright.base.errors import QuantityError
from bermwright.base.units import DIMENSIONS, convert, parse, parse_pair
from bermwright.base.units.atoms import FOOT, INCH
from bermwright.base.units.showing import feet_and_inches
from bermwright.formats.house_file.values import value_of
from bermwright.house.fields import Quantity, Size

if TYPE_CHECKING:
    from bermwright.base.units import Dimension
    from bermwright.house.fields import Kind

FARTHEST = 0.12
"""Share by which a round value may lie off the metric one; else the metric one stays."""
_FINE, _FAR = 0.001, 10.0
"""Lengths below the first are not told in inches, from the second on in whole feet (m)."""
_MUCH, _LITTLE = 200_000.0, 0.05
"""Over that much pressure (Pa), and under that area (m2), the foot is too large a measure."""


def imperial_example(text: str, kind: Kind) -> str:
    """The text in feet, inches and pounds; as it is where it has no length, weight or warmth in it.

    >>> imperial_example("4.8 m", Quantity("length", "0.8 m", "8 m"))
    '15 ft 9 in'
    >>> imperial_example("30..34 deg", Quantity("angle", ranged=True))
    '30..34 deg'
    """
    match kind:
        case Quantity():
            return _allowed(_quantity(text, kind), text, kind)
        case Size():
            return _allowed(" x ".join(_decimal(one) for one in parse_pair(text)) + " in", text, kind)
        case _:
            return text


def _allowed(new: str, text: str, kind: Quantity | Size) -> str:
    """The new text where it can be read and lies within the limits, else the old one."""
    try:
        value_of(new, kind)
    except QuantityError:
        return text
    return new


def _quantity(text: str, kind: Quantity) -> str:
    due = DIMENSIONS[kind.dimension]
    if due.imperial == due.metric and due.name != "level":
        return text
    ends = parse(text, kind.dimension)
    exact = ends.low == ends.high
    lengthy = due.name in {"length", "thickness", "level"}
    if exact and lengthy:
        new, value = _length(ends.low)
        return new if abs(value - ends.low) <= FARTHEST * abs(ends.low) else text
    unit = _unit(due, ends.high)
    low, high = (_round(_in(due, end, unit)) for end in (ends.low, ends.high))
    return f"{low} {unit}" if exact else f"{low}..{high} {unit}"


def _unit(due: Dimension, value: float) -> str:
    """The unit in which a value of that size is said."""
    match due.name:
        case "length" | "thickness" | "level":
            return "ft" if abs(value) >= FOOT else "in"
        case "pressure" if value > _MUCH:
            return "psi"
        case "area" if value < _LITTLE:
            return "in2"
        case "mass":
            return "lb"
        case _:
            return due.imperial


def _round(value: float) -> str:
    """Three figures, without an exponent, which a house file does not know.

    >>> _round(0.02312), _round(52.21), _round(14504.0)
    ('0.0231', '52.2', '14500')
    """
    text = f"{float(f'{value:.3g}'):.10f}"
    return text.rstrip("0").rstrip(".")


def _in(due: Dimension, value: float, unit: str) -> float:
    """An SI value in a unit as it is read for this dimension: a pound of mass is no force."""
    known = due.read_unit(unit)
    return convert(value, unit) if known is None else (value - known.offset) / known.factor


def _length(metres: float) -> tuple[str, float]:
    """Whole feet from ten metres on, whole inches from a foot on; quarters and eighths below it."""
    if 0.0 < abs(metres) < _FINE:
        return "", 0.0
    far, near, small = abs(metres) >= _FAR, abs(metres) >= FOOT, abs(metres) < 2.0 * INCH
    step = FOOT if far else INCH if near else INCH / 8.0 if small else INCH / 4.0
    value = round(metres / step) * step
    return feet_and_inches(value).replace("\N{MINUS SIGN}", "-"), value


def _decimal(metres: float) -> str:
    """Inches as a decimal number: eighths, and hundredths where that is too coarse."""
    inches = metres / INCH
    if inches >= 2.0:
        return _round(round(inches * 4.0) / 4.0)
    return _round(round(inches * 8.0) / 8.0 if inches >= 1.0 else round(inches, 2))


def imperial_points(text: str) -> str:
    """A list of points or stretches with each of its lengths in feet and inches.

    >>> imperial_points('[["-8 m", "0.4 m"]]')
    '[["-26 ft 3 in", "1 ft 4 in"]]'
    """
    return re.sub(r"(-?[\d.]+) m(?=\")", lambda found: _length(float(found[1]))[0], text)
