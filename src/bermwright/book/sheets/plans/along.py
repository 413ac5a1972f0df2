"""The section along the axis of a vault: walls of both ends, ribs cut in a row, mound, ways in."""

from __future__ import annotations

from typing import TYPE_CHECKING

import shapely

from bermwright.base.drawing import Dimension, Item, Pen, Sheet, Stroke, View
from bermwright.book.sheets.paper import Figures, figure, heading
from bermwright.book.sheets.plans.measures import chain, level_column, levels_for, widest, without_crowding
from bermwright.book.sheets.plans.style import cut_items, hatches_of
from bermwright.book.sheets.settling import settled
from bermwright.book.sheets.signs import person
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import cut

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House

SCALES = (50.0, 100.0, 200.0, 500.0)
BESIDE, UNDER = 0.6, 0.8
"""Ground shown beside and under the building (m)."""
SIDE, FOOT, HEAD = 3.0, 18.0, 13.0
OFF_AXIS = 1e-3
"""The cut lies so far off the axis, so that it never runs along an edge (m)."""


def section_along(
    house: House,
    form: VaultForm,
    solids: VaultSolids,
    *,
    width: float = 380.0,
    height: float | None = None,
    system: str = "metric",
) -> Sheet:
    """B–B: cut upright along the axis, seen towards the left, the front on the left of the paper."""
    figures = Figures(system=system)
    faces = cut(solids.solids, "x", OFF_AXIS)
    window = _window(solids)
    levels = levels_for(_levels(form, solids), width, 1e3)
    column = widest(f"{figures.level(z)}  {words}" for z, words in levels) + 12.0
    low, bottom, high, top = window.bounds
    scale = _scale((high - low, top - bottom), width - column - SIDE, height)
    factor = 1000.0 / scale
    levels = levels_for(levels, width, (top - bottom) * factor)
    view = View(
        origin=(SIDE - low * factor, FOOT - bottom * factor), scale=scale, seen=((low, bottom), (high, top))
    )
    tall = (top - bottom) * factor + FOOT + HEAD
    edge = view.point(high, 0.0)[0]
    items: list[Item] = [*_beyond(form, view)]
    items += cut_items(faces, view.point, window, hatches_of(house, form.name, solids.solids))
    items += person(view, 0.6 * form.length)
    items += level_column(levels, edge + 5.0, view.origin[1], scale, figures, edge=edge + 1.0)
    items += _chains(form, solids, view, figures)
    title = f"Section B–B, along {form.name}"
    items += [
        heading((SIDE, tall - 5.0), title),
        figure((SIDE, tall - 10.5), f"1:{scale:.0f}, front on the left"),
    ]
    alt = f"Section along the axis of {form.name}, {form.length:.2f} m long."
    return settled(
        Sheet(width=edge + column, height=tall, items=tuple(items), title=title, alt=alt, view=view)
    )


def _scale(size: tuple[float, float], width: float, height: float | None) -> float:
    return next(
        (
            one
            for one in SCALES
            if size[0] * 1000.0 / one <= width
            and (height is None or size[1] * 1000.0 / one + FOOT + HEAD <= height)
        ),
        SCALES[-1],
    )


def _window(solids: VaultSolids) -> shapely.Polygon:
    """What is shown: along, up (m)."""
    built = [one for one in solids.solids if one.kind is not Kind.GROUND]
    low = min(float(one.low[1]) for one in built) - BESIDE
    high = max(float(one.high[1]) for one in built) + BESIDE
    bottom = min(float(one.low[2]) for one in built) - UNDER
    return shapely.box(low, bottom, high, max(float(one.high[2]) for one in built) + 0.1)


def _beyond(form: VaultForm, view: View) -> Iterator[Item]:
    """The foot of the vault beyond the cut, and the ribs' middle lines over it."""
    ends = view.point(0.0, form.springing), view.point(form.length, form.springing)
    yield Stroke(path=ends, pen=Pen.SEEN, layer="support")
    crown = float(form.rib.inside.z.max())
    for k in range(form.ribs):
        at = min(k * form.spacing, form.length)
        for shift in (-0.5, 0.5):
            x = at + shift * form.rib.width
            yield Stroke(
                path=(view.point(x, form.springing), view.point(x, crown)), pen=Pen.LAYER, layer="rib"
            )


def _levels(form: VaultForm, solids: VaultSolids) -> list[tuple[float, str]]:
    ground = form.ground
    found = [
        (ground.top, "finished top"),
        (form.crown_level, "top of the vault"),
        (float(form.rib.inside.z.max()), "inside at the crown"),
        (form.springing, "springing"),
        (float(ground.natural.level(0.0)), "natural, at the middle"),
        (0.0, "finished floor"),
    ]
    for kind, words in ((Kind.FOOTING, "underside of footing"), (Kind.WALL, "underside of wall")):
        layer = solids.layer(kind)
        if layer is not None:
            found.append((min(float(one.low[2]) for one in layer.solids), words))
    return found


def _chains(form: VaultForm, solids: VaultSolids, view: View, figures: Figures) -> Iterator[Item]:
    """Under the section: the slopes before the ends and the vault; then the whole mound."""
    mound = [one for one in solids.solids if one.kind in {Kind.FILL, Kind.TURF}]
    places = [0.0, form.length]
    if mound:
        places += [min(float(one.low[1]) for one in mound), max(float(one.high[1]) for one in mound)]
    y = FOOT - 1.0
    cuts = without_crowding(places, view.scale, 5.0)
    yield from chain(cuts, [(view.point(at, 0.0)[0], y) for at in cuts], figures, offset=-5.0)
    if len(cuts) > 2:
        ends = [(view.point(at, 0.0)[0], y) for at in (cuts[0], cuts[-1])]
        yield Dimension(start=ends[0], end=ends[1], offset=-12.0, text=figures.length(cuts[-1] - cuts[0]))
