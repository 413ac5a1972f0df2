"""The invented house of the pictures: its outlines in metres, and how they lie on the paper."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Hatch, Item, Pen, Stroke, View, Wash

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Path

SIZE = (96.0, 60.0)
"""Of a picture (mm)."""
HALF, RISE, WALL, COVER, SLOPE = 2.0, 1.7, 0.9, 0.5, 0.55
"""Of the pictured house: half span, rise, wall, soil over the crown (m), and its slope."""
GROUND = 0.25
"""Level of the ground beside it (m)."""
TOP = WALL + RISE
SHELL = 0.16
"""Half the thickness of the pictured vault (m)."""
SECTION = View(origin=(48.0, 16.0), scale=122.0)
"""With its mound."""
CLOSE = View(origin=(48.0, 15.0), scale=68.0)
"""The vault alone."""
PLAN = View(origin=(20.0, 33.0), scale=88.0)
POINTS = 40


def arch(out: float = 0.0, count: int = POINTS) -> list[tuple[float, float]]:
    """The vault's curve from the left foot to the right one, moved outwards by `out` (m)."""
    turns = [math.pi * (1.0 - number / count) for number in range(count + 1)]
    return [((HALF + out) * math.cos(turn), WALL + (RISE + out) * math.sin(turn)) for turn in turns]


def mound() -> list[tuple[float, float]]:
    """The finished ground from toe to toe."""
    top = TOP + COVER
    reach = 0.5 + (top - GROUND) / SLOPE
    return [(-reach, GROUND), (-0.5, top), (0.5, top), (reach, GROUND)]


def on_paper(view: View, points: list[tuple[float, float]]) -> Path:
    """Points of the house on the picture."""
    return tuple(view.point(x, z) for x, z in points)


def vault_items(view: View = SECTION) -> Iterator[Item]:
    """Vault, walls and floor, cut across."""
    ring = [*arch(SHELL), *reversed(arch(-SHELL))]
    yield Area(path=on_paper(view, ring), wash=Wash.TIMBER, outline=Pen.CUT)
    for side in (-1.0, 1.0):
        x = side * HALF
        corners = [(x - 0.2, -0.5), (x + 0.2, -0.5), (x + 0.2, WALL), (x - 0.2, WALL)]
        yield Area(path=on_paper(view, corners), wash=Wash.INSITU, hatch=Hatch.MASONRY, outline=Pen.SEEN)
    yield Stroke(path=on_paper(view, [(0.2 - HALF, 0.0), (HALF - 0.2, 0.0)]), pen=Pen.CUT)


def earth_items(view: View = SECTION) -> Iterator[Item]:
    """The mound over the vault."""
    over = [*mound(), (HALF + 0.2, GROUND), *reversed(arch(SHELL)), (-HALF - 0.2, GROUND)]
    yield Area(path=on_paper(view, over), wash=Wash.EARTH, hatch=Hatch.EARTH_PLACED)
    yield Stroke(path=on_paper(view, mound()), pen=Pen.CUT)


def ground_items(view: View = SECTION) -> Iterator[Item]:
    """The ground under and beside the house."""
    inner, outer, deep, far = HALF - 0.2, HALF + 0.2, -0.5, 7.0
    dug = [(-far, GROUND), (-outer, GROUND), (-outer, deep), (-inner, deep), (-inner, 0.0)]
    ring = [*dug, *((-x, z) for x, z in reversed(dug)), (far, -2.2), (-far, -2.2)]
    yield Area(path=on_paper(view, ring), wash=Wash.INSITU, hatch=Hatch.EARTH_IN_PLACE)
    for toe, end in ((mound()[0], -far), (mound()[-1], far)):
        yield Stroke(path=on_paper(view, [toe, (end, GROUND)]), pen=Pen.CUT)
