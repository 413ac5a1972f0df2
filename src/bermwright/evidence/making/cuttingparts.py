"""The parts of the search for cutting plans, each alone: what one hides the other cannot mend here.

Small lists; every filling of every board was tried by a second program that knows nothing of this one.
"""

from __future__ import annotations

import math
from itertools import product
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.boards import FARLEY1990, GILMOREGOMORY1961
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.boards.cutting import (
    Stretch,
    Wanted,
    best_cutting,
    cut_all_at_once,
    cut_board_by_board,
    fill_exactly,
    leaned_areas,
    ways_worth,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.handbook.boards.cutting import CuttingPlan

_SMALL = Cite(work=GILMOREGOMORY1961, place="small lists, all fillings tried", provenance=Provenance.DERIVED)
_BOUND = Cite(
    work=FARLEY1990, place="linear programme of all fillings, solved", provenance=Provenance.DERIVED
)

_LISTS: dict[str, tuple[list[tuple[float, int, float]], list[tuple[float, int | None, float]], float]] = {
    "narrow": (
        [(0.819, 6, 0.083), (1.463, 2, 0.083), (0.7, 6, 0.083)],
        [(1.709, None, 0.083), (2.744, 4, 0.083)],
        0.004,
    ),
    "four": (
        [(0.658, 6, 0.083), (1.071, 5, 0.083), (0.525, 4, 0.083), (1.414, 5, 0.083)],
        [(1.973, None, 0.109), (2.702, 2, 0.127), (2.915, 2, 0.127)],
        0.003,
    ),
    "many": (
        [(0.644, 9, 0.109), (1.134, 1, 0.083), (1.379, 4, 0.109), (1.169, 12, 0.083)],
        [(2.273, 2, 0.109), (1.895, 2, 0.083), (2.282, None, 0.109)],
        0.003,
    ),
    "few": (
        [(0.567, 4, 0.083), (0.427, 1, 0.109), (1.344, 1, 0.083)],
        [(1.733, 2, 0.109), (1.706, 1, 0.083)],
        0.004,
    ),
    "wide": (
        [(0.938, 1, 0.083), (0.35, 4, 0.109), (0.413, 4, 0.109), (0.91, 1, 0.083)],
        [(2.021, 2, 0.127), (1.601, 1, 0.127)],
        0.003,
    ),
    "three": (
        [(0.399, 1, 0.109), (0.441, 1, 0.083), (0.742, 3, 0.109)],
        [(2.459, 2, 0.127), (1.718, None, 0.109), (2.87, 2, 0.109)],
        0.004,
    ),
    "scarce": (
        [(0.903, 6, 0.083), (0.701, 5, 0.083), (0.457, 4, 0.109)],
        [(1.853, 2, 0.083), (2.411, None, 0.127), (1.607, 1, 0.109)],
        0.003,
    ),
    "long": (
        [(1.393, 3, 0.109), (0.546, 2, 0.083), (0.903, 4, 0.083)],
        [(2.45, None, 0.127), (1.661, None, 0.109), (1.859, None, 0.109)],
        0.004,
    ),
    "single": (
        [(0.819, 1, 0.083), (0.756, 1, 0.109), (0.973, 2, 0.083), (1.127, 1, 0.083)],
        [(1.712, 1, 0.127), (2.414, 2, 0.127)],
        0.004,
    ),
}
"""Pieces and boards by length, number and width (m), and the saw cut (m)."""


def _inputs(name: str) -> dict[str, Any]:
    pieces, boards, kerf = _LISTS[name]
    return {
        "wanted": [Wanted(length=length, count=count, width=width) for length, count, width in pieces],
        "stock": [Stretch(length=length, count=count, width=width) for length, count, width in boards],
        "kerf": kerf,
    }


def _told(plan: CuttingPlan) -> float:
    """The whole plan as one number: n-th cut · times · (7 · board + Σ (piece + 1)²)."""
    lines = enumerate(plan.cuts, 1)
    return float(sum(n * c.times * (7 * c.stretch + sum((p + 1) ** 2 for p in c.pieces)) for n, c in lines))


def _rests(plan: CuttingPlan) -> float:
    return sum(plan.rests())


def _squares(plan: CuttingPlan) -> float:
    """Large where the rests lie in few long offcuts."""
    return sum(rest**2 for rest in plan.rests())


def _in_order(plan: CuttingPlan) -> float:
    """n-th cut · Σ k · (piece + 1) for the k-th piece cut off."""
    lines = enumerate(plan.cuts, 1)
    return float(sum(n * sum(k * (p + 1) for k, p in enumerate(c.pieces, 1)) for n, c in lines))


def _pieces(plan: CuttingPlan) -> float:
    return float(sum(cut.times * len(cut.pieces) for cut in plan.cuts))


def _found_first(plan: CuttingPlan) -> float:
    return float(plan.found_by == "board by board")


def _used(plan: CuttingPlan) -> float:
    return plan.used if not any(plan.missing) else math.nan


def _bound(plan: CuttingPlan) -> float:
    return math.nan if plan.bound is None else plan.bound


def _row(
    name: str,
    call: Callable[..., Any],
    inputs: dict[str, Any],
    expected: str,
    note: str,
    pick: Callable[[Any], float],
    cite: Cite = _SMALL,
) -> Row:
    return Row(
        id=f"CUTTINGPARTS-{name}",
        cite=cite,
        kind=Kind.INDEPENDENT,
        call=call,
        inputs=inputs,
        expected=expected,
        pick=pick,
        note=note,
    )


# ---------------------------------------------------------------- one board after the other
_RULE = "the rule followed by a second program that tries every filling of every board"
_BY_BOARD = tuple(
    _row(f"{name}-{what}", cut_board_by_board, _inputs(name), expected, _RULE, pick)
    for name, told, rest in (
        ("narrow", "426", "1.576"),
        ("four", "497", "1.926"),
        ("many", "3939", "13.732"),
        ("three", "64", "1.502"),
        ("scarce", "386", "1.750"),
        ("single", "117", "1.872"),
    )
    for what, expected, pick in (("told", told, _told), ("rest", rest, _rests))
)

_TIDY = tuple(
    _row(f"{name}-{what}", cut_board_by_board, _inputs(name) | {"tidy": True}, expected, _RULE, pick)
    for name, told, squares in (
        ("narrow", "88", "0.4008"),
        ("four", "299", "0.6757"),
        ("many", "1181", "13.0054"),
        ("wide", "165", "0.4793"),
        ("scarce", "291", "1.1696"),
    )
    for what, expected, pick in (("tidied", told, _told), ("offcuts", squares, _squares))
)
_ORDER = (
    *(
        _row(f"{name}-order", cut_board_by_board, _inputs(name), expected, _RULE, _in_order)
        for name, expected in (("four", "196"), ("many", "438"), ("scarce", "207"))
    ),
    _row(
        "a-board-each",
        cut_board_by_board,
        {"wanted": [Wanted(length=1.0, count=2)], "stock": [Stretch(length=1.2, count=2)], "kerf": 0.0},
        "2.0",
        "two pieces that need a board each",
        _pieces,
    ),
    _row(
        "too-few",
        cut_board_by_board,
        {"wanted": [Wanted(length=1.0, count=5)], "stock": [Stretch(length=2.2, count=2)], "kerf": 0.0},
        "1.0",
        "four of five find room",
        lambda plan: float(plan.missing[0]),
    ),
)

# ---------------------------------------------------------------- all boards at once
_ALL = "the linear programme of all fillings, by another solver"
_BOUNDS = tuple(
    _row(f"{name}-bound", cut_all_at_once, _inputs(name), expected, _ALL, _bound, _BOUND)
    for name, expected in (
        ("few", "0.4564263"),
        ("wide", "0.6417511"),
        ("three", "0.3626212"),
        ("scarce", "1.2176338"),
        ("many", "4.0436780"),
        ("four", "2.2064040"),
    )
)
_TRIED = "every choice of boards and fillings tried"
_OPTIMA = tuple(
    _row(f"{name}-{title}", call, _inputs(name) | more, expected, _TRIED, _used)
    for name, below, expected in (
        ("few", 0.5194, "0.519392"),
        ("three", 0.45, "0.374524"),
        ("scarce", 1.402, "1.378587"),
        ("long", 1.13, "1.107876"),
        ("single", 0.831, "0.830580"),
    )
    for title, call, more in (
        ("all-at-once", cut_all_at_once, {}),
        ("below", cut_all_at_once, {"below": below}),
        ("best", best_cutting, {}),
    )
)

_SPREAD = (
    _row(
        "more-ways",
        cut_all_at_once,
        {
            "wanted": [
                Wanted(length=0.511, count=6, width=0.109),
                Wanted(length=0.895, count=5, width=0.109),
                Wanted(length=0.737, count=2, width=0.083),
                Wanted(length=0.998, count=5, width=0.109),
            ],
            "stock": [
                Stretch(length=1.523, count=1, width=0.083),
                Stretch(length=2.637, width=0.083),
                Stretch(length=1.952, count=1, width=0.109),
                Stretch(length=2.209, width=0.109),
            ],
            "kerf": 0.003,
            "below": 1.69060308,
        },
        "1.657454",
        "whole numbers of all 41 ways to cut a board; the ways that the programme grew give 1.898 only",
        _used,
    ),
    _row(
        "longest-rest",
        best_cutting,
        {
            "wanted": [Wanted(length=length, count=3) for length in (0.5, 0.2, 0.3, 0.8, 0.3)],
            "stock": [Stretch(length=1.2)],
            "kerf": 0.0,
        },
        "0.700",
        "six boards are the least; in no plan of six is a longer rest, all ways to cut the emptiest tried",
        lambda plan: max(plan.rests()),
    ),
    _row(
        "nothing-twice",
        best_cutting,
        {
            "wanted": [
                Wanted(length=length, count=count)
                for length, count in ((0.6, 2), (0.2, 4), (0.7, 1), (0.2, 3), (0.8, 2))
            ],
            "stock": [Stretch(length=1.5, count=1), Stretch(length=1.3, count=2), Stretch(length=1.6)],
            "kerf": 0.0,
        },
        "4.900",
        "boards less their rests are the pieces: 2·0.6 + 7·0.2 + 0.7 + 2·0.8",
        lambda plan: plan.used - sum(plan.rests()),
    ),
    _row(
        "alike-by-place",
        cut_board_by_board,
        {
            "wanted": [Wanted(length=0.7, count=3), Wanted(length=0.4, count=1), Wanted(length=0.2, count=4)],
            "stock": [
                Stretch(length=1.2, count=4),
                Stretch(length=0.6, count=3),
                Stretch(length=1.2),
            ],
            "kerf": 0.0,
            "number": 6,
            "tidy": True,
        },
        "2",
        "of boards of one price the later of the list stands first",
        lambda plan: float(plan.cuts[0].stretch),
    ),
)

_COUNTED = (
    *(
        _row(
            f"{name}-pieces",
            cut_all_at_once,
            _inputs(name),
            expected,
            "each piece wanted, and no more",
            _pieces,
        )
        for name, expected in (("few", "6.00"), ("wide", "10.00"), ("long", "9.00"), ("three", "5.00"))
    ),
    *(
        _row(
            f"{name}-at-once",
            best_cutting,
            _inputs(name),
            "1.0",
            "board by board meets the bound, so nothing more is looked for",
            _found_first,
        )
        for name in ("narrow",)
    ),
)

# ---------------------------------------------------------------- one board
_NEED, _VALUE, _MOST = np.array([5, 7, 11]), np.array([4.0, 6.5, 9.7]), np.array([3, 1, 2])


def _best_fillings(need: np.ndarray, value: np.ndarray, most: np.ndarray, room: int) -> np.ndarray:
    """The greatest value at every room, every filling tried."""
    best = np.zeros(room + 1)
    for counts in product(*(range(number + 1) for number in most)):
        long = int(np.dot(counts, need))
        if long <= room:
            best[long:] = np.maximum(best[long:], np.dot(counts, value))
    return best


def _spread(filled: tuple[np.ndarray, ...]) -> float:
    """All rooms in one number: Σ room · value."""
    return float(np.arange(filled[0].size) @ filled[0])


def _lines(ways: np.ndarray | None) -> float:
    """How many ways, and in hundredths what is in them: Σ (4·a + 2·b + c)."""
    return -1.0 if ways is None else float(len(ways) + 0.01 * np.sum(ways @ np.array([4, 2, 1])))


def _ways(name: str, expected: str, least: float, lines: int, note: str, room: int = 29) -> Row:
    need, most = np.array([7, 5, 3]), np.array([2, 3, 4])
    value = np.array([6.1, 4.0, 2.2])
    inputs = {
        "need": need,
        "value": value,
        "most": most,
        "best": _best_fillings(need, value, most, room),
        "room": room,
        "least": least,
        "limit": lines,
    }
    return _row(f"ways-{name}", ways_worth, inputs, expected, note, _lines)


_FULL = "every filling tried: {} of them are full and worth enough"
_ONE = (
    _row(
        "fillings",
        fill_exactly,
        {"need": _NEED, "value": _VALUE, "most": _MOST, "room": 40},
        "18802.8",
        "Σ room · greatest value for rooms of 0 to 40, every filling tried",
        _spread,
    ),
    _ways("all", "8.65", 0.0, 9, _FULL.format("eight"), room=20),
    _ways("some", "6.76", 21.0, 9, _FULL.format("six")),
    _ways("fewer", "5.64", 22.0, 5, _FULL.format("five, and there is room for five,")),
    _ways("one", "1.14", 23.0, 9, _FULL.format("one")),
    _ways("too-many", "-1.000", 22.0, 4, "five ways and room for four: −1 says that they are too many"),
)

# ---------------------------------------------------------------- what a piece counts
_LEANED = tuple(
    _row(
        f"leaned-{number}",
        leaned_areas,
        {"area": np.array([0.12, 0.05, 0.21]), "length": np.array([1.5, 0.5, 2.0]), "number": number},
        expected,
        "Σ A·(1 + λ·s·l/2), s = 1 + ν·(2·frac(i·(√5 − 1)/2·(t + 1)) − 1), in forty digits",
        lambda values: float(np.sum(values)),
    )
    for number, expected in (
        (0, "0.38000000"),
        (1, "0.38625000"),
        (2, "0.39562500"),
        (3, "0.41125000"),
        (4, "0.44250000"),
        (5, "0.50500000"),
        (8, "0.39660603"),
        (17, "0.52402239"),
    )
)

ROWS = (*_BY_BOARD, *_TIDY, *_ORDER, *_BOUNDS, *_OPTIMA, *_SPREAD, *_COUNTED, *_ONE, *_LEANED)
