"""Whether pipes under the earth keep their shape, and drains stay open."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.pipes import (
    BEDDING_CONSTANT,
    CAUTION,
    CREEP,
    GOOD_FALL,
    LAG,
    LEAST_FALL,
    OVAL,
    REACTION,
)
from bermwright.data.works.lasting import IRCR405, SPANGLER1941
from bermwright.handbook.lasting import pipe_flattening
from bermwright.house import Outlet, PipeKind, TubeWall
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.ribs.common import ratio_step, step

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.house import House, Pipe
    from bermwright.rules.nouns import Whole

PLASTIC = frozenset({TubeWall.SMOOTH_PLASTIC, TubeWall.CORRUGATED_PLASTIC})
IOWA = Cite(work=SPANGLER1941, place="modified Iowa formula", provenance=Provenance.DERIVED)
STONE = Cite(work=IRCR405, place="stone and filter fabric around a perimeter drain, an outlet by gravity",
             provenance=Provenance.READ)  # fmt: skip
NEEDED = ("stiffness", "soil_over", "bedding", "tamped")
STIFFER = (
    "Take a stiffer pipe (SN 8 or SN 16), a bed of crushed stone tamped on both sides, or lay it where less "
    "soil lies over it."
)
DRAINS = (
    "Lay it in washed stone with a fleece round the stone, 1 cm of fall in a metre, a riser to rinse it and "
    "an outlet that is seen; frost must not reach the outlet."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressed:
    """A plastic pipe under its soil after decades."""

    pressure: float
    """Soil straight over it, soaked (Pa)."""
    stiffness: float
    """What is left of it (Pa)."""
    reaction: float
    """Of the soil beside it, with caution (Pa)."""
    flattening: float
    """Change of its diameter over its diameter."""


def pressed(house: House, pipe: Pipe) -> Pressed | None:
    """None where something is not known, and for pipes that are no plastic."""
    weight = _heaviest(house)
    if weight is None or pipe.material not in PLASTIC or any(getattr(pipe, name) is None for name in NEEDED):
        return None
    pressure = weight * (pipe.soil_over or 0.0)
    stiffness = (pipe.stiffness or math.nan) / CREEP.value
    reaction = CAUTION.value * REACTION[str(pipe.bedding), bool(pipe.tamped)].value
    flat = pipe_flattening(pressure, stiffness, reaction, bedding=BEDDING_CONSTANT.value, lag=LAG.value)
    return Pressed(pressure=pressure, stiffness=stiffness, reaction=reaction, flattening=float(flat))


def _heaviest(house: House) -> float | None:
    """Weight of the heaviest soil of the site, soaked (N/m3)."""
    known = [soil.saturated_unit_weight or soil.unit_weight for soil in house.site.soil]
    heavy = [weight.high for weight in known if weight is not None]
    return max(heavy, default=None)


def _crushed(whole: Whole) -> Iterator[Said]:
    house = whole.house
    if not house.pipes:
        yield _none_named(house, "whether pipes are pressed flat is not known")
    for pipe in house.pipes:
        yield replace(_of_pipe(house, pipe), part=f'pipe "{pipe.name}"')
    if house.pipes and house.air and house.air.tube and all(p.kind is not PipeKind.AIR for p in house.pipes):
        yield Said(
            verdict=Verdict.UNKNOWN,
            template="The air tube is told of in [air.tube], but no [[pipe]] says how stiff it is.",
            advice='Write a [[pipe]] for it, kind = "air tube".',
        )


def _none_named(house: House, what: str) -> Said:
    drained = any(fill and fill.drained for fill in map(house.fill, house.vaults))
    drained = drained or any(end.drained for end in house.ends)
    if not drained and not house.vaults:
        return Said(verdict=Verdict.DOES_NOT_APPLY, template="Nothing is buried.")
    says = (
        "The file speaks of drains and names none: {what}." if drained else "The file names no pipe: {what}."
    )
    return Said(
        verdict=Verdict.UNKNOWN,
        template=says,
        values={"what": what},
        advice="Write a [[pipe]] table for each drain and pipe under the earth.",
    )


def _of_pipe(house: House, pipe: Pipe) -> Said:
    if pipe.material is not None and pipe.material not in PLASTIC:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="Pipes of {material} carry by themselves: what this one carries its maker says.",
            values={"material": str(pipe.material)},
            advice="Ask the maker for its crushing strength, and have it compared with the soil over it.",
        )
    found = pressed(house, pipe)
    if found is None:
        lacks = [name for name in ("material", *NEEDED) if getattr(pipe, name) is None]
        lacks += [] if _heaviest(house) is not None else ["[[site.soil]] saturated_unit_weight"]
        return Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not say {what}: whether the pipe is pressed flat is not known.",
            values={"what": ", ".join(lacks).replace("_", " ")},
            advice=f"Write {', '.join(lacks)}.",
        )
    return _flat(pipe, found)


def _flat(pipe: Pipe, found: Pressed) -> Said:
    ratio = found.flattening / OVAL.value
    verdict = verdict_of(ratio)
    return Said(
        verdict=verdict,
        template="Under {soil} of soaked soil the pipe gives way by {flat} after decades; {most} may be.",
        values={
            "soil": Shown(pipe.soil_over or 0.0, "m", 1),
            "flat": Shown(found.flattening, "%", 1),
            "most": Shown(OVAL.value, "%", 0),
        },
        demand=found.flattening,
        capacity=OVAL.value,
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else STIFFER,
        steps=_flat_steps(pipe, found, ratio),
    )


def _flat_steps(pipe: Pipe, found: Pressed, ratio: float) -> tuple[Step, ...]:
    lag, bed = LAG.value, BEDDING_CONSTANT.value
    deep, ring = pipe.soil_over or 0.0, pipe.stiffness or 0.0
    heavy = found.pressure / deep / 1e3 if deep > 0.0 else 0.0
    return (
        step("Soaked soil straight over it", "p", "γ_sat·h", f"{heavy:.2f} · {deep:.2f}",
             Shown(found.pressure, "kPa", 1)),
        step("Ring stiffness that is left after decades", "S", f"SN/{CREEP.value:g}",
             f"{ring / 1e3:g} / {CREEP.value:g}", Shown(found.stiffness, "kPa", 2), CREEP.cite),
        step("Reaction of the bed beside it, half of what is listed", "E'", f"{CAUTION.value:g}·E'",
             f"{CAUTION.value:g} · {found.reaction / CAUTION.value / 1e6:.3f}",
             Shown(found.reaction, "MPa", 2), CAUTION.cite),
        step("Change of the diameter", "Δ/D", "D_L·K·p/(8·S + 0.061·E')",
             f"{lag:g}·{bed:g}·{found.pressure / 1e3:.1f}/(8·{found.stiffness / 1e3:.2f} + "
             f"0.061·{found.reaction / 1e3:.0f})·100",
             Shown(found.flattening, "%", 2), IOWA),
        ratio_step("Change over what may be", "Δ/(0.05·D)", f"{found.flattening:.4f}/{OVAL.value:g}", ratio,
                   OVAL.cite),
    )  # fmt: skip


def _open(whole: Whole) -> Iterator[Said]:
    house = whole.house
    drains = [pipe for pipe in house.pipes if pipe.kind is PipeKind.DRAIN]
    if not drains:
        yield _none_named(house, "whether drains stay open is not known")
    for pipe in drains:
        yield replace(_of_drain(pipe), part=f'pipe "{pipe.name}"')


def _of_drain(pipe: Pipe) -> Said:
    if pipe.outlet is Outlet.NONE:
        return _fails("The drain ends nowhere: water stands in it and in the fill.")
    if pipe.filter is False:
        return _fails("Nothing keeps soil out of the drain's bed: it fills with silt, unseen.")
    lacks = [name for name in ("filter", "outlet", "fall", "rinsed") if getattr(pipe, name) is None]
    if pipe.fall is not None and math.tan(pipe.fall) < LEAST_FALL.value:
        return _fails(
            "The drain falls {fall}, less than {least}: as the ground settles it runs backwards.",
            fall=Shown(math.tan(pipe.fall), "%", 2), least=Shown(LEAST_FALL.value, "%", 2),
        )  # fmt: skip
    if lacks or pipe.fall is None:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="The file does not say {what}: whether the drain stays open is not known.",
            values={"what": ", ".join(lacks)},
            advice=f"Write {', '.join(lacks)}.",
        )
    return _falls(pipe, math.tan(pipe.fall))


def _falls(pipe: Pipe, fall: float) -> Said:
    ratio = GOOD_FALL.value / fall
    good = ratio <= 1.0 + 1e-9
    end = {Outlet.OPEN: "an open end", Outlet.PUMP: "a pump", Outlet.SOAKAWAY: "a soakaway"}.get(
        pipe.outlet or Outlet.OPEN, ""
    )
    doubts = [
        words
        for words, doubted in (
            (f"it falls less than {100 * GOOD_FALL.value:.0f} cm in a metre", not good),
            ("nobody can rinse it", pipe.rinsed is False),
            ("a pump fails in the storm that needs it", pipe.outlet is Outlet.PUMP),
            ("a soakaway fills when the ground is full", pipe.outlet is Outlet.SOAKAWAY),
        )
        if doubted
    ]
    return Said(
        verdict=Verdict.TIGHT if doubts else Verdict.HOLDS,
        template="The drain falls {fall} in a filter to {end}" + ("; but {doubt}." if doubts else "."),
        values={"fall": Shown(fall, "%", 1), "end": end, "doubt": "; ".join(doubts[:1])},
        advice=DRAINS if doubts else "",
        steps=(
            step("Fall that is good practice", "i", "", "", Shown(GOOD_FALL.value, "%", 1), GOOD_FALL.cite),
        ),
    )


def _fails(template: str, **values: Shown) -> Said:
    return Said(verdict=Verdict.FAILS, template=template, values=values, advice=DRAINS)


PIPES_HOLD = HouseRule(
    name="pipes-keep-their-shape",
    title="Pipes under the earth keep their shape",
    why="A plastic pipe is held by the soil beside it and creeps for decades. Pressed flat, a drain lets "
    "water stand against the house and an air tube gives no air.",
    cites=(IOWA, LAG.cite, OVAL.cite, REACTION["gravel or sand", True].cite),
    decide=_crushed,
    asks=("pipe", "pipe.material", *(f"pipe.{name}" for name in NEEDED), "site.soil.saturated_unit_weight"),
)
DRAINS_OPEN = HouseRule(
    name="drains-stay-open",
    title="Drains stay open",
    why="Drains silt up and lose their fall as the ground settles; then water stands in the fill, and soaked "
    "soil presses and slides as it never did.",
    cites=(STONE, LEAST_FALL.cite),
    decide=_open,
    asks=("pipe", "pipe.filter", "pipe.outlet", "pipe.fall", "pipe.rinsed"),
)
