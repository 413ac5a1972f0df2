"""Cutting plans with proved optima.

The paper mill's list was read, its optimum of 73 rolls is printed and was proved again; the other optima were
proved with an exact solver. Plans that use the least possible material are compared by the number of boards.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.sources import Cite, Provenance
from bermwright.data.works.boards import GILMOREGOMORY1961, PAPERMILL
from bermwright.data.works.rates import CHVATAL1983, JOHNSON1974
from bermwright.evidence.rows import Kind, Row
from bermwright.handbook.boards.cutting import Stretch, Wanted, best_cutting

if TYPE_CHECKING:
    from collections.abc import Callable

    from bermwright.handbook.boards.cutting import CuttingPlan

_MILL = Cite(work=PAPERMILL, place="thirteen widths, 73 rolls", provenance=Provenance.READ)
_CHVATAL = Cite(work=CHVATAL1983, place="chapter 13, cutting stock", provenance=Provenance.DERIVED)
_WORST = Cite(work=JOHNSON1974, place="worst family of first fit", provenance=Provenance.DERIVED)
_SMALL = Cite(work=GILMOREGOMORY1961, place="small lists, all plans looked at", provenance=Provenance.DERIVED)

_WIDTHS = (
    (0.138, 22), (0.152, 25), (0.156, 12), (0.171, 14), (0.182, 18), (0.188, 18), (0.193, 20),
    (0.2, 10), (0.205, 12), (0.21, 14), (0.214, 16), (0.215, 18), (0.22, 20),
)  # fmt: skip
"""At a tenth of their size: every width is whole centimetres, and the plan is the same."""


def _boards(plan: CuttingPlan) -> float:
    return float(plan.stretches)


def _bound(plan: CuttingPlan) -> float:
    return float("nan") if plan.bound is None else plan.bound


def _used(plan: CuttingPlan) -> float:
    return plan.used


def _excess(plan: CuttingPlan) -> float:
    return float("nan") if plan.excess is None else plan.excess


def _rest(plan: CuttingPlan) -> float:
    return plan.cuts[0].rest


def _kept(plan: CuttingPlan) -> float:
    return plan.kept(0.1)


def _row(  # noqa: PLR0913  (columns of a table)
    name: str,
    cite: Cite,
    pieces: tuple[tuple[float, int], ...],
    stock: list[Stretch],
    expected: str,
    note: str,
    *,
    kerf: float = 0.0,
    pick: Callable[[CuttingPlan], float] = _boards,
) -> Row:
    return Row(
        id=f"{cite.work.key}-plan-{name}",
        cite=cite,
        kind=Kind.PUBLISHED if cite is _MILL else Kind.DERIVED,
        call=best_cutting,
        inputs={
            "wanted": [Wanted(length=length, count=count) for length, count in pieces],
            "stock": stock,
            "kerf": kerf,
        },
        expected=expected,
        pick=pick,
        note=note,
    )


_FOUR = ((0.045, 97), (0.036, 610), (0.031, 395), (0.014, 211))
_TINY = ((0.04, 20), (0.03, 10), (0.02, 20))
_SPLIT = ((0.051, 6), (0.027, 6), (0.026, 6), (0.023, 12))

_BESIDE = ((0.52, 3, 0.12), (0.52, 1, 0.08))
_WIDE = [
    Stretch(length=2.1, count=2, width=0.15),
    Stretch(length=1.0, count=1, width=0.12),
    Stretch(length=1.7, count=2, width=0.12),
]
_MIXED = ((0.88, 2, 0.08), (0.61, 1, 0.08), (0.45, 1, 0.12))
_YARD = [
    Stretch(length=1.0, count=2, width=0.12),
    Stretch(length=1.7, count=1, width=0.12),
    Stretch(length=2.1, count=1, width=0.15),
    Stretch(length=1.25, count=1, width=0.15),
]
_TRIED = "every choice of boards tried, saw cut 4 mm"


def _wide(
    name: str,
    pieces: tuple[tuple[float, int, float], ...],
    stock: list[Stretch],
    expected: str,
    pick: Callable[[CuttingPlan], float],
    note: str = _TRIED,
) -> Row:
    return Row(
        id=f"GILMOREGOMORY1961-plan-{name}",
        cite=_SMALL,
        kind=Kind.DERIVED,
        call=best_cutting,
        inputs={
            "wanted": [Wanted(length=length, count=count, width=width) for length, count, width in pieces],
            "stock": stock,
            "kerf": 0.004,
        },
        expected=expected,
        pick=pick,
        note=note,
    )


ROWS = (
    _wide("widths", _BESIDE, _WIDE, "0.3150", _used),
    _wide("widths-rest", _BESIDE, _WIDE, "0.0040", _rest, "2100 − 4·520 − 4·4 mm"),
    _wide(
        "widths-bound",
        _BESIDE,
        _WIDE,
        "0.2730",
        _bound,
        "4/3·1.7·0.12 m2, raised to the next 3000 mm2",
    ),
    _wide("widths-excess", _BESIDE, _WIDE, "0.15385", _excess, "0.315/0.273 − 1"),
    _wide("mixed", _MIXED, _YARD, "0.4275", _used),
    _wide("mixed-kept", _MIXED, _YARD, "0.414", _kept, "rests of 182 and twice 116 mm"),
    _row(
        "nothing-wasted",
        _SMALL,
        ((0.498, 8),),
        [Stretch(length=1.0, count=2), Stretch(length=2.004, count=1)],
        "4.004",
        "two, two and four pieces with their cuts fill the boards to the millimetre",
        kerf=0.004,
        pick=_bound,
    ),
    _row("mill", _MILL, _WIDTHS, [Stretch(length=0.56)], "73", ""),
    _row("mill-bound", _MILL, _WIDTHS, [Stretch(length=0.56)], "40.88", "", pick=_bound),
    _row("four-widths", _CHVATAL, _FOUR, [Stretch(length=0.1)], "453", "programme 452.25, first fit 485"),
    _row("worst-family", _WORST, _SPLIT, [Stretch(length=0.1)], "9", "no waste at all; first fit needs 11"),
    _row("tiny", _SMALL, _TINY, [Stretch(length=0.09)], "18", "programme 17.5"),
    _row(
        "kerf-counts",
        _SMALL,
        ((0.6, 5),),
        [Stretch(length=3.0)],
        "2",
        "five pieces and four cuts of 3 mm need 3.012 m",
        kerf=0.003,
    ),
    _row(
        "last-cut-on-the-end",
        _SMALL,
        ((0.747, 4),),
        [Stretch(length=3.0)],
        "1",
        "four pieces and three cuts of 4 mm are exactly 3.000 m",
        kerf=0.004,
    ),
    _row(
        "shorter-board",
        _SMALL,
        ((1.1, 3),),
        [Stretch(length=2.4, count=2), Stretch(length=3.6, count=1), Stretch(length=1.2, count=1)],
        "3.6",
        "3.6 m alone, or 2.4 and 1.2 m together: 3.6 m either way",
        pick=_used,
    ),
    _row(
        "wide-board-last",
        _SMALL,
        ((1.0, 2),),
        [Stretch(length=2.0, count=1), Stretch(length=1.0, count=2, width=0.5)],
        "2.0",
        "narrower boards than the pieces are not taken: one board of 2.0 m",
        pick=_used,
    ),
)
