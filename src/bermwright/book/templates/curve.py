"""The curve itself at full size: one half of a rib's inside, middle and outside, for forms and end walls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Ink, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.book.templates.lengths import METRIC
from bermwright.book.templates.marks import small_words
from bermwright.book.templates.sheets import Stamp, sheet_line, stamp_line, whole_sheet
from bermwright.book.templates.tiles import PAPERS, TRUE, caption_items, frame_items, laid, tiling

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.base.drawing import Path, Point
    from bermwright.book.templates.lengths import Lengths
    from bermwright.book.templates.tiles import Tiling
    from bermwright.form.shapes import RibForm, VaultForm

    Array = NDArray[np.float64]

_MM = 1000.0
SAME = 0.0003
"""Two halves that differ by less are one template, turned over (m)."""
TICK, CROSS, KEEP = 5.0, 6.0, 4.0
POINTS = 400
STEEP = math.radians(50.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Half:
    """One half of a rib, in true millimetres from the axis and the springing line."""

    side: str
    inside: Array
    middle: Array
    outside: Array
    """(n, 2) from the foot to the crown."""
    angle: Array
    """Slope of the middle there (rad), up positive."""
    both: bool
    """Whether the other half is its mirror image."""

    @property
    def outline(self) -> Path:
        """The band of the rib, closed."""
        return tuple(map(_point, [*self.inside, *self.outside[::-1]]))

    @property
    def foot(self) -> Point:
        """Inner edge of the foot."""
        return _point(self.inside[0])

    @property
    def crown(self) -> Point:
        """The inside at the crown."""
        return _point(self.inside[-1])

    @property
    def halfway(self) -> Point:
        """The inside halfway along."""
        return _point(self.inside[POINTS // 2])


def _point(row: Array) -> Point:
    return float(row[0]), float(row[1])


def halves(form: VaultForm) -> tuple[Half, ...]:
    """Both halves, or one where the other is its mirror image."""
    left, right = _half(form.rib, form.springing, "left"), _half(form.rib, form.springing, "right")
    mirrored = np.array([-1.0, 1.0])
    alike = all(
        float(np.max(np.abs(one - other * mirrored))) < SAME * _MM
        for one, other in (
            (left.inside, right.inside),
            (left.middle, right.middle),
            (left.outside, right.outside),
        )
    )
    if not alike:
        return left, right
    return (
        Half(
            side="left",
            inside=left.inside,
            middle=left.middle,
            outside=left.outside,
            angle=left.angle,
            both=True,
        ),
    )


def _half(rib: RibForm, springing: float, side: str) -> Half:
    """One half, from its faces point by point: at a pointed crown they end where both halves meet."""
    line, crown = rib.centreline, _crown(rib)
    # Where the crown is a kink it stands twice, each time with the tangent of its own half.
    apart = 0 if rib.apex is None else int(np.searchsorted(line.s, crown)) + 1
    kept = slice(None) if not apart else slice(0, apart) if side == "left" else slice(apart, None)
    along = line.s[kept]
    ends = (crown, 0.0) if side == "left" else (crown, line.length)
    s = np.linspace(*ends, POINTS + 1)[::-1]
    inside, middle, outside = (
        np.column_stack([np.interp(s, along, curve.x[kept]), np.interp(s, along, curve.z[kept] - springing)])
        for curve in (rib.inside, line, rib.outside)
    )
    return Half(
        side=side,
        inside=inside * _MM,
        middle=middle * _MM,
        outside=outside * _MM,
        angle=np.abs(np.interp(s, along, line.angle[kept])),
        both=False,
    )


def _crown(rib: RibForm) -> float:
    """Arc length of the middle at its point or where it runs level: halves that are alike meet there (m)."""
    if rib.apex is not None:
        return rib.apex
    line = rib.centreline
    top = int(np.argmax(line.z))
    near = slice(max(top - 1, 0), top + 2)
    return float(np.interp(0.0, -line.angle[near], line.s[near]))


def curve_count(form: VaultForm, paper: str = "A4", *, stretch: Point = TRUE) -> int:
    """How many sheets the curve takes."""
    return sum(len(_plan(half, paper, stretch).cells) for half in halves(form))


def curve_templates(
    form: VaultForm,
    paper: str = "A4",
    *,
    stamp: Stamp,
    stretch: Point = TRUE,
    lengths: Lengths = METRIC,
) -> tuple[Sheet, ...]:
    """Every sheet of the curve."""
    total = curve_count(form, paper, stretch=stretch)
    sheets: list[Sheet] = []
    for half in halves(form):
        plan = _plan(half, paper, stretch)
        sheets += _sheets(form, half, plan, stamp, lengths, first=len(sheets) + 1, total=total)
    return tuple(sheets)


def _plan(half: Half, paper: str, stretch: Point) -> Tiling:
    return tiling(half.outline, PAPERS[paper], stretch=stretch)


def _sheets(
    form: VaultForm, half: Half, plan: Tiling, stamp: Stamp, lengths: Lengths, *, first: int, total: int
) -> Iterator[Sheet]:
    drawing = laid(curve_items(half, lengths))
    title = curve_title(form, half)
    for index, cell in enumerate(plan.cells):
        lines = (
            *curve_lines(half, lengths),
            sheet_line(plan, index, first=first, total=total, lengths=lengths),
            stamp_line(stamp),
        )
        yield Sheet(
            width=plan.paper[0],
            height=plan.paper[1],
            items=(
                *frame_items(plan, cell, drawing),
                *caption_items(plan, cell, title, lines, turned=False, ends=("left", "right")),
            ),
            title=f"{title}, sheet {index + 1} of {len(plan.cells)}",
            alt=f"Full-size template of {title}: print at 100 %, check the 100 mm square.",
        )


def whole_curves(form: VaultForm, *, stamp: Stamp, lengths: Lengths = METRIC) -> tuple[Sheet, ...]:
    """Both halves uncut, at 1:1."""
    return tuple(
        whole_sheet(
            curve_items(half, lengths),
            half.outline,
            curve_title(form, half),
            (*curve_lines(half, lengths), stamp_line(stamp)),
        )
        for half in halves(form)
    )


def curve_title(form: VaultForm, half: Half) -> str:
    """`Curve of the day room, left half`."""
    return f"Curve of {form.name}, {half.side} half"


def curve_lines(half: Half, lengths: Lengths = METRIC) -> tuple[str, ...]:
    """What it is, which way it lies, and what proves it."""
    turned = "turned over for the right half" if half.both else "this half only, the other differs"
    chord, lower, upper = (
        lengths.whole(math.dist(one, other))
        for one, other in ((half.foot, half.crown), (half.foot, half.halfway), (half.halfway, half.crown))
    )
    return (
        (
            "all layers · thick line: inside of the ribs, tint is the side of a form that you keep, "
            f"{lengths.tolerance} · "
            "thin: outside, chain: centreline"
        ),
        (
            f"THIS FACE OUT (to the door) · foot at the {half.side}, crown at the axis · {turned} · "
            f"figures: {lengths.unit} from the axis / over the springing"
        ),
        (
            f"whole curve, inside: foot to halfway {lower} · halfway to crown {upper} · "
            f"diagonal foot to crown {chord}"
        ),
    )


def curve_items(half: Half, lengths: Lengths = METRIC) -> tuple[Item, ...]:
    """Everything on the template, in true millimetres."""
    return (
        *_grid(half, lengths.grid),
        Area(path=_tint(half), wash=Wash.KEEP, layer="keep"),
        *_stations(half, lengths),
        Stroke(path=tuple(map(_point, half.middle)), pen=Pen.NOT_YET, layer="joints"),
        Stroke(path=tuple(map(_point, half.outside)), pen=Pen.SEEN, layer="outside"),
        Stroke(path=tuple(map(_point, half.inside)), pen=Pen.TEMPLATE, layer="cut"),
        *_ends(half),
    )


def _tint(half: Half) -> Path:
    """A strip along the inside, on the room side."""
    depth = half.outside - half.inside
    inward = half.inside - depth / np.hypot(*depth.T)[:, None] * KEEP
    return tuple(map(_point, [*half.inside, *inward[::-1]]))


def _grid(half: Half, step: float) -> Iterator[Item]:
    points = np.array(half.outline)
    low, high = points.min(axis=0) - step, points.max(axis=0) + step
    for x in np.arange(step * np.floor(low[0] / step), high[0] + step, step).tolist():
        yield Stroke(path=((x, float(low[1])), (x, float(high[1]))), pen=Pen.HATCH, layer="grid")
    for y in np.arange(step * np.floor(low[1] / step), high[1] + step, step).tolist():
        yield Stroke(path=((float(low[0]), y), (float(high[0]), y)), pen=Pen.HATCH, layer="grid")


def _stations(half: Half, lengths: Lengths) -> Iterator[Item]:
    """Ordinates of the inside: by distance where it is flat, by height where it is steep."""
    x, y = half.inside.T
    flat, steep = half.angle < STEEP, half.angle >= STEEP
    left = half.side == "left"
    order = np.argsort(x[flat])
    for at in _steps(x[flat], lengths.grid):
        height = float(np.interp(at, x[flat][order], y[flat][order]))
        yield from _station((at, height), lengths, upright=True, left=left)
    for at in _steps(y[steep], lengths.grid):
        across = float(np.interp(at, y[steep], x[steep]))
        yield from _station((across, at), lengths, upright=False, left=left)


def _steps(values: Array, step: float) -> list[float]:
    if not values.size:
        return []
    low, high = float(values.min()), float(values.max())
    first = math.ceil(low / step - 1e-9)
    return [step * number for number in range(first, math.floor(high / step + 1e-9) + 1)]


def _station(at: Point, lengths: Lengths, *, upright: bool, left: bool) -> Iterator[Item]:
    """A tick across the inside, its figures on the room side."""
    x, y = at
    path = ((x, y - TICK), (x, y + TICK)) if upright else ((x - TICK, y), (x + TICK, y))
    yield Stroke(path=path, pen=Pen.LAYER, layer="stations")
    away = (TICK + 1.5) * (1.0 if left else -1.0)
    spot = (x + 0.4 * away, y - TICK - 4.0) if upright else (x + away, y - 1.0)
    words = f"{lengths.bare(x)} / {lengths.bare(y)}"
    yield Text(at=spot, text=words, height=2.2, anchor="start" if left else "end", halo=False)


def _ends(half: Half) -> Iterator[Item]:
    """The cuts at foot and crown, crosses at the points that are measured, and words on the sides."""
    for end in (0, -1):
        yield Stroke(path=(_point(half.inside[end]), _point(half.outside[end])), pen=Pen.CUT, layer="cut")
    for point in (half.foot, half.halfway, half.crown):
        x, y = point
        yield Stroke(path=((x - CROSS, y), (x + CROSS, y)), pen=Pen.LAYER, layer="marks")
        yield Stroke(path=((x, y - CROSS), (x, y + CROSS)), pen=Pen.LAYER, layer="marks")
    x, y = half.crown
    yield Stroke(path=((x, y - 60.0), (x, float(half.outside[-1][1]) + 20.0)), pen=Pen.NOT_YET, layer="marks")
    for number in range(POINTS // 16, POINTS, POINTS // 8):
        spot = _point(0.3 * half.inside[number] + 0.7 * half.middle[number])
        yield small_words(spot, "soil side outside, room side inside", angle=_along(half, number))
    yield _name(half.foot, "foot", half.side)
    yield _name(half.crown, "crown", half.side)


def _along(half: Half, number: int) -> float:
    step = half.middle[number + 1] - half.middle[number]
    angle = math.atan2(float(step[1]), float(step[0]))
    return angle if -0.5 * math.pi < angle <= 0.5 * math.pi else angle + math.pi


def _name(at: Point, words: str, side: str) -> Text:
    anchor = "start" if side == "left" else "end"
    away = 8.0 if side == "left" else -8.0
    return Text(
        at=(at[0] + away, at[1] - 9.0), text=words, height=3.0, anchor=anchor, strong=True, ink=Ink.INK
    )
