"""Rules on what years do: a rib or a plank lost, a leak, frost, water, rot. Start reading at `lost.py`."""
