"""Upper floors: joists and boards under people, and whether the floor is firm to walk on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.carpentry import UKNA1995
from bermwright.handbook import carpentry
from bermwright.handbook import timber as ec5
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.openings.logs import FLOOR_CITE, GRAVITY, Load, floor_load, span_uses
from bermwright.rules.openings.timbers import (
    Member,
    Use,
    bending_use,
    member_of,
    missing,
    nothing,
    said_of_use,
    worst_use,
)
from bermwright.rules.ribs.common import ratio_step, step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import Floor, House
    from bermwright.rules.nouns import Whole

LEAST_FREQUENCY = 8.0
"""A slower floor shakes in step with a walker (Hz): EN 1995-1-1, 7.3.3."""
UK_CITE = Cite(work=UKNA1995, place="NA.2.6.2", provenance=Provenance.MEMORY)


def _joist(floor: Floor) -> Member | None:
    return member_of(floor.timber, floor.service_class, section=floor.joist)


def _load(floor: Floor, joist: Member) -> Load | None:
    own = joist.timber.density * GRAVITY * joist.area
    return floor_load(floor, width=floor.spacing, own=own)


def _known(floor: Floor, part: str) -> tuple[Member, Load] | Said:
    joist = _joist(floor)
    if joist is None:
        return missing(part, "of which class or how damp its joists are", "Write timber and service_class.")
    load = _load(floor, joist)
    if load is None:
        return missing(part, "what the floor carries", "Write use and weight.")
    return joist, load


def _carries(whole: Whole) -> Iterator[Said]:
    for floor in whole.house.floors:
        yield _floor(whole.house, floor)
    if not whole.house.floors:
        yield nothing("The file has no [[floor]].")


def _floor(house: House, floor: Floor) -> Said:
    part = f'floor "{floor.name}"'
    found = _known(floor, part)
    if isinstance(found, Said):
        return found
    if floor.bearing is None:
        return missing(part, "over which length the joists rest", "Write bearing.")
    if floor.boards is None:
        return missing(part, "how thick the floor boards are", "Write boards.")
    joist, load = found
    uses = [
        *span_uses(
            house,
            joist,
            load,
            span=floor.span,
            bearing=(floor.bearing, joist.width),
            notch=floor.notch,
            away=floor.bearing / 2,
        ),
        *_board_uses(house, floor, joist),
    ]
    return said_of_use(part, worst_use(uses))


def _board_uses(house: House, floor: Floor, joist: Member) -> Iterator[Use]:
    """Boards from joist to joist, a metre wide, of the joists' class."""
    load = floor_load(floor, width=1.0, own=0.0)
    if load is None or floor.boards is None:
        return
    boards = Member(timber=joist.timber, service_class=joist.service_class, width=1.0, depth=floor.boards)
    for design, duration in load.designs(house):
        moment = float(ec5.plank_demand(design, floor.spacing, spans=3 if floor.continuous else 1).moment)
        use = bending_use(boards, moment, duration)
        yield Use(
            what="bending of the boards",
            ratio=use.ratio,
            demand=use.demand,
            capacity=use.capacity,
            unit=use.unit,
            steps=use.steps,
            advice="Take thicker boards, or set the joists nearer together.",
        )


def _firm(whole: Whole) -> Iterator[Said]:
    for floor in whole.house.floors:
        part = f'floor "{floor.name}"'
        found = _known(floor, part)
        if isinstance(found, Said):
            yield found
        elif floor.boards is None:
            yield missing(part, "how thick the floor boards are", "Write boards.")
        else:
            yield said_of_use(part, worst_use(_firm_uses(floor, *found)), cites=(UK_CITE,))
    if not whole.house.floors:
        yield nothing("The file has no [[floor]].")


def _firm_uses(floor: Floor, joist: Member, load: Load) -> Iterator[Use]:
    stiffness = joist.timber.modulus * joist.inertia
    mass = load.permanent / floor.spacing / GRAVITY
    frequency = float(carpentry.floor_frequency(floor.span, stiffness=stiffness / floor.spacing, mass=mass))
    yield Use(
        what="shaking in step with a walker",
        of="what is allowed",
        ratio=LEAST_FREQUENCY / frequency,
        demand=LEAST_FREQUENCY,
        capacity=frequency,
        unit="",
        advice="Take deeper joists or a shorter span.",
        steps=(
            step(
                "First natural frequency, in Hz",
                "f_1",
                "π/(2·l²)·√(EI/m)",
                f"EI = {stiffness / floor.spacing / 1e3:.0f} kNm²/m, m = {mass:.0f} kg/m²",
                Shown(frequency, "", 1),
                timber_cite("7.3.3, eq. 7.5"),
            ),
            ratio_step("8 Hz over it", "8 / f_1", f"8 / {frequency:.1f}", LEAST_FREQUENCY / frequency),
        ),
    )
    share = _share(floor, joist)
    sinks = float(carpentry.foot_deflection(floor.span, stiffness=stiffness, share=share))
    limit = float(carpentry.foot_deflection_limit(floor.span))
    yield Use(
        what="giving way under a foot",
        of="what is firm",
        ratio=sinks / limit,
        demand=sinks,
        capacity=limit,
        unit="mm",
        advice="Take deeper joists, a shorter span or thicker boards.",
        steps=(
            step(
                "Share of a step that its joist carries", "k_dist", "0.38 − 0.08·ln(14·EI_b/s⁴) ≥ 0.30",
                "", Shown(share, "", 2), UK_CITE,
            ),
            step(
                "Bend under 1 kN", "a", "k_dist·1.05·F·l³ / (48·EI)",
                f"{share:.2f} · 1.05 · 1000 · {floor.span:.2f}³ / (48 · {stiffness / 1e3:.0f}e3)",
                Shown(sinks, "mm", 2), UK_CITE,
            ),
            ratio_step(
                "Share of what is firm", "a / a_lim", f"{sinks * 1e3:.2f} / {limit * 1e3:.2f}", sinks / limit,
            ),
        ),
    )  # fmt: skip


def _share(floor: Floor, joist: Member) -> float:
    """Without a known width nothing helps a joist but itself."""
    if floor.width is None or floor.boards is None:
        return 1.0
    boards = joist.timber.modulus * floor.boards**3 / 12
    return float(carpentry.joist_share(boards, floor.spacing))


FLOORS_CARRY = HouseRule(
    name="floors-carry",
    title="Upper floors carry people and stores",
    why="A floor is loaded most on the day when everybody comes to see the house.",
    cites=(timber_cite("6.1"), FLOOR_CITE),
    decide=_carries,
    asks=(
        "floor.timber",
        "floor.service_class",
        "floor.use",
        "floor.weight",
        "floor.bearing",
        "floor.boards",
    ),
)
FLOORS_ARE_FIRM = HouseRule(
    name="floors-are-firm",
    title="Upper floors are firm to walk on",
    why="A floor that is strong enough may still shake so that nobody sleeps under it.",
    cites=(timber_cite("7.3.3"), UK_CITE),
    decide=_firm,
    asks=("floor.timber", "floor.service_class", "floor.use", "floor.weight", "floor.boards"),
)
