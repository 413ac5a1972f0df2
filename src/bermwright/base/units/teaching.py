"""The words of a refusal: what is wrong with a quantity, and what to write instead."""

from __future__ import annotations

import difflib
import math
import re

from bermwright.base.units.atoms import ATOMS, GRAVITY, unit_of
from bermwright.base.units.dimensions import DIMENSIONS, Dimension

_OUNCES = {"oz": "lb", "lbs": "lb", "pounds": "lb", "plf": "lb/ft", "kgf": "kN", "ton": "t", "tons": "t"}
_SPELT = {"M": "m", "Mm": "mm", "MM": "mm", "C": "degC", "F": "degF", "celsius": "degC", "fahrenheit": "degF"}


def write(due: Dimension) -> str:
    """What to write for this dimension, metric or imperial.

    >>> write(DIMENSIONS["pressure"])
    'Write for example "2.5 kN/m2" or "52 psf".'
    """
    if due.name in {"number", "count"}:
        return f"Write for example {due.example}."
    other = f' or "{due.example_imperial}"' if due.example_imperial != due.example else ""
    return f'Write for example "{due.example}"{other}.'


def two_dots(text: str, due: Dimension) -> str:
    """A range with a missing end, or a range within a range."""
    unit = due.units[0]
    return (
        f'"{text}" is not a range. A range has two ends with two points between them, '
        f'as in "{_some(due)}..{_more(due)} {unit}".'
    )


def _some(due: Dimension) -> str:
    return re.sub(r"[^\d.].*", "", due.example.lstrip("-")) or "1"


def _more(due: Dimension) -> str:
    return f"{float(_some(due)) * 1.2:g}"


def reversed_range(first: str, second: str, due: Dimension) -> str:
    """A range that runs down."""
    unit = re.search(r"[A-Za-z%°].*$", second)
    tail = unit.group() if unit and ":" not in second and not re.search(r"[A-Za-z%°]", first) else ""
    new_first, new_second = (second[: -len(tail)].strip(), f"{first} {tail}") if tail else (second, first)
    steep = ", that is from flat to steep" if due.name == "slope" else ""
    return (
        f'"{first}..{second}" runs down; a range runs from low to high{steep}: '
        f'write "{new_first}..{new_second}".'
    )


def turned_slope(text: str, up: float, along: float) -> str:
    """A slope that does not start with 1: both readings in degrees."""
    steep, flat = math.degrees(math.atan(up / along)), math.degrees(math.atan(along / up))
    return (
        f'"{text}" can be read in two ways: {up:g} up in {along:g} along is {steep:.1f} degrees, '
        f"{along:g} up in {up:g} along is {flat:.1f} degrees. A slope starts with 1, for 1 up: "
        f'write "1:{along / up:.4g}" for the first, "1:{up / along:.4g}" for the second, or degrees.'
    )


def no_number(text: str, due: Dimension) -> str:
    """A text that does not start with a number."""
    if re.match(r"[+-]?(nan|inf)", text, re.IGNORECASE):
        return f'"{text}" is no number at all. Leave the line out where the value is not known. {write(due)}'
    if re.match(r"[+-]?\.\d", text):
        return f'"{text}" lacks the zero before the point. {write(due)}'
    if due.name == "slope" and re.search(r"\d\s*(in|to)\s*\d", text):
        return f'"{text}" is not read as a slope. {write(due)}'
    return f'"{text}" does not start with a number; {due.says} is due. {write(due)}'


def dots_and_commas(text: str, value: float, unit: str, due: Dimension) -> str:
    """Separators in the number, or a number too large to hold; empty when all is well."""
    number = re.match(r"[+-]?\d+(?:\.\d+)?", text, re.ASCII)
    start = number.group() if number else text
    comma = re.match(r",(\d+)\s*(.*)", unit)
    if comma:
        return _comma(text, start, comma[1], comma[2], due)
    apart = re.match(r"[ _'’.](\d{3})(?!\d)\s*(.*)", text[len(start) :], re.ASCII)
    if apart:
        joined = f"{start}{apart[1]} {apart[2]}".strip()
        return f'"{text}" has a separator between thousands. Write "{joined}" without one.'
    if not math.isfinite(value):
        return f'"{text}" is too large to be {due.says}. {write(due)}'
    if re.match(r"[\d.]", unit):
        return f'"{text}" has two numbers; one is due. {write(due)}'
    return ""


def _comma(text: str, start: str, digits: str, unit: str, due: Dimension) -> str:
    decimal = f"{start}.{digits} {unit}".strip()
    if len(digits) == 3:  # noqa: PLR2004  (thousands come in threes)
        whole = f"{start}{digits} {unit}".strip()
        return (
            f'"{text}" can be read in two ways: write "{whole}", or "{decimal}" if the comma was a '
            "decimal comma."
        )
    return f'"{text}" has a comma; write {due.says} with a point: "{decimal}".'


def missing_unit(text: str, due: Dimension) -> str:
    """A bare number where a unit is due."""
    first = due.units[0]
    also = ", ".join(due.units[1:4])
    other = f" (or another of: {also})" if also else ""
    return f'"{text}" has no unit; {due.says} is due. Write "{text} {first}" if you mean {first}{other}.'


def unknown_unit(text: str, unit: str, due: Dimension) -> str:
    """A unit nobody knows, with the nearest known one."""
    near = _OUNCES.get(unit) or _SPELT.get(unit)
    options = [*due.units, *(name for name in ATOMS if name not in due.units)]
    folded = {option.lower(): option for option in reversed(options)}
    if near is None and folded.get(unit.lower()) in due.units:
        near = folded[unit.lower()]
    if near is None:
        close = difflib.get_close_matches(unit, due.units, n=1, cutoff=0.4)
        close = close or difflib.get_close_matches(unit, options, n=1, cutoff=0.6)
        near = close[0] if close else None
    million = ' (a capital "M" stands for a million)' if unit in {"M", "MM", "Mm"} else ""
    hint = f' The nearest is "{near}"{million}.' if near else ""
    return f'"{text}": the unit "{unit}" is not known.{hint} {_units(due)}'


def _units(due: Dimension) -> str:
    return f"For {due.says} write one of: {', '.join(due.units)}."


def wrong_dimension(text: str, value: float, unit: str, due: Dimension) -> str:
    """A quantity of another kind than the one that is due."""
    weighed = _weighed(value, unit, due)
    kind = _kind(unit) or ("a mass per length or area" if weighed else None)
    if weighed:
        return (
            f'"{text}" is {kind}; {due.says} is due. It weighs {weighed}: write "{weighed}" if you mean that.'
        )
    if kind is None:
        return unknown_unit(text, unit, due)
    return f'"{text}" is {kind}; {due.says} is due. {write(due)}'


def _kind(unit: str) -> str | None:
    """What a unit measures, with its article."""
    if unit == "%":
        return "a share"
    for known in DIMENSIONS.values():
        found = known.read_unit(unit)
        if found is not None and known.name not in {"number", "count"} and found.powers == known.powers:
            return known.says
    return None


_WEIGHED = {"unit weight": "kg/m3", "pressure": "kg/m2", "force": "kg", "line load": "kg/m"}


def _weighed(value: float, unit: str, due: Dimension) -> str:
    """A mass where its weight is due: the weight in the due unit, at standard gravity."""
    mass, found = unit_of(_WEIGHED.get(due.name, "-")), unit_of(unit)
    if due.name not in _WEIGHED or mass is None or found is None or found.powers != mass.powers:
        return ""
    metric = unit_of(due.metric)
    weight = value * found.factor * GRAVITY / (metric.factor if metric else 1.0)
    return f"{weight:.4g} {due.metric}"
