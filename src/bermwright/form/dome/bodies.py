"""A dome as closed bodies: its courses as they are laid, with the holes of its openings, and the ground.

Axes as those of a vault: x to the right and y inwards as seen walking in through the zero mark, y from the
outermost edge of the wall on that side, z up from the finished floor.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from manifold3d import CrossSection, FillRule, Manifold, OpType

from bermwright.form.dome.rings import hole_width
from bermwright.form.solids.bodies import box, is_nothing, joined, solid, without
from bermwright.form.solids.nouns import Counted, Kind, Layer, VaultSolids
from bermwright.house.making.words import Head, Laid

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.dome.shapes import Course, DomeForm
    from bermwright.form.solids.bodies import Body
    from bermwright.house import House
    from bermwright.house.making.dome import Dome, DomeOpening

    Array = NDArray[np.float64]

SIDES = 96
"""Flat sides of a ring."""
HEAD_SIDES = 32
"""Of a half circle over an opening."""
BESIDE, UNDER = 2.0, 0.6
"""Ground that is drawn beside the wall, and under its own surface (m)."""
WHOLE_COURSES = "the take-off ends every course at the widest place of an opening, whole courses high"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """What the wall of a dome holds (m3)."""

    courses: tuple[float, ...]
    """Of every course, by its middle line, less its openings."""

    @property
    def volume(self) -> float:
        """All courses together."""
        return sum(self.courses)


def course_section(form: DomeForm, course: Course) -> Array:
    """Corners of a course with its joint, (4, 2) radius and height over the springing, anticlockwise.

    From bed to bed: where beds tilt, the joint is a wedge.
    """
    thick = form.dome.thickness
    inner = np.array([course.radius, course.height])
    out = thick * np.array([math.cos(course.tilt), math.sin(course.tilt)])
    if form.dome.laid is Laid.LEVEL:
        above, beyond = inner + np.array([0.0, form.course_height]), out
    elif course.number < len(form.courses):
        after = form.courses[course.number]
        above = np.array([after.radius, after.height])
        beyond = thick * np.array([math.cos(after.tilt), math.sin(after.tilt)])
    else:
        up = np.array([-math.sin(course.tilt), math.cos(course.tilt)])
        above, beyond = inner + form.course_height * up, out
    ring = np.array([inner, inner + out, above + beyond, above])
    ring[:, 0] = np.maximum(ring[:, 0], 0.0)
    return ring


def wall_of(form: DomeForm) -> Wall:
    """Volumes of the courses: a ring by the way of its centroid, openings by the middle line."""
    return Wall(courses=tuple(_volume(form, course) for course in form.courses))


def _volume(form: DomeForm, course: Course) -> float:
    r, z = course_section(form, course).T
    across = r * np.roll(z, -1) - np.roll(r, -1) * z
    # Area times the way of its centroid, in one sum.
    ring = 2.0 * math.pi * float(np.sum((r + np.roll(r, -1)) * across)) / 6.0
    # An opening with parallel sides takes the section times its width, wherever the centroid lies.
    taken = 2.0 * math.pi * course.middle - course.length
    return ring - 0.5 * float(np.sum(across)) * taken


def dome_solids(house: House, form: DomeForm) -> VaultSolids:
    """Every course as a body of its own, and the ground where the file says how it lies."""
    dome = form.dome
    reach = outer_reach(form)
    holes = [_hole(dome, one, reach) for one in dome.openings]
    counted = [_volume(form, course) for course in form.courses]
    shift = (0.0, reach, dome.springing)
    solids = []
    for course, volume in zip(form.courses, counted, strict=True):
        ring = _ring(course_section(form, course))
        body = without(ring, holes)
        if is_nothing(body):
            continue
        same = without(ring, list(_counted_holes(form, course, reach)))
        solids.append(
            solid(
                f"course {course.number}",
                Kind.COURSE,
                body.translate(shift),
                whole=float(ring.volume()),
                counted=Counted(volume=float(same.volume()), why=_why(volume, float(body.volume()))),
            )
        )
    ground, remark = _ground(house, form, reach)
    layers = [*([ground] if ground else []), Layer(name="courses", kind=Kind.COURSE, solids=tuple(solids))]
    return VaultSolids(
        name=form.name,
        axis=None if dome.axis is None else (dome.axis + math.pi) % (2.0 * math.pi),
        length=2.0 * reach,
        span=dome.span,
        layers=tuple(layers),
        holes=(),
        remarks=tuple(_remarks(form, remark)),
        middle=None if dome.east is None or dome.north is None else (dome.east, dome.north),
    )


def shell_of(form: DomeForm) -> Body:
    """All courses as one body, turned about the axis in one go, with the holes of its openings."""
    sections = [CrossSection([course_section(form, course)], FillRule.NonZero) for course in form.courses]
    outlines = CrossSection.batch_boolean(sections, OpType.Add)
    holes = [_hole(form.dome, one, outer_reach(form)) for one in form.dome.openings]
    return without(_turned(outlines), holes)


def outer_reach(form: DomeForm) -> float:
    """Radius of the widest place of the wall outside (m)."""
    return max(float(course_section(form, course)[:, 0].max()) for course in form.courses)


def _why(counted: float, drawn: float) -> str:
    return WHOLE_COURSES if abs(counted - drawn) > 1e-3 * counted else ""


def _ring(section: Array) -> Body:
    """A section turned about the axis; its flat sides hold as much as the true ring."""
    return _turned(CrossSection([section], FillRule.NonZero))


def _turned(section: CrossSection) -> Body:
    turn = 2.0 * math.pi / SIDES
    # Sides through the true ring hold less than it does: they are moved out until areas agree.
    return Manifold.revolve(section.scale((math.sqrt(turn / math.sin(turn)), 1.0)), SIDES)


def _towards(direction: float) -> float:
    """Turn of what points along x to a direction that counts clockwise from the zero mark, in degrees."""
    return -90.0 - math.degrees(direction)


def _hole(dome: Dome, opening: DomeOpening, reach: float) -> Body:
    """An opening from the middle of the dome outwards, its sides upright and parallel."""
    low, high, half = (
        opening.sill - dome.springing,
        opening.head_springing - dome.springing,
        0.5 * opening.width,
    )
    outline = [(-half, low), (half, low), (half, high)]
    if opening.head is Head.ROUND:
        turns = np.linspace(0.0, math.pi, HEAD_SIDES + 1)[1:-1]
        outline += [(half * math.cos(t), high + half * math.sin(t)) for t in turns]
    outline.append((-half, high))
    section = CrossSection([np.array(outline)], FillRule.NonZero)
    cyclic = np.array([[0.0, 0.0, 1.0, 0.0], [1.0, 0.0, 0.0, 0.0], [0.0, 1.0, 0.0, 0.0]])
    pushed = Manifold.extrude(section, reach + 1.0).transform(cyclic)
    return pushed.rotate((0.0, 0.0, _towards(opening.at)))


def _counted_holes(form: DomeForm, course: Course, reach: float) -> Iterator[Body]:
    """Openings as the courses are counted: the widest place within a course, as high as all of it."""
    low = form.dome.springing + course.height
    heights = course_section(form, course)[:, 1]
    for one in form.dome.openings:
        width = hole_width(one, low, low + form.course_height)
        if width > 0.0:
            across, up = (
                (-0.5 * width, 0.5 * width),
                (float(heights.min()) - 1e-6, float(heights.max()) + 1e-6),
            )
            yield box((0.0, reach + 1.0), across, up).rotate((0.0, 0.0, _towards(one.at)))


def _ground(house: House, form: DomeForm, reach: float) -> tuple[Layer | None, str]:
    """The natural ground round the dome, or why it is not drawn."""
    site, axis = house.site, form.dome.axis
    level = site.slope is not None and site.slope == 0.0
    missing = [name for name in ("floor", "slope") if getattr(site, name) is None]
    if not level:
        missing += [] if site.faces is not None else ["faces"]
    names = [f"site.{name}" for name in missing]
    names += [] if level or axis is not None else ["dome.axis"]
    if names or site.floor is None or site.slope is None:
        return None, f"The ground round {form.name} is not drawn: the file does not say {', '.join(names)}."
    edge = reach + BESIDE
    fall = math.tan(site.slope)
    deep = UNDER + fall * edge * math.sqrt(2.0)
    body = box((-edge, edge), (-edge, edge), (-2.0 * deep, 0.0))
    if not level and site.faces is not None and axis is not None:
        away = site.faces - (axis + math.pi)
        lean = np.eye(3, 4)
        lean[2, :2] = -fall * math.sin(away), -fall * math.cos(away)
        body = body.transform(lean)
    body = body.trim_by_plane((0.0, 0.0, 1.0), -deep)
    body = body.translate((0.0, 0.0, -site.floor - form.dome.springing))
    left = without(body, [_filled(form)]).translate((0.0, reach, form.dome.springing))
    return Layer(name="ground", kind=Kind.GROUND, solids=(solid("ground", Kind.GROUND, left),)), ""


def _filled(form: DomeForm) -> Body:
    """Wall and room in one, also under the floor as far as courses go: what no ground fills."""
    rings = []
    for course in form.courses:
        section = course_section(form, course)
        high, low = float(section[:, 1].max()), float(section[:, 1].min())
        wide = float(section[:, 0].max())
        rings.append(_ring(np.array([[0.0, low], [wide, low], [wide, high], [0.0, high]])))
    return joined(rings)


def _remarks(form: DomeForm, ground: str) -> Iterator[str]:
    if ground:
        yield ground
    yield (
        f"Of {form.name} the courses are drawn with their openings as holes. Its footing, floor, boxes, "
        "plaster and cover are not: the file places none of them."
    )
    gap = form.closing
    yield (
        f"The last {1e3 * gap.gap:.0f} mm under the crown of {form.name}, a hole "
        f"{2e3 * gap.radius:.0f} mm wide, are left open."
    )
