"""Soil law, second order, joints, props and ties together: against a dense root in all unknowns."""

from __future__ import annotations

import dataclasses
from itertools import product

import numpy as np
import pytest

from bermwright.handbook.frames import GROUND, Frame, Member, Soil, States, Works, solve

LANES = Soil.lanes(
    ratio=[0.47, 0.31, 0.6, 0.47],
    active=0.3,
    passive=[1.6, 1.6, 0.62, 1.6],
    spring=[0.25, 0.0, 3.0, 0.5],
    modulus=15e6,
    weight=[19e3, 22e3, 19e3, 25e3],
    vertical=[1.0, 0.7, 1.2, 1.0],
    underside=[1.0, 0.3, 0.0, 1.0],
)


def agree(ours: np.ndarray, theirs: list[np.ndarray], nodes: int) -> None:
    for mine, other in zip(ours, theirs, strict=True):
        whole = other[: 3 * nodes].reshape(nodes, 3)
        np.testing.assert_allclose(mine, whole, atol=1e-6 * np.abs(whole).max())


@pytest.mark.parametrize(("lane", "second_order"), [(0, False), (1, True), (2, True), (3, True)])
def test_filling(dense: type, vault: Frame, filling: States, lane: int, *, second_order: bool) -> None:
    frame = dataclasses.replace(vault, bending=0.05 * vault.bending)
    found = solve(frame, LANES, filling, second_order=second_order)
    assert found.converged[lane].all()
    theirs = dense(frame, LANES, filling, second_order=second_order)
    agree(found.displacement[lane], theirs.solve(lane), frame.x.size)
    for state in range(4):
        pressure, _ = theirs.pressure(lane, state, theirs.shapes[state])
        np.testing.assert_allclose(found.pressure[lane, state], pressure, atol=1e-6 * (1 + pressure.max()))


def test_all_three_sides_of_the_law_occur(vault: Frame, filling: States) -> None:
    frame = dataclasses.replace(vault, bending=0.05 * vault.bending)
    found = solve(frame, LANES, filling)
    pressure, vertical = found.pressure[2], 19e3 * filling.depth + filling.surcharge
    ratio = pressure[vertical > 0] / vertical[vertical > 0]
    assert np.isclose(ratio, 0.3, atol=1e-9).any()
    assert np.isclose(ratio, 0.62, atol=1e-9).any()
    assert ((ratio > 0.31) & (ratio < 0.61)).any()
    np.testing.assert_array_equal(
        found.spring[2][vertical > 0] > 0, (ratio > 0.3 + 1e-9) & (ratio < 0.62 - 1e-9)
    )


def test_joints_of_every_kind(dense: type, vault: Frame, filling: States) -> None:
    joint = np.full(17, np.inf)
    joint[[3, 8, 12]] = [4e4, 0.0, 9e4]
    frame = dataclasses.replace(vault, joint=joint)
    states = dataclasses.replace(
        filling, stiffness=np.array([1.0, 1.0, 0.7, 0.7]), joint_stiffness=np.array([1.0, 0.8, 0.5, 0.5])
    )
    found = solve(frame, LANES, states)
    agree(found.displacement[0], dense(frame, LANES, states, second_order=True).solve(0), 17)


MEMBERS = (
    Member(start=8, end=GROUND, stiffness=3e6, works=Works.COMPRESSION),
    Member(start=3, end=13, stiffness=5e6, works=Works.TENSION),
    Member(start=5, end=11, stiffness=4e6, works=Works.BOTH),
    Member(start=2, end=GROUND, stiffness=2e6, works=Works.COMPRESSION, towards=(0.8, -0.6)),
)


def test_props_and_ties(dense: type, vault: Frame, filling: States) -> None:
    stands = [[True, False, True, False], [True, True, True, True], [True, True, False, True], [False] * 4]
    states = dataclasses.replace(filling, members=MEMBERS, member_on=np.array(stands))
    frame = dataclasses.replace(vault, bending=0.1 * vault.bending)
    found = solve(frame, LANES, states)
    assert found.converged.all()
    theirs = dense(frame, LANES, states, second_order=True)
    agree(found.displacement[0], theirs.solve(0), 17)
    force = found.member[0]
    assert (force[:, [0, 3]] <= 0).all()
    assert (force[:, 1] >= 0).all()
    assert (force[~np.array(stands)] == 0).all()
    assert np.abs(force).max() > 100.0


def test_spreading_feet(dense: type, vault: Frame, filling: States) -> None:
    frame = dataclasses.replace(vault, feet=np.array([[2e6, 8e6, 3e5], [3e6, np.inf, 0.0]]))
    found = solve(frame, LANES, filling)
    agree(found.displacement[0], dense(frame, LANES, filling, second_order=True).solve(0), 17)
    np.testing.assert_allclose(found.feet[0, :, 0, 0], -2e6 * found.displacement[0, :, 0, 0], rtol=1e-6)
    np.testing.assert_allclose(found.feet[0, :, 0, 1], -8e6 * found.displacement[0, :, 0, 1], rtol=1e-6)
    np.testing.assert_allclose(found.feet[0, :, 0, 2], 3e5 * found.displacement[0, :, 0, 2], rtol=1e-6)
    np.testing.assert_allclose(found.feet[0, :, 1, 0], 3e6 * found.displacement[0, :, -1, 0], rtol=1e-6)


def test_loose_soil_presses_but_does_not_hold(vault: Frame, filling: States) -> None:
    loose = dataclasses.replace(filling, springs_on=np.zeros_like(filling.springs_on))
    found = solve(vault, LANES, loose)
    bare = solve(vault, dataclasses.replace(LANES, spring=np.zeros(4)), filling)
    np.testing.assert_array_equal(found.displacement, bare.displacement)
    assert (found.spring == 0).all()


def test_pore_water_takes_from_the_soil(vault: Frame) -> None:
    depth = np.full(17, 1.0)
    wet = States.build(17, depth=depth, pore=8e3)
    dry = States.build(17, depth=depth * (19e3 - 8e3) / 19e3)
    soil = Soil.lanes(ratio=0.5, weight=19e3)
    found, expected = solve(vault, soil, wet), solve(vault, soil, dry)
    np.testing.assert_allclose(found.moment, expected.moment, rtol=1e-8, atol=1e-6)
    drowned = solve(vault, soil, States.build(17, depth=depth, pore=30e3))
    assert (drowned.pressure == 0).all()
    assert np.abs(drowned.moment).max() < 1e-9


def test_passes_do_not_go_in_circles() -> None:
    # Soft ribs in stiff soil with joints and one-sided members: plain steps swing between two patterns of
    # active and passive soil. In first order only a mechanism may stay without an answer.
    turn = np.linspace(np.pi, 0.0, 33)
    joint = np.full(33, np.inf)
    joint[[3, 9, 14, 23, 28]] = [1e4, 1e5, 1e4, 1e5, 1e4]
    hard = 0
    for span, rise, bending in product((2.0, 4.0, 7.0), (1.0, 2.5, 4.5), (1e4, 1e5, 1e6)):
        frame = Frame.bare(
            0.5 * span * np.cos(turn),
            rise * np.sin(turn),
            axial=1e8,
            bending=bending,
            joint=joint,
            width=0.6,
        )
        levels = np.linspace(0.3, 1.1, 8)[:, None] * rise + 0.3 * (frame.x < 0)
        members = (
            Member(start=16, end=GROUND, stiffness=1e6, works=Works.COMPRESSION),
            Member(start=8, end=24, stiffness=1e6, works=Works.TENSION),
        )
        states = States.build(
            33, parent=range(-1, 7), depth=np.maximum(levels - frame.z, 0.0), down=20.0, members=members
        )
        soil = Soil.lanes(
            ratio=0.5, spring=[0.25, 1.0, 3.0], weight=20e3, modulus=40e6, active=0.3, passive=0.7
        )
        found = solve(frame, soil, states, second_order=False)
        assert found.converged.all()
        hard += int((found.iterations > 6).sum())
    assert hard > 0
