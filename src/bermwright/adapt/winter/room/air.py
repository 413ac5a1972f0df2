"""Fresh air: how much of it, and how warm it comes in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.adapt.winter.nouns import HOURS, Loss
from bermwright.form.known import known
from bermwright.handbook.air import ground_resistance, tube_air
from bermwright.handbook.conduction import undisturbed_ground
from bermwright.house import Supply

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.handbook.groundheat import Material
    from bermwright.handbook.weather import WeatherYear
    from bermwright.house import House, Tube

    Array = NDArray[np.float64]

AIR_CAPACITY = 1.2 * 1006.0
"""Of a cubic metre (J/m3K)."""
PAST_THE_TUBE = 22.0
"""While it is milder outdoors than in the tube and no warmer than this, air comes in past the tube (°C)."""
IN_USE = 90.0 * 86_400.0
"""How long the tube has drawn on the ground around it, about a winter (s)."""


def fresh_air(house: House, weather: WeatherYear, soil: Material) -> Loss:
    """The fresh air as a way out for warmth."""
    air = known(house.air, "air")
    flow = known(air.flow, "air.flow")
    through = air.supply is Supply.TUBE and air.tube is not None and air.tube.depth is not None
    behind = weather.temperature
    how = f"{flow * 3600.0:.0f} m³/h · {AIR_CAPACITY / 3600.0:.4f} Wh/m³K"
    if through and flow > 0.0:
        mouth = _after_tube(known(air.tube, "air.tube"), flow, weather, soil)
        past = (weather.temperature > mouth) & (weather.temperature < PAST_THE_TUBE)
        behind = np.where(past, weather.temperature, mouth)
        how += f", it comes in at {behind.min():.1f} °C at the coldest, out of the tube"
    return Loss(name="fresh air", conductance=np.full(HOURS, AIR_CAPACITY * flow), behind=behind, how=how)


def _after_tube(tube: Tube, flow: float, weather: WeatherYear, soil: Material) -> Array:
    """Temperature at the mouth of the tube, hour by hour (°C)."""
    depth = known(tube.depth, "air.tube.depth")
    days = weather.temperature.reshape(-1, 24).mean(axis=1)
    smooth = np.convolve(np.tile(days, 3), np.ones(31) / 31.0, mode="same")[365:730]
    ground = undisturbed_ground(
        depth,
        np.arange(HOURS) / 24.0,
        mean=float(days.mean()),
        swing=0.5 * float(smooth.max() - smooth.min()),
        coldest_day=float(np.argmin(smooth)),
        diffusivity=soil.conductivity / soil.capacity,
    )
    resistance = ground_resistance(
        0.5 * tube.diameter, depth, IN_USE, conductivity=soil.conductivity, capacity=soil.capacity
    )
    return tube_air(
        flow,
        weather.temperature,
        ground,
        diameter=tube.diameter,
        length=tube.length,
        resistance=resistance,
    ).outlet
