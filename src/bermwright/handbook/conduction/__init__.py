"""Heat through layers, bent shells and the ground beside them. Start reading at `layers.py`."""

from bermwright.handbook.conduction.degrees import degree_heat, heating_degrees
from bermwright.handbook.conduction.ground import (
    PeriodicCoupling,
    basement_floor_transmittance,
    basement_wall_transmittance,
    buried_wall_transmittance,
    characteristic_dimension,
    edge_insulation_loss,
    equivalent_thickness,
    periodic_coupling,
    periodic_depth,
    slab_transmittance,
)
from bermwright.handbook.conduction.layers import (
    BridgedResistance,
    air_void_correction,
    bridged_resistance,
    fastener_correction,
    layer_resistance,
    layer_temperatures,
    rain_correction,
    transmittance,
)
from bermwright.handbook.conduction.shells import (
    bent_layer_resistance,
    buried_pipe_factor,
    buried_sphere_factor,
    corner_loss,
    disc_factor,
    dome_conductance,
    vault_conductance,
)
from bermwright.handbook.conduction.surfaces import (
    OUTSIDE,
    HeatFlow,
    air_layer_resistance,
    heat_flow,
    inside_resistance,
    vented_resistance,
)
from bermwright.handbook.conduction.waves import (
    Dynamic,
    damping_depth,
    dynamic_layers,
    frost_line,
    undisturbed_ground,
)

__all__ = [
    "OUTSIDE", "BridgedResistance", "Dynamic", "HeatFlow", "PeriodicCoupling", "air_layer_resistance",
    "air_void_correction", "basement_floor_transmittance", "basement_wall_transmittance",
    "bent_layer_resistance", "bridged_resistance", "buried_pipe_factor", "buried_sphere_factor",
    "buried_wall_transmittance", "characteristic_dimension", "corner_loss", "damping_depth", "degree_heat",
    "disc_factor", "dome_conductance", "dynamic_layers", "edge_insulation_loss", "equivalent_thickness",
    "fastener_correction", "frost_line", "heat_flow", "heating_degrees", "inside_resistance",
    "layer_resistance", "layer_temperatures", "periodic_coupling", "periodic_depth", "rain_correction",
    "slab_transmittance", "transmittance", "undisturbed_ground", "vault_conductance", "vented_resistance",
]  # fmt: skip
