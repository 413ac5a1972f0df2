"""The own set of hatches, drawn stroke by stroke and cut to their area; SVG and DXF share them.

Start with `expand.py`: an `Area` or a `Band` in, plain fills and strokes out. `areas.py` and
`bands.py` hold one small function for each hatch.
"""

from bermwright.formats.drawings.hatching.expand import expand_area, expand_band

__all__ = ["expand_area", "expand_band"]
