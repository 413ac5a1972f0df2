"""Whether the house lies within what the methods used here hold for."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict
from bermwright.base.sources import Cite, Provenance
from bermwright.data.validity import LIMITS
from bermwright.data.works.practice import TRADE
from bermwright.rules.nouns import Rule, Said

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.data.validity import Limit
    from bermwright.rules.study import Study


BEYOND = "Stay within it, or have this vault designed by somebody licensed, with other methods."


def outside(study: Study) -> tuple[tuple[str, float, float, str], ...]:
    """What lies outside the methods: name, value, limit and unit; an unknown value is none of these."""
    return tuple((limit.says, value, limit.value, limit.unit) for limit, value in _beyond(study))


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


WITHIN_METHODS = Rule(
    name="within-the-methods",
    title="Within what the methods hold for",
    why="Every equation has a range. Outside it a number looks just as good and means nothing.",
    cites=(Cite(work=TRADE, place="limits set by judgement", provenance=Provenance.PRACTICE),),
    decide=_decide,
    reads_ribs=False,
)
