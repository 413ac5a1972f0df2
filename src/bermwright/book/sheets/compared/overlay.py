"""The section of one variant in full lines over that of another in chain lines."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Ink, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import Figures, curve_path, figure, note, path_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm

WIDTH = 130.0
"""mm."""
AROUND = 7.0
"""Paper round the drawing (mm)."""
FOOT = 16.0
"""Under the drawing, for what the lines are (mm)."""
BELOW = 0.6
"""Ground that is shown under the floor (m)."""


def overlay_sheet(
    before: VaultForm, after: VaultForm, *, names: tuple[str, str], system: str = "metric"
) -> Sheet:
    """Both sections in one view, as wide as the sheet; `names` are those of before and after."""
    low, high = _extent(before, after)
    scale = 1000.0 * (high[0] - low[0]) / (WIDTH - 2.0 * AROUND)
    factor = 1000.0 / scale
    view = View(origin=(AROUND - low[0] * factor, FOOT - low[1] * factor), scale=scale, seen=(low, high))
    height = FOOT + (high[1] - low[1]) * factor + AROUND
    items = (*_old(before, view), *_new(after, view), *_figures(before, after, view, system), *_legend(names))
    alt = f"The section of {names[1]} in full lines over that of {names[0]} in chain lines."
    return Sheet(width=WIDTH, height=height, items=items, title="", alt=alt, view=view)


def _extent(*forms: VaultForm) -> tuple[tuple[float, float], tuple[float, float]]:
    """Lower left and upper right of what is shown (m)."""
    toes = [_toes(form) for form in forms]
    tops = [float(np.max(form.ground.finished.z)) for form in forms]
    crowns = [form.crown_level for form in forms]
    lows = [min(0.0, float(form.ground.natural.level(0.0))) - BELOW for form in forms]
    return (min(one for one, _ in toes), min(lows)), (max(one for _, one in toes), max(*tops, *crowns) + 0.3)


def _toes(form: VaultForm) -> tuple[float, float]:
    """Where the finished ground leaves the natural one, a little beyond; at least the shell itself (m)."""
    line = form.ground.finished
    x = np.unique(np.concatenate([line.x, form.ground.natural.x, np.linspace(line.x[0], line.x[-1], 801)]))
    raised = x[np.abs(line.level(x) - form.ground.natural.level(x)) > 0.02]  # 20 mm: a mown edge
    face = form.soil_face.x
    inside = np.concatenate([raised, [float(np.min(face)), float(np.max(face))]])
    return float(np.min(inside)) - 0.8, float(np.max(inside)) + 0.8


def _ground(form: VaultForm, view: View, pen: Pen, ink: Ink) -> Iterator[Item]:
    x = np.linspace(view.seen[0][0], view.seen[1][0], 801)
    yield Stroke(path=path_of(view, x, form.ground.finished.level(x)), pen=pen, ink=ink)


def _old(form: VaultForm, view: View) -> Iterator[Item]:
    """What is looked back at."""
    yield from _ground(form, view, Pen.NOT_YET, Ink.SOFT)
    for line in (form.rib.inside, form.rib.outside, form.soil_face):
        yield Stroke(path=curve_path(view, line), pen=Pen.NOT_YET, ink=Ink.SOFT)


def _new(form: VaultForm, view: View) -> Iterator[Item]:
    """What is looked at."""
    inside, outside = curve_path(view, form.rib.inside), curve_path(view, form.rib.outside)
    yield Area(path=(*inside, *reversed(outside)), wash=Wash.TIMBER)
    yield from _ground(form, view, Pen.CUT, Ink.INK)
    for line in (form.rib.inside, form.rib.outside):
        yield Stroke(path=curve_path(view, line), pen=Pen.CUT)
    yield Stroke(path=curve_path(view, form.soil_face), pen=Pen.SEEN)
    half = 0.5 * form.span
    yield Stroke(path=(view.point(-half, 0.0), view.point(half, 0.0)), pen=Pen.SEEN)


def _figures(before: VaultForm, after: VaultForm, view: View, system: str) -> Iterator[Item]:
    """Span and rise of both where they differ, else once."""
    figures = Figures(system=system, metres=True)
    at = view.point(0.0, after.springing + 0.22 * after.rise)
    for number, (word, old, new) in enumerate(
        (("span", before.span, after.span), ("rise", before.rise, after.rise))
    ):
        was, now = figures.length(old), figures.length(new)
        text = f"{word} {now}" if was == now else f"{word} {was} → {now}"
        yield figure((at[0], at[1] - 4.4 * number), text, "middle")


def _legend(names: tuple[str, str]) -> Iterator[Item]:
    for row, (name, pen, ink) in enumerate(((names[1], Pen.CUT, Ink.INK), (names[0], Pen.NOT_YET, Ink.SOFT))):
        y = 9.5 - 5.5 * row
        yield Stroke(path=((AROUND, y), (AROUND + 16.0, y)), pen=pen, ink=ink)
        yield note((AROUND + 19.0, y - 1.0), name)
