"""A sheet for each day of setting out: its work, its checks, where things lie. Start at `days.py`."""
