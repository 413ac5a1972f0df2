"""A whole sheet of a vault: section with its numbered key, the springing, materials, title block."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import (
    Arc,
    Area,
    Band,
    Clip,
    Hatch,
    Item,
    Leader,
    Pen,
    Point,
    Sheet,
    Stroke,
    Wash,
)
from bermwright.book.sheets.details import DETAIL, detail_sheet, detail_spot
from bermwright.book.sheets.frame import Placed, TitleBlock, block_height, frame_sheet, inner
from bermwright.book.sheets.paper import Figures, figure, heading, placed
from bermwright.book.sheets.parts.shell import rib_words
from bermwright.book.sheets.scene import Scene, under_right
from bermwright.book.sheets.section import Dress, scene_sheet

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.drawing import View
    from bermwright.book.sheets.scene import Support
    from bermwright.form.shapes import VaultForm

PLATE_SCALES = (50.0, 100.0, 200.0)
EMPTY = 4.0
"""Edges of section and detail that hold nothing may lie over each other (mm)."""
SWATCH = (24.0, 9.0)
"""Size of a sample in the key of materials (mm)."""
_WASHES = {
    Hatch.TIMBER_ALONG: Wash.TIMBER,
    Hatch.TIMBER_ACROSS: Wash.LAGGING,
    Hatch.EARTH_IN_PLACE: Wash.INSITU,
    Hatch.EARTH_PLACED: Wash.EARTH,
    Hatch.EARTH_TUBE: Wash.EARTH,
    Hatch.INSULATION_SOFT: Wash.INSULATION,
    Hatch.INSULATION_RIGID: Wash.INSULATION,
    Hatch.OVERFILLED: Wash.RED,
    Hatch.SNOW: Wash.SNOW,
}


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """A numbered thing of the section: where it is (m) and what it is."""

    x: float
    z: float
    text: str


def section_plate(
    form: VaultForm,
    block: TitleBlock,
    *,
    supports: tuple[Support, ...] = (),
    lifts: tuple[float, ...] = (),
    axis: float | None = None,
    system: str = "metric",
) -> Sheet:
    """The finished section of a vault on A3, 1 : 50 where it fits, with all that explains it."""
    figures = Figures(system=system)
    scene = Scene(form=form, lifts=lifts, supports=supports)
    low, high = inner("A3")
    dress = Dress(figures=figures, axis=axis)
    detail = detail_sheet(form, supports=supports, system=system)
    detail_at = (high[0] - detail.width - 4.0, low[1] + block_height() + 4.0)
    room = (high[0] - low[0] - 2.0, high[1] - 1.0 - detail_at[1] - detail.height + EMPTY)
    section = _section(scene, room, dress)
    at = (low[0] + 1.0, high[1] - section.height - 1.0)
    leaders, key = key_items(scene, section, figures)
    legend = legend_sheet((*section.items, *detail.items))
    drawings = (
        Placed(sheet=replace(section, items=(*section.items, *leaders)), at=at),
        Placed(sheet=detail, at=detail_at),
        Placed(sheet=legend, at=(low[0] + 5.0, low[1] + 5.0)),
    )
    words = Sheet(width=90.0, height=6.0 * len(key) + 8.0, items=key)
    keyed = placed(words, (low[0] + 5.0, low[1] + 5.0 + legend.height + 6.0))
    scale = f"1:{section.view.scale:.0f}" if section.view else ""
    return frame_sheet(drawings, replace(block, scale=block.scale or scale), size="A3", extra=keyed)


def _section(scene: Scene, room: tuple[float, float], dress: Dress) -> Sheet:
    """The section at the largest scale that leaves the detail under it free."""
    drawn = (scene_sheet(scene, scale=scale, width=room[0], marks=(), dress=dress) for scale in PLATE_SCALES)
    smallest = None
    for smallest in drawn:
        if smallest.height <= room[1]:
            break
    assert smallest is not None  # noqa: S101  (there are scales)
    return smallest


def key_entries(scene: Scene, figures: Figures) -> tuple[KeyEntry, ...]:
    """What the section shows, from the turf inwards and then down."""
    form = scene.form
    ground, curve = form.ground, form.soil_face
    entries = []
    slope = scene.crown_x + 0.62 * (scene.extent()[1] - scene.crown_x)
    surface = float(ground.finished.level(slope))
    if ground.turf > 0.0:
        words = f"turf, {figures.length(ground.turf)}"
        place = 0.3 * slope
        entries.append(KeyEntry(place, float(ground.finished.level(place)) - 0.5 * ground.turf, words))
    share = 0.60
    for band in reversed(form.bands):
        x, z, _ = band.inner.at(share * band.inner.length)
        u, w, _ = band.outer.at(share * band.outer.length)
        thick = f" {figures.length(band.thickness)}" if band.thickness > 0.005 else ""
        entries.append(KeyEntry(0.5 * float(x + u), 0.5 * float(z + w), f"{band.name}{thick}"))
        share += 0.014
    x, z, _ = form.rib.centreline.at(share * form.rib.centreline.length)
    entries.append(KeyEntry(float(x), float(z), rib_words(form, figures)))
    cover = float(ground.finished.level(np.array(scene.crown_x))) - form.crown_level - ground.turf
    words = f"soil, placed; {figures.length(cover)} at the crown"
    face = float(curve.x.max())
    entries.append(KeyEntry(0.5 * (face + slope), 0.35 * form.springing + 0.65 * surface, words))
    return tuple(entries)


def _support_entries(scene: Scene, view: View, figures: Figures) -> Iterator[tuple[KeyEntry, Point]]:
    """What stands under the right foot, and geogrid behind it, each with the place that it is shown at."""
    middle = float(scene.form.rib.centreline.x[-1])
    levels = [scene.underside(one) for one in under_right(scene.supports)]
    for support in under_right(scene.supports):
        foot = scene.underside(support)
        over = max((level for level in levels if level > foot), default=min(0.5, scene.form.springing))
        words = f"{support.name}, {figures.length(support.width)} wide"
        yield KeyEntry(0.0, 0.0, words), view.point(middle, 0.5 * (foot + over))
        if support.grids:
            end = middle + support.offset + 0.5 * support.width + 0.9 * support.reach
            words = f"geogrid, {len(support.grids)} layers, {figures.length(support.reach)} back"
            yield KeyEntry(0.0, 0.0, words), view.point(end, support.grids[len(support.grids) // 2])


def key_items(scene: Scene, section: Sheet, figures: Figures) -> tuple[tuple[Item, ...], tuple[Item, ...]]:
    """Numbered circles over the right slope of a section, and the lines of the key that go with them."""
    view = section.view
    if view is None:
        return (), ()
    entries = list(key_entries(scene, figures))
    leaders: list[Item] = []
    x = view.point(entries[0].x, entries[0].z)[0] + 6.0
    for number, entry in enumerate(entries, start=1):
        to = view.point(entry.x, entry.z)
        x = max(x + 9.0, to[0] + 12.0)
        over = float(scene.form.ground.finished.level(np.array((x - view.origin[0]) * view.scale / 1000.0)))
        at = (x, view.point(0.0, over)[1] + 14.0)
        leaders.append(Leader(to=to, at=at, text=str(number)))
    for entry, to in _support_entries(scene, view, figures):
        entries.append(entry)
        leaders.append(Leader(to=to, at=(to[0] + 17.0, to[1] - 3.0), text=str(len(entries))))
    spot = view.point(*detail_spot(scene.form))
    ring = DETAIL * 10.0 / view.scale
    leaders.append(Arc(centre=spot, radius=ring, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN, layer="text"))
    leaders.append(figure((spot[0] + ring + 1.0, spot[1] + 1.5), "D1"))
    lines: list[Item] = [heading((0.0, 6.0 * len(entries)), "Key", 3.6)]
    for number, entry in enumerate(entries, start=1):
        y = 6.0 * (len(entries) - number)
        lines += [figure((4.0, y), str(number), "end"), figure((6.5, y), entry.text)]
    return tuple(leaders), tuple(lines)


def hatches_used(items: Iterable[Item]) -> tuple[Hatch, ...]:
    """The hatches that occur, in the order of the set."""
    found = set(_hatches(items))
    return tuple(hatch for hatch in Hatch if hatch in found and hatch is not Hatch.NONE)


def _hatches(items: Iterable[Item]) -> Iterator[Hatch]:
    """Hatches of areas and bands, also inside clips."""
    for item in items:
        match item:
            case Area() | Band():
                yield item.hatch
            case Clip():
                yield from _hatches(item.items)
            case _:
                pass


def legend_sheet(items: Iterable[Item], columns: int = 5) -> Sheet:
    """A key of the materials that occur in a drawing, and of no others."""
    used = hatches_used(items)
    pitch = (SWATCH[0] + 13.0, SWATCH[1] + 8.5)
    rows = math.ceil(len(used) / columns)
    parts: list[Item] = [heading((0.0, rows * pitch[1] + 1.0), "Materials", 3.6)]
    for k, hatch in enumerate(used):
        at = (k % columns * pitch[0], (rows - 1 - k // columns) * pitch[1] + 5.0)
        parts += swatch(hatch, at)
    return Sheet(
        width=columns * pitch[0], height=rows * pitch[1] + 6.0, items=tuple(parts), title="Materials"
    )


def swatch(hatch: Hatch, at: Point) -> Iterator[Item]:
    """One sample with its name under it."""
    width, height = SWATCH
    box = (at, (at[0] + width, at[1]), (at[0] + width, at[1] + height), (at[0], at[1] + height))
    line = (
        (at[0], at[1] + 0.5 * height),
        (at[0] + 0.5 * width, at[1] + 0.5 * height),
        (at[0] + width, at[1] + 0.5 * height),
    )
    match hatch:
        case Hatch.MEMBRANE:
            yield Band(path=line, thickness=0.8, hatch=hatch)
        case Hatch.TURF:
            earth = (box[0], box[1], line[-1], line[0])
            yield Area(path=earth, wash=Wash.EARTH, hatch=Hatch.EARTH_PLACED)
            yield Stroke(path=line, pen=Pen.CUT)
            yield Band(path=line, thickness=0.01, hatch=hatch)
        case Hatch.INSULATION_SOFT | Hatch.INSULATION_RIGID:
            yield Area(path=box, wash=Wash.INSULATION)
            low = tuple((x, at[1] + 0.12 * height) for x, _ in line)
            yield Band(path=low, thickness=0.76 * height, hatch=hatch)
        case _:
            levels = tuple(at[1] + height * share for share in (0.3, 0.72))
            if hatch is Hatch.EARTH_TUBE:
                levels = tuple(at[1] + height * k / 3 for k in range(4))
            yield Area(path=box, wash=_WASHES.get(hatch, Wash.PAPER), hatch=hatch, levels=levels)
    yield Stroke(path=box, pen=Pen.LAYER, closed=True)
    name = "planks, cut" if hatch is Hatch.TIMBER_ACROSS else hatch.value
    yield figure((at[0], at[1] - 3.9), name)
