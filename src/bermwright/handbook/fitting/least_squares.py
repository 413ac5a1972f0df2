"""A family of curves fitted to points, with what is left over and how sure it is."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import product
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.fitting.distance import distance_to_curve

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import ArrayLike, NDArray

    from bermwright.handbook.curves import PlaneCurve
    from bermwright.handbook.fitting.families import Family

    Array = NDArray[np.float64]

GUESS_BOUNDS = (0.5, 1.5)
"""Bounds of the fitted span and rise, over those of the points."""
SHIFT_GUESS = 0.25
"""Most that the middle may lie off the middle of the points, over their span."""
SHARE_GUESSES = (0.25, 0.55, 0.85)
SHARE_GUESS_BOUNDS = (0.02, 0.98)
OUTLIER_SPREADS = 4.0
"""Spreads of the residuals beyond which a point is an outlier."""
OUTLIER_SPAN = 0.004
"""What is nearer than this share of the span is never an outlier."""
NORMAL_SPREAD = 1.4826
"""Standard deviation over median absolute deviation, of normal errors."""
FEW = 5.0
"""How much a median of few residuals falls short: 1 + 5/(n - p)."""
SURE = 0.975
"""Two-sided 95 % of Student's t."""
FINE_STEP, SLOW_STEP = 1e-9, 1e-3
"""Changes at which a fit ends, as shares: a tenth of a millimetre, or a few millimetres."""
SPARE_POINTS = 3
"""Points beyond what a fit needs, from which outliers can be told."""
DRAWN_AS = 1e-4
"""No sketch is finer than this (m): residuals below it tell nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """A curve of one family through points."""

    family: str
    curve: PlaneCurve
    span: float
    rise: float
    shift: float
    """How far its middle lies right of the middle of the points' feet (m)."""
    details: Mapping[str, float]
    """Further measures by their names in a house file (m)."""
    residuals: Array
    """Distance of every point from the curve, + outside (m)."""
    outliers: tuple[int, ...]
    """Points left out of the fit, counted from 0."""
    errors: Mapping[str, float]
    """Half of the 95 % interval of span and rise (m); empty when there are too few points to tell."""
    parameters: int

    @property
    def kept(self) -> Array:
        """Residuals of the points that are no outliers."""
        return np.delete(self.residuals, self.outliers)

    @property
    def spread(self) -> float:
        """Root of the mean square residual, outliers left out (m)."""
        return float(np.sqrt(np.mean(self.kept**2)))

    @property
    def largest(self) -> float:
        """Largest residual, outliers left out (m)."""
        return float(np.max(np.abs(self.kept)))


def fit_family(x: ArrayLike, z: ArrayLike, family: Family) -> Fit:
    """Fit one family to points by least squares of the distances square to the curve.

    min sum d(P_i, curve)^2; first with d^2 bent to |d| for far points, then without outliers

    Parameters
    ----------
    x : array
        Points from the left foot to the right, mid-span at 0 [m].
    z : array
        Their heights over the feet [m].
    family : Family
        What is fitted: its place, span, rise and shares.

    Returns
    -------
    Fit
        The curve, its measures [m], residuals [m] and 95 % intervals [m].

    Notes
    -----
    An outlier lies more than four spreads (from the median of the residuals) and 0.4 % of the span off;
    outliers are looked for only where at least three points are more than the fit needs. The intervals
    are those of a linearised fit with independent normal errors.

    References
    ----------
    [HUBER1981] chapter 7, [SEBERWILD1989] section 5.1.
    """
    px, pz = np.asarray(x, dtype=float), np.asarray(z, dtype=float)
    within("number of points", px.size, min(family.parameters, px.size + 1))
    task = _Task(px, pz, family)
    first = task.solve(task.start(), np.ones(px.size, dtype=bool), robust=True)
    residuals = task.residuals(first, np.ones(px.size, dtype=bool))
    kept = ~outliers(residuals, task.span, family.parameters)
    best = first if family.slow else task.solve(first, kept, robust=False)
    return task.fit(best, kept)


def outliers(residuals: ArrayLike, span: float, parameters: int) -> NDArray[np.bool_]:
    """Which points lie too far from a fitted curve to belong to it.

    |r| > max(4 s, 0.004 span), s = 1.4826 (1 + 5/(n - p)) median|r|; none where n - p < 3

    Parameters
    ----------
    residuals : array
        Distances of the points from the curve [m].
    span : float
        Span of the curve [m]; above 0.
    parameters : int
        How many numbers were fitted [-].

    Returns
    -------
    array of bool
        True where a point is an outlier [-].

    References
    ----------
    [ROUSSEEUW1987] section 5.1, for the spread of few points; the limits are bermwright's own.

    Examples
    --------
    >>> outliers([0.01, -0.01, 0.01, -0.01, 0.01, 0.3], 5.0, 3).tolist()
    [False, False, False, False, False, True]
    """
    within("span", span, 0.0, unit="m", open_low=True)
    within("residuals", residuals, unit="m")
    apart = np.abs(np.asarray(residuals, dtype=float))
    if apart.size < parameters + SPARE_POINTS:
        return np.zeros(apart.size, dtype=bool)
    few = 1.0 + FEW / (apart.size - parameters)
    spread = NORMAL_SPREAD * few * float(np.median(apart))
    return np.asarray(apart > max(OUTLIER_SPREADS * spread, OUTLIER_SPAN * span))


class _Task:
    """The points and the family while one is fitted to the other."""

    def __init__(self, x: Array, z: Array, family: Family) -> None:
        self.x, self.z, self.family = x, z, family
        self.span = float(x[-1] - x[0])
        self.top = float(z.max())

    def curve(self, values: Array) -> PlaneCurve:
        """The family's curve, its middle at 0."""
        span, rise, shares = self.measures(values)
        return self.family.build(span, rise, shares)

    def measures(self, values: Array) -> tuple[float, float, tuple[float, ...]]:
        """Span, rise and shares."""
        span = float(values[1])
        if self.family.fixed_rise is not None:
            return span, self.family.fixed_rise * span, ()
        return span, float(values[2]), tuple(float(share) for share in values[3:])

    def residuals(self, values: Array, kept: NDArray[np.bool_]) -> Array:
        """Distances from the curve; far off where the family has no such curve."""
        try:
            curve = self.curve(values)
        except OutOfRangeError:
            return np.full(int(kept.sum()), self.span)
        return distance_to_curve(self.x[kept] - values[0], self.z[kept], curve.x, curve.z)

    def start(self) -> Array:
        """The best of a few first guesses."""
        base = [0.0, self.span] if self.family.fixed_rise is not None else [0.0, self.span, self.top]
        guesses = [np.array([*base, *shares]) for shares in product(SHARE_GUESSES, repeat=self.family.shares)]
        everything = np.ones(self.x.size, dtype=bool)
        return min(guesses, key=lambda guess: float(np.abs(self.residuals(guess, everything)).sum()))

    def bounds(self) -> tuple[list[float], list[float]]:
        """Least and most of every value."""
        guess = SHIFT_GUESS * self.span
        low, high = [-guess], [guess]
        for ends, guess in ((low, GUESS_BOUNDS[0]), (high, GUESS_BOUNDS[1])):
            ends.append(guess * self.span)
            if self.family.fixed_rise is None:
                ends.append(guess * self.top)
        least, most = SHARE_GUESS_BOUNDS
        free = self.family.shares
        return [*low, *[least] * free], [*high, *[most] * free]

    def solve(self, start: Array, kept: NDArray[np.bool_], *, robust: bool) -> Array:
        """The values with the least squares."""
        from scipy.optimize import least_squares

        found = least_squares(
            self.residuals,
            start,
            args=(kept,),
            bounds=self.bounds(),
            loss="soft_l1" if robust else "linear",
            f_scale=OUTLIER_SPAN * self.span,
            x_scale="jac",
            xtol=SLOW_STEP if self.family.slow else FINE_STEP,
            ftol=SLOW_STEP if self.family.slow else FINE_STEP,
            diff_step=SLOW_STEP if self.family.slow else None,
        )
        return np.asarray(found.x)

    def fit(self, values: Array, kept: NDArray[np.bool_]) -> Fit:
        """What was found, over all points."""
        span, rise, shares = self.measures(values)
        return Fit(
            family=self.family.name,
            curve=self.curve(values),
            span=span,
            rise=rise,
            shift=float(values[0]),
            details=self.family.details(span, rise, shares),
            residuals=self.residuals(values, np.ones(kept.size, dtype=bool)),
            outliers=tuple(int(at) for at in np.flatnonzero(~kept)),
            errors=self.errors(values, kept),
            parameters=self.family.parameters,
        )

    def errors(self, values: Array, kept: NDArray[np.bool_]) -> Mapping[str, float]:
        """Half of the 95 % intervals of span and rise, from the slope of the residuals at the best values."""
        from scipy.optimize import approx_fprime
        from scipy.stats import t as student

        spare_points = int(kept.sum()) - values.size
        if not spare_points > 0:
            return {}
        slope = approx_fprime(values, lambda at: self.residuals(at, kept), 1e-6)
        square = float(np.sum(self.residuals(values, kept) ** 2)) / spare_points
        variance = square * np.diag(np.linalg.pinv(slope.T @ slope))
        half = student.ppf(SURE, spare_points) * np.sqrt(variance)
        if self.family.fixed_rise is not None:
            return {"span": float(half[1]), "rise": float(self.family.fixed_rise * half[1])}
        return {"span": float(half[1]), "rise": float(half[2])}


def likelihoods(mean_squares: ArrayLike, parameters: ArrayLike, points: int) -> Array:
    """How well each of several fits of the same points explains them, its parameters counted against it.

    w_i = exp(-D_i/2) / sum exp(-D_j/2), D = AICc - least AICc,
    AICc = n ln(mean square) + 2 k + 2 k (k + 1)/(n - k - 1), k = parameters + 1

    Parameters
    ----------
    mean_squares : array
        Mean square residual of each fit, over all points [m^2]; no sketch is finer than 0.1 mm.
    parameters : array
        How many numbers each fit has [-].
    points : int
        How many points were fitted [-].

    Returns
    -------
    array
        Weights that sum to 1 [-]; 0 for a fit with too few points to tell, all 0 where none can tell.

    References
    ----------
    [BURNHAM2002] sections 2.4 and 2.9.

    Examples
    --------
    >>> likelihoods([1e-4, 2e-4], [3, 3], 11).round(3).tolist()
    [0.978, 0.022]
    """
    square = np.maximum(np.asarray(mean_squares, dtype=float), DRAWN_AS**2)
    k = np.asarray(parameters, dtype=float) + 1.0
    spare = points - k - 1.0
    told = spare >= 1.0
    small = 2.0 * k * (k + 1.0) / np.where(told, spare, 1.0)
    score = np.where(told, points * np.log(square) + 2.0 * k + small, np.inf)
    if not told.any():
        return np.zeros(score.size)
    weight = np.exp(-0.5 * (score - score.min()))
    return np.asarray(weight / weight.sum())
