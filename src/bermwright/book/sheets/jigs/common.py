"""What drawings of tools share: size, title, notes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Item, Lettering, Pen, Sheet, Text, View, Wash
from bermwright.book.sheets.paper import moved
from bermwright.book.sheets.setout.day import folded

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.base.drawing import Hatch
    from bermwright.book.sheets.paper import Figures

WIDTH = 174.0
HEAD, LETTER, LINE = 4.0, 2.3, 4.0
TOOL_SCALES = (1.0, 2.0, 5.0, 10.0, 20.0, 25.0, 30.0, 50.0)


def tool_sheet(
    title: str,
    items: Iterable[Item],
    *,
    height: float,
    scale: float,
    notes: tuple[str, ...] = (),
    origin: tuple[float, float] = (0.0, 0.0),
) -> Sheet:
    """A drawing `height` high, its title above and its notes below."""
    lines = [line for note in notes for line in folded(f"– {note}", WIDTH - 4.0, LETTER)]
    foot = LINE * len(lines) + 3.0
    drawn = [moved(item, (0.0, foot)) for item in items]
    whole = foot + height + HEAD + 5.0
    head = Text(at=(0.0, whole - HEAD - 0.5), text=title, height=HEAD, face=Lettering.WORDS, strong=True)
    words = [
        Text(at=(0.0, foot - 3.4 - LINE * number), text=line, height=LETTER)
        for number, line in enumerate(lines)
    ]
    sized = Text(at=(WIDTH, whole - HEAD), text=f"1:{scale:.0f}", height=LETTER, anchor="end")
    return Sheet(
        width=WIDTH,
        height=whole,
        items=(*drawn, head, sized, *words),
        title=title,
        alt=f"{title}, 1:{scale:.0f}. {' '.join(notes)}",
        view=View(origin=(origin[0], origin[1] + foot), scale=scale),
    )


def told(metres: float, figures: Figures) -> str:
    """A length in a sentence, with its unit."""
    return figures.length(metres) + (" mm" if figures.system == "metric" else "")


def scale_for(wide: float, tall: float, room: tuple[float, float]) -> float:
    """The largest scale at which metres fit into millimetres of paper."""
    fits = (one for one in TOOL_SCALES if 1000.0 * wide / one <= room[0] and 1000.0 * tall / one <= room[1])
    return next(fits, TOOL_SCALES[-1])


def box(
    x: float, y: float, wide: float, tall: float, wash: Wash = Wash.TIMBER, hatch: Hatch | None = None
) -> Area:
    """A rectangle of material (mm)."""
    path = ((x, y), (x + wide, y), (x + wide, y + tall), (x, y + tall))
    if hatch is None:
        return Area(path=path, wash=wash, outline=Pen.CUT)
    return Area(path=path, wash=wash, hatch=hatch, outline=Pen.CUT, along=0.0)
