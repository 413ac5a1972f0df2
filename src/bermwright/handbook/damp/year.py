"""Water in an assembly month by month: gathered in winter, dried in summer, or left for good."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.conduction import layer_temperatures
from bermwright.handbook.damp.diffusion import vapour_profile
from bermwright.handbook.weather.frost import DAYS_OF_MONTHS, SECONDS_A_DAY

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    from bermwright.handbook.damp.diffusion import Profile

    Array = NDArray[np.float64]

MONTHS = 12
YEARS = 8
"""After that many years a roof that still gathers is called one that never dries."""
TRACE = 1e-9
"""kg/m2: less is dry."""
SMALL_REST = 1e-4
"""kg/m2: so little left at the end of a year counts as dried."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MonthlyAir:
    """Twelve months on both sides of an assembly, January to December."""

    inside: Array
    """Temperature of the room (°C)."""
    outside: Array
    """Temperature outdoors, or of the ground on the assembly (°C)."""
    pressure_inside: Array
    """Vapour pressure (Pa)."""
    pressure_outside: Array


@dataclass(frozen=True, slots=True, kw_only=True)
class WetYear:
    """Water at the faces of an assembly, month by month."""

    start: int
    """First month counted, 0 is January: the first that wets after one that does not."""
    gathered: Array
    """(12, n + 1) water that gathers (+) or leaves (−) in each month of the first year (kg/m2), in the order
    of months counted from `start`."""
    lying: Array
    """(12, n + 1) water that lies there at the end of each month of the first year (kg/m2)."""
    years: tuple[float, ...]
    """All water at the end of each year reckoned (kg/m2); only one where it dries."""

    @property
    def months(self) -> tuple[int, ...]:
        """The months in the order counted, 0 is January."""
        return tuple((self.start + count) % MONTHS for count in range(MONTHS))

    @property
    def peak(self) -> float:
        """Most water at any one face (kg/m2)."""
        return float(np.max(self.lying))

    @property
    def face(self) -> int:
        """Where that is."""
        return int(np.unravel_index(np.argmax(self.lying), self.lying.shape)[1])

    @property
    def left(self) -> float:
        """Water left at the end of the first year (kg/m2)."""
        return float(np.sum(self.lying[-1]))

    @property
    def dries(self) -> bool:
        """Whether every winter's water is gone within its year."""
        return self.left <= SMALL_REST

    @property
    def builds_up(self) -> bool:
        """Whether it is more from year to year."""
        return self.years[-1] > self.years[0] + SMALL_REST


def wet_year(resistances: ArrayLike, air_layers: ArrayLike, air: MonthlyAir) -> WetYear:
    """Water that a year of vapour leaves in an assembly, with drying from the wet faces.

    M_(k+1) = max(0, M_k + g·t) face by face, g from `vapour_profile` with the wet faces pinned

    Parameters
    ----------
    resistances : array
        (n + 2,) of the inside film, every layer and the outside film, R [m2K/W], from 0.
    air_layers : array
        (n,) equivalent thickness of air of the layers, s_d [m], over 0.
    air : MonthlyAir
        Twelve months inside and outside [°C, Pa].

    Returns
    -------
    WetYear
        Water gathered and lying at each face [kg/m2], the first year and what later years leave.

    Notes
    -----
    When a face falls dry within a month, the rest of the month is reckoned without its water. Diffusion
    alone: no rain, no leaks of air, no water that creeps, none that is stored in the pores.

    References
    ----------
    [ISO13788] : 6.5, month by month; the start is the first month that wets.
    """
    within("resistance", resistances, 0.0, unit="m2K/W")
    heat = np.asarray(resistances, dtype=float)
    layers = np.asarray(air_layers, dtype=float)
    if heat.size != layers.size + 2:
        raise OutOfRangeError("Resistances count both films; thicknesses of air do not.")
    year = _Year(heat=heat, layers=layers, air=air)
    start = year.start()
    water = np.zeros(layers.size + 1)
    gathered = np.zeros((MONTHS, water.size))
    lying = np.zeros_like(gathered)
    ends: list[float] = []
    for turn in range(YEARS):
        for count in range(MONTHS):
            after = year.through((start + count) % MONTHS, water)
            if turn == 0:
                gathered[count], lying[count] = after - water, after
            water = after
        ends.append(float(water.sum()))
        if ends[-1] <= TRACE:
            break
    return WetYear(start=start, gathered=gathered, lying=lying, years=tuple(ends))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Year:
    heat: Array
    layers: Array
    air: MonthlyAir

    def profile(self, month: int, water: Array) -> Profile:
        """Vapour of a month, with water where it lies."""
        at = np.flatnonzero(water[1:-1] > TRACE)
        wet = [int(face) for face in at + 1]
        faces = layer_temperatures(self.heat, float(self.air.inside[month]), float(self.air.outside[month]))[
            1:-1
        ]
        return vapour_profile(
            self.layers,
            faces,
            inside=float(self.air.pressure_inside[month]),
            outside=float(self.air.pressure_outside[month]),
            wet=wet,
        )

    def start(self) -> int:
        """The first month that wets after one that does not; the coldest one where all or none do."""
        dry = np.zeros(self.layers.size + 1)
        wets = [self.profile(month, dry).wets for month in range(MONTHS)]
        begins = [month for month in range(MONTHS) if wets[month] and not wets[month - 1]]
        return begins[-1] if begins else int(np.argmin(self.air.outside))

    def through(self, month: int, water: Array) -> Array:
        """The water after a month; a face that falls dry ends a part of it."""
        left = float(DAYS_OF_MONTHS[month] * SECONDS_A_DAY)
        now = water.copy()
        while left > 0.0:
            rate = self.profile(month, now).rate
            drying = (rate < 0.0) & (now > TRACE)
            spells = np.where(drying, now / np.where(drying, -rate, 1.0), np.inf)
            spell = min(left, float(spells.min()))
            now = np.where(spells <= spell, 0.0, np.maximum(now + rate * spell, 0.0))
            left -= spell
        return now


def drying_time(amount: float, rate: float) -> float:
    """How long water takes to leave at an even rate.

    t = M/g

    Parameters
    ----------
    amount : float
        Water, M [kg/m2], from 0.
    rate : float
        What leaves, g [kg/m2s], from 0.

    Returns
    -------
    float
        Time [s]; infinite where nothing leaves.

    References
    ----------
    [ISO13788] : annex on drying of a wetted layer.

    Examples
    --------
    >>> round(float(drying_time(0.5, rate=1e-7)))
    5000000
    """
    within("water", amount, 0.0, unit="kg/m2")
    within("rate", rate, 0.0, unit="kg/m2s")
    if amount == 0.0:
        return 0.0
    return amount / rate if rate > 0.0 else float("inf")
