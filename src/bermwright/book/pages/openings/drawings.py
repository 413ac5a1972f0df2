"""Every drawing of the ends and openings of a vault, for the book and for sheets of their own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.book.sheets.openings import PAGE, end_sheet, hole_sheet, shell_sheet
from bermwright.form.holes import Hole, hole_of, shell_openings
from bermwright.house import EndSide

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House


def end_drawings(
    house: House, form: VaultForm, system: str, *, room: tuple[float, float] = PAGE
) -> tuple[Sheet, ...]:
    """Each end that is described, or has an opening, in elevation."""
    sheets = []
    floors = tuple(floor for floor in house.floors if floor.vault == form.name)
    for side in EndSide:
        end = next((one for one in house.ends if one.vault == form.name and one.at is side), None)
        inside = tuple(one for one in house.openings if one.vault == form.name and str(one.side) == str(side))
        if end is not None or inside:
            sheets.append(end_sheet(form, side, end, inside, floors=floors, room=room, system=system))
    return tuple(sheets)


def holes_of(house: House, form: VaultForm) -> tuple[Hole, ...]:
    """The openings in the shell whose place is known."""
    found = (hole_of(form, opening) for opening in shell_openings(house, form.name))
    return tuple(hole for hole in found if isinstance(hole, Hole))


def shell_drawings(
    house: House, form: VaultForm, system: str, *, room: tuple[float, float] = PAGE
) -> tuple[Sheet, ...]:
    """The shell rolled out, then each opening in it near by; nothing where the shell is whole."""
    holes = holes_of(house, form)
    if not holes:
        return ()
    return (
        shell_sheet(form, holes, room=room, system=system),
        *(hole_sheet(form, hole, system=system) for hole in holes),
    )
