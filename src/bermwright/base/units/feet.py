"""Feet and inches with fractions: `5 ft 3 1/2 in`, `5' 3 1/2"`, `63 1/2 in`."""

from __future__ import annotations

import re

from bermwright.base.errors import QuantityError
from bermwright.base.units.atoms import FOOT

_FEET = r"(?:ft\.?|feet|foot|')"
_IN = r"(?:in\.?|inches|inch|\")"
_WHOLE = r"\d+(?:\.\d+)?"
_MIXED = (
    rf"(?:(?P<whole>{_WHOLE})(?:[ -](?P<over>\d+)/(?P<under>\d+))?|(?P<only_over>\d+)/(?P<only_under>\d+))"
)
_TEXT = re.compile(
    rf"(?P<sign>[+-]?)\s*(?:(?P<feet>{_WHOLE})\s*{_FEET}(?:\s*-\s*|\s*))?(?:{_MIXED}\s*{_IN})?", re.ASCII
)
_MIXED_FEET = re.compile(rf"(?P<sign>[+-]?)\s*{_MIXED}\s*{_FEET}", re.ASCII)
_HALF_READ = re.compile(rf"(?P<feet>[+-]?\d+)\s*(?:{_FEET}(?:\s+-?\s*|-)|'\s*)(?P<rest>\d[\d ./]*)", re.ASCII)
_TEACH = 'Write "5 ft 3 1/2 in".'
_SIGNS = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"'})
_DOZEN = 12


def read_feet(text: str) -> float | None:
    r"""Metres, or None where the text is no form of feet and inches at all.

    >>> read_feet("5' 3 1/2\"") == read_feet("63 1/2 in") == 1.6129
    True
    """
    plain = text.translate(_SIGNS).replace("''", '"')
    if not re.search(r"(?<![A-Za-z])(?:ft|feet|foot|in|inch|inches)(?![A-Za-z/]|\d)|['\"]", plain):
        return None
    whole_feet = _MIXED_FEET.fullmatch(plain)
    if whole_feet is not None:
        return _signed(whole_feet, FOOT * _amount(whole_feet, text))
    found = _TEXT.fullmatch(plain)
    if found is None or not re.search(r"\d", plain):
        raise QuantityError(_half_read(text, plain))
    return _signed(found, _sum(found, text))


def inches_to_metres(inches: float) -> float:
    """Inches to metres, with one rounding only.

    >>> inches_to_metres(63)
    1.6002
    """
    return inches * 254.0 / 10_000.0


def _signed(found: re.Match[str], metres: float) -> float:
    return -metres if found["sign"] == "-" else metres


def _sum(found: re.Match[str], text: str) -> float:
    inches = _amount(found, text)
    if found["feet"] is None:
        return inches_to_metres(inches)
    feet = float(found["feet"])
    if inches >= _DOZEN:
        more, rest = divmod(inches, _DOZEN)
        raise QuantityError(
            f'"{text}" has a dozen inches or more beside feet; write "{feet + more:g} ft {rest:g} in".'
        )
    if inches and not feet.is_integer():
        raise QuantityError(f'"{text}" has broken feet and inches as well; write whole feet. {_TEACH}')
    # One rounding only, so that 5 ft 3 1/2 in and 63 1/2 in are the same number.
    return inches_to_metres(feet * _DOZEN + inches)


def _amount(found: re.Match[str], text: str) -> float:
    over = found["over"] or found["only_over"]
    under = found["under"] or found["only_under"]
    whole = float(found["whole"] or 0)
    if over is None:
        return whole
    if int(under) == 0 or (found["whole"] and int(over) >= int(under)) or not whole.is_integer():
        raise QuantityError(f'"{text}" has an odd fraction: {over}/{under}. {_TEACH}')
    return whole + int(over) / int(under)


def _half_read(text: str, plain: str) -> str:
    half = _HALF_READ.fullmatch(plain)
    if half:
        rest = half["rest"].strip()
        return f'"{text}" does not say of what the {rest} is: write "{half["feet"]} ft {rest} in".'
    return f'"{text}" is not a length in feet and inches. {_TEACH}'
