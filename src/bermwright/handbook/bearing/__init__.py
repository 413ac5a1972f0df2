"""Ground under a footing: contact pressure without tension, and what the ground carries.

Start reading at `capacity.py`; `factors.py` holds the factors of the three authors and of EN 1997-1.
"""

from __future__ import annotations

from bermwright.handbook.bearing.capacity import (
    drained_capacity,
    effective_width,
    undrained_capacity,
    weight_with_water,
)
from bermwright.handbook.bearing.contact import Contact, contact_pressure
from bermwright.handbook.bearing.factors import (
    Formula,
    cohesion_factor,
    cohesion_inclination,
    skempton_factor,
    surcharge_factor,
    surcharge_inclination,
    surcharge_shape,
    undrained_inclination,
    weight_factor,
    weight_inclination,
    weight_shape,
)

__all__ = [
    "Contact",
    "Formula",
    "cohesion_factor",
    "cohesion_inclination",
    "contact_pressure",
    "drained_capacity",
    "effective_width",
    "skempton_factor",
    "surcharge_factor",
    "surcharge_inclination",
    "surcharge_shape",
    "undrained_capacity",
    "undrained_inclination",
    "weight_factor",
    "weight_inclination",
    "weight_shape",
    "weight_with_water",
]
