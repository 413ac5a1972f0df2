"""The sheets of a drawing set that show a dome: plan, section, four sides, its courses with their chains."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.book.sheets.compass import dome_section
from bermwright.book.sheets.drawing_set import TALL, WHOLE, WIDE, Leaf, small_leaf, with_key
from bermwright.book.sheets.frame import Placed, inner
from bermwright.book.sheets.plans import dome_cut, dome_elevation, dome_plan

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.dome import DomeForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House

BLOCK_FREE = 195.0
"""Width of a drawing that may reach down beside the title block of an A3 sheet (mm)."""


def dome_leaves(house: House, form: DomeForm, solids: VaultSolids, what: str, system: str) -> Iterator[Leaf]:
    """What a wish takes of a dome; nothing where a dome has nothing of the kind."""
    whole = what == "set"
    if whole or what == "plan":
        plan = dome_plan(form, solids, width=BLOCK_FREE, height=WHOLE, system=system)
        yield with_key("P", "plan", plan, _corner(plan.height))
    if whole or what == "section":
        sheet = dome_cut(house, form, solids, width=WIDE, height=TALL, system=system)
        yield with_key("S", "section", sheet, _corner(sheet.height))
    if whole or what == "elevations":
        yield from _sides(house, form, solids, system)
    if whole:
        courses = dome_section(form, system=system)
        yield small_leaf("C", "courses", f"Courses and chains of {form.name}", courses)


def _corner(height: float) -> tuple[float, float]:
    """Lower left corner of a drawing that hangs in the upper left corner of its sheet."""
    (left, _), (_, top) = inner("A3")
    return left + 3.0, top - height - 3.0


def _sides(house: House, form: DomeForm, solids: VaultSolids, system: str) -> Iterator[Leaf]:
    """Two sides beside each other, the next two on another sheet."""
    room = 0.5 * WIDE - 4.0
    (left, _), (_, top) = inner("A3")
    for pair, title in ((("front", "back"), "Front and back"), (("left", "right"), "Left and right side")):
        drawings = []
        for number, side in enumerate(pair):
            sheet = dome_elevation(house, form, solids, side, width=room, height=TALL, system=system)
            at = (left + 3.0 + number * (room + 8.0), top - sheet.height - 3.0)
            drawings.append(Placed(sheet=sheet, at=at))
        yield Leaf(letter="E", kind="elevation", title=f"{title} of {form.name}", drawings=tuple(drawings))
