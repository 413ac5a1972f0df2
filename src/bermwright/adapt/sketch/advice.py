"""What a sketched curve bends on this ground, what the smallest change would mend, and arcs to draw it by."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.adapt.shape.envelope import Screen, bending_envelope, ribs_of
from bermwright.adapt.shape.families import FAMILIES, RADII, Family
from bermwright.adapt.shape.least import least
from bermwright.adapt.sketch.fits import SketchFits, fit_sketch, vault_of
from bermwright.base.errors import BermwrightError
from bermwright.handbook.curves import arc_chain
from bermwright.handbook.fitting import ArcFit, chains_of_arcs, distance_to_curve
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from bermwright.adapt.shape.envelope import Envelope, StageBending
    from bermwright.form.sketch import Levelled
    from bermwright.handbook.curves import PlaneCurve
    from bermwright.handbook.frames.solving import Share
    from bermwright.house import House, Vault

MOST_ARCS = 5
DRAWN_POINTS = 61
"""Points by which a chain of arcs is handed to the ribs as a drawn curve."""
HAUNCH = (0.15, 0.85)
"""Heights over the rise between which a curve's haunch is looked at."""
WORTH_IT = 0.95
"""A curve that bends more than this share of the sketch mends nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Better:
    """The curve of the same span and rise that bends least, beside the sketch."""

    vault: Vault
    envelope: Envelope
    stage: str
    """Where the sketch bends most beside it."""
    times: float
    """How many times as much the sketch bends there."""
    outward: float
    """How far it must move at the haunch, + outward (m)."""
    place: tuple[float, float]
    """Where on the sketch (m from mid-span, over the feet)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcChoice:
    """A chain of arcs for the compass, and what it makes the ribs bend."""

    chain: ArcFit
    bending: float | None
    """Largest bending per metre of vault (N m/m); None where it is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SketchAdvice:
    """Everything that is said of a sketch."""

    fits: SketchFits
    arcs: tuple[ArcChoice, ...]
    """From few arcs to many."""
    vault: Vault | None = None
    """The house's vault with the fitted curve."""
    own: Envelope | None = None
    """What it bends; None where no house was given, or too little is known of it."""
    better: Better | None = None
    """None where nothing of this span and rise bends clearly less."""
    silent: str = ""
    """Why nothing is said of bending."""


def advise_on_sketch(
    arch: Levelled,
    house: House | None = None,
    vault: Vault | None = None,
    *,
    progress: Callable[[str], None] = lambda _step: None,
    share: Share = map,
) -> SketchAdvice:
    """Fit the sketch, and weigh it on the ground of a vault of a house where one is given."""
    progress("fitting every family of curves")
    fits = fit_sketch(arch, house, vault)
    progress("arcs for the compass")
    chains = tuple(_chains(fits.best.curve))
    if house is None or vault is None:
        plain = tuple(ArcChoice(chain=chain, bending=None) for chain in chains)
        return SketchAdvice(fits=fits, arcs=plain, silent="no house file was given")
    drawn = vault_of(fits.best, vault)
    try:
        progress("bending of the sketched curve at every stage")
        own = bending_envelope(house, drawn, every_corner=False, share=share)
        progress("a better curve of the same span and rise")
        better = _better(house, drawn, own, share)
        progress("bending of the arcs")
        arcs = tuple(_bent(house, drawn, chain) for chain in chains)
    except BermwrightError as error:
        plain = tuple(ArcChoice(chain=chain, bending=None) for chain in chains)
        return SketchAdvice(fits=fits, arcs=plain, vault=drawn, silent=str(error))
    return SketchAdvice(fits=fits, arcs=arcs, vault=drawn, own=own, better=better)


def _chains(curve: PlaneCurve) -> Iterator[ArcFit]:
    """Chains of one to five arcs; an even curve with a round crown takes odd numbers, a pointed one even."""
    for chain in chains_of_arcs(curve):
        if len(chain.arcs) > MOST_ARCS:
            return
        yield chain
        if chain.deviation < 1e-3:  # noqa: PLR2004  (1 mm: nobody draws finer)
            return


def _bent(house: House, drawn: Vault, chain: ArcFit) -> ArcChoice:
    """What the ribs bend when they are cut to the arcs."""
    curve = arc_chain(chain.arcs, points=2 * DRAWN_POINTS)
    at = np.linspace(curve.s[0], curve.s[-1], DRAWN_POINTS)
    x, z = np.interp(at, curve.s, curve.x), np.interp(at, curve.s, curve.z)
    points = tuple(zip(x.tolist(), (z - z[0]).tolist(), strict=True))
    none: dict[str, Any] = dict.fromkeys(RADII)
    vault = replace(drawn, **none, curve=CurveKind.DRAWN, rise=None, points=points)
    try:
        return ArcChoice(chain=chain, bending=bending_envelope(house, vault, every_corner=False).bending)
    except BermwrightError:
        return ArcChoice(chain=chain, bending=None)


def _better(house: House, drawn: Vault, own: Envelope, share: Share) -> Better | None:
    """The best of every family at the span, rise and springing of the sketch."""
    rise = own.form.rise
    screen = Screen.of(ribs_of(house, drawn))
    found = [one for family in FAMILIES.values() for one in _least_of(screen, family, drawn, rise)]
    if not found:
        return None
    _, best = min(found, key=lambda one: one[0])
    envelope = bending_envelope(house, best, every_corner=False, share=share)
    if not envelope.bending < WORTH_IT * own.bending:
        return None
    return _compared(own, best, envelope)


def _least_of(screen: Screen, family: Family, drawn: Vault, rise: float) -> Iterator[tuple[float, Vault]]:
    """The curve of one family that bends least at the sketch's span and rise, where it has one."""

    def vault_at(shares: tuple[float, ...]) -> Vault | None:
        return family.vault(drawn, rise=rise, springing=drawn.springing, shares=shares)

    def bending(shares: tuple[float, ...]) -> float:
        vault = vault_at(shares)
        try:
            return np.inf if vault is None else screen.bending(vault)
        except BermwrightError:
            return np.inf

    shares, value = least(bending, family.free)
    vault = vault_at(shares)
    if vault is not None and np.isfinite(value):
        yield value, vault


def _compared(own: Envelope, best: Vault, envelope: Envelope) -> Better:
    """Where the sketch bends most beside the better curve, and how far apart both are at the haunch."""
    pairs = [
        (mine, other)
        for mine in own.stages
        for other in envelope.stages
        if mine.stage.name == other.stage.name or _same(mine, other)
    ]
    worst = max(pairs, key=lambda pair: pair[0].bending, default=None)
    stage = worst[0].stage.name if worst else own.stage
    times = worst[0].bending / worst[1].bending if worst and worst[1].bending > 0.0 else np.inf
    mine, other = own.form.rib.centreline, envelope.form.rib.centreline
    apart = distance_to_curve(other.x, other.z, mine.x, mine.z)
    height = (other.z - other.z.min()) / max(float(np.ptp(other.z)), 1e-9)
    haunch = (height > HAUNCH[0]) & (height < HAUNCH[1])
    at = int(np.argmax(np.where(haunch, np.abs(apart), -1.0)))
    return Better(
        vault=best,
        envelope=envelope,
        stage=stage,
        times=float(times),
        outward=float(apart[at]),
        place=(float(other.x[at]), float(other.z[at])),
    )


def _same(mine: StageBending, other: StageBending) -> bool:
    """Whether two stages of two curves are the same moment."""
    return mine.level is not None and mine.level == other.level and mine.stage.kind is other.stage.kind
