"""The house in parallel projection: ribs bare in front, the mound cut open behind them.

Everything is drawn from the back to the front, filled with paper, so that what is hidden is painted over.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import path_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.drawing import Path
    from bermwright.form.shapes import VaultForm

    Array = NDArray[np.float64]

TURN, TILT = math.radians(28.0), math.radians(24.0)
"""From where it is seen: turned from the axis, and from above."""
OPEN = 0.42
"""Share of the length that stands bare."""
SLICES = 14
"""Lines across the mound."""
WIDTH, MARGIN = 120.0, 5.0
"""Of the sheet (mm)."""
UNDER = 0.5
"""Ground that is shown under the cut (m)."""


def axonometric_sheet(form: VaultForm) -> Sheet:
    """The house on a sheet of 120 mm width, at whatever scale fills it."""
    eye = _Eye(form)
    items = (*_mound(form, eye), *_cut(form, eye), *_bare(form, eye))
    return Sheet(
        width=WIDTH,
        height=eye.height,
        items=items,
        title=f"{form.name} from above",
        alt=f"{form.name} seen from above: bare ribs in front, the mound cut open behind them.",
        view=eye.view,
    )


class _Eye:
    """The projection, and where it lies on the sheet."""

    def __init__(self, form: VaultForm) -> None:
        self.low, self.high = _reach(form)
        corners = [
            self.flat(np.array([x]), y, np.array([z]))
            for x in (self.low, self.high)
            for y in (0.0, form.length)
            for z in (-UNDER, float(np.max(form.ground.finished.z)))
        ]
        u = np.concatenate([one[0] for one in corners])
        v = np.concatenate([one[1] for one in corners])
        scale = 1000.0 * float(np.ptp(u)) / (WIDTH - 2.0 * MARGIN)
        factor = 1000.0 / scale
        self.view = View(
            origin=(MARGIN - factor * float(u.min()), MARGIN - factor * float(v.min())), scale=scale
        )
        self.height = factor * float(np.ptp(v)) + 2.0 * MARGIN

    @staticmethod
    def flat(x: Array, y: float, z: Array) -> tuple[Array, Array]:
        """Places of the house as they are seen (m)."""
        across = x * math.cos(TURN) + y * math.sin(TURN)
        deep = y * math.cos(TURN) - x * math.sin(TURN)
        return across, z * math.cos(TILT) + deep * math.sin(TILT)

    def path(self, x: Array, y: float, z: Array) -> Path:
        """A line across the house at one y."""
        return path_of(self.view, *self.flat(x, y, z))


def _reach(form: VaultForm) -> tuple[float, float]:
    """From toe to toe (m)."""
    line, natural = form.ground.finished, form.ground.natural
    x = np.linspace(float(line.x[0]), float(line.x[-1]), 801)
    raised = x[line.level(x) - natural.level(x) > 0.02]  # 20 mm: a mown edge
    face = form.soil_face.x
    ends = np.concatenate([raised, [float(np.min(face)), float(np.max(face))]])
    return float(ends.min()), float(ends.max())


def _surface(form: VaultForm, eye: _Eye) -> tuple[Array, Array]:
    x = np.unique(np.concatenate([np.linspace(eye.low, eye.high, 61), form.ground.finished.x]))
    x = x[(x >= eye.low) & (x <= eye.high)]
    return x, form.ground.finished.level(x)


def _closed(form: VaultForm, eye: _Eye, y: float) -> Path:
    """A slice of the mound down to its natural ground."""
    x, z = _surface(form, eye)
    base = np.minimum(form.ground.natural.level(x), z)
    return (*eye.path(x, y, z), *reversed(eye.path(x, y, base)))


def _mound(form: VaultForm, eye: _Eye) -> Iterator[Item]:
    """Slices of the mound from the back to the cut."""
    x, z = _surface(form, eye)
    for share in np.linspace(1.0, OPEN, SLICES, endpoint=False):
        y = float(share) * form.length
        yield Area(path=_closed(form, eye, y), wash=Wash.PAPER)
        yield Stroke(path=eye.path(x, y, z), pen=Pen.LAYER)


def _cut(form: VaultForm, eye: _Eye) -> Iterator[Item]:
    """The mound as it is cut open, with the room in it."""
    y = OPEN * form.length
    face, inside = form.soil_face, form.rib.inside
    yield Area(path=_closed(form, eye, y), wash=Wash.EARTH, hatch=Hatch.EARTH_PLACED, outline=Pen.SEEN)
    yield Stroke(path=_top(form, eye, y), pen=Pen.CUT)
    shell = (*eye.path(face.x, y, face.z), *reversed(eye.path(inside.x, y, inside.z)))
    yield Area(path=shell, wash=Wash.TIMBER, outline=Pen.SEEN)
    feet = np.array([inside.x[-1], inside.x[0]])
    floor = eye.path(feet, y, np.zeros(2))
    yield Area(path=(*eye.path(inside.x, y, inside.z), *floor), wash=Wash.PAPER, outline=Pen.SEEN)


def _top(form: VaultForm, eye: _Eye, y: float) -> Path:
    x, z = _surface(form, eye)
    return eye.path(x, y, z)


def _bare(form: VaultForm, eye: _Eye) -> Iterator[Item]:
    """The ribs in front of the cut, each with the walls under its feet."""
    count = max(2, round(OPEN * (form.ribs - 1)))
    last = OPEN * form.length
    inside, outside = form.rib.inside, form.rib.outside
    yield from _walls(form, eye, last)
    for y in np.linspace(last, 0.0, count + 1)[1:]:
        ring = (*eye.path(inside.x, float(y), inside.z), *reversed(eye.path(outside.x, float(y), outside.z)))
        yield Area(path=ring, wash=Wash.TIMBER, outline=Pen.SEEN)


def _walls(form: VaultForm, eye: _Eye, last: float) -> Iterator[Item]:
    """The inner faces of both walls, from the floor to the feet."""
    if form.springing <= 0.0:
        return
    for x in (float(form.rib.inside.x[-1]), float(form.rib.inside.x[0])):
        pair = np.array([x, x])
        levels = np.array([0.0, form.springing])
        near, far = eye.path(pair, 0.0, levels), eye.path(pair, last, levels)
        yield Area(path=(*near, *reversed(far)), wash=Wash.INSITU, outline=Pen.SEEN)
