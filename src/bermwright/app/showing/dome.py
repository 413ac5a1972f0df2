"""The shown section of a house that is domes alone: its courses cut through the middle, without handles."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from bermwright.base.drawing import Dimension, Text
from bermwright.book.sheets.plans.dome import dome_cut, dome_plan
from bermwright.book.sheets.screen import MM_PER_PX
from bermwright.form.dome import dome_form
from bermwright.form.dome.bodies import dome_solids

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet
    from bermwright.form.dome import DomeForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House

SMALL = (445, 270)
"""Of a small picture (px)."""
LEAST = 320.0
"""Height for a drawing that was given none (px)."""
SAYS = "A dome is drawn here, not checked: nothing is known of its strength."
NEXT = "Courses, chains and heights stand under made by hand. Have its strength reviewed before it is laid."


@lru_cache(maxsize=2)
def bodies_of(house: House) -> tuple[DomeForm, VaultSolids]:
    """Form and bodies of the first dome of a house."""
    form = dome_form(house.domes[0])
    return form, dome_solids(house, form)


def dome_section_sheet(house: House, width: int, height: int, system: str) -> Sheet:
    """The section of the first dome, for a place on the screen (px)."""
    form, solids = bodies_of(house)
    size = {"width": width * MM_PER_PX, "height": max(height, LEAST) * MM_PER_PX}
    return dome_cut(house, form, solids, **size, system=system)


def dome_plan_sheet(house: House, width: float, height: float, system: str) -> Sheet:
    """Its plan (mm)."""
    form, solids = bodies_of(house)
    return dome_plan(form, solids, width=width, height=height, system=system)


def dome_picture(house: House) -> Sheet:
    """Its section with as few words as can be, for a small place of any size."""
    sheet = dome_section_sheet(house, SMALL[0], SMALL[1], "metric")
    return replace(sheet, items=tuple(one for one in sheet.items if not isinstance(one, Text | Dimension)))
