"""Bodies, outlines and quantities for other programs: GLB, STL, IFC, GeoJSON, CSV, XLSX."""

from bermwright.formats.exchange.geojson import NotPlacedError, SiteVault, site_geojson
from bermwright.formats.exchange.glb import glb
from bermwright.formats.exchange.ifc import ExtraMissingError, ifc
from bermwright.formats.exchange.stl import stl
from bermwright.formats.exchange.tables import (
    Table,
    body_table,
    compared_lines,
    compared_table,
    quantity_table,
    table_csv,
)
from bermwright.formats.exchange.xlsx import tables_xlsx

__all__ = [
    "ExtraMissingError",
    "NotPlacedError",
    "SiteVault",
    "Table",
    "body_table",
    "compared_lines",
    "compared_table",
    "glb",
    "ifc",
    "quantity_table",
    "site_geojson",
    "stl",
    "table_csv",
    "tables_xlsx",
]
