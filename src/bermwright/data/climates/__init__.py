"""Monthly climate normals of real places, each with where it was published.

A house file names one as `climate = "normals:Estevan"`. The numbers are the published ones; nothing is
filled in. A module for each part of the world; start reading at `nouns.py` and `lookup.py`.
"""

from bermwright.data.climates.lookup import (
    PLACES,
    PREFIX,
    UnknownClimateError,
    names_like,
    nearest,
    normals,
)
from bermwright.data.climates.north_america import ESTEVAN
from bermwright.data.climates.northern_europe import OSTERSUND
from bermwright.data.climates.nouns import AVERAGED, MONTHS, PUBLISHED, MonthlyNormals, Months

__all__ = [
    "AVERAGED",
    "ESTEVAN",
    "MONTHS",
    "OSTERSUND",
    "PLACES",
    "PREFIX",
    "PUBLISHED",
    "MonthlyNormals",
    "Months",
    "UnknownClimateError",
    "names_like",
    "nearest",
    "normals",
]
