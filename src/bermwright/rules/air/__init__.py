"""Rules on fresh air, the tube that brings it and the stove that burns it. Start reading at `fresh.py`."""
