"""What time does to a buried house: frost under footings, floors that float. Start reading at `frost.py`."""

from bermwright.handbook.lasting.frost import (
    frost_correction,
    frost_depth,
    insulated_frost_depth,
    latent_heat,
    stefan_depth,
)
from bermwright.handbook.lasting.water import lifting_head

__all__ = [
    "frost_correction", "frost_depth", "insulated_frost_depth", "latent_heat",
    "lifting_head", "stefan_depth",
]  # fmt: skip
