"""A plan of lengths turned into boards with marks to saw at, labels and offcuts."""

from __future__ import annotations

import itertools
from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from bermwright.takeoff.cutting.nouns import Offcut, Placed, SawnBoard
from bermwright.takeoff.cutting.yard import lost_of

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from bermwright.handbook.boards import CuttingPlan
    from bermwright.takeoff.cutting.nouns import Blank, CutList, SawWords
    from bermwright.takeoff.cutting.yard import ClearStretch, YardBoard

    Cuts = dict[tuple[str, int], list[tuple[ClearStretch, tuple[Placed, ...]]]]


def sawn_boards(
    blanks: Sequence[Blank], plan: CuttingPlan, stretches: Sequence[ClearStretch], saw: SawWords
) -> tuple[SawnBoard, ...]:
    """Every board that is cut into, in the order of the yard, its stretches together."""
    labels = {id(kind): iter(kind.labels) for blank in blanks for kind in blank.kinds}
    taken: dict[int, int] = defaultdict(int)
    found: Cuts = defaultdict(list)
    boards: dict[str, YardBoard] = {}
    for cut in plan.cuts:
        stretch = stretches[cut.stretch]
        boards[stretch.board.name] = stretch.board
        for _ in range(cut.times):
            taken[cut.stretch] += 1
            placed = tuple(_laid(stretch, [blanks[at] for at in cut.pieces], labels, saw.kerf))
            found[(stretch.board.name, taken[cut.stretch])].append((stretch, placed))
    order = {name: place for place, name in enumerate(dict.fromkeys(s.board.name for s in stretches))}
    keys = sorted(found, key=lambda key: (order[key[0]], key[1]))
    clear: dict[str, list[ClearStretch]] = defaultdict(list)
    for stretch in stretches:
        clear[stretch.board.name].append(stretch)
    return tuple(
        _board(
            boards[name],
            number,
            [*found[(name, number)], *_untouched(found[(name, number)], clear[name])],
            saw,
        )
        for name, number in keys
    )


def _untouched(
    cuts: list[tuple[ClearStretch, tuple[Placed, ...]]], clear: list[ClearStretch]
) -> Iterator[tuple[ClearStretch, tuple[Placed, ...]]]:
    """Stretches of a board that is cut into, beyond its faults, from which nothing is taken."""
    taken = {stretch.start for stretch, _ in cuts}
    yield from ((stretch, ()) for stretch in clear if stretch.start not in taken)


def _laid(
    stretch: ClearStretch, blanks: list[Blank], labels: dict[int, Iterator[str]], kerf: float
) -> Iterator[Placed]:
    """Blanks one after the other from the marked end, a saw cut between them."""
    at = stretch.start
    for blank in blanks:
        end = at + blank.kind.length
        yield Placed(
            kind=blank.kind,
            labels=tuple(next(labels[id(kind)]) for kind in blank.kinds),
            start=at,
            end=end,
            other=blank.other,
        )
        at = end + kerf


def _board(
    board: YardBoard, number: int, cuts: list[tuple[ClearStretch, tuple[Placed, ...]]], saw: SawWords
) -> SawnBoard:
    cuts.sort(key=lambda cut: cut[0].start)
    name = f"{board.name} {number}" if board.count != 1 else board.name
    rests = [
        Offcut(
            name="",
            board=name,
            start=placed[-1].end + saw.kerf if placed else stretch.start,
            end=stretch.end,
            width=board.width,
            thickness=board.thickness,
        )
        for stretch, placed in cuts
    ]
    return SawnBoard(
        name=name,
        stock=board.name,
        length=board.length,
        width=board.width,
        thickness=board.thickness,
        faults=lost_of(board, saw.trim),
        placed=tuple(one for _, placed in cuts for one in placed),
        offcuts=tuple(rest for rest in rests if rest.length >= saw.keep - 1e-9),
    )


def numbered(lists: Iterable[CutList]) -> Iterator[CutList]:
    """Offcuts numbered through all lists of a house in the order in which they fall: no name comes twice."""
    count = itertools.count(1)
    for one in lists:
        yield replace(one, boards=tuple(_numbered(board, count) for board in one.boards))


def _numbered(board: SawnBoard, count: Iterator[int]) -> SawnBoard:
    offcuts = tuple(replace(offcut, name=f"K{next(count)}") for offcut in board.offcuts)
    return replace(board, offcuts=offcuts)
