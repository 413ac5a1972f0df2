"""The jig on which ribs are laid up: blocks along inside and outside, with their places."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Item, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.book.sheets.jigs.common import WIDTH, scale_for, told, tool_sheet
from bermwright.book.sheets.paper import Board, Figures, curve_path, figure
from bermwright.data.jigs import BLOCK, BLOCKS

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.setout import SetOut

COLUMNS, FEWER = 3, 2
"""Columns of the table, and those where feet and inches take more room."""
LINE = 3.9
Place = tuple[float, float, float]
"""x, z over the springing (m) and direction of the face (rad)."""


def rib_jig(out: SetOut, figures: Figures) -> Sheet:
    """Blocks every few decimetres: inside ones touch the rib, outside ones leave room for wedges."""
    rib, springing = out.form.rib, out.form.springing
    places = block_places(out)
    wide = float(rib.outside.x.max() - rib.outside.x.min()) + 2.0 * BLOCK.value
    tall = float(rib.outside.z.max() - min(rib.inside.z.min(), rib.outside.z.min())) + 2.0 * BLOCK.value
    scale = scale_for(wide, tall, (WIDTH - 6.0, 96.0))
    rows = math.ceil(len(places) / _columns(figures))
    table = LINE * (rows + 1) + 4.0
    low = float(min(rib.inside.z.min(), rib.outside.z.min())) - BLOCK.value
    view = View(origin=(0.5 * WIDTH, table + 2.0 - 1000.0 * low / scale), scale=scale)
    items = [*_drawing(out, view, places), *_table(places, figures, table - LINE)]
    return tool_sheet(
        "Rib jig on the floor",
        items,
        height=table + 1000.0 * tall / scale + 4.0,
        scale=scale,
        origin=(view.origin[0], view.origin[1] + 1000.0 * springing / scale),
        notes=(
            f"Blocks of {told(BLOCK.value, figures)}, screwed twice; each touches the inside of the rib.",
            "Places count from the axis (+ right) and over the springing.",
            "Strike axis and springing on the floor first, check the diagonals, then the blocks.",
            "A batten bent along them must touch all. Wedges go between rib and outer blocks.",
            "Check after the first rib: span, crown height and both diagonals as in the table of ribs.",
        ),
    )


def block_places(out: SetOut) -> tuple[Place, ...]:
    """Where the inner blocks touch, from the left foot to the right, evenly along the inside."""
    inside = out.form.rib.inside
    count = max(math.ceil(inside.length / BLOCKS.value), 4)
    s = np.linspace(0.0, inside.length, count + 1)
    x, z, angle = inside.at(s)
    return tuple(
        (float(a), float(b) - out.form.springing, float(c)) for a, b, c in zip(x, z, angle, strict=True)
    )


def _drawing(out: SetOut, view: View, places: tuple[Place, ...]) -> Iterator[Item]:
    rib, springing, board = out.form.rib, out.form.springing, Board()
    inner, outer = curve_path(view, rib.inside), curve_path(view, rib.outside)
    yield Area(path=(*inner, *outer[::-1]), wash=Wash.TIMBER, outline=Pen.SEEN)
    half = 0.5 * out.form.span + 0.2
    yield Stroke(path=(view.point(-half, springing), view.point(half, springing)), pen=Pen.HIDDEN)
    top = view.point(0.0, float(rib.outside.z.max()) + 0.1)
    yield Stroke(path=(view.point(0.0, springing - 0.1), top), pen=Pen.NOT_YET)
    for number, (x, z, angle) in enumerate(places, start=1):
        yield _block(view, x, z + springing, angle, -1.0, 0.0)
        yield _block(view, x, z + springing, angle, 1.0, rib.depth + 0.02)
        inward = np.array([math.sin(angle), -math.cos(angle)]) * (BLOCK.value + 0.09)
        spot = view.point(x + float(inward[0]), z + springing + float(inward[1]))
        yield board.put(
            Text(
                at=(spot[0] + right, spot[1] - 1.0),
                text=f"{number}",
                height=2.3,
                anchor="middle",
                strong=True,
            )
            for right in (0.0, 2.5, -2.5)
        )


def _block(view: View, x: float, z: float, angle: float, side: float, away: float) -> Area:
    """A block whose face lies along the curve: inside it (-1) or outside (+1)."""
    along = 0.5 * BLOCK.value * np.array([math.cos(angle), math.sin(angle)])
    out = np.array([-math.sin(angle), math.cos(angle)])
    face = np.array([x, z]) + out * away
    back = face + side * BLOCK.value * out
    corners = (face - along, face + along, back + along, back - along)
    return Area(
        path=tuple(view.point(float(p[0]), float(p[1])) for p in corners), wash=Wash.GREY, outline=Pen.LAYER
    )


def _table(places: tuple[Place, ...], figures: Figures, y: float) -> Iterator[Item]:
    columns = _columns(figures)
    rows = math.ceil(len(places) / columns)
    wide = WIDTH / columns
    for column in range(columns):
        left = column * wide
        yield figure((left + 0.38 * wide, y), "from axis", "end")
        yield figure((left + 0.9 * wide, y), "over springing", "end")
        for row in range(rows):
            number = column * rows + row
            if number >= len(places):
                break
            x, z, _ = places[number]
            at = y - LINE * (row + 1)
            yield Text(at=(left, at), text=f"{number + 1}", height=2.3, strong=True)
            yield Text(at=(left + 0.38 * wide, at), text=_signed(x, figures), height=2.3, anchor="end")
            yield Text(at=(left + 0.9 * wide, at), text=_signed(z, figures), height=2.3, anchor="end")


def _columns(figures: Figures) -> int:
    return COLUMNS if figures.system == "metric" else FEWER


def _signed(value: float, figures: Figures) -> str:
    sign = "−" if value < -5e-4 else ""
    return f"{sign}{figures.length(abs(value))}"
