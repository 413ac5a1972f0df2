"""Plans, the section along and both ends of every vault, and where counted and drawn amounts differ."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Para, Points, plain
from bermwright.book.sheets.plans import elevation_sheet, floor_plan, section_along, site_plan
from bermwright.form.solids import vault_solids
from bermwright.takeoff.bodies import compared, differing

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House, Vault
    from bermwright.rules.assess import Assessment

WIDTH = 174.0
"""Of a page (mm)."""
LARGER = (
    "The same drawings on framed A3 sheets, with elevations of all sides and eight details: "
    "`bermwright draw --what set`. A model for other programs: `bermwright model`."
)


def plans_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """Every vault whose form is known: plans first, then what differs, then what is not drawn."""
    studies = tuple(assessment.studies.values())
    if not studies:
        return
    yield Heading(text="Plans", lead="Walk them with the pegs in hand before anything is dug.")
    for study in studies:
        solids = vault_solids(study.house, study.vault, study.form)
        yield from _drawings(study.house, study.vault, study.form, solids, system)
        yield from _differences(study.house, study.vault, study.form, solids, system)
        if solids.remarks:
            yield Points(items=tuple(plain(remark) for remark in solids.remarks))
    yield Para(LARGER.replace("`", ""), small=True)


def _drawings(
    house: House, vault: Vault, form: VaultForm, solids: VaultSolids, system: str
) -> Iterator[Block]:
    name = plain(form.name)
    plan = floor_plan(house, vault, form, solids, width=WIDTH, system=system)
    site = site_plan(house, vault, form, solids, width=WIDTH, height=200.0, system=system)
    along = section_along(house, form, solids, width=WIDTH, system=system)
    front = elevation_sheet(house, form, solids, "front", width=WIDTH, system=system)
    yield Figure(sheet=site, caption=f"{name}: the site, with contour lines of the finished ground.")
    yield Figure(sheet=plan, caption=f"{name}: floor plan.")
    yield Figure(sheet=along, caption=f"{name}: section along the axis.")
    yield Figure(sheet=front, caption=f"{name}: the front, hidden lines left out.")


def _differences(
    house: House, vault: Vault, form: VaultForm, solids: VaultSolids, system: str
) -> Iterator[Block]:
    """Where bodies as drawn hold another amount than the take-off counts."""
    lines = tuple(differing(row, system) for row in compared(house, vault, form, solids) if row.differs)
    if lines:
        yield Para("_As drawn and as counted._ The pages on amounts count more or less than stands here.")
        yield Points(items=tuple(plain(line) for line in lines))
