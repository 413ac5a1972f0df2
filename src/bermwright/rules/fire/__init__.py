"""Fire: what the burned timber still carries, ways out, alarms, stoves and flues.

Start reading at `common.py`; a module for each subject.
"""
