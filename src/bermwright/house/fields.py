"""What is said of a field, once: its words, kind, limits, and the question when it is missing.

A model class is a frozen dataclass; each field has `metadata=says(...)`. Everything that reads, writes
or explains a house file walks these with `said_of`.
"""

from __future__ import annotations

from dataclasses import MISSING, dataclass, fields
from functools import cache
from typing import TYPE_CHECKING, Any

from bermwright.base.units import parse_exact

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from enum import StrEnum


@dataclass(frozen=True, slots=True)
class Quantity:
    """A text with a unit. `low` and `high` are texts too, as a builder would write them."""

    dimension: str
    low: str = ""
    high: str = ""
    because: str = ""
    """Why the limits are there."""
    ranged: bool = False
    """Whether `a..b` is allowed; the value is then a Range."""

    @property
    def bounds(self) -> tuple[float, float]:
        """The limits in SI."""
        return _limits(self.dimension, self.low, self.high)


@cache
def _limits(dimension: str, low: str, high: str) -> tuple[float, float]:
    first = parse_exact(low, dimension) if low else -float("inf")
    return first, parse_exact(high, dimension) if high else float("inf")


@dataclass(frozen=True, slots=True)
class Whole:
    """A whole number without a unit."""

    low: int
    high: int
    because: str = ""


@dataclass(frozen=True, slots=True)
class Number:
    """A number without a unit."""

    low: float
    high: float
    because: str = ""


@dataclass(frozen=True, slots=True)
class Choice:
    """One word of several."""

    options: type[StrEnum]
    later: tuple[str, ...] = ()
    """Words that are planned but not read yet."""


@dataclass(frozen=True, slots=True)
class YesNo:
    """The word "yes" or "no"."""


@dataclass(frozen=True, slots=True)
class Words:
    """Free text; with `options` one of a few spellings, with `name` a part's own name."""

    options: tuple[str, ...] = ()
    name: bool = False


@dataclass(frozen=True, slots=True)
class Day:
    """A date, `2027-05-20`; kept as text."""


@dataclass(frozen=True, slots=True)
class Size:
    """Two measures of one thing, `32 x 195 mm`."""

    of: Callable[[float, float], object]
    first: Quantity
    second: Quantity
    words: tuple[str, str]
    """What the two measures are."""


@dataclass(frozen=True, slots=True)
class Path:
    """A line through points, `[["-8 m", "0.4 m"], ["8 m", "0.4 m"]]`."""

    least: int
    rising: bool = False
    """Whether every x must lie right of the one before."""


@dataclass(frozen=True, slots=True)
class Cost:
    """Money per something, `12.50 EUR/m3`; the currency is kept."""

    per: str


@dataclass(frozen=True, slots=True)
class Table:
    """A table of its own."""

    of: type


@dataclass(frozen=True, slots=True)
class Tables:
    """Any number of tables, `[[...]]`."""

    of: type


Kind = Quantity | Whole | Number | Choice | YesNo | Words | Day | Size | Path | Cost | Table | Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask:
    """The question that a missing field becomes."""

    asks: str
    why: str
    cheapest_way: str
    needed: Callable[[Any], bool] = lambda _table: True
    """Whether it matters, given the rest of its table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """Everything that is said of one field."""

    attribute: str
    key: str
    required: bool
    default: object
    words: str
    kind: Kind
    example: str
    missing: str
    """What happens when it is left out, for a field that neither asks nor has a sourced default."""
    source: str
    """Why the default is what it is; non-empty where a default is assumed and printed."""
    ask: Ask | None


def says(
    words: str,
    kind: Kind,
    *,
    example: str = "",
    ask: Ask | None = None,
    missing: str = "",
    source: str = "",
    key: str = "",
) -> dict[str, Any]:
    """The metadata of a field."""
    return {
        "words": words,
        "kind": kind,
        "example": example,
        "ask": ask,
        "missing": missing,
        "source": source,
        "key": key,
    }


def said_of(model: type) -> Mapping[str, Said]:
    """What is said of every field of a model class, by the key in the file, in order."""
    return _said_of(model)


@cache
def _said_of(model: type[Any]) -> Mapping[str, Said]:
    found: dict[str, Said] = {}
    for field in fields(model):
        if "kind" not in field.metadata:
            continue
        about = dict(field.metadata)
        key = about.pop("key") or field.name
        default = field.default if field.default is not MISSING else None
        required = field.default is MISSING and field.default_factory is MISSING
        found[key] = Said(attribute=field.name, key=key, required=required, default=default, **about)
    return found
