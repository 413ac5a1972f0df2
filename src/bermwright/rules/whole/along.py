"""The push along the axis: earth behind one end and less at the other, and what keeps the house from leaning.

From the end wall the push goes into the shell. There it has three ways down: the planks' nails, which turn
as couples and keep the field of ribs and planks square; boards nailed slantwise for good; and the soil at
the sides, which grips the shell.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.timber_classes import needs_holes, strength_class
from bermwright.data.works.actions import EN1997
from bermwright.data.works.practice import TRADE
from bermwright.handbook import soils
from bermwright.handbook.retaining import sloping_at_rest_ratio
from bermwright.house import CoverKind
from bermwright.rules import readings
from bermwright.rules.grids.holding import held_end
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.openings.pressure import soil_behind
from bermwright.rules.ribs.common import ratio_step, step, timber_cite
from bermwright.rules.whole.ground import base_level
from bermwright.rules.whole.nail import nail_design, needs_drilling

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from numpy.typing import NDArray

    from bermwright.base.findings import Step
    from bermwright.house import Cover, End
    from bermwright.rules.study import Study

    Array = NDArray[np.float64]

WATER = 9810.0
PLACES = 120
TRUSTED = 0.5
"""Share of the soil's grip on the shell that counts: it comes last, and only where soil lies (judgement)."""
EDGE = 0.2
"""How far in from its edge a plank is nailed, as a share of its width (-)."""
GRIP_CITE = Cite(work=TRADE, place="half of the sides' friction counts", provenance=Provenance.PRACTICE)
PUSH_CITE = Cite(work=EN1997, place="9.5.2, at-rest pressure", provenance=Provenance.MEMORY)


@dataclass(frozen=True, slots=True, kw_only=True)
class EndPush:
    """What lies against one end."""

    soil: float
    """All of the soil's push along the axis (N), characteristic."""
    force: float
    """What of it goes into the shell; the rest goes into the ground at the feet of the end's posts (N)."""
    level: float
    """At which it acts (m)."""
    working: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Racking:
    """What keeps the shell from leaning along its axis (N, design values)."""

    nails: float | None
    """None: the file does not say how the planks are nailed."""
    couples: str
    """Numbers in the couples of those nails."""
    boards: float
    sides: float


def end_push(study: Study, end: End, friction: float, *, blocked: bool = False) -> EndPush:
    """Soil at rest, rising behind the end as the file says, over the vault's own outline.

    Where a drain is `blocked`, water stands behind it up to the overflow.
    """
    soil = soil_behind(study.house, end)
    weight = soil.unit_weight.high if soil is not None and soil.unit_weight else 0.0
    full = soil.saturated_unit_weight.high if soil is not None and soil.saturated_unit_weight else weight
    if end.soil is not None and soil is not None and soil.friction_angle is not None:
        friction = soil.friction_angle.low
    base, top = base_level(study), end.soil_to or 0.0
    if top <= base:
        return EndPush(soil=0.0, force=0.0, level=base, working="no soil lies against it")
    z = np.linspace(base, top, PLACES)
    ratio = float(sloping_at_rest_ratio(friction, end.rises))
    wet = _water(end, z, _overflow(study) if blocked else None)
    pressure = ratio * (weight * (top - z) + (full - weight) * wet / WATER - wet) + wet
    block = held_end(study.house, end)
    if block is not None:
        pressure = np.where(z >= block.bottom, np.minimum(block.passes + wet, pressure), pressure)
    width = _width(study, z)
    force = float(np.trapezoid(np.maximum(pressure, 0.0) * width, z))
    moment = float(np.trapezoid(np.maximum(pressure, 0.0) * width * z, z))
    return EndPush(
        soil=force,
        force=_into_shell(end, base, force, moment),
        level=moment / force if force else base,
        working=f"K = {ratio:.2f}, {weight / 1e3:.1f} kN/m3, up to {top:.2f} m"
        + (f", water to {level_text(float(wet[0]) / WATER + base)}" if wet[0] > 0.0 else "")
        + ("" if block is None else f", held off by geogrid: {block.passes / 1e3:.1f} kPa"),
    )


def unlike(study: Study, forces: Mapping[str, float]) -> float:
    """By how much the back pushes more than the front at most (N); less than nothing: the front.

    An end before fill that stands by itself may feel nothing of it.
    """
    ends = {str(one.at): one for one in study.house.ends if one.vault == study.vault.name}
    least = {
        at: 0.0 if at in ends and held_end(study.house, ends[at]) is not None else force
        for at, force in forces.items()
    }
    back, front = forces.get("back", 0.0), forces.get("front", 0.0)
    ways = (back - least.get("front", 0.0), least.get("back", 0.0) - front)
    return max(ways, key=abs)


def _into_shell(end: End, base: float, force: float, moment: float) -> float:
    """Posts carry to their heads and their feet; a fence that stands by itself gives the shell nothing."""
    if end.post_spacing is None:
        return force
    if end.post_head is None:
        return 0.0
    return min((moment - base * force) / max(end.post_head - base, 0.1), force)


def _overflow(study: Study) -> float | None:
    """Level up to which water stands behind a blocked drain (m), never under the ground water."""
    overflow, ground = study.house.site.overflow, readings.ground_water(study.house)
    return overflow if overflow is None or ground is None else max(overflow, ground)


def _water(end: End, z: Array, overflow: float | None) -> Array:
    """Water's own pressure: behind a drain to the overflow, else to the level given or to the soil's."""
    top = end.soil_to or 0.0
    if not end.drained:
        level = end.water.high if end.water is not None else top
    elif overflow is None:
        return np.zeros_like(z)
    else:
        level = overflow
    return WATER * np.maximum(min(level, top) - z, 0.0)


BLOCKED = "the drain blocked"
"""What the moment is called in which water stands behind one end."""


def worst_push(
    study: Study, ends: Mapping[str, End], friction: float
) -> tuple[dict[str, EndPush], float, str]:
    """What lies against both ends where they differ most, that difference, and what is wrong then.

    A drain may be blocked behind one end and run behind the other.
    """
    dry = {at: end_push(study, end, friction) for at, end in ends.items()}
    found = [(dry, unlike(study, {at: push.force for at, push in dry.items()}), "")]
    for at, end in ends.items():
        if end.drained and _overflow(study) is not None:
            wet = dry | {at: end_push(study, end, friction, blocked=True)}
            found.append((wet, unlike(study, {one: push.force for one, push in wet.items()}), BLOCKED))
    return max(found, key=lambda one: abs(one[1]))


def _width(study: Study, z: Array) -> Array:
    """Width of the vault's outside at each level; below the feet that between the feet (m)."""
    face = study.form.soil_face
    top = int(np.argmax(face.z))
    left = np.interp(z, face.z[: top + 1], face.x[: top + 1], right=0.0)
    right = np.interp(z, face.z[top:][::-1], face.x[top:][::-1], right=0.0)
    return np.where(z > float(face.z[top]), 0.0, right - left)


def racking(study: Study) -> Racking:
    """Nails of the planks, boards that stay, and the grip of the soil at the sides."""
    nails = _nails(study)
    return Racking(nails=nails, couples=_couples(study, nails), boards=_boards(study), sides=side_grip(study))


def _couples(study: Study, nails: float | None) -> str:
    """Length, design force of a couple, its lever, width of a plank and bay: what `_nails` counts."""
    plank = _lagging(study)
    if nails is None or plank is None or plank.width is None or not nails:
        return ""
    lever = (1.0 - 2.0 * EDGE) * plank.width
    force = nails * plank.width * study.form.spacing / (2.0 * study.form.length * lever)
    return (
        f"2 · {study.form.length:.2f} · {force / 1e3:.4f} · {lever:.4f} / "
        f"({plank.width:.3f} · {study.form.spacing:.3f})"
    )


def _lagging(study: Study) -> Cover | None:
    return next((one for one in study.vault.cover if one.kind is CoverKind.LAGGING), None)


def _nails(study: Study) -> float | None:
    """Each plank on each rib is held by nails that turn as a couple; both slopes of the shell count."""
    plank = _lagging(study)
    if plank is None or plank.nail is None or plank.nails is None or plank.width is None:
        return None
    one = _one_nail(study, plank)
    if one is None:
        return None
    lever = (1.0 - 2.0 * EDGE) * plank.width
    couple = one * lever * (plank.nails // 2)
    field = couple / (plank.width * study.form.spacing)
    return 2.0 * field * study.form.length


def _one_nail(study: Study, plank: Cover) -> float | None:
    assert plank.nail is not None  # noqa: S101  (asked before)
    both = (study.strength.timber, strength_class(plank.timber or study.vault.timber))
    # Either of them may need holes; the lighter one holds the nail less.
    dense = max(both, key=lambda one: one.density_low)
    if needs_holes(dense.name) and not plank.predrilled:
        raise needs_drilling(dense)
    timber = min(both, key=lambda one: one.density_low)
    return nail_design(
        plank.nail,
        plank.thickness,
        timber,
        service_class=study.strength.service_class,
        duration="permanent",
        depth=study.form.rib.depth,
        predrilled=bool(plank.predrilled),
    )


def _boards(study: Study) -> float:
    """Boards across the ribs that stay: as much as the nails at one of their ends, both sides, one way."""
    erection, total = study.house.erection, 0.0
    for brace in () if erection is None else erection.braces:
        if brace.stays and brace.nail is not None and brace.nails is not None and brace.timber is not None:
            one = nail_design(
                brace.nail,
                brace.section.thickness,
                strength_class(brace.timber),
                service_class=study.strength.service_class,
                duration="permanent",
                depth=study.form.rib.depth,
                predrilled=brace.predrilled,
            )
            each = (one or 0.0) * brace.nails * max(brace.ribs // 2, 1)
            total += 2.0 * each * float(np.cos(brace.slant)) * max(brace.count // 2, 1)
    return total


def side_grip(study: Study) -> float:
    """Friction of the finished fill on both slopes of the shell, as much of it as is trusted (N)."""
    fill, sheet = study.house.fill(study.vault), readings.membrane_friction(study.vault)
    if fill is None or fill.friction_angle is None or fill.unit_weight is None or sheet is None:
        return 0.0
    mesh, ground = study.form.mesh, study.form.ground
    ratio = float(soils.active_ratio(fill.friction_angle.low))
    depth = np.maximum(ground.finished.level(mesh.soil_x) - mesh.soil_z, 0.0)
    across = np.abs(mesh.rise) * ratio + np.maximum(mesh.plan, 0.0)
    slides = float(np.tan(min(sheet, fill.friction_angle.low)))
    grip = float(np.sum(fill.unit_weight.low * depth * across)) * slides
    return TRUSTED * grip * study.form.length / FRICTION_FACTOR


FRICTION_FACTOR = 1.25
"""On the tangent of an angle of friction (EN 1997-1, set M2)."""


def _decide(study: Study) -> Iterator[Said]:
    ends = {str(one.at): one for one in study.house.ends if one.vault == study.vault.name}
    lost = [f"[[end]] at {at}" for at in ("front", "back") if at not in ends or ends[at].soil_to is None]
    fill = study.house.fill(study.vault)
    if lost or fill is None or fill.friction_angle is None:
        yield _unknown("what lies against both ends", lost or ["vault.fill.friction_angle"])
        return
    pushes, net, case = worst_push(study, ends, fill.friction_angle.low)
    held = racking(study)
    asked = study.model.factor_sets[0].permanent * abs(net)
    there = (held.nails or 0.0) + held.boards + held.sides
    # Nails that nobody described may still be the reason why it holds: without them it is not known.
    if held.nails is None and asked > there:
        yield _unknown("how the planks are nailed", ["vault.cover.nail", "vault.cover.nails"])
        return
    yield replace(_said(study, pushes, held, (net, asked, there)), case=case or None)


def _unknown(what: str, places: list[str]) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether the house leans along its axis is not known: the file does not say {what}.",
        values={"what": what},
        advice=f"Write {', '.join(places)}.",
    )


def _said(study: Study, pushes: dict[str, EndPush], held: Racking, sums: tuple[float, float, float]) -> Said:
    net, asked, there = sums
    wet = any("water to" in push.working for push in pushes.values())
    ratio = asked / there if there > 0.0 else (0.0 if asked == 0.0 else float("inf"))
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="{what} {way} with {net}; nails {nails}, boards {boards}, {grip} {sides} hold it.",
        values={
            "what": "A drain blocked, it is pushed" if wet else "Soil pushes the house",
            "grip": "soil" if wet else "soil at the sides",
            "way": "towards the front" if net > 0.0 else "towards the back",
            "net": Shown(asked, "kN", 1),
            "nails": "unknown" if held.nails is None else Shown(held.nails, "kN", 1),
            "boards": Shown(held.boards, "kN", 1),
            "sides": Shown(held.sides, "kN", 1),
        },
        stage=study.stages[-1].name,
        demand=asked,
        capacity=there,
        unit="kN",
        ratio=ratio if np.isfinite(ratio) else None,
        advice="" if verdict is Verdict.HOLDS else HELP,
        steps=tuple(_steps(pushes, held, sums, ratio)),
    )


HELP = (
    "Nail boards slantwise over the lagging for good ([[erection.brace]] stays), use more or longer plank "
    "nails, lay less soil behind the end, or let the end wall stand by itself."
)


def _steps(
    pushes: dict[str, EndPush], held: Racking, sums: tuple[float, float, float], ratio: float
) -> Iterator[Step]:
    net, asked, there = sums
    for at, push in pushes.items():
        yield step(
            f"Soil at rest against the {at}, acting at {level_text(push.level)}: {push.working}",
            "E",
            "∫ [K·(γ·(h − z) − u) + u]·b(z) dz" if "water to" in push.working else "∫ K·γ·(h − z)·b(z) dz",
            "",
            Shown(push.soil, "kN", 2),
            PUSH_CITE,
        )
        yield step(
            f"Of it into the shell at the {at}", "E_s", "heads of the posts", "", Shown(push.force, "kN", 2)
        )
    yield step("Left over along the axis", "ΔE", "|back − front|", "", Shown(abs(net), "kN", 2))
    factor = asked / abs(net) if net else 1.0
    filled = f"{factor:.2f} · {abs(net) / 1e3:.3f}"
    yield step("With its factor", "E_d", "γ_G·ΔE", filled, Shown(asked, "kN", 2))
    if held.nails is not None:
        yield step(
            "Couples of the planks' nails over both slopes",
            "R_n",
            "2·L·F_d·e/(b·s)",
            held.couples,
            Shown(held.nails, "kN", 2),
            timber_cite("8.2.2"),
        )
    yield step(
        "Boards that stay", "R_b", "Σ n·F_d·cos α", "", Shown(held.boards, "kN", 2), timber_cite("8.2.2")
    )
    yield step(
        "Half of the soil's grip", "R_s", "0.5·Σ σ·tan δ/1.25", "", Shown(held.sides, "kN", 2), GRIP_CITE
    )
    yield ratio_step("Asked over there", "E_d / R_d", f"{asked / 1e3:.2f} / {there / 1e3:.2f}", ratio)


LEANS_ALONG = Rule(
    name="house-does-not-lean-along",
    title="The house does not lean along its axis",
    why="Earth behind the back wall and a door in the front: the whole push goes along the house, where ribs "
    "alone stand like cards.",
    cites=(PUSH_CITE, GRIP_CITE, timber_cite("8.2.2")),
    decide=_decide,
    reads_ribs=False,
    asks=("end", "end.soil_to", "vault.cover.nail", "vault.cover.nails"),
)
