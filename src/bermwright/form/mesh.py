"""The rib's centreline cut into elements, with the soil face that belongs to each node."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.form.lines import frozen
from bermwright.form.shapes import FrameMesh

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, RibForm

    Array = NDArray[np.float64]

SAME_PLACE = 0.5
"""Share of an element by which a joint must lie off the crown for the crown to have its own node."""


def frame_mesh(rib: RibForm, soil_face: CurveLine, *, elements: int) -> FrameMesh:
    """Elements of nearly equal length, with a node on every butt joint and on the crown.

    `soil_face` has one point for each point of the centreline, square to it.
    """
    line = rib.centreline
    top = float(line.s[int(np.argmax(line.z))])
    apart = np.min(np.abs(rib.joints - top), initial=np.inf)
    crown = [top] if apart > SAME_PLACE * line.length / elements else []
    pins = np.sort(np.append(rib.joints, crown))
    places = _pinned_nodes(pins, line.length, elements)
    s = np.interp(
        np.arange(elements + 1),
        np.concatenate([[0], places, [elements]]),
        np.concatenate([[0.0], pins, [line.length]]),
    )
    x, z = (np.interp(s, line.s, values) for values in (line.x, line.z))
    soil_x, soil_z = (np.interp(s, line.s, values) for values in (soil_face.x, soil_face.z))
    return FrameMesh(
        s=frozen(s),
        x=frozen(x),
        z=frozen(z),
        soil_x=frozen(soil_x),
        soil_z=frozen(soil_z),
        plan=_shares(s, line.s, soil_face.x),
        rise=_shares(s, line.s, soil_face.z),
        arc=_shares(s, line.s, line.s),
        joint_nodes=tuple(int(np.argmin(np.abs(s - joint))) for joint in rib.joints),
        crown=int(np.argmin(np.abs(s - top))),
    )


def _pinned_nodes(pins: Array, length: float, elements: int) -> NDArray[np.intp]:
    """The node for each pinned place: the nearest, each its own, none at the feet."""
    if pins.size > elements - 1:
        raise OutOfRangeError(
            f"{elements} elements have no node for each of {pins.size} joints; take at least {pins.size + 1}."
        )
    order = np.arange(pins.size)
    near = np.rint(pins / length * elements).astype(np.intp)
    rising = np.maximum.accumulate(np.maximum(near, 1) - order) + order
    highest = elements - pins.size + order
    return np.asarray(np.minimum(rising, highest))


def _shares(s: Array, along: Array, values: Array) -> Array:
    """What of a quantity that runs along the centreline belongs to each node: half way to its neighbours.

    Signed, and telescoping: the sum is the difference of both feet, to the last bit.
    """
    middles = 0.5 * (s[:-1] + s[1:])
    edges = np.concatenate([[values[0]], np.interp(middles, along, values), [values[-1]]])
    return frozen(np.diff(edges))
