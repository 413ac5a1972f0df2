"""Weather files: EPW, TMY3 and a plain CSV, read into a year of 8760 hours or refused with a reason.

Start reading at `reading.py`; `hours.py` puts the rows of a file in their places and closes short gaps.
"""

from bermwright.formats.weather.hours import WeatherFileError
from bermwright.formats.weather.reading import read_weather

__all__ = ["WeatherFileError", "read_weather"]
