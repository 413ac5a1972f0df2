"""Details of the shell and its ends: springing, crown, window, flue."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.drawing import Area, Hatch, Item, Pen, Sheet, Stroke, Wash
from bermwright.book.sheets.details.cell import (
    LOW,
    WINDOW,
    Subject,
    Words,
    cut_of,
    detail,
    fitting,
    shown_box,
    wider,
    window,
)
from bermwright.book.sheets.details.springing import detail_spot, foot_of
from bermwright.book.sheets.paper import Board, figure
from bermwright.book.sheets.parts.earth import ground_items
from bermwright.book.sheets.parts.shell import rib_words, shell_items
from bermwright.book.sheets.plans.measures import chain
from bermwright.book.sheets.plans.style import cut_items, hatches_of
from bermwright.book.sheets.scene import Scene, supports_of
from bermwright.book.sheets.signs import level_triangle
from bermwright.form.solids import Kind
from bermwright.form.solids.cutting import cut

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import View
    from bermwright.book.sheets.paper import Figures
    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.house import Opening, Stove

THIN = 5e-3
"""Layers thinner than this have no figure of their own (m)."""


def springing(subject: Subject) -> Sheet:
    """The right foot of a rib on its support."""
    form, figures = subject.form, subject.figures
    supports = supports_of(subject.vault, subject.house)
    middle, level = detail_spot(form)
    view = window((middle, level), 10.0)
    part = foot_of(form, 1.2)
    whole, near = Scene(form=form, supports=supports), Scene(form=part, supports=supports)
    inside = [
        *ground_items(whole, wider(view)),
        *_beside_wall(subject, view),
        *shell_items(near, wider(view)),
    ]
    socket = next((one for one in subject.house.sockets if one.vault == form.name), None)
    shows = [rib_words(form, figures), *(_band_words(subject))]
    if socket is not None:
        shows.append(f"foot held by: {socket.kind}")
    words = Words(
        code="D1",
        title="springing",
        shows=tuple(shows),
        without=(
            "Not drawn: shoe, bolts and packing; the file gives their strength, not their shape.",
            "Sliding and uplift of the foot are checked in the chapter on what carries.",
        ),
    )
    y = view.point(0.0, form.springing)[1]
    over: list[Item] = [
        level_triangle((LOW[0] + 2.2, y)),
        figure((LOW[0] + 4.4, y + 0.5), _springing(subject)),
    ]
    return detail(words, view, inside, over)


def _beside_wall(subject: Subject, view: View) -> Iterator[Item]:
    """The insulation outside the wall."""
    hatches = hatches_of(subject.house, subject.form.name, subject.solids.solids)
    layer = subject.solids.layer(Kind.WALL_INSULATION)
    faces = cut(() if layer is None else layer.solids, "y", subject.bay)
    yield from cut_items(faces, view.point, shown_box(view), hatches)


def _springing(subject: Subject) -> str:
    return f"{subject.figures.level(subject.form.springing)} springing"


def _band_words(subject: Subject) -> Iterator[str]:
    for band in subject.form.bands:
        thick = f" {subject.figures.length(band.thickness)}" if band.thickness > THIN else ""
        yield f"{band.name}{thick}"


def crown(subject: Subject) -> Sheet:
    """Everything over the room at the crown, with its thicknesses."""
    form, figures = subject.form, subject.figures
    top = float(form.mesh.soil_x[form.mesh.crown])
    finished = float(form.ground.finished.level(top))
    lowest = float(form.rib.inside.z.max())
    scale = fitting(0.1, finished - lowest + 0.07)
    view = window((top, 0.5 * (finished + lowest)), scale)
    part = _near(form, top, 0.9 * WINDOW * scale / 1000.0)
    inside = [*ground_items(Scene(form=form), wider(view)), *_shell_only(part, wider(view))]
    places, names = _crown_places(form, top, figures)
    x = view.point(top, 0.0)[0] + 0.33 * WINDOW
    spots = [(x, view.point(0.0, at)[1]) for at in places]
    over: list[Item] = [*chain(places, spots, figures, offset=0.0)]
    y = view.point(0.0, finished)[1]
    over += [level_triangle((LOW[0] + 2.2, y)), figure((LOW[0] + 4.4, y + 2.6), figures.level(finished))]
    words = Words(
        code="D3",
        title="crown",
        shows=tuple(names),
        without=(
            "Not drawn: nails, laps of the membrane, joints of the insulation.",
            "Joints of the layers of the ribs: see the sheets of the ribs.",
        ),
    )
    return detail(words, view, inside, over)


def _shell_only(form: VaultForm, view: View) -> Iterator[Item]:
    """The shell without floor and supports."""
    scene = Scene(form=form)
    yield from (item for item in shell_items(scene, view) if getattr(item, "layer", "") != "floor")


def _near(form: VaultForm, middle: float, reach: float) -> VaultForm:
    """The form with its curves cut down to what lies near a place across."""

    def cut(curve: CurveLine) -> CurveLine:
        keep = (np.abs(curve.x - middle) < reach) & (curve.z > float(curve.z.max()) - reach)
        s = curve.s[keep]
        return replace(curve, x=curve.x[keep], z=curve.z[keep], s=s - s[0], angle=curve.angle[keep])

    rib = form.rib
    short = replace(
        rib,
        centreline=cut(rib.centreline),
        inside=cut(rib.inside),
        outside=cut(rib.outside),
        joints=np.array([]),
        joint_layers=(),
    )
    bands = tuple(replace(band, inner=cut(band.inner), outer=cut(band.outer)) for band in form.bands)
    return replace(form, rib=short, bands=bands, soil_face=cut(form.soil_face))


def _crown_places(form: VaultForm, top: float, figures: Figures) -> tuple[list[float], list[str]]:
    """Levels of all layers on the axis, from the inside of the rib up, and what lies between them."""
    low = float(form.rib.inside.z.max())
    places, names = [low], []
    places.append(low + form.rib.depth)
    names.append(f"rib {figures.length(form.rib.depth)}")
    for band in form.bands:
        if band.thickness > THIN:
            places.append(float(band.outer.z.max()))
        names.append(f"{band.name} {figures.length(band.thickness)}")
    finished = float(form.ground.finished.level(top))
    soil = finished - form.ground.turf
    if soil - places[-1] > THIN:
        names.append(f"soil {figures.length(soil - places[-1])}")
        places.append(soil)
    if form.ground.turf > THIN and finished - places[-1] > THIN:
        names.append(f"turf {figures.length(finished - places[-1])}")
        places.append(finished)
    return places, names


def window_detail(subject: Subject) -> Sheet | None:
    """The first window of an end wall, cut upright through its middle."""
    holes = [
        one
        for one in subject.house.openings
        if one.vault == subject.form.name and one.side.in_end and one.kind.glazed and one.sill is not None
    ]
    if not holes:
        return None
    one = holes[0]
    front = str(one.side) == "front"
    face = 0.0 if front else subject.form.length
    head = (one.sill or 0.0) + one.height
    scale = fitting(0.6, one.height + 0.5)
    view = window((face, 0.5 * ((one.sill or 0.0) + head)), scale)
    inside = [*cut_of(subject, "x", one.across, view), *_header(subject, one, face, view)]
    x = view.point(face, 0.0)[0] + (-0.3 if front else 0.3) * WINDOW
    places = [one.sill or 0.0, head]
    spots = [(x, view.point(0.0, at)[1]) for at in places]
    over: list[Item] = [*chain(places, spots, subject.figures, offset=0.0)]
    over += _sill_levels(subject, places, view)
    words = Words(
        code="D6",
        title=f"window: {one.name}",
        shows=tuple(_window_words(subject, one)),
        without=(
            "Not drawn: frame, sill board, drip, sealing, wedges, insulation beside it; not in the file.",
            "Room for the wall to settle over the head is decided on site. Low glass: ask for safety glass.",
        ),
    )
    return detail(words, view, inside, over)


def _sill_levels(subject: Subject, places: list[float], view: View) -> Iterator[Item]:
    board = Board()
    for level in places:
        y = view.point(0.0, level)[1]
        yield level_triangle((LOW[0] + 2.2, y))
        yield board.take(figure((LOW[0] + 4.4, y + 0.5), subject.figures.level(level)))


def _header(subject: Subject, one: Opening, face: float, view: View) -> Iterator[Item]:
    """The header over the hole, in the plane of the wall, its thickness towards the room."""
    if one.header is None:
        return
    end = next(
        (
            end
            for end in subject.house.ends
            if end.vault == subject.form.name and str(end.at) == str(one.side)
        ),
        None,
    )
    thick = end.thickness if end is not None and end.thickness is not None else 0.0
    sign = 1.0 if str(one.side) == "front" else -1.0
    low = face + sign * thick
    high = low + sign * one.header.thickness * one.header_boards
    head = (one.sill or 0.0) + one.height
    corners = ((low, head), (high, head), (high, head + one.header.width), (low, head + one.header.width))
    path = tuple(view.point(*corner) for corner in corners)
    yield Area(path=path, wash=Wash.TIMBER, hatch=Hatch.TIMBER_ACROSS, outline=Pen.CUT, layer="openings")


def _window_words(subject: Subject, one: Opening) -> Iterator[str]:
    figures = subject.figures
    yield f"hole {figures.length(one.width)} × {figures.length(one.height)}"
    if one.panes is not None:
        yield f"glass: {one.panes}"
    if one.header is not None:
        size = f"{figures.length(one.header.thickness)} × {figures.length(one.header.width)}"
        yield f"header {one.header_boards} × {size}"
    if one.bearing is not None:
        yield f"bearing {figures.length(one.bearing)} on each side"
    if one.overhang is not None:
        yield f"overhang {figures.length(one.overhang)}, not drawn"
    if one.clear_width is not None and one.clear_height is not None:
        yield f"clear {figures.length(one.clear_width)} × {figures.length(one.clear_height)} when open"


def flue(subject: Subject) -> Sheet | None:
    """The pipe through the crown, with the room round it and the collar over the turf."""
    holes = [
        one
        for one in subject.house.openings
        if one.vault == subject.form.name and str(one.kind) == "flue" and one.along is not None
    ]
    if not holes:
        return None
    one = holes[0]
    stove = next((s for s in subject.house.stoves if s.vault == subject.form.name), None)
    form = subject.form
    top = float(form.mesh.soil_x[form.mesh.crown])
    finished = float(form.ground.finished.level(top))
    low = float(form.rib.inside.z.max())
    collar = one.collar or 0.0
    scale = fitting(one.width + 0.6, finished + collar - low + 0.25)
    view = window((top, 0.5 * (finished + collar + low) - 0.03), scale)
    inside = [*cut_of(subject, "y", one.along or 0.0, view), *_collar(one, top, finished, view)]
    y = view.point(0.0, low)[1] - 5.0
    places = [top - 0.5 * one.height, top + 0.5 * one.height]
    over = chain(places, [(view.point(at, 0.0)[0], y) for at in places], subject.figures, offset=0.0)
    words = Words(
        code="D8",
        title=f"flue: {one.name}",
        shows=tuple(_flue_words(subject, one, stove)),
        without=(
            "Not drawn: sleeve, packing that cannot burn, collar flange, hood; they are not in the file.",
            "Distances to wood: the stove's plate and local rules hold; whoever is licensed looks at it.",
        ),
    )
    return detail(words, view, inside, over)


def _collar(one: Opening, top: float, finished: float, view: View) -> Iterator[Item]:
    """The upstand round the hole, from the layers to over the turf, as two lines."""
    if one.collar is None:
        return
    for sign in (-1.0, 1.0):
        x = top + sign * 0.5 * one.height
        path = view.point(x, finished - 0.5), view.point(x, finished + one.collar)
        yield Stroke(path=path, pen=Pen.CUT, layer="openings")


def _flue_words(subject: Subject, one: Opening, stove: Stove | None) -> Iterator[str]:
    figures = subject.figures
    yield f"hole {figures.length(one.width)} along × {figures.length(one.height)} across"
    if stove is None or stove.flue is None:
        yield "diameter of the pipe: not in the file"
    else:
        room = 0.5 * (min(one.width, one.height) - stove.flue)
        yield f"pipe {figures.length(stove.flue)}, {figures.length(room)} free all round"
        if stove.terminal_height is not None:
            yield f"ends {figures.length(stove.terminal_height)} over the turf"
        if stove.lagging_distance is not None:
            shield = ", with a shield" if stove.shield else ""
            yield f"stove or pipe {figures.length(stove.lagging_distance)} from wood{shield}"
    if one.collar is not None:
        yield f"collar {figures.length(one.collar)} over the turf"
    if one.header is not None:
        yield f"trimmed by {figures.length(one.header.thickness)} × {figures.length(one.header.width)}"
    layer = subject.solids.layer(Kind.RIB)
    cut = [one.name for one in (layer.solids if layer else ()) if one.name.startswith("rib ")]
    if cut:
        yield f"cuts {', '.join(cut)}"
