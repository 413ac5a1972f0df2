"""Strokes of the hatches that are anchored to their sheet: laid out once, cut to each area."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Any

import numpy as np
import shapely

from bermwright.base.drawing import Hatch
from bermwright.formats.drawings.hatching.areas import AREAS, Field

if TYPE_CHECKING:
    from collections.abc import Iterable

    from bermwright.base.drawing import Path

ANCHORED = frozenset(
    {Hatch.EARTH_IN_PLACE, Hatch.EARTH_PLACED, Hatch.CONCRETE, Hatch.GRAVEL, Hatch.SNOW, Hatch.TURF}
)
"""Hatches whose strokes have places of their own on the sheet, whatever box is asked for."""
TILE = 60.0
"""Boxes are taken this much too large (mm), so that an area that grows a little finds its strokes ready."""

SMALL = 15.0
"""The same for a side shorter than that: a footing is not worth the strokes of a whole mound."""


@dataclass(frozen=True, slots=True, eq=False)
class Laid:
    """Strokes as paths and as the geometry library's lines, in the same order."""

    paths: tuple[Path, ...]
    lines: Any
    written: dict[float, tuple[str, ...]] = field(default_factory=dict)
    """The strokes as a writer put them, by the height of its sheet."""


def laid(hatch: Hatch, box: Field) -> Laid:
    """The strokes over a field's box, and a little beyond where that costs nothing again."""
    ready = anchored(hatch, box)
    return lay(AREAS[hatch](box)) if ready is None else ready


def anchored(hatch: Hatch, box: Field) -> Laid | None:
    """The strokes over a box that is taken a little too large; None for a hatch that has no fixed places."""
    if hatch not in ANCHORED or box.levels:
        return None
    wide, tall = (TILE if end - start > TILE else SMALL for start, end in zip(box.low, box.high, strict=True))
    low = (math.floor(box.low[0] / wide) * wide, math.floor(box.low[1] / tall) * tall)
    high = (math.ceil(box.high[0] / wide) * wide, math.ceil(box.high[1] / tall) * tall)
    return _anchored(hatch, low, high)


@lru_cache(maxsize=64)
def _anchored(hatch: Hatch, low: tuple[float, float], high: tuple[float, float]) -> Laid:
    return lay(AREAS[hatch](Field(low, high)))


def lay(strokes: Iterable[Path]) -> Laid:
    """Strokes ready to be cut; single points are left out."""
    paths = tuple(stroke for stroke in strokes if len(stroke) > 1)
    if not paths:
        return Laid((), np.array([], dtype=object))
    points = np.array([point for path in paths for point in path], dtype=float)
    owners = np.repeat(np.arange(len(paths)), [len(path) for path in paths])
    return Laid(paths, shapely.linestrings(points, indices=owners))
