"""Units at the edge: text of people to SI floats and back. Everything inside bermwright is SI.

Start reading at `reading.py` (text to numbers) and `showing.py` (numbers to text); `atoms.py` takes a
written unit apart, `dimensions.py` lists what a house file may ask for.
"""

from __future__ import annotations

from bermwright.base.units.atoms import convert, to_si
from bermwright.base.units.dimensions import DIMENSIONS, Dimension
from bermwright.base.units.money import Money, parse_money
from bermwright.base.units.reading import parse, parse_exact, parse_pair
from bermwright.base.units.showing import lengths_in, levels_in, show, show_range

__all__ = [
    "DIMENSIONS",
    "Dimension",
    "Money",
    "convert",
    "lengths_in",
    "levels_in",
    "parse",
    "parse_exact",
    "parse_money",
    "parse_pair",
    "show",
    "show_range",
    "to_si",
]
