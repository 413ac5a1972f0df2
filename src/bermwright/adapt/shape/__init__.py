"""Advice on the curve: which one the ground allows, what it leaves of bending, and in which order to build.

Start reading at `search.py`; `envelope.py` says what is compared, `families.py` what is free in a curve.
"""
