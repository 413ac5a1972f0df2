"""Whether what lifts the ribs may lift them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.findings import Shown, Verdict, verdict_of
from bermwright.base.sources import Cite, Provenance
from bermwright.data.densities import GRAVITY
from bermwright.data.rates import LIFT_LIMIT
from bermwright.data.works.practice import TRADE
from bermwright.data.works.rates import HSEMHOR
from bermwright.house import Lifted, Raised
from bermwright.rules.nouns import Rule, Said
from bermwright.rules.ribs.common import ratio_step, step
from bermwright.takeoff.lifting import hands_lift
from bermwright.takeoff.nails import rib_nails
from bermwright.takeoff.ribs import rib_volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.findings import Step
    from bermwright.rules.study import Study

TEAM_CITE = Cite(work=HSEMHOR, place="handling in teams", provenance=Provenance.READ)
JERK_CITE = Cite(work=TRADE, place="a lift starts with a jerk", provenance=Provenance.PRACTICE)
JERK = 1.25
"""On a weight that a hoist picks up (-)."""


def rib_mass(study: Study) -> float:
    """A whole rib with its nails (kg)."""
    nails = rib_nails(study.form, study.vault)
    return rib_volume(study.form.rib) * study.strength.timber.density + (nails.mass() if nails else 0.0)


def _decide(study: Study) -> Iterator[Said]:
    erection, crew = study.house.erection, study.house.crew
    if erection is None or erection.raised is None or erection.lifted is None:
        yield _unknown("how the ribs are raised and what lifts them", "[erection] raised and lifted")
        return
    parts = 2.0 if erection.raised is Raised.HALVES else 1.0
    mass = rib_mass(study) / parts
    what = "half a rib" if erection.raised is Raised.HALVES else "a whole rib"
    if erection.lifted is Lifted.HANDS:
        if crew is None or crew.people is None:
            yield _unknown("how many people lift", "[crew] people")
        else:
            yield _by_hands(what, mass, crew.people)
    elif erection.hoist_holds is None:
        yield _unknown("what the hoist holds", "[erection] hoist_holds")
    else:
        yield _by_hoist(what, mass, erection.lifted, erection.hoist_holds)


def _unknown(what: str, place: str) -> Said:
    return Said(
        verdict=Verdict.UNKNOWN,
        template="Whether the ribs can be lifted is not known: the file does not say {what}.",
        values={"what": what},
        advice=f"Answer the question about {place}.",
    )


def _by_hands(what: str, mass: float, people: int) -> Said:
    there = hands_lift(people)
    return _said(
        what,
        (mass, there, "kg"),
        "{people} people may lift {there} of it, held close and at knuckle height",
        {"people": str(people)},
        step(
            "Teams of three at most, one at either end",
            "m_t",
            "Σ c·n·23 kg",
            "",
            Shown(there, "kg", 1),
            TEAM_CITE,
        ),
    )


def _by_hoist(what: str, mass: float, lifted: Lifted, holds: float) -> Said:
    asked = JERK * mass * GRAVITY
    return _said(
        what,
        (asked, holds, "kN"),
        "the {lifted} holds {there}",
        {"lifted": str(lifted)},
        step(
            "With the jerk of the start",
            "F",
            "1.25·m·g",
            f"1.25 · {mass:.0f} · 9.81",
            Shown(asked, "kN", 2),
            JERK_CITE,
        ),
    )


def _said(
    what: str, amounts: tuple[float, float, str], held: str, values: dict[str, str], line: Step
) -> Said:
    asked, there, unit = amounts
    ratio, scale = asked / there, 1.0 if unit == "kg" else 1e-3
    verdict, digits = verdict_of(ratio), 0 if unit == "kg" else 2
    return Said(
        verdict=verdict,
        template="{what} asks {asked}; " + held + ".",
        values={
            "what": what.capitalize(),
            "asked": Shown(asked, unit, digits),
            "there": Shown(there, unit, digits),
            **values,
        },
        stage="ribs up",
        demand=asked,
        capacity=there,
        unit=unit,
        ratio=ratio,
        advice="" if verdict is Verdict.HOLDS else LIGHTER,
        steps=(
            line,
            ratio_step("Asked over there", "m / m_t", f"{asked * scale:.2f} / {there * scale:.2f}", ratio),
        ),
    )


LIGHTER = (
    'Write [erection] raised = "halves" and join at the crown from a scaffold, or lifted = "gin pole", '
    '"hoist" or "crane".'
)
RIBS_ARE_LIFTED = Rule(
    name="ribs-can-be-lifted",
    title="The ribs can be lifted",
    why="A rib that is too heavy is dropped, or breaks a back. Weigh it on paper first.",
    cites=(TEAM_CITE, JERK_CITE, LIFT_LIMIT.cite),
    decide=_decide,
    reads_ribs=False,
    asks=("erection", "erection.raised", "erection.lifted", "erection.hoist_holds", "crew.people"),
)
