"""Degree-days, weather by the hour, the sun and the sky, wind and snow."""
