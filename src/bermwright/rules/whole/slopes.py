"""Whether mound, hillside and house stay where they are: slip circles, dry, soaked and shaken."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Spot, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.base.wording import level_text
from bermwright.data.terrain import CALM, GROUND_CITE, WORST_GROUND
from bermwright.data.works.actions import EN1997
from bermwright.data.works.slopes import CIRCLE_CITE, LONG_CITE
from bermwright.handbook.stability import (
    Circle,
    critical_circle,
    infinite_slope_factor,
    steepest_infinite_slope,
)
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import step
from bermwright.rules.whole.ground import columns_of, soils_of, wet

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.handbook.stability import Columns
    from bermwright.handbook.stability.search import Earth
    from bermwright.rules.study import Study

ASKED = 1.25
"""Least factor on tan φ and c: set M2 of EN 1997-1, permanent loads as they are."""
ASKED_CITE = Cite(work=EN1997, place="2.4.7.3.4 and table A.4, set M2", provenance=Provenance.MEMORY)
NEVER = 1e3
"""A factor over this says that nothing drives (-)."""
SHALLOW = 0.3
"""Slips nowhere deeper than this are the turf's affair (m)."""
HALF = 0.5
"""Share of the ground's acceleration that counts for a slope: EN 1998-5, 4.1.3.3."""
FLATTER = (
    "Make the slopes of [vault.mound] flatter, fill with a soil of more friction, or keep the water out: "
    "a drain at the foot of the fill and one uphill."
)
GRAVITY = 9.80665
DEEP = 3.0
"""Depth of the slip along a hillside that is looked at (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """The worst circle of one state of the ground."""

    state: str
    circle: Circle
    right: bool
    under_house: bool

    @property
    def ratio(self) -> float:
        """Asked over there."""
        return ASKED / self.circle.factor


def slips(study: Study, ground: Columns) -> Iterator[Slip]:
    """The worst circle in every state of the ground of which enough is known."""
    yield _slip(study, ground, "drained")
    soaked = soaked_ground(study, ground)
    if soaked is not None:
        yield _slip(study, soaked[0], soaked[1])
    shaking = quake_share(study)
    if shaking:
        yield _slip(study, ground, "earthquake", HALF * shaking)


def quake_share(study: Study) -> float | None:
    """Ground acceleration with the worst ground factor, over gravity; 0 where none need be looked at."""
    given = study.house.site.ground_acceleration
    if given is None:
        return None
    swelled = given * WORST_GROUND
    return 0.0 if swelled <= CALM else swelled / GRAVITY


def soaked_ground(study: Study, ground: Columns) -> tuple[Columns, str] | None:
    """With the drain blocked, or without one with water running down inside the fill; None: not known."""
    fill, site = study.house.fill(study.vault), study.house.site
    if fill is None or fill.drained is None:
        return None
    if not fill.drained:
        return wet(ground, ground.top, running=True), "seeping"
    if site.overflow is None or site.water_depth is None:
        return None
    level = np.maximum(ground.split - site.water_depth.low, site.overflow)
    return wet(ground, level, running=False), "drain blocked"


def _slip(study: Study, ground: Columns, state: str, quake: float = 0.0) -> Slip:
    both = [
        (critical_circle(ground, right=right, quake=quake, least_depth=SHALLOW), right)
        for right in (False, True)
    ]
    circle, right = min(both, key=lambda pair: pair[0].factor)
    face = study.form.soil_face.x
    ends = sorted((circle.start, circle.end))
    under = ends[0] < float(face.min()) and float(face.max()) < ends[1]
    return Slip(state=state, circle=circle, right=right, under_house=under)


def _decide(study: Study) -> Iterator[Said]:
    soils = soils_of(study)
    if soils.fill is None or soils.natural is None or soils.missing:
        yield _missing(soils.missing)
        return
    yield from _hillside(study, soils.natural)
    ground = columns_of(study, soils.fill, soils.natural)
    for slip in slips(study, ground):
        yield _said(slip, soils.fill.friction)
    if soaked_ground(study, ground) is None:
        yield _missing(
            ("vault.fill.drained", "site.overflow", "site.water_depth"), "with water in the ground"
        )
    if study.house.site.ground_acceleration is None:
        yield _missing(("site.ground_acceleration",), "in an earthquake")


def _hillside(study: Study, natural: Earth) -> Iterator[Said]:
    """The hill itself as a long slope, whatever way the house lies on it, with its highest ground water."""
    site = study.house.site
    if not site.slope:
        return
    if site.water_depth is None:
        yield _missing(("site.water_depth",), "on the hillside")
        return
    wet_share = float(np.clip(1.0 - site.water_depth.low / DEEP, 0.0, 1.0))
    weight = wet_share * natural.wet_unit_weight + (1.0 - wet_share) * natural.unit_weight
    factor = float(
        infinite_slope_factor(
            site.slope,
            natural.friction,
            unit_weight=weight,
            depth=DEEP,
            cohesion=natural.cohesion,
            wet_share=wet_share,
        )
    )
    ratio = ASKED / factor
    verdict = verdict_of(ratio)
    yield Said(
        verdict=verdict,
        template="The hillside of {slope} itself slides at {factor} times what drives it; {asked} is asked.",
        values={
            "slope": Shown(site.slope, "deg", 0),
            "factor": Shown(factor, "", 2),
            "asked": Shown(ASKED, "", 2),
        },
        case="hillside",
        demand=ASKED,
        capacity=factor,
        ratio=ratio,
        corner={"friction and cohesion": "least of their ranges"},
        advice=""
        if verdict is Verdict.HOLDS
        else "Do not dig into this hill before a geotechnical engineer has seen it.",
        steps=(
            step(
                f"A slip {DEEP:g} m deep along the slope, {wet_share:.2f} of it full of running water",
                "F",
                "[c + (γ − m·γ_w)·z·cos²β·tan φ]/(γ·z·sin β·cos β)",
                "",
                Shown(factor, "", 3),
                LONG_CITE,
            ),
            step(
                "Asked over there",
                "ratio",
                "1.25 / F",
                f"1.25 / {factor:.3f}",
                Shown(ratio, "", 3),
                ASKED_CITE,
            ),
        ),
    )


def _missing(places: tuple[str, ...], when: str = "") -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether the slopes stay{when} is not known: the file does not say all of {places}.",
        values={"when": f" {when}" if when else "", "places": ", ".join(places)},
        advice=f"Answer the questions about {' and '.join(places)}.",
    )


def _said(slip: Slip, friction: float) -> Said:
    circle, verdict = slip.circle, verdict_of(slip.ratio)
    side = "right" if slip.right else "left"
    what = "house and ground" if slip.under_house else "the slope"
    return Said(
        verdict=verdict,
        template="{state}: on the worst circle {what} slides to the {side} at {factor}; {asked} is asked.",
        values={
            "state": slip.state.capitalize(),
            "what": what,
            "side": side,
            "factor": f"{circle.factor:.2f} times what drives it" if circle.factor < NEVER else "no load",
            "asked": Shown(ASKED, "", 2),
        },
        case=slip.state,
        place=f"{side} slope" if np.isfinite(circle.radius) else None,
        demand=ASKED,
        capacity=float(min(circle.factor, NEVER)),
        ratio=slip.ratio,
        corner={"friction and cohesion": "least of their ranges"},
        advice="" if verdict is Verdict.HOLDS else _flatter(slip, friction),
        steps=tuple(_steps(slip)),
        spot=_comes_out(circle),
    )


def _comes_out(circle: Circle) -> Spot | None:
    """Where the circle leaves the ground at its lower end; None where no circle slides."""
    if not np.isfinite(circle.radius):
        return None
    under = np.sqrt(max(circle.radius**2 - (circle.end - circle.x) ** 2, 0.0))
    return Spot(circle.end, circle.z - float(under))


def _flatter(slip: Slip, friction: float) -> str:
    """What to do; a long dry slope without cohesion has one answer."""
    if slip.state != "drained":
        return FLATTER
    tilt = float(steepest_infinite_slope(friction, ASKED, unit_weight=1.0))
    least = Shown(tilt, "slope").text()
    return f"Make the slopes of [vault.mound] no steeper than {least}, or fill with a soil of more friction."


def _steps(slip: Slip) -> Iterator[Step]:
    circle = slip.circle
    if np.isfinite(circle.radius):
        ends = f"from {circle.start:.1f} to {circle.end:.1f} m beside the axis"
        yield step(
            f"Worst of {circle.tried} circles, {ends}, centre at {circle.x:.1f} m and {level_text(circle.z)}",
            "R",
            "search over both ends and the bulge",
            "",
            Shown(circle.radius, "m", 1),
            CIRCLE_CITE,
        )
    yield step(
        f"Strength over what drives it, {slip.state}",
        "F",
        "Σ[(c·b + (W − u·b)·tan φ)/m_α] / Σ W·sin α",
        "",
        Shown(circle.factor, "", 2),
        CIRCLE_CITE,
    )
    if slip.state == "earthquake":
        yield step(
            "Level acceleration on the slope", "k_h", "0.5·a_g·S/g", "", Shown(HALF, "", 2), GROUND_CITE
        )
    yield step(
        "Asked over there",
        "ratio",
        "1.25 / F",
        f"1.25 / {circle.factor:.3f}",
        Shown(slip.ratio, "", 3),
        ASKED_CITE,
    )


SLOPES_STAY = Rule(
    name="slopes-stay",
    title="Mound, hillside and house do not slide",
    why="A mound that slides takes the vault's side support with it, and one side of soil alone pushes the "
    "vault over. Water in it halves what holds it.",
    cites=(CIRCLE_CITE, ASKED_CITE),
    decide=_decide,
    reads_ribs=False,
    asks=(
        "site.soil",
        "site.soil.friction_angle",
        "vault.fill.drained",
        "site.overflow",
        "site.water_depth",
        "site.ground_acceleration",
    ),
)
