"""What one nail between two timbers takes, for braces and planks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.errors import OutOfRangeError
from bermwright.data.timber_classes import GAMMA_CONNECTION, HOLES_FROM, needs_holes
from bermwright.handbook import timber as ec5

if TYPE_CHECKING:
    from bermwright.data.timber_classes import TimberClass
    from bermwright.house import Nail

STEEL_STRENGTH = 600e6
"""Least wire strength that EN 14592 allows for nails (Pa)."""


def needs_drilling(timber: TimberClass) -> OutOfRangeError:
    """What is said of nails driven into timber that is too dense for it."""
    return OutOfRangeError(
        f"Timber of {timber.name} is denser than {HOLES_FROM.value:g} kg/m3: nails hold in it through "
        'drilled holes only. Drill, and write predrilled = "yes".'
    )


def nail_design(
    nail: Nail,
    head: float,
    timber: TimberClass,
    *,
    service_class: int,
    duration: str,
    depth: float,
    predrilled: bool = False,
) -> float | None:
    """Design resistance of one nail in one shear plane (N); None where its point is too short.

    `head` is the thickness of the timber under its head, `depth` what the rib offers its point (m).
    Raises `OutOfRangeError` for dense timber without drilled holes.
    """
    if needs_holes(timber.name) and not predrilled:
        raise needs_drilling(timber)
    point = min(nail.length - head, depth)
    if point < float(ec5.pointside_penetration(nail.diameter)):
        return None
    embedment = ec5.embedment_strength(timber.density_low, nail.diameter, predrilled=predrilled)
    shear = ec5.single_shear(
        nail.diameter,
        head_side=head,
        point_side=point,
        head_embedment=embedment,
        point_embedment=embedment,
        yield_moment=ec5.yield_moment(nail.diameter, wire_strength=STEEL_STRENGTH),
    )
    kmod = ec5.modification_factor(service_class, duration)
    return float(shear.capacity) * kmod / GAMMA_CONNECTION.value
