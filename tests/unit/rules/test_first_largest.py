"""Of two sides that are the same but for rounding, the same one is named on every machine."""

import numpy as np
import pytest

from bermwright.rules.analysis.response import first_largest, first_worst


@pytest.mark.parametrize("rounding", [-1e-11, 0.0, 1e-11])
def test_the_first_of_twins_is_named(rounding: float) -> None:
    values = np.array([[0.2, 0.7], [0.7 * (1.0 + rounding), 0.1]])
    assert first_largest(values) == (0, 1)
    assert first_largest(-values) == (1, 1)


def test_what_is_larger_by_more_than_rounding_wins() -> None:
    assert first_largest(np.array([0.7, 0.7 * (1.0 + 1e-6)])) == (1,)


def test_unknown_and_endless_values() -> None:
    assert first_largest(np.array([0.7, np.nan])) == (1,)
    assert first_largest(np.array([0.7, np.inf, np.inf])) == (1,)
    assert first_largest(np.full(3, -np.inf)) == (0,)


def test_the_same_of_things_found() -> None:
    assert first_worst(["a", "bb", "cc"], len) == "bb"
