"""Simple tools for a dome: gauge stick with its courses, water level, rammer, stand and chute."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.book.sheets.jigs.common import told
from bermwright.book.sheets.jigs.sticks import level_sheet, stick_sheet
from bermwright.book.sheets.jigs.tools import rammer, tube_stand
from bermwright.book.sheets.paper import Figures
from bermwright.house import SettingOut
from bermwright.house.making.words import DomeUnit, Laid

if TYPE_CHECKING:
    from bermwright.base.drawing import Sheet
    from bermwright.form.dome import DomeForm
    from bermwright.house import House


def dome_tools(house: House, form: DomeForm, system: str = "metric") -> tuple[Sheet, ...]:
    """Drawings of the tools for which the file says enough."""
    figures, settings = Figures(system=system), house.setting_out or SettingOut()
    earth = form.dome.unit is not DomeUnit.BRICKS
    drawn = (
        dome_stick(form, figures),
        _level(form, figures),
        _rammer(form, figures) if earth else None,
        tube_stand(settings.tube, figures) if earth else None,
    )
    return tuple(sheet for sheet in drawn if sheet is not None)


def dome_stick(form: DomeForm, figures: Figures) -> Sheet | None:
    """A stick from the springing up with every course on it; None where beds are tilted."""
    dome = form.dome
    if dome.laid is not Laid.LEVEL or dome.course is None:
        return None
    reach = form.face.rise
    marks = {(0.0, "springing"), (reach, "inner crown")}
    for one in dome.openings:
        levels = ((one.sill, f"{one.name}: sill"), (one.top, f"{one.name}: head"))
        marks |= {(level - dome.springing, words) for level, words in levels if level > dome.springing}
    courses = [number * dome.course for number in range(1, math.floor(reach / dome.course + 1e-9) + 1)]
    return stick_sheet(
        sorted(marks),
        courses,
        reach,
        figures,
        (
            "Its foot stands at the springing, plumb; numbers count from there.",
            f"{len(courses)} courses of {told(dome.course, figures)}. Measure four; mark anew if wrong.",
            "What settles later is added to the heads of forms, not here.",
        ),
    )


def _level(form: DomeForm, figures: Figures) -> Sheet:
    """From a mark beside the ring to its far side."""
    far = form.dome.span + 2.0 * form.dome.thickness
    return level_sheet(
        far,
        figures,
        f"Across the ring it is {told(far, figures)}; the mark stands beside it, where no earth is moved.",
        "Level every fourth course at eight places round the ring (common practice, no source).",
    )


def _rammer(form: DomeForm, figures: Figures) -> Sheet | None:
    if form.dome.course is None:
        return None
    return rammer(
        form.dome.course,
        figures,
        f"The ring stands {told(form.dome.course, figures)} over the face: one course, rammed.",
        "A course is filled higher than the ring and rammed level with it, from the middle out.",
        "Near the top ram less: rows that bulge slide.",
    )
