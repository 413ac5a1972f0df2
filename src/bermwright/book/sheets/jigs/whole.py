"""Every tool that this house has a use for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.book.sheets.jigs.floor import rib_jig
from bermwright.book.sheets.jigs.shoe import springing_shoe
from bermwright.book.sheets.jigs.slopes import slope_boards
from bermwright.book.sheets.jigs.sticks import gauge_stick, water_level
from bermwright.book.sheets.jigs.tools import fill_rammer, tube_stand
from bermwright.book.sheets.paper import Figures

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet
    from bermwright.form.setout import SetOut
    from bermwright.house import House


def jig_sheets(out: SetOut, house: House, system: str = "metric") -> tuple[Sheet, ...]:
    """Drawings of tools and jigs, those for which the file says enough."""
    figures = Figures(system=system)
    vault = next(one for one in house.vaults if one.name == out.vault)
    drawn = (
        gauge_stick(out, figures),
        water_level(out, figures),
        slope_boards(vault, figures),
        springing_shoe(out, figures),
        rib_jig(out, figures),
        fill_rammer(house, figures),
        tube_stand(out.settings.tube, figures),
    )
    return tuple(sheet for sheet in drawn if sheet is not None)
