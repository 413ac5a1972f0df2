"""The bending of several curves stage by stage, side by side on one scale, with what the ribs can take."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from bermwright.base.drawing import Area, Hatch, Ink, Item, Pen, Sheet, Stroke, Text, Wash
from bermwright.base.units import show
from bermwright.book.sheets.paper import CAPTION, FIGURE
from bermwright.stages.nouns import StageKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.adapt.shape.corridor import Corridor
    from bermwright.adapt.shape.envelope import StageBending

WIDTH = 174.0
"""Width of the text (mm)."""
TALL = 52.0
"""Height of the largest bending (mm)."""
LEFT, FOOT, HEAD, GAP = 13.0, 11.0, 18.0, 5.0
"""Room for the axis, for the words under the bars and over them, and between two panels (mm)."""
MOST = 4
FOOT_LENGTH = 0.3048
"""A foot (m): under the bars there is no room for fractions of inches."""
PHASES = (
    ("shell", frozenset({StageKind.RIBS, StageKind.LAGGED, StageKind.WRAPPED})),
    ("filling", frozenset({StageKind.CROWN_SOIL, StageKind.FILL})),
    ("done", frozenset({StageKind.COVER, StageKind.TURF, StageKind.SETTLED, StageKind.LONG_TERM})),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """One curve."""

    letter: str
    says: str
    stands: tuple[str, ...]
    """Its name, and in one or two short lines where it stands."""
    stages: tuple[StageBending, ...]


def stages_sheet(panels: Sequence[Panel], corridor: Corridor, *, system: str = "metric") -> Sheet:
    """Up to four curves; bars in grey up to what the ribs can take, hatched red above it."""
    shown = tuple(panels[:MOST])
    bends = [one.bending for panel in shown for one in panel.stages if math.isfinite(one.bending)]
    largest = max([*bends, corridor.least if math.isfinite(corridor.least) else 0.0])
    scale = TALL / largest
    wide = (WIDTH - LEFT - GAP * (len(shown) - 1)) / len(shown)
    items: list[Item] = [*_axis(largest, scale, system)]
    for number, panel in enumerate(shown):
        left = LEFT + number * (wide + GAP)
        items += _corridor(corridor, (left, left + wide), scale, system, named=number == 0)
        items += _panel(panel, (left, left + wide), scale, corridor, system)
    return Sheet(
        width=WIDTH,
        height=FOOT + TALL + HEAD,
        items=tuple(items),
        title="Bending stage by stage",
        alt=_alt(shown, system),
    )


def _alt(panels: Sequence[Panel], system: str) -> str:
    parts = []
    for panel in panels:
        worst = max(panel.stages, key=lambda one: one.bending)
        much = show(worst.bending, "kNm/m", 1, system) if math.isfinite(worst.bending) else "no rest"
        parts.append(f"{panel.letter} {panel.says}: at most {much}, {worst.stage.name}")
    return "Bending stage by stage: " + "; ".join(parts) + "."


def _axis(largest: float, scale: float, system: str) -> Iterator[Item]:
    """The scale of bending at the left."""
    step = _step(largest)
    yield Stroke(path=((LEFT - 1.0, FOOT), (LEFT - 1.0, FOOT + TALL)), pen=Pen.DIMENSION, layer="axis")
    value = 0.0
    while value <= largest * 1.001:
        y = FOOT + value * scale
        yield Stroke(path=((LEFT - 2.0, y), (LEFT - 1.0, y)), pen=Pen.TICK, layer="axis")
        number = show(value, "kNm/m", 0 if step >= 1e3 else 1, system).split()[0]
        yield Text(at=(LEFT - 2.6, y - 0.5 * CAPTION), text=number, height=CAPTION, anchor="end", halo=False)
        value += step
    unit = show(1e3, "kNm/m", 0, system).split(maxsplit=1)[1]
    yield Text(at=(0.0, FOOT + TALL + 3.0), text=unit, height=CAPTION, halo=False)


def _step(largest: float) -> float:
    """A round step that cuts the scale into four to eight."""
    rough = largest / 5.0
    ten = 10.0 ** math.floor(math.log10(rough))
    return next(ten * one for one in (1.0, 2.0, 5.0, 10.0) if ten * one >= rough)


def _corridor(
    corridor: Corridor, across: tuple[float, float], scale: float, system: str, *, named: bool
) -> Iterator[Item]:
    """What boards and nails can take, as dotted lines across a panel."""
    for name, limit in (("boards", corridor.boards), ("nails", corridor.nails)):
        if not math.isfinite(limit) or limit * scale > TALL:
            continue
        y = FOOT + limit * scale
        yield Stroke(path=((across[0], y), (across[1], y)), pen=Pen.LIMIT, layer="axis")
        if named:
            words = f"{name} take {show(limit, 'kNm/m', 1, system)}"
            yield Text(at=(across[1], y + 0.9), text=words, height=CAPTION, anchor="end", halo=False)


def _panel(
    panel: Panel, across: tuple[float, float], scale: float, corridor: Corridor, system: str
) -> Iterator[Item]:
    left, right = across
    limits = [limit for limit in (corridor.boards, corridor.nails) if math.isfinite(limit)]
    yield Stroke(path=((left, FOOT), (right, FOOT)), pen=Pen.SEEN, layer="axis")
    pitch = (right - left) / len(panel.stages)
    for number, stage in enumerate(panel.stages):
        yield from _bar(stage.bending, left + (number + 0.5) * pitch, 0.36 * pitch, scale, corridor.least)
    yield from _worst(panel, across, pitch, scale, limits, system)
    yield from _phases(panel, left, pitch, system)
    top = FOOT + TALL + HEAD - 4.0
    yield Text(at=(left, top), text=f"{panel.letter}  {panel.says}", height=FIGURE, strong=True, halo=False)
    for line, words in enumerate(panel.stands[:2]):
        yield Text(at=(left, top - 3.8 - 3.2 * line), text=words, height=CAPTION, halo=False)


def _bar(bending: float, x: float, half: float, scale: float, limit: float) -> Iterator[Item]:
    """Grey as far as the ribs can take it, red above; without a state of rest all the way up."""
    top = min(bending * scale, TALL) if math.isfinite(bending) else TALL
    within = min(top, limit * scale) if math.isfinite(limit) else top
    yield Area(path=_box(x, half, FOOT, FOOT + within), wash=Wash.GREY, layer="axis")
    if top > within:
        yield Area(
            path=_box(x, half, FOOT + within, FOOT + top),
            wash=Wash.RED,
            hatch=Hatch.OVERFILLED,
            outline=Pen.LAYER,
            ink=Ink.RED,
            layer="axis",
        )


def _box(x: float, half: float, low: float, high: float) -> tuple[tuple[float, float], ...]:
    return ((x - half, low), (x + half, low), (x + half, high), (x - half, high))


def _worst(
    panel: Panel,
    across: tuple[float, float],
    pitch: float,
    scale: float,
    limits: Sequence[float],
    system: str,
) -> Iterator[Item]:
    """The largest bending in figures over its bar, off the lines of what the ribs can take."""
    number, worst = max(enumerate(panel.stages), key=lambda pair: pair[1].bending)
    if not math.isfinite(worst.bending):
        words, y = "gives way", FOOT + TALL
    else:
        words, y = show(worst.bending, "kNm/m", 1, system), FOOT + worst.bending * scale
    x = across[0] + (number + 0.5) * pitch
    middle = 0.5 * (across[0] + across[1])
    anchor = "end" if x > middle else "start"
    x += pitch * (0.4 if anchor == "end" else -0.4)
    y += 1.2
    for line in sorted(FOOT + limit * scale for limit in limits):
        if y - 1.0 < line < y + FIGURE + 0.8:
            y = line + 1.0 + (3.0 if panel.letter == "A" else 0.0)
    yield Text(at=(x, y), text=words, height=FIGURE, anchor=anchor, strong=True, layer="axis")


def _phases(panel: Panel, left: float, pitch: float, system: str) -> Iterator[Item]:
    """Which bars belong to the shell, the filling and the finished house, and the levels of the fill."""
    for name, kinds in PHASES:
        places = [i for i, one in enumerate(panel.stages) if one.stage.kind in kinds]
        if not places:
            continue
        start, end = left + places[0] * pitch + 0.4, left + (places[-1] + 1) * pitch - 0.4
        yield Stroke(path=((start, FOOT - 1.8), (end, FOOT - 1.8)), pen=Pen.LAYER, layer="axis")
        yield Text(
            at=(0.5 * (start + end), FOOT - 5.2), text=name, height=CAPTION, anchor="middle", halo=False
        )
        levels = [one.level for i in places if (one := panel.stages[i]).stage.kind is StageKind.FILL]
        known = [level for level in levels if level is not None]
        if known:
            unit, size = ("m", 1.0) if system == "metric" else ("ft", FOOT_LENGTH)
            words = f"{known[0] / size:+.1f} … {known[-1] / size:+.1f} {unit}"
            yield Text(
                at=(0.5 * (start + end), FOOT - 8.8), text=words, height=CAPTION, anchor="middle", halo=False
            )
