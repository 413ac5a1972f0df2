"""What time does to a buried house: frost, floors that float, pipes pressed flat. Start at `frost.py`."""

from bermwright.handbook.lasting.frost import (
    frost_correction,
    frost_depth,
    insulated_frost_depth,
    latent_heat,
    stefan_depth,
)
from bermwright.handbook.lasting.pipes import pipe_flattening
from bermwright.handbook.lasting.water import lifting_head

__all__ = [
    "frost_correction", "frost_depth", "insulated_frost_depth", "latent_heat",
    "lifting_head", "pipe_flattening", "stefan_depth",
]  # fmt: skip
