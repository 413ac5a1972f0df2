"""Rules of segment ribs. Start reading at `shear.py`, the shortest; `common.py` holds what they share."""
