"""Bodies, outlines and quantities for other programs: GLB, STL, IFC, GeoJSON, CSV, XLSX."""

from bermwright.formats.exchange.glb import glb

__all__ = ["glb"]
