"""Ribs: sawn pieces side by side (`pieces.py`), or boards bent over each other (`laminations.py`)."""
