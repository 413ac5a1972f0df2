"""A wall of layers as a linear body: its own modes, each with one rate of decay.

A body is every solid that stores heat and touches the room at one port: a wall, an inner mass, or the
reduced ground. The hourly balance (`hours.py`) reads nothing else of it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Array = NDArray[np.float64]

SKIN = 100.0
"""Heat capacity given to a surface that has none of its own, so that it has a rate at all (J/m2K)."""
GRID_PER_DEPTH = 6.0
"""Elements over the depth to which an hour's wave of heat gets."""
FAST_WAVE_GRID = 3600.0 / np.pi
LEAST_GRID, MOST_GRID = 3, 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """A layer of a wall; `heat_capacity` is per volume (J/m3K), 0 for a layer that stores nothing."""

    thickness: float
    conductivity: float
    heat_capacity: float

    @property
    def resistance(self) -> float:
        """Thermal resistance (m2K/W)."""
        return self.thickness / self.conductivity


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A linear solid in modal form: z' = -decay z + gain u, heat to the room = gain[:, 0].z - port u0.

    Input 0 is the temperature of the room; the others are what `inputs` names.
    """

    decay: Array
    """Rate of each mode (1/s), above 0."""
    gain: Array
    """(modes, inputs)."""
    port: float
    """Conductance between the room and the surface (W/K)."""
    inputs: tuple[str, ...]

    @property
    def stores(self) -> float:
        """Heat that the body takes up when all its temperatures rise by one kelvin (J/K)."""
        level = (self.gain @ self._levels) / self.decay
        return float(level @ level)

    @property
    def _levels(self) -> Array:
        """1 for every input that is a temperature, 0 for heat that is put in."""
        return np.array([0.0 if name.startswith("sun") else 1.0 for name in self.inputs])


def wall_body(
    layers: Sequence[Layer], area: float, *, inside_film: float, outside_film: float | None
) -> Body:
    """A wall of layers between the room and one outside temperature, with sun on its inside.

    c ∂T/∂t = ∂/∂x (k ∂T/∂x); −k ∂T/∂x = h (T_air − T) + q at both faces, by linear elements

    Parameters
    ----------
    layers : sequence of Layer
        From the inside out; thickness above 0 [m], conductivity 0.005 to 400 [W/(m K)], heat capacity 0
        to 1e7 [J/(m3 K)].
    area : float
        Area of the wall, above 0 [m2].
    inside_film : float
        Film coefficient inside, convection and radiation together, 0.5 to 100 [W/(m2 K)].
    outside_film : float or None
        Film coefficient outside, 0.5 to 1000 [W/(m2 K)]; None for a mass inside that nothing passes.

    Returns
    -------
    Body
        Inputs: room [°C], outside [°C], sun on the inside face of the whole wall [W]; without an outside
        the second one is missing.

    Notes
    -----
    The elements are as fine as the wave of one hour asks. A face without mass gets 100 J/m2K.

    References
    ----------
    [CARSLAW1959] : chapter 3, the slab with film coefficients, which the elements approach.
    """
    _check_layers(layers)
    within("area", area, 0.0, unit="m2", open_low=True)
    within("inside film", inside_film, 0.5, 100.0, unit="W/(m2 K)")
    mass, stiff = _matrices(layers)
    inputs = ["room", "sun"]
    load = np.zeros((mass.size, 3))
    load[0, 0], load[0, 2] = inside_film * area, 1.0
    stiff *= area
    mass *= area
    stiff[0, 0] += inside_film * area
    if outside_film is not None:
        within("outside film", outside_film, 0.5, 1000.0, unit="W/(m2 K)")
        stiff[-1, -1] += outside_film * area
        load[-1, 1] = outside_film * area
        inputs = ["room", "outside", "sun"]
    load = load[:, :3] if outside_film is not None else load[:, [0, 2]]
    return _modal(mass, stiff, load, tuple(inputs))


def _check_layers(layers: Sequence[Layer]) -> None:
    if not layers:
        raise OutOfRangeError("A wall needs at least one layer.")
    within("thickness", [one.thickness for one in layers], 0.0, 5.0, unit="m", open_low=True)
    within("conductivity", [one.conductivity for one in layers], 0.005, 400.0, unit="W/(m K)")
    within("heat capacity", [one.heat_capacity for one in layers], 0.0, 1e7, unit="J/(m3 K)")


def _elements(layer: Layer) -> int:
    if layer.heat_capacity == 0.0:
        return 1
    depth_grid = np.sqrt(FAST_WAVE_GRID * layer.conductivity / layer.heat_capacity)
    return int(np.clip(np.ceil(GRID_PER_DEPTH * layer.thickness / depth_grid), LEAST_GRID, MOST_GRID))


def _matrices(layers: Sequence[Layer]) -> tuple[Array, Array]:
    """Lumped mass (J/m2K) and stiffness (W/m2K, its lower half) of the nodes, from the inside out."""
    counts = [_elements(layer) for layer in layers]
    size = sum(counts) + 1
    mass, stiff = np.zeros(size), np.zeros((size, size))
    node = 0
    for layer, count in zip(layers, counts, strict=True):
        storage = layer.heat_capacity * layer.thickness / count
        conductance = layer.conductivity * count / layer.thickness
        for one in range(node, node + count):
            mass[one] += 0.5 * storage
            mass[one + 1] += 0.5 * storage
            stiff[one, one] += conductance
            stiff[one + 1, one + 1] += conductance
            stiff[one + 1, one] -= conductance
        node += count
    return np.maximum(mass, SKIN), stiff


def _modal(mass: Array, stiff: Array, load: Array, inputs: tuple[str, ...]) -> Body:
    root = np.sqrt(mass)
    rates, shapes = np.linalg.eigh(stiff / np.outer(root, root), UPLO="L")
    return Body(
        decay=rates,
        gain=shapes.T @ (load / root[:, np.newaxis]),
        port=float(load[0, 0]),
        inputs=inputs,
    )


def wall_answer(body: Body, period: float) -> Array:
    """Heat that a swing of each input brings into the room, as complex amplitudes.

    Y_j = Σ gain_0·gain_j/(decay + iω) − port·[j = 0], ω = 2π/period

    Parameters
    ----------
    body : Body
        The wall [-].
    period : float
        Period of the swing, above 0 [s]; infinity for the steady state.

    Returns
    -------
    complex array
        One for each input: for the room and other temperatures [W/K], for sun [-].

    References
    ----------
    [ISO13786] : periodic transmittance and admittance; here for elements instead of exact layers.
    """
    within("period", period, 0.0, unit="s", open_low=True)
    omega = 2.0 * np.pi / period
    answer = (body.gain[:, 0] / (body.decay + 1j * omega)) @ body.gain
    answer[0] -= body.port
    return np.asarray(answer)
