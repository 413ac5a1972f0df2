"""What does not fit together of what keeps warmth in: layers that conduct as nothing of their kind does."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bermwright.base.units import show
from bermwright.data.materials import CLASS_LIMITS, material
from bermwright.data.materials.nouns import MaterialClass
from bermwright.house.checks.common import Check, Contradiction, Key, bound, clash
from bermwright.house.choices import CoverKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from bermwright.house.around import Cover
    from bermwright.house.model import House

_BY_KIND = {CoverKind.INSULATION: MaterialClass.INSULATION, CoverKind.LAGGING: MaterialClass.TIMBER}
"""What a cover without a material is taken for."""


def ground_heat_checks(house: House) -> Iterator[Check]:
    """The conductivity of every cover against what its kind can have."""
    for count, vault in enumerate(house.vaults):
        for at, cover in enumerate(vault.cover):
            here: Key = ("vault", count, "cover", at)
            yield Check(here, ("kind", "material", "conductivity"), bound(_slipped, here, cover))


def _slipped(here: Key, cover: Cover) -> Iterator[Contradiction]:
    kind = material(cover.material).kind if cover.material else _BY_KIND.get(cover.kind)
    if cover.conductivity is None or kind is None:
        return
    low, high = CLASS_LIMITS[kind]
    if not low <= cover.conductivity <= high:
        yield clash(
            here,
            "conductivity",
            show(cover.conductivity, "W/mK"),
            f"lies outside of what {kind} conducts, {show(low, 'W/mK')} to {show(high, 'W/mK')}.",
            "Look for a slipped decimal point: cork is 0.050 W/mK, not 0.5.",
        )
