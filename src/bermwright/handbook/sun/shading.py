"""What hides the sun: hills and woods on the horizon, an overhang, the depth of the reveal."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.errors import OutOfRangeError
from bermwright.base.limits import within
from bermwright.handbook.sun.plane import Plane, PlaneSun, SunPath, facing
from bermwright.handbook.sun.position import TURN

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

    Array = NDArray[np.float64]

AZIMUTH_STEPS, ELEVATION_STEPS = 72, 60
"""Fineness of the sky over which the view of it is summed."""
GRAZING = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Horizon:
    """The edge of hills and woods; straight lines between the points, closed all round."""

    directions: tuple[float, ...]
    """From north clockwise, rising, from 0 up to 2π (rad)."""
    heights: tuple[float, ...]
    """Over the level (rad)."""

    def __post_init__(self) -> None:
        if not self.directions or len(self.directions) != len(self.heights):
            raise OutOfRangeError("A horizon has one height in each direction, and at least one.")
        if np.any(np.diff(self.directions) <= 0.0):
            raise OutOfRangeError("The directions of a horizon rise from north clockwise.")
        within("direction", self.directions, 0.0, TURN, unit="rad")
        within("height of the horizon", self.heights, 0.0, 0.5 * np.pi, unit="rad")


@dataclass(frozen=True, slots=True, kw_only=True)
class Niche:
    """A window in its hole: what stands out over it, and how deep it lies in the wall."""

    width: float
    height: float
    overhang: float = 0.0
    """How far something stands out over the window (m), much wider than it."""
    above: float = 0.0
    """How far above its upper edge that begins (m)."""
    reveal: float = 0.0
    """How far the glass lies behind the face, on all four sides (m)."""

    def __post_init__(self) -> None:
        within("width", self.width, 0.0, 50.0, unit="m", open_low=True)
        within("height", self.height, 0.0, 50.0, unit="m", open_low=True)
        within("overhang, its height and the reveal", (self.overhang, self.above, self.reveal), 0.0, 20.0)


def horizon_height(horizon: Horizon, azimuth: ArrayLike) -> Array:
    """Height of the horizon in any direction.

    straight between the two nearest points, the last joined to the first

    Parameters
    ----------
    horizon : Horizon
        The edge of hills and woods.
    azimuth : float or array
        The direction looked into, from north clockwise [rad].

    Returns
    -------
    float or array
        Height over the level [rad].

    References
    ----------
    [DUFFIE2013] : 1.9, shading by distant objects.
    """
    within("azimuth", azimuth)
    at = np.asarray(azimuth, dtype=float) % TURN
    return np.asarray(np.interp(at, horizon.directions, horizon.heights, period=TURN))


def sky_view(plane: Plane, horizon: Horizon | None = None) -> float:
    """Share of an evenly bright sky that a plane sees.

    F = (1/π)·∫∫ max(0, cos θ)·cos e de dA over the sky above the horizon; (1 + cos β)/2 where it is level

    Parameters
    ----------
    plane : Plane
        The plane, tilted by β.
    horizon : Horizon or None
        What hides the sky; None: nothing.

    Returns
    -------
    float
        Share [-]: 1 lying flat in the open, 1/2 for a wall in the open.

    References
    ----------
    [DUFFIE2013] : 2.15; the sum over the sky is a choice of this handbook.
    """
    if horizon is None:
        return float(0.5 * (1.0 + np.cos(plane.tilt)))
    step_a = TURN / AZIMUTH_STEPS
    azimuth = (np.arange(AZIMUTH_STEPS) + 0.5) * step_a
    low = horizon_height(horizon, azimuth)
    share = (np.arange(ELEVATION_STEPS) + 0.5) / ELEVATION_STEPS
    elevation = low[:, None] + (0.5 * np.pi - low)[:, None] * share
    cell = (0.5 * np.pi - low)[:, None] / ELEVATION_STEPS * step_a
    seen = np.maximum(facing(plane, elevation, azimuth[:, None]), 0.0) * np.cos(elevation)
    return float(np.sum(seen * cell) / np.pi)


def behind_horizon(sunshine: PlaneSun, path: SunPath, *, plane: Plane, horizon: Horizon) -> PlaneSun:
    """Sunshine on a plane behind hills and woods.

    no beam and no bright sky while e < h(A); the rest of the sky times F(h)/F(0)

    Parameters
    ----------
    sunshine : PlaneSun
        Sunshine on the plane in the open [W/m2].
    path : SunPath
        Where the sun stands.
    plane : Plane
        The plane.
    horizon : Horizon
        What hides the low sun.

    Returns
    -------
    PlaneSun
        What is left [W/m2].

    Notes
    -----
    What the hills throw back themselves is not counted: on the careful side for heating, except on snowy
    slopes.

    References
    ----------
    [DUFFIE2013] : 1.9, shading by distant objects.
    """
    seen = path.elevation > horizon_height(horizon, path.azimuth)
    share = min(1.0, sky_view(plane, horizon) / max(sky_view(plane), GRAZING))
    return replace(
        sunshine,
        beam=np.where(seen, sunshine.beam, 0.0),
        around=np.where(seen, sunshine.around, 0.0),
        sky=sunshine.sky * share,
    )


def lit_share(niche: Niche, path: SunPath, *, plane: Plane) -> Array:
    """Share of a window that the beam reaches.

    (1 − max(0, d·t − g, r·|t|)/h)·(1 − r·|s|/w), t and s: how far the beam climbs and drifts along the
    plane for each metre out of it

    Parameters
    ----------
    niche : Niche
        Size h × w, overhang d beginning g above, reveal r.
    path : SunPath
        Where the sun stands.
    plane : Plane
        The plane of the glass.

    Returns
    -------
    array
        Share [-]; 0 while the sun is behind the plane.

    Notes
    -----
    The overhang is square to the glass and much wider than it.

    References
    ----------
    [DUFFIE2013] : 1.9, overhangs and wingwalls, for any tilt.
    """
    out, across, climbs = _along(path, plane)
    front = out > GRAZING
    up = np.where(front, climbs / np.where(front, out, 1.0), 0.0)
    aside = np.where(front, np.abs(across) / np.where(front, out, 1.0), 0.0)
    shadow = np.maximum(np.maximum(niche.overhang * up - niche.above, niche.reveal * np.abs(up)), 0.0)
    tall = np.maximum(1.0 - shadow / niche.height, 0.0)
    wide = np.maximum(1.0 - niche.reveal * aside / niche.width, 0.0)
    return np.asarray(np.where(front, tall * wide, 0.0))


def niche_sky(niche: Niche, plane: Plane) -> float:
    """Share of the sky's light that still reaches a window in its hole.

    [F − (1 − c)/2]/F times √(1 + q²) − q of both pairs of reveals, c = [√((h+g)² + d²) − √(g² + d²)]/h,
    F = (1 + cos β)/2, q = r/w and r/h

    Parameters
    ----------
    niche : Niche
        Size h × w, overhang d beginning g above, reveal r.
    plane : Plane
        The plane of the glass, tilted by β.

    Returns
    -------
    float
        Share [-], 1 without overhang and reveal.

    Notes
    -----
    Overhang and reveals count as black. Crossed strings hold exactly for an overhang, and for reveals of a
    long slit; for a square hole the product of both is close.

    References
    ----------
    [HOTTEL1967] : crossed strings.
    """
    top, bottom = np.hypot(niche.above, niche.overhang), np.hypot(niche.height + niche.above, niche.overhang)
    kept = (bottom - top) / niche.height
    view = 0.5 * (1.0 + np.cos(plane.tilt))
    over = max(view - 0.5 * (1.0 - kept), 0.0) / max(view, GRAZING)
    wide, tall = niche.reveal / niche.width, niche.reveal / niche.height
    return float(over * (np.hypot(1.0, wide) - wide) * (np.hypot(1.0, tall) - tall))


def in_niche(sunshine: PlaneSun, path: SunPath, *, plane: Plane, niche: Niche) -> PlaneSun:
    """Sunshine on a window in its hole.

    beam and bright sky times `lit_share`, sky times `niche_sky`, ground times the reveals' share

    Parameters
    ----------
    sunshine : PlaneSun
        Sunshine on the plane without the hole [W/m2].
    path : SunPath
        Where the sun stands.
    plane : Plane
        The plane of the glass.
    niche : Niche
        The window in its hole.

    Returns
    -------
    PlaneSun
        What reaches the glass [W/m2].

    References
    ----------
    [DUFFIE2013] : 1.9, overhangs and wingwalls.
    """
    lit = lit_share(niche, path, plane=plane)
    hole = niche_sky(replace(niche, overhang=0.0), plane)
    return replace(
        sunshine,
        beam=sunshine.beam * lit,
        around=sunshine.around * lit,
        sky=sunshine.sky * niche_sky(niche, plane),
        ground=sunshine.ground * hole,
    )


def _along(path: SunPath, plane: Plane) -> tuple[Array, Array, Array]:
    """The direction of the sun as seen by the plane: out of it, to its side, up along it."""
    high, turned = path.elevation, path.azimuth - plane.azimuth
    level = np.cos(high) * np.cos(turned)
    out = np.sin(high) * np.cos(plane.tilt) + level * np.sin(plane.tilt)
    climbs = np.sin(high) * np.sin(plane.tilt) - level * np.cos(plane.tilt)
    return out, np.cos(high) * np.sin(turned), climbs
