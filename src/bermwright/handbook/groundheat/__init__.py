"""Heat in the ground around a house: triangles over the real section, and a small model that runs the year.

Start reading at `section.py` (what goes in), then `mesh.py`, `assembly.py`, `reduction.py` and `year.py`.
`stepping.py` is compiled, imported when first used. `ends/` says what a section misses at its ends, `frost/`
holds the ground that freezes.
"""

from bermwright.handbook.groundheat.assembly import (
    Conduction,
    Still,
    assemble,
    linear_transmittance,
    steady,
)
from bermwright.handbook.groundheat.drive import Course, Drive, Node, Start, snow_loss
from bermwright.handbook.groundheat.ends import (
    FloorCase,
    end_factor,
    floor_conductance,
    floor_flow,
    strip_conductance,
)
from bermwright.handbook.groundheat.family import Family, reduce_family
from bermwright.handbook.groundheat.frost import (
    FrostCourse,
    freeze_year,
    freezing_heat,
    moist_conductivity,
    soil_heat_capacity,
)
from bermwright.handbook.groundheat.mesh import Mesh, make_mesh
from bermwright.handbook.groundheat.pictures import isotherms, surface_temperature
from bermwright.handbook.groundheat.reduction import ModelError, Reduced, error_of, reduce_model
from bermwright.handbook.groundheat.section import Border, Material, Region, Section, Source
from bermwright.handbook.groundheat.year import periodic_year, run_years, step_weights

__all__ = [
    "Border",
    "Conduction",
    "Course",
    "Drive",
    "Family",
    "FloorCase",
    "FrostCourse",
    "Material",
    "Mesh",
    "ModelError",
    "Node",
    "Reduced",
    "Region",
    "Section",
    "Source",
    "Start",
    "Still",
    "assemble",
    "end_factor",
    "error_of",
    "floor_conductance",
    "floor_flow",
    "freeze_year",
    "freezing_heat",
    "isotherms",
    "linear_transmittance",
    "make_mesh",
    "moist_conductivity",
    "periodic_year",
    "reduce_family",
    "reduce_model",
    "run_years",
    "snow_loss",
    "soil_heat_capacity",
    "steady",
    "step_weights",
    "strip_conductance",
    "surface_temperature",
]
