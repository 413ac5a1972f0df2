"""From a sketch to a curve: what family it is, what it bends, and the smallest change that mends it.

Start reading at `advice.py`.
"""

from __future__ import annotations

from bermwright.adapt.sketch.advice import ArcChoice, Better, SketchAdvice, advise_on_sketch
from bermwright.adapt.sketch.fits import SketchFits, fit_sketch

__all__ = ["ArcChoice", "Better", "SketchAdvice", "SketchFits", "advise_on_sketch", "fit_sketch"]
