"""The sheet round a drawing: border, centring marks and grid (ISO 5457), title block (ISO 7200)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import TYPE_CHECKING

from bermwright.base.drawing import (
    Area,
    Dimension,
    Item,
    Lettering,
    Pen,
    Point,
    Sheet,
    Stroke,
    Text,
    View,
    Wash,
)
from bermwright.base.lettering import text_width
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import CAPTION, placed

if TYPE_CHECKING:
    from collections.abc import Iterator

SIZES = {"A4": (210.0, 297.0), "A4 across": (297.0, 210.0), "A3": (420.0, 297.0), "A2": (594.0, 420.0)}
"""Trimmed sheets (mm)."""
LEFT, EDGE = 20.0, 10.0
"""Border on the filing edge and on the other three (ISO 5457)."""
INTO, SMALL_INTO = 5.0, 2.0
"""How far a centring mark reaches past the frame; on A4 words begin 3 mm inside it (mm)."""
BLOCK = 180.0
"""Width of a title block (ISO 7200)."""
ROW = 13.0
MARK = 10.0
"""Height of the strip that says the sheet is not reviewed (mm)."""
FIELD = 50.0
"""Length of a field of the grid reference (ISO 5457)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleBlock:
    """The fields of ISO 7200, and what was not checked."""

    owner: str
    title: str
    number: str
    revision: str
    date: str
    """Date of issue (ISO 8601)."""
    sheet: int = 1
    sheets: int = 1
    scale: str = ""
    creator: str = ""
    approver: str = ""
    document_type: str = "section"
    language: str = "en"
    not_checked: str = ""
    mark: str = NOT_REVIEWED


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A drawing and where its lower left corner lies on the sheet (mm)."""

    sheet: Sheet
    at: Point


@dataclass(frozen=True, slots=True)
class _Cell:
    """A field of the title block: place, size, label and value."""

    x: float
    y: float
    width: float
    height: float
    label: str
    value: str
    strong: bool = False


def block_height() -> float:
    """Height of the title block with its mark (mm)."""
    return 3 * ROW + 4.0 + MARK


def inner(size: str) -> tuple[Point, Point]:
    """Lower left and upper right of the drawing space of a sheet."""
    width, height = SIZES[size]
    return (LEFT, EDGE), (width - EDGE, height - EDGE)


def frame_sheet(
    drawings: tuple[Placed, ...], block: TitleBlock, *, size: str = "A3", extra: tuple[Item, ...] = ()
) -> Sheet:
    """Drawings on a framed sheet with its title block; the first drawing's view becomes the sheet's."""
    width, height = SIZES[size]
    items: list[Item] = []
    for drawing in drawings:
        items += _scaled(placed(drawing.sheet, drawing.at), drawing.sheet.view)
    items += extra
    items += border(width, height)
    items += title_items(block, (width - EDGE - BLOCK, EDGE))
    view = _moved_view(drawings[0]) if drawings else None
    alt = "; ".join(drawing.sheet.alt for drawing in drawings if drawing.sheet.alt)
    return Sheet(width=width, height=height, items=tuple(items), title=block.title, alt=alt, view=view)


def _scaled(items: tuple[Item, ...], view: View | None) -> Iterator[Item]:
    """The items of a drawing whose dimensions know its scale: a sheet may hold drawings of several."""
    for item in items:
        if isinstance(item, Dimension) and item.scale is None and view is not None:
            yield replace(item, scale=view.scale)
        else:
            yield item


def _moved_view(drawing: Placed) -> View | None:
    """The view of a drawing, moved with it."""
    view = drawing.sheet.view
    if view is None:
        return None
    origin = (view.origin[0] + drawing.at[0], view.origin[1] + drawing.at[1])
    return View(origin=origin, scale=view.scale, seen=view.seen)


def border(width: float, height: float) -> Iterator[Item]:
    """Frame, centring marks, and grid reference with figures along and letters up."""
    left, low, right, high = LEFT, EDGE, width - EDGE, height - EDGE
    box = ((left, low), (right, low), (right, high), (left, high))
    yield Stroke(path=box, pen=Pen.FRAME, closed=True, layer="frame")
    x, y = 0.5 * width, 0.5 * height
    into = SMALL_INTO if width <= SIZES["A4"][0] else INTO
    for start, end in (
        ((0.0, y), (left + into, y)),
        ((width, y), (right - into, y)),
        ((x, 0.0), (x, low + into)),
        ((x, height), (x, high - into)),
    ):
        yield Stroke(path=(start, end), pen=Pen.FRAME, layer="frame")
    yield from _grid_along(x, (left, right), (low, high))
    yield from _grid_up(y, (low, high), (left, right))


def _fields(middle: float, ends: tuple[float, float]) -> list[float]:
    """Ends of the fields, counted in whole fields from the centring mark."""
    first = middle
    while first - FIELD > ends[0]:
        first -= FIELD
    cuts = [ends[0]]
    while first < ends[1]:
        if first - cuts[-1] > 0.3 * FIELD:
            cuts.append(first)
        first += FIELD
    if ends[1] - cuts[-1] < 0.3 * FIELD:
        cuts.pop()
    return [*cuts, ends[1]]


def _grid_along(middle: float, ends: tuple[float, float], edges: tuple[float, float]) -> Iterator[Item]:
    """Figures below and above the frame."""
    cuts = _fields(middle, ends)
    for cut in cuts[1:-1]:
        for edge, way in ((edges[0], -5.0), (edges[1], 5.0)):
            if abs(cut - middle) > 1e-6:
                yield Stroke(path=((cut, edge), (cut, edge + way)), pen=Pen.SEEN, layer="frame")
    for number, (start, end) in enumerate(pairwise(cuts), start=1):
        for y in (edges[0] - 4.6, edges[1] + 2.4):
            yield _reference((0.5 * (start + end), y), str(number))


def _grid_up(middle: float, ends: tuple[float, float], edges: tuple[float, float]) -> Iterator[Item]:
    """Letters left and right of the frame, A at the top."""
    cuts = _fields(middle, ends)
    for cut in cuts[1:-1]:
        for edge, way in ((edges[0], -5.0), (edges[1], 5.0)):
            if abs(cut - middle) > 1e-6:
                yield Stroke(path=((edge, cut), (edge + way, cut)), pen=Pen.SEEN, layer="frame")
    letters = "ABCDEFGHJKLM"
    for letter, (high, low) in zip(letters, zip(cuts[::-1], cuts[-2::-1], strict=False), strict=False):
        for x in (edges[0] - 3.4, edges[1] + 3.4):
            yield _reference((x, 0.5 * (high + low) - 1.1), letter)


def _reference(at: Point, text: str) -> Text:
    """A figure or letter of the grid."""
    return Text(at=at, text=text, height=2.2, anchor="middle", halo=False, layer="frame")


def title_items(block: TitleBlock, at: Point) -> Iterator[Item]:
    """The title block with its lower left corner at a point."""
    height = block_height()
    box = tuple((at[0] + u, at[1] + v) for u, v in ((0.0, 0.0), (BLOCK, 0.0), (BLOCK, height), (0.0, height)))
    yield Area(path=box, wash=Wash.PAPER, layer="frame")
    yield Stroke(path=box, pen=Pen.FRAME, closed=True, layer="frame")
    for cell in _cells(block):
        yield from _cell_items(cell, at)
    yield from _mark_items(block.mark, (at[0], at[1] + 3 * ROW + 4.0))


def _cells(block: TitleBlock) -> tuple[_Cell, ...]:
    """The fields, from the top row down; the lowest row is 4 mm taller for what was not checked."""
    low, middle, high = 0.0, ROW + 4.0, 2 * ROW + 4.0
    tall = ROW + 4.0
    return (
        _Cell(0.0, high, 56.0, ROW, "owner", block.owner),
        _Cell(56.0, high, 84.0, ROW, "title", block.title, strong=True),
        _Cell(140.0, high, 40.0, ROW, "number", block.number, strong=True),
        _Cell(0.0, middle, 34.0, ROW, "drawn by", block.creator),
        _Cell(34.0, middle, 34.0, ROW, "approved by", block.approver),
        _Cell(68.0, middle, 44.0, ROW, "kind of document", block.document_type),
        _Cell(112.0, middle, 28.0, ROW, "scale", block.scale),
        _Cell(140.0, middle, 20.0, ROW, "revision", block.revision),
        _Cell(160.0, middle, 20.0, ROW, "language", block.language),
        _Cell(0.0, low, 112.0, tall, "not checked here", block.not_checked),
        _Cell(112.0, low, 36.0, tall, "date of issue", block.date),
        _Cell(148.0, low, 32.0, tall, "sheet", f"{block.sheet} of {block.sheets}"),
    )


def _cell_items(cell: _Cell, at: Point) -> Iterator[Item]:
    """One field: its edges, its label and its value, set smaller or in two lines where it is long."""
    x, y = at[0] + cell.x, at[1] + cell.y
    box = ((x, y), (x + cell.width, y), (x + cell.width, y + cell.height), (x, y + cell.height))
    yield Stroke(path=box, pen=Pen.SEEN, closed=True, layer="frame")
    top = y + cell.height - CAPTION - 1.4
    yield Text(at=(x + 1.6, top), text=cell.label, height=CAPTION, halo=False, layer="frame")
    lines, size = fitted(cell.value, cell.width - 3.2, cell.height - 6.4, strong=cell.strong)
    for k, line in enumerate(lines):
        foot = top - 2.3 - size - 1.45 * size * k
        yield Text(
            at=(x + 1.6, foot),
            text=line,
            height=size,
            face=Lettering.WORDS,
            strong=cell.strong,
            halo=False,
            layer="frame",
        )


def fitted(text: str, width: float, height: float, *, strong: bool = False) -> tuple[list[str], float]:
    """Lines and letter height at which a text fits its field; never below the smallest lettering."""
    size = 3.1
    while True:
        lines = wrapped(text, width, size, strong=strong)
        fits = 1.45 * size * len(lines) <= height + 0.45 * size
        if fits or size <= CAPTION:
            return lines, size
        size = max(CAPTION, size - 0.2)


def wrapped(text: str, width: float, size: float, *, strong: bool = False) -> list[str]:
    """A text broken into lines that are no wider than `width`."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, Lettering.WORDS, strong=strong) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


def _mark_items(mark: str, at: Point) -> Iterator[Item]:
    """The mark over the title block: strong words between two bars that copy in black and white."""
    strip = ((at[0], at[1]), (at[0] + BLOCK, at[1]), (at[0] + BLOCK, at[1] + MARK), (at[0], at[1] + MARK))
    yield Stroke(path=strip, pen=Pen.FRAME, closed=True, layer="frame")
    bar = 3.0
    for x in (at[0], at[0] + BLOCK - bar):
        box = ((x, at[1]), (x + bar, at[1]), (x + bar, at[1] + MARK), (x, at[1] + MARK))
        yield Area(path=box, wash=Wash.INK, layer="frame")
    place = (at[0] + 0.5 * BLOCK, at[1] + 0.5 * MARK - 1.8)
    yield Text(
        at=place,
        text=mark,
        height=3.6,
        anchor="middle",
        face=Lettering.WORDS,
        strong=True,
        halo=False,
        layer="frame",
    )
