"""First order without soil: against another program's frame, joints and springs included."""

from __future__ import annotations

import dataclasses

import numpy as np
import pytest
from Pynite import FEModel3D

from bermwright.handbook.frames import FIXED, PINNED, Frame, Response, Soil, States, solve

FEET = [
    FIXED,
    PINNED,
    ((4e6, np.inf, 2e5), (np.inf, 7e6, 0.0)),
]


def other_program(frame: Frame, loads: dict[str, np.ndarray]) -> FEModel3D:
    """The same frame in PyNite: x right, y up, bending about z."""
    model = FEModel3D()
    shear_modulus, thick = 1e9, 1.0
    for i in range(frame.x.size):
        model.add_node(f"N{i}", frame.x[i], frame.z[i], 0.0)
        model.def_support(f"N{i}", support_DZ=True, support_RX=True, support_RY=True)
        for way, name in (("FX", "across"), ("FY", "down"), ("MZ", "moment")):
            value = loads[name][i] * (-1.0 if name == "down" else 1.0)
            model.add_node_load(f"N{i}", way, value)
    model.add_material("wood", 1.0, shear_modulus, 0.3, 1.0)
    for e in range(frame.elements):
        model.add_section(f"S{e}", frame.axial[e], thick, frame.bending[e], thick)
        model.add_member(f"M{e}", f"N{e}", f"N{e + 1}", "wood", f"S{e}")
    for node, foot in ((0, frame.feet[0]), (frame.elements, frame.feet[1])):
        held = dict(zip(("support_DX", "support_DY", "support_RZ"), np.isinf(foot), strict=True))
        model.def_support(f"N{node}", support_DZ=True, support_RX=True, support_RY=True, **held)
        for way, value in zip(("DX", "DY", "RZ"), foot, strict=True):
            if 0.0 < value < np.inf:
                model.def_support_spring(f"N{node}", way, value)
    model.analyze_linear()
    return model


def moments(model: FEModel3D, elements: int) -> np.ndarray:
    """Bending at both ends of every element, tension inside positive."""
    ends = [model.members[f"M{e}"].f("Combo 1").ravel() for e in range(elements)]
    return np.array([(-end[5], end[11]) for end in ends])


@pytest.mark.parametrize("feet", FEET, ids=["fixed", "pinned", "springs"])
def test_equals_pynite(vault: Frame, loads: dict[str, np.ndarray], feet: tuple) -> None:
    frame = dataclasses.replace(vault, feet=np.array(feet))
    ours = solve(frame, Soil.absent(), States.build(frame.x.size, **loads), second_order=False)
    theirs = other_program(frame, loads)
    nodes = theirs.nodes.values()
    moved = np.array([(n.DX["Combo 1"], n.DY["Combo 1"], n.RZ["Combo 1"]) for n in nodes])
    scale = np.abs(moved).max(axis=0)
    np.testing.assert_allclose(ours.displacement[0, 0] / scale, moved / scale, atol=1e-6)
    bending = moments(theirs, frame.elements)
    np.testing.assert_allclose(ours.moment[0, 0], bending, atol=1e-6 * np.abs(bending).max())
    push = np.array([theirs.members[f"M{e}"].f("Combo 1")[0, 0] for e in range(frame.elements)])
    np.testing.assert_allclose(ours.axial[0, 0], push, atol=1e-6 * np.abs(push).max())


def test_feet_get_what_the_other_program_says(vault: Frame, loads: dict[str, np.ndarray]) -> None:
    ours = solve(vault, Soil.absent(), States.build(vault.x.size, **loads), second_order=False)
    theirs = other_program(vault, loads)
    left, right = theirs.nodes["N0"], theirs.nodes[f"N{vault.elements}"]
    expected = [
        (side * n.RxnFX["Combo 1"], n.RxnFY["Combo 1"], -side * n.RxnMZ["Combo 1"])
        for side, n in ((1.0, left), (-1.0, right))
    ]
    np.testing.assert_allclose(ours.feet[0, 0], expected, rtol=1e-6)


def three_hinged(load: np.ndarray) -> Response:
    n = load.size - 1
    x = np.linspace(-3.0, 3.0, n + 1)
    joint = np.full(n + 1, np.inf)
    joint[n // 2] = 0.0
    frame = Frame.bare(x, 2.4 * (1 - (x / 3.0) ** 2), axial=1e8, bending=1e5, joint=joint)
    return solve(frame, Soil.absent(), States.build(n + 1, down=load), second_order=False)


def test_three_hinges_are_statics() -> None:
    n = 48
    weight = np.full(n + 1, 2000.0 * 6.0 / n)
    weight[n // 2 + 1 :] = 0.0
    weight[[0, n // 2]] *= 0.5
    found = three_hinged(weight)
    thrust, down = found.feet[0, 0, :, 0], found.feet[0, 0, :, 1]
    np.testing.assert_allclose(thrust, 1875.0, rtol=1e-6)
    np.testing.assert_allclose(down, [4500.0, 1500.0], rtol=1e-6)
    np.testing.assert_allclose(found.moment[0, 0, n // 4, 0], 1125.0, rtol=1e-5)
    np.testing.assert_allclose(found.moment[0, 0, n // 2, 0], 0.0, atol=1e-4)


def test_a_joint_turns_by_its_bending_over_its_stiffness() -> None:
    n, length, load, stiffness = 8, 4.0, 1000.0, 3e4
    joint = np.full(n + 1, np.inf)
    joint[n // 2] = stiffness
    frame = Frame.bare(
        np.linspace(0, length, n + 1),
        np.zeros(n + 1),
        axial=1e8,
        bending=2e5,
        joint=joint,
        feet=((np.inf, np.inf, 0.0), (0.0, np.inf, 0.0)),
    )
    down = np.zeros(n + 1)
    down[n // 2] = load
    found = solve(frame, Soil.absent(), States.build(n + 1, down=down), second_order=False)
    sag = load * length**3 / (48 * 2e5) + load * length**2 / (16 * stiffness)
    np.testing.assert_allclose(found.displacement[0, 0, n // 2, 1], -sag, rtol=1e-9)
    np.testing.assert_allclose(found.moment[0, 0, n // 2 - 1, 1], load * length / 4, rtol=1e-9)


def test_a_joint_at_the_foot_lies_in_series_with_it() -> None:
    def tip(foot: float, joint: float) -> float:
        frame = Frame.bare(
            [0.0, 0.0],
            [0.0, 3.0],
            axial=1e9,
            bending=1e9,
            joint=[joint, np.inf],
            feet=((np.inf, np.inf, foot), (0.0, 0.0, 0.0)),
        )
        states = States.build(2, across=[0.0, 100.0])
        return float(solve(frame, Soil.absent(), states, second_order=False).displacement[0, 0, 1, 0])

    rigid = 100.0 * 27.0 / 3e9
    np.testing.assert_allclose(tip(np.inf, 5e4) - rigid, 900.0 / 5e4, rtol=1e-6)
    np.testing.assert_allclose(tip(5e4, np.inf) - rigid, 900.0 / 5e4, rtol=1e-6)
    np.testing.assert_allclose(tip(5e4, 2e4) - rigid, 900.0 / 5e4 + 900.0 / 2e4, rtol=1e-6)


def test_half_of_a_moment_acts_on_either_side_of_a_joint() -> None:
    x = np.linspace(0.0, 2.0, 3)
    frame = Frame.bare(x, 0 * x, axial=1e8, bending=1e5, joint=[np.inf, 0.0, np.inf], feet=FIXED)
    found = solve(frame, Soil.absent(), States.build(3, moment=[0.0, 80.0, 0.0]), second_order=False)
    np.testing.assert_allclose(found.moment[0, 0, :, :].ravel()[1:3], [40.0, -40.0], rtol=1e-9)
