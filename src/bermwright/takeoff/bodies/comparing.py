"""The take-off held against closed bodies of the house: two ways to the same volumes.

The take-off counts along lines of its own: openings not deducted, soil beside an upright line through the
foot. Bodies made along the same lines must give the same within `AGREES`; where the true body is another,
the row says why.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from bermwright.base.units import show
from bermwright.form.solids import Kind
from bermwright.takeoff.earth import earth_of
from bermwright.takeoff.ribs import rib_volume

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.form.shapes import CoverBand, VaultForm
    from bermwright.form.solids import Solid, VaultSolids
    from bermwright.house import House, Vault

TOLD = 0.01
"""Share from which a difference is told (-)."""
DIGITS = (1, 2, 3, 4)
"""Of two amounts that differ, the fewest that show it."""
AGREES = 1e-3
"""Share by which a body may differ from the take-off (-)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """One amount by both ways."""

    name: str
    unit: str
    taken_off: float
    bodies: float
    """The same lines measured on closed bodies."""
    true: float
    """What the body holds as it is built."""
    why: str = ""
    """Why the body as built differs; nothing where it does not."""

    @property
    def agrees(self) -> bool:
        """Whether both ways give the same; a number that is none never agrees."""
        return bool(abs(self.bodies - self.taken_off) <= AGREES * abs(self.taken_off))

    @property
    def apart(self) -> float:
        """Body as built less take-off, as a share of the take-off."""
        return (self.true - self.taken_off) / self.taken_off if self.taken_off else np.nan

    @property
    def differs(self) -> bool:
        """Whether the body as built is so far from the take-off that one has to be told."""
        return not self.agrees or bool(self.why and abs(self.apart) > TOLD)


def differing(row: Compared, system: str = "metric") -> str:
    """One row that differs, in words."""
    if not row.agrees:
        counted, made = _told_apart(row.taken_off, row.bodies, row.unit, system)
        return f"{row.name} is {counted} by the take-off and {made} by bodies."
    counted = show(row.taken_off, row.unit, 1, system)
    drawn = show(row.true, row.unit, 1, system)
    return f"{row.name} is {drawn} as drawn and {counted} as counted: {row.why}."


def _told_apart(one: float, other: float, unit: str, system: str) -> tuple[str, str]:
    """Two amounts with as many digits as tell them apart."""
    pairs = [(show(one, unit, digits, system), show(other, unit, digits, system)) for digits in DIGITS]
    return next((pair for pair in pairs if pair[0] != pair[1]), pairs[-1])


def compared(house: House, vault: Vault, form: VaultForm, solids: VaultSolids) -> tuple[Compared, ...]:
    """Every amount of the take-off that a closed body has."""
    return (
        _ribs(form, solids),
        *_bands(form, solids),
        *_earth(house, vault, form, solids),
    )


def _ribs(form: VaultForm, solids: VaultSolids) -> Compared:
    layer = solids.layer(Kind.RIB)
    ribs = () if layer is None else layer.solids
    return Compared(
        name="ribs, finished",
        unit="m3",
        taken_off=rib_volume(form.rib) * form.ribs,
        bodies=sum(one.counted.volume for one in ribs if one.counted),
        true=sum(one.total for one in ribs),
        why=next((one.counted.why for one in ribs if one.counted and one.counted.why), ""),
    )


def _bands(form: VaultForm, solids: VaultSolids) -> Iterator[Compared]:
    for band in form.bands:
        body = solids.solid(band.name)
        if body is None or body.counted is None:
            continue
        yield _area(form, band, body)
        if band.kind == "insulation":
            yield Compared(
                name=f"{band.name}, volume",
                unit="m3",
                taken_off=0.5 * (band.inner.length + band.outer.length) * band.thickness * form.length,
                bodies=body.counted.volume,
                true=body.total,
                why=body.counted.why,
            )


def _area(form: VaultForm, band: CoverBand, body: Solid) -> Compared:
    """Area of the inside face: the outline runs along it first."""
    assert body.pushed is not None  # noqa: S101  (a layer over the ribs is always pushed)
    assert body.counted is not None  # noqa: S101  (only bodies that are counted come here)
    inner = body.pushed.outline[: len(body.pushed.outline) // 2]
    around = float(np.sum(np.hypot(*np.diff(inner, axis=0).T)))
    area = around * (body.pushed.end - body.pushed.start)
    return Compared(
        name=f"{band.name}, area",
        unit="m2",
        taken_off=band.inner.length * form.length,
        bodies=area,
        true=area * body.volume / body.whole,
        why=body.counted.why,
    )


def _earth(house: House, vault: Vault, form: VaultForm, solids: VaultSolids) -> Iterator[Compared]:
    earth = earth_of(house, vault, form)
    for name, taken_off in (("fill", earth.compacted), ("turf", earth.turf_volume)):
        body = solids.solid(name)
        if body is not None and body.counted is not None:
            yield Compared(
                name=f"{name}, compacted" if name == "fill" else f"{name}, volume",
                unit="m3",
                taken_off=taken_off,
                bodies=body.counted.volume,
                true=body.total,
                why=body.counted.why,
            )
