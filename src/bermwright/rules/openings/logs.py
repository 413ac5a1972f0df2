"""Posts and beams, sawn or round: bending, shear, notches, buckling, bearing, bend after years."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown
from bermwright.base.sources import Cite, Provenance
from bermwright.data.rule_sets import rule_sets
from bermwright.data.timber_classes import DEFLECTION_LIMIT
from bermwright.data.works.actions import EN1991_1_1
from bermwright.data.works.carpentry import NDS
from bermwright.handbook import carpentry
from bermwright.handbook import timber as ec5
from bermwright.house import FloorUse
from bermwright.rules.nouns import HouseRule, Said
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
from bermwright.rules.ribs.common import ratio_step, step, timber_cite

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house import Beam, Floor, House, Post
    from bermwright.rules.nouns import Whole

GRAVITY = 9.80665
FLOOR_LOADS = {FloorUse.SLEEPING: 2000.0, FloorUse.LIVING: 2000.0, FloorUse.STORE: 7500.0}
"""Characteristic load by use (Pa): EN 1991-1-1, table 6.2 and 6.4."""
LASTING = {FloorUse.SLEEPING: "medium-term", FloorUse.LIVING: "medium-term", FloorUse.STORE: "long-term"}
PSI2 = {FloorUse.SLEEPING: 0.3, FloorUse.LIVING: 0.3, FloorUse.STORE: 0.8}
"""Lasting share of it: EN 1990, table A1.1."""
FLOOR_CITE = Cite(work=EN1991_1_1, place="tables 6.2 and 6.4", provenance=Provenance.MEMORY)
THIRD = 1.0 / 3.0
"""Where along a tapered post its diameter counts for buckling, from the thin end."""
SEAT = 0.5
"""Share of its diameter on which a log rests that is not cut flat."""
UNKNOWN_TIMBER = (
    "how thick, of which class or how damp it is",
    "Write section or diameter, timber and service_class.",
)
TAPER_CITE = Cite(work=NDS, place="3.7.2", provenance=Provenance.MEMORY)


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What a beam or joist carries: permanent and variable (N/m), and how long the variable lasts."""

    permanent: float
    variable: float
    duration: str
    psi2: float

    def designs(self, house: House) -> tuple[tuple[float, str], ...]:
        """Design loads with their durations: everything, and the permanent part alone."""
        sets = rule_sets(house.rules.approach, house.rules.set)
        dead = max(one.permanent for one in sets)
        live = max(one.variable for one in sets)
        both = dead * self.permanent + live * self.variable
        return (both, self.duration), (dead * self.permanent, "permanent")


def floor_of(house: House, name: str | None) -> Floor | None:
    """The floor of that name."""
    return next((floor for floor in house.floors if floor.name == name), None)


def floor_load(floor: Floor, *, width: float, own: float) -> Load | None:
    """Load of a strip of a floor (N/m); None while weight or use is not known."""
    if floor.weight is None or floor.use is None:
        return None
    return Load(
        permanent=floor.weight * width + own,
        variable=FLOOR_LOADS[floor.use] * width,
        duration=LASTING[floor.use],
        psi2=PSI2[floor.use],
    )


def beam_member(beam: Beam) -> Member | None:
    """The beam as a timber: a log counts with its thin end."""
    return member_of(beam.timber, beam.service_class, section=beam.section, diameter=beam.diameter)


def beam_load(house: House, beam: Beam, member: Member) -> Load | None:
    """What a beam carries, its own weight included; None while it is not known."""
    own = member.timber.density * GRAVITY * member.area
    if beam.carries is not None:
        floor = floor_of(house, beam.carries)
        return None if floor is None else _joists_on(floor, own)
    if beam.load is None or beam.snow_or_people is None:
        return None
    return Load(permanent=beam.load + own, variable=beam.snow_or_people, duration="medium-term", psi2=0.3)


def _joists_on(floor: Floor, own: float) -> Load | None:
    """Joists come onto a beam from both sides, which is the worse: it carries one whole span of them."""
    joist = member_of(floor.timber, floor.service_class, section=floor.joist)
    if joist is None or floor.weight is None:
        return None
    joists = joist.timber.density * GRAVITY * joist.area / floor.spacing
    return floor_load(replace(floor, weight=floor.weight + joists), width=floor.span, own=own)


def span_uses(
    house: House,
    member: Member,
    load: Load,
    *,
    span: float,
    bearing: tuple[float, float],
    notch: float = 0.0,
    away: float = 0.0,
) -> Iterator[Use]:
    """Everything that a timber on two supports must stand."""
    for design, duration in load.designs(house):
        moment, force = design * span**2 / 8, design * span / 2
        loads = _load_steps(load, design, span)
        yield bending_use(member, moment, duration, loads=loads)
        yield shear_use(member, force, duration, notch=notch, away=away)
        yield bearing_use(member, force, duration, length=bearing[0], width=bearing[1])
    yield bend_use(member, load, span)


def _load_steps(load: Load, design: float, span: float) -> tuple[Step, ...]:
    return (
        step(
            "Design load along it",
            "q_d",
            "γ_G·g + γ_Q·q",
            f"g = {load.permanent / 1e3:.2f}, q = {load.variable / 1e3:.2f} kN/m",
            Shown(design, "kN/m", 2),
        ),
        step(
            "Bending on two supports",
            "M",
            "q_d·l² / 8",
            f"{design / 1e3:.2f} · {span:.2f}² / 8",
            Shown(design * span**2 / 8, "kNm", 3),
        ),
    )


def bend_use(member: Member, load: Load, span: float) -> Use:
    """How far it hangs through after years, against the upper end of what the standard allows."""
    bending, shear = member.timber.modulus * member.inertia, member.timber.shear_modulus * member.area
    dead, live = (
        float(ec5.simple_beam_deflection(one, span, bending_stiffness=bending, shear_stiffness=shear))
        for one in (load.permanent, load.variable)
    )
    creep = ec5.deformation_factor(member.service_class)
    final = float(ec5.final_deflection(dead, live, k_def=creep, psi2=load.psi2))
    limit = DEFLECTION_LIMIT.value * span
    return Use(
        what="hanging through after years",
        of="what is allowed",
        ratio=final / limit,
        demand=final,
        capacity=limit,
        unit="mm",
        advice="Take a deeper timber or a shorter span.",
        steps=(
            step(
                "Bend after years",
                "w_fin",
                "w_G·(1 + k_def) + w_Q·(1 + ψ_2·k_def)",
                f"{dead * 1e3:.1f} · (1 + {creep:g}) + {live * 1e3:.1f} · (1 + {load.psi2:g} · {creep:g})",
                Shown(final, "mm", 1),
                timber_cite("2.2.3"),
            ),
            step(
                "Limit",
                "w",
                "l / 150",
                f"{span * 1e3:.0f} / 150",
                Shown(limit, "mm", 1),
                DEFLECTION_LIMIT.cite,
            ),
            ratio_step(
                "Share of the limit", "w_fin / w", f"{final * 1e3:.1f} / {limit * 1e3:.1f}", final / limit
            ),
        ),
    )


def _beams(whole: Whole) -> Iterator[Said]:
    for beam in whole.house.beams:
        yield _beam(whole.house, beam)
    if not whole.house.beams:
        yield nothing("The file has no [[beam]].")


def _beam(house: House, beam: Beam) -> Said:
    part, member = f'beam "{beam.name}"', beam_member(beam)
    if member is None:
        return missing(part, *UNKNOWN_TIMBER)
    load = beam_load(house, beam, member)
    if load is None:
        return missing(
            part, "what it carries", "Write carries with the floor's name, or load and snow_or_people."
        )
    if beam.bearing is None:
        return missing(part, "over which length its ends rest", "Write bearing.")
    width = beam.bearing_width or (SEAT * member.depth if member.log else member.width)
    uses = span_uses(
        house,
        member,
        load,
        span=beam.span,
        bearing=(beam.bearing, width),
        notch=beam.notch,
        away=beam.notch_to_support,
    )
    return said_of_use(part, worst_use(uses))


def post_member(post: Post) -> Member | None:
    """The post as a timber less its deepest notch: a log counts with its thin end."""
    found = member_of(post.timber, post.service_class, section=post.section, diameter=post.diameter)
    if found is None or not post.notch:
        return found
    return replace(
        found, width=found.width - post.notch if found.log else found.width, depth=found.depth - post.notch
    )


def post_force(house: House, post: Post) -> tuple[float, float, str] | None:
    """Permanent and variable force on a post (N), and how long the variable lasts; None: not known."""
    dead, live, lasts = post.load or 0.0, post.snow_or_people or 0.0, "medium-term"
    if post.under is None:
        return None if post.load is None or post.snow_or_people is None else (dead, live, lasts)
    beam = next((one for one in house.beams if one.name == post.under), None)
    member = None if beam is None else beam_member(beam)
    load = None if beam is None or member is None else beam_load(house, beam, member)
    if beam is None or load is None:
        return None
    ends = post.beams_meet * beam.span / 2
    return dead + ends * load.permanent, live + ends * load.variable, load.duration


def _posts(whole: Whole) -> Iterator[Said]:
    for post in whole.house.posts:
        yield _post(whole.house, post)
    if not whole.house.posts:
        yield nothing("The file has no [[post]].")


def _post(house: House, post: Post) -> Said:
    part, member = f'post "{post.name}"', post_member(post)
    if member is None:
        return missing(part, *UNKNOWN_TIMBER)
    force = post_force(house, post)
    if force is None:
        return missing(
            part, "what it carries", "Write under with the beam's name, or load and snow_or_people."
        )
    dead, live, lasts = force
    sets = rule_sets(house.rules.approach, house.rules.set)
    high = max(one.permanent for one in sets)
    both = high * dead + max(one.variable for one in sets) * live
    uses = (buckling_use(post, member, both, lasts), buckling_use(post, member, high * dead, "permanent"))
    return said_of_use(part, worst_use(uses), cites=(TAPER_CITE,) if post.thick_end else ())


def buckling_use(post: Post, member: Member, force: float, duration: str) -> Use:
    """Buckling of a post with a load a little off its middle, the weaker way of a sawn one."""
    thick = post.thick_end
    counted = member.depth
    if member.log and thick is not None:
        counted = float(carpentry.tapered_diameter(member.depth, thick - post.notch, share=THIRD))
    least = counted if member.log else min(member.width, member.depth)
    inertia = math.pi / 64 * least**4 if member.log else max(member.width, member.depth) * least**3 / 12
    area = math.pi / 4 * least**2 if member.log else member.area
    slender = float(ec5.slenderness(post.length, inertia, area=area))
    relative = float(
        ec5.relative_slenderness(slender, member.timber.compression, modulus_low=member.timber.modulus_low)
    )
    k_c = float(ec5.buckling_factor(relative))
    pressed, bent = force / member.area, force * post.off_middle / _least_modulus(member)
    along, across = member.design(member.timber.compression, duration), member.bending_strength(duration)
    ratio = float(
        ec5.buckling_and_bending(
            pressed, bent, compression_strength=along, bending_strength=across, k_c=k_c, k_c_flat=k_c
        )
    )
    return Use(
        what="buckling",
        ratio=ratio,
        demand=force,
        capacity=force / ratio if ratio > 0 else math.inf,
        unit="kN",
        advice="Take a thicker or shorter post, or hold it sideways half way up.",
        steps=(
            step("Design load", "N", "γ_G·G + γ_Q·Q", "", Shown(force, "kN", 1)),
            step(
                "Slenderness",
                "λ",
                "l / √(I/A)",
                f"{post.length * 1e3:.0f} / √({inertia * 1e12:.0f} / {area * 1e6:.0f})",
                Shown(slender, "", 1),
                timber_cite("6.3.2"),
            ),
            step(
                "Reduced for buckling",
                "k_c",
                "eq. 6.25 to 6.29",
                f"λ_rel = {relative:.2f}",
                Shown(k_c, "", 3),
                timber_cite("6.3.2"),
            ),
            ratio_step(
                f"Strength used, the load {post.off_middle * 1e3:.0f} mm off the middle",
                "σ_c / (k_c·f_c,d) + σ_m / f_m,d",
                f"{pressed / 1e6:.2f}/({k_c:.3f}·{along / 1e6:.2f}) + {bent / 1e6:.2f}/{across / 1e6:.2f}",
                ratio,
                timber_cite("eq. 6.23"),
            ),
        ),
    )


def _least_modulus(member: Member) -> float:
    if member.log:
        return member.modulus
    return member.area * min(member.width, member.depth) / 6


BEAMS_CARRY = HouseRule(
    name="beams-carry",
    title="Beams carry what rests on them",
    why="A beam that is notched or rests on too little breaks at its end, without a warning.",
    cites=(timber_cite("6.1 and 6.5"),),
    decide=_beams,
    asks=(
        "beam.timber",
        "beam.service_class",
        "beam.diameter",
        "beam.load",
        "beam.snow_or_people",
        "beam.bearing",
    ),
)
POSTS_CARRY = HouseRule(
    name="posts-carry",
    title="Posts carry their load without buckling",
    why="A slender post bows out sideways long before its wood is crushed.",
    cites=(timber_cite("6.3.2"),),
    decide=_posts,
    asks=("post.timber", "post.service_class", "post.diameter", "post.load", "post.snow_or_people"),
)
