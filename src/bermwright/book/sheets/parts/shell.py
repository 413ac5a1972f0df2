"""The shell in a section: rib with its joints, cover bands, supports and the room."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Band, Hatch, Item, Path, Pen, Point, Spline, Stroke, View, Wash
from bermwright.book.sheets.paper import curve_path, smooth_path
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.book.sheets.paper import Figures
    from bermwright.book.sheets.scene import Scene, Support
    from bermwright.form.shapes import CoverBand, RibForm, VaultForm

RIGID = ("rigid", "board", "foam", "xps", "eps", "cellular", "cork")
_BANDS = {
    "lagging": (Wash.LAGGING, Hatch.TIMBER_ACROSS),
    "membrane": (Wash.NONE, Hatch.MEMBRANE),
    "vapour control": (Wash.NONE, Hatch.MEMBRANE),
    "insulation": (Wash.INSULATION, Hatch.INSULATION_SOFT),
    "drainage": (Wash.PAPER, Hatch.GRAVEL),
}


def shell_items(scene: Scene, view: View, visible_layer: int = 1) -> Iterator[Item]:
    """The room, then supports, the rib and the bands that are on by now."""
    yield from _supports(scene, view)
    yield from rib_items(scene.form.rib, view, visible_layer)
    for band in sorted(scene.bands, key=lambda band: band.kind == "membrane"):
        yield from band_items(band, view)
    yield from _floor(scene, view)


def rib_items(rib: RibForm, view: View, visible_layer: int = 1) -> Iterator[Item]:
    """The rib seen from its end of the vault: grain along it, the butt joints of the layer in front."""
    yield Area(
        path=curve_path(view, rib.inside) + curve_path(view, rib.outside)[::-1], wash=Wash.TIMBER, layer="rib"
    )
    depth = view.length(rib.depth)
    yield Band(
        path=smooth_path(view, rib.inside, 1.2), thickness=depth, hatch=Hatch.TIMBER_ALONG, layer="rib"
    )
    for place, layer in zip(rib.joints.tolist(), rib.joint_layers, strict=True):
        if layer == visible_layer:
            yield Stroke(path=across(rib, view, place), pen=Pen.LAYER, layer="rib")
    for end in (0.0, rib.centreline.length):
        yield Stroke(path=across(rib, view, end), pen=Pen.SEEN, layer="rib")
    yield Spline(path=smooth_path(view, rib.outside), pen=Pen.SEEN, layer="rib")
    yield Spline(path=smooth_path(view, rib.inside), pen=Pen.CUT, layer="rib")


def rib_words(form: VaultForm, figures: Figures) -> str:
    """The rib in words: layers, thickness of one, depth and spacing."""
    rib = form.rib
    board = figures.length(rib.board)
    if rib.bent:
        wide = figures.length(rib.width)
        return f"ribs {rib.layers} × {board} × {wide} bent, at {figures.length(form.spacing)}"
    return f"ribs {rib.layers} × {board} × {figures.length(rib.depth)} at {figures.length(form.spacing)}"


def across(rib: RibForm, view: View, place: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """The line square across the rib at an arc length of its centreline."""
    x, z, angle = (float(v) for v in rib.centreline.at(place))
    half = 0.5 * rib.depth
    u, w = -math.sin(angle) * half, math.cos(angle) * half
    return view.point(x - u, z - w), view.point(x + u, z + w)


def band_style(band: CoverBand) -> tuple[Wash, Hatch]:
    """Wash and hatch of a cover band, from its kind and, for insulation, its name."""
    if band.kind == "insulation" and any(word in band.name.lower() for word in RIGID):
        return Wash.INSULATION, Hatch.INSULATION_RIGID
    return _BANDS.get(band.kind, (Wash.NONE, Hatch.NONE))


def band_items(band: CoverBand, view: View) -> Iterator[Item]:
    """One layer over the ribs."""
    wash, hatch = band_style(band)
    path = smooth_path(view, band.inner, 1.2)
    thickness = view.length(band.thickness)
    if hatch is Hatch.MEMBRANE:
        yield Band(path=path, thickness=max(thickness, 0.55), hatch=hatch, layer="membrane")
        return
    yield Area(
        path=curve_path(view, band.inner) + curve_path(view, band.outer)[::-1], wash=wash, layer=band.kind
    )
    yield Band(path=path, thickness=thickness, hatch=hatch, layer=band.kind)
    yield Spline(path=smooth_path(view, band.outer), pen=Pen.LAYER, layer=band.kind)
    for end in (0, -1):
        foot = ((float(face.x[end]), float(face.z[end])) for face in (band.inner, band.outer))
        yield Stroke(path=tuple(view.point(x, z) for x, z in foot), pen=Pen.LAYER, layer=band.kind)


def _supports(scene: Scene, view: View) -> Iterator[Item]:
    """Walls and footings under the springing, as the file gives them."""
    for outline, support in scene.support_outlines():
        path = tuple(view.point(x, z) for x, z in outline)
        low, high = path[0][1], path[2][1]
        levels: tuple[float, ...] = ()
        if support.course is not None:
            levels = tuple(np.arange(low, high + 1e-6, view.length(support.course)).tolist())
        wash = Wash.EARTH if support.hatch is Hatch.EARTH_TUBE else Wash.PAPER
        if support.bottom is None:
            path = (*broken(path[0], path[1]), path[2], path[3])
        yield Area(path=path, wash=wash, hatch=support.hatch, levels=levels, layer="support")
        yield Stroke(path=path, pen=Pen.SEEN, closed=True, layer="support")
        yield from _grids(scene, support, outline, view)
        if support.plate > 0.0 and math.isclose(high, view.point(0.0, scene.form.springing)[1]):
            left, right = path[-1][0], path[-2][0]
            foot = high - view.length(support.plate)
            box = ((left, foot), (right, foot), (right, high), (left, high))
            grain = Hatch.TIMBER_ACROSS
            yield Area(path=box, wash=Wash.TIMBER, hatch=grain, outline=Pen.CUT, layer="support")


def _grids(scene: Scene, support: Support, outline: Path, view: View) -> Iterator[Item]:
    """Layers of geogrid in the fill behind a wall, as far as the fill has come."""
    left = outline[0][0] < 0.0
    face, away = (outline[0][0], -1.0) if left else (outline[1][0], 1.0)
    reached = scene.left if left else scene.right
    filled = scene.reached(StageKind.FILL)
    for level in support.grids:
        if filled and (reached is None or level <= reached):
            ends = (view.point(face, level), view.point(face + away * support.reach, level))
            yield Stroke(path=ends, pen=Pen.HIDDEN, layer="support")


def broken(start: Point, end: Point) -> Path:
    """A freehand line where a thing of unknown depth is broken off (mm)."""
    count = 8
    return tuple(
        (
            start[0] + (end[0] - start[0]) * k / count,
            start[1] + min(1.0, k, count - k) * 0.5 * math.sin(2.0 * math.pi * k / count),
        )
        for k in range(count + 1)
    )


def _floor(scene: Scene, view: View) -> Iterator[Item]:
    """The finished floor between the feet, at its level."""
    inside = scene.form.rib.inside
    left, right = float(inside.x[0]), float(inside.x[-1])
    for outline, _ in scene.support_outlines():
        (low, bottom), (high, _), (_, top), _ = outline
        if bottom < 0.0 <= top:
            left, right = (max(left, high), right) if high < 0.0 else (left, min(right, low))
    yield Stroke(path=(view.point(left, 0.0), view.point(right, 0.0)), pen=Pen.CUT, layer="floor")
