"""A dome in plan, in section and from its four sides, all made from its courses as bodies."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import shapely

from bermwright.base.drawing import Dimension, Hatch, Item, Pen, Sheet, Stroke, View
from bermwright.book.sheets.paper import Board, Figures, figure, heading, note
from bermwright.book.sheets.plans.elevations import seen_sheet
from bermwright.book.sheets.plans.measures import level_column, levels_for, north, section_mark, widest
from bermwright.book.sheets.plans.style import cut_items
from bermwright.book.sheets.settling import settled
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import cut
from bermwright.form.solids.seen import picture
from bermwright.house.making.words import DomeUnit

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Point
    from bermwright.form.dome import DomeForm
    from bermwright.form.solids import VaultSolids
    from bermwright.house import House
    from bermwright.house.making.dome import DomeOpening

LEVEL = 1.0
"""Where the plan is cut, over the floor (m): common practice, no source."""
HAIR = 2e-3
"""The cut lies so far over that level, so that it never runs along a sill or a bed (m)."""
SCALES = (20.0, 25.0, 50.0, 100.0)
ROUND, FOOT, HEAD = 26.0, 17.0, 14.0
"""Paper round the plan, and under and over a section (mm)."""
BESIDE = 0.8
"""Ground shown beside the wall (m)."""
SIDES = {"front": "Front", "back": "Back", "left": "Left side", "right": "Right side"}
HATCHES = {
    DomeUnit.TUBES: Hatch.EARTH_TUBE,
    DomeUnit.BAGS: Hatch.EARTH_TUBE,
    DomeUnit.BRICKS: Hatch.MASONRY,
}


def cut_level(form: DomeForm) -> float:
    """Level of the plan: a metre over the floor, in the first course of a dome that springs higher (m)."""
    return max(LEVEL, form.dome.springing + 0.5 * form.course_height) + HAIR


def dome_plan(
    form: DomeForm, solids: VaultSolids, *, width: float, height: float, system: str = "metric"
) -> Sheet:
    """The plan: the zero mark on the left, left as one walks in there up."""
    figures, reach = Figures(system=system), 0.5 * solids.length
    scale = next((one for one in SCALES if _fits(2.0 * reach, one, width, height)), SCALES[-1])
    half = 1000.0 * reach / scale + ROUND
    view = View(
        origin=(half - 1000.0 * reach / scale, half), scale=scale, seen=((0.0, -reach), (2.0 * reach, reach))
    )
    level, board = cut_level(form), Board()
    faces = [face for face in cut(solids.solids, "z", level) if face.kind is Kind.COURSE]
    window = shapely.box(-reach - 1.0, -1.0, reach + 1.0, 2.0 * reach + 1.0)
    items: list[Item] = [
        *cut_items(faces, lambda x, y: view.point(y, -x), window, _hatches(form, solids)),
        *(item for one in form.dome.openings for item in _opening(form, one, reach, view, board, figures)),
        *_across(form, reach, view, figures),
        *_zero(reach, view),
    ]
    size = (2.0 * half, 2.0 * half + HEAD)
    title = f"Plan of {form.name}"
    where = f"1:{scale:.0f}, cut {figures.length(level - HAIR)} over the floor; the zero mark on the left"
    items += [heading((2.0, size[1] - 5.0), title), figure((2.0, size[1] - 10.5), where)]
    items.append(heading((view.point(reach, 0.0)[0], half + 5.0), form.name, 3.2, "middle"))
    if solids.axis is None:
        items.append(figure((size[0] - 3.0, size[1] - 10.5), "north: not given", "end"))
    else:
        items += north((size[0] - 13.0, size[1] - 15.0), solids.axis, 8.0)
    names = ", ".join(one.name for one in form.dome.openings) or "no opening"
    sheet = Sheet(
        width=size[0], height=size[1], items=tuple(items), title=title, view=view,
        alt=f"Plan of {form.name}, cut {level - HAIR:.2f} m over the floor: {names}.",
    )  # fmt: skip
    return settled(sheet)


def _fits(across: float, scale: float, width: float, height: float) -> bool:
    paper = 1000.0 * across / scale + 2.0 * ROUND
    return paper <= width and paper + HEAD <= height


def _hatches(form: DomeForm, solids: VaultSolids) -> dict[str, Hatch]:
    return {one.name: HATCHES[form.dome.unit] for one in solids.solids if one.kind is Kind.COURSE}


def _ray(reach: float, direction: float, radius: float, across: float = 0.0) -> Point:
    """A place in the plan, from the middle towards a direction and across it (along, left) (m)."""
    # Towards the zero mark one looks along minus y; directions count clockwise as seen from above.
    along, left = math.cos(direction), math.sin(direction)
    return reach - radius * along - across * left, radius * left - across * along


def _opening(
    form: DomeForm, one: DomeOpening, reach: float, view: View, board: Board, figures: Figures
) -> Iterator[Item]:
    """Name and size inside of its hole; what the plane does not cut is dashed."""
    level = cut_level(form)
    is_cut = one.sill < level < one.top
    inner = float(form.face.at(min(level - form.dome.springing, form.face.rise)))
    if not is_cut:
        for side in (-0.5, 0.5):
            ends = (_ray(reach, one.at, inner + r, side * one.width) for r in (0.0, form.dome.thickness))
            yield Stroke(path=tuple(view.point(*end) for end in ends), pen=Pen.HIDDEN, layer="openings")
    name = one.name if is_cut else f"{one.name}, not in this plane"
    size = f"{figures.length(one.width)} × {figures.length(one.height)}, sill {figures.level(one.sill)}"
    at = view.point(*_ray(reach, one.at, reach))
    middle = view.point(reach, 0.0)
    right, up = at[0] > middle[0] + 15.0, at[1] >= middle[1]
    # Beside the wall on the right and left, over or under it else.
    anchor = "end" if at[0] < middle[0] - 15.0 and abs(at[1] - middle[1]) > 15.0 else "start"
    x = at[0] + (2.5 if right else -1.5 if anchor == "end" else 1.5)
    if at[0] < middle[0] - 15.0 and anchor == "start":
        x = view.point(*_ray(reach, one.at, inner))[0] + 3.0
    y = at[1] + (6.5 if up else -6.5)
    for text, face, drop in ((name, note, 0.0), (size, figure, -4.6)):
        yield board.put(face((x, y + drop + more), text, anchor) for more in (0.0, 5.0, -5.0, 9.0, -9.0))


def _across(form: DomeForm, reach: float, view: View, figures: Figures) -> Iterator[Item]:
    """Wall, clear width and wall under the plan, and the way across it."""
    level = cut_level(form) - form.dome.springing
    laid = (one.radius for one in reversed(form.courses) if one.height <= level)
    inner = next(laid, form.courses[0].radius)
    edges = (-inner - form.dome.thickness, -inner, inner, inner + form.dome.thickness)
    y = view.point(0.0, -reach)[1]
    spots = [(view.point(reach + at, 0.0)[0], y) for at in edges]
    for (start, first), (end, last) in zip(
        zip(spots, edges, strict=True), zip(spots[1:], edges[1:], strict=False), strict=False
    ):
        clear = " clear" if first < 0.0 < last else ""
        yield Dimension(start=start, end=end, offset=-9.0, text=f"{figures.length(last - first)}{clear}")


def _zero(reach: float, view: View) -> Iterator[Item]:
    """The line of the section, from the zero mark through the middle."""
    for u, sign in ((0.0, -1.0), (2.0 * reach, 1.0)):
        at = view.point(u, 0.0)
        yield from section_mark((at[0] + sign * 12.0, at[1]), (0.0, 1.0), "A")
    start, end = view.point(0.0, 0.0), view.point(2.0 * reach, 0.0)
    yield Stroke(path=(start, end), pen=Pen.NOT_YET)


def dome_cut(
    house: House, form: DomeForm, solids: VaultSolids, *, width: float, height: float, system: str = "metric"
) -> Sheet:
    """The section from the zero mark, on the left, through the middle."""
    figures, dome = Figures(system=system), form.dome
    reach, top = 0.5 * solids.length, dome.springing + form.face.rise
    low = min([0.0, dome.springing, *(_grounds(solids))]) - 0.4
    levels = _levels(form, solids, house.site.floor)
    column = widest(f"{figures.level(z)}  {words}" for z, words in levels) + 12.0
    across = 2.0 * (reach + BESIDE)
    tall = top + dome.thickness - low
    scale = next(
        (s for s in SCALES if across * 1e3 / s + column <= width and tall * 1e3 / s + FOOT + HEAD <= height),
        SCALES[-1],
    )
    factor = 1000.0 / scale
    seen = ((-BESIDE, low), (2.0 * reach + BESIDE, top + dome.thickness))
    view = View(origin=(BESIDE * factor, FOOT - low * factor), scale=scale, seen=seen)
    window = shapely.box(seen[0][0], seen[0][1], seen[1][0], seen[1][1])
    faces = cut(solids.solids, "x", 0.0)
    edge, paper = view.point(seen[1][0], 0.0)[0], tall * factor + FOOT + HEAD
    floor = (view.point(reach - 0.5 * dome.span, 0.0), view.point(reach + 0.5 * dome.span, 0.0))
    items: list[Item] = [
        *cut_items(faces, view.point, window, _hatches(form, solids)),
        Stroke(path=floor, pen=Pen.SEEN),
        *_section_sizes(form, reach, view, figures),
        *level_column(
            levels_for(levels, width, tall * factor),
            edge + 6.0,
            view.origin[1],
            scale,
            figures,
            edge=edge + 1.0,
        ),
    ]
    title = f"Section A–A of {form.name}"
    items += [heading((3.0, paper - 5.0), title)]
    items.append(
        figure((3.0, paper - 10.5), f"1:{scale:.0f}, through the zero mark, on the left, and the middle")
    )
    sheet = Sheet(
        width=edge + column, height=paper, items=tuple(items), title=title, view=view,
        alt=f"Section of {form.name}: {len(form.courses)} courses, {form.face.rise:.2f} m high inside.",
    )  # fmt: skip
    return settled(sheet)


def _section_sizes(form: DomeForm, reach: float, view: View, figures: Figures) -> Iterator[Item]:
    half, thick = 0.5 * form.dome.span, form.dome.thickness
    edges = (reach - half - thick, reach - half, reach + half, reach + half + thick)
    spots = [(view.point(at, 0.0)[0], FOOT - 3.0) for at in edges]
    for number in range(3):
        size = figures.length(edges[number + 1] - edges[number])
        yield Dimension(start=spots[number], end=spots[number + 1], offset=-6.0, text=size)
    low, high = (
        view.point(reach, form.dome.springing),
        view.point(reach, form.dome.springing + form.face.rise),
    )
    yield Dimension(start=low, end=high, offset=0.0, text=figures.length(form.face.rise))


def _grounds(solids: VaultSolids) -> list[float]:
    layer = solids.layer(Kind.GROUND)
    return [] if layer is None else [float(layer.solids[0].high[2])]


def _levels(form: DomeForm, solids: VaultSolids, floor: float | None) -> list[tuple[float, str]]:
    dome = form.dome
    found = [(dome.springing + form.face.rise, "crown, inside"), (0.0, "finished floor")]
    if abs(dome.springing) > HAIR:
        found.append((dome.springing, "springing"))
    if solids.layer(Kind.GROUND) is not None and floor is not None:
        found.append((-floor, "natural, at the middle"))
    for one in dome.openings:
        found += [(one.sill, f"sill, {one.name}")] if abs(one.sill) > HAIR else []
        found.append((one.top, f"head, {one.name}"))
    return found


def dome_elevation(
    house: House,
    form: DomeForm,
    solids: VaultSolids,
    side: str,
    *,
    width: float,
    height: float,
    system: str = "metric",
) -> Sheet:
    """One side, as one sees it from far away; the front is that of the zero mark."""
    shown = picture(solids.solids, side)
    title = f"{SIDES[side]} of {form.name}"
    return seen_sheet(
        shown,
        _levels(form, solids, house.site.floor),
        title,
        Figures(system=system),
        width=width,
        height=height,
    )
