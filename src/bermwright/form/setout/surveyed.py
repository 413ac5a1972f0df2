"""Surveyed points to a surface: repeats must agree, outliers are named, slope and facing compared."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.data.setting_out import SURVEY_ODD, SURVEY_REPEAT
from bermwright.form.setout.ground import Surface
from bermwright.form.setout.nouns import SetOutError
from bermwright.handbook.setout import fit_plane, odd_heights

if TYPE_CHECKING:
    from collections.abc import Iterator

    from numpy.typing import NDArray

    from bermwright.form.setout.nouns import Spot
    from bermwright.handbook.setout import Plane
    from bermwright.house import House, Vault

    Array = NDArray[np.float64]

SAME_PLACE = 0.05
"""Two points nearer than this are one place measured twice (m)."""
FOR_BEND = 9
"""Points from which a bent surface is tried; it has six measures of its own."""
BEND_GAIN = 0.7
"""A bent surface is taken where it lowers the standard error of a point to this share."""
MOST_ODD = 0.25
"""Share of odd points beyond which the survey as a whole is doubted."""
SLOPE_APART, FACING_APART = np.radians(2.0), np.radians(20.0)
"""From which the file's slope and facing do not agree with the survey."""
LEVEL_GROUND = np.radians(1.0)
"""Flatter ground faces nowhere."""
NO_POINTS = 3
NARROW = 1.0
"""Points within a band narrower than this say nothing of the ground across it (m)."""
TOGETHER = 1.0
"""All points within this are no survey of a house; degrees taken for metres lie so (m)."""
NAMESAKE = 0.5
"""Points of one name further apart than this are two points (m)."""
FOR_BENT_ODD = 12
"""Points from which one can be told to lie off a bent surface."""
EVEN = 0.01
"""A plane that misses the points by no more needs no bend (m)."""
TOO_FAR = 2000.0
"""Points further from the house than this are another place (m)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SurveyPoint:
    """One point: to the east, to the north and up, from any origin (m)."""

    name: str
    east: float
    north: float
    height: float
    line: int
    """Line or number in the file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A surveyed point as the house has it: along and across its axis, over its floor (m)."""

    name: str
    at: Spot
    level: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Surveyed:
    """What the points say of the ground."""

    surface: Surface
    plane: Plane
    used: tuple[SurveyPoint, ...]
    middle: SurveyPoint
    places: tuple[Place, ...]
    spread: float
    """Standard error of a point against the surface (m)."""
    says: tuple[str, ...]
    """Comparison with the file, repeats, how the surface was made."""

    @property
    def slope(self) -> float:
        """Of the plane (rad)."""
        return self.plane.slope

    @property
    def faces(self) -> float:
        """Downhill, from north clockwise (rad)."""
        return self.plane.faces


def surveyed(house: House, vault: Vault, points: tuple[SurveyPoint, ...], *, name: str) -> Surveyed:
    """The surface under the house; refuses points that do not close, lie alone or make no surface."""
    if vault.axis is None:
        raise SetOutError(f'{name}: the axis of "{vault.name}" is not known. Write vault.axis, from north.')
    _refuse_together(points, name)
    kept, repeats = _without_repeats(points, name)
    if len(kept) < NO_POINTS:
        count = "1 point" if len(kept) == 1 else f"{len(kept)} different points"
        raise SetOutError(f"{name}: {count}; a surface needs three, ten are usual.")
    middle = _middle(house, kept, name)
    _refuse_far(kept, middle, name)
    _refuse_narrow(kept, name)
    _refuse_odd(kept, name)
    plane = fit_plane(*_columns(kept))
    surface, spread = _surface(house, vault, kept, middle)
    says = (*repeats, *_compared(house, plane), surface.words, *_uneven(spread))
    return Surveyed(
        surface=surface,
        plane=plane,
        used=kept,
        middle=middle,
        places=_places(vault, kept, middle, surface),
        spread=spread,
        says=says,
    )


def _columns(points: tuple[SurveyPoint, ...]) -> tuple[Array, Array, Array]:
    table = np.array([(point.east, point.north, point.height) for point in points])
    return table[:, 0], table[:, 1], table[:, 2]


def _without_repeats(
    points: tuple[SurveyPoint, ...], name: str
) -> tuple[tuple[SurveyPoint, ...], tuple[str, ...]]:
    """Each place once, at the mean of its heights; refused where they do not agree."""
    groups: list[list[SurveyPoint]] = []
    for point in points:
        home = next((group for group in groups if _same_place(group[0], point)), None)
        groups.append([point]) if home is None else home.append(point)
    wrong = [text for group in groups for text in _misses(group)]
    if wrong:
        raise SetOutError(
            f"{name}: the survey does not close.\n"
            + "\n".join(f"  {text}" for text in wrong)
            + "\nMeasure these again, or level the loop with `bermwright setout FILE --levels READINGS`."
        )
    repeats = sum(len(group) > 1 for group in groups)
    says = (f"{repeats} places were measured more than once and agree within 30 mm.",) if repeats else ()
    return tuple(_mean(group) for group in groups), says


def _same_place(one: SurveyPoint, other: SurveyPoint) -> bool:
    near = np.hypot(one.east - other.east, one.north - other.north) < SAME_PLACE
    return bool(near) or (bool(one.name) and one.name == other.name)


def _misses(group: list[SurveyPoint]) -> Iterator[str]:
    first = group[0]
    for other in group[1:]:
        up = abs(other.height - first.height)
        away = float(np.hypot(other.east - first.east, other.north - first.north))
        lines = f'"{first.name or first.line}" in line {first.line} and line {other.line}'
        if away > NAMESAKE:
            yield f"{lines}: {away:.2f} m apart. Two points need two names; one point agrees within 30 mm."
        elif max(up, away) > SURVEY_REPEAT.value:
            yield (
                f"{lines}: {1000.0 * up:.0f} mm apart in height, {1000.0 * away:.0f} mm in plan; "
                "30 mm are allowed."
            )


def _refuse_together(points: tuple[SurveyPoint, ...], name: str) -> None:
    """Points all in one place; most often degrees in columns that are called x and y."""
    east, north, _ = _columns(points)
    if len(points) >= NO_POINTS and max(np.ptp(east), np.ptp(north)) < TOGETHER:
        raise SetOutError(
            f"{name}: all {len(points)} points lie within {max(np.ptp(east), np.ptp(north)):.3g} m. If they "
            "are degrees, call the columns lat and lon; if they are another unit, write it behind the name, "
            'such as "x [ft]".'
        )


def _refuse_narrow(points: tuple[SurveyPoint, ...], name: str) -> None:
    """Points along one line: the slope across it would be made of their errors."""
    east, north, _ = _columns(points)
    spots = np.column_stack([east - east.mean(), north - north.mean()])
    _, _, ways = np.linalg.svd(spots, full_matrices=False)
    wide = float(np.ptp(spots @ ways[1]))
    if wide < NARROW:
        raise SetOutError(
            f"{name}: all points lie on one line, or within {wide:.2f} m, so nothing is known of the ground "
            "across it. Measure points on both sides, out to where the boards will stand."
        )


def _mean(group: list[SurveyPoint]) -> SurveyPoint:
    first = group[0]
    east, north, height = (float(column.mean()) for column in _columns(tuple(group)))
    return SurveyPoint(name=first.name, east=east, north=north, height=height, line=first.line)


def _middle(house: House, points: tuple[SurveyPoint, ...], name: str) -> SurveyPoint:
    wanted = house.survey.middle if house.survey is not None else None
    names = ", ".join(f'"{point.name}"' for point in points if point.name) or "none has a name"
    if wanted is None:
        raise SetOutError(
            f"{name}: which point is the middle of the house? Write survey.middle, or type --middle NAME; "
            f"the points are {names}."
        )
    found = next((point for point in points if point.name == wanted), None)
    if found is None:
        raise SetOutError(f'{name}: no point is called "{wanted}" (survey.middle). The points are {names}.')
    return found


def _refuse_far(points: tuple[SurveyPoint, ...], middle: SurveyPoint, name: str) -> None:
    far = [
        point for point in points if np.hypot(point.east - middle.east, point.north - middle.north) > TOO_FAR
    ]
    if far:
        raise SetOutError(
            f'{name}: "{far[0].name or far[0].line}" in line {far[0].line} lies over 2 km from the house. '
            "Are latitude and longitude, or east and north, the wrong way round?"
        )


def _refuse_odd(points: tuple[SurveyPoint, ...], name: str) -> None:
    """Points off the surface that the others make: a plane, or a bent one where that fits clearly better."""
    odd, degree = _odd(points)
    if not odd.any():
        return
    if odd.mean() > MOST_ODD:
        raise SetOutError(
            f"{name}: {int(odd.sum())} of {odd.size} points lie off any even surface. Are the heights in "
            "metres, and is the third column the height?"
        )
    should = _height_of_rest(points, odd, degree)
    lines = [
        f'"{points[at].name or points[at].line}" in line {points[at].line}: height '
        f"{points[at].height:.3f} m, its neighbours make it {should[at]:.2f} m"
        for at in np.flatnonzero(odd)
    ]
    raise SetOutError(
        f"{name}: these points do not lie on the ground that the others make:\n"
        + "\n".join(f"  {text}" for text in lines)
        + "\nMeasure them again, take them out, or add points around a real bank or pit."
    )


def _odd(points: tuple[SurveyPoint, ...]) -> tuple[NDArray[np.bool_], int]:
    """Odd points and the degree of the surface that the others make."""
    table = _columns(points)
    flat = np.asarray(odd_heights(*table, least=SURVEY_ODD.value), dtype=bool)
    if len(points) < FOR_BENT_ODD:
        return flat, 1
    bent = np.asarray(odd_heights(*table, least=SURVEY_ODD.value, degree=2), dtype=bool)
    spreads = [_spread_of_rest(points, odd, degree) for odd, degree in ((flat, 1), (bent, 2))]
    better = spreads[0] > EVEN and spreads[1] < BEND_GAIN * spreads[0]
    return (bent, 2) if better else (flat, 1)


def _rest(points: tuple[SurveyPoint, ...], odd: NDArray[np.bool_], degree: int) -> tuple[Array, Array, float]:
    """The surface through all but the odd points: its columns for every point, its numbers, its error."""
    east, north, height = _columns(points)
    u, v = east - east.mean(), north - north.mean()
    columns = [np.ones_like(u), u, v] + ([u * u, u * v, v * v] if degree > 1 else [])
    design = np.column_stack(columns)
    return design, *_least(design[~odd], height[~odd])


def _spread_of_rest(points: tuple[SurveyPoint, ...], odd: NDArray[np.bool_], degree: int) -> float:
    return _rest(points, odd, degree)[2]


def _height_of_rest(points: tuple[SurveyPoint, ...], odd: NDArray[np.bool_], degree: int) -> Array:
    design, found, _ = _rest(points, odd, degree)
    return np.asarray(design @ found, dtype=float)


def _uneven(spread: float) -> Iterator[str]:
    """A surface that misses its points by more than grass and ruts make."""
    if spread > SURVEY_ODD.value:
        yield (
            f"The ground is not even: this surface misses the points by {1000.0 * spread:.0f} mm. Levels and "
            "volumes are that uncertain; read the height at every board and corner, or draw the natural "
            "ground into the mound."
        )


def _surface(
    house: House, vault: Vault, points: tuple[SurveyPoint, ...], middle: SurveyPoint
) -> tuple[Surface, float]:
    """A plane, or a bent surface where that is clearly nearer; levels from the finished floor."""
    u, v = _own_axes(vault, points, middle)
    height = np.array([point.height for point in points])
    flat = np.column_stack([np.ones_like(u), u, v])
    found, spread = _least(flat, height)
    words = f"A plane through {len(points)} surveyed points, 1 standard error {1000.0 * spread:.0f} mm."
    if len(points) >= FOR_BEND:
        bent, closer = _least(np.column_stack([flat, u * u, u * v, v * v]), height)
        if closer < BEND_GAIN * spread:
            found, spread = bent, closer
            words = (
                f"A bent surface through {len(points)} surveyed points, 1 standard error "
                f"{1000.0 * closer:.0f} mm; outside them it is a guess."
            )
    if not np.isfinite(spread):
        words = "A plane through three surveyed points: none is spare, so no error would show."
    floor = house.site.floor
    if floor is None:
        raise SetOutError("The level of the floor is not known. Write site.floor.")
    # The floor counts from the ground under the middle of the house; this part may stand beside it.
    u, v = _turned(vault, np.array(-(vault.east or 0.0)), np.array(-(vault.north or 0.0)))
    under = float(np.array([u, v, u * u, u * v, v * v][: found.size - 1]) @ found[1:])
    level = -floor - under, *(float(value) for value in found[1:])
    return Surface(coefficients=level, middle=0.5 * vault.length, words=words), spread


def _own_axes(vault: Vault, points: tuple[SurveyPoint, ...], middle: SurveyPoint) -> tuple[Array, Array]:
    """Along and across the vault, from its own middle (m)."""
    east, north, _ = _columns(points)
    x, y = east - middle.east - (vault.east or 0.0), north - middle.north - (vault.north or 0.0)
    return _turned(vault, x, y)


def _turned(vault: Vault, east: Array, north: Array) -> tuple[Array, Array]:
    """Along and across the vault of what lies to the east and to the north."""
    sine, cosine = math.sin(vault.axis or 0.0), math.cos(vault.axis or 0.0)
    return east * sine + north * cosine, east * cosine - north * sine


def _places(
    vault: Vault, points: tuple[SurveyPoint, ...], middle: SurveyPoint, surface: Surface
) -> tuple[Place, ...]:
    """Every point from the front rib and the floor; under the middle the surface is as the file says."""
    u, v = _own_axes(vault, points, middle)
    along = u + 0.5 * vault.length
    height = np.array([point.height for point in points])
    # The surface runs past the middle's own reading by its error: levels count from the surface.
    off = float(np.mean(height - surface.level(along, v)))
    return tuple(
        Place(name=point.name, at=(float(a), float(b)), level=point.height - off)
        for point, a, b in zip(points, along, v, strict=True)
    )


def _least(design: Array, height: Array) -> tuple[Array, float]:
    found, *_ = np.linalg.lstsq(design, height, rcond=None)
    spare = height.size - design.shape[1]
    off = height - design @ found
    return np.asarray(found, dtype=float), float(np.sqrt(off @ off / spare)) if spare > 0 else float("nan")


def _compared(house: House, plane: Plane) -> Iterator[str]:
    """Whether slope and facing of the file agree with the points."""
    slope, faces = np.degrees(plane.slope), round(np.degrees(plane.faces)) % 360
    seen = f"The points fall {slope:.1f}° towards {faces}° from north"
    site = house.site
    if site.slope is None:
        yield f"{seen}; the file gives no slope."
        return
    apart = abs(plane.slope - site.slope) > SLOPE_APART
    if site.faces is not None and max(plane.slope, site.slope) > LEVEL_GROUND:
        turn = abs((plane.faces - site.faces + np.pi) % (2.0 * np.pi) - np.pi)
        apart = apart or bool(turn > FACING_APART)
    told = f"the file says {np.degrees(site.slope):.1f}°"
    told += f" towards {np.degrees(site.faces):.0f}°" if site.faces is not None else ""
    if apart:
        yield (
            f'{seen}; {told}. Write slope = "{slope:.1f} deg" and faces = "{faces} deg" into [site]: '
            "the checks still count with the file."
        )
    else:
        yield f"{seen}; {told}: they agree."
