"""Laws of the rib frame: equilibrium, mirror images, superposition, more load more thrust, NaN stays NaN."""

from __future__ import annotations

import dataclasses

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from bermwright.handbook.frames import Frame, Response, Soil, States, solve

N = 20
LIKELY = settings(max_examples=30)


@st.composite
def frames(draw: st.DrawFn) -> Frame:
    """Uneven arches with soil on them, some with a hinge, soft joints, or feet that give way."""
    span, rise, lean = draw(st.floats(2, 6)), draw(st.floats(1, 4)), draw(st.floats(-0.3, 0.3))
    t = np.linspace(np.pi, 0, N + 1)
    joint = np.full(N + 1, np.inf)
    joint[draw(st.integers(3, N - 3))] = draw(st.sampled_from([np.inf, 0.0, 3e4, 3e5]))
    foot = st.sampled_from([(np.inf, np.inf, 0.0), (np.inf, np.inf, np.inf), (3e6, 9e6, 2e5)])
    frame = Frame.bare(
        0.5 * span * np.cos(t) + lean * np.sin(t),
        rise * np.sin(t),
        axial=3e8,
        bending=draw(st.floats(1e5, 1e6)),
        feet=[draw(foot), draw(foot)],
        joint=joint,
        width=0.6,
    )
    return dataclasses.replace(frame, lever_x=0.1 * np.cos(t), lever_z=0.1 * np.sin(t))


@st.composite
def fillings(draw: st.DrawFn, frame: Frame) -> States:
    """Bare, half filled with one side ahead, filled, loaded."""
    high, lead = frame.z.max() + draw(st.floats(0.0, 0.6)), draw(st.floats(-0.4, 0.4))
    half = np.where(frame.x < 0, 0.6 * high + lead, 0.6 * high)
    depth = [np.maximum(level - frame.z, 0.0) for level in (half, high, high)]
    surcharge = np.zeros((4, N + 1))
    surcharge[3] = draw(st.floats(0, 3e3)) * (frame.x > draw(st.floats(-1, 1)))
    return States.build(
        N + 1,
        parent=[-1, 0, 1, 2],
        depth=[0.0 * half, *depth],
        surcharge=surcharge,
        down=draw(st.floats(10, 100)),
        across=draw(st.floats(-30, 30)),
    )


SOIL = Soil.lanes(
    ratio=[0.31, 0.47, 0.6, 1.0],
    spring=[0.0, 0.25, 0.0, 0.0],
    weight=19e3,
    modulus=15e6,
    active=0.31,
    passive=1.63,
)


def on_nodes(frame: Frame, soil: Soil, states: States, found: Response) -> tuple[np.ndarray, ...]:
    """(L, S, n + 1) forces to the right and up, and moments, that act on the frame."""
    weight = soil.weight[:, None, None]
    vertical = np.maximum(weight * states.depth + states.surcharge - states.pore, 0.0)
    share = np.where(frame.plan >= 0, soil.vertical[:, None], soil.underside[:, None])
    up = -share[:, None, :] * vertical * frame.plan
    right = found.pressure * frame.rise
    moment = frame.lever_x * up - frame.lever_z * right + states.moment
    return right + states.across, up - states.down, moment


def out_of_balance(frame: Frame, states: States, found: Response) -> np.ndarray:
    """(3, L, S) what is left of all forces and moments, over the size of what acts."""
    right, up, moment = on_nodes(frame, SOIL, states, found)
    out, down, bend = (found.feet[..., way] for way in range(3))
    across = right.sum(-1) + out[..., 0] - out[..., 1]
    above = up.sum(-1) + down.sum(-1)
    turned = (frame.x * up - frame.z * right + moment).sum(-1)
    turned += frame.x[0] * down[..., 0] - frame.z[0] * out[..., 0] - bend[..., 0]
    turned += frame.x[-1] * down[..., 1] + frame.z[-1] * out[..., 1] + bend[..., 1]
    # Axial forces act on the bent shape: their arm is what each element has moved across itself.
    move = np.diff(found.displacement, axis=2)
    way = np.hypot(np.diff(frame.x), np.diff(frame.z))
    beside = (np.diff(frame.x) * move[..., 1] - np.diff(frame.z) * move[..., 0]) / way
    turned += (found.axial * beside).sum(-1)
    size = np.abs(right).sum(-1) + np.abs(up).sum(-1)
    return np.array([across, above, turned]) / size


@LIKELY
@given(st.data())
def test_every_state_is_in_balance(data: st.DataObject) -> None:
    frame = data.draw(frames())
    states = data.draw(fillings(frame))
    found = solve(frame, SOIL, states)
    assert found.converged.any()
    left = out_of_balance(frame, states, found)[:, found.converged]
    np.testing.assert_allclose(left, 0.0, atol=2e-7)


def mirrored(frame: Frame, states: States) -> tuple[Frame, States]:
    """Everything seen from the other end of the vault."""
    turned = {"x": -1, "z": 1, "plan": 1, "rise": -1, "lever_x": -1, "lever_z": 1, "joint": 1, "cushion": 1}
    parts = {name: sign * getattr(frame, name)[::-1] for name, sign in turned.items()}
    rest = {name: getattr(frame, name)[::-1] for name in ("axial", "bending", "feet")}
    loads = {"across": -1, "down": 1, "moment": -1, "depth": 1, "surcharge": 1, "pore": 1, "springs_on": 1}
    flipped = {
        name: (getattr(states, name)[:, ::-1] if sign > 0 else -getattr(states, name)[:, ::-1])
        for name, sign in loads.items()
    }
    return dataclasses.replace(frame, **parts, **rest), dataclasses.replace(states, **flipped)


@LIKELY
@given(st.data())
def test_a_mirror_image_answers_in_mirror_image(data: st.DataObject) -> None:
    frame = data.draw(frames())
    states = data.draw(fillings(frame))
    here, there = solve(frame, SOIL, states), solve(*_between(frame, states))
    np.testing.assert_array_equal(here.converged, there.converged)
    both = here.converged
    bend, other = here.moment[both], there.moment[both][:, ::-1, ::-1]
    np.testing.assert_allclose(bend, other, atol=1e-5 * np.abs(bend).max())
    push, foot = here.axial[both], here.feet[both]
    np.testing.assert_allclose(push, there.axial[both][:, ::-1], atol=1e-5 * np.abs(push).max())
    np.testing.assert_allclose(foot, there.feet[both][:, ::-1], atol=1e-5 * np.abs(foot).max())


def _between(frame: Frame, states: States) -> tuple[Frame, Soil, States]:
    turned, flipped = mirrored(frame, states)
    return turned, SOIL, flipped


@LIKELY
@given(st.data(), st.floats(-3, 3), st.floats(-3, 3))
def test_first_order_effects_add_up(data: st.DataObject, one: float, two: float) -> None:
    frame = data.draw(frames())
    s = np.linspace(0, 1, N + 1)
    first = {"down": 100 * s, "across": 50 * np.cos(5 * s), "moment": 20 * s}
    second = {"down": 80 * (1 - s), "across": 0 * s, "moment": 30 * np.sin(4 * s)}
    both = {name: one * first[name] + two * second[name] for name in first}
    a, b, c = (
        solve(frame, Soil.absent(), States.build(N + 1, **loads), second_order=False)
        for loads in (first, second, both)
    )
    for name in ("axial", "moment", "shear", "displacement", "feet"):
        expected = one * getattr(a, name) + two * getattr(b, name)
        scale = np.abs(getattr(a, name)).max() + np.abs(getattr(b, name)).max()
        np.testing.assert_allclose(getattr(c, name), expected, atol=1e-7 * scale)


@LIKELY
@given(st.data(), st.floats(1.05, 3.0))
def test_more_upright_load_presses_more(data: st.DataObject, times: float) -> None:
    frame = data.draw(frames())
    down = np.full((2, N + 1), 100.0)
    down[1] *= times
    found = solve(frame, Soil.absent(), States.build(N + 1, parent=[-1, -1], down=down))
    once, more = found.largest_axial[0]
    if found.converged.all():
        assert more > once


@LIKELY
@given(st.data(), st.sampled_from(["down", "across", "depth", "surcharge"]), st.integers(0, N))
def test_nan_never_becomes_a_figure(data: st.DataObject, name: str, node: int) -> None:
    frame = data.draw(frames())
    states = data.draw(fillings(frame))
    values = getattr(states, name).copy()
    values[1, node] = np.nan
    found = solve(frame, SOIL, dataclasses.replace(states, **{name: values}))
    assert not found.converged[:, 1:].any()
    assert np.isnan(found.moment[:, 1:]).all()
    assert np.isnan(found.feet[:, 1:]).all()
