"""Soil that presses, bears, slides, freezes and is moved."""
