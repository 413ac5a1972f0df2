"""SI numbers as text for people, metric or imperial.

Text for people has a true minus sign and raised powers (`−2.50 kN/m²`); `reading.py` reads those too.
"""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING

from bermwright.base.units.atoms import INCH, Unit, convert, unit_of

if TYPE_CHECKING:
    from bermwright.base.ranges import Range

_SIXTEENTHS = 16
_MINUS = "−"
_RAISED = {"2": "²", "3": "³", "4": "⁴"}

_IMPERIAL_ATOMS = {
    "mm": "in",
    "cm": "in",
    "m": "ft",
    "km": "ft",
    "l": "gal",
    "N": "lb",
    "kN": "lb",
    "MN": "kip",
    "Pa": "psf",
    "kPa": "psf",
    "MPa": "psi",
    "GPa": "ksi",
    "kg": "lbm",
    "t": "lbm",
    "K": "degF",
    "degC": "degF",
}
"""What each part of a metric unit becomes."""

_IMPERIAL_WHOLE = {
    "W/mK": "Btu/h ft degF",
    "W/m2K": "Btu/h ft2 degF",
    "kN/m2": "psf",
    "N/m2": "psf",
    "N/mm2": "psi",
    "MN/m2": "psi",
    "t/m3": "lbm/ft3",
    "m3/h": "ft3/min",
}
"""Whole units with an imperial name of their own."""


def show(value_si: float, unit: str, digits: int = 2, system: str = "metric") -> str:
    """A number with its unit. `digits` are decimals of the metric unit; imperial follows its fineness.

    "level" shows a level above the floor with its sign, "slope" a slope with its angle. What is not a
    number shows as "unknown".

    >>> show(2.4, "m"), show(1.6, "m", system="imperial"), show(0.195, "mm", 0, "imperial")
    ('2.40 m', '5 ft 3 in', '7 11/16 in')
    >>> show(2.4, "level"), show(0.0, "level"), show(2.4, "level", system="imperial")
    ('+2.40', '±0.00', '+7 ft 10 1/2 in')
    """
    if math.isnan(value_si):
        return "unknown"
    if math.isinf(value_si):
        return "∞" if value_si > 0 else f"{_MINUS}∞"
    if unit == "slope":
        return _slope(value_si, digits)
    if unit == "level":
        return _level(value_si, digits, system)
    if system == "imperial":
        return _imperial(value_si, unit, digits)
    return _joined(_number(convert(value_si, unit), digits), unit)


_BARE_LEVEL = re.compile(
    r"(?<![\w.,+−±-])([+−±])(\d+\.\d\d)(?![\d.,]*\d)(?!\s?(?:[mckM]?m|k?N|[kM]?Pa|°|K|%|k?g|h|s|W|Hz)\b|\s?[%°])"
)
"""A level as sentences write it: its sign, two decimals of a metre and no unit."""


def levels_in(text: str, system: str) -> str:
    """A text whose levels, which carry no unit, are turned into feet and inches where those are wanted.

    >>> levels_in("Fill to +1.00, left ahead by 0.30 m", "imperial")
    'Fill to +3 ft 3 3/8 in, left ahead by 0.30 m'
    >>> levels_in("at ±0.00 and −0.45", "imperial"), levels_in("at +1.00", "metric")
    ('at ±0 in and −1 ft 5 11/16 in', 'at +1.00')
    """
    if system != "imperial":
        return text
    return _BARE_LEVEL.sub(lambda found: _level(_signed(*found.groups()), 2, system), text)


_LENGTH = re.compile(r'("[^"]*")|(?<![\w.,·/])(\d+(?:\.\d+)?) (m|mm|cm)(?![\w²³/·])')
"""A quoted text, which stays as the house file has it, or a length in metres."""


def lengths_in(text: str, system: str) -> str:
    """Advice whose levels and lengths are turned into feet and inches; what stands in quotes stays.

    >>> lengths_in('Keep 0.60 m off, or write lead = "0.10 m".', "imperial")
    'Keep 1 ft 11 5/8 in off, or write lead = "0.10 m".'
    """
    if system != "imperial":
        return text

    def turned(found: re.Match[str]) -> str:
        quoted, size, unit = found.groups()
        return quoted or show(float(size) * {"m": 1.0, "cm": 0.01, "mm": 0.001}[unit], unit, 0, system)

    return _LENGTH.sub(turned, levels_in(text, system))


def _signed(sign: str, size: str) -> float:
    return -float(size) if sign == _MINUS else float(size)


def show_range(values: Range, unit: str, digits: int = 2, system: str = "metric") -> str:
    """A range as `19.0 to 20.0 kN/m³`; one value when both ends show alike."""
    low, high = (show(value, unit, digits, system) for value in (values.low, values.high))
    if low == high:
        return low
    tail = re.search(r"[ °].*$", low)
    if tail and high.endswith(tail.group()) and not tail.group().lstrip()[:1].isdigit():
        low = low[: tail.start()]
    return f"{low} to {high}"


def _number(value: float, digits: int) -> str:
    text = f"{abs(value):.{max(digits, 0)}f}"
    return text if value >= 0 or float(text) == 0 else _MINUS + text


def _joined(number: str, unit: str) -> str:
    match unit:
        case "" | "-":
            return number
        case "deg":
            return f"{number}°"
        case _:
            return f"{number} {pretty(unit)}"


def pretty(unit: str) -> str:
    """A unit as people print it: raised powers, degree signs, a plain lb.

    >>> pretty("kN/m3"), pretty("degC"), pretty("lbm/ft3")
    ('kN/m³', '°C', 'lb/ft³')
    """
    plain = unit.replace("degC", "°C").replace("degF", "°F").replace("lbm", "lb").replace("deg", "°")
    return re.sub(r"(?<=[A-Za-z])[234]", lambda power: _RAISED[power.group()], plain)


def _slope(angle: float, digits: int) -> str:
    degrees = f"{_number(math.degrees(angle), 1)}°"
    if not 0 < angle < math.pi / 2:
        return degrees
    along = f"{1 / math.tan(angle):.{digits}f}"
    return f"1:{along.rstrip('0').rstrip('.') if '.' in along else along} ({degrees})"


def _level(value: float, digits: int, system: str) -> str:
    text = feet_and_inches(abs(value)) if system == "imperial" else f"{abs(value):.{digits}f}"
    zero = text in {"0 in", f"{0:.{digits}f}"}
    sign = "±" if zero else _MINUS if value < 0 else "+"
    return sign + text


def feet_and_inches(metres: float) -> str:
    """A length in feet, inches and sixteenths.

    >>> feet_and_inches(1.6), feet_and_inches(0.0127), feet_and_inches(0.6096)
    ('5 ft 3 in', '1/2 in', '2 ft')
    """
    sixteenths = round(abs(metres) / INCH * _SIXTEENTHS)
    feet, rest = divmod(sixteenths, 12 * _SIXTEENTHS)
    parts = ([f"{feet} ft"] if feet else []) + ([f"{_inches(rest)} in"] if rest or not feet else [])
    return (_MINUS if metres < 0 and sixteenths else "") + " ".join(parts)


def _inches(sixteenths: int) -> str:
    whole, part = divmod(sixteenths, _SIXTEENTHS)
    shared = math.gcd(part, _SIXTEENTHS)
    fraction = f"{part // shared}/{_SIXTEENTHS // shared}" if part else ""
    return " ".join(text for text in (str(whole) if whole or not part else "", fraction) if text)


def _imperial(value: float, unit: str, digits: int) -> str:
    if unit in {"m", "km"}:
        return feet_and_inches(value)
    if unit in {"mm", "cm"}:
        return _in_inches(value, digits)
    other = imperial_unit(unit)
    # A difference of temperature has no zero point to move; a temperature has.
    shown = convert(value, other) if unit == "degC" else value / _factor(other)
    finer = math.log10(_factor(other) / _factor(unit))
    return _joined(_number(shown, max(0, digits + round(finer))), other)


def _in_inches(value: float, digits: int) -> str:
    sixteenths = round(abs(value) / INCH * _SIXTEENTHS)
    if sixteenths == 0 and value != 0:
        # A slip of half a millimetre must not read as nothing.
        return f"{_number(value / INCH, digits + 2)} in"
    return f"{_MINUS if value < 0 and sixteenths else ''}{_inches(sixteenths)} in"


def imperial_unit(unit: str) -> str:
    """The imperial unit in which a value with a metric unit is shown.

    >>> imperial_unit("kN/m3"), imperial_unit("kNm"), imperial_unit("N/mm2"), imperial_unit("deg")
    ('lb/ft3', 'lb ft', 'psi', 'deg')
    """
    if unit in _IMPERIAL_WHOLE:
        return _IMPERIAL_WHOLE[unit]
    found = unit_of(unit)
    atoms = () if found is None else found.atoms
    if not any(name in _IMPERIAL_ATOMS for name, _ in atoms):
        return unit
    over = [_powered(name, power) for name, power in atoms if power > 0]
    under = [_powered(name, -power) for name, power in atoms if power < 0]
    return (" ".join(over) or "1") + "".join(f"/{text}" for text in under)


def _powered(name: str, power: int) -> str:
    other = _IMPERIAL_ATOMS.get(name, name)
    return other if power == 1 else f"{other}{power}"


def _factor(unit: str) -> float:
    return (unit_of(unit) or Unit(1.0, (0, 0, 0, 0, 0, 0))).factor


__all__ = ["feet_and_inches", "imperial_unit", "pretty", "show", "show_range"]
