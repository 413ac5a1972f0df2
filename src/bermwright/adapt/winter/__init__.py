"""The house through its year: heated, left alone, half built, and how much wood that takes.

Start reading at `winter.py`. Pure: the weather is passed in.
"""
