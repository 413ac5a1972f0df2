"""A bare pane in its hole: where it stands and is packed, and the rebate at its foot at full size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Dimension, Hatch, Item, Leader, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.lettering import text_width
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import CAPTION, FIGURE, Figures, figure, heading, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path
    from bermwright.takeoff.light import DoorLeaf, Match, PaneSetting

SCALES = (10, 20, 25, 50, 100, 200)
HEAD, FOOT, PITCH = 16.0, 27.0, 58.0
BLOCK_HIGH = 6.0
"""Thickness of a block as drawn (mm); its true one is the gap below the glass."""


def _box(x0: float, y0: float, x1: float, y1: float) -> Path:
    return ((x0, y0), (x1, y0), (x1, y1), (x0, y1))


def fit_sheet(matches: tuple[Match, ...], *, width: float = 174.0, system: str = "metric") -> Sheet:
    """Every hole with what goes into it, side by side."""
    figures = Figures(system=system)
    largest = max(max(one.opening.width, one.opening.height) for one in matches)
    scale = next((one for one in SCALES if largest * 1000.0 / one <= PITCH - 16.0), SCALES[-1])
    factor = 1000.0 / scale
    columns = int(width // PITCH)
    rows = [matches[start : start + columns] for start in range(0, len(matches), columns)]
    talls = [max(one.opening.height for one in row) * factor + FOOT for row in rows]
    height = sum(talls) + HEAD + 6.0
    items: list[Item] = [
        heading((0.0, height - 5.0), "Windows and doors from the list, in their holes"),
        figure((0.0, height - 10.5), f"1:{scale}, from outside; grey: packed and insulated strips"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    top = height - HEAD
    for row, tall in zip(rows, talls, strict=True):
        top -= tall
        for place, match in enumerate(row):
            items += _match(match, (place * PITCH + 9.0, top + FOOT - 2.0), factor, figures)
    names = "; ".join(f"{one.opening.name}: {one.pair.item.name if one.pair else 'empty'}" for one in matches)
    return Sheet(width=width, height=height, items=tuple(items), title="Windows in their holes", alt=names)


def _match(match: Match, at: tuple[float, float], factor: float, figures: Figures) -> Iterator[Item]:
    x, y = at
    hole, pair = match.opening, match.pair
    wide, tall = hole.width * factor, hole.height * factor
    yield Area(path=_box(x, y, x + wide, y + tall), wash=Wash.GREY if pair else Wash.NONE, outline=Pen.CUT)
    yield Dimension(start=(x, y), end=(x + wide, y), offset=-5.0, text=figures.length(hole.width))
    yield Dimension(start=(x, y), end=(x, y + tall), offset=5.0, text=figures.length(hole.height))
    yield figure((x - 8.0, y - 13.0), hole.name)
    if pair is None:
        yield Stroke(path=((x, y), (x + wide, y + tall)), pen=Pen.NOT_YET)
        yield figure((x - 8.0, y - 17.5), "nothing fits")
        return
    side, below = (strip * factor for strip in pair.strips)
    yield Area(
        path=_box(x + side, y + below, x + wide - side, y + tall - below), wash=Wash.PAPER, outline=Pen.SEEN
    )
    yield figure((x - 8.0, y - 17.5), pair.item.name)
    size = f"{figures.length(pair.width)} × {figures.length(pair.height)}"
    yield Text(at=(x - 8.0, y - 22.0), text=size, height=FIGURE if figures.system == "metric" else CAPTION)


def rebate_sheet(setting: PaneSetting, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The foot of a pane in section at full size: sill, block, glass, beads, and the way out for water."""
    figures, rebate = Figures(system=system), setting.rebate
    cover, gap, bed = (1e3 * size for size in (rebate.cover, rebate.gap, rebate.bed))
    glass, bead = 1e3 * setting.thickness, 15.0
    block = max(gap, BLOCK_HIGH)
    height = 100.0
    x0, floor = 24.0, 34.0
    inner = x0 + bead
    right = inner + bed + glass + bed
    top = floor + block + cover
    sill = (
        (x0, 18.0), (right + bead + 12.0, 18.0), (right + bead + 12.0, floor - 4.0),
        (right + bead, floor - 1.5), (inner, floor), (inner, top), (x0, top),
    )  # fmt: skip
    items: list[Item] = [
        Area(path=sill, wash=Wash.TIMBER, hatch=Hatch.TIMBER_ACROSS, outline=Pen.CUT),
        Area(path=_box(right, floor + 2.5, right + bead, top), wash=Wash.TIMBER, outline=Pen.CUT),
        Area(path=_box(inner, floor, right, floor + block), wash=Wash.SOFT, outline=Pen.SEEN),
        Area(
            path=_box(inner + bed, floor + block, right - bed, height - 22.0), wash=Wash.COLD, outline=Pen.CUT
        ),
        *(
            Area(path=_box(x, floor + block, x + bed, top), wash=Wash.INK)
            for x in (inner, right - bed)
        ),
        Stroke(path=((right - 2.0, floor - 0.5), (right + bead + 4.0, 22.0)), pen=Pen.HIDDEN),
        Dimension(start=(right + 30.0, floor + block), end=(right + 30.0, top), offset=0.0,
                  text=figures.length(rebate.cover)),
        Dimension(start=(right + 30.0, floor), end=(right + 30.0, floor + block), offset=-8.0,
                  text=f"≥ {figures.length(rebate.gap)}"),
        Dimension(start=(inner + bed, height - 22.0), end=(right - bed, height - 22.0), offset=4.0,
                  text=figures.length(setting.thickness)),
        Leader(to=(inner + bed + 0.5 * glass, floor + 0.5 * block), at=(inner - 30.0, floor - 2.0), text="1"),
        Leader(to=(inner + 0.5 * bed, top - 2.0), at=(inner - 30.0, floor + 18.0), text="2"),
        Leader(to=(right + 0.6 * bead, top - 3.0), at=(right + 14.0, top + 16.0), text="3"),
        Leader(to=(right + bead - 2.0, 26.5), at=(right + 26.0, 22.0), text="4"),
        heading((0.0, height - 5.0), f"The foot of {setting.pair.item.name}"),
        figure((0.0, height - 10.5), "1:1, room at the left; the rebate goes all round, its slope does not"),
        *_key(width - 2.0, figures, setting),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]  # fmt: skip
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title=f"The foot of {setting.pair.item.name}",
        alt="Section of a pane on its setting block, with rebate, tapes, bead and drain.",
    )


def _key(right: float, figures: Figures, setting: PaneSetting) -> Iterator[Item]:
    quarter, block = figures.length(setting.quarter), figures.length(setting.block)
    lines = (
        f"1  two blocks {block} long,",
        f"   their middles {quarter}",
        "   from the ends of the pane",
        "2  tape or bed on both faces",
        "3  bead, screwed, comes off",
        f"4  drain, {figures.length(0.007)}, two or more",
    )
    left = right - max(text_width(line, FIGURE) for line in lines)
    for number, line in enumerate(lines):
        yield figure((left, 79.0 - 5.0 * number), line)


def door_sheet(leaf: DoorLeaf, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """A level section through a door leaf and its frame, with both seals."""
    figures = Figures(system=system)
    factor = 0.2 if leaf.width * 200.0 < width - 40.0 else 0.1
    scale = round(1.0 / factor)
    long, thick = leaf.width * 1e3 * factor, leaf.thickness * 1e3 * factor
    x, y, height = 26.0, 30.0, thick + 66.0
    items: list[Item] = [
        heading((0.0, height - 5.0), f"Insulated leaf for {leaf.opening}"),
        figure((0.0, height - 10.5), f"1:{scale}, level section, room above; stepped edge with two seals"),
        note((width, 1.5), NOT_REVIEWED, "end"),
        *_leaf(leaf, (x, y), factor),
        Dimension(start=(x, y), end=(x + long, y), offset=-12.0, text=figures.length(leaf.width)),
        Dimension(
            start=(x + long, y + thick), end=(x + long, y), offset=22.0, text=figures.length(leaf.thickness)
        ),
    ]
    for side, away in ((x, -1.0), (x + long, 1.0)):
        edge = side + away * 2.0
        post = _box(min(edge, edge + away * 14.0), y, max(edge, edge + away * 14.0), y + thick)
        items.append(Area(path=post, wash=Wash.TIMBER, hatch=Hatch.TIMBER_ACROSS, outline=Pen.CUT))
        for share in (0.2, 0.8):
            spot = (side + away, y + share * thick)
            items.append(
                Area(path=_box(spot[0] - 0.9, spot[1] - 0.9, spot[0] + 0.9, spot[1] + 0.9), wash=Wash.INK)
            )
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title=f"Leaf for {leaf.opening}",
        alt=f"Level section of an insulated door leaf {leaf.thickness * 1e3:.0f} mm thick.",
    )


def _leaf(leaf: DoorLeaf, at: tuple[float, float], factor: float) -> Iterator[Item]:
    """Skins along, stiles across, insulation between; the room lies above."""
    x, y = at
    long, mm = leaf.width * 1e3 * factor, 1e3 * factor
    level = y + leaf.thickness * mm
    stile = 45.0 * factor
    for layer in leaf.layers:
        low = level - layer.thickness * mm
        core = layer.name.startswith("core")
        if core:
            yield Area(
                path=_box(x + stile, low, x + long - stile, level), wash=Wash.INSULATION, outline=Pen.LAYER
            )
            for left in (x, x + long - stile):
                yield Area(
                    path=_box(left, low, left + stile, level),
                    wash=Wash.TIMBER,
                    hatch=Hatch.TIMBER_ACROSS,
                    outline=Pen.CUT,
                )
        else:
            yield Area(path=_box(x, low, x + long, level), wash=Wash.LAGGING, outline=Pen.CUT)
        level = low
