"""A form that climbs along a wall: its picture, what it is made of, what it must hold, how it is moved."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.sheets.forms import slip_sheet
from bermwright.data.rates import LIFT_LIMIT
from bermwright.data.slip_forms import FORM_FACTOR, PRESSURE_CITE, RAMMED_CITE, SAG, STRUT_EVERY
from bermwright.data.timber_classes import GAMMA_TIMBER
from bermwright.form.developed import WET_DAYS
from bermwright.house.making.slip import Filling

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.developed import Asked, SlipPlan

CAUTIONS = (
    (
        "Fresh fill bursts weak forms: nobody stands beside a panel while it is filled or rammed; fill "
        "evenly, in layers of a hand, and stop when anything moves."
    ),
    (
        "A fresh lift carries no weight and no push: no soil against it, no load on it, until whoever "
        "answers for the wall says so. Local rules for scaffolds, and for work at height, come first."
    ),
)


def slip_blocks(slip: SlipPlan, system: str) -> Iterator[Block]:
    """All about one form."""
    yield Heading(text=f"Climbing form {plain(slip.name)}, {plain(slip.part)}", level=2)
    yield Notice(kind="caution", lines=CAUTIONS)
    yield Figure(sheet=slip_sheet(slip, system=system), caption="One lift; the panels grip the one below.")
    yield Points(items=tuple(_made(slip, system)))
    yield Table(
        head=("what", "asked", "there is", "uses", "verdict"),
        rows=tuple(_row(one, system) for one in slip.asked),
        align="lrrrl",
        caption=_how(slip, system),
    )
    yield from _lift(slip, system)
    yield Points(items=tuple(_moved(slip, system)), numbered=True)


def _made(slip: SlipPlan, system: str) -> Iterator[str]:
    def mm(value: float) -> str:
        return show(value, "mm", 0, system)

    yield (
        f"Two panels {show(slip.length, 'm', 2, system)} long and {show(slip.height, 'm', 2, system)} high, "
        f"{mm(slip.thickness)} apart: boards {mm(slip.boards)} along the wall, "
        f"{show(slip.area, 'm2', 1, system)} in all."
    )
    yield (
        f"Behind each {slip.studs} studs {mm(slip.stud[0])} × {mm(slip.stud[1])}, {mm(slip.spacing)} from "
        f"middle to middle; {slip.ties} ties, one under and one over the fill at every pair."
    )
    if slip.mass is None:
        yield "What a panel weighs is not known: write slip_form.timber."
    else:
        team = "tackle, or a shorter panel" if slip.people is None else f"{slip.people} to lift it"
        yield (
            f"One panel weighs {show(slip.mass, 'kg', 0, system)}: {team} "
            f"({show(LIFT_LIMIT.value, 'kg', 0, system)} for one)."
        )
    yield (
        f"{slip.lifts} lifts, {slip.places} places side by side in each: the pair is set {slip.settings} "
        "times."
    )


def _row(one: Asked, system: str) -> tuple[str, ...]:
    def told(value: float) -> str:
        return "not known" if math.isnan(value) else show(value, one.unit, 1, system)

    share = "not known" if math.isnan(one.share) else f"{one.share:.2f}"
    verdict = "not known" if math.isnan(one.share) else "holds" if one.share <= 1.0 else "too weak"
    return f"{one.what}: {one.working}", told(one.demand), told(one.capacity), share, verdict


def _how(slip: SlipPlan, system: str) -> str:
    if slip.filling is Filling.RAMMED:
        return (
            f"Published practice ({RAMMED_CITE}). How hard ramming presses is not reckoned, nor what the "
            "ties pull: ask whoever has built with this soil."
        )
    pressure = "not known" if math.isnan(slip.pressure) else show(slip.pressure, "kN/m2", 1, system)
    return (
        f"At the foot of a lift fresh fill presses with {pressure}, as water of its weight "
        f"({PRESSURE_CITE}); strength against {FORM_FACTOR.value:.1f} times that. "
        f"Wood: strength of its class times {WET_DAYS:.1f} for wet wood and a load of days, over "
        f"{GAMMA_TIMBER.value:.1f}. Boards may go out by the distance of the studs over {SAG.value:.0f} "
        "(common practice, no source). These checks only, with these values."
    )


def _lift(slip: SlipPlan, system: str) -> Iterator[Block]:
    if math.isnan(slip.best_lift):
        return
    best = show(math.floor(100.0 * slip.best_lift) / 100.0, "m", 2, system)
    if slip.best_lift < slip.lift:
        yield Para(
            f"*Too weak.* Fill no higher than {best} in one go, or set studs nearer, or take thicker boards."
        )
    else:
        yield Para(f"By these checks the same panels would hold a lift of {best}, if they were high enough.")


def _moved(slip: SlipPlan, system: str) -> Iterator[str]:
    grip, wide = (show(size, "mm", 0, system) for size in (slip.grip, slip.thickness))
    strut = show(STRUT_EVERY.value, "m", 1, system)
    yield (
        f"Set both panels on the firm lift below, the first on the footing, gripping {grip} of it; spacers "
        f"of {wide} between them, ties through greased sleeves, plumb and level, raking struts every {strut} "
        "on both sides (common practice, no source)."
    )
    yield "Fill or ram in layers of a hand from end to end; take each spacer out as the fill reaches it."
    yield (
        "Leave the ends of a lift stepped or keyed, and let no upright joint lie over one below: begin every "
        "other lift with half a panel."
    )
    if slip.filling is Filling.RAMMED:
        yield "Rammed earth may be stripped when its lift is rammed: slide the panels off along the face."
    else:
        yield (
            "Wet fill is stripped when a thumbnail leaves no mark and whoever answers for the wall agrees; "
            "cold and wet days take longer."
        )
    yield (
        "Upper ties first, then the struts of one side, then its panel, slid along the wall, not wrenched; "
        "then the other. Fill the holes of the ties with the same mix."
    )
    yield "Look at every tie, washer and stud before the next setting; bent or split ones are not used again."
