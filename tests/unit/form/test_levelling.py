"""Nets of levelled legs: least squares against the normal equations, every loop closed by itself."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.form.setout import Reading, SetOutError, reduce_readings
from bermwright.form.setout.loops import Run, loops_of, may_miss

TRUE = {"H": 0.0, "A": -0.25, "B": 0.40, "C": 1.30, "D": 0.05}
PAIRS = [
    ("H", "A", 12.0),
    ("A", "B", 9.0),
    ("B", "C", 15.0),
    ("C", "D", 8.0),
    ("D", "H", 20.0),
    ("B", "D", 7.0),
]


def legs(pairs, errors=(), *, lengths=True):
    found = []
    for line, (start, end, far) in enumerate(pairs, 2):
        error = errors[line - 2] if line - 2 < len(errors) else 0.0
        rise = TRUE[end] - TRUE[start] + error
        found.append(
            Reading(
                start=start, end=end, back=1.0, fore=1.0 - rise, length=far if lengths else None, line=line
            )
        )
    return tuple(found)


def test_a_net_is_spread_as_the_normal_equations_say():
    errors = 1e-3 * np.array([1.1, -0.8, 0.4, -1.5, 0.9, 1.2])
    levels = reduce_readings(legs(PAIRS, errors), datum="H")
    names = ["A", "B", "C", "D"]
    design = np.array([[(end == name) - (start == name) for name in names] for start, end, _ in PAIRS], float)
    measured = np.array([TRUE[end] - TRUE[start] for start, end, _ in PAIRS]) + errors
    weight = np.diag([1.0 / far for *_, far in PAIRS])
    found = np.linalg.solve(design.T @ weight @ design, design.T @ weight @ measured)
    heights = dict(levels.heights)
    assert [heights[name] for name in names] == pytest.approx(found.tolist(), abs=1e-9)
    assert [leg.residual for leg in levels.legs] == pytest.approx(
        (design @ found - measured).tolist(), abs=1e-9
    )


def test_every_way_round_is_a_loop_and_sums_its_rises():
    runs = [Run(start=s, end=e, rise=TRUE[e] - TRUE[s], length=far) for s, e, far in PAIRS]
    loops = loops_of(runs, "H")
    assert len(loops) == len(PAIRS) - (len(TRUE) - 1)
    assert all(abs(loop.miss) < 1e-12 for loop in loops)
    off = [*runs[:2], Run(start="B", end="C", rise=0.9 + 0.02, length=15.0), *runs[3:]]
    wrong = [loop for loop in loops_of(off, "H") if not loop.closes]
    assert all({"B", "C"} <= set(loop.points) for loop in wrong)
    assert abs(wrong[0].miss) == pytest.approx(0.02)
    pair = loops_of([runs[0], Run(start="A", end="H", rise=0.251, length=12.0)], "H")
    assert pair[0].points == ("A", "H")
    assert pair[0].miss == pytest.approx(0.001)
    assert pair[0].length == 24.0


def test_a_leg_beside_a_loop_hides_nothing():
    ring = [("H", "A", 10.0), ("A", "B", 10.0), ("B", "C", 10.0), ("C", "H", 10.0)]
    for order in (ring, ring[::-1], [*ring, ("A", "D", 10.0)], [("A", "D", 10.0), *ring]):
        errors = [0.008 if pair == ("B", "C", 10.0) else 0.0 for pair in order]
        with pytest.raises(SetOutError, match=r"8(\.0)? mm over 40 m"):
            reduce_readings(legs(order, errors), datum="H")


def test_a_loop_with_a_leg_beside_it_says_what_was_spread_and_what_hangs_free():
    net = [("H", "A", 10.0), ("A", "B", 10.0), ("B", "H", 10.0), ("A", "D", 10.0)]
    says = " ".join(reduce_readings(legs(net, [0.0, 0.003]), datum="H").says)
    assert "misses by +3.0 mm over 30 m; 5.0 mm may be spread" in says
    assert 'No loop touches "D"' in says
    assert "No lengths" not in says
    bare = reduce_readings(legs(net, [0.0, 0.003], lengths=False), datum="H")
    assert "every leg is counted as 10 m long" in " ".join(bare.says)


def test_what_may_be_missed_grows_with_the_root_of_the_way_from_five_millimetres_on():
    assert may_miss(100.0) == 0.005
    assert may_miss(1000.0) == pytest.approx(0.010)
    assert may_miss(4000.0) == pytest.approx(0.020)
