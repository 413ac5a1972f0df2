"""The four sides of a vault and its mound as one sees them from far away, hidden lines left out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
import shapely

from bermwright.base.drawing import Dimension, Hatch, Item, Pen, Sheet, Stroke, View, Wash
from bermwright.book.sheets.paper import Figures, figure, heading
from bermwright.book.sheets.plans.measures import level_column, levels_for, widest
from bermwright.book.sheets.plans.style import SEEN, area, layer_of, strokes
from bermwright.book.sheets.settling import settled
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import parts_of, shadow, trimmed
from bermwright.form.solids.seen import SIDES, picture

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import Solid, VaultSolids
    from bermwright.form.solids.seen import Picture
    from bermwright.house import House

SCALES = (50.0, 100.0, 200.0, 500.0)
BESIDE = 1.0
"""Ground shown beside the mound (m)."""
UNDER = 0.7
"""Ground shown under the lowest ground that is seen (m)."""
FOOT, HEAD, RIM = 9.0, 13.0, 3.0
"""Paper under, over and beside the view (mm)."""
TITLES = {"front": "Front", "back": "Back", "left": "Left side", "right": "Right side"}
HAIR = 0.02


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What an elevation shows (m)."""

    low: float
    high: float
    bottom: float
    top: float


def elevation_sheet(
    house: House,
    form: VaultForm,
    solids: VaultSolids,
    side: str,
    *,
    width: float = 380.0,
    height: float | None = None,
    system: str = "metric",
) -> Sheet:
    """One side: 1 : 50 where it fits the width (and height), else the next smaller scale of ISO 5455."""
    figures = Figures(system=system)
    shown = picture(_standing(solids, side), side)
    levels = _levels(house, form, solids, side)
    sheet = seen_sheet(shown, levels, f"{TITLES[side]} of {form.name}", figures, width=width, height=height)
    assert sheet.view is not None  # noqa: S101  (it has just been given one)
    return replace(sheet, items=(*sheet.items, *_measures(form, solids, side, sheet.view, figures)))


def seen_sheet(
    shown: Picture,
    levels: Sequence[tuple[float, str]],
    title: str,
    figures: Figures,
    *,
    width: float,
    height: float | None,
) -> Sheet:
    """What is seen of bodies, under its title and beside a column of levels."""
    window = _window(shown)
    levels = levels_for(levels, width, 1e3)
    column = widest(f"{figures.level(z)}  {words}" for z, words in levels) + 12.0
    scale = _scale(window, width - column - 2.0 * RIM, height)
    factor = 1000.0 / scale
    levels = levels_for(levels, width, (window.top - window.bottom) * factor)
    view = View(
        origin=(RIM - window.low * factor, FOOT - window.bottom * factor),
        scale=scale,
        seen=((window.low, window.bottom), (window.high, window.top)),
    )
    edge = view.point(window.high, 0.0)[0]
    tall = (window.top - window.bottom) * factor + FOOT + HEAD
    items: list[Item] = [*_drawn(shown, window, view)]
    items += level_column(levels, edge + 6.0, view.origin[1], scale, figures, edge=edge + 1.0)
    items.append(heading((RIM, tall - 5.0), title))
    items.append(figure((RIM, tall - 10.5), f"1:{scale:.0f}, seen from outside"))
    alt = f"Elevation: {title[0].lower()}{title[1:]}, hidden lines left out."
    return settled(
        Sheet(width=edge + column, height=tall, items=tuple(items), title=title, alt=alt, view=view)
    )


def _scale(window: Window, width: float, height: float | None) -> float:
    def fits(scale: float) -> bool:
        wide = (window.high - window.low) * 1000.0 / scale <= width
        tall = (window.top - window.bottom) * 1000.0 / scale + FOOT + HEAD
        return wide and (height is None or tall <= height)

    return next((one for one in SCALES if fits(one)), SCALES[-1])


def _standing(solids: VaultSolids, side: str) -> list[Solid]:
    """All bodies; the ground before the toe of the mound is left out, as it would hide the way in."""
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    found = []
    for one in solids.solids:
        if one.kind is not Kind.GROUND or not mound:
            found.append(one)
            continue
        axis = "y" if side in {"front", "back"} else "x"
        eye = SIDES[side][2]["xyz".index(axis)]
        number = "xyz".index(axis)
        ends = [part.low[number] for part in mound] if eye < 0 else [part.high[number] for part in mound]
        place = min(ends) - HAIR if eye < 0 else max(ends) + HAIR
        left = trimmed(one, axis, float(place), -float(eye))
        if left is not None:
            found.append(left)
    return found


def _window(shown: Picture) -> Window:
    built = [patch.shape.bounds for patch in shown.patches if patch.kind is not Kind.GROUND]
    boxes = np.array(built)
    low, high = float(boxes[:, 0].min()) - BESIDE, float(boxes[:, 2].max()) + BESIDE
    strip = shapely.box(low, -1e3, high, 1e3)
    ground = [
        shapely.intersection(patch.shape, strip) for patch in shown.patches if patch.kind is Kind.GROUND
    ]
    tops = [shape.bounds[3] for shape in ground if not shape.is_empty]
    least = min([float(boxes[:, 1].min()), *tops])
    return Window(low=low, high=high, bottom=least - UNDER, top=max([float(boxes[:, 3].max()), *tops]))


def _drawn(shown: Picture, window: Window, view: View) -> Iterator[Item]:
    frame = shapely.box(window.low, window.bottom, window.high, window.top + 1.0)
    for patch in shown.patches:
        for part in parts_of(shapely.intersection(patch.shape, frame)):
            wash = SEEN.get(patch.kind, Wash.PAPER)
            hatch = Hatch.EARTH_IN_PLACE if patch.kind is Kind.GROUND else Hatch.NONE
            yield area(part, view.point, wash, hatch, layer=layer_of(patch.kind))
    inner = shapely.buffer(frame, -1e-3)
    for kind in dict.fromkeys(shown.kinds):
        mine = [line for line, owner in zip(shown.lines, shown.kinds, strict=True) if owner is kind]
        lines = shapely.intersection(shapely.union_all(shapely.linestrings(mine)), inner)
        yield from strokes(lines, view.point, Pen.SEEN, layer_of(kind))


def _levels(house: House, form: VaultForm, solids: VaultSolids, side: str) -> list[tuple[float, str]]:
    """What stands beside an elevation: finished top, natural ground, floor, sills and heads."""
    ground = form.ground
    found = [
        (ground.top, "finished top"),
        (float(ground.natural.level(0.0)), "natural, at the middle"),
        (0.0, "finished floor"),
    ]
    if side in {"left", "right"}:
        edge = ground.natural.x[0 if side == "left" else -1]
        level = float(ground.natural.level(edge))
        if abs(level - found[1][0]) > HAIR:
            found.append((level, f"natural, {side}"))
        return [*found, *_flue(solids)]
    for one in house.openings:
        if one.vault == form.name and str(one.side) == side and one.sill is not None:
            if abs(one.sill) > HAIR:
                found.append((one.sill, f"sill, {one.name}"))
            found.append((one.sill + one.height, f"head, {one.name}"))
    end = next((one for one in house.ends if one.vault == form.name and str(one.at) == side), None)
    if end is not None and end.soil_to is not None and abs(end.soil_to) > HAIR:
        found.append((end.soil_to, "soil at the wall"))
    return [*found, *_flue(solids)]


def _flue(solids: VaultSolids) -> list[tuple[float, str]]:
    layer = solids.layer(Kind.FLUE)
    return [] if layer is None else [(float(one.high[2]), f"top, {one.name}") for one in layer.solids]


def _measures(
    form: VaultForm, solids: VaultSolids, side: str, view: View, figures: Figures
) -> Iterator[Item]:
    """Width of the mound, from toe to toe."""
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    if not mound:
        return
    low_x, low_y, high_x, high_y = shadow(mound).bounds
    first, last = (low_x, high_x) if side in {"front", "back"} else (low_y, high_y)
    turn = SIDES[side][0]
    ends = sorted(float(turn[0] * at if side in {"front", "back"} else turn[1] * at) for at in (first, last))
    y = FOOT - 0.5
    points = [(view.point(at, 0.0)[0], y) for at in ends]
    for at, x in zip(ends, points, strict=True):
        top = view.point(at, float(form.ground.natural.level(0.0)))[1]
        yield Stroke(path=((x[0], y), (x[0], top)), pen=Pen.DIMENSION, layer="dimension")
    yield Dimension(start=points[0], end=points[1], offset=-3.0, text=figures.length(ends[1] - ends[0]))
