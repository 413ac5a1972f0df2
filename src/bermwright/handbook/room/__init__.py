"""The room through the year: what warms it, what it stores, whether people are comfortable, and the wood.

Start reading at `hours.py`, the balance of every hour; `walls.py` is what it is made of.
"""

from bermwright.handbook.room.comfort import (
    adaptive_comfort,
    comfort_band,
    comfort_vote,
    operative_temperature,
    running_mean,
    share_uneasy,
)
from bermwright.handbook.room.fuel import (
    dry_heating_value,
    heating_value,
    stack_volume,
    stacked_heat,
    water_in_dry_terms,
)
from bermwright.handbook.room.hours import (
    Air,
    Burning,
    Hours,
    Solids,
    heat_into,
    part_states,
    run_hours,
    settled_start,
    solids,
    surface_temperature,
)
from bermwright.handbook.room.living import animal_warmth, person_warmth
from bermwright.handbook.room.release import charge_heat, mean_output, release_curve, released
from bermwright.handbook.room.walls import Body, Layer, wall_answer, wall_body

__all__ = [
    "Air", "Body", "Burning", "Hours", "Layer", "Solids", "adaptive_comfort", "animal_warmth",
    "charge_heat", "comfort_band", "comfort_vote", "dry_heating_value", "heat_into", "heating_value",
    "mean_output", "operative_temperature", "part_states", "person_warmth", "release_curve", "released",
    "run_hours", "running_mean", "settled_start", "share_uneasy", "solids", "stack_volume", "stacked_heat",
    "surface_temperature", "wall_answer", "wall_body", "water_in_dry_terms",
]  # fmt: skip
