"""One ring at a time: what openings leave of it, its bricks, and which crew lays which part."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import show
from bermwright.data.domes import END, LAP
from bermwright.form.dome.profile import DomeProblemError
from bermwright.form.dome.shapes import CrewPart, Piece
from bermwright.handbook.compass import (
    bricks_in_ring,
    opening_angle,
    round_head_width,
    start_shift,
    work_shares,
)
from bermwright.house.making.words import Head

if TYPE_CHECKING:
    from bermwright.house.making.dome import Dome, DomeOpening

TURN = 2.0 * np.pi
NEAR = 1e-6
"""Levels that differ less are one (m)."""


def hole_width(opening: DomeOpening, low: float, high: float) -> float:
    """Widest part of an opening between two levels (m); 0 where it has none there."""
    if low >= opening.top - NEAR or high <= opening.sill + NEAR:
        return 0.0
    if opening.head is Head.FLAT:
        return opening.width
    return float(round_head_width(max(low, opening.sill) - opening.head_springing, opening.width))


def middle_radius(dome: Dome, radius: float, tilt: float) -> float:
    """Radius of the middle line of a course whose bed tilts (m)."""
    return radius + 0.5 * dome.thickness * float(np.cos(tilt))


def pieces_of(
    dome: Dome, height: float, course: float, radii: tuple[float, float, float], start: float
) -> tuple[Piece, ...]:
    """The parts of one ring, clockwise from the first after its start.

    `radii` are those inside on the bed, in the middle, and inside where its bricks are narrowest.
    """
    radius, middle, narrow = radii
    low = dome.springing + height
    holes = [(one, hole_width(one, low, low + course)) for one in dome.openings]
    holes = [(one, width) for one, width in holes if width > 0.0]
    for one, width in holes:
        if width >= 2.0 * radius:
            wide = f"is {width:.2f} m wide at {show(low, 'level')}"
            raise DomeProblemError(
                dome.name, f'opening "{one.name}"', f"{wide}, the ring there only {2.0 * radius:.2f} m.",
                "Make it narrower, or lower its head.",
            )  # fmt: skip
    if not holes:
        return (_piece(dome, start, start + TURN, narrow, length=TURN * middle, whole=True),)
    return _between(dome, holes, radii, start)


def _between(
    dome: Dome, holes: list[tuple[DomeOpening, float]], radii: tuple[float, float, float], start: float
) -> tuple[Piece, ...]:
    """The parts between openings; the angles of an opening differ at the inner face and in the middle."""
    radius, middle, narrow = radii
    order = sorted(holes, key=lambda hole: (hole[0].at - start) % TURN)
    pieces = []
    for (one, width), (other, next_width) in zip(order, [*order[1:], order[0]], strict=True):
        at = (one.at - start) % TURN
        apart = (other.at - one.at) % TURN or TURN
        first = start + at + 0.5 * float(opening_angle(radius, width))
        last = start + at + apart - 0.5 * float(opening_angle(radius, next_width))
        if last <= first:
            raise DomeProblemError(
                dome.name, f'opening "{one.name}"', f'leaves no wall beside "{other.name}" in a ring '
                f"{2.0 * radius:.2f} m wide.", "Make one of them narrower or lower.",
            )  # fmt: skip
        taken = 0.5 * float(opening_angle(middle, width) + opening_angle(middle, next_width))
        pieces.append(_piece(dome, first, last, narrow, length=middle * (apart - taken), whole=False))
    return tuple(pieces)


def _piece(dome: Dome, start: float, end: float, narrow: float, *, length: float, whole: bool) -> Piece:
    count = None
    if dome.unit_length is not None and not dome.unit.runs_on:
        count = int(bricks_in_ring(narrow * (end - start), dome.unit_length, dome.joint))
    return Piece(start=start, end=end, length=length, whole=whole, bricks=count)


def tube_of(dome: Dome, pieces: tuple[Piece, ...]) -> float:
    """Length of tube with what is folded under at its ends; every crew begins with one of its own (m)."""
    crews = max(1, len(dome.crews))
    parts = crews if pieces[0].whole else len(pieces) + crews - 1
    return sum(piece.length for piece in pieces) + 2.0 * parts * END.value


def next_start(start: float, middle: float) -> float:
    """Where the next course begins, so that its end does not lie over this one's."""
    return (start + min(float(start_shift(middle, LAP.value)), 0.5 * np.pi)) % TURN


def crews_of(
    dome: Dome, pieces: tuple[Piece, ...], below: tuple[CrewPart, ...], under: float
) -> tuple[CrewPart, ...]:
    """Which crew lays which part, all going clockwise and coming to their ends together.

    The places where they meet are moved a little where they would lie over those of the course `below`,
    whose middle line has the radius `under`, along which a lap is measured.
    """
    if not dome.crews:
        return ()
    tries = [_shared(dome, pieces, aside * LAP.value) for aside in ASIDE]
    return max(tries, key=lambda parts: min(_apart(parts, below) * under, LAP.value - NEAR))


ASIDE = (0.0, 0.55, -0.55, 1.1, -1.1, 1.65, -1.65)
"""How many laps a meeting place may be moved, the least that will do first.

A little over halves: between openings a length is a smaller angle at the inner face than in the middle.
"""


def _shared(dome: Dome, pieces: tuple[Piece, ...], aside: float) -> tuple[CrewPart, ...]:
    shares = work_shares([1.0 / crew.metre_takes for crew in dome.crews])
    whole = sum(piece.length for piece in pieces)
    ends = [share * whole + aside for share in np.cumsum(shares).tolist()[:-1]]
    bounds = [0.0, *(min(max(end, 0.1 * whole), 0.9 * whole) for end in ends), whole]
    return tuple(
        CrewPart(
            crew=crew.name,
            start=_direction(pieces, low, after=True) % TURN,
            end=_direction(pieces, high, after=False) % TURN,
            length=high - low,
            seconds=(high - low) * crew.metre_takes,
        )
        for crew, low, high in zip(dome.crews, bounds[:-1], bounds[1:], strict=True)
    )


def _apart(parts: tuple[CrewPart, ...], below: tuple[CrewPart, ...]) -> float:
    """Least angle between the meeting places of two courses (rad)."""
    return min(
        (abs((one.end - other.end + np.pi) % TURN - np.pi) for one in parts[:-1] for other in below[:-1]),
        default=np.pi,
    )


def _direction(pieces: tuple[Piece, ...], length: float, *, after: bool) -> float:
    """Direction at a length along the pieces; at a gap the side behind it, or before it."""
    for number, piece in enumerate(pieces):
        last = number == len(pieces) - 1
        ends_here = length < piece.length - NEAR if after else length <= piece.length + NEAR
        if ends_here or last:
            share = min(max(length / piece.length, 0.0), 1.0)
            return piece.start + share * (piece.end - piece.start)
        length -= piece.length
    return 0.0
