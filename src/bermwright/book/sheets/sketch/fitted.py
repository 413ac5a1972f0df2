"""A sketch's points, the curve that fits them, and a better one where there is one."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Arc, Dimension, Ink, Item, Pen, Sheet, Stroke, View
from bermwright.book.sheets.paper import Board, Figures, figure, note, path_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.adapt.sketch import Better, SketchFits

    Array = NDArray[np.float64]

SCALES = (10.0, 20.0, 50.0, 100.0, 200.0)
"""Reductions of ISO 5455."""
SIDE, FOOT, HEAD = 26.0, 14.0, 8.0
"""Paper round the curve (mm)."""
CROSS = 0.9
"""Half the size of the cross of a point (mm)."""
NAMED = 40
"""Up to so many points are numbered."""


def frame_of(x: Array, z: Array, width: float) -> tuple[View, float, float]:
    """A view that holds a curve at the largest scale that fits, and the size of its sheet (mm)."""
    wide = float(np.ptp(x))
    scale = next((one for one in SCALES if 1000.0 * wide / one + 2.0 * SIDE <= width), SCALES[-1])
    factor = 1000.0 / scale
    height = float(z.max()) * factor + FOOT + HEAD
    middle = 0.5 * float(x.max() + x.min())
    return View(origin=(0.5 * width - middle * factor, FOOT), scale=scale), width, height


def fitted_sheet(
    fits: SketchFits, better: Better | None = None, *, width: float = 174.0, system: str = "metric"
) -> Sheet:
    """Points as crosses, outliers ringed, the fitted curve full and a better one dashed."""
    arch, best = fits.arch, fits.best
    x, z = best.curve.x + best.shift, best.curve.z
    view, wide, high = frame_of(np.concatenate([x, arch.x]), np.concatenate([z, arch.z]), width)
    items = tuple(_items(fits, better, view, (x, z), Figures(system=system, metres=True)))
    shown = f"The sketch's {arch.x.size} points and the {best.family} that fits them"
    beside = f", and, dashed, a {better.vault.curve} of the same span and rise" if better else ""
    return Sheet(width=wide, height=high, items=items, title="Sketch", alt=shown + beside, view=view)


def _items(
    fits: SketchFits, better: Better | None, view: View, curve: tuple[Array, Array], figures: Figures
) -> Iterator[Item]:
    board = Board()
    x, z = curve
    best = fits.best
    yield Stroke(path=path_of(view, x, z), pen=Pen.SEEN)
    if better is not None:
        yield from _other(better, best.shift, view, figures, board)
    for at, (a, b) in enumerate(zip(fits.arch.x, fits.arch.z, strict=True)):
        yield from _cross(view.point(float(a), float(b)), outlier=at in best.outliers)
    if fits.arch.x.size <= NAMED:
        yield from _numbers(fits, view, board)
    left, right = view.point(float(x[0]), 0.0), view.point(float(x[-1]), 0.0)
    yield Stroke(path=(left, right), pen=Pen.DIMENSION)
    yield Dimension(start=left, end=right, offset=-7.0, text=figures.length(best.span))
    top = view.point(float(x[int(np.argmax(z))]), float(z.max()))
    beside = right[0] + 10.0
    yield Stroke(path=(top, (beside + 2.0, top[1])), pen=Pen.DIMENSION)
    yield Dimension(start=(beside, left[1]), end=(beside, top[1]), offset=0.0, text=figures.length(best.rise))
    yield figure((left[0] - 24.0, left[1] - 11.0), f"1:{view.scale:.0f}")


def _cross(at: tuple[float, float], *, outlier: bool) -> Iterator[Item]:
    ink = Ink.RED if outlier else Ink.INK
    yield Stroke(path=((at[0] - CROSS, at[1]), (at[0] + CROSS, at[1])), pen=Pen.LAYER, ink=ink)
    yield Stroke(path=((at[0], at[1] - CROSS), (at[0], at[1] + CROSS)), pen=Pen.LAYER, ink=ink)
    if outlier:
        yield Arc(centre=at, radius=2.2 * CROSS, start=0.0, end=2.0 * np.pi, pen=Pen.LAYER, ink=ink)


def _numbers(fits: SketchFits, view: View, board: Board) -> Iterator[Item]:
    """Every point's number, and the distance of an outlier, inside the arch."""
    middle = view.point(0.0, 0.4 * float(fits.arch.z.max()))
    for at, (a, b) in enumerate(zip(fits.arch.x, fits.arch.z, strict=True)):
        x, y = view.point(float(a), float(b))
        away = np.array([middle[0] - x, middle[1] - y])
        inward = 3.4 * away / max(float(np.hypot(*away)), 1e-9)
        off = fits.best.residuals[at]
        words = f"{at + 1}"
        if at in fits.best.outliers:
            words += f": {abs(1000.0 * off):.0f} mm {'out' if off > 0.0 else 'in'}"
        yield board.put(
            figure((x + share * inward[0], y + share * inward[1] - 1.2), words, "middle")
            for share in (1.0, 1.6, 2.4, 3.2)
        )


def _other(better: Better, shift: float, view: View, figures: Figures, board: Board) -> Iterator[Item]:
    """The better curve and the distance at the haunch."""
    line = better.envelope.form.rib.centreline
    spring = float(min(line.z[0], line.z[-1]))
    yield Stroke(path=path_of(view, line.x + shift, line.z - spring), pen=Pen.HIDDEN)
    x, z = better.place[0] + shift, better.place[1] - spring
    at = view.point(x, z)
    side = 1.0 if x > 0.0 else -1.0
    words = f"{figures.length(abs(better.outward))} {'out' if better.outward > 0.0 else 'in'}"
    yield board.take(note((at[0] + 4.0 * side, at[1] + 1.0), words, "start" if side > 0.0 else "end"))
    yield Stroke(path=(at, (at[0] + 3.4 * side, at[1] + 1.2)), pen=Pen.DIMENSION)
