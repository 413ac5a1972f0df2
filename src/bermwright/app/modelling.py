"""A house as a model for other programs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.form.solids import house_solids
from bermwright.formats.exchange import glb

if TYPE_CHECKING:
    from bermwright.house import House


def model_glb(house: House) -> bytes:
    """The house as binary glTF. Raises `FormUnknownError` where the file says too little for a form."""
    return glb(house.name, house_solids(house))
