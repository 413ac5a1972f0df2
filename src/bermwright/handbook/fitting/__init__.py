"""From points to a curve: families fitted to a sketch, and chains of arcs for the compass.

Start reading at `least_squares.py`; `arcs.py` is for the compass.
"""

from __future__ import annotations

from bermwright.handbook.fitting.arcs import ArcFit, chains_of_arcs, tangent_arcs
from bermwright.handbook.fitting.distance import distance_to_curve
from bermwright.handbook.fitting.families import FAMILIES, Family
from bermwright.handbook.fitting.least_squares import Fit, fit_family, likelihoods, outliers

__all__ = [
    "FAMILIES", "ArcFit", "Family", "Fit", "chains_of_arcs", "distance_to_curve", "fit_family", "likelihoods",
    "outliers", "tangent_arcs",
]  # fmt: skip
