"""A rib of bent boards: every board in its place, the butts of each layer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Dimension, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import Figures, figure, heading
from bermwright.book.sheets.parts.shell import rib_words
from bermwright.book.sheets.section import SCALES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import RibForm, RibPiece, VaultForm

HEAD, FOOT, SIDE = 18.0, 12.0, 12.0
"""Paper over, under and beside the rib (mm)."""
NEAR = 1e-6
"""A board that begins nearer to a foot than this begins there (m)."""


def bent_rib_sheet(form: VaultForm, *, width: float = 174.0, system: str = "metric") -> Sheet:
    """The rib seen from the door, each butt marked across its board with the number of its layer."""
    rib, figures = form.rib, Figures(system=system)
    wide = float(rib.outside.x.max() - rib.outside.x.min())
    scale = next((one for one in SCALES if wide * 1000.0 / one <= width - 2 * SIDE), SCALES[-1])
    factor = 1000.0 / scale
    middle = 0.5 * float(rib.outside.x.min() + rib.outside.x.max())
    low, high = float(rib.outside.z.min()), float(rib.outside.z.max())
    view = View(origin=(0.5 * width - middle * factor, FOOT - low * factor), scale=scale)
    height = (high - low) * factor + FOOT + HEAD
    feet = (view.point(-0.5 * form.span, form.springing), view.point(0.5 * form.span, form.springing))
    items: list[Item] = [
        *(_board(piece, view) for piece in rib.pieces),
        *(item for piece in rib.pieces for item in _butt(rib, piece, view)),
        heading((0.0, height - 5.0), "Rib of bent boards, seen from the door"),
        figure((0.0, height - 10.5), f"1:{scale:.0f}; {rib_words(form, figures)}; layer 1 is the innermost"),
        Dimension(start=feet[0], end=feet[1], offset=-6.0, text=figures.length(form.span)),
    ]
    names = ", ".join(piece.name for piece in rib.pieces)
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title="Rib of bent boards",
        alt=f"Rib of {form.name} from bent boards {names}.",
        view=view,
    )


def _board(piece: RibPiece, view: View) -> Area:
    path = tuple(view.point(x, z) for x, z in piece.outline)
    return Area(path=path, wash=Wash.TIMBER, outline=Pen.HATCH, layer="rib")


def _butt(rib: RibForm, piece: RibPiece, view: View) -> Iterator[Item]:
    """The butt at a board's right end: a stroke across it, and a line out to the number of its layer."""
    if piece.end > rib.centreline.length - NEAR:
        return
    half = len(piece.outline) // 2
    inner, outer = piece.outline[half - 1], piece.outline[half]
    yield Stroke(path=(view.point(*inner), view.point(*outer)), pen=Pen.CUT, layer="rib")
    x, z, _ = rib.outside.at(piece.end / rib.centreline.length * rib.outside.length)
    cx, cz, _ = rib.centreline.at(piece.end)
    size = max(float((x - cx) ** 2 + (z - cz) ** 2) ** 0.5, NEAR)
    out = (float(x - cx) / size, float(z - cz) / size)
    edge = view.point(float(x), float(z))
    yield Stroke(
        path=(view.point(*outer), (edge[0] + 2.2 * out[0], edge[1] + 2.2 * out[1])), pen=Pen.DIMENSION
    )
    yield figure((edge[0] + 4.4 * out[0], edge[1] + 4.4 * out[1] - 1.2), str(piece.layer), "middle")
