"""Domes and patterns as plain data for JSON, and measured rings from a table; unknown numbers are null.

Lengths in metres, angles in degrees; directions count clockwise from the zero mark.
"""

from bermwright.formats.making.compass_json import compass_data
from bermwright.formats.making.forms_json import forms_data
from bermwright.formats.making.readings import ReadingsError, read_rings
from bermwright.formats.making.written_json import written_data

__all__ = ["ReadingsError", "compass_data", "forms_data", "read_rings", "written_data"]
