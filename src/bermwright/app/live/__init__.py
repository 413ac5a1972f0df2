"""The drawing that follows the hand: one case of one vault, solved where the last full run governs.

Start reading at `scene.py`; `full.py` is the full run behind it, `kernel.py` the quick one.
"""
