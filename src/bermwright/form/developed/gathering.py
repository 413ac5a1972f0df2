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
from bermwright.form.developed.slip import missing_for_slip, slip_plan
from bermwright.form.dome import dome_form, missing_for_dome
from bermwright.form.dome.profile import DomeProblemError
from bermwright.form.vault import missing_for_form, vault_form
from bermwright.handbook.setout import ordinates_by_height
from bermwright.house import CoverKind, EndKind, OpeningKind, OpeningSide
from bermwright.house.making.words import Head

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from bermwright.form.developed.shapes import Box, Meeting, SheetPlan
    from bermwright.form.developed.slip import SlipPlan
    from bermwright.form.dome.shapes import DomeForm
    from bermwright.form.shapes import VaultForm
    from bermwright.house import House, Opening

PLACES = 201
"""Levels of an opening at which the wall beside it is looked for."""
CORDS = 12
"""Parts of half a vault for which the cord is given."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """Something that is not drawn: the file does not say enough, or it does not fit."""

    what: str
    place: str
    """Where to write it in the house file."""
    cheapest_way: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Forms:
    """All boxes, sheets, meeting lines, cords and climbing forms of a house."""

    boxes: tuple[Box, ...]
    sheets: tuple[SheetPlan, ...]
    meetings: tuple[Meeting, ...]
    cords: tuple[CordTable, ...]
    waiting: tuple[Waiting, ...]
    slips: tuple[SlipPlan, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether there is nothing to cut."""
        return not (self.boxes or self.sheets or self.meetings or self.cords or self.slips)


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
    boxes = [*_dome_boxes(domes, waiting), *_end_boxes(house, vaults, waiting, settlement)]
    meetings = [*_meetings(house, vaults, domes), *_sleeves(house, vaults, waiting)]
    slips = tuple(_slips(house, waiting))
    return Forms(
        boxes=tuple(boxes),
        sheets=tuple(_sheets(house, vaults, domes, waiting)),
        meetings=tuple(meetings),
        cords=tuple(_cords(form) for form in vaults.values()),
        waiting=tuple(waiting),
        slips=slips,
    )


def _slips(house: House, waiting: list[Waiting]) -> Iterator[SlipPlan]:
    for form in house.slip_forms:
        missing = missing_for_slip(form, house)
        if missing:
            way = "`bermwright check` asks for it with the cheapest way to learn it."
            waiting.append(Waiting(what=f'form "{form.name}"', place=", ".join(missing), cheapest_way=way))
        else:
            yield slip_plan(form, house)


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
            built = hole.built(one.settlement)
            _within_the_wall(form, built)
            box = box_of(hole, wall, part, settlement=one.settlement, curved=True)
            yield with_eyebrow(box, form, built, wall, one.eyebrow) if one.eyebrow > 0.0 else box


def _within_the_wall(form: DomeForm, hole: Hole) -> None:
    """Refuse an opening that is wider than the dome at any level, before a line fails to meet the ring."""
    level = np.linspace(hole.sill, hole.top, PLACES)
    over = level - form.dome.springing
    ring = np.where(over < form.face.rise, form.face.at(np.clip(over, 0.0, form.face.rise)), 0.0)
    short = np.flatnonzero(2.0 * hole.half_at(level) >= 2.0 * ring)
    if short.size:
        worst = int(short[0])
        raise DomeProblemError(
            form.name,
            f'opening "{hole.name}"',
            f"is {2.0 * float(hole.half_at(level[worst])):.2f} m wide at {level[worst]:+.2f}"
            f", as it is built; the dome is {2.0 * float(ring[worst]):.2f} m wide there.",
            "Make it narrower, or lower its head.",
        )


def _end_boxes(
    house: House, vaults: dict[str, VaultForm], waiting: list[Waiting], settlement: float | None
) -> Iterator[Box]:
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
        if end.thickness is None or one.sill is None or settles is None:
            continue
        hole = Hole(name=one.name, width=one.width, sill=one.sill, top=one.sill + one.height, is_round=False)
        short = _out_of_the_end(vaults.get(one.vault), one, hole.built(settles))
        if short:
            way = "Make it narrower or lower, or move it towards the middle (across)."
            waiting.append(Waiting(what=f"box of {part}: {short}", place="opening.width", cheapest_way=way))
            continue
        yield box_of(hole, StraightWall(end.thickness), part, settlement=settles, curved=False)


def _out_of_the_end(form: VaultForm | None, one: Opening, hole: Hole) -> str:
    """In words, how an opening leaves the end wall under the ribs; empty where it stays within."""
    if form is None:
        return ""
    face = form.rib.inside
    level = max(hole.top, float(max(face.z[0], face.z[-1])))
    if level >= float(np.max(face.z)):
        return "its head is higher than the ribs' inner crown"
    found = ordinates_by_height(face.x, face.z, np.array([level]))
    over = max(one.across + hole.half - float(found.right[0]), float(found.left[0]) - one.across + hole.half)
    return f"an upper corner leaves the wall under the ribs by {1e3 * over:.0f} mm" if over > 0.0 else ""


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


def _sleeves(house: House, vaults: dict[str, VaultForm], waiting: list[Waiting]) -> Iterator[Meeting]:
    for one in house.openings:
        if one.kind is not OpeningKind.FLUE or one.side is not OpeningSide.CROWN or one.vault not in vaults:
            continue
        if one.collar is None:
            waiting.append(
                Waiting(
                    what=f'sleeve of opening "{one.name}"',
                    place="opening.collar",
                    cheapest_way="Decide how high it stands over the ground: more than the snow that lies.",
                )
            )
        else:
            yield sleeve(vaults[one.vault], one, one.collar)


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
