"""A pattern at full size: on one large sheet for a plotter or a saw, or on tiles of A4 and A3."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Ink, Item, Lettering, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.forms.small import along_line
from bermwright.book.sheets.paper import moved
from bermwright.book.templates.drawn import inset
from bermwright.book.templates.tiles import PAPERS, TRUE, caption_items, frame_items, laid, mark_name, tiling

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path, Point
    from bermwright.book.templates.tiles import Laid, Tiling
    from bermwright.form.developed import Pattern

MM = 1e3
GRID = 100.0
KEEP = 4.0
TICK = 4.0
EDGE = 20.0
"""Paper round a pattern on one sheet (mm)."""
LOOSE = 22.0
"""Two figures along a station line need so much room (mm)."""


def _scaled(path: Path) -> Path:
    return tuple((MM * x, MM * y) for x, y in path)


def full_items(pattern: Pattern) -> tuple[Item, ...]:
    """Everything of a pattern in its own millimetres: grid, tint, lines, ordinates, the line to cut."""
    outline = _scaled(pattern.outline)
    return (
        *_grid(outline),
        Area(path=outline, wash=Wash.KEEP, holes=_inside(outline), layer="keep"),
        *_lines(pattern),
        *_ordinates(pattern),
        Stroke(path=outline, pen=Pen.TEMPLATE, closed=True, layer="cut"),
    )


def _inside(outline: Path) -> tuple[Path, ...]:
    """What is left out of the tint, so that it runs along the line to cut."""
    inner = inset(outline, KEEP)
    return (inner,) if len(inner) > 2 and bool(np.all(np.isfinite(inner))) else ()


def _grid(outline: Path) -> Iterator[Item]:
    points = np.asarray(outline)
    low = np.floor(points.min(axis=0) / GRID) * GRID
    high = np.ceil(points.max(axis=0) / GRID) * GRID
    for x in np.arange(low[0], high[0] + 1.0, GRID).tolist():
        yield Stroke(path=((x, float(low[1])), (x, float(high[1]))), pen=Pen.HATCH, layer="grid")
    for y in np.arange(low[1], high[1] + 1.0, GRID).tolist():
        yield Stroke(path=((float(low[0]), y), (float(high[0]), y)), pen=Pen.HATCH, layer="grid")


def _lines(pattern: Pattern) -> Iterator[Item]:
    for word, line in pattern.lines:
        path = _scaled(line)
        yield Stroke(path=path, pen=Pen.NOT_YET, layer="lines")
        for share in (0.2, 0.5, 0.8):
            x, y = along_line(np.asarray(path), share)
            yield Text(
                at=(x, y + 1.2),
                text=word,
                height=2.6,
                anchor="middle",
                face=Lettering.NOTE,
                ink=Ink.SOFT,
                halo=False,
            )


def _ordinates(pattern: Pattern) -> Iterator[Item]:
    """Ticks on both edges with their distance from the low side of the blank (mm)."""
    if pattern.name == "gore":
        return
    for station, low, high in pattern.ordinates:
        x = MM * station
        for place, side in ((MM * low, 1.0), (MM * high, -1.0)):
            if side < 0.0 and MM * (high - low) < LOOSE:
                continue
            yield Stroke(path=((x, place - 0.5 * TICK), (x, place + 0.5 * TICK)), pen=Pen.LAYER)
            at = (x, place + side * 5.4 - (0.0 if side > 0.0 else 2.2))
            yield Text(at=at, text=f"{x:.0f} / {place:.1f}", height=2.2, anchor="middle", halo=False)


def check_words(pattern: Pattern) -> str:
    """The lengths by which a cut pattern is checked."""
    wide, tall = pattern.size
    rising, falling = pattern.diagonals
    return (
        f"blank {MM * wide:.1f} × {MM * tall:.1f} mm, corner to corner rising {MM * rising:.1f}, falling "
        f"{MM * falling:.1f} mm"
    )


def full_sheet(pattern: Pattern, *, house: str, revision: str) -> Sheet:
    """The pattern at 1:1 on one sheet of its own size, for a plotter, a saw or another program."""
    outline = np.asarray(_scaled(pattern.outline))
    low, high = outline.min(axis=0), outline.max(axis=0)
    shift = (EDGE - float(low[0]), EDGE + 22.0 - float(low[1]))
    size = high - low + np.array([2.0 * EDGE, 2.0 * EDGE + 22.0])
    items = [moved(item, shift) for item in full_items(pattern)]
    words = (pattern.name, check_words(pattern), f"{house} · revision {revision} · {NOT_REVIEWED}")
    items += [
        Text(at=(EDGE, 16.0 - 5.0 * row), text=text, height=2.4, halo=False, strong=row != 1)
        for row, text in enumerate(words)
    ]
    return Sheet(
        width=float(size[0]), height=float(size[1]), items=tuple(items), title=pattern.name,
        alt=check_words(pattern), view=View(origin=shift, scale=1.0),
    )  # fmt: skip


def tile_count(pattern: Pattern, paper: str, stretch: Point = TRUE) -> int:
    """Sheets of a paper that a pattern takes."""
    return len(tiling(_scaled(pattern.outline), PAPERS[paper], stretch=stretch).cells)


def tiled(
    pattern: Pattern, paper: str, *, house: str, revision: str, stretch: Point = TRUE
) -> tuple[Sheet, ...]:
    """The pattern cut into sheets that are laid on each other's marks; `stretch` corrects a printer."""
    plan = tiling(_scaled(pattern.outline), PAPERS[paper], stretch=stretch)
    drawing = laid(full_items(pattern))
    stamp = f"{house} · revision {revision} · {NOT_REVIEWED}"
    return tuple(_tile(pattern, plan, index, drawing, stamp) for index in range(len(plan.cells)))


def _tile(pattern: Pattern, plan: Tiling, index: int, drawing: Laid, stamp: str) -> Sheet:
    cell = plan.cells[index]
    title = f"{pattern.name}{f', {pattern.count} off' if pattern.count > 1 else ''}"
    lines = (
        f"{pattern.part} · {check_words(pattern)}",
        (
            f"{pattern.side} · across: {pattern.across} · up: {pattern.up} · figures: mm across / mm up · "
            f"{pattern.note}"
        ),
        " · ".join(_joins(plan, index)),
        stamp,
    )
    items = (
        *frame_items(plan, cell, drawing),
        *caption_items(plan, cell, title, lines, turned=False, ends=("start", "end")),
    )
    return Sheet(
        width=plan.paper[0], height=plan.paper[1], items=items, title=f"{title}, sheet {index + 1} of "
        f"{len(plan.cells)}",
        alt=f"Full-size pattern {pattern.name}: print at 100 %, check the 100 mm square.",
    )  # fmt: skip


def _joins(plan: Tiling, index: int) -> Iterator[str]:
    column, row = plan.cells[index]
    before = set(plan.cells[:index])
    yield f"sheet {index + 1} of {len(plan.cells)}"
    if (column, row - 1) in before:
        yield f"lay on marks {mark_name(column, row)} {mark_name(column + 1, row)}"
    if (column - 1, row) in before:
        yield f"lay on marks {mark_name(column, row)} {mark_name(column, row + 1)}"
    if plan.stretch != TRUE:
        yield "corrected for this printer"
    yield "print at 100 %, no fit to page"
    yield "check square 100.0 × 100.0, diagonal 141.4 mm"
