"""Readings of a water level, and ordinates measured on a curve, from tables."""

from __future__ import annotations

import numpy as np

from bermwright.form.setout import Reading, SetOutError
from bermwright.formats.survey.columns import columns_of, lines_of

READINGS_HEAD = "from, to, back [m], fore [m], length [m]   (the water over each point, on a stick)"
ORDINATES_HEAD = "x [m], z [m]   (from the axis, + to the right; height over the springing)"


def read_readings(name: str, content: bytes) -> tuple[Reading, ...]:
    """One line a leg: from where, to where, the water over both, and how far apart they are."""
    lines = lines_of(name, content, head=READINGS_HEAD)
    wanted = {"from": ("from",), "to": ("to",), "back": ("back", "bs"), "fore": ("fore", "fs")}
    at = columns_of(lines, wanted, head=READINGS_HEAD)
    far = lines.column(("length", "distance"))
    found = []
    for line, cells in lines.rows:
        start, end = (cells[at[key]] if at[key] < len(cells) else "" for key in ("from", "to"))
        if not start or not end or start == end:
            lines.wrong(line, "a leg goes from one named point to another")
        has_length = far is not None and far < len(cells) and cells[far]
        length = lines.length(line, cells, far, "length") if has_length and far is not None else None
        if length is not None and not length > 0.0:
            lines.wrong(line, "the length of a leg is above 0")
        back, fore = (lines.length(line, cells, at[key], key) for key in ("back", "fore"))
        found.append(Reading(start=start, end=end, back=back, fore=fore, length=length, line=line))
    lines.refuse()
    if any(one.length is None for one in found) and any(one.length is not None for one in found):
        bare = next(one.line for one in found if one.length is None)
        raise SetOutError(f"{name}: line {bare} has no length, others have. Give all or none.")
    return tuple(found)


def read_ordinates(name: str, content: bytes) -> tuple[np.ndarray, np.ndarray]:
    """Distances from the axis and heights over the springing."""
    lines = lines_of(name, content, head=ORDINATES_HEAD)
    at = columns_of(lines, {"x": ("x", "distance"), "z": ("z", "height")}, head=ORDINATES_HEAD)
    rows = [
        (lines.length(line, cells, at["x"], "x"), lines.length(line, cells, at["z"], "z"))
        for line, cells in lines.rows
    ]
    lines.refuse()
    if not rows:
        raise SetOutError(f"{name}: no ordinate stands in it. Its first line is: {ORDINATES_HEAD}")
    table = np.array(sorted(rows))
    return table[:, 0], table[:, 1]
