"""Whether bond beams and rings hold: bending between what holds them, or pull all round, and their laps."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.findings import TIGHT_FROM, Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.supports import GAMMA_CONCRETE, GAMMA_STEEL, LONG_CONCRETE
from bermwright.data.works.supports import EN1992
from bermwright.handbook.holding import (
    bar_area,
    beam_moment,
    bond_strength,
    concrete_tension,
    lap_length,
    reinforced_moment,
    ring_tension,
)
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.rules.ribs.feet import foot_reach
from bermwright.rules.supports.common import does_not_apply, feet_unknown
from bermwright.rules.supports.standing import SIDES, on_side

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house.parts.holds import Ring
    from bermwright.rules.ribs.feet import Reach
    from bermwright.rules.study import Study

RING_CITE = Cite(work=EN1992, place="6.1, 8.4 and 8.7", provenance=Provenance.MEMORY)
SHALLOW = 0.25
"""Bars lie well in fresh concrete no higher than this (m)."""
COVER = 0.045
"""From a side face to the middle of its bars (m)."""
MORE_BARS = "Write more or thicker [[ring]] bars, a larger width, or a smaller held_every."
LONGER_LAP = "Write a longer [[ring]] lap; bend corner bars, never stop two straight bars in a corner."
NEEDED = ("width", "height", "concrete", "bars", "count", "lap")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pull:
    """What a ring has to take, and can take."""

    demand: float
    capacity: float
    unit: str
    stress: float
    """In its bars (Pa)."""
    words: str
    steps: tuple[Step, ...]


def _decide(study: Study) -> Iterator[Said]:
    house, name = study.house, study.vault.name
    rings: dict[str, list[int]] = {}
    for side in (0, 1):
        ring = on_side(house.rings, name, side)
        if ring is not None:
            rings.setdefault(ring.name, []).append(side)
    if not rings:
        yield does_not_apply("bond beam or ring")
    for sides in rings.values():
        ring = on_side(house.rings, name, sides[0])
        assert ring is not None  # noqa: S101  (just found)
        yield from _one(study, ring, sides)


def _one(study: Study, ring: Ring, sides: list[int]) -> Iterator[Said]:
    part = f'ring "{ring.name}"'
    lost = [f"ring.{key}" for key in NEEDED if getattr(ring, key) is None]
    if ring.radius is None and ring.held_every is None:
        lost.append("ring.held_every")
    if lost:
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="Not known: the file does not say {places}.",
            values={"places": ", ".join(lost)},
            advice=f"Answer the questions about {', '.join(lost)}.",
            part=part,
        )
        return
    ends = [foot_reach(study, 0, largest=largest, side=side) for side in sides for largest in (True, False)]
    if not all(math.isfinite(end.value) for end in ends):
        yield feet_unknown(part)
        return
    outward = max(ends, key=lambda end: end.value)
    if ring.radius is not None and outward.value <= 0.0:
        yield replace(does_not_apply("push outward on the ring; it is only pressed"), part=part)
        return
    worst = outward if ring.radius is not None else max(ends, key=lambda end: abs(end.value))
    pull = _round(ring, worst) if ring.radius is not None else _straight(ring, worst)
    yield replace(_carries(pull, worst, ring), part=part)
    yield replace(_laps(ring, pull, worst), part=part)


def _round(ring: Ring, end: Reach) -> Pull:
    tension = float(ring_tension(end.value, ring.radius or math.nan))
    area = float(bar_area(ring.bars or math.nan, 2.0 * (ring.count or 0)))
    limit = area * ring.bar_strength / GAMMA_STEEL.value
    return Pull(
        demand=tension,
        capacity=limit,
        unit="kN",
        stress=tension / area,
        words="pulls it apart",
        steps=(
            step(
                "Pull all round",
                "T",
                "H·R",
                f"{end.value / 1e3:.1f} · {ring.radius:.2f}",
                Shown(tension, "kN", 1),
            ),
            step(
                "Its bars hold", "T_Rd", "A_s·f_yd", f"A_s = {area * 1e6:.0f} mm²", Shown(limit, "kN", 1),
                RING_CITE,
            ),
        ),
    )  # fmt: skip


def _straight(ring: Ring, end: Reach) -> Pull:
    push, span = abs(end.value), ring.held_every or math.nan
    moment = float(beam_moment(push, span))
    limit = beam_capacity(ring)
    return Pull(
        demand=moment,
        capacity=limit,
        unit="kN m",
        stress=min(moment / limit, 1.0) * ring.bar_strength / GAMMA_STEEL.value if limit > 0.0 else math.inf,
        words="bends it",
        steps=(
            step(
                "Bending between what holds it, the whole push of the feet on it",
                "M",
                "H·l²/8",
                f"{push / 1e3:.1f} · {span:.2f}² / 8",
                Shown(moment, "kN m", 1),
            ),
            step("It takes", "M_Rd", "A_s·f_yd·(d − a/2)", "", Shown(limit, "kN m", 1), RING_CITE),
        ),
    )


def beam_capacity(ring: Ring) -> float:
    """Bending that a straight bond beam takes, pushed across its width (N m)."""
    height, width = ring.height or math.nan, ring.width or math.nan
    area = float(bar_area(ring.bars or math.nan, float(ring.count or 0)))
    per_metre = reinforced_moment(
        area / height,
        ring.bar_strength / GAMMA_STEEL.value,
        depth=width - COVER,
        thickness=width,
        concrete=LONG_CONCRETE.value * (ring.concrete or math.nan) / GAMMA_CONCRETE.value,
    )
    return float(per_metre) * height


def needed_lap(ring: Ring, stress: float) -> float:
    """How far its bars must overlap at a stress (m)."""
    tension = float(concrete_tension(ring.concrete or math.nan)) / GAMMA_CONCRETE.value
    bond = bond_strength(tension, good=(ring.height or math.nan) <= SHALLOW)
    return float(lap_length(ring.bars or math.nan, stress, bond))


def _carries(pull: Pull, end: Reach, ring: Ring) -> Said:
    ratio = pull.demand / pull.capacity if pull.capacity > 0.0 else math.inf
    return Said(
        verdict=verdict_of(ratio),
        template="{when}: the push of the feet {does} with {demand}; the {ring} takes {capacity}. Walls "
        "are checked without it.",
        values={
            "does": pull.words,
            "ring": ring.name,
            "demand": Shown(pull.demand, pull.unit, 1),
            "capacity": Shown(pull.capacity, pull.unit, 1),
            **_when(end),
        },
        stage=end.now.stage.name,
        case=end.now.case.name,
        place=_place(end),
        demand=pull.demand,
        capacity=pull.capacity,
        unit=pull.unit,
        ratio=ratio if math.isfinite(ratio) else None,
        advice=MORE_BARS if ratio > TIGHT_FROM else "",
        steps=(_push(end), *pull.steps, ratio_step("Strength used", "E / R", "", ratio)),
    )  # fmt: skip


def _laps(ring: Ring, pull: Pull, end: Reach) -> Said:
    full = min(pull.stress, ring.bar_strength / GAMMA_STEEL.value)
    needed = needed_lap(ring, full)
    ratio = needed / (ring.lap or math.nan)
    return Said(
        verdict=verdict_of(ratio),
        template="Bars of the {ring} must overlap by {needed}, and corner bars reach as far round; the file "
        "says {lap}.",
        values={
            "ring": ring.name, "needed": Shown(needed, "mm", 0), "lap": Shown(ring.lap or math.nan, "mm", 0),
        },
        stage=end.now.stage.name,
        case=end.now.case.name,
        place=_place(end),
        demand=needed,
        capacity=ring.lap,
        unit="mm",
        ratio=ratio,
        advice=LONGER_LAP if ratio > TIGHT_FROM else "",
        steps=(
            step(
                "Lap of all bars at one place",
                "l_0",
                "1.5·(d/4)·(σ/f_bd), at least 15·d and 200 mm",
                f"d = {(ring.bars or 0.0) * 1e3:.0f} mm, σ = {full / 1e6:.0f} N/mm²",
                Shown(needed, "mm", 0),
                RING_CITE,
            ),
            ratio_step("Lap used", "l_0 / lap", "", ratio),
        ),
    )  # fmt: skip


def _push(end: Reach) -> Step:
    way = "outward" if end.value >= 0.0 else "into the room"
    return step(
        f"Push of a foot {way}: {end.words}", "H", "plane frame", "", Shown(abs(end.value), "kN/m", 1)
    )


def _when(end: Reach) -> dict[str, Shown | str]:
    stage, case = end.now.stage.name, end.now.case.name
    return {"when": stage[:1].upper() + stage[1:] + ("" if case == "permanent" else f", {case}")}


def _place(end: Reach) -> str:
    return f"{SIDES[0 if end.node == 0 else 1]} foot"


RING_HOLDS = Rule(
    name="bond-beam-holds",
    title="The bond beam or ring holds",
    why="A beam round the top of the walls shares the thrust; it is only as strong as its bars, their laps "
    "and its corners.",
    cites=(RING_CITE,),
    decide=_decide,
    asks=tuple(f"ring.{key}" for key in (*NEEDED, "held_every")),
)
