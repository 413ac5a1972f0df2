"""Grading sawn softwood by eye: measured faults to a grade of a visual standard, or reject."""

from __future__ import annotations

from dataclasses import dataclass

from bermwright.base.limits import within
from bermwright.data.timber_grades import GRADES


@dataclass(frozen=True, slots=True, kw_only=True)
class Graded:
    """The grade of one board, and what kept it from a better one."""

    number: int
    """13, 10 or 7 of the standard; 0 is reject."""
    by: str
    """The fault that decided: knots, grain, rings, wane, cracks or rot; empty for the best grade."""


def visual_grade(
    *, knots: float, grain: float, rings: float, wane: float, cracks: float, rotten: bool = False
) -> Graded:
    """Grade of a squared timber, or of a board that stands on edge, by its worst fault.

    the best grade of which no limit is passed; rot, or holes of beetles over 2 mm, reject

    Parameters
    ----------
    knots : float
        Smallest diameter of the largest knot over the side that it is in [-], 0 to 1; a hole of a nail or
        bolt counts as a knot.
    grain : float
        Slope of the grain, across over along [-], 0 to 1.
    rings : float
        Mean width of the yearly rings [m], 0.0001 to 0.05.
    wane : float
        Missing edge over the width of the side [-], 0 to 1.
    cracks : float
        Depth of the cracks over the thickness [-], 0 to 1.
    rotten : bool
        Whether there is brown or white rot, or beetle holes over 2 mm [-].

    Returns
    -------
    Graded
        Grade, and the fault that decided.

    Notes
    -----
    Boards that bend on edge are graded as squared timber: knots in their narrow sides count most.

    References
    ----------
    [DIN4074] table 2; [HFM4074] for boards on edge.

    Examples
    --------
    >>> visual_grade(knots=0.35, grain=0.05, rings=0.003, wane=0.1, cracks=0.2).number
    10
    """
    for name, value in (("knots", knots), ("slope of grain", grain), ("wane", wane), ("cracks", cracks)):
        within(name, value, 0.0, 1.0)
    within("width of the rings", rings, 0.0001, 0.05, unit="m")
    if rotten:
        return Graded(number=0, by="rot")
    measured = {"knots": knots, "grain": grain, "rings": rings, "wane": wane, "cracks": cracks}
    spoiled = ""
    for grade in GRADES:
        over = {name: value / grade.limits[name] for name, value in measured.items()}
        worst = max(over, key=lambda name: over[name])
        if over[worst] <= 1.0:
            return Graded(number=grade.number, by=spoiled)
        spoiled = worst
    return Graded(number=0, by=spoiled)
