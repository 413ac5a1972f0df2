"""A sheet for each day of setting out: what is done, where strings, boards and heaps stand. Start at `days.py`."""
