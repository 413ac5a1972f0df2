"""Ground that freezes. Start at `freezing.py`; `kernel.py` is compiled, `soils.py` says what soils hold."""

from bermwright.handbook.groundheat.frost.freezing import FrostCourse, freeze_year
from bermwright.handbook.groundheat.frost.soils import freezing_heat, moist_conductivity, soil_heat_capacity

__all__ = ["FrostCourse", "freeze_year", "freezing_heat", "moist_conductivity", "soil_heat_capacity"]
