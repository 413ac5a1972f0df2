"""What drives a section through the year, and what it does then."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike

    from bermwright.handbook.groundheat.reduction import Reduced
    from bermwright.handbook.groundheat.section import Array

HOUR = 3600.0
BARE = 1e6
"""Conductance per area that stands for no snow at all (W/(m2 K))."""
COLDEST, HOTTEST = -90.0, 120.0
"""Temperatures that a surface in the sun or a polar night may have (°C)."""
MOST_POWER = 1e6
"""W for each metre of a house; more is a furnace."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """A port whose temperature follows from its own balance: the air of a room, or the top of the snow.

    C dT/dt = L(t)·(outside - T) + gains + heat - flow into the section. Every entry may be one number or one
    a mark.
    """

    port: str
    capacity: float = 0.0
    """Of air and furniture (J/(m K))."""
    loss: ArrayLike = 0.0
    """Conductance to outside past the section: windows, ends, air change (W/(m K))."""
    outside: ArrayLike = 0.0
    """Temperature on the other side of it (°C)."""
    gains: ArrayLike = 0.0
    """Heat that comes anyway: people, sun, a batch of wood (W/m)."""
    set_point: ArrayLike = np.nan
    """Temperature that the heating keeps (°C); NaN: it is not heated."""
    power: ArrayLike = np.inf
    """The most that the heating can give (W/m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drive:
    """Everything that a section meets, at equal marks of time and straight between them."""

    given: Mapping[str, ArrayLike] = field(default_factory=dict)
    """Temperature of the ports that have one of their own (°C)."""
    sources: Mapping[str, ArrayLike] = field(default_factory=dict)
    """Heat of the sources (W/m); what is left out gives none."""
    nodes: tuple[Node, ...] = ()
    step: float = HOUR
    """Time between two marks (s)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """How temperatures and heat ran, at every mark."""

    model: Reduced
    air: Mapping[str, Array]
    """Temperature of each node (°C)."""
    heat: Mapping[str, Array]
    """What its heating gave (W/m)."""
    unmet: Mapping[str, Array]
    """How far it stayed below its set point (K)."""
    flow: Mapping[str, Array]
    """From each port into the section (W/m)."""
    watch: Mapping[str, Array]
    """What is watched (°C)."""
    states: Array
    """(marks, modes) of the reduced model."""
    balance: float
    """Heat in less heat out less heat kept, summed over all steps, over all heat (-); NaN without states."""
    sweeps: int
    """How often the year was run until it repeated itself; 1 where it was not asked to."""
    drift: float
    """How far the end of the year lies from its start at the watched points and in the air (K)."""
    step: float

    def field(self, mark: int) -> Array:
        """Temperature of every point of the mesh at a mark (°C)."""
        return np.asarray(self.model.shapes @ self.states[mark])

    def state(self, mark: int) -> Start:
        """The state at a mark, from which another run may start."""
        air = {name: float(t[mark]) for name, t in self.air.items()}
        before = {
            name: float(t[max(mark - 1, 0) if self.sweeps == 1 else mark - 1]) for name, t in self.air.items()
        }
        return Start(modes=self.states[mark], air=air, before=before)


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A state of the reduced model and its nodes."""

    modes: Array
    air: Mapping[str, float]
    before: Mapping[str, float]
    """Of the mark before."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """A drive as arrays that fit a model: what the compiled step reads."""

    inputs: Array
    """(N, ports + sources) known temperatures and heats; 0 for nodes."""
    held: Array
    """(ports,) True where a node stands."""
    places: Array
    """(nodes,) index of each node's port."""
    capacity: Array
    loss: Array
    outside: Array
    gains: Array
    set_point: Array
    power: Array
    step: float


def series(model: Reduced, drive: Drive) -> Series:
    """A drive as arrays, or an error that says what is wrong with it."""
    full = model.full
    within("step", drive.step, 1.0, 400.0 * 86400.0, unit="s")
    names = [node.port for node in drive.nodes]
    _agree(full.ports, [*drive.given, *names], complete=True)
    _agree(full.sources, list(drive.sources), complete=False)
    marks = _marks(drive)
    inputs = np.zeros((marks, len(full.ports) + len(full.sources)))
    for name, value in drive.given.items():
        inputs[:, full.ports.index(name)] = _within(f"temperature of {name}", value, marks, COLDEST, HOTTEST)
    for name, value in drive.sources.items():
        at = len(full.ports) + full.sources.index(name)
        inputs[:, at] = _within(f"heat of {name}", value, marks, -MOST_POWER, MOST_POWER)
    for node in drive.nodes:
        within(f"heat capacity of {node.port}", node.capacity, 0.0, 1e12, unit="J/(m K)")
    return Series(
        inputs=inputs,
        held=np.array([name in names for name in full.ports]),
        places=np.array([full.ports.index(name) for name in names], dtype=np.int64),
        capacity=np.array([node.capacity for node in drive.nodes]),
        loss=_columns(drive, "loss", marks, 0.0, 1e9),
        outside=_columns(drive, "outside", marks, COLDEST, HOTTEST),
        gains=_columns(drive, "gains", marks, -MOST_POWER, MOST_POWER),
        set_point=_columns(drive, "set_point", marks, COLDEST, HOTTEST, unknown=True),
        power=_columns(drive, "power", marks, 0.0, np.inf),
        step=drive.step,
    )


def snow_loss(length: float, depth: ArrayLike, conductivity: ArrayLike) -> Array:
    """Conductance of lying snow, for a node between the air and the ground.

    L = b·λ/d; where nothing lies, so large that air and ground surface are as one.

    Parameters
    ----------
    length : float
        Developed length b of the surface [m], above 0.
    depth : float or array
        Depth d of the snow [m], 0 to 10.
    conductivity : float or array
        Conductivity λ of the snow [W/(m K)], 0.02 to 2.3.

    Returns
    -------
    float or array
        Conductance of a metre of the house [W/(m K)].

    References
    ----------
    [EN12524] : snow and ice, from fresh 0.05 to compacted 0.60.

    Examples
    --------
    >>> snow_loss(10.0, [0.4, 0.2], 0.2).tolist()
    [5.0, 10.0]
    """
    within("length", length, 0.0, 1e4, unit="m", open_low=True)
    within("depth of snow", depth, 0.0, 10.0, unit="m")
    within("conductivity of snow", conductivity, 0.02, 2.3, unit="W/(m K)")
    lying, conducts = np.asarray(depth, dtype=float), np.asarray(conductivity, dtype=float)
    return np.asarray(length / (lying / conducts + (1.0 / BARE) * (lying == 0.0)))


def _agree(names: tuple[str, ...], given: list[str], *, complete: bool) -> None:
    if strange := sorted(set(given) - set(names)):
        raise OutOfRangeError(f"{', '.join(strange)}: this section has only {', '.join(names) or 'none'}.")
    if len(set(given)) < len(given):
        raise OutOfRangeError("A port is given twice.")
    if complete and (missing := [name for name in names if name not in given]):
        raise OutOfRangeError(f"No temperature and no node is given for {', '.join(missing)}.")


def _marks(drive: Drive) -> int:
    """The number of marks, which everything longer than one number agrees on."""
    fields = ("loss", "outside", "gains", "set_point", "power")
    values = [*drive.given.values(), *drive.sources.values()]
    values += [getattr(node, name) for node in drive.nodes for name in fields]
    lengths = {np.size(value) for value in values} - {1}
    if len(lengths) > 1:
        counts = " and ".join(map(str, sorted(lengths)))
        raise OutOfRangeError(f"The series have different lengths: {counts} marks.")
    return lengths.pop() if lengths else 2


def _within(name: str, value: ArrayLike, marks: int, low: float, high: float) -> Array:
    array = np.array(np.broadcast_to(np.asarray(value, dtype=float), (marks,)))
    within(name, array, low, high)
    return array


def _columns(drive: Drive, name: str, marks: int, low: float, high: float, *, unknown: bool = False) -> Array:
    """(marks, nodes) one entry of every node; NaN passes where it means "not heated"."""
    columns = []
    for node in drive.nodes:
        column = np.array(np.broadcast_to(np.asarray(getattr(node, name), dtype=float), (marks,)))
        known = column[~np.isnan(column)] if unknown else column
        within(f"{name.replace('_', ' ')} of {node.port}", known, low, high)
        columns.append(column)
    return np.stack(columns, axis=1) if columns else np.zeros((marks, 0))
