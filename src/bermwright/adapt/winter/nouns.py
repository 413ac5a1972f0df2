"""What the winter of a room is made of, and what comes out of it."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.handbook.room import Air, solids

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.room import Body, Solids

    Array = NDArray[np.float64]

HOURS = 8760
DAYS_OF_MONTHS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
MONTH_OF_HOUR = np.repeat(np.arange(12), DAYS_OF_MONTHS * 24)
OFF = -273.0
"""Set point of a heater that is off (°C)."""


def monthly(hourly: Array) -> Array:
    """Sums of the twelve months."""
    return np.asarray(np.bincount(MONTH_OF_HOUR, weights=hourly, minlength=12), dtype=float)


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """A way out of the room for warmth that stores nothing: a window, a door, fresh air."""

    name: str
    conductance: Array
    """One value an hour (W/K)."""
    behind: Array
    """What lies behind it (°C)."""
    how: str
    """How the conductance was found, with its numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """Warmth that comes without anybody heating. What of it falls on solids does not reach the air."""

    name: str
    heat: Array
    """All of it, one value an hour (W)."""
    how: str
    to_air: float = 1.0
    """Share that warms the air at once; the rest falls on floor and walls."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solid:
    """A body that the room touches, with what it meets on its other sides."""

    name: str
    body: Body
    known: Array
    """(hours, inputs - 1)."""
    how: str
    area: float = 0.0
    """Of an end wall (m2); 0 for what is no plain wall."""
    resistance: float = 0.0
    """From the room's air to outdoors (m2K/W)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """One room, ready for its year."""

    capacity: float
    """Air and light things (J/K)."""
    losses: tuple[Loss, ...]
    gains: tuple[Gain, ...]
    solids: tuple[Solid, ...]
    """The ground and shell first."""
    outdoors: Array
    set_point: Array
    """What is wanted (°C)."""
    power: float
    open_above: float
    open_loss: float
    assumed: tuple[str, ...] = ()

    @property
    def bodies(self) -> Solids:
        """All solids as one."""
        return solids([(one.body, one.known) for one in self.solids])

    @property
    def loss(self) -> Array:
        """All conductances (W/K)."""
        return np.asarray(sum((one.conductance for one in self.losses), np.zeros(HOURS)))

    @property
    def source(self) -> Array:
        """What comes in through them from behind, and what warms the air (W)."""
        through = sum((one.conductance * one.behind for one in self.losses), np.zeros(HOURS))
        return np.asarray(through + sum((one.heat * one.to_air for one in self.gains), np.zeros(HOURS)))

    def air(self, *, heated: bool = True, warmer: float = 0.0) -> Air:
        """The room's air for the balance, its set point raised by some kelvins."""
        return Air(
            capacity=self.capacity,
            loss=self.loss,
            source=self.source,
            set_point=self.set_point + warmer if heated else np.full(HOURS, OFF),
            power=np.full(HOURS, self.power if heated else 0.0),
            open_above=self.open_above,
            open_loss=self.open_loss,
            outdoors=self.outdoors,
        )

    def losing(self, name: str, share: float | Array) -> Room:
        """The same room with one way out narrowed to a share of itself."""
        losses = tuple(
            replace(one, conductance=one.conductance * share) if one.name == name else one
            for one in self.losses
        )
        return replace(self, losses=losses)

    def without(self, *gains: str) -> Room:
        """The same room without some of its gains."""
        return replace(self, gains=tuple(one for one in self.gains if one.name not in gains))


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Where warmth comes from and where it goes, month by month (J); both add up to the same."""

    gains: dict[str, Array]
    losses: dict[str, Array]
    error: float
    """What is left over, over all that comes in (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """What the year's heat takes in wood."""

    species: str
    moisture: float
    stacked: str
    heat: float
    """What the house takes (J)."""
    efficiency: float
    of_stack: float
    """Heat in a cubic metre as it lies (J/m3)."""
    volume: float
    """As it lies (m3)."""
    mass: float
    """As burned (kg)."""
    charges: float | None
    """Full charges a year; None where the file names no stove."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One run of the year."""

    room: Array
    heat: Array
    opened: Array
    charges: Array
    start: Array
    """State of all modes at the beginning of the year."""
    weeks: Array = field(repr=False)
    """States at the end of each week, (52, modes)."""
