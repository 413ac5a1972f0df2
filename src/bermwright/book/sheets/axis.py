"""The building's axis: little true sections over bars of the strength used, stage by stage."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.drawing import Arc, Area, Hatch, Ink, Item, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.book.sheets.paper import CAPTION, curve_path, path_of
from bermwright.book.sheets.scene import Scene, scene_of
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.stages.nouns import Stage

TALLEST = 2.0
"""A bar above this share of strength is cut off; its figure still tells."""
UNIT = 14.0
"""Height of a bar at 1.00 (mm)."""
ICON = 11.0
"""Height of a little section (mm)."""
LEAST = 17.0
"""Least room for one stage (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AxisStep:
    """One stage on the axis."""

    stage: Stage
    label: str
    """Two or three short words, such as "fill +2.40"."""
    ratio: float | None
    """Largest share of strength used; None or NaN where it is unknown."""


def axis_strip(form: VaultForm, steps: tuple[AxisStep, ...], *, width: float = 174.0) -> Sheet:
    """The stages in a row, as many rows as they need."""
    left = 14.0
    per_row = max(1, min(len(steps), math.floor((width - left) / LEAST)))
    rows = [steps[k : k + per_row] for k in range(0, len(steps), per_row)]
    known = [min(step.ratio, TALLEST) for step in steps if step.ratio is not None and _known(step.ratio)]
    reach = UNIT * max([1.15, *known])
    tall = ICON + reach + 19.0
    items: list[Item] = []
    for number, row in enumerate(rows):
        base = tall * (len(rows) - 1 - number) + 11.0
        items += _row(row, (left, base), (width - left) / per_row)
        for k, step in enumerate(row):
            foot = (left + (k + 0.5) * (width - left) / per_row, base + reach + 4.0)
            items += icon(
                scene_of(form, step.stage, lifts=(), supports=()), foot, (width - left) / per_row - 2.0
            )
    worst = max((step.ratio for step in steps if _known(step.ratio)), default=None, key=lambda r: r or 0.0)
    words = "unknown" if worst is None else ratio_text(worst)
    alt = f"Strength used at {len(steps)} stages of {form.name}; the most is {words}."
    return Sheet(
        width=width,
        height=tall * len(rows),
        items=tuple(items),
        title="The building, stage by stage",
        alt=alt,
    )


def _known(ratio: float | None) -> bool:
    """Whether a ratio is a number."""
    return ratio is not None and not math.isnan(ratio)


def ratio_text(ratio: float) -> str:
    """A ratio rounded up, so that it never looks better than it is; 0.999 stays below 1."""
    if math.isinf(ratio):
        return "no strength"
    digits = 3 if 0.99 < ratio < 1.0 else 2
    step = 10.0**digits
    return f"{math.ceil(ratio * step - 1e-9) / step:.{digits}f}"


def _row(row: tuple[AxisStep, ...], at: tuple[float, float], pitch: float) -> Iterator[Item]:
    """One row: base line, limit, and each stage."""
    left, base = at
    right = left + pitch * len(row)
    yield Stroke(path=((left, base), (right, base)), pen=Pen.SEEN, layer="axis")
    limit = base + UNIT
    yield Stroke(path=((left, limit), (right, limit)), pen=Pen.HIDDEN, layer="axis")
    yield Text(
        at=(left - 1.5, limit - 0.5 * CAPTION), text="1.00", height=CAPTION + 0.2, anchor="end", halo=False
    )
    for k, words in enumerate(("strength", "used")):
        yield Text(at=(0.0, base + 5.5 - 3.6 * k), text=words, height=CAPTION, halo=False)
    for k, step in enumerate(row):
        yield from _bar(step, left + (k + 0.5) * pitch, base)


def _bar(step: AxisStep, x: float, base: float) -> Iterator[Item]:
    """The bar, grey to the limit and red-hatched above it, its name and its figure in words."""
    half = 1.3
    yield Text(at=(x, base - 4.0), text=step.label, height=CAPTION, anchor="middle", halo=False)
    if step.ratio is None or not _known(step.ratio):
        centre = (x, base + 0.35 * UNIT)
        yield Arc(centre=centre, radius=half, start=0.0, end=2.0 * math.pi, pen=Pen.LIMIT, layer="axis")
        yield Text(at=(x, base - 8.0), text="unknown", height=CAPTION, anchor="middle", halo=False)
        return
    over = step.ratio > 1.0
    within = UNIT * min(step.ratio, 1.0)
    yield Area(path=_box(x, base, base + within, half), wash=Wash.GREY, layer="axis")
    if over:
        top = base + UNIT * min(step.ratio, TALLEST)
        box = _box(x, base + UNIT, top, half)
        yield Area(
            path=box, wash=Wash.RED, hatch=Hatch.OVERFILLED, outline=Pen.LAYER, ink=Ink.RED, layer="axis"
        )
    words = f"{ratio_text(step.ratio)} fails" if over else ratio_text(step.ratio)
    ink = Ink.RED if over else Ink.INK
    yield Text(
        at=(x, base - 8.0), text=words, height=CAPTION, anchor="middle", strong=over, ink=ink, halo=False
    )


def _box(x: float, low: float, high: float, half: float) -> tuple[tuple[float, float], ...]:
    """An upright rectangle."""
    return ((x - half, low), (x + half, low), (x + half, high), (x - half, high))


def icon(scene: Scene, foot: tuple[float, float], width: float) -> Iterator[Item]:
    """A little true section: ground, fill as it stands, and the shell as one line."""
    low, high = scene.extent()
    x = np.linspace(low - 0.8, high + 0.8, 161)
    tall = float(np.max(scene.form.ground.finished.level(x))) + 0.1
    base = min(0.0, float(np.min(scene.base(x))))
    scale = 1000.0 * max((x[-1] - x[0]) / width, (tall - base) / ICON)
    factor = 1000.0 / scale
    view = View(origin=(foot[0] - 0.5 * (x[0] + x[-1]) * factor, foot[1] - base * factor), scale=scale)
    for part in scene.placed(float(x[0]), float(x[-1])):
        points = shapely.get_coordinates(part.exterior)
        yield Area(
            path=path_of(view, points[:, 0], points[:, 1])[:-1],
            wash=Wash.EARTH,
            outline=Pen.HATCH,
            layer="axis",
        )
    inside, shell = scene.form.rib.inside, curve_path(view, scene.form.rib.centreline)
    room = (view.point(float(inside.x[0]), 0.0), *shell, view.point(float(inside.x[-1]), 0.0))
    yield Area(path=room, wash=Wash.PAPER, layer="axis")
    yield Stroke(path=path_of(view, x, scene.base(x)), pen=Pen.LAYER, layer="axis")
    up = scene.kind is not StageKind.RIBS
    yield Stroke(path=room, pen=Pen.TICK if up else Pen.SEEN, layer="axis")
