"""What is missing stays missing, for its own entry only; what cannot be meant is refused."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest

from bermwright.base.errors import OutOfRangeError
from bermwright.handbook.frames import GROUND, PINNED, Frame, Member, Response, Soil, States, Works, solve

SOIL = Soil.lanes(
    ratio=[0.4, 0.5], weight=18e3, spring=0.25, modulus=1e7, active=0.3, passive=1.6, underside=1.0
)
RESULTS = ("axial", "moment", "shear", "displacement", "feet", "pressure", "spring", "member")


def unknown(found: Response) -> np.ndarray:
    """(L, S) where nothing came out; everything must be unknown there and known elsewhere."""
    assert (found.converged == np.isfinite(found.moment).all(axis=(2, 3))).all()
    for name in RESULTS:
        array = getattr(found, name)
        flat = array.reshape(*array.shape[:2], -1)
        if flat.shape[2]:
            assert (np.isnan(flat).all(axis=2) == ~found.converged).all()
            assert (np.isfinite(flat).all(axis=2) == found.converged).all()
    return ~found.converged


@pytest.mark.parametrize("name", [f.name for f in dataclasses.fields(Soil)])
@pytest.mark.parametrize("bad", [np.nan, np.inf])
def test_a_lane_that_lacks_a_value(vault: Frame, filling: States, name: str, bad: float) -> None:
    values = getattr(SOIL, name).copy()
    values[1] = bad
    found = solve(vault, dataclasses.replace(SOIL, **{name: values}), filling)
    assert unknown(found).tolist() == [[False] * 4, [True] * 4]


@pytest.mark.parametrize(
    "name", ["across", "down", "moment", "depth", "surcharge", "pore", "stiffness", "joint_stiffness"]
)
def test_a_state_that_lacks_a_value_and_those_that_rest_on_it(
    vault: Frame, filling: States, name: str
) -> None:
    values = getattr(filling, name).copy()
    values[1] = np.nan
    states = dataclasses.replace(filling, **{name: values}, parent=np.array([-1, 0, 1, 0]))
    assert unknown(solve(vault, SOIL, states)).tolist() == [[False, True, True, False]] * 2


@pytest.mark.parametrize("name", [f.name for f in dataclasses.fields(Frame)])
def test_a_frame_that_lacks_a_value(vault: Frame, filling: States, name: str) -> None:
    values = getattr(vault, name).copy()
    values.flat[2] = np.nan
    assert unknown(solve(dataclasses.replace(vault, **{name: values}), SOIL, filling)).all()


def test_a_prop_of_unknown_stiffness(vault: Frame, filling: States) -> None:
    prop = Member(start=8, end=GROUND, stiffness=np.nan, works=Works.BOTH)
    stands = np.array([[False], [False], [True], [False]])
    states = dataclasses.replace(filling, members=(prop,), member_on=stands, parent=np.array([-1, 0, 1, 1]))
    found = solve(vault, SOIL, states)
    assert found.converged.tolist() == [[True, True, False, True]] * 2
    assert np.isnan(found.largest_bending).tolist() == [[False, False, True, False]] * 2
    assert np.isnan(found.largest_axial).tolist() == [[False, False, True, False]] * 2


def test_a_mechanism(vault: Frame, filling: States) -> None:
    joint = np.full(vault.x.size, np.inf)
    joint[[4, 8, 12]] = 0.0
    frame = dataclasses.replace(vault, joint=joint, feet=np.array(PINNED))
    still = dataclasses.replace(filling, springs_on=np.zeros_like(filling.springs_on))
    for order in (False, True):
        assert unknown(solve(frame, SOIL, still, second_order=order)).all()


WRONG = [
    ({"parent": np.array([-1, 2, 1, 0])}, "comes after its parent"),
    ({"parent": np.array([0, 0, 1, 2])}, "comes after its parent"),
    ({"down": np.zeros((4, 3))}, "states.down has the shape"),
    ({"stiffness": np.ones(3)}, "states.stiffness has the shape"),
    (
        {
            "members": (Member(start=2, end=40, stiffness=1.0, works=Works.BOTH),),
            "member_on": np.ones((4, 1), bool),
        },
        "joins two nodes",
    ),
    (
        {
            "members": (Member(start=2, end=2, stiffness=1.0, works=Works.BOTH),),
            "member_on": np.ones((4, 1), bool),
        },
        "joins two nodes",
    ),
]


@pytest.mark.parametrize(("change", "says"), WRONG)
def test_what_cannot_be_meant_is_refused(vault: Frame, filling: States, change: dict, says: str) -> None:
    with pytest.raises(OutOfRangeError, match=says):
        solve(vault, SOIL, dataclasses.replace(filling, **change))


def test_wrong_shapes_of_frame_and_soil_are_refused(vault: Frame, filling: States) -> None:
    with pytest.raises(OutOfRangeError, match=r"frame.axial has the shape \(3,\); \(16,\) is due"):
        solve(dataclasses.replace(vault, axial=np.ones(3)), SOIL, filling)
    with pytest.raises(OutOfRangeError, match=r"frame\.feet"):
        solve(dataclasses.replace(vault, feet=np.ones((2, 2))), SOIL, filling)
    with pytest.raises(OutOfRangeError, match=r"soil\.weight"):
        solve(vault, dataclasses.replace(SOIL, weight=np.ones(3)), filling)


def test_a_load_that_no_state_knows_is_refused() -> None:
    with pytest.raises(TypeError, match="no downwards"):
        States.build(3, downwards=1.0)


def test_lanes_shared_by_threads_are_the_same(vault: Frame, filling: States, monkeypatch: object) -> None:
    from concurrent.futures import ThreadPoolExecutor

    soil = Soil.lanes(ratio=np.linspace(0.3, 0.7, 13), weight=18e3, spring=0.25, modulus=1e7, active=0.3)
    alone = solve(vault, soil, filling)
    monkeypatch.setattr("bermwright.handbook.frames.solving.WORTH_CHUNKS", 1)
    with ThreadPoolExecutor(2) as pool:
        together = solve(vault, soil, filling, share=pool.map)
    for name in RESULTS:
        np.testing.assert_array_equal(getattr(alone, name), getattr(together, name))
