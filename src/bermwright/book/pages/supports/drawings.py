"""From a study to the drawings of its supports: faces, levels, and every force with its value."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import show
from bermwright.book.sheets import supports_of
from bermwright.book.sheets.supports import Force, Joint, WallView, joint_sheet, wall_sheet
from bermwright.house.parts.support_words import SocketKind, TieKind
from bermwright.rules.supports.common import when
from bermwright.rules.supports.stages import governing_turn, stage_forces
from bermwright.rules.supports.standing import Standing, across, on_side, standings

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.base.drawing import Sheet
    from bermwright.rules.study import Study
    from bermwright.rules.supports.base import Governing
    from bermwright.rules.supports.stages import StageForces

RIGHT = 1
FARTHEST = 0.30
"""From the middle of the foot to the farthest arrow in the drawing of the joint (m)."""
LEAST = 50.0
"""A smaller force is not drawn (N/m)."""


def right_standing(study: Study) -> Standing | None:
    """What stands under the right foot, where it is known."""
    one = standings(study)[RIGHT]
    return one if isinstance(one, Standing) else None


def joint_drawing(study: Study, system: str) -> Sheet | None:
    """The joint of vault and wall at 1 : 5; None where nothing is known of it."""
    standing = right_standing(study)
    if standing is None:
        return None
    rows = stage_forces(study, standing)
    return joint_sheet(
        study.form,
        _joint(study, standing, system),
        tuple(_joint_forces(study, standing, rows, system)),
        supports=supports_of(study.vault, study.house),
        system=system,
    )


def _joint(study: Study, standing: Standing, system: str) -> Joint:
    wall = standing.wall
    thick = standing.thickness or standing.width
    start = standing.toe if standing.thickness else 0.0
    bars: tuple[float, ...] = ()
    words = ""
    if wall is not None and wall.bars is not None:
        inside = (standing.toe + wall.bar_cover, standing.toe + thick - wall.bar_cover)
        bars = tuple(across(study, standing, place) for place in inside)
        pitch = show(wall.bar_spacing, "mm", 0, system) if wall.bar_spacing else "unknown spacing"
        words = f"bars {show(wall.bars, 'mm', 0, system)} at {pitch}, both faces"
    socket = on_side(study.house.sockets, study.vault.name, RIGHT)
    return Joint(
        room_face=across(study, standing, start),
        outer_face=across(study, standing, start + thick),
        bars=bars,
        bar_words=words,
        held=_held(study, system),
        bolted=socket is not None and bool(socket.hold_across),
    )


def _held(study: Study, system: str) -> str:
    socket = on_side(study.house.sockets, study.vault.name, RIGHT)
    if socket is None:
        return ""
    if socket.kind is SocketKind.LOG:
        deep = show(socket.depth, "mm", 0, system) if socket.depth else "unknown"
        return f"{socket.name}: socket in a log, {deep} deep"
    across_words = f", {show(socket.hold_across, 'kN', 1, system)} across" if socket.hold_across else ""
    down_words = f", {show(socket.hold_down, 'kN', 1, system)} down" if socket.hold_down else ""
    return f"{socket.name}{across_words}{down_words}"


def _joint_forces(
    study: Study, standing: Standing, rows: tuple[StageForces, ...], system: str
) -> Iterator[Force]:
    """Extremes over all stages, on the wall."""
    if not rows:
        return
    foot = (across(study, standing, standing.foot), standing.top)
    out = max(rows, key=lambda row: row.outward[1])
    back = min(rows, key=lambda row: row.outward[0])
    heavy = max(rows, key=lambda row: row.down[1])
    light = min(rows, key=lambda row: row.down[0])
    if out.outward[1] > LEAST:
        words = f"foot pushes outward, at most {_kn(out.outward[1], system)}: {out.stage}"
        yield Force(words=words, at=foot, across=out.outward[1], down=0.0, leaves=True)
    if back.outward[0] < -LEAST:
        words = f"foot pushes inward, at most {_kn(-back.outward[0], system)}: {back.stage}"
        yield Force(words=words, at=foot, across=back.outward[0], down=0.0, leaves=True)
    least = show(light.down[0], "kN/m", 1, system).rsplit(" ", 1)[0]
    words = f"foot presses down, {least} to {_kn(heavy.down[1], system)}"
    yield Force(words=words, at=foot, across=0.0, down=heavy.down[1])
    yield from _answer(study, standing, heavy, back, system)


def _answer(
    study: Study, standing: Standing, heavy: StageForces, back: StageForces, system: str
) -> Iterator[Force]:
    """What the wall below answers with, and the soil beside it."""
    thick = standing.thickness or standing.width
    start = standing.toe if standing.thickness else 0.0
    middle = across(study, standing, start + 0.5 * thick)
    words = f"the wall answers from below, up to {_kn(heavy.down[1], system)}"
    yield Force(words=words, at=(middle - 0.05, standing.top - 0.08), across=0.0, down=-heavy.down[1])
    soil = max(back.soil[1], 0.0)
    if soil > LEAST:
        # Where the wall is wider than the drawing shows, the arrow stands inside its edge.
        shown = float(study.form.mesh.x[-1]) + FARTHEST
        outer = min(across(study, standing, start + thick), shown)
        words = f"soil outside, in all up to {_kn(soil, system)}: {back.stage}"
        yield Force(words=words, at=(outer, standing.top - 0.12), across=-soil, down=0.0)


def wall_drawing(study: Study, system: str) -> Sheet | None:
    """The whole support at the moment it is nearest to turning over; None where that is not known."""
    standing = right_standing(study)
    top = governing_turn(study, standing) if standing is not None else None
    if standing is None or top is None:
        return None
    stage = top.now.stage
    return wall_sheet(
        study.form,
        _wall_view(study, standing, when(top)),
        tuple(_wall_forces(study, standing, top, system)),
        stage=stage,
        supports=supports_of(study.vault, study.house),
        system=system,
    )


def _wall_view(study: Study, standing: Standing, moment: str) -> WallView:
    tie, slab = standing.tie, None
    if tie is not None and tie.kind is TieKind.SLAB and tie.thickness:
        slab = (tie.level - 0.5 * tie.thickness, tie.level + 0.5 * tie.thickness)
    face = standing.toe if standing.thickness else 0.0
    return WallView(
        room_edge=across(study, standing, 0.0),
        outer_edge=across(study, standing, standing.width),
        room_face=across(study, standing, face),
        outer_face=across(study, standing, standing.outer_face if standing.thickness else standing.width),
        base=standing.base,
        bottom=standing.bottom,
        top=standing.top,
        slab=slab,
        when=moment,
    )


def _wall_forces(study: Study, standing: Standing, top: Governing, system: str) -> Iterator[Force]:
    """Every force of that moment; outward is to the right."""
    base = top.base

    def place(from_room: float, level: float) -> tuple[float, float]:
        return across(study, standing, from_room), level

    push, down = -base.way * top.at(base.push), top.at(base.down)
    way = "outward" if push > 0.0 else "into the room"
    foot = place(standing.foot, standing.top)
    yield Force(
        words=f"foot pushes {way}, {_kn(abs(push), system)}", at=foot, across=push, down=0.0, leaves=True
    )
    yield Force(words=f"foot presses down, {_kn(down, system)}", at=foot, across=0.0, down=down)
    soil, arm = top.at(base.soil.force), top.at(base.soil.arm)
    if soil > LEAST:
        at = place(standing.width, standing.base + arm)
        words = f"soil beside it, {_kn(soil, system)}, {show(arm, 'm', 2, system)} over the base"
        yield Force(words=words, at=at, across=-soil, down=0.0)
    weight, heel = base.acting.helpful * base.weight, top.at(base.heel)
    at = place(standing.arm, 0.5 * (standing.base + standing.top))
    yield Force(
        words=f"weight of wall and footing, {_kn(weight, system)}",
        at=at,
        across=0.0,
        down=weight,
        leaves=True,
    )
    if heel > LEAST:
        at = place(0.5 * sum(standing.heel), standing.bottom)
        yield Force(words=f"soil on the base, {_kn(heel, system)}", at=at, across=0.0, down=heel)
    yield from _answers(standing, top, place(0.0, 0.0)[0], system)


def _answers(standing: Standing, top: Governing, room_edge: float, system: str) -> Iterator[Force]:
    """What joins the feet, and what the ground answers with."""
    base = top.base
    tie, total = top.at(base.tie), top.at(base.total)
    if tie > LEAST and standing.tie is not None:
        edge = room_edge + (standing.toe if standing.thickness else 0.0)
        words = f"{standing.tie.name}, {_kn(tie, system)}"
        yield Force(words=words, at=(edge, standing.tie.level), across=base.way * tie, down=0.0)
    lean = float(np.clip(top.at(base.eccentricity), -0.5 * base.width, 0.5 * base.width))
    at = room_edge + 0.5 * base.width - base.way * lean
    words = (
        f"ground answers, {_kn(total, system)}, {show(abs(lean), 'm', 2, system)} off the middle of the base"
    )
    yield Force(words=words, at=(at, standing.base), across=0.0, down=-total)
    lift = top.at(base.acting.uplift())
    if lift > LEAST:
        wet = room_edge + 2.0 / 3.0 * base.width
        words = f"water under the base lifts, {_kn(lift, system)}"
        yield Force(words=words, at=(wet, standing.base), across=0.0, down=-lift)
    rest = max(top.at(base.along) - tie, 0.0)
    if rest > LEAST:
        words = f"friction under the base, {_kn(rest, system)}"
        yield Force(words=words, at=(at, standing.base), across=base.way * rest, down=0.0)


def _kn(value: float, system: str) -> str:
    return show(value, "kN/m", 1, system)
