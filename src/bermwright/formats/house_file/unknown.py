"""A key that the table does not have: the nearest word, or the table where it belongs."""

from __future__ import annotations

import difflib
from functools import cache

from bermwright.house import House
from bermwright.house.fields import Table, Tables, said_of

_MEANT = {
    "width": "span",
    "height": "rise",
    "thickness": "depth",
    "wood": "timber",
    "grade": "timber",
    "strength_class": "timber",
    "direction": "axis",
    "orientation": "axis",
    "snow": "ground_snow",
    "density": "unit_weight",
    "weight": "unit_weight",
    "phi": "friction_angle",
    "friction": "friction_angle",
    "gamma": "unit_weight",
    "groundwater": "water_depth",
    "water": "water_depth",
    "elevation": "altitude",
    "lat": "latitude",
    "tool": "compaction",
}
"""What people write, and the key they mean."""


def unknown_key(key: str, model: type) -> tuple[str, str]:
    """What is allowed, and what to do."""
    words = list(said_of(model))
    meant = _MEANT.get(key)
    near = [meant] if meant in words else difflib.get_close_matches(key.lower(), words, n=1, cutoff=0.6)
    if near:
        return "is not a known key.", f'Did you mean "{near[0]}"?'
    homes = [home for home in _homes().get(key, ()) if home]
    if homes:
        return "is not a key of this table.", f"It belongs in {' or '.join(homes)}."
    return "is not a known key.", f"Known here are: {', '.join(words)}."


@cache
def _homes() -> dict[str, tuple[str, ...]]:
    """In which tables each key stands."""
    found: dict[str, tuple[str, ...]] = {}
    open_tables: list[tuple[str, type]] = [("", House)]
    while open_tables:
        path, model = open_tables.pop(0)
        for key, said in said_of(model).items():
            here = f"{path}.{key}".lstrip(".")
            if isinstance(said.kind, Table | Tables):
                open_tables.append((here, said.kind.of))
            brackets = f"[{path}]" if path else ""
            found[key] = (*found.get(key, ()), brackets)
    return found
