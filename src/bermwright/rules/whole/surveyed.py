"""Whether the ground that the file draws is the ground that was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Shown, Step, Verdict, verdict_of
from bermwright.data.setting_out import SURVEY_ODD
from bermwright.form.setout import house_surface, surveyed
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.openings.timbers import nothing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import Surveyed
    from bermwright.form.setout.surveyed import Place
    from bermwright.rules.nouns import SurveyAtHand, Whole
    from bermwright.rules.study import Study

BESIDE = 2.0
"""Points so far beside the drawn mound still count (m)."""
NAMES_IT = "Look at what stands in the file of points, or run `bermwright setout` to see all that is wrong."


def _as_surveyed(whole: Whole) -> Iterator[Said]:
    if whole.house.survey is None:
        yield nothing("The file names no surveyed points.")
    elif whole.survey is None:
        yield nothing("The surveyed points lie in a file that was not read here.")
    else:
        for study in whole.studies.values():
            yield _of(study, whole.survey)


def _of(study: Study, survey: SurveyAtHand) -> Said:
    try:
        found = surveyed(study.house, study.vault, survey.known, name=survey.name)
    except BermwrightError as error:
        # Only the first line: the rest names every point.
        why = str(error).splitlines()[0].rstrip(".:")
        return Said(
            verdict=Verdict.UNKNOWN,
            template="Whether the drawn ground is the measured one is not known: {why}.",
            values={"why": why},
            part=study.part,
            advice=NAMES_IT,
        )
    near = _near(study, found)
    if not near:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="No surveyed point lies beside the house: its ground is not known to be the drawn one.",
            part=study.part,
            advice="Measure ten points or more within two metres of the mound.",
        )
    return _compared(study, found, near)


def _near(study: Study, found: Surveyed) -> list[tuple[Place, float]]:
    """Points beside the house, and how far each lies over the drawn ground (m)."""
    surface = house_surface(study.house, study.vault, study.form)
    low, high = (float(study.form.ground.finished.x[end]) for end in (0, -1))
    length = study.form.length
    inside = (
        place
        for place in found.places
        if -BESIDE - high <= place.at[0] <= length + BESIDE + high
        and low - BESIDE <= place.at[1] <= high + BESIDE
    )
    return [(place, place.level - float(surface.level(*place.at))) for place in inside]


def _compared(study: Study, found: Surveyed, near: list[tuple[Place, float]]) -> Said:
    place, apart = max(near, key=lambda one: abs(one[1]))
    ratio = abs(apart) / SURVEY_ODD.value
    verdict = verdict_of(ratio)
    slope, faces = np.degrees(found.slope), round(np.degrees(found.faces)) % 360
    step = Step(
        says=f"Greatest of {len(near)} points beside the house",
        symbol="|Δ|/δ",
        formula="|z_p − z_drawn|/δ",
        filled=f"{1e3 * abs(apart):.0f} mm/{1e3 * SURVEY_ODD.value:.0f} mm",
        result=Shown(ratio, "", 2),
        cite=SURVEY_ODD.cite,
    )
    return Said(
        verdict=verdict,
        template="Point {point} lies {apart} {way} the drawn ground; grass and clods make {limit}.",
        values={
            "point": place.name or "of the survey",
            "apart": Shown(abs(apart), "m", 2),
            "way": "over" if apart > 0.0 else "under",
            "limit": Shown(SURVEY_ODD.value, "m", 2),
        },
        part=study.part,
        place=place.name or None,
        demand=abs(apart),
        capacity=SURVEY_ODD.value,
        unit="m",
        ratio=ratio,
        advice=""
        if verdict is Verdict.HOLDS
        else f'Write [site] slope = "{slope:.1f} deg" and faces = "{faces} deg", or draw the natural '
        "line of the mound through the points: every check counts with the drawn ground.",
        steps=(step,),
    )


GROUND_AS_SURVEYED = HouseRule(
    name="ground-as-surveyed",
    title="The drawn ground is the measured ground",
    why="Soil, frost and water are reckoned with the ground as drawn. Where it lies otherwise, so do they.",
    cites=(SURVEY_ODD.cite,),
    decide=_as_surveyed,
)
