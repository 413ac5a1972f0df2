"""Sheets as DXF R2010 in millimetres, on paper or at full size, for drawing programs and saw shops.

Start with `writing.py`; `layers.py` names the layers, `windows.py` cuts what is seen through a clip.
"""

from bermwright.formats.drawings.dxf.writing import dxf

__all__ = ["dxf"]
