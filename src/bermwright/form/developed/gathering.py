"""Everything that is cut after a pattern in a house, and what the file does not say for the rest."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.developed.boxes import DomeWall, Hole, StraightWall, box_of
from bermwright.form.developed.eyebrows import with_eyebrow
from bermwright.form.developed.meetings import into_dome, into_vault, sleeve
from bermwright.form.developed.shapes import CordTable
from bermwright.form.developed.sheets import dome_sheet, vault_sheets
from bermwright.form.dome import dome_form, missing_for_dome
from bermwright.form.dome.profile import DomeProblemError
from bermwright.form.vault import missing_for_form, vault_form
from bermwright.house import CoverKind, EndKind, OpeningKind, OpeningSide
from bermwright.house.making.words import Head

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.form.developed.shapes import Box, Meeting, SheetPlan
    from bermwright.form.dome.shapes import DomeForm
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Opening

CORDS = 12
"""Parts of half a vault for which the cord is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """Something that is not drawn because the file does not say enough."""

    what: str
    place: str
    """Where to write it in the house file."""
    cheapest_way: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Forms:
    """All boxes, sheets, meeting lines and cords of a house."""

    boxes: tuple[Box, ...]
    sheets: tuple[SheetPlan, ...]
    meetings: tuple[Meeting, ...]
    cords: tuple[CordTable, ...]
    waiting: tuple[Waiting, ...]

    @property
    def empty(self) -> bool:
        """Whether there is nothing to cut."""
        return not (self.boxes or self.sheets or self.meetings or self.cords)


def forms_of(
    house: House,
    *,
    settlement: float | None = None,
    ready: Mapping[str, VaultForm] = MappingProxyType({}),
) -> Forms:
    """Everything that is cut after a pattern.

    `settlement` is that of openings in end walls of earth tubes, which no table says yet; `ready` are
    geometries that need not be made again, by the name of their vault.
    """
    domes = {dome.name: dome_form(dome) for dome in house.domes if not missing_for_dome(dome)}
    vaults = {
        vault.name: ready.get(vault.name) or vault_form(house, vault)
        for vault in house.vaults
        if not missing_for_form(house, vault)
    }
    waiting: list[Waiting] = [*_unknown_parts(house)]
    boxes = [*_dome_boxes(domes, waiting), *_end_boxes(house, waiting, settlement)]
    meetings = [*_meetings(house, vaults, domes), *_sleeves(house, vaults)]
    return Forms(
        boxes=tuple(boxes),
        sheets=tuple(_sheets(house, vaults, domes, waiting)),
        meetings=tuple(meetings),
        cords=tuple(_cords(form) for form in vaults.values()),
        waiting=tuple(waiting),
    )


def _unknown_parts(house: House) -> Iterator[Waiting]:
    way = "`bermwright check` asks for it with the cheapest way to learn it."
    for dome in house.domes:
        if missing_for_dome(dome):
            yield Waiting(what=f'patterns of dome "{dome.name}"', place="dome.course", cheapest_way=way)
    for vault in house.vaults:
        missing = missing_for_form(house, vault)
        if missing:
            yield Waiting(
                what=f'patterns of vault "{vault.name}"', place=", ".join(missing), cheapest_way=way
            )


def _dome_boxes(domes: dict[str, DomeForm], waiting: list[Waiting]) -> Iterator[Box]:
    for form in domes.values():
        wall = DomeWall(form)
        for one in form.dome.openings:
            part = f'dome "{form.name}", opening "{one.name}"'
            if one.settlement is None:
                waiting.append(
                    Waiting(
                        what=f"box of {part}",
                        place="dome.opening.settlement",
                        cheapest_way="Measure two marks on a trial wall of this fill while it dries.",
                    )
                )
                continue
            hole = Hole(
                name=one.name, width=one.width, sill=one.sill, top=one.top, is_round=one.head is Head.ROUND
            )
            _within_the_wall(form, hole)
            box = box_of(hole, wall, part, settlement=one.settlement, curved=True)
            yield with_eyebrow(box, form, hole, wall, one.eyebrow) if one.eyebrow > 0.0 else box


def _within_the_wall(form: DomeForm, hole: Hole) -> None:
    """Refuse an opening wider than the dome is at its head, before a line fails to meet the ring."""
    height = max(hole.springing - form.dome.springing, 0.0)
    if hole.half >= float(form.face.at(min(height, form.face.rise))):
        raise DomeProblemError(
            form.name,
            f'opening "{hole.name}"',
            f"is {hole.width:.2f} m wide; the dome is narrower than that at its head.",
            "Make it narrower, or lower its head.",
        )


def _end_boxes(house: House, waiting: list[Waiting], settlement: float | None) -> Iterator[Box]:
    """Boxes in the heavy end walls of vaults; planks and logs are framed, not formed."""
    heavy = {EndKind.BLOCKS, EndKind.EARTH_TUBES}
    ends = {(end.vault, str(end.at)): end for end in house.ends if end.kind in heavy}
    for one in house.openings:
        end = ends.get((one.vault, str(one.side)))
        if end is None:
            continue
        part = f'{one.vault}, {one.side} wall, opening "{one.name}"'
        settles = 0.0 if end.kind is EndKind.BLOCKS else settlement
        for value, place, way in (
            (end.thickness, "end.thickness", "Measure the wall."),
            (one.sill, "opening.sill", "Decide it."),
            (settles, "--settlement of `bermwright forms`", "Measure a trial wall while it dries."),
        ):
            if value is None:
                waiting.append(Waiting(what=f"box of {part}", place=place, cheapest_way=way))
        if end.thickness is not None and one.sill is not None and settles is not None:
            yield _end_box(one, end.thickness, part, settles)


def _end_box(one: Opening, thickness: float, part: str, settles: float) -> Box:
    sill = one.sill or 0.0
    hole = Hole(name=one.name, width=one.width, sill=sill, top=sill + one.height, is_round=False)
    return box_of(hole, StraightWall(thickness), part, settlement=settles, curved=False)


def _sheets(
    house: House, vaults: dict[str, VaultForm], domes: dict[str, DomeForm], waiting: list[Waiting]
) -> Iterator[SheetPlan]:
    covered = [one for one in house.vaults if any(row.kind is CoverKind.MEMBRANE for row in one.cover)]
    if house.sheet is None:
        way = "Write a [sheet] table from the maker's sheet: width, length, lap, upstand, thickness, gives."
        waiting += [
            Waiting(what=f"membrane of {name}", place="sheet", cheapest_way=way)
            for name in [*(one.name for one in covered), *domes]
        ]
        return
    for vault in covered:
        if vault.name in vaults:
            yield from vault_sheets(vaults[vault.name], vault, house.sheet)
    for form in domes.values():
        yield dome_sheet(form, house.sheet)


def _meetings(house: House, vaults: dict[str, VaultForm], domes: dict[str, DomeForm]) -> Iterator[Meeting]:
    for crossing in house.crossings:
        small = vaults.get(crossing.of)
        if small is None:
            continue
        if crossing.into in vaults:
            yield into_vault(crossing, small, vaults[crossing.into])
        elif crossing.into in domes:
            yield into_dome(crossing, small, domes[crossing.into])


def _sleeves(house: House, vaults: dict[str, VaultForm]) -> Iterator[Meeting]:
    for one in house.openings:
        if one.kind is OpeningKind.FLUE and one.side is OpeningSide.CROWN and one.vault in vaults:
            yield sleeve(vaults[one.vault], one)


def _cords(form: VaultForm) -> CordTable:
    """Cords from the middle of the springing line to the inner face, right half, from the crown down."""
    face = form.rib.inside
    top = float(np.interp(0.0, face.x[_growing(face.x)], face.s[_growing(face.x)]))
    along = np.linspace(top, face.length, CORDS + 1)
    x, z, _ = face.at(along)
    over = z - form.springing
    rows = zip(along - top, x, over, np.hypot(x, over), strict=True)
    return CordTable(
        part=f'vault "{form.name}"',
        rows=tuple((float(a), float(b), float(c), float(d)) for a, b, c, d in rows),
        note="From a wire along the vault in the middle of its springing; the left half is its mirror image.",
    )


def _growing(x: np.ndarray) -> np.ndarray:
    return np.asarray(np.concatenate([[True], np.diff(x) > 0.0]))
