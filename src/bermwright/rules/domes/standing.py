"""Whether a dome stands: unknown, as no statics of domes exist here; a course that tips is said to fail."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.errors import BermwrightError
from bermwright.base.findings import Shown, Step, Verdict, verdict_of
from bermwright.data.domes import STRAIGHT_CITE, TIPS_AT
from bermwright.form.dome import dome_form
from bermwright.house.making.words import Laid
from bermwright.rules.nouns import HouseRule, Said
from bermwright.rules.openings.timbers import nothing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.making.dome import Dome
    from bermwright.rules.nouns import Whole

NOT_KNOWN = (
    "Have an engineer who knows shells of this material look at it before it is laid: ring forces, openings, "
    "soil and snow on it, its foot, wind and earthquake. bermwright draws its courses and no more."
)


def _domes_stand(whole: Whole) -> Iterator[Said]:
    if not whole.house.domes:
        yield nothing("The house has no dome.")
    for dome in whole.house.domes:
        yield _of(dome)


def _of(dome: Dome) -> Said:
    part = f'dome "{dome.name}"'
    unknown = Said(
        verdict=Verdict.UNKNOWN,
        template="Whether the dome stands is not known: no strength of domes is reckoned here.",
        part=part,
        advice=NOT_KNOWN,
    )
    if dome.laid is not Laid.LEVEL:
        return unknown
    try:
        form = dome_form(dome)
    except BermwrightError as error:
        return Said(
            verdict=Verdict.UNKNOWN,
            template="Whether the dome stands is not known: {why}.",
            values={"why": str(error).rstrip(".")},
            part=part,
            advice=NOT_KNOWN,
        )
    worst = max(form.courses, key=lambda course: course.step)
    least = TIPS_AT.value * dome.thickness
    ratio = worst.step / least
    if verdict_of(ratio) is not Verdict.FAILS:
        return unknown
    return Said(
        verdict=Verdict.FAILS,
        template="Course {number} steps in by {step}, over half of its width: a loose piece of it tips.",
        values={"number": str(worst.number), "step": Shown(worst.step, "mm", 0)},
        part=part,
        place=f"course {worst.number}",
        demand=worst.step,
        capacity=least,
        unit="mm",
        ratio=ratio,
        advice="Lay lower courses, a steeper crown or wider units; prop the crown, or close it with a form.",
        steps=(
            Step(
                says="A loose piece tips where more than half of it hangs over",
                symbol="s/(t/2)",
                formula="s/(0.5·t)",
                filled=f"{1e3 * worst.step:.0f} mm/(0.5·{1e3 * dome.thickness:.0f} mm)",
                result=Shown(ratio, "", 2),
                cite=TIPS_AT.cite,
            ),
        ),
    )


DOMES_STAND = HouseRule(
    name="domes-stand",
    title="Domes stand",
    why="Rings of earth or brick that go flat fold in without a warning, onto those who lay them.",
    cites=(STRAIGHT_CITE,),
    decide=_domes_stand,
)
