"""Limits of a standard for grading softwood by eye, and the strength class that each grade earns."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.carpentry import DIN4074, EN1912

if TYPE_CHECKING:
    from collections.abc import Mapping

LIMITS_CITE = Cite(work=DIN4074, place="table 2, squared timber", provenance=Provenance.MEMORY)
CLASSES_CITE = Cite(
    work=EN1912,
    place="spruce, fir, pine and larch of central and northern Europe; the lower class where editions differ",
    provenance=Provenance.MEMORY,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class VisualGrade:
    """One grade: the largest fault of each kind that it allows."""

    name: str
    number: int
    timber: str
    """Strength class of EN 338."""
    limits: Mapping[str, float]
    """Shares of the side or thickness; the width of the rings in m."""


GRADES: tuple[VisualGrade, ...] = (
    VisualGrade(
        name="S13", number=13, timber="C30",
        limits={"knots": 0.2, "grain": 0.07, "rings": 0.004, "wane": 0.2, "cracks": 0.4},
    ),
    VisualGrade(
        name="S10", number=10, timber="C24",
        limits={"knots": 0.4, "grain": 0.12, "rings": 0.006, "wane": 0.25, "cracks": 0.5},
    ),
    VisualGrade(
        name="S7", number=7, timber="C16",
        limits={"knots": 0.6, "grain": 0.12, "rings": 0.006, "wane": 0.25, "cracks": 0.5},
    ),
)  # fmt: skip
"""The best first."""


def class_of_grade(number: int) -> str | None:
    """Strength class of a grade; None for reject.

    >>> class_of_grade(10)
    'C24'
    """
    return next((grade.timber for grade in GRADES if grade.number == number), None)
