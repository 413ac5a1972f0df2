"""The section with the strips of floor that have height enough, a bed, a desk and a door at true size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Hatch, Ink, Item, Pen, Point, Sheet, Stroke, Text, View, Wash
from bermwright.book.sheets.paper import Figures, curve_path, figure, note
from bermwright.book.sheets.signs import level_triangle, person
from bermwright.form.room import BED, DESK, DOOR, Use, strip_over, strips_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.handbook.curves import Strip

SCALES = (20.0, 50.0, 100.0)
"""Reductions of ISO 5455."""
WORDS, SIDE, FOOT, HEAD = 54.0, 6.0, 9.0, 5.0
"""Paper for the words on the right, and round the section (mm)."""
WALL = 0.25
"""A wall of unknown thickness is drawn so thick (m)."""
GAP, LINE = 6.0, 7.0
"""Between the shell and its words, and from one of them to the next (mm)."""

Strips = list[tuple[Use, "Strip | None"]]
Label = tuple[Point, str, str]
"""Where the line ends, what is free, and what for."""


def room_sheet(
    form: VaultForm,
    *,
    floors: tuple[float, ...] = (0.0,),
    standing: float | None = None,
    width: float = 174.0,
    system: str = "metric",
) -> Sheet:
    """The section as a room; `floors` are the levels of its floors, the lowest first (m)."""
    outside = form.rib.outside
    wide = float(outside.x.max() - outside.x.min()) + 2.0 * WALL
    scale = next((one for one in SCALES if 1000.0 * wide / one + SIDE + WORDS <= width), SCALES[-1])
    factor = 1000.0 / scale
    view = View(origin=(SIDE + (WALL - float(outside.x.min())) * factor, FOOT), scale=scale)
    height = float(outside.z.max()) * factor + FOOT + HEAD
    edge = view.point(float(outside.x.max()) + WALL, 0.0)[0] + GAP
    items = tuple(_items(form, view, floors, standing, Figures(system=system, metres=True), edge))
    return Sheet(
        width=width,
        height=height,
        items=items,
        title="The room",
        alt="The section with the strips of floor to stand, sit and lie in, a bed, a desk and a door",
        view=view,
    )


def _items(
    form: VaultForm,
    view: View,
    floors: tuple[float, ...],
    standing: float | None,
    figures: Figures,
    edge: float,
) -> Iterator[Item]:
    yield from _shell(form, view)
    labels: list[Label] = []
    every = strips_of(form, floors, standing)
    for floor in floors:
        strips = [(use, strip) for level, use, strip in every if level == floor]
        yield from _floor(form, view, floor)
        yield from _furniture(strips, view, floor)
        yield from _door(form, view, floor)
        labels.append(
            (view.point(float(form.rib.outside.x.max()), floor), f"{figures.level(floor)} floor", "")
        )
        for use, strip in strips:
            if strip is not None:
                yield from _strip(use, strip, view, floor)
                end = view.point(strip.right, floor + use.height)
                words = f"{figures.length(use.height)} high: {figures.length(strip.width)} wide"
                labels.append((end, words, use.name))
    yield from _labelled(labels, edge)
    yield from person(view, -0.12 * form.span)
    yield figure((1.0, 1.5), f"1:{view.scale:.0f}")


def _shell(form: VaultForm, view: View) -> Iterator[Item]:
    """The ribs in section, and the walls under them."""
    inside, outside = curve_path(view, form.rib.inside), curve_path(view, form.rib.outside)
    yield Area(
        path=(*outside, *reversed(inside)), wash=Wash.TIMBER, hatch=Hatch.TIMBER_ALONG, outline=Pen.CUT
    )
    spring = min(float(form.rib.inside.z[0]), float(form.rib.inside.z[-1]))
    if spring > 0.0:
        for x, side in ((float(form.rib.inside.x[0]), -1.0), (float(form.rib.inside.x[-1]), 1.0)):
            low, high = view.point(x, 0.0), view.point(x + side * WALL, spring)
            path = (low, (high[0], low[1]), high, (low[0], high[1]))
            yield Area(path=path, wash=Wash.INSITU, outline=Pen.SEEN)


def _floor(form: VaultForm, view: View, level: float) -> Iterator[Item]:
    free = strip_over(form, level, 0.0) if level > 0.0 else strip_over(form, 0.0, 1e-6)
    if free is not None:
        left, right = view.point(free.left, level), view.point(free.right, level)
        yield Stroke(path=(left, right), pen=Pen.CUT)
        yield level_triangle((0.5 * (left[0] + right[0]), left[1]))


def _strip(use: Use, strip: Strip, view: View, floor: float) -> Iterator[Item]:
    """A line at the height that is free, as long as the strip is wide."""
    height = floor + use.height
    yield Stroke(path=(view.point(strip.left, height), view.point(strip.right, height)), pen=Pen.HIDDEN)


def _labelled(labels: list[Label], edge: float) -> Iterator[Item]:
    """Words beside the shell, pushed apart where their lines lie close, each with its leader."""
    low = -LINE
    for end, words, name in sorted(labels, key=lambda one: one[0][1]):
        y = low = max(end[1], low + LINE)
        yield Stroke(path=(end, (edge - 0.4 * GAP, end[1]), (edge - 0.5, y + 0.8)), pen=Pen.DIMENSION)
        yield figure((edge, y - 0.2), words)
        if name:
            yield note((edge, y - 3.3), name)


def _furniture(strips: Strips, view: View, floor: float) -> Iterator[Item]:
    """A bed against the left side and a desk against the right one, where a body has room over them."""
    by_name = {use.name: strip for use, strip in strips}
    bed, desk = by_name["to lie in a bed"], by_name["to sit at a desk"]
    if bed is not None and bed.width >= 2.0 * BED[0]:
        yield from _box(view, (bed.left, floor), BED, "bed")
    if desk is not None and desk.width >= 2.0 * DESK[0]:
        yield from _box(view, (desk.right - DESK[0], floor), DESK, "desk")


def _box(view: View, corner: tuple[float, float], size: tuple[float, float], name: str) -> Iterator[Item]:
    low = view.point(*corner)
    high = view.point(corner[0] + size[0], corner[1] + size[1])
    yield Area(path=(low, (high[0], low[1]), high, (low[0], high[1])), wash=Wash.PAPER, outline=Pen.SEEN)
    yield note((0.5 * (low[0] + high[0]), low[1] + 2.0), name, "middle")


def _door(form: VaultForm, view: View, floor: float) -> Iterator[Item]:
    """A door at true size in the middle; words in red where none of its height fits."""
    wide, high = DOOR
    strip = strip_over(form, floor, high)
    if strip is None or strip.width < wide:
        at = view.point(0.0, floor)
        words = f"no door of {wide:.2f} × {high:.2f} m fits here"
        red = note((at[0], at[1] + view.length(DESK[1]) + 2.0), words, "middle")
        yield Text(at=red.at, text=words, height=red.height, anchor="middle", face=red.face, ink=Ink.RED)
        return
    middle = min(max(0.0, strip.left + 0.5 * wide), strip.right - 0.5 * wide)
    low, top = view.point(middle - 0.5 * wide, floor), view.point(middle + 0.5 * wide, floor + high)
    yield Stroke(path=(low, (low[0], top[1]), top, (top[0], low[1])), pen=Pen.SEEN)
    yield note((top[0] - 1.0, low[1] + 6.0), "door", "end")
