"""From numbers to ground and wood: setting out, and templates at full size. Start at `settingout.py`."""
