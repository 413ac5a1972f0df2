"""What domes, boxes and patterns are reckoned with besides geometry: each row with its source."""

from __future__ import annotations

from typing import Final

from bermwright.base.sources import Cite, Provenance
from bermwright.data.sourced import Sourced
from bermwright.data.works.curves import HUNTER2004
from bermwright.data.works.making import DOME_ADVICE, DOME_LIMITS, FAILED_DOME, MAKING_FORMS, TEEN_DOME
from bermwright.data.works.practice import TRADE


def _practice(place: str) -> Cite:
    return Cite(work=TRADE, place=place, provenance=Provenance.PRACTICE)


FIRST_STEP: Final = Sourced(
    0.0125,
    Cite(work=HUNTER2004, place="corbelling: the first courses that step in", provenance=Provenance.READ),
)
STEP_LIMIT: Final = Sourced(
    0.075,
    Cite(
        work=HUNTER2004, place="corbelling: 75 mm and more in the later courses", provenance=Provenance.READ
    ),
    "printed as what is done; nobody has tested it as a limit",
)
TIPS_AT: Final = Sourced(
    0.5,
    Cite(
        work=MAKING_FORMS,
        place="the middle of a loose course of even thickness lies half its width in",
        provenance=Provenance.DERIVED,
    ),
    "share of the width of a course that may hang over before a loose piece of it tips",
)
WIDEST: Final = Sourced(
    7.5, Cite(work=DOME_LIMITS, place="about the largest for bags", provenance=Provenance.READ)
)
BAG_WIDTHS: Final = (
    (3.66, 0.356),
    (4.27, 0.406),
    (4.57, 0.457),
    (5.18, 0.508),
)
"""Width of the dome up to which a width of bag was taught (m): 12, 14, 15 and 17 ft; 14 to 20 in lay-flat."""
BAG_WIDTHS_CITE: Final = Cite(
    work=DOME_ADVICE, place="a school's rule, quoted second-hand", provenance=Provenance.READ
)
CLOSING_CITE: Final = Cite(
    work=TEEN_DOME, place="bulging rows slide near the top: tamp them less", provenance=Provenance.READ
)
STRAIGHT_CITE: Final = Cite(
    work=FAILED_DOME, place="the first sign was a straight stretch in the ring", provenance=Provenance.READ
)
LAP: Final = Sourced(0.30, _practice("ends of courses lie a foot or more from the ends below"))
END: Final = Sourced(0.35, _practice("0.3 to 0.4 m of tube are twisted and folded under at each cut end"))
CHANGE: Final = Sourced(0.015, _practice("a ring is led back by a finger's width a course, not at once"))
FLATTEST: Final = Sourced(0.5, _practice("half of a ring's roundness, at which an eye sees it as straight"))
PIVOT_CLEAR: Final = Sourced(0.05, _practice("a pivot needs the room of its pole and of a hand"))
STRIKE_TAPER: Final = Sourced(
    0.010, _practice("a box that is drawn into the room is a finger wide narrower outside")
)
WEDGE_SLOPE: Final = Sourced(0.125, _practice("folding wedges rise 1 in 8"))
WEDGE_RISE: Final = Sourced(0.030, _practice("a form drops by 30 mm when its wedges are struck"))
WEDGE_HEEL: Final = Sourced(0.060, _practice("60 mm of a pair of wedges still bear when they are struck"))
WEDGE_THIN: Final = Sourced(
    0.015, _practice("the thin end of a wedge is 15 mm thick, so that it can be knocked out")
)
BOX_SPARE: Final = Sourced(0.030, _practice("a box stands out 30 mm on both faces, to tamp and plaster to"))
SLAT: Final = Sourced(0.025, _practice("arch forms are closed with battens 25 mm thick"))
SLAT_WIDTH: Final = Sourced(0.050, _practice("battens 50 mm wide follow a small arch"))
GORE_TOP: Final = Sourced(0.15, _practice("the tips of gores are cut off and a round cap laid over them"))
COURSE_TOLERANCE: Final = Sourced(0.010, _practice("a fresh course is laid to 10 mm"))


def bag_width_for(span: float) -> float | None:
    """Lay-flat width of bag that was taught for a dome of a width (m); None for wider ones."""
    return next((width for widest, width in BAG_WIDTHS if span <= widest), None)
