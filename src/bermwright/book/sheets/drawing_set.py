"""The drawing set of a house: framed sheets in order, each with its number, and the list of them in front."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import shapely

from bermwright.base.dimensions import dimension_text, stepped, unit_way
from bermwright.base.drawing import Area, Dimension, Item, Lettering, Pen, Sheet, Stroke, Text
from bermwright.base.units import show, show_range
from bermwright.book.sheets.bent import bent_rib_sheet
from bermwright.book.sheets.details import detail_set, rib_sheets
from bermwright.book.sheets.details.cell import broken
from bermwright.book.sheets.frame import BLOCK, Placed, TitleBlock, block_height, frame_sheet, inner
from bermwright.book.sheets.paper import FIGURE, NOTE, Figures, boxes_of, figure, heading, placed
from bermwright.book.sheets.plans.along import section_along
from bermwright.book.sheets.plans.elevations import elevation_sheet
from bermwright.book.sheets.plans.floor import floor_plan
from bermwright.book.sheets.plans.site import site_plan
from bermwright.book.sheets.plans.style import cut_items, hatches_of
from bermwright.book.sheets.plate import legend_sheet, section_plate
from bermwright.book.sheets.scene import supports_of
from bermwright.book.sheets.signs import level_triangle
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import cut

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from bermwright.base.drawing import Point
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House, Vault

    Progress = Callable[[str], None]

A3, A4 = "A3", "A4"
LINE = 5.4
FOOT = 0.3048
"""Metres to a foot."""
WIDE, TALL = 382.0, 218.0
"""Room for a drawing over the title block of an A3 sheet (mm)."""
WHOLE = 252.0
"""Height of a drawing that may reach down beside the title block (mm)."""
RIB = (174.0, 200.0)
"""Room for a drawing on an upright A4 sheet (mm)."""
BESIDE = 75.0
"""Notes stand beside a drawing that leaves so much room (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One vault with everything its drawings are made from."""

    vault: Vault
    form: VaultForm
    solids: VaultSolids


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaf:
    """A sheet before it has its number: drawings in their places."""

    letter: str
    """P plan, S section, E elevation, D detail, R rib, O opening."""
    kind: str
    title: str
    drawings: tuple[Placed, ...]
    size: str = A3
    extra: tuple[Item, ...] = ()
    layout: Callable[[TitleBlock], Sheet] | None = None
    """A sheet that lays itself out once it has its title block."""
    given_scale: str = ""

    @property
    def scale(self) -> str:
        """The scale of its first drawing, and the others in brackets."""
        if self.given_scale:
            return self.given_scale
        found = dict.fromkeys(f"1:{one.sheet.view.scale:.0f}" for one in self.drawings if one.sheet.view)
        first, *rest = found or [""]
        return f"{first} ({', '.join(rest)})" if rest else first


def site_leaf(house: House, one: Drawn, system: str) -> Leaf:
    """The site plan, with what had to be decided to draw it."""

    def drawn(height: float) -> Sheet:
        return site_plan(house, one.vault, one.form, one.solids, width=WIDE, height=height, system=system)

    sheet, at = _over_block(drawn)
    _, (right, top) = inner(A3)
    notes: list[Item] = []
    room = right - (at[0] + sheet.width) - 6.0
    if room >= BESIDE:
        place = (right - room, top - 9.0)
        lines = tuple(site_lines(house, one, system))
        notes += _notes("The site", lines, place, room - 3.0)
        below = (place[0], place[1] - 12.0 - _tall(lines, room - 3.0))
        notes += (
            _notes("How it was drawn", one.solids.remarks, below, room - 3.0) if one.solids.remarks else ()
        )
    drawings = (Placed(sheet=sheet, at=at),)
    return Leaf(letter="P", kind="site plan", title=sheet.title, drawings=drawings, extra=tuple(notes))


def plan_leaf(house: House, one: Drawn, system: str) -> Leaf:
    """The floor plan with its key of materials."""

    def drawn(height: float) -> Sheet:
        return floor_plan(house, one.vault, one.form, one.solids, width=WIDE, height=height, system=system)

    return with_key("P", "plan", *_over_block(drawn))


def along_leaf(house: House, one: Drawn, system: str) -> Leaf:
    """The section along the axis with its key of materials."""

    def drawn(height: float) -> Sheet:
        return section_along(house, one.form, one.solids, width=WIDE, height=height, system=system)

    return with_key("S", "section", *_over_block(drawn))


def with_key(letter: str, kind: str, sheet: Sheet, at: Point) -> Leaf:
    """A drawing with its key of materials under it, or beside it where it reaches down."""
    (left, low), (right, top) = inner(A3)
    key = replace(legend_sheet(sheet.items), view=None)
    spot = (left + 5.0, low + 4.0)
    if at[1] < spot[1] + key.height:
        key = replace(legend_sheet(sheet.items, columns=2), view=None)
        spot = (right - key.width - 4.0, top - key.height - 6.0)
    drawings = (Placed(sheet=sheet, at=at), Placed(sheet=key, at=spot))
    return Leaf(letter=letter, kind=kind, title=sheet.title, drawings=drawings)


def _over_block(drawn: Callable[[float], Sheet]) -> tuple[Sheet, Point]:
    """A drawing in the upper left corner, as tall as the title block leaves it room."""
    (left, _), (_, top) = inner(A3)
    for height in (WHOLE, TALL):
        sheet = drawn(height)
        at = (left + 3.0, top - sheet.height - 3.0)
        if _clear(sheet, at):
            break
    return sheet, at


def _clear(sheet: Sheet, at: Point) -> bool:
    """Whether nothing of a drawing comes under the title block."""
    low, (right, _) = inner(A3)
    edge, top = right - BLOCK - at[0], low[1] + block_height() - at[1]
    return not any(x > edge and y < top for item in sheet.items for x, y in _spots(item))


def _spots(item: Item) -> Iterator[Point]:
    """Places that an item touches, as far as they decide whether it is in the way."""
    match item:
        case Text():
            for box in boxes_of(item):
                yield from ((box[0], box[1]), (box[2], box[1]))
        case Dimension():
            across = unit_way(item.start, item.end)
            for spot in (item.start, item.end):
                yield stepped(spot, (-across[1], across[0]), item.offset)
            yield from _spots(dimension_text(item))
        case Stroke() | Area():
            yield from item.path
        case _:
            return


def site_lines(house: House, one: Drawn, system: str) -> Iterator[str]:
    """What the file and the bodies say of the site, each in a few words; what is open is left out."""
    site, ground = house.site, one.form.ground
    if site.climate is not None:
        yield f"climate: {site.climate.removeprefix('normals:')}"
    if site.altitude is not None:
        yield f"altitude {_whole(site.altitude, system)}"
    floor = -float(ground.natural.level(0.0))
    under = "under" if floor < 0.0 else "over"
    yield f"finished floor {show(abs(floor), 'm', 2, system)} {under} the natural ground at the middle"
    if site.water_depth is not None:
        yield f"ground water {show_range(site.water_depth, 'm', 1, system)} below the natural ground"
    if site.overflow is not None:
        yield f"blocked water runs off at {Figures(system=system).level(site.overflow)}"
    for soil in site.soil:
        yield f"soil: {soil.name}" + (f", {show(soil.thickness, 'm', 1, system)}" if soil.thickness else "")
    for kind, words in ((Kind.FILL, "fill as drawn"), (Kind.TURF, "turf as drawn")):
        layer = one.solids.layer(kind)
        if layer is not None:
            yield f"{words} {show(sum(body.total for body in layer.solids), 'm3', 1, system)}"


def _whole(metres: float, system: str) -> str:
    """A height over the sea: no map knows the sixteenth of an inch."""
    return f"{metres / FOOT:.0f} ft" if system != "metric" else show(metres, "m", 0, system)


def _tall(lines: Sequence[str], width: float) -> float:
    """Height of notes (mm)."""
    count = sum(len(broken(line, width - 4.0, FIGURE, Lettering.FIGURES)) for line in lines)
    return 0.9 * LINE * count + 0.8 * len(lines)


def elevation_leaves(house: House, one: Drawn, system: str) -> Iterator[Leaf]:
    """Front and back on one sheet, left and right on the next."""
    (left, _), (_, top) = inner(A3)
    for pair, title in ((("front", "back"), "Front and back"), (("left", "right"), "Left and right side")):
        y = top
        drawings = []
        for side in pair:
            sheet = elevation_sheet(
                house, one.form, one.solids, side, width=WIDE, height=0.5 * TALL, system=system
            )
            y -= sheet.height + 3.0
            drawings.append(Placed(sheet=sheet, at=(left + 3.0, y)))
        yield Leaf(
            letter="E", kind="elevation", title=f"{title} of {one.form.name}", drawings=tuple(drawings)
        )


def detail_leaves(house: House, one: Drawn, system: str) -> Iterator[Leaf]:
    """Four details a sheet: two beside each other, two below."""
    (left, _), (_, top) = inner(A3)
    sheets = detail_set(house, one.vault, one.form, one.solids, system=system)
    for start in range(0, len(sheets), 4):
        group = sheets[start : start + 4]
        drawings = tuple(
            Placed(
                sheet=sheet,
                at=(left + 3.0 + 193.0 * (k % 2), top - 2.0 - 109.0 * (k // 2) - sheet.height),
            )
            for k, sheet in enumerate(group)
        )
        codes = f"D{start + 1}" + (f" to D{start + len(group)}" if len(group) > 1 else "")
        yield Leaf(letter="D", kind="detail", title=f"Details of {one.form.name}", drawings=drawings,
                   extra=(_codes(codes, (left + 5.0, inner(A3)[0][1] + 20.0)),))  # fmt: skip


def _codes(text: str, at: Point) -> Item:
    return Text(at=at, text=text, height=3.0, face=Lettering.NOTE)


def rib_leaves(one: Drawn, system: str) -> Iterator[Leaf]:
    """The rib by layers."""
    form = one.form
    sheets = (
        (bent_rib_sheet(form, width=RIB[0], system=system),)
        if form.rib.bent
        else rib_sheets(form, width=RIB[0], height=RIB[1], system=system)
    )
    for sheet in sheets:
        yield small_leaf("R", "rib", f"{sheet.title}, {form.name}", sheet)


def large_leaf(letter: str, kind: str, title: str, sheet: Sheet) -> Leaf:
    """One drawing over the title block of an A3 sheet."""
    (left, _), (_, top) = inner(A3)
    at = (left + 3.0, top - sheet.height - 3.0)
    return Leaf(letter=letter, kind=kind, title=title, drawings=(Placed(sheet=sheet, at=at),))


def small_leaf(letter: str, kind: str, title: str, sheet: Sheet) -> Leaf:
    """One drawing on an upright A4 sheet."""
    at = (23.0, 284.0 - sheet.height)
    return Leaf(letter=letter, kind=kind, title=title, drawings=(Placed(sheet=sheet, at=at),), size=A4)


def section_leaf(house: House, one: Drawn, system: str) -> Leaf:
    """The section across with its numbered key; it lays itself out."""
    supports = supports_of(one.vault, house)

    def layout(block: TitleBlock) -> Sheet:
        plate = section_plate(one.form, block, supports=supports, axis=one.vault.axis, system=system)
        return replace(plate, items=(*plate.items, *_laid_over(house, one, plate, Figures(system=system))))

    drawn = layout(TitleBlock(owner="", title="", number="", revision="", date=""))
    scale = f"1:{drawn.view.scale:.0f} (1:10)" if drawn.view else ""
    title = f"Section A–A, {one.form.name}"
    return Leaf(letter="S", kind="section", title=title, drawings=(), layout=layout, given_scale=scale)


def _laid_over(house: House, one: Drawn, plate: Sheet, figures: Figures) -> Iterator[Item]:
    """Floor, the insulation round it, and the natural level, which the section by itself does not show."""
    if plate.view is None:
        return
    view, kinds = plate.view, {Kind.FLOOR, Kind.FLOOR_INSULATION, Kind.WALL_INSULATION}
    (low, bottom), (high, top) = view.seen
    faces = [face for face in cut(one.solids.solids, "y", 0.5 * one.form.length) if face.kind in kinds]
    window = shapely.box(low, bottom, high, top)
    yield from cut_items(faces, view.point, window, hatches_of(house, one.form.name, one.solids.solids))
    for x, anchor, shift in ((low, "start", 3.0), (high, "end", -3.0)):
        level = float(one.form.ground.natural.level(x))
        at = view.point(x, level)
        yield level_triangle((at[0] + shift, at[1]))
        words = f"natural {figures.level(level)}"
        yield figure((at[0] + shift - 0.4 * shift, at[1] - 4.2), words, anchor)


def framed(leaf: Leaf, block: TitleBlock) -> Sheet:
    """A leaf in its frame."""
    return frame_sheet(leaf.drawings, block, size=leaf.size, extra=leaf.extra)


def numbered(leaves: Sequence[Leaf]) -> tuple[str, ...]:
    """A number for each: letter and place among its kind."""
    seen: dict[str, int] = {}
    found = []
    for leaf in leaves:
        seen[leaf.letter] = seen.get(leaf.letter, 0) + 1
        found.append(f"{leaf.letter}{seen[leaf.letter]:02d}")
    return tuple(found)


def list_leaf(
    house: House,
    rows: Sequence[tuple[str, str, str, str]],
    notes: Sequence[str],
    also: Sequence[str],
    picture: Sheet | None = None,
) -> Leaf:
    """The list of sheets with what holds for all of them, and under it a picture where there is room."""
    (left, low), (right, top) = inner(A3)
    items: list[Item] = [heading((left + 8.0, top - 16.0), house.name, 7.0)]
    items.append(figure((left + 8.0, top - 24.0), "drawing set"))
    y = top - 38.0
    places = (left + 8.0, left + 30.0, left + 140.0, left + 165.0)
    for x, word in zip(places, ("number", "title", "scale", "sheet"), strict=True):
        items.append(Text(at=(x, y), text=word, height=NOTE, face=Lettering.NOTE))
    items.append(Stroke(path=((left + 8.0, y - 2.0), (left + 185.0, y - 2.0)), pen=Pen.SEEN))
    for row in rows:
        y -= LINE
        items += [figure((x, y - 2.0), word) for x, word in zip(places, row, strict=True)]
    x = left + 205.0
    items += _notes("For all sheets", notes, (x, top - 16.0), right - x - 8.0)
    drop = 12.0 + _tall(notes, right - x - 8.0)
    items += _notes("Drawn apart", also, (x, top - 16.0 - drop - 6.0), right - x - 8.0)
    if picture is not None and low + 6.0 + picture.height < y - 8.0:
        items += placed(picture, (left + 8.0, low + 6.0))
        items.append(Text(at=(left + 8.0, low + 3.0), text=NO_SCALE, height=NOTE, face=Lettering.NOTE))
    empty = Sheet(width=10.0, height=10.0, items=(), title="Sheets")
    return Leaf(
        letter="G",
        kind="list of sheets",
        title=f"Sheets of {house.name}",
        drawings=(Placed(sheet=empty, at=(left, top - 10.0)),),
        extra=tuple(items),
    )


def _notes(title: str, lines: Sequence[str], at: Point, width: float) -> Iterator[Item]:
    """Notes under a heading, each beginning with a dash."""
    yield heading(at, title, 3.4)
    y = at[1] - 6.5
    for line in lines:
        for k, part in enumerate(broken(line, width - 4.0, FIGURE, Lettering.FIGURES)):
            if k == 0:
                yield figure((at[0], y), "–")
            yield figure((at[0] + 4.0, y), part)
            y -= LINE * 0.9
        y -= 0.8


NO_SCALE = "not to scale"
NOTES = (
    "Dimensions in mm, levels in m from the finished floor; measures in figures count before measured ones.",
    "Left and right are as seen when walking in at the front.",
    "Levels are marked natural where the ground is as it grew, finished where it is shaped.",
    "A drawing shows what the house file says. What it does not say is named on the sheet, not drawn.",
    "Calculation aid, not reviewed. Local rules and whoever is licensed for it come first.",
)
IMPERIAL_NOTES = ("Dimensions and levels in feet and inches; levels from the finished floor.", *NOTES[1:])
"""What holds for every sheet."""
