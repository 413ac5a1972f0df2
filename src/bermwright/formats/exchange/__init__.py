"""Bodies, outlines and quantities for other programs: GLB, STL, IFC, GeoJSON and tables."""

from bermwright.formats.exchange.geojson import NotPlacedError, SiteVault, site_geojson
from bermwright.formats.exchange.glb import glb
from bermwright.formats.exchange.ifc import ExtraMissingError, ifc
from bermwright.formats.exchange.model_json import model_data
from bermwright.formats.exchange.stl import stl
from bermwright.formats.exchange.tables import (
    body_table,
    compared_lines,
    compared_table,
    quantity_table,
)

__all__ = [
    "ExtraMissingError",
    "NotPlacedError",
    "SiteVault",
    "body_table",
    "compared_lines",
    "compared_table",
    "glb",
    "ifc",
    "model_data",
    "quantity_table",
    "site_geojson",
    "stl",
]
