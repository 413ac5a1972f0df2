"""What one row of evidence is, and how it is compared."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from bermwright.base.errors import OutOfRangeError
from bermwright.base.sources import Cite, Provenance
from bermwright.base.units import convert

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from bermwright.base.sources import Work


class Kind(StrEnum):
    """Kinds of evidence, never mixed up."""

    PUBLISHED = "published"
    """Printed in the work cited."""
    DERIVED = "derived"
    """A closed form or manufactured solution; the note gives the formula."""
    INDEPENDENT = "independent"
    """A second implementation or a general reference library."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One value to agree with.

    `expected` is the value as printed: the tolerance is half of its last digit. A wider `rel`
    (relative) needs a `note` saying why.
    """

    id: str
    cite: Cite
    kind: Kind
    call: Callable[..., Any]
    """A public handbook function."""
    inputs: Mapping[str, Any]
    """Keyword arguments in SI."""
    expected: str
    unit: str = ""
    """The printed unit; the SI result is converted into it."""
    pick: Callable[[Any], float] = field(default=lambda result: result)
    """Picks the compared number out of a named result."""
    rel: float | None = None
    note: str = ""
    refused: bool = False
    """Whether only that is compared: 1 where the function refuses these inputs, 0 where it gives a value."""

    @property
    def function(self) -> str:
        """Module and name of the function behind the row."""
        return f"{self.call.__module__}.{self.call.__name__}"


def worked_row(  # noqa: PLR0913, PLR0917  (one row of the tables below)
    name: str,
    work: Work,
    place: str,
    call: Callable[..., Any],
    inputs: Mapping[str, Any],
    expected: str,
    pick: Callable[[Any], float] = float,
    unit: str = "",
    kind: Kind = Kind.DERIVED,
    note: str = "worked out by hand from the equation",
    rel: float | None = None,
) -> Row:
    """A row called after its work, by default one that was worked out by hand from the work's equation."""
    provenance = Provenance.READ if kind is Kind.PUBLISHED else Provenance.DERIVED
    return Row(
        id=f"{work.key}-{name}",
        cite=Cite(work=work, place=place, provenance=provenance),
        kind=kind,
        call=call,
        inputs=inputs,
        expected=expected,
        unit=unit,
        pick=pick,
        note=note,
        rel=rel,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A row, what was computed for it, and whether both agree."""

    row: Row
    computed: float
    tolerance: float
    agrees: bool


def printed_tolerance(expected: str) -> float:
    """Half a unit of the last digit of a printed number ("3169.7" gives 0.05).

    >>> printed_tolerance("3169.7"), printed_tolerance("1200"), printed_tolerance("4.65e10")
    (0.05, 0.5, 50000000.0)
    """
    mantissa, _, exponent = expected.lower().partition("e")
    decimals = len(mantissa.partition(".")[2])
    return 0.5 * 10.0 ** (int(exponent or 0) - decimals)


def check(row: Row) -> Outcome:
    """Compute a row and compare it."""
    computed = _refuses(row) if row.refused else convert(float(row.pick(row.call(**row.inputs))), row.unit)
    expected = float(row.expected)
    tolerance = printed_tolerance(row.expected) if row.rel is None else row.rel * abs(expected)
    # A hair of rounding is allowed on top: 0.1285 printed as 0.129 must not fail on its last bit.
    agrees = abs(computed - expected) <= tolerance * (1 + 1e-9)
    return Outcome(row=row, computed=computed, tolerance=tolerance, agrees=agrees)


def _refuses(row: Row) -> float:
    try:
        row.call(**row.inputs)
    except OutOfRangeError:
        return 1.0
    return 0.0
