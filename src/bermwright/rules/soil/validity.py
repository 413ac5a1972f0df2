"""Whether the house lies within what the methods used here hold for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.validity import LIMITS
from bermwright.data.works.practice import TRADE
from bermwright.house.choices import SoilKind
from bermwright.house.site import may_stay_frozen
from bermwright.rules.nouns import Rule, Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.data.validity import Limit
    from bermwright.rules.study import Study


BEYOND = "Stay within it, or have this vault designed by somebody licensed, with other methods."


def outside(study: Study) -> tuple[str, ...]:
    """What lies outside the methods, in words; what is not known is none of these."""
    return (*(limit.says for limit, _value in _beyond(study)), *_strange_ground(study))


def _strange_ground(study: Study) -> Iterator[str]:
    """Kinds of ground that no method here holds for."""
    site = study.house.site
    fill = study.house.fill(study.vault)
    if any(soil.kind is SoilKind.PEAT for soil in site.soil) or (fill and fill.kind is SoilKind.PEAT):
        yield "Peat"
    if any(soil.swells for soil in site.soil):
        yield "Clay that swells"
    if site.permafrost:
        yield "Ground that stays frozen through the summer"


def _not_told(study: Study) -> Iterator[tuple[str, str]]:
    """Ground that may be of such a kind, as the file does not say: what, and the place in the file."""
    site = study.house.site
    if any(soil.kind is SoilKind.CLAY and soil.swells is None for soil in site.soil):
        yield "the clay swells", "[[site.soil]] swells"
    if site.permafrost is None and may_stay_frozen(site):
        yield "the ground stays frozen through the summer", "[site] permafrost"


def _beyond(study: Study) -> Iterator[tuple[Limit, float]]:
    for name, value in _values(study).items():
        limit = LIMITS[name]
        wrong = value > limit.value + 1e-9 if limit.most else value < limit.value - 1e-9
        if wrong or np.isnan(value):
            yield limit, value


def _values(study: Study) -> dict[str, float]:
    form, mound = study.form, study.vault.mound
    cover = float(form.ground.finished.level(form.mesh.soil_x[form.mesh.crown])) - form.crown_level
    fill = study.house.fill(study.vault)
    values = {
        "span": form.span,
        "length": form.length / form.span,
        "crown cover": cover,
        "mound slope": _steepest(study),
    }
    if mound is not None and mound.crown is not None:
        values["crown cover least"] = cover
    if study.house.site.ground_acceleration is not None:
        values["ground acceleration"] = study.house.site.ground_acceleration
    if fill is not None and fill.friction_angle is not None:
        values["fill friction"] = fill.friction_angle.low
    return values


def _steepest(study: Study) -> float:
    line = study.form.ground.finished
    rise, run = np.diff(line.z), np.diff(line.x)
    # A step of the drawn line is no slope of soil but a mistake or a wall: it counts as upright.
    return float(np.max(np.arctan2(np.abs(rise), np.maximum(run, 1e-9)))) if rise.size else 0.0


def _decide(study: Study) -> Iterator[Said]:
    found = [_said(limit, value) for limit, value in _beyond(study)]
    found += [_said_of_ground(what) for what in _strange_ground(study)]
    found += [_asked(what, place) for what, place in _not_told(study)]
    yield from found or [
        Said(
            verdict=Verdict.HOLDS,
            template="Span, length, cover, slopes and ground are within the methods.",
        )
    ]


def _said(limit: Limit, value: float) -> Said:
    ends = "up to {limit}" if limit.most else "from {limit} on"
    return Said(
        verdict=Verdict.UNKNOWN,
        template="{what}: {value}. The methods used here hold " + ends + "; beyond, nothing is known.",
        values={
            "what": limit.says,
            "value": Shown(value, limit.unit, 2),
            "limit": Shown(limit.value, limit.unit, 2),
        },
        demand=float(value) if np.isfinite(value) else None,
        capacity=limit.value,
        unit=limit.unit,
        advice=BEYOND,
    )


def _said_of_ground(what: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="{what}: the methods used here do not hold in such ground.",
        values={"what": what},
        advice="Build elsewhere, or have ground and house designed by somebody licensed who knows it.",
    )


def _asked(what: str, place: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether {what}, the file does not say.",
        values={"what": what},
        advice=f"Answer the question about {place}.",
    )


WITHIN_METHODS = Rule(
    name="within-the-methods",
    title="Within what the methods hold for",
    why="Every equation has a range. Outside it a number looks just as good and means nothing.",
    cites=(Cite(work=TRADE, place="limits set by judgement", provenance=Provenance.PRACTICE),),
    decide=_decide,
    asks=("site.soil.swells", "site.permafrost"),
    reads_ribs=False,
)
