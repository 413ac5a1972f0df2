"""The table of curves as text, the same on paper and on a terminal."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.adapt.shape.advice import wall_words
from bermwright.adapt.shape.families import Stand
from bermwright.base.units import show
from bermwright.base.wording import ratio_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.adapt.shape.advice import Advice
    from bermwright.adapt.shape.candidate import Candidate
    from bermwright.adapt.shape.order import Trial

NO_REST = "gives way"
UNKNOWN = "unknown"
SHARP = 0.01
"""A radius below this is a point (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveRow:
    """One curve of the table; figures whose unit stands in the head of their column come without it."""

    letter: str
    curve: str
    alike: str
    """Other families that come to the same curve."""
    stands: str
    stand: str
    """Level of the feet, and whether the crown comes down, as short as can be."""
    rise: str
    bends: str
    where: str
    used: str
    feet: str
    radius: str
    board: str
    """Width of board that the pieces need."""
    cut: str
    """Empty, or that the file's boards are too narrow."""
    fill: str
    floor: str
    steep: str
    hours: str
    walls: str


def labelled(advice: Advice) -> tuple[tuple[str, Candidate], ...]:
    """The curves with their letters: A is the one to take, the file's own is marked as such."""
    own, chosen = advice.comparison.own, advice.chosen
    others = [one for one in advice.comparison.others if not _is(one, chosen)]
    listed = [chosen, *([own] if own is not None and not advice.keeps else []), *others]
    return tuple(zip(LETTERS, listed, strict=False))


LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


def _is(one: Candidate, chosen: Candidate) -> bool:
    """Whether a curve of the list is the chosen one before it was rounded."""
    return one.stand is chosen.stand and one.vault.curve is chosen.vault.curve


def curve_rows(advice: Advice, system: str = "metric") -> tuple[CurveRow, ...]:
    """Every curve: first the one to take, then the file's own, then the others, least bending first."""
    return tuple(_row(letter, one, system) for letter, one in labelled(advice))


def _row(letter: str, one: Candidate, system: str) -> CurveRow:
    envelope = one.envelope
    return CurveRow(
        letter=letter,
        curve=str(one.vault.curve),
        alike=", ".join(map(str, one.alike)),
        stands=stands(one, system),
        stand=_stand(one, system),
        rise=bare(one.form.rise, "m", 2, system),
        bends=_bends(envelope.bending, system),
        where=f"{envelope.place}; {envelope.stage}, {envelope.case}",
        used=used_text(envelope.used),
        feet=feet_text(one, system),
        radius="point" if one.crown_radius < SHARP else bare(one.crown_radius, "m", 2, system),
        board=bare(one.board_needed, "mm", 0, system),
        cut="" if one.can_be_cut else "the boards are too narrow for it",
        fill=bare(one.fill, "m3", 0, system),
        floor=bare(one.floor_width, "m", 2, system),
        steep=f"{100.0 * one.steep[0]:.0f}/{100.0 * one.steep[1]:.0f}",
        hours=f"{one.hours.low:.0f}–{one.hours.high:.0f}",
        walls=wall_words(one, system),
    )


def _bends(bending: float, system: str) -> str:
    return bare(bending, "kNm/m", 1, system) if math.isfinite(bending) else NO_REST


def stands(one: Candidate, system: str = "metric") -> str:
    """Where a curve springs from."""
    level = show(one.form.springing, "level", 2, system)
    match one.stand:
        case None:
            return f"as in the file, feet at {level}"
        case Stand.GROUND:
            return "feet on the floor"
        case Stand.WALLS:
            return f"feet at {level}"
        case Stand.LOWER:
            crown = show(one.form.springing + one.form.rise, "level", 2, system)
            return f"feet at {level}, crown down to {crown}"


def _stand(one: Candidate, system: str) -> str:
    level = show(one.form.springing, "level", 2, system)
    words = {Stand.LOWER: f"{level}, crown lower", None: f"{level}, file"}
    return words.get(one.stand, level)


def bending_text(bending: float, system: str = "metric") -> str:
    """The largest bending, or that the ribs find no rest."""
    return show(bending, "kNm/m", 1, system) if math.isfinite(bending) else NO_REST


def used_text(used: float | None) -> str:
    """Strength used, rounded up; unknown where it is not known."""
    return UNKNOWN if used is None else ratio_text(used)


def feet_text(one: Candidate, system: str = "metric") -> str:
    """The range of the sideways push of a foot, inward and outward in words, without its unit."""
    low, high = one.envelope.outward.low, one.envelope.outward.high
    if not (math.isfinite(low) and math.isfinite(high)):
        return UNKNOWN
    ends = [bare(abs(end), "kN/m", 0, system) for end in (low, high)]
    if low < 0.0 < high:
        return f"{ends[0]} in, {ends[1]} out"
    return f"{' … '.join(ends if low >= 0.0 else ends[::-1])} {'out' if low >= 0.0 else 'in'}"


def bare(value: float, unit: str, digits: int, system: str) -> str:
    """A number whose unit stands in the head of its column; feet and inches as decimals, to be compared."""
    if not math.isfinite(value):
        return UNKNOWN
    if system != "metric" and unit in DECIMAL:
        _, size = DECIMAL[unit]
        return f"{value / size:.1f}"
    return show(value, unit, digits, system).split()[0]


def unit_of(unit: str, system: str) -> str:
    """The unit for the head of a column; nothing where there is none."""
    if system != "metric" and unit in DECIMAL:
        return DECIMAL[unit][0]
    return show(1.0, unit, 0, system).split(maxsplit=1)[1] if unit else ""


DECIMAL = {"m": ("ft", 0.3048), "mm": ("in", 0.0254)}
"""Units of lengths in imperial tables, and their size (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeverRow:
    """What one kind of work does alone."""

    work: str
    bends: str
    share: str
    """Its bending over that without it."""
    used: str
    hours: str
    lifted: str


def lever_rows(advice: Advice, system: str = "metric") -> Iterator[LeverRow]:
    """Each lever alone, for the chosen curve, without loads that come and go."""
    order = advice.order
    yield _lever(order.plain, order.plain, "as the file has it", system)
    for trial in order.levers:
        yield _lever(trial, order.plain, ", ".join(trial.works.named), system)


def _lever(trial: Trial, plain: Trial, work: str, system: str) -> LeverRow:
    share = trial.bending / plain.bending if plain.bending > 0.0 else math.nan
    return LeverRow(
        work=work,
        bends=bending_text(trial.bending, system),
        share=f"{share:.2f}" if math.isfinite(share) else UNKNOWN,
        used=used_text(trial.used if math.isfinite(trial.used) else None),
        hours=show(trial.effort.hours, "ph", 0, system),
        lifted=show(trial.effort.lifted, "kg", 0, system),
    )
