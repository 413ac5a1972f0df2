"""Whether the bare ribs stand in the wind until the lagging is on, and the one that is just being raised."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.actions import EN1991_1_4
from bermwright.data.works.practice import TRADE
from bermwright.rules.erection.works import (
    ROPE_FACTOR,
    TRIED_FACTOR,
    WIND_FACTOR,
    board_force,
    gust_of_speed,
    guy_angle,
    guy_holds,
    holding,
    rib_wind,
)
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step, timber_cite
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.erection.works import Holding, RibWind
    from bermwright.rules.study import Study

BAR_CITE = Cite(work=EN1991_1_4, place="7.7, bars with sharp edges", provenance=Provenance.MEMORY)
HANDS_CITE = Cite(
    work=TRADE, place="what one person holds against a rope or pole", provenance=Provenance.PRACTICE
)
ONE_HOLDS = 200.0
"""What one person holds level for some minutes on firm ground (N)."""
MORE = (
    "Add [[erection.brace]] boards or nails, or [[erection.guy]] ropes to tried anchors; or put up and lag "
    "a few ribs at a time."
)


def _decide(study: Study) -> Iterator[Said]:
    wind = rib_wind(study)
    if study.house.erection is None:
        yield _unknown("how the ribs are braced", "Write an [erection] table; see its question.")
    elif wind is None:
        yield _unknown("the wind", "Answer the question about [site] wind.")
    else:
        yield _stand(study, wind, holding(study, wind))
        yield from _raised(study)


def _unknown(what: str, advice: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether the bare ribs stand until they are lagged is not known: nothing says {what}.",
        values={"what": what},
        stage=StageKind.RIBS + " up",
        advice=advice,
    )


def _stand(study: Study, wind: RibWind, held: Holding) -> Said:
    asked = WIND_FACTOR * wind.all
    ratio = asked / held.all if held.all > 0.0 else None
    verdict = verdict_of(ratio) if ratio is not None else Verdict.FAILS
    if held.unknown and verdict is not Verdict.HOLDS:
        return _unknown(" and ".join(held.unknown), f"Write {' and '.join(held.unknown)}.")
    return Said(
        verdict=verdict,
        template="Along the axis a gust of {gust} meets {ribs} bare ribs with {asked}; braces hold "
        "{braces}, guys {guys}.",
        values={
            "gust": Shown(wind.gust, "kN/m2", 2),
            "ribs": str(wind.ribs),
            "asked": Shown(asked, "kN", 1),
            "braces": Shown(held.braces, "kN", 1),
            "guys": Shown(held.guys, "kN", 1),
        },
        stage=study.stages[0].name,
        case="wind along the axis",
        demand=asked,
        capacity=held.all,
        unit="kN",
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else MORE,
        steps=tuple(_steps(study, wind, held, asked, ratio)),
    )


def _steps(study: Study, wind: RibWind, held: Holding, asked: float, ratio: float | None) -> Iterator[Step]:
    yield step(
        f"Wind on one bare rib, {wind.height:.2f} m over its feet",
        "F_1",
        "c_f·q_p·h·L",
        f"2.0 · {wind.gust / 1e3:.3f} · {study.form.rib.depth:.3f} · {study.form.rib.centreline.length:.2f}",
        Shown(wind.each, "kN", 3),
        BAR_CITE,
    )
    yield step(
        f"On all {wind.ribs} ribs, none in the lee of another, with its factor",
        "F_d",
        "1.5·n·F_1",
        f"1.5 · {wind.ribs} · {wind.each / 1e3:.3f}",
        Shown(asked, "kN", 2),
    )
    erection = study.house.erection
    for brace in () if erection is None else erection.braces:
        share = asked * held.braces / held.all if held.all else asked
        yield step(
            "In one brace board",
            "N",
            "F/(n·cos α)",
            f"{share / 1e3:.3f} / ({2 * max(brace.count // 2, 1)} · cos {np.degrees(brace.slant):.1f}°)",
            Shown(board_force(brace, share), "kN", 2),
            timber_cite("8.2.2"),
        )
    for guy in () if erection is None else erection.guys:
        there = guy_holds(study, guy)
        if there is not None:
            yield step(
                f"Guys one way, at {guy_angle(study, guy) * 57.3:.0f} degrees over the ground",
                "R_g",
                f"n·min(T/{ROPE_FACTOR:g}; P/{TRIED_FACTOR:g})·cos α",
                f"{guy.count} · {there / guy.count / np.cos(guy_angle(study, guy)) / 1e3:.3f} · "
                f"cos {np.degrees(guy_angle(study, guy)):.1f}°",
                Shown(there, "kN", 2),
                HANDS_CITE,
            )
    yield step(
        "Braces, and guys that pull higher up than the wind", "R_d", "R_b + R_g·z_g/z_w",
        f"{held.braces / 1e3:.2f} + {held.guys / 1e3:.2f}", Shown(held.all, "kN", 2),
    )  # fmt: skip
    if ratio is not None:
        yield ratio_step("Asked over there", "F_d / R_d", f"{asked / 1e3:.2f} / {held.all / 1e3:.2f}", ratio)


def _raised(study: Study) -> Iterator[Said]:
    """The rib that only hands hold, in the gust in which work stops."""
    erection, crew = study.house.erection, study.house.crew
    if erection is None or erection.wind_limit is None:
        yield _unknown("in which gust raising stops", "Answer the question about [erection] wind_limit.")
        return
    if crew is None or crew.people is None:
        yield _unknown("how many people raise them", "Answer the question about [crew] people.")
        return
    wind = rib_wind(study, gust_of_speed(erection.wind_limit))
    if wind is None:
        return
    asked, there = wind.each * erection.unbraced, ONE_HOLDS * crew.people
    ratio, verdict = asked / there, verdict_of(asked / there)
    yield Said(
        verdict=verdict,
        template="In a gust of {speed} an unbraced rib pulls with {asked}; {people} people hold {there}.",
        values={
            "speed": Shown(erection.wind_limit, "m/s", 1),
            "asked": Shown(asked, "kN", 2),
            "people": str(crew.people),
            "there": Shown(there, "kN", 2),
        },
        stage=study.stages[0].name,
        case="being raised",
        demand=asked,
        capacity=there,
        unit="kN",
        ratio=ratio,
        advice=""
        if verdict is Verdict.HOLDS
        else "Stop in less wind (a smaller [erection] wind_limit), or with more people.",
        steps=(
            step("Wind on what only hands hold", "F", "c_f·ρ/2·v²·h·L", "", Shown(asked, "kN", 3), BAR_CITE),
            step("One person holds", "P_1", "", "", Shown(ONE_HOLDS, "kN", 2), HANDS_CITE),
            ratio_step("Asked over there", "F / (n·P_1)", f"{asked:.0f} / {there:.0f}", ratio),
        ),
    )


RIBS_STAND_UP = Rule(
    name="bare-ribs-stand-until-lagged",
    title="Bare ribs stand until they are lagged",
    why="Ribs in a row fall like cards, the first one that goes takes all, and whoever stands between. Most "
    "frames that ever fell did so before their boards were on.",
    cites=(BAR_CITE, HANDS_CITE),
    decide=_decide,
    reads_ribs=False,
    asks=("erection", "erection.wind_limit", "site.wind", "crew.people"),
)
