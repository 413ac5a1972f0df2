"""End walls: planks and posts that soil leans against, or heavy walls that stand by their weight."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.works.carpentry import BROMS1964
from bermwright.data.works.soils import DAS
from bermwright.handbook import carpentry
from bermwright.handbook.retaining import sliding_resistance, stand_of, wall_body
from bermwright.house import EndKind, EndSide
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.openings.pressure import behind
from bermwright.rules.openings.timbers import (
    Member,
    Use,
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
    from collections.abc import Callable, Iterator

    from bermwright.base.findings import Step
    from bermwright.house import End, House, Vault
    from bermwright.rules.nouns import Whole
    from bermwright.rules.openings.pressure import Behind, Lean

LIGHTER = 0.9
"""Factor on the weight that holds a wall up: EN 1990, table A1.2(A)."""
MIDDLE = 1.0 / 3.0
"""How far from the middle of its base the force may leave it, over its width: EN 1997-1, 6.5.4."""
TIMBER = {EndKind.PLANKS, EndKind.LOGS}
HEAVY = {EndKind.BLOCKS, EndKind.EARTH_TUBES}
BROMS_CITE = Cite(work=BROMS1964, place="cohesionless soils", provenance=Provenance.MEMORY)
DAS_CITE = Cite(work=DAS, place="gravity walls", provenance=Provenance.MEMORY)


def part_of(end: End) -> str:
    """What an end is called in a finding."""
    return f'end "{end.vault}", {end.at}'


def vault_of(house: House, name: str) -> Vault | None:
    """The vault of that name."""
    return next((vault for vault in house.vaults if vault.name == name), None)


def _each(
    whole: Whole, kinds: set[EndKind], decide: Callable[[House, End], Said], none: str
) -> Iterator[Said]:
    chosen = [end for end in whole.house.ends if end.kind in kinds]
    for end in chosen:
        yield decide(whole.house, end)
    if not chosen:
        yield nothing(none)


def _soil(end: End, found: Behind) -> Said | None:
    """What is said where the soil is not known, or there is none."""
    if found.lacks:
        return missing(part_of(end), found.lacks[0], "Answer the questions about this end and its soil.")
    if not found.leans:
        return Said(
            part=part_of(end), verdict=Verdict.HOLDS, template="No soil lies against it over the floor."
        )
    return None


def _over_leans(end: End, found: Behind, uses: Callable[[Lean], Iterator[Use]]) -> Said:
    """The worst of all moments and corners, with what is in doubt."""
    worst, at = max(
        ((worst_use(uses(lean)), lean) for lean in found.leans),
        key=lambda one: math.inf if math.isnan(one[0].ratio) else one[0].ratio,
    )
    said = said_of_use(
        part_of(end),
        replace(worst, when=_capital(at.moment)),
        doubt="" if not found.doubts else f"{', '.join(found.doubts)} is not known",
        needs="Answer the questions about it.",
    )
    return replace(said, stage=at.moment, corner=at.corner, steps=(*_lean_steps(at), *said.steps))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _lean_steps(lean: Lean) -> tuple[Step, ...]:
    return (
        step(
            f"Design pressure of soil {lean.moment}, at the floor",
            "p",
            lean.formula,
            lean.filled,
            Shown(lean.bottom, "kPa", 2),
            DAS_CITE,
        ),
    )


def _clear(house: House, end: End) -> float | None:
    """Length over which a plank carries: the widest bay of the posts, else from side to side of the vault."""
    vault = vault_of(house, end.vault)
    return widest_bay(house, end) or (None if vault is None else vault.span)


def widest_bay(house: House, end: End) -> float | None:
    """Largest distance of two posts: that of the file, or more where an opening stands between them (m)."""
    if end.post_spacing is None:
        return None
    wide = end.post.thickness if end.post else end.post_diameter or 0.0
    holes = [
        one.width + wide for one in house.openings if one.vault == end.vault and str(one.side) == str(end.at)
    ]
    return max([end.post_spacing, *holes])


def _planks(house: House, end: End) -> Said:
    found = behind(house, end)
    early = _soil(end, found)
    if early is not None:
        return early
    if end.thickness is None:
        return missing(part_of(end), "how thick it is", "Write thickness.")
    log = end.kind is EndKind.LOGS
    bare = member_of(end.timber, end.service_class, diameter=end.thickness)
    span = _clear(house, end)
    if bare is None or span is None:
        return missing(
            part_of(end), "of which class or how damp its timber is", "Write timber and service_class."
        )
    # Logs lie on each other, each as high as it is thick; planks count a metre of height.
    high = end.thickness if log else 1.0
    member = bare if log else replace(bare, width=1.0, log=False)

    def uses(lean: Lean) -> Iterator[Use]:
        load = lean.bottom * high
        loads = (
            step(
                "Bending of the lowest, from post to post"
                if end.post_spacing
                else "Bending of the lowest, from side to side",
                "M",
                "p·h·s² / 8",
                f"{lean.bottom / 1e3:.2f} · {high:.2f} · {span:.2f}² / 8",
                Shown(load * span**2 / 8, "kNm", 3),
            ),
        )
        yield bending_use(member, load * span**2 / 8, lean.duration, loads=loads)
        yield shear_use(member, load * span / 2, lean.duration)

    said = _over_leans(end, found, uses)
    if said.verdict in {Verdict.FAILS, Verdict.TIGHT}:
        said = replace(said, advice="Set posts nearer together (post_spacing), or take a larger thickness.")
    return said


def post_section(end: End) -> Member | None:
    """A post of an end, bent towards the room."""
    if end.post is not None:
        return member_of(end.timber, end.service_class, section=end.post)
    return member_of(end.timber, end.service_class, diameter=end.post_diameter)


def _posts(house: House, end: End) -> Said:
    part = part_of(end)
    if end.post_spacing is None:
        template = "It has no posts: its planks run from side to side."
        return Said(part=part, verdict=Verdict.DOES_NOT_APPLY, template=template)
    found = behind(house, end)
    early = _soil(end, found) or _loose_posts(end, part)
    if early is not None:
        return early
    post, depth, widest = post_section(end), end.post_depth, widest_bay(house, end)
    if post is None or depth is None or widest is None:
        return missing(
            part,
            "how thick and deep its posts are, of which class or how damp",
            "Write post or post_diameter, post_depth, timber and service_class.",
        )
    # The post beside an opening carries half of the wide bay and half of its usual one.
    spacing = 0.5 * (end.post_spacing + widest)
    decide = _free_post if end.post_head is None else _held_post
    return _over_leans(end, found, lambda lean: decide(end, post, lean, (spacing, depth)))


def _loose_posts(end: End, part: str) -> Said | None:
    """Posts that are held too low, or nowhere."""
    head, soil = end.post_head, end.soil_to
    if head is not None and soil is not None and head < soil:
        return Said(
            part=part,
            verdict=Verdict.FAILS,
            template="Soil reaches {soil}, over the heads of the posts at {head}.",
            values={"soil": level_text(soil), "head": level_text(head)},
            advice="Hold the posts above the soil: a higher post_head, or less soil.",
        )
    if head is None and end.post_depth == 0.0:
        return Said(
            part=part,
            verdict=Verdict.FAILS,
            template="Its posts stand on the ground, held neither at the foot nor at the head.",
            advice="Hold their heads (post_head, head_holds), or let them into the ground (post_depth).",
        )
    return None


def _held_post(end: End, post: Member, lean: Lean, about: tuple[float, float]) -> Iterator[Use]:
    """A post held at foot and head: the foot where the ground's push against it acts, two thirds down."""
    spacing, depth = about
    down = 2 * depth / 3
    span = (end.post_head or lean.height) + down
    forces = carpentry.leaning_post(
        lean.even * spacing,
        lean.top * spacing,
        height=lean.height,
        above=down,
        span=span,
        water=lean.wet * spacing,
        stands=lean.water or None,
    )
    push, turned = float(forces.foot) + float(forces.head), float(forces.head) * span
    loads = (
        *_load_steps(lean, spacing, push),
        step(
            "Force on its head, the load acting so high over its foot", "F_h", "F·z/l",
            f"{push / 1e3:.3f} · {turned / push:.3f} / {span:.3f}", Shown(float(forces.head), "kN", 2),
        ),
        step(
            "Force on its foot", "F_f", "F − F_h", f"{push / 1e3:.3f} − {float(forces.head) / 1e3:.3f}",
            Shown(float(forces.foot), "kN", 2),
        ),
        step(
            "Bending of a post, foot to head, where its shear is nil", "M", "∫ V dz", "",
            Shown(float(forces.moment), "kNm", 2),
        ),
    )  # fmt: skip
    yield bending_use(post, float(forces.moment), lean.duration, loads=loads)
    yield shear_use(post, max(float(forces.foot), float(forces.head)), lean.duration)
    head = _hold(
        "the hold of a post's head",
        float(forces.head),
        end.head_holds,
        "Write head_holds, or a stronger fixing.",
    )
    yield replace(head, steps=(*loads[:-1], *head.steps))
    if depth == 0.0:
        foot = _hold(
            "the hold of a post's foot",
            float(forces.foot),
            end.foot_holds,
            "Write foot_holds, or a stronger shoe.",
        )
        yield replace(foot, steps=(*loads[:-1], *foot.steps))
        return
    ground = float(carpentry.held_foot_holds(lean.below, lean.passive, width=post.width, depth=depth))
    use = _hold(
        "the ground at a post's foot", float(forces.foot), ground, "Let the posts deeper into the ground."
    )
    formula = "3/2·γ·b·L²·K_p"
    filled = f"3/2 · {lean.below / 1e3:.2f} · {post.width:.3f} · {depth:.2f}² · {lean.passive:.3f}"
    yield replace(use, steps=(*loads[:-1], _ground_step(formula, filled, ground), *use.steps))


def _free_post(_end: End, post: Member, lean: Lean, about: tuple[float, float]) -> Iterator[Use]:
    """A post that stands free, held in the ground alone."""
    spacing, depth = about
    forces = carpentry.standing_post(
        lean.even * spacing,
        lean.top * spacing,
        height=lean.height,
        above=0.0,
        water=lean.wet * spacing,
        stands=lean.water or None,
    )
    push = float(forces.foot)
    lever = float(forces.moment) / push
    moment = float(carpentry.free_post_moment(push, lean.below, lean.passive, width=post.width, lever=lever))
    taken = 1.5 * (moment / push - lever)
    loads = (
        *_load_steps(lean, spacing, push),
        step(
            "Bending of a post under the ground, which has taken up the force f deep",
            "M",
            "H·(e + 2/3·f), f = √(2·H/(3·γ·b·K_p))",
            f"{push / 1e3:.3f} · ({lever:.3f} + 2/3 · {taken:.3f})",
            Shown(moment, "kNm", 2),
            BROMS_CITE,
        ),
    )
    yield bending_use(post, moment, lean.duration, loads=loads)
    yield shear_use(post, push, lean.duration)
    ground = float(
        carpentry.free_post_holds(lean.below, lean.passive, width=post.width, depth=depth, lever=lever)
    )
    use = _hold(
        "the ground around a post", push, ground, "Let the posts deeper into the ground, or hold their heads."
    )
    filled = (
        f"{lean.below / 1e3:.2f} · {post.width:.3f} · {depth:.2f}³ · {lean.passive:.3f} / "
        f"(2 · ({lever:.3f} + {depth:.2f}))"
    )
    holds = _ground_step("γ·b·L³·K_p / (2·(e + L))", filled, ground)
    yield replace(use, steps=(*loads[:-1], holds, *use.steps))


def _load_steps(lean: Lean, spacing: float, push: float) -> tuple[Step, ...]:
    """Soil and water on the width that one post carries."""
    even = f"({lean.top / 1e3:.2f} + {lean.even / 1e3:.2f})/2 · {lean.height:.2f}"
    wet = lean.wet > 0.0
    added = f" + {lean.wet / 1e3:.2f}/2 · {lean.water:.2f}" if wet else ""
    return (
        step(
            "Soil on the width that a post carries" + (", water in it" if wet else ""), "F",
            "s·((p_t + p_b)/2·h" + (" + p_w/2·w)" if wet else ")"), f"{spacing:.3f} · ({even}{added})",
            Shown(push, "kN", 2),
        ),
    )  # fmt: skip


def _hold(what: str, demand: float, capacity: float | None, advice: str) -> Use:
    """A force on what holds a post; what is not known stays unknown, and nothing holds nothing."""
    asked = step("Force of one post", "F", "", "", Shown(demand, "kN", 2))
    if capacity is None:
        return Use(
            what=what,
            ratio=math.nan,
            demand=demand,
            capacity=math.nan,
            unit="kN",
            advice=advice,
            steps=(asked,),
        )
    ratio = demand / capacity if capacity > 0.0 else math.inf if demand > 0.0 else 0.0
    filled = f"{demand / 1e3:.2f} / {capacity / 1e3:.2f}"
    return Use(
        what=what,
        ratio=ratio,
        demand=demand,
        capacity=capacity,
        unit="kN",
        advice=advice,
        steps=(asked, ratio_step("Share of the hold", "F / R", filled, ratio)),
    )


def _ground_step(formula: str, filled: str, holds: float) -> Step:
    return step("What the ground holds", "R", formula, filled, Shown(holds, "kN", 2), BROMS_CITE)


def _stands(house: House, end: End) -> Said:
    found = behind(house, end)
    early = _soil(end, found)
    if early is not None:
        return early
    if end.thickness is None or end.unit_weight is None:
        return missing(part_of(end), "how thick or how heavy it is", "Write thickness and unit_weight.")
    return _over_leans(end, found, lambda lean: _wall_uses(end, lean))


def _wall_uses(end: End, lean: Lean) -> Iterator[Use]:
    """Turning over and sliding of what soil lies against; the wall above it counts for nothing."""
    thick = end.thickness or math.nan
    light = end.unit_weight.low if end.unit_weight else math.nan
    body = wall_body(lean.height, top=thick, base=thick, weight=light)
    forces = carpentry.standing_post(
        lean.even,
        lean.top,
        height=lean.height,
        above=0.0,
        water=lean.wet,
        stands=lean.water or None,
    )
    weight = LIGHTER * float(body.weight)
    stand = stand_of(
        down=weight,
        along=forces.foot,
        holding=weight * float(body.arm),
        turning=forces.moment,
        width=thick,
        resistance=sliding_resistance(weight, lean.angle),
    )
    holds, turned = weight * float(body.arm), float(forces.moment)
    held = step(
        "Weight that holds it",
        "W",
        "0.9·γ·t·h",
        f"0.9 · {light / 1e3:.1f} · {thick:.2f} · {lean.height:.2f}",
        Shown(weight, "kN/m", 2),
    )
    yield _stand_use("turning over", "M / (W·t/2)", float(stand.overturning), (turned, holds, "kNm"), held)
    slides = weight * math.tan(lean.angle)
    yield _stand_use("sliding", "H / (W·tan φ)", float(stand.sliding), (lean.force, slides, "kN/m"), held)
    off, allowed = float(stand.eccentricity), MIDDLE * thick
    yield _stand_use("leaning on the edge of its base", "e / (t/3)", off / allowed, (off, allowed, "m"), held)


def _stand_use(what: str, formula: str, ratio: float, sizes: tuple[float, float, str], weight: Step) -> Use:
    demand, capacity, unit = sizes
    scale = 1.0 if unit == "m" else 1e3
    filled = f"{demand / scale:.2f} / {capacity / scale:.2f}"
    return Use(
        what=what,
        of="what is allowed" if unit == "m" else "what holds it",
        ratio=ratio,
        demand=demand,
        capacity=capacity,
        unit=unit,
        advice="Make the wall thicker, lay less soil against it, or buttress it.",
        steps=(weight, ratio_step(_capital(what), formula, filled, ratio, DAS_CITE)),
    )


def _closed(whole: Whole) -> Iterator[Said]:
    house = whole.house
    for vault in house.vaults:
        for side in EndSide:
            yield _end_said(house, vault, side)
    if not house.vaults:
        yield nothing("The file has no [[vault]].")


def _end_said(house: House, vault: Vault, side: EndSide) -> Said:
    part = f'end "{vault.name}", {side}'
    end = next((one for one in house.ends if one.vault == vault.name and one.at is side), None)
    if end is None:
        return missing(
            part, "what closes it", f'Write an [[end]] table with vault = "{vault.name}" and at = "{side}".'
        )
    if end.soil_to is None:
        return missing(part, "up to which level soil lies against it", "Write soil_to.")
    if end.kind is EndKind.OPEN and end.soil_to > 0.0:
        return Said(
            part=part,
            verdict=Verdict.FAILS,
            template="It is open, and soil stands {level} before it.",
            values={"level": level_text(end.soil_to)},
            advice="Close it, or end the mound with a wall before it reaches the opening.",
        )
    blocked = [
        one
        for one in house.openings
        if one.vault == vault.name
        and str(one.side) == str(side)
        and one.sill is not None
        and one.sill < end.soil_to - 1e-9
    ]
    if blocked:
        return Said(
            part=part,
            verdict=Verdict.FAILS,
            template="Soil lies against it up to {level}, over the sill of {opening} at {sill}.",
            values={
                "level": level_text(end.soil_to),
                "opening": blocked[0].name,
                "sill": level_text(blocked[0].sill or 0.0),
            },
            advice="Raise the sill, or keep the soil back with wing walls and write what is left: soil_to.",
        )
    return Said(
        part=part,
        verdict=Verdict.HOLDS,
        template="It is closed by {kind}; soil reaches {level}.",
        values={"kind": str(end.kind), "level": level_text(end.soil_to)},
    )


ENDS_ARE_CLOSED = HouseRule(
    name="ends-are-closed",
    title="Both ends of every vault are closed, and no soil stands before an opening",
    why="An end that nobody has thought of is where the mound comes in.",
    cites=(DAS_CITE,),
    decide=_closed,
    asks=("end", "end.soil_to"),
)
END_PLANKS = HouseRule(
    name="end-planks-carry-the-soil",
    title="Planks and logs of an end carry the soil behind it",
    why="The soil presses hardest at the floor, behind the furniture, where nobody sees a plank give way.",
    cites=(timber_cite("6.1.6 and 6.1.7"), DAS_CITE),
    decide=lambda whole: _each(whole, TIMBER, _planks, "No end is closed with planks or logs."),
    asks=("end.thickness", "end.timber", "end.service_class", "end.soil_to", "end.drained"),
)
END_POSTS = HouseRule(
    name="end-posts-hold-the-soil",
    title="Posts of an end hold the soil behind it",
    why="Each post carries the soil of its whole spacing, and pushes on its head and on its foot.",
    cites=(timber_cite("6.1.6 and 6.1.7"), BROMS_CITE),
    decide=lambda whole: _each(whole, TIMBER, _posts, "No end has posts."),
    asks=("end.post_diameter", "end.post_depth", "end.head_holds", "end.foot_holds", "end.timber"),
)
END_WALLS = HouseRule(
    name="end-walls-stand",
    title="End walls of blocks or earth tubes stand against the soil",
    why="Such a wall holds soil by its weight alone: it turns over or slides when it is too thin.",
    cites=(DAS_CITE,),
    decide=lambda whole: _each(whole, HEAVY, _stands, "No end is a wall of blocks or earth tubes."),
    asks=("end.thickness", "end.unit_weight", "end.soil_to", "end.drained"),
)
