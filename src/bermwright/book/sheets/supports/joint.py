"""The joint of vault and wall in section at 1 : 5, with every force on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from bermwright.base.drawing import (
    Area,
    Clip,
    Dimension,
    Hatch,
    Item,
    Leader,
    Path,
    Pen,
    Sheet,
    Stroke,
    View,
    Wash,
)
from bermwright.base.wording import NOT_REVIEWED
from bermwright.book.sheets.details import foot_of
from bermwright.book.sheets.paper import Figures, figure, heading, note
from bermwright.book.sheets.parts.earth import ground_items
from bermwright.book.sheets.parts.shell import rib_words, shell_items
from bermwright.book.sheets.scene import Scene, Support, under_right
from bermwright.book.sheets.supports.forces import LINE, Force, force_items, force_list

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import VaultForm

SCALE = 5.0
WIDE, TALL = 172.0, 116.0
"""The window (mm)."""
BELOW = 0.24
"""Of the wall that is shown (m)."""
HEAD, FOOT = 9.0, 14.0
MORE = 0.3
"""Drawn beyond the window, so that nothing breaks off inside it (m)."""
UP_THE_RIB = 0.10
"""How far the sides of a shoe reach up the rib (m), as drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint:
    """What the drawing shows besides the vault and its supports."""

    room_face: float
    outer_face: float
    """Faces of the wall, or of what the foot stands on (x, m)."""
    bars: tuple[float, ...] = ()
    """Places of upright bars (x, m)."""
    bar_words: str = ""
    held: str = ""
    """How the foot is held, in words."""
    bolted: bool = False
    """Whether bolts or a kerb hold the foot sideways."""


def joint_sheet(
    form: VaultForm,
    joint: Joint,
    forces: tuple[Force, ...],
    *,
    supports: tuple[Support, ...] = (),
    system: str = "metric",
) -> Sheet:
    """The right foot on its wall; forces act on the wall, from the vault and the soil."""
    figures = Figures(system=system)
    key = tuple(sorted(_key(form, joint, figures), key=lambda one: -one[1][1]))
    listed = LINE * max(len(forces), len(key))
    height = TALL + HEAD + FOOT + listed + 6.0
    low = (1.0, height - HEAD - TALL)
    view = _view(form, low)
    items: list[Item] = [heading((1.0, height - 5.0), "The joint of vault and wall", 3.6)]
    items.append(note((WIDE, height - 5.0), f"1:{SCALE:.0f}, right foot; {NOT_REVIEWED}", "end"))
    inside = (*_building(form, supports, view), *_shoe(form, joint, view), *_bars(joint, form, view))
    high = (low[0] + WIDE, low[1] + TALL)
    items.append(Clip(low=low, high=high, items=inside))
    items.append(Stroke(path=_box(low, high), pen=Pen.SEEN, closed=True))
    items += force_items(forces, view)
    items += _leaders(key, view)
    items += _measures(form, joint, view, low[1], figures)
    top = low[1] - FOOT
    items += force_list(forces, top, 2.0)
    items += [
        figure((99.0, top - LINE * (row + 1)), f"{row + 1}  {words}") for row, (words, _) in enumerate(key)
    ]
    alt = f"The right foot of {form.name} on its wall. Forces: " + "; ".join(force.words for force in forces)
    return Sheet(
        width=WIDE + 2.0,
        height=height,
        items=tuple(items),
        title="Joint of vault and wall",
        alt=alt,
        view=view,
    )


def _view(form: VaultForm, low: tuple[float, float]) -> View:
    factor = 1000.0 / SCALE
    middle = float(form.rib.centreline.x[-1]) + 0.04
    left, bottom = middle - 0.5 * WIDE / factor, form.springing - BELOW
    origin = (low[0] - left * factor, low[1] - bottom * factor)
    return View(
        origin=origin, scale=SCALE, seen=((left, bottom), (left + WIDE / factor, bottom + TALL / factor))
    )


def _box(low: tuple[float, float], high: tuple[float, float]) -> Path:
    return low, (high[0], low[1]), high, (low[0], high[1])


def _building(form: VaultForm, supports: tuple[Support, ...], view: View) -> Iterator[Item]:
    (left, bottom), (right, top) = view.seen
    wider = replace(view, seen=((left - MORE, bottom - MORE), (right + MORE, top + MORE)))
    yield from ground_items(Scene(form=form, supports=supports), wider)
    near = tuple(replace(support, side=1) for support in under_right(supports))
    yield from shell_items(Scene(form=foot_of(form, 1.0), supports=near), wider)


def _shoe(form: VaultForm, joint: Joint, view: View) -> Iterator[Item]:
    """The seat cast under the sloping end of the rib, its shoe, and bolts into the wall."""
    level, foot = form.springing, float(form.rib.centreline.x[-1])
    inner, outer = ((float(curve.x[-1]), float(curve.z[-1])) for curve in (form.rib.inside, form.rib.outside))
    if outer[1] > level:
        seat = (view.point(foot, level), view.point(outer[0], level), view.point(*outer))
        yield Area(path=seat, wash=Wash.PAPER, hatch=Hatch.CONCRETE, outline=Pen.SEEN, layer="support")
    sides = []
    for curve in (form.rib.inside, form.rib.outside):
        x, z, _ = curve.at(curve.length - UP_THE_RIB)
        sides.append((float(x), float(z)))
    shoe = (sides[0], inner, outer, sides[1])
    yield Stroke(path=tuple(view.point(*place) for place in shoe), pen=Pen.FORCE, layer="support")
    if joint.bolted:
        for share in (0.25, 0.75):
            place = inner[0] + share * (outer[0] - inner[0])
            head = inner[1] + share * (outer[1] - inner[1])
            bolt = (view.point(place, head + 0.015), view.point(place, level - 0.15))
            yield Stroke(path=bolt, pen=Pen.SEEN, layer="support")


def _bars(joint: Joint, form: VaultForm, view: View) -> Iterator[Item]:
    for place in joint.bars:
        bar = (view.point(place, form.springing - 0.05), view.point(place, form.springing - 2.0 * BELOW))
        yield Stroke(path=bar, pen=Pen.HIDDEN, layer="support")


def _key(form: VaultForm, joint: Joint, figures: Figures) -> Iterator[tuple[str, tuple[float, float]]]:
    """Words of the numbered things, and where each is (m)."""
    line, level = form.rib.centreline, form.springing
    x, z, _ = line.at(line.length - 0.22)
    yield rib_words(form, figures), (float(x), float(z))
    back = 0.10
    for band in form.bands:
        inner, outer = band.inner, band.outer
        u, w, _ = inner.at(inner.length - back)
        a, b, _ = outer.at(outer.length - back)
        yield f"{band.name} {figures.length(band.thickness)}", (0.5 * float(u + a), 0.5 * float(w + b))
        back += 0.05
    yield joint.held or "how the foot is held is not known", (float(line.x[-1]), level + 0.01)
    if joint.bar_words:
        yield joint.bar_words, (joint.bars[0], level - 0.10)


def _leaders(key: tuple[tuple[str, tuple[float, float]], ...], view: View) -> Iterator[Item]:
    right = view.point(view.seen[1][0], 0.0)[0]
    top = view.point(0.0, view.seen[1][1])[1]
    for number, (_, place) in enumerate(key, start=1):
        to = view.point(*place)
        yield Leader(to=to, at=(right - 8.0, top - 3.0 - 9.0 * number), text=str(number))


def _measures(form: VaultForm, joint: Joint, view: View, under: float, figures: Figures) -> Iterator[Item]:
    """Thickness of the wall and the place of the foot on it, under the window."""
    foot = float(form.rib.centreline.x[-1])
    room, outer, middle = (view.point(place, 0.0)[0] for place in (joint.room_face, joint.outer_face, foot))
    wide, inset = joint.outer_face - joint.room_face, foot - joint.room_face
    shown = view.seen[0][0] <= joint.room_face and joint.outer_face <= view.seen[1][0]
    if shown and wide > 0.0:
        yield Dimension(start=(room, under), end=(outer, under), offset=-10.0, text=figures.length(wide))
    if shown and inset > 0.0:
        yield Dimension(start=(room, under), end=(middle, under), offset=-4.5, text=figures.length(inset))
    level = view.point(0.0, form.springing)[1]
    yield figure((view.point(view.seen[0][0], 0.0)[0] + 2.0, level + 1.0), figures.level(form.springing))
    yield Stroke(
        path=(view.point(view.seen[0][0], form.springing), (room, level)),
        pen=Pen.DIMENSION,
        layer="dimension",
    )
