"""What fits under the curve: strips to stand, sit and lie in, floor by floor."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.document import Block, Figure, Heading, Para, Table, plain
from bermwright.base.units import show
from bermwright.book.sheets.room import room_sheet
from bermwright.form.room import strips_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.room import Use
    from bermwright.handbook.curves import Strip
    from bermwright.house import House, Vault
    from bermwright.rules.assess import Assessment
    from bermwright.rules.study import Study

PRACTICE = (
    "The heights to stand, sit and lie under, the bed, the desk and the door are common practice, no source; "
    "local rules for rooms to live in may ask for more. Widths are between the inside faces of the ribs: "
    "lining and wiring take their thickness off."
)


def room_chapter(assessment: Assessment, system: str) -> Iterator[Block]:
    """The picture first, then the widths in figures."""
    if not assessment.studies:
        return
    yield Heading(text="The room under the curve", lead="Where one stands, sits, lies and walks through.")
    for study in assessment.studies.values():
        yield from _room(assessment.house, study, system)
    yield Para(PRACTICE, small=True)


def floors_of(house: House, vault: Vault) -> tuple[float, ...]:
    """Levels of the floors of a vault, the finished one first (m)."""
    upper = [one.level for one in house.floors if one.vault == vault.name and one.level is not None]
    return (0.0, *sorted(upper))


def _room(house: House, study: Study, system: str) -> Iterator[Block]:
    floors = floors_of(house, study.vault)
    standing = house.rules.headroom
    sheet = room_sheet(study.form, floors=floors, standing=standing, system=system)
    yield Figure(sheet=sheet, caption=f"{plain(study.vault.name)}: free heights, furniture at true size.")
    rows = [_row(study, *one, system) for one in strips_of(study.form, floors, standing)]
    yield Table(head=("floor", "room", "free height", "strip", "floor area"), rows=tuple(rows), align="llrrr")


def _row(study: Study, floor: float, use: Use, strip: Strip | None, system: str) -> tuple[str, ...]:
    begins = show(floor, "level", 2, system), use.name, show(use.height, "m", 2, system)
    if strip is None:
        return *begins, "none", "none"
    area = strip.width * study.form.length
    return *begins, show(strip.width, "m", 2, system), show(area, "m2", 1, system)
