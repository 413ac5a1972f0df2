"""Use cases of domes and forms: `compassing.py` and `forming.py`."""
