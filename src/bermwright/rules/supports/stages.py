"""What presses on one support at each stage, for tables and drawings."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.rules.supports.base import bases, found, worst_first

if TYPE_CHECKING:
    from collections.abc import Callable

    from numpy.typing import NDArray

    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Base, Governing
    from bermwright.rules.supports.standing import Standing

    Array = NDArray[np.float64]

Ends = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class StageForces:
    """One stage: the ends of what presses, over all cases and soil runs, factored (N/m)."""

    stage: str
    outward: Ends
    """Of the foot: least and most outward; negative is into the room."""
    down: Ends
    soil: Ends
    """Of the soil at the outer edge of the base."""
    turning: float
    """Share of stability used, in the worse direction."""
    sliding: float


def stage_forces(study: Study, standing: Standing) -> tuple[StageForces, ...]:
    """Every stage in order; nothing where the feet's forces are not known."""
    every = list(bases(study, standing, balance=True))
    if not all(found(base) for base in every):
        return ()
    rows = []
    for stage in study.stages:
        factored = [base for base in every if not base.acting.balance]
        outward = [_picked(base, -base.way * base.push, stage.name) for base in factored]
        rows.append(
            StageForces(
                stage=stage.name,
                outward=_ends(outward),
                down=_ends([_picked(base, base.down, stage.name) for base in factored]),
                soil=_ends([_picked(base, base.soil.force, stage.name) for base in factored]),
                turning=_most(every, lambda base: base.overturning, stage.name),
                sliding=_most(factored, lambda base: base.sliding, stage.name),
            )
        )
    return tuple(rows)


def governing_turn(study: Study, standing: Standing) -> Governing | None:
    """The moment at which a side is nearest to turning over."""
    every = list(bases(study, standing, balance=True))
    return worst_first(every, lambda base: base.overturning) if all(found(base) for base in every) else None


def _picked(base: Base, values: Array, stage: str) -> Array:
    """The columns of one stage."""
    wanted = [base.acting.now(moment).stage.name == stage for moment in range(base.push.shape[1])]
    picked: Array = np.broadcast_to(values, base.push.shape)[:, np.array(wanted)]
    return picked


def _ends(fields: list[Array]) -> Ends:
    return min(float(one.min()) for one in fields), max(float(one.max()) for one in fields)


def _most(every: list[Base], values: Callable[[Base], Array], stage: str) -> float:
    return max(float(_picked(base, values(base), stage).max()) for base in every)
