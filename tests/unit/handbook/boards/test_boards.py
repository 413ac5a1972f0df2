from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook import boards

LENGTHS = st.lists(st.floats(0.05, 4.0), max_size=40)


@given(pieces=LENGTHS, kerf=st.floats(0.0, 0.01))
def test_every_piece_is_cut_once_and_no_board_is_overfull(pieces, kerf):
    cut = boards.first_fit(pieces, board=4.0, kerf=kerf)
    assert sorted(index for board in cut for index in board) == list(range(len(pieces)))
    for board in cut:
        assert sum(pieces[index] for index in board) + kerf * (len(board) - 1) <= 4.0 + 1e-6


@given(pieces=LENGTHS)
def test_it_never_takes_fewer_boards_than_the_wood_needs(pieces):
    assert len(boards.first_fit(pieces, board=4.0, kerf=0.0)) >= sum(pieces) / 4.0 - 1e-6


def test_equal_pieces_agree_with_the_closed_form():
    per_board = int(boards.pieces_per_board(4.2, 0.7, kerf=0.003))
    cut = boards.first_fit([0.7] * 23, board=4.2, kerf=0.003)
    assert len(cut) == math.ceil(23 / per_board)


def test_the_same_pieces_are_always_cut_alike():
    pieces = [1.0, 1.0, 2.0, 0.5]
    assert boards.first_fit(pieces, board=3.0, kerf=0.0) == ((2, 0), (1, 3))


REFUSED = {
    "piece longer than the board": lambda: boards.first_fit([4.1], board=4.0, kerf=0.003),
    "piece NaN": lambda: boards.first_fit([math.nan], board=4.0, kerf=0.003),
    "piece of no length": lambda: boards.first_fit([0.0], board=4.0, kerf=0.003),
    "kerf NaN": lambda: boards.first_fit([1.0], board=4.0, kerf=math.nan),
    "kerf of a hand's breadth": lambda: boards.pieces_per_board(4.0, 1.0, kerf=0.1),
    "nail of no length": lambda: boards.nail_mass(0.003, 0.0, density=7850.0),
    "nail diameter in mm": lambda: boards.nail_mass(3.1, 0.08, density=7850.0),
    "density NaN": lambda: boards.nail_mass(0.003, 0.08, density=math.nan),
    "spacing of nothing": lambda: boards.nails_along(1.0, spacing=0.0, rows=2.0),
    "lap as wide as the roll": lambda: boards.strips_across(5.0, roll=0.2, lap=0.2),
    "lap NaN": lambda: boards.strips_across(5.0, roll=2.0, lap=math.nan),
}


@pytest.mark.parametrize("ask", REFUSED.values(), ids=REFUSED.keys())
def test_outside_the_range_is_refused(ask):
    with pytest.raises(OutOfRangeError):
        ask()
