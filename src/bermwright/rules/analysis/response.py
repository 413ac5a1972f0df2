"""All states of a vault's ribs in all lanes as solved, and the worst read out of it."""

from __future__ import annotations

from dataclasses import dataclass, field, fields, replace
from functools import cached_property, wraps
from typing import TYPE_CHECKING, TypeVar

import numpy as np

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from numpy.typing import NDArray

    from bermwright.data.rule_sets import RuleSet
    from bermwright.handbook.frames import Frame, Response, States
    from bermwright.rules.analysis.lanes import Lane
    from bermwright.rules.analysis.relief import Relief
    from bermwright.rules.analysis.states import Situation

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]

SAME = 1e-8
"""Values that differ by no more than this share of the largest one are the same: what is left is rounding."""
Ribs = TypeVar("Ribs")
"""What ribs are made of, for a ratio that is asked of them."""
Found = TypeVar("Found")


@dataclass(frozen=True, kw_only=True)
class Analysis:
    """One set of partial factors: every lane (L) in every situation (S) on n elements.

    What many rules ask of it again (bending, strength used) is worked out once and stays with it.
    """

    factors: RuleSet
    lanes: tuple[Lane, ...]
    situations: tuple[Situation, ...]
    frame: Frame
    states: States
    response: Response
    bends: Truth
    """(L, S) whether the lane counts for bending in that situation (the heavy run often serves feet
    and connections only; a run that needs more friction than the membrane has is left out)."""
    model: Array
    """(S,) model factor on bending."""
    relief: Relief | None = None
    """How much of the relief by crown cover counts; None where there is none."""
    kept: dict[tuple[str, int], tuple[object, Array]] = field(
        default_factory=dict, init=False, repr=False, compare=False
    )
    """Strength used, by the name of the ratio and the ribs it was asked for (`keeps`)."""

    @cached_property
    def moment(self) -> Array:
        """(L, S, n, 2) design bending with the model factor, NaN in lanes that do not count.

        Where cover relieves the crown it is the worse of full and credited relief.
        """
        counted = np.where(self.bends, 1.0, np.nan)
        return self._relieved * (self.model[None, :] * counted)[:, :, None, None]

    @cached_property
    def connection_moment(self) -> Array:
        """(L, S, n, 2) the same for connections, for which every soil run counts.

        The model factor stands for leaving the heavy run out, so the heavy run itself goes without it.
        """
        return self._relieved * np.where(self.bends, self.model[None, :], 1.0)[:, :, None, None]

    @cached_property
    def _relieved(self) -> Array:
        bare = self.response.moment
        return bare if self.relief is None else self.relief.applied(bare)

    def where_situation(self, wanted: Callable[[Situation], bool]) -> Truth:
        """(S,) the situations for which `wanted` is true."""
        return np.array([wanted(now) for now in self.situations], dtype=bool)


def among(analysis: Analysis, wanted: Truth) -> Analysis:
    """Some of the situations, none of which goes on from another here; relief by cover is counted already."""
    response = analysis.response
    bare = response.moment if analysis.relief is None else analysis.relief.applied(response.moment)
    parts = {one.name: getattr(response, one.name)[:, wanted] for one in fields(response)}
    chosen = [now for now, kept in zip(analysis.situations, wanted.tolist(), strict=True) if kept]
    return replace(
        analysis,
        situations=tuple(replace(now, parent=-1) for now in chosen),
        response=replace(response, **{**parts, "moment": bare[:, wanted]}),
        bends=analysis.bends[:, wanted],
        model=analysis.model[wanted],
        relief=None,
    )


def keeps(ratio: Callable[[Analysis, Ribs], Array]) -> Callable[[Analysis, Ribs], Array]:
    """A ratio whose answer stays with its analysis, so that rules that look at it again wait for nothing."""

    @wraps(ratio)
    def kept(analysis: Analysis, strength: Ribs) -> Array:
        name = (ratio.__name__, id(strength))
        if name not in analysis.kept:
            answer = ratio(analysis, strength)
            answer.setflags(write=False)  # it is shared
            # The ribs are kept beside it: another object can then never have their number.
            analysis.kept[name] = (strength, answer)
        return analysis.kept[name][1]

    return kept


@dataclass(frozen=True, slots=True, kw_only=True)
class Peak:
    """The worst entry of an array of ratios: which analysis, lane, situation and place."""

    analysis: Analysis
    lane: int
    situation: int
    place: tuple[int, ...]
    """Indices behind lane and situation (element, end, ...)."""
    ratio: float
    """NaN when something in the field is not known."""

    @property
    def now(self) -> Situation:
        """The situation that governs."""
        return self.analysis.situations[self.situation]

    @property
    def corner(self) -> Lane:
        """The lane that governs."""
        return self.analysis.lanes[self.lane]

    @property
    def index(self) -> tuple[int, ...]:
        """Index into (L, S, ...) arrays."""
        return (self.lane, self.situation, *self.place)


def worse_end(moment: Array) -> Array:
    """(L, S, n) size of the larger bending of both ends of each element, of (L, S, n, 2)."""
    size = np.abs(moment)
    return np.maximum(size[..., 0], size[..., 1])


def first_largest(values: Array) -> tuple[int, ...]:
    """Where an array is largest: the first of the entries that are the same but for rounding.

    A symmetric house has two of each; whichever rounding favours, the same one is named. NaN outranks all.
    """
    most = float(np.max(values))
    if np.isnan(most):
        near = np.isnan(values)
    else:
        near = values >= (most - SAME * abs(most) if np.isfinite(most) else most)
    return tuple(int(i) for i in np.unravel_index(int(np.argmax(near)), values.shape))


def first_worst(found: Sequence[Found], ratio: Callable[[Found], float]) -> Found:
    """The first of what is found whose ratio is largest but for rounding."""
    return found[first_largest(np.array([ratio(one) for one in found]))[0]]


def peak(analysis: Analysis, ratios: Array, situations: Truth, lanes: Truth | None = None) -> Peak | None:
    """The worst ratio in the chosen situations and lanes, None when nothing is chosen.

    Lanes that do not count for bending are passed over only where `lanes` says so; an entry without
    an answer (not converged) makes the peak NaN unless something already fails.
    """
    counted = np.broadcast_to(situations[None, :], ratios.shape[:2]).copy()
    if lanes is not None:
        counted &= lanes
    if not counted.any():
        return None
    shape = (..., *(None,) * (ratios.ndim - 2))
    known = np.where(counted[shape] & np.isfinite(ratios), ratios, -np.inf)
    indices = first_largest(known)
    largest = float(known[indices])
    lost = counted & ~analysis.response.converged
    if lost.any() and largest <= 1.0:
        lane, situation = (int(i) for i in np.argwhere(lost)[0])
        return Peak(
            analysis=analysis, lane=lane, situation=situation, place=(0,) * (ratios.ndim - 2), ratio=np.nan
        )
    return Peak(
        analysis=analysis,
        lane=indices[0],
        situation=indices[1],
        place=indices[2:],
        ratio=largest if np.isfinite(largest) else np.nan,
    )
