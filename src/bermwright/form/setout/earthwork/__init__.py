"""Where earth is dug, laid aside and mounded: the pit, its trenches, heaps and toes. Start at `dig.py`."""
