"""Rules: each adapts the house to the handbook once and says what it found.

A rule is one constant next to its function; `registry.py` lists them all and `assess.py` runs them.
Start reading at `nouns.py`, then `ribs/shear.py` as the shortest whole example.
"""
