"""One picture for each plain question."""

from __future__ import annotations

import math
from types import MappingProxyType
from typing import TYPE_CHECKING

from bermwright.base.drawing import (
    Arc,
    Area,
    Arrow,
    Clip,
    Dimension,
    Hatch,
    Item,
    Pen,
    Sheet,
    Stroke,
    Wash,
)
from bermwright.book.sheets.asked.house import (
    CLOSE,
    COVER,
    GROUND,
    HALF,
    PLAN,
    SECTION,
    SHELL,
    SIZE,
    TOP,
    WALL,
    arch,
    earth_items,
    ground_items,
    mound,
    on_paper,
    vault_items,
)
from bermwright.book.sheets.paper import figure, note

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from bermwright.base.drawing import View

    Drawer = Callable[[], Iterator[Item]]


def picture(name: str) -> Sheet:
    """The picture of one question."""
    drawer, alt = PICTURES[name]
    # What runs out of the picture is cut at its edge.
    inside = Clip(low=(0.0, 0.0), high=SIZE, items=tuple(drawer()))
    return Sheet(width=SIZE[0], height=SIZE[1], items=(inside,), title="", alt=alt)


def _measured(
    start: tuple[float, float], end: tuple[float, float], offset: float = 0.0, view: View = CLOSE
) -> Iterator[Item]:
    """What is asked: a dimension between two places of the house."""
    yield Dimension(start=view.point(*start), end=view.point(*end), offset=offset, text="?")


def _whole() -> Iterator[Item]:
    """Vault, mound and ground."""
    yield from ground_items()
    yield from earth_items()
    yield from vault_items(SECTION)


def _span() -> Iterator[Item]:
    yield from vault_items(CLOSE)
    yield from _measured((-HALF, -0.55), (HALF, -0.55), -4.0)


def _rise() -> Iterator[Item]:
    yield from vault_items(CLOSE)
    yield Stroke(path=on_paper(CLOSE, [(-HALF, WALL), (HALF, WALL)]), pen=Pen.HIDDEN)
    yield from _measured((0.0, WALL), (0.0, TOP))


def _springing() -> Iterator[Item]:
    yield from vault_items(CLOSE)
    yield Stroke(path=on_paper(CLOSE, [(-HALF, WALL), (HALF, WALL)]), pen=Pen.HIDDEN)
    yield from _measured((0.9, 0.0), (0.9, WALL))
    yield note(CLOSE.point(-1.6, 0.12), "floor")


def _crown() -> Iterator[Item]:
    yield from _whole()
    top = TOP + SHELL
    yield from _measured((0.0, top), (0.0, TOP + COVER), view=SECTION)


def _sides() -> Iterator[Item]:
    yield from _whole()
    (left, low), (right, high) = mound()[-1], mound()[-2]
    yield Stroke(path=on_paper(SECTION, [(left, low), (right, low), (right, high)]), pen=Pen.HIDDEN)
    yield figure(_up(SECTION.point(0.5 * (left + right), low), 1.5), "along", "middle")
    yield figure(_up(SECTION.point(right + 0.15, 0.5 * (low + high)), 0.0), "1 up")


def _length() -> Iterator[Item]:
    yield from _plan()
    start, end = PLAN.point(0.0, -1.9), PLAN.point(5.2, -1.9)
    yield Dimension(start=start, end=end, offset=-4.0, text="?")


def _plan() -> Iterator[Item]:
    """The room from above, the door on the left."""
    ring = [(0.0, -1.7), (5.2, -1.7), (5.2, 1.7), (0.0, 1.7)]
    room = [(0.3, -1.4), (4.9, -1.4), (4.9, 1.4), (0.3, 1.4)]
    yield Area(
        path=on_paper(PLAN, ring), holes=(on_paper(PLAN, room),), wash=Wash.INSITU, hatch=Hatch.MASONRY,
        outline=Pen.CUT,
    )  # fmt: skip
    door = [(-0.05, -0.5), (0.35, -0.5), (0.35, 0.5), (-0.05, 0.5)]
    yield Area(path=on_paper(PLAN, door), wash=Wash.PAPER)
    for number in range(8):
        x = 0.7 + 0.55 * number
        yield Stroke(path=on_paper(PLAN, [(x, -1.4), (x, 1.4)]), pen=Pen.HIDDEN)


def _axis() -> Iterator[Item]:
    yield from _plan()
    yield Arrow(tail=PLAN.point(-1.9, 0.0), head=PLAN.point(3.4, 0.0), pen=Pen.FORCE)
    yield note(_up(PLAN.point(0.6, 0.0), 1.2), "you look this way")
    at = (89.0, 50.0)
    yield Arc(centre=at, radius=5.5, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN)
    yield Arrow(tail=(at[0] - 2.4, at[1] - 4.0), head=(at[0] + 2.7, at[1] + 4.6), pen=Pen.FORCE)
    yield figure((at[0] + 3.0, at[1] + 6.2), "N")


def _latitude() -> Iterator[Item]:
    yield from _whole()
    at = SECTION.point(-4.2, 4.9)
    yield Arc(centre=at, radius=4.0, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN)
    foot = SECTION.point(-0.2, TOP + COVER)
    yield Stroke(path=(at, foot), pen=Pen.HIDDEN)
    yield Stroke(path=((foot[0] - 26.0, foot[1]), foot), pen=Pen.HIDDEN)
    tilt = math.atan2(at[1] - foot[1], at[0] - foot[0])
    yield Arc(centre=foot, radius=15.0, start=tilt, end=math.pi, pen=Pen.DIMENSION)
    yield note((foot[0] - 27.0, foot[1] - 4.0), "noon", "middle")


def _snow() -> Iterator[Item]:
    yield from _whole()
    lower = [(-6.0, GROUND), *mound(), (6.0, GROUND)]
    upper = [(x, z + 0.4) for x, z in reversed(lower)]
    yield Area(path=on_paper(SECTION, [*lower, *upper]), wash=Wash.SNOW, hatch=Hatch.SNOW, outline=Pen.LAYER)


def _slope() -> Iterator[Item]:
    fall = math.tan(math.radians(14.0))
    line = [(-6.0, 1.2 + 6.0 * fall), (6.0, 1.2 - 6.0 * fall)]
    under = [*line, (6.0, -2.0), (-6.0, -2.0)]
    yield Area(path=on_paper(SECTION, under), wash=Wash.INSITU, hatch=Hatch.EARTH_IN_PLACE)
    yield Stroke(path=on_paper(SECTION, line), pen=Pen.CUT)
    start = (-2.2, 1.2 + 2.2 * fall)
    end = (2.2, start[1])
    yield Stroke(path=on_paper(SECTION, [start, end]), pen=Pen.SEEN)
    yield Dimension(
        start=SECTION.point(2.2, 1.2 - 2.2 * fall), end=SECTION.point(*end), offset=0.0, text="gap"
    )
    yield note(_up(SECTION.point(0.0, end[1]), 1.4), "a level board", "middle")


def _soil() -> Iterator[Item]:
    yield from _whole()
    for side in (-1.0, 1.0):
        for number in (9, 14):
            x, z = arch(SHELL)[number if side < 0 else -1 - number]
            tail = (x + 0.9 * side, z + 0.25)
            yield Arrow(tail=SECTION.point(*tail), head=SECTION.point(x, z), pen=Pen.FORCE)


def _water() -> Iterator[Item]:
    yield from _whole()
    level = -0.75
    ends = on_paper(SECTION, [(-6.0, level), (6.0, level)])
    yield Stroke(path=ends, pen=Pen.NOT_YET)
    x = 4.4
    yield Dimension(start=SECTION.point(x, level), end=SECTION.point(x, GROUND), offset=0.0, text="?")
    yield note(_up(SECTION.point(-4.3, level), 1.0), "water")


def _people() -> Iterator[Item]:
    yield from vault_items(CLOSE)
    for number in range(3):
        x = 0.75 * (number - 1)
        yield from _person(x)


def _person(x: float) -> Iterator[Item]:
    """A standing person as three strokes."""
    head = CLOSE.point(x, 1.51)
    yield Arc(centre=head, radius=1.9, start=0.0, end=2.0 * math.pi, pen=Pen.SEEN)
    yield Stroke(path=on_paper(CLOSE, [(x, 1.38), (x, 0.75)]), pen=Pen.SEEN)
    yield Stroke(path=on_paper(CLOSE, [(x - 0.2, 0.0), (x, 0.75), (x + 0.2, 0.0)]), pen=Pen.SEEN)
    yield Stroke(path=on_paper(CLOSE, [(x - 0.28, 0.85), (x, 1.28), (x + 0.28, 0.85)]), pen=Pen.SEEN)


def _up(point: tuple[float, float], by: float) -> tuple[float, float]:
    return point[0], point[1] + by


PICTURES: Mapping[str, tuple[Drawer, str]] = MappingProxyType(
    {
        "people": (_people, "A vault cut across with people standing in it."),
        "span": (_span, "A vault cut across; the width between its feet is measured."),
        "rise": (_rise, "A vault cut across; the height of its crown over its feet is measured."),
        "springing": (_springing, "A vault cut across; the height of its feet over the floor is measured."),
        "length": (
            _length,
            "The room from above; its length from the door wall to the back wall is measured.",
        ),
        "axis": (_axis, "The room from above; an arrow runs in through the door, a compass stands beside."),
        "crown": (_crown, "A mound over a vault; the soil over its highest part is measured."),
        "sides": (_sides, "A mound over a vault; one up and how far along is shown at its side."),
        "latitude": (_latitude, "A mound and the height of the sun at noon."),
        "snow": (_snow, "Snow on a mound and on the ground beside it."),
        "slope": (_slope, "A level board on falling ground, with a gap under its lower end."),
        "soil": (_soil, "Soil over a vault, pressing on it from above and from the side."),
        "water": (_water, "Water standing in the ground under the house; its depth is measured."),
    }
)
"""How each is drawn, and what it shows in words."""
