"""A vault in its ground as a section for heat. Start reading at `section.py`."""

from bermwright.form.heat.section import HeatSection, heat_section, missing_for_heat

__all__ = ["HeatSection", "heat_section", "missing_for_heat"]
