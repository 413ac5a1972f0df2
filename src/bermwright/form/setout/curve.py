"""A curve for the workshop: arcs from centres, three-nail boards, string and fairing table."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.form.setout.nouns import SetOutError
from bermwright.handbook.curves import PlaneCurve, egg_arcs, three_centred_arcs
from bermwright.handbook.fitting import chains_of_arcs
from bermwright.handbook.setout import (
    crown_for_length,
    fairing,
    ordinates_by_distance,
    shell_span,
    string_length,
    three_nail_angle,
)
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from bermwright.form.shapes import CurveLine, VaultForm
    from bermwright.handbook.curves import Arc
    from bermwright.handbook.fitting import ArcFit
    from bermwright.handbook.setout import Fairing
    from bermwright.house import Vault

    Array = NDArray[np.float64]

NEAR = 0.003
"""A chain of arcs this near to the curve needs no more arcs (m)."""
MOST_ARCS = 5
"""Nobody sets out more centres than these."""
STATIONS = 13
LEAST_REACH = 0.3
"""A narrower flat part is no table (m)."""
FEWEST, EVEN = 5, 0.002
"""Ordinates that can be compared, and how even their distances must be (m)."""
"""Stations of the fairing table."""
LARGE = 1.0
"""The drawn curve is fair as it is: only its differences are wanted (m)."""
LESS_THAN_HALF = 0.98
"""Share of half its chord that the rise of an arc may have for boards on nails."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcSetting:
    """One arc: centre and radii of inside, centreline and outside, and the boards that draw it (m)."""

    x: float
    """Centre from the axis, to the right."""
    z: float
    """Centre over the springing line."""
    inside: float
    centreline: float
    outside: float
    start: tuple[float, float]
    """Where the arc of the centreline begins, from axis and springing."""
    end: tuple[float, float]
    chord: float
    """Of the inside, between the nails."""
    rise: float
    boards: float | None
    """Angle between the boards (rad); None where the arc is too round for them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StringSetting:
    """The string that a curve hangs in, or is measured by (m)."""

    hangs: bool
    """Whether a hung string gives this curve."""
    length: float
    """Along the centreline."""
    nails: float
    """Between the feet of the centreline."""
    clear: float
    """Between the inner edges of the feet."""
    thickness: float
    from_clear: float
    """Between the nails, found from the clear span: the allowance for the thickness of the shell."""
    hung: float
    """String that hangs to the same span and rise."""
    crown_share: float
    """Rise of the crown over added string (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveOut:
    """Everything that sets a curve out besides its ordinates."""

    arcs: tuple[ArcSetting, ...]
    """From the left foot; empty where no chain of arcs comes near enough."""
    deviation: float
    """Largest distance of the chain from the curve (m)."""
    string: StringSetting
    stations: tuple[float, ...]
    """Across from the axis, of the fairing table (m)."""
    heights: tuple[float, ...]
    """Of the inside over the springing there (m)."""
    fair: Fairing
    """Its differences; what the curve itself does is fair."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasuredRow:
    """One ordinate as it was measured (m)."""

    at: float
    measured: float
    drawn: float
    unfair: bool
    """Whether its neighbours say that it is out."""

    @property
    def off(self) -> float:
        """Measured less drawn."""
        return self.measured - self.drawn


def compare_ordinates(form: VaultForm, at: Array, measured: Array) -> tuple[MeasuredRow, ...]:
    """Measured heights of the inside over the springing beside the drawn ones; outliers are named.

    What is compared by differences is how far each is off the drawn curve, at even stations.
    """
    steps = np.diff(at)
    if at.size < FEWEST or not np.allclose(steps, steps[0], atol=EVEN) or steps[0] <= 0.0:
        raise SetOutError(
            "Ordinates are compared at five or more even distances from left to right, such as every 0.25 m."
        )
    line = form.rib.inside
    drawn = ordinates_by_distance(line.x, line.z, at) - form.springing
    found = fairing(measured - drawn)
    return tuple(
        MeasuredRow(at=float(x), measured=float(z), drawn=float(d), unfair=number in found.unfair)
        for number, (x, z, d) in enumerate(zip(at, measured, drawn, strict=True))
    )


def curve_out(form: VaultForm, vault: Vault) -> CurveOut:
    """How the ribs' curve is set out by compass, boards and string."""
    arcs, deviation = _arcs(form, vault)
    stations, heights = _table(form.rib.inside, form.springing)
    return CurveOut(
        arcs=arcs,
        deviation=deviation,
        string=_string(form, hangs=vault.curve is CurveKind.CATENARY),
        stations=stations,
        heights=heights,
        fair=fairing(heights, least=LARGE),
    )


def _arcs(form: VaultForm, vault: Vault) -> tuple[tuple[ArcSetting, ...], float]:
    half = 0.5 * form.rib.depth
    made = _made_of(vault, form.rise)
    if made is not None:
        return tuple(_setting(arc, half) for arc in made), 0.0
    curve = _plane_curve(form.rib.centreline, form.springing)
    near = _near_chain(curve)
    return (tuple(_setting(arc, half) for arc in near.arcs), near.deviation) if near else ((), float("nan"))


def _near_chain(curve: PlaneCurve) -> ArcFit | None:
    """The chain with the fewest arcs that comes near enough, or else the nearest with few arcs."""
    best: ArcFit | None = None
    for chain in chains_of_arcs(curve):
        if len(chain.arcs) > MOST_ARCS:
            break
        best = chain
        if chain.deviation <= NEAR:
            break
    return best


def _made_of(vault: Vault, rise: float) -> tuple[Arc, ...] | None:
    """The arcs of a curve that is a chain of arcs already."""
    if vault.curve is CurveKind.THREE_CENTRED and vault.side_radius is not None:
        return three_centred_arcs(vault.span, rise, vault.side_radius)
    radii = vault.base_centre, vault.flank_radius, vault.crown_radius
    if vault.curve is CurveKind.EGG and None not in radii:
        base, flank, crown = (value or 0.0 for value in radii)
        return egg_arcs(vault.span, rise, base_centre=base, flank_radius=flank, crown_radius=crown)
    return None


def _plane_curve(line: CurveLine, springing: float) -> PlaneCurve:
    step, turn = np.diff(line.s), np.diff(line.angle)
    middle = 0.5 * (line.s[1:] + line.s[:-1])
    bent = np.divide(-turn, step, out=np.full_like(step, np.nan), where=step > 0.0)
    kept = np.isfinite(bent)
    return PlaneCurve(
        x=line.x.copy(),
        z=line.z - springing,
        s=line.s.copy(),
        angle=line.angle.copy(),
        curvature=np.interp(line.s, middle[kept], bent[kept]),
    )


def _setting(arc: Arc, half: float) -> ArcSetting:
    inside = arc.radius - half
    turn = arc.start - arc.end
    chord, rise = 2.0 * inside * np.sin(0.5 * turn), inside * (1.0 - np.cos(0.5 * turn))
    flat = inside > 0.0 and 0.0 < rise < 0.5 * chord * LESS_THAN_HALF
    return ArcSetting(
        x=arc.x,
        z=arc.z,
        inside=inside,
        centreline=arc.radius,
        outside=arc.radius + half,
        start=arc.point(arc.start),
        end=arc.point(arc.end),
        chord=float(chord),
        rise=float(rise),
        boards=float(three_nail_angle(chord, rise)) if flat else None,
    )


def _string(form: VaultForm, *, hangs: bool) -> StringSetting:
    rib = form.rib
    line, inner = rib.centreline, rib.inside
    nails = float(line.x[-1] - line.x[0])
    rise = float(line.z.max() - line.z[0])
    clear = float(inner.x[-1] - inner.x[0])
    feet = [_from_level(float(line.angle[end])) for end in (0, -1)]
    return StringSetting(
        hangs=hangs,
        length=line.length,
        nails=nails,
        clear=clear,
        thickness=rib.depth,
        from_clear=float(np.mean(shell_span(clear, thickness=rib.depth, foot_angle=np.array(feet)))),
        hung=float(string_length(nails, rise)),
        crown_share=float(crown_for_length(nails, rise)),
    )


def _from_level(angle: float) -> float:
    """Steepness of a foot (rad): one that leans out takes as much of the span as one that leans in as far."""
    return min(max(abs(angle), 1e-6), np.pi - abs(angle))


def _table(line: CurveLine, springing: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Even stations over the upper part of the inside, where it runs flatter than 45 degrees."""
    flat = np.abs(line.angle) < np.radians(45.0)
    reach = min(-float(line.x[flat].min()), float(line.x[flat].max())) if flat.any() else 0.0
    if reach < LEAST_REACH:  # a lancet is steep up to its point
        reach = 0.9 * min(-float(line.x.min()), float(line.x.max()))
    step = np.floor(2.0 * reach / (STATIONS - 1) / 0.01) * 0.01
    places = step * np.arange(-(STATIONS // 2), STATIONS // 2 + 1)
    heights = ordinates_by_distance(line.x, line.z, places) - springing
    return tuple(round(float(place), 6) for place in places), tuple(float(z) for z in heights)


def rib_places(form: VaultForm) -> tuple[float, ...]:
    """Middle of every rib along the axis from the front one (m)."""
    return tuple(float(place) for place in np.linspace(0.0, form.length, form.ribs))
