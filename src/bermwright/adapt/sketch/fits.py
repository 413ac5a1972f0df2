"""Every family fitted to a sketch, the likeliest first."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from bermwright.adapt.shape.families import RADII
from bermwright.base.errors import OutOfRangeError
from bermwright.form.curve import centreline, missing_for_curve
from bermwright.form.ground import around_vault, missing_for_ground
from bermwright.handbook.fitting import FAMILIES, Family, Fit, fit_family, likelihoods
from bermwright.house import CurveKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.sketch import Levelled
    from bermwright.handbook.curves import PlaneCurve
    from bermwright.house import House, Vault

ALIKE = 0.1
"""A family at least this likely beside the best cannot be told from it (bermwright's own convention)."""
UNDER_COVER_POINTS = 60
"""Points of a sketch that a curve under cover is fitted to: each of its curves takes tens of milliseconds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SketchFits:
    """A sketch and the curves that were fitted to it."""

    arch: Levelled
    fits: tuple[Fit, ...]
    """The likeliest first."""
    likely: tuple[float, ...]
    """How likely each is beside the others (0 to 1); all 0 where there are too few points to tell."""
    left_out: tuple[str, ...]
    """Families that were not fitted, each with the reason."""

    @property
    def best(self) -> Fit:
        """The likeliest fit; with too few points to tell, the one that lies nearest."""
        return self.fits[0]

    @property
    def alike(self) -> tuple[Fit, ...]:
        """Fits that the sketch cannot be told from, the best among them."""
        best = self.likely[0]
        return tuple(
            fit for fit, weight in zip(self.fits, self.likely, strict=True) if weight >= ALIKE * best
        )

    @property
    def outliers(self) -> tuple[int, ...]:
        """Points that do not belong to the best curve, counted from 1."""
        return tuple(at + 1 for at in self.best.outliers)


def fit_sketch(arch: Levelled, house: House | None = None, vault: Vault | None = None) -> SketchFits:
    """Fit every family; with a house also those that follow from its soil."""
    families = [*FAMILIES, *(_of_the_ground(house, vault) if house and vault else ())]
    fits, left_out = [], []
    for family in families:
        if arch.x.size < family.parameters:
            left_out.append(f"{family.name}: needs at least {family.parameters} points")
            continue
        try:
            fits.append(fit_family(*_points(arch, family), family))
        except OutOfRangeError as error:
            left_out.append(f"{family.name}: {str(error).rstrip('.')}")
    weights = likelihoods(
        [float(np.mean(fit.residuals**2)) for fit in fits], [fit.parameters for fit in fits], arch.x.size
    )
    order = sorted(range(len(fits)), key=lambda at: (-weights[at], fits[at].spread))
    return SketchFits(
        arch=arch,
        fits=tuple(fits[at] for at in order),
        likely=tuple(float(weights[at]) for at in order),
        left_out=tuple(left_out),
    )


def _points(arch: Levelled, family: Family) -> tuple[np.ndarray, np.ndarray]:
    """The points that a family is fitted to."""
    if family.name in {"under cover", "level soil"} and arch.x.size > UNDER_COVER_POINTS:
        at = np.round(np.linspace(0, arch.x.size - 1, UNDER_COVER_POINTS)).astype(int)
        return arch.x[at], arch.z[at]
    return arch.x, arch.z


def _of_the_ground(house: House, vault: Vault) -> Iterator[Family]:
    """The two families that follow from the soil over the vault, where the file says enough of it."""
    for kind in (CurveKind.UNDER_COVER, CurveKind.LEVEL_SOIL):
        like = replace(vault, **dict.fromkeys(RADII), curve=kind, points=())  # type: ignore[arg-type]
        missing = [
            *missing_for_curve(replace(like, rise=1.0), house.fill(vault)),
            *missing_for_ground(house, vault),
        ]
        if not missing and vault.cover:
            yield Family(name=str(kind), build=_Builder(house, like), slow=True)


@dataclass(frozen=True, slots=True)
class _Builder:
    """The curve of a vault for a span and a rise."""

    house: House
    like: Vault

    def __call__(self, span: float, rise: float, _shares: tuple[float, ...]) -> PlaneCurve:
        """The curve under this vault's ground; raises OutOfRangeError where there is none."""
        vault = replace(self.like, span=span, rise=rise)
        face = 0.5 * vault.rib_depth + sum(layer.thickness for layer in vault.cover)
        around, _ = around_vault(self.house, vault, crown_level=vault.springing + rise, face=face)
        return centreline(vault, rise, around).line


def vault_of(fit: Fit, like: Vault) -> Vault:
    """The vault with a fitted curve in place of its own; its other fields stay."""
    kind = CurveKind(fit.family)
    measures: dict[str, Any] = dict.fromkeys(RADII) | dict(fit.details)
    rise = None if kind is CurveKind.SEMICIRCLE else fit.rise
    return replace(like, **measures, curve=kind, span=fit.span, rise=rise, points=())
