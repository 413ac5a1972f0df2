"""Details: the springing at 1 : 10 and the rib taken apart into its layers."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import (
    Arc,
    Area,
    Clip,
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
from bermwright.book.sheets.details.cell import broken
from bermwright.book.sheets.paper import CAPTION, FIGURE, Figures, figure, heading
from bermwright.book.sheets.parts.earth import ground_items
from bermwright.book.sheets.parts.shell import across, rib_words, shell_items
from bermwright.book.sheets.scene import Scene, Support, under_right
from bermwright.book.sheets.section import SCALES, measured_curve

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import CurveLine, RibForm, RibPiece, VaultForm

DETAIL = 32.0
"""Radius of the circle a detail is seen through (mm)."""
RIB_HEAD = 24.0
"""Room for the heading above and the span below a rib (mm)."""


def detail_sheet(
    form: VaultForm, *, supports: tuple[Support, ...] = (), scale: float = 10.0, system: str = "metric"
) -> Sheet:
    """The right springing: rib foot, plate and support, lagging, membrane and insulation."""
    figures = Figures(system=system)
    wide = 2.0 * DETAIL + 66.0
    said = _detail_lines(form, supports, figures)
    room = wide - 2.0 * DETAIL - 7.0
    lines = [part for line in said for part in broken(line, room, FIGURE, Lettering.FIGURES)]
    tall = max(2.0 * DETAIL + 2.0, 14.0 + 5.2 * len(lines))
    centre = (DETAIL + 1.0, 0.5 * tall)
    middle, level = detail_spot(form)
    factor = 1000.0 / scale
    origin = (centre[0] - middle * factor, centre[1] - level * factor)
    reach = 1.6 * DETAIL / factor
    seen = ((middle - reach, level - reach), (middle + reach, level + reach))
    view = View(origin=origin, scale=scale, seen=seen)
    scene = Scene(form=foot_of(form, 2.6 * DETAIL / factor), supports=supports)
    whole = Scene(form=form, supports=supports)
    inside = (*ground_items(whole, view), *shell_items(scene, view))
    low, high = (centre[0] - DETAIL, centre[1] - DETAIL), (centre[0] + DETAIL, centre[1] + DETAIL)
    items: list[Item] = [Clip(low=low, high=high, items=inside, round=True)]
    items.append(Arc(centre=centre, radius=DETAIL, start=0.0, end=2.0 * math.pi, pen=Pen.CUT))
    x, y = 2.0 * DETAIL + 6.0, tall - 5.5
    items += [heading((x, y), "D1, the springing", 3.6), figure((x, y - 5.5), f"1:{scale:.0f}, right foot")]
    items += [figure((x, y - 12.5 - 5.2 * k), line) for k, line in enumerate(lines)]
    alt = f"Detail of the right springing of {form.name}, from the room outwards: {'; '.join(said)}."
    return Sheet(width=wide, height=tall, items=tuple(items), title="Detail of the springing", alt=alt)


def detail_spot(form: VaultForm) -> Point:
    """The middle of what the detail of the springing shows (m)."""
    face = form.bands[-1].outer if form.bands else form.rib.outside
    return 0.5 * (float(face.x[-1]) + float(form.rib.inside.x[-1])), form.springing + 0.05


def _detail_lines(form: VaultForm, supports: tuple[Support, ...], figures: Figures) -> list[str]:
    """What the detail shows, from the room outwards and then down."""
    lines = [rib_words(form, figures)]
    for band in form.bands:
        thick = f" {figures.length(band.thickness)}" if band.thickness > 0.005 else ""
        lines.append(f"{band.name}{thick}")
    for support in under_right(supports):
        if support.plate > 0.0:
            lines.append(f"plate {figures.length(support.plate)} × {figures.length(support.width)}")
        lines.append(f"{support.name} {figures.length(support.width)}")
    return lines


def foot_of(form: VaultForm, reach: float) -> VaultForm:
    """The form with its shell cut down to the right foot, so that a detail draws no more than it shows."""
    start = max(0.0, form.rib.centreline.length - reach)
    share = start / form.rib.centreline.length

    def cut(curve: CurveLine) -> CurveLine:
        first = share * curve.length
        keep = curve.s >= first
        return replace(
            curve,
            x=curve.x[keep],
            z=curve.z[keep],
            s=curve.s[keep] - curve.s[keep][0],
            angle=curve.angle[keep],
        )

    rib = form.rib
    near = [
        (float(s) - start, layer) for s, layer in zip(rib.joints, rib.joint_layers, strict=True) if s > start
    ]
    short = replace(
        rib,
        centreline=cut(rib.centreline),
        inside=cut(rib.inside),
        outside=cut(rib.outside),
        joints=np.array([s for s, _ in near]),
        joint_layers=tuple(layer for _, layer in near),
    )
    bands = tuple(replace(band, inner=cut(band.inner), outer=cut(band.outer)) for band in form.bands)
    return replace(form, rib=short, bands=bands, soil_face=cut(form.soil_face))


def rib_sheets(
    form: VaultForm, *, width: float = 174.0, height: float = 240.0, system: str = "metric"
) -> tuple[Sheet, ...]:
    """The rib by layers, on as many drawings as keep each no taller than `height` (mm)."""
    scale = _rib_scale(form, width)
    per_sheet = max(1, math.floor((height - RIB_HEAD) / _rib_pitch(form, scale)))
    layers = tuple(range(1, form.rib.layers + 1))
    groups = [layers[k : k + per_sheet] for k in range(0, len(layers), per_sheet)]
    return tuple(rib_sheet(form, width=width, layers=group, system=system) for group in groups)


def _rib_scale(form: VaultForm, width: float) -> float:
    """The largest scale at which a rib and its figures fit the width."""
    wide = float(form.rib.outside.x.max() - form.rib.outside.x.min())
    return next((scale for scale in SCALES if wide * 1000.0 / scale <= width - 24.0), SCALES[-1])


def _rib_pitch(form: VaultForm, scale: float) -> float:
    """Height one layer takes (mm)."""
    return float(form.rib.outside.z.max() - form.rib.outside.z.min()) * 1000.0 / scale + 16.0


def rib_sheet(
    form: VaultForm, *, width: float = 174.0, layers: tuple[int, ...] = (), system: str = "metric"
) -> Sheet:
    """The rib seen from the door, each layer by itself, its pieces named and its joints numbered.

    Without `layers` all are shown; joints are numbered along the whole rib from the left foot.
    """
    figures = Figures(system=system)
    rib = form.rib
    shown = layers or tuple(range(1, rib.layers + 1))
    scale = _rib_scale(form, width)
    factor, pitch = 1000.0 / scale, _rib_pitch(form, scale)
    height = pitch * len(shown) + RIB_HEAD
    names = ", ".join(str(layer) for layer in shown)
    title = "Rib, all layers" if len(shown) == rib.layers else f"Rib, layers {names} of {rib.layers}"
    items: list[Item] = [
        heading((0.0, height - 6.0), f"{title}, seen from the door"),
        figure((0.0, height - 11.5), f"1:{scale:.0f}; {rib_words(form, figures)}"),
    ]
    middle = 0.5 * float(rib.outside.x.min() + rib.outside.x.max())
    view = View(origin=(0.0, 0.0), scale=scale)
    for number, layer in enumerate(shown, start=1):
        foot = height - 10.0 - pitch * number - float(rib.outside.z.min()) * factor
        view = View(origin=(0.5 * width - middle * factor, foot), scale=scale)
        items += _layer_items(form, layer, view)
    curve = measured_curve(form)
    ends = (
        view.point(float(curve.x[0]), float(curve.z[0])),
        view.point(float(curve.x[-1]), float(curve.z[-1])),
    )
    items.append(Dimension(start=ends[0], end=ends[1], offset=-6.0, text=figures.length(form.span)))
    pieces = ", ".join(piece.name for piece in rib.pieces if piece.layer in shown)
    alt = f"Rib of {form.name}, pieces {pieces}."
    return Sheet(width=width, height=height, items=tuple(items), title=title, alt=alt, view=view)


def _layer_items(form: VaultForm, layer: int, view: View) -> Iterator[Item]:
    """One layer: its pieces with their names along them, and its joints."""
    rib = form.rib
    for piece in rib.pieces:
        if piece.layer == layer:
            outline = tuple(view.point(x, z) for x, z in piece.outline)
            yield Area(path=outline, wash=Wash.TIMBER, outline=Pen.SEEN, layer="rib")
    for piece in rib.pieces:
        if piece.layer == layer:
            yield _piece_name(rib, piece, view)
    for number, (place, owner) in enumerate(zip(rib.joints.tolist(), rib.joint_layers, strict=True), start=1):
        if owner == layer:
            yield from _joint(rib, float(place), number, view)
    at = view.point(float(np.mean(rib.inside.x)), form.springing + 0.42 * form.rise)
    count = sum(piece.layer == layer for piece in rib.pieces)
    yield heading((at[0], at[1]), f"layer {layer}", 3.0, "middle")
    yield figure((at[0], at[1] - 5.0), f"{count} pieces", "middle")


def _piece_name(rib: RibForm, piece: RibPiece, view: View) -> Text:
    """The piece's name along it, or beside it where the rib is thin on paper."""
    x, z, angle = (float(v) for v in rib.centreline.at(0.5 * (piece.start + piece.end)))
    depth = view.length(rib.depth)
    if view.length(piece.end - piece.start) < text_width(piece.name, CAPTION, strong=True) + 1.5:
        return _short_name(rib, piece, view)
    height = min(2.4, max(CAPTION, 0.55 * depth))
    at = view.point(x, z)
    shift = -0.5 * height if depth > height + 1.0 else 0.5 * depth + 1.0
    place = (at[0] - shift * math.sin(angle), at[1] + shift * math.cos(angle))
    return Text(
        at=place, text=piece.name, height=height, anchor="middle", angle=angle, strong=True, halo=False
    )


def _short_name(rib: RibForm, piece: RibPiece, view: View) -> Text:
    """The name of a piece that is shorter than its name, in the room beside it."""
    x, z, _ = (
        float(v)
        for v in rib.inside.at(0.5 * (piece.start + piece.end) / rib.centreline.length * rib.inside.length)
    )
    side = 1.0 if x < float(np.mean(rib.inside.x)) else -1.0
    at = view.point(x, z)
    anchor = "start" if side > 0.0 else "end"
    place = (at[0] + 1.2 * side, at[1] - 0.5 * CAPTION)
    return Text(at=place, text=piece.name, height=CAPTION, anchor=anchor, strong=True, halo=False)


def _joint(rib: RibForm, place: float, number: int, view: View) -> Iterator[Item]:
    """A joint's number outside the rib, with a short line to it."""
    inside, outside = across(rib, view, place)
    size = math.dist(inside, outside)
    u, v = (outside[0] - inside[0]) / size, (outside[1] - inside[1]) / size

    def out(distance: float) -> Point:
        return outside[0] + distance * u, outside[1] + distance * v

    yield Stroke(path=(inside, outside), pen=Pen.CUT, layer="rib")
    yield Stroke(path=(out(0.4), out(2.2)), pen=Pen.DIMENSION, layer="text")
    spot = out(4.2)
    yield Text(at=(spot[0], spot[1] - 1.1), text=str(number), height=2.2, anchor="middle")
