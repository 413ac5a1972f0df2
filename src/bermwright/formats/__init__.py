"""File to House and data to file: the only place that knows TOML, SVG, PDF, DXF and JSON.

A writer is one `match` over the items and adds no number of its own. Start reading at `documents/`.
"""
