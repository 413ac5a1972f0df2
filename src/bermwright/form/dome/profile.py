"""The inner face of a dome by the curve that its builder chose, and the outer face beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import BermwrightError, OutOfRangeError
from bermwright.form.dome.shapes import Face
from bermwright.handbook import curves
from bermwright.house.checks.made.dome import rise_of
from bermwright.house.making.words import DomeCurve

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.house.making.dome import Dome

    Array = NDArray[np.float64]

POINTS = 4001
"""Points of a face: chords stay within a thousandth of a millimetre of a 4 m dome."""
HAIR = 1e-9
"""Points of a face nearer than that are one (m)."""
_CLOSED = {
    DomeCurve.CATENARY: curves.catenary,
    DomeCurve.PARABOLA: curves.parabola,
    DomeCurve.ELLIPSE: curves.ellipse,
}


class DomeProblemError(BermwrightError):
    """Something of a dome that cannot be built as it is described."""

    def __init__(self, dome: str, place: str, problem: str, way_out: str) -> None:
        super().__init__(f'dome "{dome}" > {place}: {problem} {way_out}')


def inner_face(dome: Dome) -> Face:
    """The inner face. Raises `DomeProblemError` or `OutOfRangeError` where the curve cannot be had."""
    rise = rise_of(dome)
    if rise is None:
        raise DomeProblemError(dome.name, "rise", "is not said.", "Write it.")
    if dome.curve is DomeCurve.DRAWN:
        return _drawn(dome)
    arcs = _arcs(dome, rise)
    if arcs:
        right = arcs[len(arcs) // 2 :]
        return _face(*_right_half(curves.arc_chain(arcs, points=2 * POINTS)), right)
    return _face(*_right_half(_CLOSED[dome.curve](dome.span, rise, points=POINTS)), ())


def outer_face(face: Face, thickness: float, *, level: bool) -> Face:
    """The outer face: as wide as the course farther out for level beds, parallel for tilted ones."""
    if level:
        return _face(face.height, face.radius + thickness, ())
    slope = np.arctan2(-np.gradient(face.radius), np.gradient(face.height))
    return _face(
        face.height + thickness * np.sin(slope),
        face.radius + thickness * np.cos(slope),
        face.arcs,
        rising=False,
    )


def _arcs(dome: Dome, rise: float) -> tuple[curves.Arc, ...]:
    match dome.curve:
        case DomeCurve.POINTED:
            return curves.pointed_arcs(dome.span, rise)
        case DomeCurve.EGG:
            return _egg(dome, rise)
        case DomeCurve.HEMISPHERE | DomeCurve.SEGMENT:
            return _one_arc(dome.span, rise)
        case _:
            return ()


def _egg(dome: Dome, rise: float) -> tuple[curves.Arc, ...]:
    """The arcs of an egg; where they do not meet, what the rise may be with the radii that are said."""
    flank, crown, half = _said(dome, "flank_radius"), _said(dome, "crown_radius"), 0.5 * dome.span
    try:
        return curves.egg_arcs(
            dome.span, rise, base_centre=dome.base_centre, flank_radius=flank, crown_radius=crown
        )
    except OutOfRangeError as error:
        way_out = f"Take a flank of more than {half:.3f} m and a crown of less."
        if crown < half < flank:
            most = crown + float(np.sqrt((flank - crown) ** 2 - (flank - half) ** 2))
            way_out = f"With this flank and crown the rise may be at most {most:.3f} m."
        raise DomeProblemError(
            dome.name, "rise", f"{rise:g} m, its arcs do not meet ({str(error).rstrip('.')}).", way_out
        ) from None


def _one_arc(span: float, rise: float) -> tuple[curves.Arc, ...]:
    """The arc on both sides of the axis, in halves as the other chains have them."""
    radius = float(curves.pointed_radius(2.0 * rise, 0.5 * span))
    low = float(np.arctan2(radius - rise, 0.5 * span))
    top = 0.5 * np.pi
    right = curves.Arc(x=0.0, z=rise - radius, radius=radius, start=top, end=low)
    left = curves.Arc(x=0.0, z=rise - radius, radius=radius, start=np.pi - low, end=top)
    return left, right


def _said(dome: Dome, name: str) -> float:
    value = getattr(dome, name)
    if value is None:
        raise DomeProblemError(dome.name, name, "is not said.", "Write it.")
    return float(value)


def _right_half(curve: curves.PlaneCurve) -> tuple[Array, Array]:
    """Heights and radii from the foot to the crown."""
    top = int(np.argmax(curve.z))
    return curve.z[top:][::-1], np.maximum(curve.x[top:][::-1], 0.0)


def _drawn(dome: Dome) -> Face:
    """A smooth curve through drawn points that keeps to them, so that it can be refused where it swings."""
    from scipy.interpolate import PchipInterpolator

    r, z = np.array(dome.points).T
    heights = np.unique(np.concatenate([np.linspace(0.0, float(z[-1]), POINTS), z]))
    # Over the square of the radius a crown that comes in level stays a smooth line.
    squared = PchipInterpolator(z, r**2)(heights)
    return _face(heights, np.sqrt(np.maximum(squared, 0.0)), ())


def _face(height: Array, radius: Array, arcs: tuple[curves.Arc, ...], *, rising: bool = True) -> Face:
    if rising:
        keep = np.concatenate([[True], np.diff(height) > 0.0])
        height, radius = height[keep], radius[keep]
    # A crown that is closed twice, a hair apart, has no direction there.
    apart = np.concatenate([[True], np.hypot(np.diff(height), np.diff(radius)) > HAIR])
    height, radius = height[apart], radius[apart]
    along = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(height), np.diff(radius)))])
    return Face(height=height, radius=radius, along=along, arcs=arcs)
