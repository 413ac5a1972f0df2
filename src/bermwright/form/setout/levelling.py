"""Readings of a water level to heights: reduced, checked for closing, spread by least squares."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.setting_out import LEAST_CLOSURE
from bermwright.form.setout.loops import Run, loops_of, may_miss
from bermwright.form.setout.nouns import SetOutError
from bermwright.handbook.setout import adjust_heights, rise_and_fall, spread_closure

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout.loops import Loop

MOST_TOLD = 6
"""Loops that are told one by one."""
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
    loops = _loops(readings, rises, lengths, start)
    _refuse_open(loops, legs)
    return Levels(
        datum=start,
        heights=tuple(zip(names, (float(value) for value in found.heights), strict=True)),
        legs=legs,
        spread=found.spread,
        closure=closure,
        allowed=allowed,
        corrections=tuple(float(c) for c in spread_closure(closure, lengths)) if closure is not None else (),
        says=tuple(_says(legs, found.spread, closure, allowed, loops)),
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
    allowed = may_miss(length)
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


def _loops(
    readings: tuple[Reading, ...], rises: np.ndarray, lengths: np.ndarray, start: str
) -> tuple[Loop, ...]:
    runs = [
        Run(start=one.start, end=one.end, rise=float(rise), length=float(length))
        for one, rise, length in zip(readings, rises, lengths, strict=True)
    ]
    return loops_of(runs, start)


def _refuse_open(loops: tuple[Loop, ...], legs: tuple[Leg, ...]) -> None:
    """Every loop of a net has to close by itself: legs beside it hide nothing."""
    wrong = sorted((loop for loop in loops if not loop.closes), key=lambda loop: -abs(loop.miss))
    if not wrong:
        return
    rest = [f"  and {len(wrong) - MOST_TOLD} more"] if len(wrong) > MOST_TOLD else []
    leg = max(legs, key=lambda one: abs(one.residual))
    told = [f"  {_round(loop)} misses by {_miss(loop)}" for loop in wrong[:MOST_TOLD]]
    first = (
        f'Farthest off the rest is "{leg.reading.start}" to "{leg.reading.end}" in line {leg.reading.line}: '
        "read that leg again first; the fault may also lie in a leg beside it."
    )
    raise SetOutError("\n".join(["The readings do not close:", *told, *rest, first, *_alike(legs)]))


def _alike(legs: tuple[Leg, ...]) -> Iterator[str]:
    """How long a leg is taken to be where nobody wrote it."""
    if any(leg.reading.length is None for leg in legs):
        yield f"No lengths are given: every leg is counted as {DEFAULT_LENGTH:.0f} m long."


def _round(loop: Loop) -> str:
    return " – ".join((*loop.points, loop.points[0]))


def _miss(loop: Loop) -> str:
    return (
        f"{1000.0 * loop.miss:+.1f} mm over {loop.length:.0f} m; {1000.0 * loop.allowed:.1f} mm may be spread"
    )


def _says(
    legs: tuple[Leg, ...],
    spread: float,
    closure: float | None,
    allowed: float | None,
    loops: tuple[Loop, ...],
) -> Iterator[str]:
    if closure is not None and allowed is not None:
        yield (
            f"The loop misses by {1000.0 * closure:+.1f} mm; up to {1000.0 * allowed:.1f} mm is spread "
            "over its legs by length."
        )
        yield "A wrong reading at a point that only this loop touches does not show: read each point twice."
    elif loops:
        yield from (f"The loop {_round(loop)} misses by {_miss(loop)}." for loop in loops[:MOST_TOLD])
        yield from _hanging(legs, loops)
    if loops:
        yield from _alike(legs)
    if not math.isfinite(spread):
        yield "Nothing was measured twice: a wrong reading would not show. Close the loop back to the datum."
    for leg in legs:
        if leg.odd:
            yield (
                f'"{leg.reading.start}" to "{leg.reading.end}" (line {leg.reading.line}) stands out: '
                f"{1000.0 * leg.residual:+.1f} mm. Read it again."
            )


def _hanging(legs: tuple[Leg, ...], loops: tuple[Loop, ...]) -> Iterator[str]:
    """Points that no loop touches: a wrong reading to them shows nowhere."""
    touched = {name for loop in loops for name in loop.points}
    names = dict.fromkeys(name for leg in legs for name in (leg.reading.start, leg.reading.end))
    loose = [name for name in names if name not in touched]
    if loose:
        yield f"No loop touches {_listed(loose)}: a wrong reading there would not show. Read it once more."
