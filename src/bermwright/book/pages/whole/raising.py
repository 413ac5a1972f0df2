"""Raising the ribs: the picture with its forces, the order of work, what is needed, and the cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Notice, Para, Points, Table, plain
from bermwright.base.units import show
from bermwright.book.pages.found import found
from bermwright.book.sheets.whole import raising_sheet
from bermwright.house import Lifted, Raised
from bermwright.rules.erection.lifting import rib_mass
from bermwright.rules.erection.works import guy_length
from bermwright.takeoff.nouns import Group

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house import Erection
    from bermwright.rules.assess import Assessment
    from bermwright.rules.study import Study

RULES = ("bare-ribs-stand-until-lagged", "ribs-can-be-lifted")
CAUTIONS = (
    "A rib that is not braced falls on whoever stands under it. Nobody stands below while one is raised.",
    "Nobody climbs the ribs. Work from a scaffold with edge protection, as local rules have it.",
    "Try every anchor with a pull before the first rib is tied to it. A parked car is no anchor.",
    "No raising in wind over the limit, in the dark or on ice. Local rules and a rigger come first.",
)


def raising_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Nothing where the file says nothing of it: the questions ask."""
    erection = assessment.house.erection
    if erection is None or not assessment.studies:
        return
    yield Heading(
        text="Raising the ribs", lead="The most dangerous days of the building. Read this page twice."
    )
    for study in assessment.studies.values():
        sheet = raising_sheet(study, system=system)
        if sheet is not None:
            yield Figure(sheet=sheet, caption="Braces, guys and wind; forces with their factors.")
        yield Notice(kind="caution", lines=CAUTIONS)
        yield Heading(text=f"Order of work, {plain(study.vault.name)}", level=2)
        yield Points(items=tuple(_order(study, erection, system)), numbered=True)
        yield from _needed(study, erection, system)
    yield from found(assessment.findings, RULES, system)


def _order(study: Study, erection: Erection, system: str) -> Iterator[str]:
    mass = rib_mass(study)
    whole, half = show(mass, "kg", 0, system), show(0.5 * mass, "kg", 0, system)
    yield "Plates, shoes and straps of all feet are on, level and measured before the first rib comes up."
    if erection.wind_limit is not None:
        limit = show(erection.wind_limit, "m/s", 0, system)
        yield f"Measure the wind. Over gusts of {limit} nothing is raised, and whatever stands is braced."
    if erection.raised is Raised.HALVES:
        yield f"Carry up both halves of a rib ({half} each), feet into their shoes, crowns to the scaffold."
        yield "Join the halves at the crown from the scaffold, all nails in, before anybody lets go."
    else:
        yield f"Raise the rib whole ({whole}), feet into their shoes first, then the crown."
    if erection.lifted is not Lifted.HANDS and erection.lifted is not None:
        yield f"The {erection.lifted} keeps its pull until the rib is braced."
    count = erection.unbraced
    yield f"Plumb it and brace it before the next goes up: never more than {count} loose."
    yield "First rib: guys both ways along the axis before the second one comes. Last rib: the same."
    if erection.braces:
        yield "Nail each brace board as soon as the ribs that it crosses stand, both sides in step."
    yield "Begin lagging at the feet on both sides. A brace or guy comes off only where the planks are on."


def _needed(study: Study, erection: Erection, system: str) -> Iterator[Block]:
    from bermwright.takeoff import vault_quantities

    counted = vault_quantities(study.house, study.vault, study.form)
    rows = [
        (plain(one.name), one.text(system), plain(one.note))
        for one in counted.rows
        if one.group is Group.TEMPORARY
    ]
    if rows:
        yield Heading(text="Temporary works", level=2)
        yield Table(head=("what", "how much", "where"), rows=tuple(rows), align="lrl", widths=(3, 2, 5))
    for guy in erection.guys:
        long = show(guy_length(study, guy), "m", 1, system)
        yield Para(
            f"A guy is {long} long from rib to anchor; add two metres for knots and winch.", small=True
        )
