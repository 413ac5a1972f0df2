"""Setting out a curve by hand: ordinates both ways and the length of a string.

Start reading at `ordinates.py`.
"""

from bermwright.handbook.setout.ordinates import (
    Offsets,
    ordinates_by_distance,
    ordinates_by_height,
    string_length,
)

__all__ = ["Offsets", "ordinates_by_distance", "ordinates_by_height", "string_length"]
