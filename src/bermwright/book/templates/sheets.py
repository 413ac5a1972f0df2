"""What the captions of all templates say alike: where a sheet belongs, whose it is; and uncut drawings."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Lettering, Sheet, Text
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.templates.lengths import METRIC
from bermwright.book.templates.marks import SQUARE
from bermwright.book.templates.tiles import mark_name, moved

if TYPE_CHECKING:
    from bermwright.base.drawing import Item, Path
    from bermwright.book.templates.lengths import Lengths
    from bermwright.book.templates.tiles import Tiling

LONGEST_NAME = 40
MARGIN, FOOT, LINE = 20.0, 46.0, 5.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Stamp:
    """What every sheet says of itself."""

    house: str
    revision: str
    mark: str = NOT_REVIEWED


def sheet_line(plan: Tiling, index: int, *, first: int, total: int, lengths: Lengths = METRIC) -> str:
    """Which sheet it is, where it is laid on its neighbours, what is measured first."""
    column, row = plan.cells[index]
    parts = [f"sheet {index + 1} of {len(plan.cells)}", f"template page {first + index} of {total}"]
    cells = set(plan.cells[:index])
    if (column, row - 1) in cells:
        parts.append(f"lay on marks {mark_name(column, row)} {mark_name(column + 1, row)}")
    if (column - 1, row) in cells:
        parts.append(f"lay on marks {mark_name(column, row)} {mark_name(column, row + 1)}")
    true = "" if plan.stretch == (1.0, 1.0) else "corrected for this printer · "
    square = "check square 100.0 × 100.0, diagonal 141.4 mm"
    if lengths.inches:  # the bar that corrects a printer is read in millimetres
        square += f" ({lengths.whole(SQUARE)}, {lengths.whole(math.sqrt(2.0) * SQUARE)})"
    return " · ".join([*parts, f"{true}print at 100 %, no fit to page", square])


def stamp_line(stamp: Stamp) -> str:
    """House, revision and the mark."""
    name = stamp.house if len(stamp.house) <= LONGEST_NAME else stamp.house[: LONGEST_NAME - 1] + "…"
    revision = f"revision {stamp.revision}" if stamp.revision else ""
    return " · ".join(part for part in (name, revision, stamp.mark) if part)


def whole_sheet(drawing: tuple[Item, ...], outline: Path, title: str, lines: tuple[str, ...]) -> Sheet:
    """A template uncut, at 1:1, with its words below: for plotters, saws and other programs."""
    points = np.array(outline)
    low, high = points.min(axis=0), points.max(axis=0)
    left, foot = float(low[0]) - MARGIN, float(low[1]) - MARGIN - FOOT
    items = [
        moved(item, lambda point: (point[0] - left, point[1] - foot))
        for item in drawing
        if getattr(item, "layer", "") != "grid"
    ]
    words: list[Item] = [
        Text(at=(MARGIN, FOOT - 8.0), text=title, height=6.0, face=Lettering.WORDS, strong=True, halo=False)
    ]
    for number, line in enumerate(lines):
        words.append(Text(at=(MARGIN, FOOT - 15.0 - LINE * number), text=line, height=2.6, halo=False))
    wide = max(float(high[0] - low[0]) + 2.0 * MARGIN, 420.0)
    return Sheet(
        width=wide,
        height=float(high[1] - low[1]) + 2.0 * MARGIN + FOOT,
        items=(*items, *words),
        title=title,
        alt=f"{title}, full size, uncut",
    )
