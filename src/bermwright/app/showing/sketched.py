"""A sketch on the screen: points that were marked on a picture, or a file of points, as a fitted curve."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.adapt.sketch.fits import fit_sketch
from bermwright.base.errors import QuantityError
from bermwright.base.units import parse_exact, show
from bermwright.form.sketch import LEAST_POINTS, SketchError
from bermwright.formats.sketches import Drawn, known_length, read_sketch, to_size
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from bermwright.adapt.sketch.fits import SketchFits
    from bermwright.form.sketch import Levelled
    from bermwright.handbook.fitting import Fit
    from bermwright.house import House, Vault

    Point = tuple[float, float]

MOST_POINTS = 400
"""Of points that somebody marks by hand."""
KEYS = (
    "rise",
    "chain",
    "centre_offset",
    "side_radius",
    "base_centre",
    "flank_radius",
    "crown_radius",
    "points",
)
"""Everything that describes a curve besides its span."""
OFFERED = 4
"""Curves that are shown beside each other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Marked:
    """Points on a picture, in its own measure, down being positive, and one length that is known on it."""

    points: tuple[Point, ...]
    ends: tuple[Point, Point]
    """The two ends of the known length."""
    length: str
    """Its true length as a builder writes it."""
    mirror: bool = False
    level: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """One curve that follows the points."""

    family: str
    says: str
    spread: str
    """Typical distance of the points from it."""
    largest: str
    likely: float
    measures: tuple[tuple[str, str], ...]
    """The lines that the house file gets."""
    line: tuple[Point, ...]
    """Its course (m), x from the middle of the feet, z over them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """What was read out of a sketch."""

    points: tuple[Point, ...]
    """As they are understood: upright, in metres."""
    off: tuple[float, ...]
    """Of every point from the best curve, + outside (m)."""
    outliers: tuple[int, ...]
    """Counted from 1."""
    remarks: tuple[str, ...]
    offers: tuple[Offer, ...]


def fit_marked(marked: Marked, house: House | None, vault: Vault | None, *, system: str = "metric") -> Fitted:
    """Fit what was marked by hand. Raises `SketchError` with what to mark otherwise."""
    points = np.array(marked.points, dtype=float).reshape(-1, 2)
    if not LEAST_POINTS <= len(points) <= MOST_POINTS:
        raise SketchError(f"Mark {LEAST_POINTS} to {MOST_POINTS} points of the curve, from foot to foot.")
    if not np.isfinite(points).all():
        raise SketchError("A point has no place. Mark it again.")
    drawn = Drawn(x=points[:, 0], z=-points[:, 1], unit=_metres_each(marked))
    return _fitted(to_size(drawn, (), mirror=marked.mirror, level=marked.level), house, vault, system)


def fit_file(
    name: str, content: bytes, known: Sequence[str], house: House | None, vault: Vault | None, system: str
) -> Fitted:
    """Fit the curve of a CSV, DXF or SVG file. Raises `SketchError` with what is wrong in it."""
    drawn = read_sketch(name, content)
    return _fitted(to_size(drawn, [known_length(text) for text in known]), house, vault, system)


def changes_of(vault: int, measures: Sequence[tuple[str, str]]) -> dict[tuple[str | int, ...], Any]:
    """The edit that puts a fitted curve into the house file: what described the old one goes out."""
    gone: dict[str, Any] = dict.fromkeys(KEYS)
    return {("vault", vault, key): value for key, value in (gone | dict(measures)).items()}


def _metres_each(marked: Marked) -> float:
    """Metres of one unit of the picture."""
    (x, y), (far_x, far_y) = marked.ends
    long = float(np.hypot(far_x - x, far_y - y))
    if not np.isfinite(long) or long <= 0.0:
        raise SketchError("Mark both ends of the known length, one apart from the other.")
    try:
        true = parse_exact(marked.length, "length")
    except QuantityError as error:
        raise SketchError(str(error)) from None
    if true <= 0.0:
        raise SketchError("The known length is more than nothing.")
    return true / long


def _fitted(arch: Levelled, house: House | None, vault: Vault | None, system: str) -> Fitted:
    fits = fit_sketch(arch, house, vault)
    if not fits.fits:
        raise SketchError(
            "No curve follows these points. Mark them from one foot over the crown to the other."
        )
    return Fitted(
        points=tuple(zip(arch.x.tolist(), arch.z.tolist(), strict=True)),
        off=_distances(arch, fits),
        outliers=fits.outliers,
        remarks=arch.says,
        offers=tuple(_offer(fits, at, system) for at in range(min(OFFERED, len(fits.fits)))),
    )


def _distances(arch: Levelled, fits: SketchFits) -> tuple[float, ...]:
    """Of each point; where a slow family was fitted to fewer of them, the nearest one speaks for the rest."""
    found = fits.best.residuals
    at = np.round(np.linspace(0, len(found) - 1, arch.x.size)).astype(int)
    return tuple(float(value) for value in found[at])


def _offer(fits: SketchFits, at: int, system: str) -> Offer:
    fit = fits.fits[at]
    span, rise = show(fit.span, "m", 2, system=system), show(fit.rise, "m", 2, system=system)
    at_points = np.linspace(fit.curve.s[0], fit.curve.s[-1], 121)
    x = np.interp(at_points, fit.curve.s, fit.curve.x) + fit.shift
    z = np.interp(at_points, fit.curve.s, fit.curve.z)
    return Offer(
        family=fit.family,
        says=f"{fit.family}: span {span}, rise {rise}",
        spread=show(fit.spread, "mm", 1, system=system),
        largest=show(fit.largest, "mm", 1, system=system),
        likely=fits.likely[at],
        measures=_measures(fit),
        line=tuple(zip(x.tolist(), z.tolist(), strict=True)),
    )


def _measures(fit: Fit) -> tuple[tuple[str, str], ...]:
    """What the file gets, to the millimetre."""
    sized = {"span": fit.span}
    if fit.family != CurveKind.SEMICIRCLE:
        sized["rise"] = fit.rise
    sized |= dict(fit.details)
    return (("curve", fit.family), *((key, show(value, "m", 3)) for key, value in sized.items()))
