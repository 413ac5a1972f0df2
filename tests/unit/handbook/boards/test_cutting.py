"""Cutting plans: what they promise of every list, and the true optimum of small ones."""

from __future__ import annotations

import math
from collections import Counter
from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.boards import Stretch, Wanted, best_cutting

PIECES = st.lists(
    st.tuples(st.integers(100, 1500), st.integers(0, 4), st.sampled_from([80, 120])), min_size=1, max_size=5
)
BOARDS = st.lists(
    st.tuples(st.integers(80, 3000), st.integers(0, 3), st.sampled_from([80, 120, 200])),
    min_size=1,
    max_size=5,
)
KERFS = st.sampled_from([0.0, 0.003, 0.0035])


def lists(pieces, boards):
    wanted = [Wanted(length=a / 1000, count=n, width=w / 1000) for a, n, w in pieces]
    return wanted, [Stretch(length=a / 1000, count=n, width=w / 1000) for a, n, w in boards]


def least_by_trying(pieces, boards, kerf):
    """The least face of boards that holds all pieces, by trying every choice of boards; infinity if none."""
    items = sorted(pieces, reverse=True)

    def fits(chosen):
        rests = [length + kerf for length, _ in chosen]

        def lay(at):
            if at == len(items):
                return True
            length, width = items[at]
            tried = set()
            for place, (_, wide) in enumerate(chosen):
                if (
                    wide >= width
                    and rests[place] >= length + kerf - 1e-9
                    and (rests[place], wide) not in tried
                ):
                    tried.add((rests[place], wide))
                    rests[place] -= length + kerf
                    if lay(at + 1):
                        return True
                    rests[place] += length + kerf
            return False

        return lay(0)

    best = math.inf
    for take in product((False, True), repeat=len(boards)):
        chosen = [board for board, taken in zip(boards, take, strict=True) if taken]
        face = sum(length * width for length, width in chosen)
        if face < best and fits(chosen):
            best = face
    return best


@given(pieces=PIECES, boards=BOARDS, kerf=KERFS)
@settings(max_examples=20)
def test_every_plan_keeps_what_it_promises(pieces, boards, kerf):
    wanted, stock = lists(pieces, boards)
    plan = best_cutting(wanted, stock, kerf=kerf)
    made, used = Counter(), Counter()
    for cut in plan.cuts:
        board = stock[cut.stretch]
        long = sum(wanted[at].length for at in cut.pieces) + kerf * (len(cut.pieces) - 1)
        assert cut.pieces
        assert long <= board.length + 1e-9
        assert cut.rest == pytest.approx(max(0.0, board.length - long - kerf), abs=1.1e-3)
        assert all(wanted[at].width <= board.width for at in cut.pieces)
        used[cut.stretch] += cut.times
        for at in cut.pieces:
            made[at] += cut.times
    assert all(used[at] <= one.count for at, one in enumerate(stock))
    assert [made[at] + plan.missing[at] for at in range(len(wanted))] == [one.count for one in wanted]
    assert plan.used == pytest.approx(sum(stock[at].length * stock[at].width * n for at, n in used.items()))
    if plan.bound is not None:
        assert plan.bound <= plan.used + 1e-9


TINY = [
    ([(600, 2, 80), (900, 1, 80)], [(1000, 2, 80), (1600, 1, 80), (2200, 1, 80)]),
    ([(700, 3, 80), (450, 2, 120)], [(1500, 2, 80), (1000, 2, 120), (2400, 1, 120)]),
    ([(510, 2, 80), (270, 2, 80), (260, 2, 80), (230, 2, 80)], [(1000, 3, 80), (1270, 2, 80)]),
    ([(333, 4, 80), (500, 1, 80)], [(1000, 2, 80), (1500, 1, 80), (700, 2, 80)]),
    ([(820, 2, 120), (410, 3, 80)], [(1240, 2, 120), (830, 3, 120), (900, 2, 80)]),
]


@pytest.mark.parametrize(("pieces", "boards"), TINY)
@pytest.mark.parametrize("kerf", [0.0, 0.004])
def test_small_lists_get_the_true_optimum(pieces, boards, kerf):
    wanted, stock = lists(pieces, boards)
    plan = best_cutting(wanted, stock, kerf=kerf)
    each = [(one.length, one.width) for one in wanted for _ in range(one.count)]
    every = [(one.length, one.width) for one in stock for _ in range(one.count)]
    least = least_by_trying(each, every, kerf)
    assert not any(plan.missing)
    assert plan.used == pytest.approx(least, rel=1e-9)
    assert plan.bound is not None
    assert plan.bound <= least * (1 + 1e-9)


def many_lengths(seed=0):
    dice = np.random.default_rng(seed)  # noqa: TID251  (a test draws its own lists)
    found = np.unique(np.round(dice.uniform(0.45, 2.4, 39), 3))
    counts = dice.integers(3, 8, found.size)
    boards = np.unique(np.round(dice.uniform(1.8, 6.0, 150), 3))
    return (
        [Wanted(length=float(a), count=int(n)) for a, n in zip(found, counts, strict=True)],
        [Stretch(length=float(a), count=1) for a in boards],
    )


def shop(seed=14):
    dice = np.random.default_rng(seed)  # noqa: TID251  (a test draws its own lists)
    found = np.unique(np.round(dice.uniform(0.9, 2.3, 12), 3))
    wanted = [Wanted(length=float(a), count=int(dice.integers(20, 40))) for a in found]
    return wanted, [Stretch(length=length) for length in (3.0, 3.6, 4.2, 4.8, 5.4)]


@pytest.mark.parametrize("case", [many_lengths(), shop()], ids=["many lengths, salvaged", "shop boards"])
def test_long_lists_come_within_a_thousandth_of_the_bound_and_always_alike(case):
    wanted, stock = case
    plan = best_cutting(wanted, stock, kerf=0.003)
    assert not any(plan.missing)
    assert plan.excess is not None
    assert plan.excess <= 1e-3
    assert best_cutting(wanted, stock, kerf=0.003) == plan


def test_the_shorter_board_is_taken_where_it_does():
    plan = best_cutting([Wanted(length=1.0, count=1)], [Stretch(length=3.0), Stretch(length=1.2)], kerf=0.003)
    assert plan.used == pytest.approx(1.2)


def test_rests_are_gathered_into_one_long_offcut():
    plan = best_cutting(
        [Wanted(length=0.9, count=2), Wanted(length=0.4, count=2)], [Stretch(length=2.0, count=2)], kerf=0.0
    )
    assert max(plan.rests()) == pytest.approx(1.2, abs=1e-3)
    assert plan.kept(0.5) == pytest.approx(1.2, abs=1e-3)


def test_what_finds_no_board_is_missing_and_the_rest_is_cut():
    plan = best_cutting(
        [Wanted(length=2.0, count=1), Wanted(length=0.5, count=2)], [Stretch(length=1.2, count=1)], kerf=0.003
    )
    assert plan.missing == (1, 0)
    assert plan.stretches == 1
    assert plan.bound is None


def test_nothing_wanted_cuts_nothing():
    plan = best_cutting([Wanted(length=1.0, count=0)], [Stretch(length=3.0)], kerf=0.003)
    assert (plan.cuts, plan.missing, plan.used) == ((), (0,), 0.0)


REFUSED = {
    "negative kerf": lambda: best_cutting([Wanted(length=1.0, count=1)], [Stretch(length=2.0)], kerf=-0.001),
    "kerf finer than saws": lambda: best_cutting(
        [Wanted(length=1.0, count=1)], [Stretch(length=2.0)], kerf=0.00312
    ),
    "piece without length": lambda: best_cutting(
        [Wanted(length=0.0, count=1)], [Stretch(length=2.0)], kerf=0.0
    ),
    "no number": lambda: best_cutting([Wanted(length=math.nan, count=1)], [Stretch(length=2.0)], kerf=0.0),
    "less than none": lambda: best_cutting([Wanted(length=1.0, count=-1)], [Stretch(length=2.0)], kerf=0.0),
}


@pytest.mark.parametrize("call", REFUSED.values(), ids=REFUSED)
def test_what_cannot_be_is_refused(call):
    with pytest.raises(OutOfRangeError):
        call()
