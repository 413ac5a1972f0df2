"""What layers are made of: conductivity, density, heat capacity and vapour resistance, row by row with its source.

Start reading at `nouns.py`; the rows stand in one module for each class.
"""

from bermwright.data.materials.nouns import CLASS_LIMITS, Material, MaterialClass, UnknownMaterialError
from bermwright.data.materials.table import MATERIALS, material

__all__ = ["CLASS_LIMITS", "MATERIALS", "Material", "MaterialClass", "UnknownMaterialError", "material"]
