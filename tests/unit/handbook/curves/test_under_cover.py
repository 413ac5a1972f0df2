"""The curve under cover against a stiff integration, on uneven ground, and where there is none."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.curves import (
    CoverLoad,
    catenary,
    ellipse,
    level_cover,
    limiting_rise,
    parabola,
    parallel,
    under_cover,
)


def ridge(crown, slope=0.5):
    return lambda x: crown - slope * np.abs(x)


LITTLE = 2e-3
"""Arm in metres at which the thrust may pass by the curve: two millimetres."""
SOIL = CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3)
GROUNDS = {
    "hillside": lambda x: 0.6 + 0.14 * np.asarray(x),
    "flat top with slopes": lambda x: 0.6 - 0.4 * np.maximum(np.maximum(x - 0.5, -1.3 * x - 0.8), 0.0),
    "stepped mound": ([-4.0, -1.5, -1.4, 1.0, 1.1, 4.0], [-0.8, -0.8, 0.5, 0.5, -0.3, -0.3]),
    "below the springing": lambda x: 0.3 - 1.4 * np.maximum(np.abs(x) - 0.3, 0.0),
    "one side steeper": ridge(0.5),
}
GROUNDS["one side steeper"] = lambda x: 0.5 - np.where(x > 0, 0.3, 0.6) * np.abs(x)


def shot(thrust, rise):
    """x at which the integrated curve under the ridge reaches its foot."""

    def rates(_, state):
        x, z, h, v = state
        n = np.hypot(h, v)
        depth = max(0.3 - 0.5 * abs(x) + z, 0.0)
        return [h / n, v / n, -0.5 * 18e3 * depth * v / n, 18e3 * depth * h / n + 0.8e3]

    from scipy.integrate import solve_ivp

    def foot(_, state):
        return state[1] - rise

    foot.terminal = True
    done = solve_ivp(rates, (0.0, 12.0), [0.0, 0.0, thrust, 0.0], rtol=1e-9, atol=1e-10, events=foot)
    return done.y[:, -1]


@pytest.mark.parametrize("rise", [1.5, 2.4, 2.9])
def test_agrees_with_a_stiff_integration(rise):
    from scipy.optimize import brentq

    curve = under_cover(5.0, rise, ground=ridge(0.3), load=SOIL)
    thrust = brentq(
        lambda h: shot(h, rise)[0] - 2.5, curve.crown_thrust - 30.0, curve.crown_thrust + 30.0, xtol=1e-6
    )
    assert curve.crown_thrust == pytest.approx(thrust, rel=1e-5)
    assert curve.right_foot == pytest.approx(tuple(shot(thrust, rise)[2:]), abs=5.0)


@pytest.mark.parametrize(
    ("ratio", "rise"), [(0.5, 2.07), (0.3, 2.4), (1.0, 1.7)], ids=["K 0.5", "K 0.3", "K 1.0"]
)
def test_rise_at_which_the_feet_push_neither_way(ratio, rise):
    from scipy.optimize import brentq

    load = CoverLoad(unit_weight=18e3, sideways=ratio, self_weight=0.8e3)

    def foot(height):
        return under_cover(5.0, height, ground=ridge(0.3), load=load).right_foot[0]

    assert brentq(foot, rise - 0.15, rise + 0.15, xtol=1e-3) == pytest.approx(rise, abs=0.05)


def bending(curve, ground, load, rise):
    """Largest bending anywhere, from the moments of all loads on either side of the crown (Nm/m)."""
    level = ground if callable(ground) else (lambda x: np.interp(x, *ground))
    line = curve.line
    face = parallel(line, load.face) if load.face else line
    mx, mz = 0.5 * (face.x[1:] + face.x[:-1]), 0.5 * (face.z[1:] + face.z[:-1])
    pressure = load.unit_weight * np.maximum(level(mx) + rise - mz, 0.0) + load.surcharge
    down, across = pressure * np.diff(face.x), load.sideways * pressure * np.diff(face.z)
    own = load.self_weight * np.diff(line.s)
    middle = 0.5 * (line.x[1:] + line.x[:-1])
    top = int(np.argmin(np.abs(line.angle)))
    largest = 0.0
    for end in range(0, line.x.size, 16):
        low, high = sorted((top, end))
        part, sign = slice(low, high), np.sign(end - top)
        x, z = line.x[end], line.z[end]
        moment = np.sum(down[part] * (mx[part] - x) * sign + across[part] * (mz[part] - z) * sign)
        moment += np.sum(own[part] * (middle[part] - x)) * sign + curve.crown_thrust * (line.z[top] - z)
        largest = max(largest, abs(float(moment)))
    return largest


@pytest.mark.parametrize("face", [0.0, 0.15])
@pytest.mark.parametrize("name", GROUNDS)
def test_no_bending_on_uneven_ground(name, face):
    load = CoverLoad(unit_weight=18e3, sideways=0.5, self_weight=0.8e3, face=face)
    ground = GROUNDS[name]
    curve = under_cover(5.0, 1.8, ground=ground, load=load)
    line = curve.line
    assert (line.x[0], line.x[-1]) == pytest.approx((-2.5, 2.5), abs=1e-9)
    assert (line.z[0], line.z[-1], line.crown) == pytest.approx((0.0, 0.0, 1.8), abs=1e-9)
    assert bending(curve, ground, load, 1.8) < LITTLE * curve.crown_thrust


def test_feet_at_two_levels():
    load = CoverLoad(unit_weight=18e3, sideways=0.4, self_weight=0.8e3)
    curve = under_cover(5.0, 1.8, ground=GROUNDS["hillside"], load=load, left_foot=0.0, right_foot=0.4)
    assert (curve.line.z[0], curve.line.z[-1]) == pytest.approx((0.0, 0.4), abs=1e-9)
    assert bending(curve, GROUNDS["hillside"], load, 1.8) < LITTLE * curve.crown_thrust


def test_mirrored_ground_gives_the_mirrored_curve():
    there = under_cover(5.0, 2.0, ground=GROUNDS["hillside"], load=SOIL)
    back = under_cover(5.0, 2.0, ground=lambda x: GROUNDS["hillside"](-x), load=SOIL)
    assert back.crown_x == pytest.approx(-there.crown_x, abs=1e-5)
    assert back.left_foot == pytest.approx(there.right_foot, rel=1e-4)
    assert there.crown_x > 0.1


def height(curve, x):
    return np.interp(x, curve.x, curve.z)


def test_known_curves_come_out_of_known_loads():
    x = np.linspace(-2.9, 2.9, 30)
    flat = {"ground": lambda at: 0.6 + 0.0 * at}
    own = under_cover(6.0, 3.0, load=CoverLoad(unit_weight=0.0, sideways=0.5, self_weight=1e3), **flat)
    assert height(own.line, x) == pytest.approx(height(catenary(6.0, 3.0), x), abs=2e-4)
    plan = under_cover(6.0, 3.0, load=CoverLoad(unit_weight=0.0, sideways=0.0, surcharge=1e3), **flat)
    assert height(plan.line, x) == pytest.approx(height(parabola(6.0, 3.0), x), abs=2e-4)
    soil = under_cover(6.0, 2.4, load=CoverLoad(unit_weight=18e3, sideways=0.0), **flat)
    assert height(soil.line, x) == pytest.approx(height(level_cover(6.0, 2.4, 0.6), x), abs=2e-4)
    even = under_cover(6.0, 2.9, load=CoverLoad(unit_weight=0.0, sideways=1.0, surcharge=1e3), **flat)
    assert np.hypot(
        even.line.x, even.line.z - even.line.crown + 1 / even.line.curvature[480]
    ) == pytest.approx(np.full(even.line.x.size, 1 / even.line.curvature[480]), rel=1e-4)
    squeezed = under_cover(4.0, 2.0 / np.sqrt(0.5) - 1e-3, ground=flat["ground"],
                           load=CoverLoad(unit_weight=0.0, sideways=0.5, surcharge=1e3))  # fmt: skip
    wanted = ellipse(4.0, 2.0 / np.sqrt(0.5))
    assert height(squeezed.line, 0.6 * x) == pytest.approx(height(wanted, 0.6 * x), abs=3e-3)


def test_a_line_and_a_function_are_one_ground():
    drawn = under_cover(5.0, 2.0, ground=([-5.0, 0.0, 5.0], [-2.2, 0.3, -2.2]), load=SOIL)
    called = under_cover(5.0, 2.0, ground=ridge(0.3), load=SOIL)
    assert drawn.line.x == pytest.approx(called.line.x, abs=1e-9)


def test_beyond_the_limiting_rise_the_error_says_where_it_is():
    with pytest.raises(OutOfRangeError, match=r"limited to about 3\.01 m"):
        under_cover(5.0, 3.1, ground=ridge(0.3), load=SOIL)
    uneven = GROUNDS["one side steeper"]
    limit = limiting_rise(5.0, ground=uneven, load=SOIL)
    assert 2.0 < limit < 3.5
    assert under_cover(5.0, limit - 0.05, ground=uneven, load=SOIL).undercut > 0.1


def test_without_sideways_push_there_is_no_limit():
    soft = CoverLoad(unit_weight=18e3, sideways=0.0, self_weight=0.8e3)
    assert limiting_rise(5.0, ground=ridge(0.3), load=soft) == np.inf


NAN = float("nan")


@pytest.mark.parametrize(
    "change",
    [{"unit_weight": NAN}, {"unit_weight": -1.0}, {"sideways": NAN}, {"sideways": 3.1}, {"self_weight": NAN},
     {"surcharge": -1.0}, {"face": NAN}, {"face": -0.1}],
)  # fmt: skip
def test_unknown_loads_give_no_curve(change):
    load = CoverLoad(**{"unit_weight": 18e3, "sideways": 0.5, **change})
    with pytest.raises(OutOfRangeError):
        under_cover(5.0, 2.0, ground=ridge(0.3), load=load)


def test_nothing_to_carry_is_an_error():
    with pytest.raises(OutOfRangeError, match="Nothing presses"):
        under_cover(5.0, 2.0, ground=ridge(0.3), load=CoverLoad(unit_weight=0.0, sideways=0.5))
    with pytest.raises(OutOfRangeError):
        under_cover(5.0, 2.0, ground=([0.0, 1.0], [NAN, 1.0]), load=SOIL)
    with pytest.raises(OutOfRangeError):
        under_cover(5.0, 0.4, ground=ridge(0.3), load=SOIL, left_foot=0.5)
