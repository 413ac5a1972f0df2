"""The circle on which a slope slides soonest: every circle through two points of the surface is tried.

The ground is a row of columns: surface, a second soil below a line, water, and a hollow (a room) that has
weight on it but no soil in it. Circles that would cut through the hollow are left out.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.stability.slices import bishop_factor, ordinary_factor

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]
    Truth = NDArray[np.bool_]
    Whole = NDArray[np.intp]
    Trial = tuple[float, float, float]

WATER = 9810.0
"""Unit weight of water (N/m3)."""
SLICE_STEPS = 36
END_POINTS = 13
BULGE_GRID = (0.04, 0.09, 0.15, 0.22, 0.3, 0.4, 0.5)
"""Rise of a circle's arc over its chord that are tried first (-); a half circle is 0.5."""
BEND_POINTS = 6
BEND_TOLERANCE = 0.03
"""A turn of the surface that counts as a bend (rad)."""
FINE_STEPS = (-0.75, -0.5, -0.25, 0.0, 0.25, 0.5, 0.75)
ROUND_STEPS = 3
BULGE_STEP = 0.12
CLOSER_STEP = 0.3
FLATTEST_STEP = 0.01
ROUNDEST_STEP = 0.5
NOTHING_TOLERANCE = 1e6
"""A factor over this only says that nothing drives (-)."""
UPRIGHT_TOLERANCE = 1e-9
"""The ends of a half circle stand upright but for rounding (-, m)."""
BOTTOMLESS = -1e6
"""A level below everything (m)."""
METHODS = {"bishop": bishop_factor, "ordinary": ordinary_factor}


@dataclass(frozen=True, slots=True, kw_only=True)
class Earth:
    """One soil: its weights (N/m3), cohesion (Pa) and angle of friction (rad)."""

    unit_weight: float
    wet_unit_weight: float
    cohesion: float
    friction: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """A slope in upright columns from left to right; all arrays are (n,)."""

    x: Array
    """Places, ascending (m)."""
    top: Array
    """Surface (m)."""
    split: Array
    """Below this lies `below`, above it `above` (m)."""
    above: Earth
    below: Earth
    water: Array
    """Level of the water in the ground (m); far below where there is none."""
    head: Array
    """Share of the depth under that level that counts as head (-): 1 standing, cos^2 running downhill."""
    floor: Array
    roof: Array
    """The hollow (m); roof = floor where there is none."""
    inside: Array
    """Weight of what stands over or in the hollow (Pa of plan)."""
    load: Array
    """What lies on the surface (Pa of plan)."""

    @classmethod
    def plain(cls, x: Array, top: Array, soil: Earth) -> Columns:
        """One dry soil, no hollow, no load."""
        none = np.zeros_like(x)
        deep = np.full_like(x, BOTTOMLESS)
        return cls(
            x=x, top=top, split=deep, above=soil, below=soil, water=deep, head=np.ones_like(x), floor=deep,
            roof=deep, inside=none, load=none,
        )  # fmt: skip

    def mirrored(self) -> Columns:
        """The same seen from behind: left and right change places."""
        names = ("top", "split", "water", "head", "floor", "roof", "inside", "load")
        flipped = {name: getattr(self, name)[::-1] for name in names}
        return replace(self, x=-self.x[::-1], **flipped)


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """The circle that governs, and its factor; NaN places where no circle slides."""

    factor: float
    x: float
    z: float
    radius: float
    start: float
    """Where it leaves the surface at its upper end (m)."""
    end: float
    tried: int


def circle_factors(
    columns: Columns,
    start: Array,
    end: Array,
    *,
    bulge: Array,
    method: str = "bishop",
    quake: float = 0.0,
    least_depth: float = 0.0,
) -> Array:
    r"""Factors of circles through two points of the surface, sliding to the right.

    :math:`R = \frac{c}{2}\left(\frac{1}{4k} + k\right)`, c the chord, k the bulge

    Parameters
    ----------
    columns : Columns
        The ground.
    start : array
        Upper end of each circle on the surface [m], within the columns.
    end : array
        Lower end [m], right of the start.
    bulge : array
        Rise of the arc over its chord k [-], above 0 to 0.5.
    method : str
        bishop or ordinary [-].
    quake : float
        Level acceleration to the right over that of gravity [-], -1 to 1.
    least_depth : float
        Circles that are nowhere as deep as this are left out [m], from 0.

    Returns
    -------
    array
        Factor of each circle [-]; NaN where it leaves the ground, cuts the hollow, or is too steep.

    References
    ----------
    [SMITH2006] methods of slices.
    """
    if method not in METHODS:
        raise OutOfRangeError(f"The method of slices is {' or '.join(METHODS)}, not {method!r}.")
    low, high = float(columns.x[0]), float(columns.x[-1])
    within("start", start, low, high, unit="m")
    within("end", end, low, high, unit="m")
    within("length of the slip", np.subtract(end, start), 0.0, unit="m", open_low=True)
    within("bulge", bulge, 0.0, 0.5, open_low=True)
    within("quake", quake, -1.0, 1.0)
    within("least depth", least_depth, 0.0, unit="m")
    every = _arcs(columns, *(np.atleast_1d(np.asarray(one, dtype=float)) for one in (start, end, bulge)))
    factors = np.full(every.good.shape, np.nan)
    # Most circles of a grid leave the ground or cut the hollow: only the others are cut into slices.
    number = np.flatnonzero(every.good)
    arcs = every.chosen(number)
    cut = _cut(columns, arcs)
    good = cut.good & (np.max(cut.top - arcs.base, axis=1) >= least_depth)
    arcs, cut, number = arcs.chosen(good), cut.chosen(good), number[good]
    lever = (arcs.centre_z[:, None] - 0.5 * (cut.top + arcs.base)) / arcs.radius[:, None]
    factors[number] = METHODS[method](
        np.maximum(cut.weight, 0.0) * arcs.width[:, None],
        arcs.angle,
        arcs.width[:, None],
        cohesion=cut.cohesion,
        friction=cut.friction,
        pore=cut.pore,
        driving=quake * np.sum(cut.weight * arcs.width[:, None] * lever, axis=1),
    )
    return factors


@dataclass(frozen=True, slots=True)
class _Arcs:
    centre_x: Array
    centre_z: Array
    radius: Array
    width: Array
    x: Array
    base: Array
    angle: Array
    good: Truth

    def chosen(self, rows: Truth | Whole) -> _Arcs:
        """Some of the circles."""
        return _Arcs(*(getattr(self, name)[rows] for name in self.__slots__))


def _arcs(columns: Columns, start: Array, end: Array, bulge: Array) -> _Arcs:
    """Slices of every circle: (N,) and (N, slices)."""
    upper, lower = (np.interp(one, columns.x, columns.top) for one in (start, end))
    run, fall = end - start, upper - lower
    chord = np.hypot(run, fall)
    radius = 0.5 * chord * (0.25 / bulge + bulge)
    up = (radius - bulge * chord) / chord
    centre_x, centre_z = 0.5 * (start + end) + up * fall, 0.5 * (upper + lower) + up * run
    width = run / SLICE_STEPS
    edges = start[:, None] + width[:, None] * np.arange(SLICE_STEPS + 1)
    x = 0.5 * (edges[:, :-1] + edges[:, 1:])
    off = (centre_x[:, None] - edges) / radius[:, None]
    half_turn_tolerance = 1.0 + UPRIGHT_TOLERANCE
    held = np.abs(off) < half_turn_tolerance
    ends = _level(centre_x, centre_z, radius, edges)
    # The chord of each slice: where the arc stands upright its tangent in the middle is no measure of it.
    angle = np.arctan2(ends[:, :-1] - ends[:, 1:], width[:, None])
    good = (
        held.all(axis=1) & (upper <= centre_z + UPRIGHT_TOLERANCE) & (lower <= centre_z + UPRIGHT_TOLERANCE)
    )
    return _Arcs(centre_x, centre_z, radius, width, x, _level(centre_x, centre_z, radius, x), angle, good)


def _level(centre_x: Array, centre_z: Array, radius: Array, x: Array) -> Array:
    """Lower half of every circle at places along it (m)."""
    off = np.clip((centre_x[:, None] - x) / radius[:, None], -1.0, 1.0)
    return np.asarray(centre_z[:, None] - radius[:, None] * np.sqrt(1.0 - off**2))


@dataclass(frozen=True, slots=True)
class _Cut:
    top: Array
    weight: Array
    cohesion: Array
    friction: Array
    pore: Array
    good: Truth

    def chosen(self, rows: Truth) -> _Cut:
        """What stands over some of the circles."""
        return _Cut(*(getattr(self, name)[rows] for name in self.__slots__))


def _cut(columns: Columns, arcs: _Arcs) -> _Cut:
    """What stands over the base of every slice, and what holds it there."""
    place = np.clip(np.searchsorted(columns.x, arcs.x) - 1, 0, columns.x.size - 2)
    share = (arcs.x - columns.x[place]) / (columns.x[place + 1] - columns.x[place])

    def at(values: Array) -> Array:
        return np.asarray(values[place] + share * (values[place + 1] - values[place]))

    top, split, water, base = at(columns.top), at(columns.split), at(columns.water), arcs.base
    floor, roof = at(columns.floor), at(columns.roof)
    hollow = roof > floor
    under = hollow & (base <= floor)
    lines = (split, water, columns.above, columns.below)
    weight = _soil(base, top, *lines) - np.where(under, _soil(floor, roof, *lines) - at(columns.inside), 0.0)
    cuts = hollow & (base > floor) & (base < roof)
    deep = base < split
    return _Cut(
        top=top,
        weight=weight + at(columns.load),
        cohesion=np.where(deep, columns.below.cohesion, columns.above.cohesion),
        friction=np.where(deep, columns.below.friction, columns.above.friction),
        pore=WATER * np.maximum(water - base, 0.0) * at(columns.head),
        good=np.asarray(~cuts.any(axis=1) & (base <= top + 1e-9).all(axis=1)),
    )


def _soil(low: Array, high: Array, split: Array, water: Array, above: Earth, below: Earth) -> Array:
    """Weight of both soils between two levels, wet below the water (Pa)."""
    edge = np.clip(split, low, high)
    return _column(edge, high, water, above) + _column(low, edge, water, below)


def _column(low: Array, high: Array, water: Array, earth: Earth) -> Array:
    wet = np.clip(water, low, high) - low
    return np.asarray(earth.unit_weight * (high - low - wet) + earth.wet_unit_weight * wet)


def critical_circle(
    columns: Columns,
    *,
    right: bool = True,
    method: str = "bishop",
    quake: float = 0.0,
    least_depth: float = 0.0,
    between: tuple[float, float] | None = None,
) -> Circle:
    r"""The circle with the least factor, sliding to the right (or to the left).

    :math:`\min F(x_1, x_2, k)` over ends on the surface and bulge of the arc, on a grid that closes in

    Parameters
    ----------
    columns : Columns
        The ground.
    right : bool
        Whether the mass slides to the right; else to the left.
    method : str
        bishop or ordinary [-].
    quake : float
        Level acceleration in the direction of movement over that of gravity [-], -1 to 1.
    least_depth : float
        Circles that are nowhere as deep as this are left out [m], from 0.
    between : tuple of float or None
        Stretch in which both ends lie [m]; None: all of the columns.

    Returns
    -------
    Circle
        Place [m] and factor [-]; an infinite factor where no circle slides.

    Notes
    -----
    The same input gives the same circle. Both ends are tried over the whole stretch first.

    References
    ----------
    [SMITH2006] methods of slices; trial circles.
    """
    ground = columns if right else columns.mirrored()
    low, high = (float(ground.x[0]), float(ground.x[-1])) if between is None else between
    if between is not None and not right:
        low, high = -between[1], -between[0]
    pitch = (high - low) / END_POINTS
    even_grid = [low + pitch * (k + 0.5) for k in range(END_POINTS)]
    grid = sorted({low, high, *even_grid, *(bend for bend in _bends(ground) if low < bend < high)})
    first = np.array([(a, b, k) for a, b, k in product(grid, grid, BULGE_GRID) if b > a])
    best, factor, tried_count = _best(ground, first, method, quake, least_depth)
    reach_steps: tuple[float, ...] = (pitch, pitch, BULGE_STEP)
    for _ in range(ROUND_STEPS if np.isfinite(factor) else 0):
        near = _near(best, reach_steps, (low, high))
        here, now, more = _best(ground, near, method, quake, least_depth)
        tried_count += more
        if now < factor:
            best, factor = here, now
        reach_steps = tuple(CLOSER_STEP * one for one in reach_steps)
    return _circle(ground, best, factor, tried_count, right=right)


def _bends(ground: Columns) -> list[float]:
    """Where the surface bends most: toes and crests, at which the worst circles often end."""
    turn = np.abs(np.diff(np.arctan2(np.diff(ground.top), np.diff(ground.x))))
    most = np.argsort(turn)[::-1][:BEND_POINTS]
    return [float(ground.x[at + 1]) for at in most.tolist() if turn[at] > BEND_TOLERANCE]


def _best(
    ground: Columns, tries: Array, method: str, quake: float, least_depth: float
) -> tuple[Trial, float, int]:
    start, end, bulge = tries.T
    factors = circle_factors(
        ground, start, end, bulge=bulge, method=method, quake=quake, least_depth=least_depth
    )
    known = np.where(factors < NOTHING_TOLERANCE, factors, np.inf)
    at = int(np.argmin(known))
    best = (float(start[at]), float(end[at]), float(bulge[at]))
    return best, float(known[at]), len(tries)


def _near(best: Trial, reach: tuple[float, ...], ends: tuple[float, float]) -> Array:
    """(N, 3) circles around the best one, both ends within the stretch."""
    steps = np.array(list(product(FINE_STEPS, repeat=3)))
    start, end, bulge = (np.array(best) + steps * np.array(reach)).T
    inside = (ends[0] <= start) & (start < end) & (end <= ends[1])
    held = np.clip(bulge, FLATTEST_STEP, ROUNDEST_STEP)
    return np.asarray(np.stack([start, end, held], axis=1)[inside])


def _circle(ground: Columns, best: Trial, factor: float, tried: int, *, right: bool) -> Circle:
    if not np.isfinite(factor):
        return Circle(factor=np.inf, x=np.nan, z=np.nan, radius=np.nan, start=np.nan, end=np.nan, tried=tried)
    arcs = _arcs(ground, *(np.array([one]) for one in best))
    return Circle(
        factor=factor,
        x=_seen(float(arcs.centre_x[0]), right=right),
        z=float(arcs.centre_z[0]),
        radius=float(arcs.radius[0]),
        start=_seen(best[0], right=right),
        end=_seen(best[1], right=right),
        tried=tried,
    )


def _seen(x: float, *, right: bool) -> float:
    """A place of the ground as it was given."""
    return x if right else -x


def simple_slope_factor(  # noqa: PLR0913  (one physical quantity each, all by name)
    height: float,
    slope: float,
    *,
    unit_weight: float,
    cohesion: float,
    friction: float,
    firm: float = 0.0,
    method: str = "bishop",
    quake: float = 0.0,
) -> float:
    r"""Least factor of all circles in an even slope of one dry soil between two levels.

    :math:`F = \min_{circles} F(c, \varphi)`; with :math:`\varphi = 0` it is :math:`F = c/(N\gamma H)`

    Parameters
    ----------
    height : float
        Height H of the slope [m], above 0.
    slope : float
        Slope [rad], above 0.0873 to 1.396.
    unit_weight : float
        Unit weight [N/m3], above 0.
    cohesion : float
        Cohesion [Pa], from 0.
    friction : float
        Angle of friction [rad], 0 to 0.873.
    firm : float
        Depth of firm ground below the toe, which no circle enters [m], from 0.
    method : str
        bishop or ordinary [-].
    quake : float
        Level acceleration towards the toe over that of gravity [-], 0 to 1.

    Returns
    -------
    float
        Factor F [-].

    References
    ----------
    [SMITH2006] trial circles; [TAYLOR1937] stability numbers.

    Examples
    --------
    >>> found = simple_slope_factor(
    ...     10.0, slope=1.309, unit_weight=20000.0, cohesion=43800.0, friction=0.0, firm=0.0
    ... )
    >>> round(float(found), 4)
    0.9989
    """
    within("height", height, 0.0, unit="m", open_low=True)
    within("depth of firm ground", firm, 0.0, unit="m")
    within("slope", slope, np.radians(5.0), np.radians(80.0), unit="rad", open_low=True)
    run = height / np.tan(slope)
    x_grid = np.linspace(-2.5 * height - 2.0 * firm, run + height + 2.0 * firm, 900)
    x = np.union1d(x_grid, np.array([0.0, run]))
    top = np.interp(x, [0.0, run], [height, 0.0])
    soil = Earth(unit_weight=unit_weight, wet_unit_weight=unit_weight, cohesion=cohesion, friction=friction)
    # Firm ground is a hollow that no circle may cut: it reaches from the deep up to its level.
    ground = Columns.plain(x, top, soil)
    bottom = -firm * np.ones_like(x)
    ground = replace(ground, floor=np.full_like(x, BOTTOMLESS), roof=bottom)
    least_small = 0.0 if cohesion > 0.0 else 0.1 * height
    return critical_circle(ground, method=method, quake=quake, least_depth=least_small).factor
