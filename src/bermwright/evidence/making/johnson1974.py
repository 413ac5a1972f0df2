"""First fit decreasing: D. S. Johnson, Fast algorithms for bin packing, 1974, and the sets it is tried on.

The works were not opened. The numbers of boards were found by running the rule by hand or by a second
program; the least possible numbers are proved optima, given in the notes.
"""

from __future__ import annotations

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.rates import CHVATAL1983, JOHNSON1974
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.boards import first_fit, pieces_per_board

_GREEDY = Cite(work=JOHNSON1974, place="worst family of first fit decreasing", provenance=Provenance.DERIVED)
_CUT = Cite(work=JOHNSON1974, place="equal pieces with a saw cut, closed form", provenance=Provenance.DERIVED)
_CHVATAL = Cite(work=CHVATAL1983, place="chapter 13, cutting stock", provenance=Provenance.DERIVED)


def _times(*lots: tuple[float, int]) -> list[float]:
    return [length for length, number in lots for _ in range(number)]


_MILL = _times(
    (1.38, 22), (1.52, 25), (1.56, 12), (1.71, 14), (1.82, 18), (1.88, 18), (1.93, 20),
    (2.0, 10), (2.05, 12), (2.1, 14), (2.14, 16), (2.15, 18), (2.2, 20),
)  # fmt: skip


def _fit(
    name: str, cite: Cite, expected: str, note: str, pieces: list[float], board: float, kerf: float
) -> Row:
    return Row(
        id=f"{cite.work.key}-{name}",
        cite=cite,
        kind=Kind.INDEPENDENT,
        call=first_fit,
        inputs={"pieces": pieces, "board": board, "kerf": kerf},
        expected=expected,
        pick=len,
        note=note,
    )


def _cut(name: str, expected: str, board: float, piece: float, kerf: float) -> Row:
    return Row(
        id=f"JOHNSON1974-{name}",
        cite=_CUT,
        kind=Kind.DERIVED,
        call=pieces_per_board,
        inputs={"board": board, "piece": piece, "kerf": kerf},
        expected=expected,
        note="⌊(L + k)/(p + k)⌋",
    )


ROWS = (
    _fit(
        "worst-family",
        _GREEDY,
        "11",
        "11/9 of the least number, which is 9 without any waste",
        _times((0.51, 6), (0.27, 6), (0.26, 6), (0.23, 12)),
        1.0,
        0.0,
    ),
    _fit(
        "mill-of-13-widths",
        _GREEDY,
        "82",
        "by a second program; the least number is 73",
        _MILL,
        5.6,
        0.0,
    ),
    _fit(
        "four-widths",
        _CHVATAL,
        "485",
        "by a second program; the least number is 453",
        _times((4.5, 97), (3.6, 610), (3.1, 395), (1.4, 211)),
        10.0,
        0.0,
    ),
    _fit(
        "kerf-counts",
        _GREEDY,
        "2",
        "five pieces of 0.6 m and four cuts of 3 mm need 3.012 m: the fifth goes to a second board",
        [0.6] * 5,
        3.0,
        0.003,
    ),
    _fit(
        "last-cut-on-the-end",
        _GREEDY,
        "1",
        "four pieces of 0.747 m and three cuts of 4 mm are exactly 3.000 m",
        [0.747] * 4,
        3.0,
        0.004,
    ),
    _cut("4-of-600", "4", 3.0, 0.6, 0.003),
    _cut("4-of-747", "4", 3.0, 0.747, 0.003),
    _cut("5-of-700", "5", 4.2, 0.7, 0.003),
    _cut("4-of-480", "4", 2.4, 0.48, 0.002),
    _cut("5-of-600-without-kerf", "5", 3.0, 0.6, 0.0),
)
