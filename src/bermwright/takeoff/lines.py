"""Lines of working and rows, written short: the one place that says how numbers fill a formula."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Step
from bermwright.base.units import show
from bermwright.takeoff.nouns import UNKNOWN, Group, Quantity

if TYPE_CHECKING:
    from bermwright.base.sources import Cite
    from bermwright.stages.nouns import StageKind


def number(value: float, unit: str = "", digits: int = 0) -> str:
    """A number as it stands inside a filled formula."""
    return show(value, unit, digits)


def line(
    says: str, symbol: str, formula: str, filled: str, *, result: Shown, cite: Cite | None = None
) -> Step:
    """One line of working."""
    return Step(says=says, symbol=symbol, formula=formula, filled=filled, result=result, cite=cite)


def count(
    name: str,
    group: Group,
    value: float,
    *,
    working: tuple[Step, ...],
    stage: StageKind | None = None,
    note: str = "",
) -> Quantity:
    """A row that is a whole number of things."""
    return Quantity(
        name=name,
        group=group,
        low=value,
        high=value,
        unit="",
        digits=0,
        working=working,
        stage=stage,
        note=note,
    )


def measured(
    name: str,
    group: Group,
    shown: Shown,
    *,
    working: tuple[Step, ...],
    low: float | None = None,
    stage: StageKind | None = None,
    note: str = "",
) -> Quantity:
    """A row that is an amount; `low` is given where it is a range."""
    return Quantity(
        name=name,
        group=group,
        low=shown.value if low is None else low,
        high=shown.value,
        unit=shown.unit,
        digits=shown.digits,
        working=working,
        stage=stage,
        note=note,
    )


def unknown(name: str, group: Group, unit: str, *, note: str, stage: StageKind | None = None) -> Quantity:
    """A row that cannot be counted; the note says what is missing."""
    return Quantity(
        name=name,
        group=group,
        low=UNKNOWN,
        high=UNKNOWN,
        unit=unit,
        digits=0,
        working=(),
        stage=stage,
        note=note,
    )
