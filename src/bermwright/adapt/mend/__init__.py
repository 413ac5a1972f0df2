"""Mend: the smallest change of the house file that makes a finding hold, and what it costs.

`mend.py` searches, `levers/` says what may be changed in which steps, `trying.py` looks at a changed house
quickly, `writing.py` puts texts of the file into a house. Start reading at `mend.py`.
"""
