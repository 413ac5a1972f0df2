"""What the fire rules share: the wanted time, the lining, how deep it has burned by then."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Step, Verdict
from bermwright.data.fire import CHAR_RATES, ZERO_STRENGTH, fire_cite
from bermwright.handbook import fire
from bermwright.house.living.fire import Lining
from bermwright.rules.nouns import Said
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from bermwright.house import House
    from bermwright.rules.analysis.states import Situation

FINISHED = frozenset({StageKind.SETTLED, StageKind.LONG_TERM})
"""Stages in which somebody lives there."""
UNTOLD = "Answer the questions about [fire]: resists, lining and its thickness."


@dataclass(frozen=True, slots=True, kw_only=True)
class Burned:
    """How far the fire has come when the wanted time is over (m, s)."""

    time: float
    lining: Lining
    holds: float
    """How long the lining keeps the wood from charring (s)."""
    side: float
    """Depth that counts for nothing on faces with corners and fissures."""
    flat: float
    """The same under wide flat faces, such as planks."""
    rate: float


def lived_in(now: Situation) -> bool:
    """Whether a situation belongs to the finished house."""
    return now.stage.kind in FINISHED


def burned(house: House, wood: str) -> Burned | None:
    """What the wanted fire leaves of bare or lined wood; None while the file does not say enough."""
    asked = house.fire
    if asked is None or asked.resists is None or asked.lining is None:
        return None
    if asked.lining in {Lining.BOARDS, Lining.GYPSUM} and asked.lining_thickness is None:
        return None
    rates, time = CHAR_RATES[wood], asked.resists
    holds = float(
        fire.lining_time(
            str(asked.lining), asked.lining_thickness or 0.0, gaps=asked.lining_gaps, rate=rates.flat
        )
    )

    def lost(rate: float) -> float:
        char = fire.lined_char_depth(rate, time, holds)
        # Nothing of the wood is hot enough to count as lost while its lining still stands.
        deep = fire.effective_depth(char, time, ZERO_STRENGTH.value, bare=holds == 0.0)
        return float(deep) if char > 0.0 else 0.0

    return Burned(
        time=time,
        lining=asked.lining,
        holds=holds,
        side=lost(rates.notional),
        flat=lost(rates.flat),
        rate=rates.notional,
    )


def wood_of(timber_class: str) -> str:
    """Softwood or hardwood, by the letter of its strength class."""
    return "hardwood" if timber_class.startswith("D") else "softwood"


def not_told() -> Said:
    """Said while the file does not say what is asked in a fire."""
    return Said(
        verdict=Verdict.UNKNOWN,
        template="How long the timber must stand a fire, and behind which lining, is not known.",
        advice=UNTOLD,
    )


def burned_steps(lost: Burned, *, flat: bool) -> tuple[Step, ...]:
    """How the lost depth comes about."""
    depth = lost.flat if flat else lost.side
    lining = Step(
        says=f"The lining ({lost.lining}) keeps the wood from charring",
        symbol="t_ch",
        formula="h/β or 2.8 h − 14 min",
        filled="",
        result=Shown(lost.holds, "min", 1),
        cite=fire_cite("3.4.3.3"),
    )
    return (
        lining,
        Step(
            says=f"Depth that counts for nothing after {lost.time / 60:.0f} min: char and hot wood",
            symbol="d_ef",
            formula="β·t or 2β·(t − t_ch), + k0·d0",
            filled=f"t = {lost.time / 60:.0f} min, t_ch = {lost.holds / 60:.1f} min",
            result=Shown(depth, "mm", 1),
            cite=fire_cite("3.4.2, 3.4.3.2, 4.2.2"),
        ),
    )


def minutes(seconds: float) -> Shown:
    """A time for people."""
    return Shown(seconds, "min", 0)
