"""How fast the rib frame is: 20 cases in second order with the soil law, against PyNite's nearest model.

    .venv/bin/python bench/frames.py

PyNite has no soil law that follows the filling and no limit of pressure; nearest comes the same chain of
members with the soil's weight as loads, springs on every node that push one way only, and its P-Delta
analysis (two passes). It runs once: a single analysis takes seconds. Both sides are warm.
"""

from __future__ import annotations

import time
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from Pynite import FEModel3D

from bermwright.handbook.curves import segment
from bermwright.handbook.frames import Frame, Response, Soil, States, buckling_factor, solve
from measure import leave, line, median_seconds

ELEMENTS, SPACING = 72, 0.6
LEVELS = (1.5, 2.4, 2.7, 3.0)
UNIT_WEIGHT, MODULUS = 19e3, 15e6


def rib() -> Frame:
    """A nail-laminated rib of 4.8 m by 2.2 m with nine butt joints."""
    curve = segment(4.8, 2.2)
    even = np.linspace(0.0, curve.length, ELEMENTS + 1)
    joint = np.full(ELEMENTS + 1, np.inf)
    joint[4:-4:8] = 2e5
    return Frame.bare(
        np.interp(even, curve.s, curve.x),
        0.9 + np.interp(even, curve.s, curve.z),
        axial=374.4e6 * SPACING,
        bending=1186e3 * SPACING,
        joint=joint,
        width=SPACING,
    )


def soil(lanes: int) -> Soil:
    """Runs of the soil law, some with springs."""
    return Soil.lanes(
        ratio=np.resize([0.307, 0.47, 0.47, 0.6, 1.0], lanes),
        spring=np.resize([0.0, 0.25, 0.5, 0.0, 0.25], lanes),
        weight=UNIT_WEIGHT,
        modulus=MODULUS,
        active=0.307,
        passive=1.63,
    )


def filling(frame: Frame, levels: tuple[float, ...]) -> States:
    """One state a level, each resting on the one before."""
    ground = 3.45 - 0.4 * np.abs(frame.x)
    depth = [np.maximum(np.minimum(ground, level) - frame.z, 0.0) for level in levels]
    return States.build(frame.x.size, parent=range(-1, len(levels) - 1), depth=depth, down=15.0)


def other_program(frame: Frame, runs: Soil, states: States) -> FEModel3D:
    """All cases as load combinations of one PyNite model."""
    model = FEModel3D()
    model.add_material("wood", 1.0, 1e9, 0.3, 1.0)
    model.add_section("rib", frame.axial[0], 1.0, frame.bending[0], 1.0)
    for i in range(frame.x.size):
        model.add_node(f"N{i}", frame.x[i], frame.z[i], 0.0)
        held = i in {0, ELEMENTS}
        model.def_support(
            f"N{i}", support_DX=held, support_DY=held, support_DZ=True, support_RX=True, support_RY=True
        )
        stiffness = 0.25 * MODULUS * abs(frame.rise[i])
        if not held and stiffness > 0.0:
            model.def_support_spring(f"N{i}", "DX", stiffness, "-" if frame.rise[i] > 0 else "+")
    for e in range(ELEMENTS):
        model.add_member(f"M{e}", f"N{e}", f"N{e + 1}", "wood", "rib")
    for lane, ratio in enumerate(runs.ratio):
        for state, depth in enumerate(states.depth):
            case = f"L{lane}S{state}"
            for i in range(1, ELEMENTS):
                across = ratio * UNIT_WEIGHT * depth[i] * frame.rise[i]
                down = UNIT_WEIGHT * depth[i] * frame.plan[i] + states.down[state, i]
                model.add_node_load(f"N{i}", "FX", across, case)
                model.add_node_load(f"N{i}", "FY", -down, case)
            model.add_load_combo(case, {case: 1.0})
    return model


def twenty() -> tuple[Response, float, float]:
    """Seconds for 20 cases here and there, one after the other."""
    frame, runs = rib(), soil(5)
    states = filling(frame, LEVELS)
    here = median_seconds(lambda: solve(frame, runs, states), times=50)
    model = other_program(frame, runs, states)
    start = time.perf_counter()
    model.analyze_PDelta()
    there = time.perf_counter() - start
    return solve(frame, runs, states), here, there


def main() -> None:
    """Print every figure and whether its gate is met."""
    found, here, there = twenty()
    assert found.converged.all()
    met = [
        line("20 cases, 72 elements, second order, soil law", here * 1e3, "ms"),
        line("PyNite's nearest model, once", there, "s"),
        line("ratio", there / here, "x", gate=1000.0, least=True),
    ]
    frame, many = rib(), soil(500)
    states = filling(frame, (1.2, 1.5, 1.8, 2.1, 2.4, 2.7, 3.0, 3.3, 3.45, 3.45))
    alone = median_seconds(lambda: solve(frame, many, states), times=3)
    met.append(line("one lane and state, one thread", alone / 5000 * 1e6, "µs", gate=60.0))
    with ThreadPoolExecutor(2) as pool:
        both = median_seconds(lambda: solve(frame, many, states, share=pool.map), times=3)
    met.append(line("5,000 lanes and states, two threads", both, "s", gate=0.3))
    axial = solve(frame, soil(20), states).axial
    buckling = median_seconds(lambda: buckling_factor(frame, axial), times=3)
    met.append(line("one buckling factor", buckling / axial[..., 0].size * 1e6, "µs"))
    leave(met)


if __name__ == "__main__":
    main()
