"""The shell unrolled: ribs as strips, openings with what is cut, trimmers and headers, dimensioned."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Clip, Dimension, Hatch, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.openings.ends import PAGE
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.book.sheets.settling import settled
from bermwright.form.holes import Hole, rib_places

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path
    from bermwright.form.shapes import VaultForm

SCALES = (20.0, 50.0, 100.0, 200.0, 500.0)
"""Reductions of ISO 5455."""
SIDE, FOOT, HEAD = 24.0, 22.0, 16.0
"""Paper beside, under and over the shell (mm)."""
APART = 5.0
"""Two rib numbers need so much paper (mm)."""
NEAR = 20.0
"""Scale of the drawing of one opening."""
ROUND = 0.45
"""What is shown round an opening (m)."""


def shell_sheet(
    form: VaultForm,
    holes: tuple[Hole, ...],
    *,
    room: tuple[float, float] = PAGE,
    system: str = "metric",
) -> Sheet:
    """The shell rolled out flat: the front on the left, the left foot at the bottom."""
    width, height = room
    around = form.rib.centreline.length
    fits = (
        one
        for one in SCALES
        if 1000.0 * form.length / one + 2 * SIDE <= width and 1000.0 * around / one + FOOT + HEAD <= height
    )
    scale = next(fits, SCALES[-1])
    view = View(origin=(SIDE, FOOT), scale=scale)
    tall = around * 1000.0 / scale + FOOT + HEAD
    figures = Figures(system=system)
    items = [
        *_ribs(form, holes, view),
        *_lines(form, view),
        *(item for hole in holes for item in _hole(form, hole, view, figures)),
        *_chain(holes, view, figures),
        heading((0.0, tall - 5.0), f"The shell of {form.name}, rolled out"),
        figure(
            (0.0, tall - 10.5),
            f"1:{scale:.0f}; front on the left, left foot below; up the sheet is measured along the ribs",
        ),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    names = "; ".join(f"{hole.opening.name} cuts ribs {_numbers(hole)}" for hole in holes)
    sheet = Sheet(
        width=width,
        height=tall,
        items=tuple(items),
        title="The shell rolled out",
        alt=f"The shell of {form.name} rolled out flat: {names}.",
        view=view,
    )
    return settled(sheet)


def _numbers(hole: Hole) -> str:
    return ", ".join(map(str, hole.cut)) or "none"


def _box(view: View, x: tuple[float, float], s: tuple[float, float]) -> Path:
    low, high = view.point(x[0], s[0]), view.point(x[1], s[1])
    return low, (high[0], low[1]), high, (low[0], high[1])


def _ribs(form: VaultForm, holes: tuple[Hole, ...], view: View) -> Iterator[Item]:
    """Every rib as a strip, interrupted where it is cut; those beside a hole as many as stand there."""
    around, half = form.rib.centreline.length, 0.5 * form.rib.width
    for number, at in enumerate(rib_places(form), start=1):
        cuts = sorted((hole.low, hole.high) for hole in holes if number in hole.cut)
        beside = max(
            (hole.opening.doubled for hole in holes if number in hole.trimmers and hole.cut), default=1
        )
        edges = [0.0, *(edge for cut in cuts for edge in cut), around]
        for low, high in zip(edges[::2], edges[1::2], strict=True):
            for copy in range(beside):
                x = at + (copy - 0.5 * (beside - 1)) * form.rib.width
                yield Area(
                    path=_box(view, (x - half, x + half), (low, high)),
                    wash=Wash.TIMBER,
                    hatch=Hatch.TIMBER_ALONG if beside > 1 else Hatch.NONE,
                    along=1.5708,
                    outline=Pen.SEEN,
                    layer="rib",
                )
        foot = view.point(at, 0.0)
        if number != form.ribs - 1 or view.length(form.length - at) > APART:
            yield figure((foot[0], foot[1] - 4.0), str(number), "middle")


def _lines(form: VaultForm, view: View) -> Iterator[Item]:
    """Both feet and the crown."""
    around = form.rib.centreline.length
    crown = float(form.mesh.s[form.mesh.crown])
    for s, pen, words in (
        (0.0, Pen.CUT, "left foot"),
        (crown, Pen.NOT_YET, "crown"),
        (around, Pen.CUT, "right foot"),
    ):
        start, stop = view.point(-0.15, s), view.point(form.length + 0.15, s)
        yield Stroke(path=(start, stop), pen=pen)
        yield note((stop[0] + 1.0, stop[1] - 0.8), words)


def _hole(form: VaultForm, hole: Hole, view: View, figures: Figures) -> Iterator[Item]:
    yield from _opening(form, hole, view)
    half = 0.5 * hole.opening.width
    high = view.point(hole.along, hole.high)
    deep = view.length(header_depth(hole))
    yield note((high[0], high[1] + deep + 1.2), hole.opening.name, "middle")
    right = view.point(hole.along + half, 0.0)[0]
    yield Dimension(
        start=(right, view.point(0.0, hole.low)[1]),
        end=(right, high[1]),
        offset=-7.0 - view.length(form.spacing),
        text=figures.length(hole.high - hole.low),
    )


def _opening(form: VaultForm, hole: Hole, view: View) -> Iterator[Item]:
    """The hole, crossed out, and its headers."""
    half = 0.5 * hole.opening.width
    box = _box(view, (hole.along - half, hole.along + half), (hole.low, hole.high))
    yield Area(path=box, wash=Wash.PAPER, outline=Pen.CUT, layer="openings")
    yield Stroke(path=(box[0], box[2]), pen=Pen.LAYER, layer="openings")
    yield Stroke(path=(box[1], box[3]), pen=Pen.LAYER, layer="openings")
    for edge in hole.edges(form):
        yield from _header(form, hole, edge, view)


def header_depth(hole: Hole) -> float:
    """Thickness of a header along the ribs (m)."""
    header = hole.opening.header
    return 0.0 if header is None else header.thickness * hole.opening.header_boards


def header_ends(form: VaultForm, hole: Hole) -> tuple[float, float]:
    """Where a header meets the ribs beside the hole, along the axis (m)."""
    places = rib_places(form)
    inner = 0.5 * form.rib.width * hole.opening.doubled
    left, right = (places[min(max(number - 1, 0), len(places) - 1)] for number in hole.trimmers)
    return left + inner, right - inner


def _header(form: VaultForm, hole: Hole, edge: float, view: View) -> Iterator[Item]:
    """A header from trimmer to trimmer, outside the hole."""
    if hole.opening.header is None or not hole.cut:
        return
    deep = header_depth(hole)
    low = (edge, edge + deep) if edge == hole.high else (edge - deep, edge)
    yield Area(
        path=_box(view, header_ends(form, hole), low),
        wash=Wash.TIMBER,
        hatch=Hatch.TIMBER_ALONG,
        along=0.0,
        outline=Pen.CUT,
        layer="openings",
    )


def _chain(holes: tuple[Hole, ...], view: View, figures: Figures) -> Iterator[Item]:
    """Under the shell: from the front to the middle of each opening, and its width; left, up to its edge."""
    for count, hole in enumerate(sorted(holes, key=lambda one: one.along)):
        base = view.point(0.0, 0.0)
        middle = view.point(hole.along, 0.0)
        yield Dimension(start=base, end=middle, offset=-9.0 - 6.0 * count, text=figures.length(hole.along))
        yield Stroke(
            path=((middle[0], base[1] - 9.0 - 6.0 * count), view.point(hole.along, hole.low)), pen=Pen.NOT_YET
        )
        up = view.point(0.0, hole.low)
        yield Dimension(
            start=(base[0], up[1]), end=base, offset=-6.0 - 6.0 * count, text=figures.length(hole.low)
        )
        yield Stroke(
            path=(up, view.point(hole.along - 0.5 * hole.opening.width, hole.low)), pen=Pen.DIMENSION
        )
        half = 0.5 * hole.opening.width
        yield Dimension(
            start=view.point(hole.along - half, hole.low),
            end=view.point(hole.along + half, hole.low),
            offset=-5.0,
            text=figures.length(hole.opening.width),
        )


def hole_sheet(form: VaultForm, hole: Hole, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """One opening near by: what is cut, the ribs beside it and the headers, with their lengths."""
    places = rib_places(form)
    left, right = (places[min(max(number - 1, 0), len(places) - 1)] for number in hole.trimmers)
    low, high = hole.low - ROUND, hole.high + ROUND
    figures = Figures(system=system)
    factor = 1000.0 / NEAR
    wide = (right - left + 2.0 * ROUND) * factor
    height = (high - low) * factor + FOOT + HEAD
    view = View(origin=(SIDE - (left - ROUND) * factor, FOOT - low * factor), scale=NEAR)
    seen = Clip(
        low=(SIDE, FOOT),
        high=(min(SIDE + wide, width), FOOT + (high - low) * factor),
        items=(*_ribs(form, (hole,), view), *_opening(form, hole, view)),
    )
    items: list[Item] = [
        seen,
        *_near_dimensions(form, hole, view, figures),
        heading((0.0, height - 5.0), hole.opening.name),
        figure((0.0, height - 10.5), f"1:{NEAR:.0f}; {_near_words(hole, figures)}"),
        note((width, 1.5), NOT_REVIEWED, "end"),
    ]
    alt = f"{hole.opening.name}: cuts ribs {_numbers(hole)}; {_near_words(hole, figures)}."
    return settled(
        Sheet(width=width, height=height, items=tuple(items), title=hole.opening.name, alt=alt, view=view)
    )


def _near_words(hole: Hole, figures: Figures) -> str:
    opening = hole.opening
    beside = "one rib" if opening.doubled == 1 else f"{opening.doubled} ribs"
    words = f"cuts rib {_numbers(hole)}; {beside} on each side"
    if opening.header is None:
        return f"{words}; header not said"
    size = f"{figures.length(opening.header.thickness)} × {figures.length(opening.header.width)}"
    boards = "" if opening.header_boards == 1 else f"{opening.header_boards} of "
    return f"{words}; header {boards}{size}"


def _near_dimensions(form: VaultForm, hole: Hole, view: View, figures: Figures) -> Iterator[Item]:
    """Width and length of the hole; length of a header between the ribs beside it."""
    half = 0.5 * hole.opening.width
    bottom = view.point(0.0, hole.low - ROUND)[1]
    start, stop = view.point(hole.along - half, 0.0)[0], view.point(hole.along + half, 0.0)[0]
    yield Dimension(start=(start, bottom), end=(stop, bottom), offset=-5.0, text=figures.length(2 * half))
    if hole.cut:
        left, right = header_ends(form, hole)
        one, two = view.point(left, 0.0)[0], view.point(right, 0.0)[0]
        yield Dimension(
            start=(one, bottom), end=(two, bottom), offset=-12.0, text=figures.length(right - left)
        )
    side = view.point(rib_places(form)[0], 0.0)[0]
    edge = max(side, SIDE)
    yield Dimension(
        start=(edge, view.point(0.0, hole.high)[1]),
        end=(edge, view.point(0.0, hole.low)[1]),
        offset=-6.0,
        text=figures.length(hole.high - hole.low),
    )
