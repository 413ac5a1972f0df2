"""Axial forces on the bent shape, and the load at which the shape gives way."""

from __future__ import annotations

import numpy as np
import pytest

from bermwright.handbook.frames import FIXED, GROUND, PINNED, Frame, Member, Soil, States, Works, solve
from bermwright.handbook.frames import buckling_factor as factor_of

ROLLER = ((np.inf, np.inf, 0.0), (0.0, np.inf, 0.0))
CANTILEVER = ((np.inf, np.inf, np.inf), (0.0, 0.0, 0.0))
EI = 2e5


def straight(n: int, feet: tuple, *, length: float = 4.0, **parts: object) -> Frame:
    x = np.linspace(0.0, length, n + 1)
    return Frame.bare(x, 0 * x, axial=1e9, feet=feet, **{"bending": EI, **parts})


def pressed(frame: Frame, push: float, **loads: np.ndarray) -> object:
    across = np.zeros(frame.x.size)
    across[-1] = -push
    return solve(frame, Soil.absent(), States.build(frame.x.size, across=across, **loads))


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_beam_column_in_the_middle(share: float) -> None:
    n, length, load = 40, 4.0, 800.0
    push = share * np.pi**2 * EI / length**2
    down = np.zeros(n + 1)
    down[n // 2] = load
    found = pressed(straight(n, ROLLER), push, down=down)
    u = 0.5 * length * np.sqrt(push / EI)
    sag = load * length**3 / (48 * EI) * 3 * (np.tan(u) - u) / u**3
    bending = load * length / 4 * np.tan(u) / u
    np.testing.assert_allclose(-found.displacement[0, 0, n // 2, 1], sag, rtol=1e-5)
    np.testing.assert_allclose(found.moment[0, 0, n // 2 - 1, 1], bending, rtol=1e-5)
    np.testing.assert_allclose(found.axial[0, 0], push, rtol=1e-9)


def test_a_tie_is_stiffened_by_its_tension() -> None:
    n, length, load, pull = 40, 4.0, 800.0, 3e5
    down = np.zeros(n + 1)
    down[n // 2] = load
    found = pressed(straight(n, ROLLER), -pull, down=down)
    u = 0.5 * length * np.sqrt(pull / EI)
    sag = load * length**3 / (48 * EI) * 3 * (u - np.tanh(u)) / u**3
    np.testing.assert_allclose(-found.displacement[0, 0, n // 2, 1], sag, rtol=1e-5)


def test_tapered_beam_column_against_a_boundary_value_solution() -> None:
    from scipy.integrate import solve_bvp

    n, length, push, load = 400, 4.0, 6e4, 500.0
    x = np.linspace(0.0, length, n + 1)
    middle = 0.5 * (x[1:] + x[:-1])

    def stiffness(place: np.ndarray) -> np.ndarray:
        return EI * (1.0 - 0.15 * place)

    weight = np.full(n + 1, load * length / n)
    weight[[0, -1]] *= 0.5
    found = pressed(straight(n, ROLLER, bending=stiffness(middle)), push, down=weight)

    def equation(place: np.ndarray, y: np.ndarray) -> np.ndarray:
        bending = load * place * (length - place) / 2 + push * y[0]
        return np.vstack([y[1], -bending / stiffness(place)])

    theirs = solve_bvp(equation, lambda a, b: [a[0], b[0]], x, np.zeros((2, n + 1)), tol=1e-9)
    np.testing.assert_allclose(-found.displacement[0, 0, :, 1], theirs.sol(x)[0], rtol=1e-5, atol=1e-9)


def test_a_column_past_its_load_has_no_answer() -> None:
    frame = straight(20, ROLLER)
    push = 1.02 * np.pi**2 * EI / 16
    found = pressed(frame, push, down=np.ones(21))
    assert not found.converged.any()
    for name in ("axial", "moment", "shear", "displacement", "feet", "pressure"):
        assert np.isnan(getattr(found, name)).all()


def test_a_prop_lets_it_stand() -> None:
    frame = straight(20, ROLLER)
    across = np.zeros(21)
    across[-1] = -1.5 * np.pi**2 * EI / 16
    prop = Member(start=10, end=GROUND, stiffness=1e7, works=Works.BOTH)
    states = States.build(
        21, parent=[-1, -1], across=across, down=np.ones(21), members=[prop], member_on=[[True], [False]]
    )
    assert solve(frame, Soil.absent(), states).converged.tolist() == [[True, False]]


@pytest.mark.parametrize(
    ("feet", "times"),
    [(ROLLER, 1.0), (CANTILEVER, 0.25), (((np.inf,) * 3, (0.0, np.inf, np.inf)), 4.0), (FIXED, 4.0)],
)
def test_euler(feet: tuple, times: float) -> None:
    found = factor_of(straight(30, feet), np.full(30, 1000.0))
    expected = times * np.pi**2 * EI / 16 / 1000
    assert 0.9998 * expected < found < 1.00001 * expected


def test_two_rigid_pieces_and_a_joint() -> None:
    stiffness, length = 3e4, 4.0
    joint = np.full(21, np.inf)
    joint[10] = stiffness
    frame = straight(20, ROLLER, bending=1e11, joint=joint)
    np.testing.assert_allclose(factor_of(frame, np.ones(20)), 4 * stiffness / length, rtol=2e-4)


def test_creep_soil_and_many_cases_at_once() -> None:
    x = np.linspace(-2.0, 2.0, 41)
    frame = Frame.bare(x, 1.2 * (1 - x**2 / 4), axial=1e10, bending=EI, feet=PINNED, width=1.0)
    loads = np.full((2, 3, 40), 1000.0)
    loads[1] *= 2.0
    bare = factor_of(frame, loads)
    assert bare.shape == (2, 3)
    np.testing.assert_allclose(bare[1], bare[0] / 2, rtol=2e-4)
    np.testing.assert_allclose(factor_of(frame, loads, stiffness=0.5), bare / 2, rtol=2e-4)
    each = factor_of(frame, loads[0, 0], stiffness=[1.0, 0.5, 0.25])
    np.testing.assert_allclose(each, bare[0, 0] * np.array([1.0, 0.5, 0.25]), rtol=2e-4)
    assert (factor_of(frame, loads, spring=np.full(41, 1e6)) > 1.5 * bare).all()


def test_what_does_not_buckle_and_what_cannot_stand() -> None:
    assert factor_of(straight(10, FIXED), np.full(10, -500.0)) == np.inf
    assert np.isnan(factor_of(straight(10, ((0.0, np.inf, 0.0), (0.0, np.inf, 0.0))), np.full(10, 1.0)))
    assert np.isnan(factor_of(straight(10, FIXED), np.full(10, np.nan)))
    assert np.isnan(factor_of(straight(10, FIXED), np.ones(10), stiffness=np.nan))
    assert np.isnan(factor_of(straight(10, FIXED, bending=np.nan), np.ones(10)))
    assert np.isnan(factor_of(straight(10, FIXED), np.ones(10), spring=np.full(11, np.nan)))
