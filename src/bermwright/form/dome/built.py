"""A ring that was measured, beside its drawing, and the radii of the next courses."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.domes import CHANGE, COURSE_TOLERANCE, FLATTEST
from bermwright.form.dome.profile import DomeProblemError
from bermwright.handbook.compass import chain_from_pivot, fit_ring, recover, ring_roundness
from bermwright.handbook.compass.built import FULL_TURN, SAME_DIRECTION, SHIFT_NEEDS

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.dome.shapes import DomeForm
    from bermwright.handbook.compass import RingFit, Roundness


ON_DRAWING = 0.1 * COURSE_TOLERANCE.value
"""A course that is off by no more than a tenth of what a fresh one may lies on the drawing (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """One radius, measured level from the axis to the inner face at the bed of a course."""

    course: int
    direction: float
    """Clockwise from the zero mark (rad)."""
    radius: float


@dataclass(frozen=True, slots=True, kw_only=True)
class NextCourse:
    """One course ahead, as drawn and as it is to be laid now."""

    number: int
    drawn: float
    radius: float
    chain: float
    step: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Correction:
    """What one measured ring says."""

    course: int
    readings: tuple[Reading, ...]
    left_out: int
    """Readings of lower courses, which are not judged."""
    fit: RingFit
    roundness: Roundness
    error: float
    """Mean radius over the drawing's (m)."""
    ahead: tuple[NextCourse, ...]
    back_at: int | None
    """Course that lies on the drawing again; None where the error cannot be made good."""
    left: float
    """Error that the last course still has (m)."""
    flat: bool
    """Whether a stretch of it is straight or dented: stop."""
    bad_steps: tuple[tuple[float, float], ...]
    """Where the next course would step out, or in by more than the limit: direction and step-in (rad, m)."""

    @property
    def recovers(self) -> bool:
        """Whether one of the next courses lies on the drawing again."""
        return self.back_at is not None

    @property
    def goes_on(self) -> bool:
        """Whether the next course may be laid on it by the table."""
        return self.recovers and not self.flat and not self.bad_steps

    @property
    def flattest(self) -> Reading:
        """Where it is least round."""
        return self.readings[self.roundness.flattest]


def correct(form: DomeForm, readings: Sequence[Reading]) -> Correction:
    """Judge the highest ring among the readings and lead the next courses back."""
    number = max((one.course for one in readings), default=0)
    if not 1 <= number <= len(form.courses):
        raise DomeProblemError(
            form.name, f"course {number}", f"is measured, but the dome has courses 1 to {len(form.courses)}.",
            "Count courses from 1, at the springing.",
        )  # fmt: skip
    ring = sorted((one for one in readings if one.course == number), key=lambda one: one.direction)
    turns, radii = np.array([one.direction for one in ring]), np.array([one.radius for one in ring])
    _goes_round(form, number, np.sort(turns))
    fit = fit_ring(turns, radii)
    course, ahead = form.courses[number - 1], form.courses[number - 1 :]
    drawn = np.array([one.radius for one in ahead])
    led = recover(drawn, fit.radius, form.step_limit, CHANGE.value)
    apart = np.abs(led - drawn)
    back = np.flatnonzero(apart <= ON_DRAWING)
    roundness = ring_roundness(turns, radii)
    return Correction(
        course=number,
        readings=tuple(ring),
        left_out=len(readings) - len(ring),
        fit=fit,
        roundness=roundness,
        error=fit.radius - course.radius,
        ahead=tuple(_ahead(form, number, led)),
        back_at=int(ahead[int(back[0])].number) if back.size else None,
        left=float(led[-1] - drawn[-1]),
        flat=bool(np.min(roundness.share) < FLATTEST.value),
        bad_steps=tuple(_bad_steps(form, ring, led, drawn)),
    )


def _goes_round(form: DomeForm, number: int, turns: np.ndarray) -> None:
    """Refuse readings that do not tell where a ring's middle lies, in words for who measured them."""
    if turns.size < SHIFT_NEEDS:
        raise DomeProblemError(
            form.name, f"course {number}", f"has {turns.size} radii: that is no ring.",
            f"Measure at least {SHIFT_NEEDS}, spread evenly round it.",
        )  # fmt: skip
    gaps = np.append(np.diff(turns), turns[0] + FULL_TURN - turns[-1])
    twice, widest = int(np.argmin(gaps)), float(np.max(gaps))
    if gaps[twice] < SAME_DIRECTION:
        raise DomeProblemError(
            form.name, f"course {number}", f"has two radii at {np.degrees(turns[twice]):.0f}°.",
            "Write one in each direction, such as their mean.",
        )  # fmt: skip
    if widest > 0.5 * FULL_TURN:
        raise DomeProblemError(
            form.name, f"course {number}", f"is not measured over {np.degrees(widest):.0f}° of its ring.",
            "That leaves its middle open: measure in directions that are spread round it.",
        )  # fmt: skip


def _bad_steps(
    form: DomeForm, ring: Sequence[Reading], led: np.ndarray, drawn: np.ndarray
) -> Iterator[tuple[float, float]]:
    """Places where the next course, laid round, would stand out over this one or in by too much."""
    if led.size == 1:
        return
    most = max(form.step_limit, float(drawn[0] - drawn[1])) + COURSE_TOLERANCE.value
    for one in ring:
        step = one.radius - float(led[1])
        if not -COURSE_TOLERANCE.value <= step <= most:
            yield one.direction, step


def _ahead(form: DomeForm, number: int, led: np.ndarray) -> list[NextCourse]:
    rows = []
    for place, course in enumerate(form.courses[number:], 1):
        radius = float(led[place])
        chain = float(chain_from_pivot(course.height, radius, form.dome.pivot_height)) - form.dome.hook
        rows.append(
            NextCourse(
                number=course.number,
                drawn=course.radius,
                radius=radius,
                chain=chain,
                step=float(led[place - 1]) - radius,
            )
        )
    return rows
