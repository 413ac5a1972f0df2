"""Readings of a water level to heights: reduced, checked for closing, spread by least squares."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.setting_out import CLOSURE, LEAST_CLOSURE
from bermwright.form.setout.nouns import SetOutError
from bermwright.handbook.setout import adjust_heights, allowed_closure, rise_and_fall, spread_closure

if TYPE_CHECKING:
    from collections.abc import Iterator

FEW = 2
DEFAULT_LENGTH = 10.0
"""Where no length of a leg is given, all count alike (m)."""
WORST = 2.5
"""Standardised residuals over this name a reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One pair of readings: the water over the point left and over the point come to (m)."""

    start: str
    end: str
    back: float
    fore: float
    length: float | None
    """Between the points (m)."""
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A reduced reading (m)."""

    reading: Reading
    rise: float
    """Measured: end over start."""
    residual: float
    """Adjusted less measured."""
    odd: bool
    """Whether it stands out among the others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Levels:
    """Heights of all points over the datum (m)."""

    datum: str
    heights: tuple[tuple[str, float], ...]
    legs: tuple[Leg, ...]
    spread: float
    """Error of one leg of mean length (m); NaN where nothing was measured twice."""
    closure: float | None
    """Closing error, where the readings make one loop."""
    allowed: float | None
    corrections: tuple[float, ...]
    """Of every leg, for one loop."""
    says: tuple[str, ...]


def reduce_readings(readings: tuple[Reading, ...], *, datum: str | None, height: float = 0.0) -> Levels:
    """Heights of every point; refused where a loop misses by more than may be spread."""
    if not readings:
        raise SetOutError("There are no readings. Write from, to, back, fore and a line for every leg.")
    start = datum or readings[0].start
    names = list(dict.fromkeys([start, *(name for one in readings for name in (one.start, one.end))]))
    if datum is not None and all(datum not in (one.start, one.end) for one in readings):
        raise SetOutError(
            f'No reading begins or ends at the datum "{datum}". The points are {_listed(names[1:])}.'
        )
    _refuse_loose(readings, start, names)
    rises = rise_and_fall([one.back for one in readings], [one.fore for one in readings])
    lengths = np.array([one.length or DEFAULT_LENGTH for one in readings])
    closure, allowed = _closing(readings, float(rises.sum()), float(lengths.sum()))
    number = {name: at for at, name in enumerate(names)}
    found = adjust_heights(
        [number[one.start] for one in readings],
        [number[one.end] for one in readings],
        rises,
        weights=float(lengths.mean()) / lengths,
        fixed=[height if name == start else math.nan for name in names],
    )
    odd = _odd(found.residuals / np.sqrt(lengths / lengths.mean()), found.spread)
    legs = tuple(
        Leg(reading=one, rise=float(rise), residual=float(residual), odd=bool(wrong))
        for one, rise, residual, wrong in zip(readings, rises, found.residuals, odd, strict=True)
    )
    if closure is None:
        _refuse_wide(legs, lengths)
    return Levels(
        datum=start,
        heights=tuple(zip(names, (float(value) for value in found.heights), strict=True)),
        legs=legs,
        spread=found.spread,
        closure=closure,
        allowed=allowed,
        corrections=tuple(float(c) for c in spread_closure(closure, lengths)) if closure is not None else (),
        says=tuple(_says(legs, found.spread, closure, allowed)),
    )


def _listed(names: list[str]) -> str:
    return ", ".join(f'"{name}"' for name in names)


def _refuse_loose(readings: tuple[Reading, ...], start: str, names: list[str]) -> None:
    """Every point must hang on the datum."""
    reached = {start}
    while True:
        more = {
            name
            for one in readings
            if one.start in reached or one.end in reached
            for name in (one.start, one.end)
        } - reached
        if not more:
            break
        reached |= more
    loose = [name for name in names if name not in reached]
    if loose:
        raise SetOutError(
            f'No reading leads from the datum "{start}" to {_listed(loose)}. Add a leg, or correct a name.'
        )


def _closing(readings: tuple[Reading, ...], error: float, length: float) -> tuple[float | None, float | None]:
    """The closing error, where the readings walk round one loop in order."""
    joined = all(one.end == other.start for one, other in pairwise(readings))
    if len(readings) < FEW or not joined or readings[-1].end != readings[0].start:
        return None, None
    allowed = max(float(allowed_closure(length, per_root_km=CLOSURE.value)), LEAST_CLOSURE.value)
    if abs(error) > allowed:
        raise SetOutError(
            f"The loop misses by {1000.0 * error:+.0f} mm over {length:.0f} m; {1000.0 * allowed:.0f} mm "
            "may be spread. A reading is wrong: look for one that is a decimetre out, chase the bubbles out "
            "of the hose, and level the loop again."
        )
    return error, allowed


def _odd(standardised: np.ndarray, spread: float) -> np.ndarray:
    if not math.isfinite(spread) or spread <= 0.0:
        return np.zeros(standardised.shape, dtype=bool)
    return np.asarray(np.abs(standardised) > max(WORST * spread, LEAST_CLOSURE.value))


def _refuse_wide(legs: tuple[Leg, ...], lengths: np.ndarray) -> None:
    """A net whose residuals are larger than a leg may miss."""
    worst = max(range(len(legs)), key=lambda at: abs(legs[at].residual))
    limit = 3.0 * max(
        float(allowed_closure(float(lengths[worst]), per_root_km=CLOSURE.value)), LEAST_CLOSURE.value
    )
    leg = legs[worst]
    if abs(leg.residual) > limit:
        raise SetOutError(
            f'The readings do not close: "{leg.reading.start}" to "{leg.reading.end}" in line '
            f"{leg.reading.line} is {1000.0 * leg.residual:+.0f} mm off the rest; {1000.0 * limit:.0f} mm "
            "would do. Read that leg again; the fault may also lie in a leg beside it."
        )


def _says(
    legs: tuple[Leg, ...], spread: float, closure: float | None, allowed: float | None
) -> Iterator[str]:
    if closure is not None and allowed is not None:
        yield (
            f"The loop misses by {1000.0 * closure:+.1f} mm; up to {1000.0 * allowed:.1f} mm is spread "
            "over its legs by length."
        )
        yield "A wrong reading at a point that only this loop touches does not show: read each point twice."
    if not math.isfinite(spread):
        yield "Nothing was measured twice: a wrong reading would not show. Close the loop back to the datum."
    for leg in legs:
        if leg.odd:
            yield (
                f'"{leg.reading.start}" to "{leg.reading.end}" (line {leg.reading.line}) stands out: '
                f"{1000.0 * leg.residual:+.1f} mm. Read it again."
            )
