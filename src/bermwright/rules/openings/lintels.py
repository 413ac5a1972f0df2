"""Openings in end walls: whether they fit, and whether a lintel carries the wall over them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import ratio_text
from bermwright.data.rule_sets import rule_sets
from bermwright.data.timber_classes import TIMBER_CLASSES
from bermwright.data.works.carpentry import UFC310_05A
from bermwright.data.works.practice import TRADE
from bermwright.handbook.carpentry import lintel_load
from bermwright.house import EndKind, EndSide
from bermwright.rules.analysis.strength import WORST_CLASS
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.openings.ends import vault_of
from bermwright.rules.openings.logs import GRAVITY
from bermwright.rules.openings.timbers import (
    Member,
    Use,
    bearing_use,
    bending_use,
    member_of,
    missing,
    nothing,
    said_of_use,
    shear_use,
    worst_use,
)
from bermwright.rules.ribs.common import step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house import End, House, Opening
    from bermwright.rules.nouns import Whole
    from bermwright.rules.study import Study

ARCH_CITE = Cite(work=UFC310_05A, place="chapter 8: arch of 45 degrees", provenance=Provenance.READ)
FIT_CITE = Cite(work=TRADE, place="an opening lies inside the ribs", provenance=Provenance.PRACTICE)
ARCHING = {EndKind.BLOCKS, EndKind.EARTH_TUBES}


def _end_openings(house: House) -> tuple[Opening, ...]:
    return tuple(one for one in house.openings if one.in_end)


def end_at(house: House, opening: Opening) -> End | None:
    """The end wall in which an opening is."""
    side = EndSide(str(opening.side))
    return next((end for end in house.ends if end.vault == opening.vault and end.at is side), None)


def inside_level(study: Study, x: float) -> float:
    """Level of the inside of the ribs at a place across (m); NaN outside them."""
    inside = study.form.rib.inside
    return float(np.interp(x, inside.x, inside.z, left=math.nan, right=math.nan))


def room_at(study: Study, opening: Opening) -> float | None:
    """Room between the ribs and the upper corners of an opening, the bearing of its lintel included (m).

    None while its sill is not known.
    """
    if opening.head is None:
        return None
    out = opening.width / 2 + ((opening.bearing or 0.0) if opening.header else 0.0)
    corners = (opening.across - out, opening.across + out)
    rooms = [inside_level(study, corner) - opening.head for corner in corners]
    return min(rooms) if np.isfinite(rooms).all() else -math.inf


def _fits(whole: Whole) -> Iterator[Said]:
    chosen = _end_openings(whole.house)
    for opening in chosen:
        yield _fit(whole, opening)
    if not chosen:
        yield nothing("No opening is in an end wall.")


def _fit(whole: Whole, opening: Opening) -> Said:
    part = f'opening "{opening.name}"'
    study = whole.studies.get(opening.vault)
    room = None if study is None else room_at(study, opening)
    if study is None:
        return missing(
            part, "which shape the vault around it has", "Answer the questions about the vault first."
        )
    if room is None:
        return missing(part, "at which level its lower edge is", "Write sill.")
    good = room >= 0.0
    return Said(
        part=part,
        verdict=Verdict.HOLDS if good else Verdict.FAILS,
        template="Its upper corners and its lintel stay {room} under the ribs."
        if good
        else "Its upper corners, or the ends of its lintel, do not fit under the ribs.",
        values={"room": Shown(room, "m", 2)} if good else {},
        advice=""
        if good
        else "Make it lower or narrower, or move it nearer to the middle: height, width, across.",
    )


def _lintels(whole: Whole) -> Iterator[Said]:
    chosen = _end_openings(whole.house)
    for opening in chosen:
        yield _lintel(whole, opening)
    if not chosen:
        yield nothing("No opening is in an end wall.")


def _lintel(whole: Whole, opening: Opening) -> Said:
    part, house = f'opening "{opening.name}"', whole.house
    end = end_at(house, opening)
    if end is None:
        return missing(part, "of what the wall around it is", "Write an [[end]] table for that end.")
    if end.kind is EndKind.OPEN:
        return Said(
            part=part, verdict=Verdict.DOES_NOT_APPLY, template="That end is open: no wall rests on a lintel."
        )
    weight = wall_weight(end)
    if weight is None:
        return missing(
            part, "how heavy the wall over it is", "Write the end's thickness, and unit_weight or timber."
        )
    above = wall_above(whole, opening)
    if above is None:
        return missing(
            part, "how high the wall over it is", "Write sill, and answer the questions about the vault."
        )
    member = member_of(
        opening.header_timber,
        end.service_class or WORST_CLASS,
        section=opening.header,
        boards=opening.header_boards,
    )
    if member is None or opening.bearing is None:
        return missing(
            part, "which lintel carries the wall over it", "Write header, header_timber and bearing."
        )
    return _carried(house, opening, end, (member, weight, above))


def wall_weight(end: End) -> float | None:
    """Weight of a square metre of an end wall (N/m2); None while it is not known."""
    if end.thickness is None:
        return None
    if end.kind in ARCHING:
        return None if end.unit_weight is None else end.unit_weight.high * end.thickness
    timber = TIMBER_CLASSES.get(end.timber or "")
    return None if timber is None else timber.density * GRAVITY * end.thickness


def wall_above(whole: Whole, opening: Opening) -> float | None:
    """Height of the wall over an opening, up to the crown of the ribs (m)."""
    study, vault = whole.studies.get(opening.vault), vault_of(whole.house, opening.vault)
    if opening.head is None or vault is None or study is None:
        return None
    return max(float(np.max(study.form.rib.inside.z)) - opening.head, 0.0)


def _carried(house: House, opening: Opening, end: End, about: tuple[Member, float, float]) -> Said:
    part, (_, _, above) = f'opening "{opening.name}"', about
    span = opening.width + (opening.bearing or 0.0)
    all_of_it = worst_use(_uses(house, opening, about, arches=False))
    if all_of_it.ratio <= 1.0 or end.kind not in ARCHING or above < span / 2:
        return said_of_use(part, all_of_it)
    arching = worst_use(_uses(house, opening, about, arches=True))
    if arching.ratio > 1.0:
        return said_of_use(part, arching)
    return Said(
        part=part,
        verdict=Verdict.TIGHT,
        template="Its lintel holds only if the wall arches over it: {part} then uses {arching}, else {all}.",
        values={
            "part": arching.what,
            "arching": ratio_text(arching.ratio),
            "all": ratio_text(all_of_it.ratio),
        },
        ratio=all_of_it.ratio,
        advice="Take a deeper lintel (header), or bond the wall and have its jambs checked for the arch.",
        steps=(*all_of_it.steps, *arching.steps),
        cites=(ARCH_CITE,),
    )


def _uses(
    house: House, opening: Opening, about: tuple[Member, float, float], *, arches: bool
) -> Iterator[Use]:
    member, weight, above = about
    bearing = opening.bearing or math.nan
    span = opening.width + bearing
    factor = max(one.permanent for one in rule_sets(house.rules.approach, house.rules.set))
    own = factor * member.timber.density * GRAVITY * member.area
    load = lintel_load(span, above, weight=factor * weight, arches=arches)
    moment, force = float(load.moment) + own * span**2 / 8, float(load.reaction) + own * span / 2
    yield bending_use(
        member, moment, "permanent", loads=(_load_step(weight, above, span, moment, arches=arches),)
    )
    yield shear_use(member, force, "permanent")
    yield bearing_use(member, force, "permanent", length=bearing, width=member.width)


def _load_step(weight: float, above: float, span: float, moment: float, *, arches: bool) -> Step:
    which = "what lies under an arch of 45 degrees" if arches else "the whole wall over it"
    return step(
        f"Bending of the lintel by {which}",
        "M",
        "w·l³/24 and less" if arches else "w·h·l²/8",
        f"w = {weight / 1e3:.2f} kN/m², h = {above:.2f} m, l = {span:.2f} m",
        Shown(moment, "kNm", 3),
        ARCH_CITE if arches else None,
    )


OPENINGS_FIT = HouseRule(
    name="openings-fit-under-the-ribs",
    title="Openings in the ends fit under the ribs",
    why="A door whose corner meets the rib is found out on the day when it is to be hung.",
    cites=(FIT_CITE,),
    decide=_fits,
    asks=("opening", "opening.sill"),
)
LINTELS_CARRY = HouseRule(
    name="lintels-carry-the-wall",
    title="Lintels carry the wall over openings in the ends",
    why="Over a door hangs a piece of wall that nobody looks at until the door sticks.",
    cites=(ARCH_CITE,),
    decide=_lintels,
    asks=("opening.header", "opening.header_timber", "opening.bearing", "opening.sill", "end.thickness"),
)
