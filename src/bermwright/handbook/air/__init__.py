"""Air in and out of the house, and through a tube in the ground. Start reading at `exchange.py`."""

from bermwright.handbook.air.exchange import (
    OUTDOOR_CARBON,
    air_for,
    air_warmed,
    carbon_dioxide,
    leakage_area,
    leakage_flow,
    opening_flow,
    openings_in_row,
    stack_pressure,
    stove_air,
    underpressure,
    warming_power,
    whole_house_rate,
    wood_air,
)
from bermwright.handbook.air.pipe import film_in_pipe, friction_factor, pipe_pressure, reynolds
from bermwright.handbook.air.properties import air_conductivity, air_density, air_viscosity, pressure_at
from bermwright.handbook.air.tube import TubeAir, frozen_length, ground_resistance, tube_air, tube_water

__all__ = [
    "OUTDOOR_CARBON", "TubeAir", "air_conductivity", "air_density", "air_for", "air_viscosity", "air_warmed",
    "carbon_dioxide", "film_in_pipe", "friction_factor", "frozen_length", "ground_resistance", "leakage_area",
    "leakage_flow", "opening_flow", "openings_in_row", "pipe_pressure", "pressure_at", "reynolds",
    "stack_pressure", "stove_air", "tube_air", "tube_water", "underpressure", "warming_power",
    "whole_house_rate", "wood_air",
]  # fmt: skip
