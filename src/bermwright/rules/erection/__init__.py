"""Raising the bare ribs: whether wind tips them along the axis, and whether they can be lifted.

Start reading at `bracing.py`; `works.py` holds the forces that rules, quantities and the book share.
"""
