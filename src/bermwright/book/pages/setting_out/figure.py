"""A rib as its layers lie on one another: outlines, joints and names of the pieces."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Hatch, Ink, Item, Pen, Sheet, Stroke, Text, View, Wash

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path
    from bermwright.form.shapes import CurveLine, RibForm, RibPiece

_WIDTH = 174.0
_ROOM = 11.0
_SCALES = (10.0, 20.0, 25.0, 40.0, 50.0, 100.0)


def rib_figure(rib: RibForm, width: float = _WIDTH) -> Sheet:
    """One rib, seen from the door, as large as the width allows."""
    x, z = rib.outside.x, rib.outside.z
    reach = float(x.max() - x.min())
    scale = next((step for step in _SCALES if reach * 1000.0 / step < width - 2.0 * _ROOM), _SCALES[-1])
    foot = float(min(rib.inside.z.min(), z.min()))
    middle = 0.5 * float(x.max() + x.min())
    factor = 1000.0 / scale
    view = View(origin=(0.5 * width - middle * factor, 4.0 - foot * factor), scale=scale)
    height = (float(z.max()) - foot) * factor + _ROOM + 5.0
    items = tuple(_items(rib, view))
    caption = Text(at=(width - 1.0, 1.2), text=f"1:{scale:.0f}", height=2.2, anchor="end", ink=Ink.SOFT)
    return Sheet(
        width=width,
        height=height,
        items=(*items, caption),
        title="Rib and its pieces",
        alt=f"A rib of {len(rib.pieces)} pieces in {rib.layers} layers.",
    )


def _items(rib: RibForm, view: View) -> Iterator[Item]:
    outline = (*_path(rib.inside, view), *reversed(_path(rib.outside, view)))
    yield Area(path=outline, wash=Wash.TIMBER, hatch=Hatch.NONE, outline=Pen.CUT)
    joints = [(0, s, layer) for s, layer in zip(rib.joints.tolist(), rib.joint_layers, strict=True)]
    for _, s, layer in joints:
        pen = Pen.SEEN if layer == 1 else Pen.HIDDEN
        yield Stroke(path=(_across(rib, view, s, -0.5), _across(rib, view, s, 0.5)), pen=pen)
    patterns: dict[tuple[float, ...], list[RibPiece]] = {}
    for piece in rib.pieces:
        patterns.setdefault((round(piece.start, 4), round(piece.end, 4)), []).append(piece)
    for pieces in patterns.values():
        yield _name(rib, view, pieces)


def _name(rib: RibForm, view: View, pieces: list[RibPiece]) -> Text:
    """The names of the pieces that cover one another: first layer outside, the others inside."""
    first = pieces[0]
    outside = first.layer == 1
    beyond = 5.0 if outside else -6.0
    s = 0.5 * (first.start + first.end)
    x, y = _across(rib, view, s, 0.5 if outside else -0.5, beyond)
    text = ", ".join(piece.name for piece in pieces)
    place = _across(rib, view, s, 0.0)
    lean = x - place[0]
    anchor = "middle" if abs(lean) < 2.0 else "start" if lean > 0 else "end"
    return Text(at=(x, y - 1.1), text=text, height=2.2, anchor=anchor, strong=outside)


def _across(rib: RibForm, view: View, s: float, share: float, beyond: float = 0.0) -> tuple[float, float]:
    """A point at arc length s, a share of the depth off the centreline and some millimetres further."""
    x, z, angle = (float(value) for value in rib.centreline.at(s))
    off = share * rib.depth
    at = view.point(x - off * np.sin(angle), z + off * np.cos(angle))
    return (at[0] - beyond * float(np.sin(angle)), at[1] + beyond * float(np.cos(angle)))


def _path(line: CurveLine, view: View) -> Path:
    step = max(1, line.x.size // 160)
    x, z = np.append(line.x[:-1:step], line.x[-1]), np.append(line.z[:-1:step], line.z[-1])
    return tuple(view.point(float(a), float(b)) for a, b in zip(x, z, strict=True))
