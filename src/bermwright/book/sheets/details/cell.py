"""One detail on paper: a window into the house at a large scale, with what it shows and leaves out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import shapely

from bermwright.base.drawing import Clip, Item, Lettering, Pen, Sheet, Stroke, Text, View
from bermwright.base.lettering import text_width
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import FIGURE, NOTE, Figures, figure, heading
from bermwright.book.sheets.plans.style import cut_items, hatches_of
from bermwright.book.sheets.settling import settled
from bermwright.form.solids.cutting import cut

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.form.solids.cutting import Shape
    from bermwright.house import House, Vault

SIZE = (190.0, 108.0)
"""Of a detail with its words (mm)."""
WINDOW = 92.0
"""Side of the window (mm)."""
LOW = (2.0, 8.0)
"""Lower left corner of the window (mm)."""
LINE = 4.7
ROOM = SIZE[0] - WINDOW - 9.0
"""Width of the words (mm)."""
SCALES = (5.0, 10.0, 20.0, 50.0, 100.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What a detail is of."""

    house: House
    vault: Vault
    form: VaultForm
    solids: VaultSolids
    figures: Figures

    @property
    def bay(self) -> float:
        """A place along the axis between two ribs near mid-length, clear of openings in the shell (m)."""
        form = self.form
        middle = max(0, form.ribs // 2 - 1)
        spans = [
            (one.along - 0.5 * one.width, one.along + 0.5 * one.width)
            for one in self.house.openings
            if one.vault == form.name and one.along is not None
        ]
        order = sorted(range(form.ribs - 1), key=lambda k: abs(k - middle))
        places = [(k + 0.5) * form.spacing for k in order if (k + 0.5) * form.spacing < form.length]
        free = (at for at in places if not any(low <= at <= high for low, high in spans))
        return next(free, 0.5 * form.length)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What stands beside a detail."""

    code: str
    title: str
    shows: tuple[str, ...]
    without: tuple[str, ...]
    """What is not drawn or not checked, each with who knows it."""


def window(middle: Point, scale: float) -> View:
    """A view whose middle is a place of the house (m)."""
    factor = 1000.0 / scale
    centre = (LOW[0] + 0.5 * WINDOW, LOW[1] + 0.5 * WINDOW)
    half = 0.5 * WINDOW / factor
    return View(
        origin=(centre[0] - middle[0] * factor, centre[1] - middle[1] * factor),
        scale=scale,
        seen=((middle[0] - half, middle[1] - half), (middle[0] + half, middle[1] + half)),
    )


def wider(view: View, more: float = 0.1) -> View:
    """The same view with a little more seen on all sides, so that nothing ends inside the window."""
    (low_x, low_z), (high_x, high_z) = view.seen
    return replace(view, seen=((low_x - more, low_z - more), (high_x + more, high_z + more)))


def fitting(width: float, height: float) -> float:
    """The largest scale at which something of that size fits the window with a little room (m)."""
    need = 1000.0 * max(width, height) / (0.92 * WINDOW)
    return next((scale for scale in SCALES if scale >= need), SCALES[-1])


def shown_box(view: View, more: float = 0.02) -> Shape:
    """What the window shows, and a little more (m)."""
    (low_x, low_z), (high_x, high_z) = view.seen
    return shapely.box(low_x - more, low_z - more, high_x + more, high_z + more)


def cut_of(subject: Subject, axis: str, at: float, view: View) -> Iterator[Item]:
    """The bodies cut by a plane, inside the window."""
    hatches = hatches_of(subject.house, subject.form.name, subject.solids.solids)
    faces = cut(subject.solids.solids, axis, at)
    yield from cut_items(faces, view.point, shown_box(view), hatches)


def detail(
    words: Words, view: View, inside: Iterable[Item], over: Iterable[Item] = (), alt: str = ""
) -> Sheet:
    """The window with its frame; `over` is drawn on top and may reach past the frame."""
    high = (LOW[0] + WINDOW, LOW[1] + WINDOW)
    box = (LOW, (high[0], LOW[1]), high, (LOW[0], high[1]))
    items: list[Item] = [Clip(low=LOW, high=high, items=tuple(inside))]
    items.append(Stroke(path=box, pen=Pen.SEEN, closed=True, layer="frame"))
    items += over
    items += _beside(words, view, high)
    said = alt or f"Detail: {words.title}. {'; '.join(words.shows)}."
    return settled(
        Sheet(width=SIZE[0], height=SIZE[1], items=tuple(items), title=words.title, alt=said, view=view)
    )


def _beside(words: Words, view: View, corner: Point) -> Iterator[Item]:
    x, y = corner[0] + 6.0, corner[1] - 3.0
    yield heading((x, y), f"{words.code}, {words.title}", 3.4)
    yield figure((x, y - 5.6), f"1:{view.scale:.0f}")
    y -= 11.6
    for line in words.shows:
        for part in broken(line, ROOM, FIGURE, Lettering.FIGURES):
            yield figure((x, y), part)
            y -= LINE
    y -= 1.8
    for line in (*words.without, NOT_REVIEWED):
        for part in broken(line, ROOM, NOTE, Lettering.NOTE):
            yield Text(at=(x, y), text=part, height=NOTE, face=Lettering.NOTE)
            y -= 0.95 * LINE


def broken(text: str, width: float, size: float, face: Lettering) -> list[str]:
    """A text in lines no wider than `width`."""
    lines: list[str] = []
    for word in text.split():
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, size, face) <= width:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
