"""The curves over each other, true to scale, under the ground that lies over them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Clip, Hatch, Ink, Item, Pen, Sheet, Stroke, Text, View, Wash
from bermwright.book.sheets.paper import CAPTION, FIGURE, Board, Figures, figure, note, path_of
from bermwright.book.sheets.signs import level_triangle

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.shapes import CurveLine, VaultForm

WIDTH = 174.0
"""Width of the text (mm)."""
SCALE = 50.0
BESIDE, BELOW = 1.2, 0.35
"""Ground shown beside the widest curve, and below the floor (m)."""
PENS = (Pen.SEEN, Pen.HIDDEN, Pen.LIMIT, Pen.LAYER)
"""Line styles of the other curves: the one to take is full and thick, that of the file a chain line."""
MOST = len(PENS) + 1
SAMPLE, LINE = 14.0, 5.2
"""Length of a line's sample in the key, and height of a line of the key (mm)."""
LETTER_AT = (0.80, 0.30, 0.70, 0.38, 0.62, 0.24)
"""Where along its curve each letter would stand: apart from each other."""
WALL = 0.4
"""Width of a wall of which the file says nothing (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnCurve:
    """One curve to be drawn."""

    letter: str
    form: VaultForm
    says: str
    """Its line in the key."""
    replaced: bool = False
    """Whether it is the curve of the file, which another one replaces."""


def curves_sheet(
    curves: Sequence[DrawnCurve], *, standing: float, wall: float | None = None, system: str = "metric"
) -> Sheet:
    """The centrelines of up to six curves over each other, the first the one to take.

    `standing` is the headroom (m), `wall` the thickness of the walls under the first curve (m).
    """
    drawn, figures = tuple(curves[:MOST]), Figures(system=system, metres=True)
    half = 0.5 * WIDTH * SCALE / 1000.0
    widest = max(float(np.max(np.abs(one.form.soil_face.x))) for one in drawn) + BESIDE
    scale = SCALE if widest <= half else 2.0 * SCALE
    tops = [float(np.max(one.form.ground.finished.z)) for one in drawn[:2]]
    top = max(*tops, *(float(np.max(one.form.rib.centreline.z)) for one in drawn))
    key = 2.0 + LINE * len(drawn)
    factor = 1000.0 / scale
    height = key + (top + BELOW) * factor + 4.0
    view = View(origin=(0.5 * WIDTH, key + BELOW * factor), scale=scale)
    window = ((0.0, key), (WIDTH, height))
    items = (
        Clip(low=window[0], high=window[1], items=tuple(_ground(drawn, view, wall or WALL, figures))),
        *_lines(drawn, view),
        *_headroom(drawn[0].form, standing, view, figures),
        *_scale(view, window[1]),
        *_key(drawn),
    )
    alt = "Curves over each other, true to scale: " + "; ".join(one.says for one in drawn) + "."
    return Sheet(width=WIDTH, height=height, items=items, title="Curves compared", alt=alt, view=view)


def _ground(drawn: Sequence[DrawnCurve], view: View, wall: float, figures: Figures) -> Iterator[Item]:
    """Ground in place, the mound over the first curve, the mound of the file as a chain line."""
    first = drawn[0].form
    edge = 0.5 * WIDTH * view.scale / 1000.0 + 0.2
    x = np.unique(np.concatenate([np.linspace(-edge, edge, 401), first.ground.finished.x]))
    natural = first.ground.natural.level(x)
    made = np.maximum(first.ground.finished.level(x), natural)
    bottom = float(np.min(natural)) - 5.0
    deep = np.full_like(x, bottom)
    under = path_of(view, np.concatenate([x, x[::-1]]), np.concatenate([np.minimum(natural, made), deep]))
    yield Area(path=under, wash=Wash.INSITU, hatch=Hatch.EARTH_IN_PLACE, layer="earth")
    mound = path_of(view, np.concatenate([x, x[::-1]]), np.concatenate([made, natural[::-1]]))
    yield Area(path=mound, wash=Wash.EARTH, layer="earth")
    yield Stroke(path=path_of(view, x, natural), pen=Pen.LAYER, layer="earth")
    yield from _room(first, view, wall, figures)
    yield Stroke(path=path_of(view, x, made), pen=Pen.CUT, layer="earth")
    for other in (one for one in drawn if one.replaced):
        line = other.form.ground.finished
        if not np.allclose(line.level(x), made, atol=0.01):
            yield Stroke(path=path_of(view, x, line.level(x)), pen=Pen.NOT_YET, layer="earth")
            middle = view.point(0.0, float(line.level(0.0)))
            yield note((middle[0], middle[1] + 1.2), "ground as in the file", "middle")


def _room(form: VaultForm, view: View, wall: float, figures: Figures) -> Iterator[Item]:
    """The room of the first curve down to the floor, and walls where it stands on any."""
    inside = form.rib.inside
    foot = form.springing
    face = form.soil_face
    shell = [*zip(face.x.tolist(), face.z.tolist(), strict=True)]
    right, left = float(face.x[-1]), float(face.x[0])
    outline = [*shell, (right, min(foot, 0.0)), (left, min(foot, 0.0))]
    yield Area(path=tuple(view.point(*one) for one in outline), wash=Wash.PAPER, layer="room")
    line, outside = form.rib.centreline, form.rib.outside
    rib = [
        *zip(outside.x.tolist(), outside.z.tolist(), strict=True),
        *zip(inside.x[::-1].tolist(), inside.z[::-1].tolist(), strict=True),
    ]
    yield Area(path=tuple(view.point(*one) for one in rib), wash=Wash.TIMBER, outline=Pen.HATCH, layer="rib")
    if foot > 0.0:
        for middle in (float(line.x[0]), float(line.x[-1])):
            low, high = middle - 0.5 * wall, middle + 0.5 * wall
            box = ((low, 0.0), (high, 0.0), (high, foot), (low, foot))
            yield Area(
                path=tuple(view.point(*corner) for corner in box),
                wash=Wash.PAPER,
                hatch=Hatch.MASONRY,
                outline=Pen.SEEN,
                layer="wall",
            )
    floor = (view.point(float(inside.x[0]), 0.0), view.point(float(inside.x[-1]), 0.0))
    yield Stroke(path=floor, pen=Pen.SEEN, layer="room")
    at = view.point(0.0, 0.0)
    yield level_triangle(at)
    yield figure((at[0] + 2.2, at[1] + 0.8), figures.level(0.0))


def _styled(drawn: Sequence[DrawnCurve]) -> list[tuple[Pen, DrawnCurve]]:
    """Each curve with its line style."""
    others = iter(PENS)
    styled = [(Pen.CUT, drawn[0])]
    styled += [(Pen.NOT_YET if one.replaced else next(others), one) for one in drawn[1:]]
    return styled


def _lines(drawn: Sequence[DrawnCurve], view: View) -> Iterator[Item]:
    """The centrelines, the first on top, each with its letter."""
    board = Board()
    for pen, one in reversed(_styled(drawn)):
        line = one.form.rib.centreline
        yield Stroke(path=path_of(view, line.x, line.z), pen=pen, layer="curve")
    for share, one in zip(LETTER_AT, drawn, strict=False):
        yield board.put(_letters(one.letter, one.form.rib.centreline, share, view))


def _letters(letter: str, line: CurveLine, wanted: float, view: View) -> list[Text]:
    """The letter on its own line, at the first free place from the wanted one on."""
    places = [wanted, *(wanted + step for step in (-0.04, 0.04, -0.08, 0.08, -0.12, 0.12, -0.16))]
    found = []
    for share in places:
        x, z, _ = (float(value) for value in line.at(share * line.length))
        at = view.point(x, z)
        found.append(
            Text(at=(at[0], at[1] - 0.5 * FIGURE), text=letter, height=3.0, anchor="middle", strong=True)
        )
    return found


def _headroom(form: VaultForm, standing: float, view: View, figures: Figures) -> Iterator[Item]:
    """How wide one can stand under the first curve."""
    inside = form.rib.inside
    if float(np.max(inside.z)) <= standing:
        return
    x = np.concatenate([inside.x[:1], inside.x, inside.x[-1:]])
    z = np.concatenate([[0.0], inside.z, [0.0]])
    free = x[z >= standing]
    ends = view.point(float(free.min()), standing), view.point(float(free.max()), standing)
    yield Stroke(path=ends, pen=Pen.HIDDEN, layer="dimension")
    width = figures.length(float(free.max() - free.min()))
    words = f"{figures.length(standing)} over the floor: {width} wide"
    yield note((0.5 * (ends[0][0] + ends[1][0]), ends[0][1] - 3.6), words, "middle")


def _scale(view: View, corner: tuple[float, float]) -> Iterator[Item]:
    yield figure((corner[0] - 1.0, corner[1] - 4.0), f"1:{view.scale:.0f}", "end")


def _key(drawn: Sequence[DrawnCurve]) -> Iterator[Item]:
    """A sample of each line, its letter and what it is."""
    for row, (pen, one) in enumerate(_styled(drawn)):
        y = LINE * (len(drawn) - row) - 3.0
        yield Stroke(path=((2.0, y + 1.0), (2.0 + SAMPLE, y + 1.0)), pen=pen, layer="key")
        yield Text(at=(20.0, y), text=one.letter, height=FIGURE, strong=True, ink=Ink.INK, halo=False)
        yield Text(at=(25.0, y), text=one.says, height=CAPTION, halo=False)
