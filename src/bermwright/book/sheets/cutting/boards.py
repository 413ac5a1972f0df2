"""Boards as they are sawn: pieces from the marked end, faults, offcuts, and where each cut ends."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.lettering import text_width
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.paper import CAPTION, FIGURE, Figures, figure, heading, note

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path
    from bermwright.takeoff.cutting import CutList, Placed, SawnBoard

SCALES = (10, 20, 25, 30, 40, 50, 75, 100)
HEAD, GAP = 14.0, 14.5
"""Paper over the first board, and for the words of each (mm)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardPattern:
    """Boards that are sawn alike."""

    number: int
    boards: tuple[SawnBoard, ...]

    @property
    def first(self) -> SawnBoard:
        """One of them; its labels are its own."""
        return self.boards[0]

    @property
    def names(self) -> str:
        """What the boards are called: "barn floor A 1 to 4, 7"."""
        stock, numbers = self.first.stock, [board.name for board in self.boards]
        if len(numbers) == 1:
            return numbers[0]
        counted = sorted(int(name[len(stock) + 1 :]) for name in numbers)
        return f"{stock} {_runs(counted)}"


def _runs(numbers: list[int]) -> str:
    """Numbers with runs drawn together.

    >>> _runs([1, 2, 3, 7, 9, 10])
    '1 to 3, 7, 9, 10'
    """
    starts = [0, *(at for at, (a, b) in enumerate(pairwise(numbers), 1) if b != a + 1), len(numbers)]
    runs = [numbers[low:high] for low, high in pairwise(starts)]
    return ", ".join(
        f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(map(str, run)) for run in runs if run
    )


def board_patterns(cut: CutList) -> tuple[BoardPattern, ...]:
    """Boards that are sawn alike together, in the order of the yard."""
    groups: dict[tuple[object, ...], list[SawnBoard]] = {}
    for board in cut.boards:
        key = (
            board.stock,
            *((*(kind.key for kind in one.kinds), one.start) for one in board.placed),
        )
        groups.setdefault(key, []).append(board)
    return tuple(
        BoardPattern(number=number, boards=tuple(boards)) for number, boards in enumerate(groups.values(), 1)
    )


def board_sheets(
    cut: CutList,
    codes: dict[str, str],
    *,
    width: float = 174.0,
    height: float = 236.0,
    system: str = "metric",
) -> tuple[Sheet, ...]:
    """Every way of sawing, drawn to scale from the marked end."""
    patterns = board_patterns(cut)
    if not patterns:
        return ()
    longest = max(pattern.first.length for pattern in patterns)
    scale = next((one for one in SCALES if longest * 1000.0 / one <= width - 2.0), SCALES[-1])
    pages: list[list[BoardPattern]] = [[]]
    room = height - HEAD
    for pattern in patterns:
        need = pattern.first.width * 1000.0 / scale + GAP
        if need > room and pages[-1]:
            pages.append([])
            room = height - HEAD
        pages[-1].append(pattern)
        room -= need
    figures = Figures(system=system)
    return tuple(
        _page(page, (number, len(pages)), codes, (scale, width), figures)
        for number, page in enumerate(pages, 1)
    )


def _page(
    patterns: list[BoardPattern],
    count: tuple[int, int],
    codes: dict[str, str],
    paper: tuple[int, float],
    figures: Figures,
) -> Sheet:
    scale, width = paper
    heights = [pattern.first.width * 1000.0 / scale + GAP for pattern in patterns]
    height = HEAD + sum(heights)
    items: list[Item] = [
        heading((0.0, height - 5.0), "Boards as they are sawn"),
        figure(
            (0.0, height - 10.0),
            f"1:{scale}; marks count from the marked end at the left; saw on the far side of each mark",
        ),
        note((width, height - 5.0), f"{NOT_REVIEWED}; sheet {count[0]} of {count[1]}", "end"),
    ]
    y = height - HEAD
    for pattern, need in zip(patterns, heights, strict=True):
        y -= need
        items += _board(pattern, codes, (y + 7.0, scale), figures)
    names = "; ".join(pattern.names for pattern in patterns)
    return Sheet(
        width=width,
        height=height,
        items=tuple(items),
        title=f"Boards, sheet {count[0]}",
        alt=f"Boards as they are sawn: {names}.",
    )


def _board(
    pattern: BoardPattern, codes: dict[str, str], at: tuple[float, int], figures: Figures
) -> Iterator[Item]:
    y, scale = at
    board, factor = pattern.first, 1000.0 / scale
    high = y + board.width * factor

    def box(start: float, end: float, low: float = y, top: float = high) -> Path:
        x0, x1 = start * factor, end * factor
        return ((x0, low), (x1, low), (x1, top), (x0, top))

    yield Area(path=box(0.0, board.length), wash=Wash.PAPER, outline=Pen.SEEN, layer="board")
    for start, end in board.faults:
        yield Area(path=box(start, end), wash=Wash.GREY, hatch=Hatch.NONE, outline=Pen.LAYER, layer="fault")
    for offcut in board.offcuts:
        yield Area(path=box(offcut.start, offcut.end), wash=Wash.KEEP, outline=Pen.LAYER, layer="offcut")
        middle = 0.5 * (offcut.start + offcut.end) * factor
        yield _inside(middle, y, high, "keep", (offcut.end - offcut.start) * factor)
    for placed in board.placed:
        yield Area(path=box(placed.start, placed.end), wash=Wash.TIMBER, outline=Pen.SEEN, layer="piece")
        yield from _piece(placed, codes, (y, high), factor)
    yield from _marks(board, y, factor, figures)
    times = f"  × {len(pattern.boards)}" if len(pattern.boards) > 1 else ""
    size = (
        f"{figures.length(board.thickness)} × {figures.length(board.width)} × {figures.length(board.length)}"
    )
    yield Text(at=(0.0, high + 1.6), text=f"{pattern.number}{times}", height=FIGURE, strong=True)
    words = f"{_short(pattern.names, 92.0)}, {size}"
    yield Text(at=(18.0, high + 1.6), text=words, height=CAPTION, halo=False)


def _marks(board: SawnBoard, y: float, factor: float, figures: Figures) -> Iterator[Item]:
    """Where to saw, from the marked end; a figure that would meet the one before stands a line lower."""
    taken, level = -1.0, 0
    for placed in board.placed:
        end, text = placed.end * factor, figures.length(placed.end)
        start = end - text_width(text, CAPTION)
        level = 1 - level if start < taken + 1.0 else 0
        taken = end
        yield Stroke(path=((end, y), (end, y - 1.4 - 2.6 * level)), pen=Pen.TICK, layer="marks")
        yield Text(at=(end, y - 3.9 - 2.6 * level), text=text, height=CAPTION, anchor="end", halo=False)


def _short(text: str, room: float) -> str:
    """As much of a name as finds room."""
    while text_width(text, CAPTION) > room:
        text = f"{text.rstrip('… ')[:-1].rstrip(', ')}…"
    return text


def _piece(placed: Placed, codes: dict[str, str], ends: tuple[float, float], factor: float) -> Iterator[Item]:
    """The code of a piece; lines along the board where outlines lie beside each other."""
    low, high = ends
    x0, x1 = placed.start * factor, placed.end * factor
    used = low + placed.width * factor
    if used < high - 0.2:
        yield Stroke(path=((x0, used), (x1, used)), pen=Pen.HIDDEN, layer="piece")
    for gap in gaps_of(placed):
        y = low + gap * factor
        yield Stroke(path=((x0, y), (x1, y)), pen=Pen.HIDDEN, layer="piece")
    # Not on a line: in the lowest of outlines that lie beside each other.
    first = min([used, *(low + gap * factor for gap in gaps_of(placed))])
    yield _inside(0.5 * (x0 + x1), low, first, code_of(placed, codes), x1 - x0)


def code_of(placed: Placed, codes: dict[str, str]) -> str:
    """What a blank holds, such as "2 × A" or "A + C"."""
    counts = Counter(codes[kind.key] for kind in placed.kinds)
    return " + ".join(code if count == 1 else f"{count} × {code}" for code, count in counts.items())


def gaps_of(placed: Placed) -> list[float]:
    """How far across each outline after the first lies (m)."""
    alike = len(placed.labels) - (placed.other is not None)
    steps = [placed.kind.step * number for number in range(1, alike)]
    return [*steps, *([] if placed.other is None else [placed.other.gap])]


def _inside(x: float, low: float, high: float, text: str, room: float) -> Text:
    height = FIGURE if text_width(text, FIGURE) < room - 1.0 else CAPTION
    return Text(
        at=(x, 0.5 * (low + high) - 0.5 * height), text=text, height=height, anchor="middle", halo=False
    )
