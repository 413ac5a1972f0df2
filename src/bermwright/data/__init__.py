"""Tables: works, materials, soils, climates, rates; each row with its source.

Holds no formula and knows no house. Start reading at `works/`.
"""
