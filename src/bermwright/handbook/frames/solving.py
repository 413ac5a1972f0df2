"""The call that a rule makes: a frame, its soil, its states, and what comes out."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.frames.nouns import GROUND, NO_PARENT, Response

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from bermwright.handbook.frames.nouns import Array, Frame, Soil, States, Truth, Whole
    from bermwright.handbook.frames.records import Lanes

    Share = Callable[[Callable[[Whole], None], Iterable[Whole]], Iterator[None]]

MOST_PASSES = 120
"""Linear solutions after which a state counts as having no answer."""
WORTH_CHUNKS = 50_000
"""Lanes times states times elements from which the lanes are cut into parts to be shared."""
CHUNKS = 8


def solve(
    frame: Frame,
    soil: Soil,
    states: States,
    *,
    second_order: bool = True,
    tolerance: float = 1e-9,
    share: Share = map,
) -> Response:
    r"""Forces, bending and movement of a rib under soil in every lane and state.

    :math:`(K_{el} + K_g(N) + \sum k\,|A_z|\,b\,b^T)\,u = f`, with the soil's sideways pressure
    :math:`p = \mathrm{clip}(K\sigma_v + k\,u,\ K_a\sigma_v,\ K_p\sigma_v)`,
    :math:`k = b\,E_s\sqrt{\max(\sigma_v(1 + 2K)/3,\ 5\,\mathrm{kPa})/50\,\mathrm{kPa}}` and
    :math:`\sigma_v = \max(\gamma d + q - w,\ 0)`.

    Parameters
    ----------
    frame : Frame
        The rib with its joints, feet and soil areas, n elements [m, N, N m2], n from 1.
    soil : Soil
        The soil's values in L lanes [-, 1/m, Pa, N/m3], finite.
    states : States
        Loads, fill and temporary members in S states [N, N m, m, Pa], parents before children.
    second_order : bool
        Whether the axial forces act on the bent shape [-].
    tolerance : float
        Largest change of movement between two passes, over the largest movement [-], above 0.
    share : callable
        Like `map`: the `map` of a thread pool works on the lanes of large tasks side by side [-].

    Returns
    -------
    Response
        Forces, bending, movements, foot forces and soil pressure [N, N m, m, rad, Pa]. Where no
        state of rest is found, a value is missing or not finite, or the parent has no answer: NaN
        and `converged` False.

    Notes
    -----
    u counts towards the soil from the shape of the parent of the state in which the soil at a node
    was first placed: before the lift that covers it. The stress in k is the soil's own, with
    whatever load factor stands in the unit weight: a factor F raises k by sqrt(F) at most.
    Tension in an element stiffens it and compression softens it by the consistent geometric matrix
    of the unbent chord (rotations up to about 0.1 rad). A joint turns between the far end of one
    element and the node after it; half of the moment on its node acts on either side. Soil forces
    act at the soil face; their arm does not turn with the rib. Props and ties stay straight and
    start free of force. A state that rests only on an unstable frame has no answer.

    References
    ----------
    [TIMOSHENKO1961] chapters 1 and 7; [FILLINGMODEL2026] the soil law; [DUNCAN1979] for why the fill is
    followed lift by lift.
    """
    # The compiled kernels load slowly, so that only who calls waits for them.
    from bermwright.handbook.frames import records
    from bermwright.handbook.frames.kernel import run_lanes

    _check(frame, soil, states)
    lanes, count = soil.ratio.size, states.parent.size
    out = records.out_of(lanes, count, frame.elements, len(states.members))
    task = records.Task(
        bars=records.bars_of(frame),
        lanes=records.lanes_of(soil),
        steps=records.steps_of(states),
        links=records.links_of(frame, states),
        gaps=records.gaps_of(frame, soil, states),
        control=records.Control(second_order=second_order, tolerance=tolerance, most=MOST_PASSES),
    )
    first, twin_of = _alike(task.lanes, task.gaps.lanes)
    chunks = min(first.size, CHUNKS) if lanes * count * frame.elements > WORTH_CHUNKS else 1
    for _ in share(lambda some: run_lanes(task, out, some), np.array_split(first, chunks)):
        pass
    twins = np.flatnonzero(twin_of != np.arange(lanes))
    if twins.size:
        for results in out:
            results[twins] = results[twin_of[twins]]
    return Response(**out._asdict())


def _alike(lanes: Lanes, unknown: Truth) -> tuple[Whole, Whole]:
    """The lanes that differ in what acts on the frame, and for every lane the one that is like it.

    Without a spring, soil presses by one ratio whatever moves: how far its limits lie apart is all the same.
    """
    still = (lanes.spring == 0.0) & ~unknown
    ratio = np.where(still, np.clip(lanes.ratio, lanes.active, lanes.passive), lanes.ratio)
    limits = [np.where(still, 0.0, one) for one in (lanes.active, lanes.passive, lanes.modulus)]
    acting = np.stack([ratio, *limits, lanes.spring, lanes.weight, lanes.vertical, lanes.underside])
    _, first, inverse = np.unique(acting, axis=1, return_index=True, return_inverse=True)
    twin_of = first[inverse.reshape(-1)]
    return np.unique(first), twin_of


def _check(frame: Frame, soil: Soil, states: States) -> None:
    nodes = frame.x.size
    _shapes("frame", frame, ("axial", "bending"), (nodes - 1,))
    _shapes("frame", frame, ("z", "joint", "plan", "rise", "lever_x", "lever_z", "cushion"), (nodes,))
    _shapes("frame", frame, ("feet",), (2, 3))
    _shapes("soil", soil, soil.__slots__, soil.ratio.shape)
    count = states.parent.size
    loads = ("across", "down", "moment", "depth", "surcharge", "pore", "springs_on")
    _shapes("states", states, loads, (count, nodes))
    _shapes("states", states, ("stiffness", "joint_stiffness"), (count,))
    _shapes("states", states, ("member_on",), (count, len(states.members)))
    within("the parent of a state", states.parent, NO_PARENT)
    if np.any(states.parent >= np.arange(count)):
        message = "Each state comes after its parent; -1 is no parent."
        raise OutOfRangeError(message)
    for member in states.members:
        ends = (member.start, member.end)
        if not (0 <= member.start < nodes and GROUND <= member.end < nodes and ends[0] != ends[1]):
            message = f"A member joins two nodes of 0 to {nodes - 1}, or one and the ground; not {ends}."
            raise OutOfRangeError(message)


def _shapes(owner: str, holder: object, names: tuple[str, ...], shape: tuple[int, ...]) -> None:
    for name in names:
        array: Array = getattr(holder, name)
        if array.shape != shape:
            message = f"{owner}.{name} has the shape {array.shape}; {shape} is due."
            raise OutOfRangeError(message)
